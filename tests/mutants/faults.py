"""Every small fault that can be put into a module, one at a time."""

from __future__ import annotations

import ast
import copy
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass

_SWAPS: dict[type[ast.AST], type[ast.AST]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult,
    ast.Pow: ast.Mult, ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd, ast.BitXor: ast.BitOr,
    ast.LShift: ast.RShift, ast.RShift: ast.LShift,
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
    ast.And: ast.Or, ast.Or: ast.And,
}  # fmt: skip
_NAMES = {"min": "max", "max": "min", "any": "all", "all": "any", "ceil": "floor", "floor": "ceil"}


@dataclass(frozen=True, slots=True)
class Fault:
    """One change to a module."""

    line: int
    text: str
    "The line as it is written."
    says: str
    "What became what."
    nth: int
    "Which of the faults that say the same of lines that read the same, from 1."
    source: str
    "The whole module with the change in it."


def faults(source: str) -> Iterator[Fault]:
    """Each change that can be made, in the order of the lines; words of messages are left alone.

    >>> [f"{f.line}: {f.says}" for f in faults("def f(a): return a < 1 + 2")]
    ['1: < became <=', '1: + became -', '1: 1 became 2', '1: 2 became 3']
    """
    tree, lines = ast.parse(source), source.splitlines()
    so_far: Counter[tuple[str, str]] = Counter()
    spots = [(node, change) for node in _running(tree) for change in _changes(node)]
    for node, change in sorted(spots, key=lambda s: s[0].lineno):
        twin = copy.deepcopy(tree)
        target = next(n for n, m in zip(ast.walk(twin), ast.walk(tree), strict=True) if m is node)
        text, says = lines[node.lineno - 1].strip(), change(target)
        so_far[text, says] += 1
        yield Fault(node.lineno, text, says, so_far[text, says], ast.unparse(twin))


def _running(tree: ast.AST) -> Iterator[ast.expr]:
    """Every expression that is worked out when the module runs: no annotation, decorator or message of an error.

    `strict` of `zip` is left alone too: it only asks whether two lists are as long as each other.
    """
    for name, below in ast.iter_fields(tree):
        asks = isinstance(tree, ast.keyword) and tree.arg == "strict"
        if name in ("annotation", "returns", "decorator_list") or isinstance(tree, ast.Raise) or asks:
            continue
        for node in below if isinstance(below, list) else [below]:
            if isinstance(node, ast.AST):
                if isinstance(node, ast.expr):
                    yield node
                yield from _running(node)


def _changes(node: ast.expr) -> Iterator[Callable[[ast.AST], str]]:
    """What can be done to an expression; each changes its twin and says what it did."""
    match node:
        case ast.BinOp() | ast.BoolOp() if type(node.op) in _SWAPS:
            yield _swap_operator
        case ast.Compare(ops=[one]) if type(one) in _SWAPS:
            yield _swap_comparison
        case ast.Constant(value=bool() | int() | float()):
            yield _next_value
        case ast.UnaryOp(op=ast.Not()):
            yield _drop_not
        case ast.Name(id=name, ctx=ast.Load()) if name in _NAMES:
            yield _swap_name
        case ast.IfExp():
            yield _negate


def _swap_operator(node: ast.BinOp | ast.BoolOp) -> str:
    old, node.op = node.op, _SWAPS[type(node.op)]()
    return f"{_sign(old)} became {_sign(node.op)}"


def _swap_comparison(node: ast.Compare) -> str:
    old, node.ops = node.ops[0], [_SWAPS[type(node.ops[0])]()]
    return f"{_sign(old)} became {_sign(node.ops[0])}"


def _next_value(node: ast.Constant) -> str:
    old = node.value
    node.value = not old if isinstance(old, bool) else old + 1
    return f"{old} became {node.value}"


def _drop_not(node: ast.UnaryOp) -> str:
    node.op = ast.UAdd()
    node.operand = ast.Call(ast.Name("bool", ast.Load()), [node.operand], [])
    return "not was dropped"


def _swap_name(node: ast.Name) -> str:
    old, node.id = node.id, _NAMES[node.id]
    return f"{old} became {node.id}"


def _negate(node: ast.IfExp) -> str:
    node.body, node.orelse = node.orelse, node.body
    return "the branches of a choice changed places"


def _sign(operator: ast.AST) -> str:
    """An operator as it is written."""
    names = [ast.Name("a", ast.Load()), ast.Name("b", ast.Load())]
    if isinstance(operator, ast.cmpop):
        text = ast.unparse(ast.Compare(names[0], [operator], [names[1]]))
    else:
        text = ast.unparse(ast.BoolOp(operator, names) if isinstance(operator, ast.boolop) else ast.BinOp(names[0], operator, names[1]))
    return text[2:-2]
