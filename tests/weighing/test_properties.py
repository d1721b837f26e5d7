"""Whatever was found: probabilities are probabilities, and what says nothing changes nothing."""

from functools import cache
from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.weighing.cars import demonstration_book, saloon, weighed, weighed_with_bounds
from tests.weighing.changed import LOOKS, changed_cases, every_case, network_of
from witnessmark.casefile.records import Casefile, SiteState
from witnessmark.codebook.marks import Mark, MarkKind
from witnessmark.examination import car_marks
from witnessmark.weighing import Conclusion, Weighing
from witnessmark.weighing.next_looks import BITS_NAMED, outcome_tables
from witnessmark.weighing.next_looks import bits as bits_of
from witnessmark.weighing.questions import log10_ratio

FEW = tried_on(12, few=4)


@cache
def log10_lrs(document: str) -> dict[tuple[str, str], float]:
    """Question and what it is about to log10 LR, of a case as JSON."""
    ready = network_of(Casefile.model_validate_json(document))
    ones = ready.calculator.ones(1)
    joints, prior = ready.calculator.run(ones), ready.calculator.prior(ones)
    return {
        (asked.question.value, asked.about): float(log10_ratio(joints, prior, asked)[0])
        for asked in ready.asked
    }


def assert_same_ratios(one: Casefile, other: Casefile) -> None:
    """Every question that both ask has the same ratio, to 1e-9."""
    first, second = (log10_lrs(each.model_dump_json()) for each in (one, other))
    shared = first.keys() & second.keys()
    assert shared
    assert {k: first[k] for k in shared} == pytest.approx({k: second[k] for k in shared}, abs=1e-9)


def edited(casefile: Casefile, **fields: object) -> Casefile:
    """The case with some of its lists replaced."""
    return Casefile.model_validate(casefile.model_dump(mode="json") | fields)


def numbers_in(weighing: Weighing) -> list[float]:
    """Every number that a weighing shows."""
    found = [weighing.bearer_odds]
    for c in weighing.conclusions:
        for lr in (c.lr, c.replaced, c.struck_later):
            if lr is not None:
                found += [lr.log10_lr, lr.log10_lr_low, lr.log10_lr_high]
        for k in c.contributions:
            found += [k.log10_lr_without, k.log10_lr_change, k.log10_lr_in_order]
        found += [n for a in c.assumptions for n in (a.log10_lr_at_low, a.log10_lr_at_high)]
        found += [n for p in c.curve for n in (p.value, p.log10_lr)]
        found += [look.bits for look in (*c.next_looks, *c.settled_by)]
    return found


@given(changed_cases())
@FEW
def test_every_state_has_a_probability_and_all_of_them_add_up(casefile):
    """Each variable's joint is within the total and sums to it, with and without evidence."""
    ready = network_of(casefile)
    ones = ready.calculator.ones(1)
    for joints in (ready.calculator.run(ones), ready.calculator.prior(ones)):
        total = float(joints.total[0])
        assert np.isfinite(total)
        assert total > 0.0
        for joint in joints.variables.values():
            shares = joint.reshape(-1) / total
            assert (shares >= 0.0).all()
            assert (shares <= 1.0 + 1e-12).all()
            assert float(shares.sum()) == pytest.approx(1.0, abs=1e-9)


@given(changed_cases())
@tried_on(8, few=2)
def test_all_that_a_weighing_shows_is_a_number_within_its_limits(casefile):
    """No NaN, no infinity; shares and outcomes sum to 1; bounds enclose; no fewer than 0 bits."""
    weighing = weighed_with_bounds(casefile)
    assert np.isfinite(numbers_in(weighing)).all()
    for state in weighing.mark_states:
        assert sum(s.probability for s in state.sources) == pytest.approx(1.0, abs=1e-9)
        assert all(0.0 <= s.probability <= 1.0 for s in (*state.sources, *state.attachments))
    for conclusion in weighing.conclusions:
        assert_ratios_in_order(conclusion)
        for look in (*conclusion.next_looks, *conclusion.settled_by):
            chances = [outcome.probability for outcome in look.outcomes]
            assert all(0.0 <= chance <= 1.0 for chance in chances), look.target
            assert sum(chances) == pytest.approx(1.0, abs=1e-9), look.target
            assert 0.0 <= look.bits <= 1.0 + 1e-12


def assert_ratios_in_order(conclusion: Conclusion) -> None:
    """The bounds enclose the ratio, and all three keep the cap of 10^4 either way."""
    for lr in (conclusion.lr, conclusion.replaced, conclusion.struck_later):
        if lr is not None:
            assert -4.0 <= lr.log10_lr_low <= lr.log10_lr <= lr.log10_lr_high <= 4.0


