"""The outline of one code book: what can be claimed, its marks and fields, what to look at."""

from collections import Counter
from collections.abc import Iterable, Iterator

from witnessmark.answers.book_shown import declared_pieces, features_of
from witnessmark.answers.meanings import shortened
from witnessmark.catalogue import as_said, counted, from_to, in_a_row, marked, said
from witnessmark.codebook import Applies, CarContext, CodeBook, Field, Item, ItemKind, Mark
from witnessmark.codebook.piece_records import Piece
from witnessmark.codebook.pieces import pieces_of
from witnessmark.decoding import cars_given, example_of
from witnessmark.examination import values_of
from witnessmark.outline.records import (
    Block,
    Bullets,
    Fact,
    Facts,
    Heading,
    Outline,
    Paragraph,
    Section,
    table_of,
)
from witnessmark.wording.amounts import few

LINE = 60
"""Characters of a line beside its label, on an ordinary terminal."""

SUMMARY = 225
"""Characters of a summary on the short page."""

SOLD = {
    "yes": marked("sold in service"),
    "no": marked("not sold in service"),
    "unknown": marked("not known whether sold in service"),
}
NUMBERED = {
    "by dealer": marked("numbered there by the dealer"),
    "by works": marked("numbered there by the works"),
    "by office": marked("numbered there by the office"),
}


def book_in_short(book: CodeBook, context: CarContext) -> Outline:
    """The names by which one asks a book, or the part of it that holds for such a car, further."""
    marks = [mark.id for mark in book.marks_for(context)]
    items = [item.id for item, told in _claimable(book, context) if told]
    rows = (
        (said("Models"), [each.id for each in book.models_for(context)], 2),
        (said("Works"), [each.id for each in book.works_for(context)], 2),
        (said("Can be claimed"), items, 4),
        (said("Marks"), marks, 5),
    )
    facts = tuple(Fact(label, few(names, lines * LINE)) for label, names, lines in rows if names)
    more = said(
        "One mark: book show {book} MARK. The values of an item: book values {book} ITEM. "
        "Narrower: --year, --model, --works. The whole book: --all.",
        book=book.id,
    )
    summary = Paragraph(shortened(" ".join(book.summary.split()), SUMMARY))
    return Outline(title_of(book), (summary, *_only(book, context), Facts(facts), Paragraph(more)))


def title_of(book: CodeBook) -> str:
    """The book by its title, its id and its version."""
    return said(
        "{title} ({id}), version {version}", title=book.title, id=book.id, version=book.version
    )


def _only(book: CodeBook, context: CarContext) -> Iterator[Block]:
    """For which car alone it is shown."""
    works = (each.name for each in book.works if each.id in context.works)
    model = (each.name for each in book.models if each.id == context.model)
    year = () if context.model_year is None else (str(context.model_year),)
    if car := ", ".join((*year, *model, *works)):
        yield Paragraph(
            said(
                "Only what applies to {car} is shown; the book covers {first} to {last}.",
                car=car,
                first=book.first_year,
                last=book.last_year,
            )
        )


def marks_page(book: CodeBook, marks: tuple[Mark, ...], context: CarContext) -> Outline:
    """One mark: what it is, how it is typed, what to look at there, what else is known of it;
    several of one name in a line each."""
    only = tuple(_only(book, context))
    if len(marks) > 1:
        told = ("; ".join((f"{mark.id}: {mark.name}", *_kind(mark))) for mark in marks)
        return Outline(title_of(book), (*only, Bullets(tuple(told))))
    [mark] = marks
    sections = (
        *_looks(book, context, mark.site),
        *_remarks_on(book, {mark.id: mark.name}, context),
    )
    example = example_of(book, mark, mark.applies.narrowed(cars_given(book, context)))
    told_of = (*_mark(book, mark, context), Paragraph(said("such as: {text}", text=example)))
    return Outline(title_of(book), (*only, *told_of), sections, is_numbered=False)


def book_page(book: CodeBook, context: CarContext, *, is_typed: bool = True) -> Outline:
    """The page of the whole book, or of the part of it that holds for such a car; with how to ask
    further where one types commands."""
    models = tuple((each.id, each.name) for each in book.models_for(context))
    works = "; ".join(each.name for each in book.works_for(context))
    claimed = ((item.id, told) for item, told in _claimable(book, context) if told)
    marks = tuple(each for m in book.marks_for(context) for each in _mark(book, m, context))
    decode = said("Decode one: {command}", command=f"witnessmark decode {book.id} MARK READING")
    claim = said("What can be claimed of a car (--claim ITEM=VALUE)")
    if not is_typed:
        claim = said("What can be claimed of a car")
    further = (Paragraph(decode),) if is_typed else ()
    sections = (
        Section(said("Models"), (table_of(*models),)),
        Section(said("Works"), (Paragraph(works),)),
        Section(claim, (table_of(*claimed),)),
        Section(said("Pieces, and the marks on each"), tuple(_pieces(book, context))),
        Section(said("Marks"), (*marks, *further)),
        *_looks(book, context),
        *_remarks(book, context),
    )
    front = (Paragraph(" ".join(book.summary.split())), *_only(book, context))
    return Outline(title_of(book), front, sections, is_numbered=False)


def _claimable(book: CodeBook, context: CarContext) -> Iterator[tuple[Item, str]]:
    """The items that a claim can name, the number of the car first, each with its name and
    values in a line; nothing where a code has none on such a car."""
    for item in sorted(book.items, key=lambda item: not item.identification):
        if item.kind is ItemKind.NUMBER:
            form = f"{item.name}: {places((item.length,))}" if item.length else item.name
            yield item, form
        elif item.kind is ItemKind.CODE:
            values = values_of(book, item.id, context)
            yield item, f"{item.name}: {', '.join(values)}" if values else ""


