"""What all tables of one car are made from: rates, items, numbers, weeks; and what one surface
shows under every way in which its piece can have come to be.

A surface was noted as it stands, or of the wrong thing (irrelevant, all that stands there
together), or shows the claim whatever stands there (a leak, of what was not seen in person).
"""

from collections.abc import Hashable
from dataclasses import dataclass, field, replace
from typing import Any

from witnessmark.casefile.records import LookClass, OriginSaid, Seen
from witnessmark.codebook.pieces import PieceKind
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.evidence.noted import (
    ABSENT,
    READ,
    CodeSeen,
    NumberSeen,
    PieceSeen,
    SurfaceSeen,
)
from witnessmark.weighing.evidence.numbers import series_of
from witnessmark.weighing.pieces.axes import LEAK, ONE, OTHER_CAR, RESTORED, along, by_structure
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.pieces.origins import Look, Shows
from witnessmark.weighing.pieces.terms import Group, Groups, HowNoted, SurfaceWay, Vectors
from witnessmark.weighing.rates import RateValues

REPLACED = (
    OriginSaid.SUPPLIED_NEW,
    OriginSaid.REPLACED,
    OriginSaid.ANOTHER_CARS,
    OriginSaid.MADE_LATER,
)
JOINING = (Shows.OWN, Shows.OTHER, Shows.FURTHER, Shows.STRUCK, Shows.COPY)

