"""A full Opinion about an invented car, with one of everything a report must show.

The numbers are made up and hang together only as far as a report needs.
"""

import io
from dataclasses import replace
from datetime import UTC, date, datetime
from hashlib import sha256

from PIL import Image, ImageDraw

from witnessmark.agreement.records import Finding, Outcome, Subject
from witnessmark.casefile.records import (
    Assignment,
    Casefile,
    Circumstances,
    Claim,
    Examiner,
    ExhibitEntry,
    Legibility,
    LookSeen,
    MarkReading,
    OriginSaid,
    Paper,
    PaperState,
    Seen,
    SiteSeen,
    SiteState,
    Stakes,
    StatedPrior,
    Statement,
    Title,
    Visit,
)
from witnessmark.codebook.records import Basis, CarContext
from witnessmark.decoding.records import Alternative, Decoding, FieldCells, FieldMeaning
from witnessmark.examination import (
    BookVersion,
    Disclosed,
    Limitation,
    Named,
    Opinion,
    SiteOutcome,
)
from witnessmark.reading.records import Cell, CellKind, Change, Reading
from witnessmark.weighing.records import (
    Assumption,
    BestSet,
    Conclusion,
    Contribution,
    CurvePoint,
    EvidenceItem,
    LikelihoodRatio,
    LookOutcome,
    MarkGroup,
    MarkState,
    NextLook,
    PropositionPair,
    Question,
    Standing,
    StateShare,
    Weighing,
)

DEMO = "Invented for the demonstration; no such maker ever built a car"
WHEN = datetime(2026, 5, 12, 10, 40, tzinfo=UTC)
PRINTED = date(2026, 5, 14)


