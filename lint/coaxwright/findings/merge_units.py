"""Findings of repeated units: what is wrong with the typical unit is told once, with the units that it holds for.

What differs in one unit is that unit's own, and so is what is wrong with it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from coaxwright.findings.finding import Finding, Identity
from coaxwright.network import tag_order
from coaxwright.source import Document, Instance


@dataclass(slots=True)
class _Group:
    """Findings that say the same of several units, the first unit's at the head."""

    first: Finding
    required: str
    """What the first requires, in the words of the typical unit."""
    instances: list[Instance]
    worst: Finding
    worst_in: Instance

    def add(self, finding: Finding, instance: Instance) -> None:
        """One more unit; of several that are as bad, the first stays the worst."""
        self.instances.append(instance)
        if finding.excess > self.worst.excess:
            self.worst, self.worst_in = finding, instance


def merge_units(findings: Iterable[Finding], document: Document) -> list[Finding]:
    """The findings of a design with its units written out, with every path as it is written.

    Findings of several units are one where they are written at one place and agree in everything but the unit: rule,
    case, severity, facet, whose it is, the variance that covers it, and what should be.
    """
    told: list[Finding] = []
    groups: dict[tuple[object, ...], list[_Group]] = {}
    of_units: list[tuple[Instance, Finding]] = []
    for finding in findings:
        instance = document.instance(finding.subject.path)
        finding = _as_written(finding, document)
        if instance is None:
            told.append(finding)
        else:
            of_units.append((instance, finding))
    for instance, finding in sorted(of_units, key=lambda of_unit: tag_order(of_unit[0].name)):
        if not _is_in_unit(finding):
            told.append(replace(finding, instances=(instance.name,)))
            continue
        alike = groups.setdefault(_sameness(finding, instance), [])
        required = in_typical(finding.required, instance)
        for group in alike:
            if required == group.required or finding.required == group.first.required:
                group.add(finding, instance)
                break
        else:
            alike.append(_Group(finding, required, [instance], finding, instance))
    told += _identified(group for alike in groups.values() for group in alike)
    return told


def _as_written(finding: Finding, document: Document) -> Finding:
    """A finding whose root and mend are those of the text: ``SP`` where ``flat-01/SP`` is meant inside the unit."""
    mend = finding.mend
    if mend is not None:
        instance = document.instance(mend.path)
        text = mend.text.removeprefix(f"{instance.name}/") if instance is not None else mend.text
        mend = replace(mend, path=document.written(mend.path), text=text)
    root = document.written(finding.root) if finding.root is not None else None
    return replace(finding, root=root, mend=mend)


def _is_in_unit(finding: Finding) -> bool:
    """Whether a finding stands in a typical unit or in what differs in a unit."""
    return finding.root is not None and finding.root[:1] in (("typical",), ("units",))


def _sameness(finding: Finding, instance: Instance) -> tuple[object, ...]:
    return (
        finding.rule,
        finding.identity.kind,
        instance.typical,
        instance.tag,
        in_typical(finding.identity.second, instance),
        in_typical(finding.identity.facet, instance),
        finding.case,
        finding.outcome,
        finding.severity,
        finding.place,
        finding.subject.owner,
        finding.subject.state,
        finding.varied,
    )


def _identified(groups: Iterable[_Group]) -> Iterator[Finding]:
    """One finding for each group, in the words of its worst unit; an identity never tells which that is.

    It bears the typical unit's tag if it stands in the typical unit.

    Where one thing of the typical unit comes out differently in several units, only the first may: the others bear
    the tag of their own first unit. What a variance covers comes last, so that it leaves the others their identity.
    """
    taken: set[Identity] = set()
    ordered = sorted(groups, key=lambda group: (group.first.varied is not None, tag_order(group.instances[0].name)))
    for group in ordered:
        first, instance = group.first, group.instances[0]
        names = dict.fromkeys(instance.name for instance in (group.worst_in, *group.instances))
        identity = replace(
            first.identity,
            subject=f"{instance.typical}/{instance.tag}",
            second=in_typical(first.identity.second, instance),
            facet=in_typical(first.identity.facet, instance),
        )
        if first.root is None or first.root[0] != "typical" or identity in taken:
            identity = replace(identity, subject=first.identity.subject)
        taken.add(identity)
        yield replace(group.worst, identity=identity, instances=tuple(names))


def in_typical(text: str, instance: Instance) -> str:
    """A text in which the things of a unit are called by the typical unit's tag."""
    prefix = f"{instance.name}/"
    if prefix not in text:
        return text
    return re.sub(rf"(?<![\w/-]){re.escape(prefix)}", lambda _: f"{instance.typical}/", text)
