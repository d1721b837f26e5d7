"""Codes against the claim, item by item: a car built otherwise differs in one code, not in all."""

from dataclasses import replace
from itertools import product
from math import log10, prod

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.weighing.by_hand import SlowNetwork, log10_lr
from tests.weighing.cars import saloon
from tests.weighing.changed import every_case, network_of
from tests.weighing.coded import CODED_BOOK, TABLE_OF, TABLES, coded, coded_case
from tests.weighing.tiny import Prepared
from witnessmark.casefile.records import Casefile
from witnessmark.examination import car_marks
from witnessmark.weighing.evidence_codes import (
    SEVERAL,
    UNLISTED,
    UNLISTED_SHARE,
    claimed_code_items,
    code_fields,
    codes_against_claim,
    codes_table,
    value_likelihoods,
)
from witnessmark.weighing.nodes import CharacterSource, Node, nodes_of
from witnessmark.weighing.priors import TableMaker
from witnessmark.weighing.questions import log10_ratio
from witnessmark.weighing.rows import row_values

CARD = "600321|1|E|????|14950|?????|?????|C|11|L1|??????"
ON_PLATE = {
    "paint": "coach-black",
    "trim": "black-leather",
    "axle_ratio": "4-10",
    "extras": "heater",
}
"""What plate and card of the saloon show, beside model, year and coachbuilder."""
OTHERWISE = {"paint": "pine-green", "trim": "tan-leather", "axle_ratio": "3-70"}


def configuration(ready: Prepared) -> float:
    """log10 LR of "this car was built as claimed"."""
    ones = ready.calculator.ones(1)
    joints, prior = ready.calculator.run(ones), ready.calculator.prior(ones)
    asked = next(each for each in ready.asked if each.variable == "K")
    return float(log10_ratio(joints, prior, asked)[0])


def claimed(claim: dict[str, str], card: str = "") -> Prepared:
    """The saloon under a claim, with or without its card in hand."""
    document = saloon(claim=claim).model_dump(mode="json")
    if card:
        document["readings"].append({"mark": "build_card", "text": card})
        document["papers"].append({"mark": "build_card", "state": "in hand"})
    return network_of(Casefile.model_validate(document))


def first(count: int) -> dict[str, str]:
    """The first codes of the plate, as it shows them."""
    return dict(list(ON_PLATE.items())[:count])


@pytest.mark.parametrize("item", OTHERWISE)
@pytest.mark.parametrize("agreeing", range(5))
def test_one_clear_difference_speaks_against_however_many_others_agree(item, agreeing):
    """Also where model, trim, ratio and extras agree: each of them would be rare by chance."""
    claim = first(agreeing) | {item: OTHERWISE[item]}
    assert configuration(claimed(claim)) < log10(1 / 10)


@pytest.mark.parametrize("agreeing", range(5))
def test_all_that_agree_speak_for_the_claim_and_no_more_than_what_is_hidden_allows(agreeing):
    hidden = next(r.value for r in row_values(()).rows if r.id == "codes.hidden")
    for card in ("", CARD):
        assert log10(3) < configuration(claimed(first(agreeing), card)) < log10(1 / hidden) + 0.1


@pytest.mark.parametrize("item", OTHERWISE)
def test_two_marks_that_show_one_difference_are_stronger_than_one(item):
    claim = ON_PLATE | {item: OTHERWISE[item]}
    assert configuration(claimed(claim, CARD)) < configuration(claimed(claim)) - 0.5


def test_a_plate_and_a_card_that_disagree_lie_between():
    """The plate shows another paint than claimed, the card the claimed one."""
    claim = ON_PLATE | {"paint": "pine-green"}
    both, plate = configuration(claimed(claim, CARD)), configuration(claimed(claim))
    split = configuration(claimed(claim, CARD.replace("|11|", "|14|")))
    assert both < plate < split


def test_another_model_on_the_cars_own_marks_speaks_against():
    agree = configuration(coded(coded_case(plate="U|A|L")))
    differs = configuration(coded(coded_case(plate="R|A|L")))
    another = configuration(coded(coded_case(plate="R|C|K")))
    assert agree > 0
    assert differs < -0.3
    # A car of another model has its own colours: that they differ too makes it likelier still.
    assert another < differs


@pytest.mark.parametrize("card", ["", CARD])
def test_a_second_code_that_differs_speaks_against_the_claim_and_not_against_the_shell(card):
    """Another paint and another trim than claimed, on the car's own plate and card."""
    one = {"paint": OTHERWISE["paint"]}
    two = one | {"trim": OTHERWISE["trim"]}
    first, second = (claimed(ON_PLATE | each, card) for each in (one, two))
    assert configuration(second) < configuration(first)
    assert identity_of(second) > identity_of(first) - 0.7


def identity_of(ready: Prepared) -> float:
    """log10 LR of the shell being the claimed car's."""
    ones = ready.calculator.ones(1)
    joints, prior = ready.calculator.run(ones), ready.calculator.prior(ones)
    return float(log10_ratio(joints, prior, ready.asked[0])[0])


