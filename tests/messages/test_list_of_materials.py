"""What is said where a list of materials can't be as it is given, or leaves no plan. Written by hand from the three parts of an error;
the sentences about a plan were judged by them and then kept as the library says them."""

import pytest

HEAP = {"heap_kg": 100, "moisture_pct_wet": 0, "clay_pct_dry": 6, "target_clay_pct_dry": 6, "target_kg": 100}
SAND = {"kind": "sand", "name": "plain"}
CLAY = {"kind": "clay", "name": "sound"}
LIST = "Materials on hand"

ROWS = [
    ({"name": "x"}, f"{LIST}: material 1: the kind is missing. Enter it."),
    (
        {"kind": "glue"},
        f"{LIST}, material 1: kind: “glue” isn't one of the choices. Choose sand, clay, mix or additive.",
    ),
    (
        {"kind": "clay", "clay_pct_dry": 90},
        (
            f"{LIST}: “clay”: of a clay only the live share of the dry product is asked, and the rest is dead. Clear its "
            "other shares."
        ),
    ),
    (
        {"kind": "additive", "name": "dust", "clay_pct_dry": 3},
        f"{LIST}: “dust”: an additive brings no live clay. Clear that, or call it a fresh mix.",
    ),
    (
        {"kind": "mix"},
        f"{LIST}: “mix”: the live clay of a fresh mix is needed. Give it, as a share of its dry mass.",
    ),
    (
        {"kind": "sand", "clay_pct_dry": 60, "dead_fines_pct_dry": 50},
        f"{LIST}: “sand”: live clay and dead fines come to 110 % of it. Together they are at most 100.",
    ),
    (
        {"kind": "sand", "clay_activity_pct": 80},
        (
            f"{LIST}: “sand”: the live share of the product is asked of a clay alone. Clear it, and give its live clay of "
            "dry."
        ),
    ),
    (
        {"kind": "sand", "price_per_kg": 1, "bag_price": 5, "bag_kg": 5},
        f"{LIST}: “sand”: its price is said twice, a kilogram and a bag. Keep one and clear the other.",
    ),
    (
        {"kind": "sand", "bag_price": 5},
        (f"{LIST}: “sand”: a bag's price says nothing without what it holds. Give the bag too, or a price a kilogram."),
    ),
]


@pytest.mark.parametrize(("row", "message"), ROWS, ids=lambda value: str(value)[:30])
def test_what_is_said_to_a_material(messages, row, message):
    assert messages("rebond", **HEAP, materials=[row]) == [message]


def test_two_of_one_name_are_asked_apart(messages):
    assert messages("rebond", **HEAP, materials=[SAND, SAND]) == [
        f"{LIST}: two materials are called “plain”. Give each a name of its own."
    ]


def test_a_window_takes_every_number(messages):
    assert messages("rebond", **HEAP, materials=[SAND, CLAY], gfn_low=60, gfn_high=50) == [
        "Highest fineness number: the least allowed, 60, is above it. Look whether the two are swapped.",
        "Fineness number of the heap: it is needed where a window is asked for. Sieve the heap, or clear the window.",
        f"{LIST}: “plain”: its fineness number is needed where a window is asked for. Give it, or clear the window.",
    ]


def test_a_bin_that_is_too_small_for_what_is_wanted(messages):
    assert messages("rebond", **HEAP, materials=[SAND, CLAY], bin_kg=60) == [
        "Target mass of the heap: the bin holds 60 kg. Ask for no more than that, or take a larger one."
    ]


def test_a_list_that_is_none(messages):
    assert messages("rebond", **HEAP, materials="sand and clay") == [
        f'{LIST}: this isn\'t a list. Enter a list of materials, each as {{"kind": …}}.'
    ]
    assert messages("rebond", **HEAP, materials=[]) == [f"{LIST}: the list holds 0 materials. Enter 1 to 40."]


def test_too_little_clay_names_the_stock_the_nearest_plan_and_the_lesser_mass(messages):
    """96.5 dry wanted of 100 at 6 %: 1 of clay and 95.5 of heap, 6.73 live, 6.9741 %. 6 k + 1 = 0.1 (100 k + 1): 23.5 dry, 24.352 wet."""
    clay = CLAY | {"stock_kg": 1, "moisture_pct_wet": 0}
    assert messages("rebond", **HEAP | {"target_clay_pct_dry": 10}, materials=[SAND, clay]) == [
        (
            "Target live clay: with what is on hand no plan meets all limits. Here it could be at most 6.97 %. The "
            "nearest plan: discard 4.50 kg; put in 1.00 kg of sound; that gives 100.00 kg with 6.97 % live clay and "
            "0.00 % dead fines. What can't be had together: what there is of sound, the mass wanted and the live clay "
            "wanted. Ask for at most 6.97 %, or have more or better materials, or make no more than 24.35 kg."
        )
    ]


def test_dead_fines_that_no_material_thins(messages):
    """New sand at 3 % with 6 % of clay: 2.82 at least."""
    asked = HEAP | {"dead_fines_pct_dry": 8, "dead_fines_limit_pct_dry": 2}
    (message,) = messages("rebond", **asked, materials=[SAND | {"dead_fines_pct_dry": 3}, CLAY])
    assert message.startswith(
        "Limit for dead fines: with what is on hand no plan meets all limits. Here it could be at least 2.82 %."
    )
    assert message.endswith("Ask for at least 2.82 %, or have more or better materials.")


def test_what_can_not_be_asked_is_not_advised(messages):
    """1 kg of a heap that is too rich, and clay alone to make 100 of it: clay far above what the word can be."""
    (message,) = messages("rebond", **HEAP | {"heap_kg": 1, "clay_pct_dry": 7}, materials=[CLAY])
    assert "Ask for" not in message
    assert ". Have more or better materials" in message
