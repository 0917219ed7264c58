"""Only what a change brought: the designs that changed since a revision, and what was not found in them there.

The whole of a design is reviewed, now and as it stood; what it had before is left out and counted. A design is the same
one by its job and sheet, wherever its file was, so that a new name or another folder brings nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from re import compile as regex

from coaxwright.design import Design, understand_drawn
from coaxwright.findings import Finding, Identity
from coaxwright.findings.preexisting import Preexisting, new_identities, new_units, preexisting_of, rank_of, was
from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.effective_rules import RuleSources, understood
from coaxwright.reviewing.model import DesignReview, Review, Since
from coaxwright.reviewing.pipeline import found_at, review_found
from coaxwright.reviewing.reading import draw_design
from coaxwright.reviewing.repository import Repository, RepositoryError
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.reviewing.revision_checkout import RevisionCheckout, laid_out
from coaxwright.reviewing.run_options import USUAL_RUN_OPTIONS, RunOptions
from coaxwright.reviewing.search import Found, Given
from coaxwright.reviewing.settings import SettingsTree, asked_in, parted
from coaxwright.rules import shipped_registry
from coaxwright.source import Document, FilesRead, ReadError, read_file

_APART = regex(r"[\s/'\"]+")
_FEW = 50
"""So many designs that changed, at most, are looked for by their words before an old file is read for good."""


@frozen_value
class _Looked:
    """A design as it is now, as far as it has to be known before it is reviewed."""

    found: Found
    identity: str = ""
    """Empty where it is not understood."""
    changed: bool = True


def review_since(
    paths: Iterable[str | Path | Given],
    asked: ReviewRequest,
    revision: str,
    run_options: RunOptions = USUAL_RUN_OPTIONS,
) -> Review:
    """Review the designs at ``paths`` that changed since a revision of git, and leave out what stood there already.

    Changed is what differs from the revision, committed or not, in a design's own file, a part that it includes, a
    catalogue or ruleset that it names, or settings that hold for it; and every file that is not understood. What was
    varied, due later, less grave or without a figure there is not the same. The working folder of the process is
    another one for a while.
    Raises RepositoryError where the revision cannot be had, NothingToReview as ``review`` does.
    """
    places = tuple(paths)
    files: FilesRead = {}
    tree = SettingsTree(files, reads_rulesets=not asked.reviewers_terms)
    found, left_out = parted(found_at(places, files), tree, asked)
    repository = _repository([place.path if isinstance(place, Given) else Path(place) for place in places])
    commit = repository.commit(revision)
    with laid_out(repository, commit, revision, [design.name for design in found]) as earlier:
        bases = RuleSources(shipped_registry())
        looked = [
            _look(design, earlier, bases, files, asked_in(asked, tree.of(design.path)).settings) for design in found
        ]
        changed = [look for look in looked if look.changed]
        then = _reviewed_then(looked, earlier, asked)
    now = review_found(tuple(look.found for look in changed), asked, files, run_options)
    every = [finding for design in then.designs for finding in design.unfolded]
    known = preexisting_of((identity, rank_of(finding)) for finding in every for identity in finding.identities)
    unsure = tuple(design.file for design in then.designs if design.problems or design.crashes)
    since = Since(revision, commit, len(looked) - len(changed), unsure)
    return replace(
        now, designs=tuple(_apart(design, known, revision) for design in now.designs), since=since, left_out=left_out
    )


def _repository(paths: Sequence[Path]) -> Repository:
    """The one that all paths are in: that of the working folder, or else that of the first path."""
    folders = [Path.cwd(), *(_folder(path) for path in paths[:1])]
    outside = paths[0]
    for folder in folders:
        try:
            repository = Repository.around(folder)
        except RepositoryError:
            if folder is folders[-1]:
                raise
            continue
        top = repository.top.resolve()
        out = [path for path in paths if not _folder(path).is_relative_to(top)]
        if not out:
            return repository
        outside = out[0]
    raise RepositoryError(f"{str(outside)!r} lies outside the repository of this folder; review it by itself")


def _folder(path: Path) -> Path:
    """The folder that a path is, or lies in, or would."""
    folder = path.absolute()
    while not folder.is_dir():
        folder = folder.parent
    return folder.resolve()


def _look(
    found: Found, earlier: RevisionCheckout, bases: RuleSources, files: FilesRead, settings: Sequence[str]
) -> _Looked:
    """Whether a design changed, and which one it is. What cannot be told is left to the review to tell."""
    if found.fault:
        return _Looked(found)
    try:
        drawn = draw_design(found.path, found.name, files, content=found.content)
        document = understood(understand_drawn(drawn))
        design = Design.model_validate(document.data)
        bases.of_design(document, design)
    except Exception:  # also a fault of ours, which the review records
        return _Looked(found)
    used = [*settings, *(part.name for part in (*drawn.parts, *drawn.main.beside.values()))]
    same = (
        found.content is None
        and earlier.holds_as_it_is(found.name, found.path)
        and all(earlier.holds_as_it_is(name, Path(name)) for name in used)
    )
    return _Looked(found, design.identity, not same)


def _reviewed_then(looked: Sequence[_Looked], earlier: RevisionCheckout, asked: ReviewRequest) -> Review:
    """The review of the designs that changed as they stood, in whichever files."""
    changed = [look for look in looked if look.changed]
    wanted = {look.identity for look in changed}
    if not wanted - {""}:
        return Review(())
    same = {look.found.name: look.identity for look in looked if not look.changed}
    names = {look.found.name for look in changed}
    words = [_words(identity) for identity in wanted if identity] if len(wanted) <= _FEW else [()]
    meant = [
        design
        for design in earlier.designs([looked.found.name for looked in looked])
        if (same[design.name] in wanted if design.name in same else _is_meant(design, earlier, wanted, words, names))
    ]
    return earlier.review(meant, replace(asked, with_amendments=False))


def _is_meant(
    found: Found, earlier: RevisionCheckout, wanted: set[str], words: Sequence[tuple[str, ...]], names: set[str]
) -> bool:
    """Whether a file of the revision is one of the designs wanted; of one that cannot be read, whether its name is."""
    if found.fault:
        return False
    path = earlier.here / found.name
    try:
        text = path.read_text(encoding="utf-8", errors="replace")
        if found.name not in names and "\\" not in text and not _may_be(text, words):
            return False  # no escapes, and not all words of a job, or a title, and a sheet stand in it
        return _identity(read_file(path, found.name)) in wanted
    except (OSError, ReadError):
        return found.name in names


def _may_be(text: str, designs: Sequence[tuple[str, ...]]) -> bool:
    return any(all(word in text for word in words) for words in designs)


def _identity(document: Document) -> str:
    """Which design a file says it is, read without the rest of it."""
    data = document.data if isinstance(document.data, dict) else {}

    def text(key: str) -> str:
        return document.numbers.get((key,)) or str(data.get(key) or "")

    return "/".join(part for part in (text("job") or text("title"), text("sheet")) if part)


def _words(identity: str) -> tuple[str, ...]:
    """The words that stand in the text of a design as they are, however its job or title and its sheet are written."""
    return tuple(word for word in _APART.split(identity) if word)


def _apart(design: DesignReview, known: Preexisting, revision: str) -> DesignReview:
    """A design with what stood already left out."""
    stood: list[Finding] = []
    told: list[Finding] = []
    for finding in design.findings:
        fresh = new_identities(finding, known)
        if fresh:
            told.append(_to_problem(finding, fresh, known, revision))
        else:
            stood.append(finding)
    return replace(design, findings=tuple(told), since=revision, stood=tuple(stood))


def _to_problem(finding: Finding, fresh: tuple[Identity, ...], known: Preexisting, revision: str) -> Finding:
    """A finding that is new, with where it is, or how much graver."""
    if len(fresh) < len(finding.identities):
        return replace(finding, new_in=new_units(finding, fresh))
    before = was(finding, known)
    return replace(finding, remarks=(*finding.remarks, f"At {revision} it was {before}.")) if before else finding
