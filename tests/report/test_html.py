"""The page for a browser: it says all that its outline says, is sound, and needs nothing."""

import re
from dataclasses import fields, is_dataclass, replace
from datetime import date
from functools import cache, partial
from html.parser import HTMLParser
from itertools import pairwise, product

import pytest

from tests.worked.opened import DEMO, book_and_version, case_of, opinion_of
from witnessmark.catalogue import Catalogue
from witnessmark.codebook.sketches import sketches
from witnessmark.figures.sketch import sketch
from witnessmark.outline import records
from witnessmark.outline.letters import visible
from witnessmark.outline.records import Outline, Section, TableCell
from witnessmark.report import build_outline, report_text
from witnessmark.report.outline import build_annex
from witnessmark.report.press.html.blocks import _SET
from witnessmark.report.press.html.drawings import figure_svg
from witnessmark.report.press.html.markup import EMPTY
from witnessmark.report.press.html.page import OPENING, STYLE, write_html
from witnessmark.report.press.pictures import prepare_pictures

PRINTED = date(2026, 11, 30)
ALL_CARS = ("clean", "no-papers", "panel", "altered", "swapped", "dressed")
MOST_BYTES = 2_500_000
"""Of a whole report with its photographs, to be sent with a letter."""
NOT_RUNNING = {
    "svg",
    "told",
    "about",
    "file",
    "kind",
    "tone",
    "sign",
    "id",
    "language",
    "printed_iso",
    "case_id",
}
"""Fields of blocks that are no text to be read."""

every_document = pytest.mark.parametrize(
    ("car", "build"), [*product(ALL_CARS, (build_outline, build_annex))]
)


@cache
def pictures_of(car):
    entries = case_of(car).exhibits
    files = {each.id: (DEMO / car / "exhibits" / each.file).read_bytes() for each in entries}
    return prepare_pictures(entries, files)


@cache
def outline_of(car, build):
    return build(opinion_of(car), book_and_version()[0], PRINTED, pictures_of(car))


@cache
def page_of(car, build):
    return write_html(outline_of(car, build), pictures_of(car)).decode()


class Read(HTMLParser):
    """What a page holds: its text, its elements with their attributes, and whether each ends
    where it should."""

    def __init__(self, page):
        super().__init__()
        self.open, self.elements, self.texts, self.wrong = [], [], [], []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))
        if len(dict(attrs)) != len(attrs):
            self.wrong.append(f"{tag} has an attribute twice")
        if tag not in EMPTY:
            self.open.append(tag)
        if tag == "br":
            self.texts.append("\n")

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.wrong.append(f"{tag} ends where it is not open")

    def handle_data(self, data):
        if self.open and self.open[-1] != "style":
            self.texts.append(data)

    def all_of(self, name):
        return [value for _, each in self.elements for key, value in each.items() if key == name]

    def said(self):
        """The text, and what is heard in place of pictures and figures, without white space."""
        heard = (*self.all_of("alt"), *self.all_of("aria-label"))
        return squeezed("".join(self.texts)) + squeezed("|".join(heard))


def squeezed(text):
    return "".join(text.split())


def texts_in(value, name=""):
    """Every text of a record that is to be read."""
    if isinstance(value, str):
        if name not in NOT_RUNNING and value:
            yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from texts_in(each, name)
    elif is_dataclass(value) and not isinstance(value, records.PageWords):
        for each in fields(value):
            yield from texts_in(getattr(value, each.name), each.name)


@every_document
def test_it_says_all_that_the_outline_says(car, build):
    said = Read(page_of(car, build)).said()
    left = {each for each in texts_in(outline_of(car, build)) if squeezed(each) not in said}
    shown = {each.exhibit for each in pictures_of(car) if each.jpeg}
    assert shown
    assert left == set()


def figures_in(value):
    """Every figure of a record, with its sentence."""
    if isinstance(value, records.Drawing):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from figures_in(each)
    elif is_dataclass(value):
        for each in fields(value):
            yield from figures_in(getattr(value, each.name))


