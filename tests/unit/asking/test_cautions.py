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
