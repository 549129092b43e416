"""The house keeps its order: imports point one way, slow libraries stay behind the doors that need them."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import kitlist

PACKAGE = Path(kitlist.__file__).parent
TOP = PACKAGE.parent
LAYERS = (
    {"errors", "terms", "__init__"},
    {"resources", "fields", "quantities", "measures", "names", "printed", "checked"},
    {"sources"},
    {"physics", "welding", "rulebook"},
    {"kit"},
    {"entry", "outlook"},
    {"rules"},
    {"readiness"},
    {"accepting"},
    {"trips"},
    {"store", "prints"},
    {"demo", "judging"},
    {"page"},
    {"cli"},
    {"__main__"},
)
SLOW = {"sqlmodel", "sqlalchemy", "sqlite_utils", "weasyprint", "jinja2", "rich", "starlette", "uvicorn", "segno"}
LEVEL = {room: level for level, rooms in enumerate(LAYERS) for room in rooms}
ALONE = {
    "sqlmodel": "store",
    "sqlalchemy": "store",
    "sqlite_utils": "store",
    "weasyprint": "prints",
    "jinja2": "prints",
    "starlette": "page",
    "uvicorn": "page",
    "segno": "page",
}


def room(file: Path) -> str:
    return file.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imported(file: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module
            if node.module == "kitlist":
                yield from (f"kitlist.{alias.name}" for alias in node.names)


FILES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("file", FILES, ids=lambda f: str(f.relative_to(PACKAGE)))
def test_imports_point_one_way(file: Path) -> None:
    own = room(file)
    for name in imported(file):
        parts = name.split(".")
        if parts[0] == "kitlist" and len(parts) > 1 and parts[1] in LEVEL and parts[1] != own:
            assert LEVEL[parts[1]] < LEVEL[own], f"{own} must not import {parts[1]}"


@pytest.mark.parametrize("file", FILES, ids=lambda f: str(f.relative_to(PACKAGE)))
def test_a_library_with_a_room_of_its_own_is_imported_nowhere_else(file: Path) -> None:
    for name in imported(file):
        home = ALONE.get(name.split(".")[0])
        assert home is None or room(file) == home, f"{name} belongs to {home}"
        assert name.split(".")[0] != "click"


def test_every_room_has_its_layer() -> None:
    assert {room(file) for file in FILES} <= set(LEVEL)


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
            "from kitlist.cli import main\n"
            "try:\n    main()\nexcept SystemExit:\n    pass\n"
            "rooms = {'kitlist.' + name for name in ('kit', 'rules', 'physics', 'outlook', 'store', 'readiness')}\n"
            "print(sorted(rooms & set(sys.modules)), file=sys.stderr)\n"
        )
        done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
        assert done.stderr.strip() == "[]", words


def test_every_kind_has_its_commands() -> None:
    from kitlist.cli.things import EXAMPLES
    from kitlist.kit import KINDS

    assert set(EXAMPLES) == set(KINDS) - {"reading"}


@pytest.mark.parametrize("words", [["--help"], ["battery", "add", "--help"], ["ready", "--help"], ["rules"]])
def test_help_loads_no_slow_library(words: list[str]) -> None:
    script = (
        "import sys\n"
        f"sys.argv = ['kitlist', *{words!r}]\n"
        "from kitlist.cli import main\n"
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