def _pieces(book: CodeBook, context: CarContext) -> Iterator[Block]:
    """What is made and replaced as one, with its marks; declared pieces with what is known."""
    found = pieces_of(book, context)
    for piece in found.pieces:
        marks = ", ".join(each.mark for each in found.marks_on(piece.id)) or said("no mark")
        kind = as_said(piece.kind.value)
        yield Paragraph(f"{piece.name} ({kind}): {marks}")
    declared = declared_pieces(book, context)
    of_a_name = Counter(piece.name for piece in declared)
    for piece in declared:
        cars = _cars(piece.applies) if of_a_name[piece.name] > 1 else ()
        yield Paragraph(_told_of(_declared(piece), cars))


def _told_of(what: str, cars: Iterable[str]) -> str:
    """What is told, and of which cars where other rows tell another thing of others."""
    told = "; ".join(cars)
    return f"{what} ({told})" if told else what


def _cars(applies: Applies) -> tuple[str, ...]:
    """The years it is for, and the works and models where not all."""
    years = from_to(applies.first_year, applies.last_year)
    only = ", ".join(sorted(applies.works | applies.models))
    return (years, said("only {names}", names=only)) if only else (years,)


def _declared(piece: Piece) -> str:
    """What is known of a piece in service, and on what that rests."""
    told = [as_said(SOLD.get(piece.sold_in_service, SOLD["unknown"]))]
    if piece.service_numbers.value in NUMBERED:
        told.append(as_said(NUMBERED[piece.service_numbers.value]))
    basis = as_said(piece.citation.basis.value)
    if not piece.citation.basis.weighs:
        basis = said("{basis}; it explains but carries no weight", basis=basis)
    return f"{piece.name}: {', '.join(told)} [{basis}]"


def _kind(mark: Mark) -> Iterator[str]:
    """What a mark is, how it was made, on which cars."""
    yield as_said(mark.kind.value)
    yield as_said(mark.how_made.value)
    yield from _cars(mark.applies)


def _mark(book: CodeBook, mark: Mark, context: CarContext) -> Iterator[Block]:
    """A mark: what it is, of which years, where, its fields, how it is typed."""
    yield Heading(f"{mark.id}   {mark.name}")
    yield Paragraph("; ".join(_kind(mark)))
    called = [mark.local_name, *(alias.name for alias in mark.aliases)]
    if any(called):
        names = ", ".join(filter(None, dict.fromkeys(called)))
        yield Paragraph(said("also called: {names}", names=names))
    site = book.site(mark.site, context) or book.site(mark.site)
    if site is not None:
        yield Paragraph(said("where: {place}", place=site.where))
    items = {item.id: item.name for item in book.items}
    yield table_of(*((f.name, _places_of(f), items.get(f.says, f.says)) for f in mark.fields))
    if mark.windows:
        windows = (" ".join(f.name for f in window) for window in mark.windows_in_order())
        yield Paragraph(said("typed as: {windows}", windows=" | ".join(windows)))


def _looks(book: CodeBook, context: CarContext, site: str = "") -> Iterator[Section]:
    """What to look at, place by place or at one: the question, and each answer with what it
    counts as."""
    found = [each for each in features_of(book, context) if site in ("", each.site)]
    of_a_name = Counter((each.site, each.id) for each in found)
    blocks: list[Block] = []
    for place in dict.fromkeys(each.site for each in found):
        row = book.site(place, context) or book.site(place)
        blocks.append(Heading(f"{place}   {row.name if row else place}"))
        asked = []
        for each in (feature for feature in found if feature.site == place):
            outcomes = "; ".join(
                o.id if o.id == o.look else f"{o.id} = {o.look}" for o in each.outcomes
            )
            cars = _cars(each.applies) if of_a_name[each.site, each.id] > 1 else ()
            asked.append(_told_of(f"{each.id}: {each.prompt} {outcomes}", cars))
        blocks.append(Bullets(tuple(asked)))
    if blocks:
        title = said("What to look at (looks of a case: site, feature, outcome)")
        yield Section(title, tuple(blocks))


def _remarks(book: CodeBook, context: CarContext) -> Iterator[Section]:
    """What is known of the book itself, and of what is no one mark or item."""
    names = {"book": book.title}
    names |= {each.id: each.name for each in book.assemblies}
    names |= {each.id: each.name for each in book.pieces}
    names |= {each.id: each.name for each in book.sites}
    of_its_own = {*(mark.id for mark in book.marks), *(item.id for item in book.items)}
    named = {each: name for each, name in names.items() if each not in of_its_own}
    yield from _remarks_on(book, named, context)


def _remarks_on(book: CodeBook, names: dict[str, str], context: CarContext) -> Iterator[Section]:
    """What is known of these, each under its name."""
    blocks: list[Block] = []
    for name in names:
        told = dict.fromkeys(
            f"{each.sentence} [{as_said(each.citation.basis.value)}]"
            for each in book.remarks
            if each.about == name and each.applies.covers(context)
        )
        if told:
            blocks += [Heading(names[name]), Bullets(tuple(told))]
    if blocks:
        yield Section(said("What else is known"), tuple(blocks))


def _places_of(field: Field) -> str:
    """How many characters the field has, as a person would say it."""
    told = places(field.widths)
    return told if field.part == "all" else f"{told}, {field.part}"


def places(widths: tuple[int, ...]) -> str:
    """5 places, 6 or 7 places, 3 to 7 places."""
    *others, last = widths
    told = counted("{number} place", "{number} places", last)
    if len(others) > 1 and list(widths) == list(range(widths[0], last + 1)):
        return in_a_row([said("{number} to", number=widths[0]), told])
    return in_a_row([*(said("{number} or", number=each) for each in others), told])
