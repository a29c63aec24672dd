"""What each kind of event does to a heap, by hand."""

import math
from dataclasses import replace

import pytest

from sandmix.book import event_effects
from sandmix.book.event_effects import outcome_of
from sandmix.book.events import KINDS
from sandmix.book.heap import NO_BURNT_SAND, BurntSand, HeapState
from sandmix.language.errors import InputError
from sandmix.materials.delta import UNCERTAIN, Delta
from sandmix.materials.sand import PARTS
from sandmix.materials.sands_and_clays import CLAYS
from sandmix.recipes import sand_loss

PARTS_KG = {
    "grain_kg": 26.0,
    "live_clay_kg": 2.0,
    "dead_clay_kg": 0.5,
    "other_fines_kg": 0.3,
    "organics_kg": 0.0,
    "water_kg": 1.2,
}
VARIANCES = dict.fromkeys(UNCERTAIN, 0.04)
TOTAL = Delta.of(PARTS_KG, VARIANCES)
HEAP = HeapState(total=TOTAL)
NOTHING = HeapState()
POUR = {"metal_kg": 1.2, "modulus_mm": 8}


def change_of(kind, words, state=HEAP):
    return outcome_of(kind, words, state).delta.by_part()


def half_of(outcome, part):
    return 1.96 * math.sqrt(outcome.delta.variances[part])


def test_mixed_sand_has_its_planned_figures():
    """30 kg at 3.5 %: 1.05 of water and 28.95 dry, 7 % of it live clay (2.0265), 1 % fines (0.2895), the rest grain."""
    words = {"make_kg": 30, "moisture_pct_wet": 3.5, "clay_pct_dry": 7, "dead_fines_pct_dry": 1}
    assert change_of("mixed", words) == pytest.approx(
        {
            "grain_kg": 26.634,
            "live_clay_kg": 2.0265,
            "dead_clay_kg": 0,
            "other_fines_kg": 0.2895,
            "organics_kg": 0,
            "water_kg": 1.05,
        }
    )


def test_the_error_of_mixed_sand_comes_from_its_moisture_and_its_clay():
    """± 0.35 points of 30 kg are 0.105 kg of water for dry sand; ± 0.7 points of 28.95 kg are 0.20265 kg of clay."""
    outcome = outcome_of("mixed", {"make_kg": 30, "moisture_pct_wet": 3.5, "clay_pct_dry": 7}, NOTHING)
    assert half_of(outcome, "water_kg") == pytest.approx(0.105)
    assert half_of(outcome, "dry_kg") == pytest.approx(0.105)
    assert half_of(outcome, "live_clay_kg") == pytest.approx(math.hypot(0.20265, 0.07 * 0.105))


def test_fines_that_are_not_given_are_zero_plus_or_minus_one_percent():
    outcome = outcome_of("mixed", {"make_kg": 30, "moisture_pct_wet": 3.5, "clay_pct_dry": 7}, NOTHING)
    assert half_of(outcome, "other_fines_kg") == pytest.approx(0.2895)


def test_sand_from_elsewhere_as_it_lay():
    """10 kg at 4 %: 0.4 of water; 5 % of 9.6 is 0.48."""
    change = change_of("joined", {"joined_kg": 10, "moisture_pct_wet": 4, "clay_pct_dry": 5})
    assert change["water_kg"] == pytest.approx(0.4)
    assert change["live_clay_kg"] == pytest.approx(0.48)
    assert sum(change.values()) == pytest.approx(10)


def test_added_material_brings_its_water_and_the_inactive_part_of_the_clay():
    """5 kg of sand at 2 %: 0.1 water. 2 kg of clay at 10 %, 80 % live: 1.8 dry, 1.44 live, 0.36 idle, 0.2 water. And 0.3 water."""
    words = {
        "sand_kg": 5,
        "sand_moisture_pct_wet": 2,
        "clay_kg": 2,
        "clay_moisture_pct_wet": 10,
        "clay_activity_pct": 80,
        "water_kg": 0.3,
    }
    change = change_of("added", words)
    assert change["grain_kg"] == pytest.approx(4.9)
    assert change["live_clay_kg"] == pytest.approx(1.44)
    assert change["other_fines_kg"] == pytest.approx(0.36)
    assert change["water_kg"] == pytest.approx(0.6)


def test_new_sand_given_by_what_was_weighed_in_counts_as_added_material():
    words = {"sand_kg": 5, "clay_kg": 0.4, "water_kg": 0.2}
    assert outcome_of("mixed", words, HEAP).delta == outcome_of("added", words, HEAP).delta


