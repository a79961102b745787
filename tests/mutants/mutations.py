"""The changes that are tried on one node of a syntax tree: the usual operators, one place at a time.

Comparison (boundary and negation), arithmetic, ``and``/``or``, ``not``, conditions, numbers (whole numbers
± 1, from ten on and all others ± 20 %), ``True``/``False``, ``min``/``max`` and ``floor``/``ceil``,
``break``/``continue``, a call whose result nobody uses, and what is returned. Words are never changed, nor
are annotations, decorators (what they say is how much is remembered) and ``strict=`` of `zip`.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from typing import Any

Change = tuple[str, Callable[[], None]]
"""What is changed in words, and what does it to the tree."""

_COMPARED: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
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
_RECKONED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
    ast.Pow: ast.Mult,
    ast.MatMult: ast.Mult,
    ast.BitAnd: ast.BitOr,
    ast.BitOr: ast.BitAnd,
}
_TURNED = {
    "min": "max",
    "max": "min",
    "minimum": "maximum",
    "maximum": "minimum",
    "floor": "ceil",
    "ceil": "floor",
    "any": "all",
    "all": "any",
}
_SMALL = 10


def changes(node: ast.AST) -> Iterator[Change]:
    """Everything that is tried on the node itself; what lies in it is asked for by itself."""
    for kind, of_kind in _BY_KIND.items():
        if isinstance(node, kind):
            yield from of_kind(node)


def _put(node: ast.AST, field: str, value: object) -> Callable[[], None]:
    return lambda: setattr(node, field, value)


def _replaced(node: Any, field: str, value: object) -> Change:
    """The change with its words: the node before and after."""
    before, kept = ast.unparse(node), getattr(node, field)
    setattr(node, field, value)
    after = ast.unparse(ast.fix_missing_locations(node))
    setattr(node, field, kept)
    return f"{before} → {after}", _put(node, field, value)


def _comparisons(node: ast.Compare) -> Iterator[Change]:
    for place, operator in enumerate(node.ops):
        for other in _COMPARED.get(type(operator), ()):
            yield _replaced(node, "ops", [*node.ops[:place], other(), *node.ops[place + 1 :]])


def _arithmetic(node: ast.BinOp | ast.AugAssign) -> Iterator[Change]:
    is_text = isinstance(node, ast.BinOp) and any(
        isinstance(side, ast.JoinedStr) or (isinstance(side, ast.Constant) and isinstance(side.value, str))
        for side in (node.left, node.right)
    )
    if not is_text and type(node.op) in _RECKONED:
        yield _replaced(node, "op", _RECKONED[type(node.op)]())


def _boolean(node: ast.BoolOp) -> Iterator[Change]:
    yield _replaced(node, "op", ast.Or() if isinstance(node.op, ast.And) else ast.And())


def _sign(node: ast.UnaryOp) -> Iterator[Change]:
    if isinstance(node.op, ast.USub):
        yield _replaced(node, "op", ast.UAdd())
    elif isinstance(node.op, ast.Not):
        yield _replaced(node, "operand", ast.UnaryOp(ast.Not(), node.operand))
    elif isinstance(node.op, ast.Invert):
        yield _replaced(node, "operand", ast.UnaryOp(ast.Invert(), node.operand))


def _conditions(node: ast.If | ast.IfExp | ast.While) -> Iterator[Change]:
    if isinstance(node.test, ast.Compare | ast.Constant):
        return  # is turned round as a comparison
    if isinstance(node.test, ast.UnaryOp) and isinstance(node.test.op, ast.Not):
        return
    words = ast.unparse(node.test)
    turned = ast.UnaryOp(ast.Not(), node.test)
    yield f"if {words} → if not ({words})", _put(node, "test", turned)


def _filters(node: ast.comprehension) -> Iterator[Change]:
    for place, test in enumerate(node.ifs):
        others = [*node.ifs[:place], *node.ifs[place + 1 :]]
        yield f"for … if {ast.unparse(test)} → for …", _put(node, "ifs", others)


def _numbers(node: ast.Constant) -> Iterator[Change]:
    for other in others_of(node.value):
        yield _replaced(node, "value", other)


def others_of(value: object) -> tuple[object, ...]:
    """What is put in the place of a number: one more or less, or a fifth; the other truth."""
    if isinstance(value, bool):
        return (not value,)
    if isinstance(value, int):
        return (value - 1, value + 1) if abs(value) < _SMALL else (round(value * 0.8), round(value * 1.2))
    if isinstance(value, float):
        return (value * 0.8, value * 1.2) if value else (1.0,)
    return ()


def _turned_calls(node: ast.Call) -> Iterator[Change]:
    field = {ast.Name: "id", ast.Attribute: "attr"}.get(type(node.func))
    if field and (other := _TURNED.get(getattr(node.func, field))):
        words = ast.unparse(node.func)
        yield f"{ast.unparse(node)}: {words} → {other}", _put(node.func, field, other)


def _left_out(node: ast.Expr) -> Iterator[Change]:
    if isinstance(node.value, ast.Call):
        yield f"{ast.unparse(node)} → pass", _put(node, "value", ast.Constant(None))


def _results(node: ast.Return) -> Iterator[Change]:
    if isinstance(node.value, ast.Call | ast.Name | ast.Attribute | ast.Subscript | ast.Tuple | ast.ListComp):
        yield f"{ast.unparse(node)} → return None", _put(node, "value", ast.Constant(None))


_BY_KIND: dict[Any, Callable[[Any], Iterator[Change]]] = {
    ast.Compare: _comparisons,
    ast.BinOp: _arithmetic,
    ast.AugAssign: _arithmetic,
    ast.BoolOp: _boolean,
    ast.UnaryOp: _sign,
    ast.If: _conditions,
    ast.IfExp: _conditions,
    ast.While: _conditions,
    ast.comprehension: _filters,
    ast.Constant: _numbers,
    ast.Call: _turned_calls,
    ast.Expr: _left_out,
    ast.Return: _results,
}
