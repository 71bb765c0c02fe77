"""The lines that a sheet writes for a check give that check's ratio, for every check that has equations."""

from pathlib import Path

import pytest

from bolewright import Q, timber
from bolewright.paths import shipped
from bolewright.platform.limit_states.check import Topic
from bolewright.rendering.numbers import ratio
from bolewright.sheets.equations import EquationsError, Given, chain_of, code_of
from bolewright.sheets.sheet import open_sheet

FILES = {
    file.stem: file
    for file in (
        *sorted(shipped("calcsheets").glob("*.toml")),
        Path(__file__).parents[1] / "audit" / "projects" / "handrail_and_cables.toml",
    )
}


@pytest.mark.parametrize("name", FILES)
def test_written_lines_give_the_checks_ratio(name: str) -> None:
    tried = 0
    for topic in Topic:
        for check in open_sheet(FILES[name], topic.value).checks:
            if not check.steps or check.ratio != check.ratio:
                continue
            chain = chain_of(check)
            assert len({i.name for i in chain.inputs}) == len(chain.inputs), check.key
            names = {"given": Given(chain)}
            exec(code_of(chain).rsplit("\n", 1)[0], names)
            found = names[chain.lines[-1].symbol]
            assert found == pytest.approx(check.ratio, rel=1e-9), check.key
            assert "which is the check's" in names["given"].against(found).items[0]
            tried += 1
    assert tried > 100


def test_what_is_not_there_gets_a_sentence() -> None:
    sheet = open_sheet(shipped("calcsheets") / "lookout.toml", "joists")
    with pytest.raises(EquationsError, match="There is no part 'J99'"):
        sheet.given("J99")
    with pytest.raises(EquationsError, match=r"There is no part 'J99' on this sheet; there is .*J1, J2"):
        sheet.calculation("J99")
    with pytest.raises(
        EquationsError, match=r"no limit state 'sway' here; there is .*\"joist\.bending\" \(bending\)"
    ):
        sheet.given("", "sway")
    with pytest.raises(EquationsError, match="is no input of"):
        _ = sheet.given().nothing


@pytest.mark.parametrize(
    ("topic", "key", "functions"),
    [
        ("braces", "brace.buckling", ("brace_compression", "column_stability_factor", "compression_stress")),
        ("joists", "joist.bearing", ("bearing_stress", "adjusted_bearing")),
        ("stability", "platform.drift", ("resultant_movement", "drift_limit")),
    ],
)
def test_lines_begin_at_the_inputs(topic: str, key: str, functions: tuple[str, ...]) -> None:
    """A reader changes a length and sees the ratio move: demand and capacity are worked out, not given."""
    sheet = open_sheet(shipped("calcsheets") / "lookout.toml", topic)
    given = sheet.given("", key)
    assert {"demand", "capacity"}.isdisjoint(dir(given))
    code = str(sheet.equations("", key))
    assert [name for name in functions if f"{name}(" not in code] == []


def test_half_the_bearing_length_doubles_the_stress() -> None:
    """NDS 2018, 3.10.2: the stress is the reaction over breadth times length."""
    sheet = open_sheet(shipped("calcsheets") / "lookout.toml", "joists")
    code = str(sheet.equations("", "joist.bearing"))
    given = sheet.given("", "joist.bearing")
    names = {"given": given}
    lines = code.split("\n", 1)[1].rsplit("\n", 1)[0].replace("given.l_b", "given.l_b / 2")
    exec(lines, names)
    assert names["ratio"] == pytest.approx(2 * given.check.ratio, rel=1e-9)


def test_lines_of_another_part_say_what_they_leave_out() -> None:
    sheet = open_sheet(shipped("calcsheets") / "lookout.toml", "joists")
    given = sheet.given("", "joist.bending")
    said = given.against(given.M / 1e6).items[0]
    assert "These lines take no " in said
    assert "C_D" in said.split("These lines take no ")[1]
    assert f'sheet.equations("{given.check.part}", "bending") writes its lines' in said
    changed = sheet.given("", "joist.bending")
    for name in set(dir(changed)) - {"against", "check", "quantities"}:
        getattr(changed, name)
    assert "These lines take no" not in changed.against(0.5).items[0]


def test_a_quantity_of_the_readers_own_stands_beside_the_inputs() -> None:
    """500 lb·ft on 21.39 in3: 6,000 / 21.39 psi over F_b; without their units the inputs are refused in words."""
    given = open_sheet(shipped("calcsheets") / "lookout.toml", "joists").given("", "joist.bending")
    sized = given.quantities
    found = timber.bending_stress(M=Q("500 lb-ft"), S=sized.S) / sized.F_b
    said = sized.against(found).items[0]
    assert ratio(500 * 12 / given.S / given.F_b) in said
    for wrong in (timber.bending_stress(M=Q("500 lb-ft"), S=sized.S) / given.F_b, "much", None):
        with pytest.raises(EquationsError, match="is no ratio"):
            given.against(wrong)
    assert type(sized.C_D) is float
    assert sized.against(given.check.ratio).items[0].endswith("which is the check's.")
