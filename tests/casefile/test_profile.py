"""A profile is kept as plain TOML, and what is wrong with one is told with its place."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.casefile.test_round_trip import NAMES, TEXTS
from tests.examples import tried_on
from witnessmark.casefile import Assignment, Casefile, parse_casefile, render_casefile
from witnessmark.casefile.profile import (
    Profile,
    examiner_of,
    parse_profile,
    render_profile,
    unfit_profile,
)
from witnessmark.problem import render_all
from witnessmark.source import NOWHERE


@tried_on(200)
@given(
    st.builds(
        Profile,
        name=NAMES,
        firm=TEXTS.filter(lambda text: len(text) <= 200),
        address=TEXTS,
        fee_depends=st.sampled_from([None, False, True]),
    )
)
def test_a_profile_written_and_read_again_is_the_same_and_fits_a_case(profile):
    assert unfit_profile(profile, lambda _: NOWHERE) == ()
    assert parse_profile(render_profile(profile), "profile.toml").profile == profile
    signing = Assignment(examiners=(examiner_of(profile),))
    case = Casefile(id="a", book="b", assignment=signing)
    assert parse_casefile(render_casefile(case), "case.json").casefile == case


def test_a_profile_is_for_people_to_read():
    profile = Profile(name="Ines Calder", address="5 Old Ropewalk\nOstrey", fee_depends=False)
    assert render_profile(profile) == (
        'name = "Ines Calder"\naddress = "5 Old Ropewalk\\nOstrey"\nfee_depends = false\n'
    )
    assert examiner_of(profile).id == "calder"


@tried_on(300)
@given(st.text() | st.text('name="\n[]{}=\x00ü\\', max_size=20))
def test_any_text_is_a_profile_or_has_problems(text):
    parsed = parse_profile(text, "profile.toml")
    assert (parsed.profile is None) == bool(parsed.problems)
    render_all(parsed.problems).encode()


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "profile.toml:1: a profile needs 'name'"),
        ('name = ""', "profile.toml:1:8: a profile needs 'name'"),
        ("name = 3", "profile.toml:1:8: 'name' is a whole number here"),
        ('name = "A"\nnam = "B"', "profile.toml:2:1: 'nam' is not a key of a profile"),
        ("name =", "profile.toml:1:7: this is not TOML: invalid value"),
        ('name = "A"\nfee_depends = "no"', "profile.toml:2:15: 'fee_depends' is a text here"),
        (f'name = "A"\nfirm = "{"x" * 201}"', "profile.toml:2:8: the text of 'firm' has 201"),
        (f'name = "{"x" * 201}"', "profile.toml:1:8: the text of 'name' has 201 characters"),
        ('name = "A\\u0001"', "profile.toml:1:8: there is a control character (U+0001)"),
        ('name = "A"\n[a]\nc = 1', "profile.toml:2:1: 'a' is not a key of a profile"),
    ],
)
def test_what_is_wrong_with_a_profile_is_told_with_its_place(text, told):
    parsed = parse_profile(text, "profile.toml")
    assert parsed.profile is None
    assert parsed.problems[0].render().startswith(told)
