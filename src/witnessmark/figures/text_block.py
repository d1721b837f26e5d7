"""Several lines of text as one block: wrapped, set line below line, with the height they take."""

from dataclasses import dataclass

from witnessmark.figures.drawing import INK, MONO_WIDTH, SANS_WIDTH, shortened, words, wrapped

LINE_HEIGHT = 12.5
"""Points from one base line to the next."""

STRONG_WIDTH = 0.53
"""Width of an average character of the heavier face, as a share of its size."""


@dataclass(frozen=True, slots=True)
class TextBlock:
    """Lines that are set below each other from a left edge, in points."""

    lines: tuple[str, ...]
    size: float = 10.0
    fill: str = INK
    strong: bool = False
    mono: bool = False

    @property
    def height(self) -> float:
        """Points that the lines take."""
        return LINE_HEIGHT * len(self.lines)

    def at(self, x: float, top: float) -> list[str]:
        """The lines with their upper edge at `top`."""
        return [
            words(
                x,
                top + 9.5 + LINE_HEIGHT * place,
                text,
                size=self.size,
                fill=self.fill,
                strong=self.strong,
                mono=self.mono,
            )
            for place, text in enumerate(self.lines)
        ]


def text_block(
    text: str,
    width: float,
    *,
    most: int = 0,
    size: float = 10.0,
    fill: str = INK,
    strong: bool = False,
    mono: bool = False,
) -> TextBlock:
    """The text wrapped into `width` points; at most `most` lines, where that is not 0."""
    share = MONO_WIDTH if mono else STRONG_WIDTH if strong else SANS_WIDTH
    lines = wrapped(text, width, size, share) if text.strip() else []
    if most:
        lines = shortened(lines, most)
    return TextBlock(tuple(lines), size, fill, strong, mono)