def test_an_unknown_clay_activity_is_the_one_that_a_mix_starts_from_and_may_be_lower():
    """Granules, 50 to 85 % live: 85 % of 0.9 kg dry is 0.765, and down to 50 % is 0.315 less."""
    words = {"clay_kg": 1, "clay": "clay_granules", "clay_moisture_pct_wet": "10 ± 0 %"}
    outcome = outcome_of("added", words, NOTHING)
    assert outcome.delta.live_clay_kg == pytest.approx(0.765)
    assert half_of(outcome, "live_clay_kg") == pytest.approx(0.315, rel=0.02)


@pytest.mark.parametrize("clay", CLAYS)
@pytest.mark.parametrize("kind", ["mixed", "added"])
def test_a_mix_has_the_same_live_clay_in_the_book(ask, kind, clay):
    """7 % live by the job mix, weighed in as it says, is 7 % in the book."""
    mix = ask("mix", make_kg=40, clay_pct_dry=7, moisture_pct_wet=3.5, clay=clay)["result"]
    weighed = {word: mix[word] for word in ("sand_kg", "clay_kg", "water_kg")}
    sand = NOTHING.after(outcome_of(kind, {**weighed, "clay": clay}, NOTHING)).sand
    assert sand.clay_pct_dry == pytest.approx(7)
    assert sand.moisture_pct_wet == pytest.approx(3.5)


TAKEN = [("discarded", "discard_kg"), ("riddled", "lost_kg"), ("spilled", "lost_kg"), ("split", "split_kg")]


@pytest.mark.parametrize(("kind", "word"), TAKEN)
def test_sand_is_taken_as_it_lies(kind, word):
    """3 of 30 kg: a tenth of each part."""
    assert change_of(kind, {word: 3}) == pytest.approx({part: -kg / 10 for part, kg in PARTS_KG.items()})


@pytest.mark.parametrize(("kind", "word"), TAKEN)
def test_sand_that_is_taken_takes_its_uncertainty_with_it(kind, word):
    """A tenth gone leaves 0.9² of the variance of the clay; the weighing of 3 kg, ± 0.05 and 0.5 %, adds to mass and water."""
    outcome = outcome_of(kind, {word: "3 ± 0 kg"}, HEAP)
    assert outcome.delta.variances["live_clay_kg"] == pytest.approx(-0.19 * 0.04)
    assert outcome.delta.variances["water_kg"] == pytest.approx(-0.19 * 0.04)
    weighed = outcome_of(kind, {word: "3 ± 0.5 kg"}, HEAP)
    assert weighed.delta.variances["water_kg"] == pytest.approx((0.5 * 1.2 / 30 / 1.96) ** 2 - 0.19 * 0.04)
    assert weighed.delta.variances["dry_kg"] == pytest.approx((0.5 * 28.8 / 30 / 1.96) ** 2 - 0.19 * 0.04)


@pytest.mark.parametrize(("kind", "word"), TAKEN)
def test_taking_a_little_more_than_the_book_has_empties_the_heap(kind, word):
    assert change_of(kind, {word: 35}) == pytest.approx({part: -kg for part, kg in PARTS_KG.items()})
    assert outcome_of(kind, {word: 35}, HEAP).lines[1].startswith("5 kg more")
    assert len(outcome_of(kind, {word: 30}, HEAP).lines) == 1


BEYOND = [*((kind, {word: 37}, word) for kind, word in TAKEN), ("poured", {**POUR, "sand_lost_kg": 37}, "sand_lost_kg")]


@pytest.mark.parametrize(("kind", "words", "named"), BEYOND)
def test_taking_over_a_fifth_more_than_the_book_has_is_refused(kind, words, named):
    with pytest.raises(InputError, match="37 kg is more than the 30 kg") as refused:
        outcome_of(kind, words, HEAP)
    assert [problem.word for problem in refused.value.problems] == [named]


@pytest.mark.parametrize(("kind", "sign"), [("tempered", 1), ("rained_on", 1), ("dried", -1)])
def test_water_is_added_and_lost_by_its_mass(kind, sign):
    assert change_of(kind, {"water_kg": 0.25}) == pytest.approx(dict.fromkeys(PARTS, 0.0) | {"water_kg": sign * 0.25})


