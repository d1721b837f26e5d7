"""What a case calls its fields and questions, and how the metal looked, as a page says it."""

from witnessmark.casefile.records import LookClass
from witnessmark.catalogue import as_said, marked, said
from witnessmark.weighing import Asked
from witnessmark.wording.names import Names, plain_name
from witnessmark.wording.terms import term

FIELD_WORDS = {
    "about": marked("about"),
    "access": marked("how the car stood"),
    "address": marked("address"),
    "amount": marked("amount"),
    "answers_for": marked("answers for"),
    "again": marked("read again"),
    "asked_in_vain": marked("asked in vain"),
    "assignment": marked("assignment"),
    "assistance": marked("who helped"),
    "attachment": marked("attachment"),
    "beside": marked("code books beside it"),
    "book": marked("code book"),
    "built": marked("when it was built"),
    "by": marked("by"),
    "caption": marked("caption"),
    "circumstances": marked("what is taken as known"),
    "claim": marked("claim"),
    "claim_known": marked("claimed number known to the reader"),
    "client": marked("client"),
    "compensation": marked("how the fee is worked out"),
    "copied_from": marked("copied from"),
    "currency": marked("currency"),
    "custody": marked("what was lent"),
    "date": marked("date"),
    "declared_interest": marked("declared interest"),
    "earlier_dealings": marked("earlier dealings"),
    "examiners": marked("examiners"),
    "exhibits": marked("exhibits"),
    "feature": marked("feature"),
    "fee_depends": marked("fee depends on what is concluded"),
    "file": marked("file"),
    "firm": marked("firm"),
    "format": marked("format"),
    "format_version": marked("version of the format"),
    "height": marked("height"),
    "id": marked("short name"),
    "intended_users": marked("intended users"),
    "issue": marked("issue"),
    "issued_by": marked("issued by"),
    "items": marked("items claimed"),
    "kind": marked("kind"),
    "left": marked("from the left"),
    "legibility": marked("legibility"),
    "lent_by": marked("lent by"),
    "light": marked("light"),
    "looks": marked("looks"),
    "made_by": marked("made by"),
    "mark": marked("mark"),
    "minutes_available": marked("minutes available"),
    "moved": marked("what was moved"),
    "name": marked("name"),
    "note": marked("note"),
    "notes": marked("notes"),
    "number": marked("number"),
    "number_regions": marked("where it shows numbers, in pixels"),
    "odds": marked("odds"),
    "opened": marked("day on which the case was opened"),
    "orientation": marked("orientation"),
    "origin": marked("said to be"),
    "outcome": marked("outcome"),
    "overrides": marked("other values for assumed rates"),
    "owner_consent": marked("the owner’s consent"),
    "owner_reply": marked("the owner’s reply"),
    "paper": marked("paper that says so"),
    "papers": marked("papers"),
    "place": marked("place"),
    "present": marked("who was present"),
    "price_asked": marked("price asked"),
    "prior_odds": marked("prior odds"),
    "purpose": marked("purpose"),
    "qualifications": marked("qualifications"),
    "question": marked("question"),
    "readings": marked("readings"),
    "reason": marked("reason"),
    "received": marked("received"),
    "report": marked("report"),
    "returned": marked("returned"),
    "row": marked("rate"),
    "says": marked("says"),
    "scope": marked("scope"),
    "seen": marked("seen"),
    "sha256": marked("SHA-256"),
    "shows_whole_car": marked("shows the whole car"),
    "site": marked("site"),
    "sites": marked("sites"),
    "source": marked("where it stands"),
    "stakes": marked("what hangs on the answer"),
    "state": marked("state"),
    "statements": marked("statements"),
    "sums": marked("sums named"),
    "taken_at": marked("taken at"),
    "taken_by": marked("taken by"),
    "telephone": marked("telephone"),
    "text": marked("text"),
    "title": marked("title"),
    "title_paper": marked("the title paper"),
    "top": marked("from the top"),
    "value": marked("value"),
    "visit": marked("visit"),
    "vouched": marked("rows vouched for"),
    "what": marked("what"),
    "when": marked("when"),
    "who": marked("who"),
    "width": marked("width"),
    "with_what": marked("with what"),
    "work": marked("said to have been"),
    "work_by": marked("done"),
}
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
