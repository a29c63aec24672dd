"""The exact error messages of *gate*, and the remarks that tell a person what to change.

All texts are *pinned*: checked for the three parts of an error (what was given, what is allowed, what to do), then kept as the library has
them. Their figures are by hand, or are what was typed.
"""

import pytest

TOP = {"fill_volume_cm3": 1000, "head_mm": 200, "gate_place": "top"}
RATIO = "Gating ratio: this isn't a ratio. Enter three numbers from 0.01 to 100 for sprue base, runner and gates, such as 1:4:4."
CRUCIBLE = (
    "{0}: this is missing. For the temperature lost on the way, enter the crucible, the metal in it and the time."
)

FORMS = [
    (
        {},
        [
            (
                "Head of metal over the gate: nothing can be computed yet. Enter the height from the metal's surface in the pouring cup down "
                "to the gate."
            )
        ],
    ),
    (TOP | {"gate_ratio": "1:4"}, [RATIO]),
    (TOP | {"gate_ratio": "wide"}, [RATIO]),
    (TOP | {"gate_ratio": "1:0:4"}, [RATIO]),
    (TOP | {"gates_count": 2.5}, ["Number of gates: 2.5 isn't a whole number. Enter a whole number of gates."]),
    (
        {"head_mm": 150, "poured_kg": 0},
        ["Metal to fill it: 0 kg fills no mould. Enter more, or the volume to fill."],
    ),
    (
        TOP | {"poured_kg": 5},
        [
            (
                "Metal to fill it: 5 kg of this metal fills 2110 cm³, and the volume given is 1000 cm³. Check both, or leave one out."
            )
        ],
    ),
    (
        {"head_mm": 150, "sprue_length_mm": 180},
        [
            (
                "Head of metal over the gate: a head of 150 mm is less than the sprue of 180 mm, so the gate would lie above its base. Enter "
                "the height from the metal's surface in the pouring cup down to the gate, or a shorter sprue."
            )
        ],
    ),
    (
        {"head_mm": 50, "basin_mm": 60},
        [
            "Metal in the pouring cup: 60 mm of metal in the pouring cup is more than the whole head of 50 mm. Check both."
        ],
    ),
    (
        TOP | {"gate_place": "bottom", "fill_height_mm": 220},
        [
            (
                "Height of the cavity: the mould never fills: the cavity stands 220 mm above its gate, and the metal in the pouring cup only "
                "200 mm. Use a deeper cope, a higher pouring cup, or a higher gate."
            )
        ],
    ),
    (
        TOP | {"gate_place": "parting", "fill_height_mm": 300, "cope_height_mm": 250},
        [
            (
                "Cavity above the parting: the mould never fills: the cavity stands 250 mm above the parting, and the metal in the pouring cup "
                "only 200 mm. Use a deeper cope or a higher pouring cup."
            )
        ],
    ),
    (
        TOP | {"gate_place": "parting", "fill_height_mm": 500},
        [
            (
                "Height of the cavity: the mould never fills: the cavity stands 250 mm above the parting, and the metal in the pouring cup "
                "only 200 mm. Use a deeper cope or a higher pouring cup."
            )
        ],
    ),
    (
        TOP | {"gate_place": "parting", "fill_height_mm": 20, "cope_height_mm": 30},
        ["Cavity above the parting: 30 mm above the parting is more than the whole height of 20 mm. Check both."],
    ),
    (
        TOP | {"gate_cm2": 2, "fill_time_s": 10},
        [
            (
                "Filling time: gates of 2 cm² fill it in 3.16 s, not in 10 s. Leave one of the two out to have it worked out."
            )
        ],
    ),
    (
        {"head_mm": 100, "gate_place": "bottom", "thinnest_mm": 0.5},
        [
            (
                "Thinnest wall: a wall of 0.5 mm can't be filled: under 100 mm of metal, surface tension keeps it out of walls below 0.79 mm. "
                "Check the unit, make the wall thicker, or use a higher head."
            )
        ],
    ),
    (
        TOP | {"pour_temp_c": 600},
        [
            (
                "Pouring temperature: 600 °C is below 660 °C, where aluminium, pure or scrap is fully liquid. It is usually poured at 680 to "
                "750 °C. Check the metal and the unit."
            )
        ],
    ),
    (
        {"pot_mm": 120, "melt_kg": 3, "carry_min": 2, "furnace_temp_c": 600},
        [
            (
                "Temperature in the furnace: 600 °C is below 660 °C, where this metal is fully liquid. Check the metal and the unit."
            )
        ],
    ),
    (
        TOP | {"pot_mm": 120},
        [CRUCIBLE.format("Metal in the crucible"), CRUCIBLE.format("Time from furnace to mould")],
    ),
    (
        TOP | {"furnace_temp_c": 750, "carry_min": 2},
        [CRUCIBLE.format("Crucible, inside diameter"), CRUCIBLE.format("Metal in the crucible")],
    ),
    (
        TOP | {"gate_ratio": "x", "gates_count": 1.5, "discharge": 3},
        [
            "Discharge coefficient: 3 is too much. Enter 0.05 to 1. Check the number.",
            RATIO,
            "Number of gates: 1.5 isn't a whole number. Enter a whole number of gates.",
        ],
    ),
]


