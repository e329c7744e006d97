#!/usr/bin/env python3
"""Makes the source package, which installs with pip alone: the library's sources, the package, and what SWIG and
generate.py made.

    make_sdist.py TOP VERSION FOLDER      writes FOLDER/ungula-VERSION.tar.gz from the source tree TOP
"""

import gzip
import io
import pathlib
import sys
import tarfile

ABOUT = "The numbers for fitting a wooden therapeutic shoe to a hoof without nails"


def members(top, version):
    """(name in the package, bytes) of every file."""
    here = top / "bindings" / "python"
    for name in ("setup.py", "pyproject.toml", "generate.py", "ungula.i", "native.c", "native.h", "ungula_wrap.c"):
        yield name, (here / name).read_bytes()
    for path in sorted((here / "package" / "ungula").iterdir()):
        if path.suffix in (".py", ".pyi") or path.name == "py.typed":
            yield f"package/ungula/{path.name}", path.read_bytes()
    for folder in ("lib", "include"):
        for path in sorted((top / folder).rglob("*.[ch]")):
            yield path.relative_to(top).as_posix(), path.read_bytes()
    yield "package/ungula/plan.schema.json", (top / "bindings" / "plan.schema.json").read_bytes()
    for name in ("describe.c", "schema.py"):
        yield name, (top / "bindings" / name).read_bytes()
    yield "LICENSE", (top / "LICENSE").read_bytes()
    yield "VERSION", f"{version}\n".encode("ascii")
    fields = ("Metadata-Version: 2.1", "Name: ungula", f"Version: {version}", f"Summary: {ABOUT}", "License: MIT",
              "Requires-Python: >=3.9")
    yield "PKG-INFO", "".join(f"{field}\n" for field in fields).encode("ascii")


def main(top, version, folder):
    root = f"ungula-{version}"
    target = pathlib.Path(folder, f"{root}.tar.gz")
    target.parent.mkdir(parents=True, exist_ok=True)
    # The same files give the same bytes: no times, no owners.
    with open(target, "wb") as raw, gzip.GzipFile("", "wb", mtime=0, fileobj=raw) as packed:
        with tarfile.open(fileobj=packed, mode="w", format=tarfile.PAX_FORMAT) as archive:
            for name, content in members(pathlib.Path(top), version):
                entry = tarfile.TarInfo(f"{root}/{name}")
                entry.size, entry.mode = len(content), 0o644
                archive.addfile(entry, io.BytesIO(content))
    print(target)


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    main(*sys.argv[1:])
