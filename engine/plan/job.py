"""What a plan says of the job beside the drawing: the store, the cupboard, the fittings in hand, the officials."""

from __future__ import annotations

from typing import Annotated, Literal

import msgspec

from engine.plan.record import DrainSize, Record, Words


class StickForSale(Record, frozen=True, gc=False):
    """A length of drain pipe that the builder's store sells, with its price where known.

    Where a plan names none for a size, the usual stock lengths stand in.
    """

    size: DrainSize
    length: Annotated[float, msgspec.Meta(ge=6.0, le=480.0)]
    price: Annotated[float, msgspec.Meta(ge=0.0, le=100000.0)] | None = None


class OnHand(Record, frozen=True, gc=False):
    """Something on the shopping list that the builder already has: it is subtracted from what is to be bought."""

    part: Annotated[str, msgspec.Meta(min_length=1, max_length=80)]
    size: Annotated[str, msgspec.Meta(max_length=40)] = ""
    count: Annotated[int, msgspec.Meta(ge=0, le=10000)] = 1


class MeasuredTakeOff(Record, frozen=True, gc=False):
    """A take-off that the builder measured on the fitting in hand; it replaces the catalogue's."""

    kind: Annotated[str, msgspec.Meta(min_length=1, max_length=60)]
    size: Annotated[str, msgspec.Meta(min_length=1, max_length=30)]
    leg: Literal["run_in", "run_out", "branch"]
    length: Annotated[float, msgspec.Meta(ge=-24.0, le=36.0)]


class Amendment(Record, frozen=True, gc=False):
    """A local value that replaces the rule book's: which value, what it becomes, who said so and when."""

    value: Annotated[str, msgspec.Meta(min_length=1, max_length=120)]
    becomes: float | bool | str
    said_by: Words = ""
    on: Words = ""


class Ruling(Record, frozen=True, gc=False):
    """A local official's word on one element or rule: it is printed beside the finding, which stays."""

    about: Annotated[str, msgspec.Meta(min_length=1, max_length=120)]
    text: Words
    said_by: Words = ""
    on: Words = ""
