"""A test of the heap weighed against what the book says: each reading draws the book towards it by the errors of both."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from . import bench
from .events import Measured
from .form import Filled
from .heap import DRY, TWO_SIGMA, Outcome, State
from .sand import Sand

FINES = ("dead_clay_kg", "other_fines_kg")
Change = dict[str, float]
Towards = Callable[[State, float], Change]


def measured(filled: Filled[Measured], state: State) -> Outcome:
    """Each reading weighed against the book, one after the other: mass, moisture, dead fines, live clay."""
    form = filled.form
    total, said = Outcome(how="measured"), []
    moisture = form.moisture_read_pct
    half = _half(filled, "moisture_pct_wet") if form.sample_wet_g is None else _weighing_half(filled, form.sample_wet_g)
    readings: list[tuple[str, float | None, float, Towards]] = [
        ("heap_kg", form.heap_kg, _half(filled, "heap_kg"), _to_mass),
        ("moisture_pct_wet", moisture, half, _to_moisture),
        ("dead_fines_pct_dry", form.dead_fines_pct_dry, _half(filled, "dead_fines_pct_dry"), _to_share(FINES)),
        ("clay_pct_dry", form.clay_pct_dry, _half(filled, "clay_pct_dry"), _to_share(("live_clay_kg",))),
    ]
    for word, read, error, towards in readings:
        now = state.after(total)
        if read is None:
            continue
        found, line = _weighed(now, word, read, error, towards)
        total = total.with_more(found, "measured")
        said.append(line)
    return replace(total, said=tuple(said) or ("kept beside the book",))


def _weighing_half(filled: Filled[Measured], wet_g: float) -> float:
    """The error of a dried sample, in points: of both weighings, and of the scatter between handfuls."""
    reading = bench.reading_error_g(filled.form.scale_step_g)
    errors = [_half(filled, word) or reading for word in ("sample_wet_g", "sample_dry_g")]
    return bench.moisture_error_pct(bench.weighing_error_pct(wet_g, *errors))


def _half(filled: Filled[Measured], word: str) -> float:
    low, high = filled.bands.get(word, (0.0, 0.0))
    assert isinstance(low, float) and isinstance(high, float)
    return (high - low) / 2


_UNITS = {
    "heap_kg": "kg",
    "moisture_pct_wet": "% water",
    "clay_pct_dry": "% live clay",
    "dead_fines_pct_dry": "% dead fines",
}
_MOVED = {
    "heap_kg": (DRY, "water_kg"),
    "moisture_pct_wet": ("water_kg",),
    "clay_pct_dry": ("live_clay_kg",),
    "dead_fines_pct_dry": FINES,
}


def _weighed(now: State, word: str, read: float, error: float, towards: Towards) -> tuple[Outcome, str]:
    """The book drawn towards a reading by the weights of both: gain = book² / (book² + reading²), of their errors.

    A reading of several parts together makes each surer by its own share of their variance. What the book knows nothing of is taken as read.
    """
    moved, sand = _MOVED[word], now.sand
    unknown = all(now.variances[part] == 0 for part in moved) and _value(sand, word) == 0
    if unknown or sand.dry_kg <= 0:
        change = towards(now, read)
        of_whole = {"heap_kg": 1.0, "moisture_pct_wet": sand.wet_kg / 100}.get(word, sand.dry_kg / 100)
        variance = {moved[0]: (error * of_whole / TWO_SIGMA) ** 2}
        return Outcome(change=change, variance=variance), f"{read:.4g} {_UNITS[word]}, taken as read"
    here = _value(sand, word)
    low, high = now.bands()[word]
    book = max(high - here, here - low)
    gain = book**2 / (book**2 + error**2) if book or error else 0.0
    meant = here + gain * (read - here)
    doubted = {part: max(0.0, now.variances[part]) for part in moved}
    whole = sum(doubted.values()) or 1.0
    variance = {part: -gain * square * square / whole for part, square in doubted.items()}
    verb = "found" if read > here else "missed"
    said = f"read {read:.4g} {_UNITS[word]}, the book said {here:.4g}: {abs(meant - here):.2g} {verb}"
    return Outcome(change=towards(now, meant), variance=variance), said


def _value(sand: Sand, word: str) -> float:
    return sand.wet_kg if word == "heap_kg" else float(getattr(sand, word))


def _to_mass(now: State, wet_kg: float) -> Change:
    """All parts alike; a book without sand takes it as grain beside its water, which a test of moisture and clay then parts."""
    here = now.sand.wet_kg
    if now.sand.dry_kg <= 0:
        return {"grain_kg": max(0.0, wet_kg - here)}
    return {part: max(0.0, kg) * (wet_kg / here - 1) for part, kg in now.parts.items()}


def _to_moisture(now: State, moisture_pct: float) -> Change:
    """Water alone moves where the heap was weighed before; the dry sand stays."""
    share = max(0.0, moisture_pct) / 100
    sand = now.sand
    if sand.dry_kg <= 0:
        return {}
    if sand.water_kg == 0:
        wet = sand.wet_kg
        return {"water_kg": wet * share, **{part: -kg * share for part, kg in now.parts.items() if part != "water_kg"}}
    return {"water_kg": sand.dry_kg * share / (1 - share) - sand.water_kg}


def _to_share(parts: tuple[str, ...]) -> Towards:
    """Those parts to a share of the dry mass, at the cost of the grain, so that the mass stays."""

    def towards(now: State, share_pct: float) -> Change:
        wanted = now.sand.dry_kg * max(0.0, share_pct) / 100
        there = {part: max(0.0, now.parts[part]) for part in parts}
        held = sum(there.values())
        more = min(wanted - held, max(0.0, now.parts["grain_kg"]))
        shares = {part: kg / held for part, kg in there.items()} if held > 0 else {parts[-1]: 1.0}
        return {part: share * more for part, share in shares.items()} | {"grain_kg": -more}

    return towards
