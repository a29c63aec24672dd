"""What *diagnose* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sandmix.asking.job import Computed, Lead, Telling
from sandmix.defects.causes import CAUSES, OTHER
from sandmix.defects.findings import TRIALS
from sandmix.diagnosis import next_test, ranking
from sandmix.diagnosis.ranking import Evidence
from sandmix.jobs.diagnose.afterwards import cautions, links, trial_key
from sandmix.jobs.diagnose.cards import card, first
from sandmix.jobs.diagnose.figures import _clues, _done
from sandmix.jobs.diagnose.form import DiagnoseForm
from sandmix.language.wording import list_of, lowered, plain
from sandmix.materials.metals import METALS

_SHOWN_TRIALS = 3


def tell(computed: Computed[DiagnoseForm]) -> Telling:
    """Say what is likeliest and why, what to test next, and what would change it."""
    clues = _clues(computed.filled)
    weights = _weights(computed)
    leading = ranking.leading(weights)
    likely = ranking.is_likely(weights, clues)
    stops = _stops(computed.form)
    return Telling(
        headline=f"{stops}{_headline(computed, leading, weights, likely=likely)}",
        state=("stop", "stop") if stops else ("likely" if likely else "not told yet", "care"),
        lead=_lead(computed, leading, weights, likely=likely),
        remarks=tuple(_remarks(computed, clues, leading, weights)),
        cautions=tuple(dict.fromkeys(cautions(computed, leading))),
        working=tuple(_working(computed, clues, leading, weights)),
        first=first(computed),
        cards=tuple(card(cause, clues, weights[cause], likely=likely and cause == leading[0]) for cause in leading),
        next=tuple(links(computed, leading)),
    )


def _stops(form: DiagnoseForm) -> str:
    """What is to be said before anything else where the sand was found too wet to pour on."""
    metal = METALS[form.metal]
    if form.moisture_pct_wet is None or form.moisture_pct_wet <= metal.red_moisture_pct_wet:
        return ""
    return (
        f"Do not pour on it: {plain(form.moisture_pct_wet)} % of water is above {metal.red_moisture_pct_wet:g} %, the stop "
        f"limit for {metal.label}. "
    )


def _weights(computed: Computed[DiagnoseForm]) -> dict[str, float]:
    causes = computed.figures["causes"]
    assert isinstance(causes, Mapping)
    return {cause: weight / 100 for cause, weight in causes.items()}


def _headline(
    computed: Computed[DiagnoseForm], leading: list[str], weights: Mapping[str, float], *, likely: bool
) -> str:
    labels = [CAUSES[cause].label for cause in leading]
    key = trial_key(computed)
    test = f" Next: {lowered(TRIALS[key].label)}." if key else " Nothing is left to test: change one thing and cast."
    if likely:
        return f"Likely {labels[0]}.{test}"
    if weights[OTHER] >= weights[leading[0]]:
        return f"No one cause fits all of this.{test}"
    return f"Not told yet: it may be {list_of(labels)}.{test}"


def _lead(computed: Computed[DiagnoseForm], leading: list[str], weights: Mapping[str, float], *, likely: bool) -> Lead:
    heaviest = leading[0]
    key = trial_key(computed)
    if likely or not key:
        return Lead(
            word="leading",
            label="Likely" if likely else "Heaviest",
            text=CAUSES[heaviest].label,
            then=f"{100 * weights[heaviest]:.0f} of 100",
        )
    trial = TRIALS[key]
    return Lead(word="next_test", label="Test next", text=trial.short, then=f"about {trial.effort_min:g} min")


def _remarks(
    computed: Computed[DiagnoseForm], clues: list[Evidence], leading: list[str], weights: Mapping[str, float]
) -> Iterable[str]:
    if len(ranking.kinds_for(clues, leading[0])) < ranking.INDEPENDENT:
        yield (
            "At most one kind of evidence speaks for the first cause. Nothing is concluded from one kind alone: give a "
            "reading, or a sign of another kind."
        )
    if not computed.form.seen and not computed.form.found:
        yield (
            "No sign of trouble is picked. The readings say what is less likely, and what is left is only what is common: "
            "pick what you saw."
        )
    for one, two in ranking.contradictions(clues):
        yield (
            f"These two do not go together under any one cause: {one.words}; {two.words}. Look at both again, or "
            "take it that two things are wrong at once."
        )
    if weights[OTHER] >= weights[leading[0]]:
        yield (
            "What was given fits no single cause well. Several things may be wrong at once, or it is something that "
            "this table does not know."
        )
    yield f"What would change this: {computed.figures['changes_mind']}."
    if computed.form.nothing_else == "no" and computed.form.seen:
        yield "A sign that you did not pick counts as not known. If you looked for the rest and saw none, say so."
    yield (
        "The weights rank the causes by common practice and by what you gave. They are no measured odds, and two causes "
        "may be there at once."
    )


def _working(
    computed: Computed[DiagnoseForm], clues: list[Evidence], leading: list[str], weights: Mapping[str, float]
) -> Iterable[str]:
    yield (
        f"weight = how common × the chance of each clue to the power {ranking.POWER:g}, then all brought to 100; "
        "the power is below 1 because clues are not independent"
    )
    for cause in leading:
        factors = [f"{clue.chances[cause]:.2g} ({clue.words})" for clue in clues if clue.family != "absent"]
        yield (
            f"{CAUSES[cause].label}: how common {CAUSES[cause].prior_pct:g}; {'; '.join(factors)} → "
            f"{100 * weights[cause]:.0f} of 100"
        )
    if computed.form.nothing_else == "yes":
        yield f"signs not seen: the chance of not seeing each, to the power {ranking.POWER * ranking.ABSENT:.2g}"
    for value, trial in next_test.ranked_trials(weights, _done(clues))[:_SHOWN_TRIALS]:
        yield f"{trial.short}: worth {value:.3f}, in bits of uncertainty over the root of {trial.effort_min:g} min"
    yield (
        f"likely means: at least {100 * ranking.LIKELY:.0f} of 100, {ranking.MARGIN:g} times the next, and "
        f"{ranking.INDEPENDENT} kinds of evidence for it (own rule)"
    )
