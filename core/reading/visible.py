"""What was typed without what nobody sees: control signs, and marks that turn the direction of what follows."""

from __future__ import annotations

import unicodedata

_LINES = "\n\r\t"
_JOINERS = "\u200c\u200d"  # letters of some scripts, and emoji, need them


def visible(text: str) -> str:
    """`text` with control signs as blanks, invisible format marks left out and broken halves of signs as �."""
    if text.isprintable():
        return text
    return "".join(sign if sign.isprintable() or sign in _LINES else _shown(sign) for sign in text)


def _shown(sign: str) -> str:
    match unicodedata.category(sign):
        case "Cf":
            return sign if sign in _JOINERS else ""
        case "Cs":
            return "�"
        case "Cc" | "Zl" | "Zp":
            return " "
        case _:
            return sign
