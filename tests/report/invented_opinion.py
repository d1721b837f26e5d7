"""A full Opinion about an invented car, with one of everything a report must show.

The numbers are made up and hang together only as far as a report needs.
"""

import io
import re
from datetime import UTC, date, datetime
from hashlib import sha256

from PIL import Image, ImageDraw

from witnessmark.agreement import Finding, FindingKind, Outcome, Subject
from witnessmark.agreement.records import AgreementRule
from witnessmark.casefile import (
    Assignment,
    Assistance,
    Casefile,
    Circumstances,
    Claim,
    CustodyEntry,
    Examiner,
    ExhibitEntry,
    Legibility,
    LookSeen,
    MarkReading,
    OriginSaid,
    Paper,
    PaperState,
    ReportIssue,
    Seen,
    SiteSeen,
    SiteState,
    Stakes,
    StatedPrior,
    Statement,
    Sum,
    SumKind,
    Title,
    Visit,
)
from witnessmark.catalogue import in_a_row
from witnessmark.codebook import Basis, CarContext
from witnessmark.decoding import Alternative, Decoding, FieldCells, FieldMeaning
from witnessmark.examination import (
    BookVersion,
    Disclosed,
    Limitation,
    Named,
    Opinion,
    SiteOutcome,
)
from witnessmark.examination.looks import LookKind, LookLeft
from witnessmark.examination.records import NamedKind
from witnessmark.reading import Cell, CellKind, Change, Reading
from witnessmark.reading.as_read import AsRead
from witnessmark.weighing import (
    Answer,
    Asked,
    Conclusion,
    Contribution,
    CurvePoint,
    LeadingRow,
    Misfit,
    MisfitKind,
    NextLook,
    Pair,
    Steadiness,
    Steady,
    Way,
)
from witnessmark.weighing.records import LookOutcome

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
    ("assembly", "axle", "axle"),
    ("piece", "engine", "engine block"),
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
            field=field,
            code=code,
            says=says,
            value=code,
            meaning=AsRead(meaning, item=says) if meaning == code else meaning,
            basis=Basis.INVENTED,
            source=DEMO,
            listed=meaning != "not listed",
        )
        for field, says, code, meaning in fields
    )
    spread = tuple(
        FieldCells(field=field, says=says, part="all", cells=cells(code), is_empty=code == "")
        for field, says, code, _ in fields
    )
    normalised = typed.upper()
    changes = () if normalised == typed else (Change(1, typed, normalised, "written in capitals"),)
    reading = Reading(
        mark=mark,
        as_typed=typed,
        normalised=normalised,
        cells=cells(normalised),
        legibility=more.get("legibility", Legibility.CLEAR),  # type: ignore[arg-type]
        seen=more.get("seen", Seen.IN_PERSON),  # type: ignore[arg-type]
        by="I. Larkin",
        changes=changes,
    )
    return Decoding(
        book="tarvane-1952-1961",
        mark=mark,
        reading=reading,
        alternatives=(Alternative(0.97, meanings), Alternative(0.02, meanings)),
        not_listed_share=0.01,
        unread="",
        missing=(),
        deciding_column=3,
        field_cells=spread,
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


SAME_ITEM = AgreementRule("same_item", "same item", FindingKind.ITEM, 10)


def finding(
    outcome: Outcome, topic: str, marks: tuple[tuple[str, str], ...], seen: str, inferred: str
) -> Finding:
    """One finding; `marks` are (mark, value shown)."""
    subjects = tuple(
        Subject(mark, "number", AsRead(shown, mark=mark, item=topic)) for mark, shown in marks
    )
    parts = re.split(r"(\d[\d?]{3,})", seen)
    told = in_a_row(
        (AsRead(each, item=topic) if each[:1].isdigit() else each for each in parts), ""
    )
    return Finding(
        rule=SAME_ITEM.id,
        by=SAME_ITEM,
        topic=topic,
        outcome=outcome,
        subjects=subjects,
        observation=told,
        inference=inferred,
        basis=Basis.INVENTED,
        source=DEMO,
    )


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


LOOKS = (
    LookLeft(
        kind=LookKind.AGAIN,
        target="engine_number",
        prompt="Read the engine number again, by another examiner and in raking light",
        pieces=("engine",),
        is_reachable=True,
        site="engine_deck",
        minutes=10,
    ),
    LookLeft(
        kind=LookKind.READING,
        target="bulkhead_body_number",
        prompt="Read the body number on the bulkhead",
        pieces=("body",),
        is_reachable=True,
        site="bulkhead",
        minutes=25,
        dismantling="heater box",
        caution="The heater flap may hold asbestos.",
    ),
    LookLeft(
        kind=LookKind.PLACE,
        target="frame_rail",
        prompt="Look at the stroke ends of the frame stamping",
        pieces=("frame",),
        is_reachable=True,
        site="frame_rail",
        minutes=5,
        access_group="lift",
        access_minutes=15,
        dismantling="none",
    ),
    LookLeft(
        kind=LookKind.PAPER,
        target="despatch_ledger",
        prompt="Obtain and read the despatch ledger entry",
        pieces=("despatch_ledger",),
        is_reachable=False,
    ),
    LookLeft(
        kind=LookKind.SOURCE,
        target="ledger-at-archive",
        prompt="The entry in the maker's despatch ledger: ask the archive",
        pieces=("body",),
        is_reachable=False,
        minutes=60,
    ),
)

CONTRIBUTIONS = (
    Contribution("frame_number", "number", "The number of the frame stamping.", 0.84),
    Contribution("frame_rail", "look", "How the metal looks at the frame rail.", 0.31),
    Contribution("plate_brass", "code", "The model on the brass chassis plate.", 0.1),
    Contribution("scuttle", "look", "How the metal looks at the scuttle.", -0.42),
)

CURVE = tuple(CurvePoint(v, 1.5 - v) for v in (0.001, 0.003, 0.01, 0.03, 0.1, 0.3, 0.7))
LEADING = (LeadingRow("skilled", -0.6, CURVE, 9.0), LeadingRow("core.service", 0.3))
DRAWS = 512


def conclusion(question: Asked, about: str, pair: tuple[str, str], log10_lr: float) -> Conclusion:
    """A conclusion with what drives it."""
    return Conclusion(
        question=question,
        about=about,
        pair=Pair(*pair),
        log10_lr=log10_lr,
        is_examined=True,
        ways=(),
        contributions=CONTRIBUTIONS,
    )


CONCLUSIONS = (
    conclusion(
        Asked.IDENTITY,
        "frame",
        ("this frame left the factory as the claimed car", "it did not"),
        1.33,
    ),
    Conclusion(
        question=Asked.CORE,
        about="engine",
        pair=Pair("this engine was fitted to the claimed car at the factory", "it was not"),
        log10_lr=-2.2,
        is_examined=True,
        ways=(Way("service, struck openly", -2.3, 0.7), Way("suited, struck to pass", 0.7, 0.3)),
        contributions=CONTRIBUTIONS,
    ),
    conclusion(
        Asked.CORE,
        "body",
        ("this body was fitted to the claimed car at the factory", "it was not"),
        0.08,
    ),
    conclusion(
        Asked.PLATE,
        "plate_brass",
        (
            "this plate was made at the factory for the claimed car",
            "it was made later, or for another car",
        ),
        -0.62,
    ),
    conclusion(
        Asked.PAPER,
        "build_card",
        (
            "this card was written at the factory for the claimed car",
            "it was written later, or for another car",
        ),
        5.2,
    ),
    conclusion(
        Asked.ITEM,
        "model",
        ("this car was built as a Solent Sprint", "it was built as another model"),
        0.94,
    ),
    Conclusion(
        question=Asked.ITEM,
        about="paint",
        pair=Pair("this car was built in the claimed paint", "it was built in another"),
        log10_lr=0.0,
        is_examined=False,
        can_be_told=False,
    ),
    Conclusion(
        question=Asked.CORE,
        about="axle",
        pair=Pair("this axle was fitted to the claimed car at the factory", "it was not"),
        log10_lr=0.0,
        is_examined=False,
    ),
)  # fmt: skip

BANDS = (
    (0.61, 2.12, 2),
    (-3.1, -0.9, 0),
    (-0.3, 0.4, 190),
    (-1.4, 0.2, 61),
    (2.4, 6.0, 0),
    (0.2, 1.5, 11),
)
STEADINESS = Steadiness(
    DRAWS,
    tuple(
        Steady(
            question=each.question,
            about=each.about,
            log10_lr=each.log10_lr,
            log10_lr_low=low,
            log10_lr_high=high,
            turned=turned,
            leading=LEADING,
        )
        for each, (low, high, turned) in zip(CONCLUSIONS, BANDS, strict=False)
    ),
)

ANSWER = Answer(
    (
        Misfit(
            MisfitKind.IMPOSSIBLE,
            ("engine", "engine_casting"),
            "The casting date of the block is later than the day on which the car was complete.",
            Basis.INVENTED,
            DEMO,
        ),
        Misfit(
            MisfitKind.AGAINST,
            ("engine", "engine_number"),
            "The engine number names another number than claimed.",
            Basis.INVENTED,
            DEMO,
        ),
    ),
    (),
    CONCLUSIONS,
    (
        NextLook(
            "engine_number",
            "read again",
            Asked.CORE,
            "engine",
            (LookOutcome("the reading stands", -3.1),),
        ),
    ),
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
                    firm="Larkin & Daughter",
                    address="3 Quay Street, Ostrey",
                    telephone="0110 555 017",
                    declared_interest="None; the fee does not depend on the outcome",
                    compensation="By the hour, agreed before the visit",
                    fee_depends=False,
                    answers_for="all readings and all conclusions",
                    earlier_dealings="Serviced the gearbox in 2019",
                ),
            ),
            assistance=(Assistance(who="B. Stone", with_what="lifted out the seat"),),
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
        report=ReportIssue(number="26-031", issue=1, date=date(2026, 5, 20)),
        custody=(CustodyEntry(what="brass plate", lent_by="M. Orrin", received=date(2026, 5, 12)),),
        stakes=Stakes(price_asked=185000, currency="EUR"),
        sums=(
            Sum(
                kind=SumKind.ASKED,
                amount=185000,
                currency="EUR",
                date="2026-04",
                source="his advertisement",
                by="M. Orrin",
            ),
            Sum(kind=SumKind.PAID, amount=4321, currency="EUR", date="1971"),
        ),
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
        casefile=casefile(),
        book=BookVersion("tarvane-1952-1961", "Tarvane, 1952 to 1961", "2026-11-25", "ab" * 32),
        context=CarContext(1955, "solent-sprint", frozenset({"tarvane", "ellery"})),
        sites=(
            SiteOutcome(
                site="scuttle",
                name="scuttle",
                where="Left of the scuttle, below the bonnet hinge",
                state=SiteState.READ,
                reason="",
                marks=("plate_brass",),
                is_noted=True,
            ),
            SiteOutcome(
                site="frame_rail",
                name="frame rail",
                where="Right-hand rail, beside the engine mount",
                state=SiteState.READ,
                reason="",
                marks=("frame_number",),
                is_noted=True,
            ),
            SiteOutcome(
                site="bulkhead",
                name="bulkhead",
                where="Behind the heater box",
                state=SiteState.NOT_ACCESSIBLE,
                reason="The heater box was not removed",
                marks=("bulkhead_body_number",),
                is_noted=True,
            ),
            SiteOutcome(
                site="axle_case",
                name="axle case",
                where="Left of the filler plug",
                state=SiteState.NOT_LOOKED_FOR,
                reason="",
                marks=("axle_stamp",),
                is_noted=False,
            ),
            SiteOutcome(
                site="boot_floor",
                name="boot floor",
                where="Under the mat",
                state=SiteState.ABSENT,
                reason="Bare metal, no characters",
                marks=(),
                is_noted=True,
            ),
        ),
        decodings=DECODINGS,
        findings=FINDINGS,
        answer=ANSWER,
        steadiness=STEADINESS,
        disturbed=("engine_deck",),
        looks=LOOKS,
        disclosure=(
            Disclosed(
                "engine", "First engine", "The engine number differs from the plate.", "differs"
            ),
            Disclosed("body", "First body", "Nothing on hand ties the body to the frame.", "open"),
            Disclosed("car", "A Sprint of 1955", "The type code is that of a Sprint.", "agrees"),
        ),
        limitations=(Limitation("Nobody has yet seen the despatch ledger."),),
        problems=(),
        names=tuple(Named(NamedKind(kind), each, name) for kind, each, name in NAMES),
    )
