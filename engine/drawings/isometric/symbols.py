"""A symbol for each kind of part, drawn with the legs that it has on this sheet.

A hub's mouth is a tick across the pipe, a spigot has none; bends are as sharp or as wide as they are made, a
combination's branch takes its eighth bend before it joins. Our own small alphabet, explained on every sheet.
"""

from __future__ import annotations

from collections.abc import Callable

from engine.drawings.isometric.shapes import (
    BODY,
    LEG,
    TRAP_DEEP,
    TRAP_WIDE,
    Site,
    along,
    box,
    loop,
    plate,
    ring,
    straight,
    swept,
    taper,
    tick,
)
from engine.drawings.linetypes import MEDIUM, THIN
from engine.drawings.strokes import Arc, Fill, Line, Stroke

Symbol = Callable[[Site], list[Stroke]]
"""Draws a part: of a fitting the legs are its ports in their order, of a mounted part the one outward."""


def symbol_of(kind: str) -> Symbol:
    """The symbol of a kind of part; a plain ring for one that has none of its own."""
    return SYMBOLS.get(kind, _plain)


def _bend(sharpness: float) -> Symbol:
    def draw(site: Site) -> list[Stroke]:
        if len(site.legs) < 2:
            return straight(site, *range(len(site.legs)))
        return [swept(site, 0, 1, sharpness), *tick(site, 0), *tick(site, 1)]

    return draw


def _closet_bend(site: Site) -> list[Stroke]:
    wide = taper(site, 0, LEG * 0.15, LEG * 0.75, 0.018, 0.045)
    return [*_bend(0.7)(site), *plate(wide, THIN)]


def _tee(site: Site) -> list[Stroke]:
    """Run straight through; each branch is swept the way the water goes."""
    strokes = straight(site, 0, 1)
    for number in range(2, len(site.legs)):
        strokes += [swept(site, number, 1, 0.55, 0.55), *tick(site, number)]
    return strokes


def _fixture_fitting(site: Site) -> list[Stroke]:
    """A double tee whose branches sweep further down the run before they join it."""
    strokes = straight(site, 0, 1)
    for number in range(2, len(site.legs)):
        strokes += [swept(site, number, 1, 0.9, 0.9), *tick(site, number)]
    return strokes


def _wye(site: Site) -> list[Stroke]:
    return straight(site, *range(len(site.legs)))


def _combination(site: Site) -> list[Stroke]:
    strokes = straight(site, 0, 1)
    for number in range(2, len(site.legs)):
        strokes += [
            Line((site.tip(number), site.tip(number, 0.62), site.tip(1, 0.62)), site.weight),
            *tick(site, number),
        ]
    return strokes


def _test_tee(site: Site) -> list[Stroke]:
    strokes = straight(site, 0, 1)
    if len(site.legs) > 2:
        strokes += [Line((site.at, site.tip(2)), site.weight), *plate(box(site, 2, LEG * 0.55, LEG, 0.03), THIN)]
    return strokes


def _sleeve(wide: float, narrow: float, bars: int) -> Symbol:
    """A coupling: a sleeve on the pipe, tapered where it reduces, with so many bars across it."""

    def draw(site: Site) -> list[Stroke]:
        if not site.legs:
            return _plain(site)
        half = LEG * 0.62
        body = taper(site, 0, half, -half, wide, narrow)
        strokes = plate(body, MEDIUM)
        for n in range(bars):
            at = (n - (bars - 1) / 2.0) * half * 0.5
            strokes.append(Line((site.off(0, at, wide), site.off(0, at, -wide)), THIN))
        return strokes

    return draw


def _flange(site: Site) -> list[Stroke]:
    strokes: list[Stroke] = list(straight(site, 0)) if site.legs else []
    outer, inner = ring(site.at, 0.1 * site.unit), ring(site.at, 0.05 * site.unit)
    return [*strokes, *plate(outer, MEDIUM), Line(inner, THIN, closed=True)]


