"""The ways up in the lists: sticks of stairs, and what fastens them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from bolewright.ground.concrete import bags_of_concrete, whole_bags
from bolewright.platform.checks.stair_treads import clear_span
from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.stair_rails import StairRail, rail_blocks, stair_rail
from bolewright.platform.layout.stairs import StairPlan
from bolewright.platform.project import Timber
from bolewright.take_off.items import BOLTS, CONNECTORS, NAILS, Item, inch, material_of, nails_for
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

GAP = 0.25  # in between two boards of a tread (common practice)
SCREWS = 2  # in each board of a tread at each stringer (common practice)


@dataclass(frozen=True)
class Length:
    """Like sticks of a way up: mark, what they become, timber, length (in), how many, how their ends are cut."""

    mark: str
    use: str
    timber: Timber
    length: float
    count: int
    ends: tuple[str, str]


def boards_of_tread(plan: StairPlan) -> int:
    """Boards that one tread is made of."""
    board = parse_section(plan.stairs.tread_section).d
    return max(1, math.ceil((plan.run + plan.stairs.nosing - board) / (board + GAP) - 0.15) + 1)


def stair_lengths(layout: Layout) -> Iterator[Length]:
    """Stringers, posts and blocks of their rail, tread boards."""
    plan = layout.stairs
    if plan is None:
        return
    stairs = plan.stairs
    along = (plan.treads + 1) * math.hypot(plan.riser, plan.run)
    ends = ("plumb cut at the head", "level cut at the foot")
    yield Length("stair", "stringer", stairs, along, stairs.stringers, ends)
    if (rail := stair_rail(layout)) is not None:
        post = stairs.model_copy(update={"section": rail.section})
        cut = ("square", "along the stringer's lower edge")
        yield Length("stair", "post of the stairs' rail", post, rail.post, rail.posts, cut)
        if stairs.rail_blocks:
            clear = plan.spacing - plan.section.b
            yield Length(
                "stair",
                "block of the stairs' rail",
                stairs,
                clear,
                rail_blocks(plan, rail),
                ("square", "square"),
            )
    if stairs.tread_span_limit is not None:
        return
    closed = stairs.cut == "closed"
    bays = stairs.stringers - 1 if closed else 1
    tread = stairs.model_copy(update={"section": stairs.tread_section})
    length = clear_span(plan) if closed else stairs.width
    yield Length(
        "stair", "tread", tread, length, plan.treads * boards_of_tread(plan) * bays, ("square", "square")
    )


def stair_items(layout: Layout) -> Iterator[Item]:
    """Hangers, brackets and screws of stairs, and the concrete of their pad."""
    plan = layout.stairs
    if plan is None:
        return
    stairs = plan.stairs
    size = f"stringer {plan.section.single}, sloped {plan.theta:.1f}°, rated for that slope"
    material = material_of(CONNECTORS)
    yield Item(
        f"hanger {stairs.hanger or ''}".strip() + " of the stairs",
        size,
        stairs.stringers,
        material,
        "stair",
        "one at the head of each stringer",
    )
    yield from nails_for("stringer hanger", ["stair"])
    if (rail := stair_rail(layout)) is not None:
        yield from _rail_items(plan, rail)
    boards = plan.treads * boards_of_tread(plan)
    if stairs.cut == "closed":
        brackets = 2 * plan.treads * (stairs.stringers - 1)
        rated = "to be chosen" if stairs.tread_bracket is None else f"rated {stairs.tread_bracket:,.0f} lb"
        yield Item("tread bracket", rated, brackets, material, "stair", "one under each end of a tread")
        yield from nails_for("tread bracket", ["stair"])
    else:
        size = f"deck screw, {inch(2 * plan.tread)} or longer"
        screws = SCREWS * boards * stairs.stringers
        yield Item(
            "tread screw",
            size,
            screws,
            material_of(NAILS),
            "stair",
            "2 in each board at each stringer",
        )
    if stairs.pad_length is not None and stairs.pad_thickness is not None:
        width = stairs.pad_width or stairs.width
        volume = stairs.pad_length * width * stairs.pad_thickness / 1728
        stock = layout.project.stock
        bags = whole_bags(float(bags_of_concrete(V=volume, y=stock.bag_yield, w=stock.overbreak)))
        size = f"{feet_inches(width)} by {feet_inches(stairs.pad_length)}, {inch(stairs.pad_thickness)} thick"
        source = f"{volume:.1f} cu ft, bags of {stock.bag_weight:g} lb"
        yield Item("bag of concrete, pad of the stairs", size, bags, "plain concrete", "stair", source)


def _rail_items(plan: StairPlan, rail: StairRail) -> Iterator[Item]:
    """Bolts, plates and ties of the posts of a rail along stairs."""
    grip = parse_section(rail.section).d + plan.section.b
    size, each = f"1/2 in., through {inch(grip)} of post and stringer into its tie", "two for each post"
    yield Item("bolt of the stairs' rail", size, 2 * rail.posts, material_of(BOLTS), "stair", each)
    plate = "square or round, hole 9/16 in."
    yield Item(
        "washer of the stairs' rail",
        plate,
        2 * rail.posts,
        material_of(BOLTS),
        "stair",
        "one under each head",
    )
    tie = plan.stairs.rail_tie
    said = "to be chosen" if tie is None else f"rated {tie:,.0f} lb, into the block beside the post"
    yield Item(
        "tie of the stairs' rail", said, 2 * rail.posts, material_of(CONNECTORS), "stair", "one at each bolt"
    )


def ladder_lengths(layout: Layout) -> Iterator[Length]:
    """Rails, and rungs or treads; round rungs are bought by their rating."""
    plan = layout.ladder
    if plan is None:
        return
    ladder = plan.ladder
    length = plan.rail_stock
    yield Length("ladder", "ladder rail", ladder, length, 2, ("square", "level cut at the foot"))
    if ladder.rung_diameter is None:
        step = ladder.model_copy(update={"section": ladder.step_size})
        use = "rung" if ladder.steep else "tread"
        yield Length("ladder", use, step, plan.clear, plan.count - 1, ("square", "square"))


def hatch_lengths(layout: Layout) -> Iterator[Length]:
    """Boards and battens of a hatch's cover."""
    hatch, decking = layout.project.hatch, layout.project.decking
    if hatch.at is None or decking.span_limit is not None:
        return
    board = parse_section(decking.section).d
    count = math.ceil(hatch.length / (board + decking.gap) - 1e-6)
    square = ("square", "square")
    yield Length("hatch", "hatch cover", decking, hatch.width, count, square)
    yield Length("hatch", "hatch cover", decking, hatch.length, 2, square)


