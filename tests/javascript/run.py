"""The JavaScript of the site: its types, its lint, its layout, and the unit tests of what is pure in it.

    python tests/javascript/run.py [--fix]

`--fix` has prettier and eslint mend what they can. The types of the library's answers are written from the library at each
run, so what a page reads of an answer is checked against what the library gives today.
"""

from __future__ import annotations

import re
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
SITE = ROOT / "site"
sys.path[:0] = [str(SITE), str(ROOT)]

import answer_types  # noqa: E402  found only once the path is set
import runtime  # noqa: E402

TYPES = runtime.CACHE / "types"
TOOLS = runtime.CACHE / "checks"
CHECKED = (
    "site/docs/app/*.js", "site/sw.js", "site/*.mjs", "tests/browser/*.js", "tests/javascript/*.js",
)  # fmt: skip
COUNT = re.compile(r"^(?:ℹ|#) (pass|fail|cancelled) (\d+)$", re.MULTILINE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What came of one check: how many tests passed and failed in it, and what it said."""

    name: str
    passed: int
    failed: int
    said: str


def main() -> int:
    """0 where every check holds."""
    started = time.monotonic()
    try:
        outcomes = list(checks(fix="--fix" in sys.argv[1:]))
    except (runtime.BuildError, answer_types.NoType) as error:
        print(error)
        return 1
    failed, passed = (sum(getattr(outcome, part) for outcome in outcomes) for part in ("failed", "passed"))
    print(f"{failed} failed, {passed} passed in {time.monotonic() - started:.2f}s")
    return 1 if failed else 0


def checks(*, fix: bool) -> Iterator[Outcome]:
    """Run one check after the other, showing what each says where it fails."""
    runtime.core_folder()
    tools = runtime.npm_packages(HERE, TOOLS)
    answer_types.write(TYPES)
    files = [str(path) for pattern in CHECKED for path in sorted(ROOT.glob(pattern))]
    tests = [path for path in files if path.endswith(".test.js")]
    prettier = [tools / "prettier/bin/prettier.cjs", "--config", SITE / ".prettierrc.json"]
    eslint = [tools / "eslint/bin/eslint.js", "--config", SITE / "eslint.config.mjs"]
    yield run("lint", *eslint, *(["--fix"] if fix else []), *files)
    yield run("layout", *prettier, "--write" if fix else "--check", "--log-level=warn", *files)
    for project in sorted(SITE.glob("tsconfig*.json")):
        yield run(f"types of {project.name}", tools / "typescript/bin/tsc", "--project", project)
    yield run("tests", "--import", (HERE / "packages.js").as_uri(), "--test", "--test-reporter=spec", *tests)


def run(name: str, *words: str | Path) -> Outcome:
    """Run one tool under Node.js."""
    node, _ = runtime.node_tools()
    done = subprocess.run(
        [*node, "--no-warnings", *map(str, words)], cwd=ROOT, capture_output=True, text=True, check=False
    )
    said = f"{done.stdout}{done.stderr}".strip()
    counts = {kind: int(count) for kind, count in COUNT.findall(said)} if name == "tests" else {}
    failed = counts.get("fail", 0) + counts.get("cancelled", 0)
    if done.returncode and not failed:
        failed = 1
    passed = counts.get("pass", 0) if counts else int(not failed)
    if name == "tests" and not counts.get("pass"):
        failed = max(failed, 1)
    print(f"{name}: {f'{failed} failed' if failed else f'{passed} passed'}", flush=True)
    if failed:
        print(said, flush=True)
    return Outcome(name=name, passed=passed, failed=failed, said=said)


if __name__ == "__main__":
    raise SystemExit(main())
