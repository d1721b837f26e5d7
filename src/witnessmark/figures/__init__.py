"""An Opinion drawn: SVG as text, the same for page and paper, told by shape and word."""

from witnessmark.figures.car_sites import car_sites, car_sites_sheets, site_map, site_maps
from witnessmark.figures.contributions import contributions
from witnessmark.figures.curve import assumption_curve
from witnessmark.figures.data_plate import data_plate, data_plate_sheets
from witnessmark.figures.place_list import SitePlace
from witnessmark.figures.records import Figure
from witnessmark.figures.time_line import time_line, time_lines
from witnessmark.figures.weight_strip import weight_strip, weight_strips, weight_strips_sheets

__all__ = [
    "Figure",
    "SitePlace",
    "assumption_curve",
    "car_sites",
    "car_sites_sheets",
    "contributions",
    "data_plate",
    "data_plate_sheets",
    "site_map",
    "site_maps",
    "time_line",
    "time_lines",
    "weight_strip",
    "weight_strips",
    "weight_strips_sheets",
]
