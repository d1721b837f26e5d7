"""The press: Typst with the shipped fonts, kept warm between reports.

Values reach the template as JSON and are never evaluated. The template and the
photographs of one report lie in a private folder, the only one that the
compiler can read; the photographs are gone when the report is set.
"""

import json
import shutil
import tempfile
from dataclasses import asdict, dataclass, field
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

from witnessmark.report.coverage import FONT_FOLDER
from witnessmark.report.records import Form

if TYPE_CHECKING:
    import typst

TEMPLATE_FOLDER = Path(__file__).with_name("template")
STANDARDS: list["typst.PDFStandard"] = ["ua-1", "a-2a"]
"""Tagged for screen readers (PDF/UA-1), and fit to be kept (PDF/A-2a)."""
STANDARDS_WITH_FILES: list["typst.PDFStandard"] = ["ua-1", "a-3a"]
"""The same, with other files inside (PDF/A-3a)."""


@dataclass(frozen=True, slots=True)
class Printed:
    """A PDF and what the compiler complained about: nothing, if the template is right."""

    pdf: bytes
    warnings: tuple[str, ...]


@dataclass(slots=True)
class Press:
    """One warm compiler with its private folder; one report at a time."""

    compiler: "typst.Compiler"
    folder: tempfile.TemporaryDirectory[str]
    lock: Lock = field(default_factory=Lock)

    def print(
        self, values: object, photographs: dict[str, bytes], printed: date, form: Form
    ) -> Printed:
        """Set the template with these values; `photographs` are JPEGs by file name."""
        place = Path(self.folder.name) / "photographs"
        moment = datetime(printed.year, printed.month, printed.day, tzinfo=UTC)
        with self.lock:
            place.mkdir()
            try:
                for name, jpeg in photographs.items():
                    (place / name).write_bytes(jpeg)
                pdf, warnings = self.compiler.compile_with_warnings(
                    format="pdf",
                    sys_inputs={
                        "outline": json.dumps(values),
                        "size": form.size.value,
                        "attachments": json.dumps([asdict(each) for each in form.attachments]),
                    },
                    pdf_standards=STANDARDS_WITH_FILES if form.attachments else STANDARDS,
                    timestamp=moment,
                )
            finally:
                shutil.rmtree(place)
        assert isinstance(pdf, bytes)
        return Printed(pdf, tuple(warning.message for warning in warnings))


@cache
def press() -> Press:
    """The press of this process, made ready at the first report."""
    import typst  # late: a command that prints nothing need not load it

    folder = tempfile.TemporaryDirectory(prefix="witnessmark-")
    shutil.copytree(TEMPLATE_FOLDER, folder.name, dirs_exist_ok=True)
    Path(folder.name).chmod(0o700)  # the copy gave it the template's own: open to all
    compiler = typst.Compiler(
        input=str(Path(folder.name) / "report.typ"),
        root=folder.name,
        font_paths=[str(FONT_FOLDER)],
        ignore_system_fonts=True,
    )
    return Press(compiler, folder)
