"""The house keeps its order: imports point one way, slow libraries stay behind the doors that need them."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
import tomllib
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from packaging.requirements import Requirement

import kitlist

PACKAGE = Path(kitlist.__file__).parent
TOP = PACKAGE.parent
ROOMS = (
    "__init__",
    "base",
    "physics",
    "physics/battery",
    "physics/leads",
    "physics/arc",
    "physics/bank",
    "welding",
    "welding/designation",
    "welding/rods",
    "welding/repairs",
    "kit",
    "outlook",
    "outlook/options",
    "rules",
    "readiness",
    "trips",
    "store/tables",
    "store",
    "faces",
    "faces/paper",
    "faces/words",
    "faces/pocket",
    "faces/phone",
    "faces/cli",
    "__main__",
)
"""Every room, in the order in which imports may point: a room knows those before it."""
SLOW = {"sqlmodel", "sqlalchemy", "sqlite_utils", "weasyprint", "jinja2", "rich", "starlette", "uvicorn", "segno"}
LEVEL = {room: level for level, room in enumerate(ROOMS)}
ALONE = {
    "sqlmodel": "store/tables",
    "sqlalchemy": "store/tables",
    "sqlite_utils": "store",
    "weasyprint": "faces/paper",
    "jinja2": "faces/paper",
    "starlette": "faces/phone",
    "uvicorn": "faces/phone",
    "segno": "faces/phone",
}


def room(file: Path) -> str:
    """The folder of a file, or a file at the top by itself."""
    inside = file.relative_to(PACKAGE)
    return str(inside.parent) if len(inside.parts) > 1 else inside.stem


def room_of(module: str) -> str | None:
    """The room of an imported name of the package; None for another's."""
    parts = module.split(".")
    if parts[0] != "kitlist":
        return None
    for depth in (3, 2):
        if (name := "/".join(parts[1:depth])) in LEVEL:
            return name
    return "__init__"


def imported(file: Path) -> Iterator[str]:
    for node in ast.walk(trees()[file]):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module
            if node.module == "kitlist":
                yield from (f"kitlist.{alias.name}" for alias in node.names)


FILES = sorted(PACKAGE.rglob("*.py"))


@cache
def trees() -> dict[Path, ast.Module]:
    """Every file of the package read as Python, once and where a test asks: each of several processes collects this."""
    return {file: ast.parse(file.read_text(encoding="utf-8")) for file in FILES}


def test_every_room_has_its_place() -> None:
    assert {room(file) for file in FILES} <= set(LEVEL)


def test_imports_point_one_way() -> None:
    up = []
    for file in FILES:
        own = room(file)
        for name in imported(file):
            other = room_of(name)
            if other not in (None, own) and LEVEL[other] >= LEVEL[own]:
                up.append(f"{own} must not import {name}")
    assert up == []


def test_a_library_with_a_room_of_its_own_is_imported_nowhere_else() -> None:
    wrong = []
    for file in FILES:
        for name in imported(file):
            home = ALONE.get(name.split(".")[0])
            if home not in (None, room(file)) or name.split(".")[0] == "click":
                wrong.append(f"{name} in {room(file)}")
    assert wrong == []


def test_no_two_files_have_one_name() -> None:
    names = Counter(file.name for file in FILES if file.name not in ("__init__.py", "__main__.py"))
    assert [name for name, count in names.items() if count > 1] == []


def test_no_two_classes_have_one_name() -> None:
    names = Counter(node.name for tree in trees().values() for node in ast.walk(tree) if isinstance(node, ast.ClassDef))
    assert [name for name, count in names.items() if count > 1] == []


def test_no_file_of_the_package_is_longer_than_400_lines() -> None:
    long = {str(f.relative_to(PACKAGE)): n for f in FILES if (n := len(f.read_text().splitlines())) > 400}
    assert long == {}


def test_the_top_level_holds_what_it_should() -> None:
    listed = subprocess.run(["git", "ls-files"], cwd=TOP, capture_output=True, text=True, check=False)
    if listed.returncode:
        pytest.skip("not a git checkout")
    top = {line.split("/")[0] for line in listed.stdout.splitlines()}
    known = {"README.md", "DEVELOPERS.md", "pyproject.toml", "LICENSE"}
    known |= {"kitlist", "templates", "tests", "seed_data", "migrations"}
    assert {name for name in top if not name.startswith(".")} == known


