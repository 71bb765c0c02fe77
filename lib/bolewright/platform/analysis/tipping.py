"""Beams tipped along themselves by the lateral force that enters at their top and leaves at their underside.

The couple of the lateral force and the beam's depth is taken by the beam's own seats: one is pressed, the other
relieved. It does not reach the deck.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import PointLoad
from bolewright.platform.analysis.knees import deliver_down
from bolewright.platform.analysis.lateral_supports import LateralFrame, PostFrame
from bolewright.platform.layout.parts import Member
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import LoadPath

SHORT = 0.05  # in: half the arm of the pair of loads that stands for a couple
ONE_PLACE = 1e-6  # in


@dataclass(frozen=True)
class Tipped:
    """What a couple of 1 lb·in over each post of a beam (a column each) does; it tips towards the beam's end.

    ``posts`` are the rows of the posts; ``moment`` and the shears at the stations of the load path's effects, ``past``
    the moment just past each station, as it steps over a post; ``seats`` the load on the beam's seats, ``supports``
    that on every support of the layout.
    """

    beam: Member
    posts: tuple[int, ...]
    moment: Array
    past: Array
    shear_left: Array
    shear_right: Array
    seats: Array
    supports: Array

    def couples(self, frames: tuple[LateralFrame, ...], force: Array) -> Array:
        """Couple over each post in every case: its lateral force along the beam times the beam's depth."""
        return np.array([force[i, 0] * _depth(frames[i]) for i in self.posts])


def find_tipped(path: LoadPath, frames: tuple[LateralFrame, ...]) -> dict[str, Tipped]:
    """Beams on posts that lateral force along them tips, by mark; in a T-frame its knees hold it, not its seat."""
    on_posts: dict[str, list[int]] = {}
    for i, frame in enumerate(frames):
        if isinstance(frame, PostFrame) and frame.depth:
            on_posts.setdefault(_beam(path, frame).mark, []).append(i)
    return {mark: _tipped(path, frames, path.layout.member(mark), rows) for mark, rows in on_posts.items()}


def _beam(path: LoadPath, frame: PostFrame) -> Member:
    """The beam along which a post's first direction lies."""
    return next(m for m, _ in path.layout.on_support(frame.support.mark) if m.line.u == frame.u)


def _depth(frame: LateralFrame) -> float:
    return frame.depth if isinstance(frame, PostFrame) else 0.0


def _tipped(path: LoadPath, frames: tuple[LateralFrame, ...], beam: Member, rows: list[int]) -> Tipped:
    first = frames[rows[0]]
    tee = first.tee if isinstance(first, PostFrame) else None
    length = beam.line.length
    places = np.array(tee.places if tee else [s.at for s in beam.seats])
    at = np.array([next(s.at for s in beam.seats if s.below == frames[i].support.mark) for i in rows])
    ahead, behind = np.minimum(at + SHORT, length), np.maximum(at - SHORT, 0.0)
    pair = [PointLoad(float(x)) for x in (*ahead, *behind)]
    found = respond(Beam(length, tuple(places), 1.0), pair, [0.0]).reactions
    seats = (found[:, : len(rows)] - found[:, len(rows) :]) / (ahead - behind)
    stations = path.effects[beam.mark].stations
    beyond = stations[:, None] - places
    bent, over = np.maximum(beyond, 0.0) @ seats, stations[:, None] - at
    moment, past = bent + (over > ONE_PLACE), bent + (over > -ONE_PLACE)
    supports = np.zeros((len(path.layout.supports), len(rows)))
    left, right = (beyond > 0).astype(float) @ seats, (beyond >= 0).astype(float) @ seats
    if tee:
        return Tipped(beam, tuple(rows), moment, past, left, right, np.zeros((1, 1)), supports)
    for seat, load in zip(beam.seats, seats, strict=True):
        deliver_down(path, supports, seat.below, seat.below_at, load)
    return Tipped(beam, tuple(rows), moment, past, left, right, seats, supports)