def test_added_water_cannot_make_sand_drier():
    with pytest.raises(InputError):
        outcome_of("tempered", {"moisture_pct_wet": 2}, HEAP)


def test_no_more_water_dries_off_than_there_is():
    assert change_of("dried", {"water_kg": 3})["water_kg"] == pytest.approx(-1.2)


@pytest.mark.parametrize("kind", ["tempered", "rained_on", "dried"])
def test_water_can_be_given_by_the_moisture_afterwards(kind):
    """28.8 dry at 10 %: 28.8 / 9 = 3.2 of water, 2 more than there was; the error of the reading replaces the old one of the water."""
    outcome = outcome_of(kind, {"moisture_pct_wet": "10 ± 0 %"}, HEAP)
    assert outcome.delta.water_kg == pytest.approx(2)
    assert outcome.delta.variances["water_kg"] == pytest.approx(-0.04)
    read = outcome_of(kind, {"moisture_pct_wet": "10 ± 0.5 %"}, HEAP)
    ends = [28.8 * share / (1 - share) for share in (0.095, 0.105)]
    assert 1.96 * math.sqrt(read.delta.variances["water_kg"] + 0.04) == pytest.approx(ends[1] - 3.2)


def test_a_test_with_its_water_is_the_test_and_then_the_water():
    """3 ± 0 % of 28.8 kg dry: 28.8 · 0.03/0.97 of water, and then 0.2 kg more or less; the scale's ± 0.05 kg and half a percent come with it."""
    test = {"moisture_pct_wet": "3 ± 0 %"}
    alone = outcome_of("measured", test, HEAP)
    for word, sign, line in (
        ("water_added_kg", 1, "then water was added"),
        ("water_dried_kg", -1, "then water was dried off"),
    ):
        both = outcome_of("measured", test | {word: "200 g"}, HEAP)
        assert HEAP.after(both).sand.water_kg == pytest.approx(28.8 * 0.03 / 0.97 + sign * 0.2)
        assert both.lines == (*alone.lines, f"{line}: 0.200 kg")
        more = both.delta.variances["water_kg"] - alone.delta.variances["water_kg"]
        assert 1.96 * math.sqrt(more) == pytest.approx(math.hypot(0.05, 0.001))
        assert both.aged and alone.aged
    assert outcome_of("measured", test | {"water_added_kg": 0}, HEAP) == alone


def test_no_more_water_is_dried_off_after_a_test_than_there_is():
    outcome = outcome_of("measured", {"moisture_pct_wet": "3 ± 0 %", "water_dried_kg": 5}, HEAP)
    assert HEAP.after(outcome).sand.water_kg == pytest.approx(0, abs=1e-12)
    assert outcome.lines[-1] == f"then water was dried off: {28.8 * 0.03 / 0.97:.3f} kg"


def test_a_test_with_water_added_mixes_the_burnt_sand_back():
    burnt = replace(HEAP, burnt=BurntSand(sand_kg=1.0, clay_kg=0.1, variance=0.01))
    test = {"moisture_pct_wet": "3 %"}
    assert outcome_of("measured", test | {"water_added_kg": 0.2}, burnt).burnt == burnt.burnt.reversed()
    for words in (test, test | {"water_dried_kg": 0.2}, test | {"water_added_kg": 0}):
        assert outcome_of("measured", words, burnt).burnt == NO_BURNT_SAND


def test_bought_materials_change_nothing_in_the_heap():
    assert not any(change_of("bought", {"sand_kg": 25, "clay_kg": 5}).values())


def test_another_metal_reports_the_water_that_must_dry_off():
    """Bronze is to hold 3.1 %: 28.8 · 0.031/0.969 = 0.92136 kg, so 0.279 of 1.2 must go."""
    outcome = outcome_of("metal_changed", {"metal": "tin_bronze"}, HEAP)
    assert not any(outcome.delta.by_part().values())
    assert "3.1 %" in outcome.lines[0] and "5.25 %" in outcome.lines[0]
    assert outcome.lines[1].startswith("0.279 kg of water")


def test_a_cast_turns_live_clay_into_dead_and_drives_water_off_before_sand_is_lost():
    """With nothing lost: grain and fines stay, what live clay loses dead clay gains."""
    change = change_of("poured", {**POUR, "sand_lost_kg": 0})
    assert change["grain_kg"] == change["other_fines_kg"] == 0
    assert change["dead_clay_kg"] == -change["live_clay_kg"] > 0
    assert -1.2 <= change["water_kg"] < 0


