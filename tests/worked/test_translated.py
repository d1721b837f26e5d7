"""In another language nothing stays English but names, numbers, and what somebody wrote.

The language is `bracketed`: each sentence of the catalogue in brackets. What stands in
none is named here, unless it is a text of the case or of the code book, a number, or a
sign that is the same in every language.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import cache

import pytest

from tests.worked.bracketed import (
    Allowed,
    bare,
    bracketed,
    strings_in,
    texts_of,
    untranslated,
    without_sentence,
)
from tests.worked.opened import (
    CARS,
    PRINTED,
    book_and_version,
    case_of,
    unsteadied,
)
from witnessmark.agreement.car import marks_of_car
from witnessmark.answers.compared import compared
from witnessmark.answers.compared_page import compared_page
from witnessmark.answers.decoded import answer_to
from witnessmark.answers.decoded_page import decoded_page
from witnessmark.answers.meanings import Shown
from witnessmark.catalogue import ENGLISH_CATALOGUE, Catalogue, speaking, voiced
from witnessmark.codebook import CarContext, MarkKind
from witnessmark.examination import Opinion, examine, render_opinion
from witnessmark.examination.read_alone import ReadAlone, differing
from witnessmark.figures import (
    Figure,
    assumption_curve,
    car_sites,
    data_plate,
    strip_axis,
    time_line,
    weight_strip,
)
from witnessmark.figures.drawing import WIDTH
from witnessmark.outline.records import Block, Drawing, Table, TableCell
from witnessmark.outline.text import text_lines
from witnessmark.plan import visit_plan
from witnessmark.report import Outline, build_outline
from witnessmark.report.issue.issued import AtIssue, at_issue, issued_of, opinion_digest
from witnessmark.report.issue.supplement import supplement_outline
from witnessmark.report.mask.copied import masked_copy
from witnessmark.report.mask.opinion import masked
from witnessmark.report.mask.short_name import shared_id
from witnessmark.report.outline import build_annex
from witnessmark.report.press.pictures import prepare_pictures
from witnessmark.report.records import Form
from witnessmark.report.sections.photo import grouped
from witnessmark.report.sheets.decode_sheet import build_decode_sheet
from witnessmark.report.sheets.examined import concluded_in_short, examined_in_short, examined_why
from witnessmark.report.sheets.field_sheet import field_sheet
from witnessmark.report.sheets.next_looks import next_looks
from witnessmark.report.sheets.picture_request import picture_request
from witnessmark.wording import (
    Names,
    again_sentence,
    cautions,
    interest_statement,
    look_text,
    misfit_sentence,
    order_sentence,
    paper_sentence,
    place_sentence,
    purpose_footer,
    referral_heading,
    referral_sentences,
    referrals,
    scale_sentence,
    shipped_scale,
    standing_limitations,
    standing_sentence,
    steadiness_sentence,
    stop_sentence,
)
from witnessmark.wording.conclusions import (
    band_sentence,
    capped_sentence,
    heading,
    leading_sentence,
    posterior_sentence,
    split_sentence,
    weight_sentence,
    words_of,
)


@cache
def opinion_in_brackets(car: str) -> Opinion:
    opinion = unsteadied(case_of(car))
    with speaking(bracketed()):
        return voiced(opinion)


@cache
def outline_in_brackets(car: str) -> Outline:
    return as_issued(opinion_in_brackets(car), bracketed())


def as_issued(opinion: Opinion, catalogue: Catalogue) -> Outline:
    """The report as it is issued, no picture brought along, each reading that differs weighed
    alone: by the second of two alone every ratio is ten times what it is."""
    alone = tuple(
        ReadAlone(
            each.mark,
            each.reading.as_typed,
            each.reading.by,
            {
                (one.question.value, one.about): one.log10_lr + at
                for one in opinion.answer.conclusions
            },
        )
        for decodings in differing(opinion)
        for at, each in enumerate(decodings)
    )
    pictures = prepare_pictures(opinion.casefile.exhibits, {})
    book, issue = book_and_version()[0], AtIssue(alone, "0" * 64, "0" * 64)
    with speaking(catalogue):
        report = build_outline(opinion, book, PRINTED, pictures, issue)
        annex = build_annex(opinion, book, PRINTED, pictures, issue)
    return replace(report, sections=(*report.sections, *annex.sections))


def decode_sheet(car: str, catalogue: Catalogue, with_numbers: bool = False) -> Outline:
    opinion, book = opinion_in_brackets(car), book_and_version()[0]
    with speaking(catalogue):
        return build_decode_sheet(opinion, book, PRINTED, with_numbers=with_numbers)


@cache
def allowed(*cars: str) -> Allowed:
    return Allowed([case_of(car) for car in cars], *book_and_version(), shipped_sources())


@cache
def allowed_masked(car: str) -> Allowed:
    """What may stand in a masked copy: the texts of the case as they are masked, too."""
    case = masked(unsteadied(case_of(car)), book_and_version()[0]).opinion.casefile
    texts = [each for text in strings_in(case) for each in untranslated(text)]
    return Allowed(case_of(car), texts, *book_and_version(), shipped_sources())


def shipped_sources() -> list[str]:
    """The sources of the verbal scale: a source is cited as it is printed."""
    return [band.citation.source for band in shipped_scale().bands]


def english_in(car: str, texts: Iterable[str], but: Allowed | None = None) -> list[str]:
    """Each stretch that is English and none of the allowed texts, once."""
    stretches = dict.fromkeys(each for text in texts for each in untranslated(text))
    may_stand = but or allowed(car)
    return [each for each in stretches if may_stand.left_of(each)]


def sentences_of(opinion: Opinion) -> Iterator[str]:
    """Every sentence that an Opinion keeps."""
    for finding in opinion.findings:
        yield from (finding.observation, finding.inference)
        yield from (each.shown for each in finding.subjects)
    yield from (each.sentence for each in (*opinion.answer.misfits, *opinion.answer.stops))
    for conclusion in opinion.answer.conclusions:
        yield from (conclusion.pair.first, conclusion.pair.second)
        yield from (each.sentence for each in conclusion.contributions)
    yield from (look.prompt for look in opinion.looks)
    yield from (each.sentence for each in opinion.limitations)
    yield from (each.found for each in opinion.disclosure)
    yield from (each.reason for each in opinion.sites)
    for decoding in opinion.decodings:
        for alternative in decoding.alternatives:
            yield from (each.meaning for each in alternative.fields)


SAID_OF_EACH = (
    words_of,
    weight_sentence,
    band_sentence,
    capped_sentence,
    split_sentence,
    posterior_sentence,
)
"""What is said of every conclusion."""


def wording_of(opinion: Opinion) -> Iterator[str]:
    """Every sentence that the wording makes of an Opinion, and those that are fixed."""
    names = Names(opinion.names)
    for weighed in opinion.weighed:
        yield heading(weighed, names)
        yield from (say(weighed) for say in SAID_OF_EACH)
        yield from map(leading_sentence, weighed.leading[:1])
        yield standing_sentence(weighed)
    yield from map(misfit_sentence, opinion.answer.misfits)
    yield from (texts for look in opinion.looks for texts in texts_of(look_text(look)))
    yield from (again_sentence(look, opinion, names) for look in opinion.looks)
    yield from (order_sentence(), stop_sentence(opinion.answer.stops))
    if opinion.steadiness is not None:
        yield steadiness_sentence(opinion.steadiness.draws)
    for site in opinion.sites:
        yield place_sentence(site.attachment, site.reason)
    yield from (paper_sentence(paper.state) for paper in opinion.casefile.papers)
    yield from (names.mark("claim"), names.mark("title"))
    yield from texts_of((cautions(), referral_heading(), referral_sentences(), referrals()))
    yield from (*standing_limitations(), interest_statement(fee_is_free=True), purpose_footer())
    yield scale_sentence()


def figures_of(opinion: Opinion) -> Iterator[Figure]:
    """The figures that are drawn of every Opinion."""
    names, book = Names(opinion.names), book_and_version()[0]
    yield strip_axis()
    yield from (weight_strip(each, Names(opinion.names)) for each in opinion.weighed)
    found: list[Figure | None] = [car_sites(opinion, book)]
    if line := time_line(opinion, book):
        found += [line.legend, line.axis, *(track for _, track in line.rows)]
    for conclusion in opinion.weighed:
        found.append(assumption_curve(conclusion, names))
    yield from (figure for figure in found if figure is not None)
    for decoding in opinion.decodings:
        mark = book.mark(decoding.mark)
        if mark is not None and mark.kind is MarkKind.PLATE:
            yield data_plate(mark, decoding, book, names, WIDTH)


def test_a_text_that_no_catalogue_reaches_is_found():
    """The check itself: outside of brackets, and as a value within them."""
    assert untranslated("⟦The ⟪frame⟫ was read.⟧ And more.") == ["frame", " And more."]
    assert untranslated("⟦It says ⟪⟦not ⟪3⟫ listed⟧⟫.⟧") == ["3"]
    assert untranslated("⟦cut in the mid… more") == [" more"]
    clean = allowed("clean")
    assert clean.left_of("Brass chassis plate; 700143, 1957-05-20") == ""
    assert clean.left_of("Brass chassis plate against the claim") == "against the claim"
    assert clean.left_of("not looked for") == "not looked for"


@pytest.mark.parametrize("car", CARS)
def test_all_that_an_opinion_says_can_be_said_in_the_language_of_a_page(car):
    assert english_in(car, sentences_of(opinion_in_brackets(car))) == []


def test_an_opinion_is_the_same_in_every_language():
    """Made by a command that speaks another language it is the same to the letter, so that a
    report in that language prints the digest of what `examine --json` gives."""
    book, version = book_and_version()
    in_english = unsteadied(case_of("altered"))
    text = render_opinion(in_english)
    with speaking(bracketed()):
        made = examine(case_of("altered"), book, version, steady=False)
        issue = at_issue(made, book)
        printed = list(texts_of(build_outline(made, book, PRINTED, (), issue)))
    assert render_opinion(made) == text
    assert grouped(opinion_digest(text)) in printed


@pytest.mark.parametrize("car", CARS)
def test_all_that_is_worded_is_in_the_language_of_the_page(car):
    with speaking(bracketed()):
        texts = list(wording_of(opinion_in_brackets(car)))
    assert english_in(car, texts) == []


@pytest.mark.parametrize("car", CARS)
def test_figures_are_in_the_language_of_the_page(car):
    with speaking(bracketed()):
        figures = list(figures_of(opinion_in_brackets(car)))
    assert english_in(car, (text for each in figures for text in texts_of(each))) == []


@pytest.mark.parametrize("car", CARS)
def test_drawings_of_the_report_are_in_the_language_of_the_page(car):
    outline = outline_in_brackets(car)
    blocks = [each for section in outline.sections for each in section.blocks]
    drawings = [each for each in (*outline.front, *blocks) if isinstance(each, Drawing)]
    assert drawings
    assert english_in(car, (text for each in drawings for text in texts_of(each))) == []


@pytest.mark.parametrize("car", CARS)
def test_the_whole_report_is_in_the_language_of_the_page(car):
    assert english_in(car, texts_of(outline_in_brackets(car))) == []


@pytest.mark.parametrize("car", CARS)
def test_the_sheet_and_the_request_are_in_the_language_of_the_page(car):
    opinion, book = opinion_in_brackets(car), book_and_version()[0]
    with speaking(bracketed()):
        car_id = shared_id(opinion, book)
        plan = visit_plan(opinion.casefile, book, opinion.looks, 60)
        sheet = field_sheet(plan, car_id, PRINTED)
        request = picture_request(plan, car_id, PRINTED)
    assert english_in(car, texts_of(sheet)) == []
    assert english_in(car, texts_of(request)) == []


@pytest.mark.parametrize("with_numbers", [False, True])
@pytest.mark.parametrize("car", CARS)
def test_the_decode_sheet_is_in_the_language_of_the_page(car, with_numbers):
    assert english_in(car, texts_of(decode_sheet(car, bracketed(), with_numbers))) == []


SCREENS: tuple[tuple[str, Callable[[str], Outline]], ...] = (
    (
        "examine",
        lambda car: examined_in_short(opinion_in_brackets(car), book_and_version()[0]),
    ),
    (
        "examine --why",
        lambda car: examined_why(
            opinion_in_brackets(car), book_and_version()[0], opinion_in_brackets(car).weighed
        ),
    ),
    ("demo", lambda car: concluded_in_short(opinion_in_brackets(car), book_and_version()[0])),
    *(
        (
            name,
            lambda car, whole=whole: next_looks(
                unsteadied(case_of(car)), book_and_version()[0], 60, whole
            ),
        )
        for name, whole in (("next", False), ("next --all", True))
    ),
)


@pytest.mark.parametrize(("name", "screen"), SCREENS, ids=[name for name, _ in SCREENS])
@pytest.mark.parametrize("car", CARS)
def test_a_screen_is_in_the_language_of_the_page(car, name, screen):
    with speaking(bracketed()):
        lines = [line.text for line in text_lines(screen(car))]
    assert english_in(car, [*texts_of(lines)]) == []


def typed_marks() -> list[tuple[str, str]]:
    """Each reading of each demonstration car, and what may be typed amiss of a few."""
    read = [(each.mark, each.text) for car in CARS for each in case_of(car).readings]
    amiss = ["hello world", "4 70014", "4[38]?", "37OO14E", "SP|700143|40047|99|L2|3J0|_"]
    return [*read, *((mark, text) for mark in ("frame_number", "plate_brass") for text in amiss)]


@pytest.mark.parametrize("shown", [Shown(), Shown(everything=True, remarks=True)], ids=["", "all"])
@pytest.mark.parametrize("year", [None, 1958])
def test_what_is_decoded_is_in_the_language_of_the_page(shown, year):
    book = book_and_version()[0]
    given = CarContext(model_year=year)
    texts = []
    for mark_id, text in dict.fromkeys(typed_marks()):
        mark = book.mark(mark_id)
        assert mark is not None
        answer = answer_to(book, mark, text, given)
        with speaking(bracketed()):
            texts += texts_of(decoded_page(voiced(answer), shown))
    texts = [each for each in texts if "⟪witnessmark " not in each]  # a command to be typed
    typed = [text for _, text in typed_marks()]
    may_stand = Allowed([case_of(car) for car in CARS], typed, *book_and_version())
    assert english_in("", texts, may_stand) == []


@pytest.mark.parametrize("everything", [False, True])
@pytest.mark.parametrize("car", CARS)
def test_what_is_compared_is_in_the_language_of_the_page(car, everything):
    case, book = case_of(car), book_and_version()[0]
    answer = compared(marks_of_car(case, book, CarContext()))
    with speaking(bracketed()):
        texts = list(texts_of(compared_page(voiced(answer), everything)))
    assert english_in(car, texts) == []


@cache
def masked_in(car: str, catalogue: Catalogue) -> Outline:
    book = book_and_version()[0]
    copy = masked_copy(unsteadied(case_of(car)), book, {}, PRINTED, Form(catalogue=catalogue))
    assert copy.problems == ()
    return copy.outline


@pytest.mark.parametrize("car", CARS)
def test_the_masked_copy_is_in_the_language_of_the_page(car):
    assert english_in(car, texts_of(masked_in(car, bracketed())), allowed_masked(car)) == []


@pytest.mark.parametrize("car", ["panel", "altered"])
def test_a_masked_copy_hides_the_same_in_every_language_and_says_as_much(car):
    """Word for word but for drawings and long texts, which show as much as they have room for."""
    english, other = (
        list(texts_of(without_drawings(masked_in(car, catalogue))))
        for catalogue in (ENGLISH_CATALOGUE, bracketed())
    )
    unlike = [
        (one, two)
        for one, two in zip(english, other, strict=True)
        if bare(one) != bare(two)
        and not ("…" in two and bare(one).startswith(bare(two.partition("…")[0])))
    ]
    assert unlike == []


def without_drawings(outline: Outline) -> Outline:
    return replace(
        outline,
        front=_undrawn(outline.front),
        sections=tuple(replace(each, blocks=_undrawn(each.blocks)) for each in outline.sections),
    )


def _undrawn(blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    """Without drawings, those in the cells of tables among them."""
    kept = (each for each in blocks if not isinstance(each, Drawing))
    return tuple(
        replace(each, axis=None, rows=tuple(tuple(map(_plain, row)) for row in each.rows))
        if isinstance(each, Table)
        else each
        for each in kept
    )


def _plain(cell: TableCell) -> TableCell:
    return replace(cell, svg="")


def supplement(car: str, other: str, catalogue: Catalogue) -> Outline:
    """One car as issued, another as it is now: whatever can change changes."""
    issued = issued_of(opinion_in_brackets(other))
    with speaking(catalogue):
        return supplement_outline(issued, opinion_in_brackets(car), "⟦Why⟧", PRINTED)


@pytest.mark.parametrize(("car", "other"), list(zip(CARS, (*CARS[1:], CARS[0]), strict=True)))
def test_the_supplement_is_in_the_language_of_the_page(car, other):
    texts = list(texts_of(supplement(car, other, bracketed())))
    assert english_in(car, texts, allowed(car, other)) == []


@pytest.mark.parametrize("car", ["clean", "panel", "altered"])
def test_the_report_that_is_looked_at_says_where_the_examiners_differ(car):
    """In each of these some mark was read differently by two."""
    titles = [section.title for section in outline_in_brackets(car).sections]
    assert "⟦Where the examiners differ⟧" in titles


Written = Callable[[Catalogue], Outline]
DOCUMENTS: tuple[tuple[str, str, Written], ...] = (
    ("What the numbers do not say", "", lambda spoken: decode_sheet("altered", spoken)),
    ("where it shows numbers, in pixels", "", lambda spoken: supplement("panel", "clean", spoken)),
    ("worn", "", lambda spoken: supplement("panel", "clean", spoken)),
    ("Newly agrees", "", lambda spoken: supplement("panel", "clean", spoken)),
    ("What is left out of this copy", "", lambda spoken: masked_in("altered", spoken)),
    ("{name} alone", " alone", lambda spoken: as_issued(opinion_in_brackets("panel"), spoken)),
)


@pytest.mark.parametrize(("sentence", "rest", "document"), DOCUMENTS)
def test_a_sentence_that_the_catalogue_lacks_is_found_on_the_page(sentence, rest, document):
    found = english_in("", texts_of(document(without_sentence(sentence))), every_text())
    assert [each for each in found if (rest or sentence) in each]


@cache
def every_text() -> Allowed:
    """What may stand untranslated of any car."""
    return allowed(*CARS)
