"""A decoding as plain lists and mappings, ready for JSON."""

from witnessmark.decoding.records import (
    Alternative,
    Decoding,
    FieldMeaning,
    Note,
    Unexplained,
)
from witnessmark.problem import Problem
from witnessmark.reading.records import Change

type Json = str | int | float | bool | list["Json"] | dict[str, "Json"] | None


def render_decoding(decoding: Decoding) -> dict[str, Json]:
    """The decoding in the published shape of `decode --json`.

    `reading` is the text as typed, `normalised` how it was taken, `changes` what
    differs, `unread` all that has no meaning. Shares are of everything that the reading allows.
    """
    reading = decoding.reading
    return {
        "book": decoding.book,
        "mark": decoding.mark,
        "reading": reading.as_typed,
        "normalised": reading.normalised,
        "problems": [_problem(problem) for problem in decoding.problems],
        "alternatives": [_alternative(each) for each in decoding.alternatives],
        "not_listed_share": decoding.not_listed_share,
        "unread": unread_text(decoding),
        "unread_in_fields": [_unexplained(each) for each in decoding.unexplained],
        "notes": [_note(each) for each in decoding.notes],
        "missing": list(decoding.missing),
        "changes": [_change(change) for change in reading.changes],
    }


def unread_text(decoding: Decoding) -> str:
    """All characters without a meaning: those that a field does not explain there, then
    those that no field explains."""
    texts = (*(each.text for each in decoding.unexplained), decoding.unread)
    return " ".join(text for text in texts if text)


def _problem(problem: Problem) -> Json:
    return {
        "place": problem.source.place(),
        "column": problem.source.column,
        "sentence": problem.sentence(),
        "expected": problem.expected(),
    }


def _alternative(alternative: Alternative) -> Json:
    return {
        "share": alternative.share,
        "fields": [_meaning(meaning) for meaning in alternative.fields],
    }


def _meaning(meaning: FieldMeaning) -> Json:
    return {
        "field": meaning.field,
        "code": meaning.code,
        "says": meaning.says,
        "value": meaning.value,
        "meaning": meaning.meaning,
        "basis": meaning.basis.value,
        "source": meaning.source,
    }


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
