"""What was published about single Chevrolets and their marks, decoded as published.

Each reading has the source that says what it means beside it. Where a source leaves
something open (the year on an engine pad, the engine behind a body style), the test
holds that the book leaves it open too.
"""

from datetime import date

import pytest

from tests.published.books import Marks, opened
from witnessmark.codebook import Basis, CarContext, CodeBook
from witnessmark.reading import parse_reading

CAMARO_1967 = CarContext(model_year=1967, model="camaro")
CAMARO_1968 = CarContext(model_year=1968, model="camaro")
CAMARO_1969 = CarContext(model_year=1969, model="camaro")


BOOK = "chevrolet-1964-1972"
MARKS = Marks(BOOK)
decoded, meant, values = MARKS.decoded, MARKS.meant, MARKS.values
readings, days = MARKS.readings, MARKS.days


def book() -> CodeBook:
    """The book of these cars."""
    return opened(BOOK)


# ------------------------------------------------------------------ number plates


# Historic Vehicle Association, https://www.historicvehicle.org/making-register-1967-chevrolet-camaro/
# First Camaro ever built N100001, http://www.camaronews.com/camaro-videos/first-camaro-ever-built-n100001-found-and-restored/
# Hot Rod, http://hotrod.com/articles/first-camaro-vin-001-camaro-031-2017-classic-industries-f-body-nationals
def test_first_camaro():
    """Six, coupe, 1967, Norwood, first number: pilot car, begun on 17 May 1966."""
    plate = meant("number_plate", "123377N100001", CAMARO_1967)
    assert {field: each.value for field, each in plate.items()} == {
        "division": "chevrolet",
        "series": "camaro-six",
        "body": "sport-coupe",
        "year": "1967",
        "plant": "norwood",
        "sequence": "100001",
    }
    pilots = next(each for each in book().exceptions if each.id == "pilots-1967-norwood")
    assert (pilots.first, pilots.last) == ("100001", "100049")
    point = next(each for each in book().points if each.id == "n100001")
    assert (point.date_first, point.date_last) == ("1966-05-17", "1966-05-21")
    remark = next(each for each in book().remarks if each.id == "pilot-dates")
    assert "21 May" in remark.sentence
    assert "five days later" in remark.sentence


# Sold as Granada Gold by the same pages; the chart of September 1966 calls it Gold.
# https://www.gm.com/content/dam/company/no_search/heritage-archive-docs/vehicle-information-kits/chevrolet/1967-Chevrolet-Camaro.pdf
def test_paint_of_first_camaro():
    """GG on the plate is the gold of the chart."""
    plate = meant("body_plate_norwood_1967", "05C | | | GG", CAMARO_1967)
    assert plate["paint"].value == plate["upper_paint"].value == "gold"
    assert "Granada Gold" in plate["paint"].meaning


# VIN, Cowl Tag, and other Numbers, Camaro Research Group, http://camaros.org/numbers.shtml
def test_number_of_the_club_page():
    """V8 coupe, 1969, Norwood, the 6,070th number of the year at the plant."""
    plate = values("number_plate", "124379N506070", CAMARO_1969)
    assert plate == {
        "division": "chevrolet",
        "series": "camaro-eight",
        "body": "sport-coupe",
        "year": "1969",
        "plant": "norwood",
        "sequence": "506070",
    }
    year = CarContext(model_year=1969, model="camaro", works=frozenset({"norwood"}))
    starts = [int(each.first) for each in book().series if each.applies.covers(year)]
    assert [int(plate["sequence"]) - start + 1 for start in starts] == [6070]


# Hemmings blog on first Camaro delivered to Yenko, http://blog.hemmings.com/index.php/tag/chevrolet-camaro/
def test_car_at_the_dealer_in_september_1966():
    """V8 coupe, 1967, Norwood; at the dealer on 1 September 1966."""
    plate = values("number_plate", "124377N101382", CAMARO_1967)
    assert (plate["series"], plate["body"], plate["year"]) == (
        "camaro-eight",
        "sport-coupe",
        "1967",
    )
    assert (plate["plant"], plate["sequence"]) == ("norwood", "101382")
    point = next(each for each in book().points if each.holds("101382"))
    assert (point.dated, point.date_last) == ("delivered to the dealer", "1966-09-01")


