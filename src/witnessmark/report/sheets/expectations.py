"""What each place should say if the claim is true: a file of its own, opened after the reading.

It is no page of the field sheet, so that it stands on the back of none (decisions/0076); of a
number it has no character either (decisions/0020).
"""

from datetime import date

from witnessmark.catalogue import language, said
from witnessmark.outline.records import Outline, Paragraph, Section, Table, TableCell
from witnessmark.plan import VisitPlan
from witnessmark.report.mask.short_name import SharedId
from witnessmark.wording import date_text
from witnessmark.wording.visit import (
    car_name,
    claim_silence,
    claim_title,
    expectations,
    mark_title,
)


def expectations_sheet(plan: VisitPlan, case_id: SharedId, printed: date) -> Outline:
    """The outline of the file; `printed` is its day."""
    rows = tuple(
        (
            TableCell(str(site.number), strong=True),
            TableCell(mark_title(mark)),
            TableCell("\n".join(expectations(mark))),
        )
        for site in plan.sites
        for mark in site.marks
        if expectations(mark)
    )
    head = (said("Place"), said("Mark"), said("If the claim is true"))
    told = (Table(head, rows, (1, 5, 9), is_dense=True),) if rows else ()
    return Outline(
        label=said("Expectations: open this when everything is written down"),
        language=language(),
        title=car_name(plan),
        case_id=case_id,
        printed=date_text(printed),
        printed_iso=printed.isoformat(),
        footer=said("What the claim would have. Keep it apart from the field sheet."),
        is_numbered=False,
        sections=(Section(claim_title(), (Paragraph(claim_silence(), "quiet"), *told)),),
    )
