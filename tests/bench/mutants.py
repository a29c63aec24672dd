"""Change the arithmetic in one place at a time, and count how many of these changes the tests notice. Prints figures and asserts nothing.

`site/.cache/venv/bin/python tests/bench/mutants.py --mutants 400 --seed 1`. A mutant is one file of a computing chapter with one operator,
comparison, number or condition changed, drawn evenly over all places of all chapters. Its judges are the examples in the file's docstrings,
then its unit tests, then those of its chapter, and the tests against published figures and of properties that import the file. It is killed by
the first test that fails, or where it takes too long. Each runs in a process of its own, forked, so that nothing of it is left for the next.
Control: a file that nobody changed has to survive the same way, or no mutant of it counts.
"""

from __future__ import annotations

import argparse
import ast
import doctest
import importlib
import importlib.abc
import importlib.machinery
import importlib.util
import os
import random
import signal
import sys
import time
import types
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import islice
from pathlib import Path

import pytest
import scipy.optimize
import scipy.stats

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from sandmix.doors import facade  # noqa: E402  found only once the path is set

CHAPTERS = ("maths", "materials", "mesh", "mould", "cooling", "drying", "recipes", "bench")
LONGEST_S = 120
LOADED = (facade, scipy.optimize, scipy.stats)
"""Loaded before the processes are forked, which saves each its start."""
OPERATORS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
    ast.Pow: ast.Mult,
}
COMPARISONS: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
OTHERS = {"min": "max", "max": "min", "any": "all", "all": "any", "ceil": "floor", "floor": "ceil"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Mutant:
    """One change of one file: where, and what stands there before and after."""

    file: Path
    line: int
    before: str
    after: str
    tree: ast.Module
    within: tuple[str, ...]
    """The class and function it is in; empty where it is outside a function."""

    def __str__(self) -> str:
        return f"{self.file.relative_to(ROOT)}:{self.line}: {self.before}  ->  {self.after}"


def changes(node: ast.AST) -> Iterator[ast.expr]:
    """The other forms of one node of arithmetic."""
    match node:
        case ast.BinOp(op=op) if type(op) in OPERATORS and not isinstance(
            node.left, (ast.JoinedStr, ast.Tuple, ast.List)
        ):
            yield ast.BinOp(node.left, OPERATORS[type(op)](), node.right)
        case ast.Compare(ops=[op]) if type(op) in COMPARISONS:
            for other in COMPARISONS[type(op)]:
                yield ast.Compare(node.left, [other()], node.comparators)
        case ast.BoolOp(op=op):
            yield ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), node.values)
        case ast.UnaryOp(op=ast.Not() | ast.USub()):
            yield node.operand
        case ast.IfExp():
            yield ast.IfExp(node.test, node.orelse, node.body)
        case ast.Constant(value=bool(value)):
            yield ast.Constant(not value)
        case ast.Constant(value=int(value) | float(value)):
            yield ast.Constant(value + 1)
            yield ast.Constant(value * 1.1 if value else -1)
        case ast.Call(func=ast.Name(id=name)) if name in OTHERS:
            yield ast.Call(ast.Name(OTHERS[name], ast.Load()), node.args, node.keywords)
        case ast.Call(func=ast.Attribute(attr=name)) if name in OTHERS:
            yield ast.Call(ast.Attribute(node.func.value, OTHERS[name], ast.Load()), node.args, node.keywords)


def places(node: ast.AST) -> Iterator[tuple[ast.AST, str, int | None]]:
    """Each place of a tree that holds an expression of the arithmetic: its parent, field and index; texts, types and options are none."""
    for name, value in ast.iter_fields(node):
        if name in {"annotation", "returns", "decorator_list", "slice_type"} or isinstance(
            node, (ast.JoinedStr, ast.Raise)
        ):
            continue
        for at, child in enumerate(value) if isinstance(value, list) else ((None, value),):
            if isinstance(child, ast.keyword) and child.arg in {"strict", "slots", "frozen", "kw_only", "reverse"}:
                continue
            if isinstance(child, ast.AST):
                if isinstance(child, ast.expr):
                    yield node, name, at
                yield from places(child)


def swaps(tree: ast.Module) -> Iterator[tuple[ast.expr, ast.expr]]:
    """Every change of a tree, before and after; it is changed only until the next one is drawn."""
    for parent, name, at in list(places(tree)):
        held = getattr(parent, name)
        before = held if at is None else held[at]
        for other in changes(before):
            put(parent, name, at, ast.fix_missing_locations(ast.copy_location(other, before)))
            yield before, other
            put(parent, name, at, before)


def drawn_mutant(file: Path, number: int) -> Mutant:
    """The mutant of a file with that number."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    before, after = next(islice(swaps(tree), number, None))
    return Mutant(
        file=file,
        line=before.lineno,
        before=ast.unparse(before),
        after=ast.unparse(after),
        tree=tree,
        within=function_at(tree, before.lineno),
    )


def function_at(tree: ast.Module | ast.ClassDef, line: int) -> tuple[str, ...]:
    """The names of the class and function whose body is at a line; empty where there is no function."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and node.body[0].lineno <= line <= (node.end_lineno or 0):
            return (node.name,)
        if isinstance(node, ast.ClassDef) and (found := function_at(node, line)):
            return (node.name, *found)
    return ()


def control(mutant: Mutant) -> Mutant:
    """The same file as it stands, put in place in the same way as the mutant."""
    return replace(mutant, tree=ast.parse(mutant.file.read_text(encoding="utf-8")))


