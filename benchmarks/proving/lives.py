"""Lives: what happened to a car between the works and the workshop.

A life says for every mark whose record its characters show and how the place came to
look as it does. Lives are drawn many at once, one column an array over all of them:
the same draw gives one car for a case and many thousand for the exact answer.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.world import (
    CLONE,
    DRESSED,
    HONEST,
    KEPT,
    MATCHED,
    MUDDLED,
    REBUILT,
    REFRAMED,
    World,
)

Array = NDArray[np.float64]
Codes = NDArray[np.int8]
Era = Literal["early", "tail", "unit"]
"""1952-1956: bodies with numbers of their own; 1957-1958: the chassis number's tail;
1959: a unit body with a whole number."""

# Whose record a mark shows.
CLAIMED, BEARER_DONOR, BODY_DONOR, ENGINE_DONOR, GEARBOX_DONOR, AXLE_DONOR = range(6)
EXCHANGE, INVENTED, AS_CLAIMED, STRANGER = 6, 7, 8, 9
NOTHING = -1
DONORS = (BEARER_DONOR, BODY_DONOR, ENGINE_DONOR, GEARBOX_DONOR, AXLE_DONOR)

# How a place came to look as it does.
SINCE, REFITTED, LET_IN, MADE, PART, BLANK = range(6)

COLUMNS = (
    "frame", "wing", "seat", "bulk", "week", "block", "cast", "gear", "axle",
    "plate", "plate_engine", "ledger", "ledger_engine", "ledger_body",
    "card", "card_engine", "card_body", "card_gear", "card_axle",
)  # fmt: skip
PLACES = ("frame", "wing", "seat", "bulk", "block", "cast", "gear", "axle", "plate")
STRAY = 0.015
"""Papers shown with the car that are another car's by a mix-up."""
CHANGED_SHARE = (0.40, 0.20, 0.20, 0.20)
CHANGED = ("nothing", "colour", "trim", "axle ratio", "colour and trim")
ITEMS = {"paint": (0, 2, 3), "trim": (0, 1, 3), "axle_ratio": (0, 1, 2, 4)}
"""The claimed items, and in which ways of CHANGED each is as claimed."""
KNOWS = {
    "seat": (0.0, 0.20, 0.60, 0.95),
    "bulk": (0.0, 0.10, 0.45, 0.90),
    "wing": (0.0, 0.70, 0.92, 0.98),
    "block": (0.0, 0.50, 0.80, 0.95),
    "gear": (0.0, 0.03, 0.08, 0.25),
    "cast": (0.0, 0.01, 0.03, 0.10),
}
"""By skill: deceivers who know a place and strike it too."""


@dataclass(frozen=True, slots=True)
class Lives:
    """Many lives. `shows[column]` is whose record stands there, `place[mark]` how it looks;
    `changed` is how the car as built differs from the claim (CHANGED); all of shape (n,)."""

    era: Era
    kind: Codes
    skill: Codes
    restored: Codes
    changed: Codes
    engine: Codes
    body: Codes
    gearbox: Codes
    axle: Codes
    shows: dict[str, Codes]
    place: dict[str, Codes]

    def __len__(self) -> int:
        return len(self.kind)


class _Draw:
    """Draws for many lives at once."""

    def __init__(self, world: World, era: Era, kinds: Codes, rng: np.random.Generator) -> None:
        self.world, self.era, self.kind, self.rng = world, era, kinds, rng
        self.n = len(kinds)
        self.deceit = np.isin(kinds, (MATCHED, DRESSED, REBUILT, CLONE))
        skilled = self.pick(np.tile([0.0, *world.skill], (self.n, 1)))
        self.skill = np.where(self.deceit, skilled, HONEST).astype(np.int8)
        self.restored = self.pick(np.tile(world.restored, (self.n, 1)))
        self.passing = np.isin(kinds, (REBUILT, CLONE))
        """Lives in which the whole car was made to pass."""

    def pick(self, shares: Array) -> Codes:
        """One place of each row of shares (n, places)."""
        ends = np.cumsum(shares, axis=1)
        return (self.rng.random((self.n, 1)) * ends[:, -1:] > ends).sum(axis=1).astype(np.int8)

    def flip(self, share: Array | float) -> NDArray[np.bool_]:
        """True in this share of the lives."""
        return self.rng.random(self.n) < share

    def by_kind(self, shares: tuple[float, ...]) -> Array:
        """A share for every life, by its kind."""
        return np.array(shares)[self.kind]

    def knows(self, place: str) -> NDArray[np.bool_]:
        """Does the deceiver, if there is one, know this place and strike it?"""
        return self.flip(np.array(KNOWS[place])[self.skill]) & self.passing


