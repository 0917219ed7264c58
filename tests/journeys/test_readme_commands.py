"""The script that holds the README to its word can tell a lie from the truth."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

SCRIPT = Path(__file__).with_name("readme_commands.py")
README = """\
# Words

```console
$ echo begun > made; cat made
begun
$ printf 'one\\ntwo\\nthree\\n'
one
...
three
```

```console
$ cat plans/as-drawn.txt; exit 1
```

It ends with exit status 1, as it should.

<!-- shown: as-drawn -->
```text
second
```

```bash
# not a command
test -e made
```

```console
$ test -e made && echo 3 passed \\
  || pytest
```
"""


def run(folder: Path, text: str) -> subprocess.CompletedProcess[str]:
    (folder / "plans").mkdir()
    (folder / "plans" / "as-drawn.txt").write_text("first\nsecond\nthird\n", encoding="utf-8")
    (folder / "README.md").write_text(text, encoding="utf-8")
    return subprocess.run(
        [sys.executable, SCRIPT, folder / "README.md"], capture_output=True, text=True, check=False, timeout=60
    )


def test_a_true_readme_passes_and_its_tests_have_the_last_word(tmp_path: Path) -> None:
    moved = README.replace("# Words\n", "```bash\necho 3 passed; : pytest\n```\n")
    done = run(tmp_path, moved)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.splitlines()[-1] == "3 passed"
    assert not (tmp_path / "made").exists(), "commands run in a copy"


LIES = {
    "status": ("exit status 1", "exit status 2"),
    "output": ("begun\n$", "began\n$"),
    "shortened output": ("...\nthree", "...\nfour"),
    "shown": ("second", "fourth"),
    "shown of nothing": ("shown: as-drawn", "shown: as-built"),
    "shown empty": ("second\n", ""),
    "failing command": ("test -e made\n```", "test -e unmade\n```"),
    "failing tests": ("&& echo 3 passed \\\n  || pytest", "&& false \\\n  && pytest"),
    "output without command": ("$ echo begun", "echo begun"),
}


@pytest.mark.parametrize("lie", LIES)
def test_a_lie_is_found(lie: str, tmp_path: Path) -> None:
    before, after = LIES[lie]
    assert README.count(before) == 1
    assert run(tmp_path, README.replace(before, after)).returncode == 1


def test_a_readme_without_commands_is_a_mistake(tmp_path: Path) -> None:
    assert run(tmp_path, "# Words\n").returncode == 1
