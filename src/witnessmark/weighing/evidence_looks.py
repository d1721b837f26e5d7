"""How the metal around a mark looks, whether the mark is absent or detached, as evidence."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import LookClass, LookSeen, Seen
from witnessmark.catalogue import said
from witnessmark.reading.records import CellKind
from witnessmark.weighing.nodes import Attachment, CharacterSource, Node, NodeState
from witnessmark.weighing.priors import AS_CLAIMED, DECEIT, TableMaker
from witnessmark.weighing.rows import Table, fixed

Array = NDArray[np.float64]

LOOKS = (LookClass.FACTORY, LookClass.DOUBTFUL, LookClass.DISTURBED)
EVEN_SHARE = {way: fixed(f"seen.{way.replace(' ', '_')}.even") for way in Seen}
"""How far a look that was not seen in person is mixed with the even row (assumed)."""


def look_class(car: CarMarks, look: LookSeen) -> LookClass | None:
    """The look an outcome counts as: by its own word, or by the book's feature.

    None where the book knows neither, or gives the feature from memory.
    """
    for feature in car.book.features:
        if feature.id != look.feature or feature.site != look.site:
            continue
        if not feature.applies.covers(car.context):
            continue
        if not feature.citation.basis.weighs:
            return None
        for outcome in feature.outcomes:
            if outcome.id == look.outcome:
                return LookClass(outcome.look)
    words = {word.value: word for word in LookClass}
    return words.get(look.outcome)


@dataclass(frozen=True, slots=True)
class _Look:
    """One look at one site: its class, how it was seen, and its words."""

    site: str
    kind: LookClass
    seen: Seen
    words: tuple[str, ...]


def _noted(car: CarMarks) -> list[_Look]:
    """The looks that were noted and whose class is known."""
    found = []
    for look in car.casefile.looks:
        kind = look_class(car, look)
        if kind is not None:
            # "surface: disturbed" says no more than the class itself.
            words = () if look.outcome == kind.value else (look.outcome,)
            found.append(_Look(look.site, kind, look.seen, words))
    return found


def _obliterated(car: CarMarks) -> list[_Look]:
    """Characters read as ground, filled or struck over: that it was done is a look.

    One character alone is how a works corrected its own slip; more are a disturbance.
    """
    found = []
    for decoding in car.decodings:
        mark = car.book.mark(decoding.mark)
        cells = [c for c in decoding.reading.cells if c.kind is CellKind.OBLITERATED]
        if mark is None or not cells:
            continue
        if len(cells) == 1:
            words, kind = said("one character struck over"), LookClass.DOUBTFUL
        else:
            words = said("characters ground, filled or struck over")
            kind = LookClass.DISTURBED
        found.append(_Look(mark.site, kind, decoding.reading.seen, (words,)))
    return found


def worst_looks(car: CarMarks) -> dict[str, tuple[LookClass, Seen, tuple[str, ...]]]:
    """Site to its most disturbed look: several features of one place count once.

    Where two people saw the same class, the better view of it counts. The third
    part names the features and outcomes noted.
    """
    found: dict[str, tuple[LookClass, Seen, tuple[str, ...]]] = {}
    views = list(EVEN_SHARE)
    for look in (*_noted(car), *_obliterated(car)):
        kind, noted = look.kind, look.words
        if look.site not in found:
            found[look.site] = (kind, look.seen, noted)
            continue
        old_kind, old_seen, old_noted = found[look.site]
        worse = LOOKS.index(kind) - LOOKS.index(old_kind)
        better_seen = worse == 0 and views.index(look.seen) < views.index(old_seen)
        if worse > 0 or better_seen:
            found[look.site] = (kind, look.seen, old_noted + noted)
        else:
            found[look.site] = (old_kind, old_seen, old_noted + noted)
    return found


def look_likelihood(kind: LookClass, seen: Seen) -> Array:
    """P(look noted | outcome) over factory, doubtful, disturbed, mixed with the even row."""
    mix = EVEN_SHARE[seen]
    likelihood = np.full(3, mix / 3.0)
    likelihood[LOOKS.index(kind)] += 1.0 - mix
    return likelihood


def look_table(maker: TableMaker, node: Node, is_detached: bool = False) -> Table:
    """P(factory, doubtful, disturbed | D, R, S), shape (3, 2, states, 3).

    On a car that was worked over, what was never touched looks worked on too.

    A part kept apart from the car shows how it was made, not how it was fixed: its
    own characters then look the same however it came off.
    """
    table = Table((len(DECEIT), 2, len(node.states), 3))
    for d, deceit in enumerate(DECEIT):
        for state, node_state in enumerate(node.states):
            name = _look_name(node_state, deceit)
            if is_detached and node_state.source is CharacterSource.OWN:
                name = "refitted"
            for worked, known_as in enumerate((name, "worked" if name == "factory" else name)):
                entries = {1: f"look.{known_as}.doubtful", 2: f"look.{known_as}.disturbed"}
                maker.put(table, (d, worked, state), entries, 0)
    return table


def _look_name(state: NodeState, deceit: str) -> str:
    if state.source is CharacterSource.MADE:
        return f"made.{deceit}"
    if state.source in (CharacterSource.OTHER, CharacterSource.BLANK):
        return state.source.value
    if state.source is CharacterSource.OWN and state.attachment is Attachment.BROUGHT:
        return f"brought.{deceit}"
    return "refitted" if state.attachment is Attachment.REFITTED else "factory"


def absence_table(maker: TableMaker, node: Node) -> Table:
    """P(present, absent | S), shape (states, 2), where the works always struck the mark."""
    table = Table((len(node.states), 2))
    for state, node_state in enumerate(node.states):
        if node_state.source is CharacterSource.BLANK:
            table.put_certain((state,), 1)
        else:
            made = node_state.source is CharacterSource.MADE
            maker.put(table, (state,), {1: "absent.made" if made else "absent.struck"}, 0)
    return table


def detached_table(maker: TableMaker, node: Node) -> Table:
    """P(in place, detached | S), shape (states, 2)."""
    table = Table((len(node.states), 2))
    for state, node_state in enumerate(node.states):
        row = {
            Attachment.SINCE_FACTORY: "detached.own",
            Attachment.REFITTED: "detached.refitted",
            Attachment.BROUGHT: "detached.brought",
        }[node_state.attachment]
        maker.put(table, (state,), {1: row}, 0)
    return table


def missing_table(maker: TableMaker) -> Table:
    """P(there, no such part on the car | assembly own or not, C), shape (2, configurations, 2).

    The claimed car has the part; a car without it is not the claimed assembly's,
    nor built as claimed.
    """
    table = Table((2, maker.configurations, 2))
    for c in range(maker.configurations):
        maker.put(table, (0, c), {1: "missing.own"}, 0)
        other = "missing.as_claimed" if c == AS_CLAIMED else "missing.not_own"
        maker.put(table, (1, c), {1: other}, 0)
    return table
