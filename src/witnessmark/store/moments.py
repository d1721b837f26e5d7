"""A moment as two columns: UTC, and the minutes by which its own clock differs from it."""

from datetime import UTC, datetime, timedelta, timezone


def columns(at: datetime | None) -> dict[str, datetime | int | None]:
    """The columns of a moment; one without an offset counts as UTC, and says so by None.

    >>> columns(datetime.fromisoformat("2026-05-14T10:30+02:00"))
    {'at': datetime.datetime(2026, 5, 14, 8, 30, tzinfo=datetime.timezone.utc), 'offset_minutes': 120}
    """  # noqa: E501
    if at is None:
        return {"at": None, "offset_minutes": None}
    offset = at.utcoffset()
    if offset is None:
        return {"at": at.replace(tzinfo=UTC), "offset_minutes": None}
    return {"at": at.astimezone(UTC), "offset_minutes": round(offset.total_seconds() / 60)}


def moment(at: datetime, offset_minutes: int | None) -> datetime:
    """The moment of these columns, on the clock it was told by."""
    if offset_minutes is None:
        return at.astimezone(UTC).replace(tzinfo=None)
    zone = timezone(timedelta(minutes=offset_minutes)) if offset_minutes else UTC
    return at.astimezone(zone)
