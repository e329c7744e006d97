#!/usr/bin/env python3
"""The whole job in a few lines, examples/short_plan.py, says what the main job says of a sheet with the same values.
Programs and helpers are those of plan_sheets.py."""
import os
import re
import subprocess
import sys

sys.dont_write_bytecode = True  # the sources may be read-only
from plan_sheets import EXAMPLES, PYTHON, STEPS, both, cautions, check, flat, main, sample, section, unit  # noqa: E402


def test_short(folder):
    script = sample("short_plan.py")
    given = re.findall(r"\b([a-z]\w+_\w+)=(-?[\d.]+)", script)
    check(len(given) >= 40 and "invented" in script.splitlines()[0], "an invented horse, measured")
    out = both("".join(f"{name} = {value} {unit(name)}\n" for name, value in given), folder, "short", 0)
    if not PYTHON:
        return
    done = subprocess.run([sys.executable, "-B", os.path.join(EXAMPLES, "short_plan.py")], stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE, env={**os.environ, "PYTHONIOENCODING": "utf-8"})
    short = done.stdout.decode()
    check(done.returncode == 0 and not done.stderr, f"it runs: {done.stderr}")
    for title, part in (("Bring", "Bring"), ("Do", "Do, in this order"), ("Later", "In the weeks after")):
        items = re.findall(r"- (.*?) \[[^][]*\](?= - |$)", flat(section(out, part)))
        told = re.search(rf"^{title}\n((?:  .*\n)+)", short, re.M)[1].splitlines()
        check([flat(line) for line in told] == items and items, f"{title}: {told}, {items}")
    severe = [(severity, code.partition(".")[0]) for severity, code in cautions(out) if severity != "note"]
    check(re.findall(r"^(stop|warn): (\w+): ", short, re.M) == severe and severe, f"cautions: {severe}")
    missing = re.findall(r"^  (\w+) \(\w+\): ", section(out, "Not planned"), re.M)
    check(re.search(r"^not planned: (.*)$", short, re.M)[1].split(", ") == missing and set(missing) <= set(STEPS), "missing")


main("short plan", test_short)
