"""What is known of one reading, gathered once: its page and its JSON are both made from this."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from witnessmark.codebook.book import CodeBook
    from witnessmark.codebook.marks import Mark
    from witnessmark.codebook.records import Applies, CarContext, Citation, Point, Remark
    from witnessmark.decoding.records import Decoding
    from witnessmark.problem import Problem


@dataclass(frozen=True, slots=True)
class Contradiction:
    """The mark surely says another year, model or works than was given."""

    item: str
    given: str
    said: str
    sentence: str


@dataclass(frozen=True, slots=True)
class Answer:
    """A decoding with all that the book knows beside it.

    `typed` is all that was typed, in which the columns of the decoding count.
    `remarks` are those on the mark and its fields that may concern the cars for which it is
    read; `fitting` of them those that hold for all these cars. `beside` is the answer to
    another mark that was typed together with this one.
    """

    book: "CodeBook"
    mark: "Mark"
    given: "CarContext"
    decoding: "Decoding"
    typed: str
    not_for: tuple[str, ...]
    contradictions: tuple[Contradiction, ...]
    points: "tuple[Point, ...]"
    remarks: "tuple[Remark, ...]"
    fitting: "tuple[Remark, ...]"
    beside: "Answer | None" = None

    @property
    def problems(self) -> "tuple[Problem, ...]":
        """What is wrong with the notation; nothing is shown of such a reading but this."""
        decoding = self.decoding
        return tuple(dict.fromkeys((*decoding.reading.problems, *decoding.problems)))

    @property
    def described_by(self) -> "CodeBook":
        """The book that describes the mark: the maker's, or one beside it."""
        return self.book.that_describes(self.mark)

    @property
    def names(self) -> dict[str, str]:
        """The names of the mark's fields by their ids."""
        return {each.id: each.name for each in self.mark.fields}


def answer_to(book: "CodeBook", mark: "Mark", text: str, given: "CarContext") -> Answer:
    """What a text says as a reading of this mark.

    Of two marks that were typed together each is read for the cars that the other names;
    what is given comes before that.
    """
    from witnessmark.decoding import decode
    from witnessmark.decoding.decode import completed
    from witnessmark.reading import parse_reading

    decoding = decode(parse_reading(text, mark), book, mark, given)
    other, found = decoding.beside, _answer(book, mark, given, decoding, text)
    if other is None:
        return found
    second = decode(other.reading, book, other.mark, completed(given, decoding.of_car))
    return replace(found, beside=_answer(book, other.mark, given, second, text))


def _answer(
    book: "CodeBook", mark: "Mark", given: "CarContext", decoding: "Decoding", typed: str
) -> Answer:
    from witnessmark.decoding.hypotheses import meet

    cars = decoding.cars
    own = {mark.id, *(field.says for field in mark.fields)}
    remarks = [r for r in book.remarks_on(mark) if r.about in own and meet(r.applies, cars)]
    points = known_points(decoding, book)
    differing = _differing(book, decoding.of_car, given)
    if decoding.is_unlike:
        remarks, points, differing = [], (), []
    return Answer(
        book,
        mark,
        given,
        decoding,
        typed,
        not_for=not_for(mark, given),
        contradictions=tuple(
            Contradiction(
                item, taken, own, f"Given was the {item} {taken}; the mark itself says {own}."
            )
            for item, own, taken in differing
        ),
        points=points,
        remarks=tuple(remarks),
        fitting=tuple(each for each in remarks if _holds_for_all(each.applies, cars)),
    )


def _holds_for_all(applies: "Applies", cars: "Applies") -> bool:
    """Does a row hold for all of these cars, as far as one knows which they are?"""
    return (
        applies.first_year <= cars.first_year
        and cars.last_year <= applies.last_year
        and (not applies.works or bool(applies.works & cars.works))
        and (not applies.models or (bool(cars.models) and cars.models <= applies.models))
    )


