"""The explorer and the lessons without a browser: what the widgets do when they are moved, typed in or clicked."""

import json
import re
import xml.etree.ElementTree as ET
from functools import cache
from pathlib import Path

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project, read_project
from bolewright.platform.results.results import Results, find_results
from bolewright.platform.tracing.tracing import Crowd, Drift, Person, Tracer
from bolewright.platform.tracing.tracing_maps import moment_map, reaction_map
from bolewright.rendering.blocks import Figure
from bolewright.units import ReadError
from bolewright.workbook.explorer import Explorer, reactions_html
from bolewright.workbook.explorer_flow import flow_figure, flows
from bolewright.workbook.explorer_plan import heat_plan, traced_plan
from bolewright.workbook.lessons import Lessons

DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
FILES = [DEMO, *sorted((Path(__file__).parent.parent / "platform" / "arrangements").glob("*.toml"))]
every_platform = pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)


@cache
def results_of(file: Path) -> Results:
    return find_results(read_project(file))


@pytest.fixture
def explorer() -> Explorer:
    return Explorer(results_of(DEMO))


def ask(explorer: Explorer, x: float, y: float) -> None:
    """What the plan's front end does for a click."""
    drag(explorer, (x, y), (x, y))


def drag(explorer: Explorer, press: tuple[float, float], *through: tuple[float, float]) -> None:
    """What the plan's front end does for a drag: one gesture through some places."""
    explorer.plan.gesture += 1
    for at in through:
        explorer.plan.press, explorer.plan.at = list(press), list(at)
        explorer.plan.asked += 1


def test_a_click_moves_the_person_and_is_answered(explorer: Explorer) -> None:
    ask(explorer, 0.0, 40.0)
    assert explorer.plan.answered == explorer.plan.asked
    assert (explorer.fields.fields["x"].value, explorer.fields.fields["y"].value) == ('0"', "3' 4\"")
    assert "T1 63 lb, T2 54 lb, P1 34 lb, P2 29 lb" in explorer.said.value
    assert explorer.plan.at == [0.0, 40.0]


def test_a_click_off_the_deck_goes_to_its_edge(explorer: Explorer) -> None:
    ask(explorer, 0.0, -60.0)
    assert explorer.plan.at == [0.0, 18.0]
    assert explorer.fields.problem.value == ""


def test_a_field_that_can_not_be_read_keeps_the_last_answer_and_what_was_typed(explorer: Explorer) -> None:
    before = explorer.said.value
    explorer.fields.fields["weight"].value = "heavy"
    assert "is not understood" in explorer.fields.notes["weight"].value
    assert explorer.said.value == before
    assert explorer.fields.fields["weight"].value == "heavy"
    explorer.fields.fields["weight"].value = "80 kg"
    assert explorer.fields.notes["weight"].value == ""
    assert "176 lb at" in explorer.said.value
    explorer.fields.fields["x"].value = "40 ft"
    assert "is not on the deck" in explorer.fields.problem.value
    assert explorer.said.value.startswith('<p role="status">176 lb at')


def test_steps_lead_from_the_boards_to_the_ground(explorer: Explorer) -> None:
    ask(explorer, 0.0, 40.0)
    parts = [re.search(r": (\w+)</h3>", explorer.step.value)[1]]
    while not explorer.next.disabled:
        explorer.next.click()
        parts.append(re.search(r": (\w+)</h3>", explorer.step.value)[1])
        assert "<math" in explorer.step.value
    assert parts[0] == "boards"
    assert set(parts) == {"boards", "J2", "J3", "S1", "S2", "C1", "T1", "T2", "P1", "P2"}
    assert explorer.back.disabled is False
    for part, lower in (("J2", "S1"), ("S1", "C1"), ("C1", "P1")):
        assert parts.index(part) < parts.index(lower)


def test_crowd_and_drift_are_followed_too(explorer: Explorer) -> None:
    explorer.fields.kind.value = "a crowd"
    assert isinstance(explorer.trace.burden, Crowd)
    assert explorer.plan.movable is True
    explorer.fields.fields["x1"].value = "nowhere"
    assert "is not understood" in explorer.fields.notes["x1"].value
    explorer.fields.kind.value = "a snow drift"
    explorer.fields.edge.value = 3
    assert isinstance(explorer.trace.burden, Drift)
    assert explorer.plan.movable is False  # its edge and its width have fields for the keyboard
    assert explorer.trace.reactions["T1"] < 0
    explorer.fields.kind.value = "a person"
    assert isinstance(explorer.trace.burden, Person)
    assert explorer.plan.movable is True


