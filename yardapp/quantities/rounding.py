"""How many figures to show, and decimal text that never has an exponent."""

from decimal import ROUND_HALF_UP, Context, Decimal
from fractions import Fraction

FIGURES_OF_A_DOUBLE = 17
_ROOMY = Context(prec=700, rounding=ROUND_HALF_UP)  # any double, written out to any place a double reaches


def decimals(number: float, places: int) -> str:
    """At most so many decimal places, no zeros that say nothing."""
    text = f"{rounded(number, -places):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def rounded(number: float, exponent: int) -> Decimal:
    """To the nearest ten to the `exponent`, halves away from zero as people round."""
    nearest = _decimal(number).quantize(Decimal(1).scaleb(exponent), context=_ROOMY)
    return nearest if nearest else abs(nearest)  # no minus zero


def with_plus_minus(number: float, half_width: float) -> tuple[str, str]:
    """Half width to two significant figures, and the number to the same decimal place."""
    exponent = _decimal(half_width).adjusted() - 1
    exponent = rounded(half_width, exponent).adjusted() - 1  # 9.96 becomes 10, not 10.0
    return _placed(number, exponent), _placed(half_width, exponent)


def _placed(number: float, exponent: int) -> str:
    placed = rounded(number, exponent)
    return f"{placed.quantize(Decimal(1), context=_ROOMY) if exponent > 0 else placed:f}"


def significant(number: Fraction, figures: int) -> str:
    """So many significant figures of an exact number, without exponent."""
    quotient = Decimal(number.numerator) / Decimal(number.denominator)  # the context's 28 figures
    shown = Decimal(f"{quotient:.{figures - 1}e}")
    text = f"{shown:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _decimal(number: float) -> Decimal:
    """The shortest decimal that means this float; an array's scalar is one too."""
    return Decimal(repr(float(number)))
