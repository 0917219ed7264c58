"""One direction of imports: a room imports only from rooms upstream of it."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

PACKAGE = Path(__file__).parents[3] / "lint" / "coaxwright"
ORDER = (
    "version",
    "errors",
    "frozen_value",
    "shipped",
    "physics",
    "source",
    "design",
    "catalogue",
    "network",
    "analysis",
    "checks",
    "rules",
    "findings",
    "amend",
    "reviewing",
    "reports",
    "starters",
    "cli",
)
ABOVE_ALL = {"__init__", "__main__", "computing", "loading", "publish"}
"""The public face and the publisher, which may import anything; nothing imports them but the command line."""
FACES_FOR_THE_COMMAND_LINE = {"computing", "loading"}
MODULES = sorted(PACKAGE.rglob("*.py"))


def room(parts: tuple[str, ...]) -> str:
    return parts[0].removesuffix(".py") if parts else "__init__"


def imported_rooms(path: Path) -> Iterator[tuple[int, str]]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names: list[str] = []
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, "relative imports hide the direction"
            names = [node.module or ""]
            if node.module == "coaxwright":
                names = [f"coaxwright.{alias.name}" for alias in node.names]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        for name in names:
            if name.startswith("coaxwright."):
                yield node.lineno, name.split(".")[1]


def test_imports_point_upstream() -> None:
    assert [offence for path in MODULES for offence in imports_from_below(path)] == []


def imports_from_below(path: Path) -> Iterator[str]:
    own = room(path.relative_to(PACKAGE).parts)
    if own in ABOVE_ALL:
        return
    for line, other in imported_rooms(path):
        if own == "cli" and other in FACES_FOR_THE_COMMAND_LINE:
            continue
        if ORDER.index(other) > ORDER.index(own):
            yield f"{path.relative_to(PACKAGE)}:{line}: {own} imports {other}"


def test_every_room_is_in_the_order() -> None:
    rooms = {room(path.relative_to(PACKAGE).parts) for path in MODULES} - ABOVE_ALL
    assert rooms == set(ORDER)


def test_physics_imports_nothing_of_the_project_but_itself() -> None:
    found = {other for path in (PACKAGE / "physics").rglob("*.py") for _, other in imported_rooms(path)}
    assert found <= {"physics"}


def test_every_room_has_real_content() -> None:
    for name in ORDER[4:]:
        functions = [
            node
            for path in (PACKAGE / name).rglob("*.py")
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            if isinstance(node, ast.FunctionDef)
        ]
        assert len(functions) >= 3, name


def test_no_module_is_long() -> None:
    lengths = {path.relative_to(PACKAGE): len(path.read_text(encoding="utf-8").splitlines()) for path in MODULES}
    assert {path: lines for path, lines in lengths.items() if lines > 400} == {}
