"""The door: the first owner, signing in, and how long somebody waits who guesses."""

from django.test import Client

from witnessmark.web.sign_in.attempts import Attempts


def test_whoever_opens_a_new_workshop_on_its_own_machine_owns_it(home):
    """The first page asks for an owner, and nobody becomes one a second time."""
    browser = Client()
    assert browser.get("/").headers["Location"] == "/first-owner"
    form = {"name": "Ada", "password": "oxblood seats", "again": "oxblood seats"}
    assert browser.post("/first-owner", form).headers["Location"] == "/"
    assert browser.get("/").status_code == 200
    assert Client().get("/first-owner").status_code == 404


def test_nobody_on_another_machine_becomes_the_first_owner(home):
    """Only the machine itself has the page."""
    assert Client(REMOTE_ADDR="192.0.2.7").get("/first-owner").status_code == 404


def test_a_wrong_password_is_told_and_the_right_one_goes_where_somebody_wanted_to(signed_in):
    """The page asked for comes after the door; one of another workshop does not."""
    signed_in("owner", "Ada")
    browser = Client()
    assert browser.get("/people").status_code in (302, 404)
    wrong = browser.post("/sign-in", {"name": "Ada", "password": "guessed", "next": "/look"})
    assert wrong.status_code == 403
    assert b"do not belong together" in wrong.content
    right = {"name": "Ada", "password": "a long password", "next": "https://elsewhere.example/"}
    assert browser.post("/sign-in", right).headers["Location"] == "/"


def test_who_guesses_waits_longer_each_time():
    """Five wrong ones are free; another name from the same address waits, too."""
    attempts = Attempts()
    for _ in range(4):
        attempts.note("Ada", "192.0.2.7")
    assert attempts.seconds_to_wait("Ada", "192.0.2.7") == 0
    waits = []
    for _ in range(4):
        attempts.note("Ada", "192.0.2.7")
        waits.append(attempts.seconds_to_wait("Ben", "192.0.2.7"))
    assert waits == sorted(set(waits))
    assert waits[0] >= 1
    attempts.forget("Ada", "192.0.2.7")
    assert attempts.seconds_to_wait("Ada", "192.0.2.7") == 0


def test_nobody_is_locked_out_by_who_guesses_elsewhere():
    """Nor does whoever signs in as somebody else take back what they guessed."""
    attempts = Attempts()
    for _ in range(9):
        attempts.note("Ada", "192.0.2.7")
    assert attempts.seconds_to_wait("Ada", "127.0.0.1") == 0
    attempts.forget("Ben", "192.0.2.7")
    assert attempts.seconds_to_wait("Ada", "192.0.2.7") > 0
    assert attempts.seconds_to_wait("Ben", "192.0.2.7") == 0
