"""The summary: the five conclusions kept apart, what would settle them, what to look at next."""

from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.figures import weight_strips_sheets
from witnessmark.figures.next_looks import next_looks
from witnessmark.report.drawn import drawings
from witnessmark.report.records import (
    Block,
    Bullets,
    Card,
    Heading,
    Paragraph,
    Section,
    Table,
    TableCell,
)
from witnessmark.report.seen import part_seen, unseen_words
from witnessmark.weighing.records import Conclusion, NextLook, Standing
from witnessmark.wording import (
    Names,
    best_set_sentence,
    bits_text,
    conclusion_text,
    next_look_text,
    odds_sentence,
    scale_sentence,
    settling_texts,
    spelled,
    standing_in_short,
    standing_sentence,
    term,
    verbal_equivalent,
)
from witnessmark.wording.amounts import capital, per_minute_text
from witnessmark.wording.conclusions import bearer_sentence, heading

LOOKS_SHOWN = 8
LEAST_BITS = 0.01
"""A look that tells less than this about every question is counted, not listed."""


def summary_section(opinion: Opinion, book: CodeBook) -> Section:
    """The five conclusions, kept apart, and the strips."""
    names = Names(opinion.names)
    weighing = opinion.weighing
    cards = [_card(each, opinion, book, names) for each in weighing.conclusions]
    intro = said(
        "Five kinds of conclusion are kept apart: identity; plates and papers; configuration; "
        "assemblies; and what was said about the car. They are not added up. Each stands in "
        "full, with what drives it and what it assumes, further on."
    )
    blocks: list[Block] = [Paragraph(intro), *cards]
    if any(each.rests_on_bearer_odds for each in weighing.conclusions):
        rests = bearer_sentence(weighing.bearer_odds, weighing.bearer_odds_are_stated)
        blocks.append(Paragraph(rests, "quiet"))
    blocks.append(Paragraph(scale_sentence(), "quiet"))
    blocks.extend(_disclosure(opinion, book, names))
    if cards:
        blocks.extend(drawings(weight_strips_sheets(opinion)))
    return Section(said("Summary"), tuple(blocks))


def _card(conclusion: Conclusion, opinion: Opinion, book: CodeBook, names: Names) -> Card:
    return Card(
        conclusion_text(conclusion, opinion.weighing, names),
        verbal_equivalent(conclusion.lr.log10_lr).favours.value,
        standing_in_short(conclusion),
        unseen_words(part_seen(conclusion, opinion, book)),
    )


def _disclosure(opinion: Opinion, book: CodeBook, names: Names) -> list[Block]:
    """What was said against what was found, statement by statement: no ratio."""
    head: list[Block] = [Heading(said("Disclosure: what was said against what was found"))]
    if not opinion.disclosure:
        none = said("No statement about a part of the car was recorded.")
        return [*head, Paragraph(none)]
    rows = tuple(
        (
            TableCell(capital(names.any(each.about)), strong=True),
            TableCell(each.says, (each.declared,) if each.declared else ()),
            TableCell(each.found, _below(each.about, opinion, book)),
            TableCell(capital(term(each.outcome)), strong=True),
        )
        for each in opinion.disclosure
    )
    titles = (said("About"), said("What was said"), said("What was found"), said("Outcome"))
    return [*head, *_speaker(opinion), Table(titles, rows, (2, 4, 5, 1.6))]


def _below(about: str, opinion: Opinion, book: CodeBook) -> tuple[str, ...]:
    """How the part was seen of which something was found, if not in person."""
    seen = [
        unseen_words(part_seen(each, opinion, book))
        for each in opinion.weighing.conclusions
        if each.about == about
    ]
    return tuple(each for each in seen[:1] if each)


def _speaker(opinion: Opinion) -> list[Block]:
    """Who made the statements, and how many there are."""
    claim = opinion.casefile.claim
    if not claim.statements:
        return []
    who = claim.made_by or said("somebody whom the case does not name")
    told = spelled(
        "{count} statement, made by {name}. Where a row names nothing that was said, something "
        "was found on which nothing was said.",
        "{count} statements, made by {name}. Where a row names nothing that was said, something "
        "was found on which nothing was said.",
        len(claim.statements),
        name=who,
    )
    return [Paragraph(capital(told), "lead")]


def settling_section(opinion: Opinion) -> Section:
    """What cannot be established, what could settle it, and what that would need to say."""
    names = Names(opinion.names)
    blocks: list[Block] = []
    titles = {
        Standing.CANNOT_BE_ESTABLISHED: said("Cannot be established"),
        Standing.OPEN: said("Open"),
    }
    for standing, title in titles.items():
        unsettled = [c for c in opinion.weighing.conclusions if c.standing is standing]
        if unsettled:
            blocks.append(Heading(title))
            blocks.append(Bullets(tuple(_pair_line(each, names) for each in unsettled)))
            blocks.append(Paragraph(standing_sentence(unsettled[0])))
            blocks.extend(_settling(unsettled, names))
    if not blocks:
        answered = said(
            "Every question that has a likelihood ratio is answered beyond 3 either way by "
            "what is on hand. What could still change an answer stands in the next section."
        )
        blocks.append(Paragraph(answered))
    return Section(said("What cannot be established, and what would settle it"), tuple(blocks))


