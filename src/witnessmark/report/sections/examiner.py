"""Where the examiners differ: their readings side by side, and what the difference does."""

from witnessmark.casefile import Casefile
from witnessmark.catalogue import counted, said
from witnessmark.decoding.records import Decoding
from witnessmark.examination import Opinion
from witnessmark.examination.read_alone import ReadAlone, differing
from witnessmark.outline.records import Block, Heading, Paragraph, Section, Table, TableCell
from witnessmark.reading.records import Cell, CellKind
from witnessmark.report.sections.reading import meaning_cell
from witnessmark.report.sections.seen import unseen_way
from witnessmark.report.sections.weight import LEAST_LOG10_LR
from witnessmark.weighing import capped
from witnessmark.wording import Names, lr_text
from witnessmark.wording.amounts import capital, clause
from witnessmark.wording.case_words import signer_name
from witnessmark.wording.conclusions import heading


def examiners_section(opinion: Opinion, alone: tuple[ReadAlone, ...]) -> Section | None:
    """Each mark that was not read alike by all; None where all readings are the same."""
    marks = differing(opinion)
    if not marks:
        return None
    intro = said(
        "The examiners read these marks differently. Both readings stand; they are not "
        "averaged, and neither is preferred: the weighing treats each as one witness to "
        "the same characters and allows for a misreading that both share."
    )
    names = Names(opinion.names)
    blocks: list[Block] = [Paragraph(intro, "lead")]
    for decodings in marks:
        blocks.append(Heading(capital(names.mark(decodings[0].mark))))
        blocks.append(_side_by_side(decodings, opinion.casefile, names))
        blocks.append(Paragraph(_how_they_differ(decodings)))
        blocks.extend(_effects(decodings, opinion, alone, names))
    return Section(said("Where the examiners differ"), tuple(blocks))


def _side_by_side(decodings: tuple[Decoding, ...], case: Casefile, names: Names) -> Table:
    rows = []
    for each in decodings:
        reading = each.reading
        who = clause(signer_name(reading.by, case))
        way = unseen_way(reading.seen, who)
        rows.append(
            (
                TableCell(who or said("not stated"), (way,) if way else ()),
                TableCell(reading.as_typed, mono=True),
                meaning_cell(each, names),
            )
        )
    head = (said("Examiner"), said("As read"), said("What the code book says it means"))
    return Table(head, tuple(rows), (2.4, 3.4, 5))


def _how_they_differ(decodings: tuple[Decoding, ...]) -> str:
    """At how many places they differ, and whether one contradicts the other there."""
    cells = [each.reading.cells for each in decodings]
    if len({len(each) for each in cells}) > 1:
        return said("They count different numbers of places.")
    places = [place for place in zip(*cells, strict=True) if len({_key(c) for c in place}) > 1]
    against = sum(_is_contradicted(place) for place in places)
    told = counted("They differ at {number} place.", "They differ at {number} places.", len(places))
    if not against:
        return f"{told} " + said(
            "Neither contradicts the other: where one leaves a place open, the other reads it."
        )
    return f"{told} " + counted(
        "At {number} of them, what one reads excludes what the other reads.",
        "At {number} of them, what one reads excludes what the other reads.",
        against,
    )


NOTHING_STRUCK = frozenset("_")


def _key(cell: Cell) -> tuple[CellKind, str]:
    return cell.kind, cell.characters


def _is_contradicted(place: tuple[Cell, ...]) -> bool:
    """Whether no character is left that all readings of this place allow."""
    bound = [allowed for allowed in map(_allowed, place) if allowed is not None]
    return len(bound) > 1 and not frozenset.intersection(*bound)


def _allowed(cell: Cell) -> frozenset[str] | None:
    """The characters that a place can hold by one reading; None where it leaves all open."""
    match cell.kind:
        case CellKind.CLEAR | CellKind.ONE_OF:
            return frozenset(cell.characters)
        case CellKind.NEVER_STRUCK:
            return NOTHING_STRUCK
        case _:
            return None


def _effects(
    decodings: tuple[Decoding, ...],
    opinion: Opinion,
    alone: tuple[ReadAlone, ...],
    names: Names,
) -> list[Block]:
    """What the ratios would be by each reading alone, where that moves one of them."""
    mark = decodings[0].mark
    told = [each for each in alone if each.mark == mark]
    if len(told) != len(decodings):
        return []
    rows = []
    for conclusion in opinion.weighed:
        key = (conclusion.question.value, conclusion.about)
        ratios = [each.log10_lr.get(key, capped(conclusion.conclusion.log10_lr)) for each in told]
        if max(ratios) - min(ratios) >= LEAST_LOG10_LR:
            cells = (lr_text(ratio) for ratio in (*ratios, capped(conclusion.conclusion.log10_lr)))
            rows.append((TableCell(heading(conclusion, names)), *map(TableCell, cells)))
    if not rows:
        none = said(
            "The difference changes nothing: with either reading alone every ratio is "
            "within a tenth of what it is with the other."
        )
        return [Paragraph(none)]
    who = (clause(signer_name(each.by, opinion.casefile)) for each in told)
    by = tuple(said("{name} alone", name=each or said("not stated")) for each in who)
    head = (said("What the difference does"), *by, said("Both, as weighed"))
    return [Table(head, tuple(rows), (4, *(2.2 for _ in by), 2.2))]
