"""What the documents of one car say, taken from the blocks of their outlines.

Everything here is read off what a reader sees; of the Opinion only the names are taken, by which
the documents call the same question in several ways.
"""

import re
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property, partial
from unittest.mock import patch

from tests.examined import examining
from witnessmark.casefile import Casefile
from witnessmark.catalogue import as_said
from witnessmark.codebook import CodeBook
from witnessmark.codebook.pieces import pieces_of
from witnessmark.examination import BookVersion, Opinion, examine
from witnessmark.outline.records import (
    Block,
    Boxed,
    Bullets,
    Columns,
    Fact,
    Facts,
    Heading,
    Outline,
    Paragraph,
    Table,
    TableCell,
    Together,
)
from witnessmark.report.outline import build_annex, build_outline
from witnessmark.report.sections.answered import SUPPORTED
from witnessmark.report.sections.matter import FOUND, OPEN, PLACES, STORY, STRENGTH
from witnessmark.report.sheets.decode_sheet import build_decode_sheet
from witnessmark.report.sheets.examined import examined_in_short
from witnessmark.report.sheets.next_looks import next_looks
from witnessmark.weighing import answer
from witnessmark.wording import Favours, Names
from witnessmark.wording.conclusions import about_words, heading

PRINTED = date(2026, 11, 25)
SHORT = 30
"""Minutes for which the screen of the next looks is asked."""

MONTHS = "January February March April May June July August September October November December"
DAY = re.compile(rf"(?:\d+ (?:to \d+ )?)?(?:{MONTHS.replace(' ', '|')}) \d{{4}}")
"""A day, days of one month, or a month, as people write it."""


@dataclass(frozen=True, slots=True)
class Figure:
    """What one document says of one question: a ratio, or the standing of one without."""

    where: str
    lr: str = ""
    standing: str = ""
    words: str = ""
    favours: Favours | None = None
    is_declared: bool = False


@dataclass(frozen=True, slots=True)
class Place:
    """One place or paper of the section on what was found."""

    part: str
    title: str
    state: str
    read: tuple[tuple[TableCell, ...], ...]
    has_looks: bool
    follows: str


def flat(blocks: tuple[Block, ...]) -> Iterator[Block]:
    """Blocks with those that others hold."""
    for block in blocks:
        if isinstance(block, Together | Boxed):
            yield from flat(block.blocks)
        elif isinstance(block, Columns):
            yield from flat((*block.left, *block.right))
        else:
            yield block


def under(blocks: tuple[Block, ...], title: str) -> list[Block]:
    """The blocks below a heading, to the next one."""
    found, is_under = [], False
    for block in flat(blocks):
        if isinstance(block, Heading):
            is_under = block.text == title
        elif is_under:
            found.append(block)
    return found


def table_headed(blocks: tuple[Block, ...] | list[Block], head: str) -> Table:
    """The first table whose first head is this; an empty one where there is none."""
    found = (b for b in flat(tuple(blocks)) if isinstance(b, Table) and b.head[:1] == (head,))
    return next(found, Table((), ()))


def texts(blocks: tuple[Block, ...] | list[Block]) -> list[str]:
    """Every sentence, item and fact that stands in no table."""
    told: list[str] = []
    for block in flat(tuple(blocks)):
        match block:
            case Paragraph(text=text):
                told.append(text)
            case Bullets(items=items):
                told += items
            case Facts(facts=facts):
                told += [f"{each.label}: {each.text}" for each in facts]
            case _:
                pass
    return told


def facts_of(blocks: tuple[Block, ...] | list[Block]) -> list[Fact]:
    """Every label with its text."""
    return [each for b in flat(tuple(blocks)) if isinstance(b, Facts) for each in b.facts]


def after(told: list[str], begin: str) -> str:
    """The rest of the first text that begins so; nothing where none does."""
    return next((text.removeprefix(begin) for text in told if text.startswith(begin)), "")


def bare(text: str) -> str:
    """A sentence without the photographs that it cites."""
    return re.sub(r" \(photographs? [^)]*\)\.?$", "", text).rstrip(".")


def days(text: str) -> frozenset[str]:
    """The days that a text names."""
    return frozenset(DAY.findall(text))


