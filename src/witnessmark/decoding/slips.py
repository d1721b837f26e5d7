"""What does not look like the mark it was typed for, and the likeliest slip of the typing.

A number one place short, one long, with two neighbours exchanged, or with a letter where
figures stand is told in one sentence with the form that was expected; so is a text that is
nothing like the mark, or that another mark of the book fits. Nothing is ever mended: the
reading stays as typed. The example that is shown holds codes of the book and ? for every
place of a serial number.
"""

from dataclasses import replace

from witnessmark.catalogue import counted, said
from witnessmark.codebook import Applies, CodeBook, Field, Mark
from witnessmark.dates import DateSpan, year_span
from witnessmark.decoding.code_options import listed_for_cars
from witnessmark.decoding.days_seen import Written, letters_of
from witnessmark.decoding.hypotheses import narrowed
from witnessmark.decoding.options import FieldOption
from witnessmark.decoding.records import Slip, SlipKind
from witnessmark.reading import STRAINED, AsRead, Cell, CellKind, Reading, misfit
from witnessmark.reading.layout import fields_in_order, lay_out_within, lines_of
from witnessmark.reading.layout_search import cheapest, cheapest_within

UNLIKE = 0.55
"""Share of what was typed that must stand where it can, or the text is not like the mark."""

MOST_FAULTS = 2
"""Places missing, left over or foreign of which a text is still like a mark."""

ONE_SLIP = 0.7
"""From this share on a slip is likelier than that another mark was meant."""

MOST_MARKS = 3
"""Other marks that are named as fitting."""


def slip_in(reading: Reading, book: CodeBook, mark: Mark, cars: Applies) -> Slip | None:
    """What is amiss with the typing of this reading, or None where its form fits."""
    found = _amiss(reading, book, mark)
    return None if found is None else _expecting(found, book, mark, cars)


def _expecting(slip: Slip, book: CodeBook, mark: Mark, cars: Applies) -> Slip:
    """A slip with the form that was expected, which takes longer to tell than the slip."""
    return replace(slip, expected=expected_form(book, mark, cars))


def _amiss(reading: Reading, book: CodeBook, mark: Mark) -> Slip | None:
    layout = reading.layout
    typed = [c for c in reading.cells if c.kind is not CellKind.GAP]
    lacking = [each for each in layout.placed if each.missing and each.cells]
    if not typed or reading.problems or layout.is_cut:
        return None
    if layout.strain < STRAINED and not layout.unread and not lacking:
        return None
    share = 0.0 if _is_a_word(reading) or _faults(reading, mark) else _fitting_share(reading, mark)
    # One slip is likelier than another mark.
    others = marks_like(reading, book, mark) if share < ONE_SLIP else ()
    if others or share < UNLIKE:
        return _unlike(mark, others)
    slip = _in_windows(reading) if mark.windows else _on_line(reading, mark)
    return None if slip is None else _with_others(slip, marks_like(reading, book, mark))


def _with_others(slip: Slip, others: tuple[Mark, ...]) -> Slip:
    """The slip, and which other marks have the form of what was typed as it stands."""
    if not others:
        return slip
    sentence = said(
        "{slip} As it stands it has the form of: {others}.",
        slip=slip.sentence,
        others=", ".join(dict.fromkeys(each.name for each in others)),
    )
    return replace(slip, sentence=sentence, others=tuple(each.id for each in others))


def _fitting_share(reading: Reading, mark: Mark) -> float:
    """The share of the cells that stand in a field whose alphabet has them; what was read in
    a field that lacks places counts half."""
    cells = [c for c in reading.cells if c.kind is not CellKind.GAP]
    fitting = 0.0
    for placed in reading.layout.placed:
        own = [c for c in placed.cells if c.column and misfit(c, placed.field.alphabet) < 1.0]
        lacks_much = placed.missing > len(placed.cells)
        fitting += len(own) * (0.5 if lacks_much else 1.0)
    least = sum(min(each.widths, default=0) for each in mark.fields if not each.optional)
    around = len(reading.layout.around) + len(reading.layout.spelt)
    share = fitting / max(1, len(cells) - around) if fitting else 0.0
    # Half a number and less is no number, however well its characters fit.
    if not mark.windows and not any(c.kind is CellKind.GAP for c in reading.cells):
        share *= min(1.0, fitting / max(least, 1))
    return share


