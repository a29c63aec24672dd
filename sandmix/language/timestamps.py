"""Moments in time as text and as seconds: what a book writes beside each event. There is no clock here; now is always given.

Source: ISO 8601; the count of days from a date is the usual one of the Gregorian calendar.
"""

from __future__ import annotations

import re

from sandmix.language.errors import SandmixError

DAY_S = 86400.0
_MOMENT = re.compile(
    r"(\d{4})-(\d\d)-(\d\d)(?:[T ](\d\d):(\d\d)(?::(\d\d)(?:[.,](\d+))?)?\s*(Z|[+-]\d\d:?\d\d)?)?$", re.IGNORECASE
)
_EARLIEST, _LATEST = 1900, 2200


def seconds_of(text: str) -> float:
    """Return the seconds from 1970-01-01T00:00Z to a moment such as 2026-05-02T14:30+02:00; a date alone is its noon, no zone is UTC.

    Raises SandmixError with what to write.

    >>> seconds_of("1970-01-02T00:00:30Z"), seconds_of("2000-03-01T01:00+01:00") == seconds_of("2000-03-01T00:00Z")
    (86430.0, True)
    """
    found = _MOMENT.match(text.strip())
    if found is None:
        raise SandmixError("this isn't a date and time. Write it as 2026-05-02T14:30Z or 2026-05-02.")
    year, month, day = (int(found[part]) for part in (1, 2, 3))
    hour, minute, second = (int(found[part] or 0) for part in (4, 5, 6))
    if not _EARLIEST <= year <= _LATEST or not 1 <= month <= 12 or not 1 <= day <= _days_in(year, month):
        raise SandmixError(f"there is no such day between {_EARLIEST} and {_LATEST}. Check the year, month and day.")
    if hour > 23 or minute > 59 or second > 59 or abs(_zone_s(found[8])) > DAY_S:
        raise SandmixError("there is no such time of day. Check the hours, minutes and seconds.")
    if found[4] is None:
        hour = 12
    whole = _days_from_1970(year, month, day) * DAY_S + 3600 * hour + 60 * minute + second
    part = float(f"0.{found[7]}") if found[7] else 0.0
    return whole + part - _zone_s(found[8])


def _zone_s(zone: str | None) -> float:
    if zone is None or zone.upper() == "Z":
        return 0.0
    sign = -1 if zone.startswith("-") else 1
    digits = zone[1:].replace(":", "")
    return sign * (3600.0 * int(digits[:2]) + 60.0 * int(digits[2:]))


def _days_in(year: int, month: int) -> int:
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    return (31, 29 if leap else 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)[month - 1]


def _days_from_1970(year: int, month: int, day: int) -> int:
    """Days of the Gregorian calendar, with March as the first month so that the leap day is the last of its year."""
    shifted = year - (month <= 2)
    era, of_era = divmod(shifted, 400)
    of_year = (153 * ((month + 9) % 12) + 2) // 5 + day - 1
    return era * 146097 + of_era * 365 + of_era // 4 - of_era // 100 + of_year - 719468
