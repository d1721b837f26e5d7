"""What is known of one reading, gathered once: its outline and its JSON are both made from this."""

from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, replace

from witnessmark.answers.picked import cited, picked
from witnessmark.catalogue import as_said, marked, said
from witnessmark.codebook import (
    Applies,
    CarContext,
    CodeBook,
    HowMade,
    Mark,
    Point,
    Remark,
    Rule,
)
from witnessmark.decoding import (
    Decoding,
    completed,
    decode,
    decode_many,
    items_named,
    meet,
    render_decoding,
)
from witnessmark.decoding.conditions import conditions_told, holding, possible, values_read
from witnessmark.decoding.render import field_names
from witnessmark.problem import Problem
from witnessmark.reading import parse_reading


@dataclass(frozen=True, slots=True)
class Given:
    """What was given of the car where the mark certainly says another year, model or works."""

    item: str
    given: str
    said: str
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Decoded:
    """A decoding with all that the book knows beside it; `rules` say with what a casting goes.

    `typed` is all that was typed, in which the columns of the decoding count.
    `remarks` are those on the mark, its fields and what it is on that may concern the cars for
    which it is read; `fitting` of them those that hold for all these cars. `beside` is the
    answer to another mark that was typed together with this one.
    """

    book: CodeBook
    mark: Mark
    given: CarContext
    decoding: Decoding
    typed: str
    not_for: tuple[str, ...]
    contradictions: tuple[Given, ...]
    points: tuple[Point, ...]
    rules: tuple[Rule, ...]
    remarks: tuple[Remark, ...]
    fitting: tuple[Remark, ...]
    beside: "Decoded | None" = None

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What is wrong with the notation; nothing is shown of such a reading but this."""
        decoding = self.decoding
        return tuple(dict.fromkeys((*decoding.reading.problems, *decoding.problems)))

    @property
    def described_by(self) -> CodeBook:
        """The book that describes the mark: the maker's, or one beside it."""
        return self.book.that_describes(self.mark)

    @property
    def names(self) -> dict[str, str]:
        """The names of the mark's fields by their ids."""
        return field_names(self.decoding)


def answer_to(book: CodeBook, mark: Mark, text: str, given: CarContext) -> Decoded:
    """What a text says as a reading of this mark."""
    return next(answers_to(book, mark, (text,), given))


def answers_to(
    book: CodeBook, mark: Mark, texts: Sequence[str], given: CarContext
) -> Iterator[Decoded]:
    """What each of some texts says as a reading of this mark.

    Of two marks that were typed together each is read for the cars that the other names;
    what is given comes before that.
    """
    readings = (parse_reading(text, mark) for text in texts)
    for text, decoding in zip(texts, decode_many(readings, book, mark, given), strict=True):
        other, found = decoding.beside, _answer(book, mark, given, decoding, text)
        if other is None:
            yield found
            continue
        second = decode(other.reading, book, other.mark, completed(given, decoding.of_car))
        yield replace(found, beside=_answer(book, other.mark, given, second, text))


def _answer(
    book: CodeBook, mark: Mark, given: CarContext, decoding: Decoding, typed: str
) -> Decoded:
    cars = decoding.cars
    remarks = [each for each in book.remarks_on(mark) if meet(each.applies, cars)]
    points = known_points(decoding, book)
    contradictions = tuple(_contradictions(book, decoding.of_car, given))
    if decoding.is_unlike:
        remarks, points, contradictions = [], (), ()
    return Decoded(
        book=book,
        mark=mark,
        given=given,
        decoding=decoding,
        typed=typed,
        not_for=not_for(mark, given),
        contradictions=contradictions,
        points=points,
        rules=_rules_of_casting(decoding, book, mark),
        remarks=tuple(remarks),
        fitting=tuple(each for each in remarks if _holds_for_all(each.applies, cars)),
    )


def _holds_for_all(applies: Applies, cars: Applies) -> bool:
    """Does a row hold for all of these cars, as far as one knows which they are?"""
    return (
        applies.first_year <= cars.first_year
        and cars.last_year <= applies.last_year
        and (not applies.works or bool(applies.works & cars.works))
        and (not applies.models or (bool(cars.models) and cars.models <= applies.models))
    )


