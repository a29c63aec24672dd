"""A test of the heap combined with what the book has: each reading moves the book towards it, by the errors of both."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import replace

from sandmix.asking.form import Filled
from sandmix.bench import measurements
from sandmix.book.heap import FINES, LIVE, WASHED, HeapState, Outcome, figure
from sandmix.entries.reading_entries import FEEL, LOGGED, Measured
from sandmix.materials.delta import DRY, Delta
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.maths.uncertainty import half_width, wider_side
from sandmix.vocabulary import WORDS

FAR_APART = 2.0
"""From here a reading and the book can't both be right: twice the 95 % half-width of both together (own choice)."""
WATER = "moisture_pct_wet"
COUNTS_DAYS = ("heap_kg", WATER)
"""The readings that move the water: the days up to them are counted in its variance."""
Towards = Callable[[HeapState, float], Delta]


def measured(filled: Filled[Measured], state: HeapState) -> Outcome:
    """Return the book combined with each reading, one after the other: mass, moisture, dead fines, live clay, and what a wash takes."""
    total, lines, aged = Outcome(how="measured"), [], False
    if state.last_lost_pct and _moves_water(filled):
        total = replace(total, delta=state.unrecorded())
        lines.append(_unrecorded(total.delta.water_kg))
    for word, read, error in _readings(filled, state.sand.dry_kg > 0):
        if read is not None:
            update = _washed if word == "washed_pct_dry" else _combined
            found, line = update(state.after(total), word, read, error)
            total = total.plus(found, "measured")
            lines.append(line)
        if word in COUNTS_DAYS and read is not None:
            state, aged = replace(state, aging_pct2=0.0), True
    form = filled.form
    if form.washed_pct_dry is not None and form.dead_fines_pct_dry is not None:
        lines.append("the wash and the dead fines are counted as two tests")
    if logged := [WORDS[word].label.lower() for word in (*LOGGED, FEEL) if getattr(form, word) is not None]:
        lines.append("logged, without an effect on the heap: " + ", ".join(logged))
    return replace(total, lines=tuple(lines), aged=aged)


def _unrecorded(water_kg: float) -> str:
    return f"{abs(water_kg):.3f} kg of water had probably dried off unrecorded, by your own earlier tests"


def _moves_water(filled: Filled[Measured]) -> bool:
    """Whether a test reads the mass or the moisture."""
    return filled.form.heap_kg is not None or filled.form.moisture_read_pct is not None


def _half(filled: Filled[Measured], word: str) -> float:
    return half_width(filled.bands.get(word, (0.0, 0.0)))


def _readings(filled: Filled[Measured], there: bool) -> Iterable[tuple[str, float | None, float]]:
    """Each word of the heap that may be read, what was read, and its error, in the order in which they are combined.

    The moisture comes first where there is sand: then what the mass differs by is no longer taken for water that nobody recorded.
    """
    for word in sorted(_MOVED, key=lambda word: there and word != WATER):
        if word == WATER:
            wet_g = filled.form.sample_wet_g
            yield (
                word,
                filled.form.moisture_read_pct,
                _half(filled, word) if wet_g is None else _weighing_half(filled, wet_g),
            )
        else:
            yield word, getattr(filled.form, word), _half(filled, word)


def _weighing_half(filled: Filled[Measured], wet_g: float) -> float:
    """The error of a dried sample, in points: of both weighings, and of the scatter between handfuls."""
    reading = measurements.reading_error_g(filled.form.scale_step_g)
    errors = [_half(filled, word) or reading for word in ("sample_wet_g", "sample_dry_g")]
    return measurements.moisture_error_pct(measurements.weighing_error_pct(wet_g, *errors))


def _washed(now: HeapState, word: str, read: float, error: float) -> tuple[Outcome, str]:
    """A wash combined with live clay and dead fines together.

    Where the book knows nothing of one of them, the wash less the other is that one, with the uncertainty of both. Where it knows neither, a wash
    cannot separate them and changes nothing.
    """
    parts, dry_kg = now.total.by_part(), now.sand.dry_kg
    unknown = [group for group in (LIVE, FINES) if not any(parts[part] or now.total.variance(part) for part in group)]
    if len(unknown) == 2 or dry_kg <= 0:
        return (
            Outcome(),
            f"{read:.4g} % washed out: only logged, because a wash cannot separate live clay from dead fines",
        )
    known = FINES if unknown == [LIVE] else LIVE
    there = 100 * sum(parts[part] for part in known) / dry_kg
    if not unknown or read < there:
        return _combined(now, word, read, error)
    both = math.hypot(error, 100 * now.half_width_kg(*known) / dry_kg)
    found, line = _combined(now, "clay_pct_dry" if unknown == [LIVE] else "dead_fines_pct_dry", read - there, both)
    return found, f"{read:.4g} % washed out, less the {there:.3g} % in the book: {line}"


