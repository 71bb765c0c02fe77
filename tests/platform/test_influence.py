"""Influence kept near and through few rows is the same matrix as the whole one: laws, on drawn matrices."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.platform.layout.influence import Influence, Through, gather
from bolewright.platform.loads.combine import envelope

COUNT = 40


@st.composite
def rows(draw):
    """Rows of a few sources and rows of most of them, in any order."""
    drawn = []
    for _ in range(draw(st.integers(1, 7))):
        size = draw(st.sampled_from([1, 2, 5, 30, COUNT]))
        sources = np.sort(np.array(draw(st.permutations(range(COUNT))))[:size])
        amounts = np.array(draw(st.lists(st.floats(-9, 9), min_size=size, max_size=size)))
        drawn.append((sources, amounts))
    return drawn


@given(rows(), st.integers(0, 10**6))
def test_both_ways_of_keeping_rows_are_one_matrix(drawn, seed):
    random = np.random.default_rng(seed)
    one, other = gather(drawn, COUNT), gather(drawn, COUNT, apart=True)
    assert isinstance(other, Through) == any(sources.size > COUNT / 4 for sources, _ in drawn)
    matrix, loads = random.normal(size=(6, len(drawn))), random.normal(size=COUNT)
    for a, b in ((one, other), (one.after(matrix), other.after(matrix))):
        whole = np.array([a[i] for i in range(len(a))])
        kept = np.zeros((len(b), COUNT))
        kept[:, b.columns] = b.values
        assert len(a) == len(b)
        for found, wanted in (
            (kept, whole),
            (np.array([b[i] for i in range(len(b))]), whole),
            (b @ loads, whole @ loads),
            (b @ np.stack([loads, -loads], axis=1), whole @ np.stack([loads, -loads], axis=1)),
            (b.combined(np.arange(len(b))), np.arange(len(b)) @ whole),
            (b[np.array([0])][0], whole[0]),
        ):
            assert found == pytest.approx(wanted, abs=1e-9)
    assert other.sizes() == pytest.approx(one.sizes(), abs=1e-9)
    assert one.sizes() == pytest.approx(np.abs([one[i] for i in range(len(one))]).sum(axis=0), abs=1e-9)


def test_an_envelope_worked_out_in_parts_is_that_of_the_whole(monkeypatch):
    """Joists over three beams give way: rows by rows and all at once give the same greatest and least values."""
    from arrangement_files import file_of

    from bolewright.platform.file.reading import read_project
    from bolewright.platform.layout.layout import find_layout
    from bolewright.platform.loads.load_path import find_load_path

    path = find_load_path(find_layout(read_project(file_of("joists_over_three_beams"))))
    moment = path.effects["J3"].moment
    assert isinstance(moment, Through)
    whole = vars(envelope(path, Influence.of(np.array([moment[i] for i in range(len(moment))]))))
    monkeypatch.setattr("bolewright.platform.loads.combine._AT_ONCE", 7 * moment.count)
    for name, values in vars(envelope(path, moment)).items():
        assert values == pytest.approx(whole[name], rel=1e-12, abs=1e-9), name
