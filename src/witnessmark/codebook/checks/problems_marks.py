"""Problems across a book's marks, and the pieces on which they stand: layouts, widths, alphabets,
forms of date; what is made and replaced as one."""

from witnessmark.codebook.records import IN_FULL
from witnessmark.problem import Problem


class SplitTwoWays(Problem):
    """A text that the fields of a mark explain in two ways."""

    text: str
    one: str
    other: str
    says = "{text!q} can be split {one!q} or {other!q}"
    wants = "one width, alphabets that tell the fields apart, a `before`, or windows = true"


class CodeLength(Problem):
    """A code is shorter or longer than the field, or part of a date, that reads its table."""

    code: str
    field: str
    widths: tuple[int, ...]
    says = "the code {code!q} does not fit {field!r}"

    @property
    def wants(self) -> str:
        """One character or several."""
        return "1 character" if self.widths == (1,) else "{widths!o} characters"


class OutsideAlphabet(Problem):
    """Characters that the alphabet of a field or item does not have."""

    text: str
    characters: str
    owner: str
    says = "{text!q} has {characters!q}, which {owner} does not have"
    wants = "characters of its alphabet"


class RepeatedCharacter(Problem):
    """A character stands in an alphabet twice."""

    character: str
    says = "the alphabet has {character!r} twice"
    wants = "each character once"


class NotationSign(Problem):
    """An alphabet has a sign that readings use for something else."""

    character: str
    says = "{character!r} is a sign of the notation for readings"
    wants = "letters and figures, without spaces or ? ~ _ … [ ] |"


class NotStruck(Problem):
    """An alphabet has what no mark can bear and no reading may hold: a control character, say."""

    character: str
    says = "{character!u} cannot be on a mark"
    wants = "visible characters, each a single one"


class AlphabetTooLong(Problem):
    """An alphabet has more characters than are weighed."""

    count: int
    most: int
    says = "the alphabet has {count} characters"
    wants = "at most {most}"


class NumberWithoutLength(Problem):
    """An item of kind number does not say how long the number is."""

    item: str
    says = "{item!r} is a number without a length"
    wants = "length = how many characters it has in full"


class PartWidth(Problem):
    """A field's width is not that of the part of the number that stands in it."""

    part: str
    widths: tuple[int, ...]
    length: int
    item: str

    @property
    def says(self) -> str:
        """All of the number or a part, in one character or several."""
        match self.part == IN_FULL, self.widths == (1,):
            case True, True:
                return "a field of 1 character cannot hold all of {item!r}"
            case True, False:
                return "a field of {widths!o} characters cannot hold all of {item!r}"
            case False, True:
                return "a field of 1 character cannot hold the {part} of {item!r}"
        return "a field of {widths!o} characters cannot hold the {part} of {item!r}"

    @property
    def wants(self) -> str:
        """All of the number or a part."""
        if self.part == IN_FULL:
            return "widths = [{length}], or a part such as 'last 4'"
        return "widths of the part, which can be 1 to {length}"


class PartOfCode(Problem):
    """Only numbers can stand in part."""

    part: str
    says = "a part such as {part!r} is only for items of kind number"
    wants = "part = 'all'"


class WrongReader(Problem):
    """A field is read by another means than the kind of its item asks for."""

    field: str
    kind: str
    wanted: str
    says = "the field {field!r} says an item of kind {kind}"
    wants = "{wanted}"


class MarkWithoutPlace(Problem):
    """A mark on the car without its site, or without the assembly it stands on."""

    mark: str
    kind: str
    key: str
    says = "the {kind} {mark!r} needs {key!r}"

    @property
    def wants(self) -> str:
        """Site or assembly."""
        if self.key == "site":
            return "the site where it stands; only papers have none"
        return "the assembly it stands on; only plates, labels and papers have none"


class NeedlessAssembly(Problem):
    """A plate or paper is not part of an assembly: it has a question of its own."""

    mark: str
    kind: str
    says = "the {kind} {mark!r} belongs to no assembly"
    wants = "assembly = ''"


class DatePartTwice(Problem):
    """A form of date gives one thing twice: two months, say, of which only one can count."""

    part: str
    says = "the form gives the {part} a second time"
    wants = "each part once"


class DatePartWidth(Problem):
    """A part of a date has a width that it cannot have."""

    part: str
    width: int
    wanted: str
    says = "a {part} cannot have {width} characters"
    wants = "{wanted}"


class DateNotPlaced(Problem):
    """A form of date whose parts do not say when."""

    form: str
    reason: str
    says = "the form {form!r} cannot be read as a date: {reason}"
    wants = "parts that place a year, month, week or day"


class LetterValue(Problem):
    """A row of a month or week table whose value is no month or week."""

    value: str
    part: str
    least: int
    most: int
    says = "{value!q} is not a value of a {part}"
    wants = "{least} to {most}"


class DateWidth(Problem):
    """A field or placeholder is not as long as the codes of its form of date."""

    thing: str
    widths: tuple[int, ...]
    form: str
    wanted: tuple[int, ...]

    @property
    def says(self) -> str:
        """One character or several."""
        if self.widths == (1,):
            return "{thing} has 1 character, unlike codes of the form {form!r}"
        return "{thing} has {widths!o} characters, unlike codes of the form {form!r}"

    @property
    def wants(self) -> str:
        """One character or several."""
        return "1 character" if self.wanted == (1,) else "{wanted!o} characters"


class PieceWithoutAssembly(Problem):
    """A structure, core or panel of no assembly."""

    piece: str
    kind: str
    says = "the piece {piece!r} is a {kind} and belongs to no assembly"
    wants = "the assembly it belongs to"


class PieceOutsideBearer(Problem):
    """A structure of an assembly that bears no identity, or the core of one that does."""

    piece: str
    kind: str
    assembly: str
    is_bearer: bool
    wants = "kind structure for an identity bearer, core for any other assembly"

    @property
    def says(self) -> str:
        """Which of the two."""
        if self.is_bearer:
            return "{piece!r} is a {kind}, and {assembly!r} bears the identity"
        return "{piece!r} is a {kind}, and {assembly!r} does not bear the identity"


class TwoWholes(Problem):
    """Two structures or cores of one assembly of the same cars."""

    piece: str
    other: str
    assembly: str
    says = "{piece!r} and {other!r} are both the main piece of {assembly!r}"
    wants = "one structure or core for each assembly of a car; a piece on it is of kind fitted"


class NumberedNotSold(Problem):
    """A piece that was not sold in service, and that somebody numbered there."""

    piece: str
    numbers: str
    says = "{piece!r} was not sold in service, and was numbered there {numbers}"
    wants = 'service_numbers = "never", or sold_in_service "yes" or "unknown"'


class MarkOffPiece(Problem):
    """A mark that stands on a piece of another assembly or of another kind than its own."""

    mark: str
    piece: str
    reason: str
    says = "the mark {mark!r} cannot stand on the piece {piece!r}: {reason}"
    wants = "a piece of the mark's own assembly, and a paper for a paper alone"


class SurfaceOfTwo(Problem):
    """One surface on two pieces: it would be struck, ground or skimmed on both at once."""

    surface: str
    mark: str
    other: str
    says = "the surface {surface!r} bears {mark!r} and, on another piece, {other!r}"
    wants = "a surface that belongs to one piece"


class PartAfterCar(Problem):
    """A lag by which a part could be dated after the car that it is part of."""

    item: str
    days: int
    says = "{item!r} is on a part, which cannot be made {days} days after its car"
    wants = "least_days of 0 or more; only what a plate or paper states may follow the car"
