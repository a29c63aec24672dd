"""The ranking: Bayes' rule by hand on small tables, readings with their uncertainty, and when a cause is called likely."""

import pytest

from sandmix.defects.causes import CAUSES, NAMED, OTHER
from sandmix.diagnosis import ranking
from sandmix.diagnosis.ranking import Evidence
from sandmix.materials.metals import METALS

AL = METALS["aluminium"]


def clue(chance_of, usual=0.1, key="sign", family="made up"):
    return Evidence(key=key, text=key, family=family, chances=dict.fromkeys(CAUSES, usual) | chance_of)


def test_bayes_rule_by_hand():
    """Priors 1 : 3, chances 0.9 : 0.1 and 0.2 : 0.4. 1 × 0.9 × 0.2 = 0.18; 3 × 0.1 × 0.4 = 0.12; 0.18 of 0.30 is 0.6."""
    clues = [({"a": 0.9, "b": 0.1}, 1.0), ({"a": 0.2, "b": 0.4}, 1.0)]
    assert ranking.posterior({"a": 1, "b": 3}, clues, power=1.0) == pytest.approx({"a": 0.6, "b": 0.4})


def test_a_power_of_a_half_takes_square_roots():
    """1 × √0.81 = 0.9; 3 × √0.09 = 0.9: half each, where the full power gives 0.81 to 0.27."""
    assert ranking.posterior({"a": 1, "b": 3}, [({"a": 0.81, "b": 0.09}, 1.0)], power=0.5) == pytest.approx(
        {"a": 0.5, "b": 0.5}
    )
    assert ranking.posterior({"a": 1, "b": 3}, [({"a": 0.81, "b": 0.09}, 0.5)], power=1.0)["a"] == pytest.approx(0.5)


def test_without_evidence_the_shares_are_the_priors():
    """12 for too wet, of 154 in all."""
    assert ranking.rank([])["too_wet"] == pytest.approx(12 / 154)
    assert next(iter(ranking.rank([]))) == "too_wet"


def test_one_sign_of_the_table_by_hand():
    """Clay balls: 0.9 for mulling (10), 0.3 for much clay (4) and hot sand (4): 0.9^0.8 × 10 to 0.3^0.8 × 4."""
    shares = ranking.rank([ranking.sign("clay_balls")])
    assert shares["poorly_mulled"] / shares["much_clay"] == pytest.approx(10 / 4 * (0.9 / 0.3) ** 0.8)
    assert shares["much_clay"] == pytest.approx(shares["hot_sand"])


def test_the_place_and_the_wall_of_a_hole_by_hand():
    """Rough wall in the thickest part: shrinkage (8) 0.9 and 0.9, gas in the metal (9) 0.1 and 0.3: 8/9 × 9^0.8 × 3^0.8 = 12.4 to 1."""
    shares = ranking.rank([ranking.sign("wall_rough"), ranking.sign("hole_in_thick")])
    assert shares["shrinkage"] / shares["gas_in_metal"] == pytest.approx(8 / 9 * 9**0.8 * 3**0.8)
    assert next(iter(shares)) == "shrinkage"


def test_smooth_holes_all_through_are_gas_in_the_metal():
    """Against shrinkage: 9/8 × (0.9/0.01)^0.8 × (0.9/0.1)^0.8."""
    shares = ranking.rank([ranking.sign("wall_smooth"), ranking.sign("hole_all_through")])
    assert shares["gas_in_metal"] / shares["shrinkage"] == pytest.approx(9 / 8 * 90**0.8 * 9**0.8)
    assert next(iter(shares)) == "gas_in_metal"


def test_a_sign_has_its_mean_chance_with_the_unknown_cause():
    sign = ranking.sign("run_out")
    common = {cause: CAUSES[cause].prior_pct for cause in NAMED}
    mean = sum(common[cause] * sign.chances[cause] for cause in NAMED) / sum(common.values())
    assert sign.chances[OTHER] == pytest.approx(mean)


def test_shares_of_very_small_chances_add_up_to_one():
    shares = ranking.posterior({"a": 1, "b": 1}, [({"a": 1e-300, "b": 1e-200}, 1.0)] * 5, power=1.0)
    assert shares == {"a": 0.0, "b": 1.0}


def test_a_reading_is_spread_over_the_bands_by_its_normal_distribution():
    """At an edge with a deviation of 1: half below; 0.3413 up to one deviation above (table of the normal distribution)."""
    assert ranking.shares_in_bands(4.0, 1.96, [4, 5]) == pytest.approx([0.5, 0.3413, 0.1587], abs=1e-4)


def test_a_reading_without_uncertainty_is_in_one_band():
    assert ranking.shares_in_bands(5.0, 0.0, [4, 6]) == [0, 1, 0]
    assert ranking.shares_in_bands(4.0, 0.0, [4, 6]) == [0, 1, 0]
    assert ranking.shares_in_bands(9.0, 0.0, [4, 6]) == [0, 0, 1]


