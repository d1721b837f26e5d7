"""The text of a PDF page by page, by a library that reads a long report in a moment."""

from pdf_oxide import PdfDocument


def page_texts(pdf: bytes) -> list[str]:
    """What stands on each page, line below line."""
    document = PdfDocument.from_bytes(pdf)
    return [document.extract_text(page) for page in range(document.page_count())]
