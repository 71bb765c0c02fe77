"""Each derivation begins with what it asks; a sentence is of a limit state that there is."""

import pytest

from bolewright.paths import shipped
from bolewright.platform.limit_states import LIMIT_STATES
from bolewright.rendering.blocks import Heading, Statement
from bolewright.sheets.asked import _ALIKE, _ASKED, asked
from bolewright.sheets.sheet import open_sheet

LEARNED = ("joists", "beams", "hangers", "tree bolts", "posts", "footings", "braces", "stability")


def test_every_sentence_is_of_a_limit_state() -> None:
    assert set(_ASKED) <= set(LIMIT_STATES)
    assert set(_ALIKE) <= {key.partition(".")[2] for key in LIMIT_STATES}
    assert all(words.endswith(".") and len(words) < 200 for words in (*_ASKED.values(), *_ALIKE.values()))


@pytest.mark.parametrize("topic", LEARNED)
def test_a_reader_meets_the_question_before_the_numbers(topic: str) -> None:
    sheet = open_sheet(shipped("calcsheets") / "lookout.toml", topic)
    items = sheet.calculation().items
    for i, block in enumerate(items):
        if isinstance(block, Heading) and block.level == 3:
            assert isinstance(items[i + 1], Statement), block.text
    said = [item for block in items if isinstance(block, Statement) for item in block.items]
    assert all(asked(check.key) in said for check in sheet.governing() if check.steps)
