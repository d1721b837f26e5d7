"""`witnessmark case new`."""

import json

import pytest

NEW = ("case", "new", "my-sprint", "--book", "tarvane-1952-1961", "--id", "my-sprint")


def test_a_new_case_lists_every_site_that_the_book_expects(type_in, tmp_path):
    """Each as not looked for; the bulkhead only where Marrick built the body."""
    ended = type_in(*NEW, "--claim", "model_year=1955", "--claim", "body_works=marrick")
    assert (ended.code, ended.err) == (0, "")
    case = json.loads((tmp_path / "my-sprint/case.json").read_text("utf-8"))
    assert {site["state"] for site in case["sites"]} == {"not looked for"}
    assert "bulkhead" in [site["site"] for site in case["sites"]]
    assert (tmp_path / "my-sprint/exhibits").is_dir()


def test_a_new_case_holds_what_was_given(type_in, tmp_path):
    """Claim, client, purpose, title."""
    given = ("--title", "A [Sprint]", "--made-by", "the seller", "--client", "C", "--purpose", "P")
    type_in(*NEW, "--claim", "model=solent-sprint", *given)
    case = json.loads((tmp_path / "my-sprint/case.json").read_text("utf-8"))
    assert case["title"] == "A [Sprint]"
    assert case["claim"]["items"] == {"model": "solent-sprint"}
    assert case["claim"]["made_by"] == "the seller"
    assert (case["assignment"]["client"], case["assignment"]["purpose"]) == ("C", "P")


def test_a_new_case_has_no_fault(type_in):
    """What is made passes its own check."""
    assert type_in(*NEW, "--claim", "model_year=1955").code == 0
    ended = type_in("case", "check", "my-sprint")
    assert (ended.code, ended.err) == (0, "")


def test_a_case_that_is_there_is_never_touched(type_in, tmp_path):
    """The same command twice."""
    type_in(*NEW)
    before = (tmp_path / "my-sprint/case.json").read_bytes()
    ended = type_in(*NEW, "--title", "another")
    assert ended.code == 2
    assert "my-sprint/case.json" in ended.err
    assert (tmp_path / "my-sprint/case.json").read_bytes() == before


def test_all_faults_of_a_claim_are_shown_at_once_and_nothing_is_written(type_in, tmp_path):
    """An unknown item, an unknown model, half a number, a claim without a value."""
    claims = ("modl=x", "model=sprint", "chassis_number=12", "works")
    ended = type_in(*NEW, *(word for claim in claims for word in ("--claim", claim)))
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "--claim: 'modl' is not an item of the book tarvane-1952-1961\n"
        "    modl=x\n"
        "    ^^^^^^\n"
        "expected one of: model\n"
        "--claim: 'sprint' is not a model of the book tarvane-1952-1961\n"
        "    model=sprint\n"
        "    ^^^^^^^^^^^^\n"
        "expected one of: solent-sprint\n"
        "--claim: '12' is not a whole chassis number\n"
        "    chassis_number=12\n"
        "    ^^^^^^^^^^^^^^^^^\n"
        "expected 6 characters out of 0123456789, or as it stands on the car: 1??????, "
        "E??????, M??????\n"
        "--claim: 'works' is not ITEM=VALUE\n"
        "    works\n"
        "    ^^^^^\n"
        "expected ITEM=VALUE, in quotes when it holds a space, ?, ~, [ or |\n"
    )
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("case_id", ["", "a b", "../x", "-", "ä", "x" * 81])
def test_an_id_that_cannot_name_a_case_is_a_problem(type_in, tmp_path, case_id):
    """witnessmark case new f --book tarvane-1952-1961 --id ..."""
    ended = type_in("case", "new", "f", "--book", "tarvane-1952-1961", f"--id={case_id}")
    assert (ended.code, ended.out) == (2, "")
    assert "cannot name a case" in ended.err
    assert list(tmp_path.iterdir()) == []


def test_a_place_that_cannot_be_written_is_a_problem(type_in, tmp_path):
    """A file stands where a folder should go."""
    (tmp_path / "file").write_text("x")
    ended = type_in("case", "new", "file/f", "--book", "tarvane-1952-1961", "--id", "f")
    assert (ended.code, ended.out) == (2, "")
    assert "file/f" in ended.err


def test_one_item_is_not_claimed_in_two_ways(type_in, tmp_path):
    claims = ("--claim", "model=solent-sprint", "--claim", "model=solent-saloon")
    ended = type_in(*NEW, *claims)
    assert ended.code == 2
    assert "'model' is claimed more than once" in ended.err
    assert not (tmp_path / "my-sprint").exists()
