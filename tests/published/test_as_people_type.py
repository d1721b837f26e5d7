"""Readings as people really type them, each with what it should say.

They are typed as such marks stand in posts, advertisements and notes: rows without bars,
label words, stars, a stamp with the number behind it, a year left out because everybody
knows it, a figure too few. What each should say has its source and its basis beside it.
A number is published where its source names it; every other serial is invented. "Form"
as a source means that the layout is published and the serial is not a car's.
"""

import json
from dataclasses import replace

import pytest

from tests.published.as_typed import EXCHANGED, LETTER, LONG, SHORT, Compared, Typed, Unlike
from tests.published.says import (
    ANY,
    Says,
    among,
    both,
    code,
    first_of,
    meaning,
    never,
    span,
    spans,
    value,
    within,
)
from witnessmark.cli.main import answer as answer_to

CHEVROLET = "chevrolet-1964-1972"
FORD = "ford-1964-1973"
SEVENTEEN = "seventeen-characters"
PARTS = "dated-parts"
TARVANE = "tarvane-1952-1961"

CRG = "Camaro Research Group, http://camaros.org/numbers.shtml"
FISHER = "Kansas City trim tags 1966-67, macswebs.com; Supercar Registry forum, post 789972 (X33)"
PONY = "65pony.blogspot.com/2008/01"
HOUNDSTOOTH = "This is my cat, part II, 1970houndstoothcougarxr7.blogspot.com/2012/05"
ESSER = "Engine code stamping numbers, B. Esser, brianesser.com"
ENGINE_CODES = "Engine codes, drivinithome.com"
HOT_ROD = "Chevy 302 rebuild, Hot Rod, hotrod.com (DZ and MO)"
MACH_1 = "1973 Mustangs, wiki.7173mustangs.com"
BUILD_DATE = "Build date question, californiaspecial.com/forums, thread 8119"
LIGHTWEIGHT = "1968 Mustang Cobra Jet Lightweight, sportscarmarket.com"
DATE_CODES = "Date codes, scoa-archive.com; Casting date codes, fordclassics.com/datecodes.html"
CFR_565 = "49 CFR 565.15, sample of the check digit"
ENCYCLOPAEDIA = "https://en.wikipedia.org/wiki/Vehicle_identification_number"
CFR_567 = "49 CFR 567.5(a)(5) (2002)"
CFR_574 = "64 FR 36807; 3197 in pages for owners, its days by full weeks"
INVENTED = "Invented for the demonstration; no such maker ever built a car"

NUMBER_OF_1969 = {
    "division": value("chevrolet"),
    "series": value("camaro-eight"),
    "body": value("sport-coupe"),
    "year": value("1969"),
    "plant": value("norwood"),
    "sequence": value("506070"),
}
"""124379N506070: the club page's own example."""

PLATE_OF_1969 = {
    "year": value("1969"),
    "series": value("camaro"),
    "body": value("sport-coupe"),
    "plant": value("norwood"),
    "trim": value("black-vinyl-standard"),
}

PAD_OF_1970 = {
    "engine_plant": value("flint-engine"),
    "engine_date": code("0525"),
    "suffix": value("350-300"),
}
"""V0525CNR."""

PLATE_OF_JANUARY_1965 = {
    "body": value("76a"),
    "paint": value("ivy-green"),
    "trim_style": value("standard-vinyl-bucket-seats"),
    "trim_colour": value("ivy-gold"),
    "date": span("1965-01-23"),
    "district": value("boston"),
    "axle": value("2.83-conventional"),
    "transmission": value("c4"),
    "year": value("1965"),
    "plant": value("dearborn"),
    "body_serial": value("mustang-convertible"),
    "engine": value("200-1v"),
    "unit": value("412345"),
}
"""76A R 28 23A 11 2 6; its unit number is left out where it is published."""

LABEL_OF_DECEMBER_1969 = {
    "month": span("1969-12-01", "1969-12-31"),
    "year": value("1970"),
    "body_serial": value("cougar-xr7-hardtop"),
    "engine": meaning("351.*4V"),
    "body": value("65b"),
    "paint": value("gold-metallic"),
    "trim_style": meaning("houndstooth"),
    "trim_colour": meaning("ginger"),
    "axle": value("3.25-conventional"),
    "transmission": value("fmx"),
    "district": value("canada-pacific"),
}
"""65B K 7F 9 X A7."""

BRASS_PLATE = {
    "type": value("solent-sprint"),
    "chassis": value("700143"),
    "engine": value("40047"),
    "paint": value("signal-red"),
    "trim": value("tan-leather"),
    "axle": value("3-70"),
}

CAR_OF_1966 = {
    "year": value("1966"),
    "plant": value("san-jose"),
    "body_serial": value("mustang-hardtop"),
    "engine": value("289-2v"),
    "unit": value("123456"),
}


def number(promise: str, text: str, **more: object) -> Typed:
    """The club page's number, typed in some way."""
    return Typed(
        promise,
        CHEVROLET,
        "number_plate",
        text,
        NUMBER_OF_1969,
        "published",
        CRG,
        is_one=True,
        **more,
    )


def plate_of_1969(promise: str, text: str, says: dict[str, Says], mark: str = "") -> Typed:
    """A Norwood plate of 1969."""
    mark = mark or "body_plate_norwood_1969"
    source = f"form: {FISHER}; trim 711 from memory; body number invented"
    return Typed(
        promise, CHEVROLET, mark, text, PLATE_OF_1969 | says, "published", source, at_least=0.9
    )


def pad(promise: str, text: str, **more: object) -> Typed:
    """V0525CNR, typed in some way."""
    return Typed(
        promise,
        CHEVROLET,
        "engine_pad",
        text,
        PAD_OF_1970,
        "published",
        ENGINE_CODES,
        is_one=True,
        **more,
    )


def plate_of_1965(promise: str, text: str, mark: str = "door_plate_1965") -> Typed:
    """The published plate of January 1965 with an invented unit number."""
    return Typed(promise, FORD, mark, text, PLATE_OF_JANUARY_1965, "published", PONY)


def label_of_1969(promise: str, text: str, mark: str = "door_label") -> Typed:
    """The published label of December 1969 with an invented unit number."""
    return Typed(promise, FORD, mark, text, LABEL_OF_DECEMBER_1969, "published", HOUNDSTOOTH)


def brass(promise: str, text: str) -> Typed:
    """The demonstration maker's brass plate."""
    return Typed(promise, TARVANE, "plate_brass", text, BRASS_PLATE, "invented", INVENTED)


def whole(*cases: Typed) -> tuple[Typed, ...]:
    """Nothing of these may be left over: separators and label words are explained."""
    return tuple(replace(each, is_whole=True) for each in cases)


# ------------------------------------------------------------- rows, spaces, dashes, labels

HUGGER = {
    "paint": value("hugger-orange"),
    "body_number": value("123456"),
    "week": span("1969-06-08", "1969-06-14"),
}
X33 = {
    "paint": value("hugger-orange"),
    "vinyl_top": value("black"),
    "body_number": value("211785"),
    "week": span("1969-01-15", "1969-01-21"),
    "package": value("z28"),
}

