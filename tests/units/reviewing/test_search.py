"""Which files are designs."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from itertools import permutations
from pathlib import Path

import pytest

from coaxwright.reviewing import Found, NothingToReview, find_designs


@pytest.fixture
def plans(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """plans/ with a.coax.yaml, flats/b.coax.yaml, a link out, and what is no design; the working folder is above it."""
    monkeypatch.chdir(tmp_path)
    top = tmp_path / "plans"
    for name in ("a.coax.yaml", "flats/b.coax.yaml", ".hidden/c.coax.yaml", "catalogue.yaml", "d.yml"):
        path = top / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("x: 1\n", encoding="utf-8")
    (tmp_path / "outside.coax.yaml").write_text("x: 1\n", encoding="utf-8")
    return top


def names(*paths: Path | str) -> list[str]:
    return [found.name for found in find_designs([Path(path) for path in paths])]


def faults(*paths: Path | str) -> dict[str, str]:
    return {found.name: found.fault for found in find_designs([Path(path) for path in paths]) if found.fault}


def test_a_folder_gives_its_designs_in_order(plans: Path) -> None:
    assert names("plans") == names(plans) == ["plans/a.coax.yaml", "plans/flats/b.coax.yaml"]


def test_a_hidden_folder_is_searched_only_when_it_is_named(plans: Path) -> None:
    assert names("plans/.hidden") == ["plans/.hidden/c.coax.yaml"]


@pytest.mark.parametrize("name", ["d.coax.yml", "D.COAX.YAML", "d.Coax.Yml"])
def test_what_is_nearly_named_like_a_design_is_told_and_never_passed_over(plans: Path, name: str) -> None:
    (plans / name).write_text("x: 1\n", encoding="utf-8")
    assert faults("plans") == {f"plans/{name}": "designs in a folder are named *.coax.yaml; name it so"}
    assert faults("plans", f"plans/{name}") == {}  # whoever names it wants it reviewed


def test_a_file_is_taken_whatever_its_name(plans: Path) -> None:
    assert names("plans/catalogue.yaml") == ["plans/catalogue.yaml"]


def test_a_file_named_in_many_ways_is_one(plans: Path) -> None:
    assert names("plans/a.coax.yaml", plans / "a.coax.yaml", "plans/flats/../a.coax.yaml", "./plans/a.coax.yaml") == [
        "plans/a.coax.yaml"
    ]


def test_a_missing_file_is_found_to_be_told(plans: Path) -> None:
    assert find_designs([Path("nope.coax.yaml")]) == (Found("nope.coax.yaml", Path("nope.coax.yaml")),)


@pytest.mark.parametrize(
    ("paths", "told"), [((), "nothing"), (("empty",), "empty"), (("none", "empty"), "empty, none")]
)
def test_folders_without_designs_are_nothing_to_review(plans: Path, paths: tuple[str, ...], told: str) -> None:
    for name in paths:
        Path(name).mkdir()
    with pytest.raises(NothingToReview, match=rf"^no design \(\*\.coax\.yaml\) in {told}$"):
        find_designs([Path(path) for path in paths])


def test_a_folder_without_designs_beside_others_is_told(plans: Path) -> None:
    Path("empty").mkdir()
    assert faults("empty", "plans") == {"empty": "this folder holds no design (*.coax.yaml)"}


def test_links_are_followed_within_the_folder_only(plans: Path) -> None:
    (plans / "in.coax.yaml").symlink_to("flats/b.coax.yaml")
    (plans / "out.coax.yaml").symlink_to("../outside.coax.yaml")
    (plans / "loop.coax.yaml").symlink_to("loop.coax.yaml")
    (plans / "linked").symlink_to("../..", target_is_directory=True)
    told = faults("plans")
    told.pop("plans/loop.coax.yaml", None)  # by version, Python tells such a link here or when it is opened
    assert told == {"plans/out.coax.yaml": "this link leads out of the folder under review"}
    assert "plans/loop.coax.yaml" in names("plans")
    assert "plans/in.coax.yaml" in names("plans")


def test_the_order_of_paths_does_not_show(plans: Path) -> None:
    (plans / "out.coax.yaml").symlink_to("../outside.coax.yaml")
    Path("empty").mkdir()
    paths = (Path("plans"), Path("plans/out.coax.yaml"), Path("empty"), Path("plans/flats"))
    results = {find_designs(order) for order in permutations(paths)}
    assert len(results) == 1
    assert {found.name: bool(found.fault) for found in results.pop()} == {
        "empty": True,
        "plans/a.coax.yaml": False,
        "plans/flats/b.coax.yaml": False,
        "plans/out.coax.yaml": False,
    }


def test_a_folder_that_cannot_be_searched_is_told(plans: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    scan: Callable[[str], Iterator[os.DirEntry[str]]] = os.scandir

    def refuse_flats(path: str) -> Iterator[os.DirEntry[str]]:
        if str(path).endswith("flats"):
            raise PermissionError(13, "Permission denied", str(path))
        return scan(path)

    monkeypatch.setattr(os, "scandir", refuse_flats)
    assert faults("plans") == {"plans/flats": "this folder cannot be searched (permission denied)"}
