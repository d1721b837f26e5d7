"""The supplement to an issued report: what changed since, why, and what that does.

An issued report is never altered. The supplement is read with it, identifies it by the
digest of its Opinion, and gives every conclusion as issued and as it is now.
"""

from collections import Counter
from collections.abc import Iterator
from datetime import date
from functools import partial

from witnessmark.agreement.records import Finding
from witnessmark.catalogue import language, said, voiced
from witnessmark.examination import BookVersion, Opinion
from witnessmark.outline.records import (
    Block,
    Fact,
    Facts,
    Outline,
    Paragraph,
    Section,
    Table,
    TableCell,
)
from witnessmark.report.issue.changes_shown import changes_table
from witnessmark.report.issue.issued import Issued, issued_of
from witnessmark.report.issue.issued_before import IssuedConclusion
from witnessmark.report.issue.supplement_changes import (
    CaseChange,
    CasePart,
    ChangeKind,
    case_changes,
)
from witnessmark.report.issue.supplement_findings import findings_section, stands_to_the_rest
from witnessmark.report.sections.assignment import issue_facts, report_name
from witnessmark.report.sections.closing import statement_section
from witnessmark.report.sections.photo import grouped
from witnessmark.weighing import Asked
from witnessmark.wording import (
    Names,
    Toward,
    date_text,
    lr_text,
    purpose_footer,
    spelled,
    term,
    verbal_equivalent,
)
from witnessmark.wording.amounts import capital, clause, sentence
from witnessmark.wording.books import SHORT_DIGEST
from witnessmark.wording.conclusions import heading_of


def supplement_outline(issued: Issued, opinion: Opinion, because: str, printed: date) -> Outline:
    """The outline of the supplement; `because` is the examiner's reason in their own words."""
    # Its digest is that of the Opinion, which is in no language.
    now = voiced(issued_of(opinion))
    opinion = voiced(opinion)
    names = Names((*now.names, *issued.names))
    changes = case_changes(issued.casefile, now.casefile, names)
    title = opinion.casefile.title.strip() or said("Case {case}", case=opinion.casefile.id)
    return Outline(
        label=said("Supplement to a report of examination"),
        language=language(),
        title=title,
        case_id=opinion.casefile.id,
        number=report_name(opinion.casefile),
        printed=date_text(printed),
        printed_iso=printed.isoformat(),
        footer=purpose_footer(),
        cover=_cover(issued, now, because),
        sections=(
            _unaltered_section(issued),
            findings_section(issued, opinion.findings),
            _conclusions_section(issued, now, names),
            _changes_section(changes, issued, opinion, names),
            statement_section(opinion),
        ),
    )


def _cover(issued: Issued, now: Issued, because: str) -> tuple[Fact, ...]:
    assignment = now.casefile.assignment
    not_stated = said("not stated")
    return (
        *issue_facts(now.casefile),
        Fact(said("Client"), assignment.client or not_stated),
        Fact(said("Purpose"), assignment.purpose or not_stated),
        Fact(said("Intended users"), assignment.intended_users or not_stated),
        Fact(said("Declared interest"), _interest(now) or not_stated),
        Fact(said("Why this supplement"), sentence(because)),
        Fact(said("Code book as issued"), _book(issued)),
        Fact(said("Code book now"), _book(now)),
    )


def _interest(now: Issued) -> str:
    return "; ".join(
        said("{name}: {interest}", name=each.name, interest=clause(each.declared_interest))
        for each in now.casefile.assignment.examiners
        if each.declared_interest
    )


def _book(issued: Issued) -> str:
    book = issued.book
    if book.is_other_than_shipped:
        return said(
            "{title}, version {version}, whose content is not that of the shipped book "
            "with this identifier (SHA-256 {digest}…)",
            title=book.title,
            version=book.version,
            digest=book.sha256[:SHORT_DIGEST],
        )
    return said("{title}, version {version}", title=book.title, version=book.version)


def _unaltered_section(issued: Issued) -> Section:
    """That the issued report stands, and how it is identified."""
    told = said(
        "The issued report is not altered and remains as it was delivered. This supplement "
        "is to be read with it: whatever it does not mention stands as issued."
    )
    facts = (
        Fact(said("Supplement to"), issued.casefile.title.strip() or issued.casefile.id),
        *(issue_facts(issued.casefile) if report_name(issued.casefile) else ()),
        Fact(said("SHA-256 of its Opinion"), grouped(issued.digest)),
    )
    note = said(
        "The issued report gives the same digest under “Versions and sources”. It is computed on "
        "the Opinion without the spaces and line ends between its parts."
    )
    return Section(
        said("The issued report stands"), (Paragraph(told), Facts(facts), Paragraph(note, "quiet"))
    )


def _conclusions_section(issued: Issued, now: Issued, names: Names) -> Section:
    """Every conclusion as issued and as it is now."""
    before = {(each.question, each.about): each for each in issued.conclusions}
    after = {(each.question, each.about): each for each in now.conclusions}
    rows = tuple(
        _conclusion_row(before.get(key), after.get(key), names)
        for key in dict.fromkeys((*before, *after))
    )
    title = said("Every conclusion, as issued and now")
    if not rows:
        return Section(title, (Paragraph(said("No question could be asked, then or now.")),))
    head = (said("Conclusion"), said("As issued"), said("Now"), said("What changed"))
    table = Table(head, rows, (3.4, 3, 3, 2.4))
    if not issued.is_first_way:
        return Section(title, (table,))
    told = said(
        "The issued report weighed the car by an earlier method and gave its ratios with "
        "bounds, all assumed rates taken in their worst direction; they are now given with "
        "a band. A ratio may have moved for that reason alone."
    )
    return Section(title, (Paragraph(told, "lead"), table))


