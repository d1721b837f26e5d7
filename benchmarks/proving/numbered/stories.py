"""What happened to a car whose parts bear its number, story by story, and how often.

Each table gives, for one story, the ways in which a piece came to be as it is and their shares.
The same tables draw the cars and are summed for the exact answer. Every share is this
world's own: none is taken from the tables of the weighing. What is known of practice is
said by those who inspect, and never as a share (reference notes on practice): engines go
first, axles last; a swap between friends is as honest as a block from the dealer; hidden
numbers are found by few; a number let in has the works' own characters and a weld round it.
"""

from dataclasses import dataclass

from benchmarks.proving.lives import BLANK, LET_IN, MADE, PART, REFITTED, SINCE
from benchmarks.proving.numbered.maker import Maker
from benchmarks.proving.world import HONEST, World

STORIES = (
    "kept",
    "engine hunted to fit",
    "engine made to match",
    "dressed",
    "panels from one breaker",
    "moved to another shell openly",
    "moved to another shell to pass",
    "joined from two",
    "struck by the office",
    "another car whole",
)
KEPT, HUNTED, MATCHED, DRESSED, BREAKER, MOVED, PASSED, JOINED, OFFICE, CLONE = range(10)
OWN = (KEPT, HUNTED, MATCHED, DRESSED, BREAKER)
"""Stories in which the structure is the car's own."""
DECEIT = (MATCHED, DRESSED, PASSED, CLONE)
DRAWN = (0.24, 0.09, 0.10, 0.10, 0.07, 0.10, 0.11, 0.04, 0.05, 0.10)
PARTS_CAR = (0.25, 0.25, 0.20, 0.25, 1.0, 1.0, 1.0, 1.0, 0.15, 1.0)
"""By story: cars for which one other car gave parts."""

X, Y, THIRD, COPIED, GROUND, BARE, ALONE, EXCHANGE = (
    "claimed", "other", "third", "made", "ground", "bare", "alone", "exchange",
)  # fmt: skip
"""What stands at a place: a car's own record, the claim made later, or none."""


@dataclass(frozen=True, slots=True)
class Story:
    """One story with all that stands behind several pieces at once."""

    kind: int
    skill: int
    restored: int
    parts_car: bool


@dataclass(frozen=True, slots=True)
class Way:
    """How one piece came to be: where it came from, and for each of its places what stands there
    and how the place came to look so."""

    origin: str
    places: tuple[tuple[str, str, int], ...]


Ways = dict[Way, float]


def stories_of(world: World) -> dict[Story, float]:
    """Every story of a world with its share."""
    found = {}
    for kind, share in enumerate(world.kinds):
        skills = enumerate(world.skill, start=1) if kind in DECEIT else [(HONEST, 1.0)]
        for skill, of_skill in skills:
            for restored, of_restored in enumerate(world.restored):
                for parts in (False, True):
                    of_parts = PARTS_CAR[kind] if parts else 1.0 - PARTS_CAR[kind]
                    whole = share * of_skill * of_restored * of_parts
                    if whole > 0.0:
                        found[Story(kind, skill, restored, parts)] = whole
    return found


def mixed(*parts: tuple[float, Ways]) -> Ways:
    """Ways of several tables, each with its share."""
    found: Ways = {}
    for share, ways in parts:
        for way, each in ways.items():
            if share * each > 0.0:
                found[way] = found.get(way, 0.0) + share * each
    return found


def _more(story: Story) -> float:
    """How much more was replaced and touched, the further the car was taken apart."""
    return (0.6, 0.9, 1.8)[story.restored]


# -------------------------------------------------------------------------- structure


def structure_ways(story: Story, maker: Maker) -> Ways:
    """What stands at the places of the structure."""
    marks = maker.structure
    if story.kind in OWN:
        return _own(story, maker)
    if story.kind == MOVED:  # the shell's own number stays, or is struck over by permission
        return {
            _all(marks, "other", Y, SINCE): 0.70,
            _all(marks, "other", COPIED, MADE): 0.20,
            _all(marks, "other", GROUND, MADE): 0.10,
        }
    if story.kind == JOINED and len(marks) == 1:
        return {_all(marks, "other", X, LET_IN): 0.6, _all(marks, "other", Y, LET_IN): 0.4}
    if story.kind == JOINED:
        one, two = marks
        halves = [((one, X, LET_IN), (two, Y, SINCE)), ((one, Y, SINCE), (two, X, LET_IN))]
        return {Way("other", half): 0.5 for half in halves}
    if story.kind == OFFICE:
        return {_all(marks, "new", COPIED, REFITTED): 0.7, _all(marks, "new", BARE, BLANK): 0.3}
    left_alone = (0.52, 0.06, 0.12, 0.30) if story.kind == CLONE else (0.55, 0.27, 0.18, 0.0)
    return _changed(story, maker, left_alone)


