"""Names as people write them: case, hyphens, underscores and spaces do not matter.

A mark has an id, a name, a name of its maker's people and the words of the trade
(`aliases`); a model and a works have an id and a name, which may hold several: what stands between
its brackets, commas and joining words is a name too, if no other one has it.
"""

import re
from collections.abc import Iterable, Iterator

from witnessmark.codebook.marks import Alias, Mark
from witnessmark.codebook.records import CarContext, Item, Model, Works

_BETWEEN = re.compile(r"[\s_\u2010-\u2015-]+")
_JOINED = re.compile(r"[(),:;]|\b(?:and|with|or)\b")


def plain_name(name: str) -> str:
    """A name without what people write now so and now so.

    >>> plain_name("Trim-Tag"), plain_name(" trim_tag ")
    ('trimtag', 'trimtag')
    """
    return _BETWEEN.sub("", name).casefold()


def names_of(mark: Mark) -> Iterator[Alias]:
    """All that a mark is called, each name with the cars for which it means this mark."""
    for name in (mark.id, mark.name, mark.local_name):
        if name:
            yield Alias(name=name, applies=mark.applies)
    yield from mark.aliases


def is_instead(mark: Mark, other: Mark) -> bool:
    """Has a car one of these two? They are forms of one mark, or have a name in common: that is
    what stands there on other cars."""
    if (mark.other_form_of or mark.id) == (other.other_form_of or other.id):
        return True
    names = {plain_name(each.name) for each in names_of(mark)}
    return not names.isdisjoint(plain_name(each.name) for each in names_of(other))


def marks_called(marks: Iterable[Mark], name: str, context: CarContext) -> tuple[Mark, ...]:
    """The marks of this name that a car of this context can have; all of this name where it
    can have none. A name that is an id letter by letter means that mark before others."""
    wanted = plain_name(name)
    called: list[Mark] = []
    fitting: list[Mark] = []
    for mark in marks if wanted else ():
        meant = [each.applies for each in names_of(mark) if plain_name(each.name) == wanted]
        if meant:
            called.append(mark)
        if any(applies.covers(context) for applies in meant):
            fitting.append(mark)
    found = fitting or called
    return tuple(mark for mark in found if mark.id == name) or tuple(found)


def named[T: Item | Model | Works](name: str, things: Iterable[T]) -> T | None:
    """The item, model or works that somebody means: by its id or name, or by a part of its name
    that no other one has, or None.

    "Van Nuys" means `Los Angeles (Van Nuys), California`; "California" means no one works.
    """
    wanted = plain_name(name)
    known = tuple(things)
    for thing in known:
        if wanted in (plain_name(thing.id), plain_name(thing.name)):
            return thing
    partly = [thing for thing in known if wanted and wanted in _parts(thing.name)]
    return partly[0] if len(partly) == 1 else None


def _parts(name: str) -> set[str]:
    """What stands between brackets, commas and joining words."""
    return {plain_name(part) for part in _JOINED.split(name)}
