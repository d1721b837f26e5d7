"""The pages of a long list: where one stands, and the addresses of the pages before and after."""

from dataclasses import dataclass

from django.http import HttpRequest


@dataclass(frozen=True, slots=True, kw_only=True)
class Pages:
    """One page of a list, from the row `first` to the row before `last`, both from 0."""

    number: int
    count: int
    first: int
    last: int
    rows: int
    before: str = ""
    after: str = ""

    @classmethod
    def of(cls, request: HttpRequest, rows: int, a_page: int) -> "Pages":
        """The page that is asked for under `page`; the nearest that there is."""
        count = max(1, -(-rows // a_page))
        asked = request.GET.get("page", "")
        number = min(int(asked), count) if asked.isdecimal() and len(asked) < 8 else 1
        number = max(number, 1)
        first = (number - 1) * a_page

        def address(wanted: int) -> str:
            query = request.GET.copy()
            query["page"] = str(wanted)
            for told_once in ("added", "there"):
                query.pop(told_once, None)
            return f"?{query.urlencode()}"

        return cls(
            number=number,
            count=count,
            first=first,
            last=min(first + a_page, rows),
            rows=rows,
            before=address(number - 1) if number > 1 else "",
            after=address(number + 1) if number < count else "",
        )

    @property
    def from_row(self) -> int:
        """The first row on it, from 1; 0 where there is none."""
        return self.first + 1 if self.rows else 0
