"""What was jotted down at a car taken into its case, each jotting once, whichever way it came."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.http import Http404

from witnessmark import store
from witnessmark.casefile import Exhibit, ExhibitEntry
from witnessmark.entry import CaseDraft, Jotting, JottingElsewhere, checked, enter_jotting
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.store import phones
from witnessmark.web.evidence.forms import me_of
from witnessmark.web.shared.desk import bench_of
from witnessmark.web.shared.saving import now


@dataclass(frozen=True, slots=True)
class Whence:
    """Who hands jottings over: whose name they are signed with, the phone, the cases it may add
    to."""

    by: str
    phone: int | None
    cases: Sequence[str]


@dataclass(frozen=True, slots=True)
class JottingCame:
    """What became of a jotting: the revision that has it, or why none has."""

    id: str
    revision: int = 0
    problems: tuple[Problem, ...] = ()


def take(jotting: Jotting, whence: Whence) -> JottingCame:
    """Take one jotting into its case, unless the case has it; a fault leaves the case as it is."""
    if jotting.case not in whence.cases:
        return JottingCame(jotting.id, problems=(JottingElsewhere(Source("case"), jotting.case),))
    try:
        last = bench_of(jotting.case)
        bench = bench_of(jotting.case, min(jotting.base, last.number))
    except Http404:
        return JottingCame(jotting.id, problems=(JottingElsewhere(Source("case"), jotting.case),))
    draft = CaseDraft(opened=bench.on.opened, casefile=bench.casefile, book=bench.book)
    told = enter_jotting(draft, jotting, me_of(whence.by, bench.casefile), _picture(jotting))
    text, problems = checked(draft)
    if problems:
        return JottingCame(jotting.id, problems=problems)

    def revise() -> store.Revised:
        did = f"at the car: {'. '.join(told)}" if told else "at the car"
        return store.revise(bench.case, bench.number, text, who=whence.by, did=did, at=now())

    kept = phones.take_once(jotting.id, whence.phone, now(), revise)
    return JottingCame(jotting.id, kept.revision)


def _picture(jotting: Jotting) -> Exhibit | None:
    """The picture that a jotting speaks of by its digest; None where it has not come."""
    sha256 = jotting.unknown.get("sha256")
    if not isinstance(sha256, str):
        return None
    try:
        kept = store.exhibit(sha256)
        content = store.exhibit_path(sha256).read_bytes()
    except (store.NotKeptError, OSError):
        return None
    entry = ExhibitEntry(id="new", file=kept.file, sha256=kept.sha256)
    return Exhibit(entry, content, kept.media_type, kept.width_px, kept.height_px)
