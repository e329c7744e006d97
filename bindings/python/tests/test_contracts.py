"""The contracts that Python shows are those that the C program prints, and the generated files are made from them."""

import pathlib
import subprocess
import sys

import pytest
from conftest import TOP, contracts_path

import ungula

PACKAGE = pathlib.Path(ungula.__file__).parent


def plain(record):
    """A contract, or a part of it, as describe.c prints it."""
    if hasattr(record, "_asdict"):
        return {name: plain(item) for name, item in record._asdict().items()}
    return [plain(item) for item in record] if isinstance(record, tuple) else record


def test_the_same_contracts(contracts):
    assert ungula.describe() == [c["name"] for c in contracts]
    for contract in contracts:
        del contract["work_per_row"], contract["work_more"]  # Python's caller gives no workspace
        for rule in contract["cautions"]:
            for part in ("field", "other", "guard"):
                rule[part] = rule[part] or None
        for rows in contract["lists"]:
            other = rows["same_count_as"]
            rows["same_count_as"] = None if other < 0 else contract["lists"][other]["name"]
        assert plain(ungula.describe(contract["name"])) == contract


def test_describe():
    contract = ungula.describe("cast_length")
    assert contract is ungula.describe(ungula.cast_length)
    text = repr(contract)
    assert text.startswith("cast_length: ") and "100 to 900 mm" in text and "required" in text and "warn" in text
    assert all(len(line) == len(line.rstrip()) for line in text.splitlines())
    html = contract._repr_html_()
    assert html.count("<table>") == text.count("\n\n") and "100 to 900 mm" in html
    with pytest.raises(KeyError, match="cast_length"):
        ungula.describe("cast_lenght")


@pytest.mark.parametrize("name", ungula.describe())
def test_every_contract_has_tables(name):
    assert repr(ungula.describe(name)) and "<table>" in ungula.describe(name)._repr_html_()


def test_generated_files_are_fresh(tmp_path):
    generator = TOP / "bindings" / "python" / "generate.py"
    subprocess.run([sys.executable, generator, contracts_path(), tmp_path], check=True)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["_calculations.py", "_calculations.pyi"]
    for path in tmp_path.iterdir():
        assert path.read_bytes() == (PACKAGE / path.name).read_bytes(), f"{path.name} is stale"


def test_versions_agree():
    text = (TOP / "configure.ac").read_text(encoding="utf-8")
    assert f"AC_INIT([libungula], [{ungula.version()}]" in text
    assert ungula.__version__ == ungula.version()


def test_flags_agree():
    """What results depend on is the same in both builds."""
    configure = (TOP / "configure.ac").read_text(encoding="utf-8")
    flags = next(line for line in configure.splitlines() if line.startswith("UNG_CFLAGS=")).split('"')[1].split()
    setup = (TOP / "bindings" / "python" / "setup.py").read_text(encoding="utf-8")
    listed = next(line for line in setup.splitlines() if line.startswith("FLAGS =")).split('"')[1].split()
    assert set(listed) - set(flags) == {"-std=gnu11", "-O2"} and set(flags) <= set(listed)
