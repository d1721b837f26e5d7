"""What of the typing does not fit the form of a mark, in sentences for the one who typed it."""

from collections.abc import Iterable

from witnessmark.casefile import Claim
from witnessmark.catalogue import in_a_row, said
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
        if each.slip is not None and not each.reading.is_illegible
    )
    return tuple(dict.fromkeys(found))


def claim_sentences(typed: Claim, read: Claim, names: Names) -> tuple[str, ...]:
    """How a claim is read whose numbers were typed as they stand on the car: empty where it
    says what was typed, whatever its spelling."""
    spelt = {item: _signs(text) for item, text in typed.items.items()}
    other = {item: v for item, v in read.items.items() if spelt.get(item) != _signs(v)}
    told = (
        said("{item} {value}", item=names.item(item), value=names.value(value, item))
        for item, value in other.items()
    )
    sentence = said("Of the claim this is read: {claims}.", claims=in_a_row(told, ", "))
    return (sentence,) if other else ()


def _signs(text: str) -> str:
    return "".join(sign for sign in text.casefold() if sign.isalnum())
