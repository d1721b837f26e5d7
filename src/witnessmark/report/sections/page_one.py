"""The first page: the answer, three reasons, a row for each question, and what to do next.

Nothing on it needs the rest of the report to be understood, and nothing in the rest denies it.
"""

from collections.abc import Iterator

from witnessmark.agreement.look_class import place_looked
from witnessmark.casefile.records import AttachmentSeen, Casefile
from witnessmark.catalogue import as_said, marked, said
from witnessmark.examination import marks_of
from witnessmark.outline.records import (
    Block,
    Boxed,
    Bullets,
    Columns,
    Heading,
    Paragraph,
    Photograph,
    Pictures,
)
from witnessmark.report.sections.answered import (
    concluded,
    is_another_car,
    is_declared,
    told_once,
)
from witnessmark.report.sections.assignment import report_number
from witnessmark.report.sections.claimed import reads_beside_claim
from witnessmark.report.sections.matter import STORY, Matter, whole_car
from witnessmark.report.sections.next_steps import next_steps
from witnessmark.report.sections.not_seen import not_seen
from witnessmark.weighing import (
    Asked,
    Contribution,
    Misfit,
    MisfitKind,
    Pair,
    Standing,
    Weighed,
)
from witnessmark.wording import (
    Favours,
    Toward,
    date_text,
    listed,
    lr_text,
    misfit_sentence,
    misfits_beside,
    stop_sentence,
    verbal_equivalent,
)
from witnessmark.wording.amounts import capital, clause, clipped, inside, sentence, times_text
from witnessmark.wording.books import other_book_sentences
from witnessmark.wording.case_words import looked_sentence
from witnessmark.wording.conclusions import about_words, favours_of, turned_text

REASONS = 3
PICTURES = 4
MOST_NAME, MOST_TEXT = 90, 230
QUIET = (MisfitKind.DECLARED, MisfitKind.TOLD)
PACKAGE = "package"
"""The item by which a car is called beside its model; the title asks for it, and is answered."""

TITLES = {
    (True, True): marked("Is this car {model} {number} of {year}?"),
    (True, False): marked("Is this car {model} {number}?"),
    (False, True): marked("Is this car a {model} of {year}?"),
    (False, False): marked("Is this car a {model}?"),
}
"""The title by whether a number and a year are claimed."""


def question(matter: Matter) -> str:
    """The question that the report answers, as its title."""
    claimed, number = matter.case.claim.items, claimed_number(matter)
    model = matter.names.value(claimed.get("model", ""), "model") or matter.book.maker
    year = claimed.get("model_year", "").strip() or matter.opinion.context.model_year
    message = TITLES[bool(number), bool(year)]
    told = as_said(message, model=model, number=number, year=str(year or ""))
    package = claimed_package(matter)
    if not package:
        return told
    asked = told.removesuffix("?")
    return said("{question}, and was it built as a {package}?", question=asked, package=package)


def claimed_package(matter: Matter) -> str:
    """The package for which the car is offered, as the book names it, without what it adds to
    the name; empty where none is."""
    named = matter.names.value(matter.case.claim.items.get(PACKAGE, "").strip(), PACKAGE)
    return named.partition(" (")[0]


def claimed_number(matter: Matter) -> str:
    """The number by which the maker names the car, as claimed; empty where none is claimed."""
    item = matter.book.identification
    return matter.case.claim.items.get(item.id, "").strip() if item else ""


def page_one(matter: Matter) -> tuple[Block, ...]:
    """The blocks of the first page, in the order in which a client asks."""
    reasons = tuple(_reasons(matter))
    return (
        *(Paragraph(each, "strong") for each in other_book_sentences(matter.opinion)),
        Paragraph(_asked(matter), "quiet"),
        Boxed(tuple(_answer(matter))),
        *_why(matter, reasons),
        *concluded(matter),
        _pictures(matter, reasons),
        Columns(
            (Heading(said("Not seen")), Paragraph(" ".join(not_seen(matter)))),
            (Heading(said("What to do next")), Bullets(next_steps(matter), is_numbered=True)),
        ),
    )


def _asked(matter: Matter) -> str:
    """Who asked, for whom, and who saw the car when."""
    case = matter.case
    client = clause(clipped(case.assignment.client, MOST_NAME))
    by = said("Asked by {client}.", client=client) if client else said("The client is not stated.")
    purpose = sentence(clipped(case.assignment.purpose, MOST_TEXT))
    return " ".join(filter(None, (_issued(case), by, purpose, _seen(case))))


def _seen(case: Casefile) -> str:
    """When the car was seen and by whom, as far as it is stated."""
    names = listed(tuple(each.name for each in case.assignment.examiners))
    day = date_text(case.visit.date) if case.visit.date else ""
    if day and names:
        return said("Car seen on {day} by {names}.", day=day, names=names)
    if day:
        return said("Car seen on {day}; by whom is not stated.", day=day)
    if names:
        return said("Car seen by {names}; on which day is not stated.", names=names)
    return said("When and by whom the car was seen is not stated.")


