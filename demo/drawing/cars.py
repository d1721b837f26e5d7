"""The photographs of the four cars of the first way, whose parts have numbers of their own."""

from drawing import places, records
from drawing.characters import Row, strike
from drawing.fittings import box, disc, ground_oval, round_dab
from drawing.light import photograph
from drawing.sheets import photocopied
from drawing.surface import Colour, Surface, machine, noise, painted, rust, step
from drawing.whole_car import SALOON, SPRINT, Draw, both_views

SIGNAL_RED = (138, 42, 36)
SILVER = (150, 154, 156)
SAXE_BLUE = (86, 114, 146)
LAGOON = (58, 122, 138)
FRESH_GREY = (132, 136, 136)
CARD_CLEAN = ("700143", "4", "M", "0931", "40047", "22064", "32036", "A", "17", "L2", "09 05 55")
CARD_ALTERED = ("700236", "4", "M", "", "40144", "24801", "34723", "A", "22", "L2", "")
LEDGER = (
    ("700141", "4", "40043", "M", "0926", "11", "06 05 55"),
    ("552088", "2", "11972", "E", "2364", "15", "09 05 55"),
    ("700143", "4", "40047", "M", "0931", "17", "12 05 55"),
    ("550231", "1", "11980", "E", "2371", "12", "12 05 55"),
    ("552089", "2", "11975", "M", "0929", "13", "13 05 55"),
    ("550232", "1", "11983", "E", "2374", "14", "16 05 55"),
)


def clean_plate() -> bytes:
    """Polished by owners, every window struck by hand, the last one never."""
    surface = painted(11, SIGNAL_RED, gloss=0.3, age=0.2)
    windows = ("SP", "700143", "40047", "17", "L2", "370", "")
    places.brass_plate(surface, windows, worn={1: {2: 0.6}})
    places.round_rivets(surface)
    return photograph(surface)


def clean_frame() -> bytes:
    """Legible but for one figure in a pit and one with its lower edge worn."""
    surface = places.rail(12, rusted=0.34, pits=0.8)
    row = Row("4 700143", 190, 390, 118, 0.78, 7, 3.5, worn={0: 0.3, 3: 0.2, 4: 0.84, 6: 0.74})
    strike(surface, row, depth=13)
    rust(surface, 0.2, pits=1.3)
    return photograph(surface, scale_mm=40)


def wing_of(surface: Surface, row: Row) -> Surface:
    """Marrick's inner wing: its number upside down, white dab beside it."""
    places.rippled(surface, row)
    strike(surface, row, depth=10)
    places.white_dab(surface, 1010, 330)
    return surface


def wing(seed: int, colour: Colour, row: Row) -> Surface:
    """The same on the bolted wing of a car on a frame."""
    return wing_of(places.bolted_wing(seed, colour), row)


def clean_wing() -> bytes:
    """Paint unbroken over bolts and panel, one figure a little worn."""
    row = Row("M 0931", 260, 330, 118, 0.62, 5, 3, upside_down=True, worn={3: 0.3})
    return photograph(wing(13, SIGNAL_RED, row), scale_mm=40)


def seat(seed: int, row: Row) -> Surface:
    """A number in the seat pan, primer in its grooves."""
    surface = places.seat_pan(seed)
    places.rippled(surface, row)
    strike(surface, row, depth=11)
    return surface


def clean_seat() -> bytes:
    """The clearest of the body numbers."""
    return photograph(seat(14, Row("M 0931", 250, 380, 130, 0.8, 6, 3)), scale_mm=40)


def bulkhead(
    seed: int, colour: Colour, number: Row, week: str, worn: places.Worn = places.NONE_WORN
) -> Surface:
    """Body number above, week code in smaller gang-struck figures below."""
    surface = places.bulkhead(seed, colour)
    places.rippled(surface, number)
    strike(surface, number, depth=9)
    strike(surface, Row(week, 520, 520, 70, 0.66, 0.5, 0.4, worn=worn), depth=7)
    return surface


def clean_bulkhead() -> bytes:
    """One figure lost under thick paint."""
    row = Row("M 0931", 300, 330, 118, 0.72, 5, 3, worn={4: 0.72})
    return photograph(bulkhead(15, SIGNAL_RED, row, "DB5"), scale_mm=40)


def clean_engine() -> bytes:
    """Tool lines run under the characters."""
    surface = places.deck(16)
    strike(surface, Row("L 40047", 250, 390, 124, 0.8, 6, 3), depth=11)
    return photograph(surface, scale_mm=40)


def clean_ledger() -> bytes:
    """The page with the line of this car."""
    return photograph(records.ledger(17, LEDGER), elevation=62)


