"""What an inspector needs to follow a sheet: symbols introduced, statics that add up, failures loud, clauses."""

import math
import re

import numpy as np
import pytest
from pypdf import PdfReader

from bolewright.documents.content import Outcome
from bolewright.formulas import REGISTRY
from bolewright.paths import shipped
from bolewright.platform.limit_states.check import Topic
from bolewright.rendering.blocks import Equations, Table
from bolewright.rendering.body import body_of
from bolewright.rendering.meanings import meaning
from bolewright.rendering.printed import read_block
from bolewright.rendering.wording import plain
from bolewright.sheets.clauses import clause_lines, grouped
from bolewright.sheets.governing import governing_of
from bolewright.sheets.lateral_cases import governing_pushes
from bolewright.sheets.lateral_path import lateral_blocks
from bolewright.sheets.opening import results_of
from bolewright.sheets.package import make_package
from bolewright.sheets.printing import Page, printed
from bolewright.sheets.statics import acting_on, gathered, statics_blocks
from bolewright.sheets.symbols import symbol_rows
from bolewright.status import Status

SHEETS = shipped("calcsheets")
FILES = ["lookout.toml", "lookout_too_small.toml", "round_the_trunk.toml"]


@pytest.fixture(scope="module", params=FILES)
def results(request):
    return results_of(SHEETS / request.param)


def test_every_symbol_of_a_sheet_is_introduced_or_worked_out(results):
    for topic in Topic:
        page = Page()
        known: set[str] = set()
        for check in governing_of(results.of(topic)):
            for block in [*statics_blocks(results, check, page), *printed(check.steps, page)]:
                if not isinstance(block, Equations):
                    continue
                known |= {symbol for symbols, _ in block.given for symbol in symbols.split(", ")}
                step = next(s for s in page.steps if s[0] == block.formula)
                missing = {plain for plain in _arguments(block) if plain not in known}
                known |= _results(block)
                assert not missing, (topic, check.part, check.limit_state, block.title, missing, step)


def _arguments(block):
    return [plain(symbol) for symbol in REGISTRY[block.formula].parameters]


def _results(block):
    assert read_block(block.latex[0])
    return {plain(line.symbol) for line in body_of(REGISTRY[block.formula].body).lines}


def test_the_load_table_adds_up_to_the_moment_that_is_used(results):
    checks = [c for t in (Topic.JOISTS, Topic.BEAMS) for c in governing_of(results.of(t)) if c.effect]
    quantities = {c.effect.quantity.split()[0] for c in checks}
    assert {"moment", "reaction", "shear"} <= quantities
    for check in checks:
        table = next((b for b in statics_blocks(results, check) if isinstance(b, Table)), None)
        if table is None or "total" not in table.rows[-1]:
            continue
        for column in [i for i, name in enumerate(table.columns) if "(lb" in name or name == "pounds"]:
            # a couple has no pounds; it is told in lb·in
            parts = [_number(row[column]) for row in table.rows[:-1] if "lb·in" not in str(row[column])]
            total = _number(table.rows[-1][column])
            assert math.fsum(parts) == pytest.approx(total, rel=6e-4, abs=0.06 * len(parts) + 0.5)


def _number(text):
    return float(str(text).replace(",", "") or 0)


def test_loads_taken_together_have_the_same_sum_and_moment(results):
    path = results.path
    for member in path.layout.members:
        acting = acting_on(path.effects[member.mark], path.dead + path.live)
        rows = gathered(acting, member.line.length / 3)
        assert sum(x.pounds for x in rows) == pytest.approx(sum(x.pounds for x in acting))
        for place in (0.0, member.line.length):
            moment = sum(x.about(place) for x in acting)
            assert sum(x.about(place) for x in rows) == pytest.approx(moment)


def test_a_push_on_a_guard_stands_in_the_load_table_as_a_couple():
    """R301.5: 200 lb at the top of a post turns the block it stands on; by hand as by the checks."""
    results = results_of(SHEETS / "round_the_trunk.toml")
    checks = [c for c in results.checks if c.part in ("BA1", "BD1") and c.effect and "guard" in c.combination]
    assert {c.effect.quantity.split()[0] for c in checks} >= {"moment", "shear", "reaction"}
    for check in checks:
        table = next(b for b in statics_blocks(results, check) if isinstance(b, Table))
        couples = [row for row in table.rows if "couple" in row[0]]
        assert couples
        assert all(row[2].endswith("lb·in") for row in couples)
        # 36 in and more of guard over the middle of the block
        assert any(abs(_number(row[4])) > 200 * 36 for row in couples)


def test_movements_in_the_table_balance_the_push(results):
    """The supports push back what is applied: the table's own numbers, put through its own sentences."""
    lateral = results.lateral
    if not governing_pushes(results):
        assert lateral.loose or not lateral.states
        return
    tables = [block for block in lateral_blocks(results) if isinstance(block, Table)]
    pushes = next(one for one in tables if one.caption.startswith("Movement of the deck in the lateral"))
    by_push = [one for one in tables if one.caption.startswith("What overturning pushes the deck")]
    added = next(one for one in tables if one.caption.startswith("What lateral force adds"))
    assert len(pushes.rows) == len(governing_pushes(results))
    assert len(added.rows) == len(pushes.rows) * len(lateral.frames)
    for case, number in governing_pushes(results):
        state = lateral.every[number]
        F_x, F_y = lateral.cases.load[:2, case]
        axes = [spring.axes for spring in state.springs]
        by_knees = sum(s.axes.T @ state.push[i, :, case] for i, s in enumerate(state.springs))
        F_x, F_y = F_x + by_knees[0], F_y + by_knees[1]
        row = pushes.rows[governing_pushes(results).index((case, number))]
        said = np.array([_number(cell) for cell in row[3:5]])
        for more in (r for table in by_push for r in table.rows if r[0] == row[0]):
            said += [_number(cell) for cell in more[1:3]]
        assert said == pytest.approx([F_x, F_y], rel=1e-3, abs=0.1)
        back = sum(state.force[i, a, case] * axes[i][a][0] for i in range(len(axes)) for a in (0, 1))
        assert back == pytest.approx(F_x, abs=1e-6 * max(1.0, abs(F_x)) + 1e-4)
        back = sum(state.force[i, a, case] * axes[i][a][1] for i in range(len(axes)) for a in (0, 1))
        assert back == pytest.approx(F_y, abs=1e-6 * max(1.0, abs(F_y)) + 1e-4)


