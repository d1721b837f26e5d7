"""Who may see which case, and links that open one case for a while."""

from dataclasses import dataclass
from datetime import timedelta

import pytest
from django.contrib.auth.models import User

from tests.store.cases import AT, CASE
from witnessmark import store
from witnessmark.store import people
from witnessmark.store.models import CasePass, Person

pytestmark = pytest.mark.usefixtures("home")


@dataclass
class Stranger:
    """Whoever is not signed in."""

    is_authenticated: bool = False
    is_active: bool = False


def account(name, role):
    user = User.objects.create(username=name)
    Person.objects.create(user=user, role=role, name=name.title())
    return user


def test_an_owner_sees_all_and_others_what_they_were_let_into():
    assert not people.is_anybody_there()
    store.begin(CASE, "", "", AT)
    store.begin(CASE.replace('"sprint"', '"coupe"'), "", "", AT)
    owner = people.person_of(account("ines", "owner"))
    reader = people.person_of(account("ruth", "reader"))
    assert people.is_anybody_there()
    assert people.may_see(owner, "sprint")
    assert not people.may_see(reader, "sprint")
    people.let_in(reader.id, "sprint")
    people.let_in(reader.id, "sprint")
    assert people.seen_by(reader) == {"sprint"}
    assert people.seen_by(owner) == {"sprint", "coupe"}
    assert not people.may_see(reader, "coupe")
    people.let_out(reader.id, "sprint")
    assert people.seen_by(reader) == frozenset()
    with pytest.raises(store.NotKeptError, match="there is no case 'none'"):
        people.let_in(reader.id, "none")


def test_whoever_was_let_go_is_nobody():
    user = account("ines", "owner")
    assert people.person_of(user).name == "Ines"
    assert people.person_of(Stranger()) is None
    assert people.person_of(User.objects.create(username="without a role")) is None
    user.is_active = False
    user.save()
    assert people.person_of(user) is None
    assert people.people() == ()
    assert not people.is_anybody_there()


def test_a_pass_opens_its_case_for_its_purpose_until_it_ends():
    store.begin(CASE, "", "", AT)
    until = AT + timedelta(days=30)
    span = people.PassSpan(AT, until)
    token = people.make_pass("sprint", "second", "Tomas Brook", "Ines Calder", span)
    other = people.make_pass("sprint", "executor", "the estate", "Ines Calder", span)
    found = people.pass_of(token, "second", AT)
    assert (found.case, found.for_whom, found.until) == ("sprint", "Tomas Brook", until)
    assert people.pass_of(token, "executor", AT) is None
    assert people.pass_of(token, "second", until) is None
    for wrong in ("", token[:-1], token.swapcase(), "\ud800"):
        assert people.pass_of(wrong, "second", AT) is None
    people.end_pass(found.id, AT)
    assert people.pass_of(token, "second", AT) is None
    assert people.pass_of(other, "executor", AT) is not None
    assert [each.ended_at for each in people.passes("sprint")] == [None, AT]
    kept = CasePass.objects.values_list("token_sha256", flat=True)
    assert not {token, other} & set(kept)


def test_what_the_owner_sets_is_as_it_was_set():
    assert not people.is_first_look_open()
    people.put_setting(people.FIRST_LOOK, True)
    assert people.is_first_look_open()
    people.put_setting("sheet", {"title": "Prüfung", "copies": 2})
    assert people.setting("sheet") == {"title": "Prüfung", "copies": 2}
    assert people.setting("nothing", "otherwise") == "otherwise"
