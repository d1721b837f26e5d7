"""What is worked out once, when a report is made to be issued."""

from dataclasses import dataclass

from witnessmark.casefile import render_casefile
from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion, render_opinion
from witnessmark.examination.read_alone import ReadAlone, read_alone
from witnessmark.report.issue.issued import answer_digest, opinion_digest
from witnessmark.report.records import Attachment

CASE_NAME = "case.json"


@dataclass(frozen=True, slots=True)
class AtIssue:
    """What each ratio would be by one examiner's reading alone, and the digests of the Opinion
    and of its Answer."""

    alone: tuple[ReadAlone, ...] = ()
    digest: str = ""
    answer_digest: str = ""


NOT_ISSUED = AtIssue()
"""A report that is not made to be issued: without either."""


def at_issue(opinion: Opinion, book: CodeBook) -> AtIssue:
    """Weighs again with each reading that differs, and reckons the digests."""
    text = render_opinion(opinion)
    return AtIssue(read_alone(opinion, book), opinion_digest(text), answer_digest(text))


def case_attachment(opinion: Opinion) -> Attachment:
    """The case document, to go into the private report: all numbers stand in it in full."""
    return Attachment(
        CASE_NAME,
        render_casefile(opinion.casefile),
        "application/json",
        said("The case document from which this report was made, with all numbers in full"),
    )
