"""A JSON text with other values in it, and everything else as it was typed.

What is equal stays to the byte: order, spaces, fields that nobody knows. A new member is written
behind the last one, laid out as this is; a list that became shorter is written anew.
"""

import json
from collections.abc import Iterator, Mapping
from typing import Any

from witnessmark.documents.json_places import JsonPlaces
from witnessmark.documents.lines import KeyPath, Span, edited

_STEP = "  "
_DECODER = json.JSONDecoder(strict=False)


def taken_over(typed: Any, before: Any, now: Any) -> Any:
    """The values as they were typed, with what differs between two states of their record.

    A field that was left to its default stays so as long as it does not differ.

    >>> taken_over({"id": "a", "later": 1}, {"id": "a", "by": ""}, {"id": "a", "by": "Brook"})
    {'id': 'a', 'later': 1, 'by': 'Brook'}
    """
    if _same(before, now):
        return typed
    if isinstance(typed, dict) and isinstance(before, dict) and isinstance(now, dict):
        gone = before.keys() - now.keys()
        changed = {
            key: taken_over(typed.get(key, _empty_as(value)), before.get(key), value)
            for key, value in now.items()
            if key not in before or not _same(before[key], value)
        }
        return {key: value for key, value in (typed | changed).items() if key not in gone}
    lists = [each for each in (typed, before, now) if isinstance(each, list)]
    if len(lists) == 3 and len(typed) == len(before) <= len(now):
        kept = zip(*lists, strict=False)
        return [*(taken_over(*each) for each in kept), *now[len(before) :]]
    return now


def changed_json(places: JsonPlaces, values: Any, now: Any) -> str:
    """The text of these places, which says `values`, so that it says `now`."""
    return edited(places.text, _edits(places, (), values, now))


def _empty_as(value: Any) -> Any:
    """Where nothing was typed: an object or a list without members."""
    return type(value)() if isinstance(value, dict | list) else None


def _same(one: Any, other: Any) -> bool:
    """Equal as JSON: 1 is not true, and not 1.0."""
    return one is other or json.dumps(one) == json.dumps(other)


def _edits(places: JsonPlaces, path: KeyPath, was: Any, now: Any) -> Iterator[tuple[Span, str]]:
    if _same(was, now):
        return
    old, new = _members(was), _members(now)
    is_grown = type(was) is type(now) and bool(old) and list(old) == list(new)[: len(old)]
    if not is_grown:
        start = places.values[path].start
        yield Span(start, _end(places, path)), _written(now, _indent_at(places.text, start))
        return
    for key, value in old.items():
        yield from _edits(places, (*path, key), value, new[key])
    added = {key: value for key, value in new.items() if key not in old}
    if added:
        last = (*path, list(old)[-1])
        end = _end(places, last)
        first = places.keys.get(last, places.values[last]).start
        before = places.text[:first]
        space = before[len(before.rstrip(" \t\r\n")) :]
        indent = space.rpartition("\n")[2] if "\n" in space else None
        names = (
            f"{json.dumps(k, ensure_ascii=False)}: " if isinstance(k, str) else "" for k in added
        )
        told = (
            name + _written(value, indent)
            for name, value in zip(names, added.values(), strict=True)
        )
        yield Span(end, end), "".join(f",{space or ' '}{each}" for each in told)


def _members(value: Any) -> Mapping[str | int, Any]:
    """What an object or a list holds, by key or by place; nothing of a plain value."""
    if isinstance(value, dict):
        return value
    return dict(enumerate(value)) if isinstance(value, list) else {}


def _end(places: JsonPlaces, path: KeyPath) -> int:
    """Where the value at this path ends; of a list or an object only the bracket is known."""
    start = places.values[path].start
    return int(_DECODER.raw_decode(places.text, start)[1])


def _indent_at(text: str, at: int) -> str:
    """The white space with which the line of this place begins."""
    line = text[text.rfind("\n", 0, at) + 1 : at]
    return line[: len(line) - len(line.lstrip(" \t"))]


def _written(value: Any, indent: str | None) -> str:
    """A value as it is written behind this indent; on one line where there is none."""
    if indent is None or not isinstance(value, dict | list):
        return json.dumps(value, ensure_ascii=False)
    text = json.dumps(value, indent=_STEP, ensure_ascii=False)
    return text.replace("\n", f"\n{indent}")
