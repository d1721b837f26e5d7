"""Saves: each a revision, two at once put together, nothing lost, a true difference kept."""

import json
from threading import Thread

import pytest
from django.db import connections

from tests.store.cases import AT, CASE
from witnessmark import store
from witnessmark.store.models import FrozenRowError, HeldRevision

pytestmark = pytest.mark.usefixtures("home")


def begun():
    return store.begin(CASE, "Ines Calder", "began the case", AT)


def save(base, text, who="Ines Calder"):
    return store.revise("sprint", base, text, who=who, did="typed", at=AT)


def test_a_case_is_kept_as_it_was_typed_with_who_and_when():
    assert begun() == store.head("sprint") == store.revision("sprint", 1)
    kept = store.head("sprint")
    assert (kept.text, kept.who, kept.did) == (CASE, "Ines Calder", "began the case")
    assert (kept.number, kept.parent, kept.undoes) == (1, "", None)
    assert kept.at.isoformat() == "2026-05-14T10:30:07.250000+02:00"
    assert [each.id for each in store.cases()] == ["sprint"]


def test_each_save_is_a_revision_with_the_digest_of_the_one_before():
    first = begun()
    second = save(1, CASE.replace("A Sprint", "The Sprint")).kept
    assert (second.number, second.parent) == (2, first.sha256)
    assert [each.text for each in store.revisions("sprint")] == [first.text, second.text]
    assert [each.sha256 for each in store.changes("sprint")] == [first.sha256, second.sha256]
    assert store.heads(["sprint", "none"]) == {"sprint": second}


def test_the_same_text_is_no_new_revision():
    begun()
    found = save(1, CASE)
    assert (found.is_new, found.kept.number) == (False, 1)


def test_going_back_is_a_revision_that_says_what_it_takes_back():
    begun()
    save(1, CASE.replace("A Sprint", "The Sprint"))
    back = store.revise("sprint", 2, CASE, who="", did="took back", at=AT, undoes=2).kept
    assert (back.number, back.undoes, back.text) == (3, 2, CASE)


def test_a_change_is_taken_back_and_what_came_after_it_stays():
    begun()
    save(1, CASE.replace("A Sprint", "The Sprint"))
    save(2, CASE.replace("A Sprint", "The Sprint").replace("V206", "V207"))
    back = store.revise("sprint", 2, CASE, who="", did="took back", at=AT, undoes=2).kept
    assert (back.number, back.undoes, back.text) == (4, 2, CASE.replace("V206", "V207"))


def test_two_saves_of_one_revision_are_both_there_and_the_rest_is_as_it_was_typed():
    begun()
    theirs = CASE.replace("A Sprint", "The Sprint")
    save(1, theirs)
    mine = CASE.replace('"state": "read" }', '"state": "read", "reason": "by hand" }')
    found = save(1, mine)
    assert found.beside == ()
    assert found.kept.text == mine.replace("A Sprint", "The Sprint")


def test_a_place_that_both_wrote_differently_keeps_both_until_one_is_chosen():
    begun()
    save(1, CASE.replace("V206", "V207"), "Tomas Brook")
    found = save(1, CASE.replace("V206", "V208"))
    assert found.kept.text == CASE.replace("V206", "V207")
    (beside,) = found.beside
    assert beside.path == ("readings", 0, "text")
    assert (beside.base, beside.theirs, beside.mine) == ("V206", "V207", "V208")
    assert beside.who == "Ines Calder"
    assert store.beside("sprint") == (beside,)
    settled = store.settle(beside.id, "mine", "Ines Calder", AT)
    assert settled.kept.text == CASE.replace("V206", "V208")
    assert settled.kept.did == "kept the other of two entries at readings 1 text"
    assert store.beside("sprint") == ()
    (kept,) = store.beside("sprint", is_settled=True)
    assert (kept.kept, kept.settled_by, kept.settled_at) == ("mine", "Ines Calder", AT)


def test_a_difference_is_settled_by_leaving_what_stands():
    begun()
    save(1, CASE.replace("V206", "V207"))
    (beside,) = save(1, CASE.replace("V206", "V208")).beside
    found = store.settle(beside.id, "theirs", "Ines Calder", AT)
    assert (found.is_new, found.kept.number) == (False, 2)
    with pytest.raises(store.NotKeptError, match=f"there is no difference {beside.id} to settle"):
        store.settle(beside.id, "theirs", "Ines Calder", AT)


