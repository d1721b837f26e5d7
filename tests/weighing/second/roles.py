"""Which mark of each standard car plays which part in a law."""

from dataclasses import dataclass, field

from tests.weighing.second.cars import CAMARO, MUSTANG, SALOON, SPRINT, Car


@dataclass(frozen=True)
class Roles:
    """A standard car, its structure, and how its marks spell another car's number.

    `core` is a core that bears the identification number (none where the book has none), with
    its mark, place and texts; `cast` and `stamp` its dates; `hidden` the structure's marks.
    """

    name: str
    car: Car
    bearer: str
    hidden: dict[str, str]
    hidden_site: str
    other: str
    third: str
    hidden_only: tuple[str, ...] = ()
    core: str = ""
    core_mark: str = ""
    core_text: str = "{}"
    core_site: str = ""
    near: str = ""
    always: bool = False
    second_core: str = ""
    second_mark: str = ""
    second_site: str = ""
    cast: str = ""
    late_cast: str = ""
    after_stamp: dict[str, str] = field(default_factory=dict)
    head: str = ""
    late_head: str = ""

    def number(self, text: str, *marks: str) -> dict[str, str | None]:
        """These marks with a number in their own form."""
        forms = self.hidden | {self.core_mark: self.core_text, self.second_mark: self.core_text}
        return {mark: forms[mark].format(text) for mark in marks}

    @property
    def core_marks(self) -> tuple[str, ...]:
        """All marks of the core and what is fitted to it."""
        return tuple(
            mark
            for mark in self.car.reads
            if mark in (self.core_mark, self.cast, self.head, *self.after_stamp)
        )


CHEVROLET = Roles(
    "chevrolet", CAMARO, "body", {"hidden_number_cowl": "19N{}"}, "cowl_panel",
    "571902", "604411", core="engine", core_mark="partial_number_engine", core_text="19N{}",
    core_site="engine_pad", near="594918", always=True, second_core="gearbox",
    second_mark="partial_number_gearbox", second_site="gearbox_case", cast="block_cast_date",
    late_cast="F79", after_stamp={"engine_pad": "V0106DZ"}, head="head_cast_date",
    late_head="F159",
)  # fmt: skip

FORD = Roles(
    "ford", MUSTANG, "shell",
    {"apron_stamp": "9R02M{}", "hidden_stamp_left": "9R02M{}"}, "left_apron",
    "241907", "308816", core="engine", core_mark="engine_stamp", core_text="9R{}",
    core_site="engine_pad", near="172418", second_core="gearbox", second_mark="gearbox_stamp",
    second_site="gearbox_case", cast="block_date", late_cast="9H10",
    after_stamp={"engine_assembly_date": "9A06"}, head="head_date", late_head="9F15",
)  # fmt: skip

FRAME = Roles(
    "frame car", SPRINT.unseen("despatch_ledger", "build_card"), "frame",
    {"frame_number": "4 {}"}, "frame_rail", "700128", "700161",
)  # fmt: skip

UNIT_BODY = Roles(
    "unit body", SALOON, "shell",
    {"shell_wing_number": "E {}", "shell_seat_number": "E {}"}, "inner_wing", "590512", "590108",
)  # fmt: skip

ALL = (CHEVROLET, FORD, FRAME, UNIT_BODY)
WITH_CORES = (CHEVROLET, FORD)
