"""The story: what does not fit, which marks say the same, and the way to each of them."""

import re

from witnessmark.web.shared import desk
from witnessmark.weighing.kept_alike import Latest


def test_what_does_not_fit_stands_first_with_its_marks_and_photographs(owner, demo_case):
    """Each finding has an address of its own; the strip counts the same ones."""
    case = demo_case("altered")
    page = owner.get(f"/cases/{case}/story").content.decode()
    numbers = re.findall(r'id="finding-(\d+)"', page)
    assert numbers == [str(n) for n in range(1, len(numbers) + 1)]
    assert f"Does not fit: {len(numbers)}." in page
    assert page.index('id="finding-1"') < page.index('id="items"')
    found = page[page.index('id="finding-2"') :]
    found = found[: found.index("</li>")]
    assert f'href="/cases/{case}/evidence/engine_side"' in found
    assert re.search(rf'/cases/{case}/photographs/[\w-]+">photograph \d+</a>', found)


def test_each_part_of_the_story_leads_to_its_marks(owner, demo_case):
    """Items, the marks of one car and dates, each with the way to the place of the mark."""
    case = demo_case("altered")
    page = owner.get(f"/cases/{case}/story").content.decode()
    for part in ("items", "one-car", "dates"):
        section = page[page.index(f'<section id="{part}">') :]
        section = section[: section.index("</section>")]
        assert f'href="/cases/{case}/evidence/' in section, part
    assert "What was said, against what was found" in page
    assert "What cannot be established, and what bears on it" in page


def test_what_hangs_on_the_looks_left_follows_in_a_second_request(owner, demo_case, monkeypatch):
    """The page is examined at once; it asks for the whole, which is the same page, and then has
    it."""
    monkeypatch.setattr(desk, "_OPINIONS", Latest(desk.CASES_KEPT))
    case = demo_case("clean")
    page = owner.get(f"/cases/{case}/story").content.decode()
    part = page[page.index('<section id="unsettled"') :]
    part = part[: part.index("</section>")]
    assert 'hx-select="#unsettled"' in part
    assert f'<noscript><p><a href="/cases/{case}/story?whole=yes' in part
    for address in ("story?whole=yes", "story"):
        page = owner.get(f"/cases/{case}/{address}").content.decode()
        assert "is being worked out" not in page
        assert "What could move an answer" in page
