"""The public names are a tested list, and what they promise holds."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

import coaxwright

EXAMPLES = Path(__file__).parents[3] / "examples" / "tern-cottage"


def test_the_list_of_public_names() -> None:
    assert sorted(coaxwright.__all__) == [
        "Analysis",
        "CoaxwrightError",
        "Design",
        "Finding",
        "Known",
        "Network",
        "Outcome",
        "Review",
        "Severity",
        "SiteLevels",
        "Unknown",
        "__version__",
        "build_network",
        "levels",
        "load",
        "load_network",
        "review",
    ]
    assert dir(coaxwright) == sorted(coaxwright.__all__)


@pytest.mark.parametrize("name", coaxwright.__all__)
def test_every_public_name_is_there_and_documented(name: str) -> None:
    thing = getattr(coaxwright, name)
    assert name == "__version__" or thing.__doc__


def test_an_unknown_name_is_an_attribute_error() -> None:
    with pytest.raises(AttributeError, match="takeoff"):
        _ = coaxwright.takeoff  # type: ignore[attr-defined]


def test_load_and_plant_from_python() -> None:
    network = coaxwright.build_network(coaxwright.load(EXAMPLES / "corrected.coax.yaml"))
    assert len(network.cables) == 13
    assert {entry.building for entry in network.entries} == {"house", "studio"}


def test_review_from_python() -> None:
    review = coaxwright.review([EXAMPLES / "as-drawn.coax.yaml"])
    assert review.exit_status == 1
    assert review.count(coaxwright.Severity.VIOLATION) == 4


@pytest.mark.parametrize(
    "first", ["import coaxwright", "import coaxwright.reviewing", "from coaxwright.cli.commands import app"]
)
def test_review_can_be_called_whatever_was_imported_first(first: str) -> None:
    code = f"{first}\nimport coaxwright\nprint(coaxwright.review([{str(EXAMPLES)!r}]).exit_status)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "1\n"


def test_asking_for_the_version_imports_next_to_nothing() -> None:
    code = (
        "import sys, coaxwright.cli; coaxwright.cli.main(['--version']);"
        "print(sorted(m for m in sys.modules if m.split('.')[0] in ('coaxwright', 'pydantic', 'typer', 'yaml')))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[1] == "['coaxwright', 'coaxwright.cli', 'coaxwright.version']"
