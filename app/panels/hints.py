"""How lists are typed in the properties pane: an example that stands greyed in an empty field, and a tip in words."""

from __future__ import annotations

from engine.plan.descriptions import FIELDS as FIELD_WORDS
from engine.plan.records import Element, JoistField

EXAMPLES: dict[tuple[str, str], str] = {
    ("JoistField", "bearings"): "such as 6'; 12' 6\"",
    ("JoistField", "laps"): "such as 10'",
    ("JoistField", "shifts"): 'such as 3 by 1 1/2"',
    ("JoistField", "doubled"): "such as 3; 5 west; 7 x3",
    ("JoistField", "measured"): 'such as 3 is 9 3/4"',
    ("JoistField", "blocking"): "such as 5'; 10'",
    ("Wall", "doubled"): "such as 2; 5",
    ("Wall", "stud_shifts"): 'such as 2 by 1 1/2"',
    ("FlooringArea", "finish_layers"): 'such as 1/4" backer board + 3/8" tile',
}
"""By record and field: what an empty field shows where nothing holds in its place."""

_JOISTS = "Joists go by the numbers on the plan, 3 or j1.3; 0 is the end joist at the {first}."
_STUDS = "Studs go by numbers; 0 stands at the wall's start."

TIPS: dict[tuple[str, str], str] = {
    (
        "JoistField",
        "bearings",
    ): "Middles of the supports between the two ends, measured from the outside at the {edge}. Several "
    "are parted by semicolons.",
    (
        "JoistField",
        "shifts",
    ): "Joists that stand off their place: number, by, and how far toward the {last}; toward the {first} "
    f"with a minus. {_JOISTS}",
    (
        "JoistField",
        "doubled",
    ): "Joists of two sticks or more: the number alone nails another on at the {last} side; add the side "
    f"({{first}}) or x3 for three. {_JOISTS}",
    ("JoistField", "measured"): f"Joists whose depth you measured: number, is, and the depth. {_JOISTS}",
    (
        "JoistField",
        "blocking",
    ): "Middles of rows of full-depth blocks, measured from the outside at the {edge}. Several are parted "
    "by semicolons.",
    (
        "JoistField",
        "overhangs",
    ): "How far the joists stand out past the outside of their bearing at the {edge} end and at the {far} end.",
    ("JoistField", "first"): "From the outside at the {first} to the middle of the first joist after the end joist.",
    ("FloorOpening", "measures"): "Its clear way, west to east and south to north; the south-west corner stays.",
    ("FlooringArea", "measures"): "West to east and south to north; the south-west corner stays.",
    ("Beam", "width"): "Across its top, in plan. A steel member is not of one size: measure its flange.",
    ("Beam", "depth"): "From its top to its bottom. A steel member is not of one size: measure it.",
    (
        "Beam",
        "bearing",
    ): "Whether joists rest on it. Look under the floor: joists over a trailer's steel may pass it with air between.",
    ("Wall", "doubled"): f"Studs with a second one beside them, by their numbers. {_STUDS}",
    (
        "Wall",
        "stud_shifts",
    ): "Studs that stand off their place: number, by, and how far toward the wall's end; toward its start "
    f"with a minus. {_STUDS}",
}
"""By record and field: how it is typed, where the plan file's own words would not tell. The sides are filled in."""


def example(element: Element, field: str) -> str:
    """What an empty field shows as an example of what to type; empty where none is wanted."""
    return EXAMPLES.get((type(element).__name__, field), "")


def tip(element: Element, field: str) -> str:
    """What a field means and how it is typed."""
    kind = type(element).__name__
    told = TIPS.get((kind, field))
    if told is None:
        return FIELD_WORDS[kind][field]
    return told.format(**_sides(element)) if isinstance(element, JoistField) else told


def ends_of(field: JoistField) -> tuple[str, str]:
    """The two ends of a field's joists by the compass, the one from which places along them count first."""
    return ("south", "north") if field.direction == "north-south" else ("west", "east")


def _sides(field: JoistField) -> dict[str, str]:
    edge, far = ends_of(field)
    first, last = ("west", "east") if field.direction == "north-south" else ("south", "north")
    return {"edge": edge, "far": far, "first": first, "last": last}
