"""Score the ranking of causes on the invented cases: `python3 tests/bench/diagnosis.py`, with `--each` to see every miss.

A hit is a case whose first cause (or one of the first three) is the one that its author names, or one that the author accepts too.
The mean share is that of the named cause alone. A next test hits if it is one that the author of the cases, or of
`next_tests_tuned.csv`, would do next; ``remedy`` there means that nothing is left to test. For the fresh cases the remedy hits only if the
first cause is right too. They are scored twice: with their signs and readings alone, as the held-out cases are, and with the results of
checks that their stories give. For comparison, the score also shows what always naming the commonest cause of that file would get, and what
the priors alone would get, without any sign or reading. Prints figures and asserts nothing.
"""

from __future__ import annotations

import csv
import sys
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT))

from sandmix.defects.causes import NAMED, OTHER  # noqa: E402
from sandmix.diagnosis import next_test, ranking  # noqa: E402
from sandmix.language.words import Quantity  # noqa: E402
from sandmix.materials.metals import METALS  # noqa: E402
from sandmix.vocabulary import WORDS  # noqa: E402

FOLDER = ROOT / "tests" / "against"
FILES = {
    "tuned": FOLDER / "cases_tuned.csv",
    "metal": FOLDER / "cases_metal_tuned.csv",
    "held out": FOLDER / "cases_held_out.csv",
    "fresh": FOLDER / "cases_fresh.csv",
}
NEXT_TESTS = FOLDER / "next_tests_tuned.csv"
Case = Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """The score of a file of cases, as shares of one."""

    cases: int
    first: float
    among_three: float
    mean_share: float
    commonest_cause: float
    priors_alone: float


def cases_in(path: Path) -> list[Case]:
    """The rows of a file of cases."""
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def listed(text: str) -> list[str]:
    """The entries of a cell."""
    return [part.strip() for part in text.split(";") if part.strip()]


def clues_of(case: Case) -> list[ranking.Evidence]:
    """The clues of a case, each reading with the error of its word."""
    readings = dict(part.split("=") for part in listed(case["readings"]))
    metal = METALS[readings.pop("metal", "aluminium")]
    clues = [ranking.sign(key) for key in listed(case["symptoms"])]
    clues += [ranking.check(outcome) for outcome in listed(case.get("found", ""))]
    for word, text in readings.items():
        declared, value = WORDS[word], float(text)
        assert isinstance(declared, Quantity)
        clues.append(ranking.reading(word, value, declared.half_width(value, assumed=False), metal))
    return clues


def accepted(case: Case) -> set[str]:
    """The causes that count as right."""
    return {case["cause"], *listed(case["also"])}


def ranked(case: Case) -> list[str]:
    """The causes of a case, the largest share first, without the unknown one."""
    return [cause for cause in ranking.rank(clues_of(case)) if cause != OTHER]


def tests_of(cases: Sequence[Case]) -> dict[str, set[str]]:
    """The next tests that are accepted for each case, by its id: its own, or those of the file of next tests."""
    known = {row["id"]: row["tests"] for row in cases_in(NEXT_TESTS)} if NEXT_TESTS.exists() else {}
    given = {case["id"]: case.get("tests") or known.get(case["id"], "") for case in cases}
    return {key: set(listed(text)) for key, text in given.items() if text}


def test_named(case: Case) -> str:
    """The key of the test that is named next for a case, or remedy."""
    trial = next_test.next_trial(clues_of(case))
    return trial.key if trial else "remedy"


def without_checks(cases: Sequence[Case]) -> list[Case]:
    """The same cases with their signs and readings alone."""
    return [{**case, "found": ""} for case in cases]


def tests_of_both_readers(case: Case) -> set[str]:
    """The next tests that the author of a fresh case would do, and those of the person who mapped it to signs."""
    return {*listed(case["tests"]), *listed(case["case_tests"])}


def is_next_test_right(case: Case, tests: set[str]) -> bool:
    """Whether the test named next is one of *tests*; the remedy counts only where the first cause is right."""
    named = test_named(case)
    return named in tests and (named != "remedy" or ranked(case)[0] in accepted(case))


def share_of_next_tests(cases: Sequence[Case]) -> float:
    """The share of fresh cases whose named next test is right by either reader."""
    return sum(is_next_test_right(case, tests_of_both_readers(case)) for case in cases) / len(cases)


def best_constant_test(cases: Sequence[Case]) -> float:
    """The share that always naming one test would get, the remedy aside."""
    named = Counter(test for case in cases for test in tests_of_both_readers(case) if test != "remedy")
    return max(named.values()) / len(cases)


