"""What stands around the codes of a decode sheet: the car in a sentence, and what is not said."""

import re
from dataclasses import dataclass

from witnessmark.catalogue import counted, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark, MarkKind
from witnessmark.codebook.records import Basis, Item, ItemKind
from witnessmark.codebook.site_records import Remark
from witnessmark.decoding.records import Decoding
from witnessmark.examination import Opinion
from witnessmark.outline.records import Fact
from witnessmark.report.sheets.decode_lines import UNREAD, CodeLine, Topic
from witnessmark.wording import Names, listed
from witnessmark.wording.amounts import capital, clause

MOST_REMARKS = 3
MOST_BODY = 2
"""So many items on the body stand for a model that no mark says."""

LONGEST_REMARK = 200

_SILENT = re.compile(
    r"\b(?:nothing|does not|do not|not coded|not the day|no day|no exact|no year|no order)\b", re.I
)
_UNTOLD = re.compile(r"\b(?:not coded|not the day)\b", re.I)
_SERIAL = re.compile(r"\d{5}")


@dataclass(frozen=True, slots=True)
class Read:
    """What a sheet is made from: the Opinion as shown, one decoding a mark, the main one, and
    the lines of the codes."""

    opinion: Opinion
    book: CodeBook
    decodings: tuple[Decoding, ...]
    main: tuple[Mark, Decoding] | None
    lines: tuple[CodeLine, ...]
    is_masked: bool

    @property
    def names(self) -> Names:
        """The names that the code book gives."""
        return Names(self.opinion.names)

    def marks(self) -> tuple[Mark, ...]:
        """The marks that were read, the main one first."""
        found = [mark for each in self.decodings if (mark := self.book.mark(each.mark))]
        main = self.main[0] if self.main else None
        return tuple(sorted(found, key=lambda mark: mark is not main))


# ------------------------------------------------------------------------- the car


def title_as_claimed(opinion: Opinion, book: CodeBook) -> str:
    """The car as it is claimed, without any number."""
    claimed = opinion.casefile.claim.items.get("model", "")
    model = Names(opinion.names).value(claimed, "model") or book.maker
    year = opinion.context.model_year
    if year:
        return said("{model} of {year}, as claimed", model=model, year=year)
    return said("{model}, as claimed", model=model)


def the_car(read: Read) -> tuple[Fact, ...]:
    """The car in a sentence: as it is claimed, and as the marks say."""
    claimed = read.opinion.casefile.claim.items
    told = [
        _label(read, item, read.names.value(claimed[item], item))
        for item in _identity(read.book)
        if claimed.get(item, "").strip()
    ]
    return (
        Fact(said("As claimed"), "; ".join(told) or said("nothing about model, year or works")),
        Fact(said("As the marks say"), _said_by_marks(read)),
    )


def _identity(book: CodeBook) -> tuple[str, ...]:
    """The items that say which car it is: model, year, and all works that the book knows.

    Where no mark of the book says the model, kinds of body come close to it.
    """
    roles = dict.fromkeys(works.role for works in book.works)
    known = {item.id for item in book.items}
    wanted = ["model", "model_year", *roles]
    if not _can_be_said(book, "model"):
        wanted[1:1] = [item.id for item in book.items if _is_of_body(item)][:MOST_BODY]
    return tuple(each for each in dict.fromkeys(wanted) if each in known)


def _is_of_body(item: Item) -> bool:
    words = frozenset(item.id.split("_"))
    return item.kind is ItemKind.CODE and not item.home and bool(words & {"series", "body"})


def _can_be_said(book: CodeBook, item: str) -> bool:
    return any(field.says == item for mark in book.marks for field in mark.fields)


def _label(read: Read, item: str, text: str) -> str:
    return said("{item}: {value}", item=read.names.item(item), value=text)


def _said_by_marks(read: Read) -> str:
    """What the marks of the car say of model, year and works; two where they say two."""
    told, silent = [], []
    for item in _identity(read.book):
        values = _values(read, item)
        if not values:
            if _can_be_said(read.book, item):
                silent.append(read.names.item(item))
            continue
        text = values[0]
        for other in values[1:]:
            text = said("{this}, on another mark {other}", this=text, other=other)
        told.append(_label(read, item, text))
    if silent:
        told.append(
            said("not given by any mark that was read: {items}", items=listed(tuple(silent)))
        )
    return "; ".join(told) or said("nothing about model, year or works")


