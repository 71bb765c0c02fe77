"""Every arrangement on bolts that the place of the trunks allows."""

from __future__ import annotations

from bolewright.proposing.edge_beam import EdgeBeam, edge_beams
from bolewright.proposing.ground import Ground
from bolewright.proposing.one_trunk import TURNS, OneTrunk, trunks_below
from bolewright.proposing.round_trunk import RoundTrunk, round_trunks

OnBolts = OneTrunk | EdgeBeam | RoundTrunk


def on_trunks(ground: Ground) -> list[OnBolts]:
    """Arrangements on bolts, the likeliest first."""
    found: list[OnBolts] = [*round_trunks(ground)]
    for turn in TURNS:
        own = turn.of(ground)
        x0, _, x1, _ = own.box
        if own.needs.rules.may_tie is not False:
            for tree in trunks_below(own):
                if abs(own.at(tree)[0] - (x0 + x1) / 2) <= 0.2 * (x1 - x0):
                    found.append(OneTrunk(tree.mark, turn))
        found += edge_beams(own, turn)
    return found
