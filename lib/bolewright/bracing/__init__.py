"""Standing laterally: wind, knee braces, stiffness, the share of each support, overturning, rotation.

Pure formulas. Loads are wind (ASCE 7-16) and a lateral share of the live load (occupant sway, common practice).
The platform is a stiff plate in plan on the lateral springs of its supports: cantilever posts, knee-braced posts,
bolts tied to a trunk that moves by itself. A post held in the ground is looked at twice, with its base fixed
and in ground that gives, and the worse counts: the first is hard on the soil, the second on brace, post and drift.
"""
