"""What was published about Jaguar sports and saloon cars and their numbers, decoded as published.

Each reading has the source that says what it means beside it. What cannot be told as published is
named where it stands. The whole case at the end is an invented E-type.
"""

from dataclasses import replace
from datetime import date

import pytest

from tests.examined import ratios_alone
from tests.never_said import never_said
from tests.published.books import ANY, Marks, opened
from witnessmark.agreement.rules import number_in_its_series
from witnessmark.answers.decoded import known_points
from witnessmark.casefile import Casefile, case_from
from witnessmark.codebook import CarContext, Point, Remark
from witnessmark.decoding.mark_meant import marks_meant
from witnessmark.examination import BookVersion, car_marks, examine
from witnessmark.report import build_outline, report_text
from witnessmark.report.sheets.examined import examined_why, weighed_about
from witnessmark.weighing import Answer, Asked, answer

BOOK = "jaguar-1948-1974"
MARKS = Marks(BOOK)
decoded, meant, values = MARKS.decoded, MARKS.meant, MARKS.values


def car(year: int | None = None, model: str | None = None) -> CarContext:
    """A claimed car."""
    return CarContext(model_year=year, model=model)


def known(name: str) -> Point:
    """A known car or engine."""
    return next(each for each in opened(BOOK).points if each.id == name)


def remark(name: str) -> Remark:
    """A remark."""
    return next(each for each in opened(BOOK).remarks if each.id == name)


# ------------------------------------------------------------------- numbers of cars

FRAME, FRONT, SHELL = "frame_number", "front_frame_number_38", "shell_number"
LETTERED, SALOON = "front_frame_number", "shell_number_1j"


