"""Every trade fact has a unit, a standing and a source; the tables refuse what is wrong in them."""

from pathlib import Path

import pytest

from engine.plan.records import FixtureKind
from engine.rulebooks import load, names
from engine.trade import cement, facts, fixtures, habits, insulation, pipe, stock, sundries

FOLDER = Path(facts.__file__).parent
TABLES = sorted(path.stem for path in FOLDER.glob("*.csv") if path.stem not in ("fittings", "fitting_kinds"))


@pytest.mark.parametrize("name", TABLES)
def test_every_fact_is_sourced(name: str) -> None:
    for fact in facts.table(name):
        assert fact.unit in facts.MEASURES | {"word", "yes/no"}
        assert fact.standing in facts.STANDINGS
        assert len(fact.source) >= 8, fact
        if fact.standing == "practice":
            assert "common practice, no source" in fact.source, fact
        if fact.standing == "memory":
            assert "memory" in fact.source, fact
        if fact.standing == "read":
            assert "assumed" not in fact.source, fact


@pytest.mark.parametrize("name", TABLES)
def test_looking_up_what_is_not_there_names_it(name: str) -> None:
    with pytest.raises(KeyError, match=f"{name}: nothing is known of 'colour' of 'moon'"):
        facts.table(name).fact("moon", "colour")
    assert facts.table(name).maybe("moon", "colour") is None


def test_a_fact_is_asked_for_as_what_it_is() -> None:
    table = facts.table("fixtures")
    with pytest.raises(TypeError, match="not a number"):
        table.number("lavatory", "words")
    with pytest.raises(TypeError, match="not yes or no"):
        table.flag("lavatory", "width")
    with pytest.raises(TypeError, match="not words"):
        table.text("lavatory", "width")


HEAD = "of,fact,value,unit,standing,source\n"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("of,fact\na,b\n", "columns must be"),
        (HEAD + "a,b,1,in,read\n", "line 2: every row needs"),
        (HEAD + "a,b,1,in,read,x,y\n", "line 2: every row needs"),
        (HEAD + "a,b,1,in,heard,x\n", "'heard' is no standing"),
        (HEAD + "a,b,one,in,read,x\n", "line 2: 'one' is not a number"),
        (HEAD + "a,b,1,furlong,read,x\n", "'furlong' is no unit"),
        (HEAD + "a,b,maybe,yes/no,read,x\n", "neither yes nor no"),
        (HEAD + "a,b,1,in,read,x\na,b,2,in,read,x\n", "line 3: 'b' of 'a' stands twice"),
    ],
)
def test_a_fault_in_a_table_names_its_line(text: str, why: str, tmp_path: Path) -> None:
    path = tmp_path / "moon.csv"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(facts.TradeDataError, match=why):
        facts.read(path)


