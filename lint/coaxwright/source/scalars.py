"""Typing of unquoted scalars by the core schema of YAML 1.2.2 (section 10.3.2).

``no``, ``on``, ``12:30:45`` and ``2027-06-30`` are texts; ``012`` is 12, ``0o14`` is 12, ``1e3`` is 1000.0.
"""

from __future__ import annotations

from re import compile as regex

_WORDS: dict[str, bool | None] = {
    "null": None,
    "Null": None,
    "NULL": None,
    "~": None,
    "": None,
    "true": True,
    "True": True,
    "TRUE": True,
    "false": False,
    "False": False,
    "FALSE": False,
}
_FLOAT_WORDS = {
    **dict.fromkeys((".inf", ".Inf", ".INF", "+.inf", "+.Inf", "+.INF"), float("inf")),
    **dict.fromkeys(("-.inf", "-.Inf", "-.INF"), float("-inf")),
    **dict.fromkeys((".nan", ".NaN", ".NAN"), float("nan")),
}
LONGEST_NUMBER = 60
"""Digits of the longest number that is read; no figure of a design comes near, and longer ones cost without bound."""
_STARTS_NUMBER = frozenset("-+.0123456789")
BEGINS_TYPED = _STARTS_NUMBER | frozenset(word[:1] for word in _WORDS)
"""How a scalar that is no text begins; the empty beginning is that of the empty scalar, null."""
_INT = regex("[-+]?[0-9]+").fullmatch
_OCTAL = regex("0o[0-7]+").fullmatch
_HEX = regex("0x[0-9a-fA-F]+").fullmatch
_FLOAT = regex(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?").fullmatch


def typed(text: str) -> str | int | float | bool | None:
    """The value of an unquoted scalar.

    Raises OverflowError for a number of more than ``LONGEST_NUMBER`` characters.
    """
    if not text or text[0] not in _STARTS_NUMBER:
        return _WORDS.get(text, text)
    if text[-1] not in _ENDS_NUMBER:
        return text
    if len(text) > LONGEST_NUMBER:
        if _INT(text) or _FLOAT(text) or _OCTAL(text) or _HEX(text):
            raise OverflowError
        return text
    if _INT(text):
        return int(text)
    if _FLOAT(text):
        return float(text)
    if _OCTAL(text) or _HEX(text):
        return int(text, 0)
    return _FLOAT_WORDS.get(text, text)


_ENDS_NUMBER = frozenset(".0123456789abcdefABCDEFnN")
"""What a number can end with, hexadecimal digits and the words .inf and .nan included."""
