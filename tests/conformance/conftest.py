"""The page of accuracies is compared, or written, when the whole folder ran."""

from __future__ import annotations

from pathlib import Path

import pytest

FOLDER = Path(__file__).parent
LAST = "test_accuracy_page.py"
WHOLE_FOLDER = pytest.StashKey[bool]()


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Puts the page's test behind all others, which note what it prints."""
    items.sort(key=lambda item: item.path == FOLDER / LAST)
    here = {item.path for item in items if item.path.parent == FOLDER}
    chosen = config.option.keyword or config.option.markexpr or config.getoption("lf", False)
    asked = [*config.args, *(config.option.deselect or ())]
    chosen = chosen or any("::" in name and FOLDER.name in name for name in asked)
    config.stash[WHOLE_FOLDER] = here == set(FOLDER.glob("test_*.py")) and not chosen


@pytest.fixture
def whole_folder(request: pytest.FixtureRequest) -> bool:
    """Whether every test of this folder was collected."""
    return request.config.stash[WHOLE_FOLDER]
