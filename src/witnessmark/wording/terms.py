"""The fixed words of cases, books and Opinions, as they stand on a page.

In files these words are the same in every language; on a page they are said.
"""

from enum import StrEnum

from witnessmark.catalogue import as_said, marked

TERMS = (
    # how an expected site ended
    marked("read"),
    marked("found and illegible"),
    marked("absent"),
    marked("not accessible"),
    marked("not looked for"),
    # how somebody came to see it
    marked("in person"),
    marked("photograph"),
    marked("copy"),
    marked("told"),
    # whether the part that bears a mark is there
    marked("in place"),
    marked("present but detached"),
    marked("the car has no such part"),
    # how well characters can be read, and which way up they stand
    marked("clear"),
    marked("worn"),
    marked("poor"),
    marked("upright"),
    marked("upside down"),
    marked("sideways"),
    marked("unsure"),
    # how the metal looks
    marked("factory"),
    marked("doubtful"),
    marked("disturbed"),
    # where a paper is
    marked("in hand"),
    marked("asked for and awaited"),
    marked("refused"),
    marked("lost"),
    marked("not asked for"),
    # what a paper is that the book does not list
    marked("archive letter"),
    marked("repair order"),
    marked("shipping record"),
    marked("dated photograph"),
    marked("affidavit"),
    marked("earlier report"),
    marked("other paper"),
    # where a question stands
    marked("answered"),
    marked("not examined"),
    marked("cannot be established"),
    # what stands behind a row
    marked("published"),
    marked("common practice"),
    marked("memory"),
    marked("invented"),
    marked("assumed"),
    # how a comparison came out
    marked("agree"),
    marked("differ"),
    marked("undecided"),
    marked("silent"),
    # where a part is said to have come from, and what is said to have been done to it
    marked("first"),
    marked("another car's"),
    marked("supplied new"),
    marked("replaced"),
    marked("made later"),
    marked("skimmed"),
    marked("struck openly"),
    marked("removed"),
    marked("repaired"),
    marked("repainted"),
    marked("refitted"),
    # what kind of sum was named
    marked("asking price"),
    marked("offer"),
    marked("paid"),
    marked("hammer price"),
    marked("insured value"),
    marked("estimate"),
    marked("cost of work"),
    # how a statement stands against what was found
    marked("as declared"),
    marked("agrees"),
    marked("differs"),
    marked("open"),
    marked("not said"),
)


def term(word: StrEnum | str) -> str:
    """A fixed word in the language of the page.

    >>> term("not looked for")
    'not looked for'
    """
    return as_said(str(word))
