"""The whole project file."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, Any

from pydantic import Field, PrivateAttr, StrictBool, StringConstraints, model_validator

from bolewright.platform.project.bearing import (
    Bolt,
    Connection,
    Footing,
    Post,
    Strut,
    Support,
    SupportKind,
    Tree,
)
from bolewright.platform.project.blocking import Blocking, with_timber
from bolewright.platform.project.fields import Format, Mark, Strict
from bolewright.platform.project.gate import Gate
from bolewright.platform.project.guard import GroundLevel, Guard, with_posts_timber
from bolewright.platform.project.hatch import Hatch, with_hatch
from bolewright.platform.project.ladder import Ladder, with_ladder_timber
from bolewright.platform.project.material import Material
from bolewright.platform.project.measured import AsBuilt, Reading, TrunkOutline
from bolewright.platform.project.place import Code, Limits, LoadArea, Loads, Platform, Site, Title, Wall
from bolewright.platform.project.point_load import PointLoad
from bolewright.platform.project.stairs import Stairs, with_stair_timber
from bolewright.platform.project.stock import Price, Stock
from bolewright.platform.project.timber import Beam, Brace, CrossedRods, Decking, Diagonal, JoistField, Timber
from bolewright.platform.project.trunk_room import Limb, TrunkOpening
from bolewright.timber.sections import Section


class Project(Strict):
    """A whole project file."""

    format: Format
    demonstration: StrictBool = False
    """Whether all of it is invented, to show the workbook: its verdict then says so."""
    confirmed: tuple[Annotated[str, StringConstraints(max_length=80)], ...] = ()
    """Values that equal the demonstration's and were confirmed all the same, as "bolt.main.rated_load"."""
    title: Title
    code: Code = Code()
    site: Site
    loads: Loads
    limits: Limits = Limits()
    platform: Platform
    decking: Decking
    materials: Annotated[dict[Mark, Material], Field(alias="material", default_factory=dict)]
    trees: Annotated[tuple[Tree, ...], Field(alias="tree")] = ()
    bolts: Annotated[dict[Mark, Bolt], Field(alias="bolt", default_factory=dict)]
    posts: Annotated[dict[Mark, Post], Field(alias="post", default_factory=dict)]
    footings: Annotated[dict[Mark, Footing], Field(alias="footing", default_factory=dict)]
    struts: Annotated[dict[Mark, Strut], Field(alias="strut", default_factory=dict)]
    connections: Annotated[dict[Mark, Connection], Field(alias="connection", default_factory=dict)]
    supports: Annotated[tuple[Support, ...], Field(alias="support", min_length=1)]
    beams: Annotated[tuple[Beam, ...], Field(alias="beam", min_length=1)]
    joists: Annotated[tuple[JoistField, ...], Field(min_length=1)]
    blocking: tuple[Blocking, ...] = ()
    braces: Annotated[tuple[Brace, ...], Field(alias="brace")] = ()
    diagonals: Annotated[tuple[Diagonal, ...], Field(alias="diagonal")] = ()
    crossed_rods: tuple[CrossedRods, ...] = ()
    walls: Annotated[tuple[Wall, ...], Field(alias="wall")] = ()
    load_areas: Annotated[tuple[LoadArea, ...], Field(alias="load_area", max_length=20)] = ()
    point_loads: Annotated[tuple[PointLoad, ...], Field(alias="point_load", max_length=40)] = ()
    guards: Annotated[tuple[Guard, ...], Field(alias="guard", max_length=20)] = ()
    gates: Annotated[tuple[Gate, ...], Field(alias="gate", max_length=20)] = ()
    ground: Annotated[tuple[GroundLevel, ...], Field(max_length=40)] = ()
    as_built: tuple[AsBuilt, ...] = ()
    readings: Annotated[tuple[Reading, ...], Field(alias="reading")] = ()
    trunk_openings: Annotated[tuple[TrunkOpening, ...], Field(alias="trunk_opening", max_length=20)] = ()
    limbs: Annotated[tuple[Limb, ...], Field(alias="limb", max_length=20)] = ()
    outlines: Annotated[tuple[TrunkOutline, ...], Field(alias="outline")] = ()
    stairs: Stairs = Stairs()
    ladder: Ladder = Ladder()
    hatch: Hatch = Hatch()
    stock: Stock = Stock()
    prices: Annotated[tuple[Price, ...], Field(alias="price")] = ()
    _measured: dict[str, tuple[float | None, float | None]] = PrivateAttr(default_factory=dict)

    @property
    def timbers(self) -> tuple[tuple[tuple[str | int, ...], Timber], ...]:
        """Every piece that has a size and a material, with its place in the file."""
        return (
            (("decking",), self.decking),
            *((("beam", i), part) for i, part in enumerate(self.beams)),
            *((("joists", i), part) for i, part in enumerate(self.joists)),
            *((("blocking", i), part) for i, part in enumerate(self.blocking)),
            *((("post", name), part) for name, part in self.posts.items()),
            *((("strut", name), part) for name, part in self.struts.items()),
            *((("brace", i), part) for i, part in enumerate(self.braces)),
            *(((("stairs",), self.stairs),) if self.stairs.given else ()),
            *((("guard", i), part) for i, part in enumerate(self.guards)),
            *((("gate", i), part) for i, part in enumerate(self.gates)),
            *(((("ladder",), self.ladder),) if self.ladder.given else ()),
        )

    @property
    def feet(self) -> frozenset[str]:
        """Marks of the tree bolts that knee braces stand on; no beam sits on these."""
        return frozenset(
            s.foot for s in self.supports if s.kind == SupportKind.KNEE_BRACE and s.foot is not None
        )

    @property
    def seated(self) -> tuple[Support, ...]:
        """The supports that beams sit on: all but the tree bolts that knee braces stand on."""
        return tuple(s for s in self.supports if s.mark not in self.feet)

    def with_measured_timbers(self) -> Project:
        """The same project with joists and beams of the depth and width that were measured, as it was built."""
        built = self.model_copy()
        built._measured = {
            entry.mark: (entry.depth, entry.width)
            for entry in self.as_built
            if entry.depth is not None or entry.width is not None
        }
        return built

    def section_of(self, mark: str, planned: Section) -> Section:
        """Section of a joist or beam: the planned one, or that size class at the measured depth and width."""
        depth, width = self._measured.get(mark, (None, None))
        if depth is None and width is None:
            return planned
        b = planned.b if width is None else width * planned.plies
        return replace(planned, b=b, d=planned.d if depth is None else depth)

    @model_validator(mode="before")
    @classmethod
    def _hand_out_timber(cls, raw: Any) -> Any:
        """Give parts without a timber of their own that of what they are fastened to; frame a hatch."""
        raw = with_hatch(raw)
        return with_ladder_timber(with_posts_timber(with_stair_timber(with_timber(raw))))

    @model_validator(mode="after")
    def _hand_out_materials(self) -> Project:
        """Give every piece the material that it names."""
        for _, piece in self.timbers:
            piece._own = self.materials.get(piece.material or "")
        return self
