"""Writes a file whole or not at all, and reads one that somebody has named."""

import os
import stat
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from errno import EFBIG, EINVAL
from pathlib import Path

from witnessmark.cli.problems import ChangedMeanwhile, NotOverwritten, NotWritable, why
from witnessmark.cli.terminal import known, print_outline, refuse
from witnessmark.outline.records import Outline, Paragraph
from witnessmark.problem import Problem
from witnessmark.source import Source


class NotReadError(OSError):
    """What was named is no file, or is larger than anything that is wanted there."""


def read_named(path: Path, most_bytes: int) -> bytes:
    """The bytes of a file; OSError for what is no file, such as a pipe, and for too many."""
    if not stat.S_ISREG(path.stat().st_mode):
        raise NotReadError(EINVAL, "it is not a file")
    with path.open("rb") as file:
        content = file.read(most_bytes + 1)
    if len(content) > most_bytes:
        raise NotReadError(EFBIG, f"it is larger than {most_bytes // 1_000_000} MB")
    return content


def write_whole(path: Path, content: bytes, *, may_replace: bool = True) -> Problem | None:
    """Write `content` to `path` by way of a file beside it; a problem if that cannot be done.

    Whoever looks at `path` sees what stood there before or all that is new,
    even when the writing is interrupted. Where it may not replace, what another has put
    there meanwhile stands, and it is said who.
    """
    from witnessmark.casefile.whole import put_whole, who_wrote

    try:
        put_whole(path, content, may_replace)
    except FileExistsError:
        there = f"already exists ({who_wrote(path)})"
        return NotOverwritten(Source(""), str(path), there, "a new file name")
    except (OSError, ValueError) as fault:
        return NotWritable(Source(""), str(path), why(fault))
    return None


def write_upgraded(
    file: Path, out: Path | None, before: bytes, now: bytes, kind: str
) -> Path | None:
    """A file converted to the present format: its bytes `before` are kept beside it, then
    `now` takes its place; or `now` goes into the new file `out`. Gives where it is kept.

    Whatever another has changed or put there since `before` was read ends the command.
    """
    from witnessmark.casefile.whole import who_wrote

    kept = None if out else file.with_name(f"{file.stem}.format-1{file.suffix}")
    if out is not None and out.exists():
        refuse((NotOverwritten(Source("--out"), str(out), "already exists", "a new file name"),))
    with only_writer(file.parent):
        if not _holds(file, before):
            refuse((ChangedMeanwhile(Source(""), str(file), who_wrote(file)),))
        if kept is not None and not _holds(kept, before):
            if kept.exists():
                told = f"already exists and is another {kind}"
                wanted = "--out FILE, or another name for that file"
                refuse((NotOverwritten(Source(""), str(kept), told, wanted),))
            write_or_refuse(kept, before, may_replace=False)
        write_or_refuse(out or file, now, may_replace=out is None)
    return kept


def tell_upgraded(target: Path, fields: str, told: Iterable[str], kept: Path | None) -> None:
    """What differs in a file that was converted, line by line, then where it is kept
    as it was."""
    lines = (*told, *(() if kept is None else (f"The original is kept in {kept}.",)))
    print_outline(Outline(f"{target}: {fields} converted", tuple(map(Paragraph, lines))))


def write_or_refuse(path: Path, content: bytes, *, may_replace: bool = True) -> None:
    """The same; a problem ends the command."""
    known(write_whole(path, content, may_replace=may_replace))


def refuse_what_is_not_ours(path: Path, opening: bytes, what: str, option: str) -> None:
    """End the command if something stands at the path of this option that does not begin as what
    we write there does."""
    try:
        if not path.exists():
            return
        if path.is_file():
            with path.open("rb") as file:
                if file.read(len(opening)) == opening:
                    return
    except (OSError, ValueError):
        pass  # a folder, or unreadable: not ours either
    told = f"already exists and is not {what}"
    refuse((NotOverwritten(Source(option), str(path), told, "a new file name"),))


def _holds(path: Path, content: bytes) -> bool:
    try:
        return read_named(path, len(content)) == content
    except OSError:
        return False


@contextmanager
def only_writer(folder: Path) -> Iterator[None]:
    """Let nobody else of us write into this folder meanwhile, where the system can see to that.

    The system lets go by itself when a process ends, however it ends.
    """
    try:
        import fcntl
    except ImportError:  # no such thing on this system: what is compared is compared all the same
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        with suppress(OSError):  # a disk elsewhere may know no locks
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)
