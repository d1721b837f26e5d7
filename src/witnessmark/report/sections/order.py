"""The order of entry: every reading and look as it was noted, in the order of the days."""

from collections.abc import Iterator
from datetime import UTC, datetime

from witnessmark.catalogue import said
from witnessmark.outline.records import Section, Table, TableCell
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.seen import seen_by
from witnessmark.wording import moment_text, term
from witnessmark.wording.amounts import capital, clause, in_numbers
from witnessmark.wording.case_words import feature_word, look_word, signer_name


def order_section(matter: Matter) -> Section | None:
    """What was noted when, by whom, and on which photographs; what bears no time comes last."""
    found = sorted(_noted(matter), key=lambda each: (each[0] is None, _moment(each[0])))
    rows = tuple(
        (
            TableCell(moment_text(when) if when else said("not stated")),
            TableCell(capital(what)),
            TableCell(noted, mono=is_read),
            TableCell(by),
            TableCell(in_numbers(sorted(matter.numbers[e] for e in shown if e in matter.numbers))),
        )
        for when, what, noted, is_read, by, shown in found
    )
    head = (said("When"), said("Of what"), said("Noted"), said("By whom"), said("Photographs"))
    return (
        Section(
            said("Order of entry"), (Table(head, rows, (2.2, 3.2, 3.4, 2.4, 1.4), is_dense=True),)
        )
        if rows
        else None
    )


def _moment(when: datetime | None) -> datetime:
    """A moment that can be set against others; one without a zone as it stands."""
    if when is None:
        return datetime.min.replace(tzinfo=UTC)
    return when if when.tzinfo else when.replace(tzinfo=UTC)


type _Noted = tuple[datetime | None, str, str, bool, str, tuple[str, ...]]


def _noted(matter: Matter) -> Iterator[_Noted]:
    for each in matter.case.readings:
        by = seen_by(each.seen, signer_name(each.by, matter.case), None) or term(each.seen)
        yield each.when, matter.names.mark(each.mark), each.text, True, by, each.exhibits
    for look in matter.case.looks:
        who = signer_name(look.by, matter.case)
        by = seen_by(look.seen, who, None) or clause(who)
        what = f"{matter.names.any(look.site)}, {feature_word(look.feature)}"
        yield look.when, what, look_word(look.outcome), False, by, look.exhibits
