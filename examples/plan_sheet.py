"""Reading a measurement sheet; plan_sheet.h says what one looks like."""
import math
import os
import re
import sys

SHEET_BYTES, SHEET_ROWS, LINE_BYTES = 65536, 500, 200


class Row:
    """One line with a value: calculation None means every calculation that has the field."""
    def __init__(self, line, echo):
        self.line, self.echo = line, echo
        self.calculation = self.field = None
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


def look_up(row, name, inputs):
    """The field that a name stands for, and the calculation if the name says one."""
    calculation, dot, field = name.partition(".") if "." in name else ("", "", name)
    known = [c for c in inputs if not dot or c == calculation]
    for c in known:
        if field in inputs[c]:
            row.field, row.calculation = inputs[c][field], c if dot else None
            return
    row.refuse(None, "this plan has no such calculation" if not known
               else "this calculation has no input of that name" if dot
               else "no calculation of this plan has an input of that name")


def read_value(row, text):
    value, unit = (re.split("[ \t]", text, maxsplit=1) + [""])[:2]
    unit, own = unit.strip(" \t"), row.field.unit
    both = "mm or in" if own == "mm" else own
    if not value:
        row.refuse(row.field, "the value is missing")
    elif not re.fullmatch(r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?", value):
        row.refuse(row.field, "the value is not a plain decimal number, such as 12.5, with a space before its unit")
    elif unit == own or (own == "mm" and unit == "in"):
        row.value = float(value) * (1 if unit == own else 25.4)
    elif not own:
        row.refuse(row.field, "this is a pure number and takes no unit")
    elif not unit:
        row.refuse(row.field, f"the unit is missing: {both}")
    else:
        row.refuse(row.field, f"the unit does not fit: it must be {both}")


def read_line(number, line, inputs):
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
    look_up(row, name, inputs)
    if row.field:
        read_value(row, value)
    return row


def check_range(row, field):
    if not math.isfinite(row.value):
        row.refuse(field, "the value is too large")
    elif not field.lower <= row.value <= field.upper:
        row.refuse(field, with_unit("%.15g" % row.value, field.unit) + " is out of range")
    elif field.whole and row.value != math.floor(row.value):
        row.refuse(field, "a whole number is needed")


class Sheet:
    """Every problem stays in its row; inputs: calculation -> name -> field, in the order of the work."""
    @classmethod
    def read(cls, path, inputs):
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
        return cls(path, data, inputs)

    def __init__(self, path, data, inputs):
        self.path, self.inputs, self.rows, self.lines = path, inputs, [], 0
        if data.startswith(b"\xef\xbb\xbf"):
            data = data[3:]
        lines = data.decode("latin-1").split("\n")  # a byte is a character
        for line in lines if lines[-1] else lines[:-1]:
            if len(self.rows) == SHEET_ROWS:
                self.rows[-1].refuse(None, "too many values, so this is not a measurement sheet")
                break
            self.lines += 1
            row = read_line(self.lines, line, inputs)
            if row:
                self.rows.append(row)
        for i, row in enumerate(self.rows):
            if row.field and not row.problem:
                self.check(row, self.rows[:i])

    def check(self, row, before):
        for other in before:
            if other.field and (other.calculation, other.field.name) == (row.calculation, row.field.name):
                row.problem = f"already given in line {other.line}"
                return
        for c in self.inputs:
            if not row.problem and self.find(c, row.field.name) is row:
                check_range(row, self.inputs[c][row.field.name])

    def find(self, calculation, name):
        """The row that sets a field of a calculation, or None."""
        if name not in self.inputs[calculation]:
            return None
        rows = [r for r in self.rows if r.field and r.field.name == name]
        own = [r for r in rows if r.calculation == calculation]
        return next(iter(own + [r for r in rows if r.calculation is None]), None)


def complain(text):
    sys.stderr.buffer.write(text if isinstance(text, bytes) else os.fsencode(text))
    sys.stderr.buffer.write(b"\n")