class TestFixtures:
    """What a fixture is until its maker's sheet says otherwise."""

    @pytest.mark.parametrize("kind", fixtures.KINDS)
    def test_every_kind_has_what_its_outlet_needs(self, kind: FixtureKind) -> None:
        spec = fixtures.fixture(kind)
        assert spec.kind == kind
        assert spec.width > 0
        assert spec.depth > 0
        if spec.cold or spec.hot:
            assert spec.supply_above_floor is not None
            assert spec.supply_size in pipe.SUPPLY_SIZES
        if spec.outlet == "none":
            assert spec.trap is None
            return
        assert spec.rim_above_floor is not None
        assert spec.outlet_above_floor is not None
        assert spec.rim_above_floor > spec.outlet_above_floor or kind == "floor_drain"
        assert (spec.trap is None) == (spec.outlet == "closet")
        assert spec.trap is None or spec.trap in pipe.DRAIN_SIZES
        assert (spec.arm is not None) == (spec.outlet == "wall")

    @pytest.mark.parametrize("kind", fixtures.KINDS)
    def test_every_field_tells_how_it_is_known(self, kind: FixtureKind) -> None:
        spec = fixtures.fixture(kind)
        for field in spec.__struct_fields__:
            if field == "kind":
                continue
            known = spec.how_known(field)
            assert (known is None) == (getattr(spec, field) is None), field

    def test_what_empties_into_a_wall_comes_by_a_tailpiece_or_a_hose(self) -> None:
        for kind in fixtures.KINDS:
            spec = fixtures.fixture(kind)
            assert (spec.comes_by is not None) == (spec.outlet == "wall"), kind
            assert spec.comes_by != "standpipe" or spec.hose_reach is not None, kind

    @pytest.mark.parametrize("name", names())
    def test_each_book_says_of_every_pair_whether_they_may_share(self, name: str) -> None:
        book = load(name)
        pairs = [(host, kind) for kind in fixtures.KINDS for host in fixtures.fixture(kind).hosts or ()]
        assert len(pairs) == 8
        assert [pair for pair in pairs if not book.has(f"trap.takes.{pair[0]}.{pair[1]}")] == []

    def test_rough_in_heights(self) -> None:
        """Rough-In Plumbing Dimensions for the Bathroom: lavatory drain usually 18, rim about 31; closet 12 off the wall."""
        lavatory, closet = fixtures.fixture("lavatory"), fixtures.fixture("water_closet")
        assert (lavatory.outlet_above_floor, lavatory.rim_above_floor, lavatory.arm, lavatory.trap) == (
            18,
            31,
            6.25,
            1.25,
        )
        assert (closet.outlet_from_back, closet.outlet_above_floor, closet.depth) == (12, 0, 28)
        assert lavatory.how_known("outlet_above_floor").standing == "read"  # type: ignore[union-attr]
        assert lavatory.how_known("arm").standing == "assumed"  # type: ignore[union-attr]

    def test_who_takes_what_water_and_who_is_of_the_bathroom(self) -> None:
        """Common practice; the group by IRC P3108.1."""
        specs = [fixtures.fixture(kind) for kind in fixtures.KINDS]
        assert {spec.kind for spec in specs if not spec.hot} == {
            "water_closet",
            "refrigerator",
            "hose_bibb",
            "floor_drain",
        }
        assert {spec.kind for spec in specs if not spec.cold} == {"dishwasher", "floor_drain"}
        group = {"water_closet", "lavatory", "shower", "bathtub", "bidet"}
        assert {spec.kind for spec in specs if spec.group} == group
        assert len({spec.letters for spec in specs}) == len(specs)

    def test_an_unknown_kind_is_named(self) -> None:
        with pytest.raises(KeyError, match="fountain"):
            fixtures.fixture("fountain")


def test_stock_lengths() -> None:
    """How Long Are Standard PVC Pipes: 10 and 20 ft."""
    sticks = stock.lengths("drain pipe")
    assert [stick.length for stick in sticks if stick.standing == "read"] == [240, 120]
    assert [stick.length for stick in sticks] == sorted((stick.length for stick in sticks), reverse=True)
    assert [coil.length / 12 for coil in stock.lengths("tube", "coil")] == [500, 300, 100, 50, 25]
    assert stock.lengths("drain pipe", "coil") == ()


def test_insulation() -> None:
    """IRC N1103 asks R-3; worked by hand: 1/2 in tube in 1/2 in foam is 1.625 wide, R 0.8125 ln(2.6) / 0.27 = 2.88."""
    assert insulation.walls() == (0.375, 0.5, 0.75)
    assert insulation.covered(0.625, 0.5) == 1.625
    assert insulation.resistance(0.625, 0.5) == pytest.approx(2.88, abs=0.005)
    assert insulation.resistance(0.875, 0.75) == pytest.approx(4.39, abs=0.005)


def test_cement() -> None:
    """A cement maker's guide: 90 joints of 1-1/2, 60 of 2, 40 of 3 and 30 of 4 in to the quart."""
    for size, joints in ((1.5, 90), (2.0, 60), (3.0, 40), (4.0, 30)):
        assert cement.quarts({size: joints}) == 1.0
    assert cement.quarts({}) == 0
    assert cement.primer("ABS") is None
    assert cement.primer("PVC") == ("primer, ASTM F656", 0.5)
    assert "D2564" in cement.cement("PVC")
    assert "no dauber" in cement.applicator(3.0)


def test_sundries_have_names() -> None:
    for kind in sundries.kinds():
        assert sundries.sundry(kind).words
    for kind in habits.CLOSET_EXTRAS:
        assert sundries.sundry(kind).kind == kind
    with pytest.raises(KeyError, match="no sundry is called 'ghost'"):
        sundries.sundry("ghost")
    assert sundries.hanger_near_branch() == 6


def test_habits() -> None:
    """Common practice, no source: 3/4 of pipe showing between hubs, a hand cut true to 1/16."""
    assert (habits.SHOWING, habits.SAW, habits.LARGEST_TUBULAR, habits.LEAST_STOCKED_DRAIN) == (0.75, 0.0625, 1.5, 1.5)
