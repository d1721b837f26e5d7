"""A sketch of the vocabulary: what an outcome looks like, for who stands at the car.

Each is drawn once, as `sketches/<name>.svg`. All have one size, one frame and the same tones, so
that none stands out.
"""

from pathlib import Path

from witnessmark.catalogue import as_said, said
from witnessmark.codebook.sketches import Sketch
from witnessmark.figures.drawing import SOFT, box, figure
from witnessmark.figures.records import Figure

FOLDER = Path(__file__).with_name("sketches")
SKETCH_WIDTH, SKETCH_HEIGHT = 60.0, 40.0
"""Size of every sketch in points."""
PAPER = "#ffffff"


def drawing(which: Sketch) -> Path:
    """The file in which a sketch is drawn."""
    return FOLDER / f"{which.name.replace(' ', '-')}.svg"


def sketch(which: Sketch) -> Figure:
    """The sketch of this name; its title says what is drawn, its caption from where it is seen."""
    paper = box(0, 0, SKETCH_WIDTH, SKETCH_HEIGHT, fill=PAPER)
    inside = drawing(which).read_text("utf-8").strip()
    wide, high = SKETCH_WIDTH - 1, SKETCH_HEIGHT - 1
    frame = box(0.5, 0.5, wide, high, stroke=SOFT, stroke_width=0.6)
    parts = [paper, inside, frame]
    return figure(
        f"sketch {which.name}",
        as_said(which.title),
        as_said(which.view),
        SKETCH_HEIGHT,
        parts,
        width=SKETCH_WIDTH,
    )


def heard(which: Sketch) -> str:
    """What stands for the sketch where it is not seen."""
    return said("Sketch: {title}. {view}", title=as_said(which.title), view=as_said(which.view))
