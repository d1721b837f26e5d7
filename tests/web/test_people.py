"""People: accounts, roles, and who is let into which case."""

from witnessmark.store import people


def test_an_assistant_is_made_let_in_and_let_go(owner, demo_case):
    """Through the page's own forms; a second account of one name is told at its field."""
    case = demo_case()
    asked = {"name": "Ben", "role": "assistant", "password": "tan leather 12"}
    assert owner.post("/people", asked).status_code == 302
    ben = next(each for each in people.people() if each.name == "Ben")
    assert b"has an account" in owner.post("/people", asked).content
    owner.post(f"/people/{ben.id}", {"deed": "cases", "case": case})
    assert people.may_see(ben, case)
    owner.post(f"/people/{ben.id}", {"deed": "cases"})
    assert not people.may_see(ben, case)
    owner.post(f"/people/{ben.id}", {"deed": "let go"})
    assert ben not in people.people()


def test_the_last_owner_stays(owner):
    """Neither let go nor made a reader."""
    only = people.people()[0]
    for form in ({"deed": "let go"}, {"deed": "role", "role": "reader"}):
        refused = owner.post(f"/people/{only.id}", form)
        assert refused.status_code == 422
        assert b"last owner" in refused.content
    assert people.people()[0].role == "owner"


def test_a_password_that_everybody_tries_is_not_taken(owner):
    """Short or common ones are told at the field."""
    asked = {"name": "Ben", "role": "reader", "password": "password12"}
    assert owner.post("/people", asked | {"password": "short"}).status_code == 422
    assert len(people.people()) == 1