def crowd(explorer: Explorer) -> tuple[float, float, float, float]:
    xs, ys = zip(*explorer.trace.burden.corners, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))


def test_a_crowd_is_drawn_from_corner_to_corner_and_taken_along(explorer: Explorer) -> None:
    explorer.fields.kind.value = "a crowd"
    drag(explorer, (-10.0, 30.0), (0.0, 40.0), (20.0, 60.0))  # from below the crowd that lies there at first
    assert crowd(explorer) == (-10.0, 30.0, 20.0, 60.0)
    assert explorer.trace.total == pytest.approx(60 * 30 * 30 / 144)  # 60 psf on 30 in. by 30 in.
    assert explorer.fields.fields["x1"].value == "1' 8\""
    drag(explorer, (0.0, 40.0), (2.0, 41.0), (5.0, 52.0))  # taken inside: it goes along, as large as it was
    assert crowd(explorer) == (-5.0, 42.0, 25.0, 72.0)
    drag(explorer, (0.0, 100.0), (0.0, 100.0))  # a click beside it brings its middle there
    assert crowd(explorer) == (-15.0, 85.0, 15.0, 115.0)
    drag(explorer, (0.0, 100.0), (0.0, 900.0))  # its middle stays on the deck
    assert crowd(explorer) == (-15.0, 119.0, 15.0, 149.0)
    explorer.fields.fields["psf"].value = "100 psf"
    half = explorer.trace.total
    assert half == pytest.approx(100 * 30 * 15 / 144)  # the half of it that is over the deck
    explorer.fields.fields["x0"].value = "somewhere"
    drag(explorer, (0.0, 60.0), (10.0, 70.0))  # what can't be read is replaced by what is drawn
    assert explorer.fields.notes["x0"].value == ""


def test_a_drift_lies_at_the_edge_that_is_pressed_and_reaches_as_far_as_the_drag(explorer: Explorer) -> None:
    explorer.fields.kind.value = "a snow drift"
    drag(explorer, (0.0, 130.0), (0.0, 130.0))
    assert (explorer.trace.burden.edge, explorer.trace.burden.width) == (3, 48.0)  # the far edge, y = 134 in
    drag(explorer, (0.0, 130.0), (0.0, 120.0), (0.0, 104.0))
    assert (explorer.trace.burden.edge, explorer.trace.burden.width) == (3, 30.0)
    assert explorer.fields.fields["width"].value == "2' 6\""
    drag(explorer, (0.0, 20.0), (0.0, 40.0))
    assert (explorer.trace.burden.edge, explorer.trace.burden.width) == (1, 22.0)
    before = explorer.trace.total
    explorer.fields.fields["depth"].value = "80 psf"
    assert explorer.trace.total == pytest.approx(2 * before)


def test_every_influence_can_be_chosen(explorer: Explorer) -> None:
    seen = set()
    for name, value in explorer.influence.options:
        explorer.influence.value = value
        seen.add(explorer.plan.svg)
        assert ("Shaded:" in explorer.said.value) == (name != "the way of this load")
    assert len(seen) == len(explorer.influence.options)


def test_another_platform_is_taken_up(explorer: Explorer) -> None:
    ask(explorer, 0.0, 40.0)
    text = DEMO.read_text(encoding="utf-8").replace('spacing = "16 in"', 'spacing = "12 in"')
    changed = find_results(parse_project(text))
    explorer.update(changed)
    assert explorer.trace.pieces.centre == pytest.approx((0.0, 40.0))
    assert "J10" in explorer.member.options
    explorer.update(results_of(FILES[-1]))
    assert explorer.trace.reactions.keys() == {s.mark for s in results_of(FILES[-1]).path.layout.supports}


@every_platform
def test_drawings_say_in_words_and_numbers_what_they_show(file: Path) -> None:
    results = results_of(file)
    layout, tracer = results.path.layout, Tracer(results.path)
    middle = layout.deck.representative_point()
    edges = range(1, len(layout.project.platform.outline) + 1)
    burdens = [Person((middle.x, middle.y), 180.0), Crowd(layout.project.platform.outline, 40.0)]
    for burden in [*burdens, *(Drift(edge, 40.0, 36.0) for edge in edges)]:
        trace = tracer.trace(burden)
        for svg in (traced_plan(layout, trace, highlighted="S1"), flow_figure(layout, trace)):
            root = ET.fromstring(svg)
            assert root.find("{*}title").text.strip()
            assert not re.search(r"\bnan\b|\binf\b", svg)
        into = sum(flow.pounds for flow in flows(layout, trace) if flow.upper == "boards")
        assert into == pytest.approx(trace.total, rel=0.05)
        shaded, drawn = (
            ET.fromstring(svg).findall("{*}*")
            for svg in (
                heat_plan(layout, reaction_map(results.path, layout.supports[0].mark), trace),
                traced_plan(layout, trace),
            )
        )
        burden = [s.attrib for s in shaded[-2 if len(trace.pieces.pounds) > 1 else -1 :]]
        assert all(any(shape == s.attrib for s in drawn) for shape in burden), (
            "the burden stays on the shaded plan"
        )
    member = layout.members[-1]
    root = ET.fromstring(heat_plan(layout, moment_map(results.path, member.mark, member.line.length / 2)))
    assert len(root.findall("{*}polygon")) >= len(results.path.panels)


