"""Cable classes and devices of an author's own: read like those of the catalogue, and refused with one clear error."""

from __future__ import annotations

import pytest

from coaxwright.catalogue import CableType, Catalogue, load_catalogue
from coaxwright.catalogue.own import STATED, header_problems, with_own
from coaxwright.source import Problem, read_text


def own(text: str) -> tuple[Catalogue, list[Problem]]:
    return with_own([read_text(text, "van.coax-catalogue.yaml")])


def made(text: str) -> Catalogue:
    catalogue, problems = own(text)
    assert problems == []
    return catalogue


def told(text: str) -> list[str]:
    catalogue, problems = own(text)
    assert catalogue is load_catalogue()  # nothing of it is used
    return [f"{one.span.start.line}:{one.span.start.column} {one.message}" for one in problems]


def test_a_class_takes_from_the_one_it_is_like_what_it_does_not_say() -> None:
    catalogue = made("classes: {van 6: {like: series 6, velocity: 84 %, source: data sheet}}")
    read = catalogue.cable_type("van 6 quad outdoor")
    assert isinstance(read, CableType)
    shipped = load_catalogue().every_class["series 6"]
    assert read.cable_class.velocity_factor == 0.84
    assert read.cable_class.impedance_ohm == shipped.impedance_ohm
    assert read.cable_class.attenuation.published.points == shipped.attenuation.published.points
    assert (read.shield.name, read.jacket.name) == ("quad", "outdoor")
    assert catalogue.own["van 6"].file == "van.coax-catalogue.yaml"
    assert catalogue.own["van 6"].document == "data sheet"


def test_what_it_says_has_the_source_that_it_names() -> None:
    catalogue = made("classes: {van 6: {like: series 6, velocity: 84 %, source: data sheet}}")
    sources = catalogue.every_class["van 6"].sources
    assert (sources["velocity"].document, sources["velocity"].confidence) == ("data sheet", STATED)
    assert sources["impedance"] == load_catalogue().every_class["series 6"].sources["impedance"]


def test_its_own_table_replaces_the_other_and_is_exact_unless_it_says_a_spread() -> None:
    catalogue = made(
        "classes:\n  van 6:\n    like: series 6\n"
        "    attenuation: {table: {5 MHz: 0.6 dB/100 ft, 1002 MHz: 6.3 dB/100 ft}}\n"
    )
    freqs_hz, losses = catalogue.every_class["van 6"].attenuation.published.points
    assert list(freqs_hz) == [5e6, 1002e6]
    # 1 ft is 0.3048 m by definition (NIST SP 811, appendix B.6)
    assert list(losses) == pytest.approx([0.6 / 30.48, 6.3 / 30.48])


def test_a_class_of_ones_own_is_not_offered_where_the_author_did_not_name_it() -> None:
    catalogue = made("classes: {van 6: {like: series 6}}")
    assert "van 6" in catalogue.every_class
    assert "van 6" not in load_catalogue().every_class


def test_a_device_is_found_by_its_name_alone() -> None:
    catalogue = made(
        "devices:\n  quiet splitter:\n    like: 2-way splitter\n"
        "    paths: [{from: in, to: out, band: 5 MHz to 1218 MHz, nominal: 3.4 dB}]\n"
    )
    model = catalogue.models["quiet splitter"]
    assert (model.kind, model.ways) == ("splitter", 2)
    assert {(path.loss.low_db, path.loss.nominal_db, path.loss.high_db) for path in model.paths} == {(3.4, 3.4, 3.4)}
    assert catalogue.device("splitter", 2) == load_catalogue().device("splitter", 2)


