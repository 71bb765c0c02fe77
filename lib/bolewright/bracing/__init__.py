"""Standing sideways: wind, knee braces, stiffness, the share of each support, overturning, roll.

Pure formulas. Loads are wind (ASCE 7-16) and a level share of the live load (occupant sway, common practice).
The platform is a stiff plate in plan on the level springs of its supports: cantilever posts, knee-braced posts,
bolts tied to a stem that moves by itself. A post held in the ground is looked at twice, with its foot held still
and in ground that gives, and the worse counts: the first is hard on the soil, the second on brace, post and drift.
"""