def test_the_clay_and_the_water_of_a_cast_are_those_of_the_job_burnout(ask):
    """In the middle of what that job says by limit and by rate, of perfect contact and of 61 W/m²K; a rough grid is within 2 %."""
    change = change_of("poured", {**POUR, "sand_lost_kg": 0})
    answers = [
        ask(
            "burnout", metal="aluminium", casting_volume_cm3=1200 / 2.7, modulus_mm=8, shape="plate", sand_kg=30,
            moisture_pct_wet=4, clay_pct_dry=100 * 2 / 28.8, contact_w_m2k=contact, clay="sodium_bentonite",
        )["result"]
        for contact in ("perfect", 61)
    ]  # fmt: skip
    burnt = [answer[word] for answer in answers for word in ("clay_burnt_kg", "clay_burnt_by_rate_kg")]
    driven = [answer["water_driven_kg"] for answer in answers]
    assert -change["live_clay_kg"] == pytest.approx((min(burnt) + max(burnt)) / 2, rel=0.02)
    assert -change["water_kg"] == pytest.approx(sum(driven) / 2, rel=0.02)


def test_a_weighed_loss_is_what_the_heap_loses():
    """A kilogram in addition to the water driven off, which is measured with a loss of zero."""
    driven = -change_of("poured", {**POUR, "sand_lost_kg": 0})["water_kg"]
    change = change_of("poured", {**POUR, "sand_lost_kg": 1})
    assert -sum(change.values()) - driven == pytest.approx(1)
    assert change["grain_kg"] / 26 == pytest.approx(change["other_fines_kg"] / 0.3)


def lost_kg(outcome, state=HEAP):
    """The kilograms that a cast lost as they lay: what is left is the heap after the heat less a share, which the grain shows."""
    share = -outcome.delta.grain_kg / state.total.grain_kg
    left_kg = state.sand.wet_kg + sum(outcome.delta.by_part().values())
    return left_kg / (1 - share) * share


def test_the_weighed_share_is_one_of_the_sand_in_the_mould():
    """1 kg of 15 · 1.2 = 18 kg, or of the 10 kg in the flask."""
    outcome = outcome_of("poured", {**POUR, "sand_lost_kg": 1}, HEAP)
    assert outcome.mould_loss_share == pytest.approx(1 / 18)
    assert outcome.how == "computed, weighed"
    assert outcome_of("poured", {**POUR, "sand_lost_kg": 1, "flask_sand_kg": 10}, HEAP).mould_loss_share == 0.1


def test_a_cast_without_a_weighing_loses_two_percent_of_the_sand_in_its_mould():
    """15 · 1.2 = 18 kg in the mould: 0.36 kg. In a flask of 10 kg: 0.2 kg. Of more metal than the heap has sand for: 2 % of the heap."""
    outcome = outcome_of("poured", POUR, HEAP)
    assert lost_kg(outcome) == pytest.approx(0.36)
    assert (outcome.how, outcome.mould_loss_share) == ("computed, default", None)
    assert "usually 1 to 3 % of the 18 kg of sand in the mould, estimated from the metal)" in outcome.lines[1]
    assert lost_kg(outcome_of("poured", {**POUR, "flask_sand_kg": 10}, HEAP)) == pytest.approx(0.2)
    assert outcome_of("poured", {**POUR, "metal_kg": 3}, HEAP).delta.grain_kg == pytest.approx(-0.02 * 26)


def test_a_large_heap_loses_no_more_than_a_small_one():
    """A flask of 10 kg out of 30 or out of 300 kg."""
    large = HeapState(total=Delta.of({part: 10 * kg for part, kg in PARTS_KG.items()}, VARIANCES))
    lost = [lost_kg(outcome_of("poured", {**POUR, "flask_sand_kg": 10}, state), state) for state in (HEAP, large)]
    assert lost == [pytest.approx(0.2)] * 2


def test_the_uncertainty_of_a_loss_is_that_of_its_share_and_of_the_sand_in_the_mould():
    """1 % of 18 kg, and 2 % of ± 9 kg: both 0.18 kg. Of a flask of 10 kg weighed to ± 1 kg: 0.1 and 0.02 kg."""
    sure = HeapState(total=Delta.of(PARTS_KG))
    for words, half in (
        (POUR, math.hypot(0.18, 0.18)),
        ({**POUR, "flask_sand_kg": "10 ± 1 kg"}, math.hypot(0.1, 0.02)),
    ):
        outcome = outcome_of("poured", words, sure)
        assert half_of(outcome, "dry_kg") == pytest.approx(half * 28.8 / 30, rel=0.01)


