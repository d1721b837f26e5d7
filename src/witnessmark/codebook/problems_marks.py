"""Problems across a book's marks: layouts, widths, alphabets, forms of date."""

from dataclasses import dataclass
from typing import override

from witnessmark.documents.problems import characters, shown
from witnessmark.problem import Problem


@dataclass(frozen=True, slots=True)
class SplitTwoWays(Problem):
    """A text that the fields of a mark explain in two ways."""

    text: str
    one: str
    other: str

    @override
    def sentence(self) -> str:
        return f"{shown(self.text)} can be split {shown(self.one)} or {shown(self.other)}"

    @override
    def expected(self) -> str:
        return "one width, alphabets that tell the fields apart, a `before`, or windows = true"


@dataclass(frozen=True, slots=True)
class CodeLength(Problem):
    """A code is shorter or longer than the field, or part of a date, that reads its table."""

    code: str
    field: str
    widths: tuple[int, ...]

    @override
    def sentence(self) -> str:
        return f"the code {shown(self.code)} does not fit {self.field!r}"

    @override
    def expected(self) -> str:
        return characters(self.widths)


@dataclass(frozen=True, slots=True)
class OutsideAlphabet(Problem):
    """Characters that the alphabet of a field or item does not have."""

    text: str
    characters: str
    owner: str

    @override
    def sentence(self) -> str:
        return f"{shown(self.text)} has {shown(self.characters)}, which {self.owner} does not have"

    @override
    def expected(self) -> str:
        return "characters of its alphabet"


@dataclass(frozen=True, slots=True)
class RepeatedCharacter(Problem):
    """A character stands in an alphabet twice."""

    character: str

    @override
    def sentence(self) -> str:
        return f"the alphabet has {self.character!r} twice"

    @override
    def expected(self) -> str:
        return "each character once"


@dataclass(frozen=True, slots=True)
class NotationSign(Problem):
    """An alphabet has a sign that readings use for something else."""

    character: str

    @override
    def sentence(self) -> str:
        return f"{self.character!r} is a sign of the notation for readings"

    @override
    def expected(self) -> str:
        return "letters and figures, without space and ? ~ _ … [ ] |"


@dataclass(frozen=True, slots=True)
class NotStruck(Problem):
    """An alphabet has what no mark can bear and no reading may hold: a control character, say."""

    character: str

    @override
    def sentence(self) -> str:
        return f"U+{ord(self.character):04X} cannot stand on a mark"

    @override
    def expected(self) -> str:
        return "characters that can be seen, each in one piece"


@dataclass(frozen=True, slots=True)
class AlphabetTooLong(Problem):
    """An alphabet has more characters than are weighed."""

    count: int
    most: int

    @override
    def sentence(self) -> str:
        return f"the alphabet has {self.count} characters"

    @override
    def expected(self) -> str:
        return f"at most {self.most}"


@dataclass(frozen=True, slots=True)
class NumberWithoutLength(Problem):
    """An item of kind number does not say how long the number is."""

    item: str

    @override
    def sentence(self) -> str:
        return f"{self.item!r} is a number without a length"

    @override
    def expected(self) -> str:
        return "length = how many characters it has in full"


@dataclass(frozen=True, slots=True)
class PartWidth(Problem):
    """A field's width is not that of the part of the number that stands in it."""

    part: str
    widths: tuple[int, ...]
    length: int
    item: str

    @override
    def sentence(self) -> str:
        part = "all" if self.part == "all" else f"the {self.part}"
        return f"a field of {characters(self.widths)} cannot hold {part} of {self.item!r}"

    @override
    def expected(self) -> str:
        if self.part == "all":
            return f"widths = [{self.length}], or a part such as 'last 4'"
        return f"widths of the part, which can be 1 to {self.length}"


@dataclass(frozen=True, slots=True)
class PartOfCode(Problem):
    """Only numbers can stand in part."""

    part: str

    @override
    def sentence(self) -> str:
        return f"a part such as {self.part!r} is only for items of kind number"

    @override
    def expected(self) -> str:
        return "part = 'all'"


@dataclass(frozen=True, slots=True)
class WrongReader(Problem):
    """A field is read by another means than the kind of its item asks for."""

    field: str
    kind: str
    wanted: str

    @override
    def sentence(self) -> str:
        return f"the field {self.field!r} says an item of kind {self.kind}"

    @override
    def expected(self) -> str:
        return self.wanted


@dataclass(frozen=True, slots=True)
class MarkWithoutPlace(Problem):
    """A mark on the car without its site, or without the assembly it stands on."""

    mark: str
    kind: str
    key: str

    @override
    def sentence(self) -> str:
        return f"the {self.kind} {self.mark!r} needs {self.key!r}"

    @override
    def expected(self) -> str:
        return {
            "site": "the site where it stands; only papers have none",
            "assembly": "the assembly it stands on; only plates, labels and papers have none",
        }[self.key]


@dataclass(frozen=True, slots=True)
class NeedlessAssembly(Problem):
    """A plate or paper is not part of an assembly: it has a question of its own."""

    mark: str
    kind: str

    @override
    def sentence(self) -> str:
        return f"the {self.kind} {self.mark!r} belongs to no assembly"

    @override
    def expected(self) -> str:
        return "assembly = ''"


@dataclass(frozen=True, slots=True)
class DatePartTwice(Problem):
    """A form of date gives one thing twice: two months, say, of which only one can count."""

    part: str

    @override
    def sentence(self) -> str:
        return f"the form gives the {self.part} a second time"

    @override
    def expected(self) -> str:
        return "each part once"


@dataclass(frozen=True, slots=True)
class DatePartWidth(Problem):
    """A part of a date has a width that it cannot have."""

    part: str
    width: int
    wanted: str

    @override
    def sentence(self) -> str:
        return f"a {self.part} cannot have {self.width} characters"

    @override
    def expected(self) -> str:
        return self.wanted


@dataclass(frozen=True, slots=True)
class DateNotPlaced(Problem):
    """A form of date whose parts do not say when."""

    form: str
    reason: str

    @override
    def sentence(self) -> str:
        return f"the form {self.form!r} cannot be read as a date: {self.reason}"

    @override
    def expected(self) -> str:
        return "parts that place a year, month, week or day"


@dataclass(frozen=True, slots=True)
class LetterValue(Problem):
    """A row of a month or week table whose value is no month or week."""

    value: str
    part: str
    least: int
    most: int

    @override
    def sentence(self) -> str:
        return f"{shown(self.value)} is no value of a {self.part}"

    @override
    def expected(self) -> str:
        return f"{self.least} to {self.most}"


@dataclass(frozen=True, slots=True)
class DateWidth(Problem):
    """A field or placeholder is not as long as the codes of its form of date."""

    thing: str
    widths: tuple[int, ...]
    form: str
    wanted: tuple[int, ...]

    @override
    def sentence(self) -> str:
        return f"{self.thing} has {characters(self.widths)}, unlike codes of the form {self.form!r}"

    @override
    def expected(self) -> str:
        return characters(self.wanted)