def _own(story: Story, maker: Maker) -> Ways:
    """The car's own structure; of a shell one panel with its number may be a breaker's, seldom
    both: who finds both gone looks for another shell."""
    marks = maker.structure
    places = dict.fromkeys(marks, _own_place(story, maker))
    if story.kind != BREAKER or not maker.has_panels:
        return _each(marks, places, "first")
    breakers = {(Y, PART): 1.0}
    one, two = marks
    return mixed(
        (0.58, _each(marks, places | {one: breakers}, "first")),
        (0.38, _each(marks, places | {two: breakers}, "first")),
        (0.04, _each(marks, dict.fromkeys(marks, breakers), "first")),
    )


def _own_place(story: Story, maker: Maker) -> dict[tuple[str, int], float]:
    struck = 0.04 if story.restored == 2 else 0.01
    if not maker.has_panels:
        return {(X, SINCE): 1.0 - struck - 0.003, (X, MADE): struck, (GROUND, MADE): 0.003}
    third, bare = 0.008 * _more(story), 0.02 * _more(story)
    left = 1.0 - third - bare - struck - 0.003
    return {
        (X, SINCE): left, (X, MADE): struck, (THIRD, PART): third, (BARE, BLANK): bare,
        (GROUND, MADE): 0.003,
    }  # fmt: skip


def _changed(story: Story, maker: Maker, shares: tuple[float, float, float, float]) -> Ways:
    """Somebody else's structure: struck over, let in, taken off, or left as it is; what is
    hidden is missed by those who do not know of it."""
    missed = (0.0, 0.55, 0.30, 0.08)[story.skill]
    found = []
    acts = ((COPIED, MADE), (X, LET_IN), (GROUND, MADE), (Y, SINCE))
    for share, act in zip(shares, acts, strict=True):
        first, *hidden = maker.structure
        there = {act: 1.0} if act == (Y, SINCE) else {act: 1.0 - missed, (Y, SINCE): missed}
        places = {first: {act: 1.0}} | dict.fromkeys(hidden, there)
        found.append((share, _each(maker.structure, places, "other")))
    return mixed(*found)


def _all(marks: tuple[str, ...], origin: str, what: str, state: int) -> Way:
    return Way(origin, tuple((mark, what, state) for mark in marks))


def _each(
    marks: tuple[str, ...], places: dict[str, dict[tuple[str, int], float]], origin: str
) -> Ways:
    """Every place apart from the others."""
    found: Ways = {Way(origin, ()): 1.0}
    for mark in marks:
        found = {
            Way(origin, (*way.places, (mark, *place))): share * each
            for way, share in found.items()
            for place, each in places[mark].items()
            if each > 0.0
        }
    return found


# ------------------------------------------------------------------------------ cores

ENGINES = {  # first, the other car's, a third car's, one hunted to fit, new, exchanged
    KEPT: (0.62, 0.0, 0.16, 0.05, 0.09, 0.08),
    HUNTED: (0.0, 0.0, 0.05, 0.95, 0.0, 0.0),
    MATCHED: (0.0, 0.0, 0.18, 0.82, 0.0, 0.0),
    DRESSED: (0.35, 0.0, 0.13, 0.52, 0.0, 0.0),
    BREAKER: (0.62, 0.0, 0.16, 0.05, 0.09, 0.08),
    MOVED: (0.66, 0.0, 0.16, 0.05, 0.07, 0.06),
    PASSED: (0.55, 0.0, 0.15, 0.25, 0.05, 0.0),
    JOINED: (0.50, 0.0, 0.28, 0.10, 0.07, 0.05),
    OFFICE: (0.70, 0.0, 0.15, 0.05, 0.06, 0.04),
    CLONE: (0.0, 0.62, 0.18, 0.20, 0.0, 0.0),
}
OTHERS = {  # of gearbox, axle, body: the car's own
    KEPT: (0.70, 0.80, 0.88), HUNTED: (0.70, 0.80, 0.88), MATCHED: (0.60, 0.70, 0.85),
    DRESSED: (0.60, 0.65, 0.85), BREAKER: (0.70, 0.80, 0.88), MOVED: (0.68, 0.70, 0.80),
    PASSED: (0.55, 0.60, 0.70), JOINED: (0.50, 0.55, 0.45), OFFICE: (0.72, 0.80, 0.85),
    CLONE: (0.0, 0.0, 0.0),
}  # fmt: skip
PARTS_SHARE = 0.55
"""Of third cars' parts those that the one parts car gave, where there is one."""


