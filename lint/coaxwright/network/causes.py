"""What a question to the network or the analysis may miss: each case by name, with its values.

The phrase book words them (``rulesets/phrases/network.yaml``).
"""

from __future__ import annotations

from collections.abc import Mapping

from coaxwright.design.value_types import COUNT, FREQUENCY, TAG, TEXT, WORD, Values

_OF_THE_NETWORK: Mapping[str, Values] = {
    "type not understood": {"cable": TAG},
    "no such place": {"place": TEXT},
    "no such device": {"written": TEXT},
    "no route": {"cable": TAG},
    "neither length nor route": {"cable": TAG},
    "device without place": {"device": TAG},
    "place without building": {"place": TAG},
    "no occupancy": {},
    "service without frequencies": {"service": TAG},
    "sender without frequencies": {"sender": TAG},
    "passing not known": {"device": TAG, "frequency": FREQUENCY, "port": TAG},
    "conductor without length": {"conductor": TAG},
    "joined to no electrode": {"termination": TAG, "written": TEXT},
    "electrode not stated": {"termination": TAG},
    "terminations alone": {"termination": TAG},
}
_OF_LOSSES_AND_LEVELS: Mapping[str, Values] = {
    "no figure of a way": {"device": TAG, "one": TAG, "other": TAG, "frequency": FREQUENCY},
    "no figure of isolation": {"device": TAG, "one": TAG, "other": TAG, "frequency": FREQUENCY},
    "no attenuation": {"cable_class": WORD, "frequency": FREQUENCY},
    "port not decided": {"device": TAG},
    "source without gain": {"device": TAG},
    "level not stated": {"service": TAG},
    "no level wanted": {"service": TAG},
}
_OF_WAVES: Mapping[str, Values] = {
    "begins at several ports": {"service": TAG, "ports": COUNT},
    "fed back": {"cable": TAG},
    "several cables": {"device": TAG, "port": TAG},
    "too many parts": {"most": COUNT},
    "nothing joined": {"device": TAG, "port": TAG},
    "not in the catalogue": {"device": TAG},
    "several inputs and outputs": {"device": TAG},
    "more than comes in": {"device": TAG},
    "more than can be computed": {"device": TAG},
    "resonance": {},
}
"""Why the waves of a network cannot be followed."""

CAUSES: Mapping[str, Values] = {**_OF_THE_NETWORK, **_OF_LOSSES_AND_LEVELS, **_OF_WAVES}