def test_a_reading_counts_by_its_bands():
    """Rested 0.2 h, exact: 62 of 100 where mulling is at fault, 14 otherwise."""
    clue = ranking.reading("rested_h", 0.2, 0.0, AL)
    assert clue.chances["poorly_mulled"] == pytest.approx(0.62)
    assert clue.chances["light_cope"] == pytest.approx(0.14)
    assert clue.text == "resting time 0.2 h (hardly rested)"


def test_an_uncertain_reading_counts_less():
    exact, rough = (ranking.reading("moisture_pct_wet", 1.0, half_width, AL) for half_width in (0.1, 3.0))
    assert ranking.rank([rough])["too_dry"] < ranking.rank([exact])["too_dry"]


def test_the_same_moisture_is_wetter_for_bronze():
    light, heavy = (ranking.reading("moisture_pct_wet", 4.3, 0.1, METALS[key]) for key in ("aluminium", "tin_bronze"))
    assert ranking.rank([heavy])["too_wet"] > 2 * ranking.rank([light])["too_wet"]


def test_a_check_counts_by_its_outcome():
    assert ranking.check("no_vents").chances["unvented"] == pytest.approx(0.95)
    assert ranking.check("no_vents").family == "vents"
    assert ranking.check("clean_squeeze").family == "strength"


def test_a_sign_not_seen_counts_a_little_but_is_not_a_kind_of_evidence():
    seen = [ranking.sign("pin_holes")]
    more = [*seen, *ranking.absent(["pin_holes"])]
    assert len(more) == 37
    assert ranking.rank(more)["unvented"] < ranking.rank(seen)["unvented"]
    assert ranking.families_for(more, "gas_in_metal") == {"gas"}


def test_only_clues_that_support_the_leader_count_as_kinds():
    """Pin holes support gas in the metal; cool sand says nothing about it."""
    clues = [ranking.sign("pin_holes"), ranking.check("sand_cool"), ranking.check("opened_cold")]
    assert ranking.families_for(clues, "gas_in_metal") == {"gas"}
    assert not ranking.is_likely({"gas_in_metal": 0.9, "too_wet": 0.05, OTHER: 0.05}, clues)


def test_causes_with_half_the_share_of_the_first_lead_but_never_the_unknown():
    shares = {"a": 0.3, "b": 0.15, "c": 0.14, OTHER: 0.41}
    assert ranking.leading(shares) == ["a", "b"]


def test_at_most_four_causes_lead():
    assert len(ranking.leading(dict.fromkeys("abcdef", 1 / 6))) == 4


def kinds(*names):
    return [clue({"a": 0.5}, key=name, family=name) for name in names]


@pytest.mark.parametrize(
    ("shares", "clues", "likely"),
    [
        ({"a": 0.6, "b": 0.2, OTHER: 0.2}, kinds("x", "y"), True),
        ({"a": 0.6, "b": 0.2, OTHER: 0.2}, kinds("x", "x"), False),
        ({"a": 0.44, "b": 0.2, OTHER: 0.2}, kinds("x", "y"), False),
        ({"a": 0.6, "b": 0.31, OTHER: 0.09}, kinds("x", "y"), False),
        ({OTHER: 0.8, "a": 0.1, "b": 0.1}, kinds("x", "y"), False),
        ({"a": 0.6, "b": 0.2, OTHER: 0.2}, kinds("x", "absent"), False),
    ],
)
def test_likely_needs_a_large_share_a_margin_and_two_kinds_of_evidence(shares, clues, likely):
    assert ranking.is_likely(shares, clues) is likely


def test_dusty_contradicts_wet_but_not_weak():
    dusty, wet, weak = (ranking.sign(key) for key in ("dusty", "wet_squeeze", "weak_squeeze"))
    assert ranking.contradictions([dusty, wet]) == [(dusty, wet)]
    assert ranking.contradictions([dusty, weak, *ranking.absent(["dusty", "weak_squeeze"])]) == []


def test_a_dry_reading_contradicts_a_wet_handful():
    wet, dry = ranking.sign("wet_squeeze"), ranking.reading("moisture_pct_wet", 1.2, 0.3, AL)
    assert ranking.contradictions([wet, dry]) == [(wet, dry)]


def test_contradictory_evidence_raises_the_unknown_cause():
    one = ranking.rank([ranking.sign("dusty")])[OTHER]
    assert ranking.rank([ranking.sign("dusty"), ranking.sign("wet_squeeze")])[OTHER] > one


@pytest.mark.parametrize(("chance", "support"), [(0.2, 1), (0.1, 0), (0.05, -1), (0.12, 0)])
def test_a_clue_supports_a_cause_speaks_against_it_or_neither(chance, support):
    assert ranking.support(clue({"too_dry": chance}), "too_dry") == support
