"""Faults in a reading as it was typed: one class for each sentence."""

from unicodedata import name as unicode_name

from witnessmark.problem import Problem

LONGEST_READING = 500
"""Longest text of one reading, in characters."""


class TooLong(Problem):
    """The text is longer than any mark."""

    length: int
    longest = LONGEST_READING
    says = "the reading is {length} characters long"
    wants = "at most {longest} characters"


class NothingTyped(Problem):
    """The text holds no sign at all."""

    says = "nothing was typed"
    wants = "at least one sign; … for a mark of which nothing can be read, _ for one left empty"


class TooMuchUnread(Problem):
    """So many places that cannot be read that no search could tell where they stand."""

    found: int
    most: int
    says = "{found} signs stand for what cannot be read: too much is unread to place it"
    wants = "at most {most} of ?, ~ and … on this mark; one … for all that is lost in a row"


class NotASign(Problem):
    """A code point that no mark can carry: a control character, half a character."""

    character: str
    wants = "a character as it stands on the metal, or a sign of the notation"

    @property
    def says(self) -> str:
        """Its name too, where Unicode gives it one."""
        if self.name:
            return "{character!u} ({name}) cannot be on a mark"
        return "{character!u} cannot be on a mark"

    @property
    def name(self) -> str:
        """The name in Unicode, or an empty text."""
        return unicode_name(self.character, "").lower()


class SetFault(Problem):
    """The base of every fault in the brackets of a set."""

    wants = "two or more characters such as [38], or ? for a place that cannot be read"


class OpenSet(SetFault):
    """A bracket that is never closed."""

    says = "this [ is never closed"


class NotOpened(SetFault):
    """A closing bracket without an opening one."""

    says = "this ] closes nothing"


class SetInSet(SetFault):
    """A bracket inside brackets."""

    says = "this set is inside another set"


class EmptySet(SetFault):
    """Brackets without a character."""

    says = "this set names no character"


class SignInSet(SetFault):
    """A sign that is no character, inside brackets."""

    sign: str
    says = "{sign} cannot be in a set"


class TooManyWindows(Problem):
    """More windows than the plate has."""

    mark_name: str
    windows: int
    wants = "at most {signs} of the sign |"

    @property
    def says(self) -> str:
        """One window or several."""
        if self.windows == 1:
            return "| begins window {next_window}, and the {mark_name} has 1 window"
        return "| begins window {next_window}, and the {mark_name} has {windows} windows"

    @property
    def next_window(self) -> int:
        """The first window that the plate does not have."""
        return self.windows + 1

    @property
    def signs(self) -> int:
        """How many signs part its windows."""
        return self.windows - 1
