"""The second tables of Chevrolet and Ford: what sources confirm, where they disagree, and traps.

Each with its source beside it. Where two sources disagree, both rows stand; what comes from
memory is told as that. Serials are invented.
"""

import pytest

from tests.published.books import Marks, opened
from witnessmark.codebook import Basis, CarContext, CodeBook, CodeRow

CHEVROLET, FORD = "chevrolet-1964-1972", "ford-1964-1973"
# KIT below is https://www.gm.com/content/dam/company/no_search/heritage-archive-docs/
# vehicle-information-kits/chevrolet/, the maker's own kits, read through a public archive.


def car(model: str, year: int) -> CarContext:
    """A car of which model and year are claimed."""
    return CarContext(model_year=year, model=model)


def rows(book: str, table: str, code: str, model: str, year: int) -> list[CodeRow]:
    """The rows of a code for one model and year."""
    return [
        row
        for row in opened(book).codes
        if (row.table, row.code) == (table, code)
        and row.applies.first_year <= year <= row.applies.last_year
        and (not row.applies.models or model in row.applies.models)
    ]


def remark(book: str, name: str) -> str:
    """The sentence of a remark."""
    return next(each.sentence for each in opened(book).remarks if each.id == name)


# ------------------------------------------------------------------ as published

AS_PUBLISHED = [
    # 1965 Chevelle kit, the row as checked by eye: KIT 1965-Chevrolet-Chevelle.pdf
    (CHEVROLET, "paint_letters", "K", "chevelle", 1965, "artesian-turquoise"),
    # 1967 kit: the chart prints the plain word: KIT 1967-Chevrolet-Chevelle.pdf
    (CHEVROLET, "paint_letters", "F", "chevelle", 1967, "bright-blue"),
    # 1970 kit, PDF p. 17: KIT 1970-Chevrolet-Camaro.pdf
    (CHEVROLET, "paint_numbers", "43", "camaro", 1970, "citrus-green"),
    # 1971 kit: KIT 1971-Chevrolet-Camaro.pdf
    (CHEVROLET, "paint_numbers", "43", "camaro", 1971, "lime-green"),
    # 1972 kit: KIT 1972-Chevrolet-Camaro.pdf
    (CHEVROLET, "paint_numbers", "43", "camaro", 1972, "gulf-green"),
    # The El Camino has it, the Chevelle's lines do not: KIT 1971-Chevrolet-El-Camino.pdf
    (CHEVROLET, "paint_numbers", "52", "chevelle", 1971, "sunflower-yellow"),
    # 1964 kits, PDF p. 26-28: KIT 1964-Chevrolet-Chevelle.pdf
    (CHEVROLET, "paint_order_codes", "936", "chevelle", 1964, "ermine-white"),
    (CHEVROLET, "paint_order_codes", "952", "full-size", 1964, "bahama-green-and-meadow-green"),
    # Decoding your 1960-1980 Chevrolet VIN codes,
    # https://www.ss396.com/cars/decode-chevrolet-vin-code/
    (CHEVROLET, "series_1964", "18", "full-size", 1964, "impala-eight"),
    (CHEVROLET, "series_1964", "09", "corvair", 1964, "corvair-monza"),
    (CHEVROLET, "plants", "O", "full-size", 1964, "oakland"),
    # 1970 COPO Camaro owner's page, https://www.my1970z28.com/COPO/rear_axle.htm
    (CHEVROLET, "axle_codes", "COZ", "camaro", 1970, "3.73-limited-slip"),
    (CHEVROLET, "axle_codes", "COI", "camaro", 1970, "3.08-heavy-duty"),
    (CHEVROLET, "axle_locks", "E", "camaro", 1970, "eaton"),
    # https://www.ndarblog.com/2020/10/how-to-identify-lt1-engine.html
    (CHEVROLET, "suffixes", "CKS", "camaro", 1972, "350-lt1"),
    # D. Rosenberg, Muscle Car Review, August 2018,
    # https://www.pressreader.com/usa/muscle-car-review/20180801/281560881533133
    (FORD, "engine_letters", "N", "fairlane", 1970, "429-4v"),
    (FORD, "engine_letters", "C", "fairlane", 1970, "429-cj"),
    (FORD, "engine_letters", "J", "fairlane", 1970, "429-cj-ram-air"),
    # The X-Files, Dearborn, http://dearbornflashback.com/xfiles.asp
    (FORD, "engine_letters", "L", "big-ford", 1966, "427-ohc-4v"),
    # SAAC forum, https://saac.com/forum/index.php?topic=9782.75
    (FORD, "engine_letters", "W", "mustang", 1968, "427-4v"),
]


@pytest.mark.parametrize(("book", "table", "code", "model", "year", "value"), AS_PUBLISHED)
def test_a_published_row_weighs_for_its_model_and_year(book, table, code, model, year, value):
    found = rows(book, table, code, model, year)
    assert [row.value for row in found] == [value]
    assert found[0].citation.basis is Basis.PUBLISHED


