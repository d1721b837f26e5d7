"""What of the typing does not fit the form of a mark, in sentences for the one who typed it."""

from collections.abc import Iterable

from witnessmark.casefile import Claim
from witnessmark.catalogue import in_a_row, said
from witnessmark.codebook import CodeBook
from witnessmark.decoding import Decoding, expected_form
from witnessmark.wording.amounts import capital
from witnessmark.wording.names import Names


def typing_sentences(
    decodings: Iterable[Decoding], book: CodeBook, names: Names
) -> tuple[str, ...]:
    """One sentence for each reading that does not fit its mark, with the form expected."""
    found = (
        said(
            "{mark}: {sentence} Expected: {expected}.",
            mark=capital(names.mark(each.mark)),
            sentence=sentence,
            expected=each.slip.expected if each.slip else _expected(each, book),
        )
        for each in decodings
        if not each.reading.is_illegible
        for sentence in [each.slip.sentence if each.slip else _unread(each, book)]
        if sentence
    )
    return tuple(dict.fromkeys(found))


def _unread(decoding: Decoding, book: CodeBook) -> str:
    """What fits no field of a mark whose form is right, or is no date; empty where all is."""
    mark = book.mark(decoding.mark)
    dated = [each.id for each in mark.fields if each.date_form] if mark else []
    no_date = (
        said("{text} is no date of its form.", text=each.text)
        for each in decoding.unexplained
        if each.field in dated
    )
    left = said("No field of this mark explains {text}.", text=decoding.unread)
    return in_a_row((*no_date, *([left] if decoding.unread else [])), " ")


def _expected(decoding: Decoding, book: CodeBook) -> str:
    mark = book.mark(decoding.mark)
    return expected_form(book, mark, decoding.cars) if mark else ""


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
