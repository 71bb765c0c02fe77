"""A hanger's rating at its edges with its load down or up: shares of one load state, added (linear unity equation).

By hand: a load R that hangs e beside a beam's middle line is the load of its hanger, and a couple R e on the joist's
depth at its edges. Common practice, as for caps and brackets.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from bolewright.paths import shipped
from bolewright.platform.analysis.eccentric import seat_torques
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.not_calculated import not_calculated
from bolewright.platform.results.results import find_results
from bolewright.status import Status

PROJECTS = Path(__file__).parents[1] / "projects"
JOISTS = (PROJECTS / "lookout_revision_a.toml").read_text(encoding="utf-8")
JOISTS = JOISTS.replace("[connection.HJ]", '[connection.HJ]\nrated_skew = "23 deg"\nrated_uplift = "400 lb"')
JOISTS = JOISTS.replace('hanger = "HJ"', 'hanger = "HJ"\nrestrains_beam = true\nedge_load = "300 lb"')
LOOKOUT = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
TRUNK = (shipped("calcsheets") / "round_the_trunk.toml").read_text(encoding="utf-8")


@cache
def checks(text: str) -> tuple[Check, ...]:
    return tuple(find_results(parse_project(text)).checks)


def of(text: str, part: str, key: str, at: str = "") -> Check:
    return next(c for c in checks(text) if (c.part, c.key) == (part, key) and (not at or c.at == at))


def changed(text: str, old: str, new: str) -> str:
    assert old in text
    return text.replace(old, new)


def test_a_joist_s_shares_are_of_one_reaction() -> None:
    """R on the hanger by weight is R 2.25/7.25 at its edges; with sway both grow with the one reaction that is there.

    So the sum is no less than both shares of the greatest reaction by weight, and is what its own reaction makes."""
    for at in ("S1", "S2"):
        row, edge = of(JOISTS, "J7", "joist.edge_together", at), of(JOISTS, "J7", "joist.edge_load", at)
        R = edge.demand * 7.25 / 2.25
        hanger = of(JOISTS, "J7", "hanger.rated", at)
        assert row.demand >= R / hanger.capacity + edge.demand / 300 - 1e-9
        last = next(s.arguments for s in row.steps if s.formula.name == "ratings_together")
        couple = next(s.arguments for s in row.steps if s.formula.name == "joist_edge_force")
        assert couple["R"] == last["V"]
        F = (couple["M_j"] + last["V"] * 2.25) / 7.25
        assert last["V"] / last["Z_V"] + F / 300 == pytest.approx(
            last["V"] / last["Z_V"] + last["H"] / last["Z_H"]
        )


def test_a_push_on_the_guard_asks_for_both_at_once() -> None:
    """The lookout's joists without angles of their own: 0.84 at the edges and 0.95 down passed, each alone."""
    rated = changed(
        LOOKOUT, 'edge_load = "350 lb"', 'edge_load = "320 lb"'
    )  # what J7 needs, far from the bolts
    together = changed(rated, "rated_alone = true ", "rated_alone = false")
    for part, key, at in (("J7", "joist", "S2"), ("BD3", "blocking", "J8")):
        row = of(together, part, f"{key}.edge_together", at)
        assert row.status is Status.FAILS
        assert 1.7 < row.ratio < 1.95
    alone = [c for c in checks(together) if "edge_together" not in c.key and c.part in ("J7", "BD3")]
    assert all(c.status is Status.PASSES for c in alone)


def test_where_the_edges_are_rated_by_themselves_their_force_stands_alone_and_nothing_else_changes() -> None:
    together = changed(LOOKOUT, "rated_alone = true ", "rated_alone = false")
    sums, forces = (
        {(c.part, c.at): c for c in checks(text) if "edge_together" in c.key} for text in (together, LOOKOUT)
    )
    assert sums.keys() == forces.keys()
    assert {(part, c.capacity) for (part, _), c in forces.items() if part in ("J7", "BD3")} == {
        ("J7", 350.0),
        ("BD3", 150.0),
    }
    assert all(c.ratio < sums[end].ratio for end, c in forces.items())
    others = [(c.part, c.key, c.at, c.ratio) for c in checks(together) if "edge_together" not in c.key]
    alone = [(c.part, c.key, c.at, c.ratio) for c in checks(LOOKOUT) if "edge_together" not in c.key]
    assert str(others) == str(alone)


