"""The cautions: what stands at the steps where the work can hurt someone."""

import pytest

from sandmix.asking import cautions
from sandmix.language.sources import SOURCES

CAUTIONS = [value for value in vars(cautions).values() if isinstance(value, cautions.Caution)]


@pytest.mark.parametrize("caution", CAUTIONS, ids=lambda caution: caution.word)
def test_a_caution_starts_with_its_word_and_names_a_source(caution):
    assert str(caution).startswith(f"{caution.word}: ")
    assert caution.source in SOURCES
    assert "safe" not in str(caution).lower().split()


@pytest.mark.parametrize(
    ("caution", "parts"),
    [
        (cautions.MAGNESIUM, ("swarf", "dry sand", "never with water")),
        (cautions.LEAD, ("Free-cutting brass, plumbing brass", "respirator", "children")),
        (cautions.GLARE, ("dark lens", "Bronze, brass and iron")),
        (cautions.VENT_GAS, ("carbon monoxide", "burn at the vents", "coal dust, wood flour, oil or resin")),
        (cautions.FLUX_FUME, ("degassing tablets", "upwind")),
        (cautions.LIFT, ("only at waist height and close to the body", "From the floor")),
    ],
    ids=lambda value: value.word if isinstance(value, cautions.Caution) else "",
)
def test_a_caution_says_what_it_is_about_and_what_to_do(caution, parts):
    assert [part for part in parts if part.lower() not in caution.text.lower()] == []