@pytest.mark.parametrize(
    ("clauses", "lines"),
    [
        (["NDS 2018, 3.3.2.1", "NDS 2018, 3.10.2", "NDS 2018, 3.3.2.1"], ("NDS 2018: 3.3.2.1; 3.10.2",)),
        (["AWC TR12 (dowel moment), NDS 2018, 12.3.7"], ("NDS 2018: 12.3.7", "AWC TR12")),
        (["ASTM D2555, D245 (5 % exclusion)"], ("ASTM D245", "ASTM D2555")),
        (
            ["Statics", "definition", "Geometry (stiff plate in plan)"],
            ("Statics, geometry and elastic theory",),
        ),
        (["Judgement: give of the ground"], ("Judgement, engineer to confirm: give of the ground",)),
    ],
)
def test_clauses_stand_under_their_documents(clauses, lines):
    assert clause_lines(clauses) == lines


def test_every_clause_of_the_sheets_finds_its_document(results):
    for check in results.checks:
        clauses = [step.formula.clause for step in check.steps]
        for name, places in grouped(clauses).items():
            assert not any(place.startswith(",") or "(" in place[:1] for place in places), (name, places)


@pytest.mark.parametrize(
    ("outcome", "status", "words"),
    [
        (Outcome(23, 4, 90), Status.FAILS, "23 of 117 checks FAIL, 4 are OPEN, 90 hold"),
        (Outcome(0, 1, 9), Status.NOT_CHECKED, "No check fails of 10, 1 is OPEN, 9 hold"),
        (Outcome(0, 0, 9), Status.PASSES, "No check fails of 9, none is open"),
    ],
)
def test_outcome(outcome, status, words):
    assert (outcome.status, outcome.words) == (status, words)


@pytest.fixture(scope="module")
def failing(tmp_path_factory):
    out = tmp_path_factory.mktemp("failing")
    made = make_package(SHEETS / "lookout_too_small.toml", out)
    return out, made.results


def test_a_failing_package_says_so_on_every_page(failing):
    out, results = failing
    reader = PdfReader(out / "package.pdf")
    fails = f"{results.count(Status.FAILS)} of {len(results.checks)} checks FAIL"
    for page in reader.pages:
        text = re.sub(r"\s+", " ", page.extract_text())
        assert fails in text
        assert "Not approved by anyone" in text
    html = (out / "package.html").read_text()
    assert html.count(fails) == 1 + html.count("<article")
    assert "Do not build from these sheets" in html


def test_the_package_reads_without_marks_of_the_program(failing):
    out, _ = failing
    text = "\n".join(page.extract_text() for page in PdfReader(out / "package.pdf").pages)
    assert not re.search(r"\b(nan|NaN|inf|None|dimensionless|Quantity)\b|-0\.0 %|\bany\n", text)
    assert not re.search(r"\b[A-Za-z]'?_[A-Za-z]", text), "a symbol typed with an underscore"


def test_the_last_sheet_names_the_documents_and_is_in_the_bookmarks(failing):
    reader = PdfReader(failing[0] / "package.pdf")
    titles = [entry.title for entry in reader.outline if not isinstance(entry, list)]
    assert titles[-2].endswith("Symbols, clauses and documents")
    assert titles[-1] == "Annex to the brief"  # its long rows, behind the sheets
    last = re.sub(r"\s+", " ", " ".join(page.extract_text() for page in reader.pages[-9:]))
    assert "National Design Specification for Wood Construction, 2018 edition" in last
    assert reader.metadata.title.startswith("Bur oak lookout, too small")


def test_the_list_of_symbols_has_every_symbol_that_formulas_take(results):
    formulas = {step.formula.name: step.formula for check in results.checks for step in check.steps}
    rows = {(symbol, unit): words for symbol, unit, words in symbol_rows(formulas.values())}
    assert len(formulas) > 30
    for formula in formulas.values():
        for symbol, unit in formula.parameters.items():
            assert meaning(formula, symbol) in rows[plain(symbol), unit.label or "–"]


@pytest.mark.parametrize(
    ("symbol", "value", "above"),
    [
        ("f_b", 976.4321, "f_b"),
        ("demand", 976.4321, "f_b"),
        ("F_b", 750.0, None),  # a reference value as large as F_b* is not F_b*
        ("capacity", 750.0, "F_b_star"),
        ("C_D", 1.0, None),
        ("M", -976.4321, "f_b"),
        ("w", 1.0 + 2e-16, None),  # 0.6 / 0.6 is not C_L
        ("u_x", 976.4321, None),  # the deck's movement is given, though a support moves as much
    ],
)
def test_a_value_is_told_to_stand_above_only_where_it_does(symbol, value, above):
    page = Page(found=[("f_b", 976.4321), ("F_b_star", 750.0), ("C_L", 1.0)])
    assert page.above(symbol, value) == above
