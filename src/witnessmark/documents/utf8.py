"""From bytes to text, or to the place of the first byte that is none; names as text."""

from witnessmark.documents.problems import NotUtf8
from witnessmark.problem import Problem
from witnessmark.source import Source

_UTF16_MARKS = (b"\xff\xfe", b"\xfe\xff")


def decode_text(content: bytes, name: str) -> str | Problem:
    """The text of these bytes, or the place of the first byte that is no UTF-8."""
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as fault:
        start = fault.start
    looks_like = "UTF-16" if content.startswith(_UTF16_MARKS) else ""
    before = content[:start].decode("utf-8").replace("\r\n", "\n").replace("\r", "\n")
    line = before.count("\n") + 1
    left = before.rpartition("\n")[2].removeprefix("\ufeff" if line == 1 else "")
    right = content[start : start + 400].decode("utf-8", "replace")
    right = right.replace("\r", "\n").partition("\n")[0]
    source = Source(name, line, len(left) + 1, 1, left + right)
    return NotUtf8(source, content[start], looks_like)


def printable(name: object) -> str:
    """A name or path as it can be printed, whatever bytes the system has in it."""
    return str(name).encode("utf-8", "backslashreplace").decode("utf-8")
