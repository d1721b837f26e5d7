"""What is said about the car is set against what was found: a comparison without a ratio."""

from dataclasses import replace
from functools import cache
from math import log10
from typing import Any

import pytest

from tests.examination.cars import demonstration_book, opinion_on, sprint
from witnessmark.agreement.records import Outcome
from witnessmark.codebook import Basis
from witnessmark.examination import Disclosed, car_marks
from witnessmark.examination.disclosure import disclosures
from witnessmark.weighing import Answer, Asked, Misfit, MisfitKind, weighed


@cache
def plain_answer() -> Answer:
    """An answer about the Sprint, to be moved."""
    return opinion_on(sprint()).answer


def answer(*misfits: Misfit, stamp: float = 0.0, **log10_lr: float) -> Answer:
    """An answer in which every question stands at 1 but those named, with these misfits."""
    conclusions = tuple(
        replace(
            each,
            log10_lr=stamp if each.question is Asked.STAMP else log10_lr.get(each.about, 0.0),
            is_examined=each.about in log10_lr or each.is_examined,
        )
        for each in plain_answer().conclusions
    )
    return replace(plain_answer(), conclusions=conclusions, misfits=misfits)


def told(
    about: str, origin: str, says: str = "So it was said.", **more: str
) -> list[dict[str, Any]]:
    return [{"about": about, "says": says, "origin": origin} | more]


def compared(
    statements: list[dict[str, Any]], found: Answer, **extra: Any
) -> tuple[Disclosed, ...]:
    car = car_marks(sprint(statements=statements, **extra), demonstration_book())
    return disclosures(car, found, weighed(found, None, car.casefile.circumstances))


FITTED = "The findings support that this engine block was fitted to this car at the factory."
NOT_FITTED = (
    "The findings support that this engine block was not fitted to this car at the factory."
)
NEITHER = (
    "The findings speak too weakly to say whether this engine block was fitted to this car at "
    "the factory."
)


@pytest.mark.parametrize(
    ("origin", "log10_lr", "outcome", "found"),
    [
        ("first", 1.0, "agrees", FITTED),
        ("first", -1.0, "differs", NOT_FITTED),
        ("replaced", -1.0, "as declared", NOT_FITTED),
        ("supplied new", -1.0, "as declared", NOT_FITTED),
        ("another car's", -1.0, "as declared", NOT_FITTED),
        ("made later", -1.0, "as declared", NOT_FITTED),
        ("replaced", 1.0, "differs", FITTED),
        ("supplied new", 1.0, "differs", FITTED),
        ("first", 0.0, "open", NEITHER),
        ("supplied new", 0.0, "open", NEITHER),
        ("", 1.0, "open", FITTED),
        ("", -1.0, "open", NOT_FITTED),
    ],
)
def test_a_statement_agrees_differs_or_stays_open_as_the_findings_lie(
    origin: str, log10_lr: float, outcome: str, found: str
) -> None:
    """An exchange engine that was told of is as declared; called the first one it differs."""
    (said,) = compared(told("engine", origin), answer(engine=log10_lr))
    declared = f"Declared: {origin}." if origin else ""
    assert said == Disclosed("engine", "So it was said.", found, outcome, declared)


@pytest.mark.parametrize(
    ("log10_lr", "outcome"),
    [
        (log10(9.9), "open"),
        (log10(10.1), "agrees"),
        (-log10(2.9), "open"),
        (-log10(3.1), "differs"),
    ],
)
def test_a_statement_agrees_from_ten_and_differs_beyond_a_third(
    log10_lr: float, outcome: str
) -> None:
    (said, *_) = compared(told("engine", "first"), answer(engine=log10_lr))
    assert said.outcome == outcome


def test_nothing_agrees_with_a_part_on_which_something_does_not_fit() -> None:
    """Whatever the ratio; what is only told, from memory, fits all the same."""
    late = Misfit(MisfitKind.IMPOSSIBLE, ("engine", "m"), "The block is late.", Basis.INVENTED, "")
    (said,) = compared(told("engine", "first"), answer(late, engine=2.0))
    assert (said.outcome, said.found) == ("open", "Something does not fit: The block is late.")
    (said,) = compared(
        told("engine", "first"), answer(replace(late, kind=MisfitKind.TOLD), engine=2.0)
    )
    assert said.outcome == "agrees"


