"""The floor plan to scale: framing, walls, fixtures, pipes, cuts, findings and dimensions on one sheet."""

from __future__ import annotations

from engine.drawings import air_openings, dimensions, fixtures, flooring, marks, pipes, rooms, ways_in, wood
from engine.drawings.furniture import north_arrow, scale_bar
from engine.drawings.labels import Box
from engine.drawings.piece_marks import draw_piece_marks
from engine.drawings.scales import Scale, largest
from engine.drawings.sheet import Content, Frame, Sheet
from engine.drawings.strokes import Drawing, Stroke, Text
from engine.drawings.typeface import text_width
from engine.framing.shadow import band
from engine.plan.records import Plan, Point
from engine.study import Study

LETTERING = 5.0 / 64.0
"""Height of a sheet's capitals, inches, unless asked otherwise: readable on a clipboard at arm's length."""

_STRIP = 0.36


def plan_drawing(
    study: Study, width: float, height: float, content: Content = "everything", lettering: float = LETTERING
) -> Drawing:
    """The plan at the largest standard scale that fits `width` by `height` inches of paper, with its dimensions.

    The drawing is centred; north is up. Nothing that was drawn is left out: a label that finds no free place
    goes to the least crowded one, with a leader.
    """
    area = _covered(study.plan)
    left, bottom, right, top = _margins(content, lettering, width)
    inner = (max(width - left - right, 0.5), max(height - bottom - top, 0.5))
    scale = largest(area.right - area.left, area.top - area.bottom, *inner)
    shown = ((area.right - area.left) / scale.ratio, (area.top - area.bottom) / scale.ratio)
    origin = (left + (inner[0] - shown[0]) / 2.0, bottom + (inner[1] - shown[1]) / 2.0)
    frame = Frame(scale, origin, area.left, area.bottom)
    sheet = Sheet(frame, Box(0.0, _STRIP, width, height), lettering, content)
    _draw(sheet, study)
    strip = _strip(sheet, study, width, scale)
    strokes = (*sheet.strokes(), *strip)
    bounds = (origin[0] - left, 0.0, origin[0] + shown[0] + right, origin[1] + shown[1] + top)
    return Drawing(strokes, width, height, bounds, scale.name, scale.ratio)


def fit(study: Study, width: float, height: float, content: Content, lettering: float = LETTERING) -> Scale:
    """The scale that a plan drawing would have on such paper."""
    area = _covered(study.plan)
    left, bottom, right, top = _margins(content, lettering, width)
    inner = (max(width - left - right, 0.5), max(height - bottom - top, 0.5))
    return largest(area.right - area.left, area.top - area.bottom, *inner)


def _draw(sheet: Sheet, study: Study) -> None:
    """Everything in an order that gives what matters most the first choice of place."""
    plan = study.plan
    measured = sheet.content != "overview"
    wood.draw_wood(sheet, study)
    flooring.draw_areas(sheet, plan)
    wood.draw_walls(sheet, plan)
    air_openings.draw_openings(sheet, plan)
    if pipes.shown(sheet, "waste"):
        ways_in.draw_hatches(sheet, study)
    for fixture in plan.fixtures:
        fixtures.draw_fixture(sheet, fixture, plan)
    if pipes.shown(sheet, "waste"):
        fixtures.draw_hoses(sheet, plan)
    dimensions.overall(sheet, plan)
    if measured:
        dimensions.ordinates(sheet, study)
    runs = pipes.draw_lines(sheet, study)
    posts = pipes.mark_posts(sheet, study)
    if pipes.shown(sheet, "waste"):
        posts += ways_in.mark_cleanouts(sheet, study)
    if measured:
        marks.draw_cuts(sheet, study)
    if sheet.content in ("everything", "overview"):
        rooms.draw_rooms(sheet, study)
        marks.draw_findings(sheet, study.findings)
        air_openings.draw_reaches(sheet, study)
    for track in sorted(runs, key=lambda track: track.system):
        pipes.draw_letters(sheet, track, runs)
    for fixture in plan.fixtures:
        fixtures.draw_letters(sheet, fixture, plan)
    if pipes.shown(sheet, "waste"):
        pipes.draw_flow(sheet, study.model.network)
        if measured:
            pipes.draw_slopes(sheet, study)
    wood.note_wood(sheet, study)
    flooring.name_areas(sheet, plan)
    air_openings.name_openings(sheet, plan)
    if pipes.shown(sheet, "waste"):
        ways_in.name_hatches(sheet, study)
    for at, words in posts:
        sheet.label(at, words, clear=0.07)
    if measured and pipes.shown(sheet, "waste"):
        draw_piece_marks(sheet, study)
    if measured and pipes.shown(sheet, "waste"):
        for point, words in pipes.heights_wanted(study):
            sheet.label(sheet.frame.at(point), words, 0.9, clear=0.05)


def _covered(plan: Plan) -> Box:
    """The rectangle round everything that is drawn, plan inches."""
    points: list[Point] = list(plan.floor.outline)
    for field in plan.fields:
        points += [field.corner, (field.corner[0] + field.size[0], field.corner[1] + field.size[1])]
    for wall in plan.walls:
        points += wood.wall_corners(wall)
    for opening in plan.air_openings:
        points += band(opening.start, opening.end, air_openings.depth_of(opening, plan))
    for fixture in plan.fixtures:
        points += fixtures.corners_of(fixture, plan)
    for run in plan.drains:
        points += run.points
    for vent in plan.vents:
        points += vent.points
    for supply in plan.supplies:
        points += supply.points
    points += [thing.returns for thing in plan.risers if thing.returns is not None]
    points += [thing.at for thing in plan.risers] + [thing.at for thing in plan.exits]
    points += [thing.at for thing in plan.inlets]
    for beam in plan.beams:
        points += band(beam.start, beam.end, beam.width)
    for area in plan.flooring_areas:
        points += [area.start, area.end]
    for hatch in plan.hatches:
        half = hatch.clear / 2.0
        points += [(hatch.at[0] - half, hatch.at[1] - half), (hatch.at[0] + half, hatch.at[1] + half)]
    return dimensions.box_of(points)


def _margins(content: Content, lettering: float, width: float) -> tuple[float, float, float, float]:
    """Paper kept free for dimensions: left, bottom, right, top."""
    outside = 0.46
    if content == "overview":
        return 0.2, _STRIP + 0.12, outside, outside
    reach = 0.36 + text_width("12'-11 15/16\"", lettering)
    return reach, _STRIP + reach, outside, outside


def _strip(sheet: Sheet, study: Study, width: float, scale: Scale) -> list[Stroke]:
    """The strip under the plan: scale bar, scale in words, datum and north."""
    bar, end = scale_bar((0.1, 0.1), scale, lettering=sheet.height, most=min(2.6, width * 0.35))
    strokes: list[Stroke] = list(bar)
    strokes += north_arrow((width - 0.2, 0.17), 0.14, sheet.height)
    words = f"SCALE {scale.name}"
    strokes.append(Text((end + 0.25, 0.2), words, sheet.height * 1.15, bold=True))
    if sheet.content != "overview":
        said = [dimensions.datum_words(study)]
        if pipes.shown(sheet, "cold") and (deep := pipes.depth_words(study)):
            said.append(deep)
        strokes.append(Text((end + 0.25, 0.06), "; ".join(said), sheet.height * 0.85))
    return strokes