def _faults(reading: Reading, mark: Mark) -> bool:
    """Are more places missing, left over or of no such alphabet than a slip or two leave?"""
    if mark.windows or any(cell.kind is CellKind.GAP for cell in reading.cells):
        return False
    layout = reading.layout
    foreign = sum(
        cell.kind is CellKind.CLEAR and misfit(cell, placed.field.alphabet) >= 1.0
        for placed in layout.placed
        for cell in placed.cells
    )
    faults = sum(p.missing for p in layout.placed) + len(layout.unread) + foreign
    least = sum(min(each.widths, default=0) for each in mark.fields if not each.optional)
    return faults > max(MOST_FAULTS, least // 5)


def _is_a_word(reading: Reading) -> bool:
    """Were only words typed, of which nothing stands in the mark, or no figure anywhere for a
    mark that has figures?"""
    if not any(placed.cells for placed in reading.layout.placed):
        return True
    in_figures = any(placed.field.alphabet.isdigit() for placed in reading.layout.placed)
    texts = [cell.characters for cell in reading.cells]
    return in_figures and len(texts) > MOST_FAULTS * 2 and all(text.isalpha() for text in texts)


def _unlike(mark: Mark, others: tuple[Mark, ...]) -> Slip:
    sentence = said("This does not look like the {mark}.", mark=mark.name)
    if others:
        names = ", ".join(f"{each.name} ({each.id})" for each in others)
        sentence = said(
            "This does not look like the {mark}; it has the form of: {others}.",
            mark=mark.name,
            others=names,
        )
    return Slip(SlipKind.UNLIKE, sentence, "", None, tuple(each.id for each in others))


def marks_like(reading: Reading, book: CodeBook, mark: Mark) -> tuple[Mark, ...]:
    """Other marks of the book whose form this text fits as it stands."""
    found = []
    cells = tuple(replace(c, window=0) for c in reading.cells)
    for other in book.marks:
        if other.id == mark.id or not _can_hold(other, cells):
            continue
        layout = lay_out_within(cells, other, STRAINED)
        if layout is None:
            continue
        count = sum(len(p.cells) for p in layout.placed)
        if layout.strain < STRAINED and layout.is_complete and count >= 4 and not layout.around:
            found.append(other)
    return tuple(found[:MOST_MARKS])


def _can_hold(mark: Mark, cells: tuple[Cell, ...]) -> bool:
    """Has a mark places for so many characters, and a field for each of them?"""
    least = sum(min(each.widths, default=0) for each in mark.fields if not each.optional)
    most = sum(max(each.widths, default=0) + len(each.before) for each in mark.fields)
    alphabet = "".join(each.alphabet + each.before for each in mark.fields)
    return least <= len(cells) <= most and all(misfit(cell, alphabet) < 1.0 for cell in cells)


def _in_windows(reading: Reading) -> Slip | None:
    """The first window of a plate that does not fit its fields."""
    for placed in reading.layout.placed:
        if placed.missing and placed.cells:
            return _short(placed.missing, placed.field.name, len(placed.cells))
        foreign = _foreign(placed.cells, placed.field)
        if foreign is not None:
            return foreign_slip(foreign, placed.field)
    unread = [*reading.layout.unread]
    if any(cell.characters.isdigit() for cell in reading.layout.around):
        # Words beside the fields say nothing; figures there were typed for a window.
        unread = sorted((*unread, *reading.layout.around), key=lambda cell: cell.column)
    if unread:
        return Slip(
            SlipKind.LONG,
            counted(
                "{number} character belongs to no window of this plate.",
                "{number} characters belong to no window of this plate.",
                len(unread),
            ),
            "",
            unread[0].column,
        )
    return None


def _on_line(reading: Reading, mark: Mark) -> Slip | None:
    layout = reading.layout
    beside = {c.column for c in (*layout.around, *layout.spelt)}
    cells = tuple(c for c in reading.cells if c.column not in beside and c.kind is not CellKind.GAP)
    widths = [each.widths or (0,) for each in fields_in_order(mark)]
    least = sum(
        min(w) for w, f in zip(widths, fields_in_order(mark), strict=True) if not f.optional
    )
    most = sum(max(w) for w in widths)
    count = len(cells)
    exchanged = _exchanged(cells, mark) if least <= count <= most else None
    if exchanged is not None:
        return _exchange_slip(exchanged, mark)
    if count < least:
        short = [p.field.name for p in layout.placed if p.missing and not p.cells]
        return _short(least - count, short[0] if len(short) == 1 else "", count)
    for placed in layout.placed:
        foreign = _foreign(placed.cells, placed.field)
        if foreign is not None:
            return foreign_slip(foreign, placed.field)
    if count > most:
        return Slip(
            SlipKind.LONG,
            counted(
                "{count} characters were typed, {number} more than the {mark} has.",
                "{count} characters were typed, {number} more than the {mark} has.",
                count - most,
                count=count,
                mark=mark.name,
            ),
            "",
            layout.unread[0].column if layout.unread else None,
        )
    lacking = next((p for p in layout.placed if p.missing), None)
    if lacking is not None:
        return _short(lacking.missing, lacking.field.name, len(lacking.cells))
    return None


def _exchange_slip(first: Cell, mark: Mark) -> Slip:
    sentence = said(
        "With the characters at places {place} and {next} exchanged it would have the form of the "
        "{mark}: look there again.",
        place=first.column,
        next=first.column + 1,
        mark=mark.name,
    )
    return Slip(SlipKind.EXCHANGED, sentence, "", first.column)


def nothing_listed(mark: Mark, book: CodeBook, cars: Applies) -> Slip:
    """Of a text that had to be forced into a plate, and of which the book lists nothing there."""
    return _expecting(_unlike(mark, ()), book, mark, cars)


def exchange_in_codes(first: Cell, book: CodeBook, mark: Mark, cars: Applies) -> Slip:
    """Two neighbours whose exchange makes every code one that the book lists."""
    sentence = said(
        "With the characters at places {place} and {next} exchanged the book would list "
        "everything it says: look there again.",
        place=first.column,
        next=first.column + 1,
    )
    return _expecting(Slip(SlipKind.EXCHANGED, sentence, "", first.column), book, mark, cars)


def _short(missing: int, field: str, count: int) -> Slip:
    if field:
        sentence = counted(
            "{number} character is missing, judging by the form in the {field}; what was "
            "typed does not show where.",
            "{number} characters are missing, judging by the form in the {field}; what was "
            "typed does not show where.",
            missing,
            field=field,
        )
    else:
        sentence = counted(
            "{count} characters were typed: {number} is missing somewhere.",
            "{count} characters were typed: {number} are missing somewhere.",
            missing,
            count=count,
        )
    return Slip(SlipKind.SHORT, sentence, "", None)


def _foreign(cells: tuple[Cell, ...], field: Field) -> Cell | None:
    """The first cell that a field cannot have."""
    return next(
        (c for c in cells if c.kind is CellKind.CLEAR and misfit(c, field.alphabet) >= 1.0), None
    )


def foreign_slip(cell: Cell, field: Field) -> Slip:
    """A character that this field never has."""
    if cell.characters.isalpha() and not any(c.isalpha() for c in field.alphabet):
        sentence = said(
            "The letter {character} stands where the {field} has figures.",
            character=AsRead(cell.characters),
            field=field.name,
        )
    else:
        sentence = said(
            "{character} stands where the {field} never has it.",
            character=AsRead(cell.characters),
            field=field.name,
        )
    return Slip(SlipKind.LETTER, sentence, "", cell.column)


def _exchanged(cells: tuple[Cell, ...], mark: Mark) -> Cell | None:
    """The first of two neighbours whose exchange makes all fit; None where none or several do."""
    line = lines_of(mark).whole
    within = min(STRAINED, cheapest(line, cells).strain - 1.0)
    found = []
    for at in range(len(cells) - 1):
        one, other = cells[at], cells[at + 1]
        if one.characters == other.characters:
            continue
        swapped = (
            *cells[:at],
            replace(other, apart=one.apart),
            replace(one, apart=other.apart),
            *cells[at + 2 :],
        )
        plan = cheapest_within(line, swapped, within)
        if plan is not None and plan.strain < within:
            found.append(one)
    return found[0] if len(found) == 1 else None


def expected_form(book: CodeBook, mark: Mark, cars: Applies) -> str:
    """The form of a mark: its parts with their lengths, and an example that names no car."""
    fields = fields_in_order(mark)
    parts = ", ".join(
        said("{field} ({length})", field=each.name, length=_length(each)) for each in fields
    )
    example = example_of(book, mark, cars)
    return said("{parts}; such as {example}", parts=parts, example=example)


def _length(field: Field) -> str:
    low, high = min(field.widths, default=0), max(field.widths, default=0)
    return str(low) if low == high else f"{low}-{high}"


def example_of(book: CodeBook, mark: Mark, cars: Applies) -> str:
    """Codes of the book that go together, a date, and ? for each place of a number."""
    texts: list[str] = []
    windows: list[str] = []
    for window in mark.windows_in_order() if mark.windows else (fields_in_order(mark),):
        texts = []
        for field in window:
            if field.optional:
                continue
            text = field.before if any(c.isalnum() for c in field.before) else ""
            if field.table:
                code, cars = _example_code(book, mark, field, cars)
                text += code
            elif field.date_form:
                text += _example_date(book, field, cars)
            else:
                text += "?" * max(field.widths, default=1)
            texts.append(text)
        windows.append("".join(texts))
    return " | ".join(windows)


def _example_code(book: CodeBook, mark: Mark, field: Field, cars: Applies) -> tuple[str, Applies]:
    for each in listed_for_cars(book, mark, field, cars):
        for meaning, applies in each.meanings:
            left = narrowed(book, cars, FieldOption(1.0, meaning, applies))
            if left is not None and not each.is_outside and len(each.code) in field.widths:
                return each.code, left
    return "?" * max(field.widths, default=1), cars


def _example_date(book: CodeBook, field: Field, cars: Applies) -> str:
    form = book.date_form(field.date_form)
    runs = [run for run in book.runs if run.applies.first_year >= cars.first_year]
    if form is None:
        return "?"
    run = runs[0] if form.within_run and runs else None
    year = max(form.first_year, min(form.last_year, cars.first_year))
    span = DateSpan(run.first, run.last) if run else year_span(year, year)
    day = span.first.replace(day=15) if span.first.day <= 15 else span.first
    written = Written(form, letters_of(form, book), run)
    parts = [written.texts(k, day, written.by_model[0]) for k in range(len(form.tokens))]
    if not all(parts):
        return "?" * max(field.widths, default=1)
    return "".join(texts[-1] for texts in parts)
