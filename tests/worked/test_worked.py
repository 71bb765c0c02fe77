"""A calculation of one's own prints what it computed, or its line is refused in one sentence."""

import inspect
import linecache
import math
import random
import re
import textwrap

import numpy as np
import pint
import pytest

from bolewright import Q, timber
from bolewright.formulas import REGISTRY
from bolewright.rendering import tex
from bolewright.rendering.blocks import Equations, Statement
from bolewright.units import Quantity
from bolewright.worked import WorkedError, grammar, work

NAMES = {"timber": timber, "Q": Q}

JOIST = """
# a joist of 12 ft
L = Q("12 ft")
q = Q("50 psf")
s = Q("16 in")
w = q * s  # tributary width
M_max = w * L**2 / 8
S = Q("13.14 in3")
f_b = M_max / S
f_m = (M_max / S).to("MPa")
"""


def _text(worked) -> str:
    return "\n".join(b.alt if isinstance(b, Equations) else b.items[0] for b in worked.blocks)


def test_a_joist_by_hand() -> None:
    # 50 psf x 16/12 ft = 66.67 plf; 66.67 x 144 / 8 = 1,200 lb ft; x 12 / 13.14 in3 = 1,096 psi = 7.556 MPa
    worked = work(JOIST, NAMES)
    assert worked.values["w"].m_as("plf") == pytest.approx(66.6667, rel=1e-5)
    assert worked.values["M_max"].m_as("lbf*foot") == pytest.approx(1200)
    assert worked.values["f_b"].m_as("psi") == pytest.approx(1095.89, rel=1e-5)
    assert f"{worked.values['f_b'].units:~P}" == "psi"
    assert "f_b = M_max / S = 1,096 psi" in _text(worked)
    assert "f_m = M_max / S = 7.556 MPa" in _text(worked)
    assert isinstance(worked.blocks[0], Statement)
    latex = worked.blocks[1].latex[0]
    assert r"\frac{ 66.67\ \text{plf} \cdot \left( 12\ \text{ft} \right)^{ 2 } }{ 8 }" in latex
    assert r"\text{(tributary width)}" in latex


def test_no_line_is_lost() -> None:
    worked = work(JOIST, NAMES)
    rows = [row for block in worked.blocks if isinstance(block, Equations) for row in block.alt.splitlines()]
    assert [row.split(" = ")[0] for row in rows] == ["L", "q", "s", "w", "M_max", "S", "f_b", "f_m"]
    assert list(worked.values) == ["L", "q", "s", "w", "M_max", "S", "f_b", "f_m"]


def test_a_formula_of_the_program_prints_with_its_clause() -> None:
    worked = work('M_1 = Q("1200 lb ft")\nS = Q("13.14 in3")\nf = timber.bending_stress(M_1, S)', NAMES)
    block = next(b for b in worked.blocks if b.title != "Worked calculation")
    assert block.clause.startswith("NDS 2018, 3.3.2")
    assert ("M", "is M_1") in block.given
    assert worked.values["f"].m_as("psi") == pytest.approx(14400 / 13.14)
    assert "f = f_b = 1,096 psi" in _text(worked)


def test_metric_stays_metric() -> None:
    worked = work('q = Q("2 kN/m")\nL = Q("3 m")\nM = q * L**2 / 8\nV = q * L / 2', NAMES)
    assert _text(worked).endswith("M = q * L ** 2 / 8 = 2.25 kN·m\nV = q * L / 2 = 3 kN")


def test_an_angle_keeps_its_degrees() -> None:
    worked = work('theta = Q("30 deg")\nk = sin(theta)', NAMES)
    assert worked.values["k"] == pytest.approx(0.5)
    assert r"\sin\left( 30\ \text{deg} \right)" in worked.blocks[0].latex[0]


def test_values_of_cells_before_are_known() -> None:
    assert work("b = 2 * a", {"a": Q("3 ft")}).values["b"] == Q("6 ft")


