"""What each field of a plan file means, for whoever writes one by hand: the words of the file's JSON Schema."""

from __future__ import annotations

ENVELOPE = {
    "format": "Always joistway-plan: tells this file from any other JSON text.",
    "version": "Version of the file's layout, a whole number.",
    "written_by": "Version of the program that wrote the file; for the reader only, may be left out.",
    "plan": "Everything drawn on one floor.",
}

ABOUT = (
    "One floor's plan. Lengths are inches and slopes inches of fall per foot of run, as plain numbers; angles are "
    "degrees counter-clockwise from east. A point is [x, y]: x runs east, y runs north, and [0, 0] is the outside of "
    "the framing's south-west corner. Points are rounded to 1/1024 in when read. Heights named z are inches above "
    "(+) or below (-) the top of the joists; heights named above_floor are inches above the finished floor. Pipes "
    "are joined where their points are equal, never by being near: a branch that joins a main needs its end point "
    "among the main's points. A field that is left out takes its default; null means 'not given'. Ids are the "
    "writer's choice and are unique over the whole plan. Pipe sizes are nominal, written as text."
)

_ID = "Name of this thing, unique over the whole plan; letters, digits, dots, dashes, underlines."
_NAME = "What people call it, for lists and sheets."
_DRAIN_SIZE = "Nominal pipe size in inches, as text; left out, it is worked out from the load."
_SLOPE = "Fall in inches per foot of plan length, toward the exit; left out, the plan's slope."
_PASSING = "How it gets past joists: bored through, notched, or hung under them; left out, through."
_PATH = "Axis of the run in plan: two or more points [x, y] in inches, neighbours not equal. The order does not matter."
_SAID_BY = "Who said so."
_ON = "When it was said, in any words."