def always_the_remedy(cases: Sequence[Case]) -> float:
    """The share that always naming the remedy of the first cause would get."""
    right = (ranked(case)[0] in accepted(case) and "remedy" in tests_of_both_readers(case) for case in cases)
    return sum(right) / len(cases)


def score(cases: Sequence[Case]) -> Score:
    """Score one file."""
    count = len(cases)
    named = Counter(cause for case in cases for cause in accepted(case))
    by_prior = [cause for cause in ranking.rank([]) if cause in NAMED]
    return Score(
        cases=count,
        first=sum(ranked(case)[0] in accepted(case) for case in cases) / count,
        among_three=sum(bool(accepted(case) & set(ranked(case)[:3])) for case in cases) / count,
        mean_share=sum(ranking.rank(clues_of(case))[case["cause"]] for case in cases) / count,
        commonest_cause=max(named.values()) / count,
        priors_alone=named[by_prior[0]] / count,
    )


def print_fresh(cases: Sequence[Case]) -> None:
    """Print the scores of the fresh cases with and without their checks, and the figures of each cause."""
    for name, asked in (("fresh, signs and readings", without_checks(cases)), ("fresh, with checks", cases)):
        print(f"{name}: {score(asked)}")
        lenient = sum(bool({*accepted(case), *listed(case["possible"])} & {ranked(case)[0]}) for case in asked)
        print(
            f"{name}: the first cause is the named one or one that its author calls possible in {lenient} of {len(asked)}"
        )
        for reader, column in (("their author", "case_tests"), ("the second reader", "tests")):
            hits = sum(is_next_test_right(case, set(listed(case[column]))) for case in asked)
            print(f"{name}: next test that {reader} would do in {hits} of {len(asked)}")
        hits = share_of_next_tests(asked)
        print(
            f"{name}: next test by either {100 * hits:.0f} %, the best constant test {100 * best_constant_test(asked):.0f} %"
        )
        print(f"{name}: always the remedy of the first cause {100 * always_the_remedy(asked):.0f} %")
        named = [case for case in asked if test_named(case) != "remedy"]
        hits = sum(is_next_test_right(case, tests_of_both_readers(case)) for case in named)
        print(f"{name}: where a test is named and no remedy, right in {hits} of {len(named)}")
        print(f"{name}: named {Counter(test_named(case) for case in asked)}")
        for cause in sorted({case["cause"] for case in asked}):
            places = [place_of(case) for case in asked if case["cause"] == cause]
            print(
                f"  {cause}: cases {len(places)}, first {places.count(1)}, among three {sum(place <= 3 for place in places)}"
            )
        if "--each" in sys.argv:
            for case in asked:
                print_miss(case)


def place_of(case: Case) -> int:
    """The place of the best accepted cause, from 1."""
    order = ranked(case)
    return 1 + min(order.index(cause) for cause in accepted(case))


def print_miss(case: Case) -> None:
    """Print a fresh case whose cause does not come first, or whose next test no reader would do."""
    right, place = is_next_test_right(case, tests_of_both_readers(case)), place_of(case)
    if place == 1 and right:
        return
    shares = ranking.rank(clues_of(case))
    top = ", ".join(f"{cause} {100 * shares[cause]:.0f}" for cause in ranked(case)[:4])
    test = f"next {test_named(case)}{'' if right else f', not {sorted(tests_of_both_readers(case))}'}"
    print(
        f"  {case['id']} {case['cause']} at {place}: {top} | {test} | {case['symptoms']} | {case['found']} | {case['readings']}"
    )


def main() -> None:
    for name, path in FILES.items():
        if not path.exists():
            print(f"{name}: no file")
            continue
        cases = cases_in(path)
        if name == "fresh":
            print_fresh(cases)
            continue
        print(f"{name}: {score(cases)}")
        wanted = tests_of(cases)
        named = {case["id"]: test_named(case) for case in cases}
        if wanted:
            hits = sum(named[key] in tests for key, tests in wanted.items())
            print(f"{name}: next test accepted in {hits} of {len(wanted)}; named: {Counter(named.values())}")
        for case in cases if "--each" in sys.argv and name != "held out" else ():
            order = ranked(case)
            if order[0] not in accepted(case):
                shares = ranking.rank(clues_of(case))
                top = ", ".join(f"{cause} {100 * shares[cause]:.0f}" for cause in order[:4])
                print(
                    f"  {case['id']} {case['cause']} at {order.index(case['cause']) + 1}: {top} | {case['symptoms']} | {case['readings']}"
                )


if __name__ == "__main__":
    main()
