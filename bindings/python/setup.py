"""Builds the Python package with pip, from a checkout, a release or the source package made by `make python-sdist`.

    pip install --no-build-isolation ./bindings/python        (in a venv --system-site-packages)

The library's C sources are compiled into the extension, so the package needs nothing installed.  From a checkout this
runs SWIG and generates the functions; the source package carries both results.
"""

import os
import pathlib
import platform
import re
import shlex
import shutil
import subprocess
import sys
import sysconfig
import tempfile

from setuptools import Extension, setup
from setuptools.command.build_ext import build_ext
from setuptools.errors import CompileError, SetupError

HERE = pathlib.Path(__file__).resolve().parent
IS_SOURCE_PACKAGE = (HERE / "lib").is_dir()
TOP = HERE if IS_SOURCE_PACKAGE else HERE.parents[1]
DESCRIBE = TOP / "describe.c" if IS_SOURCE_PACKAGE else TOP / "bindings" / "describe.c"
SCHEMA = TOP / "schema.py" if IS_SOURCE_PACKAGE else TOP / "bindings" / "schema.py"
GENERATED = ("_calculations.py", "_calculations.pyi", "plan.schema.json")

# What the results depend on; the same list as in configure.ac.
FLAGS = "-std=gnu11 -O2 -fno-math-errno -fno-trapping-math -ffp-contract=off -fno-tree-slp-vectorize -fopenmp-simd -fvisibility=hidden".split()


def version():
    """The version that configure.ac or, in the source package, VERSION names."""
    if IS_SOURCE_PACKAGE:
        return (HERE / "VERSION").read_text(encoding="ascii").strip()
    text = (TOP / "configure.ac").read_text(encoding="utf-8")
    return re.search(r"AC_INIT\(\[libungula\],\s*\[([0-9.]+)\]", text).group(1)


def macros():
    defined = [("UNG_BUILDING", None), ("UNG_VERSION", f'"{version()}"')]
    if sysconfig.get_platform() == "linux-x86_64" or platform.machine() in ("x86_64", "AMD64"):
        defined.append(("UNG_WIDE", None))
    return defined


def swig(wrapper):
    """The wrapper that SWIG makes from ungula.i: shipped in source package and release, else made here."""
    shipped = HERE / "ungula_wrap.c"
    sources = [HERE / "ungula.i", TOP / "include" / "ungula" / "core.h"]
    if shipped.exists() and (IS_SOURCE_PACKAGE or all(shipped.stat().st_mtime >= s.stat().st_mtime for s in sources)):
        return shipped
    program = shutil.which(os.environ.get("SWIG", "swig"))
    if program is None:
        raise SetupError(
            "SWIG is missing: it is needed to build ungula from a checkout. Install SWIG 4.1 or later (Debian: "
            "apt-get install swig; or name it in the environment variable SWIG), or install the source package "
            "that `make python-sdist` makes, which does not need it."
        )
    command = [program, "-python", "-noproxy", f"-I{TOP / 'include'}", "-o", str(wrapper), str(HERE / "ungula.i")]
    if subprocess.run(command, check=False).returncode:
        raise SetupError("SWIG failed: " + shlex.join(command))
    return wrapper


class Build(build_ext):
    """Compiles the library, prints its contracts, generates the functions, and builds the extension."""

    def build_extension(self, ext):
        temporary = pathlib.Path(self.build_temp)
        temporary.mkdir(parents=True, exist_ok=True)
        package = pathlib.Path(self.get_ext_fullpath(ext.name)).parent
        package.mkdir(parents=True, exist_ok=True)
        ext.sources = [str(swig(temporary / "ungula_wrap.c")), str(HERE / "native.c")]
        library = sorted(TOP.glob("lib/*/*.c"))
        ext.extra_objects = self.compile(library, temporary, ext)
        if not (IS_SOURCE_PACKAGE and all((HERE / "package" / "ungula" / name).exists() for name in GENERATED)):
            self.generate(ext, temporary, package)
        super().build_extension(ext)

    def copy_extensions_to_source(self):
        """For an editable install, setuptools builds apart and copies; the generated files go with the extension."""
        super().copy_extensions_to_source()
        for name in GENERATED:
            built = pathlib.Path(self.build_lib, "ungula", name)
            if built.exists():
                shutil.copy(built, HERE / "package" / "ungula" / name)

    def compile(self, sources, temporary, ext):
        return self.compiler.compile(
            [str(source) for source in sources],
            output_dir=str(temporary),
            macros=ext.define_macros,
            include_dirs=ext.include_dirs,
            extra_postargs=ext.extra_compile_args,
        )

    def generate(self, ext, temporary, package):
        main = self.compile([DESCRIBE], temporary, ext)
        program = temporary / "describe"
        self.compiler.link_executable(main + ext.extra_objects, str(program), libraries=["m"])
        contracts = temporary / "contracts.json"
        with open(contracts, "wb") as file:
            if subprocess.run([str(program.resolve())], stdout=file, check=False).returncode:
                raise CompileError("the contracts cannot be printed")
        subprocess.run([sys.executable, str(HERE / "generate.py"), str(contracts), str(package)], check=True)
        schema = str(package / "plan.schema.json")
        subprocess.run([sys.executable, str(SCHEMA), str(contracts), schema], check=True)


# Everything that is built lands in a temporary folder: a checkout stays clean, and may be read-only.
scratch = tempfile.TemporaryDirectory(prefix="ungula-")
extension = Extension(
    "ungula._core",
    sources=[],
    include_dirs=[str(TOP / "include"), str(TOP / "lib"), str(HERE)],
    define_macros=macros(),
    extra_compile_args=FLAGS,
    libraries=["m"],
)
setup(
    name="ungula",
    version=version(),
    description="The numbers for fitting a wooden therapeutic shoe to a hoof without nails",
    long_description=(HERE / "package" / "ungula" / "__init__.py").read_text(encoding="utf-8").split('"""')[1],
    license="MIT",
    python_requires=">=3.9",
    package_dir={"": "package"},
    packages=["ungula"],
    package_data={"ungula": ["*.pyi", "py.typed", "plan.schema.json"]},
    ext_modules=[extension],
    cmdclass={"build_ext": Build},
    options={"build": {"build_base": scratch.name}, "egg_info": {"egg_base": scratch.name}},
    zip_safe=False,
)
