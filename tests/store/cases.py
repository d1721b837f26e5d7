"""Small cases and pictures for the tests of the store."""

import random
from datetime import datetime, timedelta, timezone
from io import BytesIO

AT = datetime(2026, 5, 14, 10, 30, 7, 250000, tzinfo=timezone(timedelta(hours=2)))

CASE = """{
  "format": "witnessmark-case",
  "format_version": 2,
  "id": "sprint",
  "title": "A Sprint, before a purchase",
  "book": "tarvane-1952-1961",
  "later": {"a field": ["of another version", 1.50]},
  "sites": [
    { "site": "pad", "state": "read" }
  ],
  "readings": [
    { "mark": "engine_number", "text": "V206", "by": "calder" }
  ]
}
"""


def picture(seed: int, side: int = 48) -> bytes:
    """A small PNG picture, another for each seed."""
    from PIL import Image

    out = BytesIO()
    noise = random.Random(seed).randbytes(side * side * 3)
    Image.frombytes("RGB", (side, side), noise).save(out, "PNG", compress_level=0)
    return out.getvalue()
