"""The masked copy of a report: the same report, fit to be shown to others.

Made from a masked Opinion and swept once more when it is whole: if a full serial
of the case still stands anywhere, nothing is printed.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from datetime import date
from typing import Any

from witnessmark.catalogue import as_said, said, speaking, voiced
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import ItemKind, KnownException, Series
from witnessmark.examination import Opinion
from witnessmark.outline.records import Bullets, Outline, Paragraph, Section
from witnessmark.problem import Problem
from witnessmark.report.mask.case import GONE, exhibit_names, left_out
from witnessmark.report.mask.opinion import masked
from witnessmark.report.mask.pictures import masked_pictures
from witnessmark.report.mask.shapes import YEAR
from witnessmark.report.mask.short_name import file_stem
from witnessmark.report.mask.signs import HIDDEN, SAME_PLACE
from witnessmark.report.mask.texts import TextMask
from witnessmark.report.outline import build_outline
from witnessmark.report.press.render import PLAIN, print_outline
from witnessmark.report.records import Form, Picture
from witnessmark.report.sections.photo import log_intro, pictures_intro
from witnessmark.source import NOWHERE
from witnessmark.wording.limits import FOR_USERS_NAMED

FIXED = frozenset({"kind", "tone", "favours", "file", "printed_iso", "language"})
"""Fields of an outline that are no text of the page."""

_BETWEEN_TAGS = re.compile(r"(?<=>)[^<]+(?=<)")
_GONE = re.compile(rf"{GONE}+(?:\s*{GONE}+)*…?")


class SerialLeft(Problem):
    """A full serial that the mask did not reach; it is not repeated here."""

    where: str
    says = "a full number of this car would stand in the masked copy, under {where!r}"
    wants = "that text in the case without the number; nothing was written"


@dataclass(frozen=True, slots=True)
class MaskedCopy:
    """The copy as an outline, with its pictures, or why there is none.

    `left_out` names the photographs that it does not show.
    """

    outline: Outline
    pictures: tuple[Picture, ...]
    left_out: tuple[str, ...]
    problems: tuple[Problem, ...]

    @property
    def name(self) -> str:
        """The case's id as a file may bear it."""
        return file_stem(self.outline.case_id)


def masked_copy(
    opinion: Opinion,
    book: CodeBook,
    exhibits: Mapping[str, bytes],
    printed: date,
    form: Form = PLAIN,
) -> MaskedCopy:
    """The masked copy of the report on an Opinion; `exhibits` holds the files by exhibit id."""
    with speaking(form.catalogue):
        opinion = voiced(opinion)
        made = masked(opinion, book)
        case = opinion.casefile
        names = exhibit_names(case, made.mask)
        pictures = masked_pictures(case.exhibits, exhibits, names)
        outline = build_outline(made.opinion, book, printed, pictures)
        unshown = tuple(each.exhibit for each in pictures if each.missing)
        outline = _told(_without_limits(outline, book), unshown)
    return MaskedCopy(outline, pictures, unshown, _serials_left(outline, made.mask))


def print_masked_copy(copy: MaskedCopy, printed: date, form: Form = PLAIN) -> bytes:
    """The copy as a PDF, without any file inside; never for a copy that has problems."""
    assert not copy.problems, "a copy that holds a serial is not printed"
    bare = replace(form, attachments=())
    return print_outline(copy.outline, copy.pictures, printed, bare).pdf


def _told(outline: Outline, unshown: tuple[str, ...]) -> Outline:
    """The outline as one of a masked copy, with what its signs mean and what is left out."""
    full = said("Numbers stand here in full. Before any part is shown to others, mask them.")
    how = tuple(each for each in outline.how_to_read if each != full)
    return replace(
        outline,
        label=said("Masked copy of a report of examination"),
        footer=said(
            "Masked copy: serials, the owner, the client and places are left out; the examiners "
            "are named"
        ),
        front=(Paragraph(_front_note(), "quiet"), *outline.front) if outline.front else (),
        how_to_read=(*how, *_how_masked()),
        sections=(*outline.sections, _gone_section(unshown)),
    )


def _front_note() -> str:
    return said(
        "In this copy every serial is masked: one {sign} stands for one character. Compare signs "
        "only between readings of one and the same number: where those have the same sign in the "
        "same place, they have the same character. Between different numbers the signs say "
        "nothing.",
        sign=SAME_PLACE[0],
    )


def _how_masked() -> tuple[str, ...]:
    """What the signs of the mask mean."""
    first, second, third = tuple(SAME_PLACE[:3])
    return (
        said(
            "In this copy every serial is masked. {first} hides a character; the same place of the "
            "same number has {first} again wherever it bears the same character, {second} where "
            "it bears another, {third} where it bears a third. So two readings of one number agree "
            "where their signs agree; between different numbers (engine and gearbox, say) the "
            "signs say nothing.",
            first=first,
            second=second,
            third=third,
        ),
        said(
            "{sign} hides a character that was not compared: a number that somebody mentioned, or "
            "the limits of a series or of an exception. Ratios were reckoned from the whole "
            "numbers.",
            sign=HIDDEN,
        ),
    )