# What is published of each car: its affixes, its model and side, what is known of that very car.
@pytest.mark.parametrize(
    ("mark", "text", "affixes", "model", "of_car"),
    [
        # Christie's, XK120 alloy 670047
        (FRAME, "670047", "", "XK120 open two-seater, left", "W1078-8; alloy body; of 1950"),
        # Bonhams, XK120 660066
        (FRAME, "660066", "", "XK120 open two-seater, right", "W1352-8"),
        # Brightwells, XK120 roadster 670814
        (FRAME, "670814", "", "XK120 open two-seater, left", "W2182-8"),
        # RM Sotheby's, London 2019, XK120 drophead: built 12, despatched 26 March 1953
        (FRAME, "S677020", "special-equipment", "XK120 drophead coupe, left", "26 March 1953"),
        # Fantasy Junction, 1953 XK120 drophead
        (FRAME, "S677095", "special-equipment", "XK120 drophead coupe, left", "W8341-8S"),
        # Brightwells, XK120 SE drophead
        (FRAME, "S677284", "special-equipment", "XK120 drophead coupe, left", "W8474-8S"),
        # Brightwells, XK120 drophead 667076
        (FRAME, "667076", "", "XK120 drophead coupe, right", "registered January 1954"),
        # Brightwells, XK120 roadster 674871; 675846
        (FRAME, "674871", "", "XK120 open two-seater, left", "F2007-8"),
        (FRAME, "675846", "", "XK120 open two-seater, left", "F3287-8"),
        # H&H, 2011 lot 70
        (FRAME, "S669005", "special-equipment", "XK120 fixed head coupe, right", "the fifth"),
        # Jag-lovers forum, Pastel Blue Metallic: 680 goes on from 679
        (FRAME, "S680530", "special-equipment", "XK120 fixed head coupe, left", "January 1953"),
        # Jag-lovers forum, bumper spring bars
        (FRAME, "674460", "", "XK120 open two-seater, left", "owner gives the date"),
        # Sports Car Market, XK140 SE by Michelotti
        (FRAME, "S814286", "special-equipment-c-head", "XK140 fixed head coupe, left", "286th"),
        # Christie's, XK140 MC fixed head
        (FRAME, "S814488", "special-equipment-c-head", "XK140 fixed head coupe, left", "G4243-8S"),
        # XK library, Automatic transmissions
        (
            FRAME,
            "S815369BW",
            "special-equipment-c-head automatic",
            "XK140 fixed head coupe, left",
            "early automatic",
        ),
        # Automotive Masterpieces, XK140 S800035DN
        (
            FRAME,
            "S800035DN",
            "special-equipment-c-head overdrive",
            "XK140 open two-seater, right",
            "G3513-8S",
        ),
        # Bonhams, text on JDX 256
        (
            FRAME,
            "S824634DN",
            "special-equipment-b-head overdrive",
            "XK150 fixed head coupe, right",
            "ZA5890/8",
        ),
        # Car in My Life, XK150 S T824946DN
        (FRAME, "T824946DN", "s-model overdrive", "XK150 fixed head coupe, right", "T824946DN"),
        # Bonhams, XK150 S T832110DN
        (FRAME, "T832110DN", "s-model overdrive", "XK150 open two-seater, left", "VAS1039-9"),
        # XK Club news, May 2023
        (FRAME, "T825157DN", "s-model overdrive", "XK150 fixed head coupe, right", "T825157DN"),
        # Gooding 2023, E-type 850004; Sports Car Market
        (FRONT, "850004", "", "E-type 3.8 open two-seater, right", "fourth built"),
        # Gooding 2023, E-type 860001
        (FRONT, "860001", "", "E-type 3.8 fixed head coupe, right", "R1264-9"),
        # Dealer text, E-type 885008
        (FRONT, "885008", "", "E-type 3.8 fixed head coupe, left", "locks outside"),
        # Motor1, July 2017
        (FRONT, "875256", "", "E-type 3.8 open two-seater, left", "Brussels"),
        # Motoring World, two E-types reunited
        (FRONT, "860005", "", "E-type 3.8 fixed head coupe, right", "inside bonnet lock"),
        # IOL, E-type Lightweight sale
        (FRONT, "S850667", "lightweight", "E-type Lightweight, right", "10th of 12"),
        # Christie's, E-type 1E1526
        (LETTERED, "1E1526", "1 series-1-42", "E-type 4.2 Series 1 open", "7E8570-9"),
        # Jaguar World Monthly, November 2023
        (LETTERED, "1R1284", "1 series-2", "E-type Series 2 open two-seater, right", "1R1284"),
        # Jaguar World Monthly, May 2023: the last, 12 June 1974
        (LETTERED, "1S2872", "1 series-3", "E-type Series 3 open two-seater, right", "last"),
        # Brightwells, 240 1J1002DN
        (SALOON, "1J1002DN", "1 240-340 overdrive", "240 saloon, right", "7J1003-8, second made"),
        # Historics, 2018 lot 277
        (SHELL, "S900939", "mark-1", "", "BB2178-8; registered 19 April 1956"),
        # Brightwells, Mk 1 3.4: the run is not published, so that no model is told
        (SHELL, "S978900DN", "mark-1 overdrive", "", "KF8246-8"),
    ],
)
def test_a_published_number_is_told_as_published(
    mark: str, text: str, affixes: str, model: str, of_car: str
):
    found = meant(mark, text)
    around = [m.value for m in found.values() if m.says != "chassis_number"]
    assert sorted(around) == sorted(affixes.split())
    number = found["chassis"]
    assert model in number.meaning
    points = opened(BOOK).points_at("chassis_number", number.value)
    assert any(of_car in each.meaning for each in points)


# RM Sotheby's, London 2019; Brightwells, 667076; Gooding 2023; Jag-lovers forum
@pytest.mark.parametrize(
    ("name", "day", "kind"),
    [
        ("car-s677020", "1953-03-12", "built"),
        ("car-s677095", "1953-05-01", "completed"),
        ("car-667076", "1953-10", "made"),
        ("car-675846", "1954-06", "made"),
        ("car-s680530", "1952-12", "made"),
        ("car-674460", "1953-12-14", "dated"),
        ("car-s814286", "1955-05-25", "built"),
        ("car-s815369bw", "1956-02-21", "built"),
        ("car-t824946dn", "1959-02", "built"),
        ("car-t825157dn", "1960-03-23", "supplied"),
        ("car-860001", "1961-07-10", "completed"),
        ("car-875256", "1961-07", "delivered"),
        ("car-860005", "1961-08-24", "made"),
        ("car-1s2872", "1974-06-12", "made"),
        ("car-s900939", "1956-03", "built"),
    ],
)
def test_a_day_is_told_with_its_kind(name: str, day: str, kind: str):
    """Built, completed, despatched and registered are not one day."""
    found = known(name)
    assert (found.date_first, found.dated) == (day, kind)


