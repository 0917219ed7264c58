"""``coaxwright start``: a design that is clear whatever was chosen, in a file that was not there before."""

from __future__ import annotations

import errno
from itertools import product
from pathlib import Path

import pytest

from coaxwright.cli import main
from coaxwright.design import Design, understand
from coaxwright.design.words import Occupancy
from coaxwright.network import build_network
from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text
from coaxwright.starters import Dwelling, Incoming, Units, starter

SHELF = shipped_registry()
RULESETS = [f"{name} {edition}" for name in SHELF.names for edition in SHELF.editions(name)]
WITH = ((Incoming.BROADBAND,), (Incoming.OFF_AIR,), tuple(Incoming))
SECTIONS = ("basis", "buildings", "places", "services", "devices", "cables", "bonding")


def design(text: str) -> Design:
    return understand(read_text(text, "a.coax.yaml"))


@pytest.mark.parametrize("ruleset", RULESETS)
@pytest.mark.parametrize(
    ("dwelling", "incoming", "units"), list(product(Dwelling, WITH, Units)), ids=lambda value: str(value)
)
def test_every_choice_is_clear_with_nothing_left_open(
    dwelling: Dwelling, incoming: tuple[Incoming, ...], units: Units, ruleset: str
) -> None:
    text = starter(dwelling, ruleset, incoming, units=units)
    review = judge(read_text(text, "a.coax.yaml"), SHELF)
    assert (review.problems, review.findings, review.crashes) == ((), (), ())
    assert sum(tally.met for tally in review.tallies) > 20
    network = build_network(design(text))
    assert (network.unknown_references, network.undecided_ports, network.port_conflicts) == ((), (), ())
    assert [tag for tag in network.devices if network.free_ports(tag)] == []
    assert [tag for tag in network.cables if not network.services_on(tag)] == []
    assert set(network.places) == {segment.tag for link in network.cables.values() for segment in link.segments}


@pytest.mark.parametrize("dwelling", Dwelling)
def test_the_kind_of_building_is_its_occupancy(dwelling: Dwelling) -> None:
    occupancy = design(starter(dwelling, "us 2023", Incoming)).basis.occupancy
    assert occupancy in Occupancy.__args__  # type: ignore[attr-defined]
    assert str(occupancy).startswith(dwelling.value)


def test_only_what_comes_in_is_written() -> None:
    for incoming in WITH:
        written = design(starter(Dwelling.ONE_FAMILY, "us 2023", incoming))
        assert set(written.services) == {service.value for service in incoming}
        kinds = {device.kind for device in written.devices.values()}
        assert ("antenna" in kinds) is (Incoming.OFF_AIR in incoming)
        assert ("coax drop" in kinds) is (Incoming.BROADBAND in incoming)


@pytest.mark.parametrize("units", Units)
def test_all_lengths_are_of_the_units_asked_for(units: Units) -> None:
    written = design(starter(Dwelling.ONE_FAMILY, "us 2023", Incoming, units=units))
    legs = [leg for cable in written.cables.values() for stretch in cable.route or () for leg in stretch.values()]
    bonds = [item for item in written.bonding.values() if item.conductor is not None]
    lengths = [*legs, *(bond.length for bond in bonds)]
    assert len(lengths) > 10
    assert {length.is_metric for length in lengths} == {units is Units.METRIC}  # type: ignore[union-attr]
    assert {bond.conductor.size.gauge is None for bond in bonds if bond.conductor} == {units is Units.METRIC}


@pytest.mark.parametrize(("dwelling", "incoming", "units"), list(product(Dwelling, WITH, Units)))
def test_each_section_is_explained_and_no_mark_is_left(
    dwelling: Dwelling, incoming: tuple[Incoming, ...], units: Units
) -> None:
    text = starter(dwelling, "us 2023", incoming, units=units)
    lines = text.splitlines()
    assert not any(mark in text for mark in ("$", "<", ">", "|", "#:"))
    assert "made up: walk the site and replace them" in " ".join(lines[:3])
    assert max(map(len, lines)) <= 120
    for section in SECTIONS[1:]:
        assert lines[lines.index(f"{section}:") - 1].startswith("# "), section
    assert not any(line != line.rstrip() for line in lines)


TITLES = [
    "Plover Yard 3 (invented)",
    "true",
    "null",
    "12",
    "0x1",
    "a: b # c",
    'He said "so"',
    "- x",
    "Möwe 🏠",
    "two\nlines",
    "a\\b",
    "$title <a|b>",
    "'",
    "x " * 90 + "x",
]


@pytest.mark.parametrize("title", TITLES)
def test_a_title_is_read_as_it_was_given(title: str) -> None:
    assert design(starter(Dwelling.COMMERCIAL, "us 2023", Incoming, title)).title == title


