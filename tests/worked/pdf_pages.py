"""The text of a PDF page by page, in the order in which it was set."""

import io
from functools import lru_cache

from pypdf import PdfReader


@lru_cache(maxsize=8)
def page_texts(pdf: bytes) -> tuple[str, ...]:
    """What stands on each page, line below line. A long report takes seconds to read, so that
    tests of the same report share its pages."""
    return tuple(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)
