"""The faults that a command line can have: each class writes its sentence once."""

from witnessmark.problem import Problem
from witnessmark.source import Source


def render_problem(problem: Problem) -> dict[str, object]:
    """A problem with its place for a machine, in the order in which a reader wants it."""
    source = problem.source
    return {
        "file": source.name,
        "line": source.line,
        "column": source.column,
        "width": source.width,
        "sentence": problem.sentence(),
        "expected": problem.expected(),
    }


def why(fault: BaseException) -> str:
    """What the system says of a fault, else what the fault says of itself."""
    return getattr(fault, "strerror", None) or str(fault)


def typed(argument: str, text: str, column: int = 1, width: int | None = None) -> Source:
    """A place in what was typed for one argument, `column` from 1; all of it by default."""
    return Source(argument, None, column, len(text) if width is None else width, text)


class NotAPair(Problem):
    """An argument that should have been NAME=TEXT."""

    pair: str
    form: str
    example: str = ""
    says = "{pair!r} is not {form}"

    @property
    def wants(self) -> str:
        """The form, with an example where there is one."""
        if self.example:
            return "{form}, such as {example!r}"
        return "{form}, in quotes when it holds a space, ?, ~, [ or |"


class TooFew(Problem):
    """A comparison needs two marks."""

    count: int
    says = "{count} reading is not enough to compare"
    wants = "at least two of MARK=READING"


class OneOrAColumn(Problem):
    """A reading and a column of readings at once, or neither."""

    reading: str | None
    wants = "READING, or --column FILE"

    @property
    def says(self) -> str:
        """Which of the two."""
        if self.reading is None:
            return "no reading was typed"
        return "a reading and a column of readings were given"


class OneCase(Problem):
    """Several cases where a page is of one."""

    count: int
    says = "{count} cases were given, and --why, --all and --json are about one"
    wants = "one CASE, or none of these"


class NothingThere(Problem):
    """A path at which what was asked for does not stand."""

    path: str
    what: str
    wanted: str
    says = "there is no {what} at {path}"
    wants = "{wanted}"


class NotReceived(Problem):
    """A file that was to become an exhibit and cannot be read."""

    path: str
    reason: str
    says = "{path!q} cannot be read: {reason}"
    wants = "a photograph (JPEG, PNG, TIFF) or a PDF, such as IMG_0412.jpg=PLACE"


class ItemIsClaimed(Problem):
    """An item of the book where a field of the case is set."""

    name: str
    pair: str
    says = "{name!r} is an item of the book, and no field of the case"
    wants = "--claim {pair!q}"


class UpgradeFirst(Problem):
    """A case of the previous format, which is not changed as it is."""

    case: str
    says = "this case is in the previous format"
    wants = "`witnessmark case upgrade {case}` first"


class NoNumber(Problem):
    """A letter about a car of which no number is claimed."""

    case: str
    item: str
    says = "the case claims no number by which the car could be asked about"
    wants = "`witnessmark case set {case} --claim {item}=NUMBER`"


class NoMinutes(Problem):
    """Looks are to be fitted into a time that nobody stated."""

    case: str
    says = "neither you nor the case says how many minutes there are"
    wants = "--minutes 30, or `witnessmark case set {case} minutes_available=30`"


class NotOverwritten(Problem):
    """A place that already holds something which is not ours to replace."""

    path: str
    what: str
    wanted: str
    says = "{path} {what}; nothing was written"
    wants = "{wanted}"


class NotWritable(Problem):
    """A file that the system did not let us write."""

    path: str
    reason: str
    says = "cannot write {path}: {reason}; nothing was written"
    wants = "a folder that can be written to"


class ChangedMeanwhile(Problem):
    """What somebody else has changed since it was read."""

    path: str
    written: str
    wants = "the same command again, which reads what is there now"

    @property
    def says(self) -> str:
        """The file, and who was first."""
        if self.written:
            return "{path} was changed ({written}) since it was read; nothing was written"
        return "{path} was changed since it was read; nothing was written"
