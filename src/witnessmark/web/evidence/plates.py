"""A plate's windows as fields of a form: laid out as on the metal, and back into one reading."""

from collections.abc import Mapping
from dataclasses import dataclass

from witnessmark.codebook import Field, Mark

BAR = "|"
MOST_COLUMNS = 6
"""Columns that stand side by side; a plate with more is filled in one below the other."""


@dataclass(frozen=True, slots=True)
class WindowField:
    """A field of the form for one window: its name, heading, text and how long it can be."""

    name: str
    heading: str
    text: str
    places: int


def has_windows(mark: Mark, text: str) -> bool:
    """Is this reading filled in window by window? Not where it was typed in one go."""
    if not mark.windows or len(mark.windows_in_order()) < 2:
        return False
    return not text.strip() or 0 < text.count(BAR) < len(mark.windows_in_order())


def plate_rows(mark: Mark, text: str) -> tuple[tuple[WindowField, ...], ...]:
    """The windows row by row as they stand on the plate."""
    parts = [each.strip() for each in text.split(BAR)] if text else []
    rows: dict[int, list[WindowField]] = {}
    for at, window in enumerate(mark.windows_in_order()):
        rows.setdefault(window[0].row, []).append(
            WindowField(
                f"window-{at}", _heading(window), parts[at] if at < len(parts) else "",
                sum(max(each.widths, default=8) for each in window),
            )
        )  # fmt: skip
    return tuple(map(tuple, rows.values()))


def _heading(window: tuple[Field, ...]) -> str:
    """What stands over the window; else what its fields are called."""
    headings = dict.fromkeys(each.heading for each in window if each.heading)
    return ", ".join(headings or dict.fromkeys(each.name for each in window))


def typed_text(mark: Mark, given: Mapping[str, str]) -> str:
    """The reading that a form gives: its text, or its windows joined; windows left out at the
    end are not invented."""
    if "text" in given:
        return given["text"]
    parts = [
        given.get(f"window-{at}", "").strip() for at in range(len(mark.windows_in_order()))
    ]  # fmt: skip
    while parts and not parts[-1]:
        parts.pop()
    joined = f" {BAR} ".join(parts)
    return joined if len(parts) != 1 else f"{joined} {BAR}"
