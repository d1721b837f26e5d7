"""While a paper is awaited: what its answer would make of each conclusion on which it bears."""

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.casefile.records import Paper, PaperState
from witnessmark.catalogue import counted, said
from witnessmark.examination.looks import LEAST_MOVED
from witnessmark.outline.records import Block, Fact, Paragraph, Table, TableCell
from witnessmark.report.sections.matter import Matter
from witnessmark.weighing import ANSWER_AWAITED, DIFFERS, NO_RECORD, Weighed
from witnessmark.wording import Then, then_words
from witnessmark.wording.amounts import capital
from witnessmark.wording.conclusions import about_words

ROWS_SHOWN = 4
ON_SCREEN = 1


@dataclass(frozen=True, slots=True)
class _Moved:
    """One question now, if the paper agrees, and if it differs."""

    weighed: Weighed
    now: Then
    agrees: Then
    differs: Then

    @property
    def by(self) -> float:
        """The most by which an answer moves its ratio, in log10."""
        return max(abs(e.log10_lr - self.now.log10_lr) for e in (self.agrees, self.differs))


def awaited_blocks(matter: Matter) -> Iterator[Block]:
    """A table for each paper that is awaited, or that its answer cannot be reckoned beforehand."""
    is_any = False
    for paper in _awaited(matter):
        moved = _moved(paper, matter)
        told, rest = _lead(paper, matter, moved), len(moved) - ROWS_SHOWN
        yield Paragraph(told, "lead" if moved else "plain")
        if not moved:
            continue
        is_any = True
        head = (said("Question"), said("Now"), said("If it agrees"), said("If it differs"))
        rows = tuple(
            (
                TableCell(capital(about_words(each.weighed, matter.names)), strong=True),
                *(TableCell(str(then)) for then in (each.now, each.agrees, each.differs)),
            )
            for each in moved[:ROWS_SHOWN]
        )
        yield Table(head, rows, (3, 3, 3, 3), is_dense=True)
        if rest > 0:
            yield Paragraph(
                counted("{number} further question moves less.",
                        "{number} further questions move less.", rest), "note")  # fmt: skip
    if is_any:
        yield Paragraph(_supposed(), "note")


def _supposed() -> str:
    return said(
        "Agrees, or differs: in all that bears on the question, as claimed or as the part itself "
        "reads; of days only that of a stamp is supposed. The words suppose a band as wide as now. "
        "If there is no record, every answer stays as it is."
    )


def awaited_facts(matter: Matter) -> Iterator[Fact]:
    """The same on a screen: what each answer does to what it moves most."""
    for paper in _awaited(matter):
        moved = _moved(paper, matter)
        told = [
            said(
                "{question}: {now} now; {agrees} if it agrees; {differs} if it differs.",
                question=capital(about_words(each.weighed, matter.names)),
                now=str(each.now),
                agrees=str(each.agrees),
                differs=str(each.differs),
            )
            for each in moved[:ON_SCREEN]
        ]
        told = [*told, said("No record: nothing changes.")] if told else []
        name = said("Awaited: {paper}", paper=matter.names.paper(paper.mark, paper.name))
        yield Fact(name, " ".join(told) or _lead(paper, matter, moved))


def _awaited(matter: Matter) -> list[Paper]:
    read = {each.mark for each in matter.opinion.decodings}
    papers = matter.case.papers
    return [e for e in papers if e.state is PaperState.AWAITED and e.mark not in read]


def _lead(paper: Paper, matter: Matter, moved: list[_Moved]) -> str:
    name = matter.names.paper(paper.mark, paper.name)
    if moved:
        return said("The {paper} is awaited. This is what its answer would change:", paper=name)
    if matter.book.mark(paper.mark) is None:
        return said(
            "The {paper} is awaited. The code book has no such paper, so nobody can say beforehand "
            "what its answer would change.",
            paper=name,
        )
    return said(
        "The {paper} is awaited. Whether it agrees or differs, no ratio changes.", paper=name
    )


def _moved(paper: Paper, matter: Matter) -> list[_Moved]:
    """The questions that its answer moves, that which it moves most first."""
    weighed = {(each.question, each.about): each for each in matter.opinion.weighed}
    found = []
    for look in matter.opinion.answer.next_looks:
        about = weighed.get((look.question, look.of))
        if (look.about, look.kind) == (paper.mark, ANSWER_AWAITED) and about is not None:
            base = {each.outcome: each.log10_lr for each in look.outcomes}
            now, differs = base.pop(NO_RECORD), base.pop(DIFFERS)
            (agrees,) = base.values()
            thens = (then_words(about, each - now) for each in (now, agrees, differs))
            found.append(_Moved(about, *thens))
    return sorted((e for e in found if e.by > LEAST_MOVED), key=lambda each: -each.by)
