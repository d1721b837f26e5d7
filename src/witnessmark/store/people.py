"""Who may see which case, and the links that need no account."""

import hashlib
import json
import secrets
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from witnessmark.source import NOWHERE
from witnessmark.store.models import CasePass, HeldCase, LetIn, Person, Setting
from witnessmark.store.problems import CaseNotHeld, NotKeptError, readable

FIRST_LOOK = "first look for anybody"
"""The setting that lets anybody have a first look without an account."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonKnown:
    """An account that has a role here."""

    id: int
    user_id: int
    role: str
    name: str
    profile: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PassKnown:
    """A link to one case; its token is known only to whoever was given it."""

    id: int
    case: str
    kind: str
    for_whom: str
    made_by: str
    at: datetime
    until: datetime
    ended_at: datetime | None


def person_of(user: Any) -> PersonKnown | None:
    """The person of an account that is signed in and not let go."""
    if not (user.is_authenticated and user.is_active):
        return None
    row = Person.objects.filter(user_id=user.pk).first()
    return _person(row) if row else None


def people() -> tuple[PersonKnown, ...]:
    """Everybody who has an account that is not let go."""
    found = Person.objects.filter(user__is_active=True).order_by("name", "id")
    return tuple(map(_person, found))


def is_anybody_there() -> bool:
    """Has the workshop an owner?"""
    return Person.objects.filter(role=Person.Role.OWNER, user__is_active=True).exists()


def may_see(person: PersonKnown, case: str) -> bool:
    """May this person see this case? An owner sees all, even one that is not there."""
    if person.role == Person.Role.OWNER:
        return True
    return LetIn.objects.filter(person_id=person.id, case_id=case).exists()


def seen_by(person: PersonKnown) -> frozenset[str]:
    """The ids of all cases that this person may see."""
    if person.role == Person.Role.OWNER:
        return frozenset(HeldCase.objects.values_list("id", flat=True))
    return frozenset(LetIn.objects.filter(person_id=person.id).values_list("case_id", flat=True))


def let_in(person_id: int, case: str) -> None:
    """Let somebody see a case."""
    if not HeldCase.objects.filter(id=case).exists():
        raise NotKeptError((CaseNotHeld(NOWHERE, case),))
    LetIn.objects.get_or_create(person_id=person_id, case_id=case)


def let_out(person_id: int, case: str) -> None:
    """Let them see it no longer."""
    LetIn.objects.filter(person_id=person_id, case_id=case).delete()


def make_pass(case: str, kind: str, for_whom: str, made_by: str, span: "PassSpan") -> str:
    """A token that opens one case; it is told this once and kept nowhere."""
    if not HeldCase.objects.filter(id=case).exists():
        raise NotKeptError((CaseNotHeld(NOWHERE, case),))
    readable(for_whom=for_whom, made_by=made_by)
    token = secrets.token_urlsafe(24)
    CasePass.objects.create(
        token_sha256=_digest(token),
        case_id=case,
        kind=CasePass.PassKind(kind),
        for_whom=for_whom,
        made_by=made_by,
        at=span.at,
        until=span.until,
    )
    return token


@dataclass(frozen=True, slots=True)
class PassSpan:
    """From when to when a pass opens its case."""

    at: datetime
    until: datetime


def pass_of(token: str, kind: str, at: datetime) -> PassKnown | None:
    """The pass of this token, if it still opens its case."""
    row = CasePass.objects.filter(
        token_sha256=_digest(token), kind=kind, ended_at=None, until__gt=at
    ).first()
    return _pass(row) if row else None


def passes(case: str) -> tuple[PassKnown, ...]:
    """All passes of a case, those that have ended too; the latest first."""
    return tuple(map(_pass, CasePass.objects.filter(case_id=case).order_by("-at", "-id")))


def end_pass(pass_id: int, at: datetime) -> None:
    """Let a pass open nothing any more."""
    CasePass.objects.filter(id=pass_id, ended_at=None).update(ended_at=at)


def setting(key: str, default: Any = None) -> Any:
    """What the owner has set, as JSON has it."""
    row = Setting.objects.filter(key=key).first()
    return json.loads(row.value) if row else default


def put_setting(key: str, value: Any) -> None:
    """Set something for the whole workshop."""
    Setting.objects.update_or_create(key=key, defaults={"value": json.dumps(value)})


def is_first_look_open() -> bool:
    """May anybody have a first look without an account?"""
    return setting(FIRST_LOOK, False) is True


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()


def _person(row: Person) -> PersonKnown:
    return PersonKnown(
        id=row.pk, user_id=row.user_id, role=row.role, name=row.name, profile=row.profile
    )


def _pass(row: CasePass) -> PassKnown:
    return PassKnown(
        id=row.pk,
        case=row.case_id,
        kind=row.kind,
        for_whom=row.for_whom,
        made_by=row.made_by,
        at=row.at,
        until=row.until,
        ended_at=row.ended_at,
    )
