"""The folder `exhibits/` beside a case: photographs and papers, byte for byte as received.

A file is opened only by its entry in the case, only if it lies directly in the
folder, and counts only if its SHA-256 is the one that was entered.
"""

import hashlib
import stat
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from witnessmark.casefile.file_names import MEDIA_TYPES, media_type_of, name_fault
from witnessmark.casefile.pictures import (
    KINDS,
    MOST_MEGAPIXELS,
    MOST_PIXELS_A_SIDE,
    is_from_a_phone,
    media_type_by_content,
    read_header,
)
from witnessmark.casefile.problems import (
    ExhibitAbsent,
    ExhibitBroken,
    ExhibitChanged,
    ExhibitNameRefused,
    ExhibitOutside,
    ExhibitProblem,
    ExhibitTooLarge,
    ExhibitUnreadable,
    ExhibitUnwritable,
    MediaTypeDiffers,
    MediaTypeUnknown,
    PhonePicture,
    PictureTooLarge,
    RegionOutside,
)
from witnessmark.casefile.records import Casefile, ExhibitEntry
from witnessmark.casefile.whole import put_whole
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.problem import Problem
from witnessmark.source import NOWHERE, Source

MOST_MEGABYTES = 50
"""Largest exhibit, in millions of bytes."""


@dataclass(frozen=True, slots=True)
class Exhibit:
    """A photograph or document received: its entry, its bytes, what they are.

    `width_px` and `height_px` are those of the upright picture, 0 for a PDF.
    """

    entry: ExhibitEntry
    content: bytes
    media_type: str
    width_px: int
    height_px: int


@dataclass(frozen=True, slots=True)
class ExhibitRead:
    """An exhibit, or None and what is wrong with it."""

    exhibit: Exhibit | None
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class ExhibitFolder:
    """The folder of a case's exhibits; it need not exist where the case lists none."""

    folder: Path

    def read(self, entry: ExhibitEntry, source: Source = NOWHERE) -> ExhibitRead:
        """The exhibit of this entry; `source` is the place of its file name in the case."""
        fault = name_fault(entry.file)
        if fault is not None:
            return ExhibitRead(None, (ExhibitNameRefused(source, entry.file, fault),))
        found = self._content(entry.file, source)
        if isinstance(found, Problem):
            return ExhibitRead(None, (found,))
        return _examine(entry, found, source)

    def contents(self, entries: tuple[ExhibitEntry, ...]) -> Mapping[str, bytes]:
        """The files of these entries by exhibit id, each read when it is asked for."""
        return _Contents(self, {entry.id: entry for entry in entries})

    def check(self, casefile: Casefile, places: JsonPlaces | None = None) -> Iterator[Problem]:
        """Everything that is wrong with the files of a case, one after the other.

        A name that the check of the case has refused already is passed over.
        """
        for n, entry in enumerate(casefile.exhibits):
            if name_fault(entry.file) is None:
                source = places.source(("exhibits", n, "file")) if places else NOWHERE
                read = self.read(entry, source)
                yield from read.problems
                if read.exhibit is not None:
                    yield from _regions_outside(read.exhibit, n, places)

    def keep(self, content: bytes, file: str, source: Source = NOWHERE) -> Problem | None:
        """Put a file there under this name, whole; one of the same bytes may be there already."""
        try:
            self.folder.mkdir(exist_ok=True)
            if self.folder.is_symlink():
                return ExhibitOutside(source, file)
            put_whole(self.folder / file, content, may_replace=False)
        except FileExistsError:
            found = self._content(file, source)
            if found != content:
                if isinstance(found, Problem):
                    return found
                digests = (hashlib.sha256(each).hexdigest() for each in (found, content))
                return ExhibitChanged(source, file, *digests)
        except OSError as fault:
            return ExhibitUnwritable(source, file, fault.strerror or "the system refuses")
        return None

    def _content(self, file: str, source: Source) -> bytes | Problem:
        """The bytes of a file that lies in the folder itself."""
        try:
            path = (self.folder / file).resolve(strict=True)
            if path.parent != self.folder.parent.resolve(strict=True) / self.folder.name:
                return ExhibitOutside(source, file)
            if not stat.S_ISREG(path.stat().st_mode):
                return ExhibitUnreadable(source, file, "it is not a file")
            with path.open("rb") as stream:
                content = stream.read(MOST_MEGABYTES * 1_000_000 + 1)
        except (FileNotFoundError, NotADirectoryError):
            return ExhibitAbsent(source, file)
        except OSError as fault:
            return ExhibitUnreadable(source, file, fault.strerror or "the system refuses")
        except (ValueError, RuntimeError):
            return ExhibitAbsent(source, file)
        if len(content) > MOST_MEGABYTES * 1_000_000:
            return ExhibitTooLarge(source, file, MOST_MEGABYTES)
        return content


