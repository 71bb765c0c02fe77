"""The project file's model, by subject: what a user may write, with the limits of each value."""

from bolewright.platform.project.bearing import Bolt, Connection, Footing, Post, Support, Tree
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
from bolewright.platform.project.material import Material
from bolewright.platform.project.measured import AsBuilt, Reading, StemOutline
from bolewright.platform.project.place import Limits, LoadArea, Loads, Platform, Site, Title, Wall
from bolewright.platform.project.stairs import Stairs
from bolewright.platform.project.stock import Price, Stock
from bolewright.platform.project.timber import Brace, Carrier, Decking, Diagonal, JoistField, Timber
from bolewright.platform.project.whole import Project

__all__ = [
    "AreaLoad",
    "AsBuilt",
    "Blocking",
    "Bolt",
    "Brace",
    "Carrier",
    "Connection",
    "Coordinate",
    "Date",
    "Decking",
    "Diagonal",
    "Divisor",
    "Footing",
    "Height",
    "JoistField",
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
    "StemOutline",
    "Stock",
    "StockLength",
    "Strength",
    "Strict",
    "Support",
    "Text",
    "Timber",
    "Title",
    "Tree",
    "Wall",
]