S7 = "classes:\n  s7: {like: series 6, "


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("classes: {s7: {like: seires 6}}", "1:22 there is no 'seires 6'; did you mean 'series 6'?"),
        (f"{S7}velocty: 85 %}}", "2:24 s7 has no field 'velocty'; did you mean 'velocity'?"),
        (f"{S7}velocity: fast}}", "2:34 'fast' cannot stand for 'velocity'; write '85 %' or '-8.0 %'"),
        (
            f"{S7}velocity: 130 %}}",
            "2:34 130% of the velocity of light cannot be; write 85 % or what the data sheet says",
        ),
        (f"{S7}source: [a]}}", "2:32 a list cannot stand for 'source'; name the document in words"),
        (f"{S7}source: ''}}", "2:32 '' cannot stand for 'source'; name the document in words"),
        (
            "classes: {series 6: {like: series 6}}",
            "1:11 'series 6' is in the catalogue of the program already; give your own another name",
        ),
        (
            "devices: {2-way splitter: {like: 2-way splitter}}",
            "1:11 '2-way splitter' is in the catalogue of the program already; give your own another name",
        ),
        ("classes: {s7: }", "1:11 nothing is said of 's7'; write its figures below it"),
        ("clases: {s7: {like: series 6}}", "1:1 a catalogue has no field 'clases'; did you mean 'classes'?"),
        ("paint: blue", "1:1 a catalogue has no field 'paint'; it holds 'classes' and 'devices'"),
        (
            "classes: {s7: {impedance: 75 ohm}}",
            "1:11 's7' has no 'velocity', 'centre diameter', 'dielectric diameter', 'attenuation', 'shields', "
            "'centres', 'jackets' or 'defaults'; state all of it, or say 'like: series 6' and only what differs",
        ),
        (
            "devices: {box: {impedance: 75 ohm, ports: []}}",
            "1:11 'box' has no 'kind' or 'connector'; "
            "state all of it, or say 'like: 2-way splitter' and only what differs",
        ),
        (
            f"{S7}attenuation: {{table: {{5 MHz: 2 dB/100 ft, 1002 MHz: 1 dB/100 ft}}}}}}",
            "2:45 the attenuation does not rise with the frequency; look at the data sheet",
        ),
        (
            f"{S7}attenuation: {{table: {{5 MHz: 2 dB/100 ft}}}}}}",
            "2:45 a table of one point says nothing between frequencies; write two or more",
        ),
        (
            f"{S7}attenuation: {{table: {{5 MHz: -2 dB/100 ft, 9 MHz: 3 dB/100 ft}}}}}}",
            "2:53 '-2 dB/100 ft' is not an attenuation; write '6.55 dB/100 ft' or '21.5 dB/100 m'",
        ),
        (
            "devices:\n  q:\n    like: 2-way splitter\n"
            "    paths: [{from: in, to: out, band: 5 MHz to 1218 MHz, nominal: 2.4 dB}]\n",
            "2:3 it loses 2.4 dB, and dividing alone takes 3.01 dB; look at the data sheet",  # 10 log 2
        ),
    ],
)  # fmt: skip
def test_one_error_for_each_mistake_and_nothing_is_used(text: str, said: str) -> None:
    assert told(text) == [said]


def test_two_files_that_name_one_thing() -> None:
    text = "classes: {van 6: {like: series 6}}"
    files = [read_text(f"{' ' if one == 'b' else ''}{text}", f"{one}.coax-catalogue.yaml") for one in "ab"]
    _, problems = with_own(files)
    (problem,) = problems
    assert problem.file == "b.coax-catalogue.yaml"
    assert (
        problem.message
        == "'van 6' is there twice, first in a.coax-catalogue.yaml, line 1; give one of them another name"
    )


def test_all_mistakes_of_all_files_are_told_together() -> None:
    files = [
        read_text("classes: {a: {like: series 61}}", "a.coax-catalogue.yaml"),
        read_text("classes: {b: {like: series 71}}", "b.coax-catalogue.yaml"),
    ]
    assert [problem.file for problem in with_own(files)[1]] == ["a.coax-catalogue.yaml", "b.coax-catalogue.yaml"]


@pytest.mark.parametrize(
    "text", ["classes: {}", "coaxwright catalogue: 2", "coaxwright catalogue: true", "[]", "coaxwright: 1"]
)
def test_a_file_that_does_not_begin_as_a_catalogue(text: str) -> None:
    (problem,) = header_problems(read_text(text, "van.coax-catalogue.yaml"))
    assert problem.message == (
        "this is not a catalogue of this format; a catalogue begins with 'coaxwright catalogue: 1'"
    )


def test_the_same_words_give_the_same_catalogue() -> None:
    assert made("classes: {van 6: {like: series 6}}") is made("classes: {van 6: {like: series 6}}")
