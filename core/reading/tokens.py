"""Text to tokens with their places: figures, words, fraction characters and signs, in one linear pass."""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from enum import Enum
from typing import NamedTuple

from core.reading.figures import figure


class Kind(Enum):
    """What a token is."""

    FIGURE = "figure"
    VULGAR = "vulgar"  # one character: ½
    RAISED = "raised"  # superscript digits
    WORD = "word"
    SIGN = "sign"
    JUNK = "junk"  # digits that are no number: a version, a dotted date
    END = "end"


class Token(NamedTuple):
    """One token. `text` is lower case, `raw` as typed, `start`/`end` count in the text as given.

    `gap` is what stands before it: "" glued, " " space, "\\n" a new line. `code` marks figures that belong to a
    name (V8, h2o, QX-12).
    """

    kind: Kind
    text: str
    raw: str
    start: int
    end: int
    gap: str
    value: Decimal | None = None
    code: bool = False


def word_set(text: str) -> frozenset[str]:
    """The words of `text`: how the word lists here are written."""
    return frozenset(text.split())


END = Token(Kind.END, "", "", 0, 0, " ")
# Enough end tokens that looking a few tokens ahead, or behind the first one (index -1), needs no bounds check.
PADDING = 12

VULGAR = {
    c: (int(n), int(d)) for c in "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞" for n, d in [unicodedata.normalize("NFKC", c).split("\u2044")]
}
_RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻"
_LETTERS = rf"[^\W\d_{''.join(VULGAR)}{_RAISED}]+"

# The alternatives start with different characters and repeat disjoint ones, so nothing is ever tried twice.
_PIECE = re.compile(
    r"(\s*+)(?:"
    rf"({_LETTERS}(?:'{_LETTERS})*)"
    r"|((?:(?<![\w.,])\.)?\d+(?:[.,']\d+)*(?:[eE][+-]?\d+)?)"
    rf"|([{''.join(VULGAR)}])"
    rf"|([{_RAISED}]+)"
    r"|(\S))"
)
_SPACE, _WORD, _FIGURE, _FRACTION, _POWER, _SIGN = range(1, 7)  # its groups
_FIGURE_PARTS = re.compile(r"\d+|\D")

# Characters that mean another one here.
_SAME = str.maketrans("⁄∕−‐‑‒—˚ºᵒ’‘ʼ×∶٫٬٪﹪″“”", "//---––°°°'''x:.,%%\"\"\"")

# Compatibility characters that stand for what they look like: fullwidth forms, ℃ ℉, ㎖ ㎏.
_COMPATIBLE = (range(0xFF01, 0xFF5F), range(0x2103, 0x2104), range(0x2109, 0x210A), range(0x3380, 0x33E0))

_LONGEST_MENTION = 60
_QUOTES = ("'", '"')


def tokenize(text: str) -> list[Token]:
    """The tokens of `text`, and `PADDING` end tokens. Invisible marks are passed over. Linear in the text's length."""
    plain, places = _plain(text)
    plain = _without_addresses(plain).rstrip()  # blanks at the end would be tried anew from each of them
    tokens: list[Token] = []
    for match in _PIECE.finditer(plain):
        which = match.lastindex or _SIGN
        piece, gap = match[which], match[_SPACE]
        start, end = match.span(which)
        if places is not None:
            start, end = places[start], places[end - 1] + 1
        if gap and gap != " ":
            gap = "\n" if "\n" in gap or "\r" in gap or "\u2028" in gap else " "
        if which == _WORD:
            tokens.append(Token(Kind.WORD, piece.lower(), piece, start, end, gap))
        elif which == _FIGURE:
            _add_figure(tokens, piece, start, end, gap)
        elif which == _SIGN:
            if piece in _QUOTES and not gap and tokens and tokens[-1].kind is Kind.WORD:
                continue  # "'100 ml = 97 g'": the quote ends
            tokens.append(Token(Kind.SIGN, piece, piece, start, end, gap))
        elif which == _FRACTION:
            above, below = VULGAR[piece]
            tokens.append(Token(Kind.VULGAR, piece, piece, start, end, gap, Decimal(above) / below))
        elif which == _POWER:
            tokens.append(Token(Kind.RAISED, piece, piece, start, end, gap))
    if tokens and not tokens[0].gap:
        tokens[0] = tokens[0]._replace(gap="\n")  # the text's beginning counts as a new line
    tokens += [END] * PADDING
    if ".g" in plain or ".G" in plain:
        _join_specific_gravity(tokens)
    _read_points_as_thousands(tokens)
    if "," in plain:
        _read_commas_as_points(tokens)
    return tokens


def _join_specific_gravity(tokens: list[Token]) -> None:
    """ "S.g. 0.97" is one word, and no gram in it."""
    for i, token in enumerate(tokens):
        if token.text != "s" or tokens[i + 1].text != "." or tokens[i + 2].text != "g" or tokens[i + 2].gap:
            continue
        last = tokens[i + 3] if tokens[i + 3].text == "." and not tokens[i + 3].gap else tokens[i + 2]
        until = i + 4 if last is tokens[i + 3] else i + 3
        tokens[i:until] = [token._replace(text="sg", end=last.end)]
        return


