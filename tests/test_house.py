"""The house stands as it is drawn: the law of imports, the picture, the sizes, the words."""

import ast
import re
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

from importlinter.cli import lint_imports

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "src" / "witnessmark"
MODULES = sorted(PACKAGE.rglob("*.py"))

ROOMS_BY_NAME = (
    *("codebook", "bookmaking", "reading", "decoding", "outline", "answers"),
    *("agreement", "weighing", "examination", "plan", "wording", "casefile", "entry", "cli"),
    *("store", "web"),
)
BY_NAME = [each for each in MODULES if each.relative_to(PACKAGE).parts[0] in ROOMS_BY_NAME]
MOST_BY_PLACE = 5  # values that a reader can tell apart by their order

ONE_HOME = {
    # A language is chosen by the page that speaks, and a catalogue read in one place.
    "gettext": "catalogue",
    "polib": "translation",
    # Text becomes entries with places; a row says its columns, and what they hold.
    "tomli": "documents/toml_entries documents/toml_places",
    # What a kind of problem says is filled in once for all.
    "string.Formatter": "problem translation",
    # One outline, and its presses: paper, and text for a screen.
    "typst": "report/press/typst_press",
    "textwrap": "outline/text",
    # Rules are found in their folder.
    "pkgutil": "agreement/every_rule",
    # A number is a value; what people typed goes through the mask, and nothing else.
    "witnessmark.report.mask.texts.TextMask": (
        "report/mask/case report/mask/copied report/mask/opinion"
    ),
    # Sketches are files with a list of titles.
    "witnessmark.codebook.sketches.sketches": (
        "codebook/__init__ codebook/site_records codebook/checks/values"
    ),
    # Books are made in a room of their own, from a list or a workbook.
    "openpyxl": "bookmaking/sheet_workbook",
}
"""What is done in these modules alone, by what they import for it."""

LONGEST_MODULE_LINES = 400
LONGEST_BODY_LINES = 40

FORBIDDEN_WORDS = {"data", "info", "util", "utils", "process", "processes"} | {
    word + ending for word in ("manager", "helper", "result") for ending in ("", "s")
}
PLATE = re.compile(r"data_plates?")  # the one trade word that holds a forbidden one

Function = ast.FunctionDef | ast.AsyncFunctionDef


def test_a_room_imports_only_rooms_below_it(capfd):
    """Every contract of .importlinter is kept."""
    exit_code = lint_imports(
        config_filename=str(ROOT / ".importlinter"), no_cache=True, no_logo=True
    )
    assert exit_code == 0, capfd.readouterr().out


def test_what_was_done_in_many_places_has_one_home():
    """What one module does for all is imported there alone; a second one is named."""
    found: dict[str, set[str]] = {}
    for module in MODULES:
        for node in ast.walk(tree(module)):
            names: list[str] = []
            if isinstance(node, ast.Import):
                names = [each.name for each in node.names]
            elif isinstance(node, ast.ImportFrom) and node.module:
                names = [node.module, *(f"{node.module}.{each.name}" for each in node.names)]
            for name in names:
                found.setdefault(name, set()).add(module.relative_to(PACKAGE).as_posix())
    homes = {name: {f"{each}.py" for each in where.split()} for name, where in ONE_HOME.items()}
    assert {name: found.get(name, set()) for name in homes} == homes


def test_every_module_opens_by_telling_its_reader_what_it_is():
    """A module without a docstring is named."""
    assert [place(module) for module in MODULES if not ast.get_docstring(tree(module))] == []


def test_no_module_is_longer_than_400_lines():
    """A longer module is named with its length."""
    lengths = {place(module): len(module.read_text("utf-8").splitlines()) for module in MODULES}
    assert {name: n for name, n in lengths.items() if n > LONGEST_MODULE_LINES} == {}


def test_no_function_body_is_longer_than_40_lines():
    """A longer body is named with its length; the docstring does not count."""
    lengths = {
        f"{place(module)}:{function.lineno} {function.name}": body_lines(function)
        for module in MODULES
        for function in functions(module)
    }
    assert {name: n for name, n in lengths.items() if n > LONGEST_BODY_LINES} == {}


