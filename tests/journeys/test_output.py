"""What comes out is the same everywhere: seed, folder, order, locale, pipe, terminal, optional parts."""

from __future__ import annotations

import os
import pty
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import coaxwright

EXAMPLE = Path(__file__).parents[2] / "examples" / "tern-cottage"
FORMS = ("text", "json", "sarif")


@pytest.mark.parametrize("name", ["as-drawn", "corrected"])
def test_the_example_site_gives_the_review_that_stands_beside_it(coax, without_counts, site: Path, name: str) -> None:
    """Brought up to date by: coaxwright review NAME.coax.yaml --width 80 --into NAME.review.txt"""
    told = coax("review", f"{name}.coax.yaml", "--width", "80")
    kept = (EXAMPLE / f"{name}.review.txt").read_text(encoding="utf-8")
    assert without_counts(told.stdout) == without_counts(kept)


EVERY_FORM = """
import sys
from coaxwright.cli import main
sys.exit(max(main(["review", *sys.argv[1:], "--as", form]) for form in %r))
"""


def test_the_same_bytes_whatever_the_seed_the_order_and_the_locale(coax, site: Path) -> None:
    shutil.copy(site / "as-drawn.coax.yaml", site / "zwölf Möwen.coax.yaml")
    names = sorted(path.name for path in site.iterdir())
    program = EVERY_FORM % (FORMS,)
    first = coax(*names, program=program, PYTHONHASHSEED="0", LC_ALL="C.UTF-8")
    again = coax(*reversed(names), program=program, PYTHONHASHSEED="1", LC_ALL="C", COLUMNS="61")
    assert (again.stdout, again.returncode) == (first.stdout, 1)
    shown = [coax("review", *names, "--as", form).stdout for form in FORMS]
    assert first.stdout == "".join(shown)
    assert all("zwölf Möwen" in text or "zw%C3%B6lf" in text for text in shown)


def test_the_same_bytes_for_files_and_their_folder(coax, site: Path) -> None:
    names = sorted(path.name for path in site.iterdir())
    assert coax("review", site, *names).stdout == coax("review", *names, PYTHONUTF8="0").stdout


@pytest.mark.parametrize("form", ["text", "sarif"])
def test_the_same_bytes_in_another_folder_and_no_absolute_path(coax, site: Path, tmp_path: Path, form: str) -> None:
    elsewhere = Path(shutil.copytree(site, tmp_path / "a" / "deeper" / "folder" / "plans"))
    here = coax("review", "as-drawn.coax.yaml", "--as", form)
    there = coax("review", elsewhere / "as-drawn.coax.yaml", "--as", form, cwd=elsewhere)
    assert here.stdout == there.stdout
    for path in (site, elsewhere, Path(coaxwright.__file__).parent):
        assert str(path) not in here.stdout + there.stdout


def test_a_folder_is_decoyed_in_vain(coax, site: Path) -> None:
    before = coax("review", "as-drawn.coax.yaml")
    for name in ("rulesets/us", "rulesets/trade", "schemas"):
        (site / name).mkdir(parents=True)
        (site / name / "2023.yaml").write_text("not: a ruleset\n", encoding="utf-8")
    (site / "coaxwright.py").write_text("raise SystemExit(0)\n", encoding="utf-8")
    program = "import sys; sys.path.pop(0); from coaxwright.cli import main; sys.exit(main())"
    after = coax("review", "as-drawn.coax.yaml", program=program)
    assert (after.stdout, after.returncode) == (before.stdout, 1)


@pytest.mark.parametrize("name", ["as-drawn", "broken"])
def test_the_same_bytes_without_the_fast_validator(coax, site: Path, name: str) -> None:
    text = (site / "as-drawn.coax.yaml").read_text(encoding="utf-8")
    (site / "broken.coax.yaml").write_text(
        text.replace("8 ft}", "8}").replace("kind: outlet", "knd: outlet"), encoding="utf-8"
    )
    program = "import sys; sys.modules['jsonschema_rs'] = None; from coaxwright.cli import main; sys.exit(main())"
    fast = coax("review", f"{name}.coax.yaml")
    slow = coax("review", f"{name}.coax.yaml", program=program)
    assert (slow.stdout, slow.returncode, slow.stderr) == (fast.stdout, fast.returncode, "")
    assert fast.returncode == {"as-drawn": 1, "broken": 2}[name]


