"""The command ``bolewright spans``: its table as text and CSV, and its one-sentence errors."""

import argparse
import csv
import io

import pytest

from bolewright.reference import load
from bolewright.timber.span_command import add_arguments, run


def command(*words: str) -> int:
    parser = argparse.ArgumentParser()
    add_arguments(parser)
    return run(parser.parse_args(words))


def table(capsys, *words: str):
    assert command(*words, "--format", "csv") == 0
    return list(csv.DictReader(io.StringIO(capsys.readouterr().out)))


def test_southern_pine_joists_are_those_of_DCA_6(capsys):
    """AWC DCA 6 (2015) Table 2: the defaults are its conditions."""
    rows = table(capsys, "--species", "Southern Pine", "--grade", "No.2")
    found = {(row["size"], float(row["spacing_in"])): row["span"] for row in rows}
    printed = {
        (row["size"], row["spacing_in"]): row["span"]
        for row in load("dca6_table_2")
        if row["species_group"] == "Southern Pine"
    }
    assert found == printed


def test_a_group_of_species_is_the_weakest(capsys):
    group = ("--species", "Douglas Fir-Larch", "--species", "Hem-Fir", "--species", "Spruce-Pine-Fir")
    rows = table(capsys, *group, "--incised", "--sizes", "2x10", "--spacings", "16 in")
    assert rows[0]["span"] == "13-7"  # AWC DCA 6 Table 2
    assert rows[0]["weakest"] == "Hem-Fir No.2"


def test_species_with_its_own_grade(capsys):
    rows = table(capsys, "--species", "Redwood:No.2 open grain", "--sizes", "2x6", "--spacings", "24 in")
    assert rows[0]["span"] == "7-0"


def test_beams(capsys):
    rows = table(capsys, "--of", "beams", "--sizes", "(3) 2x10", "--joist-spans", "12 ft")
    assert (rows[0]["size"], rows[0]["joist_span_in"], rows[0]["span"]) == ("(3) 2x10", "144", "9-2")


def test_published_values_stand_beside_ours_with_the_reason(capsys):
    """AWC DCA 6 Table 2, Southern Pine 2x8 at 16 in.: 11-10 as ours, overhang 2-0 where ours is 2-3."""
    rows = table(capsys, "--basis", "dca6", "--sizes", "2x8", "--spacings", "16 in")
    assert [rows[0][name] for name in ("span", "published", "why")] == ["11-10", "11-10", "same"]
    assert [rows[0][n] for n in ("overhang", "published_overhang", "why_overhang")] == ["2-3", "2-0", "A"]
    assert command("--basis", "dca6", "--sizes", "2x8", "--spacings", "16 in") == 0
    assert "A: the table takes 3 in. off the overhang" in capsys.readouterr().out


def test_one_species_beside_the_row_of_its_group(capsys):
    """IRC 2018 Table R507.6 prints the weakest of a group: Douglas Fir-Larch alone spans farther, and it says why."""
    words = ("--basis", "irc", "--species", "DFL", "--incised", "--sizes", "2x10", "--spacings", "16 in")
    rows = table(capsys, *words)
    assert (rows[0]["published"], rows[0]["why"]) == ("13-7", "G")


def test_beams_of_one_species_have_the_reasons_of_their_group(capsys):
    """IRC 2018 Table R507.5: of Douglas fir-larch's 42 rows the reasons of the group's hold after the group itself (G).

    Left are the three cells of the second group that nothing explains (test_published_spans).
    """
    words = ("--of", "beams", "--basis", "irc", "--species", "Douglas Fir-Larch", "--incised")
    rows = table(capsys, *words)
    assert len(rows) == 42
    left = [(row["size"], row["joist_span_in"]) for row in rows if row["why"].startswith("not explained")]
    assert left == [("(2) 2x8", "216"), ("(2) 2x10", "216"), ("(3) 2x8", "72")]
    assert all(row["why"].split()[0] == "G" for row in rows if "not" not in row["why"])
    assert command(*words) == 0
    assert "3 of the 42 published values are not explained" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("given", "why"),
    [
        # what was asked for makes the row another than the table's, which is ours without it
        (("--live-limit", "1000"), "R"),
        (("--joist-overhang", "0"), "R"),
        (("--loaded-on-top",), "same"),  # bending decides: no shear at d in it
    ],
)
def test_rules_of_ones_own_are_the_reason_where_they_are(capsys, given, why):
    """Southern Pine (3) 2x10 under joists of 12 ft: 9-2 in IRC 2018 Table R507.5 as in ours under its rules."""
    words = ("--of", "beams", "--basis", "irc", "--sizes", "(3) 2x10", "--joist-spans", "12 ft", *given)
    row = table(capsys, *words)[0]
    assert (row["published"], row["why"]) == ("9-2", why)


