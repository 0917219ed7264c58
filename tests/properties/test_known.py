"""A finding stays the same one when the text of its design is laid out anew, and a list takes it for that."""

from __future__ import annotations

import json
import random
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coaxwright.amend.punch_lines import rewritten, written
from coaxwright.findings import Identity
from coaxwright.findings.preexisting import FindingRank, FindingState, rank_of
from coaxwright.findings.punch_list import Item, PunchList, items_of, punch_list_of
from coaxwright.reviewing import DesignReview, Review, judge
from coaxwright.reviewing.punch_list_match import match_punch_list, record
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import read_text

EXAMPLES = Path(__file__).parents[2] / "examples"
SHELF = shipped_registry()
ROW = """\
coaxwright: 1
title: Ruff Row 9 (invented)
basis: {rulesets: [us 2023]}
places: {closet: {}, den: {}}
devices:
  GB: {kind: ground block, place: closet}
typical:
  flat:
    devices:
      SP: {kind: splitter, ways: 3, place: closet}
      TV: {kind: outlet, place: den}
    cables:
      C-1: {from: SP.out-1, to: TV, type: series 6}
units:
  flat-1 to flat-4: {like: flat}
"""
TEXTS = {
    **{
        place: (EXAMPLES / place / "as-drawn.coax.yaml").read_text(encoding="utf-8")
        for place in ("tern-cottage", "dunnock-cottage", "wheatear-house")
    },
    "row": ROW,
}


def reviewed(text: str) -> DesignReview:
    done = judge(read_text(text, "x.coax.yaml"), SHELF)
    assert done.problems == ()
    return done


def known(done: DesignReview) -> dict[Identity, FindingRank]:
    """Every identity with how grave it is."""
    every = [(identity, rank_of(one)) for one in done.findings for identity in one.identities]
    assert len(dict(every)) == len(every)
    return dict(every)


PLAIN = {name: reviewed(text) for name, text in TEXTS.items()}


def list_of(done: DesignReview) -> PunchList:
    return punch_list_of(read_text(written(item for one in done.findings for item in items_of(one)), "x"))


def renumbered(text: str, chance: random.Random) -> str:
    """The same lines with comments and empty lines between them."""
    lines = []
    for line in text.splitlines():
        lines += chance.choice(([], [], [""], ["# as drawn"], ["", "# moved", ""]))
        lines.append(line)
    return "\n".join(lines) + "\n"


def reordered(text: str, chance: random.Random) -> str:
    """The sections of the file in another order."""
    head, *sections = [[line] for line in text.splitlines()]
    blocks: list[list[str]] = []
    for (line,) in [head, *sections]:
        if line[:1].strip() and not line.startswith("#"):
            blocks.append([])
        if blocks:
            blocks[-1].append(line)
    chance.shuffle(blocks)
    return "\n".join(line for block in blocks for line in block) + "\n"


def laid_out_anew(text: str, chance: random.Random) -> str:
    """The same data as JSON, which is YAML too, with the keys of every group in another order."""

    def shuffled(data: object) -> object:
        if isinstance(data, dict):
            keys = list(data)
            chance.shuffle(keys)
            return {key: shuffled(data[key]) for key in keys}
        return [shuffled(one) for one in data] if isinstance(data, list) else data

    data = read_text(text, "x").data
    return json.dumps(shuffled(data), ensure_ascii=False, indent=chance.choice((None, 1, 4)))


CHANGES = {"renumbered": renumbered, "reordered": reordered, "laid out anew": laid_out_anew}


@given(st.sampled_from(sorted(TEXTS)), st.sampled_from(sorted(CHANGES)), st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None)
def test_an_identity_survives_any_other_layout(name: str, change: str, chance: random.Random) -> None:
    text = CHANGES[change](TEXTS[name], chance)
    again = reviewed(text)
    assert known(again) == known(PLAIN[name])
    held = match_punch_list(Review((again,)), list_of(PLAIN[name]))
    assert held.exit_status == 0
    (against,) = held.punch_lists
    assert against.gone == ()


@given(st.sampled_from(sorted(TEXTS)), st.data())
@settings(max_examples=40, deadline=None)
def test_what_is_taken_from_a_list_returns_and_nothing_else(name: str, data: st.DataObject) -> None:
    plain = PLAIN[name]
    items = [item for one in plain.findings for item in items_of(one)]
    taken = data.draw(st.sets(st.sampled_from(items)))
    left = punch_list_of(read_text(written(item for item in items if item not in taken), "x"))
    (held,) = match_punch_list(Review((plain,)), left).designs
    for before, now in zip(plain.findings, held.findings, strict=True):
        fresh = {identity for identity in before.identities if any(item.identity == identity for item in taken)}
        recorded = list(items_of(before))
        assert now.outstanding is (bool(recorded) and not fresh)
        if recorded:
            assert now.returns(Severity.ADVICE) is bool(fresh)
        else:  # no list can hold it: it stays what it was
            assert now == before
        if recorded and 0 < len(fresh) < len(before.identities):
            assert len(now.new_in) == len(fresh)


WORDS = st.text(st.characters(blacklist_categories=("Cc", "Cs", "Zl", "Zp"), blacklist_characters="\ufeff\ufffe\uffff"))
TAGS = WORDS.map(str.strip).filter(bool) | st.sampled_from(
    ["no", "012", "a: b", "x # y", "- z", "1e3", "null", "C-9", "C-10"]
)
GRAVITIES = st.builds(
    FindingRank, st.sampled_from(Severity), st.sampled_from([FindingState.NOT_MET, FindingState.CANNOT_BE_JUDGED])
)
ITEMS = st.dictionaries(
    st.builds(Identity, TAGS, st.just("plan.dead-end"), st.just("cable"), TAGS, st.just("") | TAGS, st.just("") | TAGS),
    GRAVITIES,
    max_size=8,
)


@given(ITEMS, ITEMS)
@settings(max_examples=150, deadline=None)
def test_a_list_reads_back_as_what_was_written(
    first: dict[Identity, FindingRank], then: dict[Identity, FindingRank]
) -> None:
    text = written(Item(*one) for one in first.items())
    before = punch_list_of(read_text(text, "x"))
    assert {item.identity: item.gravity for item in before.items} == first
    after = rewritten(before, then)
    assert {item.identity: item.gravity for item in punch_list_of(read_text(after, "x")).items} == then
    # However it came about, the same items give the same lines; and each stands on one.
    assert after == written(Item(*one) for one in then.items())
    assert after.count("\n") == 3 + len(then)


@given(st.sampled_from(sorted(TEXTS)), ITEMS)
@settings(max_examples=20, deadline=None)
def test_recording_twice_is_recording_once(name: str, others: dict[Identity, FindingRank]) -> None:
    before = punch_list_of(read_text(written(Item(*one) for one in others.items()), "x"))
    review = Review((PLAIN[name],))
    once = record(review, before, prune=False)
    again = punch_list_of(read_text(rewritten(before, once.items), "x"))
    twice = record(review, again, prune=True)
    assert twice.items == once.items
    assert (twice.added, twice.graded_anew, twice.gone) == (0, 0, 0)


@pytest.mark.parametrize("name", sorted(TEXTS))
def test_the_designs_have_something_to_record(name: str) -> None:
    assert len(list_of(PLAIN[name]).items) >= 3