def ratios_of_differences(ready: Prepared) -> list[float]:
    """P(all seen | as claimed) over P(all seen | this code differs), nothing altered to pass."""
    states = ready.calculator.network.showing_table.shape[1]
    calculator = ready.calculator
    clamps = {"C": np.eye(states), "D": np.tile([1.0, 0.0, 0.0], (states, 1))}
    # K follows C: what is asked is P(seen | C), so the prior under the same clamps goes out.
    seen = calculator.run(calculator.ones(states), clamps=clamps).total
    seen = seen / calculator.prior(calculator.ones(states), clamps).total
    return [float(seen[0] / each) for each in seen]


def test_a_paper_that_does_not_bear_an_item_says_nothing_of_it():
    """The card shows model and trim: as claimed against another paint it leaves alone."""
    case = coded_case(plate="U|B|L")
    with_card = coded_case(plate="U|B|L", card="U|L")
    model, paint, trim = (1 + k for k in range(3))
    before, after = (ratios_of_differences(coded(each)) for each in (case, with_card))
    assert coded(case).calculator.network.showing_table.shape[1] == 6
    assert after[paint] == pytest.approx(before[paint], rel=1e-9)
    assert after[trim] > before[trim] * 3
    assert after[model] > before[model] * 3


def test_an_item_that_a_node_does_not_show_has_the_row_of_a_car_built_as_claimed():
    casefile = coded_case()
    car = car_marks(casefile, CODED_BOOK)
    nodes = nodes_of(car.book, car.context)
    maker = TableMaker(row_values(()), claimed_code_items(car, nodes))
    assert maker.code_items == ("model", "paint", "trim")
    card = next(node for node in nodes if node.id == "card")
    table = codes_table(maker, card, ("model", "trim")).base
    as_claimed, model, paint, trim, several, hidden = table
    assert (paint == as_claimed).all()
    assert (hidden == as_claimed).all()
    for differs in (model, trim, several):
        assert not (differs == as_claimed).all()


def share_of(value: str, values: list[str]) -> float:
    """How often a car by chance has this value of a code."""
    return UNLISTED_SHARE if value == UNLISTED else (1.0 - UNLISTED_SHARE) / (len(values) - 1)


def by_enumeration(casefile: Casefile, node: Node, items: tuple[str, ...]) -> list[float]:
    """P(what was read of the node's codes | outcome) over chance, from every set of codes
    that the node could have borne."""
    car = car_marks(casefile, CODED_BOOK)
    claim = car.casefile.claim.items
    fields = [(fld.says, value_likelihoods(car, mark, fld)) for mark, fld in code_fields(node, car)]
    of = {item: [*TABLES[TABLE_OF[item]].values(), UNLISTED] for item in items}
    names = ("agree", *items, "several", "chance")
    sums: dict[str, list[float]] = {name: [0.0, 0.0] for name in names}
    for values in product(*of.values()):
        true = dict(zip(items, values, strict=True))
        share = prod(share_of(true[i], of[i]) for i in items)
        read = share * prod(seen[true[says]] for says, seen in fields)
        differing = [i for i in items if true[i] != claim[i]]
        fits = ["chance"] + (["model"] if "model" in differing else [])
        fits += [] if differing else ["agree"]
        fits += [i for i in differing if i != "model" and len(differing) == 1]
        for name in fits:
            sums[name][0] += read
            sums[name][1] += share
        # Where several differ, each by itself does so with the share of SEVERAL.
        of_several = prod(
            SEVERAL * share_of(true[i], of[i]) / (1.0 - share_of(claim[i], of[i]))
            if i in differing
            else 1.0 - SEVERAL
            for i in items
        )
        sums["several"][0] += of_several * read / share
        sums["several"][1] += of_several
    chance = sums["chance"][0] / sums["chance"][1]
    return [read / share / chance for read, share in sums.values()]


@given(
    st.tuples(*(st.sampled_from(signs) for signs in ("UFR?", "ABC?~", "KL?"))),
    st.tuples(st.sampled_from("UR?"), st.sampled_from("LM?")),
    st.tuples(st.sampled_from(["A", "B", "[AB]"]), st.sampled_from(["A", "C", "B"])),
)
@tried_on(40)
def test_the_likelihoods_are_those_of_every_set_of_codes_counted(plate, card, order):
    casefile = coded_case(plate="|".join(plate), card="|".join(card), order="|".join(order))
    car = car_marks(casefile, CODED_BOOK)
    found = []
    for node in nodes_of(car.book, car.context):
        against = codes_against_claim(car, node)
        if against is not None:
            found.append(node.id)
            wanted = by_enumeration(casefile, node, against.items)
            assert against.likelihood.tolist() == pytest.approx(wanted, rel=1e-9), node.id
    assert found == ["plate", "card", "order"]


