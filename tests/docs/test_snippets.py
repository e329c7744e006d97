#!/usr/bin/env python3
"""Runs the code that README.md shows, and compares what it prints with what README.md says it prints.

    test_snippets.py [document ...]         README.md of the source tree, if none is named

A fenced block is run by its language; a block of language `text` right behind it is what it prints, exactly.
    c        a whole program (it has a main), compiled and linked with the library
    python   run from an empty folder
    sh       shown only, unless its first line is `# tested`: then run in a copy of nothing, an empty folder
A line `<!-- not run: why -->` right above a block excuses it; the reason is printed.

Where the library is: UNG_PREFIX, an installation; otherwise the build tree abs_top_builddir (its .libs) with the
headers of abs_top_srcdir.  PYTHON, CC, CFLAGS and PYTHONPATH are used as given."""

import difflib
import os
import re
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
SOURCE = os.path.abspath(os.environ.get("abs_top_srcdir") or os.path.join(HERE, "..", ".."))
BUILD = os.path.abspath(os.environ.get("abs_top_builddir") or os.getcwd())
PREFIX = os.environ.get("UNG_PREFIX")
PYTHON = os.environ.get("PYTHON") or "/usr/bin/python3"
CC = (os.environ.get("CC") or "cc").split()
BLOCK = re.compile(r"(?:^<!-- not run: (?P<excuse>.*?) -->\n+)?^```(?P<language>\w*)[^\n]*\n(?P<body>.*?)^```[ ]*$",
                   re.M | re.S)


def library():
    """Compiler arguments and the folder of the shared library."""
    if PREFIX:
        for name in ("lib", "lib64"):
            if os.path.isdir(os.path.join(PREFIX, name)):
                libraries = os.path.join(PREFIX, name)
        include = os.path.join(PREFIX, "include")
    else:
        include, libraries = os.path.join(SOURCE, "include"), os.path.join(BUILD, ".libs")
    return ["-I", include], ["-L", libraries, "-lungula", "-Wl,-rpath," + libraries]


def run(command, folder):
    return subprocess.run(command, cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                          stdin=subprocess.DEVNULL, universal_newlines=True)


def run_c(body, folder):
    with open(os.path.join(folder, "snippet.c"), "w") as f:
        f.write(body)
    include, libraries = library()
    flags = ["-std=c11", "-Wall", "-Wextra", "-Werror"] + os.environ.get("CFLAGS", "").split()
    compiled = run(CC + flags + include + ["snippet.c", "-o", "snippet"] + libraries + ["-lm"], folder)
    return compiled if compiled.returncode else run(["./snippet"], folder)


def run_python(body, folder):
    with open(os.path.join(folder, "snippet.py"), "w") as f:
        f.write(body)
    return run([PYTHON, "snippet.py"], folder)


def run_sh(body, folder):
    return run(["sh", "-e", "-c", body], folder)


RUNNERS = {"c": run_c, "python": run_python, "sh": run_sh}


def blocks(text):
    """(line number, language, body, expected or None, excuse or None)"""
    found = list(BLOCK.finditer(text))
    for i, block in enumerate(found):
        language = block["language"]
        if language == "text":
            continue
        expected = None
        if i + 1 < len(found) and found[i + 1]["language"] == "text":
            # Directly behind: nothing but blank lines and one line of words ("It prints:") between the two.
            between = text[block.end():found[i + 1].start()].strip()
            if "\n" not in between and not between.startswith("#"):
                expected = found[i + 1]["body"]
        yield text.count("\n", 0, block.start("language")) + 1, language, block["body"], expected, block["excuse"]


def main(documents):
    failed = tested = 0
    for document in documents:
        with open(document) as f:
            text = f.read()
        for line, language, body, expected, excuse in blocks(text):
            where = "%s:%d: %s" % (os.path.basename(document), line, language or "(no language)")
            if excuse:
                print("%s: not run: %s" % (where, excuse))
                continue
            if language not in RUNNERS:
                print("%s: nothing to run" % where)
                continue
            if language == "sh" and not body.startswith("# tested"):
                print("%s: shown only" % where)
                continue
            tested += 1
            with tempfile.TemporaryDirectory() as folder:
                result = RUNNERS[language](body, folder)
            if result.returncode:
                failed += 1
                print("%s: FAILED with status %d\n%s" % (where, result.returncode, result.stdout))
            elif result.stdout != (expected or ""):
                failed += 1
                print("%s: FAILED: prints something else than it says" % where)
                sys.stdout.writelines(difflib.unified_diff((expected or "").splitlines(True),
                                                           result.stdout.splitlines(True), "said", "printed"))
            else:
                print("%s: runs%s" % (where, " and prints what it says" if expected else ", prints nothing"))
    if not tested:
        print("no block was run")
    print("%d blocks run, %d failed" % (tested, failed))
    return failed or not tested


if __name__ == "__main__":
    sys.exit(1 if main(sys.argv[1:] or [os.path.join(SOURCE, "README.md")]) else 0)
