"""Every sentence of people's pages stands in one catalogue, so that a translation is one file.

A sentence is written in English where it is needed, through `said` or `counted`.
`docs/catalogue/witnessmark.pot` lists them all; a translation is a PO file (GNU
gettext) made from it. Names and values are put in after the sentence was looked
up; a sentence that a translation lacks stays English.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from pathlib import Path
from string import Formatter

from witnessmark.problem import Problem
from witnessmark.source import Source

ENGLISH = "en"


@dataclass(frozen=True, slots=True)
class Catalogue:
    """A translation: its language tag (BCP 47) and the sentences by their English.

    The forms of a counted sentence stand under its English singular, in the order
    of the translation's own plural rule: one, then many.
    """

    language: str = ENGLISH
    sentences: dict[str, str] = field(default_factory=dict)
    counted: dict[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class NoCatalogue(Problem):
    """A file that is no translation."""

    path: str
    reason: str

    def sentence(self) -> str:
        """What is wrong with it."""
        return f"{self.path!r} cannot be read as a translation: {self.reason}"

    def expected(self) -> str:
        """What would be right."""
        return "a PO file (GNU gettext) made from docs/catalogue/witnessmark.pot"


@dataclass(frozen=True, slots=True)
class ForeignField(Problem):
    """A translated sentence whose `{names}` are not those of the English one."""

    message: str
    names: tuple[str, ...]

    def sentence(self) -> str:
        """What is wrong with it."""
        return f"the translation of {self.message!r} fills in something that is not there"

    def expected(self) -> str:
        """What would be right."""
        named = ", ".join(f"{{{name}}}" for name in self.names)
        return f"no names in braces but {named}" if named else "no names in braces"


ENGLISH_CATALOGUE = Catalogue()
"""The sentences as they stand in the source."""

_SPOKEN: ContextVar[Catalogue] = ContextVar("spoken", default=ENGLISH_CATALOGUE)


def said(message: str, /, **values: object) -> str:
    """The sentence in the language of the page, its `{names}` filled in.

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
    forms = _SPOKEN.get().counted.get(one) or (one, many)
    form = forms[0] if number == 1 else forms[-1]
    return form.format(number=number, **values)


def language() -> str:
    """The language tag of the page that is being written."""
    return _SPOKEN.get().language


@contextmanager
def speaking(catalogue: Catalogue) -> Iterator[None]:
    """Within this block every sentence comes from the catalogue."""
    token = _SPOKEN.set(catalogue)
    try:
        yield
    finally:
        _SPOKEN.reset(token)


def parse_catalogue(text: str, name: str) -> Catalogue | NoCatalogue | ForeignField:
    """The translation in a PO file's text; `name` is the file as the user would write it."""
    import polib  # late: English pages need no catalogue

    if not text.lstrip("\ufeff").lstrip().startswith(("#", "msgid", "msgctxt")):
        return NoCatalogue(Source(name), name, "it does not begin as one")
    try:
        entries = polib.pofile(text.lstrip("\ufeff"))
    except (OSError, ValueError, UnicodeError) as fault:
        return NoCatalogue(Source(name), name, str(fault))
    sentences: dict[str, str] = {}
    forms: dict[str, tuple[str, ...]] = {}
    for each in entries:
        if not each.translated() or each.obsolete:
            continue
        texts = tuple(each.msgstr_plural[key] for key in sorted(each.msgstr_plural))
        texts = texts or (each.msgstr,)
        own = fields_of(f"{each.msgid}{each.msgid_plural}")
        for translated in texts:
            found = fields_of(translated)
            if found is None or (own is not None and not found <= own):
                place = Source(name, each.linenum, 1, 1, translated)
                return ForeignField(place, each.msgid, tuple(sorted(own or ())))
        if each.msgid_plural:
            forms[each.msgid] = texts
        else:
            sentences[each.msgid] = each.msgstr
    return Catalogue(entries.metadata.get("Language") or "und", sentences, forms)


def fields_of(message: str) -> frozenset[str] | None:
    """The `{names}` that are filled into a sentence; None where its braces do not pair."""
    try:
        return frozenset(name for _, name, _, _ in Formatter().parse(message) if name is not None)
    except ValueError:
        return None


def read_catalogue(path: Path) -> Catalogue | NoCatalogue | ForeignField:
    """The translation in this file."""
    try:
        return parse_catalogue(path.read_text("utf-8"), str(path))
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "it is not UTF-8 text"
        return NoCatalogue(Source(str(path)), str(path), reason)
