"""Blocks of an outline as HTML: the same that the HTML report is set with."""

import re
from collections.abc import Callable, Iterable

from django.utils.safestring import SafeString

from witnessmark.outline.records import Block, Outline, PageWords, Photograph
from witnessmark.report.press.html.blocks import HtmlPage, ShownPhotograph, blocks_of
from witnessmark.report.press.html.drawings import figure_svg

_STYLE = re.compile(r' style="[^"]*"')
"""Widths of columns in a file of its own; here the style sheet alone says how things look."""


def drawn(
    blocks: tuple[Block, ...],
    level: int = 3,
    leads: Callable[[tuple[str, ...]], Iterable[tuple[str, str]]] = lambda about: (),
) -> SafeString:
    """Blocks one below the other, headings among them from this level on; `leads` gives the ways
    to what a cell speaks of."""
    page = HtmlPage(PageWords(), _no_photograph, level, leads)
    return SafeString(_STYLE.sub("", blocks_of(blocks, page)))


def drawn_outline(outline: Outline) -> tuple[tuple[str, SafeString], ...]:
    """Each section's title and what stands in it; what stands before them first, untitled."""
    front = (("", drawn(outline.front)),) if outline.front else ()
    return (*front, *((each.title, drawn(each.blocks)) for each in outline.sections))


def figure(svg: str, told: str) -> SafeString:
    """A figure as part of the page, with what is heard in its place."""
    return SafeString(figure_svg(svg, told))


def _no_photograph(photograph: Photograph, across: int) -> ShownPhotograph | None:
    """Pages show photographs by their own addresses."""
    return None