def _issued(case: Casefile) -> str:
    """The number of the report and the day on which it was issued."""
    name, day = capital(said("report {number}", number=report_number(case))), case.report.date
    if day is None:
        return sentence(name)
    return said("{report}, issued {day}.", report=name, day=date_text(day))


# ------------------------------------------------------------------------- the answer


def _answer(matter: Matter) -> Iterator[Block]:
    opinion = matter.opinion
    if opinion.answer.stops:
        yield Paragraph(stop_sentence(opinion.answer.stops), "strong")
    for at, each in enumerate(_asked_in_title(matter)):
        pair = _as_package(matter) if each.question is Asked.ITEM else each.pair
        yield Paragraph(answer_sentence(each, pair), "answer")
        if figures := figures_sentence(each, is_whole=not at):
            yield Paragraph(figures)
    for told in _besides(matter):
        yield Paragraph(told, "strong")


def _asked_in_title(matter: Matter) -> list[Weighed]:
    """The conclusions that the title asks for, what tells against the claim first. How the
    claimed car was built is no answer of a car that is another."""
    weighed = matter.opinion.weighed
    found = [each for each in weighed if each.question is Asked.IDENTITY]
    if not is_another_car(weighed):
        named = (e for e in weighed if e.question is Asked.ITEM and e.about == PACKAGE)
        found += named if claimed_package(matter) else ()
    return sorted(found, key=lambda each: favours_of(each) is not Favours.SECOND)


def _as_package(matter: Matter) -> Pair:
    """The two propositions on the package, as a client says them."""
    package = claimed_package(matter)
    return Pair(
        said("this car was built as a {package}", package=package),
        said("this car was not built as a {package}", package=package),
    )


def answer_sentence(conclusion: Weighed, pair: Pair) -> str:
    """What the findings support of these two propositions, and how strongly, in one sentence."""
    first, second = inside(pair.first), inside(pair.second)
    if conclusion.standing is Standing.NOT_EXAMINED:
        return said("Nobody has examined whether {proposition}.", proposition=first)
    if conclusion.standing is Standing.CANNOT_BE_ESTABLISHED:
        return said("Whether {proposition} cannot be established here.", proposition=first)
    favours = favours_of(conclusion)
    proposition = second if favours is Favours.SECOND else first
    if conclusion.word_log10_lr is None:
        return said("How strong the findings are as to whether {proposition}:", proposition=first)
    words = verbal_equivalent(conclusion.word_log10_lr).words
    if favours is Favours.NEITHER:
        return said("The findings do not say whether {proposition}.", proposition=first)
    if conclusion.standing is Standing.OPEN:
        return said(
            "Whether {first} stays open: the findings give at most {words} that {proposition}.",
            first=first,
            words=words,
            proposition=said("it did") if favours is Favours.FIRST else said("it did not"),
        )
    return said(
        "The findings give {words} that {proposition}.", words=words, proposition=proposition
    )


def figures_sentence(conclusion: Weighed, *, is_whole: bool) -> str:
    """How many times more probable the findings are; the `whole`: how steady that is, and what
    it is not."""
    if not conclusion.standing.has_figure:
        return ""
    given, otherwise = said("if it is so"), said("if it is not")
    if conclusion.log10_lr < 0:
        given, otherwise = otherwise, given
    told = said(
        "They are about {times} times more probable {given} than {otherwise}.",
        times=times_text(conclusion.log10_lr),
        given=given,
        otherwise=otherwise,
    )
    not_so = said("This speaks of the findings; it is not the probability that the claim is true.")
    if not is_whole:
        return told
    capped = said("No higher figure is ever stated.") if conclusion.is_capped else ""
    return " ".join(filter(None, (told, capped, _steady(conclusion), not_so)))


def _steady(conclusion: Weighed) -> str:
    low, high = conclusion.log10_lr_low, conclusion.log10_lr_high
    if low is None or high is None or conclusion.turned is None:
        return ""
    if low > 0 or high < 0:
        nearer, further = sorted((low, high), key=abs)
        ends = times_text(nearer), lr_text(abs(further), Toward.UP)
    else:
        ends = lr_text(low, Toward.DOWN), lr_text(high, Toward.UP)
    return said(
        "We varied all our assumed rates together, {draws} times: in nine trials of ten the figure "
        "lay between {low} and {high}; it pointed the other way in {turned}.",
        draws=conclusion.draws,
        low=ends[0],
        high=ends[1],
        turned=turned_text(conclusion.turned),
    )


def _besides(matter: Matter) -> Iterator[str]:
    """What else the findings tell against, where they do not tell against the car itself."""
    weighed = matter.opinion.weighed
    if is_another_car(weighed):
        return
    answered = _asked_in_title(matter)
    found = [
        each
        for each in told_once(weighed)
        if each not in answered and favours_of(each) is Favours.SECOND
    ]
    against = [about_words(e, matter.names) for e in found if not is_declared(e, matter)]
    declared = [about_words(e, matter.names) for e in found if is_declared(e, matter)]
    if against:
        yield said("But not everything is as claimed: {parts}.", parts=listed(tuple(against)))
    if declared:
        yield said(
            "Not what it was built with, and declared beforehand: {parts}.",
            parts=listed(tuple(declared)),
        )