def hatch_items(layout: Layout) -> Iterator[Item]:
    """Hinges, screws and latch of a hatch's cover; its headers and trimmers are listed with the beams."""
    hatch = layout.project.hatch
    if hatch.at is None:
        return
    material = material_of(CONNECTORS)
    yield Item("hinge of the hatch", "for the cover's weight", 2, material, "hatch", "common practice")
    rated = "to be chosen" if hatch.held_open is None else f"rated {hatch.held_open:,.0f} lb"
    yield Item("latch that holds the hatch open", rated, 1, material, "hatch", "the project file")
    boards = sum(found.count for found in hatch_lengths(layout)) - 2
    if boards > 0:
        size = f"deck screw, {inch(2 * parse_section(layout.project.decking.section).b)}, less a quarter inch"
        yield Item(
            "screw of the hatch's cover", size, 4 * boards, material_of(NAILS), "hatch", "2 at each batten"
        )


def ladder_items(layout: Layout) -> Iterator[Item]:
    """Fixings of rungs or treads and of the head."""
    plan = layout.ladder
    if plan is None:
        return
    ladder = plan.ladder
    step = "rung" if ladder.steep else "tread"
    material = material_of(CONNECTORS)
    if ladder.rung_diameter is not None:
        rated = "to be rated" if ladder.rung_rating is None else f"rated {ladder.rung_rating:,.0f} lb"
        size = f"{inch(ladder.rung_diameter)} round, {inch(plan.clear)} clear, {rated}"
        yield Item("round rung", size, plan.count - 1, "by its maker", "ladder", "one for each step")
    rated = "to be chosen" if ladder.step_fixing is None else f"rated {ladder.step_fixing:,.0f} lb"
    yield Item(f"fixing of a {step}", rated, 2 * (plan.count - 1), material, "ladder", "one at each end")
    rated = (
        "to be chosen"
        if ladder.head_fixing is None
        else f"rated {ladder.head_fixing:,.0f} lb in any direction"
    )
    yield Item("fixing of the ladder's head", rated, 2, material, "ladder", "one at each rail")
    if ladder.grip:
        rated = "to be chosen" if ladder.grip_rating is None else f"rated {ladder.grip_rating:,.0f} lb"
        yield Item("grab bar of the ladder", rated, 2, material, "ladder", "one on each side of its head")
    yield from nails_for("fixing of the ladder", ["ladder"])
