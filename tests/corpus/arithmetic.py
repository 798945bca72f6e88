"""Works out a corpus question's `calc` with the legal definitions of the units, by walking its syntax tree."""

import ast
import math
import operator
from collections.abc import Callable

# NIST Handbook 44, Appendix C: the avoirdupois ounce and pound in grams; the US gallon of 231 cubic inches of
# 16.387064 mL, halved and quartered down to the teaspoon (768 of them), in mL.
# UK Weights and Measures Act 1985, Schedule 1: the imperial gallon of 4.54609 L, the pint an eighth and the fluid
# ounce a twentieth of that, in mL.
_US_GALLON = 231 * 16.387064
_IMPERIAL_GALLON = 4546.09
CONSTANTS: dict[str, float] = {
    "KG": 1000.0,
    "LB": 453.59237,
    "OZ": 453.59237 / 16,
    "GALLON": _US_GALLON,
    "QUART": _US_GALLON / 4,
    "PINT": _US_GALLON / 8,
    "CUP": _US_GALLON / 16,
    "FLOZ": _US_GALLON / 128,
    "TBSP": _US_GALLON / 256,
    "TSP": _US_GALLON / 768,
    "IMPGALLON": _IMPERIAL_GALLON,
    "IMPPINT": _IMPERIAL_GALLON / 8,
    "IMPFLOZ": _IMPERIAL_GALLON / 160,
    "PI": math.pi,
}
_BINARY: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}
_FUNCTIONS: dict[str, Callable[[float], float]] = {"ceil": math.ceil, "floor": math.floor}


def evaluate(calc: str) -> float:
    """The value of a plain arithmetic expression; ValueError for anything that is more than arithmetic."""
    return _value(ast.parse(calc, mode="eval").body)


def _value(node: ast.expr) -> float:
    match node:
        case ast.Constant(value=int() | float() as number) if not isinstance(number, bool):
            return float(number)
        case ast.Name(id=name) if name in CONSTANTS:
            return CONSTANTS[name]
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return -_value(operand)
        case ast.BinOp(left=left, op=ast.Pow(), right=ast.Constant(value=2)):
            return _value(left) ** 2
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _BINARY:
            return _BINARY[type(op)](_value(left), _value(right))
        case ast.Call(func=ast.Name(id=name), args=[argument], keywords=[]) if name in _FUNCTIONS:
            return _FUNCTIONS[name](_value(argument))
        case _:
            raise ValueError(f"not plain arithmetic: {ast.unparse(node)}")
