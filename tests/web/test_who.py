"""Every page asked for as everybody: the table of routes is held against what really happens."""

import re
from importlib import import_module
from types import SimpleNamespace

import pytest
from django.http import HttpResponse
from django.test import Client
from django.urls import reverse

from witnessmark.web import urls
from witnessmark.web.route import Who
from witnessmark.web.routes import ROUTES

RANK = {Who.OWNER: 3, Who.ASSISTANT: 2, Who.READER: 1}
CAME = {"owner": 3, "assistant": 2, "reader": 1, "stranger": 2, "nobody": 0}
"""How far each comes; a stranger is an assistant who was not let into the case."""
LET_IN = b"let in"


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


def test_each_page_lets_in_whom_the_table_names_and_nobody_else(browsers, monkeypatch):
    """By GET and by POST; whoever is turned away learns nothing of a case that is not theirs."""
    page = SimpleNamespace(**{
        each.view.partition(":")[2]: lambda request, **_: HttpResponse(LET_IN) for each in ROUTES
    })  # fmt: skip
    monkeypatch.setattr(urls, "import_module", lambda name: page)
    wrong = []
    for route in ROUTES:
        path = address(route)
        for who, browser in browsers.items():
            for method, wanted in (("get", route.see), ("post", route.write)):
                found = getattr(browser, method)(path)
                is_in = found.content == LET_IN
                if is_in != may(who, wanted, "<case:case>" in route.path):
                    wrong.append((route.name, who, method, found.status_code))
                if who == "stranger" and not is_in:
                    assert b"clean" not in found.content.replace(path.encode(), b"")
    assert wrong == []


def test_every_page_of_the_table_is_there():
    """A view that cannot be imported is named."""
    views = [each.view.partition(":") for each in ROUTES]
    missing = [
        f"{module}:{name}"
        for module, _, name in views
        if not callable(getattr(import_module(f"witnessmark.web.{module}"), name, None))
    ]
    assert missing == []


def test_a_pass_that_nobody_gave_opens_nothing(home):
    """A page that looks at a pass itself: by GET and by POST there is nothing."""
    opened = [
        (route.name, method, found.status_code)
        for route in ROUTES
        for method, wanted in (("get", route.see), ("post", route.write))
        if wanted is Who.PASS
        and (found := getattr(Client(), method)(address(route))).status_code != 404
    ]
    assert opened == []


def test_no_two_pages_have_one_name_or_one_address():
    """A name is an address."""
    assert len({each.name for each in ROUTES}) == len(ROUTES) == len({e.path for e in ROUTES})


def address(route) -> str:
    """Its address, about the case `clean`; what else stands in it is not there."""
    parts = re.findall(r"<(?:(\w+):)?(\w+)>", route.path)
    made = {name: 9 if kind == "int" else "clean" if kind == "case" else "none"
            for kind, name in parts}  # fmt: skip
    return reverse(route.name, kwargs=made)


def may(who: str, wanted: Who | None, is_about_case: bool) -> bool:
    """As the table says."""
    if wanted is None:
        return False
    if wanted not in RANK:
        return wanted is not Who.OPEN or who != "nobody"
    if who == "stranger" and is_about_case:
        return False
    return CAME[who] >= RANK[wanted]
