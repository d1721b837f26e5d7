"""What a visit should look at: records only, no sentence but those of the code book.

No record here holds the value of a claimed number, nor any part of one: a field of a
number is planned by its layout alone (decisions/0020).
"""

from dataclasses import dataclass
from enum import StrEnum

from witnessmark.casefile.records import PaperState, SiteState
from witnessmark.codebook.marks import Field, Mark
from witnessmark.codebook.site_records import Site
from witnessmark.codebook.sketches import Sketch
from witnessmark.dates import DateSpan


class Characters(StrEnum):
    """The kinds of character that a field can hold."""

    FIGURES = "figures"
    LETTERS = "letters"
    BOTH = "letters and figures"


class Claimed(StrEnum):
    """What the claim says of a field: a number is masked, a code is named, a date is bounded."""

    SERIAL = "serial"
    CODE = "code"
    DATE = "date"
    OPEN = "open"


@dataclass(frozen=True, slots=True)
class CodeExpected:
    """A code that the claim would have here; `is_from_memory` where its row carries no weight."""

    code: str
    meaning: str
    is_from_memory: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldPlan:
    """One field of a mark, `row`, and what it should say under the claim.

    `masked` has a dot for each place of a serial, the most it can have, and is empty for other
    fields. `expected` are codes, `dates` the days that the book's lags allow, and `empty_means`
    what an empty field would say, where that is what the claim says. Where several fields share
    a window (`shares_window`), its heading stands at the first of them alone.
    """

    row: Field
    item: str
    heading: str
    characters: Characters
    claimed: Claimed
    masked: str = ""
    expected: tuple[CodeExpected, ...] = ()
    dates: DateSpan | None = None
    empty_means: str = ""
    shares_window: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkPlan:
    """One mark to be read, or several that share its layout and of which a car bears one.

    `row` is the first of them, `names` are those of all; `works` the names of the works that
    made it so, empty where all did. `windows` holds the fields window by window, in reading
    order.
    """

    row: Mark
    ids: tuple[str, ...]
    names: tuple[str, ...]
    works: tuple[str, ...]
    windows: tuple[tuple[FieldPlan, ...], ...]


@dataclass(frozen=True, slots=True)
class OutcomePlan:
    """An outcome that can be noted, and the sketch that shows it, if one does.

    What look it counts as is left out: a sheet leads nobody to an answer.
    """

    id: str
    sketch: Sketch | None = None


@dataclass(frozen=True, slots=True)
class FeaturePlan:
    """Something to look at, with the outcomes that can be noted, in the order of their letters:
    a book begins with what the factory left, and a sheet in its order would lead the eye."""

    id: str
    prompt: str
    outcomes: tuple[OutcomePlan, ...]


@dataclass(frozen=True, slots=True)
class Variation:
    """The same place as other works, or other years, put it: the names of these, and its row."""

    works: tuple[str, ...]
    models: tuple[str, ...]
    row: Site


@dataclass(frozen=True, slots=True, kw_only=True)
class SitePlan:
    """One place to go to, with all that is to be read and looked at there.

    `number` is its place in the walk, from 1; `row` what the book says of it for this car.
    `state` is how it ended so far; `is_starred` where it belongs to the best looks for the time
    there is, `rank` its place among all the looks that are left (from 1; 0: none is left there).
    """

    number: int = 0
    row: Site
    state: SiteState
    marks: tuple[MarkPlan, ...] = ()
    features: tuple[FeaturePlan, ...] = ()
    variations: tuple[Variation, ...] = ()
    is_starred: bool = False
    rank: int = 0

    @property
    def rows(self) -> tuple[Site, ...]:
        """What the book says of the place, by whatever works or years: the same for every claim."""
        return tuple(each.row for each in self.variations) or (self.row,)

    @property
    def dismantling(self) -> str:
        """What must come off; empty where the book says that nothing must."""
        return needed(self.row.dismantling)


def needed(dismantling: str) -> str:
    """What must come off; empty where the book says that nothing must.

    >>> needed("none; a mirror and a lamp"), needed("dynamo swung aside")
    ('', 'dynamo swung aside')
    """
    words = dismantling.strip()
    first = words.split(";", 1)[0].strip().casefold()
    return "" if first in ("", "none") else words


@dataclass(frozen=True, slots=True)
class Reach:
    """The places that one access serves, in walking order; `minutes` with that access once."""

    access_group: str
    access_minutes: int
    minutes: int
    sites: tuple[SitePlan, ...]


@dataclass(frozen=True, slots=True)
class PaperPlan:
    """A paper to be asked for, and where it is so far."""

    id: str
    name: str
    state: PaperState


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitPlan:
    """A whole visit, in walking order.

    `minutes` is the time for everything, `starred_minutes` that for the best looks; shared
    access counted once in both. `minutes_available` is None where nobody said how long there is.
    """

    book: str
    maker: str
    model: str
    model_year: str
    works: tuple[str, ...]
    reaches: tuple[Reach, ...]
    papers: tuple[PaperPlan, ...]
    minutes: int
    minutes_available: int | None
    starred_minutes: int

    @property
    def sites(self) -> tuple[SitePlan, ...]:
        """All places in walking order."""
        return tuple(site for reach in self.reaches for site in reach.sites)
