"""Geometry that the codes allow for stairs, by the code that is adopted at the place."""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.platform.project import Project


@dataclass(frozen=True)
class StairRules:
    """Limits of stairs (in), with the clause of each.

    ``live`` the live load (psf); ``rails`` on so many sides, from so many risers on (``rails_from``); no 4 in. sphere
    passes between the treads of flights that rise more than ``open_above``.
    """

    code: str
    live: float
    live_clause: str
    riser: float
    riser_clause: str
    least_riser: float
    tread: float
    tread_clause: str
    width: float
    width_clause: str
    flight: float
    flight_clause: str
    landing: float
    landing_clause: str
    rails: int
    rails_from: int
    rails_clause: str
    guard: float
    guard_clause: str
    guard_opening: float
    guard_opening_clause: str
    open_above: float
    open_clause: str

    def landing_for(self, width: float) -> float:
        """Least depth of the landing at the foot of stairs of a width: no more is asked than they are wide."""
        return max(36.0, min(self.landing, width))


IRC = StairRules(
    code="IRC",
    live=40.0,
    live_clause="IRC 2021, Table R301.5",
    riser=7.75,
    riser_clause="IRC 2021, R311.7.5.1",
    least_riser=0.0,
    tread=10.0,
    tread_clause="IRC 2021, R311.7.5.2",
    width=36.0,
    width_clause="IRC 2021, R311.7.1",
    flight=151.0,
    flight_clause="IRC 2021, R311.7.3, from memory",
    landing=36.0,
    landing_clause="IRC 2021, R311.7.6",
    rails=1,
    rails_from=4,
    rails_clause="IRC 2021, R311.7.8",
    guard=34.0,
    guard_clause="IRC 2021, R312.1.2",
    guard_opening=4.375,
    guard_opening_clause="IRC 2021, R312.1.3",
    open_above=30.0,
    open_clause="IRC 2021, R311.7.5.1",
)
IBC = StairRules(
    code="IBC",
    live=100.0,
    live_clause="IBC 2021, Table 1607.1, from memory",
    riser=7.0,
    riser_clause="IBC 2021, 1011.5.2",
    least_riser=4.0,
    tread=11.0,
    tread_clause="IBC 2021, 1011.5.2",
    width=36.0,
    width_clause="IBC 2021, 1011.2, from memory",
    flight=144.0,
    flight_clause="IBC 2021, 1011.8, from memory",
    landing=48.0,
    landing_clause="IBC 2021, 1011.6, from memory",
    rails=2,
    rails_from=1,
    rails_clause="IBC 2021, 1011.11, from memory",
    guard=42.0,
    guard_clause="IBC 2021, 1015.3, from memory",
    guard_opening=4.0,
    guard_opening_clause="IBC 2021, 1015.4, from memory",
    open_above=0.0,
    open_clause="IBC 2021, 1011.5.5.3, from memory",
)
HANDRAIL = (34.0, 38.0)  # in over the noses (IRC 2021, R311.7.8.1; IBC 2021, 1014.2)
OPENING = 4.0  # in, sphere between two treads (IRC 2021, R311.7.5.1; IBC 2021, 1011.5.5.3)
GUARD_ABOVE = 30.0  # in (IRC 2021, R312.1.1; IBC 2021, 1015.2)
HEAD_ROOM = 80.0  # in (IRC 2021, R311.7.2, from memory)
NOSING = (0.75, 1.25)  # in, with closed risers and treads under 11 in (IRC 2021, R311.7.5.3)
NO_NOSING = 11.0  # in


def rules_of(project: Project) -> StairRules:
    """Rules by the code basis of the file: the IRC's where it says so, else the IBC's, which ask for more."""
    return IRC if project.code.basis == "IRC" else IBC


def stair_live(project: Project) -> float:
    """Live load on the stairs (psf): the file's, or that of the code."""
    return rules_of(project).live if project.stairs.live is None else project.stairs.live