@pytest.mark.parametrize(
    ("cell", "words"),
    [
        ("a = b + 1", "b is not known here"),
        ('L = Q("12 ft")\nL = Q("3 ft")', "set a second time"),
        ('L = Q("12 ft")\nb = L + 3', "ft and a plain number don't go together"),
        ('L = Q("12 ft")\nP = Q("3 lb")\nb = L + P', "don't go together"),
        ("a = 1 if True else 2", "a choice"),
        ("a = 3 > 2", "a comparison"),
        ("a = True and 3", "and / or"),
        ("print(3)", "only lines of the form"),
        ("for i in [1]:\n    a = i", "only lines of the form"),
        ("a, b = 1, 2", "only lines of the form"),
        ("a = b = 2", "only lines of the form"),
        ("a += 1", "not changed in place"),
        ("x = 1 / 0", "it divides by zero"),
        ("x = 2; y = 3", "two assignments stand on one line"),
        ("a = (", "not understood"),
        ("a = 3 % 2", "operator"),
        ("a = 7 // 2", "operator"),
        ("a = [1, 2]", "a list"),
        ("a = 'text'", "is text: write a quantity"),
        ("a = True", "no number"),
        ("a = 1e999", "no finite number"),
        ("a = 1j", "no number"),
        ('a = Q("12 furlong")', "unit"),
        ('L = Q("2 ft")\na = L**2.5', "broken power"),
        ('L = Q("2 ft")\na = 2 ** L', "don't go together"),
        ('L = Q("2 ft")\na = exp(L)', "don't go together"),
        ("a = sqrt(-2)", "no finite number"),
        ('a = 2 * Q("3 ft")', "a line of its own before"),
        ('S = Q("13 in3")\nf = timber.bending_stress(3 * 2, S)', "a line of its own before"),
        ('S = Q("13 in3")\nf = timber.bending_stress(S, S)', "M of bending_stress wants a moment"),
        ('S = Q("13 in3")\nf = timber.bending_stress(5, S)', "M of bending_stress wants a moment, got 5"),
        ("f = timber.bending_stress(5, 6)", "M of bending_stress wants a moment"),
        ('S = Q("13 in3")\nf = timber.bending_stress(S=S)', "also wants M"),
        ("f = timber.nothing(2)", "not known here"),
        ("f = open(2)", "not known here"),
        ("a = timber.x + 1", "a name with a dot"),
        ("a = min(2)", "two or more values"),
        ("sqrt = 2", "can't be a symbol"),
        ("lambda_ = 2", "can't be a symbol"),
        ("a__b = 2", "can't be a symbol"),
        ("E_par = 1\nE_parallel = 2", "would print alike"),
        ('L = Q("2 ft")\na = (2 * L).to("psi")', "don't go together"),
        ('L = Q("2 ft")\na = (2 * L).to("furlong")', "not known"),
        ('a = (2 * 3).to("psi")', "takes no unit"),
        ('L = Q("0.001 mm")\na = L**4', "too small to print"),
        ("a = 2  # " + "long " * 20, "a row holds"),
    ],
)
def test_what_cannot_be_printed_truly_is_refused_with_its_line(cell: str, words: str) -> None:
    with pytest.raises(WorkedError) as found:
        work(cell, NAMES)
    sentence = str(found.value)
    assert words in sentence
    last = len(cell.splitlines())
    assert sentence.startswith((f"line {last} (", "line 1 ("))
    assert "\n" not in sentence


def test_an_array_is_refused() -> None:
    with pytest.raises(WorkedError, match="an array of numbers"):
        work("b = 2 * a", {"a": np.array([1.0, 2.0])})


def test_a_refused_cell_sets_nothing() -> None:
    names = dict(NAMES)
    with pytest.raises(WorkedError):
        work("a = 2\nb = c", names)
    assert names == NAMES


# ---------------------------------------------------------------------------------------------------------
# Generated lines, each printed one worked out again here from its plain text by Python and pint alone

UNITS = (
    *("ft", "in", "lb", "kip", "psi", "psf", "ksf", "plf", "in2", "in3", "in4", "kip-ft", "yd3", "in/yr"),
    *("kN", "mm", "cm", "kN/m", "MPa", "GPa", "N-m", "deg", ""),
)
_WORDS = {"lb·ft": "lbf*ft", "lb·in": "lbf*in", "kN·m": "kN*m", "N·m": "N*m", "°": "degree"}


