"""Loads off the middle line of a beam: members hung on one face, bearings that cover a part of its width.

They turn the beam. Members whose connections keep it from turning (``restrains_beam``) take the moment of their own
load; the others leave it to the beam's seats, which it reaches by torsion, shared between the two nearest by the lever.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bolewright.platform.layout.contact import across, contact_at
from bolewright.platform.layout.parts import Bearing, Layout, Member, Seat
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import LoadPath

CENTRED = 1 / 16  # in: a bearing this near to the middle line is on it


@dataclass(frozen=True)
class OffCentre:
    """A member that bears on a beam off its middle line: row of its seat, place along the beam, ``e`` to the left."""

    member: Member
    row: int
    at: float
    e: float

    @property
    def restrains(self) -> bool:
        """Whether its connection takes the moment of its own load."""
        return restrains(self.member)

    @property
    def edge_load(self) -> float | None:
        """Rated load of its connection at the upper and lower edge."""
        return edge_load(self.member)

    @property
    def hung(self) -> bool:
        """Whether it hangs on a face of the beam."""
        return self.member.seats[self.row].bearing is Bearing.HANGS


def restrains(member: Member) -> bool:
    """Whether a member's connections keep the beams that it bears on from turning."""
    return bool(getattr(member.timber, "restrains_beam", False))


def edge_load(member: Member) -> float | None:
    """Rated load of a member's connections at their upper and lower edge (lb)."""
    found: float | None = getattr(member.timber, "edge_load", None)
    return found


def off_centre(layout: Layout, beam: Member) -> tuple[OffCentre, ...]:
    """All members that bear on a beam off its middle line."""
    return tuple(
        OffCentre(member, row, member.seats[row].below_at, e)
        for member, row in layout.seats_on(beam.mark)
        if abs(e := _off(layout, beam, member, member.seats[row])) > CENTRED
    )


def _off(layout: Layout, beam: Member, member: Member, seat: Seat) -> float:
    if seat.bearing is Bearing.RESTS:
        contact = contact_at(layout, member, seat)
        return contact.off_centre(beam.line) if contact.touches else 0.0
    if getattr(member.timber, "kind", "") == "rim":
        return 0.0  # it runs on over the beam's end, or comes to it from both sides
    hanger = layout.project.connections.get(seat.connection or "")
    reach = beam.width / 2 + (hanger.seat_length if hanger else 0.0) / 2
    side = across(beam.line, member.line.at(member.line.length / 2))
    return reach if side > 0 else -reach


def seat_torques(path: LoadPath, beam: Member) -> Array:
    """Influence of the sources (columns) on the moment that turns a beam to the left at each of its seats (rows)."""
    torques = np.zeros((len(beam.seats), path.dead.size))
    for load in off_centre(path.layout, beam):
        if not load.restrains:
            row = path.effects[load.member.mark].reactions[np.array([load.row])]
            torques[:, row.columns] += np.outer(_shares(beam, load.at), load.e * row.values)
    return torques


def seat_torques_by_side(path: LoadPath, beam: Member) -> Array:
    """The same by side: torque in the beam just before and just after each seat (2, seats, sources)."""
    sides = np.zeros((2, len(beam.seats), path.dead.size))
    for load in off_centre(path.layout, beam):
        if not load.restrains:
            row = path.effects[load.member.mark].reactions[np.array([load.row])]
            shares = _shares(beam, load.at)
            for i, seat in enumerate(beam.seats):
                sides[0 if load.at <= seat.at else 1, i, row.columns] += shares[i] * load.e * row.values[0]
    return sides


def _shares(beam: Member, at: float) -> Array:
    """Shares of the seats of a torque at a place: by the lever between two, all of it on an overhang."""
    places = [seat.at for seat in beam.seats]
    return np.array([np.interp(at, places, unit) for unit in np.eye(len(places))])