def test_a_support_that_lifts_off_is_said(explorer: Explorer) -> None:
    trace = explorer.tracer.trace(Person((-50.0, 133.0), 3000.0))
    assert "lifts off without a tie" in reactions_html(explorer.results, trace)


def test_a_place_is_followed_for_print_as_it_is_on_the_screen(explorer: Explorer) -> None:
    shown = explorer.follow("0 in", "40 in", "180 lb").items
    assert len([block for block in shown if isinstance(block, Figure)]) == 2
    assert any("gives T1 63 lb and C1 34 lb" in str(block) for block in shown)
    with pytest.raises(ReadError, match="has no unit"):
        explorer.follow("4", "40 in", "180 lb")


def test_a_notebook_without_widgets_shows_words(explorer: Explorer) -> None:
    assert explorer._repr_mimebundle_()["text/plain"].startswith("The explorer")
    assert Lessons(explorer.results)._repr_mimebundle_()["text/plain"].startswith("The lessons")


# Lessons -----------------------------------------------------------------------------------------------------


@pytest.fixture
def lessons() -> Lessons:
    made = Lessons(results_of(DEMO))
    made.show()
    return made


def test_nothing_is_given_away_before_a_prediction(lessons: Lessons) -> None:
    assert lessons.seen.value == ""
    lessons.answer.click()
    assert "Predict first" in lessons.wrong.value
    assert lessons.seen.value == ""


def test_a_wrong_and_a_right_prediction(lessons: Lessons) -> None:
    question = lessons.question
    wrong = next(c for c in question.choices if c not in question.right)
    lessons.choice.value = wrong
    lessons.answer.click()
    assert f"Not {wrong}." in lessons.seen.value
    assert "1 of 8 predicted, 0 of them right" in lessons.foot.value
    assert "Units:" in lessons.seen.value
    assert "Neglected:" in lessons.seen.value
    lessons.choice.value = question.right[0]
    lessons.answer.click()
    assert "Right:" in lessons.seen.value
    assert "1 of 8 predicted, 1 of them right" in lessons.foot.value


def test_a_number_that_is_none_is_said_and_answers_are_kept_on_turning(lessons: Lessons) -> None:
    for _ in range(3):
        lessons.next.click()
    assert lessons.place.children == (lessons.typed,)
    lessons.typed.value = "much"
    lessons.answer.click()
    assert "is not understood" in lessons.wrong.value
    lessons.typed.value = "44 lb"
    lessons.answer.click()
    assert "Right:" in lessons.seen.value
    lessons.back.click()
    assert lessons.seen.value == ""
    lessons.next.click()
    assert lessons.typed.value == "44 lb"
    assert "Right:" in lessons.seen.value


def test_the_whole_course_can_be_gone_through_on_another_platform() -> None:
    lessons = Lessons(results_of(DEMO))
    lessons.show()
    lessons.update(results_of(next(file for file in FILES if file.stem == "two_fields_square")))
    lessons.show()
    assert "Left out for this platform" in lessons.foot.value
    count = len(lessons.course.questions)
    for number in range(count):
        assert f"Question {number + 1} of {count}" in lessons.head.value
        question = lessons.question
        lessons.predict(question.choices[-1] if question.choices else "1")
        assert lessons.seen.value
        lessons.next.click()
    assert lessons.next.disabled


def test_the_stored_notebook_ran_through_and_holds_no_widget_state() -> None:
    notebook = json.loads((shipped("calcsheets") / "explorer.ipynb").read_text(encoding="utf-8"))
    code = [cell for cell in notebook["cells"] if cell["cell_type"] == "code"]
    assert [cell["execution_count"] for cell in code] == list(range(1, len(code) + 1))
    outputs = [output for cell in code for output in cell["outputs"]]
    assert not [output for output in outputs if output["output_type"] == "error"]
    assert "widgets" not in notebook["metadata"]
    assert "model_id" not in json.dumps(notebook)
    assert len([output for output in outputs if "text/latex" in output.get("data", {})]) >= 10
