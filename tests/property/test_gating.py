"""What holds for every gating: inputs that fit together, drawn over the usual ranges of their words."""

import math

import pytest
from effort import examples
from hypothesis import assume, given
from hypothesis import strategies as st

from sandmix.gating import filling, heat_loss
from sandmix.gating.filling import Cavity
from sandmix.materials.metals import METALS

WHOLE = 1e-9
RATIOS = ("1:4:4", "1:2:4", "3:2:1", "1:1:1", "4:8:3", "1:2,5:2")
POTS = {"pot_mm": st.floats(40, 400), "melt_kg": st.floats(0.3, 60), "carry_min": st.floats(0.2, 10)}


@st.composite
def gatings(draw):
    """What one mould may be asked with: no two inputs contradict each other, and the head reaches the top of the cavity."""
    head = draw(st.floats(60, 400))
    height = draw(st.floats(5, head))
    asked = {
        "metal": draw(st.sampled_from(sorted(METALS))),
        "fill_volume_cm3": draw(st.floats(10, 20_000)),
        "head_mm": head,
        "gate_place": draw(st.sampled_from(["top", "bottom", "parting"])),
        "fill_height_mm": height,
    }
    ways = st.sampled_from([{}, {"gate_cm2": 3}, {"fill_time_s": 3}, {"sprue_base_mm": 14}, {"sprue_top_mm": 20}])
    return asked | draw(ways) | draw(_optional())


def _optional():
    return st.fixed_dictionaries(
        {},
        optional={
            "gate_ratio": st.sampled_from(RATIOS),
            "gates_count": st.integers(1, 6),
            "thinnest_mm": st.floats(4, 40),
            "discharge": st.floats(0.5, 0.95),
            "gate_depth_mm": st.floats(2, 20),
            "runner_length_mm": st.floats(20, 1000),
            "gate_length_mm": st.floats(5, 100),
        },
    ).flatmap(lambda given: st.one_of(st.just(given), st.fixed_dictionaries(POTS).map(lambda pot: given | pot)))


@examples(200)
@given(asked=gatings())
def test_an_answer_is_sound_and_ends_in_a_step(ask, asked):
    answer = ask("gate", **asked)
    assert "fault" not in answer, answer.get("fault")
    assume(answer["ok"])
    result = answer["result"]
    assert all(math.isfinite(value) and value >= 0 for value in result.values())
    for word, (low, high) in answer["doubt"].items():
        assert low <= result[word] * (1 + WHOLE) + WHOLE, word
        assert result[word] <= high * (1 + WHOLE) + WHOLE, word
        assert math.isfinite(high), word
    shown = {row["text"] for row in answer["shown"]}
    assert all(row["amount"] in shown | {""} for row in answer["todo"])
    jobs = [step["job"] for step in answer["next"]]
    assert jobs == (["pattern"] if answer["state"]["tone"] == "stop" else ["pour", "flask"])


@examples(150)
@given(asked=gatings())
def test_nearly_all_of_them_are_answered(ask, asked):
    """Only a wall that the head cannot press metal into may be refused here."""
    answer = ask("gate", **asked)
    assert answer["ok"] or {problem["word"] for problem in answer["problems"]} == {"thinnest_mm"}, answer["problems"]


@examples(150)
@given(asked=gatings())
def test_the_gates_that_are_answered_give_back_the_time(ask, asked):
    first = ask("gate", **asked)
    assume(first["ok"])
    same = {
        word: value for word, value in asked.items() if word not in ("fill_time_s", "sprue_base_mm", "sprue_top_mm")
    }
    area = first["result"]["gate_cm2"]
    assume(0.01 <= area <= 10_000)
    again = ask("gate", **same | {"gate_cm2": area})
    assert again["result"]["fill_time_s"] == pytest.approx(first["result"]["fill_time_s"], rel=1e-9)


@examples(200)
@given(
    volume=st.floats(1, 1e5),
    area=st.floats(0.1, 100),
    head=st.floats(10, 1000),
    share=st.floats(0, 1),
    above=st.floats(0, 1),
)
def test_from_below_takes_longer_but_never_twice_as_long(volume, area, head, share, above):
    height = head * share
    top, part, bottom = (
        filling.fill_s(Cavity(volume_cm3=volume, place=place, height_mm=height, above_mm=above * height), area, head)
        for place in ("top", "parting", "bottom")
    )
    assert top * (1 - WHOLE) <= part <= bottom * (1 + WHOLE) <= 2 * top * (1 + 1e-7)


@examples(200)
@given(
    hot=st.floats(400, 1500),
    minutes=st.floats(0, 60),
    more=st.floats(0, 60),
    emissivity=st.floats(0.05, 1),
    size=st.floats(40, 400),
)
def test_metal_only_cools_and_later_is_colder(hot, minutes, more, emissivity, size):
    pot = heat_loss.Pot(diameter_mm=size, mass_kg=2.0, liquid_j_kgk=900.0, emissivity=emissivity)
    sooner, later = pot.after(hot, minutes), pot.after(hot, minutes + more)
    assert 20 <= later <= sooner + 1e-9 <= hot + 2e-9
    two_steps = pot.after(sooner, more)
    assert two_steps == pytest.approx(later, abs=0.5)
