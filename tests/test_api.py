"""The public door: one import, quantities in and out, sentences for what is wrong, types that hold."""

import json
import math
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

import bolewright
from bolewright import Q, ReadError, api_page, check, fasteners, ground, mechanics, open_project, timber, tree
from bolewright.rendering.index import load_all

LOOKOUT = Path(__file__).parents[0] / "projects" / "without_guard" / "lookout.toml"


def test_the_door_is_small_and_lists_itself() -> None:
    assert dir(bolewright) == sorted([*bolewright.__all__, "__version__"])
    assert all(hasattr(bolewright, name) for name in dir(bolewright))
    assert len(bolewright.__all__) <= 20


def test_an_unknown_name_is_refused_as_python_does() -> None:
    with pytest.raises(AttributeError, match="no attribute 'nothing_of_this_name'"):
        bolewright.nothing_of_this_name  # noqa: B018


def test_an_engineering_function_is_found_without_its_subject() -> None:
    assert bolewright.bending_stress is timber.bending_stress


@pytest.mark.parametrize("room", [timber, fasteners, tree, ground, mechanics], ids=lambda room: room.__name__)
def test_every_formula_of_a_subject_is_at_its_door(room) -> None:
    own = {f.name for f in load_all() if f.module.startswith(room.__name__ + ".")}
    assert own <= set(room.__all__)
    assert room.__all__ == sorted(
        room.__all__, key=lambda name: (not name.isupper(), name)
    )  # constants first
    assert all(getattr(room, name).__doc__ for name in room.__all__)


def test_quantities_go_in_and_come_out() -> None:
    # NDS Supplement 2018 Table 1B: S_xx of a 2x8 is 13.14 in3; 1,000 lb ft on it is 12,000 / 13.14 = 913 psi
    S = timber.section_modulus(Q("1.5 in"), Q("7.25 in"))
    f_b = timber.bending_stress(Q("1000 lb ft"), S)
    assert f_b.m_as("psi") == pytest.approx(12000 / 13.14, rel=1e-3)
    assert f_b.to("MPa").magnitude == pytest.approx(6.896e-3 * 12000 / 13.14, rel=1e-3)


def test_arrays_of_quantities_go_in_and_come_out() -> None:
    depths = np.array([5.5, 7.25, 9.25]) * Q("1 in")
    S = timber.section_modulus(Q("1.5 in"), depths)
    # NDS Supplement 2018 Table 1B, 2x6, 2x8, 2x10
    assert S.m_as("in**3") == pytest.approx([7.563, 13.14, 21.39], abs=0.005)


def test_a_wrong_dimension_is_named() -> None:
    with pytest.raises(bolewright.DimensionError, match="M of bending_stress wants a moment, got 40 psf"):
        timber.bending_stress(Q("40 psf"), Q("13 in3"))


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (
            ("1000 lb ft", 13.0),
            "M of bending_stress wants a moment, got text, '1000 lb ft': write it as a quantity",
        ),
        ((Q("1 lb ft"), "13 in3"), "S of bending_stress wants a section modulus or volume, got text"),
        (
            ([Q("1 lb ft"), Q("2 lb ft")], Q("13 in3")),
            r"got a list of 2: give several as one array, such as numpy",
        ),
        (([1.0, 2.0], 13.0), "got a list of 2: give several as one array"),
        ((None, 13.0), "M of bending_stress wants a moment, got None"),
        ((np.array([1.0, 2.0, 3.0]), Q("13 in3")), "wants a moment, got an array of 3 without a unit"),
    ],
)
def test_what_a_formula_does_not_take_gets_one_sentence(given, said):
    with pytest.raises(bolewright.DimensionError, match=said) as found:
        timber.bending_stress(*given)
    assert "\n" not in str(found.value)


