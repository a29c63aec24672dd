"""The rule of the modulus against the heat that is solved: does the riser freeze after the casting?

Chvorinov's rule takes freezing times as the square of the modulus, whatever the shape. The solution of ``cooling`` knows how the area grows
outward, and does not use that rule. Castings are blocks with sides of 8 to 200 mm, drawn with a fixed seed, in every metal that shrinks, with
four contacts. A side riser as high as it is wide is solved as a ball of the same modulus, since half its diameter is three times that.
The share of 95 % was set before anything was measured.
"""

import math
import random

import pytest
from against.published import Checks
from effort import fewer

from sandmix.cooling.burnout import shape_n
from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import PERFECT, ROUGH, Case
from sandmix.feeding import riser
from sandmix.jobs.feed.remarks import FLAT_RATIO
from sandmix.materials.metals import METALS, thermal
from sandmix.materials.sands_and_clays import SANDS_FOR_HEAT
from sandmix.materials.shrinkage import SHRINKAGES

SOLVED = Checks("riser_freezing", source="heat", sure="separate", claimed="project")
CASTINGS = 720
SHRINKING = [metal for metal in METALS if SHRINKAGES[metal].pct > 0]
CONTACTS = (61.0, 132.0, 600.0, PERFECT)


def freeze_s(metal, contact, n, modulus_mm):
    case = Case(
        metal=thermal(metal),
        pour_temp_c=METALS[metal].pour_temp_c,
        sand=SANDS_FOR_HEAT["a"],
        water=0.036,
        shape_n=n,
        modulus_mm=modulus_mm,
        contact_w_m2k=contact,
    )
    return cool(case, ROUGH).freeze_s


@pytest.fixture(scope="module")
def solved():
    """For each casting: how long casting, riser, and a riser by the modulus alone take to freeze."""
    draws = random.Random(20270306)
    found = []
    for _ in range(fewer(CASTINGS)):
        sides = sorted(math.exp(draws.uniform(math.log(8), math.log(200))) for _ in range(3))
        metal, contact = draws.choice(SHRINKING), draws.choice(CONTACTS)
        volume = math.prod(sides) / 1000
        modulus = math.prod(sides) / (2 * (sides[0] * sides[1] + sides[0] * sides[2] + sides[1] * sides[2]))
        by_freezing = riser.freezing_diameter_mm(riser.RATIO * modulus, "side", 1.0)
        by_volume = riser.volume_diameter_mm(volume, SHRINKAGES[metal].pct / 100, 0.14, 1.0)
        n, _ = shape_n(sides[0] / 2, modulus)
        found.append(
            (
                freeze_s(metal, contact, n, modulus),
                freeze_s(metal, contact, 2.0, max(by_freezing, by_volume) / 6),
                freeze_s(metal, contact, 2.0, by_freezing / 6),
            )
        )
    return found


def test_the_riser_freezes_after_the_casting(solved):
    share = sum(fed > casting for casting, fed, _ in solved) / len(solved)
    SOLVED.between(share, "0.95", "", f"share of {CASTINGS} blocks that freeze before their riser", varies=True)


def test_by_the_modulus_alone_it_mostly_does(solved):
    share = sum(alone > casting for casting, _, alone in solved) / len(solved)
    SOLVED.between(share, "0.90", "", "the same with risers by the modulus alone", varies=True)


@pytest.mark.parametrize("metal", ["al_si12", "tin_bronze"])
def test_beside_an_endless_plate_in_perfect_contact_the_modulus_alone_fails(metal):
    """A plate cools into sand that stays as wide as it is; around a riser it widens, which takes heat away sooner."""
    ratio = freeze_s(metal, PERFECT, 2.0, 12.0) / freeze_s(metal, PERFECT, 0.0, 10.0)
    what = f"{METALS[metal].label}: time of a riser of 1.2 times the modulus over that of an endless plate, perfect contact"
    early = (
        "around a riser the sand widens and takes heat away sooner, so 1.2 is too little there; the answer advises 1.5"
    )
    SOLVED.but(source="riser_modulus", sure="read", claimed="source").between(ratio, "1.00", "", what, differs=early)


@pytest.mark.parametrize("metal", SHRINKING)
def test_a_ratio_of_one_and_a_half_is_enough_beside_it(metal):
    """In each contact; the ratio that the answer names for wide plates."""
    for contact in CONTACTS:
        later = freeze_s(metal, contact, 2.0, FLAT_RATIO * 10) > freeze_s(metal, contact, 0.0, 10.0)
        SOLVED.holds(
            later, f"a ratio of {FLAT_RATIO:g} is enough beside an endless plate, in each contact", case=contact
        )
