"""A car's network in pyAgrum, a general-purpose library of Bayesian networks.

The weighing gives the ways of every piece, each with its prior and the likelihood of what was
noted under it; the weeks with the curves of its dates; the marks of each number with the
likelihood of every character. Here every cause is a variable with its table, every thing noted
a binary child that is seen to be true, and the numbers of marks are summed character by
character. Nothing of the weighing's own sums is used.
"""

import warnings
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing import RateValues
from witnessmark.weighing.evidence.noted import READ
from witnessmark.weighing.evidence.numbers import spreads_of
from witnessmark.weighing.network.build import prior_of, ties_of
from witnessmark.weighing.network.network import Network
from witnessmark.weighing.pieces.axes import NAMES
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.pieces.terms import Term, key_of

with warnings.catch_warnings():
    # Its compiled types lack what newer interpreters ask of them; nothing of ours.
    warnings.simplefilter("ignore", DeprecationWarning)
    import pyagrum as gum

Array = NDArray[np.float64]

OWN, OTHER, FURTHER, COPIED = range(4)
"""Places of a mark in a term's groups: whose number it shows."""


@dataclass
class Net:
    """The library's network, what is seen to be true, and the factor by which all is scaled."""

    bn: gum.BayesNet = field(default_factory=lambda: gum.BayesNet("car"))
    seen: list[str] = field(default_factory=list)
    log_scale: float = 0.0

    def add(self, name: str, parents: Sequence[str], table: Array) -> str:
        """A variable with P(it | parents); the table's axes are the parents, then itself. One
        with a single state is none."""
        if table.shape[-1] == 1:
            return name
        self.bn.add(gum.RangeVariable(name, name, 0, table.shape[-1] - 1))
        kept = [k for k, size in enumerate(table.shape[:-1]) if size > 1]
        for k in kept:
            self.bn.addArc(parents[k], name)
        axes = [*(parents[k] for k in kept), name]
        laid = table.reshape([table.shape[k] for k in kept] + [table.shape[-1]])
        # The library's axes run the other way round than its list of names.
        order = [axes.index(each) for each in reversed(self.bn.cpt(name).names)]
        self.bn.cpt(name)[:] = np.ascontiguousarray(laid.transpose(order), dtype=np.float64)
        return name

    def note(self, name: str, parents: Sequence[str], likelihood: Array) -> None:
        """Something noted with this likelihood given its parents: a binary child seen true."""
        most = float(likelihood.max())
        true = likelihood / most
        self.log_scale += float(np.log(most))
        self.seen.append(self.add(name, parents, np.stack([1.0 - true, true], axis=-1)))


def net_of(known: Noted, rates: RateValues, network: Network) -> Net:
    """The car's network in the library. ValueError where a table of it is none."""
    net = Net()
    _add_car(net, prior_of(known, rates)[0])
    net.add("t", (), known.grid.prior)
    net.add("y", ("K",), known.grid.other_priors)
    for item in known.items:
        net.add(f"item {item}", NAMES[1:], network.axes.priors[item][0])
    for k, rule in enumerate(network.axes.configured.rules):
        axes = [axis for axis in rule.axes if axis != "d"]
        net.note(f"rule {k}", axes, rule.table[0] if "d" in rule.axes else rule.table)
    pieces = {piece: _Piece(cells.terms) for piece, cells in network.cells.items()}
    for name, piece in pieces.items():
        _add_piece(net, known, name, piece)
    for item in known.numbers:
        _add_number(net, known, pieces, item)
    count = len(list(ties_of(known)))
    for k, bond in enumerate(network.bonds[len(network.bonds) - count :]):
        axes = [axis for axis in bond.axes if axis != "d"]
        table = bond.table[0] if "d" in bond.axes else bond.table
        net.note(f"tie {k}", axes, _as_groups(table, axes, network, pieces))
    faults = net.bn.check()
    if faults:
        raise ValueError("; ".join(faults))
    return net


