"""A second examiner sees places and photographs, and nothing that anybody said or read."""

import json
import re
from datetime import timedelta

from django.test import Client

from witnessmark import store
from witnessmark.store import people
from witnessmark.web.shared.saving import now

BY_SCRIPT = {"HX-Request": "true"}
TOLD = ("700236", "40144", "0417", "0236", "590417", "altered", "Calder", "Okonjo", "Penhallow",
        "Four flat steel rivets", "flat rivets", "left front corner", "Wexmoor")  # fmt: skip
"""What the case says: readings, the claim, names, notes, captions."""


def link_of(owner: Client, case: str, name: str = "Mara Quill") -> str:
    until = (now() + timedelta(days=3)).date().isoformat()
    page = owner.post(f"/cases/{case}/second", {"for_whom": name, "until": until})
    assert page.status_code == 200
    return re.search(r'value="http://[^/]*(/second/[^"]+)"', page.content.decode())[1]


def test_nothing_that_was_read_or_claimed_is_told_before_they_are_done(owner, demo_case):
    """Not in a page, an address, a text beside a picture, or an answer to a form."""
    case = demo_case("altered", exhibits=True)
    link, second = link_of(owner, case), Client()
    start = second.get(link).content.decode()
    places = re.findall(r'href="(/second/[^"]+/places/[^"]+)"', start)
    assert len(places) == 9
    told = [start, *(second.get(each).content.decode() for each in places)]
    form = {"text": "4 7002[38]6", "form": "x", "legibility": "worn"}
    told.append(second.post(f"{link}/readings/frame_number/live", form).content.decode())
    told.append(
        second.post(f"{link}/readings/frame_number", form, headers=BY_SCRIPT).content.decode()
    )
    own = ("4 7002[38]6", "7002[38]6")
    for page in told:
        for each in own:
            page = page.replace(each, "")
        assert [word for word in TOLD if word in page] == []
        assert "<!--" not in page
    photographs = set(re.findall(r'src="(/second/[^"]+)"', "".join(told)))
    assert photographs
    assert second.get(min(photographs)).headers["Content-Type"] == "image/jpeg"
    entries = json.loads(store.head(case).text)["exhibits"]
    card = next(number for number, each in enumerate(entries, 1) if each["id"] == "card")
    assert second.get(f"{link}/photographs/{card}").status_code == 404


def test_a_blind_reading_is_signed_and_then_set_beside_the_others(owner, demo_case):
    """Read again, not knowing the claim; once they are done it stands, and both see it."""
    case = demo_case("altered")
    link, second = link_of(owner, case), Client()
    wrong = second.post(f"{link}/readings/frame_number", {"text": "4 [7", "form": "x"})
    assert wrong.status_code == 422
    read = {"text": "4 700239", "legibility": "worn", "seen": "photograph"}
    second.post(f"{link}/readings/frame_number", read)
    second.post(f"{link}/places/frame_rail/looks/surface", {"outcome": "doubtful"})
    made = store.head(case).text
    assert store.revisions(case)[-1].who == "Mara Quill"
    kept = json.loads(made)["readings"][-1]
    assert (kept["by"], kept["again"], kept["claim_known"]) == ("Mara Quill", True, False)
    assert "differs" not in second.get(link).content.decode()
    second.post(f"{link}/done")
    page = second.get(link).content.decode()
    assert "4 700239" in page
    assert "4 700236" in page
    assert "differs" in page
    assert "differs" in owner.get(f"/cases/{case}/second").content.decode()
    again = second.post(f"{link}/readings/frame_number", read | {"text": "4 700236"})
    assert again.status_code == 404
    assert store.head(case).text == made


def test_a_link_opens_nothing_once_it_has_ended_or_for_whoever_has_read_already(owner, demo_case):
    """An ended one, one of another kind, one that was guessed; and no second reading by a first
    reader."""
    case = demo_case("altered")
    until = (now() + timedelta(days=3)).date().isoformat()
    refused = owner.post(f"/cases/{case}/second", {"for_whom": "Ines Calder", "until": until})
    assert refused.status_code == 422
    assert "no second examiner" in refused.content.decode()
    link, second = link_of(owner, case), Client()
    assert second.get(link).status_code == 200
    owner.post(f"/cases/{case}/second", {"end": str(people.passes(case)[0].id)})
    span = people.PassSpan(now(), now() + timedelta(days=1))
    other = people.make_pass(case, "executor", "Somebody", "Ada", span)
    for each in (link, f"/second/{other}", "/second/guessed"):
        assert second.get(each).status_code == 404
        assert second.get(f"{each}/places/scuttle").status_code == 404
        assert second.post(f"{each}/readings/frame_number", {"text": "4"}).status_code == 404


def test_only_the_owner_makes_links(signed_in, demo_case):
    """An assistant of the case cannot."""
    case = demo_case()
    assert signed_in("assistant", "Ben", (case,)).get(f"/cases/{case}/second").status_code == 403
