"""The press: Typst with the shipped fonts, kept warm between reports.

Values reach the template as JSON and are never evaluated. The template and what is
given for one report, its photographs among it, lie in a private folder, the only one
that the compiler can read; what was given is gone when the report is set. A folder that a
killed process left is known by the lock that nobody holds, and swept by the next press.
"""

import json
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import asdict, dataclass, field
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

from witnessmark.report.press.coverage import FONT_FOLDER
from witnessmark.report.records import Form

if TYPE_CHECKING:
    import typst

TEMPLATE_FOLDER = Path(__file__).with_name("template")
STANDARDS: list["typst.PDFStandard"] = ["ua-1", "a-2a"]
"""Tagged for screen readers (PDF/UA-1), and fit to be kept (PDF/A-2a)."""
STANDARDS_WITH_FILES: list["typst.PDFStandard"] = ["ua-1", "a-3a"]
"""The same, with other files inside (PDF/A-3a)."""


PAGE_PPI = 110.0
"""Points of a picture of a page to the inch: small type can be read, and a page is no megabyte."""
PREFIX = "witnessmark-press-"
"""How the name of a press's folder begins."""


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
        with self._given(values, photographs, form):
            pdf, warnings = self.compiler.compile_with_warnings(
                format="pdf",
                sys_inputs={"size": form.size.value},
                pdf_standards=STANDARDS_WITH_FILES if form.attachments else STANDARDS,
                timestamp=datetime(printed.year, printed.month, printed.day, tzinfo=UTC),
            )
        assert isinstance(pdf, bytes)
        return Printed(pdf, tuple(warning.message for warning in warnings))

    def pages(self, values: object, photographs: dict[str, bytes], form: Form) -> tuple[bytes, ...]:
        """The same, each page as a picture (PNG)."""
        with self._given(values, photographs, form):
            found = self.compiler.compile(
                format="png", sys_inputs={"size": form.size.value}, ppi=PAGE_PPI
            )
        pages = found if isinstance(found, list) else [found]  # one page comes alone
        return tuple(filter(None, pages))

    @contextmanager
    def _given(self, values: object, photographs: dict[str, bytes], form: Form) -> Iterator[None]:
        """What is given for one document lies in the folder, which is this one's alone."""
        place = Path(self.folder.name) / "given"
        with self.lock:
            place.mkdir()
            try:
                for name, jpeg in photographs.items():
                    (place / name).write_bytes(jpeg)
                # As files: what the compiler is handed as inputs, when it changes, costs it all
                # that it kept of the report before.
                (place / "outline.json").write_text(json.dumps(values), "utf-8")
                attachments = json.dumps([asdict(each) for each in form.attachments])
                (place / "attachments.json").write_text(attachments, "utf-8")
                yield
            finally:
                shutil.rmtree(place)


@cache
def press() -> Press:
    """The press of this process, made ready at the first report."""
    import typst  # late: a command that prints nothing need not load it

    _sweep(Path(tempfile.gettempdir()))
    folder = tempfile.TemporaryDirectory(prefix=PREFIX)
    _held(Path(folder.name))
    shutil.copytree(TEMPLATE_FOLDER, folder.name, dirs_exist_ok=True)
    Path(folder.name).chmod(0o700)  # the copy gave it the template's own: open to all
    compiler = typst.Compiler(
        input=str(Path(folder.name) / "report.typ"),
        root=folder.name,
        font_paths=[str(FONT_FOLDER)],
        ignore_system_fonts=True,
    )
    return Press(compiler, folder)


def _held(folder: Path) -> int | None:
    """Hold a folder until this process ends, however it ends; None where another holds it or
    the system cannot say."""
    try:
        import fcntl
    except ImportError:
        return None
    handle = os.open(folder, os.O_RDONLY | os.O_NOFOLLOW)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(handle)
        return None
    return handle


def _sweep(place: Path) -> None:
    """Remove the folders of presses that live no longer; one without a template is being made.
    Where no lock can tell (no POSIX system), all are left."""
    if not hasattr(os, "getuid"):
        return
    for folder in place.glob(f"{PREFIX}*"):
        with suppress(OSError):
            if not (folder / "report.typ").is_file() or folder.stat().st_uid != os.getuid():
                continue
            handle = _held(folder)
            if handle is not None:
                shutil.rmtree(folder)
                os.close(handle)
