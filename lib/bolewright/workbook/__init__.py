"""The workbook: a form over the project file, with the checks live beside it."""

from bolewright.workbook.app import show

__all__ = ["show"]