def test_a_selector_refuses_text_in_place_of_a_length():
    """Text that names a case is its own business: only where a length is meant it is refused."""
    with pytest.raises(
        bolewright.DimensionError, match="d of timber_size_factor wants a length, got text, '12 in'"
    ):
        timber.timber_size_factor("12 in")
    assert pytest.approx(0.162) == fasteners.nail("16d").D  # NDS 2018, Table L4


def test_several_as_the_sentence_says():
    many = timber.bending_stress(np.array([1, 2]) * Q("1 lb·in"), Q("13 in3"))
    assert many.m_as("psi") == pytest.approx([1 / 13, 2 / 13])


@pytest.mark.parametrize(
    ("given", "inches"),
    [("7' 2 1/2\"", 86.5), ("12 ft", 144), ("2200 mm", 2200 / 25.4), ("3/4 in", 0.75), ("-2 in", -2)],
)
def test_lengths_as_builders_write_them(given: str, inches: float) -> None:
    assert Q(given).m_as("inch") == pytest.approx(inches, rel=1e-12)


@pytest.mark.parametrize(
    ("given", "pound_inches"),
    [
        ("100 ft-lbs", 1200),
        ("100 ft lb", 1200),
        ("100 lbf*ft", 1200),
        ("100 in-lb", 100),
        ("2 k-ft", 24000),
        ("1 kN*m", 1000 / 4.4482216152605 / 0.0254),  # 1 lbf = 4.4482216152605 N (NIST SP 811, Appendix B)
        ("1000 N m", 1000 / 4.4482216152605 / 0.0254),
    ],
)
def test_moments_as_builders_write_them(given: str, pound_inches: float) -> None:
    assert Q(given).m_as("lbf*inch") == pytest.approx(pound_inches, rel=1e-9)


@pytest.mark.parametrize("given", ["7 ft-in", "3 lb lb", "2 lb-psf"])
def test_two_words_that_are_no_moment_are_named(given: str) -> None:
    with pytest.raises(ReadError, match=f"{given.split(' ', 1)[1]}.*write one such as"):
        Q(given)


def test_a_rounded_quantity_keeps_its_short_unit() -> None:
    assert f"{Q('3 kip') / Q('4 in2') * 1:.2f}".startswith("0.75 kip")
    assert f"{(Q('3 kip') / Q('4 in2')).to('psi'):.0f}" == "750 psi"


def test_a_project_shows_itself_in_a_line() -> None:
    opened = open_project(LOOKOUT)
    checked = check(opened)
    assert "lookout.toml" in repr(opened)
    assert f"{checked.count('fails')} fail" in repr(checked)
    assert max(len(repr(opened)), len(repr(checked))) < 120


def test_a_number_and_a_unit_may_be_given_apart() -> None:
    assert Q(12, "ft") == Q("12 ft")


@pytest.mark.parametrize(
    "given",
    [
        "",
        " ",
        "40",
        "ft",
        "nan ft",
        "inf ft",
        "1e400 ft",
        "9**9**6 ft",
        "40 furlongs",
        "2 ton",
        "1,5 ft",
        40,
        None,
        True,
    ],
)
def test_what_is_no_quantity_gets_one_sentence(given: object) -> None:
    with pytest.raises(ReadError) as found:
        Q(given)
    assert "\n" not in str(found.value)


@pytest.mark.parametrize(
    ("number", "unit"), [(math.nan, "ft"), (math.inf, "ft"), (1, "xyz"), ("1", "ft"), (True, "ft")]
)
def test_a_number_apart_that_is_none_gets_one_sentence(number: object, unit: str) -> None:
    with pytest.raises(ReadError):
        Q(number, unit)


def test_a_project_is_opened_and_checked() -> None:
    opened = open_project(LOOKOUT)
    checked = check(opened)
    records = checked.records
    assert {record.status for record in records} <= {"passes", "fails", "not checked"}
    assert sum(checked.count(status) for status in ("passes", "fails", "not checked")) == len(records)
    first = next(record for record in records if record.status != "not checked")
    assert first.demand is not None
    assert (first.demand / first.capacity).m_as("") == pytest.approx(first.ratio)
    assert json.loads(checked.to_json()) == checked.to_dict()
    assert check(str(LOOKOUT)).to_json() == checked.to_json()