class _Generator:
    def __init__(self, seed: int) -> None:
        self.random = random.Random(seed)

    def cell(self) -> str:
        lines, names = [], {}
        for i in range(self.random.randint(2, 4)):
            unit = self.random.choice(UNITS)
            number = round(
                self.random.choice([1, 10, 1000]) * self.random.uniform(0.1, 9.9), self.random.randint(0, 3)
            )
            number = number or 1
            name = f"{self.random.choice('abdhkwLPMSVEI')}_{i}"
            names[name] = unit
            lines.append(f'{name} = Q("{number:.9g} {unit}")' if unit else f"{name} = {number:.9g}")
        lines.append(f"x = {self.sum(list(names), names)}")
        return "\n".join(lines)

    def sum(self, names, units) -> str:
        first = self.product(names, units)
        if self.random.random() < 0.5:
            return first
        sign, like = self.random.choice("+-"), self.random.choice(["2", "0.5", "1.25", "12"])
        return (
            f"{first} {sign} {like} * ({first})"
            if self.random.random() < 0.6
            else f"({first}) {sign} ({first}) / {like}"
        )

    def product(self, names, units) -> str:
        word = self.factor(names, units)
        for _ in range(self.random.randint(0, 3)):
            word += f" {self.random.choice('**/')} {self.factor(names, units)}"
        return word

    def factor(self, names, units) -> str:
        name = self.random.choice(names)
        plain = units[name] in ("", "deg")
        kind = self.random.random()
        if kind < 0.4:
            return name
        if kind < 0.55:
            return f"{name}**{self.random.choice([2, 3])}"
        if kind < 0.65:
            return self.random.choice(["2", "3.5", "0.75", "384", "1.15"])
        if kind < 0.75:
            return f"({name} + {self.random.choice(['2', '0.5'])} * {name})"
        if kind < 0.85:
            return (
                f"max({name}, 1.5 * {name})"
                if self.random.random() < 0.5
                else f"min({name}, {name} / 3, 2 * {name})"
            )
        if kind < 0.9:
            return f"abs(-{name})"
        if kind < 0.95:
            return f"sqrt({name}**2)"
        return (
            f"{self.random.choice(['sin', 'cos', 'exp', 'arctan'])}({name} / (2 * {name}))"
            if not plain
            else f"cos({name})"
        )


