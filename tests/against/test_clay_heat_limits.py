"""The temperatures at which bentonites lose their bond.

Source: Vingas, G. J., and Zrimsek, A. H., Thermal stability of bentonites in foundry molding sands, Clays and Clay Minerals 13, 1964 (read):
1180 °F sodium, 600 °F calcium.
By hand (1180 - 32) 5/9 = 637.8; (600 - 32) 5/9 = 315.6.
"""

import pytest
from against.published import Checks

from sandmix.language.units import convert
from sandmix.materials.sands_and_clays import CLAYS


@pytest.mark.parametrize(
    ("clay", "fahrenheit", "printed"), [("sodium_bentonite", 1180, "638"), ("calcium_bentonite", 600, "316")]
)
def test_each_bentonite_loses_its_bond_at_the_published_temperature(clay, fahrenheit, printed):
    limits = Checks("heat_limits", source="vingas_zrimsek_1964", sure="read")
    what = f"{clay.replace('_', ' ')}, {fahrenheit} °F"
    limits.figure(CLAYS[clay].limit_c, printed, what, unit="°C")
    limits.figure(convert(fahrenheit, "°F", "°C"), printed, what, unit="°C")


def test_granules_have_no_limit_before_a_swell_test():
    assert CLAYS["clay_granules"].limit_c is None