ROWS = whole(
    plate_of_1969(
        "a plate copied line by line, its week on top",
        "06B\nST 69-12437 NOR 123456 BDY\nTR 711\nPNT 72 72",
        HUGGER | {"upper_paint": value("hugger-orange")},
    ),
    plate_of_1969(
        "the same plate on one line",
        "06B ST 69-12437 NOR 123456 BDY TR 711 PNT 72 72",
        HUGGER | {"upper_paint": value("hugger-orange")},
    ),
    plate_of_1969(
        "a plate with its week and package last",
        "ST 69-12437 NOR 211785 BDY\nTR 711\nPNT 72 B\n01C X33",
        X33,
    ),
    plate_of_1969(
        "the label behind the paint, as it is stamped, and slashes between rows",
        "ST 69-12437 NOR 211785 BDY / TR 711 / 72 B PNT / 01C X33",
        X33,
    ),
    plate_of_1969("bars half used", "ST 69-12437 NOR 211785 BDY TR 711 | 72 B | 01C X33", X33),
    plate_of_1969(
        "no labels at all, spaces for dashes", "69 12437 NOR 211785 711 72 B 01C X33", X33
    ),
    Typed(
        "two rows of a plate of Kansas City",
        CHEVROLET,
        "body_plate_kansas_city",
        "09D\nST 66-13667 KAN 233 BODY",
        {
            "week": span("1965-09-22", "1965-09-28"),
            "year": value("1966"),
            "series": value("malibu"),
            "body": value("convertible"),
            "plant": value("kansas-city"),
            "body_number": value("000233"),
        },
        "published",
        "Kansas City trim tags 1966-67, macswebs.com",
    ),
    Typed(
        "the same plate on one line, the dash left out",
        CHEVROLET,
        "body_plate_kansas_city",
        "09D ST 66 13667 KAN 233 BODY",
        {
            "week": span("1965-09-22", "1965-09-28"),
            "year": value("1966"),
            "series": value("malibu"),
            "body": value("convertible"),
            "body_number": value("000233"),
        },
        "published",
        "Kansas City trim tags 1966-67, macswebs.com",
    ),
    Typed(
        "letters of paint with a space between",
        CHEVROLET,
        "body_plate_norwood_1968",
        "ST 68-12437 NOR 233 BODY\nTR 711\nPNT D D\n02C",
        {
            "year": value("1968"),
            "paint": value("grotto-blue"),
            "upper_paint": value("grotto-blue"),
            "week": span("1968-02-15", "1968-02-21"),
        },
        "published",
        "form: Fisher Body Number Plate, chevellestuff.net; DD: GM's chart of January 1968",
    ),
    Typed(
        "a frame stamp with no bars",
        CHEVROLET,
        "frame_stamp",
        "Parish 3960733 4 14 70 2",
        {
            "maker": value("parish"),
            "part": value("3960733"),
            "date": span("1970-04-14"),
            "shift": value("2"),
        },
        "published",
        "D. McIntosh, Chevelle Restoration and Authenticity Guide, livelib.biz/read_661275/p13",
    ),
    number("a number in groups", "12437 9N 506070"),
    number("a number in groups of another cut", "1 24 37 9 N 506070"),
    number("dashes between groups", "12437-9N-506070"),
    number("dots between groups", "12437.9N.506070"),
    number("slashes between groups", "12437/9N/506070"),
    number("no-break spaces", "12437\u00a09N\u00a0506070"),
    number("dashes of another kind", "12437\u20139N\u2013506070"),
    number("a number broken over two lines", "12437\n9N506070"),
    pad("spaces inside a pad stamp", "V 05 25 CNR"),
    pad("dashes inside a pad stamp", "V-0525-CNR"),
    Typed(
        "dots in a number of the door",
        FORD,
        "dash_plate",
        "3.F.05.Q.100200",
        {
            "year": value("1973"),
            "body_serial": value("mustang-mach-1"),
            "engine": value("351c-cj"),
            "unit": value("100200"),
        },
        "published",
        MACH_1,
    ),
    plate_of_1965("the number on the next line", "76A R 28 23A 11 2 6\n5F08T412345"),
    plate_of_1965("the number in front, on its own line", "5F08T412345\n76A R 28 23A 11 2 6"),
    plate_of_1965("all of a door plate on one line", "76A R 28 23A 11 2 6 5F08T412345"),
    plate_of_1965(
        "the headings of a door plate copied with it",
        "BODY 76A COLOR R TRIM 28 DATE 23A DSO 11 AXLE 2 TRANS 6\nWARRANTY NO. 5F08T412345",
    ),
    Typed(
        "a door plate of 1969 with its number on the next line",
        FORD,
        "door_plate_1967",
        "63A A 2A 23C 33 6 5\n9F02H123456",
        {
            "year": value("1969"),
            "body_serial": value("mustang-fastback"),
            "engine": value("351w-2v"),
            "body": value("63a"),
            "paint": value("raven-black"),
            "date": span("1969-03-23"),
            "district": value("detroit"),
            "axle": value("3.00-conventional"),
            "transmission": value("four-speed-wide"),
        },
        "published",
        "order of fields: 1969 shop manual; engine: mustangreloaded.com; 5: boss302.com;"
        " colour, trim and district from memory; the number is invented",
    ),
    Typed(
        "a door plate with slashes",
        FORD,
        "door_plate_1967",
        "8R01J137614 65A/A/2A/05B/71/1/5",
        {
            "year": value("1968"),
            "plant": value("san-jose"),
            "engine": value("302-4v"),
            "date": span("1968-02-05"),
        },
        "published",
        f"{BUILD_DATE}; the codes beside number and date are the repository's own",
    ),
    Typed(
        "a district and an order with a dash, no bars",
        FORD,
        "door_plate_1967",
        "7F01C123456 65A A 2A 23A 13-0645 1 W",
        {
            "district": value("new-york"),
            "order": value("0645"),
            "axle": value("3.00-conventional"),
            "transmission": value("c4"),
        },
        "published",
        "VIN number, tomsmustangbarn.tripod.com (13-0645); axle and W: cougarpartscatalog.com",
    ),
    label_of_1969("a label line by line", "12/69\n0F93M512345\n65B K 7F 9 X A7"),
    label_of_1969(
        "a label on one line, its month with a dash", "12-69 0F93M512345 65B K 7F 9 X A7"
    ),
    label_of_1969("a label whose month is a word", "DEC 1969\n0F93M512345\n65B K 7F 9 X A7"),
    Typed(
        "two rows of an axle tag",
        FORD,
        "axle_tag",
        "WFE-L2\n3L25",
        {"code": code("WFE-L2"), "ratio": value("3.25-locking")},
        "published",
        "J. Palazzolo, Ford Differentials, in an excerpt; ford-trucks.com thread 1521140",
    ),
    brass("a brass plate on one line", "SP 700143 40047 17 L2 370"),
    brass("a brass plate out of a table", "SP\t700143\t40047\t17\tL2\t370"),
    brass("a brass plate row by row", "SP 700143\n40047 17\nL2 370"),
    brass(
        "a brass plate with its headings",
        "TYPE SP CHASSIS NO. 700143\nENGINE NO. 40047 PAINT 17\nTRIM L2 AXLE 370",
    ),
)


