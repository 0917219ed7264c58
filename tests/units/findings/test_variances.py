"""What a variance covers, when it holds, and what is said of one that is out of order."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from coaxwright.design import Variance, whole
from coaxwright.findings import Finding, Outcome, VarianceTerms
from coaxwright.findings.variances import names_of
from coaxwright.reviewing import DesignReview, judge, review
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import read_text

DAY = date(2026, 7, 1)
TWO_BUILDINGS = """\
coaxwright: 1
title: Turnstone Wharf 12 (invented)
basis: {rulesets: [us 2023], occupancy: commercial}
buildings: {house: {entry: house wall}, shed: {entry: shed wall}}
places:
  roof:       {building: house, exposure: rooftop}
  house wall: {building: house, exposure: outdoors}
  den:        {building: house}
  shed wall:  {building: shed, exposure: outdoors}
  bench:      {building: shed}
devices:
  ANT: {kind: antenna, place: roof, mast: {metal: true}}
  MD1: {kind: cable modem, place: bench}
  TV1: {kind: outlet, place: den}
  SP1: {kind: splitter, ways: 2, place: den}
cables:
  C-1: {from: MD1, to: TV1, type: series 6 outdoor, route: [bench: 3 m, shed wall: 1 m, house wall: 4 m, den: 3 m]}
  C-2: {from: ANT, to: SP1, type: series 6 outdoor, route: [roof: 3 m, house wall: 1 m, den: 3 m]}
"""
FLATS = """\
coaxwright: 1
title: Turnstone Wharf 14 (invented)
basis: {rulesets: [trade 1]}
places: {closet: {}, den: {}}
typical:
  flat:
    devices:
      SP: {kind: splitter, ways: 2, place: closet}
      TV: {kind: outlet, place: den}
    cables:
      C-1: {from: SP.out-1, to: TV, type: series 6, length: 9 m}
units:
  flat-1 to flat-4: {like: flat}
