"""What a case calls its fields and questions, and how the metal looked, as a page says it."""

from witnessmark.agreement.look_class import PlaceLooked
from witnessmark.casefile.records import Casefile, LookClass, Vouched
from witnessmark.catalogue import as_said, counted, marked, said
from witnessmark.weighing import Asked
from witnessmark.wording.amounts import clause
from witnessmark.wording.names import Names, plain_name
from witnessmark.wording.terms import term
from witnessmark.wording.word_tables import word_table

FIELD_WORDS = word_table("field_words")
"""The fields of a case by their names in the document."""

QUESTION_WORDS = {
    Asked.IDENTITY.value: marked("identity"),
    Asked.CORE.value: marked("assembly"),
    Asked.STAMP.value: marked("what is struck on it"),
    Asked.PLATE.value: marked("plate"),
    Asked.PAPER.value: marked("paper"),
    Asked.ITEM.value: marked("configuration"),
}


def field_word(name: str) -> str:
    """A field of the case as a page names it; one that is unknown by its own name.

    >>> field_word("prior_odds"), field_word("engine_colour")
    ('prior odds', 'engine colour')
    """
    return as_said(FIELD_WORDS[name]) if name in FIELD_WORDS else plain_name(name)


def feature_word(feature: str) -> str:
    """What was looked at: a feature of the book, or the surface, which every place has.

    >>> feature_word("paint_edge")
    'paint edge'
    """
    return said("surface") if feature == "surface" else plain_name(feature)


def look_word(outcome: str) -> str:
    """How it looked: one of the three words of every case, or an outcome of the book.

    The outcomes of a book are words already; their hyphens belong to them.

    >>> look_word("disturbed"), look_word("three-cornered white")
    ('disturbed', 'three-cornered white')
    """
    return term(outcome) if outcome in tuple(LookClass) else outcome.replace("_", " ")


def looked_sentence(looked: PlaceLooked, place: str) -> str:
    """How the metal looks at a place, of as many features as were looked at and no more."""
    if looked.otherwise:
        return said(
            "The metal at the {place} looks on the whole as the factory left it, but not all of "
            "it: {features}.",
            place=place,
            features="; ".join(map(feature_word, looked.otherwise)),
        )
    if looked.is_whole:
        return said("The metal looks as the factory left it: {place}.", place=place)
    return counted(
        "{number} of {asked} features of the metal at the {place} was looked at, and looks as the "
        "factory left it.",
        "{number} of {asked} features of the metal at the {place} were looked at, and look as the "
        "factory left them.",
        len(looked.noted),
        asked=looked.asked,
        place=place,
    )


def question_words(question: str, names: Names) -> str:
    """A question as a case names it: by its kind, by what it is about, or by both.

    >>> question_words("identity", Names()), question_words("core rear_axle", Names())
    ('identity', 'assembly: rear axle')
    """
    kind, _, about = question.partition(" ")
    if kind not in QUESTION_WORDS:
        return names.any(question)
    if not about:
        return as_said(QUESTION_WORDS[kind])
    return said("{item}: {value}", item=as_said(QUESTION_WORDS[kind]), value=names.any(about))


def signer_name(by: str, case: Casefile) -> str:
    """Who signed an entry so: the name of the examiner with this id; an id stands only where no
    name is known."""
    named = (e.name.strip() for e in case.assignment.examiners if e.id == by)
    return next(filter(None, named), by)


def vouched_sentence(vouched: Vouched) -> str:
    """One row, who answers for it, and why.

    >>> vouched_sentence(Vouched(row="paint:17", by="IL", reason="Seen nine times."))
    'The row paint:17 of the code book is from memory and vouched for by IL: Seen nine times.'
    """
    return said(
        "The row {row} of the code book is from memory and vouched for by {name}: {reason}.",
        row=vouched.row,
        name=clause(vouched.by),
        reason=clause(vouched.reason),
    )
