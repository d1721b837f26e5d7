"""Accounts made and changed: the first owner, further people, passwords, whoever is let go."""

from django.contrib.auth import get_user_model
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from witnessmark.store.models import Person
from witnessmark.store.people import is_anybody_there


def first_owner(name: str, password: str) -> int | None:
    """The id of the account that owns a new workshop; None where it has an owner."""
    with transaction.atomic():
        return None if is_anybody_there() else add_person(name, password, Person.Role.OWNER)


def add_person(name: str, password: str, role: str) -> int | None:
    """The id of a new account; None where somebody of this name has one."""
    users = get_user_model()
    try:
        with transaction.atomic():
            if users.objects.filter(username__iexact=name).exists():
                return None
            user = users.objects.create_user(username=name, password=password)
            Person.objects.create(user=user, role=Person.Role(role), name=name)
    except IntegrityError:
        return None
    return int(user.pk)


def password_faults(password: str) -> tuple[str, ...]:
    """Why nobody may have this password; empty where they may."""
    try:
        validate_password(password)
    except ValidationError as fault:
        return tuple(fault.messages)
    return ()


def set_password(name: str, password: str) -> bool:
    """A new password for the account of this name, which ends its sessions; False: there is
    none."""
    user = get_user_model().objects.filter(username__iexact=name).first()
    if user is None:
        return False
    user.set_password(password)
    user.save()
    return True


def set_role(person_id: int, role: str) -> bool:
    """Another role; False where nobody would own the workshop any more."""
    with transaction.atomic():
        if role != Person.Role.OWNER and _is_last_owner(person_id):
            return False
        Person.objects.filter(id=person_id).update(role=Person.Role(role))
    return True


def put_profile(person_id: int, profile: str) -> None:
    """What an examiner says of themselves, which a new case takes its examiner from."""
    Person.objects.filter(id=person_id).update(profile=profile)


def let_go(person_id: int) -> bool:
    """Their account opens nothing any more; False where nobody would own the workshop."""
    with transaction.atomic():
        if _is_last_owner(person_id):
            return False
        get_user_model().objects.filter(person__id=person_id).update(is_active=False)
    return True


def _is_last_owner(person_id: int) -> bool:
    owners = Person.objects.select_for_update().filter(role=Person.Role.OWNER, user__is_active=True)
    return {each.pk for each in owners} == {person_id}