class TestCommand:
    def test_the_file_is_written_and_the_next_two_commands_are_told(
        self, tmp_path: Path, capfdbinary: pytest.CaptureFixture[bytes]
    ) -> None:
        file = tmp_path / "my house.coax.yaml"
        assert main(["start", str(file)]) == 0
        assert capfdbinary.readouterr().out.decode().splitlines()[1:] == [
            f"  coaxwright show '{file}'",
            f"  coaxwright review '{file}'",
        ]
        assert file.read_text(encoding="utf-8") == starter(Dwelling.ONE_FAMILY, SHELF.newest("us"), Incoming)
        assert list(tmp_path.iterdir()) == [file]

    def test_every_option(self, tmp_path: Path) -> None:
        file = tmp_path / "a.coax.yaml"
        words = [
            "--dwelling",
            "commercial",
            "--ruleset",
            "trade 1",
            "--with",
            "off-air",
            "--title",
            "T",
            "--units",
            "metric",
        ]
        assert main(["start", str(file), *words]) == 0
        expected = starter(Dwelling.COMMERCIAL, "trade 1", [Incoming.OFF_AIR], "T", Units.METRIC)
        assert file.read_text(encoding="utf-8") == expected

    def test_the_same_service_twice_is_that_service(self, tmp_path: Path) -> None:
        file = tmp_path / "a.coax.yaml"
        assert main(["start", str(file), "--with", "broadband", "--with", "broadband"]) == 0
        assert set(design(file.read_text(encoding="utf-8")).services) == {"broadband"}

    @pytest.mark.parametrize(
        ("name", "meant"),
        [
            ("house", "house.coax.yaml"),
            ("house.yaml", "house.coax.yaml"),
            ("house.yml", "house.coax.yaml"),
            ("house.coax.yml", "house.coax.yaml"),
            ("house.COAX.YAML", "house.coax.yaml"),
            ("house.coax", "house.coax.yaml"),
            ("12.5 m mast", "12.5 m mast.coax.yaml"),
            (".coax.yaml", "site.coax.yaml"),
        ],
    )
    def test_another_name_is_refused_with_the_right_one(
        self, name: str, meant: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        assert main(["start", str(tmp_path / name)]) == 2
        told = f"a design is named *.coax.yaml, not '{name}'; did you mean '{tmp_path / meant}'?"
        assert capsys.readouterr() == ("", f"coaxwright: {told}\n")
        assert list(tmp_path.iterdir()) == []

    @pytest.mark.parametrize(
        ("words", "told"),
        [
            (
                ["--dwelling", "onefamily"],
                "--dwelling takes one-family, two-family, multifamily or commercial, not 'onefamily'; "
                "did you mean 'one-family'?",
            ),
            (["--with", "offair"], "--with takes broadband or off-air, not 'offair'; did you mean 'off-air'?"),
            (["--units", "imperial"], "--units takes us or metric, not 'imperial'"),
            (["--ruleset", "us 1999"], "us 1999: that edition is not here; of us there are "),
            (["--ruleset", "us"], "us: that edition is not here; of us there are "),
            (["--ruleset", "mars 1"], "mars 1: no ruleset of that name; there are "),
            (["--title", " "], "--title takes the words that stand on the drawing, not nothing"),
            (["--title", "a\x1bb"], "--title: the character U+001B cannot stand in a design"),
        ],
    )
    def test_a_wrong_word_is_told_and_nothing_is_written(
        self, words: list[str], told: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        assert main(["start", str(tmp_path / "a.coax.yaml"), *words]) == 2
        out, err = capsys.readouterr()
        assert out == ""
        assert err.startswith(f"coaxwright: {told}")
        assert list(tmp_path.iterdir()) == []

    @pytest.mark.parametrize("what", ["file", "folder", "link to nowhere"])
    def test_what_is_there_is_never_touched(
        self, what: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        file = tmp_path / "a.coax.yaml"
        if what == "file":
            file.write_bytes(b"mine")
        elif what == "folder":
            file.mkdir()
        else:
            file.symlink_to(tmp_path / "nowhere")
        assert main(["start", str(file)]) == 2
        assert capsys.readouterr() == ("", f"coaxwright: {file} is there already; nothing was written\n")
        assert list(tmp_path.iterdir()) == [file]
        assert what != "file" or file.read_bytes() == b"mine"

    def test_a_folder_that_is_not_there(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        file = tmp_path / "nowhere" / "a.coax.yaml"
        assert main(["start", str(file)]) == 2
        assert capsys.readouterr().err == f"coaxwright: cannot write {file}: no such file or directory\n"


class TestWholeOrNotAtAll:
    """Where links fail, a file system may have none; where writing fails, nothing is left."""

    @pytest.fixture
    def without_links(self, monkeypatch: pytest.MonkeyPatch) -> None:
        def refuse(self: Path, target: Path) -> None:
            raise OSError(errno.EPERM, "Operation not permitted")

        monkeypatch.setattr(Path, "hardlink_to", refuse)

    def test_a_file_system_without_links(self, tmp_path: Path, without_links: None) -> None:
        file = tmp_path / "a.coax.yaml"
        assert main(["start", str(file)]) == 0
        assert design(file.read_text(encoding="utf-8")).title == "Untitled one-family dwelling"
        assert list(tmp_path.iterdir()) == [file]

    def test_no_room_left(
        self,
        tmp_path: Path,
        without_links: None,
        monkeypatch: pytest.MonkeyPatch,
        capsys: pytest.CaptureFixture[str],
    ) -> None:
        def fail(self: Path, target: Path) -> Path:
            raise OSError(errno.ENOSPC, "No space left on device")

        monkeypatch.setattr(Path, "replace", fail)
        file = tmp_path / "a.coax.yaml"
        assert main(["start", str(file)]) == 2
        assert capsys.readouterr().err == f"coaxwright: cannot write {file}: no space left on device\n"
        assert list(tmp_path.iterdir()) == []

    def test_a_name_that_somebody_takes_in_between(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        file = tmp_path / "a.coax.yaml"
        monkeypatch.setattr("os.path.lexists", lambda _: False)
        file.write_bytes(b"theirs")
        assert main(["start", str(file)]) == 2
        assert file.read_bytes() == b"theirs"
        assert list(tmp_path.iterdir()) == [file]