def _trap(site: Site) -> list[Stroke]:
    """A glued trap: inlet down, loop, and the arm; the first leg is the inlet, the last the arm."""
    arm = site.legs[-1]
    wide = min(TRAP_WIDE * site.unit, arm.long * 0.8)
    bowl = loop(site.at, arm.way, wide, TRAP_DEEP * site.unit)
    rise = site.tip(0) if len(site.legs) > 1 else along(site.at, (0.0, 1.0), LEG * site.unit)
    strokes: list[Stroke] = [Line((rise, *bowl, site.tip(len(site.legs) - 1)), site.weight)]
    return [*strokes, *tick(site, 0), *tick(site, len(site.legs) - 1)]


def _tubular_trap(site: Site) -> list[Stroke]:
    """A trap with slip nuts: a lighter loop, its nuts as small boxes."""
    arm = site.legs[-1]
    wide = TRAP_WIDE * site.unit
    bowl = loop(site.at, arm.way, wide, TRAP_DEEP * site.unit)
    top = along(site.at, (0.0, 1.0), LEG * site.unit)
    end = along(site.at, arm.way, max(wide, arm.long))
    nuts = (along(site.at, (0.0, 1.0), 0.03 * site.unit), along(site.at, arm.way, wide))
    strokes: list[Stroke] = [Line((top, *bowl, end), MEDIUM)]
    for x, y in nuts:
        h = 0.02 * site.unit
        strokes += plate(((x - h, y - h), (x + h, y - h), (x + h, y + h), (x - h, y + h)), THIN)
    return strokes


def _bushing(site: Site) -> list[Stroke]:
    return [Fill(taper(site, 0, 0.0, BODY * 0.75, 0.046, 0.026), 0.0)]


def _trap_adapter(site: Site) -> list[Stroke]:
    return [
        *plate(taper(site, 0, 0.0, BODY * 0.55, 0.028, 0.044), THIN),
        *plate(box(site, 0, BODY * 0.55, BODY, 0.044), THIN),
    ]


def _test_plug(site: Site) -> list[Stroke]:
    half = BODY * 0.42
    points = (
        site.off(0, BODY * 0.45 - half),
        site.off(0, BODY * 0.45, half),
        site.off(0, BODY * 0.45 + half),
        site.off(0, BODY * 0.45, -half),
    )
    return [Fill(points, 0.0)]


def _test_cap(site: Site) -> list[Stroke]:
    return [
        Line((site.off(0, 0.0, 0.05), site.off(0, 0.0, -0.05)), site.weight),
        *plate(taper(site, 0, 0.0, BODY * 0.5, 0.05, 0.022), THIN),
    ]


def _end_cap(site: Site) -> list[Stroke]:
    return [Fill(box(site, 0, -0.01, BODY * 0.4, 0.05), 0.0)]


def _cleanout_adapter(site: Site) -> list[Stroke]:
    reach = BODY * 0.9
    return [
        *plate(box(site, 0, 0.0, reach, 0.034), MEDIUM),
        Line((site.off(0, reach * 0.5, 0.034), site.off(0, reach * 0.5, -0.034)), THIN),
    ]


def _cleanout_plug(site: Site) -> list[Stroke]:
    at = site.off(0, BODY * 0.5)
    return [Arc(at, 0.042 * site.unit, MEDIUM, fill=1.0), Arc(at, 0.02 * site.unit, THIN, fill=0.0)]


def _flashing(site: Site) -> list[Stroke]:
    """The roof round the pipe: a skirt below its open end."""
    low = site.off(0, -0.17)
    base = ring(low, 0.1 * site.unit)
    return [
        *plate(base, THIN),
        Line((site.off(0, -0.06, 0.022), (low[0] - 0.07 * site.unit, low[1])), THIN),
        Line((site.off(0, -0.06, -0.022), (low[0] + 0.07 * site.unit, low[1])), THIN),
        Line((low, site.at), site.weight),
    ]


def _valve_adapter(site: Site) -> list[Stroke]:
    return plate(box(site, 0, -0.045, 0.0, 0.034), MEDIUM)