def _pair_line(conclusion: Conclusion, names: Names) -> str:
    text = conclusion.pair.first.strip().rstrip(".")
    proposition = text[:1].lower() + text[1:]
    return said(
        "{heading}: whether {proposition}",
        heading=heading(conclusion, names),
        proposition=proposition,
    )


def _settling(conclusions: list[Conclusion], names: Names) -> list[Block]:
    """One row for each source beyond reach, with what it would need to say on each question."""
    needs: dict[str, list[str]] = {}
    for conclusion in conclusions:
        for text in settling_texts(conclusion, names):
            if text.needs:
                told = _under(conclusion, names, text.needs)
                needs.setdefault(text.name, []).append(told)
    if not needs:
        nothing = said("Nothing that the code book knows of would settle it by itself.")
        return [Paragraph(nothing)]
    rows = tuple((TableCell(name), TableCell("\n".join(told))) for name, told in needs.items())
    head = (said("What could settle it"), said("What it would need to say"))
    return [Table(head, rows, (4, 6))]


def _under(conclusion: Conclusion, names: Names, told: str) -> str:
    """A sentence under the name of the question that it speaks of."""
    return said("{heading}. {sentence}", heading=heading(conclusion, names), sentence=told)


def next_looks_section(opinion: Opinion) -> Section:
    """What to look at next, in order of bits a minute, and the best set for the time."""
    names = Names(opinion.names)
    conclusions = opinion.weighing.conclusions
    looks = _by_target(conclusions)
    telling = [each for each in looks if each[0][1].bits >= LEAST_BITS]
    rows = tuple(_look_row(each, names) for each in telling[:LOOKS_SHOWN])
    blocks: list[Block] = [*drawings([next_looks(opinion)])]
    if rows:
        head = (said("Look"), said("What it tells, by question"), said("Time and dismantling"))
        blocks.append(Table(head, rows, (5, 5, 3)))
    else:
        none = said("No look that can be had on this car would tell much more.")
        blocks.append(Paragraph(none))
    rest = len(looks) - len(rows)
    if rest:
        further = spelled(
            "{count} further look within reach would tell less.",
            "{count} further looks within reach would tell less.",
            rest,
        )
        blocks.append(Paragraph(capital(further), "quiet"))
    sets = tuple(text for each in conclusions if (text := _best_set(each, names)))
    if sets:
        blocks.extend([Heading(said("The best set for the time")), Bullets(sets)])
    odds = dict.fromkeys(odds_sentence(each) for each in conclusions if each.next_looks)
    blocks.extend(Paragraph(text, "quiet") for text in odds)
    return Section(said("What to look at next"), tuple(blocks))


Told = tuple[Conclusion, NextLook]


def _by_target(conclusions: tuple[Conclusion, ...]) -> list[list[Told]]:
    """The looks within reach, each with the questions it speaks to, most bits a minute first."""
    found: dict[str, list[Told]] = {}
    for conclusion in conclusions:
        for look in conclusion.next_looks:
            found.setdefault(f"{look.kind} {look.target} {look.prompt}", []).append(
                (conclusion, look)
            )
    for told in found.values():
        told.sort(key=lambda each: -each[1].bits)
    return sorted(found.values(), key=lambda told: -_bits_per_minute(told[0][1]))


def _bits_per_minute(look: NextLook) -> float:
    return look.bits / max(1, look.minutes + look.access_minutes)


def _look_row(told: list[Told], names: Names) -> tuple[TableCell, ...]:
    conclusion, look = told[0]
    text = next_look_text(look, names)
    lines = [
        said(
            "{heading}: {bits}, {a_minute}",
            heading=heading(each, names),
            bits=bits_text(other.bits),
            a_minute=per_minute_text(_bits_per_minute(other)),
        )
        for each, other in told
        if other.bits >= LEAST_BITS
    ]
    outcomes = _under(conclusion, names, text.outcomes) if text.outcomes else ""
    return (
        TableCell(text.prompt, (text.caution,) if text.caution else ()),
        TableCell("\n".join(lines), (outcomes,) if outcomes else ()),
        TableCell(text.minutes, (text.dismantling,)),
    )


def _best_set(conclusion: Conclusion, names: Names) -> str:
    best = conclusion.best_set
    if best is None or best.bits < LEAST_BITS:
        return ""
    prompts = {look.target: look.prompt for look in conclusion.next_looks}
    chosen = tuple(prompts.get(target) or names.any(target) for target in best.targets)
    return _under(conclusion, names, best_set_sentence(best, chosen))
