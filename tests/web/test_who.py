"""Every page asked for as everybody: the table of routes is held against what really happens."""

import re

import pytest
from django.test import Client
from django.urls import reverse

from witnessmark.web.route import Who
from witnessmark.web.routes import ROUTES

PARTS: dict[str, object] = {
    "number": 999_999,
    "kind": "field-sheet",
    "form": "a4",
    "to": "archive",
    "name": "report.pdf",
    "token": "none",
}
"""What stands in an address behind the case; a page whose parts are not here is in no test."""

RANK = {Who.OWNER: 3, Who.ASSISTANT: 2, Who.READER: 1}
CAME = {"owner": 3, "assistant": 2, "reader": 1, "stranger": 0, "nobody": -1}
"""How far each comes: a stranger has an account and was not let into the case."""


@pytest.fixture
def browsers(signed_in, demo_case) -> dict[str, Client]:
    """Somebody of each kind, in front of one case."""
    case = demo_case("clean")
    return {
        "owner": signed_in("owner"),
        "assistant": signed_in("assistant", "Ben", (case,)),
        "reader": signed_in("reader", "Cora", (case,)),
        "stranger": signed_in("assistant", "Dan"),
        "nobody": Client(),
    }


def test_each_page_lets_in_whom_the_table_names_and_nobody_else(browsers):
    """By GET and by POST; whoever is turned away learns nothing of a case that is not theirs."""
    wrong = []
    for route in sorted(ROUTES, key=lambda each: each.name == "sign_out"):  # that ends all
        about_case = "<case:case>" in route.path
        names = re.findall(r"<(?:\w+:)?(\w+)>", route.path)
        parts = {name: PARTS[name] for name in names if name != "case"}
        path = reverse(route.name, kwargs={**parts, **({"case": "clean"} if about_case else {})})
        for who, browser in browsers.items():
            for method, wanted in (("get", route.see), ("post", route.write)):
                found = getattr(browser, method)(path)
                if _is_let_in(found) != _may(who, wanted, about_case):
                    wrong.append((route.name, who, method, found.status_code))
                if who == "stranger" and about_case and wanted in RANK:
                    assert b"clean" not in found.content.replace(path.encode(), b"")
    assert wrong == []


def _may(who: str, wanted: Who | None, about_case: bool) -> bool:
    if wanted is None:
        return False
    if wanted not in RANK:
        return wanted is not Who.OPEN or who != "nobody"
    here = {"stranger": 0 if about_case else 2}.get(who, CAME[who])
    return here >= RANK[wanted]


def _is_let_in(found) -> bool:
    """Was it the page that answered? It says so itself; the guard only turns away."""
    return getattr(found.wsgi_request, "was_let_in", False)


def test_no_two_pages_have_one_name_or_one_address():
    """A name is an address."""
    assert len({each.name for each in ROUTES}) == len(ROUTES) == len({e.path for e in ROUTES})
