"""All relations on all platforms, and every nudge: a table of what does not hold. Minutes, so no test.

``python -m outside.every_relation [nudges] [part of a platform's name ...]`` from the folder of the tests.
"""

from __future__ import annotations

import sys

from outside.answers import differences, ratios, results_of
from outside.nudges import LEAST, SHARE, allowed, nudges, nudges_of_parts
from outside.platforms import project_of
from outside.relations import TURNED
from outside.test_relations import PLATFORMS, RELATIONS, SAME, SEEN, TURNING, other_way


def main(words: list[str]) -> None:
    names = [
        name
        for name in PLATFORMS
        if not (picked := [w for w in words if w != "nudges"]) or any(word in name for word in picked)
    ]
    for name in names:
        if "nudges" in words:
            base = ratios(results_of(project_of(name)))
            for what, moved in (*nudges(project_of(name)), *nudges_of_parts(project_of(name))):
                _say(
                    name,
                    what,
                    lambda name=name, moved=moved, base=base: [
                        d
                        for d in differences(base, ratios(results_of(moved)), SHARE, LEAST)
                        if not allowed(d, project_of(name), moved)
                    ],
                )
            continue
        for relation in RELATIONS:
            _say(name, relation, lambda name=name, relation=relation: _apart(name, relation))


def _apart(name: str, relation: str) -> list[str]:
    base, other = (ratios(results_of(project)) for project in other_way(name, relation))
    return differences(base, other, *((TURNING, SEEN) if relation in TURNED else (SAME, SAME)))


def _say(name: str, what: str, look) -> None:
    try:
        found = look()
    except ValueError as error:  # a sentence of the program
        found = [str(error)]
    if found:
        print(f"{name} | {what} | {len(found)} | " + "; ".join(found[:4]), flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