def engine_ways(story: Story, maker: Maker) -> Ways:
    """Block and stamp; then a booklet that names the stamp, if this maker gave one."""
    first, other, third, suited, new, exchanged = ENGINES[story.kind]
    if story.parts_car and story.kind != CLONE:
        other, third = third * PARTS_SHARE, third * (1.0 - PARTS_SHARE)
    if maker.exchanged is None and not maker.restrikes:
        new, exchanged = new + exchanged, 0.0
    stamp = "engine"
    decked = 0.02 + 0.04 * (story.restored == 2)
    redone = 0.04 if story.restored == 2 else 0.01
    dressed = 0.25 if story.kind == DRESSED else 0.0
    of_first = {
        Way("first", ((stamp, X, SINCE),)): 1.0 - decked - redone - dressed,
        Way("first", ((stamp, GROUND, REFITTED),)): decked,
        Way("first", ((stamp, X, MADE),)): redone,
        Way("first", ((stamp, COPIED, MADE),)): dressed,
    }
    at_works = COPIED if maker.restrikes else EXCHANGE
    of_new = {Way("new", ((stamp, BARE, BLANK),)): 0.6, Way("new", ((stamp, ALONE, MADE),)): 0.4}
    parts = [
        (first, of_first),
        (other, _struck_again(story, "other", Y, stamp)),
        (third, _struck_again(story, "third", THIRD, stamp)),
        (suited, _struck_again(story, "suited", THIRD, stamp)),
        (new, of_new),
        (exchanged, {Way("exchange", ((stamp, at_works, SINCE),)): 1.0}),
    ]
    return mixed(*parts)


def _struck_again(story: Story, origin: str, whose: str, mark: str) -> Ways:
    """A core of another car: as it is, struck to match, or its number ground away."""
    knows = (0.0, 0.55, 0.80, 0.95)[story.skill]
    struck = {
        KEPT: 0.10 if origin == "suited" else 0.03, HUNTED: 0.0, MATCHED: 0.97,
        DRESSED: 0.8 * knows, PASSED: knows, CLONE: knows,
    }.get(story.kind, 0.04)  # fmt: skip
    ground = 0.22 if story.kind == HUNTED else 0.06
    left = 1.0 - struck
    return {
        Way(origin, ((mark, whose, SINCE),)): left * (1.0 - ground),
        Way(origin, ((mark, GROUND, MADE),)): left * ground,
        Way(origin, ((mark, COPIED, MADE),)): struck,
    }


def core_ways(story: Story, core: str) -> Ways:
    """Gearbox, axle or body."""
    own = OTHERS[story.kind][("gearbox", "axle", "body").index(core)]
    left = 1.0 - own
    if story.kind == CLONE:
        other = 0.75
    elif core == "body" and story.kind in (MOVED, PASSED, JOINED):
        other = 0.8 * left
    else:
        other = left * (PARTS_SHARE if story.parts_car else 0.0)
    new = 0.25 * (left - other) if core == "gearbox" else 0.0
    third = left - other - new
    seldom = 0.15 if core == "body" else 0.25
    struck = (0.01, 0.03, 0.08, 0.25)[story.skill] if core == "gearbox" else 0.0
    if core == "body":
        struck = (0.02, 0.5, 0.7, 0.9)[story.skill] if story.kind in (PASSED, CLONE) else 0.02
    moved = REFITTED if story.restored == 2 else SINCE

    def of(origin: str, whose: str) -> Ways:
        return mixed(
            ((1.0 - struck) * (1.0 - seldom), {Way(origin, ((core, whose, SINCE),)): 1.0}),
            ((1.0 - struck) * seldom, {Way(origin, ((core, whose, moved),)): 1.0}),
            (struck, {Way(origin, ((core, COPIED, MADE),)): 1.0}),
        )

    def axle(origin: str, whose: str) -> Ways:
        return {Way(origin, ((core, whose, SINCE),)): 1.0}

    made = axle if core == "axle" else of
    first = (
        axle("first", X)
        if core == "axle"
        else {
            Way("first", ((core, X, SINCE),)): 0.98 - 0.2 * (moved == REFITTED),
            Way("first", ((core, X, REFITTED),)): 0.01 + 0.2 * (moved == REFITTED),
            Way("first", ((core, COPIED, MADE),)): 0.01,
        }
    )
    bare = {Way("new", ((core, BARE, BLANK),)): 1.0}
    return mixed(
        (own, first), (other, made("other", Y)), (third, made("third", THIRD)), (new, bare)
    )


