"""Every tag, port and catalogue word in an item names something, and one thing only."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import Options, UnknownWords
from coaxwright.checks.contract import Check, CheckContext, Correction, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import ITEM, Item
from coaxwright.design.sentences import LONGEST_LIST, in_series
from coaxwright.design.value_types import (
    COUNT,
    DECIBELS,
    TAG,
    TAGS,
    TEXT,
    WORD,
    WORDS,
    Phrase,
    Values,
    list_of,
    one_of,
    optional,
    phrase,
)
from coaxwright.network import UnknownReference, tag_order
from coaxwright.network.devices import OPTIONS, kind_of, not_made_with, options_of


def reference_known(item: Item, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No reference of the item is a fault, and none leaves the port open where that matters."""
    faults = context.network.references_of(item.path)
    for fault in faults:
        facet = ".".join(str(step) for step in fault.path[2:])
        at_key = _is_key(fault.path)
        case, values = _fault(fault, context)
        mend = Correction(fault.path, fault.meant, at_key) if fault.meant is not None else None
        yield NotMet(case, fault.path, values, at_key=at_key, facet=facet, mend=mend)
    for port in context.network.undecided_of(item.path):
        if any(fault.path == port.path for fault in faults):
            continue  # the port is named, and its name is what is wrong
        choices = [port.device + "." + name for name in port.choices]
        values = {"device": port.device, "choices": choices}
        yield NotMet("undecided", port.path, values, facet=str(port.path[-1]))


def _fault(fault: UnknownReference, context: CheckContext) -> tuple[str, dict[str, object]]:
    """The case of what names nothing, with its values."""
    section, tag, key = fault.path[0], str(fault.path[1]), fault.path[-1]
    if section == "cables" and key == "type":
        return _type(fault, context.network.cables[tag].type)
    if section == "devices" and key in OPTIONS:
        return _option(fault, context)
    if section == "devices" and key == "model" and fault.written in context.network.catalogue.models:
        device, model = context.network.devices[tag].device, context.network.catalogue.models[fault.written]
        kind = _sized(kind_of(device), options_of(device))
        made = _sized(kind_of(model), model.options)
        return "model differs", {"written": fault.written, "device": tag, "kind": kind, "made": made}
    is_port = fault.wanted.startswith("port of ")
    wanted = Phrase("any" if is_port or not fault.known else "of this design", {"what": fault.wanted})
    values: dict[str, object] = {"written": fault.written, "wanted": wanted}
    if not fault.known:
        return "none", values
    if fault.meant is not None and is_port:
        return "port misspelt", values | {"meant": fault.meant, "known": _known(fault)}
    if fault.meant is not None:
        return "misspelt", values | {"meant": fault.meant}
    return "unknown", values | {"known": _known(fault)}


def _type(fault: UnknownReference, read: object) -> tuple[str, dict[str, object]]:
    """What is wrong with the words of a cable's type, as the catalogue says it."""
    message = read.message.partition("; did you mean")[0] if isinstance(read, UnknownWords) else ""
    is_word = isinstance(read, UnknownWords) and read.word == fault.written
    said = Phrase("word" if is_word else "type", {"message": message, "written": fault.written})
    if fault.meant is None:
        return "type", {"said": said}
    return "type misspelt", {"said": said, "meant": fault.meant}


def _option(fault: UnknownReference, context: CheckContext) -> tuple[str, dict[str, object]]:
    """An option that no device of the kind is made with, or that is left open."""
    tag, key = str(fault.path[1]), str(fault.path[-1])
    device = context.network.devices[tag].device
    values = {"written": fault.written, "device": tag, "kind": kind_of(device), "option": key, "known": _known(fault)}
    if getattr(options_of(device), OPTIONS[key]) is None:
        return "not stated", values
    return "not made", values | {"made": not_made_with(device, key)}


def _sized(kind: str, options: Options) -> Phrase:
    """A kind with what sets it apart: an unbalanced splitter with 3 ways, a tap of 12 dB with 4 outputs."""
    numbers = (("ways", options.ways), ("inputs", options.inputs), ("outputs", options.outputs))
    sizes = [Phrase(what, {"number": number}) for what, number in numbers if number is not None]
    return Phrase("size", {"kind": kind, "value": options.value_db, "sizes": sizes or None})


def _known(fault: UnknownReference) -> Phrase:
    """What it could be, where that can be read; of very many tags only how many there are."""
    choices = sorted(fault.choices, key=tag_order)
    # Where no electrode is drawn yet only `service` is known, which must not read as if it were the one right answer.
    further = "electrode" if fault.wanted == "electrode" else None
    if fault.path[-1] in OPTIONS:
        return Phrase("options", {"choices": choices})
    if fault.wanted.startswith("port of ") or len(in_series(choices)) <= LONGEST_LIST:
        return Phrase("choices", {"choices": choices, "further": further})
    return Phrase("many", {"number": len(fault.choices), "what": fault.wanted, "further": further})


def _is_key(path: tuple[str | int, ...]) -> bool:
    """Whether the reference is written as a key: the places of a route are."""
    return (len(path) == 5 and path[2] == "route") or (len(path) == 4 and path[2] == "ports")


_FURTHER = optional(one_of("electrode"))
_WRITTEN: Values = {
    "written": TEXT,
    "wanted": phrase(**{"any": {"what": WORD}, "of this design": {"what": WORD}}),
}
_KNOWN = phrase(
    options={"choices": WORDS},
    choices={"choices": TAGS, "further": _FURTHER},
    many={"number": COUNT, "what": WORD, "further": _FURTHER},
)
_SIZES = list_of(phrase(ways={"number": COUNT}, inputs={"number": COUNT}, outputs={"number": COUNT}))
_SIZED = phrase(size={"kind": WORD, "value": optional(DECIBELS), "sizes": optional(_SIZES)})
_SAID = phrase(word={"message": TEXT, "written": TEXT}, type={"message": TEXT, "written": TEXT})
_OPTION: Values = {"written": TEXT, "device": TAG, "kind": WORD, "option": WORD, "known": _KNOWN}

CHECK = Check(
    name="plan.reference-known",
    each=ITEM,
    judge=reference_known,
    prefilter=lambda items, network: [item for item in items if item.path in network.misnamed],
    cases={
        "misspelt": {**_WRITTEN, "meant": TEXT},
        "port misspelt": {**_WRITTEN, "meant": TEXT, "known": _KNOWN},
        "unknown": {**_WRITTEN, "known": _KNOWN},
        "none": _WRITTEN,
        "type": {"said": _SAID},
        "type misspelt": {"said": _SAID, "meant": TEXT},
        "not made": {**_OPTION, "made": TEXT},
        "not stated": _OPTION,
        "model differs": {"written": TEXT, "device": TAG, "kind": _SIZED, "made": _SIZED},
        "undecided": {"device": TAG, "choices": TAGS},
    },
)
