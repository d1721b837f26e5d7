"""Every place where a mark should stand has an outcome; silence counts as not looked for."""

from tests.examination.cars import CLAIM, opinion_on, sprint
from tests.published.books import opened
from witnessmark.casefile import Casefile, LookSeen, MarkReading, SiteSeen, SiteState
from witnessmark.codebook import CarContext
from witnessmark.codebook.joined import joined
from witnessmark.examination import PlaceOutcome, SiteOutcome
from witnessmark.examination.sites import outcomes_noted


def outcomes(**changes: object) -> dict[str, SiteOutcome]:
    return {site.site: site for site in opinion_on(sprint(**changes)).sites}  # type: ignore[arg-type]


def test_the_sites_of_this_car_stand_in_the_order_of_the_book() -> None:
    assert list(outcomes()) == [
        "scuttle",
        "frame_rail",
        "inner_wing",
        "seat_pan",
        "bulkhead",
        "engine_deck",
        "engine_side",
        "gearbox_case",
        "axle_case",
    ]


def test_a_site_is_described_as_this_coachbuilder_put_it() -> None:
    marrick, ellery = outcomes(), outcomes(claim=CLAIM | {"body_works": "ellery"})
    assert marrick["inner_wing"].name == "left-hand inner wing"
    assert ellery["inner_wing"].name == "right-hand inner wing"
    assert "upside down" in marrick["inner_wing"].where
    assert "bulkhead" not in ellery, "Ellery struck no number there"


def test_a_site_names_the_marks_that_should_stand_there() -> None:
    assert outcomes()["bulkhead"].marks == ("bulkhead_body_number", "body_week")
    later = outcomes(claim=CLAIM | {"model_year": "1957"})
    assert later["bulkhead"].marks == ("bulkhead_chassis_tail", "body_week")


def test_a_site_of_which_the_case_says_nothing_was_not_looked_for() -> None:
    axle = outcomes()["axle_case"]
    assert axle.state is SiteState.NOT_LOOKED_FOR
    assert axle.reason == "The case does not say; taken as not looked for."
    assert not axle.is_noted


def test_a_site_at_which_something_was_noted_was_looked_at_though_the_case_lists_it_not() -> None:
    found = outcomes()
    for site in ("scuttle", "frame_rail", "engine_deck"):
        assert found[site].state is SiteState.READ
        assert found[site].reason == (
            "The case does not list the place, but something was noted there."
        )
        assert not found[site].is_noted


def test_state_and_reason_are_those_that_the_case_gives() -> None:
    sites = [{"site": "axle_case", "state": "not accessible", "reason": "Sunk in the floor."}]
    axle = outcomes(sites=sites)["axle_case"]
    assert (axle.state, axle.reason, axle.is_noted) == (
        SiteState.NOT_ACCESSIBLE,
        "Sunk in the floor.",
        True,
    )


def test_a_site_that_no_such_car_has_is_kept_with_no_mark_expected_there() -> None:
    """Ellery struck nothing on the bulkhead; that somebody looked there stands all the same."""
    found = outcomes(
        claim=CLAIM | {"body_works": "ellery"}, sites=[{"site": "bulkhead", "state": "absent"}]
    )
    assert found["bulkhead"].state is SiteState.ABSENT
    assert found["bulkhead"].marks == ()
    assert found["bulkhead"].name == "bulkhead"


def test_a_site_that_the_book_does_not_know_comes_last_under_its_own_name() -> None:
    found = outcomes(sites=[{"site": "boot_floor", "state": "read"}])
    assert list(found)[-1] == "boot_floor"
    assert (found["boot_floor"].name, found["boot_floor"].where) == ("boot_floor", "")


MARKS_APART = [
    {"site": "bulkhead", "state": "not accessible", "reason": "Behind the wiring."},
    {"site": "bulkhead", "mark": "body_week", "state": "found and illegible", "reason": "Rust."},
]


def test_a_mark_with_an_entry_of_its_own_has_its_own_outcome_after_the_place() -> None:
    """The body number was not reached; the week beside it was found and cannot be read."""
    place, week = (s for s in opinion_on(sprint(sites=MARKS_APART)).sites if s.site == "bulkhead")
    assert (place.told, place.state, place.marks, place.reason) == (
        "bulkhead: body number on the bulkhead",
        SiteState.NOT_ACCESSIBLE,
        ("bulkhead_body_number",),
        "Behind the wiring.",
    )
    assert (week.told, week.state, week.marks, week.reason) == (
        "bulkhead: week code on the bulkhead",
        SiteState.FOUND_ILLEGIBLE,
        ("body_week",),
        "Rust.",
    )