# Languages that write 1.200 for a thousand and two hundred, by words that English has not.
_POINT_IS_FOR_THOUSANDS = word_set(
    "mehl wachs gramm duft duftöl öl oel und mit für fuer wieviel bitte kerze kerzen zucker wasser prozent brauche ich "
    "farina cera olio grammi gramos aceite harina azúcar meel boter suiker kaarsen geur voor"
)
_SMALL_UNITS = word_set("g gr gramm grammi gramos gram ml mg")


def _read_points_as_thousands(tokens: list[Token]) -> None:
    """ "1.200 g Mehl" is 1200 g: groups of three behind a point, of a small unit, in such a language."""
    places = [
        i
        for i, token in enumerate(tokens)
        if token.kind is Kind.FIGURE and len(token.text) > 4 and token.text[-4] == "." and token.text[:-4].isdecimal()
        if tokens[i + 1].text in _SMALL_UNITS and len(token.text) <= 7 and token.text[0] != "0"
    ]
    if places and any(token.text in _POINT_IS_FOR_THOUSANDS for token in tokens):
        for i in places:
            tokens[i] = tokens[i]._replace(value=Decimal(tokens[i].text.replace(".", "")))


_JOINS_COMMA_AND_POINT = word_set("for as is like means my a the instead of in place = decimal")
_POINTS = word_set("point points dot decimal decimals period")


def _read_commas_as_points(tokens: list[Token]) -> None:
    """ "1,250 kg (I write comma for the point)" is 1.25 kg: the writer says what the comma stands for."""
    commas = [i for i, token in enumerate(tokens) if token.text in ("comma", "commas")]
    if len(commas) != 1 or tokens[commas[0] - 1].text in ("the", "is", "that", "this", "or") or not commas[0]:
        return
    said = []
    for token in tokens[commas[0] + 1 : commas[0] + 6]:
        if token.text not in _JOINS_COMMA_AND_POINT and token.text not in _POINTS:
            break
        said.append(token.text)
    if not any(word in _POINTS for word in said) or any(t.text.startswith("thousand") for t in tokens):
        return
    for i, token in enumerate(tokens):
        if token.kind is Kind.FIGURE and token.text.count(",") == 1 and "." not in token.text:
            tokens[i] = token._replace(value=Decimal(token.text.replace(",", ".")))


def _add_figure(tokens: list[Token], piece: str, start: int, end: int, gap: str) -> None:
    value = figure(piece)
    code = gap == "" and _ends_a_name(tokens)
    if value is not None:
        tokens.append(Token(Kind.FIGURE, piece, piece, start, end, gap, value, code))
    elif "," not in piece and "'" not in piece:
        tokens.append(Token(Kind.JUNK, piece, piece, start, end, gap))
    else:  # a list "1,2,3" typed without spaces
        for part in _FIGURE_PARTS.finditer(piece):
            kind = Kind.FIGURE if part.group().isdecimal() else Kind.SIGN
            number = Decimal(part.group()) if kind is Kind.FIGURE else None
            place = start + part.start()
            tokens.append(Token(kind, part.group(), part.group(), place, place + len(part.group()), gap, number, code))
            gap = ""


def _ends_a_name(tokens: list[Token]) -> bool:
    """Whether figures glued to these tokens belong to a name: "V|8", "h|2", "QX-|12", but not "lb|4" in "1lb4oz"."""
    at = len(tokens) - 1
    if at > 0 and tokens[at].text == "-" and tokens[at].gap == "":
        at -= 1
    if at < 0 or tokens[at].kind is not Kind.WORD:
        return False
    before = tokens[at - 1] if at and tokens[at].gap == "" else END
    return before.kind is not Kind.FIGURE or before.code


def _plain(text: str) -> tuple[str, list[int] | None]:
    """`text` with look-alikes made plain and invisible marks left out; with each character's place in `text`."""
    if text.isascii():
        return text, None
    text = text.translate(_SAME)
    letters: list[str] = []
    places: list[int] = []
    for place, character in enumerate(text):
        if character > "\xac" and unicodedata.category(character) == "Cf":
            continue
        if character > "\u0600":
            if any(ord(character) in block for block in _COMPATIBLE):
                for part in unicodedata.normalize("NFKC", character).translate(_SAME):
                    letters.append(part)
                    places.append(place)
                continue
            if (digit := unicodedata.decimal(character, None)) is not None:
                character = str(digit)
        letters.append(character)
        places.append(place)
    return "".join(letters), places


def _without_addresses(text: str) -> str:
    """`text` with web addresses, mail addresses and chat mentions (<@123>) blanked, length kept."""
    if "<" in text:
        pieces: list[str] = []
        at = 0
        while (open_ := text.find("<", at)) >= 0:
            close = text.find(">", open_, open_ + _LONGEST_MENTION)
            if close > 0 and text[open_ + 1 : open_ + 2] in ("@", "#", ":", "t", "a"):
                pieces += [text[at:open_], "\n" * (close + 1 - open_)]
                at = close + 1
            else:
                pieces.append(text[at : open_ + 1])
                at = open_ + 1
        text = "".join(pieces) + text[at:]
    if "://" in text or "www." in text or "@" in text:
        text = re.sub(r"\S+", _blank_address, text)
    return text


def _blank_address(match: re.Match[str]) -> str:
    word = match.group()
    name, at, host = word.partition("@")
    mail = at and name[-1:].isalpha() and host[:1].isalpha() and "." in host
    return "\n" * len(word) if mail or "://" in word or word.startswith("www.") else word