# Super Chevy, http://www.superchevy.com/features/camp-0905-1969-z11-camaro-official-indy-500-pace-car/
def test_pace_car_replica():
    """1969, Norwood, 609349; published without the division digit before it."""
    decoding = decoded("partial_number_engine", "9N609349", CAMARO_1969)
    assert decoding.missing == ("division",)
    assert decoding.unread == ""
    found = {each.field: each.value for each in decoding.alternatives[0].fields}
    assert found == {"year": "1969", "plant": "norwood", "sequence": "609349"}
    point = next(each for each in book().points if each.holds("609349"))
    assert (point.date_first, point.date_last) == ("1969-01-28", "1969-05-30")


# Conceptcarz 1969 Camaro, http://www.conceptcarz.com/vehicle/z170/Chevrolet-Camaro.aspx
def test_zl1_number():
    """V8 coupe, 1969, Norwood: the number says no more, the car is a ZL1."""
    plate = values("number_plate", "124379N608879", CAMARO_1969)
    assert (plate["series"], plate["year"], plate["plant"]) == ("camaro-eight", "1969", "norwood")
    assert "ZL1" in next(each for each in book().points if each.holds("608879")).meaning


# Supercar Registry thread Berger ZL1, https://www.thesupercarregistry.com/forum/printthread.php?pp=40&t=160187
def test_body_number_of_1969_follows_the_order():
    """N608193 has a lower body number than the Gibb block: ordered first, numbered third."""
    text = "ST 69-12437 NOR 211785 BDY"
    plate = meant("body_plate_norwood_1969", text, CAMARO_1969)
    assert (plate["body_number"].value, plate["body_number"].says) == (
        "211785",
        "order_body_number",
    )
    item = book().item("order_body_number")
    assert item is not None
    assert item.numbers_follow == "orders"
    gibb = next(each for each in book().points if each.id == "zl1-gibb-order")
    assert (gibb.first, gibb.last) == ("222001", "222049")
    assert plate["body_number"].value < gibb.first
    assert values("number_plate", "124379N608193", CAMARO_1969)["sequence"] == "608193"


# ------------------------------------------------------------------------- engine


# Engine codes, drivinithome, http://drivinithome.com/engine-codes
def test_pad_of_1970():
    """Flint Engine, 25 May, 350/300 with TH350 of a full-size car of 1970."""
    car = CarContext(model_year=1970, model="full-size")
    pad = meant("engine_pad", "V0525CNR", car)
    assert (pad["engine_plant"].value, pad["suffix"].value) == ("flint-engine", "350-300")
    assert pad["suffix"].meaning == "350/300 hp, TH350"
    assert pad["suffix"].basis is Basis.PUBLISHED
    assert {(day.month, day.day) for day in days("engine_pad", "engine_date", "V0525CNR")} == {
        (5, 25)
    }


# Engine code stamping numbers, B. Esser, http://brianesser.com/technical-information/casting-numbers/engine-suffix-codes/
def test_pad_whose_suffix_is_not_explained():
    """Flint, 1 January; what CLJ means is not published, so the book does not list it."""
    decoding = decoded("engine_pad", "V0101CLJ")
    pad = {each.field: each for each in decoding.alternatives[0].fields}
    assert pad["engine_plant"].meaning == "Flint Engine"
    assert {(s.first.month, s.first.day) for s in pad["engine_date"].spans} == {(1, 1)}
    assert (pad["suffix"].code, pad["suffix"].listed) == ("CLJ", False)
    assert decoding.missing == ()


# EngineLabs, https://www.enginelabs.com/engine-tech/engine/head-history-the-evolution-of-factory-sbc-cylinder-heads-to-gen-iv/
def test_head_cast_on_10_october():
    """3947041, J108: 10 October of a year that ends in 8."""
    assert meant("head_number", "3947041")["number"].basis is Basis.PUBLISHED
    found = days("head_cast_date", "date", "J108")
    assert date(1968, 10, 10) in found
    assert {(day.month, day.day, day.year % 10) for day in found} == {(10, 10, 8)}


