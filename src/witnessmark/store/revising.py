"""How a save travels: a change meets what has become of its base, and is a revision of its own.

A transaction each, and one writer of a case at a time: whoever gives a change back to its sender
has it on the disk.
"""

import json
from collections.abc import Iterable
from datetime import datetime
from typing import Any

from django.db import IntegrityError, transaction
from django.db.models import OuterRef, Subquery

from witnessmark.casefile.revisions import digest
from witnessmark.source import NOWHERE
from witnessmark.store.document import Document, document, values_of
from witnessmark.store.meeting import ABSENT, Difference, merge
from witnessmark.store.models import HeldCase, HeldRevision, WrittenBeside
from witnessmark.store.moments import columns, moment
from witnessmark.store.problems import (
    BesideNotHeld,
    CaseHeld,
    CaseNotHeld,
    CaseOtherwiseNamed,
    NotKeptError,
    RevisionNotHeld,
    readable,
)
from witnessmark.store.records import KeptBeside, KeptCase, KeptChange, KeptRevision, Revised

MINE, THEIRS = "mine", "theirs"
"""What is kept of a difference."""


def begin(text: str, who: str, did: str, at: datetime) -> KeptRevision:
    """Hold a new case; its id is that of the document."""
    opened = document(text)
    try:
        with transaction.atomic():
            held = HeldCase(id=opened.id, made_at=at)
            held.save(force_insert=True)
            return _add(held, None, text, who=who, did=did, at=at)
    except IntegrityError:
        raise NotKeptError((CaseHeld(opened.places.source(("id",)), opened.id),)) from None


def head(case: str) -> KeptRevision:
    """The revision of a case that stands."""
    return kept_revision(_head(case))


def revision(case: str, number: int) -> KeptRevision:
    """The revision of this number."""
    return kept_revision(_revision(case, number))


def revisions(case: str) -> tuple[KeptRevision, ...]:
    """All revisions of a case, the first one first."""
    found = HeldRevision.objects.filter(case_id=case).order_by("number")
    return tuple(map(kept_revision, found)) or _missing(case)


def changes(case: str) -> tuple[KeptChange, ...]:
    """How all revisions of a case came about, without their texts; the first one first."""
    found = HeldRevision.objects.filter(case_id=case).order_by("number").defer("text", "filed")
    return tuple(KeptChange(**_change(each)) for each in found) or _missing(case)


def cases(put_away: bool = False) -> tuple[KeptCase, ...]:
    """The cases that are held and not put away, or those that are; the newest first."""
    found = HeldCase.objects.filter(put_away=put_away).order_by("-made_at", "id")
    return tuple(
        KeptCase(id=each.id, made_at=each.made_at, is_put_away=each.put_away) for each in found
    )


def heads(case_ids: Iterable[str]) -> dict[str, KeptRevision]:
    """The revision that stands of each of these cases, in one question."""
    found = HeldRevision.objects.filter(case_id__in=list(case_ids), number=_last_number())
    return {each.case_id: kept_revision(each) for each in found}


def digests(case_ids: Iterable[str]) -> dict[str, str]:
    """The SHA-256 of what stands of each of these cases, in one question that reads no text."""
    found = HeldRevision.objects.filter(case_id__in=list(case_ids), number=_last_number())
    return dict(found.values_list("case_id", "sha256"))


def _last_number() -> Subquery:
    """The number of the revision that stands of the case of a revision."""
    own = HeldRevision.objects.filter(case_id=OuterRef("case_id"))
    return Subquery(own.order_by("-number").values("number")[:1])


def put_away(case: str, is_away: bool = True) -> None:
    """Put a case out of sight, or back; nothing of it goes."""
    if not HeldCase.objects.filter(id=case).update(put_away=is_away):
        _missing(case)


def revise(
    case: str,
    base: int,
    text: str,
    *,
    who: str,
    did: str,
    at: datetime,
    undoes: int | None = None,
) -> Revised:
    """Keep a change of the revision `base`; where others were faster, both are put together.

    So one change is taken back, and what came after it stays: by the text before it, as a change
    of the revision that it made.
    """
    mine = document(text)
    if mine.id != case:
        raise NotKeptError((CaseOtherwiseNamed(mine.places.source(("id",)), mine.id, case),))
    readable(who=who, did=did)
    with transaction.atomic():
        held = _locked(case)
        now = _head(case)
        if text == now.text:
            return Revised(kept=kept_revision(now), beside=(), is_new=False)
        differences: tuple[Difference, ...] = ()
        if base != now.number:
            theirs = document(now.text)
            met = merge(values_of(_revision(case, base).text), theirs.values, mine.values)
            text, differences = theirs.saying(met.value), met.beside
        is_new, kept = text != now.text, kept_revision(now)
        if is_new:
            kept = _add(held, now, text, who=who, did=did, at=at, undoes=undoes)
        beside = tuple(_put_beside(held, kept.number, each, who, at) for each in differences)
        return Revised(kept=kept, beside=beside, is_new=is_new)


