"""Gussets: a plate nailed to each side of a post's head and of the beam on it, against the beam's rotation."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from bolewright.calculation import Calculation
from bolewright.fasteners.adjusted import connection_value
from bolewright.fasteners.connectors import nail
from bolewright.fasteners.lateral import lateral_design_value
from bolewright.fasteners.members import Steel, Wood
from bolewright.platform.file.plausible import Location
from bolewright.platform.project import Post, Project
from bolewright.reference import load
from bolewright.timber.sections import parse_section

KEYS = ("gusset_thickness", "gusset_nail", "gusset_nails")
LEAST_PLYWOOD = 0.5  # in (common practice)
PLYWOOD_G = 0.42  # of grades other than Structural 1 (NDS 2018, Table 12.3.3B, from memory)
GUSSET_NOTE = (
    "The gusset on the side that lifts pulls on its nails in the beam and in the post, as many in each; the plate "
    "reaches over both and is not the weaker part (judgement). The other side's counts for nothing."
)


def gusset_faults(project: Project) -> Iterator[tuple[Location, str]]:
    """Where in the file a gusset is not fully described."""
    for name, post in project.posts.items():
        given = [key for key in KEYS if getattr(post, key) is not None]
        where = ("post", name, "gusset")
        if post.gusset is None:
            if given:
                yield where, f'Must be given beside {given[0]}: "plywood" or "steel".'
        elif len(given) < len(KEYS):
            yield where, f"also needs {', '.join(key for key in KEYS if key not in given)}."
        elif post.rotation_tie is not None:
            yield where, "stands beside rotation_tie: keep the one of the two that is built."
        elif post.gusset == "plywood" and float(post.gusset_thickness or 0.0) < LEAST_PLYWOOD:
            yield (
                ("post", name, "gusset_thickness"),
                f"{post.gusset_thickness:g} in is too thin for plywood; at least 1/2 in.",
            )


def gusset_tie(post: Post, C_D: Any, calculation: Calculation) -> Any:
    """Pull that one gusset takes by its nails in the post, or by as many in the beam (lb), wet.

    Nails under 1/4 in. bear alike along and across the grain; every nail and thickness that the file allows reaches
    6 D into the post (12.1.6.5). Source: NDS 2018, 12.3.1, Table 12.3.3B for plywood.
    """
    thickness = float(post.gusset_thickness or 0.0)
    section = parse_section(post.section)
    main = Wood(min(section.b, section.d), post.values(section).G, name="post")
    side: Wood | Steel = Steel(thickness, name="gusset")
    if post.gusset == "plywood":
        F_e = float(load("dowel_bearing_given").row(material="plywood other grades")["F_e"])
        side = Wood(thickness, PLYWOOD_G, F_e=F_e, name="gusset")
    connector = nail(post.gusset_nail or "10d")
    one = lateral_design_value(connector, side, main, C_D=C_D, calculation=calculation)
    return calculation.run(connection_value, n=float(post.gusset_nails or 0), Z_p=one.Z_adj)