@given(changed_cases())
@tried_on(8, few=3)
def test_the_steps_in_order_of_entry_lead_from_nothing_to_the_ratio(casefile):
    """What the items add one after the other is the whole, unless the cap cuts it."""
    for conclusion in weighed(casefile).conclusions:
        steps = sum(c.log10_lr_in_order for c in conclusion.contributions)
        if not conclusion.lr.is_capped:
            assert steps == pytest.approx(conclusion.lr.log10_lr, abs=1e-8)


@given(changed_cases())
@FEW
def test_the_outcomes_of_every_next_look_add_up_to_what_is_known_now(casefile):
    """P(evidence and outcome | proposition), summed, is P(evidence | proposition)."""
    ready = network_of(casefile)
    ones = ready.calculator.ones(1)
    joints, prior = ready.calculator.run(ones), ready.calculator.prior(ones)
    tables = outcome_tables(ready.calculator, ready.candidates, ready.asked)
    for k, asked in enumerate(ready.asked):
        for candidate, table in zip(ready.candidates, tables, strict=True):
            summed = table.likelihoods[k].sum(axis=0)
            # The base of a second reading is scaled as a whole: the ratio is what counts.
            found = float(np.log10(summed[0] / summed[1]))
            now = float(log10_ratio(joints, prior, asked)[0])
            assert found == pytest.approx(now, abs=1e-7), (asked.about, candidate.target)


@given(changed_cases(), st.randoms(use_true_random=False))
@FEW
def test_the_order_of_entry_changes_nothing(casefile, random):
    """Readings, looks, papers and sites in any order."""
    document = casefile.model_dump(mode="json")
    for listed in ("readings", "looks", "papers", "sites"):
        random.shuffle(document[listed])
    assert_same_ratios(casefile, Casefile.model_validate(document))


def worn_text(mark: Mark) -> str:
    """A reading of a mark of which no character can be read."""
    return ("|" if mark.windows else "").join("?" * max(f.widths) for f in mark.fields)


@cache
def unread_marks(name: str) -> tuple[Mark, ...]:
    """The marks that a demonstration car could carry and that nobody has read."""
    casefile = every_case()[name]
    car = car_marks(casefile, demonstration_book())
    return tuple(m for m in car.book.marks_for(car.context) if not car.of(m.id))


@pytest.mark.parametrize(
    ("name", "mark"), [(name, mark.id) for name in every_case() for mark in unread_marks(name)]
)
def test_a_fully_worn_reading_changes_nothing(name, mark):
    """A mark of which nothing can be read, set beside the same mark not read at all."""
    casefile = every_case()[name]
    worn = {"mark": mark, "text": worn_text(next(m for m in unread_marks(name) if m.id == mark))}
    readings = [*casefile.model_dump(mode="json")["readings"], worn]
    assert_same_ratios(casefile, edited(casefile, readings=readings))


READ_TWICE = [
    (name, mark.id)
    for name, casefile in every_case().items()
    for mark in demonstration_book().marks
    if any(r.mark == mark.id for r in casefile.readings)
]


@pytest.mark.parametrize(("name", "mark"), READ_TWICE)
def test_another_examiner_who_could_read_nothing_changes_nothing(name, mark):
    """A fully worn reading beside a clear one, entered before it or after it."""
    casefile = every_case()[name]
    worn = {"mark": mark, "text": worn_text(demonstration_book().mark(mark)), "by": "another"}
    readings = casefile.model_dump(mode="json")["readings"]
    assert_same_ratios(casefile, edited(casefile, readings=[*readings, worn]))
    assert_same_ratios(casefile, edited(casefile, readings=[worn, *readings]))


DIFFERING = [
    ("plate_aluminium", "600321|12|60|E|14950|C|15|L3|H", "600821|10|60|E|14950|C|15|L3|H"),
    ("shell_seat_number", "E 600321", "M 6003[12]7"),
    ("engine_number", "L 14950", "L 14960"),
    ("engine_casting", "21D0", "2?B0"),
    ("gearbox_stamp", "25500 100", "25500 16[03]"),
    ("axle_stamp", "35400 3050", "35400 30?9"),
]


@pytest.mark.parametrize(("mark", "first", "second"), DIFFERING)
def test_of_two_examiners_who_read_differently_neither_comes_first(mark, first, second):
    """Which of the two was typed in first changes nothing."""
    one, two = ({"mark": mark, "text": text} for text in (first, second))
    others = [r for r in saloon().model_dump(mode="json")["readings"] if r["mark"] != mark]
    assert_same_ratios(saloon(readings=[*others, one, two]), saloon(readings=[*others, two, one]))