def beside(case: str, is_settled: bool = False) -> tuple[KeptBeside, ...]:
    """What two people wrote differently and nobody has settled, or what was settled."""
    found = WrittenBeside.objects.filter(case_id=case, settled_at__isnull=not is_settled)
    return tuple(map(_beside, found.order_by("id")))


def settle(beside_id: int, keep: str, who: str, at: datetime) -> Revised:
    """Let `theirs` stand, which the document says, or put `mine` there, as a revision."""
    if keep not in (MINE, THEIRS):
        raise ValueError(f"{keep!r} is neither {MINE} nor {THEIRS}")
    readable(who=who)
    with transaction.atomic():
        row = WrittenBeside.objects.select_for_update().filter(id=beside_id).first()
        if row is None or row.settled_at is not None:
            raise NotKeptError((BesideNotHeld(NOWHERE, beside_id),))
        row.settled_at, row.settled_by, row.kept = at, who, keep
        row.save()
        if keep == THEIRS:
            return Revised(kept=head(row.case_id), beside=(), is_new=False)
        found = document(_revision(row.case_id, row.revision).text)
        text = _with_mine(found, _beside(row))
        did = f"kept the other of two entries at {_named(json.loads(row.path))}"
        return revise(row.case_id, row.revision, text, who=who, did=did, at=at)


def _with_mine(found: Document, kept: KeptBeside) -> str:
    """The document with what was kept beside it in its place."""
    values = json.loads(found.places.text)
    owner = values
    for step in kept.path[:-1]:
        owner = owner[step]
    last: Any = kept.path[-1]
    if kept.mine is ABSENT:
        del owner[last]
    elif isinstance(owner, list) and kept.theirs is ABSENT:
        owner.append(kept.mine)
    else:
        owner[last] = kept.mine
    return found.saying(values)


def _named(path: Iterable[str | int]) -> str:
    """A path as a person reads it.

    >>> _named(["readings", 0, "text"])
    'readings 1 text'
    """
    return " ".join(str(step + 1) if isinstance(step, int) else step for step in path)


def _locked(case: str) -> HeldCase:
    """The case, which nobody else changes until the transaction ends."""
    return HeldCase.objects.select_for_update().filter(id=case).first() or _missing(case)


def _head(case: str) -> HeldRevision:
    found = HeldRevision.objects.filter(case_id=case).order_by("-number").first()
    return found or _missing(case)


def _revision(case: str, number: int) -> HeldRevision:
    found = HeldRevision.objects.filter(case_id=case, number=number).first()
    if found is None:
        raise NotKeptError((RevisionNotHeld(NOWHERE, case, number),))
    return found


def _missing(case: str) -> Any:
    raise NotKeptError((CaseNotHeld(NOWHERE, case),))


def _add(
    held: HeldCase,
    parent: HeldRevision | None,
    text: str,
    *,
    who: str,
    did: str,
    at: datetime,
    undoes: int | None = None,
) -> KeptRevision:
    readable(who=who, did=did)
    made = HeldRevision(
        case=held,
        number=parent.number + 1 if parent else 1,
        parent_sha256=parent.sha256 if parent else "",
        sha256=digest(text.encode("utf-8")),
        who=who,
        did=did,
        undoes=undoes,
        text=text,
        **columns(at),
    )
    made.save()
    return kept_revision(made)


def _put_beside(
    held: HeldCase, number: int, found: Difference, who: str, at: datetime
) -> KeptBeside:
    """Keep what was written differently; the same sent again is kept once."""
    texts = {name: _written(getattr(found, name)) for name in ("base", "theirs", "mine")}
    same = {"case": held, "path": json.dumps(found.path), "who": who, **texts}
    row = WrittenBeside.objects.filter(**same, settled_at__isnull=True).first()
    if row is None:
        row = WrittenBeside.objects.create(**same, revision=number, **columns(at))
    return _beside(row)


def _written(value: Any) -> str:
    return "" if value is ABSENT else json.dumps(value, ensure_ascii=False)


def _read(text: str) -> Any:
    return json.loads(text) if text else ABSENT


def _beside(row: WrittenBeside) -> KeptBeside:
    return KeptBeside(
        id=row.pk,
        case=row.case_id,
        revision=row.revision,
        path=tuple(json.loads(row.path)),
        base=_read(row.base),
        theirs=_read(row.theirs),
        mine=_read(row.mine),
        who=row.who,
        at=moment(row.at, row.offset_minutes),
        settled_at=row.settled_at,
        settled_by=row.settled_by,
        kept=row.kept,
    )


def _change(row: HeldRevision) -> dict[str, Any]:
    return {
        "case": row.case_id,
        "number": row.number,
        "parent": row.parent_sha256,
        "sha256": row.sha256,
        "at": None if row.at is None else moment(row.at, row.offset_minutes),
        "who": row.who,
        "did": row.did,
        "undoes": row.undoes,
    }


def kept_revision(row: HeldRevision) -> KeptRevision:
    """What a row says."""
    return KeptRevision(**_change(row), text=row.text)
