"""The two kernels give the same figures, and the same as the plain sums step by step."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coaxwright.analysis import Analysis, LossRange
from coaxwright.analysis.batch_loss import usual_losses
from coaxwright.design import understand
from coaxwright.network import Network, build_network
from coaxwright.source import read_text

GRID = (5e6, 54e6, 250e6, 600e6, 1002e6, 1200e6, 3000e6)


def trunk(lengths_ft: list[int], kinds: list[str]) -> Network:
    """A trunk of taps, splitters and amplifiers, with an outlet on each."""
    lines = ["coaxwright: 1", "title: x (invented)", "basis: {rulesets: [trade 1]}",
             "places: {yard: {exposure: outdoors, temperature: -30 to 10 °C}}", "services:",
             "  net: {kind: cable broadband, from: N-0, down: {band: 54 to 1002 MHz}, up: {band: 5 to 42 MHz}}",
             "devices:", "  N-0: {kind: coax drop}"]  # fmt: skip
    written = {
        "tap": ("{kind: tap, outputs: 2, value: 12 dB}", "in", "out", "tap-1"),
        "splitter": ("{kind: splitter, ways: 2}", "in", "out-1", "out-2"),
        "amplifier": ("{kind: drop amplifier, outputs: 2, gain: 9 dB, variant: return path}", "in", "out-1", "out-2"),
        "own loss": ("{kind: splitter, ways: 2, loss: 3.7 dB}", "in", "out-1", "out-2"),
    }
    parts = [written[kind] for kind in kinds]
    for number, part in enumerate(parts, start=1):
        lines += [f"  N-{number}: {part[0]}", f"  T-{number}: {{kind: outlet, serves: [net]}}"]
    lines.append("cables:")
    for number, (part, length) in enumerate(zip(parts, lengths_ft, strict=True), start=1):
        near = "N-0" if number == 1 else f"N-{number - 1}.{parts[number - 2][2]}"
        stated = f", length: {length} ft" if length else ""
        lines.append(f"  C-{number}: {{from: {near}, to: N-{number}.{part[1]}, type: series 11{stated}}}")
        kind = "10 mm 50 ohm low-loss" if number % 5 == 4 else "series 6"  # whose table is of another temperature
        more = (", length: 40 ft", ", route: [yard: 40 ft]", ", length: 40 ft, measured loss: [2 dB at 500 MHz]")[
            number % 3
        ]
        lines.append(f"  D-{number}: {{from: N-{number}.{part[3]}, to: T-{number}, type: {kind}{more}}}")
    return build_network(understand(read_text("\n".join(lines) + "\n", "x")))


KINDS = st.sampled_from(["tap", "splitter", "amplifier", "own loss"])


@settings(max_examples=25, deadline=None)
@given(steps=st.lists(st.tuples(st.integers(0, 900), KINDS), min_size=1, max_size=12), up=st.booleans())
def test_arrays_lists_and_plain_sums_agree(steps: list[tuple[int, str]], up: bool) -> None:
    network = trunk([length for length, _ in steps], [kind for _, kind in steps])
    direction = "up" if up else "down"
    signal = network.signal("net", direction, GRID)
    by_lists = usual_losses(signal, up, arrays=False)
    by_arrays = usual_losses(signal, up, arrays=True)
    plain = Analysis(network).losses("net", direction, GRID)
    for index, arrival in enumerate(signal.arrivals):
        lists, arrays = by_lists.at(index), by_arrays.at(index)
        assert arrays == pytest.approx(lists, abs=1e-9)
        wanted = [one.nominal if isinstance(one, LossRange) else None for one in plain.to(arrival)]
        assert lists == pytest.approx(wanted, abs=1e-9)
    assert by_lists.index_of(signal.arrivals[-1]) == len(signal.arrivals) - 1


def test_a_small_site_does_not_import_the_array_library() -> None:
    import subprocess
    import sys

    code = (
        "import sys;from coaxwright import load, build_network;from coaxwright.analysis.batch_loss import usual_losses;"
        "network = build_network(load('examples/tern-cottage/corrected.coax.yaml'));"
        "usual_losses(network.signal('broadband', 'down')); print('numpy' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "False\n"


@pytest.mark.parametrize(
    "command",
    ["review", "levels", "levels --as csv", "levels --as json", "levels --as svg"],
    ids=lambda command: command,
)
def test_no_command_imports_the_array_library_for_a_small_site(command: str) -> None:
    import subprocess
    import sys

    code = (
        "import sys\nfrom coaxwright.cli import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        "print([name for name in ('numpy', 'scipy', 'skrf') if name in sys.modules], file=sys.stderr)"
    )
    asked = [*command.split(), "examples/tern-cottage/corrected.coax.yaml"]
    done = subprocess.run([sys.executable, "-c", code, *asked], capture_output=True, text=True, check=True)
    assert len(done.stdout) > 500
    assert done.stderr == "[]\n"