@pytest.mark.parametrize(("inputs", "expected"), FORMS, ids=[str(at) for at in range(len(FORMS))])
def test_what_is_wrong_is_said_in_words(messages, inputs, expected):
    assert messages("gate", **inputs) == expected


@pytest.mark.parametrize(
    ("inputs", "part"),
    [
        (TOP | {"gate_cm2": 2}, "No ratio is given, so the gates count as the narrowest place and set the flow."),
        (TOP | {"gate_cm2": 2}, "A fall of 13 mm is enough to break the skin"),
        (
            TOP | {"gate_cm2": 2, "thinnest_mm": 4, "gate_depth_mm": 9},
            "A gate of 9 mm is deeper than the thinnest wall of 4 mm.",
        ),
        (
            TOP | {"fill_time_s": 90, "thinnest_mm": 4},
            "A wall of 4 mm is frozen through after",
        ),
        (TOP | {"fill_time_s": 6, "thinnest_mm": 5}, "In a wall of 5 mm the metal stops flowing after about"),
        (
            TOP | {"gate_place": "bottom", "fill_height_mm": 190},
            (
                "The cavity stands 190 mm above the gate, and the head is 200 mm: the last of it fills slowly and may stay rounded. More head "
                "helps most."
            ),
        ),
    ],
    ids=["no ratio", "too fast", "deep gate", "freezes", "may not fill", "high cavity"],
)
def test_what_to_change_is_a_way_out(ask, inputs, part):
    assert any(part in text for text in ask("gate", **inputs)["ways_out"])


def test_a_ratio_is_named_by_its_kind(ask):
    texts = {
        ratio: " ".join(ask("gate", **TOP, gate_cm2=2, gate_ratio=ratio)["remarks"]) for ratio in ("1:4:4", "3:2:1")
    }
    assert "1:4:4 is unpressurised. Usual for aluminium, pure or scrap: 1:4:4 (read)" in texts["1:4:4"]
    assert "3:2:1 is pressurised." in texts["3:2:1"]


def test_what_is_left_out_of_the_volume_is_said(ask):
    sure = {"gate_ratio": "1:4:4", "gate_cm2": 8}
    assert "without the runner, the gates and the pouring cup." in " ".join(ask("gate", **TOP, **sure)["remarks"])
    known = ask("gate", **TOP, **sure, runner_length_mm=100, gate_length_mm=10)["remarks"]
    assert any(text.startswith("Volume of the gating:") and text.endswith("without the pouring cup.") for text in known)
