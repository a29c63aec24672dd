"""Units and amounts: there and back, and any text at all."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from sandmix.language.amounts import read
from sandmix.language.units import UNITS, Unreadable, convert, same_dimension

PAIRS = [(one, other) for one in UNITS for other in same_dimension(one)]
PIECES = st.sampled_from(
    [
        "1",
        "2,5",
        "3-1/2",
        "½",
        " ",
        "kg",
        "lb",
        "oz",
        "in",
        "±",
        "-",
        "+",
        "e",
        "/",
        ",",
        ".",
        "°F",
        "°C",
        "%",
        "gal",
        "a cup",
        "٣",
        "to",
        ":",
        "0",
        "9999",
        "cm³",
        "³",
        "'",
        '"',
    ]
)


@given(st.sampled_from(PAIRS), st.floats(-1e6, 1e6))
def test_there_and_back_is_the_same(pair, value):
    one, other = pair
    assert convert(convert(value, one, other), other, one) == pytest.approx(value, rel=1e-12, abs=1e-9)


@given(st.sampled_from(list(UNITS)), st.floats(0, 1e6))
def test_a_number_written_with_its_unit_is_read_as_it_is(unit, value):
    assert read(f"{value!r} {unit}", unit).value == pytest.approx(value, rel=1e-15)


@given(st.sampled_from(list(UNITS)), st.one_of(st.text(max_size=70), st.lists(PIECES, max_size=8).map("".join)))
@example("kg", "1e999 ± 1e999")
@example("°C", "1e999 °F ± 1e999 °F")
def test_any_text_is_read_or_refused_in_words(unit, text):
    reading = read_or_refused(text, unit)
    if isinstance(reading, Unreadable):
        assert reading.why.endswith((".", "?"))
        assert reading.instead.endswith(".")
    else:
        assert isinstance(reading.value, float)
        assert reading.half_width is None or reading.half_width >= 0


def read_or_refused(text, unit):
    try:
        return read(text, unit)
    except Unreadable as refused:
        return refused
