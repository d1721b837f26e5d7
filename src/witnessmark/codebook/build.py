"""Entries to records, one function a kind; whatever was faulty has been reported by now."""

from datetime import date

from witnessmark.codebook.build_parts import build_aliases, build_conditions
from witnessmark.codebook.ground import Ground
from witnessmark.codebook.marks import (
    Carried,
    DateForm,
    DatePart,
    DateToken,
    EmptyMeaning,
    Field,
    HowMade,
    Mark,
    MarkKind,
    Placeholder,
    WeekCount,
    YearIs,
)
from witnessmark.codebook.piece_records import Piece, PieceKind, ServiceNumbers, Stage
from witnessmark.codebook.records import (
    Applies,
    Assembly,
    AssemblyKind,
    BodyFamily,
    CodeRow,
    Item,
    ItemKind,
    KnownException,
    Lag,
    Model,
    Point,
    Remark,
    Rule,
    Run,
    Series,
    Settlement,
    Site,
    Works,
)
from witnessmark.documents.entries import Entry


def build_item(entry: Entry) -> Item:
    """A [[item]]."""
    return Item(
        id=entry.text("id"),
        name=entry.text("name"),
        kind=ItemKind(entry.text("kind")),
        home=entry.text("home"),
        alphabet=entry.text("alphabet"),
        length=entry.number("length"),
        numbers_follow=entry.text("numbers_follow"),
        identification=entry.yes("identification"),
    )


def build_assembly(entry: Entry, ground: Ground) -> Assembly:
    """An [[assembly]]."""
    return Assembly(
        id=entry.text("id"),
        name=entry.text("name"),
        kind=AssemblyKind(entry.text("kind")),
        identity_bearer=entry.yes("identity_bearer"),
        applies=ground.applies(entry),
        citation=ground.citation(entry),
    )


def build_piece(entry: Entry, ground: Ground) -> Piece:
    """A [[piece]]."""
    stage = entry.text("stage")
    return Piece(
        id=entry.text("id"),
        name=entry.text("name"),
        kind=PieceKind(entry.text("kind")),
        assembly=entry.text("assembly"),
        sold_in_service=entry.text("sold_in_service"),
        service_numbers=ServiceNumbers(entry.text("service_numbers")),
        stage=Stage(stage) if stage else None,
        applies=ground.applies(entry),
        citation=ground.citation(entry),
    )


def build_date_form(entry: Entry, ground: Ground) -> DateForm:
    """A [[date_form]]. A literal without a width is as wide as its text."""
    tokens = tuple(
        DateToken(
            part=DatePart(token.text("part")),
            width=token.number("width") or len(token.text("text")),
            table=token.text("table"),
            text=token.text("text"),
            least_width=token.number("least_width"),
            counted=WeekCount(token.text("counted")),
        )
        for token in entry.entries("tokens")
    )
    placeholders = tuple(
        Placeholder(each.text("code"), each.text("meaning"), ground.citation(each))
        for each in entry.entries("placeholders")
    )
    return DateForm(
        id=entry.text("id"),
        tokens=tokens,
        first_year=entry.number_or("first_year", ground.first_year),
        last_year=entry.number_or("last_year", ground.last_year),
        start=entry.day("start"),
        placeholders=placeholders,
        citation=ground.citation(entry),
        within_run=entry.text("within") == "run",
        year_is=YearIs(entry.text("year_is")),
        model_year_from_month=entry.number("model_year_from_month"),
    )


def build_field(entry: Entry, ground: Ground) -> Field:
    """A [[mark.field]]."""
    empty = entry.entries("empty")
    meaning = None
    if empty:
        value, words = empty[0].text("value"), empty[0].text("meaning")
        meaning = EmptyMeaning(value, words, ground.citation(empty[0]))
    return Field(
        id=entry.text("id"),
        name=entry.text("name"),
        says=entry.text("says"),
        widths=tuple(sorted(set(entry.numbers("widths")))),
        alphabet=entry.text("alphabet"),
        part=entry.text("part"),
        table=entry.text("table"),
        date_form=entry.text("date_form"),
        before=entry.text("before"),
        heading=entry.text("heading"),
        row=entry.number("row"),
        column=entry.number("column"),
        optional=entry.yes("optional"),
        empty=meaning,
        incomplete=entry.yes("incomplete"),
        tokens=ground.tokens.get(entry.text("date_form"), ()),
    )


def build_mark(entry: Entry, ground: Ground) -> Mark:
    """A [[mark]] with its fields; those of a mark with windows in reading order."""
    fields = [build_field(field, ground) for field in entry.entries("field")]
    if entry.yes("windows"):
        fields.sort(key=lambda field: (field.row, field.column))
    return Mark(
        id=entry.text("id"),
        name=entry.text("name"),
        local_name=entry.text("local_name"),
        kind=MarkKind(entry.text("kind")),
        assembly=entry.text("assembly"),
        site=entry.text("site"),
        how_made=HowMade(entry.text("how_made")),
        carried=Carried(entry.text("carried")),
        fixings=entry.text("fixings"),
        windows=entry.yes("windows"),
        always_struck=entry.yes("always_struck"),
        applies=ground.applies(entry),
        fields=tuple(fields),
        citation=ground.citation(entry),
        number_rules=entry.text("number_rules"),
        aliases=build_aliases(entry, ground),
        other_form_of=entry.text("other_form_of"),
        piece=entry.text("piece"),
        surface=entry.text("surface"),
    )


