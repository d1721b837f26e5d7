"""The plan: what to look at in the time there is; what the claim would have is kept back."""

from witnessmark import store


def test_the_walk_shows_each_place_and_keeps_back_what_the_claim_would_have(owner, demo_case):
    """Only who asks for it is shown it."""
    case = demo_case("no-papers")
    page = owner.get(f"/cases/{case}/plan").content.decode()
    assert page.count('<li value="') == page.count("/evidence/") > 5
    assert "If the claim is true" not in page
    assert "· ·" not in page
    shown = owner.get(f"/cases/{case}/plan/expectations").content.decode()
    assert "If the claim is true" in shown
    assert "Read this when everything is written down" in shown


def test_the_minutes_mark_the_best_looks_and_are_kept_in_the_case(owner, demo_case):
    """By its form with or without script; a number that is none is told and nothing is saved."""
    case = demo_case("no-papers")
    path = f"/cases/{case}/plan"
    parts = owner.post(path, {"minutes": "30", "base": "1"}, headers={"HX-Request": "true"})
    assert b'id="walk" hx-swap-oob="true"' in parts.content
    assert b"Revision 2, saved" in parts.content
    answer = owner.post(path, {"minutes": "30", "base": "2"})
    assert (answer.status_code, answer.headers["Location"]) == (302, path)
    page = owner.get(path).content.decode()
    assert "look here first" in page
    assert "Time available: 30 minutes" in page
    wrong = owner.post(path, {"minutes": "half an hour", "base": "2"})
    assert wrong.status_code == 422
    assert b'value="half an hour"' in wrong.content
    assert b'class="problem"' in wrong.content
    assert store.head(case).number == 2


def test_a_reader_asks_about_minutes_and_changes_nothing(signed_in, demo_case):
    """The same form asks, and the case stays."""
    case = demo_case("no-papers")
    reader = signed_in("reader", cases=(case,))
    assert "look here first" in reader.get(f"/cases/{case}/plan?minutes=30").content.decode()
    assert reader.post(f"/cases/{case}/plan", {"minutes": "30"}).status_code == 403
    assert store.head(case).number == 1


def test_messages_are_texts_to_copy(owner, demo_case):
    """What goes to the seller holds no number; a letter holds it and says so."""
    case = demo_case("no-papers")
    for path in ("questions", "picture-request?reply_to=ada@example.org"):
        page = owner.get(f"/cases/{case}/plan/{path}").content.decode()
        text = page.partition("<textarea")[2].partition("</textarea>")[0]
        assert len(text) > 300
        assert "700157" not in text
    assert "ada@example.org" in text
    letter = owner.get(f"/cases/{case}/plan/letters/archive?file")
    assert "number 700157" in letter.content.decode()
    assert letter.headers["Content-Disposition"] == 'attachment; filename="archive.txt"'
    assert owner.get(f"/cases/{case}/plan/letters/anybody").status_code == 404


def test_under_a_stop_nothing_is_asked_of_the_seller_or_of_an_owner(owner, demo_case):
    """Neither offered on the plan, nor written when it is asked for by its address."""
    case = demo_case("altered")
    page = owner.get(f"/cases/{case}/plan").content.decode()
    assert "Stop here" in page
    for path in ("questions", "picture-request", "letters/earlier-owner"):
        assert f"/plan/{path}" not in page
        told = owner.get(f"/cases/{case}/plan/{path}").content.decode()
        assert "Nothing was written." in told
        assert "<textarea" not in told
    assert owner.get(f"/cases/{case}/documents/picture-request/a4").status_code == 404
