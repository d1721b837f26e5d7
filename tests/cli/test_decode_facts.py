"""The page of `witnessmark decode` and its JSON: whatever the page says the JSON holds."""

import json
import re
from functools import cache
from itertools import groupby

import pytest

from witnessmark.answers.decoded import answer_to, render_decoded
from witnessmark.answers.decoded_page import decoded_page
from witnessmark.answers.meanings import Shown
from witnessmark.catalogue import percent
from witnessmark.codebook import CarContext, open_book, shipped_books
from witnessmark.decoding.hypotheses import cars_given
from witnessmark.decoding.slips import example_of
from witnessmark.outline.text import text_lines

CHEVROLET, FORD = "chevrolet-1964-1972", "ford-1964-1973"
PARTS, SEVENTEEN, TARVANE = "dated-parts", "seventeen-characters", "tarvane-1952-1961"
BOOKS = [CHEVROLET, FORD, PARTS, SEVENTEEN, TARVANE]

TYPED = [
    (CHEVROLET, "number_plate", "VIN# 124379N506070 (on the dash)", None),
    (CHEVROLET, "number_plate", "124379N506070", 1968),
    (CHEVROLET, "number_plate", "124379[LN]50[38]1?3", None),
    (CHEVROLET, "number_plate", "124379N50607", None),
    (CHEVROLET, "number_plate", "1243799N506070", None),
    (CHEVROLET, "number_plate", "1243J9N506070", None),
    (CHEVROLET, "number_plate", "124379n5O6O7O", None),
    (CHEVROLET, "number_plate", "V0525CNR", None),
    (CHEVROLET, "number_plate", "hello world", None),
    (CHEVROLET, "engine_pad", "V0101DZ 19N500123", None),
    (CHEVROLET, "engine_pad", "V0101DZ 19N500123", 1968),
    (CHEVROLET, "engine_pad", "V05[23]5C?R", None),
    (CHEVROLET, "engine_pad", "V??01DZ", 1969),
    (CHEVROLET, "block_cast_date", "C 15 9", None),
    (CHEVROLET, "block_cast_date", "C 15 9", 1969),
    (CHEVROLET, "body_plate_norwood_1969", "ST 69-12437 NOR 211785\nTR 711\n72 B\n01C X33", None),
    (FORD, "dash_plate", "5F08F100005", None),
    (FORD, "dash_plate", "3F05Q10020", None),
    (FORD, "door_plate_1965", "5F08?412345|76A|R|28|23A|11|2|6", None),
    (FORD, "panel_stamp", "7 15 C3", 1965),
    (FORD, "block_number", "C8OE-6015-A", None),
    (FORD, "engine_stamp", "8F135007 8D10", None),
    (PARTS, "certification_numerals", "06/70", None),
    (PARTS, "tire_number_4", "DOT ABCD EFG 25[17]9", None),
    (SEVENTEEN, "vehicle_number", "1M8GDM9AXKP042788", None),
    (SEVENTEEN, "vehicle_number", "1M8GDM9AXPK042788", None),
    (SEVENTEEN, "vehicle_number", "1M8GDM9AXKP04278?", None),
    (TARVANE, "frame_number", "[13]7001 43", None),
    (TARVANE, "frame_number", "…", None),
    (TARVANE, "plate_brass", "SP|7001??|…|1?|~~|370|_", None),
    (TARVANE, "plate_brass", "SP|700143|40047|99|L2|370|_", 1958),
    (TARVANE, "plate_brass", "SP 700143 40047 17 L2 370", None),
]  # fmt: skip
"""As people type them, with the year that is given."""

OWN = """
    Likeliest One of several that fit equally well with of what the reading allows
    else a code that the book does not list others together --all lists the likeliest
    The code alone may also be one of dates from to or and
    is missing Left over which no field of this mark explains
    Nothing or too little was read in Read as At place places of what was typed
    Ignored as not part of the mark decides between the first two
    Known about Expected Ask for that mark witnessmark decode book show The marks of the book
    Typed with it By the book version Sources
"""
"""The page's own words; all others are said of the reading."""

PERCENT = re.compile(r"(\(?)(under |over )?(\d+) %( together)?")


@cache
def opened(name):
    """A shipped book, opened once."""
    return open_book(next(path for path in shipped_books() if path.name == name)).book


def told(book, mark, text, year, shown):
    """The page of a reading, its lines, and the JSON."""
    answer = answer_to(book, mark, text, CarContext(model_year=year))
    lines = text_lines(decoded_page(answer, shown), 80)
    page = "\n".join(line.text for line in lines)
    return page, json.loads(json.dumps(render_decoded(answer)))


