"""The entry of the heap book that a planned cast leads to."""

from __future__ import annotations

from typing import Any

from sandmix.jobs.plan.carrier import Carrier
from sandmix.jobs.plan.steps import Step
from sandmix.materials.metals import METALS
from sandmix.vocabulary import default_of

OF_BACKING = ("flask_sand_kg", "sand_lost_kg", "clay_burnt_kg", "water_driven_kg")
"""What the entry of a cast says of the backing alone, where its facing is another heap."""


def offered(facing: Step | None, kind: str) -> list[dict[str, Any]]:
    """Return the words of the entries of that *kind* that the step of the facing suggests; none where there is no such step or no answer."""
    records = facing.answer["records"] if facing and facing.answer else ()
    return [dict(record["words"]) for record in records if record["kind"] == kind]


def of_cast(
    carrier: Carrier, flask: Step, name: str = "", facing: Step | None = None, *, gating_cm3: float | None
) -> dict[str, Any]:
    """Return the words of the entry *poured*: all metal of the mould, the modulus of one casting, and the sand of its flask.

    The gating takes *gating_cm3*, or where that is None its usual share of the casting.

    *name* is what the person calls the pattern, if they call it anything. With a *facing* of its own it says what the cast does to the backing.
    """
    form = carrier.filled.form
    cm3 = carrier.cm3(form.count)
    poured_cm3 = cm3 + (default_of("gating_pct") / 100 * cm3 if gating_cm3 is None else gating_cm3)
    kilograms = poured_cm3 * 1e-6 * METALS[form.metal].solid_kg_m3
    sand = flask.carried("rammed_kg", "flask_sand_kg")
    others = {word: carried.given for word, carried in (sand | carrier.several("pour_temp_c")).items()}
    for words in offered(facing, "poured"):
        others |= {word: words[word] for word in OF_BACKING}
    pattern = {"pattern": name} if name else {}
    return {"metal": form.metal, "metal_kg": kilograms, **pattern, **_modulus(carrier, cm3 / form.count), **others}


def _modulus(carrier: Carrier, cm3: float) -> dict[str, object]:
    """The modulus of one casting of *cm3*: as given, or from its surface."""
    surface = carrier.surface()
    if "modulus_mm" in surface:
        return {"modulus_mm": surface["modulus_mm"].given}
    if "casting_area_cm2" not in surface:
        return {}
    area = surface["casting_area_cm2"].given
    assert isinstance(area, dict)
    area_cm2 = float(area["value"])
    return {"modulus_mm": 10 * cm3 / area_cm2} if area_cm2 > 0 else {}
