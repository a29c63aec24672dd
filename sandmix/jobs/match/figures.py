"""The figures of *match*."""

from __future__ import annotations

from sandmix.asking.job import Figures
from sandmix.jobs.match.form import MatchForm, lots_of, match_of
from sandmix.materials import fineness


def run(form: MatchForm) -> Figures:
    """Return what to take of each lot, and the grading of the blend."""
    found, lots = match_of(form), lots_of(form)
    grain = [lot.grain * kg for lot, kg in zip(lots, found.kg, strict=True)]
    return {
        "take": [
            {"name": f"lot {at}", "kg": kg, "grain_pct": 100 * part / sum(grain)}
            for at, (kg, part) in enumerate(zip(found.kg, grain, strict=True), start=1)
            if kg > 0
        ],
        "make_kg": sum(found.kg),
        "gfn": found.gfn,
        "gfn_off": found.off,
        "retained": dict(found.retained),
        "screens": fineness.screens(found.retained),
        "gaps": fineness.gaps(found.retained),
        "fullest_pct": found.retained[found.fullest],
    }