# ------------------------------------------------------------------------ gearbox


# Muncie text, Stegmiller, http://www.nastyz28.com/2gcog/stegmiller/muncietxt.htm
def test_muncie_to_1966():
    """3 May, night shift; no year."""
    box = meant("muncie_1963", "P0503N")
    assert (box["gearbox"].value, box["shift"].value) == ("muncie-4-speed", "night")
    assert days("muncie_1963", "date", "P0503N") == [date(year, 5, 3) for year in range(1963, 1967)]


# Muncie text, Stegmiller, http://www.nastyz28.com/2gcog/stegmiller/muncietxt.htm
def test_muncie_of_1967():
    """2 December, digit 7: by the calendar 1967, by the model year 1966."""
    assert days("muncie_1967", "date", "P7T02") == [date(1966, 12, 2), date(1967, 12, 2)]


# Muncie text, Stegmiller, http://www.nastyz28.com/2gcog/stegmiller/muncietxt.htm
def test_muncie_of_1970():
    """17 March, digit 0, M20: in March calendar and model year are one."""
    assert days("muncie_1969", "date", "P0C17A") == [date(1970, 3, 17)]
    assert values("muncie_1969", "P0C17A")["gear_set"] == "m20"


# 1970 transmission identification, http://chevellestuff.net/1970/pop/pop_trans.htm
def test_year_digit_of_a_gearbox_has_both_readings():
    """A box of October 1969 for model year 1970 reads 0; by the calendar it is October 1970."""
    assert days("muncie_1969", "date", "P0R17A") == [date(1969, 10, 17), date(1970, 10, 17)]


# 1969 transmission identification, https://www.chevellestuff.net/1969/pop/pop_trans.htm
@pytest.mark.parametrize(
    ("count", "day"),
    [
        ("299", date(1968, 10, 25)),
        ("001", date(1968, 1, 1)),
        ("366", date(1968, 12, 31)),
        ("367", date(1969, 1, 1)),
    ],
)
def test_th400_count_of_1969(count, day):
    """Counted from 1 January 1968, a leap year."""
    assert days("th400_1969", "day", f"69A{count}") == [day]


# 1970 transmission identification, http://chevellestuff.net/1970/pop/pop_trans.htm
@pytest.mark.parametrize(("count", "day"), [("001", date(1969, 1, 1)), ("366", date(1970, 1, 1))])
def test_th400_count_of_1970(count, day):
    """Counted from 1 January 1969."""
    assert days("th400_1970", "day", f"70A{count}") == [day]
    assert values("th400_1970", f"70A{count}")["gearbox"] == "th400"


# Super Chevy, https://www.superchevy.com/how-to/transmission/1607-how-to-identify-a-muncie-four-speed-build-date-codes-vins-and-input-shaft/
@pytest.mark.parametrize("letter", "FGIJLNOQ")
def test_letter_that_is_no_month_of_a_gearbox(letter):
    """F, G, I, J, L, N, O and Q name no month."""
    dated = meant("muncie_1967", f"P7{letter}02")["date"]
    assert (dated.listed, dated.spans) == (False, ())
    assert meant("muncie_1967", "P7T02")["date"].listed


# --------------------------------------------------------------- body data plates


# Kansas City trim tags 1966-67, http://macswebs.com/cddemo/67cd/documentation/body_plate/kan/tt_kan.html
def test_kansas_city_plate_of_1966():
    """Fourth week of September; Malibu convertible; the 233rd of that style; no engine."""
    car = CarContext(model_year=1966, model="chevelle")
    plate = meant("body_plate_kansas_city", "09D | ST 66-13667 KAN 233 BODY", car)
    assert {field: each.value for field, each in plate.items() if field != "week"} == {
        "year": "1966",
        "division": "chevrolet",
        "series": "malibu",
        "body": "convertible",
        "plant": "kansas-city",
        "body_number": "000233",
        "ending": "body",
    }
    assert [str(span) for span in plate["week"].spans] == ["1965-09-22 to 1965-09-28"]
    assert "engine cannot be known" in plate["series"].meaning
    assert decoded("body_plate_kansas_city", "09D | ST 66-13667 KAN 233 BODY", car).unread == ""


