"""Two changes of one case put together: what each of two people wrote stands in it, or beside it.

Objects meet field by field. The entries of a list are told apart by what they speak of (a site, a
mark and its reader, an exhibit), lists of plain texts and of regions by the whole entry, all others
by their order; an entry that was added stays, one that was taken out goes, unless the other has
changed it meanwhile. Where both gave one place another value, theirs stands and mine is kept beside
it. Pure: two states and the one they come from, as JSON has them.
"""

import json
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from difflib import SequenceMatcher
from enum import Enum
from typing import Any, Final

Path = tuple[str | int, ...]


class Absent(Enum):
    """The one value that stands for none: null is a value."""

    ABSENT = "absent"


ABSENT: Final = Absent.ABSENT


@dataclass(frozen=True, slots=True)
class Difference:
    """A place that both changed: what it was, what stands there, and what the other wrote.

    `path` is that of the document which was put together.
    """

    path: Path
    base: Any
    theirs: Any
    mine: Any


@dataclass(frozen=True, slots=True)
class Meeting:
    """The document of two changes, and what both wrote differently."""

    value: Any
    beside: tuple[Difference, ...]


def merge(base: Any, theirs: Any, mine: Any) -> Meeting:
    """Put my change of `base` into theirs.

    >>> merge({"a": 1, "b": 1}, {"a": 2, "b": 1}, {"a": 1, "b": 3}).value
    {'a': 2, 'b': 3}
    >>> merge({"a": 1}, {"a": 2}, {"a": 3}).beside
    (Difference(path=('a',), base=1, theirs=2, mine=3),)
    """
    work = _Work()
    value = work.value((), (), base, theirs, mine)
    return Meeting(value, tuple(work.beside))


@dataclass(slots=True)
class _Work:
    """A walk through three states; `kind` names the list or object, without places in lists."""

    beside: list[Difference] = field(default_factory=list)

    def value(self, path: Path, kind: Path, base: Any, theirs: Any, mine: Any) -> Any:
        """What stands at this path."""
        if is_same(mine, base) or is_same(mine, theirs):
            return theirs
        if is_same(theirs, base):
            return mine
        if isinstance(theirs, dict) and isinstance(mine, dict) and kind not in _AT_ONCE:
            return self._fields(path, kind, base if isinstance(base, dict) else {}, theirs, mine)
        if isinstance(theirs, list) and isinstance(mine, list):
            return self._entries(path, kind, base if isinstance(base, list) else [], theirs, mine)
        if kind not in _BY_CLOCK:
            self.beside.append(Difference(path, base, theirs, mine))
        return theirs

    def _fields(
        self,
        path: Path,
        kind: Path,
        base: Mapping[str, Any],
        theirs: Mapping[str, Any],
        mine: Mapping[str, Any],
    ) -> dict[str, Any]:
        met = {
            key: self.value(
                (*path, key),
                (*kind, key),
                *(each.get(key, ABSENT) for each in (base, theirs, mine)),
            )
            for key in {**theirs, **mine}
        }
        return {key: value for key, value in met.items() if value is not ABSENT}

    def _entries(
        self, path: Path, kind: Path, base: list[Any], theirs: list[Any], mine: list[Any]
    ) -> list[Any]:
        """Theirs in their order, then what only I have added."""
        named = _NAMED.get(kind, _whole if kind[-1:] in _WHOLE or _is_plain(mine) else _nameless)
        of_theirs, of_mine = _paired(base, theirs, named), _paired(base, mine, named)
        new_theirs = [n for n in range(len(theirs)) if n not in of_theirs.values()]
        new_mine = [n for n in range(len(mine)) if n not in of_mine.values()]
        # Both may have added the same entry: the one that speaks of the same is the same.
        added = _paired([theirs[n] for n in new_theirs], [mine[n] for n in new_mine], named, True)
        from_base = {at: n for n, at in of_theirs.items()}
        met: list[Any] = []
        for at, value in enumerate(theirs):
            n = from_base.get(at)
            if n is None:
                twin = added.get(new_theirs.index(at))
                my = ABSENT if twin is None else mine[new_mine[twin]]
                met.append(
                    value if my is ABSENT else self._entry(path, kind, met, (ABSENT, value, my))
                )
                continue
            my = mine[of_mine[n]] if n in of_mine else ABSENT
            found = self._entry(path, kind, met, (base[n], value, my))
            if found is not ABSENT:
                met.append(found)
        for n, at in of_mine.items():
            if n not in of_theirs and not is_same(base[n], mine[at]):
                # They took out what I have changed: they stand, and mine is kept.
                self.beside.append(Difference((*path, len(met)), base[n], ABSENT, mine[at]))
        twins = set(added.values())
        return [*met, *(mine[at] for n, at in enumerate(new_mine) if n not in twins)]

    def _entry(self, path: Path, kind: Path, met: list[Any], states: tuple[Any, Any, Any]) -> Any:
        return self.value((*path, len(met)), kind, *states)


