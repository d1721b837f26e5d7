"""The history: every revision, two compared, an earlier one as a new one, two texts beside."""

import json
from datetime import timedelta, timezone

from tests.web.conftest import WHEN
from witnessmark import store

MARK = "frame_stamp"


def changed(case: str, base: int, old: str, new: str, who: str = "Ben") -> store.Revised:
    """A save that puts one text for another."""
    text = store.revision(case, base).text
    assert text.count(old) == 1, text.count(old)
    at = WHEN.astimezone(timezone(timedelta(hours=2)))
    return store.revise(case, base, text.replace(old, new), who=who, did="changed", at=at)


def test_two_revisions_are_compared_in_the_words_of_the_case(owner, demo_case):
    """Which mark, what it said and what it says; the moment on the clock it was made by."""
    case = demo_case()
    changed(case, 1, '"purpose": "', '"purpose": "Quite another: ')
    page = owner.get(f"/cases/{case}/history").content.decode()
    assert "2 March 2026, 11:30 UTC+02:00" in page
    compared = owner.get(f"/cases/{case}/history/compared?one=2&other=1").content.decode()
    assert "Quite another" in compared
    assert "The assignment" in compared
    assert owner.get(f"/cases/{case}/history/compared?one=2&other=9").status_code == 404
    same = owner.get(f"/cases/{case}/history/compared?one=2&other=2").content.decode()
    assert "They say the same." in same


def test_a_save_is_one_revision_that_tells_its_reason(owner, demo_case):
    """A choice with its reason at once or one after the other: no two revisions tell the same."""
    case = demo_case("altered")
    at = f"/cases/{case}/evidence/axle_case"
    by_script = {"HX-Request": "true"}
    over = "The half hour on the lift was over."
    held = {"state": "not looked for", "reason": over, "attachment": "in place"}
    chosen = held | {"state": "not accessible"}
    why = chosen | {"reason": "the cover is seized"}
    for was, now in ((held, chosen), (chosen, why), (held, why)):
        owner.post(at, now | {"mark": "", "was": json.dumps(was)}, headers=by_script)
    kept = store.revisions(case)
    assert [each.did for each in kept[1:]] == [
        "place: Rear axle casing: not accessible",
        "place: Rear axle casing: reason: the cover is seized",
    ]
    owner.post(f"/cases/{case}/claim/visit", {"light": "good", "access": "a lift"})
    assert ". How the car stood:" in store.head(case).did
    assert ">What is to be seen there, or what is in the way" in owner.get(at).content.decode()
    page = owner.get(f"/cases/{case}/history").content.decode()
    assert "the cover is seized" in page
    assert page.count('<span class="ring">from</span>') == 4


def test_going_back_is_a_new_revision_and_is_shown_before(owner, demo_case):
    """The last change is taken back by name; what came meanwhile is shown first."""
    case = demo_case()
    changed(case, 1, '"purpose": "', '"purpose": "Quite another: ')
    path = f"/cases/{case}/history/back"
    assert "Quite another" in owner.get(f"{path}?number=1&undoes=2").content.decode()
    assert store.head(case).number == 2
    late = owner.post(path, {"number": "1", "base": "1", "undoes": "2"})
    assert late.status_code == 409
    owner.post(path, {"number": "1", "base": "2", "undoes": "2"})
    head = store.head(case)
    assert (head.number, head.undoes, head.did) == (3, 2, "took back: changed")
    assert head.text == store.revision(case, 1).text
    assert b"taken back" in owner.get(f"/cases/{case}/history").content


def test_what_two_wrote_differently_is_shown_with_both_and_one_is_kept(owner, demo_case):
    """Which place in words, both texts, by whom; the other is put there as a revision."""
    case = demo_case()
    old = '"purpose": "'
    changed(case, 1, old, '"purpose": "Hers. ', "Cora")
    changed(case, 1, old, '"purpose": "His. ', "Ben")
    path = f"/cases/{case}/beside"
    page = owner.get(path).content.decode()
    assert "Assignment, purpose" in page
    for each in ("Hers.", "His.", "Cora", "Ben"):
        assert each in page
    number = store.beside(case)[0].id
    assert owner.post(path, {"number": number, "keep": "both"}).status_code == 404
    owner.post(path, {"number": number, "keep": "mine"})
    assert "His. " in store.head(case).text
    assert "Nothing is left to settle" in owner.get(path).content.decode()


def test_a_reader_goes_back_to_nothing(signed_in, demo_case):
    """They see the history and change none of it."""
    case = demo_case()
    changed(case, 1, '"purpose": "', '"purpose": "Quite another: ')
    reader = signed_in("reader", cases=(case,))
    assert b"Back to this" not in reader.get(f"/cases/{case}/history").content
    assert reader.post(f"/cases/{case}/history/back", {"number": "1"}).status_code == 403
    assert reader.post(f"/cases/{case}/beside", {}).status_code == 403