def _conclusion_row(
    before: IssuedConclusion | None, after: IssuedConclusion | None, names: Names
) -> tuple[TableCell, ...]:
    either = after or before
    assert either is not None, "a key stands in one of the two"
    about = _asked_about(either, names)
    return (
        TableCell(capital(about), (sentence(either.pair.first),), strong=True),
        _ratio_cell(before),
        _ratio_cell(after),
        TableCell(_difference(before, after)),
    )


def _asked_about(issued: IssuedConclusion, names: Names) -> str:
    if issued.question in tuple(Asked):
        return heading_of(Asked(issued.question), issued.about, names)
    return said("the car as claimed")


def _ratio_cell(conclusion: IssuedConclusion | None) -> TableCell:
    if conclusion is None:
        return TableCell(said("not asked"))
    word = conclusion.word_log10_lr
    words = term(conclusion.standing) if word is None else verbal_equivalent(word).phrase()
    below = [_figures(conclusion)]
    if conclusion.standing != "answered" and word is not None:
        below.append(capital(term(conclusion.standing)))
    return TableCell(capital(words), tuple(below))


def _difference(before: IssuedConclusion | None, after: IssuedConclusion | None) -> str:
    if before is None:
        return said("Asked for the first time.")
    if after is None:
        return said("No longer asked.")
    if _ratio_cell(before).text != _ratio_cell(after).text:
        return said("Its words change.")
    if before.standing != after.standing:
        return said("Whether it can be established changes.")
    if _figures(before) != _figures(after):
        return said("The figures change; the words do not.")
    return said("Nothing.")


def _figures(conclusion: IssuedConclusion) -> str:
    ratio = lr_text(conclusion.log10_lr)
    if conclusion.log10_lr_low is None or conclusion.log10_lr_high is None:
        return said("LR {ratio}", ratio=ratio)
    return said(
        "LR {ratio}, {low} to {high}",
        ratio=ratio,
        low=lr_text(conclusion.log10_lr_low, Toward.DOWN),
        high=lr_text(conclusion.log10_lr_high, Toward.UP),
    )


def _changes_section(
    changes: tuple[CaseChange, ...], issued: Issued, opinion: Opinion, names: Names
) -> Section:
    """What was added, withdrawn or changed in the case, and whether the tables changed."""
    title = said("What was added, withdrawn or changed")
    blocks: list[Block] = [
        Paragraph(_book_sentence(issued, opinion.book)),
        *(Paragraph(text) for text in (_beside_sentence(issued, opinion),) if text),
    ]
    if not changes:
        blocks.append(Paragraph(said("Nothing in the case changed.")))
        return Section(title, tuple(blocks))
    counts = "; ".join(_counts(changes))
    blocks.append(Paragraph(sentence(capital(counts)), "lead"))
    stands = partial(_stands, findings=opinion.findings, names=names)
    table = changes_table(changes, names, said("As issued"), said("Now"), stands)
    return Section(title, (*blocks, table))


def _stands(change: CaseChange, findings: tuple[Finding, ...], names: Names) -> tuple[str, ...]:
    """How a reading stands to the rest of the car."""
    if change.part is not CasePart.READING or change.kind is ChangeKind.WITHDRAWN:
        return ()
    return stands_to_the_rest(change.about, findings, names)


def _book_sentence(issued: Issued, now: BookVersion) -> str:
    if issued.book == now:
        return said("The code book is the same, to the digest of its files.")
    if issued.book.id != now.id:
        return said("Another code book is used.")
    if issued.book.version == now.version:
        return said("The files of the code book changed without a new version.")
    return said(
        "The code book changed from version {before} to version {now}.",
        before=issued.book.version,
        now=now.version,
    )


def _beside_sentence(issued: Issued, opinion: Opinion) -> str:
    """How the further books beside the maker's changed; empty where they did not."""
    if issued.beside == opinion.beside:
        return ""
    return said(
        "Used beside it, as issued: {before}; now: {now}.",
        before=_versions(issued.beside),
        now=_versions(opinion.beside),
    )


def _versions(books: tuple[BookVersion, ...]) -> str:
    told = (f"{each.title} ({each.version}, {each.sha256[:SHORT_DIGEST]}…)" for each in books)
    return "; ".join(told) or said("nothing")


def _counts(changes: tuple[CaseChange, ...]) -> Iterator[str]:
    number = Counter(each.kind for each in changes)
    if added := number[ChangeKind.ADDED]:
        yield spelled("{count} entry added", "{count} entries added", added)
    if withdrawn := number[ChangeKind.WITHDRAWN]:
        yield spelled("{count} entry withdrawn", "{count} entries withdrawn", withdrawn)
    if changed := number[ChangeKind.CHANGED]:
        yield spelled("{count} entry changed", "{count} entries changed", changed)