def test_help_and_decode_do_not_load_the_kit_s_judgement() -> None:
    for words in (["--help"], ["decode", "E6013"]):
        script = (
            "import sys\n"
            f"sys.argv = ['kitlist', *{words!r}]\n"
            "from kitlist.faces.cli import main\n"
            "try:\n    main()\nexcept SystemExit:\n    pass\n"
            "rooms = {'kitlist.' + name for name in ('kit', 'rules', 'physics', 'outlook', 'store', 'readiness')}\n"
            "print(sorted(rooms & set(sys.modules)), file=sys.stderr)\n"
        )
        done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
        assert done.stderr.strip() == "[]", words


def test_every_kind_has_its_commands() -> None:
    from kitlist.faces.cli.things import EXAMPLES
    from kitlist.kit import KINDS

    assert set(EXAMPLES) == set(KINDS) - {"reading"}


@pytest.mark.parametrize("words", [["--help"], ["battery", "add", "--help"], ["ready", "--help"], ["rules"]])
def test_help_loads_no_slow_library(words: list[str]) -> None:
    script = (
        "import sys\n"
        f"sys.argv = ['kitlist', *{words!r}]\n"
        "from kitlist.faces.cli import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        f"slow = {sorted(SLOW)!r}\n"
        "slow = set(slow) & set(sys.modules)\n"
        "print(sorted(slow), file=sys.stderr)\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "[]"


def test_the_readme_s_test_command_is_what_ci_runs() -> None:
    run = (TOP / ".ci" / "run").read_text(encoding="utf-8")
    readme = (TOP / "README.md").read_text(encoding="utf-8")
    commands = [block.split("```")[0].strip() for block in readme.split("```sh\n")[1:]]
    assert any(command and command in run for command in commands)


def test_the_locked_file_has_every_package_that_is_asked_for_within_its_bounds_and_with_hashes() -> None:
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"]
    asked = [Requirement(line) for line in (*project["dependencies"], *extras["phone"], *extras["test"])]
    locked = (TOP / "tests" / "requirements.lock").read_text(encoding="utf-8").replace(" \\\n", " ").splitlines()
    assert [line for line in locked if "--hash=sha256:" not in line] == []
    pinned = dict(line.split(" ", 1)[0].split("==") for line in locked)
    for wanted in asked:
        if wanted.name != "kitlist":
            assert wanted.specifier.contains(pinned[wanted.name.casefold()]), wanted
            assert any(one.operator == "<" for one in wanted.specifier), f"no upper bound: {wanted}"


def test_every_path_that_a_newcomer_is_shown_is_there() -> None:
    text = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")
    shown = set(re.findall(r"\b(?:kitlist|tests|templates|seed_data|migrations)/[\w./-]*[\w/]", text))
    assert len(shown) > 50
    assert sorted(path for path in shown if not (TOP / path).exists()) == []


CALLED_FROM_OUTSIDE = {
    "_missing_": "the enum's own lookup",
    "emit": "the logging of the printer",
    "format_commands": "the help of a group: typer calls it",
    "burn_rods": "the checks against other programs burn rods one by one",
    "first_broken": "the tests of the days' book read it",
    "twins_apart": "an example of its rule at the threshold",
    "without_lead": "an example that the rules' tests are made from",
    "sections": "the tests of documents read them by it",
    "of_kind": "the tests of drawings read them by it",
}
"""What no code of the package names, and who does. No more than these: what nobody reaches is deleted."""


def test_nothing_is_there_that_nobody_reaches() -> None:
    named: Counter[str] = Counter()
    for tree in trees().values():
        for node in ast.walk(tree):
            if isinstance(node, ast.Name) and not isinstance(node.ctx, ast.Store):
                named[node.id] += 1
            elif isinstance(node, ast.Attribute):
                named[node.attr] += 1
            elif isinstance(node, ast.Constant) and isinstance(node.value, str) and " " not in node.value:
                named.update(re.findall(r"\w+", node.value))  # commands are named by their place, as words
    for template in (TOP / "templates").glob("*.jinja"):
        named.update(re.findall(r"\w+", template.read_text(encoding="utf-8")))
    unreached = {
        name for tree in trees().values() for name in _defined(tree) if not (named[name] or name.startswith("__"))
    }
    assert unreached - set(CALLED_FROM_OUTSIDE) == set()
    assert set(CALLED_FROM_OUTSIDE) - unreached == set()


def _defined(tree: ast.Module) -> Iterator[str]:
    """Functions, classes, values and methods; what Python itself calls is left out."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            yield node.name
        elif isinstance(node, ast.Assign):
            yield from (part.id for goal in node.targets for part in ast.walk(goal) if isinstance(part, ast.Name))
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            yield node.target.id
        for part in node.body if isinstance(node, ast.ClassDef) else ():
            if isinstance(part, ast.FunctionDef):
                yield part.name