def _apart(given: str) -> pint.Quantity:
    """A printed number with its unit, read by pint."""
    number, _, unit = given.replace(",", "").replace("−", "-").partition(" ")
    if unit.startswith("× 10"):
        power, _, unit = unit[4:].partition(" ")
        number += "e" + power.translate(str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789"))
    if number.endswith("°"):
        number, unit = number[:-1], "degree"
    for word, plain in _WORDS.items():
        unit = unit.replace(word, plain)
    lowered = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")
    unit = re.sub(r"[⁻⁰¹²³⁴-⁹]+", lambda m: "**" + m[0].translate(lowered), unit.replace("·", "*"))
    return Quantity(float(number), re.sub(r"(?<![a-z])lb(?![a-z])", "lbf", unit))


@pytest.mark.parametrize("seed", range(13))
def test_generated_lines_print_what_they_compute(seed: int) -> None:
    generate = _Generator(seed)
    taken = refused = 0
    for _ in range(100):
        cell = generate.cell()
        try:
            worked = work(cell, NAMES)
        except WorkedError as error:
            refused += "no finite number" not in str(error) and "too small" not in str(error)
            continue
        taken += 1
        rows = [row for block in worked.blocks for row in block.alt.splitlines()]
        assert len(rows) == len(cell.splitlines()), cell
        given = {row.split(" = ")[0]: _apart(row.split(" = ")[-1]) for row in rows}
        source = cell.splitlines()[-1].partition(" = ")[2]
        own = _inputs(cell)
        for name, value in own.items():
            assert given[name].check(value.dimensionality)
            assert given[name].m_as(value.units) == pytest.approx(value.magnitude, rel=5.1e-4)
        found = eval(
            source,
            {
                "max": _most,
                "min": _least,
                "sqrt": np.sqrt,
                "sin": np.sin,
                "cos": np.cos,
                "exp": np.exp,
                "arctan": np.arctan,
                "abs": abs,
            },
            own,
        )
        found = found if isinstance(found, pint.Quantity) else Quantity(found, "")
        assert found.dimensionality == given["x"].dimensionality, cell
        one, two = (float(q.to_base_units().magnitude) for q in (found, given["x"]))
        assert math.isclose(one, two, rel_tol=5.1e-4, abs_tol=1e-9), (cell, rows)
    assert taken >= 95 * (taken + refused) / 100, (taken, refused)


def _inputs(cell: str) -> dict[str, pint.Quantity]:
    """The inputs of a generated cell, read here: number and unit word."""
    found = {}
    for line in cell.splitlines()[:-1]:
        name, given = line.split(" = ")
        number, _, unit = given.removeprefix('Q("').removesuffix('")').partition(" ")
        words = {"lb": "lbf", "deg": "degree", "in2": "in**2", "in3": "in**3", "in4": "in**4"}
        words |= {"yd3": "yd**3", "kip-ft": "kip*ft", "N-m": "N*m", "in/yr": "in/year"}
        found[name] = Quantity(float(number), words.get(unit, unit))
    return found


def _most(*values):
    return max(values)


def _least(*values):
    return min(values)


def test_a_formula_of_plain_numbers_gives_its_unit_under_a_name_of_ones_own():
    """F_e along the grain is 11200 G (NDS 2018, Table 12.3.3): G has no unit, the result has psi."""
    from bolewright.fasteners import dowel_bearing_parallel

    done = work(
        "F_em = dowel_bearing_parallel(G)", {"G": 0.5, "dowel_bearing_parallel": dowel_bearing_parallel}
    )
    assert done.values["F_em"].m_as("psi") == 5600


@pytest.mark.parametrize(
    ("cell", "true", "false"),
    [
        (
            'E_min_p = Q("440000 psi")\nl_e = Q("90 in")\nd = Q("5.5 in")\n'
            "F_cE = timber.critical_buckling_compression(E_min_p, l_e, d)",
            r"\cdot",
            "+",
        ),
        ('a = Q("3 ft")\nb = 2 * a * a', r"\cdot", "+"),
        ('E = Q("440000 psi")', "psi", "psf"),
    ],
)
def test_a_false_print_is_refused(monkeypatch: pytest.MonkeyPatch, cell: str, true: str, false: str) -> None:
    """A formula that is called, a line of one's own, an input: each is read back from its print (NDS 2018, 3.7.1.5)."""
    names = {"timber": timber, "Q": Q}
    work(cell, names)
    printed = tex.aligned
    monkeypatch.setattr(tex, "aligned", lambda rows: printed(rows).replace(true, false, 1))
    with pytest.raises(WorkedError, match=rf"line {cell.count(chr(10)) + 1} "):
        work(cell, names)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("x = L + 1", "ft and a plain number don't go together"),
        ("x = max(L, 3)", "a plain number and ft don't go together"),
        ('x = (L * w).to("psi")', "ft·plf and psi don't go together"),
        ("x = sin(L)", "ft and rad don't go together"),
        ("x = sqrt(L) + 1", "ft⁰⋅⁵ and a plain number don't go together"),
        ("x = L / 0", "it divides by zero"),
    ],
)
def test_units_that_do_not_go_together_are_named_as_a_builder_writes_them(line, said):
    with pytest.raises(WorkedError) as found:
        work(line, {"L": Q("12 ft"), "w": Q("40 plf")})
    assert str(found.value).endswith(f"{said}.")


def test_the_formula_of_the_grammar_page_works(monkeypatch):
    """What the page shows is run as it stands: a formula of one's own, and psi from M / S of quantities."""
    page = inspect.cleandoc(grammar.__doc__ or "")
    source = textwrap.dedent(page.split("::\n\n", 1)[1])
    file = linecache_file("own.py", source, monkeypatch)
    own: dict[str, object] = {}
    exec(compile(source, file, "exec", dont_inherit=True), own)
    try:
        done = work(
            "M_e = end_moment(P, e)\nf = M_e / S", own | {"P": Q("500 lb"), "e": Q("6 in"), "S": Q("30 in3")}
        )
    finally:
        REGISTRY.pop("end_moment", None)
    assert done.values["M_e"].m_as("lbf*inch") == 3000  # by hand
    assert f"{done.values['f']:.0f}" == "100 psi"


def linecache_file(name, source, monkeypatch):
    """A source that inspect can read, as a notebook keeps its cells."""
    monkeypatch.setitem(linecache.cache, name, (len(source), None, source.splitlines(True), name))
    return name


@pytest.mark.parametrize(
    "cell",
    [
        'A_1 = Q("1000.1 lb")\nA_2 = Q("1000.04 lb")\nd = A_1 - A_2',  # would print 1,000 lb - 1,000 lb = 0.06 lb
        "a = 1.00004\nb = a - 1",  # 1.000 - 1 = 4e-5
        "a = 1.00004\nb = 1 / (a - 1)",
        'a = Q("89.996 deg")\nb = tan(a)',
    ],
)
def test_a_result_that_its_printed_numbers_do_not_give_is_refused(cell: str) -> None:
    """A reader with a calculator finds 0 (or no number) from four figures."""
    with pytest.raises(WorkedError) as found:
        work(cell, NAMES)
    line = cell.splitlines()[-1]
    assert str(found.value).startswith(f"line {cell.count(chr(10)) + 1} ({line}): the numbers in it, rounded")


