"""The least sand to replace over a season, against general minimisers of scipy on random cases.

Source: scipy.optimize (1.17.1), `brentq` for the equal share and `minimize` with SLSQP for a share of its own at each cast, on the recursion
D' = (1 − u)(D + Q) written here again. SLSQP finds a local minimum from where it starts, so it starts several times, and it must come to the
same sum in most cases and to no lower one in any.
"""

import random
from functools import partial

import numpy as np
from against.published import Checks
from scipy.optimize import brentq, minimize

from sandmix.recipes.season import least_equal_share, least_shares

SCIPY = Checks("season", source="scipy", sure="library")
CASES = 200


def after(start, grows, shares):
    """Dead fines after each cast."""
    found, dead = [], start
    for share in shares:
        dead = (1 - share) * (dead + grows)
        found.append(dead)
    return np.array(found)


def left(start, grows, limit, shares):
    """What is left to the limit: after each cast, and after the replacement before the first."""
    first = (1 - shares[0]) * start
    return limit - np.append(after(first, grows, shares[1:]), first)


def test_the_equal_share_is_the_root_that_brentq_finds():
    rng = random.Random(1)
    needed = 0
    for _ in range(CASES):
        casts, grows, limit = rng.randint(1, 60), rng.uniform(0.01, 2), rng.uniform(0.2, 6)
        start = rng.uniform(-1, 1) * limit
        found = least_equal_share(start, grows, limit, casts)
        assert after(start, grows, [found] * casts).max() <= limit * (1 + 1e-9)
        if start + casts * grows > limit:
            needed += 1
            root = brentq(
                lambda u, *case: after(*case[:2], [u] * case[2])[-1] - case[3],
                0,
                1,
                (start, grows, casts, limit),
                xtol=1e-14,
            )
            SCIPY.agrees(
                found, root, "least equal share, the root that a solver finds, of 200 random seasons", within=1e-10
            )
        else:
            assert found == 0
    assert needed > CASES / 2


def test_no_shares_of_their_own_need_less():
    rng, draw = random.Random(2), np.random.default_rng(2)
    same = 0
    for _ in range(CASES):
        casts, grows, limit = rng.randint(1, 5), rng.uniform(0.1, 2), rng.uniform(0.5, 4)
        lost = rng.choice([0.0, rng.random() * 0.2])
        above = rng.random() < 0.4
        start = rng.uniform(limit, 3 * limit) if above else rng.uniform(0, limit)
        now, shares = least_shares(start, grows, limit, casts, lost)
        assert after((1 - now) * start, grows, shares).max() <= limit * (1 + 1e-9)

        spare = partial(left, start, grows, limit)
        bounds = [(0, 1 if above else 0)] + [(lost, 1)] * casts
        tries = (
            minimize(
                np.sum,
                draw.random(casts + 1),
                bounds=bounds,
                constraints={"type": "ineq", "fun": spare},
                method="SLSQP",
                options={"ftol": 1e-12, "maxiter": 300},
            )
            for _ in range(4)
        )
        best = min((one.fun for one in tries if spare(one.x).min() > -1e-7), default=np.inf)
        none = "no shares that a minimiser finds need less sand, 200 random seasons"
        SCIPY.holds(now + sum(shares) <= best + 1e-5, none, case=(start, grows, limit, casts, lost))
        same += abs(now + sum(shares) - best) < 1e-4
    SCIPY.but(claimed="project").between(
        same / CASES, "0.90", "", "seasons in which the minimiser comes to the same sum"
    )
