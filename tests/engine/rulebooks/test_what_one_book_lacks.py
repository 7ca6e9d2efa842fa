"""What one of the two books has and the other leaves open: no key may be missing from either without a word on why.

The two lists are to be read like code when a key is added.
"""

from engine.rulebooks import RuleBook, load

ONLY_IRC_AND_UNRULED = """
cleanout.largest
cleanout.sewer_junction_within
cleanout.stack_sizes_smaller
cleanout.trap_serves_sizes
cleanout.turn_over
cleanout.turn_reach
cleanout.wall_face_within
clearance.shower.front
clearance.shower.narrow_area
clearance.shower.narrow_side
clearance.shower.side
combination.branch.*
combination.building_drain.*
combination.disposer
combination.slope_most
common_vent.load.*
common_vent.two_levels
common_vent.upper_closet
dfu.group.*
dfu.pumped.*
exit.sleeve_sizes_up
fitting.double_sanitary_tee.closet_run_least
fitting.heel_inlet.*
fitting.note_a.*
fitting.note_b.*
fitting.note_c.*
fitting.side_inlet.*
island_vent.above_outlet
island_vent.full_size
load.building_drain.1/2.*
load.building_drain.1/4.*
load.building_drain.1/8.*
load.building_drain.fixtures_most.*
load.building_drain.pumped_most.*
load.fixtures_most.*
outlet_to_trap.*
shield.past_plate
stack_base.*
stack_vent.*
standpipe.laundry_tub_sideways_most
standpipe.over_tub_rim
standpipe.with_laundry_tub_least
support.brace_from
support.brace_over
support.vertical.*
tailpiece.*
trap.shower_flow.*
valve.above_branch
valve.above_insulation
valve.lean_most
valve.one_vent_outdoors
valve.stack_above_rim
vent.branch_by_drain
vent.long_run
vent.long_run_sizes_up
vent.main_by_island
vent.main_fraction
vent.measured_to_stack
vent.sidewall_above_grade
vent.sidewall_from_lot_line
vertical_wet_vent.closets_one_level
vertical_wet_vent.group_only
wet_vent.load.1-1/2
"""
"""The UPC has no such rule, and its book says why."""

ONLY_UPC_AND_UNRULED = """
after_arm.*
cleanout.crawl_way_least
cleanout.from_access_most
cleanout.short_run
cleanout.steep_within
cleanout.turns_sum_over
cleanout.upper_floors_excused
clearance.shower.circle
clearance.shower.tub_place_length
clearance.shower.tub_place_width
closet.bend_takes_branch
combination.needs_leave
combination.own_vent_over
combination.sizes_up
combination.vent_area
dfu.by_trap.*
dfu.emergency_floor_drain
dfu.on_trap.*
dfu.through.*
fitting.double_sanitary_tee.back_to_back
fitting.double_sanitary_tee.barrel.*
island_vent.alone_upstream
island_vent.below_rim_most
island_vent.bend_in_three
island_vent.foot_by_wye
island_vent.only_islands
island_vent.slope_least
load.closets_most.*
load.flat_share
load.flat_under
load.large_fixture.*
load.stack_length.*
load.stack_sink.*
load.stack_sink_units.*
shield.past_pipe
slope.least_with_leave.*
standpipe.trap_above_floor_least
standpipe.trap_above_floor_most
support.each_floor
support.expansion_every
trap.sizes_up_most
trap_arm.as_trap
trap_arm.closet_from_flange
trap_arm.closet_length.*
trap_arm.turn_without_cleanout_most.*
vent.area_covers_sewer
vent.closet_least
vent.from_lot_line
vent.frost_roof_above
vent.length.*
vent.level_share
vent.level_waived_sizes_up
vent.load.*
vent.roof_wall_away
vertical_wet_vent.fixture_most
vertical_wet_vent.fixtures_most
vertical_wet_vent.least
vertical_wet_vent.length_most
vertical_wet_vent.sizes_up
wet_vent.least
"""
"""The IRC has no such rule, and its book says why."""


def lacking(book: RuleBook, other: RuleBook, unruled: bool) -> list[str]:
    """Keys of `book` that `other` lacks; a group that it lacks whole is one line."""
    found = set()
    for key in (value.key for value in book):
        if other.has(key) or (other.silence(key) is not None) != unruled:
            continue
        stem = key
        while "." in stem and not other.speaks_of(stem.rsplit(".", 1)[0]):
            stem = stem.rsplit(".", 1)[0]
        found.add(key if stem == key else f"{stem}.*")
    return sorted(found)


def test_what_the_uniform_code_s_book_lacks() -> None:
    irc, upc = load("irc-2021"), load("upc-2021")
    assert lacking(irc, upc, unruled=False) == [], "add these to the UPC's book, or to what it leaves open"
    assert lacking(irc, upc, unruled=True) == ONLY_IRC_AND_UNRULED.split()


def test_what_the_residential_code_s_book_lacks() -> None:
    irc, upc = load("irc-2021"), load("upc-2021")
    assert lacking(upc, irc, unruled=False) == [], "add these to the IRC's book, or to what it leaves open"
    assert lacking(upc, irc, unruled=True) == ONLY_UPC_AND_UNRULED.split()


def test_a_value_in_both_books_has_one_unit() -> None:
    irc, upc = load("irc-2021"), load("upc-2021")
    both = [value.key for value in irc if upc.has(value.key)]
    assert len(both) > 100
    assert [key for key in both if irc.value(key).unit != upc.value(key).unit] == []


def test_what_a_book_says_its_code_leaves_open_is_a_key_of_the_other() -> None:
    irc, upc = load("irc-2021"), load("upc-2021")
    assert [key for key in irc.unruled if not upc.speaks_of(key)] == []
    assert [key for key in upc.unruled if not irc.speaks_of(key)] == []
