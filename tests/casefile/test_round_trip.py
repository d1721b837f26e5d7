"""What is written can be read again, and nothing that was there is lost."""

import json
import unicodedata
from datetime import UTC, date, datetime

from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from witnessmark.casefile import (
    Assignment,
    Assistance,
    Casefile,
    Circumstances,
    Claim,
    CustodyEntry,
    Examiner,
    MarkReading,
    OriginSaid,
    Override,
    Paper,
    PaperState,
    ReportIssue,
    SiteSeen,
    SiteState,
    Stakes,
    Statement,
    Sum,
    SumKind,
    parse_casefile,
    render_casefile,
    unread_fields,
)

TEXTS = st.text(st.characters(exclude_categories=("Cs", "Cc")) | st.sampled_from("\n\t\r"))
NAMES = TEXTS.filter(lambda text: 1 <= len(text) <= 200)
SITES = NAMES.map(lambda name: unicodedata.normalize("NFC", name)).filter(
    lambda name: len(name) <= 200
)
DAYS = st.none() | st.dates(date(1990, 1, 1), date(9999, 12, 31))
CASES = st.builds(
    Casefile,
    id=st.from_regex(r"[A-Za-z0-9][A-Za-z0-9._-]{0,79}", fullmatch=True),
    title=TEXTS,
    book=NAMES,
    opened=DAYS,
    claim=st.builds(
        Claim,
        items=st.dictionaries(TEXTS, TEXTS.filter(lambda text: len(text) <= 200)),
        built=st.sampled_from([None, "1955", "1955-03", "1955-03-14"]),
        statements=st.lists(
            st.builds(Statement, about=NAMES, says=TEXTS, origin=st.sampled_from(OriginSaid))
        ).map(tuple),
    ),
    assignment=st.builds(
        Assignment,
        examiners=st.lists(
            st.builds(
                Examiner,
                id=NAMES,
                name=NAMES,
                address=TEXTS,
                fee_depends=st.sampled_from([None, False, True]),
            ),
            unique_by=lambda each: unicodedata.normalize("NFC", each.id),
            max_size=2,
        ).map(tuple),
        assistance=st.lists(st.builds(Assistance, who=NAMES, with_what=TEXTS), max_size=2).map(
            tuple
        ),
    ),
    report=st.builds(ReportIssue, number=TEXTS, issue=st.integers(1, 999), date=DAYS),
    custody=st.lists(
        st.builds(CustodyEntry, what=NAMES, lent_by=NAMES, received=DAYS), max_size=2
    ).map(tuple),
    sums=st.lists(
        st.builds(
            Sum,
            kind=st.sampled_from(SumKind),
            amount=st.floats(0, 1e12),
            date=st.sampled_from([None, "1991", "1991-05", "1991-05-04"]),
            source=TEXTS,
        ),
        max_size=2,
    ).map(tuple),
    stakes=st.builds(Stakes, price_asked=st.none() | st.floats(0, 1e12)),
    sites=st.lists(
        st.builds(SiteSeen, site=SITES, state=st.sampled_from(SiteState), reason=TEXTS),
        unique_by=lambda seen: seen.site,
        max_size=4,
    ).map(tuple),
    readings=st.lists(
        st.builds(
            MarkReading,
            mark=NAMES,
            text=TEXTS,
            when=st.none() | st.datetimes(timezones=st.none() | st.just(UTC)),
        ),
        max_size=4,
    ).map(tuple),
    papers=st.lists(
        st.builds(Paper, mark=NAMES, state=st.sampled_from(PaperState), note=TEXTS), max_size=3
    ).map(tuple),
    circumstances=st.builds(
        Circumstances,
        overrides=st.lists(
            st.builds(
                Override,
                row=NAMES,
                value=st.floats(1e-9, 1, exclude_max=True),
                reason=NAMES,
            ),
            max_size=1,
        ).map(tuple),
    ),
)


@tried_on(500)
@given(CASES)
def test_a_case_written_and_read_again_is_the_same_case(casefile):
    text = render_casefile(casefile)
    parsed = parse_casefile(text, "case.json")
    assert (parsed.casefile, parsed.problems) == (casefile, ())
    assert render_casefile(parsed.casefile) == text


