"""From an Opinion to the bytes of its report."""

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, replace
from datetime import date
from typing import Any

from witnessmark.catalogue import said, speaking
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.outline.records import Outline
from witnessmark.report.issue.issued import NOT_ISSUED, AtIssue
from witnessmark.report.outline import build_annex, build_outline
from witnessmark.report.press.coverage import showable
from witnessmark.report.press.html.page import write_html
from witnessmark.report.press.pictures import prepare_pictures
from witnessmark.report.press.typst_press import Printed, press
from witnessmark.report.records import Annex, Form, Picture

UNBROKEN = frozenset(
    {"svg", "file", "kind", "tone", "favours", "printed_iso", "language", "is_numbered"}
)
"""Fields that are not running text: no break may be put into them."""

LONGEST_TEXT = 4_000
"""Characters of one text that a page shows, more than a page; our own are far shorter."""

PLAIN = Form()
"""On A4, in English, without files inside."""


Build = Callable[[Opinion, CodeBook, date, tuple[Picture, ...], AtIssue], Outline]


@dataclass(frozen=True, slots=True, kw_only=True)
class ToPrint:
    """What a report and its annex are made from; the same gives the same bytes.

    `exhibits` holds the photographs by exhibit id; what is missing or cannot be
    shown is named in its place. `issue` is what is worked out for a report that is
    to be issued (see `at_issue`).
    """

    opinion: Opinion
    book: CodeBook
    exhibits: Mapping[str, bytes]
    printed: date
    form: Form = PLAIN
    issue: AtIssue = NOT_ISSUED

    def report(self) -> Printed:
        """The report as a tagged PDF, with what the compiler complained about."""
        return self.report_set().printed()

    def report_html(self) -> bytes:
        """The report as one file for a browser, which holds the photographs and no other file."""
        return self.report_set().html()

    def annex(self) -> Annex:
        """What stands behind the report, in both of its forms, without a file inside."""
        ready = self.annex_set()
        return Annex(ready.printed().pdf, ready.html())

    def report_set(self) -> "ToSet":
        """The report, ready to be set."""
        return self._built(build_outline, self.form)

    def annex_set(self) -> "ToSet":
        """Its annex, ready to be set."""
        return self._built(build_annex, replace(self.form, attachments=()))

    def _built(self, build: Build, form: Form) -> "ToSet":
        """A document in the language of its form, with the photographs that it may show."""
        pictures = prepare_pictures(self.opinion.casefile.exhibits, self.exhibits)
        with speaking(form.catalogue):
            outline = build(self.opinion, self.book, self.printed, pictures, self.issue)
        return ToSet(outline, self.printed, form, pictures)


@dataclass(frozen=True, slots=True)
class ToSet:
    """A document ready to be set: on paper, as pictures of its pages, or for a browser."""

    outline: Outline
    day: date
    form: Form = PLAIN
    pictures: tuple[Picture, ...] = ()

    def printed(self) -> Printed:
        """A tagged PDF, with what the compiler complained about."""
        return print_outline(self.outline, self.pictures, self.day, self.form)

    def pages(self) -> tuple[bytes, ...]:
        """Each page as a picture (PNG)."""
        values, photographs = _for_the_press(self.outline, self.pictures)
        with speaking(self.form.catalogue):
            return press().pages(values, photographs, self.form)

    def html(self) -> bytes:
        """One file for a browser."""
        return write_html(self.outline, self.pictures, self.form.catalogue)


def render_report(
    opinion: Opinion,
    book: CodeBook,
    exhibits: Mapping[str, bytes],
    printed: date,
    form: Form = PLAIN,
) -> bytes:
    """The report as a tagged PDF."""
    order = ToPrint(opinion=opinion, book=book, exhibits=exhibits, printed=printed, form=form)
    return order.report().pdf


def print_outline(
    outline: Outline, pictures: tuple[Picture, ...], printed: date, form: Form = PLAIN
) -> Printed:
    """Set an outline with its pictures, whose files get names of our own."""
    values, photographs = _for_the_press(outline, pictures)
    with speaking(form.catalogue):
        return press().print(values, photographs, printed, form)


def _for_the_press(
    outline: Outline, pictures: tuple[Picture, ...]
) -> tuple[object, dict[str, bytes]]:
    """An outline as plain values, and its photographs by the names that stand in them."""
    ready = [picture for picture in pictures if picture.jpeg]
    files = {picture.exhibit: f"{at}.jpg" for at, picture in enumerate(ready, start=1)}
    photographs = {files[picture.exhibit]: picture.jpeg for picture in ready}
    return _shown(_named(asdict(outline), files)), photographs


def _named(value: Any, files: dict[str, str]) -> Any:
    """An outline as plain values, each photograph pointing at its file in the private folder."""
    if isinstance(value, dict):
        named = {key: _named(each, files) for key, each in value.items()}
        is_photograph = value.get("kind") == "photograph"
        return named | {"file": files.get(value["id"], "")} if is_photograph else named
    if isinstance(value, list | tuple):
        return [_named(each, files) for each in value]
    return value


def _shown(value: object, name: str = "") -> object:
    """Values fit for the page: every character in them can be shown, and no text fills a book."""
    if isinstance(value, str):
        is_running = name not in UNBROKEN
        return showable(_begun(value) if is_running else value, breaking=is_running)
    if isinstance(value, dict):
        return {key: _shown(each, key) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_shown(each, name) for each in value]
    return value


def _begun(text: str) -> str:
    """The text, or the beginning of one that somebody filled pages with, and where the rest is."""
    if len(text) <= LONGEST_TEXT:
        return text
    left = said(
        "[{shown} of {all} characters are printed here; the case holds the whole text.]",
        shown=f"{LONGEST_TEXT:,}",
        all=f"{len(text):,}",
    )
    return f"{text[:LONGEST_TEXT]}… {left}"
