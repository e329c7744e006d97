"""Reading a measurement sheet; plan.h says what one looks like."""
import math
import os
import re
import sys

import ungula

SHEET_BYTES, SHEET_ROWS, LINE_BYTES = 65536, 500, 200
MM = {"mm": 1, "in": 25.4}
ASKED = {each.name: each for each in ungula.plan_inputs()}
OUTLINE = ("outline_fit", "outline_band", "screw_layout")  # measure an outline, and lay screws out on it
PLACES, SCREWS = ungula.describe("screw_layout").lists
SHARE = PLACES.fields[0]
STATION = {f.name: f for f in ungula.describe("wall_profile").lists[0].fields[1:]}
# How many screws a side gets: not an input of screw_layout, but how many rows it fills.
SCREWS_COUNT = ungula.describe("screw_layout").inputs[0]._replace(
    name="screws_count", unit="", lower=SCREWS.least, upper=SCREWS.most, usual_lower=SCREWS.least,
    usual_upper=SCREWS.most, whole=True, meaning=SCREWS.meaning)
TRACE = "trace"  # the value of this row is a file's name, and what the file's numbers are multiplied by


class Stop(Exception):
    """A problem was told; nothing is planned."""


class Row:
    """One line with a value; about: "plan", "outline", "screws", "station" or "trace"."""
    def __init__(self, line, echo):
        self.line, self.echo = line, echo
        self.name = self.text = ""
        # input: of job_plan; calculation: of an input for the outline that was named with it; side, place: of a station
        self.about = self.field = self.input = self.calculation = self.side = self.place = None
        self.value, self.problem = math.nan, ""

    def refuse(self, field, why):
        self.problem = f"{why}; {accepted(field)}" if field else why


def with_unit(text, unit):
    return f"{text} {unit}" if unit else text


def accepted(field):
    values = "whole numbers from %.15g to %.15g" if field.whole else "%.15g to %.15g"
    return "accepted values are " + with_unit(values % (field.lower, field.upper), field.unit)


def printable(text):
    return re.sub("[^ -~]", "?", text.replace("\t", " "))


