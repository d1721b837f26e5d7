"""Every sentence of people's pages stands in one catalogue, so that a translation is one file.

A sentence is written in English where it is needed, through `said` or `counted`.
`docs/catalogue/witnessmark.pot` lists them all; a translation is a PO file (GNU
gettext) made from it. Names and values are put in after the sentence was looked
up; a sentence that a translation lacks stays English.
"""

import re
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from functools import lru_cache
from gettext import c2py
from string import Formatter
from typing import TYPE_CHECKING

from witnessmark.problem import Problem
from witnessmark.source import Source

if TYPE_CHECKING:
    from polib import POEntry

ENGLISH = "en"
UNKNOWN_LANGUAGE = "und"
ONE_OR_MANY = "n != 1"
"""The plural rule of English and many others, as gettext writes it."""

NUMBERS = frozenset({"number", "count"})
"""Names of the number of a counted sentence, in figures and as a word."""

_TAG = re.compile(r"[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*")
_PRIVATE = re.compile("[\ue000-\uf8ff]")
"""Signs that no font must show; a mask holds places by them."""
_PLURAL = re.compile(r"plural\s*=\s*([^;]+)")


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


class NoCatalogue(Problem):
    """A file that is no translation."""

    path: str
    reason: str
    says = "{path!r} cannot be read as a translation: {reason}"
    wants = "a PO file (GNU gettext) made from docs/catalogue/witnessmark.pot"


@dataclass(frozen=True)
class FieldFault(Problem):
    """The base of every fault in what a translated sentence fills in."""

    message: str
    names: tuple[str, ...]

    @property
    def braces(self) -> str:
        """The names as they stand in the sentence."""
        return ", ".join(f"{{{name}}}" for name in self.names)


class ForeignField(FieldFault):
    """A translated sentence whose `{names}` are not those of the English one."""

    says = "the translation of {message!r} fills in something that is not there"

    @property
    def wants(self) -> str:
        """The names that are there, if any."""
        return "no names in braces but {braces}" if self.names else "no names in braces"


class LostField(FieldFault):
    """A translated sentence that leaves out one of the `{names}` of the English one."""

    says = "the translation of {message!r} leaves out what is filled in"
    wants = "{braces} in it, at any place"


ENGLISH_CATALOGUE = Catalogue()
"""The sentences as they stand in the source."""

_SPOKEN: ContextVar[Catalogue] = ContextVar("spoken", default=ENGLISH_CATALOGUE)


def said(message: str, /, **values: object) -> str:
    """The sentence in the language of the page, its `{names}` filled in.

    The sentence is written out where `said` is called, so that it is found for the
    catalogue; one that stands in a table or a record goes through `as_said`.

    >>> said("The plate reads {text}.", text="700137")
    'The plate reads 700137.'
    """
    sentence = _SPOKEN.get().sentences.get(message) or message
    return sentence.format(**values) if values else sentence


def counted(one: str, many: str, number: int, /, **values: object) -> str:
    """The sentence for one or for many; `{number}` is filled in with the rest.

    >>> counted("{number} mark", "{number} marks", 3)
    '3 marks'
    """
    catalogue = _SPOKEN.get()
    forms = catalogue.counted.get(one)
    if forms is None:
        form = one if number == 1 else many
    else:
        form = forms[min(_form(catalogue.plural, number), len(forms) - 1)]
    return form.format(**{"number": number, **values})


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


@lru_cache(maxsize=256)
def _form(plural: str, number: int) -> int:
    """Which form of a counted sentence a number takes by a plural rule, from 0."""
    try:
        return max(0, int(c2py(plural)(number)))
    except (ValueError, ArithmeticError):
        return int(number != 1)


def parse_catalogue(text: str, name: str) -> Catalogue | NoCatalogue | ForeignField | LostField:
    """The translation in a PO file's text; `name` is the file as the user would write it."""
    import polib  # late: English pages need no catalogue

    text = text.removeprefix("\ufeff")
    if not text.lstrip().startswith(("#", "msgid", "msgctxt")):
        return NoCatalogue(Source(name), name, "it does not begin as one")
    try:
        entries = polib.pofile(f"\n{text}")
    except (OSError, ValueError, LookupError, TypeError, AttributeError) as fault:
        return NoCatalogue(Source(name), name, str(fault).strip() or "it breaks off")
    sentences: dict[str, str] = {}
    forms: dict[str, tuple[str, ...]] = {}
    if _PRIVATE.search("".join(_every_text(entries))):
        return NoCatalogue(Source(name), name, "it holds private signs (U+E000 to U+F8FF)")
    for each in entries:
        texts = _translations(each)
        if each.obsolete or each.fuzzy or not texts:
            continue
        # One line was put before the text, so that it is never taken for a path.
        written = _Written(text, name, (each.linenum or 2) - 1)
        wrong = _fault(each.msgid, each.msgid_plural, texts, written)
        if wrong is not None:
            return wrong
        sentences[each.msgid] = texts[0]
        if each.msgid_plural:
            forms[each.msgid] = texts
    if not sentences:
        return NoCatalogue(Source(name), name, "no sentence in it is translated")
    return Catalogue(_tag(entries.metadata), sentences, forms, _plural(entries.metadata))