def test_a_faulty_project_gets_its_sentences(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(LOOKOUT.read_text(encoding="utf-8").replace('live = "', 'live = "x'), encoding="utf-8")
    with pytest.raises(bolewright.ProjectError, match=r"mine.toml"):
        check(path)
    with pytest.raises(bolewright.ProjectError, match="There is no file"):
        open_project(tmp_path / "nowhere.toml")


def test_records_as_a_data_frame_or_a_sentence() -> None:
    checked = check(LOOKOUT)
    try:
        import pandas  # noqa: F401
    except ImportError:
        with pytest.raises(ImportError, match="wants pandas"):
            checked.to_frame()
    else:
        assert len(checked.to_frame()) == len(checked.records)


CLIENT = """
from pathlib import Path

from typing import Any

import numpy as np

from bolewright import Q, Checked, CheckRecord, OpenProject, check, formula, open_part, open_project, package
from bolewright import mechanics, results_schema, timber
from bolewright.timber import joist_spans
from bolewright.units import Force, Length, Moment

opened: OpenProject = open_project("mine.toml")
checked: Checked = check(opened)
worst: float = max(record.ratio for record in checked)
first: CheckRecord = checked.records[0]
text: str = checked.to_json()
schema: dict[str, Any] = results_schema()
files: tuple[Path, ...] = package("mine.toml", "build")
stress = timber.bending_stress(Q("1000 lb ft"), Q("13.14 in3")).to("MPa")
depth = timber.section_modulus(1.5, np.array([5.5, 7.25]))  # numbers and arrays, too


@formula("statics")
def end_moment(P: Force, e: Length) -> Moment:
    M: Moment = P * e
    return M


part = open_part("beam", span="10 ft")
simple = mechanics.Beam(Q("12 ft"), (0, Q("12 ft")), Q("1 ksi") * Q("100000 in4"))
solved = mechanics.solve(simple, [(mechanics.PointLoad(Q("6 ft")), Q("1000 lb"))])
sagging: float = solved.sagging.value
length: float = simple.length
nodes = (mechanics.Node("wall", 0, 0), mechanics.Node("tip", Q("8 ft"), 0))
bar = mechanics.Profile(E=Q("1200 ksi"), A=Q("10 in2"), I_z=10)
arm = mechanics.Member("arm", "wall", "tip", bar)
frame = mechanics.Frame(nodes, (arm,), (mechanics.Support("wall", mechanics.ALL),), plane=True)
moved = mechanics.analyse(frame, [[mechanics.NodeLoad("tip", (0, Q("-10 lb"), 0))]])
pine = timber.OwnValues(F_b=Q("1000 psi"), F_v=175, F_c_perp=400, E=1.2e6, source="ours")
loads = timber.SpanLoads(live=Q("60 psf"))
ours = end_moment(Q("500 lb"), Q("6 in"))
wrong: int = checked.to_json()
timber.bending_stress("1000 lb ft", 13.14)
timber.bending_stress(12000.0)
timber.bending_stress(12000.0, S=13.14, b=1.5)
end_moment([Q("500 lb")], 6.0)
mechanics.Node("tip", "8 ft", 0)
"""
WRONG = {  # what is wrong in it, by its code
    'variable has type "int"': 1,
    'has incompatible type "str"': 2,
    'Missing positional argument "S"': 1,
    'Unexpected keyword argument "b"': 1,
    'incompatible type "list[': 1,
}


def test_a_project_that_uses_the_door_type_checks(tmp_path: Path) -> None:
    (tmp_path / "client.py").write_text(CLIENT, encoding="utf-8")
    (tmp_path / "mypy.ini").write_text("[mypy]\n", encoding="utf-8")  # a user's own, not this repository's
    library = Path(bolewright.__file__).parents[1]
    done = subprocess.run(
        [
            sys.executable,
            "-m",
            "mypy",
            "--strict",
            "--follow-imports=silent",
            "--ignore-missing-imports",
            "client.py",
        ],
        cwd=tmp_path,
        env={"MYPYPATH": str(library), "PATH": ""},
        capture_output=True,
        text=True,
        check=False,
    )
    found = [line for line in done.stdout.splitlines() if "error" in line and line.startswith("client.py")]
    assert {said: sum(said in line for line in found) for said in WRONG} == WRONG, done.stdout
    assert len(found) == sum(WRONG.values()), done.stdout


def test_one_page_lists_the_door_and_every_function_with_its_clause() -> None:
    for made in (api_page.text(), api_page.html()):
        for name in bolewright.__all__:
            assert name in made
        for subject in api_page.SUBJECTS:
            for entry in api_page.subject(subject):
                assert entry.name in made
                assert entry.says, entry.name
        assert "Checked.to_json()" in made
        assert "NDS 2018, 3.3.2" in made
        assert ":class:" not in made
    assert "http" not in api_page.html()  # nothing from elsewhere


def test_the_page_is_written_or_says_why_not(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert api_page.main(["--html", "--out", str(tmp_path / "api.html")]) == 0
    assert (tmp_path / "api.html").read_text(encoding="utf-8") == api_page.html()
    assert api_page.main(["--out", str(tmp_path / "no" / "api.txt")]) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_a_joint_of_quantities_is_the_joint_of_numbers() -> None:
    """Members, pattern and distances as a builder writes them: the value of NDS 2018 Table 12A, 1/2 in. bolt."""
    fir, across = fasteners.Wood(Q("38.1 mm"), 0.50), fasteners.Wood(Q("1.5 in"), 0.50, theta=Q("90 deg"))
    bolt = fasteners.bolt(Q("1/2 in"), Q("4.5 in"))
    assert fasteners.lateral_design_value(bolt, fir, fir, tabulated=True).Z_ref == 480.0  # Z parallel
    assert (
        fasteners.lateral_design_value(bolt, fir, across, tabulated=True).Z_ref == 300.0
    )  # Z main perpendicular
    angles = np.array([0.0, 90.0])
    turned = (fasteners.Wood(1.5, 0.50, theta=angles * Q("1 deg")), fasteners.Wood(1.5, 0.50, theta=angles))
    one, other = (fasteners.lateral_design_value(bolt, fir, member).Z_adj for member in turned)
    assert one == pytest.approx(other, rel=1e-12)
    assert fasteners.Pattern(2, spacing=Q("0.1 m")).spacing == pytest.approx(100 / 25.4)
    assert fasteners.Distances(end=Q("4 in")).end == 4.0


@pytest.mark.parametrize(
    ("made", "said"),
    [
        (lambda: fasteners.Wood(Q("3 psi"), 0.5), "thickness of Wood wants a length, got 3 psi"),
        (lambda: fasteners.Wood(1.5, 0.5, theta=Q("3 in")), "theta of Wood wants an angle, got 3 in"),
        (lambda: fasteners.Steel(Q("1/4 in"), F_u=Q("3 in")), "F_u of Steel wants a stress, got 3 in"),
        (lambda: fasteners.Concrete(Q("3 lb")), "thickness of Concrete wants a length, got 3 lb"),
        (lambda: fasteners.Pattern(2, spacing=Q("3 lb")), "spacing of Pattern wants a length, got 3 lb"),
        (lambda: fasteners.Distances(end=Q("3 lb")), "end of Distances wants a length, got 3 lb"),
    ],
)
def test_a_member_of_the_wrong_dimension_is_named(made, said) -> None:
    with pytest.raises(bolewright.DimensionError, match=said):
        made()
