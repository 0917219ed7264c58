"""Settings of folders: how they are read, which hold, and what they do to what is asked."""

from __future__ import annotations

import json
import pickle
import re
from pathlib import Path

import jsonschema
import jsonschema_rs
import pytest

from coaxwright.findings import Result
from coaxwright.reviewing import KeptBy, NothingToReview, Review, SelectionError, review
from coaxwright.reviewing.review_request import COMMAND, LeftOut, ReviewRequest
from coaxwright.reviewing.settings import SETTINGS_NAME, Settings, SettingsTree, asked_in
from coaxwright.rules import Severity
from coaxwright.shipped import shipped
from coaxwright.source import read_text
from coaxwright.source.problem import MOST_PROBLEMS

HEAD = "coaxwright settings: 1\n"
DESIGN = """\
coaxwright: 1
title: Avocet Lane 4 (invented)
basis: {rulesets: [trade 1]}
places: {closet: {}, den: {}}
devices:
  SP1: {kind: splitter, ways: 2, place: closet}
  TV1: {kind: outlet, place: den}
  TV2: {kind: outlet, place: den}
cables:
  C-1: {from: SP1, to: TV1, type: series 6, length: 25 m, route: [closet: 3 m, den: 9 m]}
  C-2: {from: SP1, to: TV2, type: series 6, length: 9 m}
"""
HOUSE = """\
ruleset: house
edition: 1
title: House rules (invented)
builds on: [trade 1]
documents: {house: {name: the house rules}}
set:
  plan.length-stated: {severity: advice}
"""
ADDED = """\
add:
  house.tag:
    check: tag-unique
    title: A tag is there once
    severity: advice
    existing: advice
    due: as-built
    reason: Two things of one tag are mixed up.
    sources: [{document: house}]
    words:
      twice: {found: a, required: b, remedy: c}
      but for capitals: {found: a, required: b, remedy: c}
      port: {found: a, required: b, remedy: c}
"""
SCHEMA = json.loads((shipped("schemas") / "settings-1.schema.json").read_text(encoding="utf-8"))