def clean_card() -> bytes:
    """Folded, stained, filled in by hand."""
    return photograph(records.handled(records.card(18, CARD_CLEAN)), elevation=58)


def lost_plate() -> bytes:
    """Off the car, on a cloth, its four holes empty."""
    surface = places.cloth(21)
    windows = ("SP", "700157", "40061", "18", "L1", "370", "H")
    places.brass_plate(surface, windows, worn={2: {3: 0.5}})
    places.open_holes(surface)
    return photograph(surface, elevation=28)


def lost_frame() -> bytes:
    """Pitted evenly: that something was struck can be felt and not read."""
    surface = places.rail(22, rusted=0.8, pits=0.8, colour=(74, 58, 48))
    ghost = dict.fromkeys(range(8), 0.95)
    strike(surface, Row("4 700157", 190, 390, 118, 0.78, 7, 3.5, worn=ghost), depth=11)
    rust(surface, 0.66, pits=1.3)
    return photograph(surface, scale_mm=40)


def lost_wing() -> bytes:
    """Dull paint and some rust, but unbroken over the bolts."""
    row = Row("M 0998", 260, 330, 118, 0.62, 5, 3, upside_down=True, worn={3: 0.5})
    surface = wing(23, SILVER, row)
    rust(surface, 0.2, pits=0.5)
    return photograph(surface, scale_mm=40)


def lost_seat() -> bytes:
    """Dry primer, the felt gone to dust."""
    surface = seat(24, Row("M 0998", 250, 380, 130, 0.8, 6, 3))
    rust(surface, 0.16, pits=0.6)
    return photograph(surface, scale_mm=40)


def lost_bulkhead() -> bytes:
    """Number, week code and dab."""
    row = Row("M 0998", 240, 330, 118, 0.72, 5, 3, worn={4: 0.55})
    surface = bulkhead(25, SILVER, row, "HC5", {0: 0.97, 2: 0.97})
    places.white_dab(surface, 930, 340)
    rust(surface, 0.22, pits=0.6)
    for x in (520, 614):
        rust(surface, 0.95, pits=1.4, where=step(-disc(surface, x, 520, 42), -1.1, -0.7))
    return photograph(surface, scale_mm=40)


def lost_engine() -> bytes:
    """The step is rusted: the tool lines are gone."""
    surface = places.deck(26)
    strike(surface, Row("L 40061", 250, 390, 124, 0.8, 6, 3, worn={4: 0.3}), depth=12)
    rust(surface, 0.62, pits=0.45)
    return photograph(surface, scale_mm=40)


def lost_ledger() -> bytes:
    """The stub of the missing leaf."""
    return photograph(records.missing_leaf(27), elevation=52)


def panel_plate() -> bytes:
    """The printed plate on its two hollow rivets, paint unbroken round it."""
    surface = painted(31, SAXE_BLUE, gloss=0.3, age=0.3)
    windows = ("582063", "20", "58", "E", "14029", "C", "15", "L3", "HW")
    places.aluminium_plate(surface, windows)
    return photograph(surface, elevation=42)


def panel_frame() -> bytes:
    """Clear, pits run through the characters."""
    surface = places.rail(32, rusted=0.26, pits=0.8)
    strike(surface, Row("2 582063", 190, 390, 118, 0.78, 7, 3.5, worn={6: 0.3}), depth=13)
    rust(surface, 0.16, pits=1.2)
    return photograph(surface, scale_mm=40)


def panel_wing() -> bytes:
    """A service panel: smooth primer where a number would stand, new bolts."""
    surface = places.bolted_wing(33, (122, 126, 124), new=True)
    return photograph(surface, scale_mm=40)


def panel_seat() -> bytes:
    """The tail of the chassis number behind Ellery's letter, wide apart."""
    return photograph(seat(34, Row("E 2063", 220, 380, 130, 0.98, 6, 3)), scale_mm=40)


def panel_engine() -> bytes:
    """The series letter of an exchange engine."""
    surface = places.deck(35)
    strike(surface, Row("X 02418", 250, 390, 124, 0.8, 6, 3), depth=11)
    return photograph(surface, scale_mm=40)


def panel_casting() -> bytes:
    """A whole raised date."""
    surface = places.block_side(36)
    places.casting_date(surface, "08F0")
    return photograph(surface, scale_mm=40)


def panel_invoice() -> bytes:
    """What the first owner's family kept."""
    return photograph(records.invoice(37), elevation=60)


def altered_plate() -> bytes:
    """Even modern figures, flat steel rivets, the outline of a wider plate."""
    surface = painted(41, LAGOON, gloss=0.34, age=0.12)
    places.earlier_plate(surface)
    windows = ("SP", "700236", "40144", "22", "L2", "370", "HW")
    places.brass_plate(surface, windows, punched=False)
    places.steel_rivets(surface)
    return photograph(surface)


