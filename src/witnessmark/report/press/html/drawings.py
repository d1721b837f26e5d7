"""Drawings inside a page: figures taken in by what they draw, signs and bars.

A figure comes as SVG text. Only elements and attributes that draw are taken over, so that a page
holds no script, no address and no two ids that are alike; `page.css` knows the tones by their
values and gives each its counterpart for the dark.
"""

from xml.etree import ElementTree

from witnessmark.report.press.html.markup import Markup, element, joined

SVG = "{http://www.w3.org/2000/svg}"
DRAWN = frozenset(
    ("svg", "g", "path", "line", "circle", "rect", "polygon", "polyline", "ellipse")
    + ("text", "tspan", "title")
)
SHAPED = frozenset(
    ("viewBox", "x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "rx", "ry", "d", "points")
    + ("width", "height", "transform", "fill", "fill-opacity", "stroke", "stroke-width")
    + ("stroke-dasharray", "stroke-linejoin", "stroke-linecap")
    + ("font-family", "font-size", "font-weight", "text-anchor")
)

SIDE = 9
SIGNS = {
    "agrees": Markup('<circle cx="4.5" cy="4.5" r="4" fill="#1f5c66"/>'),
    "differs": Markup('<path d="M 0 0.5 L 9 0.5 4.5 8.5 Z" fill="#8a3d14"/>'),
    "declared": Markup('<path d="M 0 0.5 L 9 0.5 4.5 8.5 Z" fill="none" stroke="#1c2430"/>'),
    "undecided": Markup(
        '<circle cx="4.5" cy="4.5" r="3.7" fill="none" stroke="#1c2430"/>'
        '<path d="M 4.5 0.8 A 3.7 3.7 0 0 0 4.5 8.2 Z" fill="#1c2430"/>'
    ),
    "alone": Markup('<circle cx="4.5" cy="4.5" r="3.7" fill="none" stroke="#55606e"/>'),
    "silent": Markup('<path d="M 0 4.5 L 9 4.5" stroke="#55606e" stroke-width="1.4"/>'),
}
"""The shape before the word of a cell: each would be known without its colour."""

REACH = 4
"""A bar ends at this log10 LR either way."""


def figure_svg(svg: str, told: str = "", class_: str = "figure") -> Markup:
    """A figure as part of the page; `told` is what is heard in its place, nothing where the text
    beside it says the same."""
    whole = ElementTree.fromstring(svg)
    for child in [each for each in whole if each.tag in (f"{SVG}title", f"{SVG}desc")]:
        whole.remove(child)
    role = {"role": "img", "aria_label": told} if told else {"aria_hidden": "true"}
    inside = joined(*map(_taken, whole))
    return element("svg", inside, viewBox=whole.get("viewBox"), class_=class_, **role)


def _taken(drawn: ElementTree.Element) -> Markup:
    """One element of a figure with what is in it; nothing where it is none that draws."""
    name = str(drawn.tag).removeprefix(SVG)
    if name not in DRAWN:
        return Markup("")
    kept = {key: value for key, value in drawn.attrib.items() if key in SHAPED}
    return element(
        name,
        drawn.text or "" if name in ("text", "tspan", "title") else Markup(""),
        *map(_taken, drawn),
        **kept,
    )


def sign(name: str) -> Markup:
    """The shape of this name; nothing where none has it."""
    if name not in SIGNS:
        return Markup("")
    box = f"0 0 {SIDE} {SIDE}"
    return element("svg", SIGNS[name], viewBox=box, class_="sign", aria_hidden="true")


def bar(log10_lr: float) -> Markup:
    """A ratio from the middle of its cell: to the right for the first proposition, ending in the
    shape that says so too; to the left for the second; hardly either way it is a ring."""
    reach = max(-1.0, min(1.0, log10_lr / REACH))
    end = "alone" if abs(reach) < 0.01 else "agrees" if reach > 0 else "differs"
    tone = "#1f5c66" if reach > 0 else "#8a3d14"
    begin, wide, tip = (50 + 48 * min(0, reach), 48 * abs(reach), 50 + 48 * reach)
    parts = (
        element("rect", width="100%", height="9", fill="#eceff1"),
        element("line", x1="50%", x2="50%", y1="0", y2="9", stroke="#55606e"),
        element("rect", x=f"{begin:.1f}%", width=f"{wide:.1f}%", y="3", height="3", fill=tone),
        element(
            "svg",
            element("g", SIGNS[end], transform="translate(-4.5 0)"),
            x=f"{tip:.1f}%",
            overflow="visible",
        ),
    )
    return element("svg", *parts, class_="bar", aria_hidden="true")
