"""How numbers, equations, tables and drawings look; knows no platform."""
