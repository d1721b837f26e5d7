"""Items by parts: what each part says, two judgements a row, a shape that says the same."""

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tests.worked.opened import CARS, book_and_version, opinion_of
from tests.worked.pdf_pages import page_texts
from witnessmark.agreement import Outcome
from witnessmark.agreement.records import FindingKind
from witnessmark.codebook.records import ItemKind
from witnessmark.outline.records import Section, Table, TableCell
from witnessmark.report import Outline
from witnessmark.report.press.render import print_outline
from witnessmark.report.records import Form
from witnessmark.report.sections.agreement_tables import CellWord, agreement_tables
from witnessmark.report.sections.matter import Matter
from witnessmark.wording.amounts import capital

TEMPLATE = Path(__file__).resolve().parents[2] / "src/witnessmark/report/press/template/parts.typ"


BOOK = book_and_version()[0]


def blocks(opinion, book=BOOK):
    return agreement_tables(Matter(opinion, book))


def rows(opinion, book=BOOK):
    """The rows of the table by their items, each as its head and what stands under it."""
    found = [each for each in blocks(opinion, book) if isinstance(each, Table)]
    return {
        row[0].text: dict(zip(table.head, row, strict=True))
        for table in found
        for row in table.rows
    }


def agreed(opinion, book=BOOK):
    return " ".join(
        each.text for each in blocks(opinion, book) if getattr(each, "tone", "") == "note"
    )


def test_a_row_says_what_each_part_and_the_book_say_and_is_judged_twice():
    row = rows(opinion_of("altered"))["Coachbuilder"]
    assert row["Item"].below == ("claimed: Marrick & Sons",)
    assert row["Body"].text == "body by Marrick\nbody by Ellery"
    assert (row["Body"].below, row["Body"].sign) == (("not as claimed",), "differs")
    assert row["Papers"].text == "body by Marrick"
    assert row["The book"].text == "against a rule of the book"
    assert row["Beside other marks"].below == row["Beside book and claim"].below == ("differs",)


def test_an_item_may_agree_with_the_marks_and_not_with_the_book():
    row = rows(opinion_of("altered"))["Paint"]
    assert row["Plates"].text == row["Papers"].text == "Lagoon Blue"
    assert row["The book"].text == "not listed for such a car"
    assert [row[f"Beside {each}"].sign for each in ("other marks", "book and claim")] == [
        "agrees",
        "differs",
    ]


def test_what_was_declared_and_found_is_as_declared():
    row = rows(opinion_of("panel"))["Engine number"]
    assert row["Beside other marks"].below == ("as declared",)


def test_a_finding_turned_round_turns_its_row_round():
    opinion = opinion_of("clean")
    assert "Paint: Signal Red (plates and papers)" in agreed(opinion)
    turned = replace(
        opinion,
        findings=tuple(
            replace(each, outcome=Outcome.DIFFER) if each.topic == "paint" else each
            for each in opinion.findings
        ),
    )
    assert "Paint" not in agreed(turned)
    assert rows(turned)["Paint"]["Beside other marks"].sign == "differs"


@pytest.mark.parametrize("car", CARS)
def test_every_item_of_which_marks_speak_is_told_once_and_no_column_is_empty(car):
    opinion = opinion_of(car)
    found, line = rows(opinion), agreed(opinion)
    for finding in opinion.findings:
        item = BOOK.item(finding.topic)
        is_compared = finding.kind is FindingKind.ITEM and finding.outcome is not Outcome.SILENT
        if not is_compared or item is None or item.kind is ItemKind.DATE:
            continue
        name = capital(item.name)
        assert (name in found) + (f"{name}: " in line) == 1, name
        assert (finding.outcome is Outcome.DIFFER) <= (name in found)
    for part in {part for row in found.values() for part in row}:
        assert any(row[part].text != "–" or row[part].below for row in found.values())


def test_without_any_reading_there_is_nothing_to_compare():
    bare = replace(opinion_of("clean"), decodings=(), findings=(), title=None)
    assert not rows(bare)
    assert blocks(bare)[1].text == "No mark was read, so there is nothing to compare."


def test_every_word_of_a_cell_has_a_shape_of_its_own_in_the_template():
    block = TEMPLATE.read_text("utf-8").split("#let signs = (", 1)[1].split("\n)\n", 1)[0]
    shapes = dict(re.findall(r"^  (\w+): (.+)$", block, re.M))
    assert set(shapes) == {word.name.lower() for word in CellWord}
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