def known_points(decoding: Decoding, book: CodeBook) -> tuple[Point, ...]:
    """The known cars and ranges in which the numbers of the first alternative lie."""
    fields = decoding.alternatives[0].fields if decoding.alternatives else ()
    found = [p for field in fields for p in book.points_at(field.says, field.value)]
    of_cars = [p for p in dict.fromkeys(found) if meet(p.applies, decoding.cars)]
    return possible(of_cars, values_read(decoding))


def unread_condition(decoding: Decoding, book: CodeBook, point: Point) -> str:
    """What must hold for it to be the known car, where that was not read; else empty."""
    is_known = bool(holding((point,), values_read(decoding)))
    return "" if is_known else conditions_told(book, point)


def _rules_of_casting(decoding: Decoding, book: CodeBook, mark: Mark) -> tuple[Rule, ...]:
    """With what a cast part goes, by the rules that its number alone meets."""
    if mark.how_made is not HowMade.CAST or decoding.is_unlike or not decoding.alternatives:
        return ()
    met = book.rules_met({each.says: each.value for each in decoding.alternatives[0].fields})
    return tuple(rule for rule in met if meet(rule.applies, decoding.cars))


def not_for(mark: Mark, given: CarContext) -> tuple[str, ...]:
    """Says so where the book has no such mark on the car that is given."""
    applies, year, name = mark.applies, given.model_year, mark.name
    found = []
    if year is not None and not applies.first_year <= year <= applies.last_year:
        found.append(
            said(
                "The book has the {mark} for {first} to {last}, not for {year}.",
                mark=name,
                first=applies.first_year,
                last=applies.last_year,
                year=year,
            )
        )
    if given.model and applies.models and given.model not in applies.models:
        found.append(
            said(
                "The book has the {mark} on {models} alone, not on {other}.",
                mark=name,
                models=", ".join(sorted(applies.models)),
                other=given.model,
            )
        )
    if given.works and applies.works and not given.works & applies.works:
        found.append(
            said(
                "The book has the {mark} from {works} alone, not from {other}.",
                mark=name,
                works=", ".join(sorted(applies.works)),
                other=", ".join(sorted(given.works)),
            )
        )
    return tuple(found)


def _contradictions(book: CodeBook, named: CarContext, given: CarContext) -> Iterator[Given]:
    """Where a mark itself names another year, model or works than was given."""
    words = {"model_year": marked("model year"), "model": marked("model")}
    own = items_named(book, named)
    for item, taken in items_named(book, given).items():
        if own.get(item, taken) != taken:
            name = as_said(words.get(item, marked("works")))
            sentence = said(
                "The {item} was given as {given}; the mark itself says {said}.",
                item=name,
                given=taken,
                said=own[item],
            )
            yield Given(name, taken, own[item], sentence)


def render_decoded(answer: Decoded) -> dict[str, object]:
    """All of it for a machine; the shape is promised by docs/commands.md."""
    rendered: dict[str, object] = {**render_decoding(answer.decoding)}
    beside, by = answer.beside, answer.described_by
    return rendered | {
        "mark_name": answer.mark.name,
        "described_by": picked(by, "id", "title", "version"),
        "not_for": list(answer.not_for),
        "contradictions": [asdict(each) for each in answer.contradictions],
        "points": [
            {
                "number": p.first,
                "last": p.last or p.first,
                **picked(p, "dated", "date_first", "date_last", "meaning"),
                "with": unread_condition(answer.decoding, answer.book, p),
                **cited(p.citation),
            }
            for p in answer.points
        ],
        "rules": [{"sentence": r.sentence} | cited(r.citation) for r in answer.rules],
        "remarks": [
            {"about": r.about, "sentence": r.sentence, "fits": r in answer.fitting}
            | cited(r.citation)
            for r in answer.remarks
        ],
        "sources": [{"basis": basis, "source": source} for basis, source in _sources(answer)],
        "beside": render_decoded(beside) if beside else None,
    }


def _sources(answer: Decoded) -> tuple[tuple[str, str], ...]:
    """On what all of it rests, each basis and source once."""
    decoding = answer.decoding
    meanings = () if decoding.is_unlike else (a.fields for a in decoding.alternatives)
    rests_on = [(m.basis.value, m.source) for fields in meanings for m in fields if m.listed]
    rests_on += [(each.basis.value, each.source) for each in decoding.notes]
    citations = [each.citation for each in answer.points]
    citations += [each.citation for each in answer.rules]
    citations += [each.citation for each in answer.remarks]
    rests_on += [(each.basis.value, each.source) for each in citations]
    return tuple(dict.fromkeys(rests_on))
