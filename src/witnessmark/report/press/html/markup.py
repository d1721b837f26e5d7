"""Elements of a page: what is not mark-up already is text, and can only be text.

>>> element("p", "<b> & more", class_="note")
'<p class="note">&lt;b&gt; &amp; more</p>'
"""

from html import escape

from witnessmark.outline.letters import one_line, visible

EMPTY = frozenset({"br", "col", "img", "meta"})
"""Elements that hold nothing and have no end."""


class Markup(str):
    """Text that is mark-up of ours, to stand as it is."""

    __slots__ = ()


def typed(text: str) -> Markup:
    """Text as it was typed: line ends kept, no % at the beginning of a line, and what no screen
    can show as its code point."""
    if isinstance(text, Markup):
        return text
    kept = escape(visible(text).replace(" %", "\u00a0%"), quote=False)
    return Markup(kept.replace("\n", "<br>"))


def element(name: str, /, *content: str, **attributes: str | None) -> Markup:
    """One element. Names of attributes are written with _ for -, and may end in one; those that
    are None are left out."""
    told = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{escape(one_line(value))}"'
        for key, value in attributes.items()
        if value is not None
    )
    if name in EMPTY:
        return Markup(f"<{name}{told}>")
    return Markup(f"<{name}{told}>{''.join(map(typed, content))}</{name}>")


def joined(*parts: str) -> Markup:
    """Parts one after the other."""
    return Markup("".join(map(typed, parts)))