def test_an_entry_that_was_taken_out_while_another_changed_it_can_be_put_back():
    begun()
    gone = json.loads(CASE)
    gone["readings"] = []
    save(1, json.dumps(gone))
    (beside,) = save(1, CASE.replace("V206", "V208")).beside
    assert beside.theirs is store.ABSENT
    settled = store.settle(beside.id, "mine", "Ines Calder", AT)
    assert json.loads(settled.kept.text)["readings"][0]["text"] == "V208"


def test_what_is_chosen_meets_what_was_written_meanwhile():
    begun()
    save(1, CASE.replace("V206", "V207"))
    (beside,) = save(1, CASE.replace("V206", "V208")).beside
    save(2, CASE.replace("V206", "V207").replace("A Sprint", "The Sprint"))
    found = store.settle(beside.id, "mine", "Ines Calder", AT)
    assert found.kept.text == CASE.replace("V206", "V208").replace("A Sprint", "The Sprint")


def test_a_change_that_is_sent_twice_is_kept_once():
    begun()
    save(1, CASE.replace("V206", "V207"), "Tomas Brook")
    first = save(1, CASE.replace("V206", "V208"))
    again = save(1, CASE.replace("V206", "V208"))
    assert (again.is_new, again.beside) == (False, first.beside)


def test_what_no_case_can_be_is_refused_with_its_place():
    begun()
    with pytest.raises(store.NotKeptError) as refused:
        save(1, CASE.replace('"sprint"', '"other"'))
    assert str(refused.value) == (
        "case.json:4:9: the document names the case 'other'\n"
        '      "id": "other",\n'
        "            ^^^^^^^\n"
        "expected 'sprint', the name it has here"
    )
    for text, says in (
        (CASE[:40], "case.json:3"),
        ("[]", "this is no case document"),
        (CASE.replace('"sprint"', '"../up"'), "'../up' cannot name a case"),
        (CASE.replace('"sprint"', '"spr\\u0000int"'), "U+0000"),
    ):
        with pytest.raises(store.NotKeptError) as refused:
            store.begin(text, "", "", AT)
        assert says in str(refused.value)
    with pytest.raises(store.NotKeptError, match="there is already a case 'sprint'"):
        begun()
    with pytest.raises(store.NotKeptError, match="there is no case 'none'"):
        store.head("none")
    with pytest.raises(store.NotKeptError, match="the case 'sprint' has no revision 7"):
        save(7, CASE.replace("V206", "V207"))
    assert len(store.revisions("sprint")) == 1


def test_a_revision_is_never_changed_nor_removed():
    begun()
    row = HeldRevision.objects.get()
    row.text = "{}"
    for attempt in (
        row.save,
        row.delete,
        HeldRevision.objects.all().delete,
        lambda: HeldRevision.objects.update(text=""),
        lambda: HeldRevision.objects.bulk_update([row], ["text"]),
    ):
        with pytest.raises(FrozenRowError):
            attempt()
    assert store.head("sprint").text == CASE


def test_a_case_that_is_put_away_is_out_of_sight_and_whole():
    begun()
    store.put_away("sprint")
    assert store.cases() == ()
    assert [each.id for each in store.cases(put_away=True)] == ["sprint"]
    store.put_away("sprint", is_away=False)
    assert [each.id for each in store.cases()] == ["sprint"]


def test_many_who_save_at_once_lose_nothing():
    """Each enters readings of their own from the revision they saw last."""
    begun()
    faults = []

    def enter(who):
        try:
            for n in range(5):
                seen = store.head("sprint")
                values = json.loads(seen.text)
                values["readings"].append({"mark": "pad", "text": f"{who}{n}", "by": who})
                store.revise("sprint", seen.number, json.dumps(values), who=who, did="", at=AT)
        except Exception as fault:  # seen by the test, whatever it is
            faults.append(fault)
        finally:
            connections["default"].close()

    writers = [Thread(target=enter, args=(who,)) for who in "abcd"]
    for each in writers:
        each.start()
    for each in writers:
        each.join()
    assert faults == []
    texts = {each["text"] for each in json.loads(store.head("sprint").text)["readings"]}
    assert texts == {"V206", *(f"{who}{n}" for who in "abcd" for n in range(5))}
    kept = store.revisions("sprint")
    assert [each.number for each in kept] == list(range(1, 22))
    assert [each.parent for each in kept[1:]] == [each.sha256 for each in kept[:-1]]
