"""A file of format 0 becomes one of format 1: the same design, with its comments and layout untouched."""

# ruff: noqa: E501  a text before and after stands on one line

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coaxwright.design import schema
from coaxwright.design.schema_files import DESIGN_SCHEMA
from coaxwright.source import Problem, ReadError, read_text
from coaxwright.source.formats import FORMAT, OLDEST
from coaxwright.source.migration import STEPS, Change, Step, renew
from coaxwright.source.splice import Splice

HEAD = "coaxwright: 0\ntitle: x (invented)\n"


def renewed(text: str) -> str:
    return renew(read_text(text, "x")).new.text


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("cables: {C: {between: [A, B], type: s}}", "cables: {C: {from: A, to: B, type: s}}"),
        ("cables:\n  C:\n    between: [A, B]   # why\n    type: s\n", "cables:\n  C:\n    from: A\n    to: B   # why\n    type: s\n"),
        ("cables:\n  C:\n    between:\n      - A   # first\n      - B\n    type: s\n", "cables:\n  C:\n    from: A   # first\n    to: B\n    type: s\n"),
        ("cables:\n  C:\n    between:\n    - A\n\n    # the other end\n    - 'B'\n", "cables:\n  C:\n    from: A\n\n    # the other end\n    to: 'B'\n"),
        ("cables:\n  C:\n    between:   # ends\n      - A\n      -   # the outlet\n        B\n", "cables:\n  C:\n    from:   # ends\n        A\n    to:   # the outlet\n        B\n"),
        ("cables:\n  C:\n    \"between\": [A,   # a, b\n      # and\n         B ]   # z\n    note: x\n", "cables:\n  C:\n    \"from\": A   # a, b\n      # and\n    \"to\": B   # z\n    note: x\n"),
        ("cables:\n  C:\n    between: [\n      A\n      , B,\n    ]\n", "cables:\n  C:\n    from: A\n    to: B\n"),
        ("cables: {C: {between: [ A,  # a\n  B,  # b\n ], type: s}}", "cables: {C: {from: A,  # a\n  to: B  # b\n , type: s}}"),
        ('{"cables": {"C": {"between":["A","B"],"run":[]}}}'[1:-1], '"cables": {"C": {"from":"A","to": "B","route":[]}}'),
        ("cables: {C: {'between': [A, \"B 1\"]}}", "cables: {C: {'from': A, 'to': \"B 1\"}}"),
        ("cables:\n  C: {between: [A, B], run: [p: 3 ft]}  # run: stays\n", "cables:\n  C: {from: A, to: B, route: [p: 3 ft]}  # run: stays\n"),
        ("grounding: {B: {from: A, to: B, conductor: 10 AWG copper, run: [p: 3 ft]}}", "bonding: {B: {from: A, to: B, conductor: 10 AWG copper, route: [p: 3 ft]}}"),
        ("# grounding: as it was\ngrounding:\n  # a rod\n  R: {kind: ground rod, place: p}\n", "# grounding: as it was\nbonding:\n  # a rod\n  R: {kind: ground rod, place: p}\n"),
        ("typical: {f: {cables: {C: {between: [A, B], type: s}}}}", "typical: {f: {cables: {C: {from: A, to: B, type: s}}}}"),
        ("units: {u: {like: f, but: {cables: {C: {run: [p: 3 ft]}}}}}", "units: {u: {like: f, but: {cables: {C: {route: [p: 3 ft]}}}}}"),
        ("devices: {run: {kind: outlet}, between: {kind: outlet}}", "devices: {run: {kind: outlet}, between: {kind: outlet}}"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("line_break", ["\n", "\r\n", "\r"])
def test_the_text_changes_where_it_has_to_and_nowhere_else(before: str, after: str, line_break: str) -> None:
    text = (HEAD + before).replace("\n", line_break)
    wanted = (HEAD.replace("coaxwright: 0", "coaxwright: 1") + after).replace("\n", line_break)
    assert renewed(text) == wanted


def test_there_is_a_step_from_every_older_format_to_the_next() -> None:
    assert sorted(STEPS) == list(range(OLDEST, FORMAT))
    assert schema.FORMAT == FORMAT
    assert f"-{FORMAT}." in DESIGN_SCHEMA


def test_a_design_in_the_style_of_json() -> None:
    text = '{"coaxwright": 0, "cables": {"C": {"between": ["A", "B"]}}, "grounding": {}}'
    assert renewed(text) == '{"coaxwright": 1, "cables": {"C": {"from": "A", "to": "B"}}, "bonding": {}}'


def test_the_format_line_of_a_part() -> None:
    text = "coaxwright part: 0   # of the riser\ngrounding: {}\n"
    assert renewed(text) == text.replace("part: 0", "part: 1").replace("grounding", "bonding")


def test_what_is_no_group_is_left_for_the_schema_to_tell() -> None:
    text = (
        "coaxwright: 0\ncables: {C: 5, D: {run: 7}}\ngrounding: [between]\ntypical: {f: }\nunits: {u: {but: [run]}}\n"
    )
    changed = text.replace("run: 7", "route: 7").replace("grounding", "bonding").replace(": 0", ": 1")
    assert renewed(text) == changed


def test_a_problem_of_the_new_text_is_told_where_it_stands_now() -> None:
    text = HEAD + "cables:\n  C:\n    between: [A, B]\n    type: [x]\n"
    renewal = renew(read_text(text, "x"))
    new = renewal.new.span(("cables", "C", "type"))
    assert (new.start.line, new.start.column) == (7, 11)
    old = renewal.in_the_old(Problem("x", new, "no list")).span
    assert old == renewal.old.span(("cables", "C", "type"))
    assert (old.start.line, old.end.column) == (6, 14)


def test_a_byte_order_mark_and_a_missing_last_line_break_stay() -> None:
    new = renew(read_text("\ufeffcoaxwright: 0\ncables: {C: {between: [A, B]}}", "x")).new
    assert new.has_byte_order_mark
    assert new.text == "coaxwright: 1\ncables: {C: {from: A, to: B}}"


def test_what_was_changed_is_told_with_its_new_place() -> None:
    renewal = renew(read_text(HEAD + "cables:\n  C: {between: [A, B], run: [p: 3 ft]}\n", "x"))
    assert [(made.place.line, made.place.column, made.what) for made in renewal.changes] == [
        (1, 13, "'coaxwright: 0' is now 'coaxwright: 1'"),
        (4, 7, "'between' is now 'from' and 'to'"),
        (4, 23, "'run' is now 'route'"),
    ]


def test_a_file_of_this_format_of_a_newer_one_or_of_none_stays_as_it_is() -> None:
    for text in ("coaxwright: 1\ngrounding: {}\n", "coaxwright: 7\n", "title: x\n", "- x\n"):
        renewal = renew(read_text(text, "x"))
        assert (renewal.new.text, renewal.changes, renewal.is_new) == (text, (), False)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("cables: {C: {between: [A]}}", "x:3:14: 'between' does not hold the two ends of the cable; write 'between: [SP1, TV1]'"),
        ("cables: {C: {between: [A, B], to: B}}", "x:3:31: 'to' stands beside 'between', which holds both ends; leave one of them out"),
        ("cables: {C: {run: [], route: []}}", "x:3:23: 'route' stands beside 'run', its name of format 0; put both in one"),
    ],
)  # fmt: skip
def test_what_cannot_be_brought_up_is_told_at_its_place(text: str, said: str) -> None:
    with pytest.raises(ReadError) as raised:
        renewed(HEAD + text)
    assert str(raised.value) == said