FIELDS: dict[str, dict[str, str]] = {
    "JoistShift": {
        "number": "Which common joist: 0 is the first from the field's west side (or south side, if joists run "
        "east-west). Or which stud: 0 stands at the wall's start.",
        "by": "How far it is moved, inches: east is positive (north, if joists run east-west); for a stud, toward the "
        "wall's end.",
    },
    "JoistField": {
        "id": _ID,
        "corner": "South-west corner [x, y] of the rectangle, by the outside of its rims and end joists, inches.",
        "size": "Outside width (along x) and length (along y) of the rectangle, inches: [width, length].",
        "lumber": "Nominal size of joists and rims.",
        "spacing": "Distance between joist centres, inches.",
        "direction": "Which way the joists run.",
        "member": "Sawn lumber, or an engineered member, whose cuts its maker rules.",
        "first": "Centre of the first common joist from the west outside face (south, if joists run east-west), "
        "inches; left out, one spacing.",
        "depth": "Measured depth of the joists, inches, where it differs from the lumber's usual one.",
        "end_bearing": "Length over which a joist bears at each of its ends, inches.",
        "bearings": "Centres of supports between the two ends, inches from the south outside face (west, if joists "
        "run east-west).",
        "shifts": "Joists that stand off their regular place.",
        "doubled": "Joists of more than one ply.",
        "measured": "Joists whose measured depth is not that of the others.",
        "overhangs": "How far the field's south and north ends (west and east, if joists run east-west) stand out past "
        "the outside of the bearing there, inches: [south, north].",
        "blocking": "Centres of rows of full-depth blocks between the joists, inches from the south outside face (west, "
        "if joists run east-west).",
        "to_outline": "Whether it is cut off where the floor's outline passes through it, with rims and joists along "
        "the outline.",
        "species": "Species group of the lumber, for the span tables; left out, the span is not judged.",
        "rooms": "What stands on these joists: living areas, or sleeping rooms only, for the span tables.",
        "heavy_finish": "Whether a heavy finish lies on them, such as tile on mortar: 20 pounds of dead load to the square foot "
        "in place of 10, for the span tables.",
        "graded": "Whether the lumber bears a grade stamp, No. 2 or better; the span tables hold for no other.",
        "overhang_carries": "What stands on the ends that overhang: the floor alone, an outside wall and the roof, or a "
        "balcony; left out, not known, and the overhang is not judged.",
        "laps": "Centres of bearings over which joists are joined of two that lap, inches from the south outside face (west, "
        "if joists run east-west). End joists and trimmers are butted there and spliced.",
        "lap": "How far two such joists lie beside each other, inches.",
        "lap_moves": "Which of the two stands off the joist's line: the one toward the north (east) end, or the other.",
        "lap_side": "To which side it stands off.",
    },
    "DoubledJoist": {
        "number": "Which joist: 0 is the first from the field's west side (or south side, if joists run east-west).",
        "plies": "How many sticks it is made of.",
        "side": "On which side of the joist's own place the others are nailed.",
    },
    "MeasuredJoist": {
        "number": "Which joist: 0 is the first from the field's west side (or south side, if joists run east-west).",
        "depth": "Its measured depth, inches.",
    },
    "FloorLayer": {
        "thickness": "How thick it is, inches.",
        "name": "What it is: plywood, backer board, tile.",
    },
    "FloorOpening": {
        "id": _ID,
        "start": "One corner of the clear opening, face of wood to face of wood, [x, y] in inches.",
        "end": "The opposite corner, [x, y] in inches.",
        "headers": "How many plies the header at either end has.",
        "trimmers": "How many plies the trimmer at either side has.",
        "open": "Whether the floor is left out over it, for a ladder or stair: nothing may lie in it then.",
        "name": _NAME,
    },
    "FlooringArea": {
        "id": _ID,
        "start": "One corner of the rectangle, [x, y] in inches.",
        "end": "The opposite corner, [x, y] in inches.",
        "finish": "Thickness of the finished flooring there, inches, in place of the floor's own.",
        "finish_layers": "What it is made of, lowest first; left out, one layer of that thickness.",
        "name": _NAME,
    },
    "Beam": {
        "id": _ID,
        "start": "One end of its centre line, [x, y] in inches.",
        "end": "The other end of the centre line, [x, y] in inches; not the same point as start.",
        "width": "Its wood's or flange's width in plan, inches.",
        "depth": "From its top to its bottom, inches.",
        "top_z": "Height of its top, inches from the top of the joists, none or negative; left out, it lies against the "
        "underside of the joists over it.",
        "material": "What it is made of.",
        "bearing": "Whether joists rest on it.",
        "name": _NAME,
    },
    "Wall": {
        "id": _ID,
        "start": "One end of the wall's centre line, [x, y] in inches.",
        "end": "The other end of the centre line, [x, y] in inches; not the same point as start.",
        "lumber": "Nominal size of studs and plates.",
        "bearing": "Whether the wall carries load from above.",
        "exterior": "Whether it is an outside wall.",
        "finish": "Thickness of the wall board on each inside face, inches.",
        "name": _NAME,
        "stud_spacing": "Distance between stud centres, inches.",
        "first_stud": "Centre of the first stud after the one at the wall's start, from that end, inches; left out, one "
        "spacing.",
        "doubled": "Numbers of the studs that have a second one nailed to them; 0 stands at the wall's start.",
        "stud_shifts": "Studs that stand off their regular place.",
        "height": "From the subfloor to the top of the wall's plates, inches; left out, the usual storey's.",
        "top_plate": "Whether one or two plates lie on its studs.",
    },
    "Fixture": {
        "id": _ID,
        "kind": "What it is.",
        "at": "Plan point [x, y] in inches that its drain starts from: the outlet of a closet or shower, the drain "
        "shoe of a bathtub, the riser's point in the wall for a lavatory, sink or washer standpipe. For what only "
        "takes water, where the supply comes up.",
        "turn": "Heading that its front looks to, away from the wall behind it, degrees counter-clockwise from east: "
        "0 east, 90 north, 180 west, 270 south.",
        "name": _NAME,
        "trap": "Nominal trap size in inches, as text; left out, the usual one of its kind.",
        "trap_at": "Bathtub only: plan point [x, y] under the overflow tee, in inches, where the trap hangs and the "
        "drain run starts; left out, the same as at.",
        "outlet_above_floor": "Height of its outlet above the finished floor, inches; left out, the usual one.",
        "arm": "Length of a wall outlet's trap arm, weir to the riser's axis, inches; left out, the usual one.",
        "rim_above_floor": "Flood rim above the finished floor, inches; left out, the usual one.",
        "flow_gpm": "Water it draws, US gallons per minute; left out, the usual one.",
        "width": "Measure along the wall, inches; left out, the usual one.",
        "depth": "Measure out from the wall, inches; left out, the usual one.",
        "through": "Id of the fixture whose trap takes its waste, as a dishwasher's goes to the sink's; left out, it has "
        "a drain of its own.",
        "bowls": "Bowls, side by side, that share its one trap.",
        "bowls_apart": "Widest way between the outlets of bowls that share a trap, inches; left out, not known.",
        "heads": "Shower heads and sprays on its valve.",
        "gallons": "A closet's flush, US gallons; left out, 1.6 or less.",
        "disposer": "Whether a food-waste disposer hangs under it.",
    },
    "Drain": {
        "id": _ID,
        "points": _PATH,
        "size": _DRAIN_SIZE,
        "slope": _SLOPE,
        "passing": _PASSING,
        "join": "How its lower end meets the pipe it joins: flat (level, at the main's axis), rolled (from above at "
        "an angle) or drop (plumb from above).",
        "roll": "Angle of a rolled join above level, degrees.",
        "rise": "How far a rolled or drop join climbs from the main's axis, inches; left out, worked out.",
    },
    "Vent": {
        "id": _ID,
        "points": _PATH,
        "above_floor": "Height of an overhead run above the finished floor, inches; left out, the run lies under the "
        "floor.",
        "size": _DRAIN_SIZE,
        "slope": "Fall back toward the drain in inches per foot of plan length; left out, the plan's slope.",
        "passing": _PASSING + " Overhead: how it gets past the studs of a wall that it lies in, bored or notched.",
    },
    "Riser": {
        "id": _ID,
        "at": "Plan point [x, y] of the plumb pipe, inches.",
        "wall": "Id of the wall it stands in.",
        "size": "Nominal size of its drain part in inches, as text; left out, worked out from the load.",
        "vent": "Nominal size of its vent part in inches, as text; left out, worked out.",
        "top": "How it ends above: through the roof, in an air admittance valve, capped, in a loop that turns over and "
        "comes down again, or none where nothing goes on above the highest fixture or overhead vent.",
        "above_floor": "Height of that end above the finished floor, inches; for a roof the covering's height there; "
        "left out, worked out.",
        "returns": "Loop only: plan point [x, y] in inches where its far leg comes down, to the drain and to the vent under "
        "the floor.",
    },
    "Supply": {
        "id": _ID,
        "water": "Cold or hot.",
        "points": _PATH,
        "size": "Nominal tubing size in inches, as text.",
        "down": "Its axis below the joists' top, inches; left out, the middle of the joists.",
        "insulation": "Thickness of insulation round it, inches; 0 for none.",
        "passing": _PASSING,
    },
    "Exit": {
        "id": _ID,
        "at": "Plan point [x, y] where the building drain leaves the floor, inches.",
        "how": "turn-down: it turns plumb downward here, inside the rim; through-rim: it goes on level through the "
        "rim, and the point is on the rim's outside face.",
        "pinned_z": "Height that the drain's axis must have here, inches from the joists' top (negative is below); "
        "left out, the program chooses.",
        "sewer_invert_z": "Inside bottom of the sewer or tank that it must stay above, inches from the joists' top.",
        "tail_z": "Height to which a turn-down goes, inches from the joists' top.",
        "cleanout_outside": "Whether a cleanout will stand outside, where the building drain meets the sewer; a two-way one "
        "where the rule book asks for that.",
        "ground_z": "Height of the ground or slab under the exit, inches from the joists' top (negative is below); left out, "
        "taken from the floor's crawl space if that is given.",
        "meets": "What the drain passes on its way from the floor: ground: bare ground; slab: a concrete floor; foundation: a "
        "foundation wall or footing; left out, not known.",
        "sleeve": "Nominal size of the pipe sleeve round it there in inches, as text; left out, none.",
        "frost_guard": "What keeps frost from the drop between floor and ground: none, an insulated box, listed heat cable, or "
        "both.",
        "box_foam": "Thickness of that box's foam, inches.",
    },
    "Inlet": {
        "id": _ID,
        "at": "Plan point [x, y] where the water service enters, inches.",
        "size": "Nominal tubing size in inches, as text.",
        "pressure_psi": "Static pressure there, pounds per square inch, where known.",
    },
    "PinnedFitting": {
        "id": _ID,
        "at": "Plan point [x, y] where pipes turn or meet, inches.",
        "pattern": "The fitting that must stand there.",
        "level": "Whether that is under the floor or up in the wall.",
    },
    "Cleanout": {
        "id": _ID,
        "at": "Plan point [x, y] in inches: the upper end of a drain run, or the point of a riser.",
        "size": "Nominal size of its plug's pipe in inches, as text; left out, that of the pipe it opens.",
        "above_floor": "Height of its tee in the riser above the finished floor, inches; left out, it closes the end "
        "of the run under the floor.",
        "turn": "Heading to which a tee in a riser opens, degrees counter-clockwise from east: 0 east, 90 north. One "
        "at the end of a run opens away from the flow, whatever stands here.",
    },
    "AirOpening": {
        "id": _ID,
        "start": "One end of the opening in plan, [x, y] in inches.",
        "end": "Its other end in plan, [x, y] in inches; not the same point as start.",
        "top_above_floor": "Height of its upper edge above the finished floor, inches.",
        "name": _NAME,
    },
    "Hatch": {
        "id": _ID,
        "at": "Middle of the way in, plan point [x, y] in inches: a trap door in the floor, or a door or hole in the wall "
        "of the crawl space.",
        "clear": "Its least clear width, inches.",
        "name": _NAME,
    },
    "StickForSale": {
        "size": "Nominal pipe size in inches, as text.",
        "length": "Length of the stick as it is sold, inches; each length of a size once.",
        "price": "What one stick costs, in any one currency; left out, not known.",
    },
    "OnHand": {
        "part": "What it is, as the shopping list calls it.",
        "size": "Its size, as the shopping list writes it; left out where the list gives none.",
        "count": "How many there are.",
    },
    "MeasuredTakeOff": {
        "kind": "Which fitting, in the program's name for it, such as quarter_bend.",
        "size": "Its nominal size, as text: 3, or 3x3x2 (run in, run out, branch).",
        "leg": "Which of its legs was measured.",
        "length": "From the fitting's centre to where the pipe stops in that leg, inches.",
    },
    "Amendment": {
        "value": "The rule book's name of the value.",
        "becomes": "What it is here: a number in the rule book's unit, true or false, or text.",
        "said_by": _SAID_BY,
        "on": _ON,
    },
    "Ruling": {
        "about": "Id of the thing, or name of the rule, that it is about.",
        "text": "What was ruled.",
        "said_by": _SAID_BY,
        "on": _ON,
    },
    "Floor": {
        "outline": "Corners [x, y] of the floor in order round it, inches, by the outside of the framing; the last "
        "is joined to the first, sides do not cross.",
        "subfloor": "Thickness of the sheathing on the joists, inches.",
        "finish": "Thickness of the finished flooring, inches, where no flooring area lies.",
        "subfloor_layers": "What the subfloor is made of, lowest first; left out, one layer of that thickness.",
        "finish_layers": "What the finished flooring is made of, lowest first; left out, one layer of that thickness.",
        "roof_above_floor": "Height of the roof covering above the finished floor, inches.",
        "snow": "Depth of snow that a vent must stand clear of, inches.",
        "belly": "How far under the joists the underside of an insulated belly lies, which closes the floor from below, "
        "inches; left out, there is none.",
        "crawl": "Clear height under the joists, from the ground of the crawl space up to them, inches; left out, not known.",
        "design_temp": "Outdoor design temperature in winter, degrees Fahrenheit: the coldest that 97.5 percent of the "
        "winter's hours do not go under, as the building department has it; left out, not known.",
        "roof_deck": "Whether people use the roof as a deck or terrace, so that vents end high over it.",
        "seismic": "The site's seismic design category, as the building department has it; left out, not known.",
    },
    "Plan": {
        "floor": "Outline and layers of the floor.",
        "flooring_areas": "Areas with a finished flooring of their own.",
        "name": "What the job is called.",
        "place": "Where it is.",
        "drawn_by": "Who drew it.",
        "drawn_on": "When it was drawn, in any words; printed as it is.",
        "rulebook": "Name of the rule book that judges it.",
        "material": "Drain and vent pipe's plastic.",
        "slope": "Fall of drains in inches per foot of plan length, where a run gives none of its own.",
        "fields": "Joists, as rectangles that lay themselves out.",
        "floor_openings": "Openings framed in the floor, where joists are headed off.",
        "beams": "Girders, dropped beams and steel members under or in the floor.",
        "walls": "Stud walls.",
        "fixtures": "Fixtures, and whatever else takes water.",
        "drains": "Waste runs under the floor.",
        "vents": "Dry vent runs, under the floor or overhead.",
        "risers": "Plumb pipes in walls: drain below the fixtures that enter them, vent above.",
        "supplies": "Water runs under the floor.",
        "exits": "Places where the building drain leaves the floor.",
        "inlets": "Places where the water service enters.",
        "fittings": "Fittings that were chosen by hand at a turn or meeting.",
        "cleanouts": "Cleanouts, at the ends of runs and in risers.",
        "air_openings": "Windows, doors and air intakes by which a vent's air could come in.",
        "hatches": "Ways in to the space under the floor.",
        "sticks": "Lengths of drain pipe that the store sells; a size that is not named comes in the usual lengths.",
        "on_hand": "What there is already of the shopping list; it need not be bought.",
        "spares": "Share of the fittings to buy beyond what is needed, as a number: 0.1 is one in ten.",
        "takeoffs": "Take-offs measured on fittings in hand; they replace the catalogue's.",
        "amendments": "Local values that replace the rule book's.",
        "rulings": "What a local official ruled; printed beside what it is about.",
    },
}
"""By record and field. A test holds it complete."""

