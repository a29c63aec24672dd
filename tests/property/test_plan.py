"""Each step of a plan is what its own job answers to the step's inputs, to the last bit."""

from __future__ import annotations

from effort import examples
from hypothesis import assume, given
from hypothesis import strategies as st

from sandmix.materials.metals import METALS

BOOK = [
    {"kind": "mixed", "at": "2027-03-06", "make_kg": "45 kg", "clay_pct_dry": "7.5 %", "moisture_pct_wet": "3.4 %"},
    {"kind": "poured", "at": "2027-03-13", "metal": "aluminium", "metal_kg": "1.5 kg"},
]


def test_every_step_is_what_its_own_job_answers(ask):
    @examples(100)
    @given(asked=casting_and_sand(), flasks=st.lists(flask(), max_size=3), book=st.booleans())
    def holds(asked, flasks, book):
        plan = ask("plan", **asked, **({"flasks": flasks} if flasks else {}), **({"book": BOOK} if book else {}))
        assert "fault" not in plan, plan
        assume(plan["ok"])
        for step in plan["steps"]:
            own = ask(step["job"], **step["inputs"])
            if "lead" in step:
                assert {part: own[part] for part in ("lead", "state", "headline")} == {
                    part: step[part] for part in ("lead", "state", "headline")
                }
            else:
                assert not own["ok"]
                missing = all(problem["given"] == "nothing" for problem in own["problems"])
                assert bool(step["needs"]) == missing
        for word, value in plan["result"].items():
            assert value in [ask(step["job"], **step["inputs"]).get("result", {}).get(word) for step in plan["steps"]]

    holds()


@st.composite
def flask(draw):
    side, depth = st.floats(100, 800), st.floats(40, 250)
    return {
        "flask_length_mm": draw(side),
        "flask_width_mm": draw(side),
        "drag_depth_mm": draw(depth),
        "cope_depth_mm": draw(st.one_of(st.just(0.0), depth)),
    }


SIZES = {
    "box_mm": st.lists(st.floats(5, 300), min_size=3, max_size=3),
    "casting_volume_cm3": st.floats(5, 5000),
    "casting_kg": st.floats(0.05, 20),
}
OTHERS = {
    "casting_area_cm2": st.floats(20, 5000),
    "projected_area_cm2": st.floats(5, 2000),
    "modulus_mm": st.floats(1, 40),
    "patterns_count": st.integers(1, 4),
    "gating_volume_cm3": st.floats(0, 1000),
    "frame_kg": st.floats(0, 10),
    "heap_kg": st.floats(1, 200),
    "moisture_pct_wet": st.floats(0, 9),
    "clay_pct_dry": st.floats(0, 12),
    "dead_fines_pct_dry": st.floats(0, 12),
    "target_clay_pct_dry": st.floats(0, 12),
    "target_moisture_pct_wet": st.floats(2, 7),
    "crucible_l": st.floats(0.2, 10),
    "sand_bag_kg": st.floats(5, 30),
    "clay_bag_kg": st.floats(5, 30),
}


@st.composite
def casting_and_sand(draw):
    metal = draw(st.sampled_from(list(METALS)))
    size = draw(st.sampled_from(list(SIZES)))
    others = draw(st.fixed_dictionaries({}, optional=OTHERS))
    return {"metal": metal, size: draw(SIZES[size])} | others