def joints(net: Net, names: Sequence[str]) -> dict[str, Array]:
    """P(all that was noted, each state) of these variables, by lazy propagation."""
    engine = gum.LazyPropagation(net.bn)
    engine.setEvidence(dict.fromkeys(net.seen, 1))
    engine.makeInference()
    whole = engine.evidenceProbability() * np.exp(net.log_scale)
    known = set(net.bn.names())
    return {
        name: whole * (np.array(engine.posterior(name).toarray()) if name in known else np.ones(1))
        for name in names
    }


def ways_in(piece: Sequence[Term], acts: Array) -> dict[tuple[str, str], float]:
    """The joint of each way of a piece from that of its acts."""
    found: dict[tuple[str, str], float] = {}
    for act, joint in zip(_Piece(piece).acts, acts.tolist(), strict=True):
        way = (act.origin, act.hand)
        found[way] = found.get(way, 0.0) + joint
    return found


class _Piece:
    """A piece's acts (the terms with one prior), and its terms by days and by number groups."""

    def __init__(self, terms: Sequence[Term]) -> None:
        self.terms = tuple(terms)
        first: dict[int, Term] = {}
        for term in terms:
            first.setdefault(id(term.prior), term)
        self.acts = tuple(first.values())
        self.act_of = [list(first).index(id(term.prior)) for term in terms]
        self.days = _classes([(_raw(t.own_days), _raw(t.other_days)) for t in terms])
        self.groups = _classes([(key_of(t.groups), t.tie) for t in terms])

    def stands_for(self, classes: Sequence[int]) -> list[Term]:
        """One term of each class."""
        return [self.terms[classes.index(k)] for k in range(max(classes) + 1)]


def _raw(curve: Array | None) -> bytes:
    return b"" if curve is None else curve.tobytes()


def _classes(keys: Sequence[object]) -> list[int]:
    places = {key: k for k, key in enumerate(dict.fromkeys(keys))}
    return [places[key] for key in keys]


def _add_car(net: Net, joint: Array) -> None:
    """The car's own variables, one after another, each given those before it."""
    names = NAMES[1:]
    for k, name in enumerate(names):
        marginal = joint.sum(axis=tuple(range(k + 1, len(names))))
        before = marginal.sum(axis=-1, keepdims=True)
        even = np.full_like(marginal, 1.0 / marginal.shape[-1])
        table = np.divide(marginal, before, out=even, where=before > 0.0)
        net.add(name, names[:k], table)


def _add_piece(net: Net, known: Noted, name: str, piece: _Piece) -> None:
    act, term = f"act {name}", f"term {name}"
    priors = np.stack(np.broadcast_arrays(*(each.prior[0] for each in piece.acts)), axis=-1)
    net.add(act, NAMES[1:], priors)
    count = [piece.act_of.count(k) for k in range(len(piece.acts))]
    chosen = np.zeros((len(piece.acts), len(piece.terms)))
    for place, k in enumerate(piece.act_of):
        chosen[k, place] = 1.0 / count[k]
    net.add(term, (act,), chosen)
    items = list(known.items)
    noted = [
        count[piece.act_of[place]] * _with_items(each, known, items)
        for place, each in enumerate(piece.terms)
    ]
    shape = np.broadcast_shapes(*(each.shape for each in noted))
    parents = (term, *NAMES[1:], *(f"item {item}" for item in items))
    net.note(f"noted {name}", parents, np.stack([np.broadcast_to(n, shape) for n in noted]))
    _add_class(net, f"days {name}", term, piece.days)
    _add_class(net, f"groups {name}", term, piece.groups)
    own = [each.own_days for each in piece.stands_for(piece.days)]
    other = [each.other_days for each in piece.stands_for(piece.days)]
    for curves, week in ((own, "t"), (other, "y")):
        if any(curve is not None for curve in curves):
            size = next(c.size for c in curves if c is not None)
            table = np.stack([np.ones(size) if c is None else c for c in curves])
            net.note(f"{week} of {name}", (f"days {name}", week), table)


