"""A decoding as plain lists and mappings, ready for JSON: all of it, nothing shortened."""

from witnessmark.codebook.records import Applies, CarContext
from witnessmark.dates import DateSpan
from witnessmark.decoding.records import (
    Alternative,
    Decoding,
    FieldMeaning,
    Note,
    Slip,
    Unexplained,
)
from witnessmark.problem import Problem
from witnessmark.reading.records import Cell, Change

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
        "alternatives": [_alternative(each, names) for each in alternatives],
        "not_listed_share": None if unlike else decoding.not_listed_share,
        "unread": reading.normalised if unlike else unread_text(decoding),
        "unread_in_fields": [] if unlike else [_unexplained(e) for e in decoding.unexplained],
        "missing": [_field(each, names) for each in decoding.missing if not unlike],
        "slip": _slip(decoding.slip),
        "around": list(words_around(decoding)),
        "changes": [_change(change) for change in reading.changes],
        "deciding_column": None if unlike else decoding.deciding_column,
        "notes": [_note(each) for each in decoding.notes],
        "of_car": None if unlike else _of_car(decoding.of_car),
        "cars": None if unlike else _cars(decoding.cars),
    }


def unread_text(decoding: Decoding) -> str:
    """All characters without a meaning: those that a field does not explain there, then
    those that no field explains."""
    texts = (*(each.text for each in decoding.unexplained), decoding.unread)
    return " ".join(text for text in texts if text)


def field_names(decoding: Decoding) -> dict[str, str]:
    """The names of the mark's fields by their ids."""
    return {each.field.id: each.field.name for each in decoding.reading.layout.placed}


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


def _alternative(alternative: Alternative, names: dict[str, str]) -> Json:
    return {
        "share": alternative.share,
        "fields": [_meaning(meaning, names) for meaning in alternative.fields],
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
        "spans": [_span(span) for span in meaning.spans],
        "other_spans": [_span(span) for span in meaning.other_spans],
        "basis": meaning.basis.value,
        "source": meaning.source,
    }


def _field(field: str, names: dict[str, str]) -> Json:
    return {"field": field, "name": names.get(field, field)}


def _span(span: DateSpan) -> Json:
    return {"first": span.first.isoformat(), "last": span.last.isoformat()}


def _unexplained(unexplained: Unexplained) -> Json:
    return {
        "field": unexplained.field,
        "text": unexplained.text,
        "column": unexplained.column,
        "reason": unexplained.reason,
    }


def _note(note: Note) -> Json:
    return {
        "kind": note.kind,
        "sentence": note.sentence,
        "basis": note.basis.value,
        "source": note.source,
    }


def _change(change: Change) -> Json:
    return {
        "column": change.column,
        "typed": change.typed,
        "normalised": change.normalised,
        "reason": change.reason,
    }


def _slip(slip: Slip | None) -> Json:
    if slip is None:
        return None
    return {
        "kind": slip.kind,
        "sentence": slip.sentence,
        "expected": slip.expected,
        "column": slip.column,
        "others": list(slip.others),
    }


def _of_car(said: CarContext) -> Json:
    return {"model_year": said.model_year, "model": said.model, "works": [*sorted(said.works)]}


def _cars(cars: Applies) -> Json:
    return {
        "first_year": cars.first_year,
        "last_year": cars.last_year,
        "works": [*sorted(cars.works)],
        "models": [*sorted(cars.models)],
    }
