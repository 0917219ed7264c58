"""Put each mutant of the checks in the place of its module, and see whether a test fails.

    python tests/mutation/run.py                   every module of lint/coaxwright/checks
    python tests/mutation/run.py jacket level.tilt these modules
    python tests/mutation/run.py --again           of these modules, those alone that survived last time
    python tests/mutation/run.py --first 10        in each module, the first ten mutants
    python tests/mutation/run.py --rows            none: a row for each module that has none yet, and no other rows

Asked of each mutant are the tests that reach its module, the quickest first: the examples of the rules behind it, the
seeded defects of those rules, and the unit tests that name it or a rule of its topic. Every mutant has a process of its
own, a copy of one that has read everything else already. What came out is kept beside this file: a row for each module
in ``results.csv``, the mutants that no test tells in ``survivors.yaml``. Reasons written there stay.
"""

from __future__ import annotations

import argparse
import ast
import importlib
import importlib.util
import io
import os
import re
import resource
import sys
import time
import traceback
from collections.abc import Iterator, Sequence
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import replace
from importlib.abc import Loader, MetaPathFinder
from importlib.machinery import ModuleSpec
from pathlib import Path
from types import CodeType, ModuleType
from typing import Any

TESTS = Path(__file__).parents[1]
LINT = TESTS.parent / "lint"
sys.path[:0] = [str(LINT), str(Path(__file__).parent)]

from keeping import CHECKS, file_of, keep, kept, modules, only_rows_of  # noqa: E402
from mutants import Mutant, mutants_of  # noqa: E402

PACKAGE = "coaxwright.checks"
SECONDS = 90
"""Of the processor, longer than any module's tests take: a mutant that runs on for ever is told."""
KILLED, SURVIVED = 0, 77
ROOMS = ("checks", "rules", "findings")
"""Whose unit tests ask a check anything; the rooms behind them look at what was found already."""
OF_EVERY_CHECK = "test_check_contracts.py"
"""What every check keeps, whatever its module: it names none."""


class _InPlace(MetaPathFinder, Loader):
    """Gives the mutant where its module is imported."""

    def __init__(self, name: str, code: CodeType) -> None:
        self.name = name
        self.code = code

    def find_spec(self, fullname: str, path: object, target: object = None) -> ModuleSpec | None:
        return importlib.util.spec_from_loader(fullname, self) if fullname == self.name else None

    def create_module(self, spec: ModuleSpec) -> None:
        return None

    def exec_module(self, module: ModuleType) -> None:
        module.__file__ = str(file_of(self.name.removeprefix(f"{PACKAGE}.")))
        exec(self.code, module.__dict__)


