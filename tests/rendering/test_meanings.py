"""What a sheet says of a symbol is what the formula's docstring says, for every symbol of every formula."""

import pytest

from bolewright.formulas import REGISTRY
from bolewright.rendering.index import load_all
from bolewright.rendering.meanings import meaning, meanings
from bolewright.rendering.wording import html_words, plain, shown

FORMULAS = load_all()


@pytest.mark.parametrize("record", FORMULAS, ids=lambda record: record.name)
def test_every_parameter_is_described(record):
    said = meanings(record)
    for symbol in record.parameters:
        assert said.get(symbol), f"the docstring of {record.name} does not say what {symbol} is"
        assert not said[symbol].endswith((" and", ",")), said[symbol]


@pytest.mark.parametrize(
    ("formula", "symbol", "words"),
    [
        ("bending_stress", "M", "bending moment"),
        ("deflection_in_service", "delta_E", "deflection found with E"),
        ("sound_radius", "t_b", "thickness of the bark"),
        ("area_facing", "w", "width across the wind"),  # two symbols in one entry
        ("right_edge", "b", "width of the piece"),  # "as left_edge"
        ("adjusted_bending", "C_D", "load duration"),
    ],
)
def test_meaning(formula, symbol, words):
    assert meaning(REGISTRY[formula], symbol) == words


@pytest.mark.parametrize(
    ("name", "text"),
    [("F_c_perp_p", "F'_c,⊥"), ("F_b_star", "F_b*"), ("delta_E", "δ_E"), ("phiM_n", "φM_n"), ("l_p", "l_p")],
)
def test_a_symbol_in_text(name, text):
    assert plain(name) == text


@pytest.mark.parametrize("typed", ["as_built", "rated_load", "[[as_built]]", "package_demo.toml", "x = 1"])
def test_names_of_keys_and_files_are_no_symbols(typed):
    assert html_words(typed) == shown(typed) == typed


def test_no_underscore_is_left_of_a_symbol():
    text = "Bending value F_b* with every factor but C_fu, of mode III_m with 1/q_s = 0, at K_theta and F'_c,perp"
    assert "_" not in html_words(text)
    assert "θ" in html_words(text)
    assert "c,⊥" in html_words(text)
