"""A backup made while others write is one moment's state; put back, everything is there."""

import json
import shutil
import zipfile
from itertools import count
from threading import Event, Thread
from time import sleep

import pytest
from django.contrib.auth.models import User
from django.db import connections

from tests.store.cases import AT, CASE, picture
from tests.store.stores import POSTGRESQL, SQLITE
from witnessmark import store
from witnessmark.store import people
from witnessmark.store.models import HeldRevision, LetIn, Person
from witnessmark.store.people import PassSpan
from witnessmark.store.snapshot import one_moment


@pytest.fixture
def other(kind, stores):
    """The other kind of database, where there is a server."""
    return SQLITE if kind == POSTGRESQL or stores.server is None else POSTGRESQL


def filled():
    """A store with something in every table."""
    store.begin(CASE, "Ines Calder", "began the case", AT)
    store.revise("sprint", 1, CASE.replace("V206", "V207"), who="a", did="x", at=AT)
    store.revise("sprint", 1, CASE.replace("V206", "V208"), who="b", did="y", at=AT)
    store.keep_exhibit(picture(1), "a.png", AT)
    user = User.objects.create(username="ines", password="as it is kept")
    person = Person.objects.create(user=user, role=Person.Role.OWNER, name="Ines", profile="{}")
    LetIn.objects.create(person=person, case_id="sprint")
    people.put_setting(people.FIRST_LOOK, True)
    years = PassSpan(AT, AT.replace(year=2046))
    token = people.make_pass("sprint", "executor", "the estate", "Ines", years)
    issue = {"number": "7", "issue": 1, "kind": "report", "by": "Ines", "at": AT}
    store.keep_report("sprint", 2, **issue, files={"report.pdf": b"%PDF"})
    return token


def everything(token):
    """What can be seen of a store."""
    return (
        store.cases(),
        store.revisions("sprint"),
        store.beside("sprint"),
        store.exhibit_path(store.keep_exhibit(picture(1), "", AT).sha256).read_bytes(),
        people.people(),
        people.seen_by(people.people()[0]),
        people.is_first_look_open(),
        people.pass_of(token, "executor", AT),
        store.reports("sprint"),
        store.report_path(store.reports("sprint")[0], "report.pdf").read_bytes(),
        User.objects.get().password,
        store.orphans(),
    )


def test_a_backup_holds_everything_and_goes_into_the_other_kind_of_database(
    home, other, stores, tmp_path
):
    token = filled()
    (home / "books-own").mkdir()
    (home / "books-own" / "book.toml").write_text("of one's own")
    (home / "secret.txt").write_text("no part of it")
    made = store.backup(tmp_path / "all.zip", AT)
    assert made.missing == ()
    before = everything(token)
    with stores.opened(other, is_bare=True) as elsewhere:
        found = store.restore(tmp_path / "all.zip")
        assert (found.rows, found.files, found.made_at) == (made.rows, made.files, AT)
        assert everything(token) == before
        assert (elsewhere / "books-own" / "book.toml").read_text() == "of one's own"
        assert not (elsewhere / "secret.txt").exists()
        # New rows get numbers that none has.
        store.revise("sprint", 2, CASE, who="a", did="on", at=AT)
        User.objects.create(username="brook")
        with pytest.raises(store.NotKeptError, match="this workshop already holds something"):
            store.restore(tmp_path / "all.zip")


def test_a_backup_under_writers_is_the_state_of_one_moment(home, stores, tmp_path):
    """Every revision in it has its exhibit, and the chain of each case is whole."""
    store.begin(CASE, "", "", AT)
    is_over, faults = Event(), []
    writers = [Thread(target=_write, args=(who, is_over, faults)) for who in (1, 2, 3)]
    for each in writers:
        each.start()
    try:
        made = []
        for n in range(2):
            made.append(store.backup(tmp_path / f"{n}.zip", AT))
            seen = store.head("sprint").number
            while store.head("sprint").number < seen + 3 and not faults:
                sleep(0.01)
    finally:
        is_over.set()
        for each in writers:
            each.join()
    assert faults == []
    last = store.head("sprint").number
    heads = []
    for n, each in enumerate(made):
        assert each.missing == ()
        with stores.opened(SQLITE):
            store.restore(tmp_path / f"{n}.zip")
            kept = store.revisions("sprint")
            assert [each.number for each in kept] == list(range(1, len(kept) + 1))
            assert [each.parent for each in kept[1:]] == [each.sha256 for each in kept[:-1]]
            for entry in json.loads(kept[-1].text).get("exhibits", ()):
                assert store.exhibit_path(entry["sha256"]).is_file()
            assert store.orphans().rows == ()
            heads.append(len(kept))
    assert heads[0] < heads[1] <= last


@pytest.mark.usefixtures("home")
def test_what_is_written_meanwhile_is_not_of_that_moment():
    store.begin(CASE, "", "", AT)
    with one_moment() as moment:
        assert HeldRevision.objects.using(moment).count() == 1
        store.revise("sprint", 1, CASE.replace("V206", "V207"), who="", did="", at=AT)
        assert HeldRevision.objects.using(moment).count() == 1
        assert HeldRevision.objects.count() == 2
    assert moment not in connections


def _write(who, is_over, faults):
    """A picture, then a revision that lists it, over and over."""
    try:
        for n in count():
            if is_over.is_set():
                return
            sha256 = store.keep_exhibit(picture(who * 100_000 + n, 8), "", AT).sha256
            seen = store.head("sprint")
            values = json.loads(seen.text)
            values.setdefault("exhibits", []).append({"id": sha256[:12], "sha256": sha256})
            store.revise("sprint", seen.number, json.dumps(values), who="", did="", at=AT)
    except Exception as fault:  # seen by the test, whatever it is
        faults.append(fault)
    finally:
        connections["default"].close()