def test_a_step_whose_text_and_data_disagree_is_refused_not_written() -> None:
    broken = Step(lambda document: (Change("x", (Splice(0, 0, "other: 1\n"),)),), lambda data: data)
    with pytest.raises(ReadError, match="cannot be brought up without a person"):
        renew(read_text("coaxwright: 0\n", "x"), {0: broken})


def test_steps_follow_one_another() -> None:
    def step(old: str, new: str) -> Step:
        def changes(document: object) -> tuple[Change, ...]:
            at = document.text.index(old)  # type: ignore[attr-defined]
            return (Change(f"{old} is now {new}", (Splice(at, at + len(old), new),)),)

        return Step(changes, lambda data: {(new if key == old else key): value for key, value in data.items()})

    renewal = renew(read_text("coaxwright: 0\naa: 1\n", "x"), {0: step("aa", "bbb"), 1: step("bbb", "c")}, newest=2)
    assert renewal.new.text == "coaxwright: 2\nc: 1\n"
    assert [made.what for made in renewal.changes][-2:] == ["aa is now bbb", "bbb is now c"]


TAGS = st.sampled_from(["A", "SP1", "living room", "'B 2'", '"é"', "012"])


@settings(max_examples=60, deadline=None)
@given(
    ends=st.lists(st.tuples(TAGS, TAGS), min_size=1, max_size=5),
    block=st.booleans(),
    comment=st.sampled_from(["  # run: between", "  # between: [x, y]", "  # é 😀"]),
    line_break=st.sampled_from(["\n", "\r\n"]),
)
def test_comments_and_values_survive(ends: list[tuple[str, str]], block: bool, comment: str, line_break: str) -> None:
    lines = ["coaxwright: 0", f"title: x{comment}", "cables:"]
    for number, (one, other) in enumerate(ends):
        if block:
            lines += [f"  C-{number}:{comment}", f"    between: [{one}, {other}]{comment}", f"    type: s{comment}"]
        else:
            lines.append(f"  C-{number}: {{between: [{one}, {other}], type: s}}{comment}")
    document = read_text(line_break.join(lines), "x")
    new = renew(document).new
    assert new.text.count(comment) == document.text.count(comment)
    assert isinstance(new.data, dict)
    assert isinstance(document.data, dict)
    cables = [[cable["from"], cable["to"]] for cable in new.data["cables"].values()]
    assert cables == [cable["between"] for cable in document.data["cables"].values()]
