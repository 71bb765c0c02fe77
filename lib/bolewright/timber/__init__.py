"""Sawn timber by NDS 2018, allowable stress design: sizes, values, factors, members, greatest spans."""
