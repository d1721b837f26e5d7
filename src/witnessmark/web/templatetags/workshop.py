"""Filters and tags that every page has: numbers as they stand, blocks of an outline, moments."""

from datetime import datetime

from django import template
from django.template.loader import render_to_string
from django.utils.safestring import SafeString

from witnessmark.outline.records import Block
from witnessmark.web.claim.shown import FieldShown
from witnessmark.web.shared.blocks import drawn
from witnessmark.weighing.kept_alike import Latest
from witnessmark.wording import moment_text

register = template.Library()

_FIELDS: Latest[SafeString] = Latest(2_000)


@register.filter
def blocks(found: tuple[Block, ...]) -> SafeString:
    """The blocks of an outline as HTML."""
    return drawn(found)


@register.simple_tag
def claim_field(field: FieldShown, may_write: bool) -> SafeString:
    """A field of the claim: one that says the same looks the same, so each is set once."""
    if field.wrong:
        return _field(field, may_write)
    return _FIELDS.ask((field, may_write), lambda: _field(field, may_write))


def _field(field: FieldShown, may_write: bool) -> SafeString:
    return render_to_string("claim/field.html", {"field": field, "may_write": may_write})


@register.filter
def moment(when: datetime | None) -> str:
    """A moment in words, in the time of whoever noted it."""
    return moment_text(when) if when else ""


@register.filter
def of(mapping: dict[str, object], key: object) -> object:
    """What stands under this key, or nothing."""
    return mapping.get(str(key), "")
