"""A package made again over an old one is one transaction: what is the user's stays, whatever cuts it off."""

import hashlib
import json
import os
import signal
import subprocess
import sys
import textwrap

import pytest

from bolewright.documents.manifest import MANIFEST, manifest_of
from bolewright.documents.package import write_whole
from bolewright.documents.transaction import FolderError, package_folder

OLD = {
    "package.pdf": b"old",
    "take_off.xlsx": b"prices empty",
    "drawings/01-plan.svg": b"plan",
    "drawings/09-knee-brace.svg": b"brace",
    "old/gone.txt": b"gone",
}
NEW = {"package.pdf": b"new", "take_off.xlsx": b"other prices empty", "drawings/01-plan.svg": b"other plan"}


def names(folder):
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if not path.is_dir()}


@pytest.fixture
def out(tmp_path):
    write_whole(tmp_path / "build", OLD)
    return tmp_path / "build"


def alone(out):
    """Nothing of the program's stands beside the folder."""
    return [path.name for path in out.parent.iterdir()] == [out.name]


def test_what_there_is_no_more_is_taken_away_with_folders_left_empty(out):
    written = write_whole(out, NEW)
    assert names(out) == {*NEW, MANIFEST}
    assert {path.name for path in out.iterdir()} == {"package.pdf", "take_off.xlsx", "drawings", MANIFEST}
    assert (out / "package.pdf").read_bytes() == b"new"
    assert written.said == ()
    assert alone(out)


def test_typed_prices_stay_and_the_new_list_stands_beside_them(out):
    (out / "take_off.xlsx").write_bytes(b"prices typed")
    for made_again in (1, 2):
        written = write_whole(out, {**NEW, "take_off.xlsx": b"list %d" % made_again})
        assert (out / "take_off.xlsx").read_bytes() == b"prices typed"
        assert (out / "take_off.xlsx.new").read_bytes() == b"list %d" % made_again
        assert written.paths["take_off.xlsx"] == out / "take_off.xlsx.new"
        assert written.said == (
            "take_off.xlsx is not as the program wrote it and stays as it is; the new one is take_off.xlsx.new.",
        )
    (out / "take_off.xlsx.new").write_bytes(b"typed into the new one too")
    write_whole(out, NEW)
    assert (out / "take_off.xlsx.new").read_bytes() == b"typed into the new one too"
    assert (out / "take_off.xlsx.new-2").read_bytes() == NEW["take_off.xlsx"]


def test_a_list_the_user_threw_away_comes_back_under_its_own_name(out):
    (out / "take_off.xlsx").write_bytes(b"prices typed")
    write_whole(out, NEW)
    (out / "take_off.xlsx").unlink()
    assert write_whole(out, NEW).said == ()
    assert names(out) == {*NEW, MANIFEST}


def test_files_of_the_user_stay_with_their_times_links_and_empty_folders(out):
    photo = out / "drawings/photos/oak.jpg"
    photo.parent.mkdir()
    photo.write_bytes(b"mine")
    os.utime(photo, (1_000_000_000, 1_000_000_000))
    (out / "to read").mkdir()
    (out / "link").symlink_to("package.pdf")
    (out / "drawings/09-knee-brace.svg").write_bytes(b"marked up by hand")
    written = write_whole(out, NEW)
    assert names(out) == {*NEW, MANIFEST, "drawings/photos/oak.jpg", "drawings/09-knee-brace.svg", "link"}
    assert photo.stat().st_mtime == 1_000_000_000
    assert (out / "to read").is_dir()
    assert (out / "link").readlink().name == "package.pdf"
    assert written.said == (
        "drawings/09-knee-brace.svg is not as the program wrote it and stays as it is; a new package has none.",
        "2 of your own files in the folder stay as they are.",
    )


def test_a_folder_that_was_the_users_before_loses_nothing(tmp_path):
    out = tmp_path / "papers"
    out.mkdir()
    (out / "package.pdf").write_bytes(b"the survey")
    write_whole(out, NEW)
    assert (out / "package.pdf").read_bytes() == b"the survey"
    assert (out / "package.pdf.new").read_bytes() == b"new"


def test_litter_of_killed_runs_is_cleared(out):
    (out / ".package-a1b2c3d4/drawings").mkdir(parents=True)
    (out / ".package-a1b2c3d4/package.pdf").write_bytes(b"half")
    beside = out.with_name(".build.bolewright-new")
    (beside / "drawings").mkdir(parents=True)
    (beside / "package.pdf").write_bytes(b"half")
    out.with_name(".build.bolewright-lock").write_bytes(b"")
    write_whole(out, NEW)
    assert names(out) == {*NEW, MANIFEST}
    assert alone(out)


def test_a_package_set_aside_and_made_anew_by_hand_meanwhile_is_brought_together(out):
    (out / "note.txt").write_bytes(b"mine")
    out.rename(out.with_name(".build.bolewright-old"))
    out.with_name(".build.bolewright-new").mkdir()
    out.mkdir()
    (out / "later.txt").write_bytes(b"mine too")
    write_whole(out, NEW)
    assert {"note.txt", "later.txt"} <= names(out)
    assert alone(out)


