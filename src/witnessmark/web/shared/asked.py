"""What a form or an address asks for, taken for no more than it can be."""

from typing import Final

from django.http import HttpRequest
from django.utils.http import url_has_allowed_host_and_scheme

MOST_FIGURES: Final = 9
"""Of a number: no page, revision or year has more, and Python reads none of some thousands."""


def whole_number(text: str) -> int | None:
    """The number that a text is; None where it is none, or longer than any that is asked for.

    >>> whole_number("12"), whole_number("-1"), whole_number("9" * 5000)
    (12, None, None)
    """
    is_number = text.isascii() and text.isdecimal() and len(text) <= MOST_FIGURES
    return int(text) if is_number else None


def address_here(request: HttpRequest, asked: str) -> str:
    """An address of this workshop, from its root; empty for any other."""
    here = {request.get_host()}
    is_here = url_has_allowed_host_and_scheme(asked, here, require_https=request.is_secure())
    return asked if is_here and asked.startswith("/") else ""