def draw_lives(
    world: World, era: Era, kinds: Codes, rng: np.random.Generator, plates: Array | None = None
) -> Lives:
    """One life for each kind given, shape (n,). `plates` stands in for PLATES."""
    draw = _Draw(world, era, kinds, rng)
    parts = _parts(draw)
    shows = {column: np.full(draw.n, NOTHING, dtype=np.int8) for column in COLUMNS}
    place = {name: np.zeros(draw.n, dtype=np.int8) for name in PLACES}
    _bearer_and_body(draw, parts, shows, place)
    _moving_parts(draw, parts, shows, place)
    _plate(draw, shows, place, PLATES if plates is None else plates)
    changed = _changed(draw)
    _papers(draw, shows)
    return Lives(
        era, kinds, draw.skill, draw.restored, changed,
        parts["engine"], parts["body"], parts["gearbox"], parts["axle"], shows, place,
    )  # fmt: skip


def _parts(draw: _Draw) -> dict[str, Codes]:
    """Whose each assembly is."""
    world, kind = draw.world, draw.kind
    whole = np.where(kind == MUDDLED, 0.8, np.where(kind == CLONE, 0.65, 0.3))
    whole = np.where(draw.kind >= REFRAMED, whole, 0.0)
    found: dict[str, Codes] = {}
    for name, own, donor in (
        ("engine", world.engine_own, ENGINE_DONOR),
        ("body", world.body_own, BODY_DONOR),
        ("gearbox", world.gearbox_own, GEARBOX_DONOR),
        ("axle", world.axle_own, AXLE_DONOR),
    ):
        mine = draw.flip(draw.by_kind(own))
        other = np.where(draw.flip(whole), BEARER_DONOR, donor)
        if name == "body":
            other = np.where(np.isin(kind, (MUDDLED, CLONE)), BEARER_DONOR, other)
        found[name] = np.where(mine, CLAIMED, other).astype(np.int8)
    exchanged = draw.flip(np.where(np.isin(kind, (KEPT, DRESSED, REFRAMED)), 0.30, 0.0))
    found["engine"][exchanged & (found["engine"] == ENGINE_DONOR)] = EXCHANGE
    return found


def _bearer_and_body(
    draw: _Draw, parts: dict[str, Codes], shows: dict[str, Codes], place: dict[str, Codes]
) -> None:
    own = draw.kind < REFRAMED
    bearer = np.where(own, CLAIMED, BEARER_DONOR).astype(np.int8)
    restruck = draw.flip(np.where(own, np.where(draw.restored == 2, 0.04, 0.01), 0.0))
    restruck |= draw.flip(np.where(draw.kind == REFRAMED, 0.12, 0.0))
    grafted = draw.flip(np.where(draw.kind == REBUILT, 0.08, 0.0))
    if draw.era != "unit":
        frame = np.where(draw.passing | restruck, AS_CLAIMED, bearer)
        shows["frame"][:] = np.where(grafted, CLAIMED, frame)
        place["frame"][:] = np.where(grafted, LET_IN, np.where(frame == AS_CLAIMED, MADE, SINCE))
    carrier = bearer if draw.era == "unit" else parts["body"]
    alter_wing = draw.knows("wing")
    for name in ("wing", "seat", "bulk"):
        known = alter_wing & (True if name == "wing" else draw.knows(name))
        makes = known & (carrier != CLAIMED)
        if draw.era == "unit":
            makes = makes | (restruck if name == "wing" else False)
            makes = makes | ((draw.passing) if name == "wing" else False)
        if draw.era == "early":
            # What the body should bear is known from papers, or from a published list.
            makes = makes & draw.flip(np.where(draw.kind == REBUILT, 0.7, 0.2))
        content = CLAIMED if draw.era == "early" else AS_CLAIMED
        shows[name][:] = np.where(makes, content, carrier)
        place[name][:] = np.where(makes, MADE, SINCE)
        _panel(draw, name, shows, place, ~makes)
    if draw.era == "unit":
        shows["wing"][grafted] = CLAIMED
        place["wing"][grafted] = LET_IN
    shows["week"][:] = np.where(place["bulk"] == MADE, carrier, shows["bulk"])


def _panel(
    draw: _Draw,
    name: str,
    shows: dict[str, Codes],
    place: dict[str, Codes],
    free: NDArray[np.bool_],
) -> None:
    """Panels replaced for rust or a blow: from one parts car, or a service part."""
    bolted = name == "wing" and draw.era != "unit"
    more = np.array([0.6, 0.9, 1.8])[draw.restored]
    donor = draw.flip((0.05 if bolted else 0.015) * more) & free
    blank = draw.flip((0.06 if bolted else 0.03) * more) & free & ~donor
    if name == "seat":
        donor |= free & (shows["wing"] == BODY_DONOR) & draw.flip(0.3)
        blank &= ~donor
    refit = draw.flip((0.12 if bolted else 0.01) * more) & free & ~donor & ~blank
    shows[name][donor] = BODY_DONOR
    place[name][donor] = PART
    shows[name][blank] = NOTHING
    place[name][blank] = BLANK
    place[name][refit] = REFITTED