# Fantasy Junction; Christie's, XK140 MC; Historics; IOL: the figures tell the model
def test_one_letter_has_a_meaning_for_each_model():
    texts = ("S677020", "S814488", "S824634")
    by_figures = [values(FRAME, text)["affix"] for text in texts]
    assert [*by_figures, values(SHELL, "S900939")["affix"], values(FRONT, "S850667")["affix"]] == [
        "special-equipment",
        "special-equipment-c-head",
        "special-equipment-b-head",
        "mark-1",
        "lightweight",
    ]


# Octane, December 2019: 85, 86, 87, 88; the ends of the runs are from memory
def test_a_run_known_between_published_cars_is_known_no_further():
    inside, beyond = meant(FRAME, "677284")["chassis"], meant(FRAME, "677285")["chassis"]
    assert (inside.basis.weighs, beyond.basis.weighs) == (True, False)
    assert "from memory" in beyond.meaning


# Bonhams, sale 11092 lot 666: a copy of no known form
def test_a_number_of_no_known_form_is_no_car():
    """W587085: the letter is left over, and no run holds the figures."""
    found = decoded(FRAME, "W587085")
    assert found.unread == "W"
    assert "not in any series" in meant(FRAME, "W587085")["chassis"].meaning
    assert remark("no-known-form").citation.basis.weighs


# Common names: a number with letters tells its mark, one of six figures by its run
def test_the_form_of_a_number_tells_its_mark_where_it_can():
    def form(text: str, context: CarContext = ANY) -> list[str]:
        return [mark.id for mark in marks_meant(opened(BOOK), "chassis number", text, context)]

    assert form("1E1526") == form("UC1S20123") == [LETTERED]
    assert form("1J1002DN") == [SALOON]
    assert form("670047") == ["frame_number"]  # it lies in a run of the XK120 alone
    assert form("670047", car(1950, "xk120-open")) == [FRAME]


# ------------------------------------------------------------------- engines

ENGINE, SEVEN = "engine_stamp", "engine_stamp_7"


@pytest.mark.parametrize(
    ("mark", "text", "family", "figures", "ratio"),
    [
        (ENGINE, "W1078-8", "XK120", "01078", "ratio-8"),  # Christie's, XK120 alloy 670047
        (ENGINE, "W9888-8", "XK120", "09888", "ratio-8"),  # Brightwells, 667076
        (ENGINE, "F3287-8", "XK120", "03287", "ratio-8"),  # Brightwells, 675846
        (ENGINE, "G3 513-8S", "XK140", "03513", "ratio-8"),  # Automotive Masterpieces; a break
        (ENGINE, "VAS1039-9", "XK150 S 3.8", "01039", "ratio-9"),  # Bonhams, T832110DN
        (ENGINE, "R1264-9", "E-type 3.8", "01264", "ratio-9"),  # Gooding 2023, 860001
        (SEVEN, "7E8570-9", "E-type 4.2 Series 1", "08570", "ratio-9"),  # Christie's, 1E1526
        (SEVEN, "7J1003-8", "240, 340", "01003", "ratio-8"),  # Brightwells, 1J1002DN
        (ENGINE, "BB2178-8", "Mk 1 2.4", "02178", "ratio-8"),  # Historics, S900939
        (ENGINE, "KF8246-8", "Mk 1 3.4", "08246", "ratio-8"),  # Brightwells, S978900DN
        (ENGINE, "ZA5890/8", "Mark X 3.8", "05890", "ratio-8"),  # Bonhams, S824634DN
        (ENGINE, "E1016-8", "C-type and D-type", "01016", "ratio-8"),  # Michelotti, S814286
    ],
)
def test_the_letters_of_an_engine_tell_its_family(
    mark: str, text: str, family: str, figures: str, ratio: str
):
    found = meant(mark, text)
    assert found["engine_prefix"].meaning.startswith(family)
    assert (found["engine"].value, found["ratio"].value) == (figures, ratio)


