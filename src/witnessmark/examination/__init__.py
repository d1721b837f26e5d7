"""The hall: walks the rooms in order and gives an Opinion that remembers its inputs."""

from witnessmark.examination.book_words import (
    book_names,
    in_book_words,
    value_named,
    value_rows,
    values_of,
)
from witnessmark.examination.check import check_case
from witnessmark.examination.examine import (
    car_context,
    car_marks,
    examine,
    marks_of,
    quick_answer,
    steadiness_alone,
)
from witnessmark.examination.place_records import PlaceOutcome, SiteOutcome
from witnessmark.examination.records import (
    BookVersion,
    Disclosed,
    Limitation,
    Named,
    Opinion,
)
from witnessmark.examination.render import opinion_schema, render_opinion

__all__ = [
    "BookVersion",
    "Disclosed",
    "Limitation",
    "Named",
    "Opinion",
    "PlaceOutcome",
    "SiteOutcome",
    "book_names",
    "car_context",
    "car_marks",
    "check_case",
    "examine",
    "in_book_words",
    "marks_of",
    "opinion_schema",
    "quick_answer",
    "render_opinion",
    "steadiness_alone",
    "value_named",
    "value_rows",
    "values_of",
]
