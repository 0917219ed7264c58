"""Rulesets work on one another by named operations; what cannot be done is refused with a reason."""

from __future__ import annotations

from pathlib import Path

import pytest

from coaxwright.rules import RulesetError, RulesetRegistry, Severity, combine, shipped_registry

NEWEST = shipped_registry().newest("us")
EDITIONS = ", ".join(shipped_registry().editions("us"))
DOCUMENTS = "documents: {practice: {name: common practice, confidence: common practice}, book: {name: A book}}\n"
MATCH = """\
    check: port-match
    title: A cable has the impedance of its ports
    severity: deficiency
    existing: advice
    due: permit
    reason: Joints reflect.
    sources: [{document: practice}]
    limits: {return loss: {value: 20 dB, document: practice}}
    words:
      wrong cable: &words {found: "{cable}", required: matched, remedy: "{classes}"}
      no class:    {found: "{cable}", required: matched, remedy: a pad}
      wrong port:  {found: "{cable}", required: matched, remedy: a pad}
      sort not said: {found: "{cable}", required: matched, remedy: a pad}
""".replace("&words ", "")
RULE = f"add:\n  impedance.port-match:\n{MATCH}"


def shelf(folder: Path, **texts: str) -> RulesetRegistry:
    """Rulesets by ``name_edition``; each text stands below the head that every ruleset needs."""
    files = {}
    for key, text in texts.items():
        name, _, edition = key.partition("_")
        path = folder / f"{key}.yaml"
        path.write_text(f"ruleset: {name}\nedition: {edition}\ntitle: T\n{DOCUMENTS}{text}", encoding="utf-8")
        files[(name, edition)] = path
    return RulesetRegistry(files)


def refused(labels: list[str], of: RulesetRegistry) -> str:
    with pytest.raises(RulesetError) as error:
        combine(labels, of)
    return str(error.value)


def test_add_then_set_then_off(tmp_path: Path) -> None:
    rulesets = shelf(
        tmp_path,
        base_1=RULE,
        firm_1="builds on: [base 1]\nset: {impedance.port-match: {severity: advice}}\n",
        firm_2="builds on: [firm 1]\noff: {impedance.port-match: {reason: judged by the laboratory}}\n",
        firm_3="builds on: [firm 2]\nset: {impedance.port-match: {due: as-built}}\n",
    )
    assert combine(["base 1"], rulesets).rule("impedance.port-match").severity is Severity.DEFICIENCY
    softer = combine(["firm 1"], rulesets).rule("impedance.port-match")
    assert softer.severity is Severity.ADVICE
    assert (softer.origins["severity"], softer.origins["check"]) == ("firm 1", "base 1")
    without = combine(["firm 2"], rulesets)
    assert dict(without.rules) == {}
    assert without.off == {"impedance.port-match": "judged by the laboratory"}
    again = combine(["firm 3"], rulesets)
    assert again.off == {}
    assert again.rule("impedance.port-match").due == "as-built"


def test_bases_come_first_whatever_the_order_in_which_they_are_named(tmp_path: Path) -> None:
    rulesets = shelf(tmp_path, base_1=RULE, firm_1="builds on: [base 1]\nset: {impedance.port-match: {due: concept}}\n")
    for labels in (["firm 1"], ["firm 1", "base 1"], ["base 1", "firm 1"]):
        basis = combine(labels, rulesets)
        assert basis.rulesets == ("base 1", "firm 1")
        assert basis.rule("impedance.port-match").due == "concept"


def test_a_limit_keeps_its_origin_and_its_own_confidence(tmp_path: Path) -> None:
    harder = "set: {impedance.port-match: {limits: {return loss: {value: 26 dB, document: book, clause: p. 9}}}}\n"
    rulesets = shelf(tmp_path, base_1=RULE, firm_1=f"builds on: [base 1]\n{harder}")
    (limit,) = combine(["firm 1"], rulesets).rule("impedance.port-match").limits.all()
    assert (limit.value.text, limit.origin, str(limit.source)) == ("26 dB", "firm 1", "A book, p. 9")


