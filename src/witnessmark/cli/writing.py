"""Writes a file whole or not at all, and reads one that somebody has named."""

import os
import stat
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from errno import EFBIG, EINVAL
from pathlib import Path

from witnessmark.cli.problems import NotOverwritten, NotWritable
from witnessmark.cli.terminal import refuse
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


def write_whole(path: Path, content: bytes) -> Problem | None:
    """Write `content` to `path` by way of a file beside it; a problem if that cannot be done.

    Whoever looks at `path` sees what stood there before or all that is new,
    even when the writing is interrupted.
    """
    try:
        _replace(path, content)
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or str(fault)
        return NotWritable(Source(""), str(path), reason)
    return None


def write_or_refuse(path: Path, content: bytes) -> None:
    """The same; a problem ends the command."""
    fault = write_whole(path, content)
    if fault is not None:
        refuse((fault,))


def bring_over(what: str, target: Path, kept: Path | None, before: bytes, now: bytes) -> None:
    """A document as it was to `kept`, then the new one to `target`; neither over another file."""
    if kept is None and target.exists():
        refuse((NotOverwritten(Source("--out"), str(target), "is there", "a new file name"),))
    if kept is not None and kept.exists() and not _holds(kept, before):
        wanted = "--out FILE, or another name for that file"
        refuse((NotOverwritten(Source(""), str(kept), f"is there and is another {what}", wanted),))
    if kept is not None:
        write_or_refuse(kept, before)
    write_or_refuse(target, now)


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


def _replace(path: Path, content: bytes) -> None:
    handle, name = tempfile.mkstemp(prefix=".witnessmark-", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, 0o666 & ~_umask())
        os.replace(name, path)
    except BaseException:
        os.unlink(name)
        raise


def _umask() -> int:
    """The permissions that new files of this user lack: mkstemp knows none of it."""
    mask = os.umask(0o077)
    os.umask(mask)
    return mask