def test_the_picture_in_the_readme_shows_every_folder_and_no_other():
    """Rooms and the folders directly inside them; what a code book holds is not drawn."""
    assert drawn_folders((ROOT / "README.md").read_text("utf-8")) == standing_folders()


def test_no_room_above_decoding_goes_back_to_the_cells():
    """What was seen of a field is worked out once (decisions/0029): only reading and decoding
    lay cells out or ask how likely they are; weighing asks for other rates by the record."""
    cells = {"place_likelihood", "Observation", "observation_of", "lay_out_line", "align"}
    found = {
        place(module): sorted(names)
        for module in MODULES
        if module.relative_to(PACKAGE).parts[0] not in ("reading", "decoding")
        if (names := imported_names(module) & cells)
    }
    assert found == {}


def test_nothing_is_kept_by_where_it_lies_in_memory():
    """What follows from a thing is kept in it (reading/kept.py), or by what it says: no `id()`."""
    asking = [
        f"{place(module)}:{call.lineno}"
        for module in MODULES
        for call in calls(module)
        if isinstance(call.func, ast.Name) and call.func.id == "id"
    ]
    assert asking == []


def test_a_record_of_many_fields_is_made_by_their_names():
    """One of more than five fields takes them by keyword alone."""
    many = [
        f"{place(module)}: {record.name}"
        for module in BY_NAME
        for record in classes(module)
        if any(is_positional(each) for each in record.decorator_list)
        and len(list(made_of(record))) > MOST_BY_PLACE
    ]
    assert many == []


def test_no_call_gives_more_than_five_values_by_their_place():
    """A call of our own functions and classes; one that takes any number of values is none."""
    own = [each for module in MODULES for each in functions(module)]
    fixed = {each.name for each in own} - {each.name for each in own if each.args.vararg}
    many = [
        f"{place(module)}:{call.lineno} {name}"
        for module in BY_NAME
        for call in calls(module)
        if len(call.args) > MOST_BY_PLACE
        and (name := ast.unparse(call.func).rpartition(".")[2]) in fixed
    ]
    assert many == []


def test_no_room_above_the_examination_weighs_again():
    """What a page needs stands in the Opinion, or examination works it out when it is asked."""
    weighs = {"answer", "steadiness"}
    found = {
        place(module): sorted(names)
        for module in MODULES
        if module.relative_to(PACKAGE).parts[0] not in ("weighing", "examination")
        if (names := imported_names(module, "witnessmark.weighing") & weighs)
    }
    assert found == {}


def test_every_type_in_the_glossary_is_a_type_of_that_name():
    """A capitalised name in its second column is a class somewhere in the package."""
    rows = re.findall(
        r"^\| [^|]+ \| ([^|]+) \|", (ROOT / "docs/glossary.md").read_text("utf-8"), re.M
    )
    types = {name for cell in rows for name in re.findall(r"`([A-Z][a-z]\w+)`", cell)}
    assert types, "the glossary names no type at all"
    assert types - {each.name for module in MODULES for each in classes(module)} == set()


def test_no_class_name_means_two_things():
    """A name that two classes have is named with their modules, private ones too."""
    by_custom = {"Meta", "Migration"}  # as Django wants them called
    homes: dict[str, list[str]] = {}
    for module in MODULES:
        for each in classes(module):
            if each.name not in by_custom:
                homes.setdefault(each.name, []).append(place(module))
    assert {name: modules for name, modules in homes.items() if len(modules) > 1} == {}


def test_no_name_is_a_word_that_says_nothing():
    """Modules, classes, functions, their parameters and the fields of records."""
    offending = [
        f"{place(module)}: {name}"
        for module in MODULES
        for name in [module.stem, module.parent.name, *names(nodes(module))]
        if words(name) & FORBIDDEN_WORDS
    ]
    assert offending == []


def test_a_data_plate_is_a_word_of_the_trade():
    """The check for empty words knows the one exception, and only that one."""
    assert not words("DataPlate") & FORBIDDEN_WORDS
    assert not words("data_plates") & FORBIDDEN_WORDS
    assert words("PlateData") & FORBIDDEN_WORDS
    assert words("weighing_results") & FORBIDDEN_WORDS