def test_the_bearer_stands_for_the_identity_and_a_plate_for_itself() -> None:
    frame, plate = compared(
        told("frame", "first") + told("plate_brass", "first"), answer(frame=1.0, plate_brass=-1.0)
    )
    assert (frame.outcome, plate.outcome) == ("agrees", "differs")
    assert plate.found == (
        "The findings support that this brass chassis plate was made later, or is another car's."
    )


@pytest.mark.parametrize(
    ("mark", "moved", "outcome"),
    [
        ("frame_number", {"frame": 2.0}, "agrees"),
        ("frame_number", {"frame": -2.0}, "differs"),
        ("engine_number", {"engine": -2.0, "stamp": 2.0}, "agrees"),
        ("engine_number", {"engine": 2.0, "stamp": -2.0}, "differs"),
    ],
)
def test_a_statement_about_a_mark_is_set_against_what_is_struck_there(
    mark: str, moved: dict[str, float], outcome: str
) -> None:
    """On the bearer that is the identity; on a core the stamp, whatever the core is."""
    (said,) = [each for each in compared(told(mark, "first"), answer(**moved)) if each.says]
    assert said.outcome == outcome


WING = [{"site": "inner_wing", "state": "absent", "reason": "Smooth primer where it would stand."}]


@pytest.mark.parametrize(
    ("origin", "outcome"),
    [
        ("replaced", "as declared"),
        ("supplied new", "as declared"),
        ("first", "differs"),
        ("", "open"),
    ],
)
def test_an_absent_number_is_as_declared_of_a_panel_said_to_be_replaced(
    origin: str, outcome: str
) -> None:
    (said,) = compared(told("wing_body_number", origin), answer(), sites=WING)
    assert said.outcome == outcome
    assert said.found == (
        "The body number on the inner wing is absent: Smooth primer where it would stand."
    )


def test_what_nothing_was_found_about_stays_open() -> None:
    for about in ("wing_body_number", "upholstery"):
        (said,) = compared(told(about, "first"), answer())
        assert (said.found, said.outcome) == ("Nothing was found that bears on this.", "open")


def test_what_was_found_against_and_not_said_is_named_after_the_statements() -> None:
    found = compared(told("gearbox", "first"), answer(gearbox=1.0, engine=-1.0, frame=-0.2))
    assert found == (
        Disclosed(
            "gearbox",
            "So it was said.",
            "The findings support that this gearbox casing was fitted to this car at the factory.",
            "agrees",
            "Declared: first.",
        ),
        Disclosed("engine", "", NOT_FITTED, "not said"),
    )


def test_what_speaks_for_the_claim_need_not_have_been_said() -> None:
    assert compared([], answer(engine=2.0, frame=2.0)) == ()


def test_statements_stand_in_the_order_and_words_of_the_speaker() -> None:
    found = compared(
        told("engine", "", "It was in the car in 1974.") + told("axle", "first", "Never out."),
        answer(),
    )
    assert [(each.about, each.says) for each in found] == [
        ("engine", "It was in the car in 1974."),
        ("axle", "Never out."),
    ]


DECK = [{"site": "engine_deck", "feature": "surface", "outcome": "disturbed"}]


def worked(origin: str, work: str, log10_lr: float, **extra: Any) -> Disclosed:
    """The engine with work declared on it, its deck looking as the case says."""
    car = car_marks(
        sprint(statements=told("engine", origin, work=work), **extra), demonstration_book()
    )
    found = answer(engine=log10_lr)
    told_of = disclosures(car, found, weighed(found, None, car.casefile.circumstances))
    return next(each for each in told_of if each.about == "engine")