@pytest.mark.parametrize("options", [(), ("--plain",)])
def test_a_reader_that_leaves_early_sees_no_traceback(site: Path, options: tuple[str, ...]) -> None:
    environment = {**os.environ, "PYTHONPATH": str(Path(coaxwright.__file__).parents[1])}
    command = [sys.executable, "-m", "coaxwright", "review", ".", *options]
    with subprocess.Popen(
        command, cwd=site, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as process:
        assert process.stdout is not None
        process.stdout.close()
        assert process.stderr is not None
        assert process.stderr.read() == ""
    assert process.returncode == 3, "a report that nobody read to its end is not a review"


@pytest.mark.parametrize(("to", "told"), [("> /dev/full", "no space left on device"), (">&-", "it is closed")])
def test_what_takes_no_report_is_told_and_is_no_review(site: Path, to: str, told: str) -> None:
    environment = {**os.environ, "PYTHONPATH": str(Path(coaxwright.__file__).parents[1])}
    line = f'"{sys.executable}" -m coaxwright review as-drawn.coax.yaml {to}'
    done = subprocess.run(["sh", "-c", line], cwd=site, env=environment, stderr=subprocess.PIPE, text=True, check=False)
    assert done.stderr == f"coaxwright: cannot write to standard output: {told}\n"
    assert done.returncode == 3


def on_a_terminal(site: Path, *words: str, **changes: str) -> str:
    environment = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "COLUMNS")}
    environment |= {"PYTHONPATH": str(Path(coaxwright.__file__).parents[1]), **changes}
    outer, inner = pty.openpty()
    command = [sys.executable, "-m", "coaxwright", "review", *words]
    with subprocess.Popen(command, cwd=site, env=environment, stdout=inner, stdin=subprocess.DEVNULL) as process:
        os.close(inner)
        shown = b""
        while True:
            try:
                part = os.read(outer, 65536)
            except OSError:  # how a terminal says that nobody writes to it any more
                break
            if not part:
                break
            shown += part
    os.close(outer)
    assert process.returncode == 1
    return shown.decode("utf-8").replace("\r\n", "\n")


def test_a_terminal_gets_color_unless_it_is_not_wanted(coax, site: Path) -> None:
    plain = coax("review", "as-drawn.coax.yaml", "--width", "80").stdout
    painted = on_a_terminal(site, "as-drawn.coax.yaml", COLUMNS="80")
    assert "\x1b[1;31mVIOLATION\x1b[0m" in painted
    assert on_a_terminal(site, "as-drawn.coax.yaml", COLUMNS="80", NO_COLOR="1") == plain
    assert on_a_terminal(site, "as-drawn.coax.yaml", "--plain", COLUMNS="80") == plain
    assert "\x1b" not in plain


@pytest.mark.parametrize("width", [80, 120])
def test_no_line_is_wider_than_asked(coax, site: Path, width: int) -> None:
    lines = coax("review", ".", "--width", str(width)).stdout.splitlines()
    assert max(map(len, lines)) <= width
    assert max(map(len, lines)) > width - 10


def test_a_file_name_that_is_no_text_is_reviewed_all_the_same(coax, site: Path) -> None:
    (site / "corrected.coax.yaml").rename(site / os.fsdecode(b"M\xf6we\x1b[2J.coax.yaml"))
    told = coax("review", ".")
    assert (told.returncode, told.stderr) == (1, "")
    assert "M\N{REPLACEMENT CHARACTER}we\N{REPLACEMENT CHARACTER}[2J.coax.yaml" in told.stdout
    assert "\x1b" not in told.stdout
