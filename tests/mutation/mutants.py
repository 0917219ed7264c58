"""The mutants of one module: each differs from it in one comparison, condition, figure, unit or selector."""

from __future__ import annotations

import ast
import copy
from collections.abc import Callable, Iterator
from dataclasses import dataclass

_COMPARED: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
}
"""What stands in place of a comparison: the next one, and the opposite."""
_SIGNS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
}
_STRICT = {"at_most": "at_least", "at_least": "at_most", "is_at_most": "is_at_least", "is_at_least": "is_at_most"}
"""That a limit is met when equal: ``not at_least(a, b)`` is ``a < b``, strictly."""
_EXCHANGED = {"min": "max", "max": "min", "any": "all", "all": "any", **_STRICT}
"""Functions, by the one that stands in place of each."""
_ENDS = {"low": "high", "high": "low"}
"""Attributes that pick an end of a band or of a spread."""
_SELECTORS = {
    "DEVICE": ("OUTDOOR_ANTENNA", "SENDER"),
    "OUTDOOR_ANTENNA": ("DEVICE",),
    "SENDER": ("DEVICE",),
    "SERVICE": ("IN_HOME_DATA",),
    "IN_HOME_DATA": ("SERVICE",),
}
"""Selectors of things of one type, which may stand for one another without more ado."""


@dataclass(frozen=True, slots=True)
class Mutant:
    """One change of one module."""

    line: int
    column: int
    function: str
    """Where it stands; empty for the level of the module."""
    what: str
    """What was changed to what."""
    text: str
    """The line as it stands in the module, without its indentation."""
    tree: ast.Module

    @property
    def key(self) -> tuple[str, str, str]:
        """What tells it apart from the others, whatever moves above it."""
        return (self.function, self.text, self.what)


def mutants_of(source: str) -> list[Mutant]:
    """Every mutant of a module; two that would have the same key are told apart by a number."""
    tree = ast.parse(source)
    lines = source.splitlines()
    made: list[Mutant] = []
    seen: dict[tuple[str, str, str], int] = {}
    nodes = list(ast.walk(tree))
    functions = _functions(tree)
    left_alone = set(_left_alone(tree))
    for index, node in enumerate(nodes):
        if id(node) in left_alone:
            continue
        for what, change in _changes(node):
            twin = copy.deepcopy(tree)
            change(list(ast.walk(twin))[index])
            line, column = getattr(node, "lineno", 0), getattr(node, "col_offset", 0)
            text = lines[line - 1].strip()
            key = (functions.get(id(node), ""), text, what)
            seen[key] = seen.get(key, 0) + 1
            told = what if seen[key] == 1 else f"{what} ({seen[key]})"
            made.append(Mutant(line, column, key[0], told, text, ast.fix_missing_locations(twin)))
    return made


def _functions(tree: ast.Module) -> dict[int, str]:
    """The function in which each node stands."""
    found: dict[int, str] = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            for inner in ast.walk(node):
                found[id(inner)] = node.name
    return found


def _left_alone(tree: ast.Module) -> Iterator[int]:
    """Nodes that only types, decorators, texts and assertions of what is certain are made of."""
    for node in ast.walk(tree):
        parts: list[ast.AST] = []
        if isinstance(node, ast.FunctionDef):
            parts += [*node.decorator_list, *([node.returns] if node.returns else [])]
            parts += [one.annotation for one in ast.walk(node.args) if isinstance(one, ast.arg) and one.annotation]
        elif isinstance(node, ast.ClassDef):
            parts += node.decorator_list
        elif isinstance(node, ast.AnnAssign):
            parts.append(node.annotation)
        elif isinstance(node, ast.Assert | ast.FormattedValue):
            parts.append(node.test if isinstance(node, ast.Assert) else node.format_spec or ast.Pass())
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "isinstance":
            parts.append(node.args[1])
        for part in parts:
            yield from (id(inner) for inner in ast.walk(part))


_Change = tuple[str, Callable[[ast.AST], None]]