def _values(read: Read, item: str) -> tuple[str, ...]:
    """The meanings of one item, the likeliest of each mark on the car."""
    found: dict[str, str] = {}
    name = read.names.item(item)
    for decoding in read.decodings:
        mark = read.book.mark(decoding.mark)
        if mark is None or mark.kind is MarkKind.PAPER or not decoding.alternatives:
            continue
        for each in decoding.alternatives[0].fields:
            if each.says == item and each.listed and each.code.strip(UNREAD):
                text = (each.meaning or each.value).removeprefix(f"{name}: ")
                found.setdefault(each.value, text.removeprefix(f"{name} "))
    return tuple(found.values())


# ------------------------------------------------------------ what they do not say


def not_said(read: Read, most: int = MOST_REMARKS) -> tuple[str, ...]:
    """What the numbers do not say: questions without a code, leftovers, and so many of the
    book's remarks at most."""
    return (*_unanswered(read), *_left_over(read), *_remarks(read)[:most])


def _unanswered(read: Read) -> list[str]:
    answered = {line.topic for line in read.lines}
    silent = {
        Topic.CAR: said("No code that was read says which car it is."),
        Topic.COLOUR: said("No code that was read says anything about colour or trim."),
        Topic.RUNNING: said("No code that was read says anything about engine, gearbox or axle."),
        Topic.OPTIONS: said("No code that was read says anything about options or extras."),
    }
    return [text for topic, text in silent.items() if topic not in answered]


def _left_over(read: Read) -> list[str]:
    told = []
    for each in read.decodings:
        if not each.unread.strip():
            continue
        mark = capital(read.names.mark(each.mark))
        if read.is_masked:
            told.append(
                said(
                    "{mark}: it bears more than the fields of the book explain.",
                    mark=mark,
                )
            )
        else:
            told.append(
                said(
                    "{mark}: it also bears “{text}”, which no field of the book explains.",
                    mark=mark,
                    text=each.unread,
                )
            )
    return told


def _remarks(read: Read) -> list[str]:
    """Short remarks of the book on the plates that were read, of what they do not tell."""
    plates = [each for each in read.marks() if each.kind in (MarkKind.PLATE, MarkKind.LABEL)]
    found = [r for mark in plates for r in read.book.remarks_on(mark, read.opinion.context)]
    fitting = [each for each in dict.fromkeys(found) if _is_short_and_silent(each)]
    fitting.sort(key=lambda each: _plainness(each.sentence))
    return [_remark(each) for each in fitting]


def _plainness(text: str) -> int:
    """What is said outright to be told nowhere comes first."""
    return 0 if "nothing" in text.lower() else 1 if _UNTOLD.search(text) else 2


def _is_short_and_silent(remark: Remark) -> bool:
    text = remark.sentence
    return len(text) <= LONGEST_REMARK and bool(_SILENT.search(text)) and not _SERIAL.search(text)


def _remark(remark: Remark) -> str:
    if remark.citation.basis is Basis.MEMORY and "memory" not in remark.sentence:
        return said("{remark} (from memory).", remark=clause(remark.sentence))
    return remark.sentence


# ------------------------------------------------------------------------- the end


def closing(read: Read, left_out: int) -> str:
    """By which book it was explained, how to read the signs, and how many codes found no room."""
    book = read.book
    told = [
        said("Explained by the code book {book}, version {version}.", book=book.title,
             version=book.version),
        *(said("Beside it the book {book}, version {version}, was used.", book=each.title,
               version=each.version) for each in book.beside),
    ]  # fmt: skip
    bases = {
        each.basis
        for decoding in read.decodings
        for alternative in decoding.alternatives[:1]
        for each in alternative.fields
        if each.listed
    }
    if Basis.INVENTED in bases:
        told.append(said("Maker and codes are invented."))
    if any(line.is_from_memory for line in read.lines):
        told.append(said("“From memory” marks what has no printed source."))
    if left_out:
        told.append(
            counted(
                "{number} more code of other marks is in the report.",
                "{number} more codes of other marks are in the report.",
                left_out,
            )
        )
    return " ".join([*told, *_signs("".join(line.read for line in read.lines))])


def _signs(shown: str) -> list[str]:
    """The signs of doubt that occur, each with what it says."""
    meanings = {
        "[": said("[38] is a 3 or an 8."),
        "?": said("? is worn away."),
        "~": said("~ is ground, filled or struck over."),
        "_": said("_ was left empty."),
        "…": said("… stands for an unknown number of lost places."),
    }
    return [text for sign, text in meanings.items() if sign in shown]
