"""The case's short name on a sheet that is passed on, and in the name of its file."""

import re
from typing import NewType

from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.plan import DOT
from witnessmark.report.mask.opinion import mask_of

SharedId = NewType("SharedId", str)
"""A case's short name that holds no serial, no person and no place."""


def shared_id(opinion: Opinion, book: CodeBook) -> SharedId:
    """The short name masked as in the masked copy, with a dot for each character hidden."""
    return SharedId(mask_of(opinion, book, DOT).id_text(opinion.casefile.id))


def file_stem(case_id: str) -> str:
    """A case's short name as part of a file's name: a file is shown about as well.

    >>> file_stem("sprint-\u00b7\u00b7\u00b7\u00b7\u00b7\u00b7")
    'sprint-xxxxxx'
    """
    return re.sub(r"[^A-Za-z0-9._-]", "x", case_id)
