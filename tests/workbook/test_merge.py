"""Two who changed one file: both's changes are kept, and where they changed one thing it is said."""

from __future__ import annotations

from copy import deepcopy

import pytest

from bolewright.workbook.merge import differences, merged

BASE = {
    "format": 2,
    "loads": {"live": "60 psf", "dead": "10 psf"},
    "joists": [{"mark": "J", "section": "2x8"}, {"mark": "JA", "section": "2x8"}],
    "post": {"main": {"section": "6x6"}},
}


def changed(**by):
    data = deepcopy(BASE)
    for key, value in by.items():
        data[key] = value
    return data


def test_changes_of_both_are_kept():
    mine = changed(loads={"live": "100 psf", "dead": "10 psf"})
    theirs = changed(
        joists=[{"mark": "J", "section": "2x10"}, {"mark": "JA", "section": "2x8"}, {"mark": "JB"}]
    )
    data, clashes = merged(BASE, mine, theirs)
    assert clashes == []
    assert data == mine | {"joists": theirs["joists"]}


def test_a_part_removed_by_one_is_removed_and_one_that_the_other_changed_stays():
    mine = changed(joists=[BASE["joists"][1]])
    assert merged(BASE, mine, BASE)[0]["joists"] == [BASE["joists"][1]]
    theirs = changed(joists=[{"mark": "J", "section": "2x10"}, BASE["joists"][1]])
    data, clashes = merged(BASE, mine, theirs)
    assert {"mark": "J", "section": "2x10"} in data["joists"]
    assert clashes == ["joists J was removed by one and changed by the other: it stays"]


def test_where_both_changed_one_field_mine_stays_and_it_is_said():
    mine = changed(loads={"live": "100 psf", "dead": "10 psf"})
    theirs = changed(loads={"live": "40 psf"})
    data, clashes = merged(BASE, mine, theirs)
    assert data["loads"] == {"live": "100 psf"}
    assert clashes == ["live of loads: yours is 100 psf, the other is 40 psf; yours stays"]


@pytest.mark.parametrize("one", [BASE, changed(format=2), changed(post={"main": {"section": "8x8"}})])
def test_a_merge_with_what_did_not_change_is_the_other(one):
    assert merged(BASE, one, BASE) == (one, [])
    assert merged(BASE, BASE, one) == (one, [])


def test_differences_in_words():
    other = changed(loads={"live": "40 psf"}, joists=[BASE["joists"][0]])
    assert differences(BASE, other) == [
        "live of loads: 60 psf becomes 40 psf",
        "dead of loads: 10 psf becomes left out",
        "joists JA is removed",
    ]
