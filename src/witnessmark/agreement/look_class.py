"""What a look counts as: factory, doubtful or disturbed; and which places look disturbed."""

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import LookClass, LookSeen, Seen


def look_class(car: CarMarks, look: LookSeen) -> LookClass | None:
    """The look that an outcome counts as, by the book's feature or by its own word; None where
    the book knows neither, or gives the feature from memory."""
    for feature in car.book.features:
        is_it = feature.id == look.feature and feature.site == look.site
        if not is_it or not feature.applies.covers(car.context):
            continue
        if not feature.citation.basis.weighs:
            return None
        for outcome in feature.outcomes:
            if outcome.id == look.outcome:
                return outcome.look
    return next((word for word in LookClass if word.value == look.outcome), None)


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
