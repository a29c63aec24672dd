"""What *diagnose* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Computed, DoFirst, Lead, Telling, ToDo, WayOut
from sandmix.defects.causes import CAUSES, OTHER
from sandmix.defects.findings import TRIALS
from sandmix.diagnosis import next_test, ranking
from sandmix.diagnosis.ranking import Evidence, Shares
from sandmix.jobs.diagnose.afterwards import cautions, links, trial_key
from sandmix.jobs.diagnose.cards import card, first, points
from sandmix.jobs.diagnose.figures import TIN, clues_of
from sandmix.jobs.diagnose.form import DiagnoseForm
from sandmix.language.wording import list_of, lowered, plain
from sandmix.materials.metals import METALS
from sandmix.recipes.too_wet import STOP, Wetness
from sandmix.vocabulary import WORDS

_SHOWN_TRIALS = 3


def tell(computed: Computed[DiagnoseForm]) -> Telling:
    """Say which cause is likeliest and why, what to test next, and what would change the order."""
    clues = clues_of(computed.filled)
    shares = ranking.rank(clues)
    leading = ranking.leading(shares)
    likely = ranking.is_likely(shares, clues)
    stops, begin = _stops(computed.form), first(computed, leading, likely=likely)
    return Telling(
        headline=f"{stops}{_headline(computed, leading, shares, likely=likely)}",
        state=("stop", "stop") if stops else ("likely" if likely else "not clear yet", "care"),
        lead=_lead(computed, leading, shares, likely=likely),
        remarks=tuple(_remarks(computed, clues, leading, shares)),
        cautions=tuple(dict.fromkeys(cautions(computed, leading))),
        working=tuple(_working(computed, clues, leading, shares)),
        todo=tuple(_to_do(computed, begin, stops=bool(stops))),
        first=begin,
        cards=tuple(card(cause, clues, shares[cause], likely=likely and cause == leading[0]) for cause in leading),
        next=tuple(links(computed, leading)),
    )


def _stops(form: DiagnoseForm) -> str:
    """Return the first sentence where the sand is too wet to pour; else nothing."""
    metal = METALS[form.metal]
    if Wetness(metal=metal, sand_pct_wet=form.moisture_pct_wet).sand != STOP:
        return ""
    return (
        f"Do not pour: {plain(form.moisture_pct_wet or 0.0)} % water (of the wet mass) is above the stop limit of "
        f"{metal.red_moisture_pct_wet:g} % for {metal.label}. "
    )


def _to_do(computed: Computed[DiagnoseForm], begin: DoFirst | None, *, stops: bool) -> Iterable[ToDo]:
    """Dry sand that is too wet before anything else; then the next test with its time, or the remedy."""
    if stops:
        yield ToDo(text="Do not pour on this sand. Dry it, and test it again")
    if begin is not None:
        key = trial_key(computed)
        yield ToDo(text=begin.text.rstrip("."), amount=f"{TRIALS[key].effort_min:g} min" if key else "")


def _headline(computed: Computed[DiagnoseForm], leading: list[str], shares: Shares, *, likely: bool) -> str:
    labels = [CAUSES[cause].label for cause in leading]
    key = trial_key(computed)
    test = (
        f" Next: {lowered(TRIALS[key].label)}."
        if key
        else " There is nothing left to test. Change one thing and cast again."
    )
    if likely and not key:
        return f"Likely {labels[0]}. {CAUSES[leading[0]].remedy}"
    if likely:
        return f"Likely {labels[0]}.{test}"
    if shares[OTHER] >= shares[leading[0]]:
        return f"No single cause fits all of this.{test}"
    if len(leading) == 1 and not key:
        return f"Not certain, but nothing else comes near: {labels[0]}. {CAUSES[leading[0]].remedy}"
    return f"Not clear yet. Possible: {list_of(labels)}.{test}"


def _lead(computed: Computed[DiagnoseForm], leading: list[str], shares: Shares, *, likely: bool) -> Lead:
    top = leading[0]
    key = trial_key(computed)
    if likely or not key:
        return Lead(
            word="leading",
            label="Likely" if likely else "Most points",
            text=CAUSES[top].label,
            then=points(shares[top]),
        )
    trial = TRIALS[key]
    return Lead(word="next_test", label="Test next", text=trial.short, then=f"about {trial.effort_min:g} min")


def _remarks(
    computed: Computed[DiagnoseForm], clues: list[Evidence], leading: list[str], shares: Shares
) -> Iterable[str]:
    if len(ranking.families_for(clues, leading[0])) < ranking.INDEPENDENT:
        yield (
            "Only one kind of evidence, or none, supports the first cause. One kind alone is not enough to call a cause likely: enter a "
            "reading, or pick a sign of another kind."
        )
    if not computed.form.seen and not computed.form.found:
        yield WayOut(
            "You picked no sign. Without a sign the ranking mostly shows how common each cause is. Pick what you saw."
        )
    if computed.form.read.get(TIN) is not None and not computed.form.is_standard_reading:
        yield from _of_own_tin(computed.form)
    if computed.form.is_poured_below_liquidus:
        metal = METALS[computed.form.metal]
        yield WayOut(
            f"Pouring temperature: {plain(computed.form.pour_temp_c or 0.0)} °C is below {metal.liquidus_c:g} °C, where {metal.label} is "
            "fully liquid. It counts as colder than usual. Check the metal, the unit and the thermometer too."
        )
    for one, two in ranking.contradictions(clues):
        yield WayOut(
            f"No single cause explains both of these: {one.text}; {two.text}. Check both again. Otherwise "
            "two things are wrong at once."
        )
    if shares[OTHER] >= shares[leading[0]]:
        yield WayOut(
            "No single cause fits well. Several things may be wrong at once, or it is something that "
            "is not in this table."
        )
    yield f"What would change this: {computed.figures['changes_mind']}."
    if computed.form.nothing_else == "no" and computed.form.seen:
        yield f"A sign that you did not pick counts as unknown. If you looked for all signs, answer yes under “{WORDS['nothing_else'].label}”."
    yield (
        "The points rank the causes by common practice and by what you gave. They are not measured probabilities, and two causes "
        "can be present at once."
    )


def _of_own_tin(form: DiagnoseForm) -> Iterable[str]:
    """Say how a tin reading counts that was not rammed as the standard."""
    if form.tin:
        yield form.tin.sentences
    if form.compactability_usual_pct is None:
        yield (
            "Your tin reading is not used: another rammer gives another figure for the same sand. Enter your usual reading in that tin, or the "
            "mass of the rammer, its fall and the width of the tin, or say that it was rammed as the standard."
        )
    else:
        yield "Your tin was not rammed as the standard, so its reading counts only by how far it is from your usual one."


def _working(
    computed: Computed[DiagnoseForm], clues: list[Evidence], leading: list[str], shares: Shares
) -> Iterable[str]:
    yield (
        f"points = how common × the chance of each clue to the power {ranking.POWER:g}, then scaled so that all add up to 100; "
        "the power is below 1 because clues are not independent"
    )
    for cause in leading:
        factors = [f"{clue.chances[cause]:.2g} ({clue.text})" for clue in clues if clue.family != "absent"]
        yield (
            f"{CAUSES[cause].label}: how common {CAUSES[cause].prior_pct:g}; {'; '.join(factors)} → {points(shares[cause])}"
        )
    if computed.form.nothing_else == "yes":
        yield f"signs not seen: the chance of not seeing each, to the power {ranking.POWER * ranking.ABSENT:.2g}"
    yield (
        "next test: where one cause leads alone, its own test, and once that supports it, its remedy; where several lead, the test of the "
        "highest value among their own tests"
    )
    for value, trial in next_test.ranked_trials(shares, [clue.key for clue in clues])[:_SHOWN_TRIALS]:
        yield f"{trial.short}: value {value:.3f}, in bits of uncertainty over the square root of {trial.effort_min:g} min"
    yield (
        f"likely means: at least {points(ranking.LIKELY)}, {ranking.MARGIN:g} times the points of the next cause, and "
        f"{ranking.INDEPENDENT} kinds of evidence for it (own rule)"
    )
