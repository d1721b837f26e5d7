"""Which marks agree, in tables: values as read, a word beside each, a shape that says the same."""

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

from tests.worked.pdf_pages import page_texts
from witnessmark.agreement import Outcome
from witnessmark.outline.records import Paragraph, Section, Table, TableCell
from witnessmark.report import Outline
from witnessmark.report.press.render import print_outline
from witnessmark.report.records import Form
from witnessmark.report.sections.agreement_tables import CellWord, agreement_tables

TEMPLATE = Path(__file__).resolve().parents[2] / "src/witnessmark/report/press/template/parts.typ"


def tables(opinion):
    return [each for each in agreement_tables(opinion) if isinstance(each, Table)]


def cells(opinion):
    return [cell for table in tables(opinion) for row in table.rows for cell in row]


def summary(opinion):
    return next(each.text for each in agreement_tables(opinion) if isinstance(each, Paragraph))


def words(opinion):
    return [word for cell in cells(opinion) for word in cell.below]


def test_the_tables_show_the_value_as_read_with_its_word(opinion):
    assert {"1055?2", "20718", "2071"} <= {cell.text for cell in cells(opinion)}
    assert {"agrees", "differs", "undecided", "stands alone"} <= set(words(opinion))


def test_a_cell_is_told_against_the_claim_where_the_claim_speaks(opinion):
    """Claim and plate agree on the chassis number; the frame's fifth place is worn."""
    band = tables(opinion)[0]
    shown = {row[0].text: row[band.head.index("Chassis number")] for row in band.rows}
    assert shown["What is claimed"].text == "105512"
    assert shown["Brass chassis plate"].sign == "agrees"
    assert shown["Frame stamping"].sign == "undecided"


def test_a_finding_turned_round_turns_its_cells_round(opinion):
    turned = replace(
        opinion,
        findings=tuple(
            replace(each, outcome=Outcome.DIFFER) if each.topic == "body_number" else each
            for each in opinion.findings
        ),
    )
    assert words(turned).count("differs") == words(opinion).count("differs") + 2
    assert "body number on: body number on the seat pan" in summary(turned)


def test_a_site_not_looked_for_is_named_below_the_tables_and_not_in_them(opinion):
    last = agreement_tables(opinion)[-1]
    assert last.text == (
        "Not read, so not in these tables: body number on the bulkhead: not accessible; "
        "axle stamp: not looked for."
    )


def test_every_row_stands_in_a_table_once_and_each_cell_under_its_item(opinion):
    many = tuple(replace(opinion.decodings[1], mark=f"mark_{n}") for n in range(60))
    found = tables(replace(opinion, decodings=many))
    assert [len(row) for table in found for row in table.rows] == [
        len(table.head) for table in found for _ in table.rows
    ]
    names = [row[0].text for row in found[0].rows]
    assert [name for name in names if name.startswith("Mark ")] == [f"Mark {n}" for n in range(60)]


def test_every_word_of_a_cell_has_a_shape_of_its_own_in_the_template():
    block = TEMPLATE.read_text("utf-8").split("#let signs = (", 1)[1].split("\n)\n", 1)[0]
    shapes = dict(re.findall(r"^  (\w+): (.+)$", block, re.M))
    assert set(shapes) == {word.name.lower() for word in CellWord} - {"claimed"}
    assert len(set(shapes.values())) == len(shapes)


def test_a_value_wider_than_its_column_is_parted_and_loses_nothing():
    cell = TableCell("X" * 90, ("agrees",), mono=True, sign="agrees")
    table = Table(("Mark", "A", "B"), ((TableCell("Plate"), cell, cell),), (1.0, 1.0, 1.0))
    outline = Outline(
        "A car",
        (),
        (Section("S", (table,)),),
        label="Report",
        case_id="c",
        printed="today",
        printed_iso="2026-01-01",
    )
    (page,) = page_texts(print_outline(outline, (), date(2026, 1, 1), Form()).pdf)
    runs = re.findall("X+", page)
    assert sum(map(len, runs)) == 180
    assert max(map(len, runs)) < 30
