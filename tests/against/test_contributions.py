"""What each input brings to the ± of an answer, against a general-purpose package and against random draws.

Source: (1) the `uncertainties` package (linear error propagation with numerical derivatives); (2) random draws of one input at a time, numpy with a
fixed seed. Basis: one standard deviation, half-width / 1.96. Derived. Computed by: the author of these tests.
Accuracy: (1) 2 % of the component where the answer is straight over the band (both sides alike to 2 %); (2) where it bends, the standard deviation
of the draws within 25 % of the root mean square of both sides, since a normal input bends differently from its two ends.
"""

import numpy as np
import pytest
import uncertainties
from against.published import Checks

from sandmix.asking.answer import answer
from sandmix.asking.form import fill, moved
from sandmix.jobs import JOBS
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.maths.uncertainty import propagate

PACKAGE = Checks("budget", source="uncertainties", sure="library")
DRAWN = Checks("budget", source="numpy", sure="drawn")
STRAIGHT = 0.02
DRAWS = 4000
OTHERS = {
    *("choose", "diagnose", "match", "shopping", "fineness"),
    *("heap", "learned", "readings"),
    *("burnout", "facing", "plan"),
}
"""Jobs without uncertain inputs, jobs whose ± comes from the book, and jobs that solve the heat of a casting for each draw."""
WITHOUT = {"gate": {"thinnest_mm"}}
"""What is left out of an example so that no heat is solved for each draw."""
CASES = [name for name in JOBS if name not in OTHERS]
"""The jobs whose examples have uncertain inputs and figures that follow from them by arithmetic."""


def opened(name):
    job = JOBS[name]
    example = {word: value for word, value in job.example.items() if word not in WITHOUT.get(name, ())}
    filled = job.resolve(fill(job.form, example))
    figures = {word: value for word, value in job.run(filled.form).items() if isinstance(value, float)}
    at = {key: value_of(filled.form, key) for key in filled.bands}
    at = {key: float(value) for key, value in at.items() if isinstance(value, (int, float))}
    bands = {key: band for key, band in filled.bands.items() if key in at}
    return job, filled, figures, at, propagate(lambda values: job.run(moved(filled.form, values)), bands, figures, at)


def value_of(form, key):
    return getattr(form, key) if isinstance(key, str) else getattr(form, key[0])[key[1]].get(key[2])


@pytest.mark.parametrize("name", CASES)
def test_a_straight_component_is_that_of_the_package(name):
    job, filled, figures, at, found = opened(name)
    compared = 0
    for word in figures:
        for key, _, (below, above) in found.shares(word):
            if abs(below - above) > STRAIGHT * (below + above) or key not in at:
                continue
            low, high = filled.bands[key]
            if abs((high - at[key]) - (at[key] - low)) > 1e-9 * (high - low):
                continue
            given = uncertainties.ufloat(at[key], (high - low) / 2 / TWO_SIGMA)
            one = uncertainties.wrap(lambda value, key=key, word=word: job.run(moved(filled.form, {key: value}))[word])
            what = "components of the jobs' examples, where the answer is straight"
            PACKAGE.agrees((below + above) / 2 / TWO_SIGMA, one(given).std_dev, what, rel=STRAIGHT, case=(word, key))
            compared += 1
    assert compared


@pytest.mark.parametrize("name", CASES)
def test_a_component_that_bends_is_near_the_scatter_of_random_draws(name):
    job, filled, figures, at, found = opened(name)
    dice = np.random.default_rng(11)
    for word in figures:
        for key, share, (below, above) in found.shares(word):
            if (
                abs(below - above) <= STRAIGHT * (below + above)
                or min(below, above) < 0.3 * max(below, above)
                or share < 0.05
            ):
                continue
            low, high = filled.bands[key]
            drawn = at[key] + (high - low) / 2 / TWO_SIGMA * dice.standard_normal(DRAWS)
            answers = [
                job.run(moved(filled.form, {key: float(value)})).get(word) for value in np.clip(drawn, low, high)
            ]
            scatter = float(np.std([value for value in answers if isinstance(value, float)]))
            mean, what = np.sqrt((below**2 + above**2) / 2) / TWO_SIGMA, "components where the answer bends"
            DRAWN.agrees(mean, scatter, what, rel=0.25, case=(word, key))


@pytest.mark.parametrize("name", JOBS)
def test_the_shares_of_an_answer_add_up_to_1(name):
    listed = answer(JOBS[name], JOBS[name].example)["uncertainty"]
    assert all(sum(one["share"] for one in shares) == pytest.approx(1) for shares in listed.values())
    assert all(shares == sorted(shares, key=lambda one: -one["share"]) for shares in listed.values())
