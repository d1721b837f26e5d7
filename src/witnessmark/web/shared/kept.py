"""What a page makes of a text alone, kept for the texts that were asked for last."""

from collections.abc import Callable

from witnessmark.catalogue import spoken
from witnessmark.web.shared import books
from witnessmark.web.shared.desk import CASES_KEPT, Bench
from witnessmark.weighing.kept_alike import Latest


def kept_by_text[T, *Given](
    work: Callable[[Bench, *Given], T],
) -> Callable[[Bench, *Given], T]:
    """What follows from the text of a case, its books, the language and what else is given, none of
    which is altered: another text is another question, so that nothing kept can be out of date."""
    latest: Latest[T] = Latest(CASES_KEPT)

    def of(bench: Bench, *given: *Given) -> T:
        question = (bench.kept.text, books.state(), spoken(), given)
        return latest.ask(question, lambda: work(bench, *given))

    of.__doc__ = work.__doc__
    return of