# -------------------------------------------------------------- a stamp with its serial

SUFFIX_DZ = {"engine_plant": value("flint-engine"), "suffix": value("302-z28")}
SERIAL = {"sequence": value("500123"), "plant": value("norwood")}


def stamped(promise: str, mark: str, text: str) -> Typed:
    """A pad of 1969 with the car's partial number."""
    says, other = (SUFFIX_DZ, SERIAL) if mark == "engine_pad" else (SERIAL, SUFFIX_DZ)
    source = f"{ESSER} (V0101); {HOT_ROD}; form of the number: {CRG}; the serial is invented"
    return Typed(promise, CHEVROLET, mark, text, says, "published", source, with_mark=other)


STAMPS = (
    stamped("the serial behind the stamp", "engine_pad", "V0101DZ 19N500123"),
    stamped("the serial in front of the stamp", "engine_pad", "19N500123 V0101DZ"),
    stamped("no space between them", "engine_pad", "V0101DZ19N500123"),
    stamped("one line each", "engine_pad", "V0101DZ\n19N500123"),
    stamped("both typed for the serial", "partial_number_engine", "V0101DZ 19N500123"),
    Typed(
        "a gearbox stamp with its serial",
        CHEVROLET,
        "muncie_1969",
        "P0C17A 10N512345",
        {"date": span("1970-03-17"), "gear_set": value("m20")},
        "published",
        "Muncie text, Stegmiller, nastyz28.com; the serial is invented",
        with_mark={"sequence": value("512345")},
    ),
    Typed(
        "a number on the engine with its assembly date",
        FORD,
        "engine_stamp",
        "8F135007 8D10",
        {"year": value("1968"), "plant": value("dearborn"), "unit": value("135007")},
        "published",
        f"{LIGHTWEIGHT}; Engine ID codes, 428cobrajet.org (8D10)",
        with_mark={"date": among("1968-04-10", 1968, 1978)},
    ),
    Typed(
        "the whole number where an engine has the short one",
        FORD,
        "engine_stamp",
        "8F02R135007",
        {"year": value("1968"), "plant": value("dearborn"), "unit": value("135007")},
        "published",
        LIGHTWEIGHT,
        is_one=True,
    ),
)


# ------------------------------------------------------------- words around, stars, case

AROUND = (
    number("VIN in front", "VIN 124379N506070"),
    number("VIN: in front", "VIN: 124379N506070"),
    number("VIN# and a full stop", "VIN# 124379N506070."),
    number("S/N in front", "S/N 124379N506070"),
    number("No. in front", "No. 124379N506070"),
    number("words behind", "124379N506070 (on the dash)"),
    number("quotation marks", '"124379N506070"'),
    number("lower case", "124379n506070"),
    number("letters O and I for figures", "I24379N5O6O7O"),
    pad("what it is, in front", "engine pad: V0525CNR"),
    pad("a sentence in front", "pad stamping reads V0525CNR"),
    Typed(
        "matching # in front",
        CHEVROLET,
        "partial_number_engine",
        "matching # 19N500123",
        {"year": value("1969"), **SERIAL},
        "published",
        f"form: {CRG}; the serial is invented",
    ),
    Typed(
        "Serial No. in front",
        FORD,
        "dash_plate",
        "Serial No. 3F05Q100200",
        {"year": value("1973"), "engine": value("351c-cj"), "unit": value("100200")},
        "published",
        MACH_1,
    ),
    Typed(
        "small letters o and i for figures",
        FORD,
        "dash_plate",
        "3fo5qi002oo",
        {"year": value("1973"), "body_serial": value("mustang-mach-1"), "unit": value("100200")},
        "published",
        f"{MACH_1}; no I and no O in a number: an owners' register, plate page",
    ),
    *(
        Typed(
            promise,
            FORD,
            "apron_stamp",
            text,
            CAR_OF_1966,
            "published",
            "form and engine letter: 1965 Ford number article, itstillruns.com;"
            " mustangreloaded.com; the unit is invented",
            is_one=True,
        )
        for promise, text in (
            ("asterisks round a number", "*6R07C123456*"),
            ("stars round a number", "☆6R07C123456☆"),
            ("boxes round a number", "□6R07C123456□"),
            ("no stars", "6R07C123456"),
        )
    ),
    Typed(
        "VIN: before seventeen characters",
        SEVENTEEN,
        "vehicle_number",
        "VIN: 1M8GDM9AXKP042788",
        {"year": value("1989"), "sequence": value("042788")},
        "published",
        ENCYCLOPAEDIA,
    ),
    Typed(
        "seventeen characters in groups, lower case",
        SEVENTEEN,
        "vehicle_number",
        "1g1 bl52p 7 t r 115520",
        {"year": value("1996"), "plant": value("R"), "sequence": value("115520")},
        "published",
        "Corvette VIN Breakdown, docslib.org/doc/13799708",
    ),
    Typed(
        "Chassis No. in front",
        TARVANE,
        "frame_number",
        "Chassis No: 4/700143",
        {"type": value("solent-sprint"), "chassis": value("700143")},
        "invented",
        INVENTED,
    ),
    Typed(
        "Eng. no. in front, a space between the figures",
        TARVANE,
        "engine_number",
        "Eng. no. S 12 001",
        {"series": value("standard"), "engine": value("12001")},
        "invented",
        INVENTED,
    ),
)


# ---------------------------------------------------------- slips, and what is no reading


def slip(promise: str, text: str, told: str, says: dict[str, Says], mark: str = "") -> Typed:
    """The club page's number with a slip."""
    mark = mark or "number_plate"
    return Typed(promise, CHEVROLET, mark, text, says, "assumed", f"slip in: {CRG}", told=(told,))