def known_points(decoding: "Decoding", book: "CodeBook") -> "tuple[Point, ...]":
    """The known cars and ranges in which the numbers of the first alternative lie."""
    from witnessmark.decoding.hypotheses import meet

    fields = decoding.alternatives[0].fields if decoding.alternatives else ()
    found = (p for field in fields for p in book.points_at(field.says, field.value))
    return tuple(dict.fromkeys(p for p in found if meet(p.applies, decoding.cars)))


def not_for(mark: "Mark", given: "CarContext") -> tuple[str, ...]:
    """Says so where the book has no such mark on the car that is given."""
    applies, year = mark.applies, given.model_year
    found = []
    if year is not None and not applies.first_year <= year <= applies.last_year:
        years = f"{applies.first_year} to {applies.last_year}"
        found.append(f"The book has the {mark.name} for {years}, not for {year}.")
    if given.model and applies.models and given.model not in applies.models:
        models = ", ".join(sorted(applies.models))
        found.append(f"The book has the {mark.name} on {models} alone, not on {given.model}.")
    if given.works and applies.works and not given.works & applies.works:
        works, other = ", ".join(sorted(applies.works)), ", ".join(sorted(given.works))
        found.append(f"The book has the {mark.name} from {works} alone, not from {other}.")
    return tuple(found)


def _differing(
    book: "CodeBook", said: "CarContext", other: "CarContext"
) -> list[tuple[str, str, str]]:
    """The item, what is said of it, and what is said or given otherwise."""
    roles = {works.id: works.role for works in book.works}
    pairs = [
        ("model year", str(said.model_year or ""), str(other.model_year or "")),
        ("model", said.model or "", other.model or ""),
    ]
    for role in dict.fromkeys(roles.values()):
        own, taken = (
            sorted(each for each in context.works if roles.get(each) == role)
            for context in (said, other)
        )
        if not set(own) & set(taken):
            pairs.append(("works", ", ".join(own), ", ".join(taken)))
    return [pair for pair in pairs if pair[1] and pair[2] and pair[1] != pair[2]]


def outline(answer: Answer) -> dict[str, object]:
    """All of it for a machine; the shape is promised by docs/commands.md."""
    from witnessmark.decoding import render_decoding

    rendered: dict[str, object] = {**render_decoding(answer.decoding)}
    beside, by = answer.beside, answer.described_by
    return rendered | {
        "mark_name": answer.mark.name,
        "described_by": {"id": by.id, "title": by.title, "version": by.version},
        "not_for": list(answer.not_for),
        "contradictions": [
            {"item": c.item, "given": c.given, "said": c.said, "sentence": c.sentence}
            for c in answer.contradictions
        ],
        "points": [
            {
                "number": p.first,
                "last": p.last or p.first,
                "dated": p.dated,
                "date_first": p.date_first,
                "date_last": p.date_last,
                "meaning": p.meaning,
                **_cited(p.citation),
            }
            for p in answer.points
        ],
        "remarks": [
            {"about": r.about, "sentence": r.sentence, "fits": r in answer.fitting}
            | _cited(r.citation)
            for r in answer.remarks
        ],
        "sources": [{"basis": basis, "source": source} for basis, source in _sources(answer)],
        "beside": outline(beside) if beside else None,
    }


def _sources(answer: Answer) -> tuple[tuple[str, str], ...]:
    """On what all of it rests, each basis and source once."""
    decoding = answer.decoding
    meanings = () if decoding.is_unlike else (a.fields for a in decoding.alternatives)
    rests_on = [(m.basis.value, m.source) for fields in meanings for m in fields if m.listed]
    rests_on += [(each.basis.value, each.source) for each in decoding.notes]
    citations = [each.citation for each in answer.points]
    citations += [each.citation for each in answer.remarks]
    rests_on += [(each.basis.value, each.source) for each in citations]
    return tuple(dict.fromkeys(rests_on))


def _cited(citation: "Citation") -> dict[str, str]:
    return {"basis": citation.basis.value, "source": citation.source}
