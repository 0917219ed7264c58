"""A split that a design states moves the edges of one device, and of no other in the same run."""

from __future__ import annotations

from coaxwright.catalogue import load_catalogue
from coaxwright.design.model.devices import Device
from coaxwright.network.devices import options_of
from coaxwright.network.diplex import with_split

SAID = {"kind": "drop amplifier", "outputs": 1, "variant": "return path"}


def test_what_was_asked_of_a_split_device_is_not_answered_for_the_usual_one() -> None:
    """The usual split is 42/54 MHz (bands of cable television in North America, from memory)."""
    usual, stated = Device.model_validate(SAID), Device.model_validate({**SAID, "split": "85/102 MHz"})
    entry = load_catalogue().made("drop amplifier")[options_of(usual)]
    moved = with_split(entry, stated)
    assert moved is not None
    for one in (moved, entry):
        passes = one is moved
        assert (one.path("out", "in", 70e6) is not None) is passes
        assert one.passing_from("out", (70e6,)) == ({"in": 1} if passes else {})
        assert (one.isolation("out", "in", 70e6) is None) is passes