def photograph(text: str, width: int = 1800, height: int = 1200) -> bytes:
    """A drawn photograph of characters on metal, as a JPEG."""
    image = Image.new("RGB", (width, height), (148, 152, 150))
    pencil = ImageDraw.Draw(image)
    pencil.rectangle((90, 90, width - 90, height - 90), outline=(80, 84, 84), width=14)
    pencil.text((180, height // 2 - 120), text, fill=(40, 42, 44), font_size=190)
    stream = io.BytesIO()
    image.save(stream, "JPEG", quality=85)
    return stream.getvalue()


EXHIBITS = {
    "p1": photograph("105512"),
    "p2": photograph("1 0 5 5 1 2"),
    "p3": photograph("2071", 1200, 900),
}

NAMES = (
    ("mark", "plate_brass", "brass chassis plate"),
    ("mark", "frame_number", "frame stamping"),
    ("mark", "wing_body_number", "body number on the inner wing"),
    ("mark", "seat_body_number", "body number on the seat pan"),
    ("mark", "bulkhead_body_number", "body number on the bulkhead"),
    ("mark", "engine_number", "engine number"),
    ("mark", "engine_casting", "casting date of the block"),
    ("mark", "gearbox_stamp", "gearbox stamping"),
    ("mark", "despatch_ledger", "despatch ledger entry"),
    ("mark", "build_card", "build card"),
    ("item", "chassis_number", "chassis number"),
    ("item", "body_number", "body number"),
    ("item", "engine_number", "engine number"),
    ("item", "engine_casting_date", "casting date of the engine block"),
    ("item", "model", "model"),
    ("item", "paint", "paint"),
    ("assembly", "frame", "frame"),
    ("assembly", "body", "body"),
    ("assembly", "engine", "engine"),
)


def cells(text: str, column: int = 1) -> tuple[Cell, ...]:
    """Cells of a simple reading: clear characters and worn places."""
    return tuple(
        Cell(CellKind.WORN, "", at) if c == "?" else Cell(CellKind.CLEAR, c, at)
        for at, c in enumerate(text, start=column)
    )


def decoding(
    mark: str, typed: str, fields: tuple[tuple[str, str, str, str], ...], **more: object
) -> Decoding:
    """A decoding with one meaning; `fields` are (field, says, code, meaning)."""
    meanings = tuple(
        FieldMeaning(
            field,
            code,
            says,
            code,
            meaning,
            Basis.INVENTED,
            DEMO,
            listed=meaning != "not listed",
        )
        for field, says, code, meaning in fields
    )
    spread = tuple(
        FieldCells(field, says, "all", cells(code), is_empty=code == "")
        for field, says, code, _ in fields
    )
    normalised = typed.upper()
    changes = () if normalised == typed else (Change(1, typed, normalised, "written in capitals"),)
    reading = Reading(
        mark,
        typed,
        normalised,
        cells(normalised),
        more.get("legibility", Legibility.CLEAR),  # type: ignore[arg-type]
        seen=more.get("seen", Seen.IN_PERSON),  # type: ignore[arg-type]
        by="I. Larkin",
        changes=changes,
    )
    return Decoding(
        "tarvane-1952-1961",
        mark,
        reading,
        (Alternative(0.97, meanings), Alternative(0.02, meanings)),
        0.01,
        "",
        (),
        3,
        spread,
    )


DECODINGS = (
    decoding(
        "plate_brass",
        "sp|105512|20713|14||4",
        (
            ("type", "model", "SP", "Solent Sprint"),
            ("chassis", "chassis_number", "105512", "105512"),
            ("engine", "engine_number", "20713", "20713"),
            ("paint", "paint", "14", "harbour grey"),
            ("extras", "extras", "", "no extras"),
        ),
    ),
    decoding("frame_number", "1055?2", (("number", "chassis_number", "1055?2", "1055?2"),)),
    decoding(
        "wing_body_number",
        "2071",
        (("number", "body_number", "2071", "2071"),),
        legibility=Legibility.WORN,
    ),
    decoding("seat_body_number", "2071", (("number", "body_number", "2071", "2071"),)),
    decoding(
        "engine_number",
        "20718",
        (("number", "engine_number", "20718", "20718"),),
        seen=Seen.PHOTOGRAPH,
    ),
    decoding(
        "engine_casting",
        "K 4 5",
        (("date", "engine_casting_date", "K45", "4 November 1955"),),
    ),
    decoding("gearbox_stamp", "???", (("number", "gearbox_number", "???", "not read"),)),
)


def finding(
    outcome: Outcome, topic: str, marks: tuple[tuple[str, str], ...], seen: str, inferred: str
) -> Finding:
    """One finding; `marks` are (mark, value shown)."""
    subjects = tuple(Subject(mark, "number", shown) for mark, shown in marks)
    return Finding("same_item", topic, outcome, subjects, seen, inferred, Basis.INVENTED, DEMO)


FINDINGS = (
    finding(
        Outcome.AGREE,
        "chassis_number",
        (("claim", "105512"), ("plate_brass", "105512")),
        "The brass chassis plate shows 105512, which is the claimed chassis number.",
        "This is consistent with the plate having been made for the claimed car.",
    ),
    finding(
        Outcome.UNDECIDED,
        "chassis_number",
        (("claim", "105512"), ("frame_number", "1055?2")),
        "The frame stamping shows 1055?2; the fifth place is worn away.",
        "What can be read agrees with the claimed chassis number in five of six places.",
    ),
    finding(
        Outcome.DIFFER,
        "engine_number",
        (("plate_brass", "20713"), ("engine_number", "20718")),
        "The plate shows engine number 20713 and the engine is struck 20718.",
        "This is consistent with another engine of the same series, and with a misread 3 or 8.",
    ),
    finding(
        Outcome.AGREE,
        "body_number",
        (("wing_body_number", "2071"), ("seat_body_number", "2071")),
        "The inner wing and the seat pan both show body number 2071.",
        "This is consistent with both panels coming from one body.",
    ),
    finding(
        Outcome.SILENT,
        "extras",
        (("plate_brass", ""),),
        "The window for extras was left empty.",
        "The book says nothing about what that means for this year.",
    ),
)


def look(
    target: str, prompt: str, bits: float, *, reachable: bool = True, **more: object
) -> NextLook:
    """A next look with an outcome for either proposition."""
    return NextLook(
        target,
        str(more.get("kind", "reading")),
        prompt,
        bits,
        int(more.get("minutes", 10)),  # type: ignore[call-overload]
        str(more.get("access_group", "")),
        int(more.get("access_minutes", 0)),  # type: ignore[call-overload]
        str(more.get("dismantling", "none")),
        reachable,
        (
            LookOutcome("it agrees with the claim", 0.5, 1.6),
            LookOutcome("it differs from the claim", 0.4, -1.9),
            LookOutcome("it cannot be read", 0.1, 0.4),
        ),
        caution=str(more.get("caution", "")),
    )


LEADING = Assumption(
    "deceit.not_own.skilled",
    0.3,
    "A cautious default: faultless re-strikes are documented, their share is not.",
    False,
    0.92,
    1.84,
)

EVIDENCE = (
    EvidenceItem("e1", "reading", "frame_number", "The frame stamping shows 1055?2."),
    EvidenceItem("e2", "look", "frame_rail", "The metal around the frame stamping looks factory."),
    EvidenceItem("e3", "codes", "plate_brass", "The plate shows the type code SP."),
    EvidenceItem("e4", "look", "scuttle", "One rivet of the plate is of another kind."),
)


def conclusion(
    question: Question,
    about: str,
    pair: tuple[str, str],
    lr: tuple[float, float, float],
    **more: object,
) -> Conclusion:
    """A conclusion with contributions, assumptions, a curve and looks."""
    point = lr[0]
    made = Conclusion(
        question,
        about,
        PropositionPair(*pair),
        LikelihoodRatio(*lr),
        tuple(
            Contribution(item, point - change, change, change * 0.9)
            for item, change in zip(EVIDENCE, (0.84, 0.31, 0.1, -0.42), strict=True)
        ),
        (LEADING, replace(LEADING, row="plate.refitted", value=0.08, reason="Paint and repair.")),
        tuple(CurvePoint(v, point + 0.5 - v) for v in (0.001, 0.003, 0.01, 0.03, 0.1, 0.3, 0.7)),
        (
            look(
                "bulkhead_body_number",
                "Read the body number on the bulkhead",
                0.31,
                minutes=25,
                dismantling="heater box",
                caution="The heater flap may hold asbestos.",
            ),
            look(
                "frame_rail",
                "Look at the stroke ends of the frame stamping",
                0.12,
                minutes=5,
                access_group="lift",
                access_minutes=15,
            ),
        ),
        (
            look(
                "despatch_ledger",
                "The entry in the maker's despatch ledger",
                0.8,
                reachable=False,
                kind="paper",
            ),
        ),
        BestSet(60, 45, 0.4, ("bulkhead_body_number", "frame_rail")),
        1.0,
        False,
        Standing.ANSWERED,
        curve_row="deceit.not_own.skilled",
        curve_value=0.3,
    )
    return replace(made, **more)  # type: ignore[arg-type]


CONCLUSIONS = (
    conclusion(
        Question.IDENTITY,
        "frame",
        ("this frame left the factory as the claimed car", "it did not"),
        (1.33, 0.61, 2.12),
        prior_odds=3.0,
        posterior_odds=64.0,
        odds_are_stated=True,
        odds_used=3.0,
    ),
    conclusion(
        Question.PLATE,
        "plate_brass",
        (
            "this plate was made at the factory for the claimed car",
            "it was made later, or for another car",
        ),
        (-0.62, -1.4, 0.2),
        rests_on_bearer_odds=True,
    ),
    conclusion(
        Question.PAPER,
        "build_card",
        (
            "this card was written at the factory for the claimed car",
            "it was written later, or for another car",
        ),
        (4.0, 2.4, 4.0),
    ),
    conclusion(
        Question.CONFIGURATION,
        "car",
        ("this car was built as a Solent Sprint", "it was built as another model"),
        (0.94, 0.2, 1.5),
        rests_on_bearer_odds=True,
    ),
    conclusion(
        Question.ASSEMBLY,
        "body",
        ("this body was fitted to the claimed car at the factory", "it was not"),
        (0.08, -0.3, 0.4),
        standing=Standing.CANNOT_BE_ESTABLISHED,
        next_looks=(),
        best_set=BestSet(60, 0, 0.0, ()),
    ),
    conclusion(
        Question.ASSEMBLY,
        "engine",
        ("this engine was fitted to the claimed car at the factory", "it was not"),
        (-2.2, -3.1, -0.9),
        replaced=LikelihoodRatio(-2.3, -3.2, -1.0),
        struck_later=LikelihoodRatio(0.7, -0.2, 1.4),
    ),
)
CONCLUSIONS = (
    *CONCLUSIONS[:2],
    replace(CONCLUSIONS[2], lr=replace(CONCLUSIONS[2].lr, is_capped=True)),
    *CONCLUSIONS[3:],
)

WEIGHING = Weighing(
    CONCLUSIONS,
    EVIDENCE,
    (
        MarkState(
            "frame_number",
            (StateShare("own", 0.95), StateShare("made", 0.04), StateShare("donor", 0.01)),
            (StateShare("since the factory", 0.97), StateShare("brought from elsewhere", 0.03)),
        ),
    ),
    (
        MarkGroup("claimed car", ("plate_brass", "frame_number")),
        MarkGroup("donor of the body", ("wing_body_number", "seat_body_number")),
        MarkGroup("a third car", ("engine_number",)),
    ),
    9.0,
    False,
    ("The row for gearbox code G stands in the book from memory and was not weighed.",),
)


def casefile() -> Casefile:
    """The case document behind the Opinion."""
    entries = tuple(
        ExhibitEntry(
            id=key,
            file=f"{sha256(photo).hexdigest()}.jpg",
            sha256=sha256(photo).hexdigest(),
            caption=caption,
            taken_by="I. Larkin",
            taken_at=WHEN,
        )
        for (key, photo), caption in zip(
            EXHIBITS.items(),
            ("Brass chassis plate, straight on", "Frame stamping, raking light", "Seat pan"),
            strict=True,
        )
    )
    return Casefile(
        id="tarvane-105512",
        title="Tarvane Solent Sprint, chassis 105512",
        book="tarvane-1952-1961",
        opened=date(2026, 5, 2),
        claim=Claim(
            made_by="the seller, M. Orrin",
            text="A Sprint of 1955 with its first body and engine, known from new.",
            items={"chassis_number": "105512", "model": "solent-sprint", "model_year": "1955"},
            built="1955-11",
            statements=(Statement(about="engine", says="first engine", origin=OriginSaid.FIRST),),
        ),
        assignment=Assignment(
            client="P. Wendell",
            purpose="To inform a purchase",
            intended_users="The client and the client's lawyer",
            scope="All marks that the code book names, reached without dismantling.",
            examiners=(
                Examiner(
                    id="il",
                    name="I. Larkin",
                    qualifications="Restorer, twenty years with the make",
                    declared_interest="None; the fee does not depend on the outcome",
                ),
            ),
            owner_consent="Given in writing on 10 May 2026, for reading and photographs only.",
            owner_reply="The engine was rebuilt in 1988; I have no papers for it.",
            minutes_available=60,
        ),
        visit=Visit(
            date=date(2026, 5, 12),
            place="The seller's workshop",
            present="I. Larkin, M. Orrin",
            light="Daylight through a roof window, one lamp",
            access="Two-post lift",
            moved="Carpet over the seat pan",
        ),
        stakes=Stakes(price_asked=185000, currency="EUR"),
        sites=(SiteSeen(site="scuttle", state=SiteState.READ, exhibits=("p1",)),),
        readings=(
            MarkReading(
                mark="plate_brass",
                text="sp|105512|20713|14||4",
                exhibits=("p1",),
                by="I. Larkin",
                when=WHEN,
            ),
            MarkReading(
                mark="frame_number",
                text="1055?2",
                exhibits=("p2",),
                by="I. Larkin",
                when=WHEN,
                note="The fifth place lies under a scratch.",
            ),
        ),
        looks=(
            LookSeen(site="frame_rail", outcome="factory", by="I. Larkin", exhibits=("p2",)),
            LookSeen(
                site="engine_deck",
                feature="machining",
                outcome="disturbed",
                by="I. Larkin",
                note="The deck shows fresh cross lines.",
            ),
        ),
        papers=(
            Paper(
                mark="build_card",
                state=PaperState.COPY,
                copied_from="despatch_ledger",
                note="A photocopy without its back.",
            ),
            Paper(mark="despatch_ledger", state=PaperState.AWAITED),
        ),
        title_paper=Title(number="105512", issued_by="Registration office, Kelm"),
        exhibits=entries,
        circumstances=Circumstances(
            prior_odds=(
                StatedPrior(
                    question="identity",
                    odds=3.0,
                    reason="The car has been in one club's register since 1961.",
                ),
            ),
            notes="The register entry itself was not seen.",
        ),
    )


def opinion() -> Opinion:
    """The whole Opinion."""
    return Opinion(
        casefile(),
        BookVersion("tarvane-1952-1961", "Tarvane, 1952 to 1961", "2026-11-25", "ab" * 32),
        CarContext(1955, "solent-sprint", frozenset({"tarvane", "ellery"})),
        (
            SiteOutcome(
                "scuttle",
                "scuttle",
                "Left of the scuttle, below the bonnet hinge",
                SiteState.READ,
                "",
                ("plate_brass",),
                True,
            ),
            SiteOutcome(
                "frame_rail",
                "frame rail",
                "Right-hand rail, beside the engine mount",
                SiteState.READ,
                "",
                ("frame_number",),
                True,
            ),
            SiteOutcome(
                "bulkhead",
                "bulkhead",
                "Behind the heater box",
                SiteState.NOT_ACCESSIBLE,
                "The heater box was not removed",
                ("bulkhead_body_number",),
                True,
            ),
            SiteOutcome(
                "axle_case",
                "axle case",
                "Left of the filler plug",
                SiteState.NOT_LOOKED_FOR,
                "",
                ("axle_stamp",),
                False,
            ),
            SiteOutcome(
                "boot_floor",
                "boot floor",
                "Under the mat",
                SiteState.ABSENT,
                "Bare metal, no characters",
                (),
                True,
            ),
        ),
        DECODINGS,
        FINDINGS,
        WEIGHING,
        (
            Disclosed(
                "engine", "First engine", "The engine number differs from the plate.", "differs"
            ),
            Disclosed("body", "First body", "Nothing on hand ties the body to the frame.", "open"),
            Disclosed("car", "A Sprint of 1955", "The type code is that of a Sprint.", "agrees"),
        ),
        (Limitation("Nobody has yet seen the despatch ledger."),),
        (),
        tuple(Named(*each) for each in NAMES),
    )