def words(text):
    """The words and numbers of a text, without the signs about them."""
    parts = re.split(r"[\s/|;,]+|(?<=\w)[.:]\s", text.replace("...", " "))
    return {bare for part in parts if (bare := part.strip("()[].,:;'\"^ "))}


def leaves(node):
    """Every text and number in a JSON value."""
    if isinstance(node, dict):
        for key, inner in node.items():
            if inner or inner == 0:
                yield from leaves(inner)
            if key in ("spans", "other_spans") and inner:
                yield str(len(inner))
    elif isinstance(node, list):
        for inner in node:
            yield from leaves(inner)
    else:
        yield str(node)


def _meant(field):
    """What the page takes together: readings of one span, or codes that mean the same in words."""
    return str(field["spans"]) + field["value"] + (field["meaning"] if not field["spans"] else "")


def percents(decoded):
    """Every share that a page can print: of each meaning, of what is not listed, of the rest."""

    def meant(each):
        return [
            (f["field"], f["listed"], _meant(f) if f["listed"] else f["code"])
            for f in each["fields"]
        ]

    ordered = sorted(decoded["alternatives"], key=meant)
    shares = [sum(e["share"] for e in same) for _, same in groupby(ordered, key=meant)]
    shares += [each["share"] for each in decoded["alternatives"]]
    rest = 1.0 - sum(share for share in shares[: len(shares)] if share >= 0.01)
    shares += [decoded["not_listed_share"] or 0.0]
    found = {percent(share) for share in shares} | {"95 %", "1 %", percent(max(rest, 0.0))}
    return found | (percents(decoded["beside"]) if decoded["beside"] else set())


def not_in_json(page, decoded):
    """What the page says that the JSON does not hold."""
    said = page.split(" More: ")[0] if " More: " in page else page
    said = re.sub(r"\n +More:.*", "", said, flags=re.S)
    said = " ".join(re.sub(r"\[\d+\](?= |$|\n)", " ", said, flags=re.M).split())
    shares = {m[0] for m in re.findall(r"((under |over )?\d+ %)(?! together)", said)}
    held = " ".join(leaves(decoded))
    wrong = {s for s in shares - percents(decoded) if s not in held}
    said = re.sub(r"(under |over )?\d+ %( together)?", " ", said)
    known = words(held) | words(OWN) | words(held.replace("-", " "))
    return wrong | {each for each in words(said) - known if each not in held}


@pytest.mark.parametrize(
    "shown", [Shown(), Shown(everything=True, remarks=True)], ids=["page", "all"]
)
@pytest.mark.parametrize(("name", "mark_id", "text", "year"), TYPED)
def test_whatever_the_page_says_of_a_typed_reading_is_in_the_json(name, mark_id, text, year, shown):
    """Every word and share, but the page's own words."""
    book = opened(name)
    page, decoded = told(book, book.mark(mark_id), text, year, shown)
    assert not_in_json(page, decoded) == set()


@pytest.mark.parametrize("name", BOOKS)
def test_whatever_the_page_says_of_any_mark_of_a_book_is_in_the_json(name):
    """Each mark that the book has: an example of its form, and the same with its last sign off."""
    book = opened(name)
    for mark in book.marks:
        example = example_of(book, mark, cars_given(book, CarContext()))
        for text in (example, example[:-1], example.replace("1", "[17]")):
            if text.strip(" |"):
                page, decoded = told(book, mark, text, None, Shown())
                assert not_in_json(page, decoded) == set(), f"{mark.id} {text}\n{page}"


@pytest.mark.parametrize("key", ["alternatives", "slip", "remarks", "described_by"])
def test_what_a_json_lacks_is_found(key):
    """The comparison sees it where one of these is left out."""
    book = opened(CHEVROLET)
    text = "1243799N506070" if key == "slip" else "124379N506070"
    page, decoded = told(book, book.mark("number_plate"), text, None, Shown(remarks=True))
    assert not_in_json(page, decoded) == set()
    assert not_in_json(page, decoded | {key: [], "sources": []})


def test_a_known_number_is_told_as_its_mark_has_it(type_in):
    """witnessmark decode jaguar-1948-1974 engine_stamp R1018-9"""
    page = type_in("decode", "jaguar-1948-1974", "engine_stamp", "R1018-9").out
    assert "Known about 1018: R1018-9, in 850004." in page
