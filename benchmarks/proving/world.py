"""What is true in a world: how cars live, how people deceive, how they are looked at.

Every number here is invented. None is read from the tables of the weighing, and the
world is put together otherwise: a car has one restoration, one forger with one skill and
a list of the places he knows, one unsold winter that delays all its dates, one visit with
or without a lift.
"""

from dataclasses import dataclass

KINDS = (
    "kept",
    "engine made to match",
    "dressed",
    "reframed openly",
    "muddled",
    "rebuilt under its papers",
    "clone",
)
KEPT, MATCHED, DRESSED, REFRAMED, MUDDLED, REBUILT, CLONE = range(7)
HONEST, CRUDE, PRACTISED, LEARNED = range(4)


@dataclass(frozen=True, slots=True)
class World:
    """The shares of one world. Tuples over kinds follow KINDS, or the stories of a maker whose
    parts bear the car's number; those over skill HONEST to LEARNED."""

    name: str
    says: str
    kinds: tuple[float, ...] = (0.837, 0.036, 0.027, 0.030, 0.015, 0.033, 0.022)
    skill: tuple[float, ...] = (0.40, 0.35, 0.25)
    """Of those who deceive: crude, practised, learned."""
    restored: tuple[float, ...] = (0.45, 0.35, 0.20)
    """Left alone, repainted, taken apart."""
    not_as_claimed: tuple[float, ...] = (0.10, 0.12, 1.0, 0.15, 0.20, 0.20, 0.30)
    engine_own: tuple[float, ...] = (0.68, 0.0, 0.60, 0.60, 0.0, 0.40, 0.0)
    body_own: tuple[float, ...] = (0.90, 0.85, 0.85, 0.75, 0.0, 0.40, 0.0)
    gearbox_own: tuple[float, ...] = (0.72, 0.60, 0.70, 0.65, 0.0, 0.35, 0.0)
    axle_own: tuple[float, ...] = (0.80, 0.70, 0.80, 0.70, 0.0, 0.40, 0.0)
    ledger: float = 0.40
    card: float = 0.35
    made_paper: tuple[float, ...] = (0.004, 0.10, 0.20, 0.35)
    """By skill: the papers shown that were written to fit."""
    look_made: tuple[tuple[float, float], ...] = (
        (0.35, 0.45),
        (0.25, 0.60),
        (0.30, 0.30),
        (0.20, 0.10),
    )
    """By skill: struck-later places that look doubtful, disturbed."""
    look_since: tuple[tuple[float, float], ...] = ((0.03, 0.005), (0.10, 0.02), (0.35, 0.08))
    """By restoration: untouched places that look doubtful, disturbed."""
    misread: float = 1.0
    """Multiplies the misreadings of the plain world."""
    photograph: float = 0.10
    """Places seen on a photograph only."""
    no_lift: float = 0.25
    second_reader: float = 0.25
    maker: str = "own numbers"
    """`own numbers` (each part has a number of its own), or one of `numbered.maker.MAKERS`."""
    book: str = "as shipped"
    """`as shipped` or `wrong rows`: the code book that the tool is given."""
    rows: str = "as shipped"
    """`as shipped` or `off by three`: the assumed rows that the tool is given."""


NUMBERED = (0.62, 0.06, 0.05, 0.05, 0.05, 0.045, 0.035, 0.01, 0.02, 0.06)
"""Shares of the stories of cars whose parts bear their number (`numbered.stories.STORIES`)."""

PLAIN = World("plain", "rates of the order that the tables assume, put together otherwise")
WORLDS = (
    PLAIN,
    World(
        "tables off by three",
        "the plain world, weighed with every assumed row wrong by a factor of 3 in odds, "
        "the side drawn anew for each row and car",
        rows="off by three",
    ),
    World(
        "more deceit",
        "four times as many deceivers among the own, nine in ten of the others",
        kinds=(0.54, 0.15, 0.11, 0.015, 0.005, 0.11, 0.07),
    ),
    World(
        "good forgers",
        "every deceiver is learned and strikes so well that it seldom shows",
        skill=(0.0, 0.0, 1.0),
        look_made=((0.35, 0.45), (0.10, 0.04), (0.10, 0.04), (0.10, 0.04)),
    ),
    World(
        "wrong rows",
        "the tool's code book has a tenth of its rows wrong or missing",
        book="wrong rows",
    ),
    World(
        "photographs only",
        "the examiner never saw the car: every place on a photograph, more misread",
        photograph=1.0,
        misread=1.5,
        second_reader=0.0,
    ),
    World(
        "saloon",
        "a unit body whose shell, engine and gearbox bear the car's number; plain rates",
        kinds=NUMBERED,
        maker="saloon",
    ),
    World(
        "saloon, more deceit",
        "the saloon, with four times as many deceivers",
        kinds=(0.42, 0.06, 0.17, 0.17, 0.04, 0.02, 0.05, 0.01, 0.01, 0.05),
        maker="saloon",
    ),
    World(
        "saloon, good forgers",
        "the saloon; every deceiver is learned and strikes so well that it seldom shows",
        kinds=NUMBERED,
        skill=(0.0, 0.0, 1.0),
        look_made=((0.35, 0.45), (0.10, 0.04), (0.10, 0.04), (0.10, 0.04)),
        maker="saloon",
    ),
    World(
        "saloon, photographs only",
        "the saloon; nobody saw the car itself",
        kinds=NUMBERED,
        photograph=1.0,
        misread=1.5,
        second_reader=0.0,
        maker="saloon",
    ),
    World(
        "frame",
        "an invented maker whose one frame number, body, engine and gearbox bear the car's number",
        kinds=NUMBERED,
        maker="frame",
    ),
    World(
        "pan",
        "an invented maker whose floor pan bears the number and whose body bears none; an engine "
        "has a number of its own, which the works strike again on the one given in exchange",
        kinds=NUMBERED,
        maker="pan",
    ),
)


def plain_of(world: World) -> World:
    """The plain world of the same maker, in which the rivals learn."""
    return next(each for each in WORLDS if each.maker == world.maker)


def world_named(name: str) -> World:
    """The world of this name. Raises KeyError where there is none."""
    return {world.name: world for world in WORLDS}[name]