SLIPS = (
    slip(
        "one figure of the sequence left out",
        "124379N50607",
        SHORT,
        {"year": value("1969"), "plant": value("norwood"), "sequence": never(r"^50607\?$")},
    ),
    slip(
        "the year left out",
        "12437N506070",
        SHORT,
        {"plant": value("norwood"), "sequence": value("506070")},
    ),
    slip("one figure too many", "124379N5060701", LONG, {"year": value("1969")}),
    slip("one character struck twice", "1243799N506070", LONG, {"sequence": value("506070")}),
    slip(
        "two neighbours exchanged",
        "124739N506070",
        EXCHANGED,
        {"year": value("1969"), "sequence": value("506070")},
    ),
    slip(
        "a letter where a figure stands",
        "1243J9N506070",
        LETTER,
        {"year": value("1969"), "sequence": value("506070")},
    ),
    Typed(
        "a month typed without its nought",
        CHEVROLET,
        "engine_pad",
        "V525CNR",
        {"engine_plant": value("flint-engine"), "suffix": value("350-300")},
        "assumed",
        f"slip in: {ENGINE_CODES}",
        told=(SHORT,),
    ),
    Typed(
        "day figures exchanged to a day that no month has",
        CHEVROLET,
        "engine_pad",
        "V0552CNR",
        {"engine_plant": value("flint-engine"), "suffix": value("350-300")},
        "assumed",
        f"slip in: {ENGINE_CODES}",
        told=(EXCHANGED,),
    ),
    Typed(
        "a unit number one short",
        FORD,
        "dash_plate",
        "3F05Q10020",
        {"year": value("1973"), "unit": never(r"^10020\?$")},
        "assumed",
        f"slip in: {MACH_1}",
        told=(SHORT, r"example|such as"),
    ),
    Typed(
        "a unit number one long",
        FORD,
        "dash_plate",
        "3F05Q1002007",
        {"year": value("1973"), "engine": value("351c-cj")},
        "assumed",
        f"slip in: {MACH_1}",
        told=(LONG,),
    ),
    Typed(
        "year and plant exchanged",
        FORD,
        "dash_plate",
        "F305Q100200",
        {"unit": value("100200")},
        "assumed",
        f"slip in: {MACH_1}",
        told=(EXCHANGED,),
    ),
    Typed(
        "sixteen characters",
        SEVENTEEN,
        "vehicle_number",
        "1M8GDM9AXKP04278",
        {"year": value("1989"), "sequence": never(r"^04278\?$")},
        "assumed",
        f"slip in: {ENCYCLOPAEDIA}",
        told=(SHORT,),
    ),
    Typed(
        "eighteen characters",
        SEVENTEEN,
        "vehicle_number",
        "1M8GDM9AXKP0427888",
        {"maker": value("1M8")},
        "assumed",
        f"slip in: {ENCYCLOPAEDIA}",
        told=(LONG,),
    ),
    Typed(
        "a chassis number one short",
        TARVANE,
        "frame_number",
        "4 70014",
        {"type": value("solent-sprint"), "chassis": never(r"^70014\?$")},
        "invented",
        INVENTED,
        told=(SHORT,),
    ),
    Typed(
        "a 3 or an 8, and a place worn away",
        CHEVROLET,
        "number_plate",
        "124379N50[38]1?3",
        {"year": value("1969"), "plant": value("norwood"), "sequence": code("50[38]1?3")},
        "published",
        f"form: {CRG}; the serial is invented",
    ),
)

UNLIKES = (
    Unlike("words", CHEVROLET, "number_plate", "hello world"),
    Unlike("five figures", CHEVROLET, "number_plate", "12345"),
    Unlike("a casting number in the number plate", CHEVROLET, "number_plate", "3970010"),
    Unlike("a number of another maker", CHEVROLET, "number_plate", "3F05Q100200"),
    Unlike("seventeen characters in the number plate", CHEVROLET, "number_plate",
           "1M8GDM9AXKP042788"),
    Unlike("words for a pad", CHEVROLET, "engine_pad", "can't read it"),
    Unlike("a telephone number for a trim tag", CHEVROLET, "body_plate_norwood_1969",
           "555-0142"),
    Unlike("words", FORD, "dash_plate", "hello world"),
    Unlike("an engineering number in the apron", FORD, "apron_stamp", "C5AE-6015-A"),
    Unlike("a number of another maker", FORD, "apron_stamp", "124379N506070"),
    Unlike("words for a door plate", FORD, "door_plate_1965", "painted over"),
    Unlike("words", SEVENTEEN, "vehicle_number", "hello world"),
    Unlike("an old number for seventeen characters", SEVENTEEN, "vehicle_number",
           "124379N506070"),
    Unlike("words for a tire", PARTS, "tire_number_4", "hello world"),
    Unlike("words for a label", PARTS, "certification_numerals", "hello world"),
    Unlike("words", TARVANE, "frame_number", "hello world"),
)  # fmt: skip


# -------------------------------------------------------------- names people use for marks


def named(
    promise: str, book: str, mark: str, text: str, says: dict[str, Says], *more: str
) -> Typed:
    """A mark by the name that people use; the last of `more` is the mark it is."""
    source, *mark_id = more
    return Typed(promise, book, mark, text, says, "published", source, answered_as="".join(mark_id))


MARK_NAMES = (
    named("vin", CHEVROLET, "vin", "124379N506070", NUMBER_OF_1969, CRG, "number_plate"),
    named(
        "a vin of 1972",
        CHEVROLET,
        "vin",
        "1Q87L2N500001",
        {"year": value("1972"), "series": value("camaro"), "sequence": value("500001")},
        "form: vetteworks.tripod.com/Engines.html; letters from memory; the first number",
        "number_plate_1972",
    ),
    named(
        "a VIN of 1964",
        CHEVROLET,
        "VIN",
        "45767K123456",
        {"year": value("1964"), "body": value("convertible"), "plant": value("kansas-city")},
        "form: ss396.com/cars/decode-chevrolet-vin-code; the serial is invented",
        "number_plate_1964",
    ),
    plate_of_1969(
        "trim tag", "ST 69-12437 NOR 211785 BDY\nTR 711\nPNT 72 B\n01C X33", X33, "trim tag"
    ),
    named(
        "cowl tag",
        CHEVROLET,
        "cowl tag",
        "09D ST 66-13667 KAN 233 BODY",
        {"year": value("1966"), "plant": value("kansas-city"), "body_number": value("000233")},
        "Kansas City trim tags 1966-67, macswebs.com",
        "body_plate_kansas_city",
    ),
    named("pad", CHEVROLET, "pad", "V0525CNR", PAD_OF_1970, ENGINE_CODES, "engine_pad"),
    named(
        "block date of a small block",
        CHEVROLET,
        "block date",
        "E 16 8",
        {"date": among("1968-05-16", 1958, 1968, 1978)},
        "Camaro Research Group forum, topic 715",
        "block_cast_date",
    ),
    named(
        "vin of a Mustang of 1973",
        FORD,
        "vin",
        "3F05Q100200",
        {"year": value("1973"), "engine": value("351c-cj")},
        MACH_1,
        "dash_plate",
    ),
    plate_of_1965("door tag", "76A R 28 23A 11 2 6 5F08T412345", "door tag"),
    label_of_1969("a door tag of 1970", "12/69 0F93M512345 65B K 7F 9 X A7", "door tag"),
    named(
        "block date of a 428",
        FORD,
        "block date",
        "8C1",
        {"date": among("1968-03-01", 1968, 1978)},
        "Engine ID codes, 428cobrajet.org/id-engine-codes.html",
        "block_date",
    ),
    named(
        "vin of seventeen characters",
        SEVENTEEN,
        "vin",
        "1G4AH59H45G118341",
        {"year": value("2005")},
        CFR_565,
        "vehicle_number",
    ),
    Typed(
        "a mark by its name in the book",
        TARVANE,
        "engine number",
        "S12001",
        {"series": value("standard"), "engine": value("12001")},
        "invented",
        INVENTED,
        answered_as="engine_number",
    ),
    Typed(
        "a model and a plant in capitals",
        CHEVROLET,
        "engine_pad",
        "V0101DZ",
        {"suffix": value("302-z28")},
        "published",
        HOT_ROD,
        options=("--year", "1969", "--model", "Camaro", "--works", "NORWOOD"),
    ),
)


# ----------------------------------------------------------------- dates that know the year

