"""Plausible values that a part starts with when it is added; its place is left for the user to give."""

from __future__ import annotations

from typing import Any

_TIMBER = {"species": "Southern Pine", "grade": "No.2"}


def start_of(key: str, data: dict[str, Any]) -> dict[str, Any]:
    """Values of a new part of a section, in the timber that the file uses already.

    What is left out has a default, or must be given and then says so beside its field.
    """
    match key:
        case "joists":
            field = _first(data, key)
            bearing = {"bearing": field.get("bearing", "resting")}
            if "hanger" in field:
                bearing["hanger"] = field["hanger"]
            return {"section": "2x8", **_timber(data), "spacing": "16 in", **bearing}
        case "beam":
            return {"plies": 2, "section": "2x10", **_timber(data)}
        case "support":
            named = {"post": _name(data, "post"), "footing": _name(data, "footing")}
            return {"kind": "post", **{k: v for k, v in named.items() if v}}
        case "tree":
            return {"bark": "1 in", "height": "50 ft"}
        case "bolt":
            return {
                "diameter": "1 1/2 in",
                "embedment": "7 in",
                "F_y": "36 ksi",
                "F_u": "58 ksi",
                "seat_length": "3 in",
            }
        case "post":
            return {"section": "6x6", **_timber(data)}
        case "footing":
            return {"shape": "round", "width": "20 in", "depth": "48 in", "pad": "10 in"}
        case "connection":
            return {"note": "Rating not read off the maker's sheet yet"}
        case "blocking":
            return {"fasteners": 5}
        case "strut":
            return {
                "section": "4x6",
                **_timber(data),
                "head_bolts": 2,
                "foot_bolts": 2,
                "bolt_diameter": "5/8 in",
            }
        case "brace":
            return {
                "section": "2x6",
                **_timber(data),
                "towards": "start",
                "rise": "24 in",
                "run": "24 in",
            }
        case "crossed_rods":
            return {"diameter": "5/8 in", "note": "Rating not read off the maker's sheet yet"}
    return {}


def _timber(data: dict[str, Any]) -> dict[str, Any]:
    for key in ("beam", "joists"):
        used = _first(data, key)
        for keys in (("material",), ("species", "grade")):
            if set(keys) <= used.keys():
                return {key: used[key] for key in keys}
    return _TIMBER


def _first(data: dict[str, Any], key: str) -> dict[str, Any]:
    parts = data.get(key)
    return parts[0] if isinstance(parts, list) and parts and isinstance(parts[0], dict) else {}


def _name(data: dict[str, Any], key: str) -> str | None:
    kinds = data.get(key)
    return next(iter(kinds), None) if isinstance(kinds, dict) else None
