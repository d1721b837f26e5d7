"""What each ratio would be if only one of two examiners had read a mark.

The case is weighed again with one reading alone, each as it was decoded: nothing else is
changed. It is
done only for marks that were read differently, and by whoever makes a report to be issued.
"""

from dataclasses import dataclass, replace

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.book import CodeBook
from witnessmark.decoding.records import Decoding
from witnessmark.examination.examine import marks_of
from witnessmark.examination.records import Opinion
from witnessmark.weighing import answer, capped

Ratios = dict[tuple[str, str], float]
"""log10 LR by the question and what it is about."""


@dataclass(frozen=True, slots=True)
class ReadAlone:
    """One reading of a mark, and log10 LR of every question with it as the mark's only one."""

    mark: str
    typed: str
    by: str
    log10_lr: Ratios


def read_alone(opinion: Opinion, book: CodeBook) -> tuple[ReadAlone, ...]:
    """Every reading of each mark that two examiners read differently, as if it stood alone."""
    car = marks_of(opinion, book)
    found = []
    for decodings in differing(opinion):
        for each in decodings:
            reading = each.reading
            ratios = _ratios(_only(car, each))
            found.append(ReadAlone(each.mark, reading.as_typed, reading.by, ratios))
    return tuple(found)


def differing(opinion: Opinion) -> tuple[tuple[Decoding, ...], ...]:
    """The readings of each mark that was not read alike by all, mark by mark."""
    by_mark: dict[str, list[Decoding]] = {}
    for each in opinion.decodings:
        by_mark.setdefault(each.mark, []).append(each)
    return tuple(
        tuple(each)
        for each in by_mark.values()
        if len({decoding.reading.normalised for decoding in each}) > 1
    )


def _only(car: CarMarks, reading: Decoding) -> CarMarks:
    """The car with this reading as the only one of its mark."""
    kept = tuple(each for each in car.decodings if each.mark != reading.mark or each is reading)
    return replace(car, decodings=kept)


def _ratios(car: CarMarks) -> Ratios:
    found = answer(car, with_contributions=False, with_next_looks=False)
    return {(each.question.value, each.about): capped(each.log10_lr) for each in found.conclusions}