DATES = (
    Typed(
        "a pad of a car of 1968",
        CHEVROLET,
        "engine_pad",
        "V0516MO",
        {"engine_date": among("1968-05-16", 1967, 1968), "suffix": value("302-z28")},
        "published",
        "Camaro Research Group forum, topic 715; MO: Hot Rod",
        options=("--year", "1968"),
    ),
    Typed(
        "a pad of January of a car of 1969",
        CHEVROLET,
        "engine_pad",
        "V0101DZ",
        {"engine_date": span("1969-01-01")},
        "common practice",
        f"{ESSER} (V0101); run of 1969: Wikipedia; six months before the car: A. Grenning",
        options=("--year", "1969", "--model", "camaro"),
    ),
    Typed(
        "a pad of October of the long run",
        CHEVROLET,
        "engine_pad",
        "V1025DZ",
        {"engine_date": spans("1968-10-25", "1969-10-25")},
        "common practice",
        "run of 1969 to November: Wikipedia, Chevrolet Camaro (first generation)",
        options=("--year", "1969", "--model", "camaro"),
    ),
    Typed(
        "a stamp dated by the serial behind it",
        CHEVROLET,
        "engine_pad",
        "V0101DZ 19N500123",
        {"engine_date": span("1969-01-01")},
        "common practice",
        f"{ESSER}; year digit: {CRG}; the serial is invented",
    ),
    Typed(
        "an axle stamp with spaces",
        CHEVROLET,
        "axle_stamp",
        "BE 01 12 G",
        {
            "code": value("12-bolt-copo-9561"),
            "date": among("1969-01-12", 1968, 1969),
            "axle_plant": value("gear-and-axle"),
        },
        "published",
        "form: D. McIntosh, librs.net/lread_661275_p7; BE: Super Chevy; the day is invented",
        options=("--year", "1969"),
    ),
    Typed(
        "an axle stamp with shift and lock",
        CHEVROLET,
        "axle_stamp",
        "BE 0112 G 2 E",
        {
            "date": among("1969-01-12", 1968, 1969),
            "axle_shift": value("second"),
            "lock": value("eaton"),
        },
        "published",
        "form: nastyz28.com/2gcog/rearaxle.html; shift and E from memory; the day is invented",
        options=("--year", "1969"),
    ),
    Typed(
        "the plant before the date, under the name that both orders have",
        CHEVROLET,
        "axle stamp",
        "BE G 0112",
        {"code": value("12-bolt-copo-9561"), "axle_plant": value("gear-and-axle")},
        "published",
        "Full-size repair guide, autozone.com, against D. McIntosh: accept both orders",
    ),
    *(
        Typed(
            promise,
            CHEVROLET,
            "block_cast_date",
            text,
            {"date": span("1969-03-15")},
            "published",
            "form: Engine codes, drivinithome.com; the day is invented",
            options=("--year", "1969"),
        )
        for promise, text in (
            ("a casting date with spaces", "C 15 9"),
            ("a casting date in one", "C159"),
            ("a casting date with dashes", "C-15-9"),
        )
    ),
    Typed(
        "a casting date of no known car",
        CHEVROLET,
        "block_cast_date",
        "C 15 9",
        {"date": both(among("1969-03-15", 1959, 1969, 1979))},
        "published",
        "Engine codes, drivinithome.com: 1959, 1969 and 1979 look alike",
    ),
    Typed(
        "a head cast on 10 October",
        CHEVROLET,
        "head_cast_date",
        "J 10 8",
        {"date": span("1968-10-10")},
        "published",
        "EngineLabs, enginelabs.com (J108)",
        options=("--year", "1969"),
    ),
    Typed(
        "a gearbox of December with both readings of its digit",
        CHEVROLET,
        "muncie_1967",
        "P7 T 02",
        {"date": spans("1966-12-02", "1967-12-02")},
        "published",
        "Muncie text, Stegmiller, nastyz28.com; chevellestuff.net/1970/pop/pop_trans.htm",
    ),
    Typed(
        "the same of a car of 1967, whose run ended in July",
        CHEVROLET,
        "muncie_1967",
        "P7T02",
        {"date": span("1966-12-02")},
        "common practice",
        "the same; end of the run of 1967: Supercar Registry forum, post 961523",
        options=("--year", "1967", "--model", "camaro"),
    ),
    Typed(
        "a night shift with spaces",
        CHEVROLET,
        "muncie_1963",
        "P 0503 N",
        {"date": among("1965-05-03", 1963, 1964, 1965, 1966), "shift": value("night")},
        "published",
        "Muncie text, Stegmiller, nastyz28.com",
    ),
    Typed(
        "a day count with spaces",
        CHEVROLET,
        "th400_1969",
        "69 A 299",
        {"day": span("1968-10-25")},
        "published",
        "1969 transmission identification, chevellestuff.net",
    ),
    Typed(
        "a day count past the end of the year",
        CHEVROLET,
        "th400_1969",
        "69A367",
        {"day": span("1969-01-01")},
        "published",
        "1969 transmission identification, chevellestuff.net",
    ),
    Typed(
        "a panel of a car of 1965",
        FORD,
        "panel_stamp",
        "7 15 C3",
        {
            "date": within(1964, 1965),
            "plant": value("cleveland-stamping"),
            "shift": value("third-shift"),
        },
        "published",
        "D. Farr, carburetor.html; J. Speegle, concoursmustang.com topic 29044",
        options=("--year", "1965"),
    ),
    Typed(
        "a space that says where the month ends",
        FORD,
        "panel_stamp",
        "1 12 C3",
        {"date": among("1966-01-12", 1965, 1966)},
        "published",
        "form: J. Speegle, concoursmustang.com topic 29044; the day is invented",
        options=("--year", "1966"),
    ),
    Typed(
        "the same figures cut otherwise",
        FORD,
        "panel_stamp",
        "11 2 C3",
        {"date": span("1965-11-02")},
        "published",
        "form: J. Speegle, concoursmustang.com topic 29044; the day is invented",
        options=("--year", "1966"),
    ),
    Typed(
        "a block of a car of 1968",
        FORD,
        "block_date",
        "8C1",
        {"date": span("1968-03-01")},
        "published",
        "Engine ID codes, 428cobrajet.org/id-engine-codes.html",
        options=("--year", "1968"),
    ),
    Typed(
        "an assembly date with spaces",
        FORD,
        "engine_assembly_date",
        "8 D 10",
        {"date": span("1968-04-10")},
        "published",
        "Engine ID codes, 428cobrajet.org/id-engine-codes.html",
        options=("--year", "1968"),
    ),
    Typed(
        "a date of a plate alone, by its label",
        FORD,
        "door_plate_1965",
        "DATE 23A",
        {"date": span("1965-01-23")},
        "published",
        PONY,
        options=("--year", "1965"),
    ),
    Typed(
        "a letter of the second year",
        FORD,
        "door_plate_1967",
        "DATE 11V",
        {"date": span("1967-08-11")},
        "published",
        "Cougars 101, cougarclub.org/cougars-101.htm",
        options=("--year", "1967", "--model", "cougar"),
    ),
    Typed(
        "a holiday that stays a date",
        FORD,
        "door_plate_1967",
        "9F02M123456|63C|M|3A|04G|71|9|5",
        {"date": both(span("1968-07-04"), meaning("placeholder|holiday"))},
        "published",
        "Does the scheduled build date..., 428cobrajet.org/content; the number is invented",
    ),
    Typed(
        "a first car dated by its own number",
        FORD,
        "door_plate_1965",
        "5F08F100001 DATE 05C",
        {"date": first_of("1964-03-05"), "unit": value("100001")},
        "published",
        "Pony Tales, February 2014, mustangandfords.com: all of 100001 to about 100180 read 05C",
    ),
    Typed(
        "the same day on a number after the shutdown of August 1964",
        FORD,
        "door_plate_1965",
        "76A|R|28|05C|11|2|6|5F08T412345",
        {"date": span("1965-03-05")},
        "published",
        "J. Starling, 1964 1/2 vs 1965: Dearborn began anew with 250001; the unit is invented",
    ),
    Typed(
        "a count of days behind a number",
        TARVANE,
        "axle_stamp",
        "31 800-1201",
        {"axle": value("31800"), "day": span("1955-04-16")},
        "invented",
        INVENTED,
    ),
    Typed(
        "month and year in figures",
        PARTS,
        "certification_numerals",
        "06/70",
        {"date": span("1970-06-01", "1970-06-30")},
        "published",
        CFR_567,
    ),
    Typed(
        "month and year with a dash",
        PARTS,
        "certification_numerals",
        "6-70",
        {"date": span("1970-06-01", "1970-06-30")},
        "published",
        CFR_567,
    ),
    Typed(
        "a month in words joins its year",
        PARTS,
        "certification_words",
        "JUNE 1970",
        {ANY: span("1970-06-01", "1970-06-30")},
        "published",
        CFR_567,
    ),
    Typed(
        "words typed for figures",
        PARTS,
        "certification_numerals",
        "JUNE 1970",
        {ANY: span("1970-06-01", "1970-06-30")},
        "published",
        CFR_567,
    ),
    Typed(
        "a month cut short, on a label of either form",
        PARTS,
        "certification label",
        "JUN 70",
        {ANY: span("1970-06-01", "1970-06-30")},
        "published",
        CFR_567,
    ),
    Typed(
        "a month before it is told, in words around",
        PARTS,
        "certification_numerals",
        "DATE OF MFR 06/70",
        {"date": span("1970-06-01", "1970-06-30")},
        "published",
        CFR_567,
    ),
    Typed(
        "a tire's number with dashes",
        PARTS,
        "tire_number_4",
        "DOT-XXXX-XXX-3197",
        {"date": span("1997-08-03", "1997-08-09")},
        "published",
        CFR_574,
    ),
    Typed(
        "a tire's number in small letters",
        PARTS,
        "tire_number_4",
        "dot xxxx xxx 3197",
        {"date": span("1997-08-03", "1997-08-09"), "plant": code("XX")},
        "published",
        CFR_574,
    ),
    Typed(
        "a tire of three figures leaves three decades",
        PARTS,
        "tire_number_3",
        "DOT: XXXX XXX 317",
        {"date": among("1977-07-31", 1977, 1987, 1997)},
        "published",
        CFR_574,
    ),
    Typed(
        "a whole tire number typed for its date",
        PARTS,
        "tire_week_4",
        "DOT XXXX XXX 3197",
        {"date": span("1997-08-03", "1997-08-09")},
        "published",
        CFR_574,
    ),
    Typed(
        "all that a window says",
        PARTS,
        "glazing_item",
        "AS-1 M50 DOT 23",
        {"item": value("as-1")},
        "published",
        "ANSI Z26.1 section 6, 49 CFR 571.205; the numbers are invented",
    ),
    Typed(
        "words before the year of a belt",
        PARTS,
        "seat_belt_label",
        "DATE OF MFG 1972",
        {"year": span("1972-01-01", "1972-12-31")},
        "published",
        "49 CFR 571.209 S4.1(j)",
    ),
    Typed(
        "a brake hose with dashes",
        PARTS,
        "brake_hose_day",
        "10-1-74",
        {"date": span("1974-10-01")},
        "published",
        "NHTSA letters nht75-1.46 and aiam1455 (10/1/74)",
    ),
)