def test_two_species_of_two_rows_have_no_published_value(capsys):
    words = ("--species", "Southern Pine", "--species", "Hem-Fir:No.2:wet incised")
    rows = table(capsys, "--basis", "irc", *words, "--sizes", "2x8", "--spacings", "16 in")
    assert (rows[0]["published"], rows[0]["why"]) == ("-", "")


def test_a_species_that_is_not_incised_is_not_taken_for_the_tables(capsys):
    """DCA 6 Table 2 is of incised firs: 2x8 at 16 in. 11-1; Douglas fir that is not incised spans more (G)."""
    group = [f"{name}:No.2:wet incised" for name in ("Hem-Fir", "Spruce-Pine-Fir")]
    words = [w for one in ("DFL:No.2:wet", *group) for w in ("--species", one)]
    row = table(capsys, "--basis", "dca6", *words, "--sizes", "2x8", "--spacings", "16 in")[0]
    same = table(capsys, "--basis", "dca6", "--incised", *words[2:], "--species", "DFL", "--sizes", "2x8")[1]
    assert row["published"] == same["published"]
    assert (row["why"], same["why"]) == ("same", "same")  # the weakest is hem-fir in both


def test_no_published_value_stands_beside_other_conditions(capsys):
    rows = table(capsys, "--basis", "irc", "--live", "60 psf", "--sizes", "2x8", "--spacings", "16 in")
    assert (rows[0]["published"], rows[0]["why"]) == ("-", "")


def test_posts_say_what_no_eccentricity_means(capsys):
    assert command("--of", "posts", "--sizes", "6x6", "--areas", "243 ft2") == 0
    assert "about twice those of AWC DCA 6 Table 4" in capsys.readouterr().out
    rows = table(
        capsys, "--of", "posts", "--eccentricity", "1/6", "--sizes", "6x6", "--areas", "162 ft2,243 ft2"
    )
    assert [row["height"] for row in rows] == ["10-6", "none"]


def test_own_material(capsys):
    """A user's own values in place of Southern Pine's of NDS Supplement Table 4B give its span of DCA 6 Table 2."""
    own = "F_b=925 psi, F_v=175 psi, F_c_perp=565 psi, E=1400000 psi"
    rows = table(capsys, "--own", own, "--sizes", "2x8", "--spacings", "16 in")
    assert (rows[0]["span"], rows[0]["weakest"]) == ("11-10", "own values")


def test_posts(capsys):
    rows = table(capsys, "--of", "posts", "--sizes", "4x4", "--areas", "100 ft2")
    assert rows[0]["height"] == "8-5"


def test_metric_in(capsys):
    rows = table(
        capsys, "--live", "1.915 kPa", "--dead", "0.4788 kPa", "--sizes", "2x8", "--spacings", "406.4 mm"
    )
    assert rows[0]["span"] == "11-10"


def test_text_says_conditions_confidence_and_caution(capsys):
    assert command("--sizes", "2x8", "--spacings", "16 in") == 0
    text = capsys.readouterr().out
    assert "11-10" in text
    assert "Southern Pine No.2; wet service; 40 psf live + 10 psf dead." in text
    assert "from memory" in text
    assert "approves nothing" in text
    assert "Size factor C_F" not in text  # Southern Pine's values hold it
    assert command("--species", "Hem-Fir", "--no-incised", "--sizes", "2x8,2x10", "--spacings", "16 in") == 0
    assert capsys.readouterr().out.count("Size factor C_F") == 1


