"""What does not fit in how the metal looks: a place that looks disturbed, and what holds a plate
otherwise than the works left it."""

from collections.abc import Iterator

from witnessmark.agreement.look_class import features_of, look_class
from witnessmark.casefile.records import LookClass, LookSeen, Seen
from witnessmark.catalogue import in_a_row, said
from witnessmark.codebook.marks import Carried
from witnessmark.codebook.pieces import PieceKind
from witnessmark.codebook.records import Basis
from witnessmark.codebook.site_records import Feature
from witnessmark.weighing.evidence.noted import PieceSeen, SurfaceSeen
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.records import Misfit, MisfitKind

HOLDING_WORDS = frozenset(
    ("fixing", "fixings", "rivet", "rivets", "hole", "holes", "screw", "screws")
)
"""Words of features that tell what holds a plate. Its edge they do not: a repaint changes that."""


def disturbed(known: Noted) -> Iterator[Misfit]:
    """The places that look disturbed."""
    for seen in known.seen:
        for surface in seen.surfaces:
            if LookClass.DISTURBED in (surface.look, surface.fixings) or surface.is_seamed:
                site = known.car.book.site(surface.id, known.car.context)
                name = site.name if site is not None else surface.id
                sentence = said("The {place} looks disturbed.", place=name)
                about = (seen.piece.id, surface.id)
                yield Misfit(MisfitKind.AGAINST, about, sentence, Basis.COMMON_PRACTICE, "")


def held_otherwise(known: Noted) -> Iterator[Misfit]:
    """Plates held otherwise than the works left them: each such look with what it means, and that
    honest work leaves it too; by a row from memory only told."""
    for seen in known.seen:
        for surface in seen.surfaces:
            plate = _plate(seen, surface)
            for look in _looks_of(known, surface) if plate else ():
                feature = _otherwise(known, look)
                if feature is None:
                    continue
                kind = MisfitKind.UNUSUAL if feature.citation.basis.weighs else MisfitKind.TOLD
                sentence = _sentence(plate, look, feature)
                about, cited = (seen.piece.id, surface.id), feature.citation
                yield Misfit(kind, about, sentence, cited.basis, cited.source)


def _plate(seen: PieceSeen, surface: SurfaceSeen) -> str:
    """The name of the plate that stands there, of its own or on another part; empty where none
    does."""
    if seen.piece.kind is PieceKind.PLATE:
        return seen.piece.name
    return next((mark.name for mark in surface.marks if mark.carried is Carried.PLATE), "")


def _looks_of(known: Noted, surface: SurfaceSeen) -> Iterator[LookSeen]:
    """What somebody saw of what holds a plate."""
    sites = {surface.id, *(mark.site for mark in surface.marks)}
    for look in known.car.casefile.looks:
        is_holding = HOLDING_WORDS & set(look.feature.split("_"))
        if is_holding and look.site in sites and look.seen is not Seen.TOLD:
            yield look


def _otherwise(known: Noted, look: LookSeen) -> Feature | None:
    """The row by which it is otherwise; None where it is as made, disturbed, which is told of the
    whole place, or not in the book."""
    for feature in features_of(known.car, look):
        counts = {each.id: each.look for each in feature.outcomes}.get(look.outcome)
        if not feature.citation.basis.weighs:
            return feature if counts not in (LookClass.FACTORY, None) else None
        return feature if look_class(known.car, look) is LookClass.DOUBTFUL else None
    return None


def _sentence(plate: str, look: LookSeen, feature: Feature) -> str:
    as_made = [each.id for each in feature.outcomes if each.look is LookClass.FACTORY]
    return said(
        "What holds the {plate} is not as the works left it: {feature} “{noted}”, where the works "
        "left “{as_made}”. The plate may have been off, in honest work too; this look alone does "
        "not say why.",
        plate=plate,
        feature=look.feature.replace("_", " "),
        noted=look.outcome.replace("_", " "),
        as_made=in_a_row((each.replace("_", " ") for each in as_made), "; "),
    )
