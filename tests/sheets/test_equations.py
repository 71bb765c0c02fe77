"""The lines that a sheet writes for a check give that check's ratio, for every check that has equations."""

import pytest

from bolewright.paths import shipped
from bolewright.platform.check import Topic
from bolewright.sheets.equations import EquationsError, Given, chain_of, code_of
from bolewright.sheets.sheet import open_sheet


@pytest.mark.parametrize("name", ["lookout", "hickory_perch"])
def test_written_lines_give_the_checks_ratio(name: str) -> None:
    tried = 0
    for topic in Topic:
        for check in open_sheet(shipped("calcsheets") / f"{name}.toml", topic.value).checks:
            if not check.steps or check.ratio != check.ratio:
                continue
            chain = chain_of(check)
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
    with pytest.raises(EquationsError, match="There is no limit state 'sway'"):
        sheet.given("", "sway")
    with pytest.raises(EquationsError, match="is no input of"):
        _ = sheet.given().nothing
