"""The sheets of the whole: summary of ratios, basis of design, load path with reactions, cautions."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from bolewright.platform.analysis.support_loads import support_loads
from bolewright.platform.checks.support_forces import support_forces
from bolewright.platform.layout.board_rule import BOARD_NOTES, IDEALISATION
from bolewright.platform.limit_states.check import Topic
from bolewright.platform.loads.load_path import deck_dead
from bolewright.platform.results.results import Results
from bolewright.platform.verification.compared import COMPARISON_NOTE
from bolewright.rendering.blocks import Figure, KeyValues, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits, fmt
from bolewright.sheets.combinations import combinations_table
from bolewright.sheets.figures import load_path_figure, plan_figure
from bolewright.sheets.lateral_inputs import wind_words
from bolewright.sheets.opening import Blocks, results_of
from bolewright.sheets.sheet import check_table
from bolewright.sheets.standing_on import actions_table, areas_table, people_table, settlement_blocks
from bolewright.sheets.support_tables import ends_table, loads_by_kind, loads_combined, with_wind_and_sway
from bolewright.sheets.verdict import (
    limit_state_table,
    not_calculated_table,
    ratings_table,
    unconfirmed_tables,
    verdict_blocks,
)
from bolewright.sheets.words import PACKAGE_CAUTIONS
from bolewright.status import Status
from bolewright.units import PLF, PSF, feet_inches

ASSUMPTIONS = (
    "Allowable stress design for timber, steel and soil; plain concrete by strength design with factored loads.",
    "Members are straight, linear elastic and pinned at their seats; supports do not give way under gravity.",
    "Joists hung in beams are analysed from centre line to centre line of the beams, a little longer than face "
    "to face (NDS 2018, 3.2.1), so that the moments of all forces balance.",
    IDEALISATION,
    *BOARD_NOTES,
    "Live load stands on any part of the deck and not on the rest, wherever it is worse; snow lies everywhere alike, "
    "or in full where it makes an effect greater and in half elsewhere (ASCE 7-16, 7.5, written for roofs, by "
    "analogy).",
    "Snow is the ground snow without reduction (IRC 2021, R507.1), without drift: where a wall or solid guard stands "
    "by the deck, drift is among what is not calculated.",
    "One heavy person at the worst spot replaces the live load once.",
    "The plies of a beam are fastened together so that they bend laterally as one (IRC 2021, R507.5); its bottom "
    "edge is held laterally at its seats.",
    "The bracket on a tree bolt passes no moment to it.",
    "What is not calculated stands in the summary, with who decides it.",
)


COMPARED = 24  # effects of the independent check that are printed, those that differ most


def open_front(project: str | Path) -> Front:
    """The sheets of the whole, for a project file."""
    return Front(results_of(project))


@dataclass(frozen=True)
class Front:
    """The whole platform's results; every method gives a block to display."""

    results: Results

    def verdict(self) -> Blocks:
        """What was checked by calculation, what rests on typed ratings, what is open, what is not calculated."""
        return verdict_blocks(self.results)

    def ratings(self) -> Blocks:
        """Ratings that were typed into the file, each with its source; and what the demonstration's values are."""
        return Blocks((ratings_table(self.results), *unconfirmed_tables(self.results.project)))

    def not_calculated(self) -> Table:
        """What is not calculated, with who decides."""
        return not_calculated_table(self.results.project)

    def limit_states(self) -> Table:
        """Every limit state of every kind of part: checked, open, or why it does not apply."""
        return limit_state_table(self.results)

    def governing(self) -> Table:
        """The worst check of each kind of part and of each limit state in it, failing first."""
        seen: set[tuple[Topic, str, str]] = set()
        rows = []
        for check in self.results.governing:
            part = "" if check.status is Status.PASSES else check.part
            key = (check.topic, part, check.limit_state)
            if key not in seen:
                seen.add(key)
                rows.append(check)
        return check_table(rows[:40], "The governing checks, failing first")

    def plan(self) -> Figure:
        """Plan of the framing with marks."""
        return plan_figure(self.results, height=145.0)

    def load_path(self) -> Figure:
        """The path of the weight as a diagram."""
        return load_path_figure(self.results)

    def loads(self) -> KeyValues:
        """Loads and site."""
        project = self.results.project
        site, loads = project.site, project.loads
        return KeyValues(
            (
                ("Building code", project.code.words or "not named in the file: ask the building department"),
                (
                    "Dead load of the deck",
                    f"{fmt(deck_dead(self.results.path.layout), PSF)}, boards and hardware",
                ),
                ("Live load", "; ".join(filter(None, (fmt(loads.live, PSF), loads.live_note)))),
                ("Ground snow", fmt(site.ground_snow, PSF)),
                (
                    "Guard",
                    f"{fmt(loads.guard, PLF)} on edges {', '.join(map(str, loads.guard_edges)) or 'none'}",
                ),
                ("One person", f"{loads.person:g} lb"),
                ("Wind", wind_words(site)),
                ("Frost depth", feet_inches(site.frost_depth)),
                ("Soil", site.soil),
                ("Floor above grade", feet_inches(project.platform.floor_height)),
                ("Deck area", f"{self.results.path.layout.deck.area / 144:.1f} sq ft"),
            ),
            "Loads and site",
        )

    def combinations(self) -> Table:
        """Load combinations and load duration factors."""
        return combinations_table(self.results)

    def assumptions(self) -> Statement:
        """Assumptions of the method."""
        return Statement(StatementKind.ASSUMPTION, ASSUMPTIONS)

    def reactions(self) -> Blocks:
        """Load on every support, of each kind at most and least with its sum, and in all combinations."""
        loads = support_loads(self.results.path, self.results.lateral)
        ends = ends_table(self.results.path.layout)
        forces = support_forces(self.results.lateral)
        more = (with_wind_and_sway(forces),) if forces else ()
        return Blocks((loads_by_kind(self.results, loads), loads_combined(loads), *more, ends))

    def people(self) -> Table:
        """One heavy person, and a crowd in a corner."""
        return people_table(self.results)

    def areas(self) -> Table | Statement | Blocks:
        """Areas with a load of their own, and loads at places."""
        none = Statement(StatementKind.NOTE, ("No part of the deck has a load of its own ([[load_area]]).",))
        areas, places = areas_table(self.results) or none, actions_table(self.results)
        return areas if places is None else Blocks((areas, places))

    def settlement(self) -> Blocks:
        """One support going down beside the others."""
        return Blocks(settlement_blocks(self.results))

    def balance(self) -> Table:
        """Equilibrium: what is applied, and what the supports carry."""
        rows = tuple(
            (
                name,
                digits(laid),
                digits(carried),
                digits(carried - laid) if abs(carried - laid) > 1e-6 else "0",
            )
            for name, (laid, carried) in self.results.path.balance().items()
        )
        return Table(
            ("load", "applied (lb)", "sum of reactions (lb)", "difference (lb)"),
            rows,
            "Equilibrium: the supports carry what is applied",
            "lrrr",
        )

    def independent_check(self) -> Blocks:
        """The independent check: the greatest effects of every part by hand calculation and by the frame model."""
        ordered = sorted(self.results.compared, key=lambda c: -abs(c.factor - 1))
        rows = tuple(
            (
                c.part,
                c.quantity,
                f"{digits(c.by_hand)} {c.unit}",
                f"{digits(c.by_frame)} {c.unit}",
                _signed(c.factor - 1),
            )
            for c in ordered[:COMPARED]
        )
        columns = ("part", "effect", "hand calculation", "frame model", "difference")
        left = len(ordered) - len(rows)
        more = f"; {left} more differ less, all in results.json" if left else ""
        caption = (
            f"Independent check: effects in all combinations by two models, those that differ most{more}"
        )
        return Blocks(
            (Table(columns, rows, caption, "llrrr"), Statement(StatementKind.NOTE, (COMPARISON_NOTE,)))
        )

    def cautions(self) -> Statement:
        """Cautions of the whole package."""
        return Statement(StatementKind.CAUTION, PACKAGE_CAUTIONS)

    def all_of_it(self) -> Blocks:
        """Plan and load path."""
        return Blocks((self.plan(), self.load_path()))


def _signed(share: float) -> str:
    """Difference in per cent with its sign, and none at zero."""
    text = f"{100 * share:+.1f} %"
    return "0.0 %" if float(text[:-2]) == 0 else text