def test_after_weighed_casts_the_next_one_loses_the_share_that_they_taught():
    """See test_sand_loss: 3, 4 and 5 % teach 3.70 %. Of 18 kg that is 0.67 kg; of a flask of 10 kg 0.37 kg."""
    learned = HeapState(total=TOTAL, own_losses=(0.03, 0.04, 0.05))
    outcome = outcome_of("poured", POUR, learned)
    assert lost_kg(outcome) == pytest.approx(18 * 0.0370, rel=2e-3)
    assert (outcome.how, outcome.mould_loss_share) == ("computed, learned", None)
    assert lost_kg(outcome_of("poured", {**POUR, "flask_sand_kg": 10}, learned)) == pytest.approx(0.370, rel=2e-3)
    assert "3.7 % of the 18 kg" in outcome.lines[1]


def test_one_weighed_cast_teaches():
    assert outcome_of("poured", POUR, HeapState(total=TOTAL, own_losses=(0.1,))).how == "computed, learned"
    assert outcome_of("poured", POUR, HeapState(total=TOTAL)).how == "computed, default"


def test_a_weighed_loss_counts_more_than_a_learned_one():
    learned = HeapState(total=TOTAL, own_losses=(0.03, 0.04, 0.05))
    assert outcome_of("poured", {**POUR, "sand_lost_kg": 0}, learned).delta.grain_kg == 0


def test_a_mould_that_was_opened_is_judged_by_the_freezing_times_of_the_job_burnout(ask):
    """Aluminium, modulus 15 mm: by the contacts measured beside aluminium, 132 W/m²K the soonest and 61 the latest."""
    soonest, latest = (
        ask(
            "burnout", metal="aluminium", modulus_mm=15, shape="plate", contact_w_m2k=contact, moisture_pct_wet=4
        )["result"]["freeze_s"] / 60
        for contact in (132, 61)
    )  # fmt: skip
    assert 5 < soonest < latest
    wanted = {
        5: "still liquid inside",
        0.97 * soonest: "still liquid inside",
        1.03 * soonest: "may still have been liquid inside",
        0.97 * latest: "may still have been liquid inside",
        1.03 * latest: "the casting was solid by then",
    }
    for opened, words in wanted.items():
        cast = {"metal_kg": 1.2, "modulus_mm": 15, "opened_after_min": opened}
        line = outcome_of("poured", cast, HEAP).lines[-1]
        assert line.startswith(f"opened at {opened:.4g} min: ") and words in line
    assert outcome_of("poured", {**POUR, "modulus_mm": 15}, HEAP).lines == outcome_of("poured", cast, HEAP).lines[:-1]
    assert outcome_of("poured", cast, HEAP).delta == outcome_of("poured", {**POUR, "modulus_mm": 15}, HEAP).delta


def test_a_mould_opened_at_five_minutes_was_still_liquid_inside():
    [*_, line] = outcome_of("poured", {"metal_kg": 1.5, "modulus_mm": 15, "opened_after_min": "5 min"}, HEAP).lines
    assert line.startswith("opened at 5 min: it was still liquid inside; it froze after")


def test_a_larger_cast_burns_more():
    burnt = [-change_of("poured", {**POUR, "metal_kg": kg})["live_clay_kg"] for kg in (0.3, 1.2, 4.8)]
    assert burnt == sorted(burnt) and burnt[0] < burnt[2]


@pytest.mark.parametrize("state", [NOTHING, HeapState(total=Delta(water_kg=2.0))])
def test_a_cast_in_no_sand_takes_nothing(state):
    outcome = outcome_of("poured", POUR, state)
    assert not any(outcome.delta.by_part().values())
    assert "no sand in the book" in outcome.lines[0]


def test_an_outcome_names_the_version_that_worked_it_out():
    from sandmix import __version__

    assert outcome_of("tempered", {"water_kg": 1}, HEAP).by == __version__


def test_a_changed_default_affects_only_new_events(monkeypatch):
    before = change_of("poured", POUR)["grain_kg"]
    monkeypatch.setattr(sand_loss, "DEFAULT_SHARE", 0.1)
    assert change_of("poured", POUR)["grain_kg"] == pytest.approx(5 * before)


def test_every_kind_of_event_has_an_effect():
    assert set(event_effects._EFFECTS) == set(KINDS)