# Jaguar club of Tasmania: 7L and 8L are the XJ6; Sports Car Market: E is the C-type
def test_an_engine_of_another_family_says_that_it_is_no_engine_of_these_cars():
    for mark, text in ((SEVEN, "7L12345-8"), (SEVEN, "8L23456-8"), (ENGINE, "E1016-8")):
        found = meant(mark, text)["engine_prefix"]
        assert "not an engine of a car in this book" in found.meaning
        assert found.basis.weighs
    assert not meant(ENGINE, "ZA5890/8")["engine_prefix"].basis.weighs


# Christie's, XK140 MC: C-type head; on the XK120 its meaning is disputed (memory)
def test_the_s_behind_an_engine_number_is_read_by_the_car():
    of_140 = meant(ENGINE, "G4243-8S", car(1955, "xk140-fixed-head"))["suffix"]
    of_120 = meant(ENGINE, "W8474-8S", car(1953, "xk120-drophead"))["suffix"]
    assert (of_140.value, of_120.value) == ("special-head", "special-engine")
    assert "disputed" in of_120.meaning


# From memory: an S copied as 5; a lost hyphen makes five figures
def test_a_slip_in_copying_an_engine_number_is_not_mended():
    assert decoded(ENGINE, "W8341-85").unread == "5"
    assert values(ENGINE, "W10788")["engine"] == "01078"


# R. Reilly and the Jag-lovers forum disagree about the S of EJS
def test_sources_that_disagree_about_a_gearbox_both_stand():
    rows = [r for r in opened(BOOK).table("gearbox_families") if r.code == "EJS" and r.disputed]
    assert len({row.citation.source for row in rows}) == 2


# XK library, Automatic transmissions: 9279; R. Reilly for the letters
def test_a_gearbox_number_with_and_without_letters():
    assert values("gearbox_case", "9279") == {"gearbox": "09279"}
    found = meant("gearbox_case", "EB4021JS")
    assert found["gearbox_prefix"].meaning.startswith("3.8 E-type")
    assert found["gearbox_suffix"].value == "shaved"


# Christie's, XK120 alloy 670047: W1078-8; F1078 is another engine
def test_a_known_engine_is_told_of_its_own_letters():
    known = {
        text: [p.id for p in known_points(MARKS.decoded(ENGINE, text), opened(BOOK))]
        for text in ("W1078-8", "F1078-8", "?1078-8")
    }
    assert known == {"W1078-8": ["engine-w1078"], "F1078-8": [], "?1078-8": ["engine-w1078"]}
    assert "engines W" in MARKS.meant(ENGINE, "W5000-8")["engine"].meaning
    unread = MARKS.meant(ENGINE, "?5000-8")["engine"].meaning
    assert "engines W, with letters of the engine's family W" in unread


# Sports Car Market, Michelotti, and XK library: J4457 and J6001 do not keep step with the cars
def test_a_body_number_is_reckoned_from_nothing():
    assert values("body_tag", "J4457") == {"body_prefix": "fixed-head", "body": "04457"}
    assert "Never reckon" in remark("runs-apart").sentence


# ------------------------------------------------------------------- papers and structure


# XK library, Automatic transmissions: the certificate of S815369BW; its owner left the engine out
def test_a_certificate_reads_in_its_order():
    found = values("certificate_xk", "S815369BW | | J6001 | 9279 | Red | Black | 21 February 1956")
    wanted = {"chassis": "815369", "body": "06001", "gearbox": "09279", "colour": "red"}
    assert {name: found[name] for name in wanted} == wanted
    assert (found["trim"], found["built"]) == ("black", "1956-02-21")


# XK library; heritage archive clerk, 1998
def test_a_certificate_cannot_say_what_came_later():
    assert "does not look at the car" in remark("certificate-says").sentence
    [asked] = [s for s in opened(BOOK).settlements if s.id == "archive-certificate-38"]
    assert "a number given in part brings the wrong car" in asked.how