def test_out_writes_the_file(tmp_path, capsys):
    path = tmp_path / "spans.csv"
    assert command("--format", "csv", "--out", str(path)) == 0
    assert capsys.readouterr().out == ""
    assert path.read_text().startswith("size,spacing_in,span,")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--species", "Oak"], "species 'Oak' has no values here; use one of: Douglas Fir-Larch"),
        (["--grade", "No.9"], "grade 'No.9' of Southern Pine has no values for 2x6; use one of"),
        (["--sizes", "2x7"], "7 is not a standard nominal width"),
        (["--sizes", ","], "--sizes is empty"),
        (["--sizes", "5/4x6"], "under 2 in. nominal"),
        (["--spacings", "16"], "--spacings: '16' has no unit"),
        (["--spacings", "0 in"], "--spacings is 0 in, but more than zero is wanted"),
        (["--live", "-40 psf"], "--live is -40 psf, but more than zero is wanted"),
        (["--live", "40 plf"], "--live: '40 plf' is a load per length"),
        (["--total-limit", "some"], "--total-limit is 'some', but a number"),
        (["--live-limit", "nan"], "--live-limit is nan, but a number from 1"),
        (["--of", "beams", "--joist-overhang", "3"], "--joist-overhang is 3, but a share from 0 to 1"),
        (["--of", "posts", "--species", "SP", "--species", "HF", "--sizes", "4x4"], "takes one --species"),
        (["--own", "F_b=1200 psi"], "--own lacks F_v, F_c_perp, E"),
        (["--own", "G=0.5 psi"], "--own: 'G=0.5 psi' is not one of F_b, F_v"),
        (["--own", "F_b=1200 ft"], "--own F_b: '1200 ft' is a length"),
        (["--c-r", "2"], "--c-r is 2, but a number from 1 to 1.15"),
        (["--live-dead-share", "3"], "--live-dead-share is 3, but a share from 0 to 1"),
        (["--of", "posts", "--eccentricity", "2"], "--eccentricity is '2', but a share from 0 to 0.5"),
        (["--of", "posts", "--eccentricity", "1/0"], "--eccentricity is '1/0', but a share"),
        (["--species", "Hem-Fir:No.2:damp"], "service is 'damp', but wet or dry is wanted"),
        (["--out", "/no/such/folder/x.csv"], "cannot be written"),
    ],
)
def test_bad_input_is_one_sentence_and_exit_2(words, says, capsys):
    # "--live=-40 psf": argparse takes a bare -40 for an option
    arguments = [f"{words[0]}={words[1]}"] if len(words) == 2 else words
    assert command(*arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert says in err
    assert err.count("\n") == 1


@pytest.mark.parametrize("species", ["Douglas Fir-Larch", "Hem-Fir", "Spruce-Pine-Fir"])
def test_treated_lumber_that_commonly_is_incised_has_no_default(species, capsys):
    """AWC DCA 6 Table 2 counts C_i in this group, NDS 2018 4.3.8 gives it: which holds has to be said."""
    size = ("--sizes", "2x10", "--spacings", "16 in")
    assert command("--species", species, *size) == 2
    said = capsys.readouterr().err
    assert "C_i = 0.80 on bending" in said
    assert "0.95 on E (NDS 2018, 4.3.8): say --incised or --no-incised" in said
    assert command("--species", species, *size, "--no-incised") == 0
    assert "wet service, not incised;" in capsys.readouterr().out


@pytest.mark.parametrize(
    "words",
    [
        ("--species", "Southern Pine"),  # treats without incising (AWC DCA 6 Table 2)
        ("--species", "Redwood:No.2 open grain"),  # durable heartwood, not treated
        ("--species", "Hem-Fir", "--dry"),
        (
            "--species",
            "Hem-Fir:No.1",
            "--of",
            "posts",
            "--sizes",
            "6x6",
        ),  # NDS 2018 4.3.8: dimension lumber only
    ],
)
def test_where_incising_does_not_matter_nothing_is_asked(words, capsys):
    size = () if "6x6" in words else ("--sizes", "2x10", "--spacings", "16 in")
    assert command(*words, *size) == 0