# Supercar Registry forum, https://www.thesupercarregistry.com/forum/showpost.php?p=961523&postcount=75
def test_engine_of_6_july_behind_tag_06e():
    """An accepted Z/28 of 1967: the engine is some days younger than the week on the plate."""
    week = meant("body_plate_norwood_1967", "06E", CAMARO_1967)["week"]
    planned = max(week.spans)
    assert (planned.first, planned.last) == (date(1967, 6, 29), date(1967, 6, 30))
    assert date(1967, 7, 6) in days("engine_pad", "engine_date", "V0706MO", CAMARO_1967)
    lag = next(each for each in book().lags if each.id == "engine-to-plate-week")
    assert lag.least_days <= (planned.last - date(1967, 7, 6)).days
    known = next(each for each in book().exceptions if each.id == "end-of-run-1967")
    assert (known.first, known.last) == ("06E", "07B")


# Camaro Research Group forum, http://camaros.org/forum/index.php?topic=715.msg3893
def test_block_cast_and_assembled_on_one_day():
    """1968 Z/28: block cast and assembled on 16 May, heads of 10 May, accepted as possible."""
    assert date(1968, 5, 16) in days("block_cast_date", "date", "E168")
    assert date(1968, 5, 10) in days("head_cast_date", "date", "E108")
    assert date(1968, 5, 16) in days("engine_pad", "engine_date", "V0516MO", CAMARO_1968)
    lag = next(each for each in book().lags if each.id == "block-to-engine")
    assert lag.least_days == 0


# ------------------------------------------------------------------- what is hard


# Window by the sources that disagree: Tag Decoding Made Easy,
# http://www.autotraderclassics.com/car-article/Tag+Decoding+Made+Easy-64154.xhtml, and
# http://camaros.org/forum/index.php?prev_next=prev&topic=5778.0
def test_plate_week_is_a_plan():
    """About a week before to two weeks after it for final assembly."""
    lag = next(each for each in book().lags if each.earlier == "plate_week")
    assert (lag.later, lag.least_days, lag.most_days) == ("build_date", -7, 14)
    item = book().item("plate_week")
    assert item is not None
    assert "planned" in item.name


# End of the run: https://en.wikipedia.org/wiki/Chevrolet_Camaro_(first_generation)
@pytest.mark.parametrize(
    ("code", "years"),
    [
        ("08A", [1968, 1969]),
        ("09C", [1968, 1969]),
        ("11B", [1968, 1969]),
        ("12A", [1968]),
        ("02B", [1969]),
        ("07D", [1969]),
    ],
)
def test_months_that_come_round_twice_in_the_run_of_1969(code, years):
    """August to November were built twice, every other month once."""
    text = f"ST 69-12437 NOR 1 | | | {code}"
    found = days("body_plate_norwood_1969", "week", text, CAMARO_1969)
    assert [day.year for day in found] == years


# Chevy 302 rebuild, Hot Rod, https://hotrod.com/how-to/mscp-1205-chevy-302-v8-engine-rebuild-dyno-test/photos
@pytest.mark.parametrize("car", [CAMARO_1967, CAMARO_1968])
def test_mo_is_the_302_of_1967_and_1968(car):
    """Published for both years."""
    pad = meant("engine_pad", "V0101MO", car)["suffix"]
    assert (pad.value, pad.basis) == ("302-z28", Basis.PUBLISHED)


# From memory, and said so: the list of 1969.
def test_mo_is_another_engine_in_1969():
    """A suffix used again in a later year is told by the year."""
    pad = meant("engine_pad", "T0101MO", CAMARO_1969)["suffix"]
    assert (pad.value, pad.basis) == ("427-l72", Basis.MEMORY)
    assert set(readings("engine_pad", "suffix", "T0101MO")) == {"302-z28", "427-l72"}


