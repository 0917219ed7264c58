"""What every outlet gets, asked for from a shell: every form, suppositions, and words that name nothing."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from xml.etree import ElementTree

import pytest
from jsonschema import Draft202012Validator

from coaxwright.shipped import shipped

SITE = "corrected.coax.yaml"
FORMS = ("text", "csv", "json", "svg")


def test_an_installer_reads_what_every_outlet_gets(coax) -> None:
    told = coax("levels", SITE, "--width", "80")
    assert (told.returncode, told.stderr) == (0, "")
    assert "BROADBAND, DOWNSTREAM\n" in told.stdout
    assert "BROADBAND, UPSTREAM\n" in told.stdout
    assert "OFF-AIR, DOWNSTREAM\n" in told.stdout
    for outlet in ("BED", "KITCHEN", "MODEM", "STUDIO", "LIVING"):
        assert f"\n  {outlet} " in told.stdout
    assert max(map(len, told.stdout.splitlines())) <= 80


@pytest.mark.parametrize("form", FORMS)
def test_a_form_goes_to_a_file_as_it_goes_to_the_screen(form: str, coax, site: Path) -> None:
    shown = coax("levels", SITE, "--as", form)
    assert (shown.returncode, shown.stderr) == (0, "")
    written = coax("levels", SITE, "--as", form, "--into", "levels.out")
    assert (written.returncode, written.stdout, written.stderr) == (0, "", "")
    assert (site / "levels.out").read_text(encoding="utf-8") == shown.stdout
    assert str(site) not in shown.stdout


@pytest.mark.parametrize("form", FORMS)
def test_the_same_bytes_whatever_the_seed_and_the_terminal(form: str, coax) -> None:
    one = coax("levels", SITE, "--as", form, PYTHONHASHSEED="0", COLUMNS="70")
    other = coax("levels", SITE, "--as", form, PYTHONHASHSEED="7", NO_COLOR="1")
    assert one.returncode == other.returncode == 0
    assert one.stdout == other.stdout


def test_a_spreadsheet_a_program_and_a_drawing_get_the_same_outlets(coax) -> None:
    table = list(csv.DictReader(io.StringIO(coax("levels", SITE, "--as", "csv").stdout)))
    data = json.loads(coax("levels", SITE, "--as", "json").stdout)
    schema = json.loads((shipped("schemas") / "levels-1.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator(schema).validate(data)
    of_data = {(service["service"], outlet["outlet"]) for service in data["services"] for outlet in service["outlets"]}
    assert of_data == {(row["service"], row["outlet"]) for row in table}
    drawing = ElementTree.fromstring(coax("levels", SITE, "--as", "svg").stdout)
    words = {element.text for element in drawing.iter("{http://www.w3.org/2000/svg}text")}
    assert {outlet for _, outlet in of_data} <= words


@pytest.mark.parametrize("form", FORMS)
def test_one_service_and_one_outlet_narrow_every_form(form: str, coax) -> None:
    told = coax("levels", SITE, "--as", form, "--service", "broadband", "--outlet", "BED").stdout
    assert "BED" in told
    assert not any(other in told for other in ("KITCHEN", "STUDIO", "LIVING"))


def test_an_outlet_that_does_not_want_the_service_says_so(coax) -> None:
    told = coax("levels", SITE, "--service", "broadband", "--outlet", "LIVING")
    assert told.returncode == 0
    assert "broadband is left out: LIVING does not want it." in told.stdout


def studio_dbmv(coax, *suppositions: str) -> float:
    words = [word for supposition in suppositions for word in ("--suppose", supposition)]
    told = coax("levels", SITE, "--as", "json", "--service", "broadband", "--outlet", "STUDIO", *words)
    assert (told.returncode, told.stderr) == (0, "")
    data = json.loads(told.stdout)
    assert data["suppositions"] == list(suppositions)
    return float(data["services"][0]["outlets"][0]["points"][-1]["level_dbmv"]["nominal"])


def test_suppositions_tell_what_a_change_would_bring_and_leave_the_file(coax, site: Path) -> None:
    """C-107 is Series 11, 270 ft at 1002 MHz: in Series 6 it loses 2.2 dB/100 ft more. Source: ANSI/SCTE 74."""
    before = (site / SITE).read_bytes()
    now = studio_dbmv(coax)
    assert studio_dbmv(coax, "amplifier of 12 dB ahead of SP1") - now == pytest.approx(12)
    assert studio_dbmv(coax, "pad of 6 dB ahead of STUDIO") - now == pytest.approx(-6)
    assert studio_dbmv(coax, "broadband with 20 dBmV at 54 MHz") - now == pytest.approx(5)
    assert now - studio_dbmv(coax, "C-107 in series 6") == pytest.approx(11.9 * (6.55 / 4.35 - 1), abs=0.1)
    both = studio_dbmv(coax, "amplifier of 12 dB ahead of SP1", "pad of 6 dB ahead of STUDIO")
    assert both - now == pytest.approx(6)
    assert (site / SITE).read_bytes() == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--service", "brodband"), "the design has no service 'brodband'; did you mean 'broadband'?"),
        (("--outlet", "LIVNG"), "the design has no outlet 'LIVNG'; did you mean 'LIVING'?"),
        (("--outlet", "SP1"), "no service is wanted at SP1"),
        (("--suppose", "C-107 in seris 6"), "'seris 6' names no cable class"),
        (("--suppose", "C-107 in seris 6"), "did you mean 'series 6'?"),
        (("--suppose", "pad of 7 dB ahead of BED"), "no pad of 7 dB is made; there are 3 dB, 6 dB, 10 dB, 20 dB"),
        (("--suppose", "pad of 6 dB ahead of BD"), "the design has no device 'BD'; did you mean 'BED'?"),
        (("--suppose", "amplifier of -3 dB ahead of SP1"), "write a figure above 0 dB"),
        (("--suppose", "broadband with 20 dBmV"), "write '10 dBmV at 54 MHz'"),
        (("--suppose", "more"), "'more' is not understood; write it like 'C-104 in series 11'"),
        (("--as", "svgg"), "--as takes text, csv, json or svg, not 'svgg'; did you mean 'svg'?"),
        (("--into", "no-folder/x.csv"), "cannot write no-folder/x.csv"),
    ],
)
def test_a_word_that_names_nothing_is_told_with_the_nearest_right_one(words: tuple[str, ...], said: str, coax) -> None:
    told = coax("levels", SITE, *words)
    assert (told.returncode, told.stdout) == (2, "")
    assert said in told.stderr
    assert len(told.stderr.splitlines()) == 1


@pytest.mark.parametrize("form", FORMS)
def test_a_design_that_is_not_understood_overwrites_nothing(form: str, coax, site: Path) -> None:
    (site / "a.coax.yaml").write_text("coaxwright: 1\ntitel: A\n", encoding="utf-8")
    (site / "old.out").write_text("kept", encoding="utf-8")
    told = coax("levels", "a.coax.yaml", "--as", form, "--into", "old.out")
    assert (told.returncode, told.stdout) == (2, "")
    assert "did you mean 'title'?" in told.stderr
    assert "Traceback" not in told.stderr
    assert (site / "old.out").read_text(encoding="utf-8") == "kept"


@pytest.mark.parametrize("path", ["nothing.coax.yaml", ".", "flats.coax-part.yaml"])
def test_what_is_no_design_ends_with_2(path: str, coax) -> None:
    told = coax("levels", path)
    assert (told.returncode, told.stdout) == (2, "")
    assert told.stderr
    assert "Traceback" not in told.stderr
