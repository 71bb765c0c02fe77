"""The workbook: a form over the project file, with the checks live beside it."""