def test_fields_that_nobody_knows_are_kept_at_every_level():
    text = """{
  "format": "witnessmark-case", "format_version": 2, "id": "a", "book": "b",
  "later": [1, {"deep": null}],
  "claim": {"later": 1.5, "statements": [{"about": "car", "says": "s", "later": "x"}]},
  "assignment": {"later": true, "examiners": [{"id": "e", "name": "n", "later": []}],
    "assistance": [{"who": "w", "later": 1}]},
  "report": {"later": 1}, "custody": [{"what": "w", "lent_by": "l", "later": 1}],
  "sums": [{"amount": 1, "later": 1}],
  "visit": {"later": {}}, "stakes": {"later": -0.0}, "title_paper": {"later": 1},
  "sites": [{"site": "s", "state": "read", "later": "ü"}],
  "readings": [{"mark": "m", "text": "1", "later": 1}],
  "looks": [{"site": "s", "outcome": "factory", "later": 1}],
  "papers": [{"mark": "m", "state": "lost", "later": 1}],
  "exhibits": [{"id": "e", "file": "a.png", "sha256": "%s", "later": 1}],
  "circumstances": {"later": 1,
    "prior_odds": [{"question": "q", "odds": 1, "reason": "r", "later": 1}],
    "overrides": [{"row": "q", "value": 0.5, "reason": "r", "later": 1}]}
}""" % ("0" * 64)
    parsed = parse_casefile(text, "case.json")
    assert parsed.problems == ()
    assert parsed.casefile is not None
    assert holds_all(json.loads(render_casefile(parsed.casefile)), json.loads(text))
    assert text.count('"later"') == 20
    assert len(unread_fields(parsed.casefile, parsed.places)) == 20


def test_a_misspelt_field_can_be_pointed_at():
    text = """{"format": "witnessmark-case", "format_version": 2, "id": "a", "book": "b",
 "sites": [{"site": "s", "state": "read", "resaon": "rust"}]}"""
    parsed = parse_casefile(text, "case.json")
    assert parsed.casefile is not None
    (unread,) = unread_fields(parsed.casefile, parsed.places)
    assert (unread.field, unread.source.place()) == ("resaon", "case.json:2:43")


def test_a_case_is_written_for_people_to_read_and_edit():
    casefile = Casefile(
        id="sprint",
        title="Été",
        book="tarvane",
        opened=date(2025, 3, 14),
        sites=(SiteSeen(site="scuttle", state=SiteState.NOT_LOOKED_FOR),),
    )
    text = render_casefile(casefile)
    assert text.startswith("""{
  "format": "witnessmark-case",
  "format_version": 2,
  "id": "sprint",
  "title": "Été",
  "book": "tarvane",
  "beside": [],
  "opened": "2025-03-14",
  "claim": {
    "made_by": "",
""")
    assert text.endswith("}\n")


def test_a_moment_keeps_its_zone():
    text = """{"format": "witnessmark-case", "format_version": 2, "id": "a", "book": "b",
 "readings": [{"mark": "m", "text": "1", "when": "2025-03-14T10:30:00+01:00"},
              {"mark": "m", "text": "1", "when": "2025-03-14T10:30"}]}"""
    casefile = parse_casefile(text, "case.json").casefile
    assert casefile is not None
    assert casefile.readings[0].when == datetime.fromisoformat("2025-03-14T10:30:00+01:00")
    assert casefile.readings[1].when == datetime(2025, 3, 14, 10, 30)
    assert '"2025-03-14T10:30:00+01:00"' in render_casefile(casefile)


def holds_all(whole: object, part: object) -> bool:
    """Does `whole` hold everything of `part`, at the same place?"""
    if isinstance(part, dict):
        return isinstance(whole, dict) and all(
            key in whole and holds_all(whole[key], value) for key, value in part.items()
        )
    if isinstance(part, list):
        return (
            isinstance(whole, list)
            and len(whole) == len(part)
            and all(holds_all(a, b) for a, b in zip(whole, part, strict=True))
        )
    return whole == part