"""
OPEN = "level.unused-terminated"


def granted(rule: str, item: str, more: str = "") -> str:
    return f"  - {{rule: {rule}, item: {item}, reason: r, granted by: g{more}}}\n"


def reviewed(text: str, *variances: str, day: date = DAY, honoured: bool = True) -> DesignReview:
    block = f"variances:\n{''.join(variances)}" if variances else ""
    done = judge(
        read_text(text + block, "x.coax.yaml"),
        shipped_registry(),
        ReviewRequest(variances=VarianceTerms(day, honoured)),
    )
    assert done.problems == ()
    assert done.crashes == ()
    return done


def varied(done: DesignReview) -> list[tuple[str, str, str]]:
    return [(one.rule, one.identity.subject, one.identity.second) for one in done.findings if one.is_varied]


def about(done: DesignReview) -> list[tuple[str, str, str]]:
    return [(one.rule, one.subject.tag, one.case) for one in done.findings if one.rule.startswith("variance.")]


def of(done: DesignReview, rule: str) -> list[Finding]:
    return [one for one in done.findings if one.rule == rule]


class TestWhatIsCovered:
    def test_a_finding_is_marked_and_stays_as_it_was(self) -> None:
        plain = reviewed(TWO_BUILDINGS)
        done = reviewed(TWO_BUILDINGS, granted("protection.entry-protector", "C-1", ", until: 2026-12-31"))
        before, after = of(plain, "protection.entry-protector"), of(done, "protection.entry-protector")
        assert [one.identity for one in before] == [one.identity for one in after]
        covered = [one for one in after if one.varied is not None]
        assert {one.subject.tag for one in covered} == {"C-1"}
        for one in covered:
            assert one.varied is not None
            assert (one.varied.reason, one.varied.granted_by, one.varied.until) == ("r", "g", "2026-12-31")
            assert one.varied.place.span.start.line == TWO_BUILDINGS.count("\n") + 2
            assert one.severity is Severity.VIOLATION
            assert not any(one.returns(severity) for severity in Severity)
        assert about(done) == []

    def test_without_a_facet_all_and_with_one_that_alone(self) -> None:
        rule = "protection.entry-protector"
        both = [(rule, "C-1", "house"), (rule, "C-1", "shed")]
        assert sorted(varied(reviewed(TWO_BUILDINGS, granted(rule, "C-1")))) == both
        for entry in both:
            assert varied(reviewed(TWO_BUILDINGS, granted(rule, "C-1", f", facet: {entry[2]}"))) == [entry]

    def test_neither_another_rule_nor_another_thing(self) -> None:
        plain = {one.identity for one in reviewed(TWO_BUILDINGS).findings}
        done = reviewed(TWO_BUILDINGS, granted("protection.entry-protector", "C-1"))
        others = [one for one in done.findings if one.rule != "protection.entry-protector" or one.subject.tag != "C-1"]
        assert [one for one in others if one.varied is not None] == []
        assert {one.identity for one in done.findings} == plain
        assert len(others) > 3

    @pytest.mark.parametrize("item", ["ANT.mast", "ANT"])
    def test_a_mast_goes_by_its_own_name_or_its_devices(self, item: str) -> None:
        done = reviewed(TWO_BUILDINGS, granted("bonding.conductor-present", item))
        assert varied(done) == [("bonding.conductor-present", "ANT", "mast")]
        assert about(done) == []

    def test_what_cannot_be_judged(self) -> None:
        text = TWO_BUILDINGS.replace("route: [roof: 3 m, house wall: 1 m, den: 3 m]", "note: x")
        (finding, *_) = (one for one in reviewed(text).findings if one.outcome is Outcome.CANNOT_BE_JUDGED)
        done = reviewed(text, granted(finding.rule, finding.identity.subject))
        (after, *_) = (one for one in done.findings if one.identity == finding.identity)
        assert (after.outcome, after.is_varied) == (Outcome.CANNOT_BE_JUDGED, True)

    def test_what_needs_a_person(self) -> None:
        text = (
            "coaxwright: 1\ntitle: Ruff Lane 1 (invented)\nbasis: {rulesets: [trade 1]}\n"
            "buildings: {house: {entry: wall}}\n"
            "places: {wall: {exposure: outdoors}, cellar: {building: house}, closet: {building: house}}\n"
            "devices:\n  DROP: {kind: coax drop, place: wall}\n  GB1:  {kind: ground block, place: closet}\n"
            "cables:\n  C-1: {from: DROP, to: GB1, type: series 6 outdoor, route: [wall: 5 ft, cellar: 100 ft]}\n"
        )
        rule = "protection.entry-distance"
        (plain,) = of(reviewed(text), rule)
        done = reviewed(text, granted(rule, plain.identity.subject))
        assert [(one.outcome, one.is_varied) for one in of(done, rule)] == [(Outcome.NEEDS_A_PERSON, True)]

    def test_the_closest_meant_counts_whatever_the_order(self) -> None:
        rule = "protection.entry-protector"
        wide, narrow = granted(rule, "C-1"), granted(rule, "C-1", ", facet: shed").replace("reason: r", "reason: n")
        for entries in ((wide, narrow), (narrow, wide)):
            reasons = {one.identity.second: one.varied.reason for one in of(reviewed(TWO_BUILDINGS, *entries), rule)
                       if one.varied is not None}  # fmt: skip
            assert reasons == {"house": "r", "shed": "n"}

    def test_of_two_that_say_the_same_the_first_that_holds(self) -> None:
        ended, first, second = (
            granted(OPEN, "SP1", more).replace("reason: r", f"reason: {reason}")
            for reason, more in (("a", ", until: 2025"), ("b", ""), ("c", ""))
        )
        (one,) = (one for one in reviewed(TWO_BUILDINGS, ended, first, second).findings if one.is_varied)
        assert one.varied is not None
        assert one.varied.reason == "b"


class TestUnits:
    def test_one_unit_of_several_leaves_the_others_what_they_were(self) -> None:
        (plain,) = of(reviewed(FLATS), OPEN)
        assert plain.instances == ("flat-1", "flat-2", "flat-3", "flat-4")
        done = reviewed(FLATS, granted(OPEN, "flat-1/SP"))
        left, covered = sorted(of(done, OPEN), key=lambda one: one.is_varied)
        assert (left.instances, left.is_varied) == (("flat-2", "flat-3", "flat-4"), False)
        assert left.identity == plain.identity
        assert (covered.instances, covered.identity.subject, covered.is_varied) == (("flat-1",), "flat-1/SP", True)
        assert {one for both in (left, covered) for one in both.identities} == set(plain.identities)
        assert about(done) == []

    def test_the_typical_units_tag_means_all_of_them(self) -> None:
        (plain,) = of(reviewed(FLATS), OPEN)
        (covered,) = of(reviewed(FLATS, granted(OPEN, "flat/SP")), OPEN)
        assert covered.is_varied
        assert (covered.identity, covered.instances) == (plain.identity, plain.instances)

    def test_the_units_own_comes_before_the_typical_ones(self) -> None:
        own = granted(OPEN, "flat-2/SP").replace("reason: r", "reason: own")
        for entries in ((granted(OPEN, "flat/SP"), own), (own, granted(OPEN, "flat/SP"))):
            found = of(reviewed(FLATS, *entries), OPEN)
            reasons = {one.instances: one.varied.reason for one in found if one.varied is not None}
            assert reasons == {("flat-1", "flat-3", "flat-4"): "r", ("flat-2",): "own"}

    def test_facets_of_a_unit_go_by_either_name(self) -> None:
        document = whole(read_text(FLATS, "x.coax.yaml"))
        (plain,) = of(reviewed(FLATS), OPEN)
        identity = replace(plain.identity, subject="flat-1/SP", second="mast", facet="flat-1/TV")
        names = names_of(replace(plain, identity=identity), document)
        assert names.items == ("flat-1/SP", "flat/SP", "flat-1/SP.mast", "flat/SP.mast")
        assert names.facets == {"mast", "flat-1/TV", "flat/TV"}

    def test_a_thing_of_a_drawn_in_part(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.chdir(tmp_path)
        Path("den.coax-part.yaml").write_text(
            "coaxwright part: 1\ndevices:\n  SP1: {kind: splitter, ways: 2, place: den}\n"
            "  TV1: {kind: outlet, place: den}\n"
            "cables:\n  C-1: {from: SP1, to: TV1, type: series 6, length: 9 m}\n",
            encoding="utf-8",
        )
        head = "coaxwright: 1\ntitle: x (invented)\nbasis: {rulesets: [trade 1]}\nincludes: [den.coax-part.yaml]\n"
        Path("x.coax.yaml").write_text(
            f"{head}places: {{den: {{}}}}\nvariances:\n{granted(OPEN, 'SP1')}", encoding="utf-8"
        )
        (design,) = review(["x.coax.yaml"]).designs
        (finding,) = (one for one in design.findings if one.is_varied)
        assert finding.varied is not None
        assert (finding.place.file, finding.varied.place.file) == ("den.coax-part.yaml", "x.coax.yaml")


class TestWhenItHolds:
    @pytest.mark.parametrize(
        ("until", "last", "first_after"),
        [
            ("2026-07-01", date(2026, 7, 1), date(2026, 7, 2)),
            ("2026-06", date(2026, 6, 30), date(2026, 7, 1)),
            ("2028-02", date(2028, 2, 29), date(2028, 3, 1)),
            ("2026", date(2026, 12, 31), date(2027, 1, 1)),
        ],
    )
    def test_through_the_whole_of_its_end(self, until: str, last: date, first_after: date) -> None:
        entry = granted(OPEN, "SP1", f", until: {until}")
        holds, ended = (reviewed(TWO_BUILDINGS, entry, day=day) for day in (last, first_after))
        assert (varied(holds), about(holds)) == ([(OPEN, "SP1", "")], [])
        assert (varied(ended), about(ended)) == ([], [("variance.current", "SP1", "ended")])
        (told,) = of(ended, "variance.current")
        assert told.severity is Severity.DEFICIENCY
        assert until in told.found
        assert (holds.as_of, ended.as_of) == (last.isoformat(), first_after.isoformat())

    def test_of_two_that_say_the_same_one_that_holds_is_enough(self) -> None:
        """The one that covers nothing is told as such, not as one that has ended."""
        twice = [granted(OPEN, "TV1", ", until: 2020"), granted(OPEN, "TV1")]
        assert set(about(reviewed(TWO_BUILDINGS, *twice))) == {
            ("variance.single", "TV1", "repeated"),
            ("variance.used", "TV1", "nothing found"),
        }

    def test_a_day_is_told_only_where_something_depends_on_it(self) -> None:
        assert reviewed(TWO_BUILDINGS).as_of == ""
        assert reviewed(TWO_BUILDINGS, granted(OPEN, "SP1")).as_of == ""

    def test_where_no_day_is_named_what_ends_has_ended(self) -> None:
        text = f"{TWO_BUILDINGS}variances:\n{granted(OPEN, 'SP1', ', until: 2099-12-31')}"
        assert varied(judge(read_text(text, "x"), shipped_registry())) == []


class TestNotHonoured:
    def test_it_is_shown_and_changes_nothing(self) -> None:
        entry = granted("protection.entry-protector", "C-1")
        plain, taken, shown = (
            reviewed(TWO_BUILDINGS),
            reviewed(TWO_BUILDINGS, entry),
            reviewed(TWO_BUILDINGS, entry, honoured=False),
        )
        told = [one for one in shown.findings if one.varied is not None]
        assert len(told) == 2
        assert [(one.is_varied, one.returns(Severity.DEFICIENCY)) for one in told] == [(False, True)] * 2
        assert [one.varied is not None for one in shown.findings] == [one.is_varied for one in taken.findings]
        assert [one.returns(Severity.ADVICE) for one in shown.findings] == [
            one.returns(Severity.ADVICE) for one in plain.findings
        ]

    def test_what_is_out_of_order_is_told_all_the_same(self) -> None:
        for entry in (granted(OPEN, "SP9"), granted(OPEN, "TV1"), granted(OPEN, "SP1", ", until: 2020")):
            assert about(reviewed(TWO_BUILDINGS, entry, honoured=False)) == about(reviewed(TWO_BUILDINGS, entry)) != []


class TestOutOfOrder:
    @pytest.mark.parametrize(
        ("rule", "item", "cases"),
        [
            ("level.unused-termnated", "SP1", ["rule misspelt"]),
            ("swimming pool", "SP1", ["no rule"]),
            ("variance.used", "SP1", ["about variances"]),
            (OPEN, "SP2", ["item misspelt"]),
            (OPEN, "SP1.out-2", ["item misspelt"]),
            (OPEN, "gate house of somebody else", ["no item"]),
            ("level.unused-termnated", "SP2", ["item misspelt", "rule misspelt"]),
        ],
    )
    def test_misnamed(self, rule: str, item: str, cases: list[str]) -> None:
        done = reviewed(TWO_BUILDINGS, granted(rule, item))
        assert varied(done) == []
        assert sorted(one.case for one in of(done, "variance.named")) == cases
        assert {name for name, _, _ in about(done)} == {"variance.named"}
        assert {one.severity for one in of(done, "variance.named")} == {Severity.DEFICIENCY}

    def test_a_rule_of_a_ruleset_that_is_not_named(self) -> None:
        assert about(reviewed(FLATS, granted("bonding.conductor-length", "flat-1/SP"))) == [
            ("variance.named", "flat-1/SP", "rule misspelt")
        ]

    def test_no_variance_covers_what_is_said_of_variances(self) -> None:
        done = reviewed(TWO_BUILDINGS, granted(OPEN, "TV1"), granted("variance.used", "TV1"))
        assert varied(done) == []
        assert {case for _, _, case in about(done)} == {"nothing found", "about variances"}

    def test_two_that_lack_use_differ_by_facet(self) -> None:
        done = reviewed(TWO_BUILDINGS, *(granted(OPEN, "TV1", f", facet: {facet}") for facet in "ab"))
        assert len({one.identity for one in of(done, "variance.used")}) == 2

    def test_three_that_say_the_same_are_one_finding(self) -> None:
        done = reviewed(TWO_BUILDINGS, *[granted(OPEN, "SP1")] * 3)
        (one,) = of(done, "variance.single")
        lines = [place.span.start.line for place, _ in one.related]
        assert "written 3 times" in one.found
        assert [one.place.span.start.line - lines[0], lines[1] - lines[0]] == [1, 2]
        assert one.severity is Severity.ADVICE
        assert [one.rule for one in done.findings].count("variance.single") == 1

    def test_tallies_count_what_is_granted(self) -> None:
        done = reviewed(TWO_BUILDINGS, granted(OPEN, "SP1"), granted(OPEN, "TV1"))
        tallies = {one.rule: one for one in done.tallies}
        assert (tallies["variance.named"].met, tallies["variance.used"].met, tallies["variance.used"].not_met) == (
            2,
            1,
            1,
        )
        assert tallies[OPEN].not_met == {one.rule: one for one in reviewed(TWO_BUILDINGS).tallies}[OPEN].not_met
        assert [one.rule for one in done.tallies] == [rule.name for rule in done.rules]


@pytest.mark.parametrize(("missing", "told"), [("reason", "reason"), ("granted by", "granted by")])
def test_without_a_reason_or_a_name_it_is_not_understood(missing: str, told: str) -> None:
    entry = granted(OPEN, "SP1").replace("reason: r, " if missing == "reason" else ", granted by: g", "")
    done = judge(read_text(f"{TWO_BUILDINGS}variances:\n{entry}", "x"), shipped_registry())
    (problem,) = done.problems
    assert f"'{told}'" in problem.message
    assert problem.span.start.line == TWO_BUILDINGS.count("\n") + 2


def test_a_variance_of_the_model_is_what_is_written() -> None:
    assert set(Variance.model_fields) == {"rule", "item", "facet", "reason", "granted_by", "until", "note"}
