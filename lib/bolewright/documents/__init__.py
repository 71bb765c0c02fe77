"""From executed calc sheets to a calc package: one PDF and one self-contained HTML page."""
