"""From nothing to a design of one's own: start, show, review, from a shell."""

from __future__ import annotations

import json
import shlex
from pathlib import Path


def test_the_commands_that_start_tells_next_can_be_run_as_they_stand(coax, site: Path) -> None:
    begun = coax("start", "Gull Row 5's.coax.yaml", "--with", "off-air", "--dwelling", "two-family")
    assert (begun.returncode, begun.stderr) == (0, "")
    show, review = [shlex.split(line) for line in begun.stdout.splitlines() if line.startswith("  ")]
    assert (show[:2], review[:2]) == (["coaxwright", "show"], ["coaxwright", "review"])
    shown = coax(*show[1:])
    assert (shown.returncode, shown.stderr) == (0, "")
    assert "all of it is connected" in " ".join(shown.stdout.split())
    reviewed = coax(*review[1:])
    assert reviewed.returncode == 0
    assert "\nCLEAR: nothing found" in reviewed.stdout
    again = coax("start", "Gull Row 5's.coax.yaml")
    assert (again.returncode, again.stdout) == (2, "")
    assert again.stderr == "coaxwright: Gull Row 5's.coax.yaml is there already; nothing was written\n"


def test_an_author_finds_a_slip_in_what_was_understood(coax, site: Path) -> None:
    assert coax("start", "a.coax.yaml").returncode == 0
    file = site / "a.coax.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("to: TV1,", "to: TV7,"), encoding="utf-8")
    shown = coax("show", "a.coax.yaml", "--width", "80")
    assert shown.returncode == 0
    line = next(n for n, text in enumerate(file.read_text(encoding="utf-8").splitlines(), 1) if "to: TV7" in text)
    assert f"  a.coax.yaml:{line}:24\n    'TV7' is no device; did you mean 'TV1'?\n" in shown.stdout
    assert "  TV1  in (outlet)\n" in shown.stdout


BOTH_FORMS = """
import sys
from coaxwright.cli import main
sys.exit(max(main(["show", sys.argv[1], "--as", form]) for form in ("text", "json")))
"""


def test_the_same_bytes_whatever_the_seed_and_the_terminal(coax, site: Path) -> None:
    one = coax("as-drawn.coax.yaml", program=BOTH_FORMS, PYTHONHASHSEED="0", COLUMNS="70")
    other = coax("as-drawn.coax.yaml", program=BOTH_FORMS, PYTHONHASHSEED="7", NO_COLOR="1")
    assert (one.returncode, one.stderr) == (other.returncode, other.stderr) == (0, "")
    assert one.stdout == other.stdout
    assert one.stdout == "".join(coax("show", "as-drawn.coax.yaml", "--as", form).stdout for form in ("text", "json"))
    assert str(site) not in one.stdout


def test_a_file_named_from_elsewhere_is_called_by_its_way_from_here(coax, site: Path) -> None:
    shown = coax("show", "site/corrected.coax.yaml", "--as", "json", cwd=site.parent)
    assert json.loads(shown.stdout)["file"] == "site/corrected.coax.yaml"


def test_what_is_not_understood_ends_with_2(coax, site: Path) -> None:
    (site / "a.coax.yaml").write_text("coaxwright: 1\n", encoding="utf-8")
    shown = coax("show", "a.coax.yaml")
    assert shown.returncode == 2
    assert shown.stdout == coax("review", "a.coax.yaml").stdout


def test_what_a_drawn_in_part_says_stands_with_its_place_in_the_part(coax, site: Path) -> None:
    (site / "a.coax.yaml").write_text(
        "coaxwright: 1\ntitle: A\nbasis: {rulesets: [us 2023]}\nincludes: [b.coax-part.yaml]\n", encoding="utf-8"
    )
    (site / "b.coax-part.yaml").write_text(
        "coaxwright part: 1\ndevices:\n  TV1: {kind: outlet, place: attic}\n", encoding="utf-8"
    )
    shown = coax("show", "a.coax.yaml")
    assert shown.returncode == 0
    assert "  b.coax-part.yaml:3:30\n    'attic' is no place\n" in shown.stdout


UNITS = """\
coaxwright: 1
title: Ruff Row 5 (invented)
basis: {rulesets: [trade 1]}
places: {hall: {}}
devices: {SP0: {kind: splitter, ways: 2, place: hall}}
typical:
  flat:
    places: {den: {}}
    devices:
      TV: {kind: outlet, place: dne}
units:
  flat-1 to flat-2: {like: flat}
cables:
  C-1: {from: SP0, to: flat-1/TV, type: series 6, length: 20 ft}
"""


def test_what_could_not_be_connected_in_a_typical_unit_is_told_where_it_is_written(coax, site: Path) -> None:
    (site / "row.coax.yaml").write_text(UNITS, encoding="utf-8")
    shown = coax("show", "row.coax.yaml")
    assert (shown.returncode, shown.stderr) == (0, "")
    assert "row.coax.yaml:10:33" in shown.stdout
    assert "flat-2/TV" in shown.stdout


def test_a_design_for_an_editor_names_the_schema_that_lies_beside_it(coax, site: Path) -> None:
    done = coax("start", "gull.coax.yaml", "--editor")
    assert (done.returncode, done.stderr) == (0, "")
    first = (site / "gull.coax.yaml").read_text(encoding="utf-8").splitlines()[0]
    name = first.removeprefix("# yaml-language-server: $schema=")
    schema = json.loads((site / name).read_text(encoding="utf-8"))
    assert schema["$schema"] == "http://json-schema.org/draft-07/schema#"
    assert coax("review", "gull.coax.yaml").returncode == 0
    assert coax("start", "tern.coax.yaml", "--editor").returncode == 0  # the schema is there already