def _changes(node: ast.AST) -> Iterator[_Change]:
    match node:
        case ast.Compare(ops=ops):
            for place, operator in enumerate(ops):
                for other in _COMPARED[type(operator)]:
                    yield f"{_sign(type(operator))} to {_sign(other)}", _set_item("ops", place, other())
        case ast.BoolOp(op=operator):
            other_op = ast.Or if isinstance(operator, ast.And) else ast.And
            yield f"{_sign(type(operator))} to {_sign(other_op)}", _set("op", other_op())
        case ast.BinOp(op=operator) if type(operator) in _SIGNS and not _is_text(node):
            opposite = _SIGNS[type(operator)]
            yield f"{_sign(type(operator))} to {_sign(opposite)}", _set("op", opposite())
        case ast.UnaryOp(op=ast.Not()):
            yield "not taken out", _turn_into(lambda here: here.operand)
        case ast.UnaryOp(op=ast.USub()):
            yield "minus taken out", _turn_into(lambda here: here.operand)
        case ast.Constant(value=bool(value)):
            yield f"{value} to {not value}", _set("value", not value)
        case ast.Constant(value=int(value)):
            yield f"{value} to {value + 1}", _set("value", value + 1)
        case ast.Constant(value=float(value)):
            yield f"{value} to {value * 2 or 1.0}", _set("value", value * 2 or 1.0)
        case ast.Call(func=ast.Name(id=name)):
            if name in _EXCHANGED:
                yield f"{name} to {_EXCHANGED[name]}", _rename_call(_EXCHANGED[name])
            if name in _STRICT:
                yield f"{name} taken strictly", _strictly(_STRICT[name])
        case ast.Attribute(attr=end) if end in _ENDS:
            yield f"{end} to {_ENDS[end]}", _set("attr", _ENDS[end])
        case ast.keyword(arg="each", value=ast.Name(id=name)):
            for selector in _SELECTORS.get(name, ()):
                yield f"each {name} to {selector}", _select(selector)
            yield f"each {name} to the first of them alone", _first_alone
        case _:
            pass
    for field in ("test", "ifs"):
        yield from _conditions(node, field)


def _conditions(node: ast.AST, field: str) -> Iterator[_Change]:
    """A condition turned round, where it is no comparison that is changed anyway."""
    if isinstance(node, ast.Assert):
        return
    found = getattr(node, field, None)
    for place, test in enumerate(found if isinstance(found, list) else [found]):
        if isinstance(test, ast.Name | ast.Attribute | ast.Call):
            yield f"{ast.unparse(test)} turned round", _negate(field, place if isinstance(found, list) else None)


def _is_text(node: ast.BinOp) -> bool:
    """Whether texts or lists are joined, which have no other sign."""
    kinds = (ast.JoinedStr, ast.List, ast.Tuple, ast.ListComp, ast.Dict)
    return any(
        isinstance(side, kinds) or (isinstance(side, ast.Constant) and isinstance(side.value, str))
        for side in (node.left, node.right)
    )


_WORDS = {
    "Lt": "<", "LtE": "<=", "Gt": ">", "GtE": ">=", "Eq": "==", "NotEq": "!=", "In": "in", "NotIn": "not in",
    "Is": "is", "IsNot": "is not", "And": "and", "Or": "or", "Add": "+", "Sub": "-", "Mult": "*", "Div": "/",
    "FloorDiv": "//",
}  # fmt: skip


def _sign(kind: type[ast.AST]) -> str:
    return _WORDS[kind.__name__]


def _set(field: str, value: object) -> Callable[[ast.AST], None]:
    return lambda node: setattr(node, field, value)


def _set_item(field: str, place: int, value: ast.AST) -> Callable[[ast.AST], None]:
    return lambda node: getattr(node, field).__setitem__(place, value)


def _turn_into(part: Callable[[ast.AST], ast.AST]) -> Callable[[ast.AST], None]:
    def change(node: ast.AST) -> None:
        inner = part(node)
        node.__class__ = inner.__class__
        node.__dict__.clear()
        node.__dict__.update(inner.__dict__)

    return change


def _rename_call(name: str) -> Callable[[ast.AST], None]:
    """The call of another function; the comparisons are named in full, as a module may import one of them alone."""

    def change(node: ast.AST) -> None:
        assert isinstance(node, ast.Call)
        node.func = _compared(name) if name in _STRICT else ast.Name(id=name, ctx=ast.Load())

    return change


def _strictly(opposite: str) -> Callable[[ast.AST], None]:
    def change(node: ast.AST) -> None:
        assert isinstance(node, ast.Call)
        call = ast.Call(func=_compared(opposite), args=node.args, keywords=node.keywords)
        node.__class__ = ast.UnaryOp  # type: ignore[assignment]
        node.__dict__.clear()
        node.__dict__.update({"op": ast.Not(), "operand": call})

    return change


def _compared(name: str) -> ast.expr:
    room = "coaxwright.design.quantities" if name.startswith("is_") else "coaxwright.physics.comparison"
    return ast.parse(f"__import__({room!r}, fromlist=['x']).{name}", mode="eval").body


def _negate(field: str, place: int | None) -> Callable[[ast.AST], None]:
    def change(node: ast.AST) -> None:
        found = getattr(node, field)
        if place is None:
            setattr(node, field, ast.UnaryOp(op=ast.Not(), operand=found))
        else:
            found[place] = ast.UnaryOp(op=ast.Not(), operand=found[place])

    return change


def _select(name: str) -> Callable[[ast.AST], None]:
    def change(node: ast.AST) -> None:
        assert isinstance(node, ast.keyword)
        where = "__import__('coaxwright.checks.selectors', fromlist=['x'])"
        node.value = ast.parse(f"{where}.{name}", mode="eval").body

    return change


def _first_alone(node: ast.AST) -> None:
    assert isinstance(node, ast.keyword)
    each = ast.unparse(node.value)
    first = f"lambda network: list({each}.select(network))[:1]"
    node.value = ast.parse(f"__import__('dataclasses').replace({each}, select={first})", mode="eval").body
