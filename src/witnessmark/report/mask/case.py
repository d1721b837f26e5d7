"""A case without serials, people and places: what the masked copy is made from."""

import json
from calendar import day_abbr, day_name, month_abbr, month_name
from collections.abc import Iterator
from dataclasses import replace
from enum import Enum
from typing import Any

from witnessmark.casefile.records import Casefile, ExhibitEntry, LookSeen, MarkReading, Vouched
from witnessmark.catalogue import said
from witnessmark.documents.open_row import OpenRow, as_json
from witnessmark.examination import Opinion
from witnessmark.report.mask.names import bare, forms_of, postcodes_of, words_of
from witnessmark.report.mask.signs import Signs, main_item
from witnessmark.report.mask.texts import TextMask

GONE = "\ue000"
"""Stands for a file's digest until the outline is made; no font shows it."""

KEPT = {
    "Casefile": ("format",),
    "Claim": ("built",),
    "Statement": ("about",),
    "SiteSeen": ("site", "mark"),
    "MarkReading": ("mark",),
    "LookSeen": ("site", "feature", "outcome"),
    "Paper": ("mark", "copied_from", "asked_in_vain"),
    "StatedPrior": ("question",),
    "Override": ("row",),
    "Vouched": ("row",),
    "Stakes": ("currency",),
}
"""Texts that stand as they are: names of the code book."""

SIGNED = {"Examiner": ("name",)}
"""Names of those who answer for the report: they stand, but no serial in them."""

LEFT_OUT = {
    "Claim": ("made_by",),
    "Assignment": ("client", "intended_users", "owner_consent", "owner_reply"),
    "Visit": ("place", "present"),
    "Title": ("issued_by",),
}
"""Texts that tell of people and places: the copy says that they are left out."""

_NO_NAMES = frozenset(
    {"mr", "mrs", "ms", "miss", "dr", "sir", "prof", "the", "and", "for"}
    | {each.lower() for each in (*month_name, *month_abbr, *day_name, *day_abbr) if each}
)
"""Words with a capital that name nobody; no copy hides a month because a letter was of it."""
_WRITTEN = ("owner_consent", "owner_reply")
"""Texts in whole sentences, whose first words have a capital anyway."""


def left_out() -> str:
    """What stands where something is left out."""
    return said("[left out]")


def names_of(opinion: Opinion) -> Iterator[str]:
    """Words, bare, that name the people and places that are left out, as far as capitals tell."""
    case = opinion.casefile
    signing = [each.name for each in case.assignment.examiners]
    known = _words(" ".join([opinion.book.title, *signing, *book_words(opinion)]))
    codes = {each.casefold() for each in known}
    common = {word for word in _words(_all_text(opinion)) if word.islower()}
    for typed, is_written in _private(case):
        text = bare(typed)
        for found in words_of(text):
            word = found[0]
            before = text[: found.start()].rstrip()
            starts = not before or before.endswith((".", "!", "?", ":"))
            if starts and (is_written or word.lower() in common):
                continue
            for form in forms_of(word):
                if form not in known and form.lower() not in _NO_NAMES:
                    yield form
        if not is_written:
            yield from (each for each in postcodes_of(text) if each.casefold() not in codes)


def book_words(opinion: Opinion) -> tuple[str, ...]:
    """The names that the code book gives, word by word and bare."""
    return tuple(word for each in opinion.names for word in bare(each.name).split())


def _words(text: str) -> set[str]:
    return {found[0] for found in words_of(bare(text))}


def _private(case: Casefile) -> Iterator[tuple[str, bool]]:
    """The texts whose names must not stand anywhere else; True for those in whole sentences."""
    for record in (case.claim, case.assignment, case.visit, case.title_paper):
        for field in LEFT_OUT[type(record).__name__]:
            yield str(getattr(record, field)), field in _WRITTEN
    signing = _who_signs(case)
    for text in (
        *(each.by for each in case.readings),
        *(each.by for each in case.looks),
        *(each.by for each in case.circumstances.vouched),
        *(each.taken_by for each in case.exhibits),
    ):
        if text not in signing:
            yield text, False


def _all_text(opinion: Opinion) -> str:
    """All words in small letters that the case, but for its ids, and the book use: no names."""
    case = opinion.casefile
    told = (each.caption for each in case.exhibits)
    told_in = {k: v for k, v in as_json(case).items() if k not in ("id", "exhibits")}
    names = (each.name for each in opinion.names)
    return " ".join((json.dumps(told_in, ensure_ascii=False), *told, *names))


