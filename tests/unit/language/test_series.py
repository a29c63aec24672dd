"""Several figures of one kind, as a list or a text."""

import pytest

from sandmix.language.errors import InputError
from sandmix.language.series import Series
from sandmix.language.words import Quantity

PAST = Series(
    name="history",
    label="Earlier figures",
    each=Quantity(name="earlier", label="Earlier figure", unit="", low=0, high=100),
    count=1,
    most=4,
)
READ = [
    ("44; 46; 43.5", [44, 46, 43.5]),
    ("44;46", [44, 46]),
    ("43,5; 44", [43.5, 44]),
    ("44, 46, 43,5", [44, 46, 43.5]),
    ("44 46 43", [44, 46, 43]),
    ("44\n46\n", [44, 46]),
    ("44", [44]),
    ([44, "46", 43.5], [44, 46, 43.5]),
    ((44, 46), [44, 46]),
    ({"value": "44; 46", "unit": ""}, [44, 46]),
]


@pytest.mark.parametrize(("given", "figures"), READ)
def test_a_series_is_a_list_or_a_text(given, figures):
    assert PAST.read(given).value == pytest.approx(figures)


def test_a_series_is_shown_as_it_is_typed():
    assert PAST.show([44.0, 43.5]) == "44; 43.5"
    assert PAST.show(44.0) == "44"
    assert PAST.read(PAST.show([44.0, 43.5])).value == [44, 43.5]


REFUSED = [
    ([], "Earlier figures: there are 0 figures. Enter 1 to 4, as 44; 46; 43.5."),
    ("1 2 3 4 5", "Earlier figures: there are 5 figures. Enter 1 to 4, as 44; 46; 43.5."),
    (5, "Earlier figures: these aren't figures. Write them as 44; 46; 43.5."),
    ({"a": 1}, "Earlier figures: these aren't figures. Write them as 44; 46; 43.5."),
    ("1 " * 2100, "Earlier figures: these aren't figures. Write them as 44; 46; 43.5."),
    ([44, 101], "Earlier figures: 101 is too much. Enter 0 to 100. Check the number."),
]


@pytest.mark.parametrize(("given", "said"), REFUSED)
def test_a_wrong_series_is_refused_in_words(given, said):
    with pytest.raises(InputError) as error:
        PAST.read(given)
    assert [problem.message for problem in error.value.problems] == [said]
    assert error.value.problems[0].allowed