def _gone_section(unshown: tuple[str, ...]) -> Section:
    """What a reader of the copy does not see."""
    items = [
        said("Every serial: of marks, papers and title, in words, in figures and in pictures."),
        said(
            "The client, the intended users, the owner and whoever made the claim; what the "
            "owner agreed to and answered; where the car stood and who was present; who issued "
            "the title; the price. The examiners are named, because they answer for the report."
        ),
        said(
            "The names and digests of the picture files, the notes of the camera, the case "
            "document, and the limits of the maker's number series and of known exceptions."
        ),
    ]
    if unshown:
        names = ", ".join(unshown)
        items.append(said("These photographs and documents: {names}.", names=names))
    return Section(said("What is left out of this copy"), (Bullets(tuple(items)),))


def _in_their_place() -> dict[str, str]:
    """What the report says of itself that does not hold for the copy, and what stands there."""
    report = said(
        "This report shows numbers in full and is meant for its intended users. Before any of "
        "it is shown to others, mask the same characters in the text and in the pictures."
    )
    copy = said(
        "The report itself shows numbers in full and is meant for its intended users. This copy "
        "can be shown to others; no picture of a number belongs beside it."
    )
    pictures = said(
        "Each picture is a reduced copy for reading, with the numbers in it covered. The original "
        "is kept byte for byte; its digest is left out of this copy."
    )
    log = said(
        "Every photograph and document of the case. The digests of the original files are left "
        "out of this copy; they stand in the report."
    )
    users = said(
        "It was made for the purpose and the intended users named in the report and should not be "
        "relied on for another purpose or by others."
    )
    return {
        report: copy,
        pictures_intro(): pictures,
        log_intro(): log,
        as_said(FOR_USERS_NAMED): users,
    }


def _without_limits(outline: Outline, book: CodeBook) -> Outline:
    """Without the first and last numbers of the book's series and exceptions, near a serial."""
    numbers = {item.id for item in book.items if item.kind is ItemKind.NUMBER}
    limits = {
        number
        for row in (*_ends(book.series), *_ends(book.exceptions))
        for number in row[1:]
        if row[0] in numbers and len(number) >= 4 and not YEAR.fullmatch(number)
    }
    joined = "|".join(re.escape(each) for each in sorted(limits, key=len, reverse=True))
    pattern = (
        re.compile(rf"(?<![0-9A-Za-z])(?<!\d[.,])(?:{joined})(?![0-9A-Za-z]|[.,]\d)")
        if joined
        else None
    )

    in_their_place = _in_their_place()

    def shown(text: str) -> str:
        if text in in_their_place:
            return in_their_place[text]
        text = _GONE.sub(left_out(), text)
        if pattern is None:
            return text
        return pattern.sub(lambda found: HIDDEN * len(found[0]), text)

    rewritten: Outline = _rewritten(outline, shown)
    return rewritten


def _ends(rows: tuple[Series | KnownException, ...]) -> Iterator[tuple[str, str, str]]:
    """Item, first and last number of each row."""
    return ((row.item, row.first, row.last) for row in rows)


def _rewritten(value: Any, change: Callable[[str], str], name: str = "") -> Any:
    """Every text of an outline changed; of a drawing only what is read in it."""
    if isinstance(value, str):
        if name == "svg":
            return _BETWEEN_TAGS.sub(lambda found: change(found[0]), value)
        return value if name in FIXED else change(value)
    if isinstance(value, tuple):
        return tuple(_rewritten(each, change, name) for each in value)
    if is_dataclass(value) and not isinstance(value, type):
        update = {
            each.name: _rewritten(getattr(value, each.name), change, each.name)
            for each in fields(value)
        }
        return replace(value, **update)
    return value


def _serials_left(outline: Outline, mask: TextMask) -> tuple[Problem, ...]:
    """One problem for each part of the copy in which a full serial is left."""
    parts: list[tuple[str, object]] = [(section.title, section) for section in outline.sections]
    parts.append((outline.label, replace(outline, sections=())))
    return tuple(
        SerialLeft(NOWHERE, title)
        for title, part in parts
        if any(mask.holds_serial(text) for text in _texts(part))
    )


def _texts(value: object, name: str = "") -> Iterator[str]:
    """Every text of a part of an outline, of a drawing piece by piece."""
    if isinstance(value, str):
        if name == "svg":
            yield from _BETWEEN_TAGS.findall(value)
        elif name not in FIXED:
            yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from _texts(each, name)
    elif is_dataclass(value):
        for field in fields(value):
            yield from _texts(getattr(value, field.name), field.name)
