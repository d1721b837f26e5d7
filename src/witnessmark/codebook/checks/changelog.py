"""The book's CHANGELOG.md, where there is one: its newest heading is the book's version."""

import re

from witnessmark.documents.entries import FileText
from witnessmark.problem import Problem
from witnessmark.source import Source

CHANGELOG = "CHANGELOG.md"

_HEADING = re.compile(r"##[ \t]+(.*?)[ \t#]*")


class NoVersionHeading(Problem):
    """A changelog without a heading that names a version."""

    version: str
    says = "no heading names a version of the book"
    wants = "`## {version}`, the newest first"


class OtherVersion(Problem):
    """A changelog whose newest heading is not the book's version."""

    found: str
    version: str
    says = "the newest heading is {found!q}, the book's version {version!r}"
    wants = "{version!r}, or this heading as `version` in book.toml"


def check_changelog(changelog: FileText, version: str) -> tuple[Problem, ...]:
    """The problem of a changelog that does not begin with the book's version, or nothing."""
    for number, line in enumerate(changelog.text.splitlines(), 1):
        heading = _HEADING.fullmatch(line)
        if heading is None:
            continue
        if heading[1] == version:
            return ()
        column = heading.start(1) + 1
        place = Source(changelog.name, number, column, max(1, len(heading[1])), line)
        return (OtherVersion(place, heading[1], version),)
    return (NoVersionHeading(Source(changelog.name), version),)