def rewritten(source, target, change):
    """A backup whose files were changed: a name to other bytes, or to None."""
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(target, "w") as new:
        for name in old.namelist():
            content = change.get(name, old.read(name))
            if content is not None:
                new.writestr(name, content)
        for name in change.keys() - set(old.namelist()):
            new.writestr(name, change[name])


def test_a_backup_in_which_one_file_does_not_fit_is_refused_whole(home, stores, tmp_path):
    filled()
    whole = tmp_path / "whole.zip"
    store.backup(whole, AT)
    with zipfile.ZipFile(whole) as archive:
        manifest = archive.read("manifest.json").decode()
        exhibit = next(name for name in archive.namelist() if name.startswith("exhibits/"))
        report = next(name for name in archive.namelist() if name.startswith("issued/"))
    rows = "rows/store.heldrevision.jsonl"
    up = {"files": {"../up.txt": {"size": 1, "sha256": "0"}}}
    newer = {"migrations": {"store": "9999_later"}}
    told = json.loads(manifest)
    cases = {
        f"'{exhibit}' in the backup is not what was written there: its SHA-256": {
            exhibit: picture(2)
        },
        f"'{report}' in the backup is not what was written there: it is not there": {report: None},
        f"'{rows}' in the backup is not": {rows: b"{}\n"},
        "'exhibits/stray' in the backup": {"exhibits/stray": b"x"},
        "'../up.txt' in the backup": {
            "../up.txt": b"x",
            "manifest.json": json.dumps({**told, "files": {**told["files"], **up["files"]}}),
        },
        r"a newer version of Witnessmark has written this \(store 9999_later\)": {
            "manifest.json": json.dumps({**told, **newer})
        },
        r"a newer version of Witnessmark has written this \(backup format 2\)": {
            "manifest.json": json.dumps({**told, "format_version": 2})
        },
        "this is no whole backup: it has no manifest.json": {"manifest.json": None},
    }
    spoilt = {says: tmp_path / f"{n}.zip" for n, says in enumerate(cases)}
    for says, change in cases.items():
        rewritten(whole, spoilt[says], change)
    cut = tmp_path / "cut.zip"
    cut.write_bytes(whole.read_bytes()[:-200])
    spoilt["cut.zip: this is no whole backup"] = cut
    flipped = bytearray(whole.read_bytes())
    flipped[flipped.find(picture(1)[:40]) + 300] ^= 1
    (tmp_path / "flipped.zip").write_bytes(flipped)
    says = f"'{exhibit}' in the backup is not what was written there: Bad CRC"
    spoilt[says] = tmp_path / "flipped.zip"
    spoilt["nowhere.zip: this is no whole backup: No such file"] = tmp_path / "nowhere.zip"
    with stores.opened(SQLITE) as elsewhere:
        for says, path in spoilt.items():
            with pytest.raises(store.NotKeptError, match=says):
                store.restore(path)
        assert list(elsewhere.iterdir()) == []
        store.restore(whole)
        assert [each.id for each in store.cases()] == ["sprint"]
    assert not (tmp_path / "up.txt").exists()


def test_an_exhibit_that_is_gone_or_spoilt_is_told_and_hinders_no_backup(home, stores, tmp_path):
    filled()
    kept = store.keep_exhibit(picture(2), "b.png", AT)
    store.exhibit_path(kept.sha256).write_bytes(b"spoilt")
    made = store.backup(tmp_path / "all.zip", AT)
    assert made.missing == (f"exhibits/{kept.sha256[:2]}/{kept.file}",)
    with stores.opened(SQLITE):
        assert store.restore(tmp_path / "all.zip").missing == made.missing
        assert store.orphans().rows == made.missing
    shutil.rmtree(home / "exhibits")
    with pytest.raises(store.NotKeptError, match="no backup was made"):
        store.backup(tmp_path / "nowhere" / "all.zip", AT)


def test_a_new_store_is_made_without_a_backup_and_one_that_is_up_to_date_is_left_alone(
    home, kind, stores
):
    with stores.opened(kind, is_bare=True) as bare:
        made = store.migrate_home(AT)
        assert "store 0001_begins" in made.steps
        assert made.backup is None
        assert store.migrate_home(AT) == store.BroughtUp(steps=(), backup=None)
        assert list(bare.iterdir()) == []


def test_an_older_store_is_brought_up_after_a_backup_that_can_be_put_back(home, stores, kind):
    """A step that is not applied yet stands for that of a new version."""
    token = filled()
    before = everything(token)
    with connections["default"].cursor() as cursor:
        cursor.execute("delete from django_migrations where app = 'sessions'")
        cursor.execute("drop table django_session")
    done = store.migrate_home(AT)
    assert done.steps == ("sessions 0001_initial",)
    assert done.backup == home / "backups" / "20260514-103007-before-sessions-0001_initial.zip"
    assert everything(token) == before
    with stores.opened(kind, is_bare=True):
        store.restore(done.backup)
        assert everything(token) == before


@pytest.fixture
def _newer(home):
    """A step of a newer version was applied; the next test on the same server finds it gone."""
    with connections["default"].cursor() as cursor:
        cursor.execute(
            "insert into django_migrations (app, name, applied)"
            " values ('store', '9999_later', current_timestamp)"
        )
    yield
    with connections["default"].cursor() as cursor:
        cursor.execute("delete from django_migrations where name = '9999_later'")


@pytest.mark.usefixtures("_newer")
def test_a_store_that_a_newer_version_has_written_is_left_alone():
    with pytest.raises(store.NotKeptError, match=r"has written this \(store 9999_later\)"):
        store.migrate_home(AT)
