"""Levels through the stack: where each post is cut and each bearing shimmed, from readings of the day.

A level line (string, water level or instrument) stands anywhere; a reading is how far a point lies below it. The
highest seat on a tree is the level that all others come up to, by shims. Timber dries across the grain and a post's
stack is often deeper than a tree's: the floor then tilts by the difference, and the sheet says by how much.
"""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.calculation import Calculation, Step
from bolewright.formulas import formula
from bolewright.platform.layout.layout import Layout
from bolewright.platform.project.bearing import SupportKind
from bolewright.setting_out.plan import posts_of
from bolewright.setting_out.stacks import Stack, stacks
from bolewright.units import Length

GRADE = "GRADE"


@formula("Levels (bearing over a level line)")
def line_to_point(h_1: Length, z_1: Length, z_2: Length) -> Length:
    """How far a point shall lie below a level line, from the reading at another point and the levels of both.

    Parameters: h_1 reading at the known point, below the line (in); z_1, z_2 levels of the known point and of the one
    wanted (in). Returns: h_2 (in), negative where it shall lie above the line. Source: levelling.

    >>> line_to_point(10.0, 71.25, 60.0)
    21.25
    """
    h_2: Length = h_1 + z_1 - z_2
    return h_2


@formula("Levels (shim under a low bearing)")
def shim_under_bearing(h: Length, h_0: Length) -> Length:
    """Shim that brings a low bearing up to the highest one.

    Parameters: h reading at the low bearing, h_0 at the highest (in below the level line). Returns: x (in).
    Source: levelling.

    >>> shim_under_bearing(12.5, 12.0)
    0.5
    """
    x: Length = h - h_0
    return x


@formula("Levels (post from the concrete to the cut)")
def post_length(h_f: Length, h_c: Length) -> Length:
    """Length of a post from the concrete its foot stands on to its cut.

    Parameters: h_f reading at the concrete, h_c where the cut shall be (in below the level line). Returns: l (in).
    Source: levelling.

    >>> post_length(115.25, 11.25)
    104.0
    """
    l: Length = h_f - h_c
    return l


@dataclass(frozen=True)
class LevelAt:
    """A support on the day; lengths in inches.

    ``below_seat`` is its seat, or the cut of the post, below the seat of the reference bolt, whatever the level line.
    ``reading`` is the one taken there, ``wanted`` where the seat or cut shall lie below the level line; None without
    readings. ``shim`` brings a bearing that was built low up to the others (negative: cut off). ``length`` of a post
    runs from the concrete to the cut, by a reading on the concrete where ``length_measured``, or as planned.
    """

    support: str
    kind: SupportKind
    planned: float
    below_seat: float
    reading: float | None
    wanted: float | None
    shim: float | None
    length: float | None
    length_measured: bool
    dries: float


@dataclass(frozen=True)
class Levels:
    """All supports on the day. ``reference`` is whose level all others follow, ``GRADE``, or empty: as planned.

    ``line`` is the level line above planned grade as the reference has it (in); ``floor`` the floor above the peg at
    grade, where that was read too.
    """

    reference: str
    line: float | None
    floor: float | None
    at: tuple[LevelAt, ...]
    steps: tuple[Step, ...]

    @property
    def tilt(self) -> float:
        """Difference of the floor's fall between supports once the timber is dry (in)."""
        falls = [level.dries for level in self.at]
        return max(falls) - min(falls)


# in: under a seat as many plates or shims as one ply is thick; more is a block that tips, slips and is loaded off its
# middle, a part of its own that nothing here calculates (common practice).
MOST_SHIM = 1.5


def too_low(layout: Layout) -> tuple[LevelAt, ...]:
    """Seats that came out so low that what would bring them up is no shim any more."""
    return tuple(at for at in find_levels(layout).at if at.shim is not None and at.shim > MOST_SHIM + 1e-9)


def low_words(level: LevelAt, said: str) -> str:
    """What is wrong with a seat that came out too low by a length, and what may be done about it."""
    again = "Set the bolt anew higher up" if level.kind == SupportKind.TREE_BOLT else "Put a longer post"
    return (
        f"The seat of {level.support} lies {said} below the others: what would fill that under a load is a block, "
        f"which can tip and slip, and no shim (over {MOST_SHIM:g} in., common practice); it is not calculated. "
        f"{again}, bring the other seats down to it, or have an engineer design what stands between."
    )


