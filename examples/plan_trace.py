"""Reading a trace; plan_trace.h says what one looks like."""
import os
import re

import ungula

from plan_sheet import LINE_BYTES, accepted, complain, is_decimal, printable

TRACE_BYTES, TRACE_PATH, PROBLEMS = 2097152, 4200, 10
LIST = ungula.describe("outline_fit").lists[0]
BETWEEN = "[ \t,;]+"  # what stands between two numbers


class Trace:
    """Points in mm with their lines; what is wrong with the whole file becomes the problem of the sheet's row."""
    def __init__(self, sheet):
        self.points, self.lines, self.problems = [], [], []
        self.number = self.content = 0
        row = sheet.trace
        if row.problem:
            return
        folder, name = os.fsencode(sheet.path), row.text.encode("latin-1")
        folder = b"" if name.startswith(b"/") else folder[:folder.rfind(b"/") + 1]
        self.path = folder + name
        if len(self.path) >= TRACE_PATH:
            row.problem = "the path is too long"
            return
        try:
            with open(self.path, "rb") as file:
                data = file.read(TRACE_BYTES + 1)
        except (OSError, ValueError) as error:
            row.problem = f"cannot be read: {error.strerror}"
            return
        if len(data) > TRACE_BYTES:
            row.problem = f"more than {TRACE_BYTES} bytes, so this is not a trace"
            return
        self.read(data[3:] if data.startswith(b"\xef\xbb\xbf") else data, row.value)
        if len(self.points) > LIST.most:
            row.problem = f"more than {LIST.most} points"
        elif len(self.points) < LIST.least and not self.problems:
            row.problem = f"the file has {len(self.points)} points; accepted are {LIST.least} to {LIST.most}"

    def read(self, data, factor):
        lines = data.decode("latin-1").split("\n")  # a byte is a character
        for line in lines if lines[-1] else lines[:-1]:
            if len(self.points) > LIST.most:
                break
            self.number += 1
            self.read_point(line[:-1] if line.endswith("\r") else line, factor)

    def refuse(self, line, why):
        if len(self.problems) < PROBLEMS:
            self.problems.append((self.number, printable(line[:40]) + ("...: " if len(line) > 40 else ": ") + why))

    def read_point(self, line, factor):
        if len(line) > LINE_BYTES or "\0" in line:
            self.refuse(line, "the line has more than 200 characters" if len(line) > LINE_BYTES
                        else "the line holds a zero byte, so this is not plain text")
            return
        text = line.split("#")[0].strip(" \t")
        if not text:
            return
        self.content += 1
        if self.content == 1 and re.match('[A-Za-z"]', text) and not any(map(is_decimal, re.split(BETWEEN, text))):
            return  # a header
        two = re.fullmatch("([^ \t,;]+)(?:[ \t]*[,;][ \t]*|[ \t]+)([^ \t,;]+)", text)
        if not two:
            self.refuse(text, "a line holds two numbers, x and y, with a comma, a semicolon or blanks between them")
            return
        point = []
        for which, value, field in zip(("first", "second"), two.groups(), LIST.fields):
            if not is_decimal(value):
                self.refuse(text, f"the {which} value is not a plain decimal number, such as 12.5")
                return
            point.append(float(value) * factor)
            if not field.lower <= point[-1] <= field.upper:
                self.refuse(text, f"the {which} value is out of range; {accepted(field)}")
                return
        self.points.append(tuple(point))
        self.lines.append(self.number)

    def report(self):
        """Prints the problems of the lines; returns how many."""
        for number, text in self.problems:
            complain(self.path + f":{number}: {text}".encode("ascii"))
        return len(self.problems)

    def refused(self, fault):
        """Prints what the library found wrong with the points; False where it is about none of them."""
        rows = re.search(r", rows? (\d+)(?: and (\d+))? of \w+\)$", str(fault))
        if not rows or int(rows[1]) >= len(self.points):
            return False
        i, why = int(rows[1]), re.sub(r"^\w+: | \([^()]*\)$", "", str(fault))
        both = f" (lines {self.lines[i]} and {self.lines[int(rows[2])]})" if rows[2] else ""
        text = ":%d: point %.6g, %.6g mm: %s%s" % (self.lines[i], *self.points[i], why, both)
        complain(self.path + text.encode("ascii"))
        return True
