"""Which joist or bay a point stands on. The floor: 120 x 108, joists at 16 in, rims south and north."""

from hypothesis import given
from hypothesis import strategies as st

from engine.framing.layout import lay_out
from engine.framing.wood import Wood
from engine.plan.records import Floor, JoistField, Plan

_OUTLINE = ((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))


def _wood(*fields: JoistField) -> Wood:
    fields = fields or (JoistField("F", (0.0, 0.0), (120.0, 108.0)),)
    return Wood(lay_out(Plan(floor=Floor(outline=_OUTLINE), fields=fields)))


def test_a_bay_is_the_clear_space_between_two_joists() -> None:
    bay = _wood().bay_at((36.0, 92.0))
    assert bay is not None
    assert bay.joists == ("F.2", "F.3")
    # 32 + 3/4 to 48 - 3/4, rim to rim
    assert (bay.corner, bay.opposite, bay.width) == ((32.75, 1.5), (47.25, 106.5), 14.5)
    assert bay.middle == ((40.0, 1.5), (40.0, 106.5))


def test_over_wood_there_is_a_joist_and_no_bay() -> None:
    wood = _wood()
    over = wood.joist_at((47.25, 50.0))
    assert over is not None
    assert over.id == "F.3"
    assert wood.bay_at((47.25, 50.0)) is None
    rim = wood.joist_at((50.0, 106.5))
    assert rim is not None
    assert rim.kind == "rim"


def test_off_the_floor_there_is_neither() -> None:
    wood = _wood()
    assert wood.joist_at((130.0, 50.0)) is None
    assert wood.bay_at((130.0, 50.0)) is None
    assert wood.bay_at((50.0, 120.0)) is None


def test_bays_of_joists_that_run_east() -> None:
    bay = _wood(JoistField("E", (0.0, 0.0), (108.0, 120.0), direction="east-west")).bay_at((50.0, 20.0))
    assert bay is not None
    assert (bay.corner, bay.opposite, bay.along) == ((1.5, 16.75), (106.5, 31.25), (1.0, 0.0))
    assert bay.middle == ((1.5, 24.0), (106.5, 24.0))


def test_fields_side_by_side_keep_their_bays() -> None:
    wood = _wood(JoistField("A", (0.0, 0.0), (40.0, 60.0)), JoistField("B", (0.0, 60.0), (40.0, 60.0), first=12.0))
    lower, upper = wood.bay_at((20.0, 30.0)), wood.bay_at((20.0, 90.0))
    assert lower is not None
    assert upper is not None
    assert lower.joists == ("A.1", "A.2")
    assert upper.joists == ("B.1", "B.2")


@given(
    st.floats(-10, 130),
    st.floats(-10, 120),
    st.floats(0, 30),
    st.floats(0, 30),
    st.sampled_from(["north-south", "east-west"]),
)
def test_near_finds_what_a_search_of_every_joist_finds(x: float, y: float, w: float, h: float, direction: str) -> None:
    wood = _wood(JoistField("F", (0.0, 0.0), (120.0, 108.0), direction=direction))  # type: ignore[arg-type]
    expected = set()
    for joist in wood.framing.joists:
        half = joist.thickness / 2.0
        dx, dy = (half, 0.0) if joist.along[1] else (0.0, half)
        low = (joist.start[0] - dx, joist.start[1] - dy)
        high = (joist.end[0] + dx, joist.end[1] + dy)
        if low[0] <= x + w and high[0] >= x and low[1] <= y + h and high[1] >= y:
            expected.add(joist.id)
    assert {joist.id for joist in wood.near((x, y), (x + w, y + h))} == expected