@every_document
def test_a_figure_has_a_title_and_says_its_sentence_once(car, build):
    """Not below the drawing and in what follows as well; nor does the text for a screen."""
    figures = list(figures_in(outline_of(car, build)))
    page, text = page_of(car, build), report_text(outline_of(car, build))
    assert all(each.title and each.caption.endswith(".") for each in figures)
    captions = [each.caption for each in figures]
    for caption in captions:
        times = sum(caption in each for each in captions)
        assert squeezed("".join(Read(page).texts)).count(squeezed(caption)) == times
        assert text.count(caption) == times


@every_document
def test_every_element_ends_where_it_should_and_no_two_ids_are_alike(car, build):
    read = Read(page_of(car, build))
    ids = read.all_of("id")
    assert (read.wrong, read.open) == ([], [])
    assert sorted(ids) == sorted(set(ids))
    assert {each[1:] for each in read.all_of("href")} <= set(ids)
    assert {each for names in read.all_of("aria-labelledby") for each in names.split()} <= set(ids)


@every_document
def test_headings_and_landmarks_stand_in_order(car, build):
    """One title; no level is left out; each part of the page once."""
    tags = [tag for tag, _ in Read(page_of(car, build)).elements]
    levels = [int(tag[1]) for tag in tags if re.fullmatch("h[1-6]", tag)]
    assert (levels[0], levels.count(1)) == (1, 1)
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert [t for t in tags if t in ("header", "main", "nav", "footer")] == [
        "header", "main", "nav", "footer",
    ]  # fmt: skip


@every_document
def test_it_fetches_nothing_and_runs_nothing(car, build):
    """Only its own photographs and steps within the page are addressed; the browser is told."""
    page = page_of(car, build)
    read = Read(page)
    tags = {tag for tag, _ in read.elements}
    assert tags & {"script", "link", "iframe", "object", "form"} == set()
    assert [key for _, each in read.elements for key in each if key.startswith("on")] == []
    assert all(each.startswith("data:image/jpeg;base64,") for each in read.all_of("src"))
    assert all(re.fullmatch(r"#\w+", each) for each in read.all_of("href"))
    assert [each for each in ("url(", "@import") if each in page] == []
    assert "default-src 'none'" in read.all_of("content")[0]


@every_document
def test_it_is_small_enough_to_be_sent(car, build):
    assert len(page_of(car, build)) < MOST_BYTES


def test_the_same_outline_gives_the_same_bytes():
    outline, pictures = outline_of("clean", build_outline), pictures_of("clean")
    page = write_html(outline, pictures)
    assert page == write_html(outline, pictures)
    assert page.startswith(OPENING)


def test_a_photograph_has_its_size_and_is_named():
    read = Read(page_of("clean", build_outline))
    images = [each for tag, each in read.elements if tag == "img"]
    assert images
    for each in images:
        assert each["alt"].startswith("Photograph ")
        assert 0 < max(int(each["width"]), int(each["height"])) <= 1400


def test_a_photograph_that_cannot_be_shown_says_why():
    bare = Read(write_html(outline_of("clean", build_outline)).decode())
    assert "img" not in {tag for tag, _ in bare.elements}


HOSTILE = (
    "</title></style><script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "' onmouseover='x",
    "]]><!-- --><svg onload=x>",
    "&lt;b&gt; &amp;#60; {title} {0} %s {{x}}",
    "javascript:x \u202e\x07\x00 https://example.com/a?b=c&d",
)


@pytest.mark.parametrize("text", HOSTILE)
def test_what_somebody_typed_is_text_wherever_it_stands(text):
    """In every field of every kind of block of a whole report."""
    outline = outline_of("clean", build_outline)
    spoiled = spoil(outline, text)
    read = Read(write_html(spoiled, pictures_of("clean")).decode())
    plain = Read(page_of("clean", build_outline))
    assert read.wrong == []
    assert [tag for tag, _ in read.elements if tag != "br"] == [
        tag for tag, _ in plain.elements if tag != "br"
    ]
    assert {key for _, each in read.elements for key in each} == {
        key for _, each in plain.elements for key in each
    }
    assert squeezed(visible(text)) in read.said()


def spoil(value, text, name=""):
    """The same record with `text` behind every text that is to be read."""
    if isinstance(value, str):
        return value + text if value and name not in NOT_RUNNING else value
    if isinstance(value, tuple):
        return tuple(spoil(each, text, name) for each in value)
    if is_dataclass(value) and not isinstance(value, records.PageWords):
        named = [each.name for each in fields(value) if each.init and each.name != "kind"]
        return replace(value, **{each: spoil(getattr(value, each), text, each) for each in named})
    return value