AS_TYPED = [
    # 1971 Chevelle kit, PDF p. 64: KIT 1971-Chevrolet-Chevelle.pdf
    (
        CHEVROLET, "body_plate_1969", "71 13637 BAL 123456 BDY | 755 | 53 11 | 05C",
        car("chevelle", 1971), {"paint": "placer-gold", "upper_paint": "antique-white"},
    ),
    # https://www.ss396.com/cars/decode-chevrolet-vin-code/
    (
        CHEVROLET, "number_plate_1964", "41847O123456", CarContext(),
        {"series": "impala-eight", "body": "sport-coupe", "plant": "oakland"},
    ),
    # The order form of 1964, by the charts of 3 September 1963: KIT 1964-Chevrolet-Chevelle.pdf
    (
        CHEVROLET, "dealer_order", "| 1964-02-06 | 912", car("chevelle", 1964),
        {"paint": "silver-blue"},
    ),
    # https://www.my1970z28.com/COPO/rear_axle.htm
    (
        CHEVROLET, "axle_stamp", "COZ0204G1D", car("camaro", 1970),
        {"code": "3.73-limited-slip", "lock": "dana"},
    ),
    # D. McIntosh, Chevelle guide, https://librs.net/lread_661275_p7: WL is added to some stamps
    (
        CHEVROLET, "muncie_1969", "P0B12BWL", car("chevelle", 1970),
        {"gear_set": "m21", "broadcast": "m21"},
    ),
    # Muscle Car Review, as above
    (
        FORD, "number_on_papers", "0H38N123456", car("fairlane", 1970), {"engine": "429-4v"},
    ),
    # My 1964 Galaxie 500 XL, https://autorestorer.com/articles/my1964_galaxie500_xl-260
    (
        FORD, "door_plate_1964", "63C | M | 86 | 12B | _ | 1 | 4 | 4U68Z123456",
        car("big-ford", 1964), {"district": "none", "engine": "390-4v"},
    ),
]  # fmt: skip


@pytest.mark.parametrize(("book", "mark", "text", "claimed", "says"), AS_TYPED)
def test_a_mark_reads_as_published(book, mark, text, claimed, says):
    values = Marks(book).values(mark, text, claimed)
    assert {field: values[field] for field in says} == says


# ------------------------------------------------------------------ where sources disagree

DISPUTED = [
    # Full-size repair guide against https://www.my1970z28.com/COPO/rear_axle.htm
    (CHEVROLET, "axle_plants", "B", "camaro", 1970, {"buick", "buffalo"}),
    # Charts of September 1968 and April 1969: KIT 1969-Chevrolet-Camaro.pdf
    (CHEVROLET, "paint_numbers", "59", "camaro", 1969, {"frost-lime", "frost-green"}),
    # https://www.ndarblog.com/2020/10/how-to-identify-lt1-engine.html against memory
    (CHEVROLET, "suffixes", "CJK", "camaro", 1971, {"350-lt1", "350"}),
    # Both from memory
    (FORD, "engine_letters", "H", "big-ford", 1970, {"390-2v", "351-2v"}),
    (FORD, "trim_styles_1967", "4", "mustang", 1969, {"bench-seat", "knitted"}),
    (FORD, "paints_1970", "T", "mustang", 1970, {"red", "candyapple-red"}),
]


@pytest.mark.parametrize(("book", "table", "code", "model", "year", "values"), DISPUTED)
def test_where_sources_disagree_both_stand(book, table, code, model, year, values):
    found = rows(book, table, code, model, year)
    assert {row.value for row in found} == values
    assert all(row.disputed for row in found)


# The summary of a club list names Camaro and Corvette, memory the Chevelle.
def test_a_suffix_given_to_two_cars_tells_each_of_the_other():
    (lt1,) = rows(CHEVROLET, "suffixes", "CRT", "camaro", 1970)
    (ls5,) = rows(CHEVROLET, "suffixes", "CRT", "chevelle", 1970)
    assert (lt1.value, lt1.citation.basis) == ("350-lt1", Basis.PUBLISHED)
    assert (ls5.value, ls5.citation.basis) == ("454-ls5", Basis.MEMORY)
    assert "454 LS5" in lt1.meaning
    assert "LT1" in ls5.meaning


# One code, two cars, three printed names: KIT 1969-Chevrolet-Chevelle.pdf, PDF p. 25 and 86
def test_72_of_1969_is_called_otherwise_on_another_line():
    (camaro,) = rows(CHEVROLET, "paint_numbers", "72", "camaro", 1969)
    (chevelle,) = rows(CHEVROLET, "paint_numbers", "72", "chevelle", 1969)
    assert (camaro.value, chevelle.value) == ("hugger-orange", "monaco-orange")
    assert "plain Orange" in chevelle.meaning


