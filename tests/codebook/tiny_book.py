# ruff: noqa: E501 (rows stand here as a person writes them)
"""A tiny book that is right in all things: each test changes one of them."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

import pytest

from witnessmark.codebook import CodeBook
from witnessmark.codebook.parse import BookOpened, parse_book
from witnessmark.documents.entries import FileText
from witnessmark.problem import render_all

TYPE_FIELD = """\
  [[mark.field]]
  id = "type"
  name = "type"
  says = "model"
  widths = [2]
  alphabet = "ADPS"
  table = "types"
  column = 1
"""
CHASSIS_FIELD = """\
  [[mark.field]]
  id = "chassis"
  name = "chassis number"
  says = "chassis_number"
  widths = [6]
  alphabet = "0123456789"
"""

TOP = f"""\
format = "witnessmark-book"
format_version = 2
id = "tarvane-1955-1957"
title = "Tarvane, 1955 to 1957"
maker = "Tarvane"
version = "1"
first_year = 1955
last_year = 1957
summary = "The Solent, as far as a test needs it."
invented = true

[sources]
demo = "Invented for a test"

[[item]]
id = "chassis_number"
name = "chassis number"
kind = "number"
length = 6
identification = true

[[item]]
id = "trim"
name = "trim"
kind = "code"

[[item]]
id = "casting_date"
name = "casting date"
kind = "date"

[[assembly]]
id = "frame"
name = "frame"
kind = "frame"
identity_bearer = true
basis = "invented"
source = "demo"

[[date_form]]
id = "casting_day"
first_year = 1954
tokens = [
  {{ part = "day", width = 2 }},
  {{ part = "month_letter", width = 1, table = "months" }},
  {{ part = "year_digit", width = 1 }},
]
placeholders = [
  {{ code = "00A0", meaning = "date wheels lost", basis = "invented", source = "demo" }},
]
basis = "invented"
source = "demo"

[[mark]]
id = "plate"
name = "chassis plate"
kind = "plate"
site = "scuttle"
how_made = "struck by hand"
carried = "plate"
windows = true
always_struck = true
basis = "invented"
source = "demo"

{TYPE_FIELD}
  [[mark.field]]
  id = "trim"
  name = "trim"
  says = "trim"
  widths = [1, 2]
  alphabet = "LC12"
  table = "trims"
  column = 2
  empty = {{ value = "none", meaning = "no trim ordered", basis = "invented", source = "demo" }}

[[mark]]
id = "frame_number"
name = "frame stamping"
kind = "stamping"
assembly = "frame"
site = "rail"
how_made = "struck by hand"
carried = "frame rail"
basis = "invented"
source = "demo"

{CHASSIS_FIELD}
  [[mark.field]]
  id = "cast"
  name = "casting date of the rail bracket"
  says = "casting_date"
  widths = [4]
  alphabet = "0123456789ABC"
  date_form = "casting_day"
"""

TABLES = {
    "body_families": """\
id,name,basis,source
closed,closed body,invented,demo
""",
    "works": """\
id,name,role,first_year,last_year,basis,source
tarvane,Tarvane Motor Works,works,,,invented,demo
ellery,Ellery Coachworks,body_works,,,invented,demo
marrick,Marrick & Sons,body_works,,,invented,demo
""",
    "models": """\
id,name,body_family,works,first_year,last_year,basis,source
solent-saloon,Solent saloon,closed,tarvane ellery,,,invented,demo
solent-sprint,Solent Sprint,closed,tarvane marrick,1956,,invented,demo
""",
    "codes": """\
table,code,value,meaning,first_year,last_year,works,models,basis,source
types,SA,solent-saloon,Solent saloon,,,,,invented,demo
types,SP,solent-sprint,Solent Sprint,1956,1957,,,invented,demo
trims,L1,tan-leather,"leather, tan",1955,1957,,,invented,demo
trims,C,grey-cloth,grey cloth,1956,1957,,solent-sprint,invented,demo
months,A,1,January,,,,,invented,demo
months,B,2,February,,,,,invented,demo
months,C,3,March,,,,,invented,demo
""",
    "series": """\
item,first,last,meaning,supplied,first_year,last_year,works,models,basis,source
chassis_number,550001,550540,saloons of 1955,new,1955,1955,,,invented,demo
chassis_number,560001,560506,saloons of 1956,new,1956,1956,,,invented,demo
chassis_number,570001,570471,saloons of 1957,new,1957,1957,,,invented,demo
""",
    "rules": """\
