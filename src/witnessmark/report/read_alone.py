"""What each ratio would be if only one of two examiners had read a mark.

The case is weighed again with one reading alone: nothing else is changed. It is
done only for marks that were read differently, and by whoever makes a report to be issued.
"""

from dataclasses import dataclass

from witnessmark.agreement import compare
from witnessmark.casefile.records import Casefile
from witnessmark.codebook.book import CodeBook
from witnessmark.decoding.records import Decoding
from witnessmark.examination import Opinion, car_marks
from witnessmark.weighing.questions import log10_ratio, questions_of
from witnessmark.weighing.rows import fixed
from witnessmark.weighing.weigh import prepare

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
    case = opinion.casefile
    found = []
    for decodings in differing(opinion):
        for each in decodings:
            reading = each.reading
            alone = _only(case, each.mark, reading.as_typed, reading.by)
            found.append(ReadAlone(each.mark, reading.as_typed, reading.by, _ratios(alone, book)))
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


def _only(case: Casefile, mark: str, typed: str, by: str) -> Casefile:
    """The case with this reading as the only one of its mark."""
    kept = tuple(
        each
        for each in case.readings
        if each.mark != mark or (each.text == typed and each.by == by)
    )
    return case.model_copy(update={"readings": kept})


def _ratios(case: Casefile, book: CodeBook) -> Ratios:
    car = car_marks(case, book)
    calculator, _ = prepare(car, compare(car))
    ones = calculator.ones(1)
    joints, prior = calculator.run(ones), calculator.prior(ones)
    cap = fixed("cap_log10")
    return {
        (asked.question.value, asked.about): max(
            -cap, min(cap, float(log10_ratio(joints, prior, asked)[0]))
        )
        for asked in questions_of(car, calculator.network)
    }