def received(content: bytes, path: str, source: Source) -> ExhibitRead:
    """A file that is to become an exhibit, named by its SHA-256 with the ending of its kind;
    `path` is where it lies, with its folder, for what is wrong with it."""
    digest, media_type = hashlib.sha256(content).hexdigest(), media_type_by_content(content)
    ending = next((e for e, kind in MEDIA_TYPES.items() if kind == media_type), "")
    named = ExhibitEntry(id=digest[:12], file=f"{path}{ending}", sha256=digest)
    read = _examine(named, content, source)
    if read.exhibit is None:
        told = tuple(replace(p, file=path) for p in read.problems if isinstance(p, ExhibitProblem))
        return ExhibitRead(None, told)
    entry = replace(named, file=f"{digest}{ending}")
    return ExhibitRead(replace(read.exhibit, entry=entry), ())


@dataclass(frozen=True, slots=True)
class _Contents(Mapping[str, bytes]):
    """Files that are read when they are asked for: sixty photographs fill no memory."""

    folder: ExhibitFolder
    entries: Mapping[str, ExhibitEntry]

    def __getitem__(self, exhibit: str) -> bytes:
        read = self.folder.read(self.entries[exhibit]).exhibit
        if read is None:
            raise KeyError(exhibit)
        return read.content

    def __iter__(self) -> Iterator[str]:
        return iter(self.entries)

    def __len__(self) -> int:
        return len(self.entries)


def _examine(entry: ExhibitEntry, content: bytes, source: Source) -> ExhibitRead:
    """The digest first, then the kind of file, then its header."""
    problems: list[Problem] = []
    digest = hashlib.sha256(content).hexdigest()
    if digest != entry.sha256:
        problems.append(ExhibitChanged(source, entry.file, digest, entry.sha256))
    media_type = media_type_by_content(content)
    named = media_type_of(entry.file)
    if media_type is None or named is None:
        is_phones = media_type is None and is_from_a_phone(content)
        problems.append((PhonePicture if is_phones else MediaTypeUnknown)(source, entry.file))
        return ExhibitRead(None, tuple(problems))
    if media_type != named:
        problems.append(MediaTypeDiffers(source, entry.file, KINDS[named], KINDS[media_type]))
    header = read_header(content, media_type)
    if header.has_too_many_pixels():
        size = (header.width_px, header.height_px)
        most = (MOST_MEGAPIXELS, MOST_PIXELS_A_SIDE)
        problems.append(PictureTooLarge(source, entry.file, *size, *most))
    elif header.is_cut_short or not header.is_readable:
        problems.append(ExhibitBroken(source, entry.file, header.is_cut_short))
    if problems:
        return ExhibitRead(None, tuple(problems))
    size = header.upright_size()
    return ExhibitRead(Exhibit(entry, content, media_type, *size), ())


def _regions_outside(exhibit: Exhibit, n: int, places: JsonPlaces | None) -> Iterator[Problem]:
    """The regions that do not lie in their picture, each at its place in the case."""
    width, height = exhibit.width_px, exhibit.height_px
    for at, region in enumerate(exhibit.entry.number_regions or ()):
        if region.left + region.width > width or region.top + region.height > height:
            path = ("exhibits", n, "number_regions", at, "left")
            source = places.source(path) if places else NOWHERE
            yield RegionOutside(source, exhibit.entry.file, width, height)