@pytest.mark.parametrize("name", list(every_case()))
@pytest.mark.parametrize("state", ["not looked for", "not accessible"])
def test_a_site_that_was_not_looked_at_is_as_if_never_listed(name, state):
    """Silence is not evidence: every site of the book in turn."""
    casefile = every_case()[name]
    sites = casefile.model_dump(mode="json")["sites"]
    listed = {site["site"] for site in sites}
    for site in sorted({s.id for s in demonstration_book().sites} - listed):
        silent = {"site": site, "state": state}
        assert_same_ratios(casefile, edited(casefile, sites=[*sites, silent]))
    for site in sites:
        if site["state"] not in (SiteState.NOT_LOOKED_FOR, SiteState.NOT_ACCESSIBLE):
            continue
        others = [other for other in sites if other is not site]
        assert_same_ratios(casefile, edited(casefile, sites=others))
        changed = [*others, site | {"state": state}]
        assert_same_ratios(casefile, edited(casefile, sites=changed))


def test_a_site_not_looked_for_stays_among_the_next_looks():
    """As reachable as if nobody had listed it."""

    def looks_of(sites: list[dict[str, str]]) -> dict[str, float]:
        case = saloon(seat=None, sites=sites)
        return {look.prompt: look.bits for look in weighed(case).conclusions[0].next_looks}

    silent = looks_of([{"site": "seat_pan", "state": "not looked for"}])
    assert silent == pytest.approx(looks_of([]))
    assert "Read the chassis number on the seat pan" in silent


def test_a_paper_not_in_hand_says_nothing():
    """Awaited, refused, lost or never asked for: all as if it had not been listed."""
    for state in ("asked for and awaited", "refused", "lost", "not asked for"):
        paper = {"mark": "build_card", "state": state}
        assert_same_ratios(saloon(), saloon(papers=[paper]))


@given(changed_cases(), st.sampled_from([0.01, 1.0, 30.0]))
@tried_on(8, few=3)
def test_more_looks_never_tell_less(casefile, odds):
    """The joint information of a set of looks is at least that of every set within it."""
    ready = network_of(casefile)
    open_looks = {c.slot: c for c in ready.candidates if c.kind == "look"}
    chosen = list(open_looks.values())[:3]
    if not chosen:
        return
    variants = [(0, *c.options) for c in chosen]
    bits = {}
    for size in range(1, len(chosen) + 1):
        for members in combinations(range(len(chosen)), size):
            grid = np.array(np.meshgrid(*(variants[m][1:] for m in members))).reshape(size, -1)
            slots = {chosen[m].slot: grid[row] for row, m in enumerate(members)}
            scale = ready.calculator.ones(grid.shape[1])
            joint = ready.calculator.run(scale, slots).variables["B"]
            prior = ready.calculator.prior(ready.calculator.ones(1)).variables["B"]
            bits[members] = bits_of(joint / prior, odds)
    for larger in bits:
        for smaller in bits:
            if set(smaller) < set(larger):
                assert bits[larger] >= bits[smaller] - 1e-9


@pytest.mark.parametrize("name", ["no-papers", "altered", "saloon"])
def test_more_minutes_never_give_a_set_that_tells_less(name):
    """But for looks that are left out because they add next to nothing."""
    casefile = every_case()[name]
    assignment = casefile.model_dump(mode="json")["assignment"]
    told = []
    for minutes in (5, 15, 40, 90, 240):
        timed = edited(casefile, assignment=assignment | {"minutes_available": minutes})
        best = weighed(timed).conclusions[0].best_set
        assert best is None or best.minutes <= minutes
        told.append(best.bits if best else 0.0)
    assert all(b >= a - 3 * BITS_NAMED for a, b in pairwise(told)), told


@given(st.sampled_from(list(every_case())), st.data())
@FEW
def test_a_feature_seen_worse_is_what_counts_of_one_place(name, data):
    """One source counts once: a milder look of the same place adds nothing."""
    casefile = every_case()[name]
    looks = casefile.model_dump(mode="json")["looks"]
    site = data.draw(st.sampled_from(sorted({look["site"] for look in looks})))
    worst = data.draw(st.sampled_from(LOOKS))
    milder = data.draw(st.sampled_from(LOOKS[: LOOKS.index(worst) + 1]))
    others = [look for look in looks if look["site"] != site]
    one = {"site": site, "outcome": worst}
    two = {"site": site, "outcome": milder, "feature": "another"}
    assert_same_ratios(
        edited(casefile, looks=[*others, one]), edited(casefile, looks=[two, *others, one])
    )


def test_papers_copied_from_one_another_count_once():
    """A card that is a copy of the plate adds nothing, whatever it says."""
    card = {"mark": "build_card", "state": "copy", "copied_from": "plate_aluminium"}
    plain = saloon()
    said = "600321|12|60|E|14950|C|15|L3|H"
    kinds = {mark.id: mark.kind for mark in demonstration_book().marks}
    assert kinds["build_card"] is MarkKind.PAPER
    readings = plain.model_dump(mode="json")["readings"]
    echoed = edited(
        plain, papers=[card], readings=[*readings, {"mark": "build_card", "text": said}]
    )
    assert_same_ratios(plain, echoed)
