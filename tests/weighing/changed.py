"""Cases made from the demonstration: the four cars and the saloon, with anything changed."""

from functools import cache
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from tests.weighing.cars import demonstration_book, saloon
from tests.weighing.tiny import Prepared, prepared
from witnessmark.casefile.records import Casefile

DEMO = Path(__file__).resolve().parents[2] / "demo"
DEMONSTRATIONS = ("clean", "no-papers", "panel", "altered")
LOOKS = ("factory", "doubtful", "disturbed")


@cache
def demonstration(name: str) -> Casefile:
    """One of the four cars as it lies in demo/."""
    return Casefile.model_validate_json((DEMO / name / "case.json").read_text("utf-8"))


@cache
def every_case() -> dict[str, Casefile]:
    """The four cars and the saloon."""
    return {name: demonstration(name) for name in DEMONSTRATIONS} | {"saloon": saloon()}


def network_of(casefile: Casefile) -> Prepared:
    """The network of a case by the demonstration book."""
    return prepared(casefile, demonstration_book())


def sites_of(casefile: Casefile) -> list[str]:
    """The sites with a look or a state in the case, in the order of their names."""
    return sorted({s.site for s in casefile.sites} | {look.site for look in casefile.looks})


@st.composite
def changed_text(draw: st.DrawFn, text: str) -> str:
    """A reading with up to two of its characters worn, doubtful or others."""
    cells = list(text)
    digits = [k for k, sign in enumerate(cells) if sign.isdigit()] if "[" not in text else []
    if digits:
        for place in draw(st.lists(st.sampled_from(digits), max_size=2, unique=True)):
            cells[place] = draw(st.sampled_from(["?", "~", "[38]", "0", "4", "7"]))
    return "".join(cells)


@st.composite
def changed_cases(draw: st.DrawFn) -> Casefile:
    """A case with some readings and looks left out and others changed."""
    casefile = draw(st.sampled_from(list(every_case().values())))
    document: dict[str, Any] = casefile.model_dump(mode="json")
    readings = [each for each in document["readings"] if draw(st.integers(0, 3))]
    for reading in readings:
        if draw(st.booleans()):
            reading["text"] = draw(changed_text(reading["text"]))
        reading["legibility"] = draw(st.sampled_from(["clear", "worn", "poor"]))
        reading["seen"] = draw(st.sampled_from(["in person", "photograph"]))
    looks = []
    for site in sites_of(casefile):
        look = draw(st.sampled_from([None, *LOOKS]))
        if look:
            seen = draw(st.sampled_from(["in person", "photograph", "copy"]))
            looks.append({"site": site, "outcome": look, "seen": seen})
    # A site that was read elsewhere may not be absent here: its state goes with its reading.
    document |= {"readings": readings, "looks": looks}
    return Casefile.model_validate(document)
