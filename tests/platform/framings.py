"""Small framings of the kinds that carpenters use, as project files: trees, posts and sizes are invented.

``FRAMINGS`` names each with its file; ``REFUSED`` those that can't be drawn so, with what the sentence must say to
write instead. Lengths in inches, x to the right, y up in plan.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

Point = tuple[float, float]

HEAD = """format = 2

[title]
project = "{name}"
date = 2026-11-25
note = "For tests: how pieces meet; sizes, trees and ground are invented"

[site]
frost_depth = "36 in"
soil = "class 4"
ground_snow = "25 psf"
wind_speed = "107 mph"
exposure = "B"

[loads]
live = "40 psf"
guard_edges = []

[platform]
outline = {outline}
openings = {openings}
floor_height = "{floor} in"

[decking]
section = "2x6"
species = "Southern Pine"
grade = "No.2"

[bolt.main]
diameter = "1 1/2 in"
embedment = "7 in"
F_y = "36 ksi"
F_u = "58 ksi"
seat_length = "3 in"
rated_load = "6000 lb"
rated_note = "Invented"

[post.P6]
section = "6x6"
species = "Southern Pine"
grade = "No.2"
base = "fixed"

[footing.F]
shape = "round"
width = "24 in"
depth = "48 in"
pad = "10 in"
fill = "concrete"

[connection.H]
rated_load = "1800 lb"
rated_uplift = "300 lb"
wet_included = true
seat_length = "2 in"
note = "Invented"

