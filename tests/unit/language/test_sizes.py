"""Sizes: several lengths at once, as a list or a text."""

import pytest

from sandmix.language.errors import InputError
from sandmix.language.tables import Sizes
from sandmix.language.words import Quantity


def refused(word, given):
    with pytest.raises(InputError) as error:
        word.read(given)
    (problem,) = error.value.problems
    return problem


SIDE = Quantity(name="side_mm", label="Side", unit="mm", low=1, high=3000, units=("mm", "cm", "in"))
BOX = Sizes(name="box_mm", label="Box", each=SIDE, count=3)
BOXES = [
    ("200 x 100 x 20", [200, 100, 20]),
    ("200x100x20", [200, 100, 20]),
    ("200 × 100 × 20 mm", [200, 100, 20]),
    ("200*100*20", [200, 100, 20]),
    ("200; 100; 20", [200, 100, 20]),
    ("200 by 100 by 20 mm", [200, 100, 20]),
    ("20 x 10 x 2 cm", [200, 100, 20]),
    ("8 x 4 x 1 in", [203.2, 101.6, 25.4]),
    ('8 x 4 x 1"', [203.2, 101.6, 25.4]),
    ("8 in x 10 cm x 25 mm", [203.2, 100, 25]),
    ("7 1/2 x 4 x 1/2 in", [190.5, 101.6, 12.7]),
    ([200, 100, 20], [200, 100, 20]),
    (["8 in", 100, {"value": 2, "unit": "cm"}], [203.2, 100, 20]),
    ((200, 100.0, "20"), [200, 100, 20]),
]


@pytest.mark.parametrize(("given", "sizes"), BOXES)
def test_sizes_are_a_list_or_a_text(given, sizes):
    assert BOX.read(given).value == pytest.approx(sizes)


@pytest.mark.parametrize("given", ["200 x 100", "1 x 2 x 3 x 4", "200", "🔥", [1, 2], [], [1, 2, 3, 4]])
def test_exactly_three_sizes_are_needed(given):
    problem = refused(BOX, given)
    assert problem.message == "Box: 3 sizes are needed. Write them as 200 x 100 x 20 mm, or as a list."
    assert problem.allowed == "3 sizes, each 1 to 3000 mm"


@pytest.mark.parametrize("given", [200, True, {"a": 1}, 2.5])
def test_sizes_are_neither_a_number_nor_an_object(given):
    assert refused(BOX, given).message == "Box: these aren't sizes. Write them as 200 x 100 x 20 mm."


def test_every_wrong_size_is_reported_under_the_label_of_all_sizes():
    with pytest.raises(InputError) as error:
        BOX.read("a cup x 0 x 20 kg")
    assert {problem.word for problem in error.value.problems} == {"box_mm"}
    assert len(error.value.problems) == 3
    assert all(problem.message.startswith("Box: ") for problem in error.value.problems)


def test_sizes_are_shown_as_they_are_written():
    assert BOX.show([200.0, 100.0, 20.5]) == "200 × 100 × 20.5 mm"
    assert BOX.show(7.0) == "7 mm"
    assert BOX.show([110.0, 28.5317, 9.0]) == "110 × 28.53 × 9 mm"
    assert BOX.unit == "mm"
    place = Sizes(name="p", label="P", each=SIDE, count=3, between="/")
    assert place.show([-3.55e-14, 12.0, -0.5]) == "0 / 12 / −0.5 mm"
    assert place.show([0.0, -0.0, 0.0]) == "0 / 0 / 0 mm"
    assert Sizes(name="b", label="B", each=SIDE, count=2)._example == "200 x 100 mm"


@pytest.mark.parametrize("given", [{"value": "8 × 4 × 1", "unit": "in"}, {"value": [8, 4, 1], "unit": "in"}])
def test_sizes_may_come_with_a_separate_unit(given):
    assert BOX.read(given).value == pytest.approx([203.2, 101.6, 25.4])


def test_a_unit_after_the_first_size_only_is_refused():
    try:
        taken = BOX.read("8 in x 4 x 1")
    except InputError:
        return
    assert taken.remark or taken.value == pytest.approx([203.2, 101.6, 25.4])


def test_a_fourth_size_after_many_spaces_is_refused():
    assert refused(BOX, "200 x 100 x 20" + " " * 300 + "x 7").message.startswith("Box: these aren't sizes.")
