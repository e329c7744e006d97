"""The plan for people: aligned text.  Titles, names, units and meanings are those of the contracts."""
import math
import re

import ungula

from plan_sheet import ASKED, SCREWS_COUNT, with_unit

WIDTH = 100
CONTRACT = {name: ungula.describe(name) for name in ungula.describe()}
UNITS = {f.name: f.unit for c in CONTRACT.values() for f in c.inputs + c.outputs}
UNITS.update((each.name, each.unit) for each in (*ASKED.values(), SCREWS_COUNT))
ASKING = ("demand", "grip_need", "bond_need")  # steps that only ask what load there is, and what strengths are needed
LOAD = ("pull_n", "shear_n", "demand_n")
TASKS = ("mix", "lay", "place", "drive", "wrap", "smooth")


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


def code_words(meaning, value):
    """"the mode that is least: 1 Im, 2 Is": the words of one code, or None."""
    if not math.isfinite(value) or value != math.floor(value) or abs(value) > 99:
        return None
    found = re.search(r"(?:^|(?<=[,:;] ))%d:? (.*?)(?=[,;] [0-9]|$)" % value, meaning)
    return found[1] if found else None


def cell(value, name):
    if math.isnan(value):
        return " %12s" % "-"
    if math.isinf(value):
        return " %12s" % "endless"
    decimals = (4 if "chance_fraction" in name or "error_fraction" in name else
                0 if UNITS[name] in ("mm2", "s") or name.endswith("_count") else 1 if UNITS[name] == "mL" else 2)
    return " %12.*f" % (decimals, value)


def row(name, values, lead, meaning):
    known = [value for value in values if not math.isnan(value)]
    words = [code_words(meaning, value) for value in known]
    shown = [word for i, word in enumerate(words) if i == 0 or known[i] != known[0]]
    print("  %-26s%s %-7s %s%s" % (name, "".join(cell(value, name) for value in values), UNITS[name], lead,
                                   " | ".join(shown) if words and None not in words else meaning))


class Part:
    """A step that ran: of the plan, or one before it that measures an outline."""
    def __init__(self, name, result, of_plan):
        self.name, self.result, self.of_plan = name, result, of_plan
        self.calculation = CONTRACT[type(result)._calculation]
        self.inputs = result.inputs

    def told(self, output):
        """Of what only asks, the rest of the result says nothing: it hangs on the strength that stood in."""
        return (self.name not in ASKING or output.startswith("needed") or "_needed_" in output or
                (self.name == "demand" and output in LOAD))