@pytest.mark.parametrize(
    ("origin", "log10_lr", "outcome"),
    [
        ("", 0.0, "as declared"),
        ("first", 0.0, "open"),
        ("first", 1.0, "as declared"),
        ("replaced", -1.0, "as declared"),
        ("first", -1.0, "differs"),
        ("", -1.0, "open"),
    ],
)
def test_work_that_was_declared_and_shows_is_as_declared_and_hides_nothing(
    origin: str, log10_lr: float, outcome: str
) -> None:
    """A skim that was told of does not cover an engine that was not this car's."""
    found = worked(origin, "skimmed", log10_lr, looks=DECK)
    assert found.outcome == outcome
    assert found.found.endswith("looks worked on, as was declared.")


def test_work_that_was_declared_and_does_not_show_leaves_the_statement_as_it_is() -> None:
    """Nothing noted, a look that is factory, and a look that was only told of."""
    for looks in (
        [],
        [DECK[0] | {"outcome": "factory"}],
        [DECK[0] | {"seen": "told"}],
    ):
        found = worked("first", "skimmed", 1.0, looks=looks)
        assert (found.outcome, found.found) == ("agrees", FITTED)


def test_a_number_that_was_declared_to_be_removed_and_is_absent_is_as_declared() -> None:
    """Its absence is what was said, and no sign that the panel is another one."""
    for origin, outcome in (("", "as declared"), ("first", "open")):
        (said,) = compared(told("wing_body_number", origin, work="removed"), answer(), sites=WING)
        assert said.outcome == outcome
        assert said.found.endswith("That nothing stands there is as declared.")


def test_what_was_declared_stands_in_fixed_words_with_the_paper_by_its_name() -> None:
    statements = told(
        "engine", "supplied new", work="struck openly", work_by="dealer", paper="build_card"
    ) + told("axle", "", work_by="owner", paper="a bill of 1961")
    engine, axle = compared(statements, answer())
    assert engine.declared == (
        "Declared: supplied new; struck openly, by a dealer; by the paper: build card."
    )
    assert axle.declared == "Declared: by an owner; by the paper: a bill of 1961."


def test_a_stamp_struck_again_and_said_so_is_as_declared() -> None:
    """Of the number it settles the statement; of the engine it leaves open which block it is."""
    work = {"work": "struck openly", "work_by": "restorer"}
    found = answer(engine=0.0, stamp=-2.0)
    (said,) = [each for each in compared(told("engine_number", "", **work), found) if each.says]
    assert (said.outcome, said.declared) == (
        "as declared",
        "Declared: struck openly, by a restorer.",
    )
    (said,) = [each for each in compared(told("engine", "", **work), found) if each.says]
    assert said.outcome == "open"
    (said,) = [each for each in compared(told("engine_number", ""), found) if each.says]
    assert said.outcome == "open"


def test_findings_on_a_part_that_was_declared_and_found_so_are_as_declared() -> None:
    """Those that differ, of its marks alone; nothing where it was not declared. No ratio moves."""
    texts = {"engine_number": "E 31207"}
    plain = opinion_on(sprint(texts))
    declared = opinion_on(sprint(texts, told("engine", "supplied new")))
    assert declared.answer.conclusions == plain.answer.conclusions
    assert "engine_number" in declared.declared
    assert "frame_number" not in declared.declared
    differing = [each for each in declared.findings if each.outcome is Outcome.DIFFER]
    assert differing
    assert all(map(declared.is_as_declared, differing))
    assert not any(map(plain.is_as_declared, plain.findings))
    assert {each.kind for each in declared.answer.misfits} == {MisfitKind.DECLARED}


def test_a_plate_restored_with_a_reproduction_and_said_so_is_as_declared() -> None:
    """What does not fit about it too; the frame is not touched."""
    looks = [{"site": "scuttle", "feature": "fixings", "outcome": "screws"}]
    looks += [{"site": "scuttle", "outcome": "disturbed"}]
    plain = opinion_on(sprint(looks=looks))
    declared = opinion_on(sprint(statements=told("plate_brass", "made later"), looks=looks))
    (said,) = [each for each in declared.disclosure if each.says]
    assert said.outcome == "as declared"
    assert {each.kind for each in declared.answer.misfits} == {MisfitKind.DECLARED}
    assert declared.answer.conclusions == plain.answer.conclusions
