"""The site set: a sheet to carry, the deck's corners, the ground, boxes for what is measured, what is built from."""

from bolewright.sheets.site.site import site_sheets

__all__ = ["site_sheets"]
