"""A decoding as plain lists and mappings, ready for JSON: all of it, nothing shortened."""

from witnessmark.decoding.records import Decoding, FieldMeaning
from witnessmark.documents.plain import plain
from witnessmark.problem import Problem
from witnessmark.reading import Cell

type Json = str | int | float | bool | list["Json"] | dict[str, "Json"] | None


def render_decoding(decoding: Decoding) -> dict[str, Json]:
    """The decoding in the published shape of `decode --json`, always with the same keys.

    `reading` is the text as typed, `normalised` how it was taken, `changes` what
    differs, `unread` all that has no meaning. Shares are of everything that the reading
    allows; what looks nothing like the mark has none, and no alternatives.
    """
    reading, unlike = decoding.reading, decoding.is_unlike
    names = field_names(decoding)
    alternatives = () if unlike else decoding.alternatives
    return {
        "book": decoding.book,
        "mark": decoding.mark,
        "reading": reading.as_typed,
        "normalised": reading.normalised,
        "problems": [render_problem(problem) for problem in decoding.problems],
        "alternatives": [
            {"share": each.share, "fields": [_meaning(own, names) for own in each.fields]}
            for each in alternatives
        ],
        "not_listed_share": None if unlike else decoding.not_listed_share,
        "unread": reading.normalised if unlike else unread_text(decoding),
        "unread_in_fields": [] if unlike else plain(decoding.unexplained),
        "missing": [{"field": e, "name": names.get(e, e)} for e in decoding.missing if not unlike],
        "slip": plain(decoding.slip),
        "around": list(words_around(decoding)),
        "changes": plain(reading.changes),
        "deciding_column": None if unlike else decoding.deciding_column,
        "notes": plain(decoding.notes),
        "of_car": None if unlike else plain(decoding.of_car),
        "cars": None if unlike else plain(decoding.cars),
    }


def unread_text(decoding: Decoding) -> str:
    """All characters without a meaning: those that a field does not explain there, then
    those that no field explains."""
    texts = (*(each.text for each in decoding.unexplained), decoding.unread)
    return " ".join(text for text in texts if text)


def field_names(decoding: Decoding) -> dict[str, str]:
    """The names of the mark's fields, and of numbers put together of them, by their ids."""
    own = {each.field.id: each.field.name for each in decoding.reading.layout.placed}
    return own | {each.field: each.name for each in decoding.field_cells if each.name}


def words_around(decoding: Decoding) -> tuple[str, ...]:
    """What was typed before, behind or between the fields and passed over, as it was typed."""
    words: list[list[Cell]] = []
    for cell in sorted(decoding.reading.layout.around, key=lambda each: each.column):
        if words and cell.column - words[-1][-1].column == 1:
            words[-1].append(cell)
        else:
            words.append([cell])
    text = decoding.reading.as_typed
    found = [_as_typed(text, word) for word in words]
    return tuple(word for word in found if word and word not in decoding.unread)


def _as_typed(text: str, word: list[Cell]) -> str:
    """What was typed from the first cell of a word to its last."""
    last = word[-1].column
    end = last if text[last - 1 : last] != "[" else text.find("]", last) + 1
    return text[word[0].column - 1 : end].strip()


def render_problem(problem: Problem) -> Json:
    """A problem with its place."""
    return {
        "place": problem.source.place(),
        "column": problem.source.column,
        "sentence": problem.sentence(),
        "expected": problem.expected(),
    }


def _meaning(meaning: FieldMeaning, names: dict[str, str]) -> Json:
    return {
        "field": meaning.field,
        "name": names.get(meaning.field, meaning.field),
        "code": meaning.code,
        "says": meaning.says,
        "value": meaning.value,
        "meaning": meaning.meaning,
        "listed": meaning.listed,
        "placeholder": meaning.placeholder,
        "spans": plain(meaning.spans),
        "other_spans": plain(meaning.other_spans),
        "basis": meaning.basis.value,
        "source": meaning.source,
    }
