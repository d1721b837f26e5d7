"""With what an Opinion is made: the version of the program, and the digest of its tables."""

from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from pathlib import Path

import witnessmark


@dataclass(frozen=True, slots=True)
class MadeWith:
    """The version of the program, and the SHA-256 of all its tables of rates and words."""

    version: str
    tables_sha256: str


@cache
def made_with() -> MadeWith:
    """What is running: the digest is over name and content of each room's tables, in order."""
    package = Path(witnessmark.__file__).parent
    digest = sha256()
    for table in sorted(package.glob("*/tables/*.csv")):
        for part in (table.relative_to(package).as_posix().encode(), table.read_bytes()):
            digest.update(len(part).to_bytes(8, "big"))
            digest.update(part)
    return MadeWith(witnessmark.__version__, digest.hexdigest())
