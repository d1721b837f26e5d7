"""What does not fit, each contradiction as one sentence, the impossible first; and what makes
the car a matter for the authority before anything else.

Nothing here is weighed: it is read off the same evidence, by the same likelihoods.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date as day_type
from itertools import combinations, product

import numpy as np

from witnessmark.agreement.items import BUILD_DATE
from witnessmark.agreement.records import Finding, Outcome
from witnessmark.casefile.records import AttachmentSeen, WorkSaid
from witnessmark.casefile.site_entries import SiteEntries
from witnessmark.catalogue import in_a_row, said
from witnessmark.codebook.pieces import PieceKind
from witnessmark.codebook.records import Basis
from witnessmark.dates import PartialDate
from witnessmark.day_words import date_text
from witnessmark.weighing.conclusions.look_misfits import disturbed, held_otherwise
from witnessmark.weighing.conclusions.told import (
    PLAUSIBLE,
    Told,
    agree,
    differing,
    first_day,
    mark_name,
    plausible,
)
from witnessmark.weighing.evidence import days, lags
from witnessmark.weighing.evidence.noted import (
    ABSENT,
    READ,
    REMOVED,
    DateSeen,
    NumberSeen,
    PieceSeen,
)
from witnessmark.weighing.pieces.items import IMPLIED
from witnessmark.weighing.pieces.noted_car import Core, Noted
from witnessmark.weighing.pieces.scene import REPLACED
from witnessmark.weighing.records import Misfit, MisfitKind, Stop

ORDER = tuple(MisfitKind)
LOOKED = (MisfitKind.AGAINST, MisfitKind.UNUSUAL)
"""The kinds of what shows work on a part."""


def misfits(known: Noted, findings: tuple[Finding, ...]) -> tuple[Misfit, ...]:
    """All that does not fit, the impossible first, else in the order of the book."""
    told = Told(known, findings)
    found = [*_dates(told), *_numbers(told), *_papers(known), *_codes(told)]
    found += disturbed(known)
    found += _bearers_apart(known)
    found += _found_elsewhere(findings, {mark for each in found for mark in each.about})
    found += held_otherwise(known)
    kept = {each.sentence: _as_declared(known, each) for each in found}
    return tuple(sorted(kept.values(), key=lambda each: ORDER.index(each.kind)))


def _as_declared(known: Noted, misfit: Misfit) -> Misfit:
    """The same; as declared where the part was said beforehand not to be the first one, or the
    work was said that shows there."""
    ours = {each.piece for each in known.pieces.standings if each.mark in misfit.about}
    ours |= set(misfit.about)
    for seen in known.seen:
        piece, marks = seen.piece, {mark.id for s in seen.surfaces for mark in s.marks}
        if piece.id not in ours:
            continue
        for each in known.car.casefile.claim.statements:
            is_of_it = each.about in (piece.id, piece.assembly, *marks)
            is_worked = misfit.kind in LOOKED and _is_worked(known, seen, misfit)
            shows_work = each.work is not WorkSaid.NOT_SAID and is_worked
            if is_of_it and (each.origin in REPLACED or shows_work):
                return replace(misfit, kind=MisfitKind.DECLARED)
    return misfit


def _is_worked(known: Noted, seen: PieceSeen, misfit: Misfit) -> bool:
    """Is it about how a place of this piece looks, or about a number taken off it?"""
    places = {surface.id for surface in seen.surfaces}
    removed = {number.mark for number in seen.numbers if number.status is REMOVED}
    return bool((places | removed) & set(misfit.about[1:]))


def stops(known: Noted, findings: tuple[Finding, ...]) -> tuple[Stop, ...]:
    """A missing number plate; one, or a structure, whose number differs; a structure that the car
    lacks; a structure's number that looks removed, or that no place bears: of several places one
    may be on a new panel."""
    found, told = [], Told(known, findings)
    for seen in known.seen:
        name = seen.piece.name
        if seen.piece.kind is PieceKind.PLATE and seen.main.is_gone and seen.main.bears_identity:
            found.append(Stop(seen.piece.id, said("The {plate} is missing.", plate=name)))
        is_structure = seen.piece.kind is PieceKind.STRUCTURE
        if not is_structure and seen.piece.kind is not PieceKind.PLATE:
            continue
        for number in seen.numbers:
            if is_structure and _is_lacking(known, number):
                if not _is_borne_elsewhere(known, seen, number):
                    mark = mark_name(known, number)
                    sentence = said(
                        "The car lacks the part that should bear the {mark}.", mark=mark
                    )
                    found.append(Stop(number.mark, sentence))
                continue
            lacks = number.status is REMOVED or (
                number.status is ABSENT and not _is_borne_elsewhere(known, seen, number)
            )
            if (is_structure and lacks) or differing(known, number):
                found.append(Stop(number.mark, told.number(number)))
            elif is_structure and _is_another(known, number):
                mark = mark_name(known, number)
                sentence = said("A paper of the claimed car gives another {mark}.", mark=mark)
                found.append(Stop(number.mark, sentence))
    return tuple(found)


def _is_lacking(known: Noted, number: NumberSeen) -> bool:
    """Is the part not on the car that should bear this number, whatever bears it now?"""
    mark = known.car.book.mark(number.mark)
    if mark is None:
        return False
    entry = SiteEntries(known.car.casefile.sites).of(mark.site, mark.id)
    return entry is not None and entry.attachment is AttachmentSeen.NO_SUCH_PART


def _is_borne_elsewhere(known: Noted, seen: PieceSeen, number: NumberSeen) -> bool:
    """Does another place of this structure bear the number, as claimed?"""
    return any(
        each.item == number.item and each.status is READ and not differing(known, each)
        for each in seen.numbers
        if not _is_lacking(known, each)
    )


def _is_another(known: Noted, number: NumberSeen) -> bool:
    """Does a paper that names the claimed car give another number than this structure bears?"""
    return number.status is READ and any(
        each.item == number.item and each.status is READ and not agree(each, number)
        for seen in known.seen
        if seen.piece.kind is PieceKind.PAPER and seen.main.bears_identity
        if not any(differing(known, other) for other in seen.numbers)
        for each in seen.numbers
    )


def _misfit(
    kind: MisfitKind, about: tuple[str, ...], sentence: str, known: Noted, *marks: str
) -> Misfit:
    citations = [m.citation for m in known.car.book.marks if m.id in marks]
    basis = citations[0].basis if citations else Basis.COMMON_PRACTICE
    source = in_a_row(dict.fromkeys(c.source for c in citations if c.source), "; ")
    return Misfit(kind, about, sentence, basis, source)


def _numbers(told: Told) -> Iterator[Misfit]:
    known = told.known
    for seen in known.seen:
        for number in seen.numbers:
            is_absent = number.status is ABSENT and number.always
            if is_absent or number.status is REMOVED or differing(known, number):
                about, sentence = (seen.piece.id, number.mark), told.number(number)
                yield _misfit(MisfitKind.AGAINST, about, sentence, known, number.mark)


def _bearers_apart(known: Noted) -> Iterator[Misfit]:
    """Two bearers of the identity of which each names another car."""
    bearers = [each for each in known.seen if each.piece.kind is PieceKind.STRUCTURE]
    for one, other in combinations(bearers, 2):
        for a, b in product(one.numbers, other.numbers):
            if a.item == b.item and READ == a.status == b.status and not agree(a, b):
                sentence = said(
                    "The {mark} and the {other} name different cars.",
                    mark=mark_name(known, a),
                    other=mark_name(known, b),
                )
                about = (one.piece.id, other.piece.id, a.mark, b.mark)
                yield _misfit(MisfitKind.AGAINST, about, sentence, known, a.mark, b.mark)


def _dates(told: Told) -> Iterator[Misfit]:
    known, last = told.known, _last_day(told.known)
    for core in known.cores:
        yield from _of_core(told, core, last)
        for date in (d for piece in (core.piece, *core.fitted) for d in piece.dates):
            if first_day(date) > last:
                sentence = said(
                    "The {date} is later than the day on which the car was complete: {read} "
                    "at the earliest, the car {last} at the latest.",
                    date=date.name,
                    read=told.day(date),
                    last=date_text(day_type.fromordinal(last)),
                )
                about = (core.piece.piece.id, date.mark)
                yield _misfit(MisfitKind.IMPOSSIBLE, about, sentence, known, date.mark)
            elif _is_early(known, date):
                sentence = said(
                    "The {date} is earlier before the car than the code book knows.", date=date.name
                )
                about = (core.piece.piece.id, date.mark)
                yield _misfit(MisfitKind.UNUSUAL, about, sentence, known, date.mark)


def _of_core(told: Told, core: Core, last: int) -> Iterator[Misfit]:
    """A casting later than the stamp on it."""
    known = told.known
    casts = [d for d in core.piece.dates if d.is_cast]
    for stamp in (d for d in core.piece.dates if not d.is_cast):
        for cast in casts:
            if not _can_follow(cast, stamp, last):
                sentence = said(
                    "The {cast} is later than the {stamp} on the same part: {read} at the "
                    "earliest, the stamp {other} at the latest.",
                    cast=cast.name,
                    stamp=stamp.name,
                    read=told.day(cast),
                    other=told.day(stamp, last=last),
                )
                about = (core.piece.piece.id, cast.mark, stamp.mark)
                yield _misfit(MisfitKind.IMPOSSIBLE, about, sentence, known, cast.mark, stamp.mark)


def _can_follow(cast: DateSeen, stamp: DateSeen, last: int) -> bool:
    """Is there a day of the stamp, before the car was complete, within two years after a day of
    the casting? Where all days of the stamp are later than that, any will do."""
    stamped = plausible(stamp)
    stamped = stamped[stamped <= last] if (stamped <= last).any() else stamped
    later = stamped[:, None] - plausible(cast)[None, :]
    return bool(((later >= 0) & (later <= days.LONGEST_DAYS)).any())


def _last_day(known: Noted) -> int:
    """The latest day on which the car can have been complete, by what bounds it: the claim, a
    stated day, a planned week with the most that its lag allows; where none does, its run."""
    found = []
    built = known.car.casefile.claim.built
    if built:
        found.append(PartialDate.parse(built).span().last.toordinal())
    for seen in known.seen:
        if seen.piece.kind not in (PieceKind.PLATE, PieceKind.PAPER):
            continue
        for date in seen.dates:
            item = known.car.book.item(date.item)
            link = lags.link_to_car(known.car.book, known.car.context, date.item, True)
            if link is not None and item is not None and not item.home:
                found.append(int(plausible(date).max()) + max(link.most, 0))
    return min(found, default=known.grid.run[1])


def _is_early(known: Noted, date: DateSeen) -> bool:
    """Is every day of it earlier before the claimed weeks than the book's most?"""
    lag = lags.lag_between(known.car.book, known.car.context, date.item, BUILD_DATE.id)
    if lag is None or known.car.casefile.claim.built is None:
        return False
    first = PartialDate.parse(known.car.casefile.claim.built).span().first.toordinal()
    return bool(first - int(plausible(date).max()) > lag.most_days)


