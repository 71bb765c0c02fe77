"""results.json is what its schema says: of every shipped project and case, by the model and by the stored schema."""

import copy
import json
from pathlib import Path

import jsonschema
import pydantic
import pytest

from bolewright import check, results_schema
from bolewright.paths import shipped
from bolewright.platform.results.results import SCHEMA
from bolewright.platform.results.results_schema import STORED, ResultsFile, stored_text

CASES = sorted((Path(__file__).parent / "cases").glob("*.toml"))
PROJECTS = sorted(shipped("calcsheets").glob("*.toml"))


def test_the_stored_schema_is_the_models() -> None:
    """Stale: python -m bolewright.platform.results.results_schema --write."""
    assert STORED.read_text(encoding="utf-8") == stored_text()
    jsonschema.Draft202012Validator.check_schema(results_schema())
    assert results_schema()["properties"]["schema"]["const"] == SCHEMA


@pytest.mark.parametrize("path", [*PROJECTS, *CASES], ids=lambda path: path.stem)
def test_results_are_what_the_schema_says(path: Path) -> None:
    text = check(path).to_json()
    ResultsFile.model_validate_json(text)
    jsonschema.validate(json.loads(text), json.loads(STORED.read_text(encoding="utf-8")))


def test_what_the_schema_does_not_say_is_refused() -> None:
    data = check(PROJECTS[0]).to_dict()
    for change in (
        lambda d: d.update(more=1),
        lambda d: d["checks"][0].pop("key"),
        lambda d: d["checks"][0].update(status="approved"),
        lambda d: d["checks"][0].update(ratio="0.5"),
        lambda d: d.update(schema="bolewright results 3"),
    ):
        wrong = copy.deepcopy(data)
        change(wrong)
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(wrong, results_schema())
        with pytest.raises(pydantic.ValidationError):
            ResultsFile.model_validate_json(json.dumps(wrong))
