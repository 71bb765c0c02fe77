"""Drawings of a platform to scale: plans, elevations, sections, details, as SVG and DXF, and a view that turns."""
