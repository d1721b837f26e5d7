"""The fixed words of cases, books and Opinions, as they stand on a page.

In files these words are the same in every language; on a page they are said.
"""

from enum import StrEnum

from witnessmark.catalogue import as_said
from witnessmark.wording.word_tables import word_table

TERMS = tuple(word_table("terms"))


def term(word: StrEnum | str) -> str:
    """A fixed word in the language of the page.

    >>> term("not looked for")
    'not looked for'
    """
    return as_said(str(word))
