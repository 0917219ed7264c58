"""Every way of installing gives the same program with the same data."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
import tarfile
import tomllib
import venv
import zipfile
from collections.abc import Callable
from email.parser import HeaderParser
from pathlib import Path

import pytest

EXAMPLE = Path(__file__).parents[2] / "examples" / "tern-cottage"
CLEAN = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "COAXWRIGHT"))}
FOUND = "import coaxwright.shipped as s, json; print(json.dumps([str(s.shipped(f)) for f in ('rulesets', 'schemas')]))"
UNPARSED = """
from coaxwright.catalogue import loader
from coaxwright.rules import ruleset_registry as rulesets, shipped_registry
from coaxwright.source.preparsed import preparsed_of
files = [(loader.PREPARSED, *file) for file in loader.files()]
files += [(rulesets.PREPARSED, *page) for path in shipped_registry().files.values() for page in rulesets.pages(path)]
print([name for kept, name, path in files if preparsed_of(kept, name, path.read_bytes()) is None])
"""
"""Prints the shipped files that are not read as they were parsed ahead."""
Make = Callable[[str], Path]


def run(*words: str | Path, cwd: Path, status: int = 0) -> str:
    done = subprocess.run(
        [str(word) for word in words],
        cwd=cwd,
        env=CLEAN,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == status, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="session")
def built(checkout: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the sdist made from the checkout, and the wheel made from that sdist."""
    folder = tmp_path_factory.mktemp("built")
    run(sys.executable, "-m", "build", "--outdir", folder, checkout, cwd=folder)
    return folder


@pytest.fixture(scope="session")
def wheel(built: Path) -> Path:
    (path,) = built.glob("*.whl")
    return path


@pytest.fixture(scope="session")
def sdist(built: Path) -> Path:
    (path,) = built.glob("*.tar.gz")
    return path


@pytest.fixture
def beside_decoys(tmp_path: Path) -> Path:
    """A folder under review that holds folders named like ours."""
    folder = tmp_path / "plans"
    for name in ("rulesets/us", "rulesets/trade", "schemas", "coaxwright"):
        (folder / name).mkdir(parents=True)
    for name in (
        "rulesets/us/2023.yaml",
        "rulesets/trade/1.yaml",
        "schemas/design-1.schema.json",
        "coaxwright/__init__.py",
    ):
        (folder / name).write_text("no: data of ours\n", encoding="utf-8")
    for path in EXAMPLE.glob("*.coax.yaml"):
        shutil.copy(path, folder)
    return folder


@pytest.fixture
def expected(coax, site: Path) -> str:
    return str(coax("review", ".", "--as", "json").stdout)


@pytest.fixture
def environment(tmp_path: Path) -> Callable[..., Path]:
    """A fresh environment with one thing installed; the libraries are those of the tests' own environment."""

    def make(*what: str | Path) -> Path:
        folder = tmp_path / "environment"
        venv.create(folder, symlinks=True)
        packages = next((folder / "lib").glob("python3.*")) / "site-packages"
        libraries = [path for path in sys.path if path.endswith("site-packages")]
        (packages / "libraries.pth").write_text("\n".join(libraries) + "\n", encoding="utf-8")
        python = folder / "bin" / "python"
        options = ("--quiet", "--no-deps", "--ignore-installed", "--no-compile")
        run(python, "-m", "pip", "install", *options, *what, cwd=tmp_path)
        return folder

    return make


def assert_same_review(environment: Path, beside_decoys: Path, expected: str) -> None:
    told = run(environment / "bin" / "coaxwright", "review", ".", "--as", "json", cwd=beside_decoys, status=1)
    assert told == expected


WAYS = ("wheel", "sdist", "editable")


@pytest.mark.parametrize("way", WAYS)
def test_the_same_review_however_it_was_installed(
    way: str,
    wheel: Path,
    sdist: Path,
    checkout: Path,
    environment: Callable[..., Path],
    beside_decoys: Path,
    expected: str,
) -> None:
    what: dict[str, tuple[str | Path, ...]] = {"wheel": (wheel,), "sdist": (sdist,), "editable": ("-e", checkout)}
    installed = environment(*what[way])
    assert_same_review(installed, beside_decoys, expected)
    assert run(installed / "bin" / "python", "-c", UNPARSED, cwd=beside_decoys.parent) == "[]\n"
    inside = checkout if way == "editable" else installed
    for folder in json.loads(run(installed / "bin" / "python", "-c", FOUND, cwd=installed)):
        assert Path(folder).is_relative_to(inside.resolve()), "the program looks for its data outside of itself"


OTHER_PYTHONS = [
    name for name in ("python3.11", "python3.12", "python3.13") if name != f"python3.{sys.version_info.minor}"
]


def interpreter(name: str) -> Path | None:
    """The interpreter of that version on this machine, if there is one that starts."""
    known = [shutil.which(name), *sorted(map(str, Path.home().glob(f".pyenv/versions/{name[6:]}.*/bin/{name}")))]
    for path in filter(None, known):
        if subprocess.run([path, "-c", "pass"], capture_output=True, check=False).returncode == 0:
            return Path(path)
    return None


@pytest.mark.parametrize("name", OTHER_PYTHONS)
def test_the_same_review_under_another_python(
    name: str, wheel: Path, beside_decoys: Path, expected: str, tmp_path: Path
) -> None:
    python = interpreter(name)
    if python is None:
        pytest.skip(f"there is no {name} on this machine")
    installed = tmp_path / "environment"
    run(python, "-m", "venv", "--without-pip", installed, cwd=tmp_path)
    into = ("--python", installed / "bin" / "python")
    run(sys.executable, "-m", "pip", *into, "install", "--quiet", "--no-compile", wheel, cwd=tmp_path)
    assert_same_review(installed, beside_decoys, expected)


def files_below(folder: Path, top: Path) -> set[str]:
    """The files of a checkout, without what running it leaves behind."""
    return {
        path.relative_to(top).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


def test_the_wheel_holds_the_data_and_nothing_else(wheel: Path, checkout: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = {name for name in archive.namelist() if ".dist-info/" not in name}
    wanted = files_below(checkout / "lint" / "coaxwright", checkout / "lint")
    for folder in ("rulesets", "schemas"):
        wanted |= {f"coaxwright/{name}" for name in files_below(checkout / folder, checkout)}
    assert names == wanted
    assert {"coaxwright/py.typed", "coaxwright/rulesets/trade/1.yaml", "coaxwright/catalogue/data/cables.yaml"} <= names


def test_the_sdist_is_a_whole_project(sdist: Path, checkout: Path) -> None:
    with tarfile.open(sdist) as archive:
        names = {name.partition("/")[2] for name in archive.getnames()}
    wanted = files_below(checkout, checkout)
    assert wanted - names == set()
    assert names - wanted == {"PKG-INFO"}


def test_what_the_program_needs_is_a_short_list(wheel: Path, checkout: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        (name,) = (name for name in archive.namelist() if name.endswith(".dist-info/METADATA"))
        metadata = HeaderParser().parsestr(archive.read(name).decode("utf-8"))
    needs = [need for need in metadata.get_all("Requires-Dist", []) if "extra ==" not in need]
    assert {re.split(r"[<>=!~\[; ]", need)[0].replace(".", "-") for need in needs} == {
        "jsonschema",
        "jsonschema-rs",
        "pydantic",
        "pyyaml",
        "ruamel-yaml",
        "typer",
    }
    project = tomllib.loads((checkout / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert metadata["Requires-Python"] == project["requires-python"] == ">=3.11"
    assert metadata["License-Expression"] == "Apache-2.0"
