"""One large site, and levels over a fine grid."""

from __future__ import annotations

import tempfile
from pathlib import Path

from measuring import Row, call, in_turn, milliseconds, plain, reviewed
from sites import site_of, tree_of

from coaxwright.analysis.batch_loss import usual_losses
from coaxwright.design import understand
from coaxwright.network import build_network
from coaxwright.reviewing.effective_rules import RuleSources
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text


def large(quick: bool) -> list[Row]:
    """Time per device, as sites grow."""
    bases = RuleSources(shipped_registry())
    rows: list[Row] = []
    smallest = 0.0
    for devices in (100, 500) if quick else (100, 2000, 10_000):
        houses = round(devices / 15)
        text = site_of(houses)
        result = reviewed(text, bases)
        assert not result.problems, result.problems[0]
        assert not result.crashes
        y, seconds = in_turn(
            1 if devices > 2000 else 3,
            lambda text=text: plain(text),
            lambda text=text: reviewed(text, bases),  # type: ignore[misc]
        )
        each = seconds / (houses * 15)
        smallest = smallest or each
        what = f"one site of {houses * 15:,} devices, {len(text.encode()) / 1e3:.0f} kB"
        rows.append(Row(what, f"{seconds / y:.2f} Y", "", milliseconds(seconds)))
        rows.append(Row("  time per device", f"{each / smallest:.2f} of the first", "1.3", f"{each * 1e6:.0f} µs"))
    with tempfile.TemporaryDirectory() as folder:
        Path(folder, "site.coax.yaml").write_text(text, encoding="utf-8")
        peak = call(["review", ".", "--as", "brief"], Path(folder))
    return [*rows, Row("  memory of the last", "", "600 MB", f"{peak.own_mb:.0f} MB")]


def levels(quick: bool) -> list[Row]:
    """Usual losses of one signal over 200 frequencies, by both kernels."""
    devices = 1000 if quick else 10_000
    network = build_network(understand(read_text(tree_of(devices), "x")))
    grid_hz = tuple(54e6 + step * (1002e6 - 54e6) / 199 for step in range(200))
    signal = network.signal("net", "down", grid_hz)
    count = len(network.devices)
    by_arrays, by_lists = in_turn(
        3, lambda: usual_losses(signal, False, arrays=True), lambda: usual_losses(signal, False, arrays=False)
    )
    ratio = f"{by_lists / by_arrays:.1f} × by lists"
    return [
        Row(f"losses of {count:,} devices at 200 frequencies, arrays", ratio, "30 ms", milliseconds(by_arrays)),
        Row("  the same by plain lists", "1", "", milliseconds(by_lists)),
    ]
