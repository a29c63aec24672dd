"""The tables of signs: they are complete, and a sign is told by its grades."""

import pytest

from sandmix.defects.causes import GRADES, NAMED
from sandmix.defects.signs import HOLES, SYMPTOMS, TEARS
from sandmix.language.sources import SOURCES


@pytest.mark.parametrize("sign", SYMPTOMS.values(), ids=lambda sign: sign.key)
class TestEverySign:
    def test_it_names_known_causes_by_known_grades(self, sign):
        assert sign.chances.keys() <= set(NAMED)
        assert set(sign.chances.values()) <= set(GRADES)
        assert sign.otherwise in GRADES
        assert sign.chances, "a sign without a cause shows nothing"

    def test_it_has_a_source_and_a_label_without_separators(self, sign):
        assert sign.source in SOURCES
        assert not set(",;") & set(sign.label)


def test_a_sign_that_also_comes_without_a_defect_is_seldom_with_other_causes():
    assert SYMPTOMS["steam"].chance("light_cope") == 0.1
    assert SYMPTOMS["clay_balls"].chance("light_cope") == 0.01


def test_holes_and_tears_are_signs():
    assert SYMPTOMS.keys() >= HOLES | TEARS
    assert not HOLES & TEARS


@pytest.mark.parametrize(
    ("sign", "likelier", "rarer"),
    [
        ("wall_rough", "shrinkage", "gas_in_metal"),
        ("wall_smooth", "gas_in_metal", "shrinkage"),
        ("wall_smooth", "unvented", "dross"),
        ("wall_film", "dross", "unvented"),
        ("hole_in_thick", "shrinkage", "too_wet"),
        ("hole_under_skin", "too_wet", "gas_in_metal"),
        ("hole_all_through", "gas_in_metal", "too_wet"),
        ("hole_near_gate", "gate_erosion", "unvented"),
    ],
)
def test_the_place_and_the_wall_of_a_hole_separate_shrinkage_gas_and_dross(sign, likelier, rarer):
    assert SYMPTOMS[sign].chance(likelier) >= 3 * SYMPTOMS[sign].chance(rarer)