EVEN_LOOK = {Seen.IN_PERSON: 0.0, Seen.PHOTOGRAPH: 0.25, Seen.COPY: 0.5, Seen.TOLD: 1.0}
"""How far a look that was not seen in person is mixed with an even one."""
SEAM_ROWS = {Look.MOVED: "seam.letin", Look.MADE: "seam.made", Look.JOINED: "seam.joined"}
RARE_ABSENCE, GONE_ABSENT, GONE_SEEN, RARE_REMOVAL = 5e-4, 0.12, 0.88, 5e-4
BLANK_REMOVED = 0.01
EXCHANGED = 0.3
"""Share of the works' slips that exchange two neighbours instead of changing one figure."""
LATER_NUMBERED = 0.5
"""Service pieces that bear a number which only such pieces have, where the book knows one."""
RECORD_SLIP = 0.001
"""Codes at the works that are not those the car was built with."""


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Scene:
    """All that the case says of the car, and the rates of so many draws."""

    known: Noted
    rates: RateValues
    kept: dict[object, Any] = field(default_factory=dict)
    """What was worked out once of a surface, by what was asked."""

    def bearing_on(self, *pieces: PieceSeen) -> Hashable:
        """All that bears on what these pieces of one assembly show: what was noted of them, and
        what else a scene reads of the car for them. Equal where their terms are."""
        known = self.known
        surfaces = [surface for each in pieces for surface in each.surfaces]
        read = [n for s in surfaces for n in s.numbers if n.status is READ]
        return (
            pieces,
            tuple([known.numbers[each.item].shown_by(each) for each in read]),
            tuple([known.items[code.item].as_weighed for s in surfaces for code in s.codes]),
            self.said_replaced(*(a for p in pieces for a in (p.piece.id, p.piece.assembly))) is ONE,
            self._is_at_several_places(),
            (known.car.context, known.traits, known.grid, self.rates),
        )

    def look(self, surface: SurfaceSeen, kind: Look) -> Array:
        """P(how the surface looks | made, struck (by a crude or skilled hand), moved, removed)."""
        key = (
            surface.is_seamed,
            surface.fixings,
            surface.look,
            surface.look_how,
            surface.has_signs,
            kind,
        )
        if key not in self.kept:
            self.kept[key] = self._look(surface, kind)
        found: Array = self.kept[key]
        return found

    def _look(self, surface: SurfaceSeen, kind: Look) -> Array:
        if surface.fixings is not None:
            # A plate that was off is as made but for what holds it; one made later is not. What
            # holds it looks moved unless it never was off.
            itself = self._surface(surface, Look.REFITTED if kind is Look.MOVED else kind)
            held = Look.MADE if kind is Look.MADE else Look.MOVED
            return itself * self._surface(replace(surface, look=surface.fixings), held)
        if surface.is_seamed is None:
            return self._surface(surface, kind)
        # A piece let in is as made but for its edges.
        own = Look.MADE if kind in (Look.MOVED, Look.JOINED) else kind
        return self._seam(surface.is_seamed, kind) * self._surface(surface, own)

    def _surface(self, surface: SurfaceSeen, kind: Look) -> Array:
        if surface.look is None:
            return ONE
        rates, place = self.rates, tuple(LookClass).index(surface.look)

        def row(name: str) -> Array:
            a, b = rates[f"look.{name}.doubtful"], rates[f"look.{name}.disturbed"]
            found = (1.0 - a - b, a, b)[place]
            even = EVEN_LOOK[surface.look_how]
            return (1.0 - even) * found + even / 3.0

        if kind in (Look.MADE, Look.JOINED):
            return along(RESTORED, row("made"), row("restored"))
        # Whoever strikes like the works has seldom their own signs to put beside it.
        signs = rates["signs.struck"] if surface.has_signs else 1.0
        if kind is Look.STRUCK:
            skilled = rates["skilled"]
            return signs * ((1.0 - skilled) * row("crude") + skilled * row("skilled"))
        if kind in (Look.CRUDE, Look.SKILLED):
            return signs * row(kind)
        return row(kind)

    def _seam(self, is_seamed: bool, kind: Look) -> Array:
        """P(signs of cutting and joining about a structure's mark, or none | how it came)."""
        found = self.rates[SEAM_ROWS.get(kind, "seam.struck")]
        return found if is_seamed else 1.0 - found

    def irrelevant(self, surface: SurfaceSeen) -> Array:
        """P(noted of the wrong thing)."""
        if surface.is_again:
            return self.rates["irrelevant.again"]
        rows = {Seen.IN_PERSON: "irrelevant", Seen.TOLD: "irrelevant.told"}
        return self.rates[rows.get(surface.how, "irrelevant.picture")]

    def leak(self, surface: SurfaceSeen) -> Array | float:
        """P(shows the claim whatever stands there)."""
        # One source sent the pictures, one person told: most of it leaks, or nothing does.
        each = self.rates["leak.each"]
        if surface.how not in (Seen.TOLD, Seen.PHOTOGRAPH):
            return 0.0
        if self.known.traits.leaks == 1:
            return along(LEAK, 0.0, each)
        return along(LEAK, 0.0, each if surface.how is Seen.TOLD else 0.0, each)

    def shown(
        self,
        surface: SurfaceSeen,
        kind: PieceKind,
        record: Shows,
        look: Array,
        slip: str = "slip.works",
        fit: Array | None = None,
        codes_as: Shows | None = None,
    ) -> tuple[SurfaceWay, ...]:
        """The ways in which a surface with this record came to be noted as it was.

        `fit`: P(a code of it is the claimed one), where it is not this car's; `slip` the row of
        slips of whoever made it; `codes_as`: its codes are of this record, its numbers not.
        """
        if surface.is_silent:
            return (SurfaceWay(ONE),)
        wrong, leak = self.irrelevant(surface), self.leak(surface)
        stands = (1.0 - wrong) * (1.0 - leak) * look
        is_own_paper = kind is PieceKind.PAPER and record is Shows.OWN
        found = [
            SurfaceWay(stands * share * weight * codes, groups, vectors)
            for share, right in (self._lines(surface) if is_own_paper else [(ONE, surface)])
            for weight, groups in [self._status(right, kind, record, slip)]
            for codes, vectors in [self._codes(right.codes, codes_as or record, fit)]
        ]
        random, _ = self._status(surface, kind, Shows.ALONE, slip)
        any_code, _ = self._codes(surface.codes, Shows.ALONE, None)
        made = self.look(surface, Look.MADE)
        found.append(
            SurfaceWay(wrong * (1.0 - leak) * random * any_code * made, how=HowNoted.IRRELEVANT)
        )
        if surface.how in (Seen.PHOTOGRAPH, Seen.TOLD):
            claimed, groups = self._status(surface, kind, Shows.STRUCK, "slip.works")
            copied, _ = self._codes(surface.codes, Shows.STRUCK, None)
            found.append(SurfaceWay(leak * claimed * copied * made, groups, how=HowNoted.LEAK))
        return tuple(found)

    def _lines(self, surface: SurfaceSeen) -> list[tuple[Array, SurfaceSeen]]:
        """A paper of this car, all its lines right; and with one of them that says of the car
        what is any other's, without that line. What names the car is no such line: a paper on
        which that differs is another car's."""
        items = self.known.car.book.item
        odds = self.rates["paper.line"] / (1.0 - self.rates["paper.line"])
        wrong = []
        for number in surface.numbers if surface.bears_identity else ():
            item = items(number.item)
            if number.status is READ and item is not None and not item.identification:
                line = replace(surface, numbers=(number,), codes=())
                rest = tuple(each for each in surface.numbers if each is not number)
                value, _ = self._status(line, PieceKind.PAPER, Shows.ALONE, "")
                wrong.append((odds * value, replace(surface, numbers=rest)))
        for code in surface.codes:
            any_code, _ = self._codes((code,), Shows.ALONE, None)
            others = tuple(each for each in surface.codes if each is not code)
            wrong.append((odds * any_code, replace(surface, codes=others)))
        whole = 1.0 + len(wrong) * odds
        return [(share / whole, right) for share, right in [(ONE, surface), *wrong]]

    def _status(
        self, surface: SurfaceSeen, kind: PieceKind, record: Shows, slip: str
    ) -> tuple[Array, Groups]:
        key = (surface, kind, record, slip)
        if key not in self.kept:
            self.kept[key] = self._status_of(surface, kind, record, slip)
        weight, groups = self.kept[key]
        return weight, groups

    def _status_of(
        self, surface: SurfaceSeen, kind: PieceKind, record: Shows, slip: str
    ) -> tuple[Array, Groups]:
        weight = ONE
        groups: Groups = {}
        for number in surface.numbers:
            omitted, removed = self._lacks(number, kind, record)
            if number.status is ABSENT or number.is_bare:
                weight = weight * omitted
            elif number.status is not READ:
                weight = weight * removed
            elif self.known.numbers[number.item].is_later:
                # A number that was only ever supplied later: an exchange piece, read at its place.
                own = 1.0 - omitted - removed if record is Shows.BLANK else RARE_ABSENCE
                weight = weight * own
            else:
                value, group = self._read(number, record, slip)
                weight = weight * (1.0 - omitted - removed) * value
                if group is not None:
                    was = groups.get(number.item, (0, 0, 0, 0))
                    one, two, three, four = (a | b for a, b in zip(was, group, strict=True))
                    groups[number.item] = (one, two, three, four)
        return weight, groups

    def _lacks(self, number: NumberSeen, kind: PieceKind, record: Shows) -> tuple[Array, Array]:
        """P(absent | record), P(removed | record)."""
        rates = self.rates
        if record is Shows.GONE:
            return GONE_ABSENT * ONE, GONE_SEEN * ONE
        if record is Shows.BLANK:
            bare = 1.0 - LATER_NUMBERED if self._is_served(number.item) else rates["absent.service"]
            return bare * ONE, BLANK_REMOVED * ONE
        if kind is PieceKind.PAPER or not number.always:
            # Whether a line was filled in has nothing to do with who wrote it, and what the works
            # left bare is left bare by whoever makes it anew: that it is there says nothing.
            return rates["absent.seldom"], RARE_REMOVAL * ONE
        if record in (Shows.STRUCK, Shows.COPY):
            if kind is not PieceKind.STRUCTURE:
                return RARE_ABSENCE * ONE, RARE_REMOVAL * ONE
            # A panel that was replaced is left bare.
            return rates["absent.repaired"], RARE_REMOVAL * ONE
        if record is not Shows.OWN:
            return rates["absent.donor"], RARE_REMOVAL * ONE
        if kind is not PieceKind.STRUCTURE:
            return rates["absent.first"], RARE_REMOVAL * ONE
        # A panel that bears the number was replaced, where another place still bears it.
        row = "absent.repaired" if self._is_at_several_places() else "absent.structure"
        return rates[row], RARE_REMOVAL * ONE

    def _is_at_several_places(self) -> bool:
        """Does the structure bear its number at several places of which the book may argue?"""
        places = [
            surface
            for each in self.known.seen
            if each.piece.kind is PieceKind.STRUCTURE
            for surface in each.surfaces
            if surface.bears_identity and any(mark.argues for mark in surface.marks)
        ]
        return len(places) > 1

    def _is_served(self, item: str) -> bool:
        """Does the book know numbers of this item, a part's own, that only pieces supplied later
        have?"""
        known = self.known.car.book.item(item)
        return (
            known is not None
            and not known.identification
            and any(not row.with_the_car for row in series_of(self.known.car.book, known))
        )

    def _read(
        self, number: NumberSeen, record: Shows, slip: str
    ) -> tuple[Array | float, Group | None]:
        """P(characters | record) over alone, and the group that its mark joins."""
        item = self.known.numbers[number.item]
        slot = item.slots[number]
        bit = 1 << slot
        if item.records is None and len(item.slots) == 1 and record in JOINING:
            # One mark alone: nothing joins it.
            return float(item.own[1]) if record in (Shows.OWN, Shows.STRUCK) else 1.0, None
        if record is Shows.GONE:
            return 0.0, None
        if record is Shows.BLANK:
            # The few service pieces that bear a number bear one of their own series, or any.
            return 1.0 if item.served is None else item.served[slot], None
        if record is Shows.ALONE:
            return 1.0, None
        if record is Shows.FURTHER:
            # Alone on its core, and copied by nothing, its number is as any other.
            return 1.0, None if item.is_alone[slot] else (0, 0, bit, 0)
        if record is Shows.COPY and item.records is None:
            return 1.0, (0, 0, 0, bit)
        if record is Shows.OTHER:
            return 1.0, (0, bit, 0, 0)
        slips = self.rates[slip]
        if item.records is None:
            return 1.0, (bit, 0, 0, 0)
        shown = item.records[slot]
        mixed = (1.0 - EXCHANGED) * shown.slip + EXCHANGED * shown.swap
        read = self.rates["slip.read.again" if number.is_again else "slip.read"]
        return (1.0 - slips - read) * shown.hit + slips * mixed + read * shown.swap, None

    def _codes(
        self, codes: tuple[CodeSeen, ...], record: Shows, fit: Array | None
    ) -> tuple[Array | float, Vectors]:
        """P(codes | record): a number for what is not this car's, a vector by item for what is."""
        key = (codes, record, None if fit is None else fit.tobytes())
        if key not in self.kept:
            self.kept[key] = self._codes_of(codes, record, fit)
        weight, vectors = self.kept[key]
        return weight, vectors

    def _codes_of(
        self, codes: tuple[CodeSeen, ...], record: Shows, fit: Array | None
    ) -> tuple[Array | float, Vectors]:
        weight: Array | float = 1.0
        vectors: Vectors = {}
        for code in codes:
            item = self.known.items[code.item]
            vector = item.vector(code)
            claimed, other = float(vector[0]), item.other(vector)
            if record in (Shows.OWN, Shows.COPY):
                # A copy of the plate or paper that it stands for says what that said.
                own = (1.0 - RECORD_SLIP) * vector + RECORD_SLIP * other
                vectors[item.id] = vectors.get(item.id, 1.0) * own
                continue
            if code.by_number:
                # Whose number it is, is weighed with the number.
                continue
            share = self.rates["struck.code"] if record is Shows.STRUCK else fit
            if share is None:
                share = self.rates["any.code" if not item.is_of_number else "like.code"]
            weight = weight * (share * claimed + (1.0 - share) * other)
        return weight, vectors

    def said_replaced(self, *about: str) -> Array:
        """P(a paper in hand says that it was replaced | it is first); 1 where none does."""
        read = {each.mark for each in self.known.car.casefile.readings}
        said = any(
            each.about in about and each.paper in read and each.origin in REPLACED
            for each in self.known.car.casefile.claim.statements
        )
        return self.rates["paper.replaced.first"] if said else ONE

    def link(self) -> Array:
        """P(a part of another car is the other car's | the car)."""
        first, other = self.rates["link.first"], self.rates["link.reshell"]
        return by_structure(first, other, self.rates["link.taken"], first) * self.has_other_car()

    def has_other_car(self) -> Array:
        """1 where there is another car, else 0."""
        return self.by_other_car(0.0, 1.0, 1.0, 1.0)

    def by_other_car(self, *parts: Array | float) -> Array:
        """A table along K; the last part is of a car that the claim describes."""
        return along(OTHER_CAR, *(parts if self.known.traits.claim_may_be_read_off else parts[:3]))

    def like_code(self) -> Array:
        """P(the other car's code is the claimed one | K)."""
        rates, other = self.rates, self.rates["any.code"]
        return self.by_other_car(other, rates["like.code"], other, rates["suit.code"])
