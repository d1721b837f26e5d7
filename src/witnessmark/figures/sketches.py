"""Every sketch of the vocabulary, drawn: what an outcome looks like, for who stands at the car.

All have one size, one frame and the same pens and tones, so that none stands out.
"""

from collections.abc import Callable
from dataclasses import dataclass

from witnessmark.catalogue import as_said, marked, said
from witnessmark.codebook.sketches import Sketch
from witnessmark.figures import sketches_characters as characters
from witnessmark.figures import sketches_fixings as fixings
from witnessmark.figures import sketches_paint as paint
from witnessmark.figures import sketches_sheet as sheet
from witnessmark.figures.drawing import SOFT, box, figure
from witnessmark.figures.records import Figure
from witnessmark.figures.sketches_strokes import PAPER, SKETCH_HEIGHT, SKETCH_WIDTH

ABOVE = marked("Seen from above.")
CUT = marked("Cut through and seen from the side.")
SIDE = marked("Seen from the side.")
BOTH = marked("Seen from above, and cut through from the side.")


@dataclass(frozen=True, slots=True)
class Drawn:
    """What is heard of a sketch, from where it is seen, and what draws it."""

    title: str
    view: str
    draw: Callable[[], list[str]]


DRAWN = {
    Sketch.RIVET: Drawn(marked("Rivet"), CUT, fixings.rivet),
    Sketch.ROUND_RIVET: Drawn(marked("Rivet with a round head"), BOTH, fixings.round_rivet),
    Sketch.HOLLOW_RIVET: Drawn(marked("Hollow rivet, its bore open"), BOTH, fixings.hollow_rivet),
    Sketch.ROSETTE_RIVET: Drawn(
        marked("Rivet with a head like a flower"), BOTH, fixings.rosette_rivet
    ),
    Sketch.OTHER_RIVETS: Drawn(
        marked("Rivets with other heads, one flat, one sunk"), BOTH, fixings.other_rivets
    ),
    Sketch.SCREWS: Drawn(
        marked("Heads of screws, one with a slot, one with a cross"), ABOVE, fixings.screws
    ),
    Sketch.ONE_SCREW: Drawn(marked("Tag under one screw"), ABOVE, fixings.one_screw),
    Sketch.GLUE: Drawn(marked("Plate on a layer of glue"), SIDE, fixings.glue),
    Sketch.SCREWS_OR_GLUE: Drawn(
        marked("Head of a screw; plate on a layer of glue"), BOTH, fixings.screws_or_glue
    ),
    Sketch.OTHER_FASTENING: Drawn(
        marked("Tags held otherwise, one by a rivet, one by wire"), ABOVE, fixings.other_fastening
    ),
    Sketch.FRESH_HOLES: Drawn(marked("Open holes beside a rivet"), ABOVE, fixings.fresh_holes),
    Sketch.UNEVEN_PUNCHES: Drawn(
        marked("Characters at several heights, turned, some deeper"),
        ABOVE,
        characters.uneven_punches,
    ),
    Sketch.EVEN_LINE: Drawn(marked("Characters alike, in one line"), ABOVE, characters.even_line),
    Sketch.ENGRAVED: Drawn(
        marked("Characters cut by a graver, thin at their ends"), ABOVE, characters.engraved
    ),
    Sketch.WIDE_SPACING: Drawn(marked("Characters far apart"), ABOVE, characters.wide_spacing),
    Sketch.CLOSE_SPACING: Drawn(
        marked("Characters close together"), ABOVE, characters.close_spacing
    ),
    Sketch.PAINT_LINE: Drawn(
        marked("Paint up to the edge of a plate, in an unbroken line"), ABOVE, paint.paint_line
    ),
    Sketch.PAINT_ANEW: Drawn(
        marked("At the edge of a plate bare metal, and other paint"), ABOVE, paint.paint_anew
    ),
    Sketch.SECOND_OUTLINE: Drawn(
        marked("Second outline beside a plate"), ABOVE, paint.second_outline
    ),
    Sketch.PITS_THROUGH: Drawn(
        marked("Pits in a character as beside it"), ABOVE, characters.pits_through
    ),
    Sketch.PITS_AROUND: Drawn(
        marked("Smooth character, pits farther off"), ABOVE, characters.pits_around
    ),
    Sketch.PITS_CUT: Drawn(
        marked("Character whose edge cuts through pits"), ABOVE, characters.pits_cut
    ),
    Sketch.ROUND_DAB: Drawn(marked("Round dab of paint beside characters"), ABOVE, paint.round_dab),
    Sketch.CORNERED_DAB: Drawn(
        marked("Dab of paint with three corners beside characters"), ABOVE, paint.cornered_dab
    ),
    Sketch.NO_DAB: Drawn(marked("Characters on paint without a dab"), ABOVE, paint.no_dab),
    Sketch.BOLT_PAINTED: Drawn(
        marked("Bolt under the same unbroken paint as the panel"), ABOVE, paint.bolt_painted
    ),
    Sketch.BOLT_PAINT_BROKEN: Drawn(
        marked("Bolt with the paint broken at its corners and round it"),
        ABOVE,
        paint.bolt_paint_broken,
    ),
    Sketch.BOLT_NEW: Drawn(marked("Bright bolt on a painted panel"), ABOVE, paint.bolt_new),
    Sketch.SPOT_WELDS: Drawn(
        marked("Spot welds of one size along an edge, evenly apart"), ABOVE, sheet.spot_welds
    ),
    Sketch.PLUG_WELDS: Drawn(marked("Plug welds along an edge"), ABOVE, sheet.plug_welds),
    Sketch.WELD_ROUND: Drawn(marked("Run of weld round characters"), ABOVE, sheet.weld_round),
    Sketch.SHEET_UNBROKEN: Drawn(
        marked("Characters on one unbroken sheet"), ABOVE, sheet.sheet_unbroken
    ),
    Sketch.RIPPLES: Drawn(marked("Sheet that bulges below its characters"), CUT, sheet.ripples),
    Sketch.FLAT_REVERSE: Drawn(
        marked("Sheet that is flat below its characters"), CUT, sheet.flat_reverse
    ),
    Sketch.OTHER_SHEET: Drawn(
        marked("Another sheet below the one with the characters"), CUT, sheet.other_sheet
    ),
    Sketch.PRIMER_IN: Drawn(
        marked("Primer that runs on down into the characters"), CUT, paint.primer_in
    ),
    Sketch.PRIMER_GONE: Drawn(
        marked("A character bare, another filled with later paint"), CUT, paint.primer_gone
    ),
    Sketch.PRIMER_CUT: Drawn(
        marked("Primer on the surface, characters cut down through it"), CUT, paint.primer_cut
    ),
    Sketch.LINES_UNDER: Drawn(
        marked("Machining lines that a character breaks"), ABOVE, characters.lines_under
    ),
    Sketch.LINES_POLISHED: Drawn(
        marked("Smooth ground without machining lines"), ABOVE, characters.lines_polished
    ),
    Sketch.LINES_OVER: Drawn(
        marked("Machining lines that run on through a character"), ABOVE, characters.lines_over
    ),
    Sketch.CAST_WHOLE: Drawn(
        marked("Raised characters in one piece with the casting"), CUT, sheet.cast_whole
    ),
    Sketch.CAST_FILED: Drawn(
        marked("Raised characters with flats filed at their feet"), CUT, sheet.cast_filed
    ),
    Sketch.CAST_JOINED: Drawn(
        marked("Raised characters set on, with a bead at their feet"), CUT, sheet.cast_joined
    ),
    Sketch.STRIPE_WHOLE: Drawn(marked("Stripe of paint across a joint"), ABOVE, paint.stripe_whole),
    Sketch.STRIPE_BROKEN: Drawn(
        marked("Stripe of paint broken at a joint"), ABOVE, paint.stripe_broken
    ),
    Sketch.STRIPE_COVERED: Drawn(
        marked("Newer paint over a joint and a stripe"), ABOVE, paint.stripe_covered
    ),
    Sketch.GROUND_EVEN: Drawn(
        marked("Characters on ground that is alike everywhere"), ABOVE, characters.ground_even
    ),
    Sketch.GROUND_DULL: Drawn(
        marked("Characters on a dull patch of fine scratches"), ABOVE, characters.ground_dull
    ),
    Sketch.GROUND_OFF: Drawn(
        marked("Characters half ground off, a run of weld beside them"),
        ABOVE,
        characters.ground_off,
    ),
    Sketch.STUD_AND_NUT: Drawn(
        marked("Lever under a nut, the thread of a stud standing out"), SIDE, fixings.stud_and_nut
    ),
    Sketch.BOLT: Drawn(marked("Lever under the head of a bolt"), SIDE, fixings.bolt),
    Sketch.LABEL: Drawn(marked("Printed label"), ABOVE, paint.label),
    Sketch.RIVETED_PLATE: Drawn(
        marked("Plate with a rivet at each end"), ABOVE, paint.riveted_plate
    ),
    Sketch.LABEL_TRACE: Drawn(marked("Trace of a label that is gone"), ABOVE, paint.label_trace),
}


def sketch(which: Sketch) -> Figure:
    """The sketch of this name; its title says what is drawn, its caption from where it is seen."""
    drawn = DRAWN[which]
    frame = box(
        0.5,
        0.5,
        SKETCH_WIDTH - 1,
        SKETCH_HEIGHT - 1,
        stroke=SOFT,
        stroke_width=0.6,
    )
    paper = box(0, 0, SKETCH_WIDTH, SKETCH_HEIGHT, fill=PAPER)
    parts = [paper, *drawn.draw(), frame]
    title, view = as_said(drawn.title), as_said(drawn.view)
    return figure(f"sketch {which}", title, view, SKETCH_HEIGHT, parts, width=SKETCH_WIDTH)


def heard(which: Sketch) -> str:
    """What stands for the sketch where it is not seen."""
    drawn = sketch(which)
    return said("Sketch: {title}. {view}", title=drawn.title, view=drawn.caption)
