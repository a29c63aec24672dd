"""Words that hold several values, as objects and as text."""

import pytest

from sandmix.language.errors import InputError
from sandmix.language.tables import Picks, Rows, Table
from sandmix.language.texts import of_text
from sandmix.language.words import Names, Quantity

HELD = Quantity(name="held", label="What it holds", unit="", low=0.0, high=100.0, digits=1)
KG = Quantity(name="kg", label="Mass", unit="kg", low=0.1, high=50.0, usual=(1.0, 10.0))
SIEVED = Table(name="sieved", label="Sieved", keys={"50": "No. 50", "70": "No. 70", "pan": "pan"}, each=HELD)
LOTS = Rows(name="lots", label="Lots", row_label="lot", each=(KG, SIEVED), needed=("kg",), most=3)

TEXTS = [
    ("50: 1.5; pan: 2", {"50": 1.5, "pan": 2}),
    ("50: 1,5; pan: 2", {"50": 1.5, "pan": 2}),
    ("50: 1.5, 70: 2", {"50": 1.5, "70": 2}),
    ("50: 1.5,70: 2", {"50": 1.5, "70": 2}),
    ("PAN: 2\n50: 1,5\n", {"50": 1.5, "pan": 2}),
    ('{"50": 1.5, "pan": "2"}', {"50": 1.5, "pan": 2}),
    (' {"70": 2}', {"70": 2}),
]


@pytest.mark.parametrize(("text", "values"), TEXTS)
def test_a_table_may_be_text(text, values):
    assert SIEVED.read(text).value == values


def test_a_table_comes_back_in_the_order_of_its_keys():
    assert list(SIEVED.read({"pan": 1, "50": 2}).value) == ["50", "pan"]


def test_a_table_is_shown_by_the_names_of_its_keys():
    assert SIEVED.show({"50": 1.5, "pan": 2.0}) == "No. 50: 1.5, pan: 2.0"


def test_a_list_of_things_may_be_json_text():
    assert LOTS.read('[{"kg": "2 kg", "sieved": "50: 3"}]').value == [{"kg": 2, "sieved": {"50": 3}}]


def test_an_unusual_value_in_a_row_is_remarked_with_its_row():
    assert LOTS.read([{"kg": 2}, {"kg": 20}]).remark.startswith("lot 2, mass: 20 kg is outside the usual")


NO_JSON = [
    "",
    "50: 3",
    "[1, 2",
    '{"a": NaN}',
    "[" * 501,
    "[" + "0," * 10_000 + "0]",
    "[" + "9" * 5000 + "]",
    7,
    None,
    ["a"],
]


@pytest.mark.parametrize("given", NO_JSON, ids=range(len(NO_JSON)))
def test_a_text_that_is_not_json_stays_as_it_is(given):
    assert of_text(given) is given


def test_names_are_shown_as_a_list():
    names = Names(name="some", label="Some")
    assert names.show(["50", "pan"]) == "50, pan"
    assert names.show([]) == "none"


def test_several_figures_are_shown_by_the_first_the_last_and_how_many():
    plain = Quantity(name="held", label="Held", unit="%", low=0.0, high=100.0, digits=1)
    stepped = Quantity(name="held", label="Held", unit="%", low=0.0, high=100.0, digits=1, steps="casts")
    assert plain.show_several([8.04, 7.0, 6.36]) == "8.0 to 6.4 %, 3 figures"
    assert stepped.show_several([8.04, 7.0, 6.36]) == "8.0 to 6.4 % over 3 casts"
    assert stepped.show_several([8.04, 8.02]) == "8.0 % over 2 casts"


SEEN = Picks(
    name="seen", label="Seen", choices={"scabs": "scabs on the face", "clay_balls": "balls of clay", "blows": "blows"}
)


@pytest.mark.parametrize(
    "given",
    [
        ["blows", "scabs"],
        "blows, scabs",
        "scabs on the face; Blows",
        '["scabs", "blows"]',
        "scabs\nblows\n",
        ["blows", "blows", "scabs"],
    ],
)
def test_picks_are_read_from_a_list_or_a_text_in_the_order_of_the_choices(given):
    assert SEEN.read(given).value == ["scabs", "blows"]


def test_all_wrong_picks_are_named_at_once():
    with pytest.raises(InputError) as caught:
        SEEN.read("blows, warts, clay balls, 7")
    assert [problem.given for problem in caught.value.problems] == ["warts", "7"]
    assert caught.value.problems[0].message == (
        "Seen: “warts” isn't one of the choices. Choose one or more of scabs, clay_balls or blows."
    )


@pytest.mark.parametrize("given", [7, None, True, {"scabs": 1}, "a" * 20_001])
def test_picks_that_are_not_a_list_are_refused(given):
    with pytest.raises(InputError, match="this isn't a list"):
        SEEN.read(given)


def test_a_pick_that_is_not_a_text_is_refused():
    with pytest.raises(InputError, match="isn't one of the choices"):
        SEEN.read([["scabs"]])


def test_picks_are_shown_by_their_names():
    assert SEEN.show(["scabs", "clay_balls"]) == "scabs on the face, balls of clay"
    assert SEEN.show([]) == "none"


class TestTableWithKeysOfItsOwn:
    WORD = Table(
        name="held",
        label="Held",
        keys={"a": "row A", "b": "row B"},
        each=Quantity(name="part", label="Part", unit="", low=0, high=9),
    )

    def test_keys_come_in_their_own_order(self):
        assert list(self.WORD.read({" B ": 1, "a": 2}).value.items()) == [("a", 2.0), ("b", 1.0)]

    def test_an_unknown_key_and_a_key_given_twice_are_refused(self):
        with pytest.raises(InputError) as raised:
            self.WORD.read({"c": 1, "a": 2, "A": 3})
        assert [problem.message for problem in raised.value.problems] == [
            "Held: “c” isn't one of the keys. Use a or b.",
            "Held: row A is given twice. Enter the sum once.",
        ]
