"""A workshop of its own for each test: an empty folder, an empty store, people who are let in."""

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from django.test import Client

from tests.examined import examined_once
from witnessmark import store
from witnessmark.examination import Opinion, examine
from witnessmark.store import accounts, people
from witnessmark.web.report.worker import Lane
from witnessmark.web.shared import desk
from witnessmark.web.shared.desk import Bench

DEMO = Path(__file__).resolve().parents[2] / "demo"
WHEN = datetime(2026, 3, 2, 9, 30, tzinfo=UTC)


@pytest.fixture
def home(tmp_path, settings, db) -> Path:
    """The folder of the workshop; passwords are quick to check."""
    settings.WITNESSMARK_HOME = tmp_path
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    return tmp_path


@pytest.fixture(autouse=True)
def _examined_once(monkeypatch) -> None:
    """What another test has had examined is not examined again, but for its bands."""

    def examined(*asked: Any, steady: bool, at_once: bool) -> Opinion:
        if steady or at_once:
            return examine(*asked, steady=steady, at_once=at_once)
        return examined_once(*asked, steady=False)

    monkeypatch.setattr(desk, "examine", examined)


@pytest.fixture
def signed_in(home) -> Callable[..., Client]:
    """A browser in which somebody of this role, let into these cases, is signed in."""

    def signed_in(role: str, name: str = "", cases: tuple[str, ...] = ()) -> Client:
        name = name or f"the {role}"
        user_id = accounts.add_person(name, "a long password", role)
        client = Client(enforce_csrf_checks=False)
        assert client.login(username=name, password="a long password")
        person = next(each for each in people.people() if each.user_id == user_id)
        for case in cases:
            people.let_in(person.id, case)
        return client

    return signed_in


@pytest.fixture
def owner(signed_in) -> Client:
    """The owner's browser."""
    return signed_in("owner")


@pytest.fixture
def demo_case(home) -> Callable[..., str]:
    """A demonstration case in the store, with its exhibits where asked for; gives its id."""

    def demo_case(name: str = "clean", exhibits: bool = False) -> str:
        kept = store.begin((DEMO / name / "case.json").read_text("utf-8"), "Ada", "opened", WHEN)
        for each in sorted((DEMO / name / "exhibits").iterdir()) if exhibits else ():
            store.keep_exhibit(each.read_bytes(), each.name, WHEN)
        return kept.case

    return demo_case


class Behind:
    """What was asked to be made behind a page: it waits until a test lets it be made."""

    def __init__(self) -> None:
        self.waiting: dict[str, Callable[[], None]] = {}

    def ask(self, _lane: Lane, key: str, job: Callable[[], None]) -> bool:
        """It waits."""
        self.waiting.setdefault(key, job)
        return True

    def make(self) -> int:
        """Make all that waits, here and now; gives how much that was."""
        jobs, self.waiting = tuple(self.waiting.values()), {}
        for job in jobs:
            job()
        return len(jobs)


@pytest.fixture(autouse=True)
def behind(monkeypatch) -> Behind:
    """Nothing is made in another thread."""
    found = Behind()
    monkeypatch.setattr(Lane, "ask", lambda lane, key, job: found.ask(lane, key, job))
    monkeypatch.setattr(Lane, "is_asked", lambda _lane, key: key in found.waiting)
    return found


@pytest.fixture
def quick(monkeypatch) -> None:
    """Nobody waits for how far an answer rests on assumptions."""
    monkeypatch.setattr(Bench, "steady", property(lambda bench: bench.opinion))