# D. McIntosh, Chevelle Restoration and Authenticity Guide 1970-1972, https://librs.net/lread_661275_p7
@pytest.mark.parametrize("suffix", ["CTX", "TX"])
def test_ctx_also_occurs_as_tx(suffix):
    """The L34 of the Chevelle of 1970."""
    car = CarContext(model_year=1970, model="chevelle")
    assert values("engine_pad", f"T0101{suffix}", car)["suffix"] == "396-l34"


# Supercar Registry forum, https://www.thesupercarregistry.com/forum/showpost.php?p=661956&postcount=7
def test_disputed_suffix_shows_both_engines():
    """MV of 1968: a 427 of the COPO kind, and a 396 is claimed too."""
    assert set(readings("engine_pad", "suffix", "T0101MV", CAMARO_1968)) == {"427-copo", "396"}


# Engine code stamping numbers, B. Esser, http://brianesser.com/technical-information/casting-numbers/engine-suffix-codes/
def test_date_without_a_year_shows_every_year():
    """The pad gives month and day; a 29 February narrows it by itself."""
    assert [day.year for day in days("engine_pad", "engine_date", "V0525DZ")] == list(
        range(1963, 1973)
    )
    leap = [day.year for day in days("engine_pad", "engine_date", "V0229DZ")]
    assert leap == [1964, 1968, 1972]


# Decoding your 1960-1980 Chevrolet VIN codes, SS396.com, https://www.ss396.com/cars/decode-chevrolet-vin-code/
def test_disputed_plant_letter_shows_both_cities():
    """C is Doraville in a list for 1960 to 1964, Southgate from memory."""
    car = CarContext(model_year=1964, model="chevelle")
    found = set(readings("number_plate_1964", "plant", "45767C100001", car))
    assert found == {"doraville", "southgate"}
    assert all(row.disputed for row in book().codes if (row.table, row.code) == ("plants", "C"))


# How to document your car, 1968 Z/28 registry, http://www.1968z28.com/document.html
@pytest.mark.parametrize("plant", ["norwood", "los_angeles"])
def test_plate_of_1968_names_no_package(plant):
    """Its empty place says nothing about the car's package, either way."""
    text = "ST 68-12437 NOR 233 BODY | TR 711 | DD | 02C | _"
    place = meant(f"body_plate_{plant}_1968", text, CAMARO_1968)["named_package"]
    assert place.meaning == "the plate of 1968 names no performance package"
    assert place.says != "package"


# Supercar Registry forum, https://www.thesupercarregistry.com/forum/showpost.php?p=789972&postcount=8
@pytest.mark.parametrize("code", ["X33", "X77"])
def test_norwood_z28_of_1969(code):
    """Either code is a Z/28, published."""
    text = f"ST 69-12437 NOR 211785 BDY | TR 711 | 72 B | 01C | {code}"
    plate = meant("body_plate_norwood_1969", text, CAMARO_1969)
    assert (plate["package"].value, plate["package"].basis) == ("z28", Basis.PUBLISHED)
    assert (plate["paint"].meaning, plate["vinyl_top"].value) == ("Hugger Orange", "black")


# Fisher Body plate intro, http://macswebs.com/6667demo/66cd/documentation/body_plate/intro.htm
@pytest.mark.parametrize("style", ["13817", "13867"])
def test_style_that_does_mean_the_series(style):
    """An SS396 of 1966 to 1968."""
    car = CarContext(model_year=1966, model="chevelle")
    text = f"02C | ST 66-{style} BAL 1 BODY"
    assert values("body_plate_1964", text, car)["series"] == "ss396"


# 123x7 VIN vs. 124x7 Cowl Tag Code: the Camaro Research Group's section title,
# http://camaros.org/numbers.shtml
def test_style_of_a_camaro_does_not_contradict_its_number():
    """A six by the number plate, 12437 on the body plate: two different items."""
    number = meant("number_plate", "123379N506070", CAMARO_1969)["series"]
    style = meant("body_plate_norwood_1969", "ST 69-12437 NOR 1", CAMARO_1969)["series"]
    assert (number.value, style.value) == ("camaro-six", "camaro")
    assert number.says != style.says


