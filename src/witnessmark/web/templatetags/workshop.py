"""Filters and tags that every page has: numbers as they stand, blocks of an outline, moments."""

from datetime import datetime

from django import template
from django.utils.safestring import SafeString

from witnessmark.outline.records import Block
from witnessmark.web.shared.blocks import drawn
from witnessmark.wording import moment_text

register = template.Library()


@register.filter
def blocks(found: tuple[Block, ...]) -> SafeString:
    """The blocks of an outline as HTML."""
    return drawn(found)


@register.filter
def moment(when: datetime | None) -> str:
    """A moment in words, in the time of whoever noted it."""
    return moment_text(when) if when else ""


@register.filter
def of(mapping: dict[str, object], key: object) -> object:
    """What stands under this key, or nothing."""
    return mapping.get(str(key), "")
