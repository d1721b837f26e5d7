"""The masked copy of a report: the same report, fit to be shown to others.

Made from a masked Opinion and swept once more when it is whole: if a full serial
of the case still stands anywhere, nothing is printed.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from witnessmark.catalogue import as_said, said, speaking, voiced
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import ItemKind, KnownException, Series
from witnessmark.examination import Opinion
from witnessmark.outline.records import Bullets, Outline, Paragraph, Section
from witnessmark.problem import Problem
from witnessmark.report.mask.case import GONE, exhibit_names, left_out, who_signs
from witnessmark.report.mask.opinion import masked
from witnessmark.report.mask.pictures import masked_pictures
from witnessmark.report.mask.short_name import file_stem
from witnessmark.report.mask.signs import HIDDEN, SAME_PLACE
from witnessmark.report.mask.texts import YEAR, TextMask
from witnessmark.report.outline import build_outline
from witnessmark.report.press.render import PLAIN, ToSet
from witnessmark.report.records import Form, Picture
from witnessmark.report.sections.closing import annex_line
from witnessmark.source import NOWHERE
from witnessmark.wording.limits import FOR_USERS_NAMED

_BETWEEN_TAGS = re.compile(r"(?<=>)[^<]+(?=<)")
_GONE = re.compile(rf"{GONE}+(?:\s*{GONE}+)*…?")


class SerialLeft(Problem):
    """A full serial that the mask did not reach; it is not repeated here."""

    where: str
    says = "a full number of this car would appear in the masked copy, under {where!r}"
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
        """The case's id as part of a file name."""
        return file_stem(self.outline.case_id)


def photographs_left_out(copy: MaskedCopy, opinion: Opinion) -> str:
    """The photographs that a copy does not show, by their captions; empty where it shows all."""
    captions = {each.id: each.caption.strip() for each in opinion.casefile.exhibits}
    named = (f"{captions[i]} ({i})" if captions.get(i) else i for i in copy.left_out)
    return f"Photographs left out: {'; '.join(named)}." if copy.left_out else ""


def masked_copy(
    opinion: Opinion,
    book: CodeBook,
    exhibits: Mapping[str, bytes],
    printed: date,
    form: Form = PLAIN,
) -> MaskedCopy:
    """The masked copy of the report on an Opinion; `exhibits` holds the files by exhibit id."""
    with speaking(form.catalogue):
        made = masked(opinion, book)
        case = opinion.casefile
        names = exhibit_names(case, made.mask)
        pictures = masked_pictures(case.exhibits, exhibits, names)
        outline = build_outline(made.opinion, book, printed, pictures)
        unshown = tuple(each.exhibit for each in pictures if each.missing)
        signing = who_signs(case)
        are_named = all(each.id in signing for each in case.assignment.examiners)
        outline = _told(_without_limits(outline, book), unshown, are_named)
    return MaskedCopy(outline, pictures, unshown, _serials_left(outline, made.mask))


def print_masked_copy(copy: MaskedCopy, printed: date, form: Form = PLAIN) -> bytes:
    """The copy as a PDF, without any file inside; never for a copy that has problems."""
    return masked_set(copy, printed, form).printed().pdf


def masked_set(copy: MaskedCopy, printed: date, form: Form = PLAIN) -> ToSet:
    """The same copy ready to be set."""
    assert not copy.problems, "a copy that holds a serial is not printed"
    return ToSet(copy.outline, printed, replace(form, attachments=()), copy.pictures)


def _told(outline: Outline, unshown: tuple[str, ...], are_named: bool) -> Outline:
    """The outline turned into that of a masked copy, with what its signs mean and what is left out.

    `are_named`: every examiner is.
    """
    return replace(
        outline,
        label=said("Masked copy of a report of examination"),
        footer=_footer(are_named),
        front=(Paragraph(_front_note(), "quiet"), *outline.front) if outline.front else (),
        sections=(*outline.sections, _gone_section(unshown, are_named)),
    )


def _footer(are_named: bool) -> str:
    if are_named:
        return said(
            "Masked copy: serials, the owner, the client and places are left out; the examiners "
            "are named"
        )
    return said("Masked copy: serials, the owner, the client and places are left out")