def _who_signs(case: Casefile) -> frozenset[str]:
    return frozenset(text for each in case.assignment.examiners for text in (each.id, each.name))


def masked_case(
    opinion: Opinion, mask: TextMask, signs: Signs, read: dict[tuple[str, str], str]
) -> Casefile:
    """The case with every text masked or left out; `read` gives masked readings by mark and text.

    Fields that this version does not know are left out: nobody can say what is in them.
    """
    case = opinion.casefile
    exhibits = exhibit_names(case, mask)
    masked = _masked(case, mask, exhibits)
    signing = _who_signs(case)
    claimed = {
        item: signs.masked(text, item) if item in signs.items else _claimed(text, mask)
        for item, text in case.claim.items.items()
    }
    number = case.title_paper.number
    title = signs.masked(number, main_item(opinion, signs.items)) if number.strip() else ""
    readings = tuple(
        replace(_by(new, signing), text=read.get((old.mark, old.text)) or _blank(old.text, signs))
        for new, old in zip(masked.readings, case.readings, strict=True)
    )
    vouched = tuple(_by(each, signing) for each in masked.circumstances.vouched)
    update: dict[str, Any] = {
        "id": mask.id_text(case.id),
        "book": opinion.book.id,
        "beside": tuple(each.id for each in opinion.beside),
        "title": mask.typed_text(case.title),
        "claim": replace(masked.claim, items=claimed),
        "title_paper": replace(masked.title_paper, number=title),
        "stakes": type(case.stakes)(),
        "readings": readings,
        "looks": tuple(_by(each, signing) for each in masked.looks),
        "circumstances": replace(masked.circumstances, vouched=vouched),
        "exhibits": tuple(_entry(each, signing) for each in masked.exhibits),
    }
    return replace(masked, **update)


def exhibit_names(case: Casefile, mask: TextMask) -> dict[str, str]:
    """Each exhibit's id, or a number in its place where the id tells something."""
    return {
        each.id: each.id if mask.typed_text(each.id) == each.id else f"exhibit-{at}"
        for at, each in enumerate(case.exhibits, start=1)
    }


def _claimed(text: str, mask: TextMask) -> str:
    """A claimed code: a year or a word of the book stands, anything else is masked."""
    return text if len(text) <= 4 and text.isdecimal() else mask.typed_text(text)


def _blank(text: str, signs: Signs) -> str:
    """A reading of a mark that the book does not know: nothing in it is shown."""
    return "".join(signs.hidden if each.isalnum() else " " for each in text)


def _by[Seen: (MarkReading, LookSeen, Vouched)](record: Seen, signing: frozenset[str]) -> Seen:
    """Who read it, where that is somebody who signs."""
    by = record.by
    return record if by in signing or not by else replace(record, by=left_out())


def _entry(entry: ExhibitEntry, signing: frozenset[str]) -> ExhibitEntry:
    """The entry of an exhibit without the names and digest of its file."""
    update: dict[str, Any] = {"file": left_out(), "sha256": GONE * 64}
    if entry.taken_by not in signing:
        update["taken_by"] = ""
    return replace(entry, **update)


def _masked[Record: OpenRow](record: Record, mask: TextMask, exhibits: dict[str, str]) -> Record:
    """The record with its texts masked, field by field; texts of no list are masked."""
    name = type(record).__name__
    update: dict[str, Any] = {}
    for field in record.columns:
        value = getattr(record, field)
        if field in LEFT_OUT.get(name, ()):
            value = left_out() if str(value).strip() else value
        elif field in SIGNED.get(name, ()):
            value = mask.signed_text(value)
        elif (name, field) == ("ExhibitEntry", "id"):
            value = exhibits[value]
        elif field == "exhibits" and name != "Casefile":
            value = tuple(exhibits.get(each) or mask.typed_text(each) for each in value)
        elif field not in KEPT.get(name, ()):
            value = _value(value, mask, exhibits)
        update[field] = value
    return type(record)(**update)


def _value(value: object, mask: TextMask, exhibits: dict[str, str]) -> object:
    if isinstance(value, Enum):
        return value
    if isinstance(value, str):
        return mask.typed_text(value)
    if isinstance(value, OpenRow):
        return _masked(value, mask, exhibits)
    if isinstance(value, tuple):
        return tuple(_value(each, mask, exhibits) for each in value)
    return value
