"""What *match* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

import json
from collections.abc import Iterable

from sandmix.asking.cautions import DUST
from sandmix.asking.job import Computed, Lead, Next, Telling, ToDo, WayOut
from sandmix.jobs.blend.form import grading_of
from sandmix.jobs.match.form import MatchForm, lots_of, match_of
from sandmix.jobs.shared.grading_chart import grading_chart, listed, named
from sandmix.language.wording import list_of
from sandmix.materials import fineness, grading_match
from sandmix.vocabulary import WORDS

_LEAST_KG = 0.01


def tell(computed: Computed[MatchForm]) -> Telling:
    """Say how much of each lot to weigh in, and how near the blend comes."""
    found = match_of(computed.form)
    taken = ", ".join(f"{kg:.2f} kg of lot {at}" for at, kg in enumerate(found.kg, start=1) if kg > 0)
    screens = listed(fineness.screens(found.retained)) or "none"
    charts = (grading_chart(found.retained, f"Screens of the blend: {screens}."),)
    return Telling(
        headline=f"Take {taken}: fineness number {computed.text('gfn')}, {_against(computed, found)}.",
        state=("no nearer", "care") if found.why else ("there", "go"),
        lead=Lead(word="gfn", label="Fineness of the blend", text=computed.text("gfn"), then=_against(computed, found)),
        todo=(
            *(ToDo(text=f"Take lot {at}", amount=f"{kg:.2f} kg") for at, kg in enumerate(found.kg, start=1) if kg > 0),
            ToDo(text="Mix them, and sieve a sample of the blend"),
        ),
        remarks=tuple(_remarks(computed, found)),
        cautions=(DUST,),
        working=tuple(_working(computed, found)),
        charts=charts if fineness.passing_pct(found.retained) else (),
        next=_next(computed, found),
    )


def _against(computed: Computed[MatchForm], found: grading_match.NearestBlend) -> str:
    wanted = computed.form.target_gfn
    if found.off <= grading_match.NEAR * wanted:
        return f"exactly the {wanted:g} you want"
    return f"{computed.text('gfn_off')} {'coarser' if found.gfn < wanted else 'finer'} than the {wanted:g} you want"


def _remarks(computed: Computed[MatchForm], found: grading_match.NearestBlend) -> Iterable[str]:
    form, lots = computed.form, lots_of(computed.form)
    if found.why:
        yield WayOut(_why(form, found, [fineness.gfn(lot.retained) for lot in lots]))
    if left := [f"lot {at}" for at, kg in enumerate(found.kg, start=1) if kg <= 0]:
        yield f"Take nothing of {list_of(left, 'and')}."
    if gaps := fineness.gaps(found.retained):
        yield f"The blend has a gap: less than a tenth on {listed(gaps)}. A sand of that size would close it."
    if not found.why and form.gfn_leeway == 0 and len(lots) > 1:
        yield (
            f"{named(found.fullest)} holds the most, {computed.text('fullest_pct')} of the grain. If a few points of fineness either way are fine, "
            f"enter them under “{WORDS['gfn_leeway'].label}”: the blend may then be spread over more sieves."
        )
    if len(lots) == 1:
        yield "One lot alone is not a blend. Enter two or more."
    if any(grading_of(lot) is not lot["retained"] for lot in form.lots):
        yield "For lots sieved with openings outside the series, the grading is a best guess between the openings."
    yield (
        "The figures of the lots are used as given, and the ranges do not include their errors. Sieve the blend when it is mixed. "
        "Its clay and water come from the lots."
    )


def _why(form: MatchForm, found: grading_match.NearestBlend, numbers: list[float]) -> str:
    if found.why in (grading_match.COARSER, grading_match.FINER):
        pick, end = (max, "finest") if found.why == grading_match.COARSER else (min, "coarsest")
        most = pick(numbers)
        return (
            f"No blend comes nearer: all lots are {found.why} than {form.target_gfn:g}. The {end}, lot {numbers.index(most) + 1}, has "
            f"{most:.1f}. Look for a {'finer' if found.why == grading_match.COARSER else 'coarser'} sand."
        )
    lots = list_of([f"lot {at + 1}" for at in found.short], "and")
    return f"No blend comes nearer: there is not enough of {lots}. Make less at once, or get more."


def _working(computed: Computed[MatchForm], found: grading_match.NearestBlend) -> Iterable[str]:
    lots = lots_of(computed.form)
    grain = [lot.grain * kg for lot, kg in zip(lots, found.kg, strict=True)]
    numbers = [fineness.gfn(lot.retained) for lot in lots]
    for at, (lot, number) in enumerate(zip(lots, numbers, strict=True), start=1):
        yield f"lot {at}: fineness number {number:.2f}, {lot.grain:.4f} kg of dry grain per kilogram as it lies"
    products = [f"{part:.3f} × {number:.2f}" for part, number in zip(grain, numbers, strict=True) if part > 0]
    yield f"fineness number = ({' + '.join(products)}) / {sum(grain):.3f} = {found.gfn:.2f}"
    yield "made as small as possible: first the distance beyond the allowed difference, then the share on the fullest sieve"


def _next(computed: Computed[MatchForm], found: grading_match.NearestBlend) -> tuple[Next, ...]:
    grading = "; ".join(f"{number}: {held:.4g}" for number, held in found.retained.items())
    lots = [
        {**{word: value for word, value in lot.items() if value is not None}, "kg": max(_LEAST_KG, round(kg, 3))}
        for lot, kg in zip(computed.form.lots, found.kg, strict=True)
        if kg > 0
    ]
    return (
        Next(job="fineness", label="How is its grain spread?", inputs={"retained": grading}),
        Next(job="blend", label="How much clay and water does it need?", inputs={"lots": json.dumps(lots)}),
    )