CHANGED = "builds on: [base 1]\nset: {impedance.port-match: %s}\n"
FAULTS = [
    ("add: {impedance.port-match: {}}", "impedance.port-match has no 'title', 'severity', 'existing'"),
    (f"builds on: [base 1]\n{RULE}", "impedance.port-match is there already; use 'set' to change it"),
    (
        "builds on: [base 1]\nset: {impedance.port-macth: {due: permit}}",
        "is not there to set; did you mean 'impedance.port-match'?",
    ),
    ("builds on: [base 1]\noff: {cable.other: {reason: r}}", "cable.other is not there to be switched off"),
    ("off: {impedance.port-match: {}}", "impedance.port-match has no 'reason'; write 'reason: …'"),
    (CHANGED % "{check: port-mach}", "there is no check 'port-mach'; did you mean 'impedance.port-match'?"),
    (CHANGED % "{limits: {return loss: {value: 20 ft, document: book}}}", "the limit return loss: "),
    (CHANGED % "{limits: {return loss: {a: {value: 20 dB, document: book}}}}", "the limit return loss needs a value"),
    (
        CHANGED % "{limits: {loss: {value: 20 dB, document: book}}}",
        "the check of impedance.port-match has no limit 'loss'",
    ),
    (
        CHANGED % "{limits: {return loss: {value: 20 dB, document: boook}}}",
        "'boook' is not listed; listed are book, practice",
    ),
    (CHANGED % "{sources: [{document: paper}]}", "the document 'paper' is not listed"),
    (CHANGED % "{severity: grave}", "'grave' cannot stand for 'severity'; write one of violation, deficiency, advice"),
    (CHANGED % "{severity: violation}", "impedance.port-match is a violation without a published source"),
    (
        CHANGED % '{words: {no class: {found: "{cabel}", required: b, remedy: c}}}',
        "no class: there is no value 'cabel'; there are cable,",
    ),
    (
        CHANGED % '{words: {no class: {found: "{classes}", required: b, remedy: c}}}',
        "no class: there is no value 'classes'",
    ),
    (
        CHANGED % "{words: {no cable: {found: a, required: b, remedy: c}}}",
        "its check has no case 'no cable'; it has wrong cable,",
    ),
    (
        CHANGED % "{words: {no class: {found: a, required: b, remedy: c, severity: violation}}}",
        "a violation without a published source",
    ),
    (
        "add:\n  cable.new:\n"
        + MATCH.replace('      no class:    {found: "{cable}", required: matched, remedy: a pad}\n', ""),
        "cable.new has no words for the case 'no class'",
    ),
    (
        "add:\n  cable.new:\n" + MATCH.replace("    limits: {return loss: {value: 20 dB, document: practice}}\n", ""),
        "cable.new sets no limit 'return loss', which its check needs",
    ),
]


@pytest.mark.parametrize(("text", "said"), FAULTS, ids=[said for _, said in FAULTS])
def test_what_cannot_be_done_is_refused_with_its_place(tmp_path: Path, text: str, said: str) -> None:
    assert said in refused(["firm 1"], shelf(tmp_path, base_1=RULE, firm_1=text))


@pytest.mark.parametrize(
    ("pair", "said"),
    [
        ("20 ft (6.0 m)", ""),
        ("4 in (100 mm)", ""),
        ("20 ft (7 m)", "20 ft (7 m) are two lengths; 20 ft are 6.1 m"),
        ("4 in (10 mm)", "4 in (10 mm) are two lengths; 4 in are 102 mm"),
        ("20 ft (20 m)", "are two lengths"),
    ],
)
def test_both_halves_of_a_length_are_one_length(tmp_path: Path, pair: str, said: str) -> None:
    limit = f"{{longest: {{value: {pair}, document: book}}}}"
    house = f"builds on: [us 2023]\nset: {{bonding.conductor-length: {{limits: {limit}}}}}"
    both = RulesetRegistry({**shipped_registry().files, **shelf(tmp_path, house_1=house).files})
    if said:
        assert said in refused(["house 1"], both)
    else:
        rule = combine(["house 1"], both).rule("bonding.conductor-length")
        assert [limit.value.text for limit in rule.limits.all() if limit.name == "longest"] == [pair]