"""


def _at(point: Point) -> str:
    return f'["{round(point[0], 4) + 0:g} in", "{round(point[1], 4) + 0:g} in"]'


def _ring(points: Sequence[Point]) -> str:
    return "[" + ", ".join(_at(p) for p in points) + "]"


def tree(mark: str, at: Point, diameter: float = 18.0) -> str:
    """A trunk."""
    return (
        f'[[tree]]\nmark = "{mark}"\nspecies = "white oak"\nat = {_at(at)}\ndiameter = "{diameter} in"\n'
        'bark = "3/4 in"\nheight = "60 ft"\nsway_seen = "1/8 in"\nsway_seen_at = "9 ft"\n\n'
    )


def bolt(mark: str, of: str, at: Point, lateral: str = "tied", **keys: object) -> str:
    """A tree bolt with its bearing at a point."""
    more = "".join(f'{key} = "{value}"\n' for key, value in keys.items())
    return (
        f'[[support]]\nmark = "{mark}"\nkind = "tree bolt"\ntree = "{of}"\nbolt = "main"\nat = {_at(at)}\n'
        f'lateral = "{lateral}"\n{more}\n'
    )


def post(mark: str, at: Point) -> str:
    """A post on a footing."""
    return f'[[support]]\nmark = "{mark}"\nkind = "post"\npost = "P6"\nfooting = "F"\nat = {_at(at)}\n\n'


def posts(*at: Point, letter: str = "P") -> str:
    """Posts numbered from 1."""
    return "".join(post(f"{letter}{i}", point) for i, point in enumerate(at, start=1))


def beam(mark: str, start: Point, end: Point, size: str = "2-2x10", layer: int = 1, **keys: str) -> str:
    """A beam of so many plies."""
    plies, section = size.split("-", 1)
    more = "".join(f'{key} = "{value}"\n' for key, value in keys.items())
    return (
        f'[[beam]]\nmark = "{mark}"\nplies = {plies}\nsection = "{section}"\nspecies = "Southern Pine"\n'
        f'grade = "No.2"\nfrom = {_at(start)}\nto = {_at(end)}\nlayer = {layer}\n{more}\n'
    )


def joists(
    direction: float,
    first: float,
    last: float,
    bearing: str = "resting",
    *,
    mark: str = "J",
    size: str = "2x8",
    spacing: float = 16.0,
    on: Iterable[str] = (),
    region: Sequence[Point] | None = None,
) -> str:
    """A field of joists."""
    named = ", ".join(f'"{m}"' for m in on)
    where = f"region = {_ring(region)}\n" if region else ""
    return (
        f'[[joists]]\nmark = "{mark}"\nsection = "{size}"\nspecies = "Southern Pine"\ngrade = "No.2"\n'
        f'direction = "{direction} deg"\nfirst = "{first:.6g} in"\nlast = "{last:.6g} in"\nspacing = "{spacing} in"\n'
        f'bearing = "{bearing}"\nbeams = [{named}]\n{where}hanger = "H"\n\n'
    )


def framing(
    name: str,
    outline: Sequence[Point],
    *parts: str,
    openings: Sequence[Sequence[Point]] = (),
    floor: float = 108.0,
) -> str:
    """A project file."""
    holes = "[" + ", ".join(_ring(o) for o in openings) + "]"
    ordered = sorted(parts, key=lambda part: part.startswith("[[joists]]"))
    return HEAD.format(name=name, outline=_ring(outline), openings=holes, floor=floor) + "".join(ordered)


def box(x: float, y: float, x0: float = 0.0, y0: float = 0.0) -> list[Point]:
    """Corners of a rectangle."""
    return [(x0, y0), (x, y0), (x, y), (x0, y)]


def polygon(sides: int, radius: float, turn: float = 0.0) -> list[Point]:
    """Corners of a regular polygon about the origin."""
    steps = [math.radians(turn + 360 * i / sides) for i in range(sides)]
    return [(radius * math.cos(a), radius * math.sin(a)) for a in steps]


# ---------------------------------------------------------------------------------------------------------
# One tree, two posts: a beam on the posts, two beams hung in its face and borne by the tree bolts


def usual(degrees: float | None = None, sides: str = "lr", near: float = 16.0, mirrored: bool = False) -> str:
    """The usual framing; ``degrees`` of the diagonals to the post beam, on the left or right or both."""
    f = -1.0 if mirrored else 1.0
    wide = 30.0
    parts = [
        tree("OAK", (0.0, 0.0), 20.0),
        bolt("T1", "OAK", (-17.0, 0.0), uplift_tie="400 lb"),
        bolt("T2", "OAK", (17.0, 0.0), uplift_tie="400 lb"),
        posts((-70.0, f * 120.0), (70.0, f * 120.0)),
        beam("C1", (-96.0, f * 120.0), (96.0, f * 120.0), "2-2x12"),
        beam("S1", (-17.0, f * -6.0), (-17.0, f * 118.5), hanger="H"),
        beam("S2", (17.0, f * -6.0), (17.0, f * 118.5), hanger="H"),
    ]
    outline = [(-wide, near), (wide, near), (wide, 119.0), (-wide, 119.0)]
    if degrees is not None:
        rise = 68.0
        run = rise / math.tan(math.radians(degrees))
        out = min(18.5 + run, 92.0)
        low = 118.5 - (out - 18.5) * math.tan(math.radians(degrees))
        left = [(-out - 3, 119.0), (-27.0, low - 12)] if "l" in sides else [(-wide, 119.0), (-wide, near)]
        right = [(27.0, low - 12), (out + 3, 119.0)] if "r" in sides else [(wide, near), (wide, 119.0)]
        ends = [(-27.0, near)] if "l" in sides else []
        outline = [*left, *ends, *([(27.0, near)] if "r" in sides else []), *right]
        for side, sign in (("l", -1.0), ("r", 1.0)):
            if side in sides:
                parts.append(
                    beam(f"D{side}".upper(), (sign * out, f * 118.5), (sign * 18.5, f * low), hanger="H")
                )
    outline = [(x, f * y) for x, y in outline]
    first, last = (20.0, 116.0) if not mirrored else (-116.0, -20.0)
    name = f"one tree, two posts, hung in the face {degrees or ''} {sides}".strip()
    return framing(name, outline, *parts, joists(0.0, first, last, size="2x6"))


FRAMINGS: dict[str, str] = {
    "usual": usual(),
    "usual_mirrored": usual(mirrored=True),
    **{f"usual_{d}_{s}": usual(d, s) for d in (30, 45, 60) for s in ("l", "r", "lr")},
    "usual_45_mirrored": usual(45, mirrored=True),
}


def add(name: str, outline: Sequence[Point], *parts: str, **keys: object) -> None:
    """Put a framing into the list."""
    FRAMINGS[name] = framing(name, outline, *parts, **keys)  # type: ignore[arg-type]


# ---------------------------------------------------------------------------------------------------------
# Two to four trunks

PAIR = [
    tree("A", (0, 0)),
    tree("B", (132, 0)),
    bolt("T1", "A", (0, 15)),
    bolt("T2", "A", (0, -15)),
    bolt("T3", "B", (132, 15), "slides", slot="6 in"),
    bolt("T4", "B", (132, -15), "slides", slot="6 in"),
    beam("C1", (-8, 15), (140, 15), "2-2x12"),
    beam("C2", (-8, -15), (140, -15), "2-2x12"),
]
add("two_trees_on_top", box(110, 40, 22, -40), *PAIR, joists(90, -108, -24))
add(
    "two_trees_flush",
    box(110, 16.5, 22, -16.5),
    *PAIR,
    joists(90, -104, -28, "hung"),
)
add(
    "two_trees_two_posts",
    box(126, 110, 6, 20),
    tree("A", (0, 0)),
    tree("B", (132, 0)),
    bolt("T1", "A", (15, 0)),
    bolt("T2", "B", (117, 0)),
    posts((15, 120), (117, 120)),
    beam("S1", (15, -6), (15, 126), "2-2x12"),
    beam("S2", (117, -6), (117, 126), "2-2x12"),
    joists(0, 22, 108),
)
TRIANGLE = [(0.0, 67.0), (-58.0237, -33.5), (58.0237, -33.5)]
TRUNKS = [
    *(tree(m, at) for m, at in zip("ABC", [(0, 80), (-69.282, -40), (69.282, -40)], strict=True)),
    *(bolt(f"T{i}", m, at) for i, (m, at) in enumerate(zip("ABC", TRIANGLE, strict=True), start=1)),
]
add(
    "three_trunks_ring",
    [(0, 64), (-55.4256, -32), (55.4256, -32)],
    *TRUNKS,
    *(beam(f"C{i + 1}", TRIANGLE[i], TRIANGLE[(i + 1) % 3], "2-2x12") for i in range(3)),
    joists(90, -48, 48),
)
add(
    "three_trunks_ring_flush",
    [(0, 64), (-55.4256, -32), (55.4256, -32)],
    *TRUNKS,
    *(beam(f"C{i + 1}", TRIANGLE[i], TRIANGLE[(i + 1) % 3], "2-2x12") for i in range(3)),
    joists(90, -44, 44, "hung"),
)
add(
    "three_trunks_two_beams",
    box(60, 70, -60, -40),
    *TRUNKS,
    post("P1", (-58.0237, 67.0)),
    post("P2", (58.0237, 67.0)),
    beam("C1", (-66, 67), (66, 67), "2-2x12"),
    beam("C2", (-59, -33.5), (59, -33.5), "2-2x12"),
    joists(90, -58, 58),
)
FOUR = [(-60.0, -60.0), (60.0, -60.0), (60.0, 60.0), (-60.0, 60.0)]
INNER = [(x * 45 / 60, y) for x, y in FOUR]
add(
    "four_trunks_two_beams",
    box(40, 70, -40, -70),
    *(tree(m, at) for m, at in zip("ABCD", FOUR, strict=True)),
    *(bolt(f"T{i}", m, at) for i, (m, at) in enumerate(zip("ABCD", INNER, strict=True), start=1)),
    beam("C1", (-48, -60), (48, -60), "2-2x12"),
    beam("C2", (-48, 60), (48, 60), "2-2x12"),
    joists(90, -38, 38),
)
add(
    "four_trunks_ring",
    box(68, 68, -68, -68),
    *(tree(m, (1.4 * x, 1.4 * y)) for m, (x, y) in zip("ABCD", FOUR, strict=True)),
    *(
        bolt(f"T{i}", m, (1.18 * x, 1.18 * y))
        for i, (m, (x, y)) in enumerate(zip("ABCD", FOUR, strict=True), start=1)
    ),
    *(
        beam(
            f"C{i + 1}",
            tuple(1.18 * v for v in FOUR[i]),
            tuple(1.18 * v for v in FOUR[(i + 1) % 4]),
            "2-2x12",
        )  # type: ignore[arg-type]
        for i in range(4)
    ),
    joists(90, -66, 66),
)

# ---------------------------------------------------------------------------------------------------------
# Decks on posts

TWO_BEAMS = [
    posts((8, 10), (112, 10), (8, 110), (112, 110)),
    beam("C1", (0, 10), (120, 10)),
    beam("C2", (0, 110), (120, 110)),
]
add("two_beams_on_top", box(120, 120), *TWO_BEAMS, joists(90, -119, -1))
add("two_beams_edge_joists_outside", box(120, 120), *TWO_BEAMS, joists(90, -119.25, -0.75))
add("two_beams_cantilever", box(120, 140, 0, -20), *TWO_BEAMS, joists(90, -119, -1))
add(
    "two_beams_flush",
    box(120, 112, 0, 8),
    *TWO_BEAMS,
    joists(90, -104, -16, "hung"),
)
add("two_beams_flush_edge_joists", box(120, 111.5, 0, 8.5), *TWO_BEAMS, joists(90, -119.25, -0.75, "hung"))
add(
    "beam_spliced_over_post",
    box(180, 120),
    posts((8, 10), (90, 10), (172, 10), (8, 110), (90, 110), (172, 110)),
    beam("C1", (0, 10), (90, 10)),
    beam("C3", (90, 10), (180, 10)),
    beam("C2", (0, 110), (180, 110)),
    joists(90, -179, -1),
)
add(
    "beam_spliced_with_gap",
    box(180, 120),
    posts((8, 10), (90, 10), (172, 10), (8, 110), (90, 110), (172, 110)),
    beam("C1", (0, 10), (89.75, 10)),
    beam("C3", (90.25, 10), (180, 10)),
    beam("C2", (0, 110), (180, 110)),
    joists(90, -179, -1),
)
add(
    "three_in_a_row",
    box(180, 120),
    posts((8, 10), (90, 10), (172, 10), (8, 110), (90, 110), (172, 110)),
    beam("C1", (0, 10), (180, 10)),
    beam("C2", (0, 110), (180, 110)),
    joists(90, -179, -1),
)
add(
    "tee_on_post",
    box(180, 120),
    posts((8, 60), (90, 60), (172, 60), (90, 8), (8, 8), (172, 8), (90, 112), (8, 112), (172, 112)),
    beam("C1", (0, 60), (180, 60)),
    beam("T1", (90, 0), (90, 58.5)),
    beam("C2", (0, 8), (88, 8)),
    beam("C4", (92, 8), (180, 8)),
    beam("C3", (0, 112), (180, 112)),
    joists(90, -179, -1, on=("C1", "C2", "C3", "C4")),
)
add("drop_beam_and_ledger_beam", box(120, 112, 0, 8), *TWO_BEAMS, joists(90, -104, -16, "hung", size="2x6"))
add(
    "joists_over_three",
    box(120, 150),
    posts((8, 10), (112, 10), (8, 75), (112, 75), (8, 140), (112, 140)),
    *(beam(f"C{i}", (0, y), (120, y)) for i, y in enumerate((10, 75, 140), start=1)),
    joists(90, -119, -1),
)
add(
    "two_fields_butt",
    box(180, 108),
    posts((8, 10), (8, 98), (90, 10), (90, 98), (172, 10), (172, 98)),
    *(beam(f"C{i}", (x, 0), (x, 108)) for i, x in enumerate((8, 90, 172), start=1)),
    joists(0, 1, 107, on=("C1", "C2"), region=box(90, 108)),
    joists(0, 1, 107, mark="K", on=("C2", "C3"), region=box(180, 108, 90)),
)
add(
    "two_fields_butt_hung",
    box(173.5, 108, 6.5),
    posts((8, 10), (8, 98), (90, 10), (90, 98), (172, 10), (172, 98)),
    *(beam(f"C{i}", (x, 0), (x, 108)) for i, x in enumerate((8, 90, 172), start=1)),
    joists(0, 2, 106, "hung"),
)
add(
    "two_fields_lapped",
    box(180, 108),
    posts((8, 10), (8, 98), (90, 10), (90, 98), (172, 10), (172, 98)),
    *(beam(f"C{i}", (x, 0), (x, 108)) for i, x in enumerate((8, 90, 172), start=1)),
    joists(0, 1, 104, on=("C1", "C2"), region=box(91.5, 108)),
    joists(0, 2.5, 105.5, mark="K", on=("C2", "C3"), region=box(180, 108, 91.5)),
)
add(
    "picture_frame_on_top",
    box(120, 120),
    posts((3, 3), (117, 3), (117, 117), (3, 117)),
    *(
        beam(f"C{i + 1}", a, b)
        for i, (a, b) in enumerate(
            (((3, 3), (117, 3)), ((117, 3), (117, 117)), ((117, 117), (3, 117)), ((3, 117), (3, 3)))
        )
    ),
    joists(90, -117, -3),
)
add(
    "picture_frame_flush",
    box(120, 120),
    posts((3, 3), (117, 3), (117, 117), (3, 117)),
    *(
        beam(f"C{i + 1}", a, b)
        for i, (a, b) in enumerate(
            (((3, 3), (117, 3)), ((117, 3), (117, 117)), ((117, 117), (3, 117)), ((3, 117), (3, 3)))
        )
    ),
    joists(90, -104, -16, "hung", on=("C1", "C3")),
)
add(
    "picture_frame_outer_corners",
    box(120, 120),
    posts((3, 3), (117, 3), (117, 117), (3, 117)),
    beam("C1", (0, 3), (120, 3)),
    beam("C3", (0, 117), (120, 117)),
    beam("C2", (117, 4.5), (117, 115.5), hanger="H"),
    beam("C4", (3, 4.5), (3, 115.5), hanger="H"),
    joists(90, -101, -19, "hung", on=("C1", "C3")),
)
add(
    "picture_frame_hanger_over_post",
    box(120, 120),
    posts((2, 2), (118, 2), (2, 118), (118, 118)),
    beam("C1", (0, 2), (120, 2)),
    beam("C2", (0, 118), (120, 118)),
    beam("E1", (2, 2), (2, 118), hanger="H"),
    beam("E2", (118, 2), (118, 118), hanger="H"),
    joists(0, 16, 104, "hung", on=("E1", "E2")),
)
HUNG = [
    posts((8, 1.5), (112, 1.5), (8, 118.5), (112, 118.5)),
    beam("C1", (0, 1.5), (120, 1.5), "2-2x12"),
    beam("C2", (0, 118.5), (120, 118.5), "2-2x12"),
]
for at, first in (("centres", 1.5), ("faces", 0.75), ("inside", 16.0)):
    add(
        f"hung_beams_joists_at_{at}",
        box(120, 120),
        *HUNG,
        *(beam(f"S{i}", (x, 3), (x, 117), hanger="H") for i, x in enumerate((10, 60, 110), start=1)),
        joists(0, first, 120 - first),
    )
add(
    "hung_beams_joists_flush",
    box(120, 120),
    *HUNG,
    *(beam(f"S{i}", (x, 3), (x, 117), hanger="H") for i, x in enumerate((1.5, 60, 118.5), start=1)),
    joists(0, 16, 104, "hung", on=("S1", "S2", "S3")),
)
add(
    "hung_shallow_in_deep",
    box(120, 120),
    *HUNG,
    *(beam(f"S{i}", (x, 3), (x, 117), "2-2x8", hanger="H") for i, x in enumerate((10, 60, 110), start=1)),
    joists(0, 16, 104),
)
add(
    "hung_shallow_given_drop",
    box(120, 120),
    HUNG[0],
    beam("C1", (0, 1.5), (120, 1.5), "2-2x12", drop="5 in"),
    beam("C2", (0, 118.5), (120, 118.5), "2-2x12", drop="5 in"),
    *(beam(f"S{i}", (x, 3), (x, 117), "2-2x8", hanger="H") for i, x in enumerate((10, 60, 110), start=1)),
    joists(0, 16, 104),
)
add(
    "one_side_hung_one_resting",
    box(120, 112, 0, 8),
    posts((8, 10), (112, 10), (8, 110), (112, 110)),
    beam("C1", (0, 10), (120, 10)),
    beam("C2", (0, 110), (120, 110), layer=0),
    joists(90, -104, -16, on=("C1", "C2")),
)

# ---------------------------------------------------------------------------------------------------------
# Shapes

L = [(0.0, 0.0), (144.0, 0.0), (144.0, 72.0), (72.0, 72.0), (72.0, 144.0), (0.0, 144.0)]
L_POSTS = posts((8, 8), (136, 8), (8, 64), (64, 64), (136, 64), (8, 136), (64, 136))
L_BEAMS = [beam("C1", (0, 8), (144, 8)), beam("C2", (0, 64), (144, 64)), beam("C3", (0, 136), (72, 136))]
add("l_shape_on_top", L, L_POSTS, *L_BEAMS, joists(90, -143, -1))
add("l_shape_edge_joists", L, L_POSTS, *L_BEAMS, joists(90, -143.25, -0.75, spacing=23.75))
add("l_shape_joist_on_reentrant_edge", L, L_POSTS, *L_BEAMS, joists(90, -136, -8, spacing=16))
add(
    "l_shape_two_fields",
    L,
    L_POSTS,
    *L_BEAMS,
    joists(90, -143, -1, on=("C1", "C2"), region=[(0, 0), (144, 0), (144, 72), (72, 72), (72, 64), (0, 64)]),
    joists(90, -71, -1, mark="K", on=("C2", "C3"), region=box(72, 144, 0, 64)),
)
add(
    "l_shape_along_x",
    L,
    posts((8, 8), (64, 8), (136, 8), (8, 136), (64, 136), (136, 64)),
    beam("C1", (8, 0), (8, 144)),
    beam("C2", (64, 0), (64, 144)),
    beam("C3", (136, 0), (136, 72)),
    joists(0, 1, 143),
)
add(
    "l_shape_flush",
    L,
    posts((8, 1.5), (136, 1.5), (8, 70.5), (64, 70.5), (136, 70.5), (8, 142.5), (64, 142.5)),
    beam("C1", (0, 1.5), (144, 1.5)),
    beam("C2", (0, 70.5), (144, 70.5)),
    beam("C3", (0, 142.5), (72, 142.5)),
    joists(90, -143.25, -0.75, "hung"),
)
HEX = polygon(6, 72)
add(
    "hexagon_two_beams",
    HEX,
    posts((-40, -40), (40, -40), (-40, 40), (40, 40)),
    beam("C1", (-54, -40), (54, -40)),
    beam("C2", (-54, 40), (54, 40)),
    joists(90, -48, 48),
)
add(
    "hexagon_ring",
    HEX,
    posts(*polygon(6, 66)),
    *(beam(f"C{i + 1}", polygon(6, 66)[i], polygon(6, 66)[(i + 1) % 6]) for i in range(6)),
    joists(90, -60, 60),
)
add(
    "hexagon_ring_flush",
    polygon(6, 69),
    posts(*polygon(6, 66)),
    *(beam(f"C{i + 1}", polygon(6, 66)[i], polygon(6, 66)[(i + 1) % 6]) for i in range(6)),
    joists(90, -48, 48, "hung", spacing=12),
)
add(
    "octagon_two_beams",
    polygon(8, 72, 22.5),
    posts((-40, -28), (40, -28), (-40, 28), (40, 28)),
    beam("C1", (-66, -28), (66, -28)),
    beam("C2", (-66, 28), (66, 28)),
    joists(90, -62, 62),
)
CUT = [(0.0, 0.0), (96.0, 0.0), (96.0, 48.0), (48.0, 96.0), (0.0, 96.0)]
add(
    "cut_corner_diagonal_flush",
    CUT,
    posts((8, 1.5), (88, 1.5), (8, 94.5), (40, 94.5), (94.5, 48)),
    beam("C1", (0, 1.5), (96, 1.5)),
    beam("C2", (0, 94.5), (50, 94.5)),
    beam("E", (94.5, 3), (94.5, 49), hanger="H"),
    beam("D", (47, 94.5), (94.5, 47), hanger="H"),
    joists(90, -80, -1, "hung"),
)
add(
    "cut_corner_diagonal_under",
    CUT,
    posts((8, 8), (88, 8), (8, 88), (44, 88), (84, 48)),
    beam("C1", (0, 8), (96, 8)),
    beam("C2", (0, 88), (46, 88)),
    beam("D", (40, 92), (96, 36)),
    joists(90, -95, -1),
)
add(
    "cut_corner_overhung",
    CUT,
    posts((8, 10), (88, 10), (8, 44), (88, 44)),
    beam("C1", (0, 10), (96, 10)),
    beam("C2", (0, 44), (96, 44)),
    joists(90, -95, -1),
)
add(
    "triangle_on_two_beams",
    [(0, 0), (126, 0), (0, 98)],
    posts((8, 8), (100, 8), (8, 90), (60, 51)),
    beam("C1", (0, 8), (128, 8)),
    beam("D", (0, 96), (112, 12)),
    joists(90, -104, -1),
)
add(
    "trapezoid_joists_parallel_to_beam",
    [(0, 0), (120, 0), (90, 96), (30, 96)],
    posts((34, 8), (34, 92), (86, 8), (86, 92)),
    beam("C1", (34, 0), (34, 96)),
    beam("C2", (86, 0), (86, 96)),
    joists(0, 1, 95),
)
FRAME = [
    posts((8, 8), (112, 8), (112, 112), (8, 112)),
    beam("C1", (8, 8), (112, 8)),
    beam("C2", (112, 8), (112, 112)),
    beam("C3", (112, 112), (8, 112)),
    beam("C4", (8, 112), (8, 8)),
]
add("joists_at_45", box(120, 120), *FRAME, joists(45, -72, 72, spacing=12))
add("joists_at_45_flush", box(113.5, 113.5, 6.5, 6.5), *FRAME, joists(45, -56, 56, "hung", spacing=16))
add(
    "two_fields_square",
    box(180, 108),
    posts((2, 8), (2, 100), (90, 8), (90, 100), (178, 8), (178, 100)),
    beam("C1", (2, 0), (2, 108)),
    beam("C2", (90, 0), (90, 108)),
    beam("C3", (178, 0), (178, 108)),
    beam("R1", (90, 2), (178, 2), hanger="H"),
    beam("R2", (90, 106), (178, 106), hanger="H"),
    joists(0, 1, 107, "hung", on=("C1", "C2"), region=box(90, 108)),
    joists(90, -160, -102, "hung", mark="K", on=("R1", "R2"), region=box(180, 108, 90)),
)

# ---------------------------------------------------------------------------------------------------------
# Headers round a trunk

HOLE = box(76, 76, 44, 44)
ROUND = [tree("OAK", (60, 60)), posts((8, 8), (112, 8), (8, 112), (112, 112))]
for size, layer in (("2-2x8", 0), ("1-2x8", 0)):
    add(
        f"headers_round_a_trunk_{size[0]}",
        box(120, 120),
        *ROUND,
        beam("C1", (0, 8), (120, 8), "2-2x12"),
        beam("C2", (0, 112), (120, 112), "2-2x12"),
        beam("X1", (40, 0), (40, 120), size, layer),
        beam("X2", (80, 0), (80, 120), size, layer),
        beam("H1", (40, 40), (80, 40), size, layer, hanger="H"),
        beam("H2", (40, 80), (80, 80), size, layer, hanger="H"),
        joists(90, -119, -1),
        openings=[HOLE],
    )
add(
    "headers_round_a_trunk_flush",
    box(120, 113.5, 0, 6.5),
    *ROUND,
    beam("C1", (0, 8), (120, 8), "2-2x12"),
    beam("C2", (0, 112), (120, 112), "2-2x12"),
    beam("X1", (40, 8), (40, 112), hanger="H"),
    beam("X2", (80, 8), (80, 112), hanger="H"),
    beam("H1", (40, 40), (80, 40), hanger="H"),
    beam("H2", (40, 80), (80, 80), hanger="H"),
    joists(90, -104, -16, "hung"),
    openings=[HOLE],
)
add(
    "upper_and_lower_beams",
    box(120, 120),
    posts((20, 20), (100, 20), (20, 100), (100, 100)),
    beam("B1", (20, 8), (20, 112), "2-2x10", 2),
    beam("B2", (100, 8), (100, 112), "2-2x10", 2),
    beam("C1", (0, 16), (120, 16)),
    beam("C2", (0, 60), (120, 60)),
    beam("C3", (0, 104), (120, 104)),
    joists(90, -119, -1),
)

SQUARE = [posts((20, 20), (100, 20), (20, 100), (100, 100))]
add(
    "beams_hung_between_upper_beams",
    box(120, 120),
    *HUNG,
    beam("S1", (10, 3), (10, 117), hanger="H"),
    beam("S2", (110, 3), (110, 117), hanger="H"),
    beam("S3", (11.5, 60), (108.5, 60), hanger="H"),
    joists(90, -104, -16, on=("C1", "C2", "S3")),
)
add(
    "flush_beam_on_two_posts_between_joists",
    box(120, 120),
    *TWO_BEAMS,
    posts((60, 30), (60, 90), letter="Q"),
    beam("X", (60, 20), (60, 100), "2-2x8", drop="0 in"),
    joists(90, -119, -1, spacing=23.6),
)
add(
    "beams_cut_round_a_square_hole",
    box(120, 120),
    tree("OAK", (60, 60)),
    *HUNG,
    *(beam(f"S{i}", (x, 3), (x, 117), hanger="H") for i, x in enumerate((10, 42, 78, 110), start=1)),
    joists(0, 1.5, 118.5, on=("S1", "S2", "S3", "S4"), spacing=13),
    openings=[box(76.5, 76, 43.5, 44)],
)
add(
    "stringers_on_a_beam_in_layer_2",
    box(120, 120),
    *SQUARE,
    beam("B1", (10, 20), (110, 20), layer=2),
    beam("B2", (10, 100), (110, 100), layer=2),
    beam("C1", (14, 0), (14, 120)),
    beam("C2", (60, 0), (60, 120)),
    beam("C3", (106, 0), (106, 120)),
    joists(0, 1, 119),
)
add(
    "skewed_beams",
    [(0, 0), (120, 0), (150, 120), (-30, 120)],
    posts((20, 10), (100, 10), (2, 110), (118, 110)),
    beam("C1", (21.8, 0), (-3.6, 141)),
    beam("C2", (98.2, 0), (123.6, 141)),
    joists(0, 1, 119),
)
add(
    "corner_past_two_joists",
    [(0, 0), (120, 0), (121.4, 60), (120, 120), (0, 120)],
    *TWO_BEAMS,
    joists(90, -119, -1),
)
add(
    "edge_beams_hung_flush",
    box(120, 112, 0, 8),
    *TWO_BEAMS,
    beam("E1", (1.5, 11.5), (1.5, 108.5), hanger="H"),
    beam("E2", (118.5, 11.5), (118.5, 108.5), hanger="H"),
    joists(90, -104, -16, "hung", on=("C1", "C2")),
)

REFUSED: dict[str, tuple[str, str]] = {}


def refused(name: str, said: str, outline: Sequence[Point], *parts: str, **keys: object) -> None:
    """Put a framing into the list of those that can't be drawn so, with what its sentence must say."""
    REFUSED[name] = (framing(name, outline, *parts, **keys), said)  # type: ignore[arg-type]