# ------------------------------------------------------- one mark that says more of itself

ITSELF = (
    Typed(
        "a works letter decided by a sequence that the other never reached",
        CHEVROLET,
        "number_plate",
        "124379[NL]608879",
        {"plant": value("norwood"), "sequence": value("608879")},
        "common practice",
        "Conceptcarz 1969 Camaro (124379N608879); shares of the plants: camaros.org/geninfo.shtml",
        is_one=True,
    ),
    Typed(
        "a coachbuilder's letter decided by its numbers",
        TARVANE,
        "wing_body_number",
        "[EM]2250",
        {"coachbuilder": value("ellery"), "body": value("2250")},
        "invented",
        INVENTED,
        is_one=True,
    ),
    Typed(
        "a year digit worn away, told by the sequence",
        CHEVROLET,
        "number_plate",
        "12437?N650070",
        {"year": value("1969"), "sequence": value("650070")},
        "published",
        f"{CRG}: 100001, 300001 and 500001 in 1967, 1968 and 1969",
        at_least=0.5,
    ),
    Typed(
        "a year digit that may be one of two, told by the engine letter",
        FORD,
        "dash_plate",
        "[89]F02G123456",
        {"year": value("1969"), "engine": value("boss-302")},
        "published",
        "Mustang Engine Codes, mustangreloaded.com (G of 1969); the unit is invented",
    ),
    Typed(
        "a plate of one model takes that model's districts",
        FORD,
        "door_plate_1967",
        "7F01C123456|65A|A|2A|23A|22|1|W",
        {"district": value("charlotte"), "engine": value("289-2v")},
        "assumed",
        "body serial, list of Ford districts: from memory, medium; the unit is invented",
        is_one=True,
    ),
    Typed(
        "and a Cougar's plate the other list",
        FORD,
        "door_plate_1967",
        "7F91C512345|65A|A|2A|23A|22|1|W",
        {"district": value("dallas"), "engine": value("289-2v")},
        "assumed",
        "Cougar serials: Cougar Club of America; districts from memory; the unit is invented",
        is_one=True,
    ),
    Typed(
        "a plate with its number has one alternative",
        FORD,
        "door_plate_1967",
        "8R01J137614|65A|A|2A|05B|71|1|5",
        {"date": span("1968-02-05"), "engine": value("302-4v")},
        "published",
        BUILD_DATE,
        is_one=True,
    ),
    Typed(
        "a label with its number has one alternative",
        FORD,
        "door_label",
        "12/69|0F93M512345|65B|K|7F|9|X|A7",
        {"paint": value("gold-metallic"), "trim_style": meaning("houndstooth")},
        "published",
        HOUNDSTOOTH,
        is_one=True,
    ),
    Typed(
        "a fastback's number means the Mustang's engine",
        FORD,
        "dash_plate",
        "8F02R135007",
        {"engine": value("428-cj"), "body_serial": value("mustang-fastback")},
        "published",
        LIGHTWEIGHT,
        is_one=True,
    ),
    Typed(
        "a suffix of the year that its serial gives",
        CHEVROLET,
        "engine_pad",
        "T0101MO 19N500123",
        {"suffix": value("427-l72")},
        "assumed",
        "list of 1969 from memory, against MO of 1967 and 1968 in Hot Rod; the serial is invented",
    ),
)


