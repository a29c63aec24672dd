"""Dates and times, compared with Python's own calendar."""

from datetime import UTC, datetime, timedelta, timezone

import pytest

from sandmix.language.errors import SandmixError
from sandmix.language.timestamps import seconds_of

FIRST, LAST = datetime(1900, 1, 1, tzinfo=UTC), datetime(2200, 12, 31, tzinfo=UTC)
EVERY_13TH = [FIRST + timedelta(days=at) for at in range(0, (LAST - FIRST).days + 1, 13)]
MONTH_ENDS = [
    datetime(year, month, 1, 23, 59, 59, tzinfo=UTC) - timedelta(days=back)
    for year in (1900, 1904, 1999, 2000, 2001, 2024, 2026, 2100, 2200)
    for month in range(2, 13)
    for back in (0, 1)
]


def test_days_from_1900_to_2200_are_those_of_the_calendar():
    for day in [*EVERY_13TH, *MONTH_ENDS]:
        assert seconds_of(day.strftime("%Y-%m-%dT%H:%M:%SZ")) == day.timestamp()


@pytest.mark.parametrize("hours", [-12, -9.5, -1, 0, 1, 2, 5.75, 14])
@pytest.mark.parametrize("colon", [":", ""])
def test_a_time_zone_is_subtracted(hours, colon):
    zone = timezone(timedelta(hours=hours))
    day = datetime(2026, 3, 1, 0, 30, tzinfo=zone)
    text = day.strftime("%Y-%m-%dT%H:%M%z")
    assert seconds_of(text[:-2] + colon + text[-2:]) == day.timestamp()


def test_a_date_alone_means_noon():
    assert seconds_of("2026-05-02") == datetime(2026, 5, 2, 12, tzinfo=UTC).timestamp()


def test_no_zone_is_utc():
    assert seconds_of("2026-05-02T14:30") == datetime(2026, 5, 2, 14, 30, tzinfo=UTC).timestamp()


@pytest.mark.parametrize("text", ["1970-01-01T00:00:01.25Z", "1970-01-01 00:00:01,25z", "  1970-01-01T00:00:01.250 Z "])
def test_several_spellings_mean_the_same_time(text):
    assert seconds_of(text) == 1.25


@pytest.mark.parametrize(
    "text",
    [
        "2026-02-29",
        "2100-02-29",
        "2026-13-01",
        "2026-00-10",
        "2026-04-31",
        "2026-05-00",
        "1899-12-31",
        "2201-01-01",
        "2026-05-02T24:00Z",
        "2026-05-02T10:60Z",
        "2026-05-02T10:00:60Z",
        "2026-05-02T10:00+99:99",
        "02.05.2026",
        "2026-5-2",
        "yesterday",
        "",
        "2026-05-02T",
        "2026-05-02T10Z",
        "2026-05-02\n2026-05-03",
    ],
)
def test_a_text_that_is_not_a_time_is_refused_in_words(text):
    with pytest.raises(SandmixError, match=r"[Ww]rite it as|Check the"):
        seconds_of(text)
