"""The messages where a list of materials is wrong or leaves no plan. Written by hand from the three parts of an error;
the sentences about a plan were checked for them and then kept as the library gives them."""

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
        f"{LIST}: “clay”: for a clay only the live share of the dry product counts; the rest is dead fines. Clear its other shares.",
    ),
    (
        {"kind": "additive", "name": "dust", "clay_pct_dry": 3},
        f"{LIST}: “dust”: an additive has no live clay. Clear it, or make the material a fresh mix.",
    ),
    (
        {"kind": "mix"},
        f"{LIST}: “mix”: the live clay of a fresh mix is missing. Enter it as a share of the dry mass.",
    ),
    (
        {"kind": "sand", "clay_pct_dry": 60, "dead_fines_pct_dry": 50},
        f"{LIST}: “sand”: live clay and dead fines add up to 110 % of its dry mass. Together they can be at most 100 %. Check both.",
    ),
    (
        {"kind": "sand", "clay_activity_pct": 80},
        f"{LIST}: “sand”: only a clay has a live share of the product. Clear it, and enter the live clay as a share of the dry mass.",
    ),
    (
        {"kind": "sand", "price_per_kg": 1, "bag_price": 5, "bag_kg": 5},
        f"{LIST}: “sand”: its price is given twice, per kilogram and per bag. Clear one of them.",
    ),
    (
        {"kind": "sand", "bag_price": 5},
        f"{LIST}: “sand”: the price of a bag needs the mass of a bag. Enter it, or enter a price per kilogram.",
    ),
]


@pytest.mark.parametrize(("row", "message"), ROWS, ids=lambda value: str(value)[:30])
def test_a_material_that_is_refused(messages, row, message):
    assert messages("rebond", **HEAP, materials=[row]) == [message]


def test_two_materials_need_different_names(messages):
    assert messages("rebond", **HEAP, materials=[SAND, SAND]) == [
        f"{LIST}: two materials are called “plain”. Give each its own name."
    ]


def test_fineness_limits_need_every_fineness_number(messages):
    assert messages("rebond", **HEAP, materials=[SAND, CLAY], gfn_low=60, gfn_high=50) == [
        "Highest fineness number: this is below the lowest fineness allowed, 60. Check whether the two are swapped.",
        "Fineness number of the heap: this is missing, and the fineness limits need it. Sieve the heap, or clear the limits.",
        f"{LIST}: “plain”: its fineness number is missing, and the fineness limits need it. Enter it, or clear the limits.",
    ]


def test_a_bin_that_is_too_small_for_the_target(messages):
    assert messages("rebond", **HEAP, materials=[SAND, CLAY], bin_kg=60) == [
        "Target mass of the heap: the bin can hold 60 kg. Enter at most that, or use a larger bin."
    ]


def test_data_that_is_not_a_list_of_materials(messages):
    assert messages("rebond", **HEAP, materials="sand and clay") == [
        f'{LIST}: this isn\'t a list. Enter a list of materials, each as {{"kind": …}}.'
    ]
    assert messages("rebond", **HEAP, materials=[]) == [f"{LIST}: the list holds 0 materials. Enter 1 to 40."]


def test_too_little_clay_names_the_stock_the_nearest_plan_and_the_smaller_mass(messages):
    """Target 96.5 dry, of 100 at 6 %: 1 of clay and 95.5 of heap, 6.73 live, 6.9741 %. 6 k + 1 = 0.1 (100 k + 1): 23.5 dry, 24.352 wet."""
    clay = CLAY | {"stock_kg": 1, "moisture_pct_wet": 0}
    assert messages("rebond", **HEAP | {"target_clay_pct_dry": 10}, materials=[SAND, clay]) == [
        (
            "Target live clay: the materials on hand cannot meet all limits. This limit would have to be at most 6.97 %. The "
            "nearest plan: discard 4.50 kg; put in 1.00 kg of sound; that gives 100.00 kg with 6.97 % live clay and 0.00 % dead "
            "fines. These limits conflict: the stock of sound, the mass to make and the target for live clay. Enter at most "
            "6.97 %, or get more or better materials, or make no more than 24.35 kg."
        )
    ]


def test_dead_fines_that_no_material_lowers(messages):
    """New sand at 3 % with 6 % of clay: 2.82 at least."""
    asked = HEAP | {"dead_fines_pct_dry": 8, "dead_fines_limit_pct_dry": 2}
    (message,) = messages("rebond", **asked, materials=[SAND | {"dead_fines_pct_dry": 3}, CLAY])
    assert message.startswith(
        "Limit for dead fines: the materials on hand cannot meet all limits. This limit would have to be at least 2.82 %."
    )
    assert message.endswith("Enter at least 2.82 %, or get more or better materials.")


def test_a_value_out_of_bounds_is_not_suggested(messages):
    """1 kg of a heap that is too rich, and clay alone to make 100 of it: clay far above what the word can be."""
    (message,) = messages("rebond", **HEAP | {"heap_kg": 1, "clay_pct_dry": 7}, materials=[CLAY])
    assert "Enter" not in message
    assert ". Get more or better materials" in message
