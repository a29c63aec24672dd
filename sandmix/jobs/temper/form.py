"""The form of *temper*: a heap, its moisture, and the target."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking.form import Filled, Form, ask, band_about, rule
from sandmix.bench import measurements
from sandmix.language.errors import Problem
from sandmix.maths.uncertainty import half_width
from sandmix.recipes.too_wet import usual_target_pct_wet
from sandmix.vocabulary.surer import BETWEEN_HANDFULS

WEIGHINGS = ("sample_wet_g", "sample_dry_g")


@dataclass(frozen=True, slots=True, kw_only=True)
class TemperForm(Form):
    """A heap, its moisture (a weighed test or a figure), and the target."""

    heap_kg: float | None = ask("heap_kg", first=True)
    sample_wet_g: float | None = ask("sample_wet_g", first=True)
    sample_dry_g: float | None = ask("sample_dry_g", first=True)
    scale_step_g: float = ask("scale_step_g")
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, label="Moisture now")
    metal: str = ask("metal")
    sand_kind: str = ask("sand_kind")
    target_moisture_pct_wet: float | None = ask("target_moisture_pct_wet", exact=True)
    strokes_per_100ml: float | None = ask(
        "strokes_per_100ml",
        help="Enter it to get the first dose in strokes. Spray into a measuring cup and count the strokes until it holds 100 mL.",
    )

    feel: str | None = ask("feel", help="Of the sand of the sample. Recorded with it, it teaches what your words mean.")

    @rule
    def the_sample_lost_some_water(self) -> Iterable[Problem]:
        wet, dry = self.sample_wet_g, self.sample_dry_g
        if wet is not None and dry is not None and dry > wet:
            yield self.wrong(
                "sample_dry_g",
                f"at most {wet:g} g",
                f"{dry:g} g is more than the {wet:g} g before drying. Check whether the two are swapped.",
            )
        elif wet is not None and dry is not None and measurements.moisture_pct_wet(wet, dry) > 25:
            yield self.wrong(
                "sample_dry_g",
                f"at least {0.75 * wet:g} g",
                (
                    f"a loss of {wet - dry:g} g from {wet:g} g is over 25 % moisture: that is mud, not moulding sand. Weigh "
                    "both again, without the tin."
                ),
            )

    @rule
    def both_weighings(self) -> Iterable[Problem]:
        if (self.sample_wet_g is None) != (self.sample_dry_g is None):
            missing = "sample_dry_g" if self.sample_dry_g is None else "sample_wet_g"
            yield self.wrong(
                missing,
                "the other weighing",
                "one weighing is not enough. Enter the mass of the sample before and after drying.",
            )

    @rule
    def the_moisture_is_given(self) -> Iterable[Problem]:
        if self.sample_wet_g is None and self.sample_dry_g is None and self.moisture_pct_wet is None:
            yield self.wrong(
                "moisture_pct_wet",
                "a figure, or a weighed sample",
                "the moisture of the heap is missing. Weigh a sample, dry it and weigh it again, or enter a figure.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedTemper(TemperForm):
    """The same, with a moisture and a target that are always there."""

    moisture_pct_wet: float
    target_moisture_pct_wet: float


def resolve(filled: Filled[TemperForm]) -> Filled[ResolvedTemper]:
    """Turn the weighed test into a moisture with its uncertainty, and take the metal's target where none is given."""
    form = filled.form
    target = form.target_moisture_pct_wet
    if target is None:
        target = usual_target_pct_wet(form.metal, form.sand_kind)
    if form.sample_wet_g is None or form.sample_dry_g is None:
        return filled.into(ResolvedTemper, {"target_moisture_pct_wet": target})
    moisture = measurements.moisture_pct_wet(form.sample_wet_g, form.sample_dry_g)
    remarks = []
    if form.moisture_pct_wet is not None:
        remarks.append(
            f"You gave both a weighed test ({moisture:.2f} %) and a figure ({form.moisture_pct_wet:g} %). The "
            "weighed test is used."
        )
    if form.sample_dry_g == form.sample_wet_g:
        remarks.append(
            "The sample lost no mass. Either the heap is bone dry, or the sample was not dried long enough. Dry "
            "it again until two weighings agree."
        )
    errors_g = {word: _reading_error_g(filled, word) for word in WEIGHINGS}
    weighing = measurements.weighing_error_pct(form.sample_wet_g, *errors_g.values())
    origins = {word: 100 * error / form.sample_wet_g for word, error in errors_g.items()}
    band = band_about("moisture_pct_wet", moisture, measurements.moisture_error_pct(weighing))
    return filled.into(
        ResolvedTemper,
        {"moisture_pct_wet": moisture, "target_moisture_pct_wet": target},
        bands={"moisture_pct_wet": band},
        without=WEIGHINGS,
        remarks=remarks,
        origins={"moisture_pct_wet": origins | {BETWEEN_HANDFULS: measurements.SAMPLING_PCT}},
    )


def _reading_error_g(filled: Filled[TemperForm], word: str) -> float:
    """The error of one weighing: the ± that was given with it, else the rounding of the scale."""
    if word in filled.bands:
        return half_width(filled.bands[word])
    return measurements.reading_error_g(filled.form.scale_step_g)
