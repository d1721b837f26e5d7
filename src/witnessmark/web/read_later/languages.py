"""The languages that a page for later can be read in: English, and each whose catalogue lies in
the workshop's folder `languages/`."""

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from witnessmark.catalogue import ENGLISH_CATALOGUE, Catalogue
from witnessmark.store.digest_files import home
from witnessmark.translation import parse_catalogue

FOLDER = "languages"


@dataclass(frozen=True, slots=True)
class LanguageOffered:
    """A language by its tag, with its sentences."""

    tag: str
    catalogue: Catalogue


def languages() -> tuple[LanguageOffered, ...]:
    """English first; a catalogue that cannot be read is not offered."""
    found = [LanguageOffered(ENGLISH_CATALOGUE.language, ENGLISH_CATALOGUE)]
    for path in sorted((home() / FOLDER).glob("*.po")):
        catalogue = _read(path, path.stat().st_mtime_ns)
        if catalogue is not None and catalogue.language not in {each.tag for each in found}:
            found.append(LanguageOffered(catalogue.language, catalogue))
    return tuple(found)


@lru_cache(maxsize=32)
def _read(path: Path, _changed_ns: int) -> Catalogue | None:
    try:
        found = parse_catalogue(path.read_text("utf-8"), path.name)
    except (OSError, ValueError):
        return None
    return found if isinstance(found, Catalogue) else None