def _moving_parts(
    draw: _Draw, parts: dict[str, Codes], shows: dict[str, Codes], place: dict[str, Codes]
) -> None:
    engine = parts["engine"]
    shows["cast"][:] = engine
    recast = draw.flip(np.array(KNOWS["cast"])[draw.skill]) & (engine != CLAIMED)
    shows["cast"][recast] = CLAIMED
    place["cast"][recast] = MADE
    redone = draw.flip(np.where(draw.restored == 2, 0.05, 0.01)) & (engine == CLAIMED)
    matched = (draw.kind == MATCHED) & draw.flip(0.95)
    rebuilt = (draw.kind == REBUILT) & draw.knows("block") & (engine != CLAIMED)
    invented = (draw.kind == CLONE) & draw.knows("block") & draw.flip(0.4)
    made = redone | matched | rebuilt
    shows["block"][:] = np.where(invented, INVENTED, np.where(made, CLAIMED, engine))
    place["block"][:] = np.where(made | invented, MADE, SINCE)
    for name, part in (("gear", "gearbox"), ("axle", "axle")):
        made = draw.knows("gear") & (parts[part] != CLAIMED)
        shows[name][:] = np.where(made, CLAIMED, parts[part])
        place[name][:] = np.where(made, MADE, SINCE)
        place[name][draw.flip(np.where(draw.restored == 2, 0.3, 0.05)) & ~made] = REFITTED


PLATES = np.array(
    [  # own, bearer donor's, made later, a stranger's, gone
        (0.945, 0.0, 0.03, 0.005, 0.02),
        (0.88, 0.0, 0.10, 0.005, 0.015),
        (0.0, 0.0, 1.0, 0.0, 0.0),
        (0.70, 0.08, 0.18, 0.01, 0.03),
        (0.0, 0.88, 0.02, 0.04, 0.06),
        (0.65, 0.0, 0.35, 0.0, 0.0),
        (0.0, 0.0, 1.0, 0.0, 0.0),
    ]
)
"""Whose the plate is, by kind of life."""


def _plate(draw: _Draw, shows: dict[str, Codes], place: dict[str, Codes], plates: Array) -> None:
    chosen = draw.pick(plates[draw.kind])
    whose = np.array([CLAIMED, BEARER_DONOR, AS_CLAIMED, STRANGER, NOTHING], dtype=np.int8)
    shows["plate"][:] = whose[chosen]
    moved = (chosen == 0) & (draw.kind >= REFRAMED)
    refit = (chosen == 0) & draw.flip(np.where(draw.restored == 2, 0.5, 0.06))
    state = np.where(chosen == 2, MADE, np.where(chosen == 3, PART, SINCE))
    state = np.where(moved, LET_IN, np.where(refit, REFITTED, state))
    place["plate"][:] = np.where(chosen == 4, BLANK, state)
    # A maker of plates has the true number from papers, or reads it off the engine.
    reads_off = draw.flip(np.where(np.isin(draw.kind, (DRESSED, CLONE)), 0.6, 0.1))
    read_off = np.where(shows["block"] == NOTHING, INVENTED, shows["block"])
    from_papers = np.where(draw.kind == CLONE, read_off, CLAIMED)
    engine = np.where(reads_off, read_off, from_papers)
    shows["plate_engine"][:] = np.where(chosen == 2, engine, shows["plate"])


def _changed(draw: _Draw) -> Codes:
    """How the claimed car as built differs from what is claimed."""
    differs = draw.flip(draw.by_kind(draw.world.not_as_claimed))
    how = draw.pick(np.tile([0.0, *CHANGED_SHARE], (draw.n, 1)))
    return np.where(differs, how, 0).astype(np.int8)


def _papers(draw: _Draw, shows: dict[str, Codes]) -> None:
    """The ledger's page and the card, if there are any; those made fit the car as shown."""
    for paper, there in (("ledger", draw.world.ledger), ("card", draw.world.card)):
        made = draw.flip(np.array(draw.world.made_paper)[draw.skill])
        stray = draw.flip(STRAY)
        has = draw.flip(there) | made
        whose = np.where(made, AS_CLAIMED, np.where(stray, STRANGER, CLAIMED))
        shows[paper][:] = np.where(has, whose, NOTHING)
        for part, mark in (
            ("engine", "block"),
            ("body", "seat"),
            ("gear", "gear"),
            ("axle", "axle"),
        ):
            column = f"{paper}_{part}"
            if column not in shows:
                continue
            seen = shows[mark]
            if part == "body" and draw.era != "early":
                continue
            # Numbers that stand on the car; what does not stand there is taken from the true car's.
            copied = np.where((seen == NOTHING) | draw.flip(0.15), CLAIMED, seen)
            shows[column][:] = np.where(shows[paper] == AS_CLAIMED, copied, shows[paper])
