"""What was typed in a form that the mark has not is said on page one, once for all who typed it."""

from dataclasses import replace

from tests.worked.opened import PRINTED, book_and_version, case_of, unweighed, with_reading
from witnessmark.report import build_outline, report_text


def test_two_readings_with_one_slip_are_one_line_of_page_one():
    """Both examiners left a figure of the frame number out."""
    casefile = case_of("clean")
    for at, reading in enumerate(casefile.readings):
        if reading.mark == "frame_number":
            casefile = with_reading(casefile, at, "400143")
    outline = build_outline(unweighed("clean", casefile), book_and_version()[0], PRINTED)
    front = report_text(replace(outline, sections=()))
    line = "frame stamping (6 characters were typed: 1 is missing somewhere)"
    assert front.count(line) == 1
    assert f"Typed in a form that the mark does not have: {line}." in front
