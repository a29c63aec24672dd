"""Run unit tests inside Pyodide, under Node.js and without a network, and compare the answers there with those here.

First the unit tests of the arithmetic in stock Pyodide, with pytest from the environment that runs this file; those of shapes all in a long run.
Then the library that the browser gets, pruned and compiled ahead of time: every job must answer there as it does here, to its example, to
wrong input, and to inputs drawn by chance. Numbers must be equal to 1e-12 relative, and what an input moves a figure by to 1e-12 of that
figure. Texts must be equal but for the last decimal of a number in them, which two such numbers can be rounded to where they lie halfway; how
many answers are equal to the last bit is printed.

    python tests/inside/run.py [pytest words]
"""

from __future__ import annotations

import gzip
import json
import os
import subprocess
import sys
import sysconfig
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
sys.path[:0] = [str(ROOT / "site"), str(ROOT), str(HERE)]

import answers  # noqa: E402  found only once the path is set

import runtime  # noqa: E402

IS_LONG = "SANDMIX_LONG" in os.environ
SHAPES = ("mesh", "thickness") if IS_LONG else ("mesh/test_rays.py", "thickness/test_field.py")
"""What runs of the chapters whose tests take half of the time; `browser/test_pattern.py` compares the answers to files of shapes in every run."""
ARITHMETIC = ("maths", "materials", "mould", "cooling", "feeding", "gating", "recipes", "drying", "bench", *SHAPES)
CLOSE = 1e-12
NOISE = 1e-12
DRAWN = 2000 if IS_LONG else 100
"""How many questions are drawn by chance."""


def main() -> int:
    """Return 0 if both agree."""
    try:
        core = runtime.core_folder()
        tests = unit_tests(core, sys.argv[1:] or [f"tests/unit/{part}" for part in ARITHMETIC])
        differences = list(browser_library_differs(core))
    except runtime.BuildError as error:
        print(error)
        return 1
    for difference in differences:
        print(f"inside Pyodide the answer differs: {difference}")
    print(f"the browser's library: {'not the same answers' if differences else 'every job answers as it does here'}")
    return 1 if tests or differences else 0


def unit_tests(core: Path, words: list[str]) -> int:
    """Run pytest inside Pyodide, which prints as it goes; return its exit status."""
    node, _ = runtime.node_tools()
    packages = sysconfig.get_paths()["purelib"]
    script = [str(ROOT / "site/inside.mjs"), str(core), str(HERE / "unit.py")]
    return subprocess.run([*node, *script, str(ROOT), packages, *words], check=False).returncode


def browser_library_differs(core: Path) -> Iterator[str]:
    """The places where the browser's library answers differently from this Python."""
    from sandmix.doors.facade import call

    with tempfile.TemporaryDirectory() as name:
        library, said = Path(name) / "library.zip", Path(name) / "answers.json"
        library.write_bytes(gzip.decompress(runtime.library_for(core)[0].read_bytes()))
        runtime.inside(core, HERE / "answers.py", said, str(DRAWN), library=library)
        theirs = json.loads(said.read_text("utf-8"))
    ours = answers.answers(call, DRAWN)
    equal = sum(mine == other for mine, other in zip(ours, theirs, strict=False))
    answered = sum(answer["ok"] for _, answer in ours[-DRAWN:])
    print(
        f"{equal} of {len(ours)} answers are equal to the last bit; {answered} of {DRAWN} questions drawn by chance were answered"
    )
    yield from differing("", ours, theirs)


def differing(place: str, ours: Any, theirs: Any, of: float = 1.0) -> Iterator[str]:
    """Each place where two answers differ. *of* is the figure whose differences are compared there."""
    if isinstance(ours, dict) and isinstance(theirs, dict) and ours.keys() == theirs.keys():
        for key in ours:
            if key == "uncertainty" and "result" in ours:
                yield from differing_moves(f"{place} {key}", ours, theirs)
            else:
                yield from differing(f"{place} {key}", ours[key], theirs[key], of)
    elif isinstance(ours, list) and isinstance(theirs, list) and len(ours) == len(theirs):
        for number, (mine, other) in enumerate(zip(ours, theirs, strict=True)):
            yield from differing(f"{place} {number}", mine, other, of)
    elif not same(ours, theirs, of):
        yield f"{place.strip()}: here {ours!r}, there {theirs!r}"


def differing_moves(place: str, ours: dict[str, Any], theirs: dict[str, Any]) -> Iterator[str]:
    """Each place where two answers differ in what an input moves a figure by: a difference of two such figures, with their noise."""
    mine, others = ours["uncertainty"], theirs["uncertainty"]
    if mine.keys() != others.keys():
        yield f"{place.strip()}: here of {list(mine)}, there of {list(others)}"
        return
    for word, causes in mine.items():
        figure = ours["result"].get(word)
        of = abs(figure) if isinstance(figure, float) else 1.0
        yield from differing(f"{place} {word}", causes, others[word], max(1.0, of))


def same(ours: Any, theirs: Any, of: float = 1.0) -> bool:
    """Whether two values are equal, or two numbers equal within CLOSE, or apart by no more than the noise that a difference leaves."""
    if type(ours) is float and type(theirs) is float:
        return abs(ours - theirs) <= max(CLOSE * max(abs(ours), abs(theirs)), NOISE * of)
    if type(ours) is str and type(theirs) is str:
        return same_text(ours, theirs)
    return type(ours) is type(theirs) and bool(ours == theirs)


def same_text(ours: str, theirs: str) -> bool:
    """Whether two texts are equal but for the last decimal of a number in them. Whole numbers, as of sieves and steps, must be equal."""
    mine, others = answers.NUMBER.findall(ours), answers.NUMBER.findall(theirs)
    if answers.NUMBER.sub("", ours) != answers.NUMBER.sub("", theirs) or len(mine) != len(others):
        return False
    return all(one == other or are_neighbours(one, other) for one, other in zip(mine, others, strict=True))


def are_neighbours(one: str, other: str) -> bool:
    """Whether two numbers differ by one unit of the last decimal of the longer one."""
    digits = max(len(number.partition(".")[2]) for number in (one, other))
    return digits > 0 and abs(round(float(one) * 10**digits) - round(float(other) * 10**digits)) <= 1


if __name__ == "__main__":
    raise SystemExit(main())
