"""Every sentence of people's pages stands in one catalogue, so that a translation is one file.

A sentence is written in English where it is needed, through `said` or `counted`.
`docs/catalogue/witnessmark.pot` lists them all; a translation is made from it (see
`translation`). Names and values are put in after the sentence was looked up; a
sentence that a translation lacks stays English.

What the rooms below the pages say is in no language yet: an English text that
remembers how it was said. A page says it in its own: `voiced`.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field, fields, is_dataclass, replace
from enum import Enum
from functools import lru_cache
from gettext import c2py
from typing import cast

ENGLISH = "en"
ONE_OR_MANY = "n != 1"
"""The plural rule of English and many others, as gettext writes it."""


@dataclass(frozen=True, slots=True, eq=False)
class Catalogue:
    """A translation: its language tag (BCP 47) and the sentences by their English.

    Each is itself alone, so that what was worked out in one language can be kept by it.

    The forms of a counted sentence stand under its English singular, in the order
    of the translation's own plural rule, which `plural` gives as gettext writes it.
    """

    language: str = ENGLISH
    sentences: dict[str, str] = field(default_factory=dict)
    counted: dict[str, tuple[str, ...]] = field(default_factory=dict)
    plural: str = ONE_OR_MANY


ENGLISH_CATALOGUE = Catalogue()
"""The sentences as they stand in the source."""

_SPOKEN: ContextVar[Catalogue] = ContextVar("spoken", default=ENGLISH_CATALOGUE)


@dataclass(frozen=True, slots=True)
class _Voice:
    """How sentences are said: in which language, and how the texts in them are shown, None where
    all stand as they are."""

    catalogue: Catalogue
    shown: Callable[[str], str] | None = None

    def says(self, value: object) -> object:
        if self.shown is None and self.catalogue is ENGLISH_CATALOGUE:  # as it is already
            return value
        if isinstance(value, Sentence):
            return value.how.spoken(self)
        if self.shown is None or not isinstance(value, str) or isinstance(value, Enum):
            return value
        return self.shown(value)

    def fills(self, values: dict[str, object]) -> dict[str, object]:
        return {name: self.says(value) for name, value in values.items()}


@dataclass(frozen=True, slots=True)
class _Said:
    """How a sentence was said: its English with `{names}`, and what fills them in."""

    message: str
    values: dict[str, object]

    def spoken(self, voice: _Voice) -> str:
        sentence = voice.catalogue.sentences.get(self.message) or self.message
        return sentence.format(**voice.fills(self.values)) if self.values else sentence


@dataclass(frozen=True, slots=True)
class _Counted:
    """How a sentence for one or for many was said."""

    one: str
    many: str
    number: int
    values: dict[str, object]

    def spoken(self, voice: _Voice) -> str:
        forms = voice.catalogue.counted.get(self.one)
        if forms is None:
            form = self.one if self.number == 1 else self.many
        else:
            form = forms[min(_form(voice.catalogue.plural, self.number), len(forms) - 1)]
        return form.format(**{"number": self.number, **voice.fills(self.values)})


@dataclass(frozen=True, slots=True)
class _InARow:
    """Texts one after another, with a sign between them."""

    texts: tuple[str, ...]
    between: str

    def spoken(self, voice: _Voice) -> str:
        return self.between.join(str(voice.says(each)) for each in self.texts)


@dataclass(frozen=True, slots=True)
class _Whole:
    """A clause made a sentence: with a capital and a full stop."""

    clause: str

    def spoken(self, voice: _Voice) -> str:
        return _with_capital_and_stop(str(voice.says(self.clause)))


type _How = _Said | _Counted | _InARow | _Whole


class Sentence(str):
    """A text in English that knows how it was said, so that a page can say it in its language.

    What the rooms below the pages say is such a text: an Opinion is in English, and its digest
    the same, whatever language its report is in.
    """

    __slots__ = ("how",)
    how: _How

    def __new__(cls, how: _How) -> "Sentence":
        """The text, said in English."""
        made = super().__new__(cls, how.spoken(_Voice(ENGLISH_CATALOGUE)))
        made.how = how
        return made

    def __reduce__(self) -> tuple[type["Sentence"], tuple[_How]]:
        """What it is made anew from in another process."""
        return Sentence, (self.how,)

    def __deepcopy__(self, _: object) -> "Sentence":
        """Itself: it cannot change."""
        return self


def _told(how: _How) -> str:
    """In the language of the page; outside of pages in English, as what can be said again."""
    catalogue = _SPOKEN.get()
    return Sentence(how) if catalogue is ENGLISH_CATALOGUE else how.spoken(_Voice(catalogue))


def said(message: str, /, **values: object) -> str:
    """The sentence in the language of the page, its `{names}` filled in.

    The sentence is written out where `said` is called, so that it is found for the
    catalogue; one that stands in a table or a record goes through `as_said`.

    >>> said("The plate reads {text}.", text="700137")
    'The plate reads 700137.'
    """
    return _told(_Said(message, values))


def in_a_row(texts: Iterable[str], between: str = " ") -> str:
    """Texts one after another: what was said stays said.

    >>> in_a_row([said("left"), said("right")], ", ")
    'left, right'
    """
    row = tuple(texts)
    if all(type(each) is str for each in row):
        return between.join(row)
    return _told(_InARow(row, between))


def either(words: Iterable[str]) -> str:
    """One or another; nothing of nothing.

    >>> either(("L2", "L4", "L6"))
    'L2 or L4 or L6'
    """
    text = ""
    for each in words:
        text = said("{words} or {last}", words=text, last=each) if text else each
    return text


def all_of(words: Sequence[str]) -> str:
    """A list for people.

    >>> all_of(["4", "5", "6"]), all_of(["1"])
    ('4, 5 and 6', '1')
    """
    if len(words) < 2:
        return in_a_row(words)
    return said("{words} and {last}", words=in_a_row(words[:-1], ", "), last=words[-1])


def one_of(words: Sequence[str]) -> str:
    """A list of which one holds.

    >>> one_of(["B", "8"]), one_of(["A", "B", "8"])
    ('B or 8', 'A, B or 8')
    """
    if len(words) < 2:
        return in_a_row(words)
    return said("{words} or {last}", words=in_a_row(words[:-1], ", "), last=words[-1])


def from_to(first: object, last: object) -> str:
    """Numbers, years or days from a first to a last; one alone where they are the same.

    >>> from_to(1952, 1956), from_to(1952, 1952)
    ('1952 to 1956', '1952')
    """
    return str(first) if first == last else said("{first} to {last}", first=first, last=last)


def percent(share: float) -> str:
    """A share in whole per cent; what is not nothing is never shown as nothing.

    >>> percent(0.5), percent(0.004), percent(0.998), percent(1.0)
    ('50 %', 'under 1 %', 'over 99 %', '100 %')
    """
    if 0 < share < 0.01:
        return said("under {percent} %", percent="1")
    if 0.99 < share < 1:
        return said("over {percent} %", percent="99")
    return said("{percent} %", percent=f"{share * 100:.0f}")


def whole_sentence(clause: str) -> str:
    """The clause with a capital and a full stop.

    >>> whole_sentence("the plate reads 12")
    'The plate reads 12.'
    """
    return _told(_Whole(clause)) if isinstance(clause, Sentence) else _with_capital_and_stop(clause)


def _with_capital_and_stop(text: str) -> str:
    text = text.strip()
    ending = "" if text.endswith((".", "…")) else "."
    return text[:1].upper() + text[1:] + ending


def voiced[T](value: T, shown: Callable[[str], str] | None = None) -> T:
    """The records with everything that was said in them in the language of the page.

    `shown` gives how a text that was not said stands there, in a record or in a sentence.
    """
    voice = _Voice(_SPOKEN.get(), shown)
    if voice.catalogue is ENGLISH_CATALOGUE and shown is None:
        return value
    return cast(T, _voiced(value, voice))


def _voiced(value: object, voice: _Voice) -> object:
    if isinstance(value, str):
        return voice.says(value)
    if is_dataclass(value) and not isinstance(value, type):
        own = {each.name: getattr(value, each.name) for each in fields(value) if each.init}
        new = {name: _voiced(each, voice) for name, each in own.items()}
        changed = {name: each for name, each in new.items() if each is not own[name]}
        return replace(value, **changed) if changed else value
    if isinstance(value, tuple | list):
        row = [_voiced(each, voice) for each in value]
        if all(a is b for a, b in zip(row, value, strict=True)):
            return value
        return row if isinstance(value, list) else type(value)(row)
    if isinstance(value, dict):
        return {_voiced(k, voice): _voiced(v, voice) for k, v in value.items()}
    return value


def counted(one: str, many: str, number: int, /, **values: object) -> str:
    """The sentence for one or for many; `{number}` is filled in with the rest.

    >>> counted("{number} mark", "{number} marks", 3)
    '3 marks'
    """
    return _told(_Counted(one, many, number, values))


def marked(message: str) -> str:
    """The message itself: says that it belongs into the catalogue and is said elsewhere."""
    return message


def as_said(message: str, /, **values: object) -> str:
    """`said` for a sentence that was `marked` where it is written, or stands in a shipped table.

    >>> as_said(marked("not listed"))
    'not listed'
    """
    return said(message, **values)


def language() -> str:
    """The language tag of the page that is being written."""
    return _SPOKEN.get().language


def spoken() -> Catalogue:
    """The catalogue of the page that is being written."""
    return _SPOKEN.get()


@contextmanager
def speaking(catalogue: Catalogue) -> Iterator[None]:
    """Within this block every sentence comes from the catalogue."""
    token = _SPOKEN.set(catalogue)
    try:
        yield
    finally:
        _SPOKEN.reset(token)


@contextmanager
def for_any_page() -> Iterator[None]:
    """Within this block nothing is said in the language of a page yet."""
    with speaking(ENGLISH_CATALOGUE):
        yield


@lru_cache(maxsize=256)
def _form(plural: str, number: int) -> int:
    """Which form of a counted sentence a number takes by a plural rule, from 0."""
    try:
        return max(0, int(c2py(plural)(number)))
    except (ValueError, ArithmeticError):
        return int(number != 1)