def _imports(module: str) -> set[str]:
    """What one module imports of the checks, by its name below them; among it are names that are no module."""
    found = set()
    for node in ast.walk(ast.parse(file_of(module).read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and f"{node.module}.".startswith(f"{PACKAGE}."):
            names = [str(node.module), *(f"{node.module}.{alias.name}" for alias in node.names)]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        else:
            continue
        found |= {name.removeprefix(f"{PACKAGE}.") for name in names}
    return found


def reached_from(module: str) -> set[str]:
    """The module and those that import it, directly or not."""
    reached = {module}
    while True:
        more = {one for one in modules() if _imports(one) & reached} - reached
        if not more:
            return reached
        reached |= more


def rules_behind(module: str) -> set[str]:
    """The rules whose check is in a module or in one that imports it.

    In a process of its own, so that no check is imported here.
    """
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        from coaxwright.checks import Check, all_checks
        from coaxwright.rules import combine, shipped_registry

        reached = {f"{PACKAGE}.{one}" for one in reached_from(module)}
        every_check = {check.name: check for check in all_checks().values()}
        names = {name for name, check in every_check.items() if check.judge.__module__ in reached}
        for one in reached:
            names |= {value.name for value in vars(sys.modules[one]).values() if isinstance(value, Check)}
        shelf = shipped_registry()
        every = [rule for name in shelf.names for rule in combine([shelf.newest(name)], shelf).rules.values()]
        os.write(writer, "\n".join({rule.name for rule in every if rule.check.name in names}).encode())
        os._exit(0)
    os.close(writer)
    os.waitpid(child, 0)
    with os.fdopen(reader) as told:
        return set(told.read().split())


def _module_of_tests(path: Path) -> ModuleType:
    spec = importlib.util.spec_from_file_location(f"for_mutants_{path.stem}", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


def _only(rules: set[str]) -> None:
    """Let reviews ask these rules alone: a mutant changes nothing of the others. Those of variances need all."""
    if any(rule.startswith("variance.") for rule in rules):
        return
    terms = importlib.import_module("coaxwright.reviewing.effective_rules")
    whole = terms.combine

    def combine(*asked: Any) -> Any:
        basis = whole(*asked)
        return replace(basis, rules={name: rule for name, rule in basis.rules.items() if name in rules})

    terms.combine = combine


def _every_rule_again() -> None:
    terms = importlib.import_module("coaxwright.reviewing.effective_rules")
    terms.combine = importlib.import_module("coaxwright.rules").combine


def _examples_tell(rules: set[str]) -> None:
    """The tests of the rules' own examples, of these rules alone and in the newest editions."""
    import coaxwright.rules.examples as examples

    every = examples.example_files
    examples.example_files = lambda: tuple(path for path in every() if path.stem in rules)
    tests = _module_of_tests(TESTS / "rules" / "test_rule_examples.py")
    examples.example_files = every  # for the unit tests, which ask about every rule
    for example in tests.EXAMPLES:
        tests.keeps_its_word(example, tests.labels_of(example)[0])


def _seeded_defects_tell(rules: set[str]) -> None:
    """The seeded defects of these rules, with what else of them is to be found."""
    tests = _module_of_tests(TESTS / "seeded" / "test_seeded_defects.py")
    for seed in tests.SEEDS:
        if rules & seed.rules:
            tests.check(seed, rules)


def unit_tests_of(module: str, rules: set[str]) -> list[str]:
    """The files of unit tests that name the module, or a rule of its topic; and that of what every check keeps."""
    folder, _, own = module.rpartition(".")
    imported = [re.escape(f"{PACKAGE}.{module}") + r"\b", re.escape(f"{PACKAGE}.{folder} import") + rf".*\b{own}\b"]
    topics = sorted({rule.partition(".")[0] for rule in rules}) if folder else []
    named_rules = [*(re.escape(rule) for rule in sorted(rules)), *(rf"\b{topic}\.[a-z{{]" for topic in topics)]
    names = "|".join([*imported[: 2 if folder else 1], *named_rules])
    files = sorted(path for room in ROOMS for path in (TESTS / "units" / room).rglob("test_*.py"))
    named = [path for path in files if re.search(names, path.read_text(encoding="utf-8"))]
    return [str(path) for path in (*named, TESTS / "units" / "checks" / OF_EVERY_CHECK)]


def _unit_tests_tell(files: Sequence[str]) -> None:
    import pytest
    from hypothesis import settings

    settings.register_profile("in no hurry", deadline=None, derandomize=True)  # a busy machine tells no mutant
    settings.load_profile("in no hurry")

    options = [
        "-x",
        "-q",
        "-n0",
        "--assert=plain",
        "-p",
        "no:cacheprovider",
        "--no-header",
        f"--rootdir={TESTS.parent}",
    ]
    assert not files or pytest.main([*options, *files]) == 0


def _asked(module: str, code: CodeType, rules: set[str], units: Sequence[str], loud: bool) -> int:
    """Whether a test fails with the mutant in place; runs in a process of its own."""
    sys.meta_path.insert(0, _InPlace(f"{PACKAGE}.{module}", code))
    with redirect_stdout(io.StringIO()), redirect_stderr(io.StringIO()):
        try:
            _only(rules)
            _examples_tell(rules)
            _seeded_defects_tell(rules)
            _every_rule_again()
            _unit_tests_tell(units)
        except BaseException:  # whatever a mutant does wrong tells it
            sys.__stderr__.write(traceback.format_exc() if loud else "")
            return KILLED
    return SURVIVED


def survives(module: str, mutant: Mutant | None, rules: set[str], units: Sequence[str]) -> bool:
    """Whether no test tells the mutant; without one, whether the tests are content with the module as it is."""
    source = file_of(module).read_text(encoding="utf-8")
    try:
        code = compile(mutant.tree if mutant else source, str(file_of(module)), "exec")
    except (SyntaxError, ValueError):
        return False
    child = os.fork()
    if child == 0:
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
        resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))  # one that collects for ever is told as well
        os._exit(_asked(module, code, rules, units, mutant is None))
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == SURVIVED


def _read_everything_else() -> None:
    """Import and read what no check is part of, once for all mutants."""
    for name in ("jsonschema", "pytest", "coaxwright.analysis", "coaxwright.design"):
        importlib.import_module(name)

    from coaxwright.catalogue import load_catalogue

    load_catalogue()
    assert not [name for name in sys.modules if name.startswith(PACKAGE)]


def _of(module: str, mutants: Sequence[Mutant], rules: set[str], units: Sequence[str]) -> Iterator[Mutant]:
    for mutant in mutants:
        if survives(module, mutant, rules, units):
            place = f"{file_of(module).relative_to(CHECKS)}:{mutant.line} {mutant.function}"
            print(f"  survives: {place}: {mutant.what}: {mutant.text}", flush=True)
            yield mutant


def main() -> None:
    asked = argparse.ArgumentParser(description="Mutants of the checks, and whether a test tells them.")
    asked.add_argument("modules", nargs="*", metavar="MODULE")
    asked.add_argument("--again", action="store_true")
    asked.add_argument("--first", type=int, metavar="N")
    asked.add_argument("--rows", action="store_true")
    chosen = asked.parse_args()
    if chosen.rows:
        only_rows_of(modules())
        return
    _read_everything_else()
    for module in chosen.modules or modules():
        started = time.monotonic()
        rules = rules_behind(module)
        units = unit_tests_of(module, rules)
        if not survives(module, None, rules, units):
            raise SystemExit(f"{module}: the tests fail without any mutant")
        every = mutants_of(file_of(module).read_text(encoding="utf-8"))
        before = kept(module)
        mutants = [one for one in every if one.key in before] if chosen.again else every[: chosen.first]
        alive = list(_of(module, mutants, rules, units))
        if chosen.first is None:
            keep(module, every, alive)
        seconds = time.monotonic() - started
        print(f"{module}: {len(mutants)} asked, {len(alive)} survive, {seconds:.0f} s", flush=True)


if __name__ == "__main__":
    main()