def place(module: Path) -> str:
    """The module's path as a reader would write it."""
    return module.relative_to(ROOT).as_posix()


@cache
def tree(module: Path) -> ast.Module:
    """The parsed module, for all that ask."""
    return ast.parse(module.read_text("utf-8"))


@cache
def nodes(module: Path) -> tuple[ast.AST, ...]:
    """All that stands in it which some test asks for."""
    wanted = (Function, ast.ClassDef, ast.Call, ast.ImportFrom, ast.arg)
    return tuple(each for each in ast.walk(tree(module)) if isinstance(each, wanted))


def functions(module: Path) -> Iterator[Function]:
    """All functions and methods, nested ones too."""
    return (each for each in nodes(module) if isinstance(each, Function))


def classes(module: Path) -> Iterator[ast.ClassDef]:
    """All classes, nested ones too."""
    return (each for each in nodes(module) if isinstance(each, ast.ClassDef))


def is_positional(decorator: ast.expr) -> bool:
    """Does it make a record whose fields may be given by their place?"""
    text = ast.unparse(decorator)
    return text.startswith("dataclass") and "kw_only=True" not in text


def made_of(record: ast.ClassDef) -> Iterator[str]:
    """The fields that may be given by their place when a record is made."""
    for line in record.body:
        if isinstance(line, ast.AnnAssign) and isinstance(line.target, ast.Name):
            text = ast.unparse(line)
            if text == "_: KW_ONLY":
                return
            if "ClassVar" not in text and "init=False" not in text:
                yield line.target.id


def calls(module: Path) -> Iterator[ast.Call]:
    """All calls."""
    return (each for each in nodes(module) if isinstance(each, ast.Call))


def imported_names(module: Path, room: str = "") -> set[str]:
    """The names that a module takes from others of the package, or from those of a room."""
    taken = (node for node in nodes(module) if isinstance(node, ast.ImportFrom))
    return {
        name.name for node in taken if (node.module or "").startswith(room) for name in node.names
    }


def body_lines(function: Function) -> int:
    """Lines from the first statement after the docstring to the last."""
    body = function.body[1:] if ast.get_docstring(function) else function.body
    if not body:
        return 0
    return (body[-1].end_lineno or 0) - body[0].lineno + 1


def names(found: Iterable[ast.AST]) -> Iterator[str]:
    """Names of classes, their annotated fields, functions and their parameters."""
    for each in found:
        if isinstance(each, ast.ClassDef):
            yield each.name
            yield from (
                line.target.id
                for line in each.body
                if isinstance(line, ast.AnnAssign) and isinstance(line.target, ast.Name)
            )
        elif isinstance(each, Function):
            yield each.name
        elif isinstance(each, ast.arg):
            yield each.arg


def words(name: str) -> set[str]:
    """The words of a name, written with capitals or with underscores."""
    snake = re.sub(r"(?<=[a-z0-9])(?=[A-Z])", "_", name).lower()
    return set(PLATE.sub("", snake).split("_"))


def drawn_folders(readme: str) -> set[str]:
    """The folders below src/witnessmark in the README's picture of the house."""
    picture = readme.split("## The house", 1)[1].split("```", 2)[1]
    below = picture.split("src/witnessmark/", 1)[1]
    folders: set[str] = set()
    path: list[str] = []
    for line in below.splitlines()[1:]:
        match = re.match(r"( +)([\w.-]+/)", line)
        if match:
            depth = len(match[1]) // 2
            path[depth - 1 :] = [match[2]]
            folders.add("".join(path))
        elif line and not line.startswith(" "):
            break
    return folders


def standing_folders() -> set[str]:
    """The folders that hold a file somewhere, two deep, as the picture writes them."""
    folders: set[str] = set()
    for file in PACKAGE.rglob("*"):
        if file.is_file() and "__pycache__" not in file.parts:
            parts = file.relative_to(PACKAGE).parent.parts
            folders |= {"".join(f"{part}/" for part in parts[:depth]) for depth in (1, 2)}
    return folders - {""}