def test_an_item_that_stands_twice_on_one_mark_agrees_by_chance_only_once():
    """Paint inside and out: the second says the same as the first, misreading apart."""
    order = {
        text: codes_against_claim(
            car := car_marks(coded_case(order=text), CODED_BOOK),
            next(n for n in nodes_of(car.book, car.context) if n.id == "order"),
        )
        for text in ("A|A", "A|?", "B|B", "B|?")
    }
    agree = {text: seen.likelihood for text, seen in order.items() if seen is not None}
    assert len(agree) == 4
    assert agree["A|A"][0] == pytest.approx(agree["A|?"][0], rel=0.05)
    assert agree["B|B"][1] == pytest.approx(agree["B|?"][1], rel=0.05)
    assert agree["B|B"][0] < agree["B|?"][0] / 10


def test_an_item_that_only_an_echo_bears_is_no_item():
    """What a copy of the plate repeats can show no difference by itself."""
    book = replace(CODED_BOOK, marks=tuple(m for m in CODED_BOOK.marks if m.id != "plate"))
    for copied, items in (({}, ("model", "trim", "paint")), ({"order": "card"}, ("model", "trim"))):
        car = car_marks(coded_case(copied=copied, card="U|L", order="A|A"), book)
        assert claimed_code_items(car, nodes_of(car.book, car.context)) == items


def test_a_claim_that_states_no_code_leaves_all_hidden():
    table = TableMaker(row_values(())).showing()
    assert table.base.tolist() == [[1.0, 0.0], [0.0, 1.0]]
    assert table.touched() == set()


@pytest.mark.parametrize("items", [("model",), ("paint",), ("model", "paint"), ("a", "b", "model")])
def test_what_differs_goes_to_the_model_by_its_row_and_evenly_to_the_others(items):
    maker = TableMaker(row_values(()), items)
    value = {row.id: row.value for row in maker.rows}
    as_claimed, otherwise = maker.showing().base
    assert as_claimed.tolist() == [1.0, *[0.0] * (maker.configurations - 1)]
    assert otherwise[-1] == value["codes.hidden"]
    if len(items) > 1:
        assert otherwise[-2] == value["codes.differs.several"]
    shares = dict(zip(items, otherwise[1 : 1 + len(items)], strict=True))
    others = {share for item, share in shares.items() if item != "model"}
    assert len({round(share, 12) for share in others}) <= 1
    if "model" in items and others:
        assert shares["model"] == value["codes.differs.model"]
    assert sum(otherwise) == pytest.approx(1.0, abs=1e-12)


def networks() -> dict[str, Prepared]:
    """The demonstration cars, the saloon with all its codes claimed, and the coded car."""
    found = {name: network_of(case) for name, case in every_case().items()}
    found["all claimed"] = claimed(ON_PLATE, CARD)
    found["coded"] = coded(coded_case(plate="U|B|L", card="U|L", order="A|B"))
    return found


def test_the_probabilities_of_every_table_add_up_to_one():
    """As they are put, before anything divides by their sum."""
    for name, ready in networks().items():
        for table in ready.calculator.network.tables:
            assert np.abs(table.base.sum(axis=-1) - 1.0).max() < 1e-9, name
            assert (table.base >= 0.0).all(), name


def test_marks_of_other_cars_show_codes_by_chance_and_made_ones_those_claimed():
    car = car_marks(coded_case(), CODED_BOOK)
    nodes = nodes_of(car.book, car.context)
    maker = TableMaker(row_values(()), claimed_code_items(car, nodes))
    plate = next(node for node in nodes if node.id == "plate")
    table = codes_table(maker, plate, ("model", "paint", "trim")).base
    made = next(row.value for row in maker.rows if row.id == "codes.made")
    for state, each in enumerate(plate.states):
        if each.source is CharacterSource.MADE:
            assert (table[:, state, 0] == made).all()
        elif each.source is not CharacterSource.OWN:
            assert (table[:, state, -1] == 1.0).all()


@pytest.mark.parametrize(
    "casefile",
    [
        coded_case(seat="21", plate="U|A|L", card="U|L"),
        coded_case(seat="2?", plate="U|B|L", card="U|L", order="B|B"),
        coded_case(seat="11", plate="R|C|K", card="[UR]|M", copied={"order": "plate"}),
        coded_case(claim={"paint": "amber"}, plate="U|~|L", card="F|L", order="A|C"),
    ],
    ids=["agree", "another paint", "another model", "one claimed"],
)
def test_the_ratios_are_those_of_plain_enumeration(casefile):
    """Several codes on one mark, the model among them, summed by hand."""
    ready = coded(casefile)
    network, rates = ready.calculator.network, ready.calculator.rates
    slow = SlowNetwork(car_marks(casefile, CODED_BOOK), network, rates)
    evidence, prior = slow.sums(with_evidence=True), slow.sums(with_evidence=False)
    ones = ready.calculator.ones(1)
    joints, before = ready.calculator.run(ones), ready.calculator.prior(ones)
    assert prior.total == pytest.approx(1.0, abs=1e-12)
    assert float(joints.total[0]) == pytest.approx(evidence.total, rel=1e-10)
    for asked in ready.asked:
        found = float(log10_ratio(joints, before, asked)[0])
        assert found == pytest.approx(log10_lr(evidence, prior, asked), abs=1e-9), asked.about
