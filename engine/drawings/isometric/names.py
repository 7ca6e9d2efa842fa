"""Short trade names of parts, as they stand beside each joint; the legend gives them in full."""

from __future__ import annotations

from engine.joinery.records import Part
from engine.takeoff.shopping import size_words, words

SHORT: dict[str, str] = {
    "quarter_bend": "1/4 bend",
    "street_quarter_bend": "street 1/4 bend",
    "vent_quarter_bend": "vent 1/4 bend",
    "long_sweep_quarter_bend": "long sweep",
    "street_long_sweep_quarter_bend": "street long sweep",
    "eighth_bend": "1/8 bend",
    "street_eighth_bend": "street 1/8 bend",
    "sixteenth_bend": "1/16 bend",
    "street_sixteenth_bend": "street 1/16 bend",
    "sixth_bend": "1/6 bend",
    "sanitary_tee": "san tee",
    "double_sanitary_tee": "double san tee",
    "double_fixture_fitting": "double fixture fitting",
    "double_combo_wye_eighth_bend": "double combo",
    "combo_wye_eighth_bend": "combo",
    "closet_flange_4x3": "flange",
    "closet_flange_hub": "flange, hub",
    "trap_adapter_spigot": "trap adapter",
    "trap_adapter_hub": "trap adapter, hub",
    "reducer_coupling": "reducer",
    "flush_bushing": "bushing",
    "flush_bushing_addon": "flush bushing",
    "cleanout_adapter_spigot_fpt": "CO adapter",
    "cleanout_adapter_hub_fpt": "CO adapter, hub",
    "cleanout_plug": "CO plug",
    "aav_adapter": "AAV adapter",
    "admittance_valve": "AAV",
    "vent_flashing": "flashing",
    "tubular_trap": "tubular trap",
    "waste_and_overflow": "waste + overflow",
    "continuous_waste": "continuous waste",
    "branch_tailpiece": "branch tailpiece",
    "standpipe_tee": "tee for a tub",
    "air_gap_fitting": "air gap",
    "closet_bolts": "bolts",
    "flange_screws": "screws",
    "closet_seal": "seal",
    "tube_tee": "tee",
    "tube_elbow": "elbow",
    "tube_reducing_coupling": "reducing coupling",
    "tube_reducing_elbow": "reducing elbow",
    "tube_plug": "plug",
    "tube_adapter": "adapter",
    "tube_stub_elbow": "stub elbow",
    "main_valve": "main valve",
    "heater_valve": "valve",
    "hammer_arrester": "hammer arrester",
}
"""Where a kind's own name is too long to stand at a joint."""


def short(kind: str) -> str:
    """What a kind of part is called beside its joint."""
    return SHORT.get(kind, words(kind))


def part_name(part: Part) -> str:
    """A part's short name with its size, as a store writes it."""
    return f"{short(part.kind)} {size_words(part.size)}".rstrip()


def full_name(kind: str) -> str:
    """What a kind of part is called on the list of parts."""
    return words(kind)
