"""The project file's model, by subject: what a user may write, with the limits of each value."""

from bolewright.platform.project.bearing import Bolt, Connection, Footing, Post, Strut, Support, Tree
from bolewright.platform.project.blocking import Blocking
from bolewright.platform.project.fields import (
    AreaLoad,
    Coordinate,
    Date,
    Divisor,
    Height,
    LineLoad,
    Mark,
    Measure,
    Name,
    Point,
    Rated,
    Ring,
    Size,
    Small,
    StockLength,
    Strength,
    Strict,
    Text,
)
from bolewright.platform.project.gate import Gate
from bolewright.platform.project.guard import GroundLevel, Guard
from bolewright.platform.project.hatch import Hatch
from bolewright.platform.project.ladder import Ladder
from bolewright.platform.project.material import Material
from bolewright.platform.project.measured import AsBuilt, Reading, TrunkOutline
from bolewright.platform.project.place import Limits, LoadArea, Loads, Platform, Site, Title, Wall
from bolewright.platform.project.point_load import PointLoad
from bolewright.platform.project.stairs import Stairs
from bolewright.platform.project.stock import Price, Stock
from bolewright.platform.project.timber import Beam, Brace, CrossedRods, Decking, Diagonal, JoistField, Timber
from bolewright.platform.project.trunk_room import Limb, TrunkOpening
from bolewright.platform.project.whole import Project

__all__ = [
    "AreaLoad",
    "AsBuilt",
    "Beam",
    "Blocking",
    "Bolt",
    "Brace",
    "Connection",
    "Coordinate",
    "CrossedRods",
    "Date",
    "Decking",
    "Diagonal",
    "Divisor",
    "Footing",
    "Gate",
    "GroundLevel",
    "Guard",
    "Hatch",
    "Height",
    "JoistField",
    "Ladder",
    "Limb",
    "Limits",
    "LineLoad",
    "LoadArea",
    "Loads",
    "Mark",
    "Material",
    "Measure",
    "Name",
    "Platform",
    "Point",
    "PointLoad",
    "Post",
    "Price",
    "Project",
    "Rated",
    "Reading",
    "Ring",
    "Site",
    "Size",
    "Small",
    "Stairs",
    "Stock",
    "StockLength",
    "Strength",
    "Strict",
    "Strut",
    "Support",
    "Text",
    "Timber",
    "Title",
    "Tree",
    "TrunkOpening",
    "TrunkOutline",
    "Wall",
]
