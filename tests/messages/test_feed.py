"""The exact error messages of *feed*, and what its remarks begin with.

All texts are *pinned*: checked for the three parts of an error (what was given, what is allowed, what to do), then kept as the library has
them. Their figures are by hand, or are what was typed.
"""

import pytest

FORMS = [
    (
        {},
        [
            (
                "Casting volume: nothing can be computed yet. Enter the volume of the casting and its total surface, or the "
                "sizes of its thickest part."
            )
        ],
    ),
    (
        {"casting_area_cm2": 300},
        [
            (
                "Casting volume: nothing can be computed yet. Enter the volume of the casting and its total surface, or the "
                "sizes of its thickest part."
            )
        ],
    ),
    (
        {"casting_volume_cm3": 100, "modulus_mm": 20},
        [
            (
                "Modulus of the part that is fed: no part of a casting of 100 cm³ can have a modulus of 20 mm: even a ball of "
                "that volume has only 9.6 mm. Check the volume, the modulus and their units."
            )
        ],
    ),
    # (36 π · 20000²) ^ ⅓ = 3563 cm², written without an exponent
    (
        {"casting_volume_cm3": 20000, "casting_area_cm2": 20},
        [
            (
                "Total surface of the casting: a casting of 20000 cm³ has at least 3560 cm², even if it is a ball. Check the "
                "volume, the surface and their units."
            )
        ],
    ),
    (
        {"casting_volume_cm3": 100, "casting_area_cm2": 20},
        [
            (
                "Total surface of the casting: a casting of 100 cm³ has at least 104 cm², even if it is a ball. Check the "
                "volume, the surface and their units."
            )
        ],
    ),
    (
        {"modulus_mm": 10, "shrinkage_pct": 7, "feed_efficiency_pct": 7},
        [
            (
                "Metal that a riser can give: a riser that can give 7 % of its metal and shrinks by 7 % itself has nothing left "
                "for the casting. Enter more than 7 %, or check the shrinkage."
            )
        ],
    ),
    (
        {"modulus_mm": 10, "feed_efficiency_pct": 5},
        [
            (
                "Metal that a riser can give: a riser that can give 5 % of its metal and shrinks by 7.1 % itself has nothing "
                "left for the casting. Enter more than 7.1 %, or check the shrinkage."
            )
        ],
    ),
    (
        {"casting_volume_cm3": 600, "casting_area_cm2": 600, "top_face_cm2": 600},
        [
            (
                "Flat face under the riser: a flat face of 600 cm² is as large as the casting's total surface of 600 cm². "
                "Enter only the face that lies under the riser."
            )
        ],
    ),
    (
        {"casting_volume_cm3": 600, "casting_area_cm2": 600, "box_mm": [50, 50, 50]},
        [
            (
                "Box around the casting: a box of 125 cm³ cannot hold a casting of 600 cm³. Check the sizes, the volume and "
                "their units."
            )
        ],
    ),
    (
        {"modulus_mm": 10, "metal": "steel"},
        [
            (
                "Metal: “steel” isn't one of the choices. Choose aluminium, al_si7mg, al_si12, al_6061, tin_bronze, "
                "yellow_brass, silicon_brass, zinc_al12 or grey_iron."
            )
        ],
    ),
]


@pytest.mark.parametrize(("inputs", "texts"), FORMS)
def test_the_messages_of_the_form(messages, inputs, texts):
    assert messages("feed", **inputs) == texts


PLATE = {"casting_volume_cm3": 600, "casting_area_cm2": 600, "shrinkage_pct": 0}
REMARKS = [
    (
        {},
        (
            "The modulus of 10 mm is that of the whole casting. If one part is clearly thicker than the rest, it freezes last and may need a "
            "larger riser. Then choose “its thickest part” and enter the sizes of that part."
        ),
    ),
    (
        {"section_mm": 90},
        (
            "The riser is sized for a modulus of 10 mm, but a part 90 mm thick has 15 mm as a ball to 45 mm as a plate. Enter the modulus of "
            "that part, or check its thickness."
        ),
    ),
    (
        {"cope_depth_mm": 60},
        (
            "The riser needs a cope 75 mm deep, and yours is 60 mm. Ways out: set a ring of sand, held by a tin or a frame, on "
            "the cope around it; take a deeper cope; or make it flatter and wider, 80 mm across and 60 mm high."
        ),
    ),
    (
        {"cope_depth_mm": 20},
        (
            "The riser needs a cope 75 mm deep, and yours is 20 mm. Ways out: set a ring of sand, held by a tin or a frame, on "
            "the cope around it, or take a deeper cope. No flatter riser is large enough."
        ),
    ),
    (
        {"cope_height_mm": 80},
        (
            "The riser would be 75 mm high, and the casting rises 80 mm above the parting line. Metal does not run uphill: make "
            "the riser taller than the casting, or put it on top."
        ),
    ),
]


@pytest.mark.parametrize(("inputs", "text"), REMARKS)
def test_what_stands_in_the_way_has_a_way_out(ask, inputs, text):
    assert text in ask("feed", **PLATE, **inputs)["ways_out"]


def test_thin_walls_and_long_freezing_ranges(ask):
    thin = ask("feed", casting_volume_cm3=60, casting_area_cm2=200)
    assert thin["headline"].startswith(
        "A part this thin often feeds itself from the gate: cast one without a riser first."
    )
    bronze = ask("feed", metal="tin_bronze", casting_volume_cm3=600, casting_area_cm2=600)
    assert any(
        remark.startswith("Tin bronze freezes over 120 K, so the whole section turns to mush")
        for remark in bronze["ways_out"]
    )
    assert bronze["headline"].startswith(
        "A riser helps little in this metal, which freezes over a wide range. If you make one beside the casting: "
    )
    iron = ask("feed", metal="grey_iron", casting_volume_cm3=600, casting_area_cm2=600)
    assert iron["headline"].startswith("Cast it without a riser first: grey iron expands as it freezes.")
