"""What generated arrangements have in common: place, loads, bolts, posts, footings, hangers. Ratings are invented."""

from __future__ import annotations

import random
from typing import Any


def common(number: int, rng: random.Random, wood: tuple[str, str]) -> dict[str, Any]:
    """Site, loads, and kinds of parts of one arrangement."""
    timber = {"species": wood[0], "grade": wood[1], "wet": True}
    return {
        "format": 2,
        "title": {"project": f"arrangement {number}", "date": "2026-11-28"},
        "site": {
            "frost_depth": "36 in",
            "soil": "class 4",
            "ground_snow": f"{rng.choice((20, 30, 45))} psf",
            "wind_speed": "107 mph",
            "exposure": "B",
        },
        "loads": {
            "live": f"{rng.choice((40, 50, 60))} psf",
            "hardware": "1 psf",
            "guard": f"{rng.choice((6, 10, 18))} plf",
            "guard_height": "42 in",
            "person": "300 lb",
        },
        "platform": {"floor_height": f"{rng.choice((72, 84, 96))} in"},
        "decking": {"section": "2x6", **timber},
        "bolt": {
            "main": {
                "diameter": "1 3/4 in",
                "embedment": "7 in",
                "F_y": "36 ksi",
                "F_u": "58 ksi",
                "seat": "steel bracket",
                "seat_length": "3 in",
                "rated_load": "9000 lb",
                "rated_lateral": "2000 lb",
            }
        },
        "post": {
            "P": {
                "section": "8x8",
                "species": "Southern Pine",
                "grade": "No.2",
                "wet": True,
                "base": "fixed",
                "cap_lateral": "2000 lb",
                "rotation_tie": "1500 lb",
            }
        },
        "footing": {
            "F": {
                "shape": "round",
                "width": "26 in",
                "depth": "72 in",
                "pad": "10 in",
                "fill": "concrete",
            }
        },
        "connection": {"H": {"rated_load": "2500 lb", "rated_uplift": "700 lb", "wet_included": True}},
        "tree": [],
        "support": [],
        "beam": [],
        "joists": [],
    }