def _every_text(entries: "Iterable[POEntry]") -> Iterator[str]:
    """All that the entries would put onto a page."""
    for each in entries:
        yield each.msgstr
        yield from each.msgstr_plural.values()


def _translations(entry: "POEntry") -> tuple[str, ...]:
    """The translated forms of an entry; none where one of them is empty."""
    plural = entry.msgstr_plural
    forms = tuple(plural[key] for key in sorted(plural)) if entry.msgid_plural else (entry.msgstr,)
    return forms if all(each.strip() for each in forms) else ()


def _fault(
    one: str, many: str, texts: tuple[str, ...], written: "_Written"
) -> ForeignField | LostField | None:
    """What the forms of a translation fill in that is not there, or leave out.

    A form of a counted sentence may say the number itself.
    """
    own = fields_of(one + many) or frozenset()
    wanted = own if not many else (fields_of(one) or own) & (fields_of(many) or own) - NUMBERS
    for translated in texts:
        found = fields_of(translated)
        if found is None or not found <= own:
            place = written.place((found or frozenset()) - own)
            return ForeignField(place, one, tuple(sorted(own)))
        if not wanted <= found:
            return LostField(written.line_of(translated), one, tuple(sorted(wanted - found)))
    return None


@dataclass(frozen=True, slots=True)
class _Written:
    """An entry as it is written: from line `line`, counted from 1, of a file's text."""

    text: str
    name: str
    line: int

    def place(self, foreign: frozenset[str]) -> Source:
        """Where its translation fills in what it should not."""
        signs = [f"{{{each}" for each in sorted(foreign)] or ["{", "}"]
        for number, written in self._translated():
            columns = [written.find(sign) for sign in signs if sign in written]
            if columns:
                width = len(signs[0]) + 1 if foreign else 1
                return Source(self.name, number, min(columns) + 1, width, written)
        return Source(self.name, self.line)

    def line_of(self, translated: str) -> Source:
        """Where this form of its translation stands, or begins."""
        lines = [(number, written) for number, written in self._translated() if '"' in written]
        fitting = (each for each in lines if f'"{translated}"' in each[1])
        found = next(fitting, lines[0] if lines else None)
        if found is None:
            return Source(self.name, self.line)
        number, written = found
        column = written.find('"')
        return Source(self.name, number, column + 1, len(written.rstrip()) - column, written)

    def _translated(self) -> Iterator[tuple[int, str]]:
        """The lines of its translation with their numbers."""
        in_translation = False
        for number, written in enumerate(self.text.splitlines()[self.line - 1 :], start=self.line):
            in_translation = in_translation or written.startswith("msgstr")
            if not written.strip():
                return
            if in_translation:
                yield number, written


def _tag(header: dict[str, str]) -> str:
    """The language tag of a PO file's header; gettext writes `pt_BR` for `pt-BR`."""
    tag = (header.get("Language") or "").strip().replace("_", "-")
    return tag if _TAG.fullmatch(tag) else UNKNOWN_LANGUAGE


def _plural(header: dict[str, str]) -> str:
    """The plural rule of a PO file's header."""
    found = _PLURAL.search(header.get("Plural-Forms") or "")
    return found[1].strip() if found else ONE_OR_MANY


def fields_of(message: str) -> frozenset[str] | None:
    """The `{names}` that are filled into a sentence; None where braces do not pair.

    A name that asks for more than its value (`{name!r}`, `{name:9}`) counts as it
    is written, so that it is never one of a sentence's own.
    """
    try:
        return frozenset(
            name + (f"!{conversion}" if conversion else "") + (f":{form}" if form else "")
            for _, name, form, conversion in Formatter().parse(message)
            if name is not None
        )
    except ValueError:
        return None