# --------------------------------------------------------------------------- the reasons


def told_misfits(matter: Matter) -> list[Misfit]:
    """What the first page says does not fit, the worst first."""
    return [each for each in misfits_beside(matter.opinion.answer) if each.kind not in QUIET]


def _reasons(matter: Matter) -> Iterator[tuple[str, tuple[str, ...]]]:
    """At most three sentences, each with the photographs that show it: what the car lacks, the
    first contradiction of each kind, the next ones; where nothing is more than unusual, also what
    speaks most for the answer."""
    found = does_not_fit(matter)
    is_calm = all(each.kind is MisfitKind.UNUSUAL for each in told_misfits(matter))
    if is_calm and not list(_lacking(matter)):
        found += _speaking(matter)
    for text, about in found[:REASONS]:
        yield matter.citing(text, matter.of(*about)), matter.of(*about)


def does_not_fit(matter: Matter) -> list[tuple[str, tuple[str, ...]]]:
    """What the car lacks and what contradicts, in sentences, each with what it is about."""
    return [*_lacking(matter), *((misfit_sentence(m), m.about) for m in _by_kind(matter))]


def _by_kind(matter: Matter) -> list[Misfit]:
    misfits = told_misfits(matter)
    firsts = {each.kind: each for each in reversed(misfits)}
    heads = [each for each in misfits if each in firsts.values()]
    return [*heads, *(each for each in misfits if each not in heads)]


def _lacking(matter: Matter) -> Iterator[tuple[str, tuple[str, ...]]]:
    for site in matter.opinion.sites:
        if site.is_noted and site.attachment is AttachmentSeen.NO_SUCH_PART:
            parts = tuple(matter.names.mark(mark) for mark in site.marks)
            told = said("The car lacks the part that should bear the {mark}.", mark=listed(parts))
            reason = sentence(clipped(site.reason, MOST_TEXT))
            is_told = told in (each.sentence for each in matter.opinion.answer.stops)
            yield reason if is_told and reason else f"{told} {reason}".strip(), (site.site,)


def _speaking(matter: Matter) -> Iterator[tuple[str, tuple[str, ...]]]:
    """What carries the answer on the car itself, the most first."""
    for each in (w for w in matter.opinion.weighed if w.question is Asked.IDENTITY):
        favours = favours_of(each)
        if favours is Favours.NEITHER:
            continue
        sign = 1 if favours is Favours.FIRST else -1
        moving = [c for c in each.contributions if c.log10_lr_change * sign > LEAST_TOLD]
        for item in sorted(moving, key=lambda c: -c.log10_lr_change * sign):
            yield _speaks(item, matter), (item.about,)


def _speaks(item: Contribution, matter: Matter) -> str:
    """What was found that carries the answer."""
    reading = next((d.reading for d in matter.opinion.decodings if d.mark == item.about), None)
    told = ""
    if item.kind == "number" and reading is not None and item.log10_lr_change > 0:
        told = reads_beside_claim(matter, reading)
    elif item.kind == "look" and item.log10_lr_change > 0:
        place = matter.names.any(item.about)
        car = marks_of(matter.opinion, matter.book)
        told = looked_sentence(place_looked(car, item.about), place)
    return told or said("{item} speaks most to it.", item=clause(item.sentence))


LEAST_TOLD = 0.1


def _why(matter: Matter, reasons: tuple[tuple[str, tuple[str, ...]], ...]) -> Iterator[Block]:
    if not reasons:
        return
    yield Heading(said("Why"))
    yield Bullets(tuple(text for text, _ in reasons), is_numbered=True)
    shown = _by_kind(matter)[: max(0, REASONS - len(list(_lacking(matter))))]
    rest = [each for each in told_misfits(matter) if each not in shown]
    if rest:
        names = dict.fromkeys(matter.names.any(each.about[-1]) for each in rest)
        yield Paragraph(
            said(
                "Nor do these fit, see section {section}: {names}.",
                section=STORY,
                names="; ".join(names),
            )
        )


def _pictures(matter: Matter, reasons: tuple[tuple[str, tuple[str, ...]], ...]) -> Pictures:
    """The whole car first, or that there is no photograph of it; then what the reasons cite."""
    cars = [matter.photograph(each) for each in whole_car(matter.case)[:1]]
    missing = said("No photograph of the whole car is in the case.")
    bare = Photograph(id="", number="", caption="", file="", missing=missing)
    bearers = [w.about for w in matter.opinion.weighed if w.question is Asked.IDENTITY]
    firsts = [some[:1] for _, some in reasons]
    wanted = dict.fromkeys(e for some in (*firsts, *(r[1:] for _, r in reasons)) for e in some)
    wanted |= dict.fromkeys(matter.of(*bearers))
    wanted |= dict.fromkeys(matter.numbers)
    left = [each for each in wanted if each not in whole_car(matter.case)]
    shown = (*(cars or [bare]), *map(matter.photograph, left[: PICTURES - 1]))
    return Pictures(shown, PICTURES)