@dataclass(frozen=True)
class Told:
    """The documents of one car."""

    opinion: Opinion
    book: CodeBook
    report: Outline
    annex: Outline
    screen: Outline
    looks: Outline
    sheet: Outline

    @cached_property
    def names(self) -> Names:
        """The names of the book."""
        return Names(self.opinion.names)

    @property
    def front(self) -> tuple[Block, ...]:
        """Page one."""
        return self.report.front

    def section(self, number: int) -> tuple[Block, ...]:
        """The blocks of a section of the report."""
        return self.report.sections[number - 1].blocks

    @cached_property
    def asked(self) -> dict[str, str]:
        """The name of each question in a row by its name in a headline of the annex."""
        return {
            heading(each, self.names): about_words(each, self.names).lower()
            for each in self.opinion.weighed
        }

    def asked_in(self, text: str) -> set[str]:
        """The questions that a list names: names hold commas, and one holds another."""
        left, found = text.lower(), set()
        for name in sorted(set(self.asked.values()), key=len, reverse=True):
            if name in left:
                found.add(name)
                left = left.replace(name, ";")
        return found

    @cached_property
    def figures(self) -> dict[str, list[Figure]]:
        """What each document says of each question."""
        found: dict[str, list[Figure]] = defaultdict(list)
        for name, figure in (
            *self._front(),
            *self._strength(),
            *self._open(),
            *self._screen(),
            *self._annex(),
        ):
            found[name].append(figure)
        return dict(found)

    def _front(self) -> Iterator[tuple[str, Figure]]:
        where, supported = "page one", {as_said(text): key[1] for key, text in SUPPORTED.items()}
        for about, says, strength, lr, _ in table_headed(self.front, "Question").rows:
            if lr.text:
                told = says.text.removesuffix(", as declared")
                favours = supported.get(told, Favours.NEITHER)
                yield (
                    about.text.lower(),
                    Figure(where, lr.text, "", strength.text.lower(), favours, told != says.text),
                )
            elif strength.text == "no answer":
                for name in self.asked_in(about.text):
                    yield name, Figure(where, standing=says.text)

    def _strength(self) -> Iterator[tuple[str, Figure]]:
        pairs = {about_words(e, self.names).lower(): e.pair for e in self.opinion.weighed}
        table = table_headed(self.section(STRENGTH), "Question, and what the findings support")
        for about, figure, _ in table.rows:
            name, told = about.text.lower(), about.below[0].rstrip(".").lower()
            sides = {
                pairs[name].first.rstrip(".").lower(): Favours.FIRST,
                pairs[name].second.rstrip(".").lower(): Favours.SECOND,
            }
            words = figure.below[0].lower() if figure.below else ""
            yield (
                name,
                Figure(
                    "how strongly",
                    figure.text,
                    "",
                    words,
                    sides.get(told, Favours.NEITHER),
                    "As declared." in about.below,
                ),
            )

    def _open(self) -> Iterator[tuple[str, Figure]]:
        title = "What cannot be established, and what bears on it"
        for fact in facts_of(under(self.section(OPEN), title)):
            if fact.label != "Open":
                for name in fact.text.partition(". ")[0].split("; "):
                    yield name.lower().rstrip("."), Figure("not known", standing=fact.label.lower())

    def _screen(self) -> Iterator[tuple[str, Figure]]:
        toward = {" for": Favours.FIRST, " against": Favours.SECOND}
        for about, says, lr, _ in table_headed(self.screen.front, "Question").rows:
            told = says.text.removesuffix(", as declared")
            side = next((s for s in toward if f" {told}".endswith(s)), "")
            words = f" {told}".removesuffix(side).strip().lower()
            yield (
                about.text.lower(),
                Figure(
                    "screen",
                    lr.text,
                    "",
                    words,
                    toward.get(side, Favours.NEITHER),
                    told != says.text,
                ),
            )
        silent = next((f.text for f in facts_of(self.screen.front) if f.label == "No answer"), "")
        for names, standing in re.findall(r"(.*?) \(([^()]*)\)(?:; |$)", silent):
            for name in self.asked_in(names):
                yield name, Figure("screen", standing=standing)

    def _annex(self) -> Iterator[tuple[str, Figure]]:
        for block in flat(self.annex.sections[0].blocks):
            if isinstance(block, Heading):
                title, _, lr = block.text.partition(": LR ")
                name = self.asked[title]
                yield name, Figure("annex", lr.partition(", band")[0], "" if lr else "none")

    @cached_property
    def places(self) -> list[Place]:
        """Places and papers as the section on what was found has them."""
        found, part = [], ""
        for block in self.section(FOUND):
            if isinstance(block, Heading):
                part = block.text
            elif isinstance(block, Together):
                inner = list(flat(block.blocks))
                paragraphs = [each for each in inner if isinstance(each, Paragraph)]
                title, _, state = bare(paragraphs[0].text).partition(": ")
                rows = tuple(row for b in inner if isinstance(b, Table) for row in b.rows)
                looks = any(p.text.startswith("How the metal looks (") for p in paragraphs)
                name = re.sub(r"^\d+ ", "", title)
                found.append(Place(part, name, state, rows, looks, paragraphs[-1].text))
        return found

    @cached_property
    def states(self) -> dict[str, set[str]]:
        """How each place ended, by the table of places."""
        found = defaultdict(set)
        for _, place, state, _ in table_headed(self.section(PLACES), "No.").rows:
            found[place.text].add(state.text.lower())
        return dict(found)

    @cached_property
    def read_marks(self) -> set[str]:
        """The names of marks and papers of which a reading stands among what was found."""
        of_place: dict[str, set[str]] = defaultdict(set)
        for site in self.opinion.sites:
            of_place[site.name.lower()] |= {self.names.mark(mark) for mark in site.marks}
        read = set()
        for place in self.places:
            marks = of_place.get(place.title.lower(), {place.title})
            told = {text.lower() for row in place.read for text in row[0].below}
            lone = marks if len(marks) == 1 and place.read else set()
            read |= {each.lower() for each in marks if each in lone or each.lower() in told}
        return read

    @cached_property
    def read_nearby(self) -> set[str]:
        """The names of the marks at places where something was read: of several there the page
        names them only where several were read."""
        places = {place.title.lower() for place in self.places if place.read}
        return {
            self.names.mark(mark).lower()
            for site in self.opinion.sites
            if site.name.lower() in places
            for mark in site.marks
        }

    @cached_property
    def disclosed(self) -> list[tuple[str, str, str, str]]:
        """About, what was said, what was found, outcome: as the report has them."""
        table = table_headed(self.section(OPEN), "About")
        return [(row[0].text, row[1].text, row[2].text, row[3].text) for row in table.rows]

    @cached_property
    def misfits(self) -> list[str]:
        """What does not fit, by the section on the story."""
        for block in flat(self.section(STORY)):
            if isinstance(block, Bullets):
                return [bare(each) for each in block.items]
            if isinstance(block, Heading):
                break
        return []

    @cached_property
    def items(self) -> Table:
        """The table of the items."""
        return table_headed(self.section(STORY), "Item")

    @cached_property
    def steps(self) -> tuple[str, ...]:
        """What page one says to do next."""
        last = self.front[-1]
        assert isinstance(last, Columns)
        return next(b.items for b in last.right if isinstance(b, Bullets))

    @cached_property
    def offered(self) -> list[str]:
        """The looks that report and screen offer."""
        rows = table_headed(self.section(OPEN), "Look").rows
        return [row[0].text for row in rows]

    def marks_of_question(self, name: str) -> set[str]:
        """The names of the marks on what a question is about."""
        pieces, found = pieces_of(self.book, self.opinion.context), set()
        for each in self.opinion.weighed:
            if about_words(each, self.names).lower() == name and each.question.value != "item":
                found |= {m.mark for m in pieces.marks_on(each.about)}
        return {self.names.mark(each).lower() for each in found}


def told_of(opinion: Opinion, book: CodeBook) -> Told:
    """The documents of one car, made."""
    return Told(
        opinion,
        book,
        build_outline(opinion, book, PRINTED),
        build_annex(opinion, book, PRINTED),
        examined_in_short(opinion, book),
        next_looks(opinion, book, SHORT, False),
        build_decode_sheet(opinion, book, PRINTED, with_numbers=True),
    )


def examined_quickly(casefile: Casefile, book: CodeBook) -> Opinion:
    """The Opinion without what each finding does, in a second: what is told alike is told alike
    with it."""
    version = BookVersion(book.id, book.title, book.version, "0" * 64)
    quick = partial(answer, with_contributions=False)
    with patch.object(examining, "answer", quick):
        return examine(casefile, book, version, steady=False)
