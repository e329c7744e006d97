"""Reading a measurement sheet; plan_sheet.h says what one looks like."""
import math
import os
import re
import sys

import ungula

from plan_tasks import check_tasks, is_task, look_up_task

SHEET_BYTES, SHEET_ROWS, LINE_BYTES = 65536, 500, 200
MM = {"mm": 1, "in": 25.4}
# Calculations that only some sheets use.
SOMETIMES = {"hoof_band": "without a trace", "outline_fit": "with a trace", "outline_band": "with a trace",
             "wall_from_border": "without stations of the wall", "screw_depth": "without stations of the wall",
             "screw_layout": "with stations of the wall",
             **dict.fromkeys(("limb_load", "screw_gauge", "wood_species", "screw_hold", "bond_hold", "hold"),
                             "with body_mass_kg, gait_count and shoe_mass_g"),
             **dict.fromkeys(("working_time", "cup_cure", "cast_set", "job_timeline"),
                             "with reference_time_s, temperature_c and tasks")}
PLACES, SCREWS = ungula.describe("screw_layout").lists
SHARE = PLACES.fields[0]
STATION = {f.name: f for f in ungula.describe("wall_profile").lists[0].fields[1:]}
# What screw_layout is told beside its inputs: how many screws a side, and the sole's horn at every station.
LAYOUT = {"screws_count": ungula.describe("screw_layout").inputs[0]._replace(
              name="screws_count", unit="", lower=SCREWS.least, upper=SCREWS.most, whole=True, meaning=SCREWS.meaning),
          "sole_horn_mm": next(f for f in PLACES.fields if f.name == "sole_horn_mm")}
HOLD_NAMES = ("body_mass_kg", "gait_count", "shoe_mass_g")  # one of these on a sheet asks for the hold
# One of these, or a task, asks for the timing.
TIMING_NAMES = ("reference_time_s", "reference_temperature_c", "temperature_c", "ambient_c", "surface_cm2", "water_c",
                "room_c")
TRACE = "trace"  # the value of this row is a file's name, and what the file's numbers are multiplied by


class Row:
    """One line with a value: calculation None means every calculation that has the field."""
    def __init__(self, line, echo):
        self.line, self.echo = line, echo
        self.name = self.text = ""
        self.calculation = self.field = self.side = self.place = None  # side, place: of a station of the wall
        self.task = 0
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


def settable(calculation, name):
    if calculation == "wall_profile":  # where its rows lie is not the sheet's to say
        return None
    found = (f for f in ungula.describe(calculation).inputs if stands_for(name, f.name))
    return next(found, LAYOUT.get(name) if calculation == "screw_layout" else None)


def look_up(row, inputs):
    """The field that a name stands for, and the calculation if the name says one."""
    calculation, dot, row.name = row.name.partition(".") if "." in row.name else ("", "", row.name)
    known = [c for c in inputs if not dot or c == calculation]
    for c in known:
        row.field = settable(c, row.name)
        if row.field:
            row.calculation = c if dot else None
            return
    for c, when in SOMETIMES.items():
        if (not dot or c == calculation) and settable(c, row.name):
            row.refuse(None, f"only {c} takes this, which is used only {when}")
            return
    row.refuse(None, "this plan has no such calculation" if not known
               else "this calculation has no input of that name" if dot
               else "no calculation of this plan has an input of that name")


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
    row.field = STATION[field]


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
    row.text, row.value, row.field = parts[1].strip(" \t"), MM[parts[2]], TRACE


def understand(row, inputs, trace):
    if row.name == TRACE:
        read_trace(row)
    elif station_side(row.name):
        look_up_station(row, trace)
    elif is_task(row.name):
        look_up_task(row)
    else:
        look_up(row, inputs)
    if row.field and row.field is not TRACE:
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
    if (not a.field or not b.field or
            (a.calculation, a.name, not a.side, a.task) != (b.calculation, b.name, not b.side, b.task)):
        return False
    return not a.side or (a.place == b.place and (a.side == b.side or a.place in (0, 1)))


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
        self.hold = any(row.name.rpartition(".")[2] in HOLD_NAMES for row in self.rows)
        self.timing = any(row.name.rpartition(".")[2] in TIMING_NAMES or is_task(row.name) for row in self.rows)

    def check(self, inputs):
        """Understands and checks the rows, given the calculations that the plan consists of, with their inputs."""
        for row in self.rows:
            if not row.problem:
                understand(row, inputs, self.trace)
        for i, row in enumerate(self.rows):
            if row.field and not row.problem:
                self.check_row(row, self.rows[:i], inputs)
        self.check_stations()
        check_tasks(self.rows)

    def check_row(self, row, before, inputs):
        for other in before:
            if same_key(other, row):
                row.problem = f"already given in line {other.line}"
                return
        if row.side or row.task or row.field is LAYOUT.get(row.name):
            check_range(row, row.field)
            return
        for c in inputs:
            for name, field in inputs[c].items():
                if not row.problem and self.find(c, name) is row:
                    check_range(row, field)

    def check_stations(self):
        """A station needs all its fields, and a side at least two stations to lie between."""
        stations = [row for row in self.rows if row.side and row.field]
        for row in stations:
            same = [n for n in stations if n.place == row.place and (n.side == row.side or row.place in (0, 1))]
            if len(same) < 2 and not row.problem:
                row.refuse(None, "the station needs its "
                           f"{next(name for name in STATION if name != row.name)} as well")
        for side in ("left", "right"):
            places = {row.place for row in stations if row.side == side or row.place in (0, 1)}
            if stations and not stations[-1].problem and len(places) < 2:
                stations[-1].refuse(None, f"the {side} side needs at least two stations; toe and rear count for both")

    def find(self, calculation, name):
        """The row that sets a field of a calculation, or None."""
        best, found = 0, None
        for row in self.rows:
            if not row.field or row.side or row.task or row.calculation not in (None, calculation):
                continue
            fits = stands_for(row.name, name)
            fits += 2 if fits and row.calculation else 0
            if fits > best:
                best, found = fits, row
        return found


def complain(text):
    sys.stderr.buffer.write(text if isinstance(text, bytes) else os.fsencode(text))
    sys.stderr.buffer.write(b"\n")
