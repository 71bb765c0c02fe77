"""DXF read again with ezdxf: sound by its audit, layers by part, lengths those of the model."""

import io
import math

import ezdxf
import pytest
from reading_svg import written

from bolewright.drawings.dxf import DIMENSION_STYLE, dxf_bytes
from bolewright.drawings.files import FOLDER, all_drawings, drawing_files, elevations, plans
from bolewright.drawings.measures import Measures
from bolewright.platform.layout.layout import Kind
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.rendering.drawing import Dimension, Layer


def read(data):
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def test_every_file_is_sound(results):
    for drawing in all_drawings(results):
        document = read(dxf_bytes(drawing))
        audit = document.audit()
        assert not audit.errors, drawing.title
        assert not audit.fixes, drawing.title
        assert len(document.modelspace())


def test_layers_are_named_by_part(demo):
    document = read(dxf_bytes(plans(demo)[0]))
    assert {layer.value for layer in Layer} <= {layer.dxf.name for layer in document.layers}
    used = {entity.dxf.layer for entity in document.modelspace()}
    assert {
        "joists",
        "beams",
        "posts",
        "footings",
        "bolts",
        "trunk",
        "braces",
        "marks",
        "dimensions",
    } <= used
    assert used <= {layer.value for layer in Layer}


def test_dimensions_are_real_and_measure_what_they_say(demo):
    for drawing in all_drawings(demo):
        lengths = [math.dist(i.start, i.end) for i in drawing.items if isinstance(i, Dimension)]
        found = list(read(dxf_bytes(drawing)).modelspace().query("DIMENSION"))
        assert sorted(d.get_measurement() for d in found) == pytest.approx(sorted(lengths), abs=1e-6)
        for dimension in found:
            assert dimension.dxf.dimstyle == DIMENSION_STYLE
            assert written(dimension.dxf.text) == pytest.approx(
                dimension.get_measurement(), abs=1 / 32 + 1e-6
            )


def test_joists_are_drawn_as_long_as_they_are_cut(demo):
    """Each joist of the plan is a closed run of four edges: its two long edges are the piece's."""
    polylines = list(read(dxf_bytes(plans(demo)[0])).modelspace().query('LWPOLYLINE[layer=="joists"]'))
    drawn = []
    for polyline in polylines:
        points = [(x, y) for x, y, *_ in polyline.get_points()]
        edges = sorted((math.dist(a, b) for a, b in zip(points, points[1:], strict=False)), reverse=True)
        drawn.append(sorted(edges[:2]))
    pieces = [p for p in cut_pieces(demo.path.layout) if p.kind is Kind.JOIST]
    assert len(drawn) == len(pieces)
    for found, wanted in zip(sorted(drawn), sorted(sorted((p.left, p.right)) for p in pieces), strict=True):
        assert found == pytest.approx(wanted, abs=1e-6)


def test_all_edges_of_a_beam_are_there_though_joists_hide_some(results):
    """Visible and hidden stretches of the beams' outlines together are their whole outlines."""
    layout = results.path.layout
    polylines = read(dxf_bytes(plans(results)[0])).modelspace().query('LWPOLYLINE[layer=="beams"]')
    drawn = 0.0
    for polyline in polylines:
        points = [(x, y) for x, y, *_ in polyline.get_points()]
        drawn += sum(math.dist(a, b) for a, b in zip(points, points[1:], strict=False))
    pieces = [p for p in cut_pieces(layout) if p.kind is Kind.BEAM]
    around = sum(
        math.dist(a, b)
        for p in pieces
        for a, b in zip(p.corners, (*p.corners[1:], p.corners[0]), strict=True)
    )
    assert drawn == pytest.approx(around, rel=0.002)


def test_metric_files_are_in_millimetres(demo):
    inches = read(dxf_bytes(plans(demo)[0]))
    metric = read(dxf_bytes(plans(demo, Measures.METRIC)[0], Measures.METRIC))
    assert inches.units == ezdxf.units.IN
    assert metric.units == ezdxf.units.MM
    long, short = (
        max(d.get_measurement() for d in document.modelspace().query("DIMENSION"))
        for document in (metric, inches)
    )
    assert long == pytest.approx(25.4 * short)


def test_the_same_results_give_the_same_files(demo):
    files = drawing_files(demo)
    assert files == drawing_files(demo)
    trunks = {name.rpartition(".")[0] for name in files}
    assert f"{FOLDER}/01-plan-of-framing" in trunks
    assert len(files) == 2 * len(all_drawings(demo)) + 1
    assert all(name.isascii() and " " not in name for name in files)


def test_words_of_upright_chains_stand_level(demo):
    """Levels of the elevation: the text of each such dimension in its block is not turned, that of others is."""
    document = read(dxf_bytes(elevations(demo)[0]))
    turned = {}
    for dimension in document.modelspace().query("DIMENSION"):
        (text,) = document.blocks.get(dimension.dxf.geometry).query("MTEXT")
        turned.setdefault(dimension.dxf.text, set()).add(round(text.get_rotation() % 360))
    assert turned["5' 0\""] == {0}
    assert turned["7' 0\""] == {90}
