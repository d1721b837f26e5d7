"""An Opinion drawn: SVG as text, the same for page and paper, told by shape and word."""

from witnessmark.figures.car_sites import SitePlace, car_sites, site_map
from witnessmark.figures.curve import assumption_curve
from witnessmark.figures.data_plate import data_plate
from witnessmark.figures.records import Figure
from witnessmark.figures.time_line import TimeLine, time_line
from witnessmark.figures.weight_strip import strip_axis, strip_legend, weight_strip

__all__ = [
    "Figure",
    "SitePlace",
    "TimeLine",
    "assumption_curve",
    "car_sites",
    "data_plate",
    "site_map",
    "strip_axis",
    "strip_legend",
    "time_line",
    "weight_strip",
]
