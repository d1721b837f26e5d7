"""The photographs of a case by their ids, out of the store, each read when it is asked for."""

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from witnessmark.casefile import Casefile
from witnessmark.casefile.file_names import media_type_of
from witnessmark.store.exhibits import file_of, place_of


@dataclass(frozen=True, slots=True)
class HeldPhotographs(Mapping[str, bytes]):
    """Exhibit id to file; what is not there, or is not what was entered, is left out."""

    digests: Mapping[str, str]
    paths: Mapping[str, Path]

    def __getitem__(self, exhibit: str) -> bytes:
        try:
            content = self.paths[exhibit].read_bytes()
        except OSError:
            raise KeyError(exhibit) from None
        if hashlib.sha256(content).hexdigest() != self.digests[exhibit]:
            raise KeyError(exhibit)
        return content

    def __iter__(self) -> Iterator[str]:
        return iter(self.paths)

    def __len__(self) -> int:
        return len(self.paths)


def photographs_of(casefile: Casefile) -> HeldPhotographs:
    """The photographs and documents that a case lists."""
    kinds = {each.id: (each.sha256, media_type_of(each.file)) for each in casefile.exhibits}
    named = {each: (sha256, kind) for each, (sha256, kind) in kinds.items() if kind}
    paths = {each: place_of(file_of(sha256, kind)) for each, (sha256, kind) in named.items()}
    return HeldPhotographs({each: sha256 for each, (sha256, _) in named.items()}, paths)