class Text:
    """Everything that is printed of a plan; sheet: what it was made from, outline: None without a trace."""
    def __init__(self, sheet, outline, plan):
        self.sheet, self.outline, self.plan = sheet, outline, plan
        before = [Part(name, result, False) for name, result in outline.parts.items()] if outline else []
        self.parts = before + [Part(step.name, step.result, True) for step in plan.steps if step.result is not None]
        order = ["stop", "warn", "note"]
        cautions = [(part.name, c) for part in before for c in part.result.cautions]
        cautions += [(c.step, c) for c in plan.cautions]
        self.cautions = sorted(cautions, key=lambda each: order.index(each[1].severity))

    def print(self):
        self.stops()
        print(f"Plan from {self.sheet.path}")
        if self.outline:
            trace = self.sheet.trace
            print(f"  {trace.echo} (line {trace.line} of the sheet): {len(self.outline.trace.points)} points")
        self.items()
        self.print_cautions()
        self.not_planned()
        self.unusual()
        self.steps()
        self.gaits()
        self.standard_values()
        self.standing()

    # The steps, those of one calculation side by side

    def found(self, part, field):
        """An input that was neither given nor has its standard value: another step found it."""
        value = getattr(part.inputs, field.name)
        given = any(each.original == field.name and getattr(self.plan.inputs, each.name) == value
                    for each in ASKED.values())
        return part.of_plan and not given and value != field.standard

    def calculation(self, contract, columns):
        print(f"\n{contract.name}: {contract.title}")
        if len(columns) > 1 or columns[0].name != contract.name:
            print(" " * 28 + "".join(" %12s" % part.name for part in columns))
        for field in contract.inputs:
            values = [getattr(part.inputs, field.name) for part in columns]
            from_step = any(self.found(part, field) for part in columns)
            choice = any(value != field.standard and code_words(field.meaning, value) for value in values)
            if from_step or choice:
                row(field.name, values, "from another step: " if from_step else "given: ", field.meaning)
        for field in contract.outputs:
            values = [getattr(part.result, field.name) if part.told(field.name) else math.nan for part in columns]
            row(field.name, values, "", field.meaning)

    def steps(self):
        hold = any(part.name == "hold" for part in self.parts)
        shown = [part for part in self.parts if not (part.name == "demand" and hold)]
        for contract in dict.fromkeys(part.calculation.name for part in shown):
            self.calculation(CONTRACT[contract], [part for part in shown if part.calculation.name == contract])
            if contract == "screw_layout":
                for side in ("left", "right"):
                    self.places(side)
            elif contract == "job_timeline":
                self.tasks()

    def places(self, side):
        stations, screws = self.outline.places[side], self.outline.parts[side].screws
        (_, from_toe, thick, angle, _), (_, to, thick_to, angle_to, _) = stations[0], stations[-1]
        print("  %s: places that came into question: %d, %.0f to %.0f mm from the toe; wall there %.2f to %.2f mm, "
              "%.1f to %.1f deg" % (side, len(stations), from_toe, to, thick, thick_to, angle, angle_to))
        names = ("from_toe_mm", "side_fraction", "inset_mm", "tilt_deg", "margin_mm", "screw_length_limit_mm")
        print("  screw" + "".join("  " + name for name in names))
        for i, (*values, limit) in enumerate(zip(*(getattr(screws, name) for name in names)), 1):
            if limit > 0:  # 0: no room
                limit = math.floor(limit * 10 + 1e-6) / 10
                print("  %5d  %11.0f  %13.3f  %8.1f  %8.1f  %9.2f  %21.1f" % (i, *values, limit))
            else:
                print("  %5d  no room" % i)

    def tasks(self):
        times = self.plan.timeline.times
        print("  %-8s %8s %9s %16s %6s %20s" % ("task", "mean_s", "finish_s", "chance_fraction", "batch",
                                                "own_chance_fraction"))
        columns = (times.mean_s, times.finish_s, times.chance_fraction, times.batch_count, times.own_chance_fraction)
        for task, *values in zip(TASKS, *columns):
            print("  %-8s %8.0f %9.0f %16.4f %6.0f %20.4f" % (task, *values))

    def not_planned(self):
        missing = [step for step in self.plan.steps if step.why]
        for i, step in enumerate(missing):
            if i == 0:
                print("\nNot planned")
            print(wrapped("  ", 6, f"{step.name} ({step.calculation}): {step.why}"))

    def gaits(self):
        """What each gait asks for."""
        asked = [("demand", name) for name in (*LOAD, "needed_screw_n")]
        asked += [("grip_need", "horn_shear_needed_mpa"), ("grip_need", "horn_bearing_needed_mpa")]
        asked += [("demand", "needed_bond_n"), ("bond_need", "needed_mean_mpa"), ("bond_need", "needed_first_mpa")]
        asked += [("demand", "needed_grip_n")]
        if self.plan.demand is None:
            return
        meaning = ASKED["gait_count"].meaning
        plans = [self.plan.again(gait_count=gait, cup_count=0, heat_count=0) for gait in (1, 2, 3)]
        print("\nStrengths needed at each gait, with divisor_ratio %g\n  %-26s%s" % (
            self.plan.inputs.divisor_ratio, "",
            "".join(" %12s" % code_words(meaning, gait) for gait in (1, 2, 3))))
        for step, name in asked:
            contract = CONTRACT["hold" if step == "demand" else "screw_hold" if step == "grip_need" else "bond_hold"]
            values = [getattr(getattr(plan, step), name, math.nan) for plan in plans]
            row(name, values, "", next(f.meaning for f in contract.outputs if f.name == name))

    # What to bring and to do

    def items(self):
        plan = self.plan
        for title, items in (("Bring", plan.bring), ("Do, in this order", plan.todo),
                             ("In the weeks after", plan.later)):
            print(f"\n{title}")
            for item in items:
                field = f".{item.field}" if item.field else ""
                caution = f", caution {item.caution}" if item.caution else ""
                print(wrapped("  - ", 6, f"{item.text()}  [{item.step}{field}{caution}]"))

    # What is doubtful

    @staticmethod
    def caution_text(c):
        word = {"below": "below", "above": "above", "equal": "equal to"}.get(c.comparison)
        if word is None:
            return c.text
        return f"{c.text} ({c.field} is {measure(c.value, c.field, 4)}, {word} {measure(c.limit, c.field, 4)})"

    def print_cautions(self):
        print("\nCautions, the most severe first")
        for name, c in self.cautions:
            print("  %-4s  %s.%s (%s)" % (c.severity, name, c.code, c.calculation))
            print(wrapped("        ", 8, self.caution_text(c)))
        if not self.cautions:
            print("  none")

    def unusual(self):
        lead = "\nUnusual, check it"
        for name, asked in ASKED.items():
            value = getattr(self.plan.inputs, name)
            if not self.sheet.given(name) or asked.usual_lower <= value <= asked.usual_upper:
                continue
            if lead:
                print(lead)
                lead = ""
            usual = f"usual {'%.15g' % asked.usual_lower} to {measure(asked.usual_upper, name, 15)}"
            print(wrapped("  ", 6, f"{name} is {measure(value, name, 6)} ({usual})"))

    def standard_values(self):
        """Standard values stand in for what was not measured: never silently."""
        used = {part.calculation.name for part in self.parts if part.of_plan} | {""}
        standard = [f"{name}~{measure(asked.standard, name, 15).replace(' ', '~')}" for name, asked in ASKED.items()
                    if asked.standard is not None and getattr(self.plan.inputs, name) == asked.standard
                    and not self.sheet.given(name) and asked.calculation in used]
        print("\nNot on the sheet, so standard")
        print(wrapped("  ", 2, ", ".join(standard)))

    def standing(self):
        print("\nAlways")
        for name in dict.fromkeys(part.calculation.name for part in self.parts):
            for text in CONTRACT[name].standing:
                print(wrapped("  - ", 4, text))
        print("\nThe attending veterinarian and a qualified farrier decide; this plan only computes.")

    # Stops

    def stops(self):
        stops = [(name, c) for name, c in self.cautions if c.severity == "stop"]
        for name, c in stops:
            print(wrapped(f"STOP  {name}.{c.code} ({c.calculation}): ", 6, self.caution_text(c)))
            self.changes(c)
        if stops:
            print()

    def lifts(self, caution):
        """Values on the sheet each of which alone would lift a stop, with their rows."""
        for name, asked in ASKED.items():
            given = self.sheet.given(name)
            value = self.plan.lift(caution, name) if given and asked.chosen else None
            if value is not None:
                yield given, value

    def outline_lifts(self, caution):
        """Steps before the plan are not searched: the layout itself says what would keep every margin, on both sides,
        and the belt's cautions hold a value on the sheet against its limit."""
        if caution.calculation != "screw_layout":
            given = self.sheet.given(caution.field)
            if given:
                yield given, caution.limit
            return
        for given, fit in ((self.sheet.screws, "screws_fit_count"),
                           (self.sheet.find("screw_layout", "spacing_mm"), "spacing_fit_mm"),
                           (self.sheet.find("screw_layout", "screw_length_mm"), "screw_length_fit_mm")):
            value = min(getattr(self.outline.parts[side], fit) for side in ("left", "right"))
            if given and 0 < value < given.value:
                yield given, value

    def changes(self, caution):
        """What would lift a stop: to a tenth, usual values first, and of those the least change in terms of its usual
        range."""
        of_plan, found = isinstance(caution, ungula.PlanCaution), []
        for given, value in (self.lifts if of_plan else self.outline_lifts)(caution):
            now, f = given.value, given.field
            if not f.whole:
                value = math.floor(value * 10 + 1e-6) / 10 if value < now else math.ceil(value * 10 - 1e-6) / 10
            usual = f.usual_upper - f.usual_lower if f.usual_upper > f.usual_lower else f.upper - f.lower
            if f.lower <= value <= f.upper:
                found.append((not f.usual_lower <= value <= f.usual_upper, abs(value - now) / usual, given, value))
        found.sort(key=lambda each: each[:2])
        if not found:
            print("  No change of a single value on the sheet lifts it.")
            return
        cause = found[0][2]
        print(f"  Value on the sheet that causes it: {cause.field.name} = {measure(cause.value, cause.field.name, 15)} "
              f"(line {cause.line})")
        print("  Least change that lifts it (any one of these alone):")
        for unusual, _, given, value in found:
            name, now = given.field.name, given.value
            print("    %-18s %.15g -> %s (%s %s)%s" % (
                name, now, measure(value, name, 15), measure(abs(value - now), name, 6),
                "less" if value < now else "more", ", outside the usual range" if unusual else ""))
