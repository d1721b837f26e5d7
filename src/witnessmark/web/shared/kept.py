"""What a page makes of a text alone, kept for the texts that were asked for last."""

from collections.abc import Callable
from typing import Concatenate

from witnessmark.catalogue import spoken
from witnessmark.web.shared import books
from witnessmark.web.shared.desk import CASES_KEPT, Bench
from witnessmark.weighing.kept_alike import Latest


def kept_by_text[**P, T](
    work: Callable[Concatenate[Bench, P], T],
) -> Callable[Concatenate[Bench, P], T]:
    """What follows from the text of a case, its books, the language and what else is given, none of
    which is altered: another text is another question, so that nothing kept can be out of date."""
    latest: Latest[T] = Latest(CASES_KEPT)

    def of(bench: Bench, /, *given: P.args, **named: P.kwargs) -> T:
        question = (bench.kept.text, books.state(), spoken(), given, tuple(named.items()))
        return latest.ask(question, lambda: work(bench, *given, **named))

    of.__doc__ = work.__doc__
    return of
