"""Reports as they were issued: what was handed over, byte for byte, never changed.

Each document lies as `issued/ab/abcdef…`, by its digest.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping
from datetime import datetime
from io import BytesIO
from pathlib import Path

from django.db import IntegrityError, transaction

from witnessmark.source import NOWHERE
from witnessmark.store.digest_files import home, put_in_place, received_file
from witnessmark.store.models import IssuedReport
from witnessmark.store.moments import columns, moment
from witnessmark.store.problems import NotKeptError, ReportHeld
from witnessmark.store.records import KeptReport
from witnessmark.store.revising import revision


def keep_report(
    case: str,
    revision_number: int,
    *,
    number: str,
    issue: int,
    kind: str,
    by: str,
    at: datetime,
    files: Mapping[str, bytes],
) -> KeptReport:
    """Keep the documents of an issue; each number, issue and kind once."""
    revision(case, revision_number)
    digests = {name: hashlib.sha256(content).hexdigest() for name, content in files.items()}
    for name, content in files.items():
        with received_file(BytesIO(content)) as beside:
            put_in_place(beside, _place(digests[name]))
    row = IssuedReport(
        case_id=case,
        number=number,
        issue=issue,
        revision=revision_number,
        by=by,
        kind=kind,
        files=json.dumps(digests, ensure_ascii=False),
        **columns(at),
    )
    try:
        with transaction.atomic():
            row.save()
    except IntegrityError:
        raise NotKeptError((ReportHeld(NOWHERE, number, issue),)) from None
    return _kept(row)


def reports(case: str) -> tuple[KeptReport, ...]:
    """Every report of a case that was issued, the first one first."""
    return tuple(map(_kept, IssuedReport.objects.filter(case_id=case).order_by("at", "id")))


def numbers_issued() -> frozenset[str]:
    """The numbers of all reports that were issued here."""
    return frozenset(IssuedReport.objects.values_list("number", flat=True))


def report_path(kept: KeptReport, name: str) -> Path | None:
    """Where a document of an issue lies; None where it has none of this name."""
    sha256 = kept.files.get(name)
    return None if sha256 is None else _place(sha256)


def files_issued(rows: Iterable[str]) -> set[str]:
    """The paths of the documents that these rows name, from the workshop's folder."""
    return {f"issued/{each[:2]}/{each}" for row in rows for each in json.loads(row).values()}


def _place(sha256: str) -> Path:
    return home() / "issued" / sha256[:2] / sha256


def _kept(row: IssuedReport) -> KeptReport:
    return KeptReport(
        id=row.pk,
        case=row.case_id,
        number=row.number,
        issue=row.issue,
        revision=row.revision,
        kind=row.kind,
        by=row.by,
        at=moment(row.at, row.offset_minutes),
        files=json.loads(row.files),
    )
