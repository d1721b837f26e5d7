"""A translation in which every sentence stands in ⟦ ⟧ and every value in it in ⟪ ⟫.

It is made from the template of the catalogue, so that a text which no catalogue can
reach shows itself: it stands in no bracket, or as a value within a sentence.
"""

import re
import runpy
from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import polib

from witnessmark.catalogue import Catalogue
from witnessmark.documents.open_row import OpenRow
from witnessmark.report import Outline
from witnessmark.translation import parse_catalogue
from witnessmark.weighing import Asked
from witnessmark.wording.terms import TERMS

MAKER = Path(__file__).resolve().parents[2] / "bin" / "catalogue"
OPEN, CLOSED = "⟦⟪", "⟧⟫"
SVG = "{http://www.w3.org/2000/svg}"
SIGNS = {"lr", "log10", "sha", "utc"}
"""Signs that are the same in every language, in small letters."""
FIXED = {*TERMS, Asked.IDENTITY.value}
"""Words of the case and the book that a page says: they may stand in no language but its own."""
DIGEST = re.compile("[0-9a-f]+")


@cache
def bracketed() -> Catalogue:
    """Every sentence of the template in brackets, read as a user's file is read."""
    entries = polib.pofile(runpy.run_path(str(MAKER))["template"]())
    entries.metadata["Language"] = "qaa"
    for each in entries:
        if each.msgid_plural:
            each.msgstr_plural = {0: in_brackets(each.msgid), 1: in_brackets(each.msgid_plural)}
        else:
            each.msgstr = in_brackets(each.msgid)
    catalogue = parse_catalogue(f"{entries}", "bracketed.po")
    assert isinstance(catalogue, Catalogue)
    return catalogue


def in_brackets(sentence: str) -> str:
    """A sentence with itself and each of its values in brackets."""
    return "⟦" + re.sub(r"\{\w+\}", lambda found: f"⟪{found[0]}⟫", sentence) + "⟧"


def without_sentence(message: str) -> Catalogue:
    """The same, one sentence left out."""
    whole = bracketed()
    assert message in whole.sentences, message
    left = {key: text for key, text in whole.sentences.items() if key != message}
    return replace(whole, sentences=left)


def bare(text: str) -> str:
    """The letters and figures of a text, without brackets, signs and capitals."""
    return "".join(each for each in text.casefold() if each.isalnum())


def untranslated(text: str) -> list[str]:
    """The stretches of a text that no translation reaches, in order.

    A text that was cut (it ends with an ellipsis) lost its closing brackets.
    """
    stack: list[str] = []
    found = [""]
    for character in text:
        if character in OPEN:
            stack.append(character)
            found.append("")
        elif character in CLOSED:
            if stack:
                stack.pop()
            found.append("")
        elif not stack or stack[-1] == "⟪":
            found[-1] += character
        if character == "…" and stack:
            stack.pop()
    return [each for each in found if each.strip()]


def texts_of(outline: Outline) -> Iterator[str]:
    """Every text of a document that a reader sees or hears."""
    silent = {"kind", "tone", "sign", "about", "favours", "printed_iso", "language", "file", "size"}
    yield from _texts(outline, silent)


def _texts(value: object, silent: set[str]) -> Iterator[str]:
    if isinstance(value, str):
        yield from _drawn(value) if value.startswith("<svg") else [value]
    elif is_dataclass(value) and not isinstance(value, type):
        for each in fields(value):
            if each.name not in silent:
                yield from _texts(getattr(value, each.name), silent)
    elif isinstance(value, dict):
        for each in value.values():
            yield from _texts(each, silent)
    elif isinstance(value, Iterable) and not isinstance(value, bytes):
        for each in value:
            yield from _texts(each, silent)


def _drawn(svg: str) -> Iterator[str]:
    """What a figure says: its titles and descriptions, and its lines of text as one."""
    root = ElementTree.fromstring(svg)
    for tag in ("title", "desc"):
        yield from (each.text or "" for each in root.iter(f"{SVG}{tag}"))
    yield " ".join("".join(each.itertext()) for each in root.iter(f"{SVG}text"))


def strings_in(value: object) -> Iterator[str]:
    """Every string of a case or of a code book, ids also as the words they are read as.

    The fixed words of both (a state, a kind, a basis) are not among them: they are said.
    """
    if isinstance(value, Enum) or (isinstance(value, str) and value in FIXED):
        return
    if isinstance(value, str):
        yield value
        yield " ".join(re.split(r"[-_\s]+", value))
    elif isinstance(value, OpenRow):
        yield from strings_in([getattr(value, name) for name in value.columns])
    elif isinstance(value, dict):
        for key, each in value.items():
            yield from strings_in(key)
            yield from strings_in(each)
    elif is_dataclass(value) and not isinstance(value, type):
        for each in fields(value):
            yield from strings_in(getattr(value, each.name))
    elif isinstance(value, list | tuple | set | frozenset):
        for each in value:
            yield from strings_in(each)


class Allowed:
    """What may stand untranslated: texts of the case and of the code book, numbers, signs."""

    def __init__(self, *origins: object) -> None:
        texts = {_plain(each) for origin in origins for each in strings_in(origin)}
        self.texts = sorted((each for each in texts if len(each) > 1), key=len, reverse=True)

    def left_of(self, stretch: str) -> str:
        """What is left of a stretch once everything allowed is taken out of it."""
        left = _plain(re.sub("[{][a-z_]+[}]", " ", stretch))
        if left.endswith("…"):
            left = self._without_what_was_cut(left.rstrip("… "))
        elif left.count(" ") > 1 and any(text.startswith(left) for text in self.texts):
            return ""  # the first clause of a text says enough
        for text in self.texts:
            if text in left:
                left = re.sub(rf"(?<!\w){re.escape(text)}(?!\w)", " · ", left)
        words = re.findall(r"[^\W\d_]{2,}\w*", left)
        return " ".join(word for word in words if word not in SIGNS and not DIGEST.fullmatch(word))

    def _without_what_was_cut(self, left: str) -> str:
        """A stretch that ended with an ellipsis, without the text that was cut there."""
        for begin in range(len(left)):
            is_word = begin == 0 or not left[begin - 1].isalnum()
            if is_word and any(text.startswith(left[begin:]) for text in self.texts):
                return left[:begin]
        return left


def _plain(text: str) -> str:
    return " ".join(text.casefold().strip(" .;,:").split())
