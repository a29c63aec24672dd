"""Dates and times as text and as seconds, as a book writes them for each event. There is no clock here: the time now is always given.

Source: ISO 8601.
"""

from __future__ import annotations

import re
from datetime import UTC, datetime

from sandmix.language.errors import SandmixError

DAY_S = 86400.0
_MOMENT = re.compile(
    r"(\d{4})-(\d\d)-(\d\d)(?:[T ](\d\d):(\d\d)(?::(\d\d)(?:[.,](\d+))?)?\s*(Z|[+-]\d\d:?\d\d)?)?$", re.IGNORECASE
)
_EARLIEST, _LATEST = 1900, 2200


def seconds_of(text: str) -> float:
    """Return the seconds from 1970-01-01T00:00Z to a time such as 2026-05-02T14:30+02:00; a date alone means noon, no zone means UTC.

    Raises SandmixError with what to write.

    >>> seconds_of("1970-01-02T00:00:30Z"), seconds_of("2000-03-01T01:00+01:00") == seconds_of("2000-03-01T00:00Z")
    (86430.0, True)
    """
    found = _MOMENT.match(text.strip())
    if found is None:
        raise SandmixError("this isn't a date and time. Write it as 2026-05-02T14:30Z or 2026-05-02.")
    hour, minute, second = (int(found[part] or 0) for part in (4, 5, 6))
    midnight = _midnight(*(int(found[part]) for part in (1, 2, 3)))
    if hour > 23 or minute > 59 or second > 59 or abs(_zone_s(found[8])) > DAY_S:
        raise SandmixError("there is no such time of day. Check the hours, minutes and seconds.")
    if found[4] is None:
        hour = 12
    part = float(f"0.{found[7]}") if found[7] else 0.0
    return midnight.timestamp() + 3600 * hour + 60 * minute + second + part - _zone_s(found[8])


def _midnight(year: int, month: int, day: int) -> datetime:
    try:
        return datetime(year if _EARLIEST <= year <= _LATEST else 0, month, day, tzinfo=UTC)
    except ValueError:
        raise SandmixError(
            f"there is no such day between {_EARLIEST} and {_LATEST}. Check the year, month and day."
        ) from None


def _zone_s(zone: str | None) -> float:
    if zone is None or zone.upper() == "Z":
        return 0.0
    sign = -1 if zone.startswith("-") else 1
    digits = zone[1:].replace(":", "")
    return sign * (3600.0 * int(digits[:2]) + 60.0 * int(digits[2:]))