# -------------------------------------------------------------------- seventeen characters


def seventeen(promise: str, text: str, says: dict[str, Says], source: str, *told: str) -> Typed:
    """A number of the standard."""
    basis = "published" if not source.startswith("slip") else "assumed"
    return Typed(promise, SEVENTEEN, "vehicle_number", text, says, basis, source, told=told)


AGREES, FAILS = r"check digit agrees", r"check digit does not agree"

NUMBERS = (
    seventeen(
        "a digit in position 7", "1G4AH59H45G118341", {"year": value("2005")}, CFR_565, AGREES
    ),
    seventeen("1989", "1M8GDM9AXKP042788", {"year": value("1989")}, ENCYCLOPAEDIA, AGREES),
    seventeen(
        "1990, with a dash and spaces",
        "1FAPP64R7-LH 123456",
        {"year": value("1990"), "sequence": value("123456")},
        "an owners' page on the check digit",
        AGREES,
    ),
    seventeen(
        "an I typed for a 1",
        "IG1BL52P7TR115520",
        {"year": value("1996"), "maker": value("1G1")},
        "Corvette VIN Breakdown, docslib.org/doc/13799708",
        AGREES,
    ),
    seventeen(
        "two neighbours exchanged where the digit sees it",
        "1M8GDM9AXPK042788",
        {"sequence": value("042788")},
        f"slip in: {ENCYCLOPAEDIA}",
        FAILS,
        r"exchang(?!e of the neighbours 5 and 6).*10 and 11",
    ),
    seventeen(
        "two figures of the sequence exchanged",
        "1M8GDM9AXKP024788",
        {"year": value("1989")},
        f"slip in: {ENCYCLOPAEDIA}",
        FAILS,
        r"exchang.*13 and 14",
    ),
    seventeen(
        "one wrong character",
        "1M8GDM9AXKP042783",
        {"year": value("1989")},
        f"slip in: {ENCYCLOPAEDIA}",
        FAILS,
    ),
    seventeen(
        "an example that is said to pass and does not",
        "SGZCZ43D13S812715",
        {"maker": value("SGZ")},
        f"{ENCYCLOPAEDIA}, section on the check digit; recomputed",
        FAILS,
    ),
    seventeen(
        "a last place worn away, told by the check digit",
        "1M8GDM9AXKP04278?",
        {"year": value("1989")},
        ENCYCLOPAEDIA,
        r"position 17.*\b8\b",
    ),
    Typed(
        "a number of a market where the rule does not apply keeps both years",
        SEVENTEEN,
        "vehicle_number",
        "LJCPCBLCX11000237",
        {"year": value("2001")},
        "published",
        "scientificgems.wordpress.com/2018/04/27",
        also={"year": value("2031")},
        at_least=0.02,
        told=(AGREES,),
    ),
    Typed(
        "a trailer keeps both years",
        SEVENTEEN,
        "vehicle_number_other",
        "1J9RP1A36A1644345",
        {"year": value("1980")},
        "published",
        "NHTSA, Requirements for manufacturers of motor vehicles, rev. 3 March 2011, p. 18",
        also={"year": value("2010")},
        at_least=0.2,
        told=(AGREES,),
    ),
)


# ---------------------------------------------------------------------------- compared

SIX = (
    "vin=124379N500123",
    "pad=V0101DZ",
    "partial_number_engine=19N500123",
    "partial_number_gearbox=19N500123",
    "hidden_number_cowl=19N500123",
    "trim tag=ST 69-12437 NOR 123456 BDY\nTR 711\nPNT 72 72\n06B",
)

COMPARED = (
    Compared(
        "six readings of one car, by the names people use",
        CHEVROLET,
        SIX,
        "published",
        f"forms: {CRG}; {ESSER}; the serials are invented",
        agree=("sequence", "model_year", "works"),
        nothing_differs=True,
        year=1969,
        says={"engine_pad": {"engine_date": span("1969-01-01")}},
    ),
    Compared(
        "the car's number dates pad and block",
        CHEVROLET,
        ("number_plate=124379N506070", "engine_pad=V0101DZ", "block_cast_date=L 20 8"),
        "common practice",
        f"{CRG}; forms: {ESSER}, drivinithome.com; the days are invented",
        agree=("block-to-engine",),
        nothing_differs=True,
        year=1969,
        says={
            "engine_pad": {"engine_date": span("1969-01-01")},
            "block_cast_date": {"date": span("1968-12-20")},
        },
    ),
    Compared(
        "an engine some days younger than the week on the plate, at the end of the run",
        CHEVROLET,
        ("body_plate_norwood_1967=06E", "engine_pad=V0706MO"),
        "published",
        "Supercar Registry forum, post 961523",
        options=("--year", "1967"),
        agree=("engine-to-plate-week",),
        nothing_differs=True,
        says={"engine_pad": {"engine_date": among("1967-07-06", 1966, 1967)}},
    ),
    Compared(
        "a plate's week dates the car for its engine",
        CHEVROLET,
        (
            "body_plate_norwood_1969=ST 69-12437 NOR 123456 BDY|TR 711|72 72|03B",
            "engine_pad=V0215DZ",
        ),
        "common practice",
        f"form: {FISHER}; lag: A. Grenning; the days are invented",
        agree=("engine-to-plate-week",),
        nothing_differs=True,
        year=1969,
        says={"engine_pad": {"engine_date": span("1969-02-15")}},
    ),
    Compared(
        "an engine three months younger than its plate",
        CHEVROLET,
        (
            "body_plate_norwood_1969=ST 69-12437 NOR 123456 BDY|TR 711|72 72|03B",
            "engine_pad=V0615DZ",
        ),
        "common practice",
        f"form: {FISHER}; at most about two weeks after: post 961523; the days are invented",
        differ=("engine-to-plate-week",),
    ),
    Compared(
        "the same behind a number of which most was masked",
        CHEVROLET,
        (
            "number_plate=124377N1?????",
            "body_plate_norwood_1967=03B|ST 67-12437 NOR 12345 BODY|TR 760|GG",
            "engine_pad=V0615MO",
        ),
        "common practice",
        "an exception for 49 pilot cars, lastautocars.blogspot.com, excuses those alone",
        options=("--year", "1967"),
        differ=("engine-to-plate-week",),
    ),
    Compared(
        "a number that decode says asks for a reason",
        CHEVROLET,
        ("number_plate=124379L600123", "partial_number_engine=19L600123"),
        "common practice",
        "Los Angeles reached about 560000: worked out from camaros.org/geninfo.shtml",
        agree=("works",),
        asks=("number_in_its_series", "sequence"),
    ),
    Compared(
        "a factory record and the plate's date",
        FORD,
        (
            "door_plate_1967=8R01J137614 65A A 2A 05B 71 1 5",
            "factory_record=1968-01-25|1968-02-05||1968-02-06|",
        ),
        "published",
        BUILD_DATE,
        agree=("scheduled_date", "scheduled-to-built"),
        nothing_differs=True,
        year=1968,
    ),
    Compared(
        "a title's whole number is the number plate's",
        CHEVROLET,
        ("number_plate=124379N506070", "origin_statement=124379N506070"),
        "published",
        CRG,
        agree=("sequence", "series", "body", "model_year", "works"),
        nothing_differs=True,
        year=1969,
    ),
    Compared(
        "a paper's number with two figures exchanged",
        FORD,
        ("dash_plate=3F05Q100200", "number_on_papers=3F05Q102000"),
        "assumed",
        f"slip in: {MACH_1}",
        differ=("unit_number",),
    ),
    Compared(
        "a block casting and the suffix of its engine",
        CHEVROLET,
        ("block_number=3970010", "engine_pad=V0525CNR"),
        "published",
        "3970010 is a 350: calculatorenginedisplacement.com; CNR is a 350: drivinithome.com",
        options=("--year", "1970"),
        tied=("block_number", "engine_pad"),
        nothing_differs=True,
    ),
    Compared(
        "one serial that differs in one figure",
        CHEVROLET,
        ("vin=124379N506070", "partial_number_engine=19N506170", "hidden_number_cowl=19N506070"),
        "published",
        CRG,
        agree=("sequence",),
        differ=("sequence",),
        year=1969,
    ),
    Compared(
        "block, assembly and number of a 428",
        FORD,
        ("block date=8C1", "engine_assembly_date=8D10", "vin=8F02R135007"),
        "published",
        "Engine ID codes, 428cobrajet.org (40 days apart); 1968 Mustang Cobra Jet Lightweight",
        nothing_differs=True,
        year=1968,
        says={
            "block_date": {"date": span("1968-03-01")},
            "engine_assembly_date": {"date": span("1968-04-10")},
            "dash_plate": {"engine": value("428-cj")},
        },
    ),
    Compared(
        "a panel by the year of the door plate's number",
        FORD,
        ("door_plate_1965=76A R 28 23A 11 2 6\n5F08T412345", "panel_stamp=12 15 C3"),
        "published",
        f"{PONY}; form: concoursmustang.com topic 29044; unit and day of the panel are invented",
        nothing_differs=True,
        year=1965,
        says={"panel_stamp": {"date": span("1964-12-15")}},
    ),
    Compared(
        "a frame and a seat pan of the demonstration maker",
        TARVANE,
        ("frame_number=2 582063", "seat_chassis_tail=E 2063"),
        "invented",
        INVENTED,
        agree=("chassis_number",),
        nothing_differs=True,
        year=1958,
    ),
    Compared(
        "a frame and a seat pan that name two cars",
        TARVANE,
        ("frame_number=2582063", "seat_chassis_tail=E2013"),
        "invented",
        INVENTED,
        differ=("chassis_number",),
    ),
)


