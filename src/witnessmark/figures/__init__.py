"""An Opinion drawn: SVG as text, the same for page and paper, told by shape and word."""

from witnessmark.figures.agreement_grid import agreement_grid, agreement_grids
from witnessmark.figures.curve import assumption_curve
from witnessmark.figures.records import Figure
from witnessmark.figures.weight_strip import weight_strip, weight_strips

__all__ = [
    "Figure",
    "agreement_grid",
    "agreement_grids",
    "assumption_curve",
    "weight_strip",
    "weight_strips",
]