# Motor Sport, October 1989; Jaguar Forums, 2020; Monocoque Metalworks
def test_three_kinds_of_structure():
    """The bolted frame bears the car's number and was sold new, the tub bears another."""
    book = opened(BOOK)
    bearers = {a.id: a.kind.value for a in book.assemblies if a.identity_bearer}
    assert bearers == {"frame": "frame", "shell": "shell", "front_frame": "frame"}
    pieces = {piece.id: piece for piece in book.pieces}
    assert pieces["front_frame"].sold_in_service == "yes"
    assert pieces["engine"].service_numbers == "by works"
    assert {f.says for f in book.mark("tub_tag").fields} == {"tub_prefix", "tub_number"}


# Goodwood, September 2014: six, of the numbers left over in 1963; which they are is from memory
def test_continuation_cars_have_true_numbers_and_no_date():
    [row] = [each for each in opened(BOOK).exceptions if each.id == "continuation-numbers"]
    assert not row.citation.basis.weighs
    assert remark("continuation-cars").citation.basis.weighs


# Goodwood, February 2015; Lloyd v Svenby [2006] EWHC 315 (QB)
def test_two_cars_under_one_number_are_both_told():
    assert "list both claims" in remark("two-cars").sentence
    assert "none on which metal is old" in remark("court-2006").sentence


def test_what_is_from_memory_says_so_and_nothing_else_does():
    book = opened(BOOK)
    cited = [r.citation for r in (*book.codes, *book.series, *book.points, *book.remarks)]
    assert not any(c.source.startswith("memory (") for c in cited if c.basis.weighs)
    assert all("memory" in c.source for c in cited if not c.basis.weighs)


def test_every_long_list_says_whether_it_is_complete():
    about = {r.about for r in opened(BOOK).remarks if r.id.startswith("list-")}
    assert {"chassis_number", "engine_prefix", "gearbox_prefix", "paint", "trim"} <= about


# ----------------------------------------------------------------------- a whole case

E_TYPE = {
    FRONT: "850512",
    "data_plate_38": "850512 | R5123-9 | R4872 | EB4021JS",
    "tub_tag_38": "R4872",
    ENGINE: "R5123-9",
    "gearbox_case": "EB4021JS",
    "certificate_38": "850512 | R5123-9 | R4872 | EB4021JS | Black | Red | 14.11.1962 | 26.11.1962",
}
CLAIM = {"chassis_number": "850512", "model": "e-type-38-open", "model_year": "1962"}


def case(vouched: tuple[str, ...] = (), **changed: str) -> Casefile:
    """The invented E-type, with other texts on some of its marks; without those of no text.

    `vouched`: the rows from memory that its examiner answers for.
    """
    texts = (E_TYPE | changed).items()
    return case_from(
        {
            "format": "witnessmark-case",
            "format_version": 2,
            "id": "invented",
            "book": BOOK,
            "claim": {"made_by": "the seller", "items": CLAIM, "built": "1962-11-14"},
            "readings": [{"mark": mark, "text": text} for mark, text in texts if text],
            "circumstances": {
                "vouched": [
                    {"row": row, "by": "the examiner", "reason": "seen on other blocks"}
                    for row in vouched
                ]
            },
        }
    )


def weighed(vouched: tuple[str, ...] = (), **changed: str) -> Answer:
    """What comes of it at base rates."""
    found = car_marks(case(vouched, **changed), opened(BOOK))
    return answer(found, with_contributions=False, with_next_looks=False)


def log10_lr(found: Answer, asked: Asked, about: str) -> float:
    """One answer."""
    [value] = [c.log10_lr for c in found.conclusions if (c.question, c.about) == (asked, about)]
    assert value is not None
    return value


def test_four_numbers_tied_by_plate_and_certificate_support_the_car():
    found = weighed()
    assert found.misfits == ()
    assert log10_lr(found, Asked.IDENTITY, "front_frame") > 0.5
    for core in ("engine", "gearbox", "tub"):
        assert log10_lr(found, Asked.CORE, core) > 0.3, core


