#!/usr/bin/env python3
"""Whether the man pages are complete and true: run by test_man.sh.

    check_man.py contracts.json top-source-directory pages-directory
"""

import glob
import json
import os
import re
import subprocess
import sys
import tempfile

failures = 0


def check(fine, what):
    global failures
    if not fine:
        failures += 1
        print("FAILED: " + what)


def read(*path):
    with open(os.path.join(*path)) as f:
        return f.read()


def plain(roff):
    """What a page says: literal text without roff's escapes."""
    for escape, character in (("\\(aq", "'"), ("\\(ga", "`"), ("\\(ha", "^"), ("\\(ti", "~"), ("\\-", "-"),
                              ("\\&", ""), ("\\e", "\\")):
        roff = roff.replace(escape, character)
    return roff


def prototypes(roff):
    """The functions of a SYNOPSIS as C declarations."""
    found, result, name, args = [], None, None, []
    for line in roff.splitlines():
        macro, _, rest = line.partition(" ")
        if macro == ".Ft":
            result = rest
        elif macro == ".Fn" and result:
            words = re.findall(r'"([^"]*)"|(\S+)', rest)
            words = [a or b for a, b in words]
            found.append((result, words[0], words[1:]))
            result = None
        elif macro == ".Fo":
            name, args = rest, []
        elif macro == ".Fa" and name:
            args.append(rest.strip('"'))
        elif macro == ".Fc":
            found.append((result, name, args))
            result = name = None
    return found


def main(contracts, source, pages):
    described = json.loads(read(contracts))
    calculations, plan = described["calculations"], described["plan"]
    roff = {os.path.basename(p): read(p) for p in glob.glob(os.path.join(pages, "*.[37]"))}
    fragment = read(source, "man", "fragment.am")

    for c in calculations:
        name = "ung_%s.3" % c["name"]
        check(name in roff, "%s has no page" % c["name"])
        check("man/" + name in fragment, "man/fragment.am does not list man/" + name)
        for f in c["inputs"] + c["outputs"]:
            check(".It Fa %s\n" % f["name"] in roff.get(name, ""), "%s does not list %s" % (name, f["name"]))
        check(os.path.exists(os.path.join(source, "examples", c["name"] + ".c")), c["name"] + " has no example")
    print("%d calculations: each has a page with every field, and an example" % len(calculations))

    # The plan's page: every input twice (what it is, and what hangs on it), every step and code.
    name = "ung_job_plan.3"
    check("man/" + name in fragment, "man/fragment.am does not list man/" + name)
    for asked in plan["inputs"]:
        check(roff[name].count(".It Fa %s\n" % asked["field"]["name"]) == 2,
              "%s does not list %s twice" % (name, asked["field"]["name"]))
    for step in plan["steps"]:
        check(".It Cm %s\n" % step["name"] in roff[name], "%s does not list %s" % (name, step["name"]))
    for code in plan["codes"]:
        check(".It Cm %s\n" % code["code"] in roff[name], "%s does not list %s" % (name, code["code"]))
    print("ung_job_plan.3 has %d inputs, %d steps and %d codes" % (len(plan["inputs"]), len(plan["steps"]),
                                                                  len(plan["codes"])))

    shown = 0
    for page in ["ung_%s.3" % c["name"] for c in calculations] + ["ung_job_plan.3", "ungula.3"]:
        example = "batch" if page == "ungula.3" else page[len("ung_"):-len(".3")]
        displays = [plain(d) for d in re.findall(r"^\.Bd -literal\n(.*?)^\.Ed$", roff[page], re.M | re.S)]
        for ending in (".c", ".txt"):
            shown += 1
            check(read(source, "examples", example + ending) in displays,
                  "%s does not show %s%s" % (page, example, ending))
    print("%d example files stand on the pages word for word" % shown)

    everything = "\n".join(roff.values())
    symbols = read(source, "lib", "symbols.txt").split()
    documented = {name for text in roff.values() for _, name, _ in prototypes(text)}
    for symbol in symbols:
        check(symbol in documented, "no page has a prototype of " + symbol)
    for name in documented:
        check(name in symbols or "<name>" in name, "a page documents %s, which lib/symbols.txt does not export" % name)
    print("%d exported symbols: each has its prototype on a page" % len(symbols))

    # A second declaration of a function must agree with the header's, or the compiler says so.
    lines = ["#include <ungula.h>"]
    for text in roff.values():
        lines += ["%s %s(%s);" % (r, n, ", ".join(a) or "void") for r, n, a in prototypes(text) if "<" not in n]
    with tempfile.TemporaryDirectory() as folder:
        file = os.path.join(folder, "prototypes.c")
        with open(file, "w") as f:
            f.write("\n".join(lines) + "\n")
        compiler = os.environ.get("CC", "cc").split()
        run = subprocess.run(compiler + ["-std=c11", "-fsyntax-only", "-I", os.path.join(source, "include"), file],
                             stdout=subprocess.PIPE, stderr=subprocess.STDOUT, universal_newlines=True)
        check(run.returncode == 0, "prototypes of the pages differ from the headers:\n" + run.stdout)
    print("%d prototypes agree with the headers" % (len(lines) - 1))

    core = re.sub(r"/\*.*?\*/", "", read(source, "include", "ungula", "core.h"), flags=re.S)
    constants = set(re.findall(r"\b(UNG_[A-Z_]+) = ", core)) | set(re.findall(r"#define (UNG_[A-Z_]+)[ (]", core))
    # Attributes and the declaring macros are for the headers themselves.
    constants -= set("UNG_NEEDS_IN_AND_OUT UNG_CONST UNG_PURE UNG_CHECKED UNG_PUBLIC UNG_CALCULATION "
                     "UNG_CALCULATION_WITH_LISTS".split())
    for constant in sorted(constants):
        check(re.search(r"\b%s\b" % constant, everything), "no page names " + constant)
    print("%d constants and macros of core.h are named" % len(constants))

    # Braces would give 0 to what is forgotten, and 0 passes; the one way is ung_<name>_standard().
    braces = re.compile(r"\bung_\w+_in\s+\w+(\[\w*\])?\s*=\s*\{|\(ung_\w+_in\)\s*\{")
    files = {"man/" + n: plain(t) for n, t in roff.items()}
    for path in glob.glob(os.path.join(source, "examples", "*.c")) + glob.glob(os.path.join(source, "*.md")):
        files[os.path.relpath(path, source)] = read(path)
    for name, text in files.items():
        check(not braces.search(text), name + " begins an input with braces")
    print("%d pages, examples and documents begin no input with braces" % len(files))

    width = max((len(line), name) for name, text in roff.items() if name != "ungula.7"
                for d in re.findall(r"^\.Bd -literal -offset 2n\n(.*?)^\.Ed$", text, re.M | re.S)
                for line in plain(d).splitlines())
    check(width[0] <= 71, "%s has an equation of %d columns: more than a terminal shows" % (width[1], width[0]))
    print("the widest equation has %d columns" % width[0])
    return failures != 0


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