def test_of_the_other_marks_of_such_a_place_the_case_may_say_nothing() -> None:
    (place, week) = (
        s for s in opinion_on(sprint(sites=MARKS_APART[1:])).sites if s.site == "bulkhead"
    )
    assert (place.state, place.is_noted) == (SiteState.NOT_LOOKED_FOR, False)
    assert (week.state, week.is_noted) == (SiteState.FOUND_ILLEGIBLE, True)


def test_a_place_whose_marks_all_have_their_own_entries_has_no_outcome_beside_them() -> None:
    both = [MARKS_APART[1], MARKS_APART[1] | {"mark": "bulkhead_body_number", "state": "absent"}]
    found = [s for s in opinion_on(sprint(sites=both)).sites if s.site == "bulkhead"]
    assert [s.marks for s in found] == [("body_week",), ("bulkhead_body_number",)]


def test_a_mark_that_was_found_and_is_illegible_is_told_as_one_that_nobody_made_out() -> None:
    opinion = opinion_on(sprint(sites=MARKS_APART))
    assert opinion.illegible_marks == ("body_week",)
    told = [each.sentence for each in opinion.limitations]
    assert any(
        each == "The week code on the bulkhead was found and cannot be read. Rust." for each in told
    )


def places(**changes: object) -> dict[str, PlaceOutcome]:
    return {place.site: place for place in opinion_on(sprint(**changes)).places}  # type: ignore[arg-type]


def test_a_place_that_was_looked_at_is_seen_and_its_mark_is_told_as_not_looked_for() -> None:
    place = places(looks=[{"site": "gearbox_case", "outcome": "factory"}])["gearbox_case"]
    assert place.state is SiteState.READ
    assert [(each.told, each.state.value) for each in place.unseen] == [
        ("gearbox casing: gearbox stamping", "not looked for")
    ]
    assert place.unseen[0].reason == "The place was looked at, and nothing was noted of this mark."


def test_of_a_place_that_was_read_in_part_only_the_mark_left_is_unseen() -> None:
    """Whatever the case says of the place as a whole, and in whatever order it was entered."""
    week = {"bulkhead_body_number": "40047"}
    alone = {"site": "bulkhead", "mark": "bulkhead_body_number", "state": "read"}
    whole = {"site": "bulkhead", "state": "not looked for"}
    for sites in ([], [alone], [whole, alone], [{"site": "bulkhead", "state": "read"}]):
        opinion = opinion_on(sprint(week, sites=sites))
        place = next(each for each in opinion.places if each.site == "bulkhead")
        assert place.state is SiteState.READ, sites
        assert [each.mark for each in place.unseen] == ["week code on the bulkhead"], sites
        told = [each.sentence for each in opinion.limitations]
        assert "The week code on the bulkhead was not looked for." in told
        assert not any("place bulkhead" in each for each in told)
        assert "body_week" in {each.target for each in opinion.looks if each.is_reachable}


def test_a_place_of_a_further_book_speaks_of_what_was_read_there_alone() -> None:
    """Read first or looked at first, by the book of dated parts beside a real maker's."""
    book = joined(opened("chevrolet-1964-1972"), (opened("dated-parts"),))
    glass, item = "dated-parts.glass", "dated-parts.glazing_item"
    read = MarkReading(mark=item, text="AS2")
    own = SiteSeen(site=glass, mark=item, state=SiteState.READ)
    look = LookSeen(site=glass, outcome="factory")
    for case, found in (
        (Casefile(id="car", book="x", readings=(read,), sites=(own,)), [(item,)]),
        (
            Casefile(
                id="car",
                book="x",
                readings=(read,),
                looks=(look,),
                sites=(SiteSeen(site=glass, state=SiteState.READ),),
            ),
            [(item,)],
        ),
        (Casefile(id="car", book="x", looks=(look,)), [()]),
    ):
        noted = outcomes_noted(case, book, CarContext(1969))
        told = [each for each in noted if each.site == glass]
        assert [each.marks for each in told] == found
        assert {each.state for each in told} == {SiteState.READ}


def test_of_two_marks_of_which_a_car_has_one_the_other_is_not_missed() -> None:
    deck = places()["engine_deck"]
    assert (deck.state, deck.unseen) == (SiteState.READ, ())