@pytest.fixture
def plans(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository of plans, which is the working folder: plans/a, plans/flats/b, archive/old."""
    top = tmp_path / "repository"
    for name in ("plans/a", "plans/flats/b", "archive/old"):
        put(top / f"{name}.coax.yaml", DESIGN)
    monkeypatch.chdir(top)
    return top


def put(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def said(text: str, folder: Path) -> Settings:
    put(folder / SETTINGS_NAME, HEAD + text)
    return SettingsTree().of(folder / "any.coax.yaml")


def told(settings: Settings) -> list[str]:
    return [str(problem) for problem in settings.mistakes]


class TestReading:
    def test_each_field_with_its_line(self, plans: Path) -> None:
        put(plans / "firm" / "house.coax-ruleset.yaml", HOUSE)
        found = said(
            "returns at: advice\nalso judged by: [us 2023, firm/house.coax-ruleset.yaml]\n"
            "rules left out:\n  level.tilt: set on\n    site\nfiles left out: {archive: old}\n"
            "punch list: x/known.yaml\n",
            plans,
        )
        assert found.mistakes == ()
        assert found.returns_at is not None
        assert (found.returns_at.value, str(found.returns_at.origin)) == (Severity.ADVICE, f"{SETTINGS_NAME}:2")
        assert found.also_judged_by is not None
        us, house = found.also_judged_by.value
        assert (us.printed, us.text) == ("us 2023", None)
        assert (house.printed, house.text) == ("house 1 (firm/house.coax-ruleset.yaml)", HOUSE)
        assert found.rules_left_out is not None
        (rule,) = found.rules_left_out.value
        assert (rule.name, rule.reason, str(rule.origin)) == ("level.tilt", "set on site", f"{SETTINGS_NAME}:5")
        assert found.files_left_out is not None
        (files,) = found.files_left_out.value
        assert (files.pattern.written, files.reason) == ("archive", "old")
        assert found.punch_list is not None
        assert found.punch_list.value == "x/known.yaml"

    def test_paths_count_from_the_settings_file(self, plans: Path) -> None:
        put(plans / "plans" / "house.coax-ruleset.yaml", HOUSE)
        found = said("also judged by: [house.coax-ruleset.yaml]\npunch list: ../known.yaml\n", plans / "plans")
        assert found.mistakes == ()
        assert found.also_judged_by is not None
        assert found.also_judged_by.value[0].label == "plans/house.coax-ruleset.yaml"
        assert found.punch_list is not None
        assert found.punch_list.value == "known.yaml"

    @pytest.mark.parametrize(
        ("text", "expected"),
        [
            ("return at: violation", "2:1: the file has no field 'return at'; did you mean 'returns at'?"),
            ("returns at: Violation", "2:13: 'Violation' cannot stand for 'returns at'; write one of "),
            ("returns at: Violation", "did you mean 'violation'?"),
            ("rules left out: {level.tilt: }", "nothing is written for 'level.tilt'; write the reason why"),
            ("rules left out: {level.tilt: ' '}", "2:30: ' ' cannot stand for 'level.tilt'; write the reason why"),
            ("rules left out: [level.tilt]", "write 'rule: why it is left out' on each line"),
            (
                "files left out: {../x: old}",
                "2:18: '../x' has a step that leads nowhere; write folders and files below",
            ),
            ("files left out: {*x: old}", "write the value out; a text that begins with * needs quotes"),
            ("also judged by: [house]", "2:18: 'house' cannot stand for 'also judged by'; write 'us 2023' or "),
            (
                "also judged by: [x.coax-ruleset.yaml]",
                "2:18: there is no file 'x.coax-ruleset.yaml'; looked for it at ",
            ),
            ("also judged by: [../x.coax-ruleset.yaml]", "lies outside the folder under review"),
            ("also judged by: [/x.coax-ruleset.yaml]", "is a path of one machine"),
            ("punch list: ../known.yaml", "2:13: '../known.yaml' lies outside the folder under review"),
            ("punch list: /known.yaml", "is a path of one machine"),
            ("returns at: advice\nreturns at: advice", "stands here twice, first on line 2"),
        ],
    )
    def test_a_mistake_is_told_at_its_place(self, plans: Path, text: str, expected: str) -> None:
        found = said(text, plans)
        (mistake,) = told(found)
        assert mistake.startswith(f"{SETTINGS_NAME}:2:" if "twice" not in expected else f"{SETTINGS_NAME}:3:")
        assert expected in mistake
        assert (found.returns_at, found.also_judged_by, found.punch_list) == (None, None, None)

    @pytest.mark.parametrize(
        ("text", "expected"),
        [
            ("returns at: advice\n", "1:1: the file has no 'coaxwright settings'; settings begin with "),
            ("coaxwright settings: 2\n", "1:22: 2 cannot stand for 'coaxwright settings'; write 1"),
            ("returns at: advice\ncoaxwright settings: 1\n", "2:1: 'coaxwright settings' stands too late; write it in"),
            ("", "1:1: "),
            ("[]", "1:1: "),
            ("coaxwright settings: [\n", "1:22: "),
        ],
    )
    def test_it_begins_with_its_format(self, plans: Path, text: str, expected: str) -> None:
        put(plans / SETTINGS_NAME, text)
        (mistake,) = told(SettingsTree().of(plans / "a.coax.yaml"))
        assert mistake.startswith(f"{SETTINGS_NAME}:{expected}")

    def test_bytes_that_are_no_text(self, plans: Path) -> None:
        (plans / SETTINGS_NAME).write_bytes(b"coaxwright settings: 1\n# \xff\n")
        assert told(SettingsTree().of(plans / "a.coax.yaml")) == [
            f"{SETTINGS_NAME}:2:3: byte 0xFF is not UTF-8; save the file as UTF-8"
        ]

    def test_a_link_out_of_the_tree_and_a_folder_are_not_read(self, plans: Path, tmp_path: Path) -> None:
        put(tmp_path / "elsewhere.yaml", f"{HEAD}returns at: advice\n")
        (plans / SETTINGS_NAME).symlink_to(tmp_path / "elsewhere.yaml")
        (plans / "plans" / SETTINGS_NAME).mkdir()
        found = told(SettingsTree().of(plans / "plans" / "a.coax.yaml"))
        assert found == [
            f"{SETTINGS_NAME}:1:1: '{SETTINGS_NAME}' lies outside the folder under review; keep the files of a design "
            "in one folder tree",
            f"plans/{SETTINGS_NAME}:1:1: this is a folder; a design file",
        ]

    def test_a_ruleset_that_is_none_is_told_in_its_own_file(self, plans: Path) -> None:
        put(plans / "x.coax-ruleset.yaml", "ruleset: [\n")
        assert told(said("also judged by: [x.coax-ruleset.yaml]\n", plans))[0].startswith("x.coax-ruleset.yaml:1:10: ")

    @pytest.mark.parametrize(
        "text",
        [HEAD, f"{HEAD}rules left out: {{}}\n", f"{HEAD}returns at: none\n", f"{HEAD}also judged by: [us]\n", "a: 1\n"],
    )
    def test_both_validators_agree(self, text: str) -> None:
        data = read_text(text, "x").data
        fast = jsonschema_rs.Draft202012Validator(SCHEMA).is_valid(data)
        assert jsonschema.Draft202012Validator(SCHEMA).is_valid(data) is fast


class TestWhichHold:
    def test_the_nearer_wins_field_by_field(self, plans: Path) -> None:
        put(
            plans / SETTINGS_NAME,
            f"{HEAD}returns at: advice\nrules left out: {{level: x, plan: y}}\npunch list: p.yaml\n",
        )
        put(plans / "plans" / SETTINGS_NAME, f"{HEAD}rules left out: {{jacket: z}}\n")
        put(plans / "plans" / "flats" / SETTINGS_NAME, f"{HEAD}returns at: violation\nrules left out: {{}}\n")
        tree = SettingsTree()
        names = {}
        for name in ("archive/old", "plans/a", "plans/flats/b"):
            found = tree.of(plans / f"{name}.coax.yaml")
            assert found.returns_at is not None
            assert found.rules_left_out is not None
            left = [one.name for one in found.rules_left_out.value]
            names[name] = (found.returns_at.value.value, left, len(found.files), found.punch_list is not None)
        assert names == {
            "archive/old": ("advice", ["level", "plan"], 1, True),
            "plans/a": ("advice", ["jacket"], 2, True),
            "plans/flats/b": ("violation", [], 3, True),
        }

    def test_nothing_above_the_working_folder_counts(self, plans: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        put(plans / SETTINGS_NAME, f"{HEAD}returns at: advice\n")
        put(plans.parent / SETTINGS_NAME, "nonsense: [\n")
        assert SettingsTree().of(Path("plans/a.coax.yaml")).files == (SETTINGS_NAME,)
        monkeypatch.chdir(plans / "plans")
        assert SettingsTree().of(Path("a.coax.yaml")) == Settings()

    def test_outside_of_the_working_folder_those_of_its_own_folder(
        self, plans: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        put(plans / SETTINGS_NAME, f"{HEAD}returns at: advice\n")
        put(plans / "plans" / SETTINGS_NAME, f"{HEAD}returns at: violation\n")
        (tmp_path / "desk").mkdir()
        monkeypatch.chdir(tmp_path / "desk")
        assert SettingsTree().of(plans / "plans" / "a.coax.yaml").files == (f"../repository/plans/{SETTINGS_NAME}",)
        assert SettingsTree().of(plans / "plans" / "flats" / "b.coax.yaml").files == ()

    def test_each_file_is_read_once(self, plans: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        put(plans / SETTINGS_NAME, HEAD)
        tree = SettingsTree()
        first = tree.of(plans / "plans" / "flats" / "b.coax.yaml")
        (plans / SETTINGS_NAME).unlink()
        assert tree.of(plans / "plans" / "a.coax.yaml").files == first.files == (SETTINGS_NAME,)

    def test_a_path_that_is_none_has_no_settings(self) -> None:
        assert SettingsTree().of(Path("a\0b/c.coax.yaml")) == Settings()


class TestWhatIsAsked:
    def test_the_command_wins(self, plans: Path) -> None:
        settings = said("returns at: violation\nrules left out: {level: x}\nalso judged by: [us 2023]\n", plans)
        plain = asked_in(ReviewRequest(), settings)
        assert (plain.returns_at, [one.name for one in plain.left_out]) == (Severity.VIOLATION, ["level"])
        assert [one.label for one in plain.rulesets] == ["us 2023"]
        chosen = asked_in(ReviewRequest(returns_at=Severity.ADVICE, returns_at_from=COMMAND), settings)
        assert chosen.returns_at is Severity.ADVICE
        only = asked_in(ReviewRequest(only=("level.tilt",)), settings)
        assert only.left_out == ()
        more = asked_in(ReviewRequest(left_out=(LeftOut("plan"),)), settings)
        assert [one.name for one in more.left_out] == ["plan", "level"]

    def test_without_settings_nothing_changes(self) -> None:
        asked = ReviewRequest()
        assert asked_in(asked, Settings()) is asked


class TestReviews:
    def results(self, done: Review) -> dict[str, str]:
        return {design.file: str(design.result) for design in done.designs}

    def test_severity_by_folder(self, plans: Path) -> None:
        put(plans / "plans" / "flats" / SETTINGS_NAME, f"{HEAD}returns at: violation\n")
        assert self.results(review(["plans"])) == {"plans/a.coax.yaml": "returned", "plans/flats/b.coax.yaml": "clear"}
        assert set(self.results(review(["plans"], returns_at=Severity.DEFICIENCY)).values()) == {"returned"}

    def test_rules_left_out_are_named_with_the_reason(self, plans: Path) -> None:
        put(
            plans / SETTINGS_NAME,
            f"{HEAD}rules left out:\n  plan.length-stated: taken on site\n  satellite: not ours\n",
        )
        (design,) = review(["plans/a.coax.yaml"]).designs
        assert design.result is Result.CLEAR
        left = {one.rule: (one.reason, one.origin) for one in design.scope.kept_by(KeptBy.SETTINGS)}
        assert left["plan.length-stated"] == ("taken on site", f"{SETTINGS_NAME}:3")
        assert {rule.partition(".")[0] for rule in left} == {"plan", "satellite"}
        assert "plan.length-stated" not in {tally.rule for tally in design.tallies}

    def test_a_ruleset_of_the_firm_is_asked_besides(self, plans: Path) -> None:
        put(plans / "firm" / "house.coax-ruleset.yaml", HOUSE)
        put(plans / SETTINGS_NAME, f"{HEAD}also judged by: [firm/house.coax-ruleset.yaml]\n")
        (design,) = review(["plans/a.coax.yaml"]).designs
        assert design.rulesets == ("trade 1", "house 1")
        assert {one.severity for one in design.findings if one.rule == "plan.length-stated"} == {Severity.ADVICE}
        assert design.named_rulesets == ("trade 1",)

    def test_the_same_ruleset_named_by_both_is_one(self, plans: Path) -> None:
        put(plans / "firm" / "house.coax-ruleset.yaml", HOUSE)
        put(plans / SETTINGS_NAME, f"{HEAD}also judged by: [trade 1, firm/house.coax-ruleset.yaml]\n")
        named = DESIGN.replace("[trade 1]", "[trade 1, firm/house.coax-ruleset.yaml]")
        put(plans / "b.coax.yaml", named)
        (design,) = review(["b.coax.yaml"]).designs
        assert design.problems == ()
        assert design.rulesets == ("trade 1", "house 1")

    @pytest.mark.parametrize(
        ("settings", "where", "what"),
        [
            (
                "also judged by: [us 2024]",
                "coax-settings.yaml:2:18",
                "'us 2024': that edition is not here; of us there",
            ),
            ("rules left out: {levl: x}", "coax-settings.yaml:2:18", "no rule or topic 'levl'; did you mean 'level'?"),
            ("also judged by: [us 2020, us 2023]", "coax-settings.yaml:2:27", "us 2020 is named as well"),
        ],
    )
    def test_what_nobody_has_is_told_in_the_settings(self, plans: Path, settings: str, where: str, what: str) -> None:
        put(plans / SETTINGS_NAME, f"{HEAD}{settings}\n")
        done = review(["plans"])
        assert done.exit_status == 2
        for design in done.designs:
            (problem,) = design.problems
            assert str(problem).startswith(where)
            assert what in problem.message

    def test_an_edition_beside_the_one_that_the_design_names_is_refused(self, plans: Path) -> None:
        put(plans / SETTINGS_NAME, f"{HEAD}also judged by: [us 2023]\n")
        put(plans / "b.coax.yaml", DESIGN.replace("trade 1", "us 2020"))
        (problem,) = review(["b.coax.yaml"]).designs[0].problems
        assert str(problem).startswith("coax-settings.yaml:2:18: 'us 2023': us 2020 is named as well")

    def test_a_rule_of_another_ruleset_of_the_program_may_be_left_out(self, plans: Path) -> None:
        """Settings of a repository hold for designs by trade practice alone as well."""
        put(plans / SETTINGS_NAME, f"{HEAD}rules left out: {{bonding.conductor-length: x}}\n")
        (design,) = review(["plans/a.coax.yaml"]).designs
        assert design.problems == ()
        assert design.scope.kept_by(KeptBy.SETTINGS) == ()

    def test_a_mistake_in_a_ruleset_of_the_settings_is_told_in_it(self, plans: Path) -> None:
        put(plans / "x.coax-ruleset.yaml", HOUSE.replace("builds on", "build on"))
        put(plans / SETTINGS_NAME, f"{HEAD}also judged by: [x.coax-ruleset.yaml]\n")
        (problem,) = review(["plans/a.coax.yaml"]).designs[0].problems
        assert str(problem).startswith("x.coax-ruleset.yaml:4:1: the file has no field 'build on'")

    def test_files_left_out_of_a_search(self, plans: Path) -> None:
        put(plans / SETTINGS_NAME, f"{HEAD}files left out: {{archive: built long ago, '**/b.coax.yaml': a draft}}\n")
        done = review(["."])
        assert self.results(done) == {"plans/a.coax.yaml": "returned"}
        assert [(one.name, one.reason, one.origin) for one in done.left_out] == [
            ("archive/old.coax.yaml", "built long ago", f"{SETTINGS_NAME}:2"),
            ("plans/flats/b.coax.yaml", "a draft", f"{SETTINGS_NAME}:2"),
        ]
        both = review(["archive/old.coax.yaml", "."])
        assert set(self.results(both)) == {"archive/old.coax.yaml", "plans/a.coax.yaml"}
        assert set(self.results(review([".", "archive/old.coax.yaml"]))) == set(self.results(both))

    def test_all_left_out_is_nothing_to_review(self, plans: Path) -> None:
        put(plans / SETTINGS_NAME, f"{HEAD}files left out: {{archive: built long ago}}\n")
        with pytest.raises(NothingToReview, match=r"every design is left out, such as archive/old.coax.yaml"):
            review(["archive"])
        assert len(review(["archive/old.coax.yaml"]).designs) == 1

    def test_settings_that_cannot_be_read_leave_nothing_out(self, plans: Path) -> None:
        put(plans / SETTINGS_NAME, f"{HEAD}files left out: {{archive: }}\n")
        assert set(self.results(review(["."]))) == {
            "archive/old.coax.yaml",
            "plans/a.coax.yaml",
            "plans/flats/b.coax.yaml",
        }

    def test_a_part_of_a_design_that_is_left_out(self, plans: Path) -> None:
        put(plans / "archive" / "p.coax-part.yaml", "coaxwright part: 1\nplaces: {attic: {}}\n")
        put(plans / "archive" / "old.coax.yaml", DESIGN + "includes: [p.coax-part.yaml]\n")
        assert set(self.results(review(["archive/p.coax-part.yaml"]))) == {"archive/old.coax.yaml"}
        put(plans / SETTINGS_NAME, f"{HEAD}files left out: {{archive: built long ago}}\n")
        with pytest.raises(NothingToReview):
            review(["archive/p.coax-part.yaml"])

    def test_to_name_settings_is_to_name_the_designs_of_their_folder(self, plans: Path) -> None:
        put(plans / "plans" / SETTINGS_NAME, f"{HEAD}files left out: {{flats: drafts}}\n")
        assert self.results(review([f"plans/{SETTINGS_NAME}"])) == {"plans/a.coax.yaml": "returned"}

    def test_every_rule_left_out_is_not_clear(self, plans: Path) -> None:
        (design,) = review(["plans/a.coax.yaml"]).designs
        topics = {tally.rule.partition(".")[0] for tally in design.tallies}
        put(plans / SETTINGS_NAME, HEAD + "rules left out: {" + ", ".join(f"{one}: x" for one in topics) + "}\n")
        done = review(["plans/a.coax.yaml"])
        assert done.designs[0].tallies == ()
        assert (done.result, done.exit_status) == (Result.INCOMPLETE, 3)

    def test_a_rule_that_a_firm_adds_can_be_chosen_and_a_misspelt_one_not(self, plans: Path) -> None:
        put(plans / "x.coax-ruleset.yaml", HOUSE + ADDED)
        put(plans / SETTINGS_NAME, f"{HEAD}also judged by: [x.coax-ruleset.yaml]\n")
        (design,) = review(["plans/a.coax.yaml"], only=["house.tag"]).designs
        assert [tally.rule for tally in design.tallies] == ["house.tag"]
        with pytest.raises(SelectionError, match=r"no rule or topic 'house.tags'; did you mean 'house.tag'"):
            review(["plans"], only=["house.tags"])
        (plans / SETTINGS_NAME).unlink()
        with pytest.raises(SelectionError, match=r"no rule or topic 'house.tag'"):
            review(["plans"], only=["house.tag"])


class TestPage:
    """The page of the reference tells of every field, and what it shows is understood."""

    PAGE = (Path(__file__).parents[3] / "docs" / "reference" / "settings.md").read_text(encoding="utf-8")

    def test_every_field_has_a_row_and_stands_in_the_example(self) -> None:
        fields = [key for key in SCHEMA["properties"] if key != "coaxwright settings"]
        assert re.findall(r"^\| `([a-z ]+)` \|", self.PAGE, re.MULTILINE) == fields
        (shown,) = re.findall(r"```yaml\n(.*?)```", self.PAGE, re.DOTALL)
        assert list(read_text(shown, "page").data) == ["coaxwright settings", *fields]

    def test_the_example_is_understood(self, plans: Path) -> None:
        (shown,) = re.findall(r"```yaml\n(.*?)```", self.PAGE, re.DOTALL)
        put(plans / "firm" / "house.coax-ruleset.yaml", HOUSE)
        put(plans / SETTINGS_NAME, shown)
        done = review(["."])
        assert [design.problems for design in done.designs] == [(), ()]
        assert [one.name for one in done.left_out] == ["archive/old.coax.yaml"]

    def test_every_field_is_described(self) -> None:
        assert all(entry["description"] for entry in SCHEMA["properties"].values())
        jsonschema.Draft202012Validator.check_schema(SCHEMA)


class TestNuisance:
    """A file made to be a nuisance ends in a few clear errors, soon."""

    @pytest.mark.parametrize(
        "body",
        [
            "rules left out:\n" + "".join(f"  a{number}:\n" for number in range(20_000)),
            "".join(f"k{number}: x\n" for number in range(20_000)),
            "files left out:\n" + "".join(f"  ../a{number}: x\n" for number in range(20_000)),
            "also judged by: [" + ", ".join(f"x{number}" for number in range(9_000)) + "]\n",
        ],
        ids=["reasons", "fields", "patterns", "rulesets"],
    )
    def test_so_many_mistakes_are_told_and_no_more(self, plans: Path, body: str) -> None:
        found = told(said(body, plans))
        assert len(found) == MOST_PROBLEMS + 1
        assert found[0].startswith(f"{SETTINGS_NAME}:1:1: there are more mistakes than the 1,000 that are told at most")

    def test_so_many_names_that_nobody_has(self, plans: Path) -> None:
        names = ", ".join(f"a{number}: x" for number in range(20_000))
        put(plans / SETTINGS_NAME, f"{HEAD}rules left out: {{{names}}}\n")
        (design,) = review(["plans/a.coax.yaml"]).designs
        assert len(design.problems) == MOST_PROBLEMS + 1

    def test_what_is_asked_can_be_handed_to_another_process(self, plans: Path) -> None:
        put(plans / "firm" / "house.coax-ruleset.yaml", HOUSE)
        settings = said(
            "returns at: advice\nalso judged by: [firm/house.coax-ruleset.yaml]\nrules left out: {plan: x}\n", plans
        )
        asked = asked_in(ReviewRequest(only=()), settings)
        again = pickle.loads(pickle.dumps(asked))
        assert again == asked
        assert hash(again) == hash(asked)
        assert asked.rulesets
        assert asked.left_out
