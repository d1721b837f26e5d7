"""What is written in a drawing, as boxes: enough to see that no text runs into another."""

from dataclasses import dataclass
from xml.etree import ElementTree

from witnessmark.figures.drawing import MONO_WIDTH, SANS_WIDTH, width_of

SVG = "{http://www.w3.org/2000/svg}"
OUTSIDE = 0.5
"""Points by which an estimated box may reach over an edge."""


@dataclass(frozen=True)
class Written:
    """One line of text with the box that it takes by the estimate of its width."""

    text: str
    left: float
    top: float
    right: float
    bottom: float
    anchor: str
    y: float

    def touches(self, other):
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


def tree(figure):
    """The drawing as a tree: it must be well-formed XML."""
    return ElementTree.fromstring(figure.svg)


def written(figure):
    """Every line of text of a drawing."""
    return [_box(each) for each in tree(figure).iter(f"{SVG}text")]


def _box(element):
    size = float(element.get("font-size"))
    is_mono = "Code" in element.get("font-family")
    wide = width_of(element.text, size, MONO_WIDTH if is_mono else SANS_WIDTH)
    x, y = float(element.get("x")), float(element.get("y"))
    anchor = element.get("text-anchor")
    left = x - {"start": 0, "middle": wide / 2, "end": wide}[anchor]
    return Written(element.text, left, y - 0.7 * size, left + wide, y + 0.2 * size, anchor, y)


def assert_clean(figure):
    """Every text stands inside the drawing, is at least 9.5 points tall and touches no other."""
    root = tree(figure)
    width, height = (float(part) for part in root.get("viewBox").split()[2:])
    texts = written(figure)
    for each in root.iter(f"{SVG}text"):
        assert float(each.get("font-size")) >= 9.5
    for each in texts:
        assert each.left >= -OUTSIDE, each
        assert each.right <= width + OUTSIDE, each
        assert each.top >= -OUTSIDE, each
        assert each.bottom <= height + OUTSIDE, each
    ordered = sorted(texts, key=lambda each: each.top)
    for at, each in enumerate(ordered):
        for other in ordered[at + 1 :]:
            if other.top >= each.bottom:
                break
            assert not each.touches(other), (each, other)
