"""The declared format of the CSV tables: every file, its columns and what they hold."""

from witnessmark.codebook.format_toml import APPLIES, CITATION
from witnessmark.documents.shapes import (
    CANONICAL,
    CANONICAL_NAME,
    Key,
    Kind,
    Shape,
    identifier,
    number,
    partial_date,
    text,
    word,
    year,
)

MOST_DAYS = 36525
MOST_MINUTES = 100_000
POSTURES = ("standing", "over the wing", "kneeling", "lying", "seated", "at a bench")
"""How one must be to see a site: a field sheet takes all of one posture together."""
WHOSE = tuple(key for key in APPLIES if key.name in ("works", "models"))
YEARS = (
    year("first_year", "First model year for which it holds."),
    year("last_year", "Last model year for which it holds."),
)

TABLES = {
    "works": Shape(
        "works.csv",
        "Factories and coachbuilders.",
        (
            identifier("id", "Its id.", required=True),
            text("name", "Its name.", required=True),
            word("role", "The item that names it.", ("works", "body_works"), "works"),
            *YEARS,
            *CITATION,
        ),
    ),
    "body_families": Shape(
        "body_families.csv",
        "Kinds of body that share their sites and marks.",
        (
            identifier("id", "Its id.", required=True),
            text("name", "Its name.", required=True),
            *CITATION,
        ),
    ),
    "models": Shape(
        "models.csv",
        "Models, the body family each wears and the works that built it.",
        (
            identifier("id", "Its id.", required=True),
            text("name", "Its name.", required=True),
            identifier("body_family", "The id of its body family.", required=True),
            Key("works", Kind.TEXTS, "The works that built it."),
            *YEARS,
            *CITATION,
        ),
    ),
    "codes": Shape(
        "codes.csv",
        "Codes and what they mean.",
        (
            identifier("table", "The code table it belongs to.", required=True),
            text("code", "The code as written.", required=True),
            Key(
                "value",
                Kind.TEXT,
                "Its canonical value.",
                required=True,
                pattern=CANONICAL,
                pattern_name=CANONICAL_NAME,
            ),
            text("meaning", "Its meaning in words.", required=True),
            Key(
                "disputed",
                Kind.TEXT,
                "yes where sources disagree about the code and a row stands for each.",
                words=("yes",),
                default="",
            ),
            *APPLIES,
            *CITATION,
        ),
    ),
    "series": Shape(
        "series.csv",
        "Ranges of numbers that the maker used.",
        (
            identifier("item", "The item that is numbered.", required=True),
            text("first", "The first number, as written.", required=True),
            text("last", "The last number, as written.", required=True),
            text("meaning", "What the range was used for.", required=True),
            word(
                "supplied",
                "new: with the car; later: in place of another; beyond: past those known.",
                ("new", "later", "beyond"),
                "new",
            ),
            *APPLIES,
            *CITATION,
        ),
    ),
    "rules": Shape(
        "rules.csv",
        "Combinations that were made or never made.",
        (
            identifier("id", "Its id.", required=True),
            text("sentence", "The rule in words.", required=True),
            word("kind", "allowed: the first asks for the second.", ("allowed", "forbidden"), ""),
            identifier("if_item", "The first item.", required=True),
            Key("if_values", Kind.TEXTS, "Its values.", required=True),
            text("also", "Further items with their values, where more must hold first."),
            identifier("then_item", "The second item.", required=True),
            Key("then_values", Kind.TEXTS, "Its values.", required=True),
            word("strength", "firm, or usual.", ("firm", "usual"), "usual"),
            *APPLIES,
            *CITATION,
        ),
    ),
    "lags": Shape(
        "lags.csv",
        "Days by which one date comes before another.",
        (
            identifier("id", "Its id.", required=True),
            identifier("earlier", "The item of the earlier date.", required=True),
            identifier("later", "The item of the later date.", required=True),
            number("least_days", "Least days between; below 0: after.", -MOST_DAYS, MOST_DAYS),
            number("usual_days", "Usual days between.", -MOST_DAYS, MOST_DAYS),
            number("most_days", "Most days between.", -MOST_DAYS, MOST_DAYS),
            *APPLIES,
            *CITATION,
        ),
    ),
    "sites": Shape(
        "sites.csv",
        "Where on the car marks stand, and how to get there.",
        (
            identifier("id", "Its id.", required=True),
            text("name", "Its name.", required=True),
            text("where", "Where it is.", required=True),
            text("look_at", "What to look at."),
            text("dismantling", "What must come off.", default="none"),
            number("minutes", "Minutes on the site.", 0, MOST_MINUTES),
            text("access_group", "What it shares with other sites, such as one lifting."),
            number("access_minutes", "Minutes for that.", 0, MOST_MINUTES, default=0),
            text("caution", "What to beware of."),
            Key("posture", Kind.TEXT, "How one must be to see it.", words=POSTURES),
            Key(
                "along",
                Kind.NUMBER,
                "Per cent of the length from the front.",
                least=0,
                most=100,
            ),
            Key(
                "across",
                Kind.NUMBER,
                "Per cent of the width from the left.",
                least=0,
                most=100,
            ),
            Key("up", Kind.NUMBER, "Per cent of the height.", least=0, most=100),
            *APPLIES,
            *CITATION,
        ),
    ),
    "features": Shape(
        "features.csv",
        "Things to look at on a site.",
        (
            identifier("id", "Its id.", required=True),
            identifier("site", "The site.", required=True),
            text("prompt", "What to look at, in words.", required=True),
            text("outcomes", "Outcomes, each with the look it counts as.", required=True),
            text("sketches", "Outcomes, each with the sketch that shows it: all, or none."),
            *APPLIES,
            *CITATION,
        ),
    ),
    "exceptions": Shape(
        "exceptions.csv",
        "Named exceptions, which take weight away.",
        (
            identifier("id", "Its id.", required=True),
            identifier("item", "The item.", required=True),
            text("first", "The first number, code or date.", required=True),
            text("last", "The last one.", required=True),
            text("meaning", "What it is.", required=True),
            *APPLIES,
            *CITATION,
        ),
    ),
    "settlements": Shape(
        "settlements.csv",
        "Archives, laboratories and papers beyond the car.",
        (
            identifier("id", "Its id.", required=True),
            text("name", "Its name.", required=True),
            identifier("speaks_of", "The mark that it could read.", required=True),
            text("how", "How to ask, in words.", required=True),
            number("minutes", "Minutes that it takes.", 0, MOST_MINUTES),
            *APPLIES,
            *CITATION,
        ),
    ),
    "runs": Shape(
        "runs.csv",
        "When the cars of a model year were built.",
        (
            identifier("id", "Its id.", required=True),
            year("model_year", "The model year.", required=True),
            Key("first_day", Kind.DAY, "The first day.", required=True),
            Key("last_day", Kind.DAY, "The last day.", required=True),
            text("meaning", "What the run is.", required=True),
            *WHOSE,
            *CITATION,
        ),
    ),
    "remarks": Shape(
        "remarks.csv",
        "What is known and is no code.",
        (
            identifier("id", "Its id.", required=True),
            identifier("about", "A mark, item, assembly, site, or book.", required=True),
            text("sentence", "What is known, in words.", required=True),
            *APPLIES,
            *CITATION,
        ),
    ),
    "points": Shape(
        "points.csv",
        "Known cars, or ranges of numbers, tied to a date.",
        (
            identifier("id", "Its id.", required=True),
            identifier("item", "The item that is numbered.", required=True),
            text("first", "The first number, as written."),
            text("last", "The last number, as written."),
            text("dated", "What the date is: scheduled, built, sold.", required=True),
            partial_date("date_first", "The first date."),
            partial_date("date_last", "The last date."),
            text("date_code", "The date as the car bears it."),
            text("meaning", "What is known, in words.", required=True),
            *APPLIES,
            *CITATION,
        ),
    ),
}
"""The tables by the stem of their file; codes may also stand in codes-*.csv."""
