"""Printing a length the way a drawing shows it."""

from engine.lengths.numerals import mixed
from engine.lengths.rounding import nearest


def inches(x: float, denominator: int = 16) -> str:
    """`x` in inches as a mixed number to the nearest 1/`denominator`, bare, so that a sentence can add "in".

    >>> inches(6.125), inches(65.8906), inches(-0.25)
    ('6 1/8', '65 7/8', '-1/4')
    """
    return mixed(x, denominator)


def feet_inches(x: float, denominator: int = 16) -> str:
    """`x` as feet and inches with their marks; under a foot inches alone, from a foot on a zero is kept.

    >>> feet_inches(120), feet_inches(54.5), feet_inches(7.25)
    ('10\\'-0"', '4\\'-6 1/2"', '7 1/4"')
    """
    value = nearest(x, denominator)
    sign = "-" if value < 0 else ""
    feet, over = divmod(abs(value), 12.0)
    if feet == 0:
        return f'{sign}{mixed(over, denominator)}"'
    whole = "0 " if 0 < over < 1 else ""
    return f"{sign}{int(feet)}'-{whole}{mixed(over, denominator)}\""


def metric(x: float) -> str:
    """`x` inches in metres from a metre on, else in whole millimetres.

    >>> metric(3.5), metric(120)
    ('89 mm', '3.048 m')
    """
    from engine.lengths.metric import from_inches

    millimetres = from_inches(x, "mm")
    if abs(millimetres) < 999.5:
        return f"{millimetres:.0f} mm"
    return f"{millimetres / 1000:.3f} m"
