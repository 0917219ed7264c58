"""The Python shown on its page runs, and every public name stands there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import coaxwright
from coaxwright.network import Network

TOP = Path(__file__).parents[2]
PAGE = (TOP / "docs" / "python.md").read_text(encoding="utf-8")
SNIPPETS = re.findall(r"```python\n(.*?)```", PAGE, re.DOTALL)


@pytest.mark.parametrize("snippet", SNIPPETS, ids=lambda snippet: snippet.split()[2])
def test_a_snippet_runs_and_tells_something(
    snippet: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(TOP)
    exec(compile(snippet, "docs/python.md", "exec"), {})  # the page's own lines
    assert len(capsys.readouterr().out.splitlines()) > 1


def test_every_public_name_is_on_the_page() -> None:
    assert [name for name in coaxwright.__all__ if not name.startswith("__") and f"`{name}" not in PAGE] == []


def test_every_question_on_the_page_is_one() -> None:
    asked = re.findall(r"`([a-z_]+)(?:\([^`]*\))?`", PAGE.partition("| question | answer |")[2].partition("\n\n")[0])
    assert len(asked) > 20
    fields = {*Network.__dataclass_fields__, *dir(Network), "neighbors"}
    assert [name for name in asked if name not in fields] == []
