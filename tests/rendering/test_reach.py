"""The names that functions use are followed from the checks, sheets and commands to the formulas they run."""

from pathlib import Path

from bolewright.rendering.reach import Reach


def _library(root: Path, files: dict[str, str]) -> Reach:
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return Reach(root)


def test_a_formula_is_reached_through_helpers_imports_and_modules(tmp_path: Path) -> None:
    reach = _library(
        tmp_path,
        {
            "timber/one.py": "def plain(): ...\ndef by_module(): ...\ndef nobody(): ...\n",
            "timber/__init__.py": "from bolewright.timber.one import plain\n",
            "timber/span_command.py": "from bolewright.timber import plain\ndef main(): plain()\n",
            "platform/checks/posts.py": (
                "from bolewright.timber import one\nTABLE = [one.by_module]\ndef check(): return TABLE\n"
            ),
        },
    )
    assert reach.doors("bolewright.timber.one", "plain") == ["spans"]
    assert reach.doors("bolewright.timber.one", "by_module") == ["check: posts"]
    assert reach.doors("bolewright.timber.one", "nobody") == []


def test_one_check_does_not_answer_for_another(tmp_path: Path) -> None:
    reach = _library(
        tmp_path,
        {
            "timber/one.py": "def used(): ...\n",
            "platform/checks/posts.py": "from bolewright.timber.one import used\ndef check(): return used()\n",
            "platform/checks/all.py": "from bolewright.platform.checks.posts import check\ndef every(): check()\n",
        },
    )
    assert reach.doors("bolewright.timber.one", "used") == ["check: posts"]