def put(parent: ast.AST, name: str, at: int | None, child: ast.AST) -> None:
    """Set a child of a node."""
    if at is None:
        setattr(parent, name, child)
    else:
        getattr(parent, name)[at] = child


class Finder(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module from a changed tree, all others as they are."""

    def __init__(self, name: str, mutant: Mutant) -> None:
        self.name, self.mutant = name, mutant

    def find_spec(self, fullname: str, *_: object) -> importlib.machinery.ModuleSpec | None:
        """The changed module's spec."""
        here = str(self.mutant.file)
        return importlib.util.spec_from_file_location(fullname, here, loader=self) if fullname == self.name else None

    def exec_module(self, module: types.ModuleType) -> None:
        """Run the changed tree."""
        exec(compile(self.mutant.tree, str(self.mutant.file), "exec"), module.__dict__)


def judges(file: Path) -> tuple[list[str], list[str]]:
    """The tests of a file: its own, and the others of its chapter with those against figures and of properties that name it."""
    chapter, name = file.parent.name, file.stem
    own = ROOT / f"tests/unit/{chapter}/test_{name}.py"
    named = (f"sandmix.{chapter}.{name} ", f"from sandmix.{chapter} import {name}")
    others = [str(path) for path in sorted((ROOT / f"tests/unit/{chapter}").glob("test_*.py")) if path != own]
    for folder in ("against", "property"):
        for path in sorted((ROOT / "tests" / folder).glob("test_*.py")):
            text = path.read_text(encoding="utf-8")
            if any(way in text for way in named):
                others.append(str(path))
    return [str(own)] if own.exists() else [], others


def survives(mutant: Mutant) -> bool:
    """Whether no judge notices the mutant."""
    child = os.fork()
    if child:
        _, status = os.waitpid(child, 0)
        return os.waitstatus_to_exitcode(status) == 0
    noticed = True
    try:
        signal.alarm(LONGEST_S)
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        noticed = is_noticed(mutant)
    finally:
        os._exit(int(noticed))


def is_noticed(mutant: Mutant) -> bool:
    """Whether an example or a test fails on the mutant."""
    name = ".".join(mutant.file.relative_to(ROOT).with_suffix("").parts)
    if not exchanged(mutant, vars(sys.modules[name])):
        for loaded in [module for module in sys.modules if module.startswith("sandmix")]:
            del sys.modules[loaded]
        sys.meta_path.insert(0, Finder(name, mutant))
    if doctest.testmod(importlib.import_module(name)).failed:
        return True
    words = ["-x", "-q", "-p", "no:cacheprovider", f"--rootdir={ROOT}"]
    return any(pytest.main([*words, *files]) != pytest.ExitCode.OK for files in judges(mutant.file) if files)


def exchanged(mutant: Mutant, names: Mapping[str, object]) -> bool:
    """Whether the mutant is inside a function whose code could be exchanged where it stands, so that nothing has to be loaded again."""
    held: object = None
    code = compile(mutant.tree, str(mutant.file), "exec")
    for part in mutant.within:
        held = names.get(part) if held is None else vars(held).get(part)
        inner = {each.co_name: each for each in code.co_consts if isinstance(each, types.CodeType)}
        if part not in inner:
            return False
        code = inner[part]
    while not isinstance(held, types.FunctionType):
        held = next(
            (getattr(held, way) for way in ("__func__", "fget", "__wrapped__", "func") if hasattr(held, way)), None
        )
        if held is None:
            return False
    held.__code__ = code
    return True


def main() -> int:
    """Draw, judge and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--mutants", type=int, default=400)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", nargs="*", default=CHAPTERS, help="chapters")
    options = parser.parse_args()
    dice = random.Random(options.seed)
    files = [file for chapter in options.only for file in sorted((ROOT / "sandmix" / chapter).glob("*.py"))]
    each = [
        (file, number) for file in files for number, _ in enumerate(swaps(ast.parse(file.read_text(encoding="utf-8"))))
    ]
    drawn = dice.sample(each, min(options.mutants, len(each)))
    print(f"{len(drawn)} of {len(each)} mutants, seed {options.seed}", flush=True)
    tally = {chapter: [0, 0] for chapter in options.only}
    controls: dict[tuple[Path, bool], bool] = {}
    began = time.monotonic()
    for at, (file, number) in enumerate(drawn, 1):
        mutant = drawn_mutant(file, number)
        way = (file, bool(mutant.within))
        if way not in controls:
            controls[way] = survives(control(mutant))
        if not controls[way]:
            print(f"not counted, the control failed: {mutant}", flush=True)
            continue
        alive = survives(mutant)
        count = tally[mutant.file.parent.name]
        count[0], count[1] = count[0] + 1, count[1] + (not alive)
        if alive:
            print(f"survived: {mutant}", flush=True)
        if at % 10 == 0 or at == len(drawn):
            print(summary(tally, time.monotonic() - began), flush=True)
    return 0


def summary(tally: dict[str, list[int]], took_s: float) -> str:
    """The counts so far, by chapter."""
    by_chapter = ", ".join(f"{chapter} {killed}/{tried}" for chapter, (tried, killed) in tally.items() if tried)
    tried, killed = (sum(count[part] for count in tally.values()) for part in (0, 1))
    return f"killed {killed} of {tried} ({100 * killed / tried:.1f} %) in {took_s:.0f} s: {by_chapter}"


if __name__ == "__main__":
    raise SystemExit(main())