def test_a_limit_of_an_earlier_version_is_accepted_and_decides_nothing(tmp_path: Path) -> None:
    house = "builds on: [us 2023]\nset: {jacket.listed-indoors: {limits: {%s: {value: 9 floors, document: book}}}}"
    both = RulesetRegistry({**shipped_registry().files, **shelf(tmp_path, house_1=house % "floors").files})
    rule = combine(["house 1"], both).rule("jacket.listed-indoors")
    assert {limit.name for limit in rule.limits.all()} == {"longest", "short", "thin"}
    other = RulesetRegistry({**shipped_registry().files, **shelf(tmp_path, house_2=house % "flors").files})
    assert "has no limit 'flors'; it has longest, short, thin" in refused(["house 2"], other)


def test_a_violation_with_a_published_source_stands(tmp_path: Path) -> None:
    change = CHANGED % "{severity: violation, sources: [{document: book, clause: p. 9}]}"
    rule = combine(["firm 1"], shelf(tmp_path, base_1=RULE, firm_1=change)).rule("impedance.port-match")
    assert rule.severity is Severity.VIOLATION


def test_a_fault_names_file_and_line(tmp_path: Path) -> None:
    said = refused(["firm 1"], shelf(tmp_path, base_1=RULE, firm_1="builds on: [base 1]\noff:\n  a.b: {reason: r}\n"))
    assert "firm_1.yaml:7: a.b is not there" in said


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        ({"a_1": "builds on: [a 1]\n"}, "builds on itself: a 1 -> a 1"),
        ({"a_1": "builds on: [b 1]\n", "b_1": "builds on: [a 1]\n"}, "builds on itself: a 1 -> b 1 -> a 1"),
    ],
)
def test_a_ruleset_that_builds_on_itself_is_refused(tmp_path: Path, texts: dict[str, str], said: str) -> None:
    assert said in refused(["a 1"], shelf(tmp_path, **texts))


@pytest.mark.parametrize("labels", [["us 2017", "us 2023"], ["us 2023", "us 2017"], ["us 2020", "trade 1", "us 2023"]])
def test_one_edition_of_a_ruleset_binds_a_design(labels: list[str]) -> None:
    assert "one edition of a ruleset can bind a design" in refused(labels, shipped_registry())
    assert (
        combine([labels[0], labels[0]], shipped_registry()).rulesets
        == combine([labels[0]], shipped_registry()).rulesets
    )


def test_two_editions_that_come_in_by_their_bases_are_refused(tmp_path: Path) -> None:
    rulesets = shelf(tmp_path, base_1="", base_2="", a_1="builds on: [base 1]\n", b_1="builds on: [base 2]\n")
    assert "base 1 is named as well" in refused(["a 1", "b 1"], rulesets)


@pytest.mark.parametrize(
    ("label", "said"),
    [
        ("us 2026", f"us 2026: that edition is not here; of us there are {EDITIONS}"),
        ("trade 2", "trade 2: that edition is not here; of trade there are 1"),
        ("uk 2018", "uk 2018: no ruleset of that name; there are trade, us"),
        ("nec 2020", "nec 2020: no ruleset of that name; there are trade, us; did you mean 'us 2020'?"),
        ("nfpa 70", f"nfpa 70: no ruleset of that name; there are trade, us; did you mean '{NEWEST}'?"),
        ("us", f"us: that edition is not here; of us there are {EDITIONS}"),
    ],
)
def test_an_edition_is_refused_and_never_guessed(label: str, said: str) -> None:
    assert refused([label], shipped_registry()) == said


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("impedance.port-mach", "no rule of that name in trade 1; did you mean 'impedance.port-match'?"),
        ("bonding.conductor-length", "no rule of that name in trade 1; did you mean 'bonding.conductor-present'?"),
        ("zzz", "no rule of that name in trade 1"),
    ],
)
def test_an_unknown_rule_is_told_with_the_nearest(name: str, said: str) -> None:
    with pytest.raises(RulesetError) as error:
        combine(["trade 1"], shipped_registry()).rule(name)
    assert error.value.problem == said


def test_a_rule_that_is_switched_off_says_why(tmp_path: Path) -> None:
    rulesets = shelf(
        tmp_path, base_1=RULE, firm_1="builds on: [base 1]\noff: {impedance.port-match: {reason: no meter}}\n"
    )
    with pytest.raises(RulesetError, match="switched off here: no meter"):
        combine(["firm 1"], rulesets).rule("impedance.port-match")
