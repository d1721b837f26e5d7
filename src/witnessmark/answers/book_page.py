"""The outline of one code book: what can be claimed, its marks and fields, what to look at."""

from collections import Counter
from collections.abc import Iterable, Iterator

from witnessmark.answers.book_shown import declared_pieces, features_of
from witnessmark.catalogue import as_said, counted, in_a_row, marked, said
from witnessmark.codebook import Applies, CarContext, CodeBook, Field, Item, ItemKind, Mark
from witnessmark.codebook.piece_records import Piece
from witnessmark.codebook.pieces import pieces_of
from witnessmark.examination import values_of
from witnessmark.outline.records import (
    Block,
    Bullets,
    Heading,
    Outline,
    Paragraph,
    Section,
    table_of,
)

MOST_VALUES = 4
"""Values of an item that a line shows; --values shows all."""

WORDS = (
    marked("structure"), marked("panel"), marked("core"), marked("fitted"), marked("plate"),
    marked("paper"), marked("stamping"), marked("casting"), marked("label"),
    marked("struck by hand"), marked("gang-struck"), marked("cast"), marked("printed"),
    marked("written"),
)  # fmt: skip
"""The words of a book for kinds of pieces and marks, and for how characters were made."""

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


def book_page(book: CodeBook, context: CarContext, most_values: int | None) -> Outline:
    """The page of one book, or of the part of it that holds for such a car."""
    front = [Paragraph(" ".join(book.summary.split()))]
    if context.model_year is not None:
        only = said(
            "Only what applies to {year} is shown; the book covers {first} to {last}.",
            year=context.model_year,
            first=book.first_year,
            last=book.last_year,
        )
        front.append(Paragraph(only))
    models = tuple((m.id, m.name) for m in book.models if m.applies.covers(context))
    works = "; ".join(w.name for w in book.works if w.applies.covers(context))
    claimed = (
        (item.id, _claimable(book, item, context, most_values)) for item in _claimable_items(book)
    )
    marks = tuple(each for m in book.marks_for(context) for each in _mark(book, m, context))
    decode = said("Decode one: {command}", command=f"witnessmark decode {book.id} MARK READING")
    sections = (
        Section(said("Models"), (table_of(*models),)),
        Section(said("Works"), (Paragraph(works),)),
        Section(
            said("What can be claimed of a car (--claim ITEM=VALUE)"),
            (table_of(*(each for each in claimed if each[1])),),
        ),
        Section(said("Pieces, and the marks on each"), tuple(_pieces(book, context))),
        Section(said("Marks"), (*marks, Paragraph(decode))),
        *_looks(book, context),
        *_remarks(book, context),
    )
    title = said(
        "{title} ({id}), version {version}", title=book.title, id=book.id, version=book.version
    )
    return Outline(title, tuple(front), sections, is_numbered=False)


def _claimable_items(book: CodeBook) -> list[Item]:
    """The items that a claim can name, the number of the car first."""
    known = sorted(book.items, key=lambda item: not item.identification)
    return [item for item in known if item.kind is not ItemKind.DATE]


def _claimable(book: CodeBook, item: Item, context: CarContext, most: int | None) -> str:
    """An item in a line: its name, and the first of its values; nothing where a code has none
    on such a car."""
    if item.kind is ItemKind.NUMBER:
        return f"{item.name}: {_places((item.length,))}" if item.length else item.name
    values = values_of(book, item.id, context)
    if not values:
        return ""
    shown = f"{item.name}: {', '.join(values[:most])}"
    left = len(values) - len(values[:most])
    if not left:
        return shown
    return said("{values} and {number} more (--values)", values=shown, number=left)


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
    years = said("{first} to {last}", first=applies.first_year, last=applies.last_year)
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


def _mark(book: CodeBook, mark: Mark, context: CarContext) -> Iterator[Block]:
    """A mark: what it is, of which years, where, its fields, how it is typed."""
    told = (as_said(mark.kind.value), as_said(mark.how_made.value), *_cars(mark.applies))
    yield Heading(f"{mark.id}   {mark.name}")
    yield Paragraph("; ".join(told))
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


def _looks(book: CodeBook, context: CarContext) -> Iterator[Section]:
    """What to look at, place by place: the question, and each answer with what it counts as."""
    found = features_of(book, context)
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
    blocks: list[Block] = []
    for name in (each for each in names if each not in of_its_own):
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
    told = _places(field.widths)
    return told if field.part == "all" else f"{told}, {field.part}"


def _places(widths: tuple[int, ...]) -> str:
    """5 places, 6 or 7 places, 3 to 7 places."""
    *others, last = widths
    told = counted("{number} place", "{number} places", last)
    if len(others) > 1 and list(widths) == list(range(widths[0], last + 1)):
        return in_a_row([said("{number} to", number=widths[0]), told])
    return in_a_row([*(said("{number} or", number=each) for each in others), told])