def _front_note() -> str:
    return said(
        "In this copy every serial is masked: one {sign} stands for one character. Compare "
        "signs only between readings of the same number: where these have the same sign in "
        "the same place, they have the same character. Between different numbers the signs "
        "mean nothing.",
        sign=SAME_PLACE[0],
    )


def _how_masked() -> tuple[str, ...]:
    """What the signs of the mask mean."""
    first, second, third = tuple(SAME_PLACE[:3])
    return (
        said(
            "In this copy every serial is masked. {first} hides a character; in other "
            "readings of the same number that place shows {first} again where the "
            "character is the same, {second} where it is a different one, {third} where it "
            "is a third. So two readings of one number agree where their signs agree; "
            "between different numbers (engine and gearbox, say) the signs mean nothing.",
            first=first,
            second=second,
            third=third,
        ),
        said(
            "{sign} hides a character that was not compared: one that the code book does "
            "not explain in that place, or one in the limits of a series or an exception. "
            "Ratios were calculated from the full numbers.",
            sign=HIDDEN,
        ),
    )


def _gone_section(unshown: tuple[str, ...], are_named: bool) -> Section:
    """What a reader of the copy does not see."""
    others = said(
        "The client, the intended users, the owner and whoever made the claim; what the "
        "owner agreed to and replied; where the car stood and who was present; who issued "
        "the title; the price."
    )
    who = (
        said("The examiners are named, because they answer for the report.")
        if are_named
        else said("An examiner who shares a name with one of them is not named.")
    )
    items = [
        said("Every serial: of marks, papers and title, in words, in figures and in pictures."),
        f"{others} {who}",
        said(
            "Of the text that people typed (a title, the claim, a note, a caption), "
            "everything that names one of them or could give away a number: any text with "
            "a figure that is not part of a year or date, with a number in words, or with "
            "a code. {left_out} replaces the whole text; the report has it in the same "
            "place.",
            left_out=left_out(),
        ),
        said(
            "The names and digests of the picture files, the notes of the camera, the case "
            "document, and the limits of the maker's number series and of known exceptions."
        ),
    ]
    if unshown:
        names = ", ".join(unshown)
        items.append(said("These photographs and documents: {names}.", names=names))
    return Section(said("What is left out of this copy"), (Bullets((*_how_masked(), *items)),))


def _in_their_place() -> dict[str, str]:
    """What the report says about itself that is not true of the copy, and what replaces it."""
    report = said(
        "This report shows numbers in full and is meant for its intended users. Before any of "
        "it is shown to others, mask the same characters in the text and in the pictures."
    )
    copy = said(
        "The report itself shows numbers in full and is meant for its intended users. This "
        "copy can be shown to others; do not put a picture of a number beside it."
    )
    annex = said("What stands behind the report is in its annex, of which there is no copy.")
    users = said(
        "It was made for the purpose and the intended users named in the report and should not be "
        "relied on for another purpose or by others."
    )
    return {
        report: copy,
        annex_line(): annex,
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

    return _with_each_text(outline, shown)


def _ends(rows: tuple[Series | KnownException, ...]) -> Iterator[tuple[str, str, str]]:
    """Item, first and last number of each row."""
    return ((row.item, row.first, row.last) for row in rows)


def _with_each_text[Part](part: Part, change: Callable[[str], str]) -> Part:
    """Every text of a part of an outline changed; of a drawing only what is read in it."""

    def changed(text: str) -> str:
        if text.startswith("<svg"):
            return _BETWEEN_TAGS.sub(lambda found: change(found[0]), text)
        return change(text)

    return voiced(voiced(part, str), changed)


def _serials_left(outline: Outline, mask: TextMask) -> tuple[Problem, ...]:
    """One problem for each part of the copy in which a full serial is left."""
    parts: list[tuple[str, object]] = [(section.title, section) for section in outline.sections]
    parts.append((outline.label, replace(outline, sections=())))
    return tuple(
        SerialLeft(NOWHERE, title)
        for title, part in parts
        if any(map(mask.holds_serial, _texts(part)))
    )


def _texts(part: object) -> list[str]:
    """Every text of a part of an outline, of a drawing piece by piece."""
    found: list[str] = []

    def kept(text: str) -> str:
        found.append(text)
        return text

    _with_each_text(part, kept)
    return found
