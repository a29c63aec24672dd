"""Dates and times as text and as seconds, as a book writes them for each event. There is no clock here: the time now is always given.

Source: ISO 8601.
"""

from __future__ import annotations

import re
from datetime import UTC, datetime
from functools import lru_cache

from sandmix.language.errors import SandmixError

DAY_S = 86400.0
_MOMENT = re.compile(
    r"(\d{4})-(\d\d)-(\d\d)(?:[T ](\d\d):(\d\d)(?::(\d\d)(?:[.,](\d+))?)?\s*(Z|[+-]\d\d:?\d\d)?)?$", re.IGNORECASE
)
_EARLIEST, _LATEST = 1900, 2200
_KEPT = 32_768
"""So many times are kept as they were read: a long book is gone through several times."""


@lru_cache(maxsize=_KEPT)
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
    midnight_s, zone_s = _midnight_s(found[1], found[2], found[3]), _zone_s(found[8])
    if hour > 23 or minute > 59 or second > 59 or abs(zone_s) > DAY_S:
        raise SandmixError("there is no such time of day. Check the hours, minutes and seconds.")
    if found[4] is None:
        hour = 12
    part = float(f"0.{found[7]}") if found[7] else 0.0
    return midnight_s + 3600 * hour + 60 * minute + second + part - zone_s


@lru_cache(maxsize=1024)
def _midnight_s(year: str, month: str, day: str) -> float:
    try:
        return datetime(
            int(year) if _EARLIEST <= int(year) <= _LATEST else 0, int(month), int(day), tzinfo=UTC
        ).timestamp()
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
