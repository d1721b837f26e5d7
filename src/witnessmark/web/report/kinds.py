"""The documents of a case: what each is for, what it shows, and of what it is made."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Final

from witnessmark.catalogue import said
from witnessmark.report.issue.issued import Issued
from witnessmark.report.mask.copied import photographs_left_out
from witnessmark.report.mask.short_name import file_stem
from witnessmark.report.paperwork import Paperwork
from witnessmark.report.press.render import ToSet
from witnessmark.report.sheets.picture_request import Sender


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """What somebody says of a document before it is made."""

    minutes: int | None = None
    reply_to: str = ""
    reply_by: date | None = None
    because: str = ""


NO_TERMS = Terms()
"""Nobody says anything."""


@dataclass(frozen=True, slots=True)
class Drafted:
    """A document ready to be set, under its file's name; or why there is none."""

    document: ToSet | None
    name: str
    problems: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    has_html: bool = False


type Draft = Callable[[Paperwork, Terms, Issued | None], Drafted]


@dataclass(frozen=True, slots=True, kw_only=True)
class DocumentKind:
    """One of the documents; `is_steady` where it says how far answers rest on assumptions,
    `is_of_issue` where it can only follow a report that was issued."""

    title: str
    told: str
    draft: Draft
    shows_numbers: bool
    is_steady: bool = False
    has_html: bool = False
    is_of_issue: bool = False
    is_asked_of_seller: bool = False


def _report(papers: Paperwork, _terms: Terms, _issued: Issued | None) -> Drafted:
    return Drafted(papers.report().report_set(), _own_name(papers, ""), has_html=True)


def _annex(papers: Paperwork, _terms: Terms, _issued: Issued | None) -> Drafted:
    return Drafted(papers.report().annex_set(), _own_name(papers, "-annex"), has_html=True)


def _masked(papers: Paperwork, _terms: Terms, _issued: Issued | None) -> Drafted:
    copy = papers.masked_copy()
    name = f"{copy.name}-masked"
    if copy.problems:
        return Drafted(None, name, tuple(each.render() for each in copy.problems))
    left = photographs_left_out(copy, papers.opinion)
    return Drafted(papers.masked_set(copy), name, (), (left,) if left else ())


def _decode(papers: Paperwork, _terms: Terms, _issued: Issued | None) -> Drafted:
    return Drafted(papers.decode_sheet(), f"{papers.stem}-decode-sheet")


def _decode_in_full(papers: Paperwork, _terms: Terms, _issued: Issued | None) -> Drafted:
    name = _own_name(papers, "-decode-sheet-in-full")
    return Drafted(papers.decode_sheet(with_numbers=True), name)


def _field(papers: Paperwork, terms: Terms, _issued: Issued | None) -> Drafted:
    return Drafted(papers.field_sheet(terms.minutes), f"{papers.stem}-field-sheet")


def _expected(papers: Paperwork, terms: Terms, _issued: Issued | None) -> Drafted:
    return Drafted(papers.expectations(terms.minutes), f"{papers.stem}-expectations")


def _pictures(papers: Paperwork, terms: Terms, _issued: Issued | None) -> Drafted:
    examiners = papers.opinion.casefile.assignment.examiners
    sender = Sender(examiners[0] if examiners else None, terms.reply_to, terms.reply_by)
    return Drafted(papers.picture_request(sender), f"{papers.stem}-picture-request")


def _supplement(papers: Paperwork, terms: Terms, issued: Issued | None) -> Drafted:
    assert issued is not None, "a supplement is to a report that was issued"
    because = terms.because or said("[its reason is given when it is issued]")
    return Drafted(papers.supplement(issued, because), _own_name(papers, "-supplement"))


def _own_name(papers: Paperwork, ending: str) -> str:
    return f"{file_stem(papers.opinion.casefile.id)}{ending}"


KINDS: Final = {
    "report": DocumentKind(
        title="Report",
        told="What was concluded, how strongly, and what was not seen; with the case inside.",
        draft=_report,
        shows_numbers=True,
        is_steady=True,
        has_html=True,
    ),
    "annex": DocumentKind(
        title="Annex",
        told="What stands behind the report: every comparison, row and photograph.",
        draft=_annex,
        shows_numbers=True,
        is_steady=True,
        has_html=True,
    ),
    "masked-copy": DocumentKind(
        title="Masked copy",
        told="The report without serials, people and places: what can be shown to others.",
        draft=_masked,
        shows_numbers=False,
        is_steady=True,
    ),
    "decode-sheet": DocumentKind(
        title="Decode sheet",
        told="What each code means, in words, on one page.",
        draft=_decode,
        shows_numbers=False,
    ),
    "decode-sheet-in-full": DocumentKind(
        title="Decode sheet for the owner",
        told="The same with the numbers in full.",
        draft=_decode_in_full,
        shows_numbers=True,
    ),
    "field-sheet": DocumentKind(
        title="Field sheet",
        told="A card for each place, to fill in beside the car.",
        draft=_field,
        shows_numbers=False,
    ),
    "picture-request": DocumentKind(
        title="Picture request",
        told="The pictures that a seller is asked for.",
        draft=_pictures,
        shows_numbers=False,
        is_asked_of_seller=True,
    ),
    "expectations": DocumentKind(
        title="Expectations",
        told="What the claim would have at each place: open it when everything is written down.",
        draft=_expected,
        shows_numbers=False,
    ),
    "supplement": DocumentKind(
        title="Supplement",
        told="What changed since the report was issued, with every conclusion before and after.",
        draft=_supplement,
        shows_numbers=True,
        is_steady=True,
        is_of_issue=True,
    ),
}
"""By the name in their address, in the order of the page."""

ON_THE_PAGE: Final = tuple(name for name in KINDS if name != "expectations")
"""What is shown without being asked for."""
