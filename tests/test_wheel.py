"""The wheel carries templates, seed data and migrations: it runs the demo where there is no checkout."""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
import venv
from pathlib import Path

import kitlist

TOP = Path(kitlist.__file__).parent.parent


def run(*words: str | Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    clean = {k: v for k, v in os.environ.items() if not k.startswith("PYTHON")}
    return subprocess.run([str(w) for w in words], cwd=cwd, capture_output=True, text=True, check=True, env=clean)


def test_the_wheel_installs_in_a_clean_environment_and_runs_the_demo(tmp_path: Path) -> None:
    run(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", tmp_path, TOP, cwd=tmp_path)
    (wheel,) = tmp_path.glob("kitlist-*.whl")
    venv.create(tmp_path / "env", with_pip=False)
    python = tmp_path / "env" / "bin" / "python"
    site = Path(run(python, "-c", "import site; print(site.getsitepackages()[0])", cwd=tmp_path).stdout.strip())
    run(sys.executable, "-m", "pip", "--python", python, "install", "--no-deps", "--no-index", wheel, cwd=tmp_path)
    # Dependencies come from the environment of the tests; a plain path does not bring its checkout along.
    (site / "dependencies.pth").write_text(sysconfig.get_paths()["purelib"] + "\n")
    where = run(python, "-c", "import kitlist; print(kitlist.__file__)", cwd=tmp_path).stdout.strip()
    assert Path(where).is_relative_to(tmp_path)
    done = run(tmp_path / "env" / "bin" / "kitlist", "demo", tmp_path / "out", cwd=tmp_path)
    assert "NOT READY" in done.stdout
    assert {p.name for p in (tmp_path / "out").iterdir()} == {"sheet.pdf", "card.pdf"}
