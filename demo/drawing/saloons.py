"""The photographs of the two unit-bodied saloons of 1960, which bear the tail of their number."""

from drawing import places, records
from drawing.cars import FIRST_WAY, Draw, seat, wing_of
from drawing.characters import Row, strike
from drawing.fittings import round_dab
from drawing.light import photograph
from drawing.surface import Colour, Surface, painted, rust
from drawing.whole_car import SALOON, both_views

PINE_GREEN = (44, 78, 62)
SANDSTONE = (176, 156, 120)
BOOKLET = ("600283", "TS", "06 05 0", "10 06 60")
SHEET = ("20987", "TS", "14", "L2")


def car_plate(seed: int, colour: Colour, windows: tuple[str, ...]) -> bytes:
    """The printed plate on its two hollow rivets, paint unbroken round it."""
    surface = painted(seed, colour, gloss=0.28, age=0.4)
    places.aluminium_plate(surface, windows)
    return photograph(surface, elevation=42)


def pad(seed: int, row: Row, *, angle: float = 0.0, rusted: float = 0.0) -> Surface:
    """The machined step of a block, its one row struck over the tool lines."""
    surface = places.deck(seed, angle=angle)
    strike(surface, row, depth=9)
    if rusted:
        rust(surface, rusted, pits=0.5)
    return surface


def casting(seed: int, text: str) -> bytes:
    """A whole raised date."""
    surface = places.block_side(seed)
    places.casting_date(surface, text)
    return photograph(surface, scale_mm=40)


def gearbox(seed: int, text: str) -> bytes:
    """Week code and tail in one row, beside the filler plug."""
    surface = places.gearbox_case(seed)
    strike(surface, Row(text, 190, 405, 84, 0.84, 5, 3, worn={4: 0.3}), depth=9)
    return photograph(surface, scale_mm=40)


def swapped_plate() -> bytes:
    """No engine number: the window of these years stays empty."""
    return car_plate(51, PINE_GREEN, ("600283", "12", "60", "M", "", "C", "14", "L2", "HR"))


def swapped_tag() -> bytes:
    """The body plate as it left the works: one row to a gang of punches, two round rivets."""
    surface = painted(52, PINE_GREEN, gloss=0.28, age=0.45)
    places.body_plate(surface, ("20987", "T", "200"))
    places.body_plate_rivets(surface)
    return photograph(surface, elevation=38)


def swapped_wing() -> bytes:
    """Marrick's wing of a unit body: upside down, close together, the white dab beside it."""
    row = Row("M 00283", 250, 360, 112, 0.68, 5, 3, upside_down=True, worn={3: 0.4})
    surface = wing_of(painted(53, PINE_GREEN, gloss=0.22, age=0.5), row)
    places.spot_welded_edge(surface)
    return photograph(surface, scale_mm=40)


def swapped_seat() -> bytes:
    """The same tail under the driver's seat, primer in its grooves."""
    return photograph(seat(54, Row("M 00283", 230, 380, 120, 0.74, 6, 3)), scale_mm=40)


def swapped_engine() -> bytes:
    """Undisturbed, and another car's: type, day and tail over whole tool lines."""
    row = Row("TS 21030 00194", 150, 390, 86, 0.8, 5, 3, worn={6: 0.3})
    return photograph(pad(55, row), scale_mm=40)


def swapped_booklet() -> bytes:
    """The page that names the engine stamp this car left the works with."""
    return photograph(records.booklet(58, BOOKLET), elevation=58)


def swapped_sheet() -> bytes:
    """Typed, folded, found in the springs of the rear seat."""
    return photograph(records.handled(records.build_sheet(59, SHEET)), elevation=58)


def dressed_plate() -> bytes:
    """The printed plate of the car, its trim code among the rest."""
    return car_plate(61, SANDSTONE, ("600458", "12", "60", "E", "", "C", "23", "V1", "H"))


def dressed_tag() -> bytes:
    """Even figures, screws, and the two holes of an earlier plate beside it."""
    surface = painted(62, SANDSTONE, gloss=0.36, age=0.08)
    places.body_plate(surface, ("21204", "T", "310"), punched=False)
    places.body_plate_moved(surface)
    return photograph(surface, elevation=38)


def dressed_wing() -> bytes:
    """Ellery's wing: upright, wide apart, the round red dab beside it."""
    row = Row("E 00458", 190, 350, 112, 0.98, 5, 3)
    surface = painted(63, SANDSTONE, gloss=0.22, age=0.5)
    places.rippled(surface, row)
    strike(surface, row, depth=10)
    places.spot_welded_edge(surface)
    round_dab(surface, 1010, 330, 60, places.RED_DAB)
    return photograph(surface, scale_mm=40)


def dressed_seat() -> bytes:
    """The same tail under the passenger's seat."""
    return photograph(seat(64, Row("E 00458", 200, 380, 120, 0.98, 6, 3)), scale_mm=40)


def dressed_engine() -> bytes:
    """The second letter of the type lies in a pit; the rest is clear."""
    row = Row("SA 11070 00458", 150, 390, 86, 0.8, 5, 3, worn={1: 0.5})
    surface = pad(65, row, rusted=0.3)
    places.pit(surface, 150 + 0.8 * 86 + 14, 390, 36)
    return photograph(surface, scale_mm=40)


SECOND_WAY: dict[str, dict[str, Draw]] = {
    "swapped": {
        **both_views(107, PINE_GREEN, SALOON, (116, 108, 96)),
        "plate": swapped_plate,
        "tag": swapped_tag,
        "wing": swapped_wing,
        "seat": swapped_seat,
        "engine": swapped_engine,
        "casting": lambda: casting(56, "24B0"),
        "gearbox": lambda: gearbox(57, "170 00283"),
        "booklet": swapped_booklet,
        "sheet": swapped_sheet,
    },
    "dressed": {
        **both_views(109, SANDSTONE, SALOON, (100, 100, 102)),
        "plate": dressed_plate,
        "tag": dressed_tag,
        "wing": dressed_wing,
        "seat": dressed_seat,
        "engine": dressed_engine,
        "casting": lambda: casting(66, "16F0"),
        "gearbox": lambda: gearbox(67, "290 00458"),
    },
}
PHOTOGRAPHS = FIRST_WAY | SECOND_WAY
"""Every photograph of the six cars, by the car's folder and the exhibit's id."""
