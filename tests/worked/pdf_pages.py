"""The text of a PDF page by page, in the order in which it was set."""

import io

from pypdf import PdfReader


def page_texts(pdf: bytes) -> list[str]:
    """What stands on each page, line below line."""
    return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]