def is_same(one: Any, other: Any) -> bool:
    """Equal as JSON: 1 is not true, and not 1.0; the order of fields says nothing."""
    if one is ABSENT or other is ABSENT:
        return one is other
    return one is other or _as_text(one) == _as_text(other)


def _as_text(value: Any) -> str:
    return json.dumps(value, sort_keys=True)


def _paired(
    base: list[Any], now: list[Any], named: Callable[[Any], object], is_new: bool = False
) -> dict[int, int]:
    """Which entry of `now` is which of `base`, by their places.

    Of those with one name, the same come first; what lies between them in both is the same entry
    with other values, in order. Nameless entries that are new are one only where they are equal.
    """
    pairs: dict[int, int] = {}
    names = dict.fromkeys(map(named, base))
    for name in names:
        old = [n for n, each in enumerate(base) if named(each) == name]
        new = [n for n, each in enumerate(now) if named(each) == name]
        was, are = [_as_text(base[n]) for n in old], [_as_text(now[n]) for n in new]
        for tag, i1, i2, j1, j2 in SequenceMatcher(None, was, are, autojunk=False).get_opcodes():
            if tag == "equal" or (tag == "replace" and not (is_new and name == _NO_NAME)):
                pairs |= zip(old[i1:i2], new[j1:j2], strict=False)
    return pairs


_NO_NAME: Final = ()


def _nameless(_entry: Any) -> object:
    return _NO_NAME


def _whole(entry: Any) -> object:
    return _as_text(entry)


def _is_plain(entries: list[Any]) -> bool:
    """Nothing but texts, numbers and the like."""
    return not any(isinstance(each, dict | list) for each in entries)


def _by(*fields: str, **defaults: object) -> Callable[[Any], object]:
    """The name of an entry: these fields of it, a field that is left out as it is by default."""

    def named(entry: Any) -> object:
        if not isinstance(entry, dict):
            return _NO_NAME
        return tuple(_as_text(entry.get(each, defaults.get(each, ""))) for each in fields)

    return named


_AT_ONCE = {
    ("circumstances", "prior_odds"),
    ("circumstances", "overrides"),
    ("circumstances", "vouched"),
    ("claim", "statements"),
    ("papers", "says"),
    ("sums",),
}
"""Lists of entries that say one thing with all their fields: no value with another's reason."""

_BY_CLOCK = {("readings", "when"), ("looks", "when")}
"""What a clock noted and nobody typed: theirs stands beside their text."""

_WHOLE = (("number_regions",),)
"""Lists of entries that make no sense mixed: a rectangle with the left edge of another."""

_NAMED: Mapping[Path, Callable[[Any], object]] = {
    ("sites",): _by("site", "mark"),
    ("readings",): _by("mark", "by", "again", again=False),
    ("looks",): _by("site", "feature", "by", "again", feature="surface", again=False),
    ("papers",): _by("mark", "name"),
    ("papers", "says"): _by("item"),
    ("exhibits",): _by("id"),
    ("claim", "statements"): _by("about"),
    ("assignment", "examiners"): _by("id"),
    ("assignment", "assistance"): _by("who"),
    ("circumstances", "prior_odds"): _by("question"),
    ("circumstances", "overrides"): _by("row"),
    ("circumstances", "vouched"): _by("row"),
}
"""What the entries of each list of a case are told apart by."""


def leaves(value: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Every plain value, and every empty list or object, with its path."""
    members: Iterator[tuple[str | int, Any]] = iter(())
    if isinstance(value, dict):
        members = iter(value.items())
    elif isinstance(value, list):
        members = iter(enumerate(value))
    is_bare = True
    for key, each in members:
        is_bare = False
        yield from leaves(each, (*path, key))
    if is_bare:
        yield path, value
