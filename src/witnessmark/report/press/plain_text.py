"""The outline as plain text, without layout: for tests, and for who cannot open a PDF."""

from witnessmark.catalogue import said
from witnessmark.report.records import (
    Block,
    BoxWindow,
    Bullets,
    Card,
    CharacterBoxes,
    Columns,
    Drawing,
    DrawnBoxes,
    Facts,
    Heading,
    Outline,
    Paragraph,
    Photograph,
    PlaceHeading,
    Signature,
    Table,
    TableCell,
    TickBoxes,
    Together,
    WriteIn,
)
from witnessmark.wording.letters import visible


def report_text(outline: Outline) -> str:
    """Everything that the report says, one thing a line."""
    lines = [outline.title, said("Case {case}", case=outline.case_id), outline.printed]
    lines += [line for block in outline.front for line in _lines(block)]
    lines += [f"{fact.label}: {fact.text}" for fact in outline.cover]
    lines += outline.how_to_read
    for number, section in enumerate(outline.sections, start=1):
        lines += ["", f"{number}. {section.title}", ""]
        for block in section.blocks:
            lines += _lines(block)
    return visible("\n".join([*lines, "", outline.footer, ""]))


def _lines(block: Block) -> list[str]:
    match block:
        case Paragraph():
            return [block.text]
        case Heading():
            return ["", f"-- {block.text}"]
        case Bullets():
            return [f"- {item}" for item in block.items]
        case Facts():
            return [f"{fact.label}: {fact.text}" for fact in block.facts]
        case Table():
            rows = [" | ".join(_cell(cell) for cell in row) for row in block.rows]
            return [" | ".join(block.head), *rows]
        case Drawing():
            told = said("Figure: {title}. {caption}", title=block.title, caption=block.caption)
            return [f"[{told}]"]
        case Photograph():
            caption = block.caption
            told = said("Photograph {exhibit}: {caption}", exhibit=block.id, caption=caption)
            return [f"[{told}]", *block.details, block.missing]
        case Card():
            return card_lines(block)
        case Together():
            return [line for each in block.blocks for line in _lines(each)]
        case Columns():
            return [line for each in (*block.left, *block.right) for line in _lines(each)]
        case PlaceHeading():
            return ["", f"-- {block.number} {block.name} {block.note}".rstrip()]
        case WriteIn():
            return [f"{block.label} {'_' * 24}"] + ["_" * 24] * (block.lines - 1)
        case CharacterBoxes():
            rows = ["  ".join(map(_boxes, row)) for row in block.rows]
            return [f"{block.label} {block.made}".rstrip(), *rows]
        case TickBoxes():
            return [f"{block.label} {'  '.join(f'[ ] {each}' for each in block.choices)}"]
        case DrawnBoxes():
            drawn = (f"[ ] {each.text} [{each.heard}]" for each in block.choices)
            return [f"{block.label} {'  '.join(drawn)}"]
        case Signature():
            signed = said("Signed: {line}", line="_" * 20)
            return [f"{signed} {block.name} {block.qualifications}".rstrip()]


def _boxes(window: BoxWindow) -> str:
    """One window of boxes to write in: its label, what stands there, a place for each character."""
    boxes = "[ ]" * window.places or "_" * 24
    return " ".join(part for part in (window.label, window.before, boxes, window.note) if part)


def _cell(cell: TableCell) -> str:
    return " / ".join((cell.text, *cell.below))


def card_lines(card: Card) -> list[str]:
    """One conclusion, line by line: the pair, the ratio before anything that follows from it."""
    text = card.text
    lines = [
        "",
        f"-- {text.heading}",
        said("First proposition: {proposition}", proposition=text.first),
        said("Second proposition: {proposition}", proposition=text.second),
        said("LR {ratio} (log10 {log10})", ratio=text.lr, log10=text.log10_lr),
        text.words,
        card.unseen,
        card.standing,
        text.sentence,
        text.capped,
        text.split,
        text.band,
        text.leading,
        text.posterior,
    ]
    return [lines[0], *(line for line in lines[1:] if line)]