@pytest.mark.parametrize("cell", ["a = 2\nb = a - 2", 'L = Q("12.5 ft")\nx = Q("12.25 ft")\nb = L - x'])
def test_a_difference_that_its_printed_numbers_give_is_taken(cell: str) -> None:
    assert "b" in work(cell, NAMES).values


@pytest.mark.parametrize(
    ("given", "shown"),
    [
        ('Q("1000.1 lb")', "1,000.1 lb"),
        ('Q("-1000.04 lb")', "-1,000.04 lb"),
        ("1.00004", "1.00004"),
        ('Q("7\' 2 11/16\\"")', "86.6875 in"),
        ('Q("30.12345 deg")', "30.12345°"),
        ('Q("0.3333333 in")', "0.3333333 in"),
        ('Q("1/3 in")', "0.3333 in"),  # no end
        ('Q("12 ft")', "12 ft"),
    ],
)
def test_an_input_prints_the_digits_that_were_typed(given: str, shown: str) -> None:
    assert _text(work(f"a = {given}", NAMES)) == f"a = {shown}"


def test_a_text_is_told_how_a_quantity_is_written():
    with pytest.raises(WorkedError, match=r"'600 lb' is text: write a quantity as Q\(\"600 lb\"\)"):
        work('P = "600 lb"', {})


@pytest.mark.parametrize(
    ("given", "printed"), [("0.15 in/yr", "r = e / t = 0.15 in/yr"), ("4 mm/yr", "r = e / t = 4 mm/yr")]
)
def test_growth_keeps_its_unit(given: str, printed: str) -> None:
    """A year's ring is a speed by its dimension, and in mph it was too small to print."""
    worked = work(f'g = Q("{given}")\nt = Q("10 years")\ne = g * t\nr = e / t', NAMES)
    assert _text(worked).splitlines()[-1] == printed
    assert worked.values["e"].m_as("inch") == pytest.approx(10 * Q(given).m_as("inch/year"))


def test_nought_goes_with_every_unit() -> None:
    worked = work('M = Q("60 lb")\nR = M - 2 * M\nU = max(R, 0)\nD = min(0, R)', NAMES)
    assert worked.values["U"].m_as("lbf") == 0
    assert worked.values["D"].m_as("lbf") == -60
    with pytest.raises(WorkedError):
        work('M = Q("60 lb")\nU = max(M, 1)', NAMES)


def test_what_to_do_instead_stands_behind_the_reason() -> None:
    with pytest.raises(
        WorkedError, match="a name with a dot can't be printed; name the value on a line before"
    ):
        work('a = Q("3 ft")\nb = a.magnitude', NAMES)


@pytest.mark.parametrize(
    ("unit", "shown"),
    [
        *(
            (unit, unit)
            for unit in ("kip", "ksf", "klf", "cm", "GPa", "Pa", "N/m", "yd", "ft/s", "km/h", "mm/yr")
        ),
        *(
            ("kip-ft", "kip·ft"),
            ("kip-in", "kip·in"),
            ("N-m", "N·m"),
            ("N-mm", "N·mm"),
            ("yd3", "yd³"),
            ("cm4", "cm⁴"),
        ),
    ],
)
def test_the_unit_asked_for_is_the_unit_that_prints(unit: str, shown: str) -> None:
    rows = _text(work(f'a = Q("3 {unit}")\nb = (2 * a).to("{unit}")', NAMES)).splitlines()
    assert rows == [f"a = 3 {shown}", f"b = 2 * a = 6 {shown}"]


def test_a_moment_asked_in_kip_feet() -> None:
    rows = _text(work('P = Q("3200 lb")\ne = Q("30 in")\nM = (P * e).to("kip-ft")', NAMES)).splitlines()
    assert rows[-1] == "M = P * e = 8 kip·ft"  # 96,000 lb in / 12,000


def test_a_value_made_of_itself_is_refused_in_words() -> None:
    with pytest.raises(WorkedError, match="P stands on both sides; give the new value a name of its own"):
        work("P = P / 2", {"P": Q("300 lb")})
