"""The job *choose*: is a sand or a clay usable for moulding sand, why, what to test next, and what grinding and sieving leave of it."""

from __future__ import annotations

from sandmix.asking.job import Job, OnlyFor
from sandmix.jobs.choose.figures import needs, run
from sandmix.jobs.choose.form import ChooseForm, resolve
from sandmix.jobs.choose.telling import tell
from sandmix.materials import choosing


def _labels_of(stuff: str) -> tuple[str, ...]:
    """The labels of a stuff, and that of none."""
    return (*(kind.key for kind in choosing.KINDS.values() if kind.stuff == stuff and kind.label), choosing.UNKNOWN)


JOB = Job(
    name="choose",
    short="Choose sand and clay",
    title="Is this usable for moulding sand?",
    answered_with="usable, with care, or not, and why; the test to do first; what grinding and sieving leave",
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
                **dict.fromkeys(("jar", "grain_shape", "pebbles_pct"), _labels_of(choosing.SAND)),
                **dict.fromkeys(
                    ("swell_ml", "swollen", "perfume", "clay_activity_pct", "clay_moisture_pct_wet"),
                    _labels_of(choosing.CLAY),
                ),
            },
        ),
    ),
    example={
        "bag_label": "clay litter granules without scent",
        "swell_ml": "26 mL",
        "swollen": "a gel",
        "bought_kg": "10 kg",
        "ground_kg": "2 kg",
        "passed_kg": "1.45 kg",
        "wanted_kg": "4 kg",
    },
    story="A ten kilogram bag of grey litter granules. Two kilograms went through a hand mill and a fine sieve, and a pinch stood a day in water.",
)
