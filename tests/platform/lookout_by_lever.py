"""The lookout without guards' posts, blocks and ladder, for the lever rule: 8 plf of guard on three edges, 40 psf."""

from __future__ import annotations

from pathlib import Path

WHOLE = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(
    encoding="utf-8"
)
LOOKOUT = WHOLE.partition("\n[ladder]")[0].replace("60 psf", "40 psf")
assert LOOKOUT.count('live = "40 psf"') == 1
WET = 62.4 * 0.55 / (1 + 0.009 * 0.55 * 28) * 1.28 / 1728  # lb/in3 at 28 % (NDS 2018 Supplement, 3.1.3)


def stringer(mark: str, y: float) -> float:
    """x of the axis of S1 or S2, from the file's ends (in)."""
    if mark == "S1":
        return -15.25 - (56.3125 - 15.25) * (y + 6) / 139
    return 14.5 + (72.4375 - 14.5) * (y + 6) / 139
