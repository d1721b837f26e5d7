"""The board: a line a case, found by what one remembers of it, and the ways a case comes in."""


def test_a_line_says_what_is_open_and_what_does_not_fit(owner, demo_case):
    """At first as far as it is known at once, then with what an examination says."""
    demo_case("altered")
    assert "being worked out" in owner.get("/").content.decode()
    told = owner.get("/board/worked-out").content.decode()
    assert 'hx-swap-oob="true" id="line-altered"' in told
    page = owner.get("/").content.decode()
    assert "being worked out" not in page
    assert "Does not fit:" in page


def test_new(owner, home):
    assert owner.get("/new").status_code == 200
    assert owner.get("/bring-in").status_code == 200
    r = owner.post("/new", {"book": "tarvane-1952-1961", "title": "A Sprint", "model_year": "1955", "model": "solent-sprint", "number": "700143"})
    assert r.status_code == 302, r.content.decode()
    assert owner.get("/cases/a-sprint/triage").status_code == 200
    assert owner.get(r["Location"]).status_code == 200
    print(owner.get("/cases/a-sprint/triage").content.decode())
