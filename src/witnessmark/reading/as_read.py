"""What was read of a car, in a sentence: a text that knows where it stands."""


class AsRead(str):
    """What was read on a mark, or claimed, of one item, or some of it.

    It prints as it stands, and a masked copy can put signs in its place. `part` is which part
    of the item's number the text is ("all", "last 4"); `from_end` is set where it is what stands
    at one place alone, counted from the last, which is 0.
    """

    __slots__ = ("field", "from_end", "item", "mark", "part")
    mark: str
    field: str
    item: str
    part: str
    from_end: int | None

    def __new__(
        cls,
        text: str,
        *,
        mark: str = "",
        field: str = "",
        item: str = "",
        part: str = "all",
        from_end: int | None = None,
    ) -> "AsRead":
        """The text with where it stands; without an item it is of no number in particular."""
        made = super().__new__(cls, text)
        made.mark, made.field, made.item = mark, field, item
        made.part, made.from_end = part, from_end
        return made

    def __deepcopy__(self, _: object) -> "AsRead":
        """Itself: it cannot change."""
        return self