def readings(layout: Layout) -> dict[str, float]:
    """Readings of the day: inches below the level line, by mark."""
    return {reading.mark: reading.below_line for reading in layout.project.readings}


def find_levels(layout: Layout) -> Levels:
    """Cut of every post and shim of every bearing, from the readings where there are any."""
    read = readings(layout)
    built = {entry.mark: entry.level for entry in layout.project.as_built if entry.level is not None}
    over = {stack.support: stack for stack in stacks(layout)}
    bolts = [mark for mark, stack in over.items() if stack.kind == SupportKind.TREE_BOLT]
    off = _deviations(bolts, over, read, built)
    reference = max(off, key=lambda mark: round(off[mark], 9)) if off else ""
    first = reference or (bolts[0] if bolts else next(iter(over)))
    if reference in read:
        known, z_known = read[reference], over[reference].top
    elif GRADE in read:
        known, z_known = read[GRADE], 0.0
    else:
        known, z_known = None, 0.0
    from_bolts = any(mark in read for mark in bolts)
    rise = 0.0 if reference in read else off.get(reference, 0.0)
    calculation = Calculation()
    at = []
    for mark, stack in over.items():
        wanted = None
        if known is not None:
            wanted = float(calculation.run(line_to_point, h_1=known, z_1=z_known, z_2=stack.top))
        at.append(
            LevelAt(
                support=mark,
                kind=stack.kind,
                planned=stack.top,
                below_seat=over[first].top - stack.top,
                reading=read.get(mark),
                wanted=wanted,
                shim=_shim(mark, off, built, read, reference, wanted, calculation),
                length=_length(layout, stack, wanted, read, rise, calculation),
                length_measured=stack.kind == SupportKind.POST and wanted is not None and mark in read,
                dries=stack.dries,
            )
        )
    line = None if known is None else known + z_known
    floor = None
    if from_bolts and GRADE in read and line is not None:
        floor = layout.project.platform.floor_height + read[GRADE] - line
    named = GRADE if known is not None and reference not in read else reference
    return Levels(named, line, floor, tuple(at), calculation.at(()))


def _deviations(
    bolts: list[str], over: dict[str, Stack], read: dict[str, float], built: dict[str, float]
) -> dict[str, float]:
    """How much higher than planned each bolt's seat is, counted from any one level; readings go before entries."""
    taken = {mark: -read[mark] - over[mark].top for mark in bolts if mark in read}
    if taken:
        return taken
    return {mark: built.get(mark, 0.0) for mark in bolts} if any(mark in built for mark in bolts) else {}


def _shim(
    mark: str,
    off: dict[str, float],
    built: dict[str, float],
    read: dict[str, float],
    reference: str,
    wanted: float | None,
    calculation: Calculation,
) -> float | None:
    """Shim under a bearing: a bolt's against the highest bolt, a post's own where its cut top is entered."""
    if mark in off and mark in read and wanted is not None:
        return float(calculation.run(shim_under_bearing, h=read[mark], h_0=wanted))
    if mark in off:
        return off[reference] - off[mark]
    if mark in built and mark not in read:
        return (0.0 if reference in read else off.get(reference, 0.0)) - built[mark]
    return None


def _length(
    layout: Layout,
    stack: Stack,
    wanted: float | None,
    read: dict[str, float],
    rise: float,
    calculation: Calculation,
) -> float | None:
    """Length of a post from the concrete to its cut; None for a bolt.

    By readings, or as planned with the seats' ``rise`` as entered and the depth that its hole reached.
    """
    if stack.kind != SupportKind.POST:
        return None
    if wanted is not None and stack.support in read:
        return float(calculation.run(post_length, h_f=read[stack.support], h_c=wanted))
    support = next(s for s in posts_of(layout) if s.mark == stack.support)
    footing = layout.project.footings[support.footing or ""]
    dug = next((e.hole for e in layout.project.as_built if e.mark == stack.support and e.hole), footing.depth)
    return stack.top + rise + dug - footing.pad