def build_works(entry: Entry, ground: Ground) -> Works:
    """A row of works.csv."""
    return Works(
        entry.text("id"),
        entry.text("name"),
        entry.text("role"),
        ground.applies(entry),
        ground.citation(entry),
    )


def build_body_family(entry: Entry, ground: Ground) -> BodyFamily:
    """A row of body_families.csv."""
    return BodyFamily(entry.text("id"), entry.text("name"), ground.citation(entry))


def build_model(entry: Entry, ground: Ground) -> Model:
    """A row of models.csv."""
    return Model(
        entry.text("id"),
        entry.text("name"),
        entry.text("body_family"),
        ground.applies(entry),
        ground.citation(entry),
    )


def build_code(entry: Entry, ground: Ground) -> CodeRow:
    """A row of codes.csv."""
    return CodeRow(
        entry.text("table"),
        entry.text("code"),
        entry.text("value"),
        entry.text("meaning"),
        ground.applies(entry),
        ground.citation(entry),
        entry.text("disputed") == "yes",
    )


def build_series(entry: Entry, ground: Ground) -> Series:
    """A row of series.csv."""
    return Series(
        entry.text("item"),
        entry.text("first"),
        entry.text("last"),
        ground.applies(entry),
        entry.text("meaning"),
        ground.citation(entry),
        entry.text("supplied") not in ("later", "beyond"),
        entry.text("supplied") == "beyond",
    )


def build_rule(entry: Entry, ground: Ground) -> Rule:
    """A row of rules.csv."""
    return Rule(
        id=entry.text("id"),
        sentence=entry.text("sentence"),
        kind=entry.text("kind"),
        if_item=entry.text("if_item"),
        if_values=frozenset(entry.texts("if_values")),
        then_item=entry.text("then_item"),
        then_values=frozenset(entry.texts("then_values")),
        strength=entry.text("strength"),
        applies=ground.applies(entry),
        citation=ground.citation(entry),
        also=build_conditions(entry),
    )


def build_lag(entry: Entry, ground: Ground) -> Lag:
    """A row of lags.csv."""
    return Lag(
        id=entry.text("id"),
        earlier=entry.text("earlier"),
        later=entry.text("later"),
        least_days=entry.number_or("least_days", 0),
        usual_days=entry.number_or("usual_days", 0),
        most_days=entry.number_or("most_days", 0),
        applies=ground.applies(entry),
        citation=ground.citation(entry),
    )


def build_site(entry: Entry, ground: Ground) -> Site:
    """A row of sites.csv."""
    return Site(
        id=entry.text("id"),
        name=entry.text("name"),
        where=entry.text("where"),
        look_at=entry.text("look_at"),
        dismantling=entry.text("dismantling"),
        minutes=entry.number_or("minutes", 0),
        access_group=entry.text("access_group"),
        access_minutes=entry.number("access_minutes"),
        caution=entry.text("caution"),
        applies=ground.applies(entry),
        citation=ground.citation(entry),
        posture=entry.text("posture"),
        along=entry.number_or("along", None),
        across=entry.number_or("across", None),
        up=entry.number_or("up", None),
    )


def build_exception(entry: Entry, ground: Ground) -> KnownException:
    """A row of exceptions.csv."""
    return KnownException(
        entry.text("id"),
        entry.text("item"),
        entry.text("first"),
        entry.text("last"),
        entry.text("meaning"),
        ground.applies(entry),
        ground.citation(entry),
    )


def build_settlement(entry: Entry, ground: Ground) -> Settlement:
    """A row of settlements.csv."""
    return Settlement(
        id=entry.text("id"),
        name=entry.text("name"),
        speaks_of=entry.text("speaks_of"),
        how=entry.text("how"),
        minutes=entry.number_or("minutes", 0),
        applies=ground.applies(entry),
        citation=ground.citation(entry),
    )


def build_run(entry: Entry, ground: Ground) -> Run:
    """A row of runs.csv; its model year is the one year for which it holds."""
    model_year = entry.number_or("model_year", ground.first_year)
    works, models = frozenset(entry.texts("works")), frozenset(entry.texts("models"))
    return Run(
        entry.text("id"),
        entry.day("first_day") or date(model_year, 1, 1),
        entry.day("last_day") or date(model_year, 12, 31),
        entry.text("meaning"),
        Applies(model_year, model_year, works, models),
        ground.citation(entry),
    )


def build_remark(entry: Entry, ground: Ground) -> Remark:
    """A row of remarks.csv."""
    return Remark(
        entry.text("id"),
        entry.text("about"),
        entry.text("sentence"),
        ground.applies(entry),
        ground.citation(entry),
    )


def build_point(entry: Entry, ground: Ground) -> Point:
    """A row of points.csv."""
    return Point(
        id=entry.text("id"),
        item=entry.text("item"),
        first=entry.text("first"),
        last=entry.text("last"),
        dated=entry.text("dated"),
        date_first=entry.text("date_first"),
        date_last=entry.text("date_last"),
        date_code=entry.text("date_code"),
        meaning=entry.text("meaning"),
        applies=ground.applies(entry),
        citation=ground.citation(entry),
    )
