"""Every arrangement on bolts that the place of the trunks allows."""

from __future__ import annotations

from bolewright.proposing.edge_beam import EdgeBeam, edge_beams
from bolewright.proposing.ground import Ground
from bolewright.proposing.one_trunk import FREE, TURNS, OneTrunk, trunks_below
from bolewright.proposing.round_trunk import RoundTrunk, round_trunks
from bolewright.proposing.two_edges import TwoEdges, two_edges

OnBolts = OneTrunk | EdgeBeam | RoundTrunk | TwoEdges


def on_trunks(ground: Ground) -> list[OnBolts]:
    """Arrangements on bolts, the likeliest first."""
    found: list[OnBolts] = [*round_trunks(ground)]
    for turn in TURNS:
        own = turn.of(ground)
        x0, _, x1, _ = own.box
        for tree in trunks_below(own):
            if abs(own.at(tree)[0] - (x0 + x1) / 2) <= 0.2 * (x1 - x0):
                if own.needs.rules.may_tie is not False:
                    found.append(OneTrunk(tree.mark, turn))
                found += [OneTrunk(tree.mark, turn, ways) for ways in FREE]
        found += edge_beams(own, turn)
        found += two_edges(own, turn)
    return found
