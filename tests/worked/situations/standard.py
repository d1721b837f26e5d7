"""The standard car of each book, by the name under which situations and laws ask for it."""

from collections.abc import Mapping

from tests.worked.situations import standard_shipped as shipped
from tests.worked.situations import standard_small as small
from tests.worked.situations.car import Car

STANDARD: Mapping[str, Car] = {
    "camaro": shipped.CAMARO,
    "mustang": shipped.MUSTANG,
    "sprint": shipped.SPRINT,
    "numbered": shipped.NUMBERED,
    "beetle": shipped.BEETLE,
    "pan": small.PAN,
    "jaguar": shipped.JAGUAR,
    "frame": small.FRAME,
    "coachbuilt": small.COACHBUILT,
    "order": small.ORDER,
    "no-numbers": small.NO_NUMBERS,
    "labels": small.LABELS,
}
EVERY = tuple(STANDARD)
"""Each of them."""