def _papers(known: Noted) -> Iterator[Misfit]:
    """A paper that names another day of a core's stamp than this shows."""
    for seen in known.seen:
        if seen.piece.kind not in (PieceKind.PLATE, PieceKind.PAPER):
            continue
        for named in seen.dates:
            for core in known.cores:
                for stamp in core.piece.main.dates:
                    same = np.intersect1d(plausible(stamp), plausible(named))
                    if stamp.item == named.item and not same.size:
                        sentence = said(
                            "The {paper} names another day than the {stamp} shows.",
                            paper=seen.piece.name,
                            stamp=stamp.name,
                        )
                        about = (seen.piece.id, core.piece.piece.id)
                        yield _misfit(
                            MisfitKind.AGAINST, about, sentence, known, named.mark, stamp.mark
                        )


def _codes(told: Told) -> Iterator[Misfit]:
    known = told.known
    for seen in known.seen:
        # What bears another number is another car's whole: that is told once.
        others = {each.mark for each in seen.numbers if differing(known, each) > 1}
        for code in (each for each in seen.codes if each.mark not in others):
            claimed = known.items[code.item].claimed
            item = known.car.book.item(code.item)
            if item is None or claimed == IMPLIED:
                continue
            if code.values[claimed] >= PLAUSIBLE * max(code.values.values()):
                continue
            sentence = told.code(code, item)
            about = (seen.piece.id, code.mark, code.item)
            yield _misfit(MisfitKind.AGAINST, about, sentence, known, code.mark)


def _found_elsewhere(findings: tuple[Finding, ...], named: set[str]) -> Iterator[Misfit]:
    """What the rules across marks found besides: marks that say different things, a combination
    that the works did not build; from memory alone only told. What one of its marks is named
    for already is not said twice."""
    for finding in findings:
        marks = tuple(subject.mark for subject in finding.subjects)
        if finding.outcome is not Outcome.DIFFER:
            continue
        if not finding.basis.weighs:
            yield Misfit(MisfitKind.TOLD, marks, finding.observation, finding.basis, finding.source)
        elif not named & set(marks):
            kind = MisfitKind.UNUSUAL if finding.is_unusual else MisfitKind.AGAINST
            yield Misfit(kind, marks, finding.observation, finding.basis, finding.source)
