"""What of the typing does not fit the form of a mark, in sentences for the one who typed it."""

from collections.abc import Iterable

from witnessmark.catalogue import said
from witnessmark.decoding import Decoding
from witnessmark.wording.amounts import capital
from witnessmark.wording.names import Names


def typing_sentences(decodings: Iterable[Decoding], names: Names) -> tuple[str, ...]:
    """One sentence for each reading that does not fit its mark, with the form expected."""
    found = (
        said(
            "{mark}: {sentence} Expected: {expected}.",
            mark=capital(names.mark(each.mark)),
            sentence=each.slip.sentence,
            expected=each.slip.expected,
        )
        for each in decodings
        if each.slip is not None
    )
    return tuple(dict.fromkeys(found))
