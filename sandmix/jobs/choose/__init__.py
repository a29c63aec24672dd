"""The job *choose*: whether a sand or a clay is usable and why, what to test next, and how much is left after grinding and sieving."""

from __future__ import annotations

from sandmix.asking.job import Job, OnlyFor
from sandmix.jobs.choose.figures import needs, run
from sandmix.jobs.choose.form import ChooseForm, resolve
from sandmix.jobs.choose.telling import tell
from sandmix.materials import choosing


def _labels_of(stuff: str) -> tuple[str, ...]:
    """The labels of a material, and the one for no label."""
    return (*(kind.key for kind in choosing.KINDS.values() if kind.stuff == stuff and kind.label), choosing.UNKNOWN)


JOB = Job(
    name="choose",
    short="Choose sand and clay",
    title="Is this usable for moulding sand?",
    answered_with="usable, with care, or not, and why; the test to do first; what grinding and sieving leave",
    group="tests",
    form=ChooseForm,
    resolve=resolve,
    run=run,
    tell=tell,
    answers=(
        "usability",
        "test_first",
        "reasons",
        "yield_pct",
        "usable_kg",
        "buy_kg",
        "live_clay_kg",
    ),
    needs=needs,
    only_for=(
        OnlyFor(
            choice="bag_label",
            words={
                "stuff": (choosing.UNKNOWN,),
                **dict.fromkeys(("vinegar", "smoke", "jar", "grain_shape", "pebbles_pct"), _labels_of(choosing.SAND)),
                **dict.fromkeys(
                    ("clay_vinegar", "swell_ml", "swollen", "perfume", "clay_activity_pct", "clay_moisture_pct_wet"),
                    _labels_of(choosing.CLAY),
                ),
            },
        ),
    ),
    example={
        "bag_label": "pond or liner bentonite",
        "swell_ml": "27 mL",
        "swollen": "a gel",
        "bought_kg": "25 kg",
        "ground_kg": "3 kg",
        "passed_kg": "2.6 kg",
        "wanted_kg": "3.6 kg",
    },
    story=(
        "A 25 kg bag of pond-liner bentonite went lumpy in storage. Three kilograms were broken up and sieved, and a pinch "
        "stood in water for a day."
    ),
)