IN_WORDS = [
    # https://yenko.net/forum/showpost.php?p=851198&postcount=6 against
    # https://www.yenko.net/forum/archive/index.php/t-69979.html
    (CHEVROLET, "spoiler-1970", ("9697", "9796")),
    # KIT 1968-Chevrolet-Chevelle.pdf, a machine reading
    (CHEVROLET, "black-1968", ("no black", "AA can be read", "special order")),
    # G. Reid and https://thetreasureseeker.org/the-1964-ford-fairlane-thunderbolt against
    # https://www.sportscarmarket.com/profile/1964-ford-fairlane-thunderbolt
    (FORD, "thunderbolt-gearboxes", ("49", "51", "41", "59")),
    # tomsmustangbarn.tripod.com/vin.htm against
    # https://autorestorer.com/articles/my1964_galaxie500_xl-260
    (FORD, "district-since-1962", ("since 1962", "mid-1950s to 1957")),
    # https://forums.aaca.org/topic/120694-1957-t-bird-body-plate-decode/
    (FORD, "starts-of-1957", ("400001", "800001")),
    # G. Reid, http://livelib.biz/read_661335/p9
    (FORD, "revisions-skipped", ("I and O", "I and L")),
]


@pytest.mark.parametrize(("book", "name", "words"), IN_WORDS)
def test_what_no_code_can_say_stands_with_both_sides(book, name, words):
    sentence = remark(book, name)
    assert [word for word in words if word not in sentence] == []


# ------------------------------------------------------------------ traps


# Fisher Body Number Plate - 1968, https://chevellestuff.net/tech/articles/trim_tags/tt_1968.htm
def test_a_trim_of_another_division_is_no_fault_on_a_chevelle_of_1968():
    trap = next(e for e in opened(CHEVROLET).remarks if e.id == "other-divisions-trim")
    assert trap.applies.works == {"baltimore", "kansas-city", "fremont"}
    plate = opened(CHEVROLET).mark("body_plate_1968")
    assert plate is not None
    assert next(field for field in plate.fields if field.id == "trim").has_gaps


# G. Reid, Ford Big-Block Parts Interchange, https://hotlib.net/htrd/661308/p6
def test_the_letter_k_of_a_thunderbolt_with_a_427_is_told():
    assert "K with a 427 is right" in remark(FORD, "thunderbolt-letter")


# G. Reid, Ford Small-Block Engine Parts Interchange, https://librs.net/lread_661335_p5
def test_a_302_block_may_stand_in_a_289_of_1967_or_1968():
    for name in ("block-c8oe-6015-a", "block-c8oe-6015-b"):
        rule = next(each for each in opened(FORD).rules if each.id == name)
        assert {"289-2v", "289-4v"} <= rule.then_values


FORBIDDEN = [
    # https://barnfinds.com/no-copo-rare-unconverted-1969-yenko-nova
    (CHEVROLET, "nova-no-427", "427-l72", "nova"),
    # https://falconclub.com/falcons-pages/the-ford-falcon/1965-2/
    (FORD, "no-289-falcon-1964", "289-2v", "falcon"),
    # https://wplr.com/?p=14947
    (FORD, "no-289-hp-fairlane-1966", "289-hp", "fairlane"),
    # https://curbsideclassic.com/curbside-classics-american/curbside-classic-1969-mercury-montego-another-mercury-moment
    (FORD, "no-429-comet-1969", "429-cj", "comet"),
    # https://saac.com/forum/index.php?topic=9782.75
    (FORD, "no-427-mustang-1968", "427-4v", "mustang"),
]


@pytest.mark.parametrize(("book", "name", "engine", "model"), FORBIDDEN)
def test_an_engine_that_was_not_sold_is_a_published_rule(book, name, engine, model):
    rule = next(each for each in opened(book).rules if each.id == name)
    assert engine in rule.if_values
    assert rule.then_values == {model}
    assert rule.citation.basis is Basis.PUBLISHED


# ------------------------------------------------------------------ how whole the lists are

SURE = {"x_codes", "plants", "owner_plate_locks", "axle_shifts", "basic_parts", "design_groups"}
"""Lists with a row from memory whose codes are all known, each said in CHANGELOG or remarks."""


@pytest.mark.parametrize("name", [CHEVROLET, FORD])
def test_a_list_from_memory_says_that_it_is_not_whole(name):
    """A missing code never means that something was not offered."""
    book: CodeBook = opened(name)
    recalled = {row.table for row in book.codes if row.citation.basis is Basis.MEMORY} - SURE
    whole = {
        f"{mark.id}.{field.id}"
        for mark in book.marks
        for field in mark.fields
        if field.table in recalled and not field.has_gaps
    }
    assert whole == set()
