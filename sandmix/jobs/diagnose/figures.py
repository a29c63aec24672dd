"""The figures of *diagnose*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures
from sandmix.defects.causes import CAUSES
from sandmix.defects.donts import DONTS
from sandmix.defects.findings import CHECKS
from sandmix.defects.signs import SYMPTOMS
from sandmix.diagnosis import next_test, ranking
from sandmix.diagnosis.ranking import Evidence
from sandmix.jobs.diagnose.form import DiagnoseForm
from sandmix.materials.metals import METALS
from sandmix.maths.uncertainty import Band, wider_side


def run(form: DiagnoseForm) -> Figures:
    """Return nothing: every figure needs the uncertainty of the readings, so ``finish`` works it out."""
    return {}


def finish(filled: Filled[DiagnoseForm], figures: Figures, bands: Mapping[str, Band]) -> Figures:
    """Return the ranked causes, the leading ones, the next test, what not to do, and what would change the order."""
    form, clues = filled.form, clues_of(filled)
    shares = ranking.rank(clues)
    leading = ranking.leading(shares)
    trial = next_test.next_trial(clues)
    reversal = next_test.likeliest_reversal(clues, METALS[form.metal])
    known = {*form.read, *form.checked}
    return {
        "causes": {cause: 100 * share for cause, share in shares.items()},
        "leading": leading,
        "next_test": trial.key if trial else None,
        "what_not_to_do": [dont.text for dont in DONTS if dont.applies(set(form.seen), set(leading), known)],
        "changes_mind": (
            f"“{CAUSES[reversal.cause].label}” would come first if you found this: {reversal.finding}"
            if reversal
            else "no single finding would put another cause first; it would take two or more"
        ),
    }


def clues_of(filled: Filled[DiagnoseForm]) -> list[Evidence]:
    """Return all clues of a filled form, each reading with the half-width of its band."""
    form, metal = filled.form, METALS[filled.form.metal]
    clues = [ranking.sign(key) for key in form.seen]
    clues += [ranking.check(outcome) for outcome in form.checked]
    for word, value in form.read.items():
        off = wider_side(filled.bands.get(word, (value, value)), value)
        clues.append(ranking.reading(word, value, off, metal))
    if form.nothing_else == "yes":
        squeezed = any(CHECKS[outcome].key == "squeeze" for outcome in form.checked)
        answered = [sign for sign in SYMPTOMS if squeezed and sign in CHECKS]
        clues += ranking.absent([*form.seen, *answered])
    return clues
