"""The claim: each part keeps itself, and what is wrong is told where it was typed."""

import json

import pytest

from tests.web.conftest import WHEN
from witnessmark import store
from witnessmark.casefile import parse_casefile
from witnessmark.store import people

HTMX = {"HX-Request": "true"}
SPRINT = {
    "book": "tarvane-1952-1961",
    "title": "Sprint",
    "model_year": "1955",
    "model": "solent-sprint",
    "number": "700143",
}


@pytest.fixture
def case(owner) -> str:
    """A case just begun, which takes no time to examine."""
    return owner.post("/new", SPRINT)["Location"].split("/")[2]


def kept(case: str):
    return parse_casefile(store.head(case).text, "case.json").casefile


def told(answer) -> str:
    return answer.content.decode()


def wrong_at(page: str, field: str) -> str:
    """What is told at a field."""
    return page[page.index(f'id="{field}-wrong"') :].split("</div>")[0]


def test_what_is_claimed_is_a_revision(owner, case):
    """The strip and the offers come back with it; what was typed stays as it was typed."""
    sent = {"model": "Solent Sprint", "chassis_number": "7 00143", "paint": "", "base": "1"}
    answer = owner.post(f"/cases/{case}/claim/items", sent, headers=HTMX)
    page = told(answer)
    assert answer.status_code == 200
    assert "Revision 2, saved" in page
    assert 'id="strip"' in page
    assert '<option value="Marrick &amp; Sons">' in page
    assert kept(case).claim.items["model"] == "solent-sprint"
    assert 'value="7 00143"' in told(owner.get(f"/cases/{case}/claim"))


def test_what_stands_on_the_plate_is_what_is_typed(owner):
    """The code as it is struck, its words or the book's own name: offered for the claimed year,
    read as such, and shown as it is offered. A code of two meanings is asked about."""
    sent = {"book": "ford-1964-1973", "title": "Other", "model_year": "1968", "model": "mustang"}
    owner.post("/new", sent)
    here = "/cases/other/claim"
    assert '<option value="T: Candyapple Red">' in told(owner.get(here))
    answer = owner.post(f"{here}/items", {"paint": "t", "axle_ratio": "5"}, headers=HTMX)
    assert "Read as 5: 3.00 conventional" in wrong_at(told(answer), "items-axle_ratio")
    assert kept("other").claim.items["paint"] == "candyapple-red"
    page = told(owner.get(here))
    assert 'name="paint" value="T: Candyapple Red"' in page
    for same in ("T: Candyapple Red", "candyapple red", "candyapple-red", "T"):
        owner.post(f"{here}/items", {"paint": same}, headers=HTMX)
    assert store.head("other").number == 2
    answer = owner.post(f"{here}/items", {"paint": "candy apple"}, headers=HTMX)
    assert "such as T: Candyapple Red" in wrong_at(told(answer), "items-paint")
    answer = owner.post(f"{here}/items", {"model": "", "engine_type": "W"}, headers=HTMX)
    assert answer.status_code == 422
    asked = wrong_at(told(answer), "items-engine_type")
    assert "can mean several things" in asked
    assert "W: 427-4V" in asked


def test_a_number_with_what_stands_beside_it_is_shown_as_it_is_read(owner):
    """As one types it from the car."""
    owner.post("/new", {"book": "jaguar-1948-1974", "title": "Other"})
    sent = {"chassis_number": "S 679123"}
    page = told(owner.post("/cases/other/claim/items", sent, headers=HTMX))
    assert "Of the claim this is read: chassis number 679123." in page


def test_the_same_once_more_is_no_revision(owner, case):
    """A form that sends itself with nothing new changes nothing."""
    for part, sent in (
        ("items", SPRINT),
        ("title", {"title": "Sprint", "opened": json.loads(store.head(case).text)["opened"]}),
        ("visit", {"date": "", "place": ""}),
    ):
        owner.post(f"/cases/{case}/claim/{part}", sent, headers=HTMX)
    assert store.head(case).number == 1


@pytest.mark.parametrize("headers", [HTMX, {}])
@pytest.mark.parametrize(
    ("part", "field", "form", "value", "said"),
    [
        ("items", "model_year", "items", "1970", "not a year of the book"),
        ("visit", "date", "visit", "14.3.25", "day"),
        ("assignment", "minutes_available", "assignment", "many", "a whole number"),
        ("sums/new", "amount", "sums-new", "12 gold", "a number"),
        ("statements/new", "about", "statements-new", "motor", "engine"),
        ("prior-odds/new", "odds", "prior-odds-new", "100", "less than 100"),
    ],
)
def test_what_is_wrong_is_told_at_its_field(owner, case, headers, part, field, form, value, said):
    """By itself and without script, where what was typed still stands; nothing is saved."""
    sent = {"base": "1", "says": "x", "question": "core engine", "reason": "x", field: value}
    answer = owner.post(f"/cases/{case}/claim/{part}", sent, headers=headers)
    assert answer.status_code == 422
    assert said in wrong_at(told(answer), f"{form}-{field}")
    assert headers or f'name="{field}" value="{value}"' in told(answer)
    assert store.head(case).number == 1


