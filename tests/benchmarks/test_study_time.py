"""How long one answer takes: in a frame of the screen, and beside the bare graph under it."""

from __future__ import annotations

import networkx as nx
import pytest
from generated import tiled
from timing import best_ms, exponent

from app.commands.demo import SAMPLE, samples
from engine.plan.file import read
from engine.plan.records import Plan
from engine.study import study

FRAME_MS = 16.0
TIMES_THE_GRAPH = 60.0
GROWTH = 1.15
COPIES = (1, 2, 4, 8, 16, 32, 64)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return read(samples() / SAMPLE)


def test_the_fuller_sample_is_answered_within_a_frame(plan: Plan, say) -> None:
    spent = best_ms(lambda: study(plan), 60)
    say(f"study of the fuller sample: {spent:.2f} ms (at most {FRAME_MS})")
    assert spent <= FRAME_MS


def test_the_answer_costs_a_bounded_multiple_of_its_graph(plan: Plan, say) -> None:
    model = study(plan).model
    drains = list(model.network.graph.edges(data=True))
    tubes = [list(graph.edges(data=True)) for graph in model.water.graphs.values()]

    def bare() -> list[object]:
        """The graphs that the study is worked on, drains and vents and both waters, built and sorted, and no more."""
        order: list[object] = []
        for edges in (drains, *tubes):
            built: nx.DiGraph = nx.DiGraph()
            built.add_edges_from(edges)
            order += nx.topological_sort(built)
        return order

    whole, only = best_ms(lambda: study(plan), 60), best_ms(bare, 300)
    say(f"study {whole:.2f} ms / graphs of {len(bare())} nodes {only:.3f} ms = {whole / only:.1f} (at most 60)")
    assert whole / only <= TIMES_THE_GRAPH


def test_time_grows_in_step_with_the_plan(plan: Plan, say) -> None:
    plans = [tiled(plan, copies) for copies in COPIES]
    assert len(study(plans[1]).model.network.graph) == 2 * len(study(plan).model.network.graph)
    times = {
        copies: best_ms(lambda tile=tile: study(tile), max(3, 48 // copies))
        for copies, tile in zip(COPIES, plans, strict=True)
    }
    found = exponent(list(times), list(times.values()))
    say(", ".join(f"{copies}x {spent:.1f} ms" for copies, spent in times.items()))
    say(f"growth exponent {found:.3f} (at most {GROWTH})")
    assert found <= GROWTH
