"""The figures of *diagnose*."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures
from sandmix.defects.causes import CAUSES
from sandmix.defects.donts import DONTS
from sandmix.defects.findings import CHECKS
from sandmix.defects.sand_trials import COMPACTABILITY_EDGES
from sandmix.defects.signs import SYMPTOMS
from sandmix.diagnosis import next_test, ranking
from sandmix.diagnosis.ranking import Evidence
from sandmix.jobs.diagnose.form import DiagnoseForm
from sandmix.materials.metals import METALS
from sandmix.maths.uncertainty import Band, wider_side
from sandmix.vocabulary import WORDS

TIN = "compactability_read_pct"
USUAL_TIN_PCT = (COMPACTABILITY_EDGES[1] + COMPACTABILITY_EDGES[2]) / 2
"""The middle of the usual band of the tin test. Source: own."""


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
    form = filled.form
    clues = [ranking.sign(key) for key in form.seen]
    clues += [ranking.check(outcome) for outcome in form.checked]
    clues += [_reading(filled, word, value) for word, value in form.read.items()]
    if form.nothing_else == "yes":
        looked_at = {CHECKS[outcome].key for outcome in form.checked}
        answered = [sign for sign in SYMPTOMS if sign in CHECKS and CHECKS[sign].key in looked_at]
        clues += ranking.absent([*form.seen, *answered])
    return clues


def _reading(filled: Filled[DiagnoseForm], word: str, value: float) -> Evidence:
    """Return the clue of one reading; a tin that was not rammed as the standard is only compared with its usual reading."""
    form, off = filled.form, _half_width(filled, word, value)
    metal, usual = METALS[form.metal], form.compactability_usual_pct
    if word != TIN or form.is_standard_reading:
        return ranking.reading(word, value, off, metal)
    if usual is None:
        text = f"{WORDS[word].label.lower()} {WORDS[word].show(value)} (a trend)"
        return Evidence(key=word, text=text, family=word, chances=dict.fromkeys(CAUSES, 1.0))
    off = math.hypot(off, _half_width(filled, "compactability_usual_pct", usual))
    clue = ranking.reading(word, USUAL_TIN_PCT + value - usual, off, metal)
    name, declared = WORDS[word].label.lower(), WORDS[word]
    band = clue.text[clue.text.rindex("(") :]
    return replace(clue, text=f"{name} {declared.show(value)} where {declared.show(usual)} is usual {band}")


def _half_width(filled: Filled[DiagnoseForm], word: str, value: float) -> float:
    return wider_side(filled.bands.get(word, (value, value)), value)
