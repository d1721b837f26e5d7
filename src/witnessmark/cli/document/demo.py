"""`witnessmark demo`: the six demonstration cars, each examined and reported on."""

from pathlib import Path
from typing import Annotated

from witnessmark.cli.arguments import option
from witnessmark.cli.cases import Examined, examined_case
from witnessmark.cli.document.printing import paperwork_of
from witnessmark.cli.problems import NothingThere, NotWritable, why
from witnessmark.cli.terminal import print_line, print_outline, refuse, show_problems
from witnessmark.cli.writing import write_or_refuse
from witnessmark.entry.shipped import shipped_folder
from witnessmark.examination import render_opinion
from witnessmark.outline.records import Fact, Facts
from witnessmark.report.sheets.examined import concluded_in_short
from witnessmark.source import Source

HELP = """Four files are written for each car: CAR.pdf (the report), CAR-annex.pdf and
CAR-annex.html (what stands behind it) and CAR.json (the whole Opinion). The maker and the
cars are invented; their cases come with the program. Use --cars if they are in another folder.

\b
Example:
  witnessmark demo --out out/demo
"""

CARS = ("clean", "no-papers", "panel", "altered", "swapped", "dressed")


def demo(
    out: Annotated[Path, option("DIR", "The folder to write into.")] = Path("out/demo"),
    cars: Annotated[Path | None, option("DIR", "The folder that holds the cars.")] = None,
) -> None:
    """Examine and report on each of the six cars."""
    folder = cars or _cars_folder()
    missing = [car for car in CARS if not (folder / car / "case.json").is_file()]
    if missing:
        refuse(
            NothingThere(Source("--cars"), str(folder / car), "demonstration case", WANTED)
            for car in missing
        )
    _make_folder(out)
    for car in CARS:
        examined = examined_case(str(folder / car))
        show_problems(examined.left_out)
        paths = _write(car, examined, out)
        _show(examined, paths)


WANTED = "the demo folder of the repository: run it there, or name it with --cars DIR"


def _cars_folder() -> Path:
    """The demo folder where we are, else the one that came with the program."""
    here = Path("demo")
    return here if (here / CARS[0] / "case.json").is_file() else shipped_folder("demo")


def _make_folder(out: Path) -> None:
    try:
        out.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as fault:
        refuse((NotWritable(Source("--out"), str(out), why(fault)),))


def _write(car: str, examined: Examined, out: Path) -> tuple[Path, Path]:
    """Report, annex and Opinion of one car, all rendered before any is written."""
    report, opinion = out / f"{car}.pdf", out / f"{car}.json"
    order = paperwork_of(examined).report()
    annex = order.annex()
    contents = {
        report: order.report().pdf,
        out / f"{car}-annex.pdf": annex.pdf,
        out / f"{car}-annex.html": annex.html,
        opinion: render_opinion(examined.opinion).encode(),
    }
    for path, content in contents.items():
        write_or_refuse(path, content)
    return report, opinion


def _show(examined: Examined, paths: tuple[Path, Path]) -> None:
    """What the numbers of one car say, and where its report is."""
    files = Facts((Fact("report", str(paths[0])), Fact("all of it", str(paths[1]))))
    print_outline(concluded_in_short(examined.opinion, examined.book, files))
    print_line("")