def altered_wing() -> bytes:
    """Struck on a ground oval, bright in the grooves, no dab."""
    surface = painted(42, LAGOON, gloss=0.34, age=0.1)
    places.spot_welded_edge(surface)
    ground_oval(surface, 600, 360, 470, 170)
    strike(surface, Row("M 0236", 250, 360, 112, 1.06, 3, 1.4), depth=8, fresh=0.6)
    return photograph(surface, scale_mm=40)


def altered_dab() -> bytes:
    """Ellery's round dab beside a place that was ground and painted over."""
    surface = painted(43, FRESH_GREY, gloss=0.2, age=0.35)
    places.spot_welded_edge(surface)
    ground_oval(surface, 430, 350, 330, 130, metal=FRESH_GREY)
    round_dab(surface, 960, 350, 66, places.RED_DAB)
    return photograph(surface, scale_mm=40)


def altered_seat() -> bytes:
    """What the shell still says: a letter and six figures, primer in the grooves."""
    surface = seat(44, Row("E 590417", 160, 380, 118, 0.94, 6, 3))
    return photograph(surface, scale_mm=40)


def altered_engine() -> bytes:
    """The step was cut again at an angle: lines run over the characters."""
    surface = places.deck(45)
    strike(surface, Row("L 40144", 250, 390, 124, 0.8, 3, 1.5), depth=7, fresh=0.5)
    x = box(surface, 150, 250, 1060, 530, 10)
    machine(surface, 27, 0.55, x)
    surface.height -= x * 4
    return photograph(surface, scale_mm=40)


def altered_casting() -> bytes:
    """A whole raised date."""
    surface = places.block_side(46, (96, 100, 104))
    places.casting_date(surface, "21D9")
    return photograph(surface, scale_mm=40)


def altered_gearbox() -> bytes:
    """Number and week code in the round field of a borescope."""
    surface = places.gearbox_case(47)
    strike(surface, Row("24801", 300, 340, 104, 0.9, 5, 3, worn={2: 0.3}), depth=9)
    strike(surface, Row("199", 390, 500, 92, 0.9, 5, 3), depth=9)
    surface.tint((48, 42, 34), step(noise(surface, 60), 0.5, 1.2) * 0.6)
    places.borescope(surface)
    return photograph(surface, elevation=40)


def altered_rail() -> bytes:
    """Underseal cut away, bare ground metal, crisp characters through the pits."""
    surface = places.floor(50)
    places.cleared(surface, 150, 412, 1010, 600)
    strike(surface, Row("4 700236", 210, 506, 96, 0.98, 3, 1.6), depth=9, fresh=0.5)
    return photograph(surface, scale_mm=40)


def altered_floor() -> bytes:
    """No rail: a pressed floor with a box section spot-welded to it."""
    return photograph(places.floor(48))


def altered_card() -> bytes:
    """A photocopy of one side that lost its foot."""
    surface = records.card(49, CARD_ALTERED, colour=(224, 216, 196))
    photocopied(surface, foot=650)
    return photograph(surface, elevation=70)


FIRST_WAY: dict[str, dict[str, Draw]] = {
    "clean": {
        **both_views(101, SIGNAL_RED, SPRINT, (112, 106, 98)),
        "plate": clean_plate,
        "frame": clean_frame,
        "wing": clean_wing,
        "seat": clean_seat,
        "bulkhead": clean_bulkhead,
        "engine": clean_engine,
        "ledger": clean_ledger,
        "card": clean_card,
    },
    "no-papers": {
        "plate": lost_plate,
        "frame": lost_frame,
        "wing": lost_wing,
        "seat": lost_seat,
        "bulkhead": lost_bulkhead,
        "engine": lost_engine,
        "ledger": lost_ledger,
    },
    "panel": {
        **both_views(103, SAXE_BLUE, None, (104, 106, 106)),
        "plate": panel_plate,
        "frame": panel_frame,
        "wing": panel_wing,
        "seat": panel_seat,
        "engine": panel_engine,
        "casting": panel_casting,
        "invoice": panel_invoice,
    },
    "altered": {
        **both_views(105, LAGOON, SALOON, (122, 122, 120)),
        "plate": altered_plate,
        "wing": altered_wing,
        "dab": altered_dab,
        "seat": altered_seat,
        "engine": altered_engine,
        "casting": altered_casting,
        "gearbox": altered_gearbox,
        "rail": altered_rail,
        "floor": altered_floor,
        "card": altered_card,
    },
}
