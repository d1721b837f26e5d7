"""The plain table: one figure a line, the same columns for all, the notes below."""

from benchmarks.figure import Figure

HEADINGS = ("figure", "value", "unit", "least to most", "ratio", "to what", "runs", "aim", "note")
RIGHT = {"value", "ratio", "runs"}


def render_table(figures: list[Figure]) -> str:
    """All figures, columns aligned, a line under the headings; notes by number."""
    notes = list(dict.fromkeys(figure.note for figure in figures if figure.note))
    rows = [HEADINGS, *(_cells(figure, notes) for figure in figures)]
    widths = [max(len(row[k]) for row in rows) for k in range(len(HEADINGS))]
    lines = [_line(row, widths) for row in rows]
    under = "  ".join("-" * width for width in widths)
    said = [f"{number}. {note}" for number, note in enumerate(notes, start=1)]
    return "\n".join([lines[0], under, *lines[1:], "", *said]) + "\n"


def _cells(figure: Figure, notes: list[str]) -> tuple[str, ...]:
    extremes = ""
    if figure.least is not None and figure.most is not None:
        extremes = f"{_number(figure.least)} to {_number(figure.most)}"
    return (
        figure.name,
        _number(figure.value),
        figure.unit,
        extremes,
        _number(figure.ratio) if figure.ratio is not None else "",
        figure.ratio_to,
        f"{figure.runs:,}",
        figure.verdict,
        str(notes.index(figure.note) + 1) if figure.note else "",
    )


def _line(row: tuple[str, ...], widths: list[int]) -> str:
    cells = [
        cell.rjust(width) if heading in RIGHT else cell.ljust(width)
        for cell, width, heading in zip(row, widths, HEADINGS, strict=True)
    ]
    return "  ".join(cells).rstrip()


def _number(value: float) -> str:
    """Three figures that matter; large numbers whole, with commas."""
    if value >= 1000:
        return f"{value:,.0f}"
    return f"{value:.0f}" if value >= 100 else f"{value:.3g}"
