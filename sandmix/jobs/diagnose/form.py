"""The form of *diagnose*: signs, readings, and the outcomes of checks."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sandmix.asking import rules
from sandmix.asking.form import Form, ask, rule
from sandmix.defects.findings import CHECKS, READINGS
from sandmix.jobs.shared.tin import Tin, tin_of
from sandmix.language.errors import Problem
from sandmix.materials.metals import METALS
from sandmix.materials.pour_temperature import too_cold

COLD_SPARE_C = 100.0
"""How far below the liquidus a pour temperature may be, in °C: scrap of an unknown alloy is liquid up to 85 °C lower than pure aluminium
(pure against Al-Si12 in the table of metals), and a cold pour is one of the causes looked for. Source: own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DiagnoseForm(Form):
    """Signs that were seen, readings of the sand and the metal, and outcomes of checks; at least one is needed."""

    symptoms: Sequence[str] | None = ask("symptoms", first=True)
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True)
    compactability_read_pct: float | None = ask(
        "compactability_read_pct",
        first=True,
        help="It counts as it is only if the tin was rammed as the standard; else it is compared with your usual reading.",
    )
    tin_rammed: str = ask("tin_rammed", first=True)
    found: Sequence[str] | None = ask("found")
    nothing_else: str = ask("nothing_else")
    compactability_usual_pct: float | None = ask("compactability_usual_pct")
    rammer_kg: float | None = ask("rammer_kg")
    rammer_fall_mm: float | None = ask("rammer_fall_mm")
    tin_diameter_mm: float | None = ask("tin_diameter_mm")
    rested_h: float | None = ask("rested_h")
    clay_pct_dry: float | None = ask("clay_pct_dry")
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry")
    permeability: float | None = ask("permeability")
    strength_kpa: float | None = ask("strength_kpa")
    gfn: float | None = ask("gfn", help="From a sieve test, not the mesh number on a bag.")
    metal: str = ask("metal", help="Sets which moisture counts as wet, and which pour temperature as cold or hot.")
    pour_temp_c: float | None = ask("pour_temp_c", help="As it was poured. Leave empty if you did not measure it.")

    riser_to_section: float | None = ask("riser_to_section")
    fill_to_freeze: float | None = ask("fill_to_freeze")
    gate_speed_m_s: float | None = ask("gate_speed_m_s", label="Speed of the metal in the gates")

    @property
    def seen(self) -> tuple[str, ...]:
        """The keys of the signs that were picked."""
        return tuple(self.symptoms or ())

    @property
    def checked(self) -> tuple[str, ...]:
        """The keys of the outcomes of checks."""
        return tuple(self.found or ())

    @property
    def tin(self) -> Tin | None:
        """The tin and its rammer, where they are known."""
        return tin_of(self.rammer_kg, self.rammer_fall_mm, self.tin_diameter_mm)

    @property
    def is_standard_reading(self) -> bool:
        """Whether the tin reading counts as a standard one: by the energy of the blows where it is known, else as the person says."""
        return self.tin.is_standard if self.tin else self.tin_rammed == "standard"

    @property
    def is_poured_below_liquidus(self) -> bool:
        """Whether the metal, as chosen, was not fully liquid at the temperature that was read."""
        return self.pour_temp_c is not None and self.pour_temp_c < METALS[self.metal].liquidus_c

    @property
    def read(self) -> dict[str, float]:
        """The readings that were given, by word."""
        given = {word: getattr(self, word) for word in READINGS}
        return {word: value for word, value in given.items() if value is not None}

    @rule
    def something_is_given(self) -> Iterable[Problem]:
        if not (self.seen or self.checked or self.read):
            yield self.wrong(
                "symptoms",
                "one sign, one reading or one check",
                "nothing is given. Pick what you saw, or enter a reading such as the moisture.",
            )

    @rule
    def a_usual_reading_needs_one_of_today(self) -> Iterable[Problem]:
        if self.compactability_usual_pct is not None and self.compactability_read_pct is None:
            yield self.wrong(
                "compactability_usual_pct",
                "today's reading too",
                "your usual reading says nothing alone. Enter today's tin reading too, or leave this empty.",
            )

    @rule
    def clay_and_fines_are_no_more_than_all(self) -> Iterable[Problem]:
        return rules.clay_and_fines_fit(self, self.clay_pct_dry, self.dead_fines_pct_dry)

    @rule
    def the_metal_is_nearly_liquid(self) -> Iterable[Problem]:
        return too_cold(self, COLD_SPARE_C)

    @rule
    def one_outcome_of_each_check(self) -> Iterable[Problem]:
        """Two outcomes of one check cannot both be true; a squeezed handful may also be given among the signs."""
        by_check: dict[str, list[str]] = {}
        for outcome in (*self.checked, *(sign for sign in self.seen if sign in CHECKS)):
            by_check.setdefault(CHECKS[outcome].key, []).append(outcome)
        for outcomes in by_check.values():
            if len(outcomes) > 1 and set(outcomes) & set(self.checked):
                check = CHECKS[outcomes[0]]
                both = " and “".join(f"{check.outcomes[outcome]}”" for outcome in outcomes)
                yield self.wrong(
                    "found",
                    "one outcome of each check",
                    f"“{both} are two outcomes of one check. Keep the one that you saw, or repeat the check.",
                )
