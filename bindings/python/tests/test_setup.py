"""Packaging: what pip says without SWIG, and the source package.  Installing is tested with the whole project."""

import os
import pathlib
import shutil
import subprocess
import sys
import tarfile

import pytest
from conftest import TOP

import ungula

HERE = pathlib.Path("bindings", "python")


@pytest.fixture
def checkout(tmp_path):
    """A copy of the sources, without anything that was generated."""
    generated = shutil.ignore_patterns("_calculations.*", "plan.schema.json", "ungula_wrap.c", "*.so", "__pycache__")
    for folder in ("lib", "include", HERE / "package"):
        shutil.copytree(TOP / folder, tmp_path / folder, ignore=generated)
    for name in ("setup.py", "pyproject.toml", "generate.py", "make_sdist.py", "ungula.i", "native.c", "native.h"):
        shutil.copy(TOP / HERE / name, tmp_path / HERE / name)
    for name in ("configure.ac", "LICENSE", "bindings/describe.c", "bindings/schema.py"):
        shutil.copy(TOP / name, tmp_path / name)
    for path in tmp_path.rglob("*"):  # the sources may be read-only
        path.chmod(path.stat().st_mode | 0o200)
    return tmp_path


def listing(folder):
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if "__pycache__" not in path.parts)


def test_a_missing_swig_is_named(checkout):
    before = listing(checkout)
    done = subprocess.run(
        [sys.executable, "setup.py", "build_ext"],
        cwd=checkout / HERE, env={**os.environ, "SWIG": "no-such-program"}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode != 0 and "SWIG is missing" in done.stdout + done.stderr
    assert listing(checkout) == before


def test_source_package(checkout):
    (checkout / HERE / "ungula_wrap.c").write_text("/* made by SWIG */\n", encoding="ascii")
    for name in ("_calculations.py", "_calculations.pyi"):
        shutil.copy(pathlib.Path(ungula.__file__).parent / name, checkout / HERE / "package" / "ungula" / name)
    shutil.copy(TOP / "bindings" / "plan.schema.json", checkout / "bindings" / "plan.schema.json")
    made = []
    for folder in ("one", "two"):
        command = [sys.executable, checkout / HERE / "make_sdist.py", checkout, "1.2.3", checkout / folder]
        subprocess.run(command, check=True, capture_output=True)
        made.append((checkout / folder / "ungula-1.2.3.tar.gz").read_bytes())
    assert made[0] == made[1]  # the same bytes every time
    with tarfile.open(checkout / "one" / "ungula-1.2.3.tar.gz") as archive:
        names = {name.split("/", 1)[1] for name in archive.getnames()}
        assert archive.extractfile("ungula-1.2.3/VERSION").read() == b"1.2.3\n"
    sources = {str(path.relative_to(TOP)) for folder in ("lib", "include") for path in (TOP / folder).rglob("*.[ch]")}
    assert sources < names and {"setup.py", "describe.c", "schema.py", "ungula_wrap.c", "PKG-INFO", "LICENSE"} < names
    package = ("__init__.py", "_calculations.py", "_calculations.pyi", "plan.schema.json", "py.typed")
    assert {f"package/ungula/{name}" for name in package} < names
