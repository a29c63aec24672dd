"""The changes of the arithmetic that `mutants.py` judges: one operator, comparison, number or condition of one file.

What computes is changed: the functions and methods, and a module's own numbers (`NAME = 1.5`). Tables and records of data or prose are not: the
tests hold them against their sources. Texts, types, errors and options (`strict=True`) are left as they are. A number below one millionth is
an allowance for rounding: it is only exchanged for a large one, since a tenth more of it, or `1e-12 / size` for `1e-12 * size`, changes
nothing, as it should. A whole number is changed by one each way, since a count is above 2 just when it is above 2.2. `<` for `<=` and the like
matter only where two values are exactly equal; such a change is called one *at a tie*.
"""

from __future__ import annotations

import ast
import functools
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ROUNDING = 1e-6
OPERATORS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
    ast.Pow: ast.Mult,
}
COMPARISONS: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.GtE,
    ast.LtE: ast.Gt,
    ast.Gt: ast.LtE,
    ast.GtE: ast.Lt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
AT_A_TIE: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
}
OTHERS = {"min": "max", "max": "min", "any": "all", "all": "any", "ceil": "floor", "floor": "ceil"}
OPTIONS = frozenset({"strict", "slots", "frozen", "kw_only", "reverse"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Mutant:
    """One change of one file: where, what stands there before and after, and the changed tree."""

    file: Path
    line: int
    before: ast.expr
    after: ast.expr
    name: str
    """The function, `Class.method` or number it is in."""
    within: bool
    """Whether it is in the body of a function."""
    tie: bool
    tree: ast.Module

    def __str__(self) -> str:
        before, after = ast.unparse(self.before), ast.unparse(self.after)
        return f"{self.file.relative_to(ROOT)}:{self.line} {self.name}: {before}  ->  {after}"

    @property
    def key(self) -> str:
        """The name with its file, as the judges keep it."""
        return f"{self.file.relative_to(ROOT)}:{self.name}"

    def undone(self) -> Mutant:
        """The same file as it stands, to be put in place in the same way."""
        return replace(self, tree=tree_of(self.file))


@functools.cache
def _source(file: Path) -> str:
    return file.read_text(encoding="utf-8")


def tree_of(file: Path) -> ast.Module:
    """The tree of a file, read once."""
    return ast.parse(_source(file))


def is_rounding(node: ast.AST) -> bool:
    """Whether this is a number so small that it is only an allowance for rounding."""
    return isinstance(node, ast.Constant) and isinstance(node.value, float) and 0 < node.value < ROUNDING


def changes(node: ast.AST) -> Iterator[ast.expr]:
    """The other forms of one node of arithmetic."""
    match node:
        case ast.BinOp(left=left, op=op, right=right) if (
            type(op) in OPERATORS
            and not isinstance(left, (ast.JoinedStr, ast.Tuple, ast.List))
            and not is_rounding(left)
            and not is_rounding(right)
        ):
            yield ast.BinOp(node.left, OPERATORS[type(op)](), node.right)
        case ast.Compare(ops=[op]) if type(op) in COMPARISONS:
            yield ast.Compare(node.left, [COMPARISONS[type(op)]()], node.comparators)
            if type(op) in AT_A_TIE:
                yield ast.Compare(node.left, [AT_A_TIE[type(op)]()], node.comparators)
        case ast.BoolOp(op=op):
            yield ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), node.values)
        case ast.UnaryOp(op=ast.Not() | ast.USub()):
            yield node.operand
        case ast.IfExp():
            yield ast.IfExp(node.test, node.orelse, node.body)
        case ast.Constant(value=bool(value)):
            yield ast.Constant(not value)
        case ast.Constant(value=int(value)):
            yield ast.Constant(value + 1)
            yield ast.Constant(value - 1)
        case ast.Constant(value=float(value)):
            yield ast.Constant(value + 1)
            if not is_rounding(node):
                yield ast.Constant(value * 1.1 if value else -1)
        case ast.Call(func=ast.Name(id=name)) if name in OTHERS:
            yield ast.Call(ast.Name(OTHERS[name], ast.Load()), node.args, node.keywords)
        case ast.Call(func=ast.Attribute(attr=name)) if name in OTHERS:
            yield ast.Call(ast.Attribute(node.func.value, OTHERS[name], ast.Load()), node.args, node.keywords)


def computing(tree: ast.Module | ast.ClassDef, within: str = "") -> Iterator[tuple[str, ast.AST]]:
    """The functions, methods and numbers of a module, each with its name."""
    for node in tree.body:
        match node:
            case ast.FunctionDef(name=name):
                yield within + name, node
            case ast.ClassDef(name=name):
                yield from computing(node, f"{within}{name}.")
            case ast.Assign(targets=[ast.Name(id=name)], value=value) if not within and is_number(value):
                yield name, node


def is_number(value: ast.expr) -> bool:
    """Whether an expression is one number, or arithmetic with numbers and names."""
    parts = (ast.Constant, ast.BinOp, ast.UnaryOp, ast.Name, ast.operator, ast.unaryop, ast.expr_context)
    found = list(ast.walk(value))
    numbers = [node for node in found if isinstance(node, ast.Constant)]
    return all(isinstance(node, parts) for node in found) and any(
        isinstance(node.value, (int, float)) for node in numbers
    )


def places(node: ast.AST) -> Iterator[tuple[ast.AST, str, int | None]]:
    """Each place of a tree that holds an expression of the arithmetic: its parent, field and index."""
    for name, value in ast.iter_fields(node):
        if name in {"annotation", "returns", "decorator_list"} or isinstance(node, (ast.JoinedStr, ast.Raise)):
            continue
        for at, child in enumerate(value) if isinstance(value, list) else ((None, value),):
            if isinstance(child, ast.keyword) and child.arg in OPTIONS:
                continue
            if isinstance(child, ast.AST):
                if isinstance(child, ast.expr):
                    yield node, name, at
                yield from places(child)


def mutants(file: Path) -> Iterator[Mutant]:
    """Every mutant of a file; its tree is changed only until the next one is drawn."""
    tree = tree_of(file)
    for name, part in computing(tree):
        for parent, field, at in list(places(part)):
            held = getattr(parent, field)
            before = held if at is None else held[at]
            for other in changes(before):
                put(parent, field, at, ast.fix_missing_locations(ast.copy_location(other, before)))
                yield Mutant(
                    file=file,
                    line=before.lineno,
                    before=before,
                    after=other,
                    name=name,
                    within=isinstance(part, ast.FunctionDef) and before.lineno >= part.body[0].lineno,
                    tie=isinstance(other, ast.Compare)
                    and isinstance(before, ast.Compare)
                    and isinstance(other.ops[0], AT_A_TIE.get(type(before.ops[0]), ast.Not)),
                    tree=tree,
                )
                put(parent, field, at, before)


def put(parent: ast.AST, field: str, at: int | None, child: ast.AST) -> None:
    """Set a child of a node."""
    if at is None:
        setattr(parent, field, child)
    else:
        getattr(parent, field)[at] = child
