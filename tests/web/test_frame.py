"""What stands over every page of a case, and how a save is answered."""

import json
import re

from django.test import RequestFactory

from tests.web.conftest import WHEN
from witnessmark import store
from witnessmark.entry import EnteredPair, enter_readings
from witnessmark.plan.places import is_open
from witnessmark.store import people
from witnessmark.web.board.lines import examined_line
from witnessmark.web.shared.desk import bench_of
from witnessmark.web.shared.saving import answered, change, typed


def test_every_page_of_a_case_shows_its_way_and_what_does_not_fit(owner, demo_case):
    """A step each with what is open there, and the worst sentence."""
    page = owner.get(f"/cases/{demo_case('altered')}/story").content.decode()
    assert page.count('aria-current="page"') == 1
    assert "Does not fit:" in page
    assert "Stop here" in page


def test_a_case_nobody_was_let_into_is_not_there(signed_in, demo_case):
    """For a reader of another case it does not exist; for nobody there is a door."""
    case = demo_case()
    assert signed_in("reader").get(f"/cases/{case}/story").status_code == 404
    assert signed_in("reader", "Ben", (case,)).get(f"/cases/{case}/story").status_code == 200


def test_a_save_is_a_revision_and_is_answered_with_what_changed(owner, demo_case):
    """The line says which; a faulty one is told with its place, and nothing is kept."""
    case = demo_case()
    mark = "frame_stamp"

    def save(text: str):
        request = RequestFactory().post("/", {"mark": mark, "text": text, "base": "1"})
        request.person = people.people()[0]
        pair = EnteredPair(typed(request, "mark"), typed(request, "text"))
        saved = change(request, case, "reading", lambda draft: enter_readings(draft, [pair], {}))
        return answered(request, saved)

    assert b"Revision 2, saved" in save("4 7018133").content
    refused = save("4 70[08133")
    assert refused.status_code == 422
    assert b"Expected" in refused.content


def test_every_page_counts_the_same_places(owner, demo_case):
    """Also where single marks of a place ended otherwise than it: the way, the walk, the board."""
    case = demo_case("altered")
    document = json.loads(store.head(case).text)
    left = next(each for each in bench_of(case).places if is_open(each))
    mark = left.marks[0].ids[0]
    document["sites"].append({"site": left.row.id, "mark": mark, "state": "not looked for"})
    store.revise(case, 1, json.dumps(document), who="Ada", did="a mark", at=WHEN)
    page = owner.get(f"/cases/{case}/evidence", follow=True).content.decode()
    open_, places = re.search(r"(\d+) of (\d+) places are open", page).groups()
    assert f'<span class="unseen">, open: </span>{open_}</span>' in page
    assert examined_line(bench_of(case)).state.startswith(f"{open_} of {places} places left")
