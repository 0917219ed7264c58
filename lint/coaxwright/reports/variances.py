"""A variance in words, for every form of the report."""

from __future__ import annotations

from coaxwright.findings import Finding, Varied

NOT_HONOURED = "A variance is recorded, and not honoured in this review"


def granted(varied: Varied) -> str:
    """Why, by whom and until when: ``roof access after re-roofing; granted by the site engineer, until 2027-06-30``."""
    until = f", until {varied.until}" if varied.until else ""
    return f"{varied.reason}; granted by {varied.granted_by}{until}"


def remarks(finding: Finding) -> tuple[str, ...]:
    """What else bears on a finding; where it is new, and a variance that is not honoured, among it."""
    said = finding.remarks
    if finding.new_in:
        from coaxwright.reports.preexisting import new_in

        said = (*said, new_in(finding))
    if finding.varied is None or finding.is_varied:
        return said
    return (*said, f"{NOT_HONOURED}: {granted(finding.varied)}")
