"""A figure: SVG text that is the same for page and paper, with its title and caption."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Figure:
    """An SVG drawing as text.

    One unit of its view box is one typographic point on paper. `title` names
    it, `caption` says in a sentence what it shows; both stand inside the SVG as
    <title> and <desc> for those who hear the page.
    """

    svg: str
    title: str
    caption: str
