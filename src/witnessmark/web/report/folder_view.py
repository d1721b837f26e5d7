"""A case as a folder in a zip file: what the command line opens, with every revision."""

import shutil
import tempfile
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import IO, cast

from django.http import HttpRequest, StreamingHttpResponse

from witnessmark import store
from witnessmark.store.digest_files import files_below
from witnessmark.web.shared import books
from witnessmark.web.shared.desk import bench_of

PIECE = 1 << 20


def folder(request: HttpRequest, case: str) -> StreamingHttpResponse:
    """The folder, with the case's own books beside its document; photographs are not packed
    closer, which would take long and gain nothing."""
    casefile = bench_of(case).casefile
    place = Path(tempfile.mkdtemp(prefix="witnessmark-folder-"))
    try:
        store.folder_out(case, place)
        for name in (casefile.book, *casefile.beside):
            own = books.home_books() / name
            if books.folder_for(casefile) and own.is_dir() and not (place / name).exists():
                shutil.copytree(own, place / name)
    except BaseException:
        shutil.rmtree(place, ignore_errors=True)
        raise
    answer = _FolderSent(_packed(place, case), content_type="application/zip")
    answer.place = place
    answer["Content-Disposition"] = f'attachment; filename="{case}.zip"'
    return answer


class _FolderSent(StreamingHttpResponse):
    """The answer, with the folder that goes when it is sent, or when nobody wants it."""

    place: Path

    def close(self) -> None:
        """Called by every server, however far it came."""
        super().close()
        shutil.rmtree(self.place, ignore_errors=True)


class _Pieces:
    """A stream that hands on what was written to it."""

    def __init__(self) -> None:
        self._pieces: list[bytes] = []

    def write(self, piece: bytes) -> int:
        """Take a piece."""
        self._pieces.append(bytes(piece))
        return len(piece)

    def flush(self) -> None:
        """Nothing is held back."""

    def taken(self) -> bytes:
        """All that has come since."""
        found, self._pieces = b"".join(self._pieces), []
        return found


def _packed(place: Path, name: str) -> Iterator[bytes]:
    """The zip file piece by piece."""
    pieces = _Pieces()
    with zipfile.ZipFile(cast(IO[bytes], pieces), "w", zipfile.ZIP_STORED) as archive:
        for path in files_below(place):
            inside = f"{name}/{path.relative_to(place).as_posix()}"
            entry = zipfile.ZipInfo.from_file(path, inside)
            with path.open("rb") as source, archive.open(entry, "w") as target:
                while piece := source.read(PIECE):
                    target.write(piece)
                    yield pieces.taken()
    yield pieces.taken()