def test_what_stands_in_a_case_against_its_book_is_told_at_its_field(owner, case):
    """A document that another program wrote is opened, and the fault is where it is mended."""
    faulty = store.head(case).text.replace('"solent-sprint"', '"rapier"')
    store.revise(case, 1, faulty, who="Ada", did="x", at=store.head(case).at)
    page = told(owner.get(f"/cases/{case}/claim"))
    assert "Not examined:" in page
    assert "is not a model" in wrong_at(page, "items-model")
    owner.post(f"/cases/{case}/claim/items", {"model": "solent-sprint"})
    assert "Not examined:" not in told(owner.get(f"/cases/{case}/claim"))


def test_statements_are_added_changed_and_taken_away(owner, case):
    """With what is declared beforehand; the list comes back where it grew or shrank."""
    here = f"/cases/{case}/claim/statements"
    sent = {"about": "engine", "says": "Exchanged in 1962.", "origin": "supplied new"}
    page = told(owner.post(f"{here}/new", sent, headers=HTMX))
    assert f'action="{here}/0"' in page
    change = {"count": "1", "work": "struck openly", "work_by": "dealer", "says": sent["says"]}
    page = told(owner.post(f"{here}/0", change, headers=HTMX))
    assert f'action="{here}/0"' not in page
    [statement] = kept(case).claim.statements
    assert (statement.origin, statement.work, statement.work_by) == (
        "supplied new",
        "struck openly",
        "dealer",
    )
    assert owner.post(f"{here}/0", {"count": "1", "deed": "remove"}).status_code == 302
    assert kept(case).claim.statements == ()


def test_a_sum_without_its_source_is_told_at_the_field(owner, case):
    """No document prints it before; as soon as the field is filled, nothing is told."""
    here = f"/cases/{case}/claim/sums"
    owner.post(f"{here}/new", {"amount": "100", "currency": "GBP"})
    page = told(owner.get(f"/cases/{case}/claim"))
    assert "no document prints this sum" in wrong_at(page, "sums-0-source")
    assert "no document prints" not in wrong_at(page, "sums-0-currency")
    page = told(owner.post(f"{here}/0", {"count": "1", "source": "An advertisement"}, headers=HTMX))
    assert "no document prints" not in wrong_at(page, "sums-0-source")
    assert "no document prints this sum" in wrong_at(page, "sums-0-by")


@pytest.mark.parametrize("headers", [HTMX, {}])
def test_a_revision_that_never_was_is_told_with_what_was_typed(owner, case, headers):
    """Nothing is lost of it, and nothing saved."""
    sent = {"base": "99", "place": "A barn at Fenwick"}
    answer = owner.post(f"/cases/{case}/claim/visit", sent, headers=headers)
    assert answer.status_code == 422
    assert "revision 99, which the case has not" in told(answer)
    assert headers or 'value="A barn at Fenwick"' in told(answer)
    assert owner.post("/cases/none/claim/visit", sent, headers=headers).status_code == 404
    assert store.head(case).number == 1


def test_a_character_that_no_text_holds_is_told(owner, case):
    """In what is done and for whom a link is, as in a field of the case: each database alike."""
    with pytest.raises(store.NotKeptError, match="0000 cannot be kept"):
        store.revise(case, 1, store.head(case).text + " ", who="A\0", did="x", at=WHEN)
    answer = owner.post(f"/cases/{case}/later", {"for_whom": "A\0", "years": "5"})
    assert answer.status_code == 422
    assert "the character U+0000 cannot be kept" in told(answer)
    answer = owner.post(f"/cases/{case}/claim/circumstances", {"notes": "a\0b"}, headers=HTMX)
    assert answer.status_code == 422
    assert "U+0000" in wrong_at(told(answer), "circumstances-notes")


def test_what_most_cases_need_not_is_folded_and_says_whether_it_holds_anything(owner, case):
    """Counted anew with each save, and opened where something in it is wrong."""

    def fold(page: str, part: str) -> str:
        at = page.index(f'id="count-{part}"')
        return page[page.rindex("<details", 0, at) : page.index("</summary>", at)]

    page = told(owner.get(f"/cases/{case}/claim"))
    assert "nothing entered" in fold(page, "sums")
    answer = owner.post(f"/cases/{case}/claim/sums/new", {"amount": "100"}, headers=HTMX)
    assert '<span class="quiet" id="count-sums" hx-swap-oob="true">1 entered' in told(answer)
    assert "1 entered" in fold(told(owner.get(f"/cases/{case}/claim")), "sums")
    page = told(owner.post(f"/cases/{case}/claim/sums/0", {"count": "1", "amount": "x"}))
    assert fold(page, "sums").startswith('<details class="fold" open>')
    assert not fold(page, "custody").startswith('<details class="fold" open>')


