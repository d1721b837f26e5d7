"""What each command prints stands on one screen, plain in a pipe, and says what the JSON says."""

import re

import pytest

from witnessmark.cli.cases import examined_case
from witnessmark.cli.main import answer
from witnessmark.outline.records import Outline, Paragraph, Pointed, Table, TableCell
from witnessmark.outline.text import text_lines
from witnessmark.weighing import Asked
from witnessmark.wording import Names, lr_text
from witnessmark.wording.conclusions import about_words

CARS = ("clean", "no-papers", "panel", "altered", "swapped", "dressed")

READINGS = (
    ("chevrolet-1964-1972", "number_plate", "124379N506070"),
    ("dated-parts", "tire_number_4", "DOT ABCD EFG 2519"),
    ("ford-1964-1973", "dash_plate", "8F02R135071"),
    ("jaguar-1948-1974", "engine_number", "7E1234-9"),
    ("seventeen-characters", "vehicle_number", "1M8GDM9AXKP042788"),
    ("tarvane-1952-1961", "plate_brass", "SP|700143|40047|17|L2|370|_"),
    ("volkswagen-1950-1979", "pan_number_1970", "1102123456"),
)


def is_screenful(page):
    lines = page.splitlines()
    return len(lines) <= 24 and max(map(len, lines)) <= 80 and "\x1b" not in page


@pytest.mark.usefixtures("demo_folder")
@pytest.mark.parametrize("car", CARS)
def test_a_car_is_a_screenful_that_says_what_the_opinion_says(type_in, car):
    """witnessmark examine demo/CAR"""
    page = type_in("examine", f"demo/{car}").out
    assert is_screenful(page)
    opinion = examined_case(f"demo/{car}").opinion
    told = {lr_text(each.log10_lr) for each in opinion.weighed}
    rows = page.partition("Question ")[2].splitlines()[1:4]
    assert [row for row in rows if not told & set(row.split())] == []
    assert ("Does not fit" in page or "Stop here" in page) is (car in ("altered", "dressed"))
    answered = [each for each in opinion.weighed if each.standing.has_figure]
    words = " ".join(page.split()).lower()
    missing = [each.about for each in answered if _named(each, opinion) not in words]
    assert missing == [], "what is answered stands in a row, or is named as told by --all"


@pytest.mark.usefixtures("demo_folder")
@pytest.mark.parametrize("car", ["clean", "altered"])
def test_what_to_look_at_next_is_a_screenful(type_in, car):
    """witnessmark next demo/CAR --minutes 45"""
    assert is_screenful(type_in("next", f"demo/{car}", "--minutes", "45").out)


def _named(conclusion, opinion):
    names = Names(opinion.names)
    if conclusion.question is Asked.STAMP:
        return names.piece(conclusion.about).lower()
    return about_words(conclusion, names).lower()


@pytest.mark.parametrize(("book", "mark", "text"), READINGS)
def test_a_clear_reading_is_a_screenful(type_in, book, mark, text):
    """witnessmark decode BOOK MARK READING; the title is that of the mark."""
    ended = type_in("decode", book, mark, text)
    assert (ended.code, ended.err) == (0, "")
    assert is_screenful(ended.out)


def test_a_long_reading_is_parted_and_the_sign_that_is_meant_is_pointed_at(type_in):
    """A plate of twenty-seven windows with a figure that cannot stand there, and one further on."""
    windows = ["57620075", *[""] * 8, "A7A733", *[""] * 6, "28", "1", "3292", "", "2161", "0%"]
    told = type_in("decode", "volkswagen-1950-1979", "m_plate_1970", " | ".join(windows))
    lines = (told.out + told.err).splitlines()
    at = next(n for n, line in enumerate(lines) if line.lstrip().startswith("^"))
    assert lines[at - 1][lines[at].index("^")] in "7%"
    assert max(map(len, lines)) <= 80 or told.code == 2


@pytest.mark.parametrize("column", range(1, 93))
def test_a_caret_stands_below_its_sign_however_the_line_is_parted(column):
    """And nothing of the line is left out."""
    text = " | ".join(f"{number:05}" for number in range(12))[:92]
    lines = text_lines(Outline("", (Pointed(text, column, "this"),)), 40)
    plain = [line.text[2:] for line in lines if line.text.strip(" ^this")]
    at = next(n for n, line in enumerate(lines) if "^" in line.text)
    pointed = lines[at - 1].text.ljust(41)[lines[at].text.index("^")]
    assert "".join("".join(plain).split()) == "".join(text.split())
    assert pointed == (text.ljust(92)[column - 1])
    assert max(len(line.text) for line in lines) <= 42


def test_a_row_and_a_paragraph_have_a_tone_and_say_the_same_without(capsys, monkeypatch):
    """Green and red are those of a terminal; a pipe gets the words alone."""
    told = Outline(
        "Car",
        (
            Paragraph("Does not fit", "against"),
            Table(("Question",), ((TableCell("for it", tone="for"),), (TableCell("open"),))),
        ),
    )
    assert [line.tone for line in text_lines(told, 80)] == ["", "against", "", "", "for", ""]
    from witnessmark.cli.terminal import print_outline

    print_outline(told)
    assert capsys.readouterr().out == "Car\n  Does not fit\n\n  Question\n  for it\n  open\n"


def completed(monkeypatch, capsys, *words):
    """What a shell is offered for the last of these words."""
    monkeypatch.setenv("_WITNESSMARK_COMPLETE", "complete_bash")
    monkeypatch.setenv("COMP_WORDS", " ".join(("witnessmark", *words)))
    monkeypatch.setenv("COMP_CWORD", str(len(words)))
    assert answer([]) == 0
    return capsys.readouterr().out.split()


@pytest.mark.parametrize(
    ("words", "offered"),
    [
        (("dec",), {"decode", "decode-sheet"}),
        (("book", "va"), {"values"}),
        (("decode", "ford"), {"ford-1964-1973"}),
        (("decode", "ford-1964-1973", "door-t"), {"door-tag"}),
        (("decode", "--year", "1955", "tarvane-1952-1961", "seat"), {"seat_body_number"}),
        (("book", "values", "tarvane-1952-1961", "pai"), {"paint"}),
        (("decode", "tarvane-1952-1961", "x", "y", "--works", "ell"), {"ellery"}),
        (("compare", "tarvane-1952-1961", "frame_n"), {"frame_number="}),
        (("examine", "demo/al"), {"demo/altered"}),
        (("examine", "demo/altered", "--why", "engi"), {"engine", "engine_series"}),
        (("decode", "no-such-book", "x"), set()),
        (("decode", "tarvane-1952-1961", "\u202e"), set()),
    ],
    ids=lambda words: " ".join(words) if isinstance(words, tuple) else "",
)
def test_tab_completes(demo_folder, monkeypatch, capsys, words, offered):
    """By any name that the command takes."""
    monkeypatch.chdir(demo_folder.parent)
    found = set(completed(monkeypatch, capsys, *words))
    assert offered <= found
    assert all(re.search(r"\S", each) for each in found)
    if not offered:
        assert found == set()


def test_a_command_is_completed_without_a_book_or_a_case(monkeypatch, capsys):
    """A shell asks at every key."""
    import sys

    for name in [each for each in sys.modules if each.startswith("witnessmark.codebook")]:
        monkeypatch.delitem(sys.modules, name)
    for name in [each for each in sys.modules if each.startswith("witnessmark.cli.comp")]:
        monkeypatch.delitem(sys.modules, name)
    assert "examine" in completed(monkeypatch, capsys, "ex")
    assert "witnessmark.codebook.folder" not in sys.modules
