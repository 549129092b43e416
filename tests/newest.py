"""Try the newest of everything, whatever the bounds of pyproject.toml say: `python tests/newest.py [PYTEST WORDS]`.

A throwaway environment gets every package that is asked for in its newest release, and the checks run in it. What
fails says which bound is right; what passes may be let in, and `tests/requirements.lock` made anew:
    uv pip compile pyproject.toml --extra test --generate-hashes --universal --python-version 3.11 \\
        --no-header --no-annotate -o tests/requirements.lock
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import tomllib
import venv
from pathlib import Path

from packaging.requirements import Requirement

TOP = Path(__file__).resolve().parent.parent


def names() -> list[str]:
    """Every package that is asked for, without its bounds."""
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"].values()
    asked = {Requirement(line).name for line in (*project["dependencies"], *(one for some in extras for one in some))}
    return sorted(asked - {"kitlist"})


def main() -> None:
    """Install, list and check; the exit code is that of the first check that fails."""
    with tempfile.TemporaryDirectory() as folder:
        venv.create(folder, with_pip=True)
        bin_ = Path(folder) / "bin"
        subprocess.run([bin_ / "pip", "install", "-q", "--upgrade", *names()], check=True)
        subprocess.run(
            [bin_ / "pip", "install", "-q", "--no-deps", "--no-build-isolation", "-e", "."], cwd=TOP, check=True
        )
        subprocess.run([bin_ / "pip", "list"], check=True)
        for words in (["ruff", "check"], ["mypy"], ["pytest", "-q", "-n", "auto", *sys.argv[1:]]):
            if code := subprocess.run([bin_ / words[0], *words[1:]], cwd=TOP, check=False).returncode:
                sys.exit(code)


if __name__ == "__main__":
    main()