RECORDS: dict[str, str] = {
    "JoistShift": "One joist of a field, or stud of a wall, that stands off its regular place.",
    "DoubledJoist": "One joist of a field that is made of more than one ply.",
    "MeasuredJoist": "One joist of a field whose depth was measured and is not that of the others.",
    "JoistField": "A rectangle of joists that lays itself out: rims along two sides, end joists along the others, "
    "common joists between.",
    "FloorLayer": "One layer of the subfloor, or of the finished flooring.",
    "FloorOpening": "An opening framed in the floor: headers at its ends, trimmers at its sides, tail joists beyond.",
    "FlooringArea": "A part of the floor with a finished flooring of its own, such as a tiled bath. Where several lie over "
    "each other the last one counts.",
    "Beam": "A girder, dropped beam or steel member, by its centre line.",
    "Wall": "A stud wall, by its centre line.",
    "Fixture": "A fixture, or another thing that takes water.",
    "Drain": "A waste run under the floor: one size, one slope, one way past the joists. A branch of another size "
    "is another run.",
    "Vent": "A dry vent run.",
    "Riser": "A plumb pipe in a wall. A wall outlet needs one at its own point, and runs under the floor end at it.",
    "Supply": "A hot or cold water run under the floor.",
    "Exit": "Where the building drain leaves the drawn floor: a drain run ends at its point.",
    "Inlet": "Where the water service enters: a cold run starts at its point.",
    "PinnedFitting": "A fitting chosen by hand where pipes turn or meet.",
    "Cleanout": "A cleanout: a plugged opening at the upper end of a drain run or in a riser.",
    "AirOpening": "A window, a door or an air intake: what the ends of vents over the roof stay away from.",
    "Hatch": "A way in to the space under the floor; cleanouts there are reached through it.",
    "StickForSale": "A length of drain pipe that the store sells.",
    "OnHand": "Something on the shopping list that there is already.",
    "MeasuredTakeOff": "A take-off that was measured on the fitting in hand.",
    "Amendment": "A local value that replaces the rule book's.",
    "Ruling": "A local official's word on one thing or rule.",
    "Floor": "The floor's outline and what lies on the joists.",
    "Plan": "Everything drawn on one floor.",
}
"""By record. A test holds it complete."""