def test_two_at_once_the_second_is_refused(out):
    program = textwrap.dedent("""
        import sys; from pathlib import Path
        from bolewright.documents.package import write_whole
        try: write_whole(Path(sys.argv[1]), {"package.pdf": b"other"})
        except Exception as error: print(type(error).__name__, error)
    """)

    def second():
        return subprocess.run(
            [sys.executable, "-c", program, str(out)], capture_output=True, text=True, check=True
        ).stdout

    with package_folder(out) as folder:
        assert "FolderError another package is being written into" in second()
        folder.write(NEW)
    assert (out / "package.pdf").read_bytes() == b"new"
    assert second() == ""
    assert (out / "package.pdf").read_bytes() == b"other"
    assert alone(out)


def test_nothing_stays_where_nothing_was_written(tmp_path):
    with pytest.raises(ZeroDivisionError), package_folder(tmp_path / "a/b/c"):
        raise ZeroDivisionError
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("place", [".", "..", "build/.."])
def test_the_folder_one_works_in_is_not_swapped(out, monkeypatch, place):
    monkeypatch.chdir(out.parent)
    with (
        pytest.raises(FolderError, match="no folder of the package's own"),
        package_folder(out.parent / place),
    ):
        pass


def test_a_folder_with_the_project_file_in_it_is_not_swapped(out):
    project = out / "mine.toml"
    project.write_text("format = 2")
    with pytest.raises(FolderError, match=r"holds mine\.toml"), package_folder(out, [project]):
        pass


@pytest.mark.parametrize("name", ["../notes.txt", "/notes.txt", "drawings/../../notes.txt"])
def test_a_list_that_points_outside_takes_nothing_away(tmp_path, name):
    out = tmp_path / "out"
    out.mkdir()
    note = tmp_path / "notes.txt"
    note.write_bytes(b"mine")
    listed = name if name != "/notes.txt" else str(note)
    sums = {listed: hashlib.sha256(b"mine").hexdigest()}
    (out / MANIFEST).write_text(json.dumps({"schema": "bolewright package files 1", "files": sums}))
    write_whole(out, NEW)
    assert note.read_bytes() == b"mine"
    assert names(out) == {*NEW, MANIFEST}


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", "[" * 200_000, '{"files": {"package.pdf": "x"}}', '{"schema": 1, "files": []}', "\xff"],
)
def test_a_list_that_is_none_of_ours_stops_with_a_sentence(tmp_path, text):
    (tmp_path / MANIFEST).write_text(text, "latin-1")
    (tmp_path / "package.pdf").write_bytes(b"somebody's")
    with pytest.raises(FolderError, match="is no list of a package's files"):
        write_whole(tmp_path, NEW)
    assert names(tmp_path) == {MANIFEST, "package.pdf"}
    assert (tmp_path / "package.pdf").read_bytes() == b"somebody's"


@pytest.mark.parametrize(("user", "says"), [("package.pdf/x", "is a folder"), ("drawings", "is a file")])
def test_a_folder_under_a_files_name_and_the_other_way_round(tmp_path, user, says):
    out = tmp_path / "out"
    (out / user).parent.mkdir(parents=True)
    (out / user).write_bytes(b"mine")
    with pytest.raises(FolderError, match=says):
        write_whole(out, NEW)
    assert names(out) == {user}
    assert alone(out)


def test_the_list_is_the_same_for_the_same_files():
    assert manifest_of(OLD) == manifest_of(dict(reversed(OLD.items())))


# ---------------------------------------------------------------------------------------------------------
# Killed


WATCHED = {"open", "os.rename", "os.link", "os.mkdir", "os.remove", "os.rmdir", "os.utime", "os.chmod"}
USERS = {"note.txt": b"mine", "drawings/photo.jpg": b"oak", "take_off.xlsx": b"prices typed"}


def killed_at(step, out):
    """Make the package again in a process that kills itself at its n-th act on the disk; whether it came so far."""
    child = os.fork()
    if child == 0:
        left = step

        def watch(event, given):
            nonlocal left
            if event in WATCHED and any(str(out.parent) in str(each) for each in given):
                left -= 1
                if left == 0:
                    os.kill(os.getpid(), signal.SIGKILL)

        sys.addaudithook(watch)
        try:
            write_whole(out, NEW)
        finally:
            os._exit(0)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL


def test_killed_at_any_step_the_package_is_the_old_or_the_new_one_whole(tmp_path):
    """SIGKILL at each act on the disk in turn, until one run gets through; what is the user's is never lost."""
    old, new, put_back = 0, 0, 0
    for step in range(1, 400):
        out = tmp_path / str(step) / "build"
        write_whole(out, OLD)
        for name, data in USERS.items():
            (out / name).write_bytes(data)
        killed = killed_at(step, out)
        put_back += not out.exists()
        with package_folder(out):
            pass  # the next start
        assert alone(out)
        for name, data in USERS.items():
            assert (out / name).read_bytes() == data, (step, name)
        listed = json.loads((out / MANIFEST).read_text())["files"]
        package = {n: (out / n).read_bytes() for n in listed if n not in USERS}
        if package == {n: d for n, d in OLD.items() if n not in USERS}:
            old += 1
        else:
            assert package == {("take_off.xlsx.new" if n in USERS else n): d for n, d in NEW.items()}, step
            new += 1
        if not killed:
            break
    else:
        raise AssertionError("no run got through")
    assert old > 10
    assert new > 3
    assert put_back > 0
    write_whole(out, NEW)
    assert {*USERS, "take_off.xlsx.new"} <= names(out)
