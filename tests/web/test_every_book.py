"""Every page of a case, on the standard car of every shipped book and of a small book of every
kind: each opens, and none shows what only a program would write."""

import re
import shutil

import pytest

from tests.worked.situations import document
from tests.worked.situations.standard import STANDARD
from witnessmark import store

from .conftest import WHEN

pytestmark = pytest.mark.prove

PAGES = ("claim", "plan", "evidence", "story", "weight", "report", "history", "triage")
UNWRITTEN = re.compile(r"\bNone\b|\{\{|\{%|Traceback|object at 0x|\bnan\b|\binf\b")
MARKUP = re.compile(r"<(script|style|svg|title)[^>]*>.*?</\1>|<[^>]+>", re.DOTALL)
LEADS = re.compile(r'(?:href|hx-get)="([^"#?]*)')


@pytest.mark.parametrize("name", STANDARD)
def test_every_page_of_a_case_opens_and_is_written_for_people(name, owner, home):
    """From the eight pages of the way to each place, each worth and each message."""
    shutil.copytree(document.BOOKS, home / "books")
    text = document.document(STANDARD[name])
    case = store.begin(text, "Ada", "opened", WHEN).case
    waiting, seen = [f"/cases/{case}/{page}" for page in PAGES], set()
    while waiting:
        path = waiting.pop()
        if path in seen:
            continue
        seen.add(path)
        answer = owner.get(path, follow=True)
        assert answer.status_code in (200, 202), path
        if not answer.headers["Content-Type"].startswith("text/html"):
            continue
        page = answer.content.decode()
        found = UNWRITTEN.search(MARKUP.sub(" ", page))
        assert found is None, f"{path}: {found}"
        waiting += [
            lead
            for lead in LEADS.findall(page)
            if lead.startswith(f"/cases/{case}/")
            and "/documents/" not in lead
            and not lead.endswith("folder.zip")
        ]
    assert len(seen) > 2 * len(PAGES)