def _combined(now: HeapState, word: str, read: float, error: float) -> tuple[Outcome, str]:
    """The book moved towards a reading by the weights of both: gain = book² / (book² + reading²), of their errors.

    A reading of several parts together makes each more certain by its own share of their variance. What the book does not know is taken as measured.
    What the days have added to the variance of the water counts for the book. Moisture and mass count the days up to the test.
    Where the two differ by more than twice the half-width of both together, the ± that is left grows in proportion to that excess (own rule).
    """
    parts, unit, towards = _MOVED[word]
    sand, squares = now.sand, {part: now.aged_variance(part) for part in parts}
    here = figure(sand, word)
    unknown = here == 0 and all(now.total.variance(part) == 0 for part in parts)
    if unknown or sand.dry_kg <= 0:
        of_whole = {"heap_kg": 1.0, WATER: sand.wet_kg / 100}.get(word, sand.dry_kg / 100)
        delta = replace(towards(now, read), variances={parts[0]: (error * of_whole / TWO_SIGMA) ** 2})
        return Outcome(delta=delta), f"{read:.4g} {unit}, taken as measured"
    book = wider_side(now.bands()[word], here)
    gain = book**2 / (book**2 + error**2) if book or error else 0.0
    meant = here + gain * (read - here)
    whole = sum(squares.values()) or 1.0
    both = math.hypot(book, error)
    beyond = max(1.0, abs(read - here) / (FAR_APART * both)) if both else 1.0
    left = (1 - gain) * (beyond**2 - 1)
    stored = {part: max(0.0, now.total.variance(part)) for part in parts}
    variances = {
        part: (1 + left) * square - gain * square * square / whole - stored[part] for part, square in squares.items()
    }
    also, more = (f" {unit}" if unit == "kg" else ""), "more" if read > here else "less"
    line = f"measured {read:.4g} {unit}, the book had {here:.4g}{also}: now {abs(meant - here):.2g}{also} {more}"
    if beyond > 1:
        line += (
            "; the test and the book differ by far more than their errors allow, and the heap is set between them: test again, or "
            "record what was forgotten"
        )
    return Outcome(delta=replace(towards(now, meant), variances=variances)), line


def _to_mass(now: HeapState, wet_kg: float) -> Delta:
    """All parts by the same factor, but the water alone by what the days have added to the variance of the mass.

    A book without sand takes the mass as grain, until moisture and clay are tested.
    """
    here = now.sand.wet_kg
    if now.sand.dry_kg <= 0:
        return Delta(grain_kg=max(0.0, wet_kg - here))
    whole = now.aged_variance(DRY) + now.aged_variance("water_kg")
    by_days = 1 - sum(max(0.0, now.total.variance(part)) for part in (DRY, "water_kg")) / whole if whole > 0 else 0.0
    to_water_kg = by_days * (wet_kg - here)
    water_kg = max(0.0, now.sand.water_kg * (wet_kg - to_water_kg) / here + to_water_kg)
    factor = (wet_kg - water_kg) / now.sand.dry_kg - 1
    change = {part: kg * factor for part, kg in now.sand.by_part().items()}
    return Delta.of(change | {"water_kg": water_kg - now.sand.water_kg})


def _to_moisture(now: HeapState, moisture_pct: float) -> Delta:
    """Only the water changes where the heap was weighed before; the dry sand stays."""
    share, sand = max(0.0, moisture_pct) / 100, now.sand
    if sand.dry_kg <= 0:
        return Delta()
    if sand.water_kg == 0:
        parts = {part: -kg * share for part, kg in now.total.by_part().items()}
        return Delta.of(parts | {"water_kg": sand.wet_kg * share})
    return Delta(water_kg=sand.water_at(share) - sand.water_kg)


def _to_share(*parts: str) -> Towards:
    """Those parts to a share of the dry mass, in exchange for grain, so that the mass stays."""

    def towards(now: HeapState, share_pct: float) -> Delta:
        sand = now.sand
        there = {part: getattr(sand, part) for part in parts}
        held = sum(there.values())
        more = min(sand.dry_kg * max(0.0, share_pct) / 100 - held, sand.grain_kg)
        shares = {part: kg / held for part, kg in there.items()} if held > 0 else {parts[-1]: 1.0}
        return Delta.of({part: share * more for part, share in shares.items()} | {"grain_kg": -more})

    return towards


def _to_washed(now: HeapState, washed_pct: float) -> Delta:
    """Live clay, dead clay and other fines to a share of the dry mass, each by its share of their variance, in exchange for grain."""
    sand = now.sand
    there = {part: getattr(sand, part) for part in WASHED}
    more = min(sand.dry_kg * washed_pct / 100 - sum(there.values()), sand.grain_kg)
    squares = {part: max(0.0, now.total.variance(part)) for part in WASHED}
    change = dict.fromkeys(WASHED, 0.0)
    for part in sorted(WASHED, key=lambda part: there[part] / squares[part] if squares[part] else math.inf):
        whole = sum(squares.values()) or 1.0
        change[part] = max(-there[part], (more - sum(change.values())) * squares.pop(part) / whole)
    return Delta.of(change | {"grain_kg": -sum(change.values())})


_MOVED: dict[str, tuple[tuple[str, ...], str, Towards]] = {
    "heap_kg": ((DRY, "water_kg"), "kg", _to_mass),
    WATER: (("water_kg",), "% water", _to_moisture),
    "dead_fines_pct_dry": (FINES, "% dead fines", _to_share(*FINES)),
    "clay_pct_dry": (LIVE, "% live clay", _to_share(*LIVE)),
    "washed_pct_dry": (WASHED, "% washed out", _to_washed),
}
"""The parts that each word moves, its unit in a sentence, and how it moves them, in the order in which readings are combined."""
