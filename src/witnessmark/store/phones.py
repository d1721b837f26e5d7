"""Phones that were let in to add evidence: the code by which each joins once, the cases it may add
to, and which of its jottings a case has already."""

import hashlib
import secrets
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db import IntegrityError, transaction

from witnessmark.source import NOWHERE
from witnessmark.store.models import HeldCase, JottingTaken, Phone, PhoneLetIn
from witnessmark.store.problems import CaseNotHeld, NotKeptError
from witnessmark.store.records import Revised

MINUTES_OF_A_CODE = 15
LONGEST_NAME = 80


@dataclass(frozen=True, slots=True, kw_only=True)
class PhoneKnown:
    """A phone, whose entries are signed `by`; not joined yet where `joined_at` is None."""

    id: int
    name: str
    by: str
    cases: tuple[str, ...]
    made_at: datetime
    until: datetime
    joined_at: datetime | None
    seen_at: datetime | None
    ended_at: datetime | None
    ahead: int


@transaction.atomic
def let_phone_in(by: str, cases: tuple[str, ...], at: datetime) -> str:
    """A code by which one phone joins within a quarter of an hour; it is told this once and kept
    nowhere. NotKeptError where there is no such case."""
    held = {each.pk: each for each in HeldCase.objects.filter(id__in=cases)}
    absent = tuple(CaseNotHeld(NOWHERE, each) for each in cases if each not in held)
    if absent:
        raise NotKeptError(absent)
    code = secrets.token_urlsafe(16)
    until = at + timedelta(minutes=MINUTES_OF_A_CODE)
    row = Phone.objects.create(code_sha256=_digest(code), by=by, made_at=at, until=until)
    PhoneLetIn.objects.bulk_create([PhoneLetIn(phone=row, case=each) for each in held.values()])
    return code


def expected(code: str, at: datetime) -> PhoneKnown | None:
    """The phone that may still join by this code."""
    row = Phone.objects.filter(
        code_sha256=_digest(code), joined_at=None, ended_at=None, until__gt=at
    ).first()
    return _phone(row) if row else None


@transaction.atomic
def join(code: str, name: str, at: datetime, ahead: int = 0) -> str | None:
    """A token for the phone that this code was made for; None where it lets nobody in any more."""
    token = secrets.token_urlsafe(24)
    joined = Phone.objects.filter(
        code_sha256=_digest(code), joined_at=None, ended_at=None, until__gt=at
    ).update(
        token_sha256=_digest(token),
        name=name[:LONGEST_NAME],
        joined_at=at,
        seen_at=at,
        ahead=max(-(2**31), min(2**31 - 1, ahead)),
    )
    return token if joined else None


def phone_of(token: str) -> PhoneKnown | None:
    """The phone that has this token, unless it was let go."""
    row = Phone.objects.filter(token_sha256=_digest(token), ended_at=None).first()
    return _phone(row) if token and row else None


def phone_seen(phone: int, at: datetime) -> None:
    """It has just spoken with this machine."""
    Phone.objects.filter(id=phone).update(seen_at=at)


def phones() -> tuple[PhoneKnown, ...]:
    """Every phone that is let in or may still join, the latest first."""
    return tuple(map(_phone, Phone.objects.filter(ended_at=None).order_by("-made_at", "-id")))


def let_phone_go(phone: int, at: datetime) -> None:
    """It adds nothing any more; what it has added stays."""
    Phone.objects.filter(id=phone, ended_at=None).update(ended_at=at)


@dataclass(frozen=True, slots=True)
class TakenJotting:
    """A jotting that a case has, from this revision on; not new where it had it already."""

    case: str
    revision: int
    is_new: bool


def take_once(
    jotting: str, phone: int | None, at: datetime, revise: Callable[[], Revised]
) -> TakenJotting:
    """Keep what `revise` keeps, once for each jotting: the revision and the note that the case has
    it are there together or not at all. NotKeptError as `revise` raises it."""
    try:
        with transaction.atomic():
            found = JottingTaken.objects.filter(id=jotting).first()
            if found is not None:
                return TakenJotting(found.case_id, found.revision, is_new=False)
            kept = revise().kept
            JottingTaken.objects.create(
                id=jotting, case_id=kept.case, revision=kept.number, at=at, phone_id=phone
            )
            return TakenJotting(kept.case, kept.number, is_new=True)
    except IntegrityError:  # the same jotting came twice at once: the other one has it
        found = JottingTaken.objects.get(id=jotting)
        return TakenJotting(found.case_id, found.revision, is_new=False)


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()


def _phone(row: Phone) -> PhoneKnown:
    return PhoneKnown(
        id=row.pk,
        name=row.name,
        by=row.by,
        cases=tuple(row.let_in.order_by("case_id").values_list("case_id", flat=True)),
        made_at=row.made_at,
        until=row.until,
        joined_at=row.joined_at,
        seen_at=row.seen_at,
        ended_at=row.ended_at,
        ahead=row.ahead,
    )