# ------------------------------------------------------------------------------ the tests

GROUPS = {
    "rows, separators, labels": ROWS,
    "a stamp with its serial": STAMPS,
    "words, stars and small letters": AROUND,
    "slips and doubt": SLIPS,
    "what is no reading": UNLIKES,
    "names of marks": MARK_NAMES,
    "dates": DATES,
    "one mark that says more of itself": ITSELF,
    "seventeen characters": NUMBERS,
    "compared": COMPARED,
}
"""All of them in their order, for whoever prints them as a table."""

Case = Typed | Unlike | Compared


def each_of(cases: tuple[Case, ...]) -> pytest.MarkDecorator:
    """One test for each, named by what it promises."""
    return pytest.mark.parametrize("typed", cases, ids=[f"{c.book}: {c.promise}" for c in cases])


@pytest.fixture
def said(capsys, monkeypatch):
    """What a command prints as JSON, and on the error stream."""
    monkeypatch.setenv("COLUMNS", "80")

    def asked(command: tuple[str, ...]) -> tuple[dict[str, object], str]:
        answer_to(command)
        printed = capsys.readouterr()
        assert "Traceback" not in printed.out + printed.err
        return (json.loads(printed.out) if printed.out.strip() else {}), printed.err

    return asked


@each_of(ROWS)
def test_rows_without_bars_are_cut_where_they_were_typed(typed, said):
    """Space, dash, dot, slash and line end part fields; label words say nothing."""
    assert typed.faults(*said(typed.command())) == []


@each_of(STAMPS)
def test_a_stamp_with_its_serial_is_two_marks(typed, said):
    """Behind or in front, with or without a space."""
    assert typed.faults(*said(typed.command())) == []


@each_of(AROUND)
def test_what_stands_around_a_number_is_let_be(typed, said):
    """Words, stars, boxes, small letters, O and I for figures."""
    assert typed.faults(*said(typed.command())) == []


@each_of(SLIPS)
def test_a_slip_is_told_as_what_it_likely_is(typed, said):
    """What is right stays right; a missing place is somewhere, and never padded at the end."""
    assert typed.faults(*said(typed.command())) == []


@each_of(UNLIKES)
def test_what_fits_nothing_has_no_share(typed, said):
    """It does not look like a reading of that mark."""
    assert typed.faults(*said(typed.command())) == []


@each_of(MARK_NAMES)
def test_marks_go_by_the_names_people_use(typed, said):
    """The form that fits decides which of several marks of that name it is."""
    assert typed.faults(*said(typed.command())) == []


@each_of(DATES)
def test_a_date_is_read_as_it_stands_and_by_the_year_that_is_known(typed, said):
    """By the option, by the mark's own number, by a month in words."""
    assert typed.faults(*said(typed.command())) == []


@each_of(ITSELF)
def test_what_one_mark_says_of_itself_is_used(typed, said):
    """Model, year and works of a code narrow the codes beside it."""
    assert typed.faults(*said(typed.command())) == []


@each_of(NUMBERS)
def test_seventeen_characters_as_typed(typed, said):
    """What the check digit sees, and what position 7 then decides."""
    assert typed.faults(*said(typed.command())) == []


@each_of(COMPARED)
def test_readings_of_one_car_keep_what_they_know(typed, said):
    """The year of any of them dates all of them."""
    assert typed.faults(*said(typed.command())) == []


@pytest.mark.parametrize(
    ("book", "mark", "text", "options"),
    [
        (CHEVROLET, "number_plate", "124379N506070", ()),
        (CHEVROLET, "engine_pad", "V0101DZ", ("--year", "1969")),
        (FORD, "dash_plate", "3F05Q100200", ()),
        (PARTS, "certification_numerals", "06/70", ()),
        (TARVANE, "frame_number", "4 700143", ()),
    ],
)
def test_a_clear_reading_is_told_in_ten_lines(book, mark, text, options, capsys, monkeypatch):
    """Before why, and what it rests on."""
    monkeypatch.setenv("COLUMNS", "80")
    answer_to(("decode", book, mark, text, *options))
    page = capsys.readouterr().out
    told = page.split("\nWhy")[0].split("\nSources")[0]
    assert page
    assert len([line for line in told.splitlines() if line.strip()]) <= 10
