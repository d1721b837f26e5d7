"""The papers of the demonstration: ledger page, build card, booklet, invoice, a missing leaf."""

from collections.abc import Sequence

import numpy as np

from drawing.characters import TYPED, print_line
from drawing.sheets import BLUE_INK, BROWN_INK, fold, oil, paper, printed, rule, write
from drawing.surface import Colour, Surface, blur, grid, noise, step

LEDGER_HEADS = ("Chassis", "Type", "Engine", "Body by", "Body no.", "Paint", "Despatched")
LEDGER_COLUMNS = (60, 235, 335, 500, 650, 815, 935)
CARD_HEADS = (
    "Chassis", "Type", "Body by", "Body no.", "Engine", "Gearbox",
    "Axle", "Ratio", "Paint", "Trim", "Passed",
)  # fmt: skip
BOOKLET_HEADS = ("Car", "Engine type", "Engine day", "Delivered")
SHEET_HEADS = ("Body", "Engine", "Paint", "Trim")
BEFORE = (
    ("550377", "1", "12204", "07 09 55"),
    ("700149", "4", "40053", "07 09 55"),
    ("552121", "2", "12199", "08 09 55"),
    ("550378", "1", "12206", "08 09 55"),
    ("550379", "1", "12209", "09 09 55"),
    ("552122", "2", "12207", "09 09 55"),
    ("550381", "1", "12211", "09 09 55"),
)
AFTER = (
    ("550402", "1", "12251", "26 09 55"),
    ("552131", "2", "12248", "26 09 55"),
    ("700160", "4", "40064", "27 09 55"),
    ("550403", "1", "12254", "27 09 55"),
    ("550405", "1", "12252", "28 09 55"),
    ("552132", "2", "12257", "28 09 55"),
    ("550406", "1", "12259", "29 09 55"),
)


def ledger(seed: int, lines: Sequence[Sequence[str]]) -> Surface:
    """A page of the despatch ledger with one line to a car, written by a clerk."""
    surface = paper(seed, (226, 214, 186))
    printed(surface, "Despatches", 60, 70, 46)
    rule(surface, 50, 120, 1150, 120, (150, 70, 60), 3)
    for head, x in zip(LEDGER_HEADS, LEDGER_COLUMNS, strict=True):
        printed(surface, head, x, 150, 26)
        rule(surface, x - 14, 120, x - 14, 800, (178, 120, 108), 2)
    for place, line in enumerate(lines):
        y = 224 + place * 78
        rule(surface, 50, y + 34, 1150, y + 34, (150, 160, 176), 1)
        for text, x in zip(line, LEDGER_COLUMNS, strict=False):
            write(surface, text, x, y, 40, BROWN_INK)
    fold(surface, 24)
    return surface


def card(seed: int, entries: Sequence[str], *, colour: Colour = (222, 204, 160)) -> Surface:
    """A build card: printed boxes in two columns, filled in by hand."""
    surface = paper(seed, colour, age=0.7)
    printed(surface, "TARVANE   Build Card", 90, 68, 44)
    rule(surface, 80, 110, 1120, 110, (60, 50, 42), 3)
    for place, (head, text) in enumerate(zip(CARD_HEADS, entries, strict=True)):
        x, y = 90 + 530 * (place % 2), 150 + 104 * (place // 2)
        printed(surface, head, x, y, 24)
        rule(surface, x + 150, y + 34, x + 470, y + 34, (120, 104, 84), 2)
        write(surface, text, x + 165, y + 8, 46, BLUE_INK)
    return surface


def handled(surface: Surface) -> Surface:
    """Folded twice and kept in a workshop."""
    fold(surface, 602)
    fold(surface, 410, upright=False)
    oil(surface, 1010, 640, 92)
    oil(surface, 210, 300, 46)
    return surface


def invoice(seed: int) -> Surface:
    """The invoice of the service department for an exchange engine."""
    surface = paper(seed, (216, 220, 206), age=0.5)
    printed(surface, "TARVANE MOTOR WORKS", 90, 80, 46, (34, 64, 60))
    printed(surface, "Service Department", 90, 134, 32, (34, 64, 60))
    rule(surface, 80, 176, 1120, 176, (34, 64, 60), 3)
    lines = (("Date", "21 09 60"), ("Chassis", "582063"), ("Exchange engine", "X 02418"))
    for place, (head, text) in enumerate(lines):
        printed(surface, head, 100, 240 + 84 * place, 28)
        write(surface, text, 400, 236 + 84 * place, 50)
        rule(surface, 390, 270 + 84 * place, 900, 270 + 84 * place, (120, 130, 122), 2)
    write(surface, "one engine supplied against one returned", 100, 530, 40)
    write(surface, "fitted, run and tested", 100, 592, 40)
    fold(surface, 398, upright=False)
    return surface


def booklet(seed: int, entries: Sequence[str]) -> Surface:
    """The page of an owner's booklet that names the car and its engine stamp, filled in by pen."""
    surface = paper(seed, (206, 200, 180), age=0.6)
    printed(surface, "TARVANE   This car", 190, 96, 46, (34, 64, 60))
    rule(surface, 180, 142, 1020, 142, (34, 64, 60), 3)
    for place, (head, text) in enumerate(zip(BOOKLET_HEADS, entries, strict=True)):
        y = 226 + 124 * place
        printed(surface, head, 200, y, 32, (34, 64, 60))
        write(surface, text, 560, y - 4, 54)
        rule(surface, 540, y + 32, 1000, y + 32, (120, 130, 122), 2)
    fold(surface, 92)
    return surface


def build_sheet(seed: int, entries: Sequence[str]) -> Surface:
    """The sheet that travelled the line with a shell: printed boxes, typed in."""
    surface = paper(seed, (216, 208, 182), age=0.8)
    printed(surface, "TARVANE   Build sheet, saloon", 130, 100, 42)
    for place, (head, text) in enumerate(zip(SHEET_HEADS, entries, strict=True)):
        left, top = 120 + 490 * (place % 2), 180 + 250 * (place // 2)
        for y in (top, top + 210):
            rule(surface, left, y, left + 450, y, (96, 84, 68), 3)
        for x in (left, left + 450):
            rule(surface, x, top, x, top + 210, (96, 84, 68), 3)
        printed(surface, head, left + 22, top + 40, 28)
        print_line(surface, text, left + 60, top + 132, 84, (44, 40, 46), TYPED)
    return surface


def missing_leaf(seed: int) -> Surface:
    """The bound volume, open where a leaf was cut out: its stub between two pages."""
    surface = paper(seed, (224, 212, 186), age=0.6)
    x, _ = grid(surface)
    gutter = np.exp(-np.abs(x - 590) / 60).astype(np.float32)
    surface.height -= gutter * 26
    surface.tint((70, 58, 44), gutter * 0.6)
    for left, lines in ((40, BEFORE), (690, AFTER)):
        for place, line in enumerate(lines):
            row = 116 + place * 92
            rule(surface, left - 10, row + 36, left + 480, row + 36, (150, 160, 176), 1)
            for text, offset in zip(line, (0, 140, 186, 318), strict=True):
                write(surface, text, left + offset, row, 34, BROWN_INK)
    torn = 662 + noise(surface, 60, 40) * 6 + noise(surface, 9, 9) * 2
    stub = step(-x, -torn - 2, -torn + 2) * step(x, 592, 600)
    surface.height += blur(stub, 1) * 9
    surface.tint((236, 226, 204), stub * 0.95)
    return surface
