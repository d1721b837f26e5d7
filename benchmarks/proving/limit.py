"""The limit: the exact answer of somebody who knows the world's own rates and curves.

Given the kind of life, the forger's skill and the restoration, the parts of a life come
about apart from each other, and what was seen of each is summed exactly over all numbers,
days and colours. How often each part of a life comes about is counted in a bank of many
lives, drawn by the same code that made the cars. So the answer is exact but for that
count: `python -m benchmarks.proving` prints how far two banks differ.
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.car import Car, donor_share
from benchmarks.proving.factory import Factory
from benchmarks.proving.lives import (
    AS_CLAIMED,
    BEARER_DONOR,
    CHANGED,
    CHANGED_SHARE,
    CLAIMED,
    EXCHANGE,
    INVENTED,
    ITEMS,
    NOTHING,
    PLATES,
    STRANGER,
    STRAY,
    Era,
    Lives,
    draw_lives,
)
from benchmarks.proving.seen_likelihood import Parts, mask_of
from benchmarks.proving.visit import GONE, TELLS, TELLS_BY_PHOTOGRAPH, Sighting, look_shares
from benchmarks.proving.world import KINDS, World

Array = NDArray[np.float64]
Index = NDArray[np.intp]

QUESTIONS = (
    "identity",
    *ITEMS,
    "engine",
    "gearbox",
    "axle",
    "body",
    "plate",
    "ledger",
    "card",
)
PLATE_STATES = (CLAIMED, BEARER_DONOR, AS_CLAIMED, STRANGER, NOTHING)
BODY_MARKS = ("wing", "seat", "bulk")
BLOCKS = {
    "engine": (
        "engine",
        "block",
        "block@",
        "cast",
        "cast@",
        "plate_engine",
        "ledger_engine",
        "card_engine",
    ),
    "gearbox": ("gearbox", "gear", "gear@", "card_gear"),
    "axle": ("axle", "axle.", "axle@", "card_axle"),
    "body": (
        "body",
        "wing",
        "wing@",
        "seat",
        "seat@",
        "bulk",
        "bulk@",
        "week",
        "ledger_body",
        "card_body",
    ),
    "frame": ("frame", "frame@"),
    "plate": ("plate@",),
}
"""What happens together, given the globals: an assembly, whose record its marks show, how
their places came to look ("@")."""
ROWS = {
    "engine": (5, 3, 3), "gearbox": (1, 1, 3), "axle": (1, 1, 3), "body": (1, 3, 3),
    "frame": (1, 1, 1), "plate": (5, 1, 1),
}  # fmt: skip
"""Which states of plate, ledger and card a block hangs on."""


@dataclass(frozen=True)
class Block:
    """The ways in which one block comes about, and how often for every global and paper state.

    `ways` has shape (ways, columns); `share[g]` the ways that occur under a global with
    their shares, (plate, ledger, card, ways)."""

    ways: NDArray[np.int8]
    share: dict[int, tuple[Index, Array]]

    def column(self, block: str, name: str) -> NDArray[np.int8]:
        """One column of all ways."""
        return self.ways[:, BLOCKS[block].index(name)]


@dataclass(frozen=True)
class Bank:
    """How often the parts of lives come about in one world and era."""

    world: World
    era: Era
    blocks: dict[str, Block]

    def globals(self) -> list[tuple[int, int, int, int, float]]:
        """Every global with its kind, skill, restoration and share."""
        found = []
        for kind, share in enumerate(self.world.kinds):
            skills = {0: 1.0} if kind in (0, 3, 4) else dict(enumerate(self.world.skill, start=1))
            for skill, of_skill in skills.items():
                for restored, of_restored in enumerate(self.world.restored):
                    whole = share * of_skill * of_restored
                    if whole > 0:
                        found.append(
                            (kind * 12 + skill * 3 + restored, kind, skill, restored, whole)
                        )
        return found


def make_bank(world: World, era: Era, size: int, rng: np.random.Generator) -> Bank:
    """Count the parts of `size` lives, in which what is rare is drawn more often."""
    often = replace(
        world, ledger=0.6, card=0.6, made_paper=(0.4,) * 4, restored=(1 / 3,) * 3,
        skill=tuple(1 / 3 if share else 0.0 for share in world.skill),
    )  # fmt: skip
    even = (PLATES > 0) / (PLATES > 0).sum(axis=1, keepdims=True)
    kinds = np.repeat(np.arange(len(KINDS)), size // len(KINDS)).astype(np.int8)
    lives = draw_lives(often, era, kinds, rng, even)
    state = lives.kind.astype(np.intp) * 12 + lives.skill * 3 + lives.restored
    papers = _states(lives)
    return Bank(world, era, {name: _block(lives, name, state, papers) for name in BLOCKS})


def _states(lives: Lives) -> Index:
    """The states of plate, ledger and card, shape (3, lives)."""
    plate = np.zeros(len(lives), dtype=np.intp)
    for k, whose in enumerate(PLATE_STATES):
        plate[lives.shows["plate"] == whose] = k
    papers = [
        np.select([lives.shows[p] == CLAIMED, lives.shows[p] == AS_CLAIMED], [1, 2], 0)
        for p in ("ledger", "card")
    ]
    return np.stack([plate, *papers])


def _column(lives: Lives, name: str) -> NDArray[np.int8]:
    if name.endswith("@"):
        return lives.place[name[:-1]]
    if name in ("engine", "gearbox", "axle", "body"):
        found: NDArray[np.int8] = getattr(lives, name)
        return found
    return lives.shows[name.rstrip(".")]


def _block(lives: Lives, name: str, state: Index, papers: Index) -> Block:
    code = np.zeros(len(lives), dtype=np.int64)
    for column in BLOCKS[name]:
        code = code * 12 + _column(lives, column) + 1
    _, first, inverse = np.unique(code, return_index=True, return_inverse=True)
    ways = np.stack([_column(lives, column)[first] for column in BLOCKS[name]], axis=1)
    sizes = ROWS[name]
    row = np.ravel_multi_index(
        tuple(np.where(size > 1, p, 0) for p, size in zip(papers, sizes, strict=True)), sizes
    )
    shares: dict[int, tuple[Index, Array]] = {}
    for g in np.unique(state):
        here = state == g
        used, way = np.unique(inverse.reshape(-1)[here], return_inverse=True)
        rows = int(np.prod(sizes))
        flat = np.bincount(row[here] * len(used) + way, minlength=rows * len(used))
        counts = flat.reshape(rows, len(used)).astype(float)
        counts /= np.maximum(counts.sum(axis=1, keepdims=True), 1.0)
        shares[int(g)] = (used, counts.reshape(*sizes, len(used)))
    return Block(ways, shares)


class Limit:
    """The exact answers for one car and one sighting."""

    def __init__(self, bank: Bank, factory: Factory, car: Car, seen: Sighting) -> None:
        self.bank, self.factory, self.seen = bank, factory, seen
        self.parts = Parts(factory, car.claim, seen)
        self.kin_share = donor_share(factory, car.claim, BEARER_DONOR)
        self.kin = np.flatnonzero(self.kin_share)
        self.likely = {name: self._ways(name) for name in BLOCKS}

    # ------------------------------------------------------------------- questions

    def log10_ratios(self) -> dict[str, float]:
        """log10 LR of every question that can be asked of this car."""
        mass = {question: np.zeros(2) for question in QUESTIONS}
        prior = {question: np.zeros(2) for question in QUESTIONS}
        changed = self._changed()
        for g, kind, skill, restored, share in self.bank.globals():
            self._add_priors(prior, kind, skill, share)
            self._add(mass, changed, g, kind, skill, restored, share)
        found = {}
        for question in QUESTIONS:
            if question == "body" and self.bank.era == "unit":
                continue
            if question in ("ledger", "card") and question not in self.seen.marks:
                continue
            logs = np.log10(np.maximum(mass[question], 1e-300)) - np.log10(prior[question])
            found[question] = float(logs[0] - logs[1])
        return found

    def _add_priors(self, prior: dict[str, Array], kind: int, skill: int, share: float) -> None:
        world = self.bank.world
        plate = PLATES[kind]
        own = {
            "identity": float(kind < 3),
            **{
                item: float(_how_changed(world, kind)[list(right)].sum())
                for item, right in ITEMS.items()
            },
            "engine": world.engine_own[kind],
            "gearbox": world.gearbox_own[kind],
            "axle": world.axle_own[kind],
            "body": world.body_own[kind],
        }
        for question, true in own.items():
            prior[question] += share * np.array([true, 1.0 - true])
        prior["plate"] += share * np.array([plate[0], plate[1:4].sum()])
        for paper, there in (("ledger", world.ledger), ("card", world.card)):
            _, mine, made, stray = paper_shares(world, there, skill)
            prior[paper] += share * np.array([mine, made + stray])

    def _add(
        self,
        mass: dict[str, Array],
        changed: Array,
        g: int,
        kind: int,
        skill: int,
        restored: int,
        share: float,
    ) -> None:
        """Add what one global gives; axes: plate p, ledger l, card c, month m, kin y."""
        world = self.bank.world
        given = {name: self._given(name, g, skill, restored) for name in BLOCKS}
        common = share * self._papers(kind, skill)[..., None, None]
        common = common * given["plate"][1].sum(axis=0)
        common = common * self._frame_and_body(given)
        # common: (body own, p, l, c, m, y)
        weights = self.parts.month_share[:, None] * self.kin_share[self.kin][None, :]
        card_days = np.ones((3, len(self.parts.months)))
        card_days[1] = self.parts.closed if "card" in self.seen.marks else 1.0
        common = common * weights * card_days[None, None, None, :, :, None]
        by_change = changed * _how_changed(world, kind)[:, None, None, None, None, None]
        colours = by_change.sum(axis=0)
        engine, gearbox, axle = (given[name][1] for name in ("engine", "gearbox", "axle"))
        rest = {
            "engine": gearbox.sum(axis=0) * axle.sum(axis=0),
            "gearbox": engine.sum(axis=0) * axle.sum(axis=0),
            "axle": engine.sum(axis=0) * gearbox.sum(axis=0),
        }
        both = common.sum(axis=0)
        coloured = both * colours
        for name, part in (("engine", engine), ("gearbox", gearbox), ("axle", axle)):
            mass[name] += (coloured * rest[name] * part).sum(axis=(1, 2, 3, 4, 5))
        whole = coloured * rest["axle"] * axle.sum(axis=0)
        total = whole.sum()
        mass["identity"][0 if kind < 3 else 1] += total
        if total > 0:
            plain = both * rest["axle"] * axle.sum(axis=0)
            of_change = np.array([(plain * each).sum() for each in by_change])
            for item, right in ITEMS.items():
                as_claimed = of_change[list(right)].sum()
                mass[item] += [as_claimed, of_change.sum() - as_claimed]
            others = colours * rest["axle"] * axle.sum(axis=0)
            mass["body"] += (common * others).sum(axis=(1, 2, 3, 4, 5))
        by_plate = whole.sum(axis=(1, 2, 3, 4))
        mass["plate"] += [by_plate[0], by_plate[1:4].sum()]
        for axis, paper in ((1, "ledger"), (2, "card")):
            by_paper = whole.sum(axis=tuple(k for k in range(5) if k != axis))
            mass[paper] += [by_paper[1], by_paper[0] + by_paper[2]]

    # ---------------------------------------------------------------------- blocks

    def _given(self, name: str, g: int, skill: int, restored: int) -> tuple[Index, Array]:
        """P(what was seen of a block | own or not, paper states, month, kin).

        Shape (2, p, l, c, m, y), with sizes of 1 where nothing hangs on them; the body's
        and the frame's are left by way, for they are put together first.
        """
        used, share = self.bank.blocks[name].share[g]
        likely, columns = self.likely[name]
        look = np.ones(len(used))
        for column, table in columns:
            look = look * table[column[used], skill, restored]
        weighed = share * look
        if name in ("body", "frame"):
            return used, weighed
        if name == "plate":
            states = (weighed.sum(axis=-1) * self._bare_plate()[:, None, None])[None]
            return used, states[..., None, None]
        own = self.bank.blocks[name].ways[used, 0] == CLAIMED
        halves = [
            np.tensordot(weighed[..., chosen], likely[used[chosen]], 1) for chosen in (own, ~own)
        ]
        return used, np.stack(halves)

    def _bare_plate(self) -> Array:
        there = np.array([1.0, 1.0, 1.0, 1.0, 0.0])
        if "plate" in self.seen.marks:
            return there * (1.0 - GONE)
        return np.where(there > 0, GONE, 1.0) if "plate" in self.seen.absent else np.ones(5)

    def _frame_and_body(self, given: dict[str, tuple[Index, Array]]) -> Array:
        """Frame, body and plate together: a donor's number stands on all its marks.

        Shape (2, p, l, c, m, y): body own or not.
        """
        body, frame = self.bank.blocks["body"], self.bank.blocks["frame"]
        used, weighed = given["body"]
        frames, frame_weighed = given["frame"]
        likely = self.likely["body"][0]
        own = body.ways[used, 0] == CLAIMED
        halves = np.zeros((2, 2, 2, *weighed.shape[1:3], *likely.shape[2:]))
        for shown in range(4):
            for half, chosen in enumerate((own, ~own)):
                summed = np.tensordot(weighed[0][..., chosen], likely[used[chosen], shown], 1)
                halves[half, shown >> 1, shown & 1] = summed
        by_donor = np.zeros(2)
        frame_likely = self.likely["frame"][0]
        for k, way in enumerate(frames):
            by_donor[int(frame.ways[way, 0] == BEARER_DONOR)] += (
                frame_weighed[0, 0, 0, k] * frame_likely[way]
            )
        by_plate = np.tensordot(by_donor, halves, (0, 1))
        found: Array = by_plate[:, [int(whose == BEARER_DONOR) for whose in PLATE_STATES]]
        return found

    def _ways(self, name: str) -> tuple[Array, list[tuple[NDArray[np.int8], Array]]]:
        """P(what was read | way), and for every place of the block its looks."""
        block = self.bank.blocks[name]
        looks = []
        for column in BLOCKS[name]:
            if column.endswith("@") and column[:-1] in self.seen.looks:
                looks.append((block.column(name, column), self._look(column[:-1])))
        made = {
            "engine": self._engine_ways, "gearbox": self._line_ways, "axle": self._line_ways,
            "body": self._body_ways, "frame": self._frame_ways, "plate": self._no_ways,
        }[name]  # fmt: skip
        return made(name), looks

    def _look(self, column: str) -> Array:
        """P(what the place was called | state, skill, restoration), shape (6, 4, 3)."""
        kind, photograph = self.seen.looks[column]
        tells = TELLS_BY_PHOTOGRAPH if photograph else TELLS
        table = np.zeros((6, 4, 3))
        for state, skill, restored in np.ndindex(table.shape):
            shares = look_shares(self.bank.world, state, skill, restored)
            table[state, skill, restored] = shares @ tells[:, kind]
        return table

    def _no_ways(self, name: str) -> Array:
        return np.ones(len(self.bank.blocks[name].ways))

    def _record(self, part: str, masks: Index, record: int) -> Array:
        """P(what shows a record | its masks), (ways, months or 1, kin or 1)."""
        found, inverse = np.unique(masks, return_inverse=True)
        if record == CLAIMED:
            table = np.stack([self.parts.of(part, int(m), True) for m in found])[:, :, None]
        elif record == BEARER_DONOR:
            table = np.stack([self.parts.of(part, int(m), False)[self.kin] for m in found])[
                :, None, :
            ]
        elif record in (EXCHANGE, INVENTED):
            table = np.array([self.parts.engine_apart(int(m), record) for m in found])[
                :, None, None
            ]
        else:
            share = donor_share(self.factory, self.parts.claim, record)
            table = np.array([share @ self.parts.of(part, int(m), False) for m in found])[
                :, None, None
            ]
        return table[inverse.reshape(-1)]

    def _shown(self, name: str, part: str, columns: dict[str, str], record: int) -> Index:
        """The masks of a part by which every way shows a record, shape (ways,)."""
        block = self.bank.blocks[name]
        masks = np.zeros(len(block.ways), dtype=np.intp)
        for column, mark in columns.items():
            masks |= np.where(block.column(name, column) == record, mask_of(part, mark), 0)
        return masks

    def _bare(self, name: str, column: str, mark: str) -> Array:
        """A place found bare, or struck, shape (ways,)."""
        nothing = self.bank.blocks[name].column(name, column) == NOTHING
        if mark in self.seen.marks:
            return np.where(nothing, 0.0, 1.0 - GONE)
        return np.where(nothing, 1.0, GONE) if mark in self.seen.absent else np.ones(len(nothing))

    def _engine_ways(self, name: str) -> Array:
        columns = {
            "block": "block", "cast": "cast", "plate_engine": "plate", "ledger_engine": "ledger",
            "card_engine": "card",
        }  # fmt: skip
        found = (self._bare(name, "block", "block") * self._bare(name, "cast", "cast"))[
            :, None, None
        ]
        for record in (CLAIMED, BEARER_DONOR, 3, EXCHANGE, INVENTED):
            found = found * self._record(
                "engine", self._shown(name, "engine", columns, record), record
            )
        return found

    def _line_ways(self, name: str) -> Array:
        mark = "gear" if name == "gearbox" else "axle"
        columns = {"gear" if name == "gearbox" else "axle.": mark, f"card_{mark}": "card"}
        found = self._bare(name, next(iter(columns)), mark)[:, None, None]
        for record in (CLAIMED, BEARER_DONOR, 4 if name == "gearbox" else 5):
            found = found * self._record(name, self._shown(name, name, columns, record), record)
        return found

    def _frame_ways(self, name: str) -> Array:
        """What was read of the frame, but for a donor's number, which waits for the body."""
        whose = self.bank.blocks[name].column(name, "frame")
        found = self._bare(name, "frame", "frame")
        if "frame" not in self.seen.marks:
            return found
        mine = float(self.parts.of("chassis", mask_of("chassis", "frame"), True)[0])
        return found * np.where(np.isin(whose, (CLAIMED, AS_CLAIMED)), mine, 1.0)

    def _body_ways(self, name: str) -> Array:
        """What was read of the body, (ways, 4, m, y): the second axis says whether the frame
        (2) and the plate (1) show the bearer's donor too."""
        block = self.bank.blocks[name]
        numbers = {**{m: m for m in BODY_MARKS}, "ledger_body": "ledger", "card_body": "card"}
        found = (self._bare(name, "wing", "wing") * self._bare(name, "seat", "seat"))[:, None, None]
        for column in ("bulk", "week"):
            nothing = block.column(name, column) == NOTHING
            if column in self.seen.marks:
                found = found * np.where(nothing, 0.0, 1.0)[:, None, None]
        marks = {m: m for m in BODY_MARKS}
        for column in BODY_MARKS:
            made = block.column(name, column) == AS_CLAIMED
            found = found * np.where(made, self.parts.as_claimed(column, 0), 1.0)[:, None, None]
        for record in (CLAIMED, BEARER_DONOR, 2):
            chassis = self._shown(name, "chassis", marks, record)
            body, week = (
                self._shown(name, "body", numbers, record),
                self._shown(name, "week", {"week": "week"}, record),
            )
            if record == 2:
                found = found * self._body_donor(chassis, body, week)
                continue
            found = found * self._record("body", body, record) * self._record("week", week, record)
            if record == CLAIMED:
                found = found * self._record("chassis", chassis, record)
        donor = self._shown(name, "chassis", marks, BEARER_DONOR)
        shown = [
            self._record(
                "chassis",
                donor | (mask_of("chassis", "frame") * f) | (mask_of("chassis", "plate") * p),
                1,
            )
            for f in (0, 1)
            for p in (0, 1)
        ]
        return np.stack([found * each for each in shown], axis=1)

    def _body_donor(self, chassis: Index, body: Index, week: Index) -> Array:
        """The body donor's number, letters and week together, summed over its kin."""
        share = donor_share(self.factory, self.parts.claim, 2)
        found, inverse = np.unique(np.stack([chassis, body, week]), axis=1, return_inverse=True)
        table = np.array(
            [
                share
                @ (
                    self.parts.of("chassis", int(c), False)
                    * self.parts.of("body", int(b), False)
                    * self.parts.of("week", int(w), False)
                )
                for c, b, w in found.T
            ]
        )
        return table[inverse.reshape(-1)][:, None, None]

    # ---------------------------------------------------------------- plate and papers

    def _papers(self, kind: int, skill: int) -> Array:
        """P(states of plate, ledger and card, and what those show that were made to fit or are
        a stranger's), shape (5, 3, 3)."""
        world, parts, marks = self.bank.world, self.parts, self.seen.marks
        plate = PLATES[kind].copy()
        if "plate" in marks:
            mine = float(parts.of("chassis", mask_of("chassis", "plate"), True)[0])
            plate *= [mine, 1.0, parts.as_claimed("plate", skill), parts.stranger("plate"), 0.0]
        states = [plate]
        for paper, there in (("ledger", world.ledger), ("card", world.card)):
            none, mine, made, stray = paper_shares(world, there, skill)
            if paper not in marks:
                states.append(np.array([none, 0.0, 0.0]))
                continue
            number = float(parts.of("chassis", mask_of("chassis", paper), True)[0])
            days = parts.despatched if paper == "ledger" else 1.0
            states.append(
                np.array(
                    [
                        stray * parts.stranger(paper),
                        mine * number * days,
                        made * parts.as_claimed(paper, skill),
                    ]
                )
            )
        found: Array = (
            states[0][:, None, None] * states[1][None, :, None] * states[2][None, None, :]
        )
        return found

    def _changed(self) -> Array:
        """P(colours shown | how the car differs, paper states), (changes, p, l, c, 1, kin)."""
        found = np.ones((len(CHANGED), 5, 3, 3, 1, len(self.kin)))
        for p, ledger, card in np.ndindex(5, 3, 3):
            names = [
                n
                for n, own in (("plate", p == 0), ("ledger", ledger == 1), ("card", card == 1))
                if own
            ]
            mask = mask_of("colours", *names)
            for changed in range(len(CHANGED)):
                found[changed, p, ledger, card] *= float(self.parts.colours(mask, changed))
            if p == 1:
                found[:, p, ledger, card] *= self.parts.colours(mask_of("colours", "plate"), None)[
                    self.kin
                ]
        return found


def _how_changed(world: World, kind: int) -> Array:
    """How often a car of this kind differs from its claim in each way of CHANGED."""
    differs = world.not_as_claimed[kind]
    return np.array([1.0 - differs, *(differs * share for share in CHANGED_SHARE)])


def paper_shares(world: World, there: float, skill: int) -> tuple[float, float, float, float]:
    """Shares of no paper, the car's own, one made to fit, a stranger's."""
    made = world.made_paper[skill]
    left = 1.0 - made
    return left * (1.0 - there), left * there * (1.0 - STRAY), made, left * there * STRAY