def _admittance_valve(site: Site) -> list[Stroke]:
    at = site.off(0, BODY * 0.7)
    reach = 0.05 * site.unit
    return [
        Arc(at, reach, MEDIUM, fill=1.0),
        Line(
            (
                (at[0] - reach * 0.55, at[1] + reach * 0.35),
                (at[0], at[1] - reach * 0.5),
                (at[0] + reach * 0.55, at[1] + reach * 0.35),
            ),
            THIN,
        ),
    ]


def _waste_and_overflow(site: Site) -> list[Stroke]:
    """The tee under the overflow: a tube up, and one off to the shoe."""
    foot, top = site.off(0, BODY * 0.3), site.off(0, BODY * 2.9)
    middle = site.off(0, BODY * 1.3)
    shoe = along(middle, (-0.866, -0.5), 0.12 * site.unit)
    return [
        Line((foot, top), MEDIUM),
        Line((middle, shoe), MEDIUM),
        *plate(ring(top, 0.04 * site.unit), THIN),
        *plate(ring(shoe, 0.04 * site.unit), THIN),
    ]


def _continuous_waste(site: Site) -> list[Stroke]:
    """A tube that comes in level from another bowl, with its nut."""
    foot = site.off(0, BODY * 0.6)
    far = along(foot, (-0.866, -0.5), 0.16 * site.unit)
    return [Line((site.at, foot, far), MEDIUM), *plate(ring(far, 0.032 * site.unit), THIN)]


def _branch_tailpiece(site: Site) -> list[Stroke]:
    """A tailpiece with a barb aside, for a hose."""
    middle = site.off(0, BODY * 0.5)
    barb = along(middle, (0.866, 0.5), 0.085 * site.unit)
    return [*plate(box(site, 0, 0.0, BODY, 0.026), THIN), Line((middle, barb), MEDIUM)]


def _standpipe_tee(site: Site) -> list[Stroke]:
    middle = site.off(0, BODY * 0.5)
    branch = along(middle, (0.866, 0.5), 0.1 * site.unit)
    return [Line((site.at, site.off(0, BODY)), site.weight), Line((middle, branch), site.weight)]


def _hose_clamp(site: Site) -> list[Stroke]:
    at = site.off(0, BODY * 0.5)
    return [Line(ring(at, 0.036 * site.unit), MEDIUM, closed=True), *plate(ring(at, 0.012 * site.unit), THIN)]


def _air_gap(site: Site) -> list[Stroke]:
    """A cap with windows on two legs that do not meet."""
    foot, top = site.off(0, BODY * 0.35), site.off(0, BODY * 1.1)
    return [
        Line((site.off(0, 0.0, 0.02), site.off(0, BODY * 0.35, 0.02)), THIN),
        Line((site.off(0, 0.0, -0.02), site.off(0, BODY * 0.35, -0.02)), THIN),
        *plate(box(site, 0, BODY * 0.35, BODY * 1.1, 0.036), THIN),
        Line((foot, top), THIN),
    ]


def _crimped(site: Site) -> list[Stroke]:
    """A fitting between tubes: its legs with a ring round each end."""
    strokes: list[Stroke] = []
    for number, leg in enumerate(site.legs):
        strokes.append(Line((site.at, site.tip(number)), site.weight * 1.6))
        reach = leg.long / site.unit
        strokes += plate(box(site, number, reach * 0.72, reach, 0.026), THIN)
    return strokes or _plain(site)


def _tube_plug(site: Site) -> list[Stroke]:
    return [Fill(box(site, 0, 0.0, BODY * 0.6, 0.03), 0.0)] if site.legs else _plain(site)


def _tube_adapter(site: Site) -> list[Stroke]:
    if not site.legs:
        return _plain(site)
    rim = BODY * 0.45
    return [*plate(box(site, 0, 0.0, rim, 0.026), THIN), *plate(box(site, 0, rim, BODY, 0.042), THIN)]


def _valve(filled: bool) -> Symbol:
    """A bow-tie across the pipe."""

    def draw(site: Site) -> list[Stroke]:
        if not site.legs:
            return _plain(site)
        near, far = taper(site, 0, 0.0, BODY * 0.5, 0.042, 0.0), taper(site, 0, BODY, BODY * 0.5, 0.042, 0.0)
        grey = 0.0 if filled else 1.0
        return [*plate(near, THIN, grey), *plate(far, THIN, grey)]

    return draw