def test_without_plate_and_certificate_nothing_ties_the_numbers():
    untied = weighed(data_plate_38="", certificate_38="")
    for core in ("engine", "gearbox", "tub"):
        assert abs(log10_lr(untied, Asked.CORE, core)) < 0.3, core


def test_an_engine_of_another_family_is_told_and_says_little_of_the_car():
    found, before = weighed(**{ENGINE: "ZA5890-8"}), weighed()
    assert log10_lr(found, Asked.CORE, "engine") < -2
    moved = log10_lr(found, Asked.IDENTITY, "front_frame") - log10_lr(
        before, Asked.IDENTITY, "front_frame"
    )
    assert abs(moved) < 0.3


def test_a_tub_of_another_car_is_a_question_of_its_own():
    found = weighed(tub_tag_38="V1911")
    assert log10_lr(found, Asked.CORE, "tub") < -2
    assert log10_lr(found, Asked.IDENTITY, "front_frame") > 0.5


# Jaguar Forums, 2020: new blocks stamped to order. Where the date is cast is from memory
def test_a_right_number_on_a_later_block_is_two_questions():
    """From memory the casting date explains; vouched for it speaks, whatever the number says."""
    before = log10_lr(weighed(), Asked.CORE, "engine")
    told = weighed(block_casting="3 2 63")
    assert log10_lr(told, Asked.CORE, "engine") == pytest.approx(before)
    argued = weighed(("block_casting", "cast_day"), block_casting="3 2 63")
    assert log10_lr(argued, Asked.CORE, "engine") < -1
    assert any("later than the day" in str(each.sentence) for each in argued.misfits)
    assert values("block_casting", "12 5 20")["day"] == "2020-05-12"


def test_why_of_a_late_block_says_which_rows_to_vouch_for():
    """Those that let its casting date speak, above; each as long as nobody vouched for it."""

    def told(*vouched: str) -> str:
        opinion = ratios_alone(case(vouched, block_casting="3 2 63"), opened(BOOK))
        found = weighed_about(opinion, "engine")
        return report_text(examined_why(opinion, opened(BOOK), found))

    sentence = "it would speak if you vouched for {}, by name and with a reason"
    assert sentence.format("block_casting and cast_day") in told()
    assert sentence.format("cast_day") in told("block_casting")
    assert "it would speak" not in told("block_casting", "cast_day")


def test_a_front_frame_of_another_car_is_told_first():
    found = weighed(**{FRONT: "850731"})
    assert log10_lr(found, Asked.IDENTITY, "front_frame") < -1
    assert any("names another number" in str(each.sentence) for each in found.misfits)


# Octane, December 2019: 85 is the open car, 86 the coupé, both with right-hand drive
def test_the_number_itself_says_the_model():
    """860512 on every mark and in the claim, an open car claimed."""
    right = weighed()
    assert log10_lr(right, Asked.ITEM, "model") > 2
    made = case(**{mark: text.replace("850512", "860512") for mark, text in E_TYPE.items()})
    claim = replace(made.claim, items={**CLAIM, "chassis_number": "860512"})
    found = car_marks(replace(made, claim=claim), opened(BOOK))
    told = number_in_its_series.compare(found)
    coupe = answer(found, told, with_contributions=False, with_next_looks=False)
    assert log10_lr(coupe, Asked.ITEM, "model") < -2
    moved = log10_lr(coupe, Asked.IDENTITY, "front_frame")
    assert abs(moved - log10_lr(right, Asked.IDENTITY, "front_frame")) < 0.3
    sentences = [each.sentence for each in coupe.misfits if "model" in each.about]
    assert sentences
    for sentence in sentences:
        assert "consistent with E-type 3.8 fixed head coupe, not with E-type 3.8 open" in sentence


def test_the_report_of_the_whole_case_tells_what_was_replaced():
    book = opened(BOOK)
    version = BookVersion(book.id, book.title, book.version, "")
    opinion = examine(case(**{ENGINE: "R7811-9"}), book, version, steady=False)
    text = report_text(build_outline(opinion, book, date(2026, 11, 30)))
    assert "the engine number on the block reads 7811" in text
    assert "gearbox number on the case" in text
    assert never_said(text) == ()
