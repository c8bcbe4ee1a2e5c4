"""The strict grammar of a number as typed, and how what is not one is refused."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Final

from shelfload.errors import QuantityError

LONGEST_TEXT: Final = 60
_SMALLEST: Final = 1e-9
_LARGEST: Final = 1e12

_VULGAR: Final = {
    sign: f"{num}/{den}"
    for den, signs in {
        2: "½",
        3: "⅓⅔",
        4: "¼_¾",
        5: "⅕⅖⅗⅘",
        6: "⅙___⅚",
        8: "⅛_⅜_⅝_⅞",
    }.items()
    for num, sign in enumerate(signs, start=1)
    if sign != "_"
}
_VULGAR_SIGN: Final = re.compile(rf" ?(-?) ?([{''.join(_VULGAR)}])")
LOOKALIKES: Final = str.maketrans("′’‘‵″”“⁄∕−‐‑–", "''''\"\"\"//----")

NUMBER: Final = re.compile(
    r"(?:(?P<whole>[0-9]+)[ -])?(?P<num>[0-9]+)/(?P<den>[0-9]+)"
    r"|(?P<decimal>[0-9]+(?:[.,][0-9]+)?|\.[0-9]+)"
)
_MORE_NUMBER: Final = re.compile(r"[ .,_/'-]*[0-9]")
_EXPONENT: Final = re.compile(r"[0-9.] ?[eE] ?[+-]?[0-9]")
NUMBER_IN_WORDS: Final = "a number such as 12.5, 3/4, 1 1/2 or 12,5"


def read_number(text: str) -> float:
    """Read a number without a unit by the strict grammar.

    Parameters
    ----------
    text : str
        Decimal, fraction, mixed number or decimal comma, without sign or exponent [-]

    Returns
    -------
    number : float
        Zero or positive [-]

    Raises
    ------
    QuantityError
        If the text is not wholly one such number.

    Notes
    -----
    Source: own grammar.
    """
    tidy = tidied(text, NUMBER_IN_WORDS)
    number, rest = leading_number(tidy, text, NUMBER_IN_WORDS)
    if rest:
        raise refusal(text, f"{NUMBER_IN_WORDS}, without a unit")
    return float(number)


def tidied(value: object, in_words: str) -> str:
    """Return the text with single plain spaces, straight marks and ``n/d`` fractions."""
    if not isinstance(value, str):
        raise refusal(value, in_words)
    if len(value) > LONGEST_TEXT:
        raise refusal(value, f"{in_words}, in at most {LONGEST_TEXT} characters")
    text = " ".join(value.translate(LOOKALIKES).split()).replace("''", '"')
    text = _VULGAR_SIGN.sub(lambda sign: f"{sign[1] or ' '}{_VULGAR[sign[2]]} ", text)
    return " ".join(text.split())


def leading_number(text: str, found: str, in_words: str) -> tuple[Fraction, str]:
    """Return the number that a tidied text begins with, and what follows it."""
    if text.startswith(("-", "+")):
        raise refusal(found, f"{in_words}, without a sign")
    if _EXPONENT.search(text):
        raise refusal(found, f"{in_words}, written out without an exponent")
    match = NUMBER.match(text)
    if match is None:
        raise refusal(found, f"{in_words}; it has to begin with {NUMBER_IN_WORDS}")
    rest = text[match.end() :]
    if _MORE_NUMBER.match(rest):
        raise refusal(found, f"{in_words}; one number only, without thousands separators")
    return _number_value(match, found), rest.strip()


def _number_value(match: re.Match[str], found: str) -> Fraction:
    if decimal := match["decimal"]:
        before, comma, after = decimal.partition(",")
        if comma and len(after) == 3 and before.strip("0"):
            raise refusal(
                found,
                f"{before}.{after} or {before}{after}; the comma in {decimal} may be a decimal"
                " mark or part thousands",
            )
        return Fraction(decimal.replace(",", "."))
    whole, num, den = (int(match[name] or 0) for name in ("whole", "num", "den"))
    if den == 0 or (match["whole"] and num >= den):
        raise refusal(found, "a fraction such as 3/4 or 1 1/2")
    return whole + Fraction(num, den)


def bounded(number: float, found: object) -> float:
    """Return the number if something built may have that size, else raise."""
    if number == 0 or _SMALLEST <= number <= _LARGEST:
        return number
    raise refusal(found, "a size that can be built")


def refusal(found: object, allowed: str, nearest: str = "") -> QuantityError:
    """Return the error for what was found, shortened where it is long."""
    text = found if isinstance(found, str) else str(found)
    if len(text) > LONGEST_TEXT:
        text = text[: LONGEST_TEXT - 3] + "..."
    return QuantityError(text, allowed, nearest)
