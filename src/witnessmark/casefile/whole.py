"""A file is put in its place whole or not at all, and it is known who put it there."""

import os
from contextlib import suppress
from datetime import datetime
from pathlib import Path


def who_wrote(path: Path) -> str:
    """By whom and when a file was written last, as far as the system says.

    A phrase such as "written by anna at 2026-05-14 10:31:07"; empty where nothing is known.
    """
    try:
        found = path.stat()
    except (OSError, ValueError):
        return ""
    when = datetime.fromtimestamp(found.st_mtime).isoformat(" ", "seconds")
    try:
        return f"written by {path.owner()} at {when}"
    except (KeyError, NotImplementedError, OSError):
        return f"written at {when}"


def put_whole(target: Path, content: bytes, may_replace: bool) -> None:
    """Write beside the target, to the disk, then put it in its place in one step.

    FileExistsError where it may not replace and another has put one there meanwhile.
    """
    beside = target.with_name(f".witnessmark-{os.urandom(6).hex()}")
    try:
        with beside.open("xb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        if may_replace:
            beside.replace(target)
        else:
            _publish(beside, target)
        _keep_name(target.parent)
    finally:
        beside.unlink(missing_ok=True)


def _keep_name(folder: Path) -> None:
    """Let a new name outlast a loss of power, where the system can see to that."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _publish(beside: Path, target: Path) -> None:
    """Put the file in a place that nobody has; a link is made only there."""
    try:
        os.link(beside, target)
    except FileExistsError:
        raise
    except OSError:  # a disk that knows no links, such as a memory card
        target.open("xb").close()
        beside.replace(target)
