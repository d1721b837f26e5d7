"""Where the words of a figure stand: their rectangles, and what every figure must keep."""

from dataclasses import dataclass
from itertools import combinations
from xml.etree import ElementTree

from tests.never_said import never_said
from witnessmark.figures import Figure
from witnessmark.figures.drawing import MONO_WIDTH, SANS_WIDTH, width_of

SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True)
class Text:
    """A line of text and the rectangle it takes."""

    text: str
    left: float
    right: float
    top: float
    bottom: float

    def meets(self, other: "Text") -> bool:
        """Do the two cover each other by more than a hair?"""
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across > 0.1 and down > 0.1


def root_of(figure: Figure) -> ElementTree.Element:
    """The drawing as a tree: it must be well-formed XML."""
    return ElementTree.fromstring(figure.svg)


def texts_of(figure: Figure) -> list[Text]:
    """Every line of text with its rectangle, in the order in which it is drawn."""
    return [_text(each) for each in root_of(figure).iter(f"{SVG}text")]


def lines_of(figure: Figure) -> list[str]:
    """Every line of text."""
    return [each.text for each in texts_of(figure)]


def flowing(figure: Figure) -> str:
    """All lines one after the other, as they are read."""
    return " ".join(lines_of(figure))


def _text(element: ElementTree.Element) -> Text:
    size = float(element.get("font-size", ""))
    share = MONO_WIDTH if "Code" in element.get("font-family", "") else SANS_WIDTH
    text = element.text or ""
    x, y, width = float(element.get("x", "")), float(element.get("y", "")), 0.0
    width = width_of(text, size, share)
    left = {"start": x, "middle": x - width / 2, "end": x - width}[element.get("text-anchor", "")]
    return Text(text, left, left + width, y - 0.72 * size, y + 0.22 * size)


def assert_apart(figure: Figure) -> None:
    """No line of text covers another."""
    for one, other in combinations(texts_of(figure), 2):
        assert not one.meets(other), (one, other)


def assert_well_laid_out(figure: Figure) -> None:
    """Title and sentence inside, all words inside the view box, none over another, large enough."""
    root = root_of(figure)
    assert root.findtext(f"{SVG}title") == figure.title
    assert root.findtext(f"{SVG}desc") == figure.caption
    width, height = (float(n) for n in root.get("viewBox", "").split()[2:])
    assert_apart(figure)
    for each in texts_of(figure):
        assert each.left >= -0.1, each
        assert each.right <= width + 0.1, each
        assert each.top >= -0.1, each
        assert each.bottom <= height + 0.1, each
    sizes = {float(each.get("font-size", "")) for each in root.iter(f"{SVG}text")}
    assert all(size >= 9.5 for size in sizes)
    for each in root.iter(f"{SVG}rect"):
        assert float(each.get("x", "")) + float(each.get("width", "")) <= width + 0.1
    assert not never_said(figure.caption)
    assert not never_said(flowing(figure))
