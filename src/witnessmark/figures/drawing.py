"""The pencil: SVG elements as text, with every value escaped and nothing evaluated.

Text is measured only roughly (SVG has no layout of its own): widths are
generous estimates, so that nothing is cut off. Every figure is drawn in ink
and greys with shapes and words; the two tints only repeat what those say.
"""

from xml.sax.saxutils import escape

from witnessmark.figures.records import Figure
from witnessmark.outline.letters import one_line

WIDTH = 482.0
"""Width of every figure in points: the text width of the report's page."""

PAGE_HEIGHT = 560.0
"""Points that a figure may be tall: with headings above it, it stays on a page of any paper."""

SANS = "'Source Sans 3', 'DejaVu Sans', sans-serif"
MONO = "'Source Code Pro', 'DejaVu Sans Mono', monospace"

INK = "#1c2430"
SOFT = "#55606e"
LINE = "#aab2bb"
PALE = "#eceff1"
FIRST = "#1f5c66"
SECOND = "#8a3d14"

SANS_WIDTH = 0.5
MONO_WIDTH = 0.6
"""Width of an average character, as a share of the size of the letters."""


def escaped(text: str) -> str:
    """Text that can stand in an element or an attribute and can only be text."""
    return escape(one_line(text), {'"': "&quot;", "'": "&#39;"})


def num(amount: float) -> str:
    """A coordinate with at most two decimals.

    >>> num(3.0), num(2.345)
    ('3', '2.35')
    """
    return f"{amount:.2f}".rstrip("0").rstrip(".") if amount else "0"


def width_of(text: str, size: float, share: float = SANS_WIDTH) -> float:
    """About how wide the text is, in points."""
    return len(text) * size * share


def words(
    x: float,
    y: float,
    text: str,
    *,
    size: float = 10,
    fill: str = INK,
    anchor: str = "start",
    strong: bool = False,
    mono: bool = False,
) -> str:
    """A line of text whose base line begins, ends or is centred at (x, y)."""
    weight = ' font-weight="600"' if strong else ""
    family = MONO if mono else SANS
    if mono:
        weight = ' font-weight="500"'
    return (
        f'<text x="{num(x)}" y="{num(y)}" font-family="{family}" font-size="{num(size)}"'
        f'{weight} fill="{fill}" text-anchor="{anchor}">{escaped(text)}</text>'
    )


def line(
    x1: float,
    y1: float,
    x2: float,
    y2: float,
    *,
    stroke: str = LINE,
    width: float = 0.6,
    dash: str = "",
) -> str:
    """A straight line."""
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<line x1="{num(x1)}" y1="{num(y1)}" x2="{num(x2)}" y2="{num(y2)}" '
        f'stroke="{stroke}" stroke-width="{num(width)}"{dashes}/>'
    )


def box(
    x: float,
    y: float,
    width: float,
    height: float,
    *,
    fill: str = "none",
    stroke: str = "none",
    stroke_width: float = 0.8,
    radius: float = 0,
) -> str:
    """A rectangle."""
    return (
        f'<rect x="{num(x)}" y="{num(y)}" width="{num(width)}" height="{num(height)}" '
        f'rx="{num(radius)}" fill="{fill}" stroke="{stroke}" stroke-width="{num(stroke_width)}"/>'
    )


def path(d: str, *, fill: str = "none", stroke: str = "none", width: float = 1.0) -> str:
    """A path whose commands were composed of numbers only."""
    return (
        f'<path d="{d}" fill="{fill}" stroke="{stroke}" stroke-width="{num(width)}" '
        f'stroke-linejoin="round" stroke-linecap="round"/>'
    )


def disc(x: float, y: float, radius: float, *, fill: str = INK, stroke: str = INK) -> str:
    """A circle, filled or open."""
    return (
        f'<circle cx="{num(x)}" cy="{num(y)}" r="{num(radius)}" fill="{fill}" '
        f'stroke="{stroke}" stroke-width="1.2"/>'
    )


def group(parts: list[str], title: str = "") -> str:
    """Parts that belong together; the title is what is heard and shown on hovering."""
    head = f"<title>{escaped(title)}</title>" if title else ""
    return f"<g>{head}{''.join(parts)}</g>"


def wrapped(text: str, width: float, size: float, share: float = SANS_WIDTH) -> list[str]:
    """The text in lines no wider than `width` points; a long word is broken."""
    most = max(1, int(width / (size * share)))
    lines: list[str] = []
    current = ""
    for word in one_line(text).split(" "):
        while len(word) > most:
            if current:
                lines.append(current)
                current = ""
            lines.append(word[:most])
            word = word[most:]
        joined = f"{current} {word}".strip()
        if len(joined) > most:
            lines.append(current)
            current = word
        else:
            current = joined
    return [*lines, current] if current or not lines else lines


def figure(
    name: str, title: str, caption: str, height: float, parts: list[str], *, width: float = WIDTH
) -> Figure:
    """The finished drawing; `name` makes its ids unique among the figures of one page."""
    key = escaped(name.replace(" ", "-"))
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {num(width)} {num(height)}" '
        f'width="{num(width)}pt" height="{num(height)}pt" role="img" '
        f'aria-labelledby="{key}-title {key}-desc">'
        f'<title id="{key}-title">{escaped(title)}</title>'
        f'<desc id="{key}-desc">{escaped(caption)}</desc>'
        f"{''.join(parts)}</svg>"
    )
    return Figure(svg, title, caption)