def test_edges_rated_by_themselves_are_asked_with_sway_too() -> None:
    """BD3 alone keeps J8 upright: 2 % of its moment with sway and the load of its end 1 1/2 in. past the middle, on
    9 1/4 in. (AISC 360-16, Appendix 6.3.2, by analogy; statics). Of weight alone 145.72 lb: 146 lb rated passed before.
    """
    row, weight = (
        of(LOOKOUT, "BD3", "blocking.edge_together", "J8"),
        of(LOOKOUT, "BD3", "blocking.bracing_edges"),
    )
    (M,) = (s.arguments["M_r"] for s in row.steps if s.formula.name == "blocking_moment")
    (last,) = (s.arguments for s in row.steps if s.formula.name == "brace_edge_force")
    assert (0.02 * M + last["R"] * 1.5) / 9.25 == pytest.approx(row.demand, rel=1e-9)
    assert "sway" in row.where
    assert weight.demand < 146 < row.demand < 150
    less = changed(LOOKOUT, 'edge_load = "150 lb"', 'edge_load = "146 lb"')
    assert of(less, "BD3", "blocking.bracing_edges").status is Status.PASSES
    assert of(less, "BD3", "blocking.edge_together").status is Status.FAILS


def test_a_block_that_its_weight_keeps_down_is_lifted_by_what_it_keeps_upright() -> None:
    """BD2, blocks on both its sides: 2 % of the moments of J6 and J7 over 16 in., less what presses its end."""
    for at in ("J6", "J7"):
        row = of(LOOKOUT, "BD2", "blocking.uplift", at)
        M = [s.arguments["M_r"] for s in row.steps if s.formula.name == "blocking_moment"]
        (end,) = (s.arguments for s in row.steps if s.formula.name == "end_force")
        assert len(M) == 2
        assert end["R"] < 0
        assert row.demand == pytest.approx(0.02 * sum(M) / 16 + end["R"], rel=1e-9)
        assert row.demand > 20
        assert row.status is Status.PASSES


def test_joists_rated_by_themselves_at_their_edges_are_asked_by_weight_and_sway() -> None:
    """The couple of the joist's own load, no less than by weight, and its share of what keeps the beam upright."""
    alone = changed(JOISTS, "restrains_beam = true", "restrains_beam = true\nrated_alone = true")
    for at in ("S1", "S2"):
        row, edge = of(alone, "J7", "joist.edge_together", at), of(alone, "J7", "joist.edge_load", at)
        (couple,) = (s.arguments for s in row.steps if s.formula.name == "joist_edge_force")
        assert not any("together" in s.formula.name for s in row.steps)
        hand = (couple["M_j"] + couple["R"] * 2.25) / 7.25
        assert hand <= row.demand <= 1.01 * hand  # the frame model counts where it gives more
        assert row.demand >= edge.demand
        assert row.ratio == pytest.approx(row.demand / 300)


def test_joists_that_rest_and_are_rated_by_themselves_are_asked_without_any_lift() -> None:
    """What they keep upright asks for their edges while weight presses them too; beside a tie only what is lifted."""
    text = (shipped("calcsheets") / "one_oak.toml").read_text(encoding="utf-8")
    keeps = 'bearing = "resting"\nrestrains_beam = true\nedge_load = "300 lb"\nrated_alone = true'
    rows = [
        c
        for c in checks(changed(text, 'bearing = "resting"', keeps))
        if c.key == "joist.edge_together" and c.at in ("C1", "C2")
    ]
    assert rows
    for row in rows:
        (couple,) = (s.arguments for s in row.steps if s.formula.name == "joist_edge_force")
        assert couple["M_j"] > 0
        assert row.demand >= couple["M_j"] / couple["d_j"]


def test_a_rating_down_is_not_asked_for_beside_edges_that_are_rated_by_themselves() -> None:
    """Left out, it is missed where it is asked: in the row of the load alone."""
    alone = changed(JOISTS, "restrains_beam = true", "restrains_beam = true\nrated_alone = true")
    bare = changed(alone, 'rated_load = "620 lb"', "")
    assert of(bare, "J7", "hanger.rated").status is Status.NOT_CHECKED
    assert of(bare, "J7", "joist.edge_together").ratio == of(alone, "J7", "joist.edge_together").ratio


