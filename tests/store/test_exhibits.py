"""Exhibits by their digest, whole or not at all; reports as they were issued."""

import hashlib
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

import pytest

from tests.store.cases import AT, CASE, picture
from witnessmark import store
from witnessmark.store.models import FrozenRowError, HeldExhibit

PNG = picture(1)
NAMED = hashlib.sha256(PNG).hexdigest()


def files(home: Path) -> list[str]:
    return sorted(p.relative_to(home).as_posix() for p in home.rglob("*") if p.is_file())


def test_a_picture_lies_under_its_digest_byte_for_byte(home):
    kept = store.keep_exhibit(BytesIO(PNG), "IMG_1.png", AT)
    assert (kept.sha256, kept.size, kept.media_type) == (NAMED, len(PNG), "image/png")
    assert (kept.width_px, kept.height_px, kept.at) == (48, 48, AT)
    assert files(home) == [f"exhibits/{NAMED[:2]}/{NAMED}.png"]
    assert store.exhibit_path(NAMED).read_bytes() == PNG
    assert store.keep_exhibit(PNG, "again.png", datetime.now(UTC)) == kept
    assert store.exhibit(NAMED) == kept


def test_a_file_that_no_exhibit_can_be_leaves_nothing_behind(home):
    for content, says in (
        (b"<html><script>", "'visit/x.png' is of a kind that cannot be read"),
        (PNG[:-20], "'visit/x.png' breaks off before its end"),
        (b"", "'visit/x.png' is of a kind that cannot be read"),
    ):
        with pytest.raises(store.NotKeptError, match=says):
            store.keep_exhibit(content, "visit/x.png", AT)
    with pytest.raises(store.NotKeptError, match=r"'visit/x.png' is larger than 50 MB"):
        store.keep_exhibit(Endless(), "visit/x.png", AT)
    assert files(home) == []
    assert HeldExhibit.objects.count() == 0
    with pytest.raises(store.NotKeptError, match=r"no exhibit has the SHA-256 '../secret'"):
        store.exhibit_path("../secret")


class Endless:
    """A sender who never ends."""

    def read(self, size: int) -> bytes:
        return bytes(size)


def test_what_does_not_fit_is_named_and_a_spoilt_file_is_mended_by_its_like(home):
    kept = store.keep_exhibit(PNG, "a.png", AT)
    path = store.exhibit_path(NAMED)
    path.write_bytes(b"spoilt")
    store.keep_exhibit(PNG, "a.png", AT)
    assert path.read_bytes() == PNG
    path.rename(path.with_name("stray.png"))
    (home / "coming" / "half").write_bytes(b"half")
    found = store.orphans()
    assert found.rows == (f"exhibits/{NAMED[:2]}/{kept.file}",)
    assert found.files == (Path(f"exhibits/{NAMED[:2]}/stray.png"),)
    assert found.unfinished == (Path("coming/half"),)
    assert store.forget_unfinished(datetime(2000, 1, 1, tzinfo=UTC)) == 0
    assert store.forget_unfinished(datetime(2999, 1, 1, tzinfo=UTC)) == 1
    assert store.orphans().unfinished == ()
    with pytest.raises(FrozenRowError):
        HeldExhibit.objects.all().delete()


def test_a_report_stays_as_it_was_issued(home):
    store.begin(CASE, "", "", AT)
    documents = {"report.pdf": b"%PDF of this day", "prüfung.html": b"<p>"}
    issue = {"number": "2026-7", "issue": 1, "kind": "report", "by": "Ines Calder", "at": AT}
    kept = store.keep_report("sprint", 1, **issue, files=documents)
    assert store.reports("sprint") == (kept,)
    assert (kept.number, kept.issue, kept.revision, kept.at) == ("2026-7", 1, 1, AT)
    assert store.report_path(kept, "report.pdf").read_bytes() == documents["report.pdf"]
    assert store.report_path(kept, "../secret.txt") is None
    assert store.orphans() == store.Orphans(files=(), rows=(), unfinished=())
    with pytest.raises(store.NotKeptError, match="issue 1 of the report '2026-7' has been issued"):
        store.keep_report("sprint", 1, **issue, files={})
