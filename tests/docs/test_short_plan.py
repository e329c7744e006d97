#!/usr/bin/env python3
"""The short script and the long one say the same: status, every number, every caution of the five calculations."""
import os
import re
import subprocess
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
EXAMPLES = os.path.join(os.environ.get("abs_top_srcdir") or os.path.join(HERE, "..", ".."), "examples")
failed = passed = 0


def check(condition, what):
    global failed, passed
    passed, failed = passed + bool(condition), failed + (not condition)
    if not condition:
        print("FAILED:", what)


def run(script, sheet):
    return subprocess.run([sys.executable, "-B", os.path.join(EXAMPLES, script), sheet], stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE, universal_newlines=True)


for name, status in (("routine.sheet", 0), ("stop.sheet", 1)):
    sheet = os.path.join(EXAMPLES, name)
    short, long = run("short_plan.py", sheet), run("plan.py", sheet)
    check(short.returncode == long.returncode == status, f"{name}: status {short.returncode}, {long.returncode}")
    compared = 0
    for field, number in re.findall(r"\(?(\w+)=(-?[\d.]+)", short.stdout):
        shown = re.search(rf"^  {field} +(-?[\d.]+) ", long.stdout, re.M)
        if shown:
            digits = len(shown[1].partition(".")[2])
            check(abs(float(number) - float(shown[1])) <= 0.5000001 * 10 ** -digits, f"{name}: {field} {number}, {shown[1]}")
            compared += 1
    check(compared >= 50, f"{name}: only {compared} numbers compared")  # the five calculations have 54 results
    for severity, code in re.findall(r"^(stop|warn|note): (\w+\.\w+):", short.stdout, re.M):
        check(re.search(rf"^  {severity}  {re.escape(code)}$", long.stdout, re.M), f"{name}: {severity} {code}")
print(f"{passed} passed, {failed} failed")
sys.exit(failed != 0)