@pytest.mark.parametrize(
    ("part", "at", "Z", "Z_up", "E"), [("H1", "M1", 385, 200, 170), ("HH2", "HT1", 385, 200, 90)]
)
def test_of_a_header_what_turns_it_and_what_it_weighs_stand_in_one_pattern(
    part: str, at: str, Z: float, Z_up: float, E: float
) -> None:
    """One person on every spot of the deck in turn, with all of the dead load and with 0.6 of it: the worst sum is the
    row's. No more than the sum of what each row says by itself, as those are of different spots."""
    results = find_results(parse_project(TRUNK))
    path = results.path
    member = path.layout.member(part)
    (i,) = (k for k, seat in enumerate(member.seats) if seat.below == at)
    torque = seat_torques(path, member)[i]
    load = path.effects[part].reactions[i]
    worst = 0.0
    for share in (1.0, 0.6):
        for spot in range(path.first_spot, load.size):
            placed = share * path.dead
            placed[spot] += path.layout.project.loads.person
            T, R = abs(float(torque @ placed)), float(load @ placed)
            worst = max(worst, T / member.section.d / E + max(R / Z, -R / Z_up))
    row = of(TRUNK, part, "beam.edge_together", at)
    assert "one person" in row.combination
    assert row.ratio == pytest.approx(worst, rel=1e-6)
    alone = [
        of(TRUNK, part, key, at).ratio for key in ("beam.rotation_hanger", "hanger.rated", "beam.uplift")
    ]
    assert max(alone) <= row.ratio <= alone[0] + max(alone[1:]) + 1e-9


@pytest.mark.parametrize(
    ("old", "more", "less"),
    [
        ('edge_load = "300 lb"', 'edge_load = "330 lb"', 'edge_load = "270 lb"'),
        ('rated_load = "620 lb"', 'rated_load = "680 lb"', 'rated_load = "560 lb"'),
    ],
)
def test_a_higher_rating_never_does_worse(old: str, more: str, less: str) -> None:
    files = (JOISTS, changed(JOISTS, old, more), changed(JOISTS, old, less))
    now, better, worse = (of(text, "J7", "joist.edge_together").ratio for text in files)
    assert better < now < worse


@pytest.mark.parametrize(
    ("line", "part", "key"),
    [
        ('edge_load = "170 lb"', "H1", "beam.edge_together"),
        ('rated_load = "385 lb"', "H1", "beam.edge_together"),
        ('rated_uplift = "200 lb"', "H1", "beam.edge_together"),
    ],
)
def test_a_rating_that_is_asked_and_not_given_leaves_it_open(line: str, part: str, key: str) -> None:
    row = of(changed(TRUNK, line, ""), part, key)
    assert row.status is Status.NOT_CHECKED
    assert line.partition(" ")[0] in row.sentence


def test_what_rests_is_asked_up_alone_and_says_where_nothing_lifts_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Joists on top of beams on tree bolts that keep these upright: weight goes down through wood, not the rating."""
    text = (shipped("calcsheets") / "one_oak.toml").read_text(encoding="utf-8")
    upright = changed(
        text, 'bearing = "resting"', 'bearing = "resting"\nrestrains_beam = true\nedge_load = "300 lb"'
    )
    rows = [c for c in checks(upright) if c.key == "joist.edge_together" and c.at in ("C1", "C2")]
    assert rows
    assert all("edges and up" in c.says for c in rows)
    monkeypatch.setattr("bolewright.platform.checks.edge_asked.LIFTS", 1e6)
    still = [c for c in find_results(parse_project(upright)).checks if c.key == "joist.edge_together"]
    assert len(still) >= len(rows)
    assert all(c.asks_nothing and "is not lifted" in c.sentence for c in still if c.at in ("C1", "C2"))


def test_only_the_stairs_hangers_are_still_named_as_counted_alone() -> None:
    for name in ("lookout", "one_oak", "hickory_perch", "two_trees"):
        project = parse_project((shipped("calcsheets") / f"{name}.toml").read_text(encoding="utf-8"))
        named = [n.what for n in not_calculated(project) if "at the edges" in n.what]
        assert len(named) == (project.stairs.head_edge is not None)