refused(
    "blocking",
    "As blocking, write it as [[blocking]]",
    box(120, 120),
    *TWO_BEAMS,
    beam("K1", (33, 60), (49, 60), "1-2x8", 0, hanger="H"),
    joists(90, -113, -1),
)
refused(
    "header_without_trimmers",
    "write the joists at its ends as beams of layer 0",
    box(120, 120),
    *TWO_BEAMS,
    beam("H1", (33, 60), (81, 60), "2-2x8", 0, hanger="H"),
    joists(90, -113, -1),
)
refused(
    "beams_beside_posts",
    "written as one beam of two plies on a post that ends under it",
    box(120, 120),
    posts((8, 10), (112, 10), (8, 110), (112, 110)),
    beam("C1", (0, 6.5), (120, 6.5), "1-2x10"),
    beam("C2", (0, 13.5), (120, 13.5), "1-2x10"),
    beam("C3", (0, 110), (120, 110)),
    joists(90, -119, -1),
)
refused(
    "splice_between_posts",
    "a beam is spliced over a post",
    box(180, 120),
    posts((8, 10), (90, 10), (172, 10), (8, 110), (90, 110), (172, 110)),
    beam("C1", (0, 10), (130, 10)),
    beam("C3", (130, 10), (180, 10)),
    beam("C2", (0, 110), (180, 110)),
    joists(90, -179, -1),
)
refused(
    "hole_without_headers",
    "put a header there",
    box(120, 120),
    *ROUND,
    beam("C1", (0, 8), (120, 8)),
    beam("C2", (0, 112), (120, 112)),
    joists(90, -119, -1),
    openings=[HOLE],
)
refused(
    "beams_either_side_of_a_trunk",
    "put a header there",
    box(120, 120),
    *ROUND,
    beam("C1", (0, 8), (120, 8), "2-2x12"),
    beam("C2", (0, 112), (120, 112), "2-2x12"),
    beam("S1", (42, 9.5), (42, 110.5), hanger="H"),
    beam("S2", (78, 9.5), (78, 110.5), hanger="H"),
    joists(0, 8, 112, on=("S1", "S2")),
    openings=[HOLE],
)

