"""Lengths as people write them: read to inches, printed in feet, inches and sixteenths."""

from engine.lengths.numerals import fraction, mixed
from engine.lengths.printing import feet_inches, inches, metric
from engine.lengths.reading import LengthError, parse
from engine.lengths.rounding import down, nearest, up

__all__ = ["LengthError", "down", "feet_inches", "fraction", "inches", "metric", "mixed", "nearest", "parse", "up"]
