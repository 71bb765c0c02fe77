"""What a file leaves out counts as published, where a clause says what is usual."""

from __future__ import annotations

from typing import Any

from bolewright.platform import project


def defaults(model: Any) -> dict[str, Any]:
    return {name: field.default for name, field in model.model_fields.items()}


def test_a_value_left_out_is_the_published_one() -> None:
    limits = defaults(project.Limits)
    assert limits["live"] == 360  # IRC 2021, Table R301.7: floors, L/360
    assert limits["total"] == 240  # IBC 2021, Table 1604.3: floor members, D + L, L/240
    post = defaults(project.Post)
    assert (
        post["K_e"] == 2.1
    )  # NDS 2018, Appendix G, Table G1: recommended 2.10, fixed at the foot, free at the top