def is_decimal(text):
    return re.fullmatch(r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?", text) is not None


def stands_for(name, field):
    """Whether a name of a sheet stands for a field: 2 as it is, 1 without the side before it, 0 not."""
    return 2 if name == field else 1 if field in (f"left_{name}", f"right_{name}") else 0


def look_up_plan(row, calculation, name):
    """An input of job_plan by its name, or by calculation and name where it has a name of its own there."""
    plain = ASKED.get(name)
    for each in ASKED.values():
        # The other side's value has no own name so: screw_depth.inset_mm would be either side's.
        own = (each.name != each.original and (each.calculation, each.original) == (calculation, name)
               and not (plain and plain.calculation == calculation))
        if own if calculation is not None else each.name == name:
            row.about, row.input, row.field = "plan", each.name, each
            return True
    return False


def look_up_outline(row, calculation, name):
    for c in OUTLINE:
        field = next((f for f in ungula.describe(c).inputs if stands_for(name, f.name)), None)
        if field and calculation in (None, c):
            row.about, row.field, row.calculation = "outline", field, calculation
            return True
    if name == SCREWS_COUNT.name and calculation in (None, "screw_layout"):
        row.about, row.field = "screws", SCREWS_COUNT
        return True
    return False


def look_up(row, trace):
    """The field that a name stands for."""
    calculation, row.name = (row.name.split(".", 1)) if "." in row.name else (None, row.name)
    if look_up_plan(row, calculation, row.name):
        return
    if look_up_outline(row, calculation, row.name):
        if not trace:
            row.about = None
            row.refuse(None, "this is used only with a trace: trace = FILE.csv mm")
        return
    of = [f"{each.calculation}.{row.name}" for each in ASKED.values() if each.original == row.name]
    if calculation is not None and calculation not in ungula.describe():
        row.refuse(None, "there is no such calculation")
    elif calculation is not None and row.name in ASKED:
        row.refuse(None, "the plan has one value of this for all its calculations: write the name alone")
    elif calculation is not None:
        row.refuse(None, "the plan has no input of that name for this calculation")
    else:
        row.refuse(None, f"say of which calculation: {', '.join(of)}" if of else "the plan has no input of that name")


def station_side(name):
    return next((side for side in ("left", "right") if name.startswith(side + ".")), None)


def look_up_station(row, trace):
    row.side = station_side(row.name)
    if not trace:
        row.refuse(None, "stations of the wall need a trace to lie on: trace = FILE.csv mm")
        return
    place, dot, field = row.name.partition(".")[2].rpartition(".")
    row.name = field
    if not dot or field not in STATION or not re.fullmatch(r"[0-9]+\.?[0-9]*|\.[0-9]+", place):
        row.refuse(None, "a station is written left.0.25.wall_thickness_mm or right.0.25.wall_angle_deg: the side, its "
                   "share from the toe (0) to the rear (1), and the field")
        return
    row.place = float(place)
    if row.place > SHARE.upper:
        row.refuse(None, f"there is no such place; {accepted(SHARE)}")
        return
    row.about, row.field = "station", STATION[field]


def read_value(row, text):
    value, unit = (re.split("[ \t]", text, maxsplit=1) + [""])[:2]
    unit, own = unit.strip(" \t"), row.field.unit
    both = "mm or in" if own == "mm" else own
    if not value:
        row.refuse(row.field, "the value is missing")
    elif not is_decimal(value):
        row.refuse(row.field, "the value is not a plain decimal number, such as 12.5, with a space before its unit")
    elif unit == own or (own == "mm" and unit == "in"):
        row.value = float(value) * (1 if unit == own else MM[unit])
    elif not own:
        row.refuse(row.field, "this is a pure number and takes no unit")
    elif not unit:
        row.refuse(row.field, f"the unit is missing: {both}")
    else:
        row.refuse(row.field, f"the unit does not fit: it must be {both}")


def read_trace(row):
    """A file's name and the unit of its numbers."""
    parts = re.fullmatch("(.*)[ \t](mm|in)", row.text, re.DOTALL)
    if not parts:
        row.refuse(None, "this must be a file and its unit, mm or in: trace = FILE.csv mm")
        return
    row.text, row.value, row.about = parts[1].strip(" \t"), MM[parts[2]], "trace"


def understand(row, trace):
    if row.name == TRACE:
        read_trace(row)
    elif station_side(row.name):
        look_up_station(row, trace)
    else:
        look_up(row, trace)
    if row.about not in (None, "trace"):
        read_value(row, row.text)


def read_line(number, line):
    line = line[:-1] if line.endswith("\r") else line
    if len(line) > LINE_BYTES or "\0" in line:
        row = Row(number, printable(line[:40]) + ("..." if len(line) > 40 else ""))
        row.refuse(None, "the line has more than 200 characters" if len(line) > LINE_BYTES
                   else "the line holds a zero byte, so this is not plain text")
        return row
    text = line.split("#")[0].strip(" \t")
    if not text:
        return None
    name, equals, value = text.partition("=")
    if not equals or not name:
        row = Row(number, printable(text))
        row.refuse(None, "the line is not of the form: name = value unit")
        return row
    name, value = name.rstrip(" \t"), value.strip(" \t")
    row = Row(number, printable(f"{name} = {value}" if value else f"{name} ="))
    row.name, row.text = name, value
    return row


def check_range(row, field):
    if not math.isfinite(row.value):
        row.refuse(field, "the value is too large")
    elif not field.lower <= row.value <= field.upper:
        row.refuse(field, with_unit("%.15g" % row.value, field.unit) + " is out of range")
    elif field.whole and row.value != math.floor(row.value):
        row.refuse(field, "a whole number is needed")


def same_key(a, b):
    if not a.about or (a.about, a.calculation, a.input) != (b.about, b.calculation, b.input):
        return False
    if a.about == "plan":
        return True
    return a.name == b.name and (a.about != "station" or (a.place == b.place and
                                                          (a.side == b.side or a.place in (0, 1))))


class Sheet:
    """Every problem stays in its row."""
    @classmethod
    def read(cls, path):
        """The sheet, or None (after a message) when the file cannot be read."""
        try:
            with open(path, "rb") as file:
                data = file.read(SHEET_BYTES + 1)
        except OSError as error:
            complain(f"{path}: cannot be read: {error.strerror}")
            return None
        if len(data) > SHEET_BYTES:
            complain(f"{path}:1: more than {SHEET_BYTES} bytes, so this is not a measurement sheet")
            return None
        return cls(path, data)

    def __init__(self, path, data):
        self.path, self.rows, self.lines = path, [], 0
        if data.startswith(b"\xef\xbb\xbf"):
            data = data[3:]
        lines = data.decode("latin-1").split("\n")  # a byte is a character
        for line in lines if lines[-1] else lines[:-1]:
            if len(self.rows) == SHEET_ROWS:
                self.rows[-1].refuse(None, "too many values, so this is not a measurement sheet")
                break
            self.lines += 1
            row = read_line(self.lines, line)
            if row:
                self.rows.append(row)
        self.trace = next((row for row in self.rows if row.name == TRACE), None)
        self.stations = self.trace is not None and any(station_side(row.name) for row in self.rows)
        for row in self.rows:
            if not row.problem:
                understand(row, self.trace)
        for i, row in enumerate(self.rows):
            if row.about and not row.problem:
                self.check_row(row, self.rows[:i])
        self.check_stations()

    def check_row(self, row, before):
        for other in before:
            if same_key(other, row):
                row.problem = f"already given in line {other.line}"
                return
        if row.about != "trace":
            check_range(row, row.field)

    def check_stations(self):
        """A station needs all its fields, and a side at least two stations to lie between."""
        stations = [row for row in self.rows if row.about == "station"]
        for row in stations:
            same = [n for n in stations if n.place == row.place and (n.side == row.side or row.place in (0, 1))]
            if len(same) < 2 and not row.problem:
                row.refuse(None, "the station needs its "
                           f"{next(name for name in STATION if name != row.name)} as well")
        for side in ("left", "right"):
            places = {row.place for row in stations if row.side == side or row.place in (0, 1)}
            if stations and not stations[-1].problem and len(places) < 2:
                stations[-1].refuse(None, f"the {side} side needs at least two stations; toe and rear count for both")

    @property
    def screws(self):
        return next((row for row in self.rows if row.about == "screws"), None)

    def given(self, name):
        """The row that gives an input of job_plan, or None."""
        return next((row for row in self.rows if row.about == "plan" and row.input == name), None)

    def find(self, calculation, name):
        """The row that gives an input for the outline, or None; what job_plan has too is read as its."""
        best, found = 0, None
        for row in self.rows:
            if row.about == "plan" or (row.about == "outline" and row.calculation in (None, calculation)):
                fits = stands_for(row.name, name)
                fits += 2 if fits and row.calculation else 0
                if fits > best:
                    best, found = fits, row
        return found

    def plan(self, given):
        """The plan; Stop after a message with the line of what was refused."""
        try:
            return ungula.job_plan(**given)
        except ungula.InvalidInput as fault:
            self.problem(self.given(fault.field), fault.field, str(fault))
            raise Stop from None

    def problem(self, row, name, text):
        """Prints a problem that became known later; row None: it belongs to no line, so the end is named."""
        place = f"{row.line}: {row.echo}" if row else f"{max(self.lines, 1)}: {name} (end of sheet)"
        complain(f"{self.path}:{place}: {text}")

    def report(self):
        """Prints the problems of the rows; returns how many."""
        problems = [row for row in self.rows if row.problem]
        for row in problems:
            self.problem(row, None, row.problem)
        return len(problems)


def complain(text):
    sys.stderr.buffer.write(text if isinstance(text, bytes) else os.fsencode(text))
    sys.stderr.buffer.write(b"\n")