def _with_items(term: Term, known: Noted, items: Sequence[str]) -> Array:
    """The likelihood of a term, shape (car..., items...)."""
    weight = np.asarray(term.weight)[0]
    for item in items:
        shape = [1] * (weight.ndim + 1)
        vector = term.vectors.get(item)
        if vector is not None:
            shape[-1] = vector.size
        laid = (np.ones(1) if vector is None else vector).reshape(shape)
        weight = weight[..., None] * laid
    return weight


def _add_class(net: Net, name: str, term: str, classes: Sequence[int]) -> None:
    net.add(name, (term,), np.eye(max(classes) + 1)[list(classes)])


def _add_number(net: Net, known: Noted, pieces: dict[str, _Piece], item: str) -> None:
    """Whose number each mark shows: the marks that show one car's are read off one number."""
    bearing = {
        name: [term.groups.get(item, (0, 0, 0, 0)) for term in piece.stands_for(piece.groups)]
        for name, piece in pieces.items()
    }
    bearing = {name: groups for name, groups in bearing.items() if any(map(any, groups))}
    if not bearing:
        return
    chances = _Chances(known, item)
    home = known.numbers[item].home
    table = np.empty([len(groups) for groups in bearing.values()])
    for place in product(*(range(size) for size in table.shape)):
        shown = {n: bearing[n][k] for n, k in zip(bearing, place, strict=True)}
        table[place] = _of_cars(chances, shown, home)
    net.note(f"number {item}", [f"groups {name}" for name in bearing], table)


def _of_cars(chances: "_Chances", shown: dict[str, tuple[int, ...]], home: str) -> float:
    """The likelihood of all marks, car by car. What copies shows what its home shows."""
    own = set().union(*(_bits(group[OWN]) for group in shown.values()))
    other = set().union(*(_bits(group[OTHER]) for group in shown.values()))
    copied = set().union(*(_bits(group[COPIED]) for group in shown.values()))
    further = {name: _bits(group[FURTHER]) for name, group in shown.items()}
    if home not in shown or shown[home][OWN]:
        own |= copied
    elif shown[home][OTHER]:
        other |= copied
    else:
        further[home] |= copied
    found = chances.of(own, is_own=True) * chances.of(other, is_own=False)
    for marks in further.values():
        found *= chances.of(marks, is_own=False)
    return found


def _bits(mask: int) -> set[int]:
    return {k for k in range(mask.bit_length()) if mask >> k & 1}


class _Chances:
    """How probable the marks of one number are if they all show the same one, over each alone."""

    def __init__(self, known: Noted, item: str) -> None:
        found = known.car.book.item(item)
        assert found is not None
        every, own, _ = spreads_of(known.car.book, found, known.car.context)
        self.every, self.own = every, own or every
        self.rows = {n.slot: n.rows for n in self._read(known, item)}

    def _read(self, known: Noted, item: str) -> Iterator:
        for piece in known.seen:
            yield from (n for n in piece.numbers if n.item == item and n.status == READ)

    def of(self, marks: set[int], is_own: bool) -> float:
        """1 where there are none."""
        if not marks:
            return 1.0
        alone = 1.0
        for mark in marks:
            alone *= self._sum(self.every, {mark})
        return self._sum(self.own if is_own else self.every, marks) / alone

    def _sum(self, spread, marks: set[int]) -> float:
        """Over blocks of numbers, places and characters."""
        total = 0.0
        for weight, shares in zip(spread.weights.tolist(), spread.shares.tolist(), strict=True):
            for place, by_character in enumerate(shares):
                chance = 0.0
                for character, share in enumerate(by_character):
                    if share:
                        for mark in marks:
                            share *= float(self.rows[mark][place, character])
                        chance += share
                weight *= chance
            total += weight
        return total


def _as_groups(table: Array, axes: list[str], network: Network, pieces: dict[str, _Piece]) -> Array:
    """A tie's table; its cells stand in the order of the library's classes of groups."""
    for place, axis in enumerate(axes):
        name = axis.removeprefix("groups ")
        order = [
            network.cells[name].cell_of[pieces[name].groups.index(k)][1]
            for k in range(max(pieces[name].groups) + 1)
        ]
        table = np.take(table, order, axis=place)
    return table