def test_every_kind_of_block_can_be_set_but_what_is_filled_in_by_hand():
    by_hand = {
        records.Cards, records.WriteIn, records.CharacterBoxes, records.TickBoxes,
        records.DrawnBoxes,
    }  # fmt: skip
    assert set(_SET) == set(records.Block.__args__) - by_hand


def test_a_signature_and_a_character_that_is_pointed_at_are_read():
    blocks = (
        records.Signature("A. Smith", "surveyor", "the body"),
        records.Pointed("4K 17", 4, "no figure"),
        records.table_of(("a", "b")),
        records.Table((), ()),
    )
    outline = Outline("A sheet", (), (Section("One", blocks),))
    read = Read(write_html(outline).decode())
    said = read.said()
    assert [each for each in texts_in(blocks) if squeezed(each) not in said] == []
    assert said.count("^") == 1


def test_nothing_of_a_figure_is_lost_and_what_draws_nothing_is():
    bad = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9" onload="x"><title>t</title>'
        '<script>x</script><a href="x"><path d="M 0 0"/></a><rect width="3" style="x" fill="none"/>'
        '<text x="1">a &lt; b</text></svg>'
    )
    assert figure_svg(bad, "told") == (
        '<svg viewBox="0 0 9 9" class="figure" role="img" aria-label="told">'
        '<rect width="3" fill="none"></rect><text x="1">a &lt; b</text></svg>'
    )
    figures = [
        each.svg
        for car, build in product(("clean", "altered"), (build_outline, build_annex))
        for each in drawn_in(outline_of(car, build))
    ]
    assert figures
    for svg in figures:
        shapes = r"<(?:path|line|circle|rect|text|g)\b"
        assert len(re.findall(shapes, figure_svg(svg))) == len(re.findall(shapes, svg))


def drawn_in(value):
    if isinstance(value, tuple):
        for each in value:
            yield from drawn_in(each)
    elif is_dataclass(value):
        if getattr(value, "svg", ""):
            yield value
        for each in fields(value):
            yield from drawn_in(getattr(value, each.name))


def tones(style):
    """The colours of each appearance, by name: in the light, then in the dark."""
    light, dark = re.findall(r":root \{(.*?)\}", style, re.DOTALL)
    of = partial(re.findall, r"--([a-z]+): (#[0-9a-f]{6})")
    return dict(of(light)), dict(of(light)) | dict(of(dark))


def luminance(colour):
    """Relative luminance as WCAG 2 defines it."""
    parts = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("colours", tones(STYLE.read_text("utf-8")))
def test_text_can_be_read_on_either_ground(colours):
    """4.5 to 1 for text (WCAG 2, 1.4.3)."""
    for text, ground in product(("ink", "soft", "first", "second"), ("paper", "pale")):
        bright, dim = sorted((luminance(colours[text]), luminance(colours[ground])), reverse=True)
        assert (bright + 0.05) / (dim + 0.05) >= 4.5, (text, ground)


def test_every_tone_of_a_figure_has_its_counterpart_in_the_dark():
    style = STYLE.read_text("utf-8")
    svgs = [each.svg for each in drawn_in(outline_of("altered", build_outline))]
    svgs += [sketch(each).svg for each in sketches().values()]
    used = {each for svg in svgs for each in re.findall(r'(?:fill|stroke)="(#\w+)"', svg)}
    assert used
    assert all(f'[fill="{c}"]' in style and f'[stroke="{c}"]' in style for c in used)


def test_the_words_of_the_page_itself_come_from_the_catalogue():
    french = Catalogue("fr", {"Contents": "Sommaire"})
    assert "Sommaire" in write_html(outline_of("clean", build_outline), (), french).decode()


def test_a_cell_says_its_bar_in_words_too():
    """A shape is not heard: it is hidden where the words beside it say the same."""
    table = records.Table(
        ("What", "LR"),
        (
            (
                TableCell("a"),
                TableCell("7", bar=0.8, svg=""),
            ),
        ),
    )
    page = write_html(Outline("T", (table,))).decode()
    assert '<svg class="bar" aria-hidden="true">' in page
    assert ">7<" in page
