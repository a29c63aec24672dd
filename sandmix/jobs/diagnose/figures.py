"""The figures of *diagnose*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures
from sandmix.defects.causes import CAUSES, DONTS, SYMPTOMS
from sandmix.defects.findings import CHECKS
from sandmix.diagnosis import next_test, ranking
from sandmix.diagnosis.ranking import Evidence
from sandmix.jobs.diagnose.form import DiagnoseForm
from sandmix.materials.metals import METALS
from sandmix.maths.uncertainty import Band, wider_side


def run(form: DiagnoseForm) -> Figures:
    """Return nothing: every figure takes the doubt of the readings along, so it is worked out once that is known."""
    return {}


def weighed(filled: Filled[DiagnoseForm], figures: Figures, bands: Mapping[str, Band]) -> Figures:
    """Return the causes by weight, those that lead, the next test, what not to do, and what would change it."""
    form, clues = filled.form, _clues(filled)
    weights = ranking.weigh(clues)
    leading = ranking.leading(weights)
    trial = next_test.next_trial(weights, _done(clues))
    turn = next_test.what_turns_it(clues, METALS[form.metal])
    known = {*form.read, *form.checked}
    return {
        "causes": {cause: 100 * weight for cause, weight in weights.items()},
        "leading": leading,
        "next_test": trial.key if trial else None,
        "what_not_to_do": [dont.text for dont in DONTS if dont.applies(set(form.seen), set(leading), known)],
        "changes_mind": (
            f"“{CAUSES[turn.cause].label}” would come on top if you found this: {turn.finding}"
            if turn
            else "no one finding would put another cause on top: it would take two or more"
        ),
    }


def _clues(filled: Filled[DiagnoseForm]) -> list[Evidence]:
    """All evidence of a filled form, each reading with the half-width of its band."""
    form, metal = filled.form, METALS[filled.form.metal]
    clues = [ranking.sign(key) for key in form.seen]
    clues += [ranking.check(outcome) for outcome in form.checked]
    for word, value in form.read.items():
        off = wider_side(filled.bands.get(word, (value, value)), value)
        clues.append(ranking.reading(word, value, off, metal))
    if form.nothing_else == "yes":
        squeezed = any(CHECKS[outcome].key == "squeeze" for outcome in form.checked)
        computed = [sign for sign in SYMPTOMS if squeezed and sign in CHECKS]
        clues += ranking.absent([*form.seen, *computed])
    return clues


def _done(clues: list[Evidence]) -> list[str]:
    return [clue.key for clue in clues]
