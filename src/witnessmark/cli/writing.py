"""Writes a file whole or not at all."""

import os
import tempfile
from pathlib import Path

from witnessmark.cli.problems import NotWritable
from witnessmark.problem import Problem
from witnessmark.source import Source


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