# ------------------------------------------------------------------- plates and papers

PLATES = {  # own and undisturbed, own and refitted, made later, the other car's, gone
    KEPT: (0.80, 0.145, 0.03, 0.0, 0.025), HUNTED: (0.75, 0.20, 0.03, 0.0, 0.02),
    MATCHED: (0.70, 0.18, 0.10, 0.0, 0.02), DRESSED: (0.40, 0.15, 0.43, 0.0, 0.02),
    BREAKER: (0.74, 0.20, 0.03, 0.0, 0.03), MOVED: (0.0, 0.72, 0.18, 0.08, 0.02),
    PASSED: (0.0, 0.66, 0.34, 0.0, 0.0), JOINED: (0.30, 0.45, 0.15, 0.06, 0.04),
    OFFICE: (0.0, 0.75, 0.22, 0.0, 0.03), CLONE: (0.0, 0.45, 0.50, 0.0, 0.05),
}  # fmt: skip
TAGS = {
    KEPT: (0.74, 0.17, 0.02, 0.01, 0.06), HUNTED: (0.70, 0.21, 0.02, 0.01, 0.06),
    MATCHED: (0.66, 0.22, 0.05, 0.01, 0.06), DRESSED: (0.12, 0.05, 0.68, 0.0, 0.15),
    BREAKER: (0.60, 0.20, 0.02, 0.12, 0.06), MOVED: (0.0, 0.42, 0.10, 0.36, 0.12),
    PASSED: (0.0, 0.50, 0.32, 0.06, 0.12), JOINED: (0.35, 0.25, 0.10, 0.20, 0.10),
    OFFICE: (0.0, 0.70, 0.12, 0.0, 0.18), CLONE: (0.0, 0.25, 0.35, 0.28, 0.12),
}  # fmt: skip


def plate_ways(story: Story, plate: str) -> Ways:
    """A plate: whose it is, and whether it was off."""
    shares = (PLATES if plate == "plate" else TAGS)[story.kind]
    off = 0.5 * (story.restored == 2)
    undisturbed = shares[0] * (1.0 - off)
    return {
        way: share
        for way, share in {
            Way("first", ((plate, X, SINCE),)): undisturbed,
            Way("first", ((plate, X, REFITTED),)): shares[1] + shares[0] * off,
            Way("made", ((plate, COPIED, MADE),)): shares[2],
            Way("other", ((plate, Y, SINCE),)): shares[3],
            Way("gone", ((plate, BARE, BLANK),)): shares[4],
        }.items()
        if share > 0.0
    }


THERE = {"ledger": 0.40, "booklet": 0.30, "sheet": 0.25}
STRAY = {"ledger": 0.01, "booklet": 0.03, "sheet": 0.10}
"""Papers of another car by a mix-up: sheets were left in by whoever built the seat."""


def paper_shares(story: Story, world: World, paper: str) -> dict[str, float]:
    """None, the car's own, made to fit, a stranger's."""
    made = world.made_paper[story.skill] if paper != "ledger" else 0.0
    if story.kind == DRESSED and paper == "sheet":
        made = min(0.6, 2.0 * made)
    left, there, stray = 1.0 - made, THERE[paper], STRAY[paper]
    return {
        "none": left * (1.0 - there), X: left * there * (1.0 - stray), COPIED: made,
        THIRD: left * there * stray,
    }  # fmt: skip


def not_as_claimed(story: Story) -> dict[str, float]:
    """By item how often a car was built otherwise than claimed."""
    return {
        "package": 1.0 if story.kind == DRESSED else 0.03,
        "paint": 0.25 if story.kind in (DRESSED, CLONE) else 0.10,
        "trim": 0.25 if story.kind in (DRESSED, CLONE) else 0.08,
    }
