"""The package as it is installed from wheel and sdist: it carries what it needs and works away from the checkout."""

from __future__ import annotations

import subprocess
import sys
import tarfile
import venv
import zipfile
from pathlib import Path

import pytest

from tests.house.house import ROOT

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with the sdist, and with the wheel that is built from that sdist."""
    folder = tmp_path_factory.mktemp("dist")
    command = [sys.executable, "-m", "build", "--no-isolation", "--outdir", str(folder), str(ROOT)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return folder


def test_wheel_carries_its_assets_and_licence(built: Path) -> None:
    """Grammar, checklists, the first example and the licence are inside; tests are not."""
    (wheel,) = built.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
    shipped = {"circuit.lark", "circuit.tables", "report.schema.json"}
    assert {f"logiccheck/_assets/grammar/{name}" for name in shipped} <= set(names)
    for checklist in (ROOT / "rules").glob("*.circuit"):
        assert f"logiccheck/_assets/rules/{checklist.name}" in names
    assert "logiccheck/_assets/first-steps/van.circuit" in names
    for copper in (ROOT / "logiccheck" / "copper" / "tables").glob("*.toml"):
        assert f"logiccheck/copper/tables/{copper.name}" in names
    assert any(name.endswith("licenses/LICENSE") for name in names)
    assert not [name for name in names if name.startswith("tests")]


def test_sdist_carries_all_that_is_kept(built: Path) -> None:
    """Somebody with the sdist alone can build, read and test."""
    (sdist,) = built.glob("*.tar.gz")
    with tarfile.open(sdist) as archive:
        names = {name.partition("/")[2] for name in archive.getnames()}
    for kept in ("pyproject.toml", "README.md", "DEVELOPERS.md", "LICENSE", "grammar/circuit.lark"):
        assert kept in names
    assert "tests/house/test_wheel.py" in names


def test_wheel_works_away_from_the_checkout(built: Path, tmp_path: Path) -> None:
    """In an environment that has the wheel and not the checkout, an example begins and is checked as it should be."""
    (wheel,) = built.glob("*.whl")
    place = tmp_path / "env"
    venv.create(place, with_pip=False, system_site_packages=False)
    (site,) = [*place.glob("lib/python*/site-packages"), *place.glob("Lib/site-packages")]
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(site)
    libraries = [path for path in sys.path if path.endswith("site-packages")]
    (site / "libraries.pth").write_text("\n".join(libraries), encoding="utf-8")
    (python,) = [*place.glob("bin/python"), *place.glob("Scripts/python.exe")]

    def call(*arguments: str) -> subprocess.CompletedProcess[str]:
        command = [str(python), "-I", "-m", "logiccheck", *arguments]
        return subprocess.run(command, cwd=tmp_path, capture_output=True, encoding="utf-8", check=False)

    where = subprocess.run(
        [str(python), "-I", "-c", "import logiccheck; print(logiccheck.__path__[0])"],
        cwd=tmp_path, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert str(tmp_path) in where.stdout
    assert call("begin", "garage").returncode == 0
    done = call("check", "garage/van.circuit")
    assert done.returncode == 1, done.stderr
    assert "NOT SAFE TO LOAD" in done.stdout.splitlines()[0]