id,sentence,kind,if_item,if_values,then_item,then_values,strength,first_year,last_year,works,models,basis,source
no-ellery-sprint,Ellery never bodied the Sprint,forbidden,model,solent-sprint,body_works,ellery,firm,,,,,invented,demo
""",
    "lags": """\
id,earlier,later,least_days,usual_days,most_days,first_year,last_year,works,models,basis,source
cast-to-car,casting_date,build_date,20,60,240,,,,,invented,demo
""",
    "sites": """\
id,name,where,look_at,dismantling,minutes,access_group,access_minutes,caution,first_year,last_year,works,models,basis,source
scuttle,scuttle,under the bonnet,rivets,none,6,bonnet,3,engine cold,,,,,invented,demo
rail,frame rail,behind the hanger,pitting,none,12,lift,20,stands and chocks,,,,,invented,demo
rail,frame rail,before the hanger,pitting,none,12,lift,20,stands and chocks,,,marrick,,invented,demo
""",
    "features": """\
id,site,prompt,outcomes,first_year,last_year,works,models,basis,source
dab,rail,Which dab is beside the number?,round red=factory; none=doubtful,,,ellery,,invented,demo
dab,rail,Which dab is beside the number?,white=factory; none=doubtful,,,marrick,,invented,demo
""",
    "exceptions": """\
id,item,first,last,meaning,first_year,last_year,works,models,basis,source
pilots,chassis_number,550001,550003,three pilot cars,1955,1955,,,invented,demo
""",
    "settlements": """\
id,name,speaks_of,how,minutes,first_year,last_year,works,models,basis,source
laboratory,a laboratory,frame_number,"examines the rail in place, without acid",240,,,,,invented,demo
""",
}


def plate(mark_id: str, name: str, field: str, limits: str = "") -> str:
    """One more plate on the scuttle, with one field."""
    return f"""
[[mark]]
id = "{mark_id}"
name = "{name}"
kind = "plate"
site = "scuttle"
{limits}how_made = "struck by hand"
carried = "plate"
basis = "invented"
source = "demo"

{field}"""


FOLDER = "tarvane-1955-1957"


@dataclass(frozen=True)
class Tiny:
    """The texts of the book: `top` is book.toml, `tables` the CSV files by their stems."""

    top: str
    tables: Mapping[str, str]

    def change(self, file: str, old: str, new: str) -> "Tiny":
        """The book with one passage changed, which must stand in the file once."""
        text = self.top if file == "book" else self.tables[file]
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
        changed = text.replace(old, new)
        if file == "book":
            return replace(self, top=changed)
        return replace(self, tables={**self.tables, file: changed})

    def add(self, table: str, row: str) -> "Tiny":
        """The book with one more row in a table."""
        return replace(self, tables={**self.tables, table: self.tables[table] + row + "\n"})

    def table(self, name: str, text: str) -> "Tiny":
        """The book with a table of this name and text."""
        return replace(self, tables={**self.tables, name: text})

    def all_published(self) -> "Tiny":
        """The book as if its maker were real and its rows printed somewhere."""
        top = self.top.replace('basis = "invented"', 'basis = "published"')
        tables = {
            name: text.replace(",invented,", ",published,") for name, text in self.tables.items()
        }
        return Tiny(top, tables)

    def parsed(self) -> BookOpened:
        """What the parser makes of it."""
        tables = [FileText(f"tables/{stem}.csv", text) for stem, text in self.tables.items()]
        return parse_book(FileText("book.toml", self.top), tuple(tables), FOLDER)

    def told(self) -> str:
        """All problems as a person reads them."""
        return render_all(self.parsed().problems)

    def book(self) -> CodeBook:
        """The book, which must be without problems."""
        parsed = self.parsed()
        assert parsed.problems == ()
        assert parsed.book is not None
        return parsed.book

    def write(self, folder: Path) -> Path:
        """The book as a folder on disk."""
        root = folder / FOLDER
        (root / "tables").mkdir(parents=True)
        (root / "book.toml").write_text(self.top, "utf-8", newline="")
        for stem, text in self.tables.items():
            (root / "tables" / f"{stem}.csv").write_text(text, "utf-8", newline="")
        return root


@pytest.fixture(scope="session")
def tiny() -> Tiny:
    """A book without a fault."""
    return Tiny(TOP, TABLES)
