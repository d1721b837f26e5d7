"""Every document of a case, made of one Opinion: what the commands write and the pages show."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from witnessmark.catalogue import speaking
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.outline.records import Outline
from witnessmark.plan import VisitPlan, visit_plan
from witnessmark.report.issue.issued import Issued, at_issue, case_attachment
from witnessmark.report.issue.supplement import supplement_outline
from witnessmark.report.mask import copied
from witnessmark.report.mask.copied import MaskedCopy
from witnessmark.report.mask.short_name import SharedId, file_stem, shared_id
from witnessmark.report.press.render import PLAIN, ToPrint, ToSet
from witnessmark.report.records import Form
from witnessmark.report.sheets.decode_sheet import build_decode_sheet
from witnessmark.report.sheets.expectations import expectations_sheet
from witnessmark.report.sheets.field_sheet import field_sheet
from witnessmark.report.sheets.picture_request import NOBODY, Sender, picture_request


@dataclass(frozen=True, slots=True, kw_only=True)
class Paperwork:
    """A case examined, with the day and the form in which its documents are printed.

    `exhibits` holds the photographs by exhibit id.
    """

    opinion: Opinion
    book: CodeBook
    exhibits: Mapping[str, bytes]
    printed: date
    form: Form = PLAIN

    def report(self) -> ToPrint:
        """The report, fit to be issued, with the case document inside, and its annex."""
        return ToPrint(
            opinion=self.opinion,
            book=self.book,
            exhibits=self.exhibits,
            printed=self.printed,
            form=self._with_case(),
            issue=at_issue(self.opinion, self.book),
        )

    def supplement(self, issued: Issued, because: str) -> ToSet:
        """The supplement to what was issued, with the case document as it is now inside."""
        with speaking(self.form.catalogue):
            outline = supplement_outline(issued, self.opinion, because, self.printed)
        return ToSet(outline, self.printed, self._with_case())

    def masked_copy(self) -> MaskedCopy:
        """The report with its serials masked, or why there is none."""
        return copied.masked_copy(self.opinion, self.book, self.exhibits, self.printed, self.form)

    def masked_set(self, copy: MaskedCopy) -> ToSet:
        """That copy, which has no problems, ready to be set."""
        return copied.masked_set(copy, self.printed, self.form)

    def decode_sheet(self, *, with_numbers: bool = False) -> ToSet:
        """What the car's numbers say, with the serials masked unless asked for."""
        with speaking(self.form.catalogue):
            outline = build_decode_sheet(
                self.opinion, self.book, self.printed, with_numbers=with_numbers
            )
        return self._ready(outline)

    def field_sheet(self, minutes: int | None = None) -> ToSet:
        """The sheet to fill in beside the car, the best looks in these minutes marked."""
        with speaking(self.form.catalogue):
            return self._ready(field_sheet(self._best(minutes), self.shared_id, self.printed))

    def expectations(self, minutes: int | None = None) -> ToSet:
        """What the claim would have at each place."""
        with speaking(self.form.catalogue):
            outline = expectations_sheet(self._best(minutes), self.shared_id, self.printed)
        return self._ready(outline)

    def picture_request(self, sender: Sender = NOBODY) -> ToSet:
        """The list of photographs for a seller."""
        with speaking(self.form.catalogue):
            outline = picture_request(self.plan(), self.shared_id, self.printed, sender)
        return self._ready(outline)

    def plan(self) -> VisitPlan:
        """The plan of a visit, with no look marked."""
        return visit_plan(self.opinion.casefile, self.book, (), None)

    @property
    def shared_id(self) -> SharedId:
        """The short name of the case on what is passed on."""
        return shared_id(self.opinion, self.book)

    @property
    def stem(self) -> str:
        """The same as the beginning of a file's name."""
        return file_stem(self.shared_id)

    def _best(self, minutes: int | None) -> VisitPlan:
        return visit_plan(self.opinion.casefile, self.book, self.opinion.looks, minutes)

    def _with_case(self) -> Form:
        return replace(self.form, attachments=(case_attachment(self.opinion),))

    def _ready(self, outline: Outline) -> ToSet:
        return ToSet(outline, self.printed, self.form)