def test_an_entry_that_has_moved_is_not_written_over(owner, case):
    """Somebody else took one away meanwhile: what was typed would stand at another sum."""
    here = f"/cases/{case}/claim/sums"
    for amount in ("100", "200"):
        owner.post(f"{here}/new", {"amount": amount})
    owner.post(f"{here}/0", {"count": "2", "deed": "remove"})
    answer = owner.post(f"{here}/0", {"count": "2", "amount": "150"}, headers=HTMX)
    assert answer.status_code == 422
    assert "somebody has added or removed a sum" in told(answer)
    assert [each.amount for each in kept(case).sums] == [200.0]


def test_prior_odds_are_asked_as_cars_of_a_hundred(owner, case):
    """Shown as both, with a reason, and never there by themselves."""
    here = f"/cases/{case}/claim/prior-odds"
    page = told(owner.get(f"/cases/{case}/claim"))
    assert "Of a hundred such cars" in page
    sent = {"question": "core engine", "odds": "30", "reason": ""}
    assert "reason" in told(owner.post(f"{here}/new", sent, headers=HTMX))
    assert kept(case).circumstances.prior_odds == ()
    page = told(owner.post(f"{here}/new", {**sent, "reason": "Few kept it."}, headers=HTMX))
    assert "30 of a hundred, odds of 1 to 2.3" in page
    [stated] = kept(case).circumstances.prior_odds
    assert stated.odds == pytest.approx(3 / 7)
    change = {"count": "1", "question": "core engine", "odds": "30", "reason": "Few kept it."}
    owner.post(f"{here}/0", change, headers=HTMX)
    assert store.head(case).number == 2


def test_a_reader_reads_and_writes_nothing(owner, signed_in, case):
    """Every field is shown, none can be typed into, and no form is taken."""
    reader = signed_in("reader", cases=(case,))
    page = told(reader.get(f"/cases/{case}/claim"))
    assert 'name="chassis_number" value="700143"' in page
    assert page.count("readonly") > 10
    assert "<button>Add" not in page
    for path in ("items", "title", "sums/new", "sums/0", "book"):
        assert reader.post(f"/cases/{case}/claim/{path}", {"title": "x"}).status_code == 403


def test_ones_own_particulars_sign_a_case(owner, case):
    """Kept with the account, once checked; put down as examiner with one tap, once."""
    assert owner.get("/profile").status_code == 200
    assert owner.post("/profile", {"name": "", "firm": "Calder"}).status_code == 422
    sent = {"name": "Ines Calder", "firm": "Calder & Brook", "fee_depends": "no"}
    assert owner.post("/profile", sent).status_code == 302
    assert "fee_depends = false" in people.people()[0].profile
    for _ in range(2):
        owner.post(f"/cases/{case}/claim/examiners/new", {"deed": "me"}, headers=HTMX)
    [examiner] = kept(case).assignment.examiners
    assert (examiner.id, examiner.name, examiner.fee_depends) == ("calder", "Ines Calder", False)


def test_another_book_brings_its_own_places(owner, case):
    """What it does not know stays and is told; one that is not there is refused."""
    here = f"/cases/{case}/claim/book"
    assert owner.post(here, {"book": "none"}).status_code == 422
    assert owner.post(here, {"book": "jaguar-1948-1974"}, headers=HTMX)["HX-Refresh"] == "true"
    now = kept(case)
    assert now.book == "jaguar-1948-1974"
    assert now.claim.items["chassis_number"] == "700143"
    assert "scuttle" not in [each.site for each in now.sites]
    assert "is not a model" in told(owner.get(f"/cases/{case}/claim"))


def test_a_case_whose_book_is_gone_can_be_given_another(owner, case):
    """Nothing else can be entered until then."""
    gone = store.head(case).text.replace("tarvane-1952-1961", "gone")
    store.revise(case, 1, gone, who="Ada", did="x", at=store.head(case).at)
    page = told(owner.get(f"/cases/{case}/claim"))
    assert "cannot be opened" in page
    assert owner.post(f"/cases/{case}/claim/items", {"model": "x"}).status_code == 422
    assert owner.post(f"/cases/{case}/claim/book", {"book": SPRINT["book"]}).status_code == 302
    assert kept(case).book == SPRINT["book"]
