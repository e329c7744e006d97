"""A traced outline for job_plan: read, fitted, its belt measured, the screws of each side laid out; see plan.h."""
import math
import os
import re

import ungula

from plan_sheet import ASKED, LINE_BYTES, SCREWS_COUNT, Stop, accepted, complain, is_decimal, printable

TRACE_BYTES, TRACE_PATH, PROBLEMS = 2097152, 4200, 10
OUTLINE_POINTS = 2000  # outline_band is within 1e-5 of the smooth outline with as many
PLACE_STEP = 5  # mm; choice: finer than screws are set by hand
PLACES_MOST = 512
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


MEASURES = {"perimeter_mm": "perimeter_mm", "ground_area_mm2": "ground_area_mm2",
            "circumference_low_mm": "circumference_low_mm", "circumference_high_mm": "circumference_high_mm",
            "band_height_mm": "slant_height_mm", "bonded_area_mm2": "bonded_area_mm2",
            "wood_area_mm2": "shoe_area_mm2", "top_area_mm2": "covered_area_mm2"}


class Outline:
    """What is known of a traced hoof: parts, the results of each step by its name; places and screws of each side."""
    def __init__(self, sheet, trace, given):
        self.sheet, self.trace, self.given = sheet, trace, dict(given)
        self.plan = sheet.plan(given)  # for what follows from the sheet's values
        self.parts, self.stations, self.places = {}, [], {}
        self.report_shape()
        self.report_missing("outline_band")
        self.fit()
        band = self.call("band", "outline_band", outline=self.points)
        self.given.update({name: getattr(band, of) for name, of in MEASURES.items()})
        if sheet.stations:
            self.lay_out()
        self.report_twice(given)

    def inputs_of(self, calculation):
        """From the sheet; otherwise what job_plan has under that name; otherwise the standard value."""
        steps = {step.name: step.inputs for step in self.plan.steps}
        found = {}
        for field in ungula.describe(calculation).inputs:
            name, row = field.name, self.sheet.find(calculation, field.name)
            if row:
                found[name] = row.value
            elif calculation == "screw_layout" and hasattr(steps["screw"], name):
                found[name] = getattr(steps["screw"], name)
            elif name == "low_mm":
                found[name] = steps["belt"].low_mm
            elif getattr(self.plan.inputs, name, None) is not None:
                found[name] = getattr(self.plan.inputs, name)
        return {name: value for name, value in found.items() if not math.isnan(value)}

    def call(self, part, calculation, **lists):
        try:
            result = getattr(ungula, calculation)(**self.inputs_of(calculation), **lists)
        except ungula.InvalidInput as fault:
            self.report(part, calculation, fault)
            raise Stop from None
        self.parts[part] = result
        return result

    def report(self, part, calculation, fault):
        """The line of a sheet or a trace that a refusal is about."""
        if part == "fit" and self.trace.refused(fault):
            return
        row = self.sheet.find(calculation, fault.field) if fault.field else None
        if not row and fault.rows:
            index = fault.index or 0
            row = self.stations[index if index < len(self.stations) else 0][3] if part == "profile" \
                else self.sheet.trace
        self.sheet.problem(row, fault.field or "trace", str(fault))

    def report_missing(self, calculation):
        known, missing = self.inputs_of(calculation), False
        for field in ungula.describe(calculation).inputs:
            if field.name not in known and field.standard is None:
                missing = True
                self.sheet.problem(None, field.name,
                                   f"required, and not on the sheet; {accepted(field)} ({field.meaning})")
        if missing:
            raise Stop

    def report_shape(self):
        band, wrong = {f.name for f in ungula.describe("outline_band").inputs} | {"quarter_angle_deg"}, False
        for name, asked in ASKED.items():
            row = self.sheet.given(name)
            if row and asked.calculation == "hoof_band" and row.name not in band:
                wrong = True
                self.sheet.problem(row, None, "the trace stands for this")
        if wrong:
            raise Stop

    def report_twice(self, before):
        """What the outline and its stations say cannot stand on the sheet too: one of the two would not be used."""
        wrong = False
        for name in ASKED:
            row = self.sheet.given(name)
            if row and self.given.get(name) != before.get(name):
                wrong = True
                self.sheet.problem(row, None, "the trace or the stations of the wall say this already")
        if wrong:
            raise Stop

    def fit(self):
        """The library says which two points meet where a trace crosses itself; the fit alone would not."""
        try:
            ungula.outline_measure(outline=self.trace.points)
        except ungula.InvalidInput as fault:
            self.report("fit", "outline_fit", fault)
            raise Stop from None
        outline = self.call("fit", "outline_fit", trace=self.trace.points, outline_count=OUTLINE_POINTS).outline
        self.points = list(zip(outline.x_mm, outline.y_mm))

    def at(self, side, share):
        return ungula.outline_at(outline=self.points, left_side_count=side == "left", side_fraction=share,
                                 toe_direction_deg=self.parts["fit"].inputs.toe_direction_deg)

    def on(self, side):
        """Rows of stations on a side; toe and rear are on both."""
        return [row for row in self.sheet.rows
                if row.about == "station" and (row.side == side or row.place in (0, 1))]

    def gather_stations(self):
        """In the order of the profile; each is there with both its fields."""
        for row in self.sheet.rows:
            if row.about == "station" and row.name == "wall_thickness_mm":
                angle = next(n.value for n in self.on(row.side) if n.place == row.place and n.name == "wall_angle_deg")
                self.stations.append((self.at(row.side, row.place).around_fraction, row.value, angle, row))
        self.stations.sort(key=lambda station: station[0])

    def wall_profile(self):
        return [station[:3] for station in self.stations]

    def gather_places(self, side):
        """Every few millimeters between the first and the last station, since there the wall was measured."""
        measured = [row.place for row in self.on(side)]
        length, self.places[side], from_toe = self.at(side, 0).side_length_mm, [], 0.0
        while from_toe <= length and len(self.places[side]) < PLACES_MOST:
            share = from_toe / length
            if min(measured) <= share <= max(measured):
                around = self.at(side, share).around_fraction
                wall = ungula.wall_profile(start_fraction=around, stations=self.wall_profile(), profile_count=1).profile
                self.places[side].append((share, from_toe, wall.wall_thickness_mm[0], wall.wall_angle_deg[0],
                                          self.plan.inputs.sole_horn_mm))
            from_toe += PLACE_STEP

    def lay_out(self):
        self.gather_stations()
        self.call("profile", "wall_profile", stations=self.wall_profile(), profile_count=1)
        if self.plan.inputs.screw_way_count == 1 and self.plan.inputs.foam_count == 0:
            screws = self.sheet.screws
            if not screws:
                self.sheet.problem(None, "screws_count",
                                   "required with stations of the wall: how many screws a side gets; "
                                   f"{accepted(SCREWS_COUNT)}")
                raise Stop
            self.report_missing("screw_layout")
            for side in ("left", "right"):
                self.gather_places(side)
                if not self.places[side]:
                    self.sheet.problem(self.stations[0][3], None,
                                       f"no place for a screw between the {side} side's stations")
                    raise Stop
                self.call(side, "screw_layout", stations=self.places[side], screws_count=int(screws.value))
        self.give_sides()

    def side(self, side):
        """The place that stands for a side in the plan: that of the screw with the least margin, otherwise the thinnest
        station: thickness and angle of the wall, inset and tilt of the screw, and how many there are."""
        layout = self.parts.get(side)
        if layout and layout.weakest_count:
            screw = list(zip(*layout.screws))[int(layout.weakest_count) - 1]
            values = dict(zip(layout.screws._fields, screw))
            _, _, thickness, angle, _ = next(p for p in self.places[side] if p[1] == values["from_toe_mm"])
            return thickness, angle, values["inset_mm"], values["tilt_deg"], layout.placed_count
        thin = min((s for s in self.stations if s[3] in self.on(side)), key=lambda station: station[1])
        return thin[1], thin[2], None, None, layout.placed_count if layout else 0

    def give_sides(self):
        first, other, given = self.side("left"), self.side("right"), self.given
        laid_out = "left" in self.parts and "right" in self.parts
        here, there = first[4], other[4]
        if laid_out:
            given["screw_count"] = here + there
            if here + there == 0:
                given["screw_way_count"] = 0  # no side has room: the layout says so
            elif here == 0:  # one side alone
                first = other
            if here + there:
                given["inset_mm"], given["tilt_deg"] = first[2:4]
        given["wall_thickness_mm"], given["wall_angle_deg"] = first[:2]
        if not laid_out or (here and there):
            given["other_wall_thickness_mm"], given["other_wall_angle_deg"] = other[:2]
        if laid_out and here and there:
            given["other_inset_mm"], given["other_tilt_deg"], given["other_screw_count"] = other[2:]
