"""A translation as a PO file (GNU gettext) made from docs/catalogue/witnessmark.pot, read."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from string import Formatter
from typing import TYPE_CHECKING

from witnessmark.catalogue import ONE_OR_MANY, Catalogue
from witnessmark.problem import Problem
from witnessmark.source import Source

if TYPE_CHECKING:
    from polib import POEntry

UNKNOWN_LANGUAGE = "und"

NUMBERS = frozenset({"number", "count"})
"""Names of the number of a counted sentence, in figures and as a word."""

_TAG = re.compile(r"[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*")
_PRIVATE = re.compile("[\ue000-\uf8ff]")
"""Signs that no font must show; a mask holds places by them."""
_PLURAL = re.compile(r"plural\s*=\s*([^;]+)")


class NoCatalogue(Problem):
    """A file that is no translation."""

    path: str
    reason: str
    says = "{path!r} cannot be read as a translation: {reason}"
    wants = "a PO file (GNU gettext) made from docs/catalogue/witnessmark.pot"


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

    says = "the translation of {message!r} has a name in braces that the sentence lacks"

    @property
    def wants(self) -> str:
        """The names that are there, if any."""
        return "no names in braces but {braces}" if self.names else "no names in braces"


class LostField(FieldFault):
    """A translated sentence that leaves out one of the `{names}` of the English one."""

    says = "the translation of {message!r} leaves out a name in braces"
    wants = "{braces} in it, at any place"


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
        written = _WrittenEntry(text, name, (each.linenum or 2) - 1)
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
    one: str, many: str, texts: tuple[str, ...], written: "_WrittenEntry"
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
class _WrittenEntry:
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