# VIN, Cowl Tag, and other Numbers, Camaro Research Group, http://camaros.org/numbers.shtml
@pytest.mark.parametrize(
    ("text", "missing", "unread"),
    [
        ("124379N50607", ("sequence",), ""),
        ("12437N506070", ("year",), ""),
        ("124379506070", ("plant",), ""),
        ("124379N5060701", (), "1"),
        ("124379N506070 X", (), "X"),
        ("XX124379N506070", (), "XX"),
    ],
)
def test_number_too_short_or_too_long_is_told_and_not_refused(text, missing, unread):
    """What was not typed is missing, what no field explains is left over."""
    decoding = decoded("number_plate", text, CAMARO_1969)
    assert (decoding.missing, decoding.unread) == (missing, unread)
    assert decoding.problems == ()
    assert decoding.alternatives[0].fields[0].value == "chevrolet"


# Camaro Research Group forum, http://camaros.org/forum/index.php?topic=9660.0
def test_plate_with_an_extra_digit():
    """Seen on a car that left the factory so: malformed, seen, and not rejected."""
    decoding = decoded("number_plate", "124377N1013823", CAMARO_1967)
    assert (decoding.missing, len(decoding.unread), decoding.problems) == ((), 1, ())
    remark = next(each for each in book().remarks if each.id == "extra-digit")
    assert remark.about == "number_plate"


# A 1 may look like an I: B. Esser, http://brianesser.com/technical-information/casting-numbers/engine-suffix-codes/
@pytest.mark.parametrize("typed", ["I24379N506070", "124379N5O6O7O", "124379N5Q6070"])
def test_letters_that_no_number_has_are_read_as_digits(typed):
    """O, I and Q in a place that holds digits alone; what was typed is kept and told."""
    mark = book().mark("number_plate")
    assert mark is not None
    reading = parse_reading(typed, mark)
    assert (reading.normalised, reading.as_typed) == ("124379N506070", typed)
    assert reading.changes


# From memory, disputed by a list for 1979 whose title is not recorded.
def test_series_letter_l_of_1972_shows_both():
    """Bel Air or Impala."""
    found = set(readings("number_plate_1972", "series", "1L69H2N500001"))
    assert found == {"bel-air", "impala"}


# Full-size repair guide, http://www.autozone.com/repairguides/Chevrolet-Full-size-Cars-1968-1978-Repair-Guide/Serial-Number-Identification/Rear-Axle-Identification/_/P-0900c152801daec2
# D. McIntosh, https://librs.net/lread_661275_p7
@pytest.mark.parametrize(
    ("mark", "text"), [("axle_stamp", "BE0112G"), ("axle_stamp_plant_first", "BEG0112")]
)
def test_axle_stamp_in_either_order(mark, text):
    """The plant letter before the date by one source, behind it by another."""
    axle = values(mark, text, CAMARO_1969)
    assert axle["code"] == "12-bolt-copo-9561"
    assert axle["axle_plant"] == "gear-and-axle"
    assert {(day.month, day.day) for day in days(mark, "date", text)} == {(1, 12)}


# GM Heritage Vehicle Information Kit, 1969 Camaro,
# https://www.gm.com/content/dam/company/no_search/heritage-archive-docs/vehicle-information-kits/chevrolet/1969-Chevrolet-Camaro.pdf
@pytest.mark.parametrize(
    ("works", "words"),
    [("norwood", "regular at Norwood"), ("los-angeles", "special order at Los Angeles")],
)
def test_paint_that_was_a_special_order_at_one_plant(works, words):
    """Tuxedo Black, 10."""
    car = CarContext(model_year=1969, model="camaro", works=frozenset({works}))
    mark = f"body_plate_{works.replace('-', '_')}_1969"
    text = "ST 69-12437 NOR 1 | | 10"
    assert meant(mark, text, car)["paint"].meaning == f"Tuxedo Black, {words}"
