"""The page of the catalogue: it has every class, device and port, and its example can be ordered from."""

from __future__ import annotations

import re

import pytest

from coaxwright.catalogue import CableType, load_catalogue
from coaxwright.catalogue.author_values import STATED, with_own
from coaxwright.catalogue.author_values.filling import shipped_devices
from coaxwright.catalogue.loader import shipped_data
from coaxwright.catalogue.reference import catalogue_page
from coaxwright.design.series import in_series
from coaxwright.source import read_text

CATALOGUE = load_catalogue()
PAGE = catalogue_page()


def part_of(title: str) -> str:
    """What stands below a heading of the third level, to the next heading."""
    return re.split(r"^##", PAGE.split(f"\n### {title}\n", 1)[1], maxsplit=1, flags=re.MULTILINE)[0]


@pytest.mark.parametrize("name", CATALOGUE.every_class)
def test_a_class_with_its_loss_in_both_units(name: str) -> None:
    part, one = part_of(name), CATALOGUE.every_class[name]
    tables = dict(shipped_data())["cables.yaml"]
    written = tables["classes"][name]["attenuation"]["table"]
    for freq, loss in written.items():
        figure, _, unit = loss.partition(" ")
        per_100_ft = float(figure) if unit == "dB/100 ft" else float(figure) * 0.3048
        row = re.search(rf"^\| {freq} \| ([0-9.]+) \| ([0-9.]+) \|", part, re.MULTILINE)
        assert row is not None, freq
        assert float(row[1]) == pytest.approx(per_100_ft, abs=0.0051)
        assert float(row[2]) == pytest.approx(per_100_ft / 0.3048, abs=0.0051)
    for option in (*one.shields, *one.centers, *one.jackets, *one.also, *one.hints):
        assert f"`{option}`" in part
    for source in one.sources.values():
        assert source.line in part


@pytest.mark.parametrize("kind", CATALOGUE.device_kinds)
def test_a_kind_with_its_ports_losses_and_sources(kind: str) -> None:
    part = part_of(kind)
    for options, entry in CATALOGUE.made(kind).items():
        for value in (options.ways, options.inputs, options.outputs, options.variant):
            assert value is None or f": {value}" in part
        for told in in_series([port.name for port in entry.ports]):
            assert f"`{told}`" in part
        for path in (*entry.paths, *entry.isolations):
            assert f"{path.ends.from_end} {'→' if path.ends.one_way else '–'} {path.ends.to_end}" in part
            assert path.amplified or " | ".join(f"{figure:.2f}".rstrip("0").rstrip(".") for figure in path.loss) in part
            for source in path.sources.values():
                assert source.line in part
        for source in entry.sources.values():
            assert source.line in part


def test_every_name_that_an_entry_may_be_like_is_there() -> None:
    for name, base in shipped_devices().items():
        assert name in part_of(str(base.data["kind"]))


def test_what_the_example_holds_can_be_ordered() -> None:
    (block,) = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)
    whole, problems = with_own([read_text(block, "firm/reed.coax-catalogue.yaml")])
    assert problems == []
    cable = whole.cable_type("reed 6 quad outdoor")
    assert isinstance(cable, CableType)
    assert cable.cable_class.attenuation.loss_db_per_m(211e6).nominal_db_per_m * 30.48 == pytest.approx(2.98)
    assert cable.cable_class.impedance_ohm == 75
    splitter = whole.models["reed splitter"].path("in", "out-2", 1100e6)
    assert splitter is not None
    assert splitter.loss == (4.1, 4.1, 4.1)
    assert splitter.sources["nominal"].confidence == STATED
    amplifier = whole.models["reed amplifier"].path("in", "out", 500e6)
    assert amplifier is not None
    assert amplifier.loss.nominal_db == -15


def test_the_links_of_the_page_lead_to_its_headings() -> None:
    titles = re.findall(r"^#+ (.*)$", PAGE, re.MULTILINE)
    anchors = {re.sub(r"[^\w -]", "", title.casefold()).replace(" ", "-") for title in titles}
    links = re.findall(r"\]\(#([^)]*)\)", PAGE)
    assert len(links) > len(CATALOGUE.every_class) + len(CATALOGUE.device_kinds)
    assert set(links) <= anchors