refused(
    "two_depths_on_a_post",
    "give them depths that bring their undersides level",
    box(120, 120),
    *FRAME[:2],
    *(part.replace("2x10", "2x12") for part in FRAME[2:3]),
    *FRAME[3:],
    joists(45, -72, 72, spacing=12),
)
refused(
    "short_beam",
    "lengthen C2, which ends",
    box(120, 120),
    posts((8, 10), (112, 10), (8, 110), (80, 110)),
    beam("C1", (0, 10), (120, 10)),
    beam("C2", (0, 110), (100, 110)),
    joists(90, -119, -1),
)
refused(
    "deep_in_shallow",
    "S1 is deeper than C1 from which it hangs",
    box(120, 120),
    posts((8, 1.5), (112, 1.5), (8, 118.5), (112, 118.5)),
    beam("C1", (0, 1.5), (120, 1.5)),
    beam("C2", (0, 118.5), (120, 118.5)),
    beam("S1", (10, 3), (10, 117), "2-2x12", hanger="H"),
    beam("S2", (110, 3), (110, 117), hanger="H"),
    joists(0, 16, 104),
)
refused(
    "corner_between_joists",
    "shift the joists of field J until one runs out under it",
    [(0, 64), (-55.4256, -32), (55.4256, -32)],
    *TRUNKS,
    *(beam(f"C{i + 1}", TRIANGLE[i], TRIANGLE[(i + 1) % 3], "2-2x12") for i in range(3)),
    joists(90, -40, 40),
)
refused(
    "boards_past_a_flush_beam",
    "draw the outline in",
    box(120, 130, 0, -3),
    *TWO_BEAMS,
    joists(90, -104, -16, "hung"),
)
