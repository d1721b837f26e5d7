"""What a look counts as: factory, doubtful or disturbed; which places look disturbed; and how much
of a place was looked at."""

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile import LookClass, LookSeen, Seen
from witnessmark.codebook.site_records import Feature


def features_of(car: CarMarks, look: LookSeen) -> Iterator[Feature]:
    """The rows of the book for what was looked at, on such a car."""
    for feature in car.book.features:
        is_it = feature.id == look.feature and feature.site == look.site
        if is_it and feature.applies.covers(car.context):
            yield feature


def look_class(car: CarMarks, look: LookSeen) -> LookClass | None:
    """The look that an outcome counts as, by the book's feature or by its own word; None where
    the book knows neither, or gives the feature from memory."""
    for feature in features_of(car, look):
        if not feature.citation.basis.weighs:
            return None
        for outcome in feature.outcomes:
            if outcome.id == look.outcome:
                return outcome.look
    return next((word for word in LookClass if word.value == look.outcome), None)


@dataclass(frozen=True, slots=True)
class PlaceLooked:
    """How much of a place was looked at: how many features the book asks for there, or were
    noted besides; those noted; those of them that look otherwise than the factory left them."""

    asked: int
    noted: tuple[str, ...]
    otherwise: tuple[str, ...]

    @property
    def is_whole(self) -> bool:
        """Was everything looked at?"""
        return len(self.noted) == self.asked


def place_looked(car: CarMarks, site: str) -> PlaceLooked:
    """What was looked at at this place of the car; what was only told shows nothing."""
    looks = [e for e in car.casefile.looks if e.site == site and e.seen is not Seen.TOLD]
    noted = tuple(dict.fromkeys(each.feature for each in looks))
    covered = (f for f in car.book.features if f.site == site and f.applies.covers(car.context))
    asked = dict.fromkeys((*(each.id for each in covered), *noted))
    otherwise = dict.fromkeys(
        each.feature for each in looks if look_class(car, each) not in (LookClass.FACTORY, None)
    )
    return PlaceLooked(len(asked), noted, tuple(otherwise))


def disturbed_places(car: CarMarks) -> tuple[str, ...]:
    """The sites of which somebody saw that they look disturbed, each once; what was only told
    of the metal shows nothing."""
    return tuple(
        dict.fromkeys(
            look.site
            for look in car.casefile.looks
            if look.seen is not Seen.TOLD and look_class(car, look) is LookClass.DISTURBED
        )
    )