def _stop_valve(site: Site) -> list[Stroke]:
    if not site.legs:
        return _plain(site)
    handle = site.off(0, BODY * 0.5, 0.06)
    return [
        *_valve(filled=False)(site),
        Line((site.off(0, BODY * 0.5), handle), THIN),
        Arc(handle, 0.016 * site.unit, THIN, fill=0.0),
    ]


def _arrester(site: Site) -> list[Stroke]:
    at = site.off(0, BODY * 0.5)
    top = along(at, (0.0, 1.0), 0.11 * site.unit)
    half = 0.02 * site.unit
    body = ((at[0] - half, at[1]), (at[0] + half, at[1]), (top[0] + half, top[1]), (top[0] - half, top[1]))
    return [
        *plate(body, THIN),
        Line(((at[0] - half, (at[1] + top[1]) / 2.0), (at[0] + half, (at[1] + top[1]) / 2.0)), THIN),
    ]


def _plain(site: Site) -> list[Stroke]:
    at = site.off(0, BODY * 0.5) if len(site.legs) == 1 else site.at
    return [Arc(at, 0.035 * site.unit, MEDIUM, fill=1.0)]


SYMBOLS: dict[str, Symbol] = {
    "quarter_bend": _bend(0.5),
    "street_quarter_bend": _bend(0.5),
    "vent_quarter_bend": _bend(0.12),
    "long_sweep_quarter_bend": _bend(0.97),
    "street_long_sweep_quarter_bend": _bend(0.97),
    "sixth_bend": _bend(0.4),
    "eighth_bend": _bend(0.3),
    "street_eighth_bend": _bend(0.3),
    "sixteenth_bend": _bend(0.2),
    "street_sixteenth_bend": _bend(0.2),
    "closet_bend": _closet_bend,
    "sanitary_tee": _tee,
    "double_sanitary_tee": _tee,
    "double_fixture_fitting": _fixture_fitting,
    "wye": _wye,
    "double_wye": _wye,
    "combo_wye_eighth_bend": _combination,
    "double_combo_wye_eighth_bend": _combination,
    "test_tee": _test_tee,
    "coupling": _sleeve(0.032, 0.032, 1),
    "repair_coupling": _sleeve(0.032, 0.032, 3),
    "reducer_coupling": _sleeve(0.045, 0.022, 0),
    "closet_flange_4x3": _flange,
    "closet_flange_hub": _flange,
    "p_trap": _trap,
    "tubular_trap": _tubular_trap,
    "trap_adapter_spigot": _trap_adapter,
    "trap_adapter_hub": _trap_adapter,
    "flush_bushing": _bushing,
    "flush_bushing_addon": _bushing,
    "waste_and_overflow": _waste_and_overflow,
    "test_plug": _test_plug,
    "test_cap": _test_cap,
    "end_cap": _end_cap,
    "cleanout_adapter_spigot_fpt": _cleanout_adapter,
    "cleanout_adapter_hub_fpt": _cleanout_adapter,
    "cleanout_plug": _cleanout_plug,
    "vent_flashing": _flashing,
    "aav_adapter": _valve_adapter,
    "admittance_valve": _admittance_valve,
    "continuous_waste": _continuous_waste,
    "branch_tailpiece": _branch_tailpiece,
    "standpipe_tee": _standpipe_tee,
    "hose_clamp": _hose_clamp,
    "air_gap_fitting": _air_gap,
    "tube_tee": _crimped,
    "tube_elbow": _crimped,
    "tube_reducing_elbow": _crimped,
    "tube_reducing_coupling": _sleeve(0.045, 0.022, 0),
    "tube_stub_elbow": _crimped,
    "tube_plug": _tube_plug,
    "tube_adapter": _tube_adapter,
    "main_valve": _valve(filled=True),
    "heater_valve": _valve(filled=True),
    "stop_valve": _stop_valve,
    "hammer_arrester": _arrester,
}
"""Every kind that can come out of the joinery, with the way it is drawn."""
