"""A test of the heap weighed against what the book says: each reading draws the book towards it by the errors of both."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from sandmix.asking.form import Filled
from sandmix.bench import measurements
from sandmix.book.events import READ, Measured
from sandmix.book.heap import DRY, Outcome, State
from sandmix.materials.sand import Sand
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.maths.uncertainty import half_width, wider_side
from sandmix.vocabulary import WORDS

FAR_APART = 2.0
"""From here a reading and the book can't both be right: twice what they may be off together at 95 % (own choice)."""
FINES = ("dead_clay_kg", "other_fines_kg")
LIVE = ("live_clay_kg",)
WASHED = (*LIVE, *FINES)
Change = dict[str, float]
Towards = Callable[[State, float], Change]


def measured(filled: Filled[Measured], state: State) -> Outcome:
    """Each reading weighed against the book, one after the other: mass, moisture, dead fines, live clay, and what a wash takes."""
    form = filled.form
    total, said = Outcome(how="measured"), []
    moisture = form.moisture_read_pct
    half = _half(filled, "moisture_pct_wet") if form.sample_wet_g is None else _weighing_half(filled, form.sample_wet_g)
    readings: list[tuple[str, float | None, float, Towards]] = [
        ("heap_kg", form.heap_kg, _half(filled, "heap_kg"), _to_mass),
        ("moisture_pct_wet", moisture, half, _to_moisture),
        ("dead_fines_pct_dry", form.dead_fines_pct_dry, _half(filled, "dead_fines_pct_dry"), _to_share(FINES)),
        ("clay_pct_dry", form.clay_pct_dry, _half(filled, "clay_pct_dry"), _to_share(LIVE)),
    ]
    for word, read, error, towards in readings:
        now = state.after(total)
        if read is None:
            continue
        found, line = _weighed(now, word, read, error, towards)
        total = total.with_more(found, "measured")
        said.append(line)
    if form.washed_pct_dry is not None:
        found, line = _washed(state.after(total), form.washed_pct_dry, _half(filled, "washed_pct_dry"))
        total = total.with_more(found, "measured")
        said.append(line)
        if form.dead_fines_pct_dry is not None:
            said.append("the wash and the dead fines are counted as two tests")
    if any(getattr(form, word) is not None for word in READ):
        said.append(
            "kept beside the book: " + ", ".join(_label(word) for word in READ if getattr(form, word) is not None)
        )
    return replace(total, said=tuple(said))


def _label(word: str) -> str:
    return WORDS[word].label.lower()


def _washed(now: State, read: float, error: float) -> tuple[Outcome, str]:
    """A wash weighed against live clay and dead fines together.

    Where the book knows nothing of one of them, the wash less the other is that one, with the doubt of both; where it knows neither, a wash
    does not part them and moves nothing.
    """
    empty = [group for group in (LIVE, FINES) if not any(now.parts[part] or now.variances[part] for part in group)]
    if len(empty) == 2 or now.sand.dry_kg <= 0:
        return Outcome(), f"{read:.4g} % washed out, kept beside the book: it does not part live clay from dead fines"
    if not empty:
        return _weighed(now, "washed_pct_dry", read, error, _to_washed)
    [group], [known] = empty, [group for group in (LIVE, FINES) if group not in empty]
    there = 100 * sum(now.parts[part] for part in known) / now.sand.dry_kg
    word = "clay_pct_dry" if group == LIVE else "dead_fines_pct_dry"
    if read < there:
        return _weighed(now, "washed_pct_dry", read, error, _to_washed)
    both = math.hypot(error, 100 * now.half_width_kg(*known) / now.sand.dry_kg)
    found, line = _weighed(now, word, read - there, both, _to_share(group))
    return found, f"{read:.4g} % washed out, less {there:.3g} % that the book knows: {line}"


def _to_washed(now: State, washed_pct: float) -> Change:
    """Live clay, dead clay and other fines to a share of the dry mass, each by its share of their variance, at the cost of the grain."""
    there = {part: max(0.0, now.parts[part]) for part in WASHED}
    more = min(now.sand.dry_kg * washed_pct / 100 - sum(there.values()), max(0.0, now.parts["grain_kg"]))
    doubted = {part: max(0.0, now.variances[part]) for part in WASHED}
    change = dict.fromkeys(WASHED, 0.0)
    for part in sorted(WASHED, key=lambda part: there[part] / doubted[part] if doubted[part] else math.inf):
        whole = sum(doubted.values()) or 1.0
        change[part] = max(-there[part], (more - sum(change.values())) * doubted.pop(part) / whole)
    return change | {"grain_kg": -sum(change.values())}


def _weighing_half(filled: Filled[Measured], wet_g: float) -> float:
    """The error of a dried sample, in points: of both weighings, and of the scatter between handfuls."""
    reading = measurements.reading_error_g(filled.form.scale_step_g)
    errors = [_half(filled, word) or reading for word in ("sample_wet_g", "sample_dry_g")]
    return measurements.moisture_error_pct(measurements.weighing_error_pct(wet_g, *errors))


def _half(filled: Filled[Measured], word: str) -> float:
    return half_width(filled.bands.get(word, (0.0, 0.0)))


_UNITS = {
    "heap_kg": "kg",
    "moisture_pct_wet": "% water",
    "clay_pct_dry": "% live clay",
    "dead_fines_pct_dry": "% dead fines",
    "washed_pct_dry": "% washed out",
}
_MOVED = {
    "heap_kg": (DRY, "water_kg"),
    "moisture_pct_wet": ("water_kg",),
    "clay_pct_dry": LIVE,
    "dead_fines_pct_dry": FINES,
    "washed_pct_dry": WASHED,
}


def _weighed(now: State, word: str, read: float, error: float, towards: Towards) -> tuple[Outcome, str]:
    """The book drawn towards a reading by the weights of both: gain = book² / (book² + reading²), of their errors.

    A reading of several parts together makes each surer by its own share of their variance. What the book knows nothing of is taken as read.
    Where the two differ by more than twice what both may be off, the ± that is left grows by as many times as they are beyond that (own rule).
    """
    moved, sand = _MOVED[word], now.sand
    unknown = all(now.variances[part] == 0 for part in moved) and _value(sand, word) == 0
    if unknown or sand.dry_kg <= 0:
        change = towards(now, read)
        of_whole = {"heap_kg": 1.0, "moisture_pct_wet": sand.wet_kg / 100}.get(word, sand.dry_kg / 100)
        variance = {moved[0]: (error * of_whole / TWO_SIGMA) ** 2}
        return Outcome(change=change, variance=variance), f"{read:.4g} {_UNITS[word]}, taken as read"
    here = _value(sand, word)
    book = wider_side(now.bands()[word], here)
    gain = book**2 / (book**2 + error**2) if book or error else 0.0
    meant = here + gain * (read - here)
    doubted = {part: max(0.0, now.variances[part]) for part in moved}
    whole = sum(doubted.values()) or 1.0
    both = math.hypot(book, error)
    beyond = max(1.0, abs(read - here) / (FAR_APART * both)) if both else 1.0
    left = (1 - gain) * (beyond**2 - 1)
    variance = {part: left * square - gain * square * square / whole for part, square in doubted.items()}
    verb = "found" if read > here else "missed"
    said = f"read {read:.4g} {_UNITS[word]}, the book said {here:.4g}: {abs(meant - here):.2g} {verb}"
    if beyond > 1:
        said += (
            "; they differ by far more than both may be off, and the heap now stands between them: test again, or write down "
            "what was forgotten"
        )
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
