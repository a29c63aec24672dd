"""The temperatures at which bentonites lose their bond.

Source: Vingas, G. J., and Zrimsek, A. H., Thermal stability of bentonites in foundry molding sands, Clays and Clay Minerals 13, 1964 (read):
1180 °F sodium, 600 °F calcium.
Row clay_heat_limits: 638 and 316 °C; tolerance 0.5. By hand (1180 - 32) 5/9 = 637.8; (600 - 32) 5/9 = 315.6.
Computed by: the row's author.
"""

import pytest

from sandmix.language.units import convert
from sandmix.materials.sands_and_clays import CLAYS


@pytest.mark.parametrize(
    ("clay", "fahrenheit", "printed"), [("sodium_bentonite", 1180, 638), ("calcium_bentonite", 600, 316)]
)
def test_each_bentonite_loses_its_bond_at_the_published_temperature(clay, fahrenheit, printed):
    assert CLAYS[clay].limit_c == pytest.approx(printed, abs=0.5)
    assert convert(fahrenheit, "°F", "°C") == pytest.approx(printed, abs=0.5)


def test_granules_have_no_limit_before_a_swell_test():
    assert CLAYS["clay_granules"].limit_c is None
