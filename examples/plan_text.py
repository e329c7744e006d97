"""How the plan's lines are written."""
import math

from plan_sheet import with_unit

WIDTH = 100
UNITS = {}  # of every field; plan_work.py knows which there are


def wrapped(lead, indent, text):
    """Words in lines of WIDTH; a ~ is a space that holds."""
    lines, line, first = [], lead, True
    for word in text.split():
        if not first and len(line) + 1 + len(word) > WIDTH:
            lines.append(line)
            line, first = " " * indent, True
        line += word if first else " " + word
        first = False
    return "\n".join(lines + [line]).replace("~", " ")


def measure(value, name, digits):
    return with_unit("%.*g" % (digits, value), UNITS[name])


def row(name, value, meaning):
    unit = UNITS[name]
    decimals = (4 if name.endswith(("chance_fraction", "error_fraction")) else
                0 if unit in ("mm2", "s") or name.endswith("_count") else 1 if unit == "mL" else 2)
    return "  %-24s %10.*f %-5s  %s" % (name, decimals, value, unit, meaning)


def down_to_tenth(value):
    """A limit is rounded down; what is a hair short of a tenth by arithmetic is that tenth."""
    return math.floor(value * 10 + 1e-6) / 10 if math.isfinite(value) else value
