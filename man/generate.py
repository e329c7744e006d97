#!/usr/bin/env python3
"""Writes the man pages: one for each calculation from its contract and its example, and ung_job_plan(3), ungula(3)
and ungula(7) from the .in files beside this program with the lists from the contracts filled in.

    generate.py contracts.json examples-directory output-directory

Everything said about a calculation comes from contracts.json, which bindings/describe prints.  The same input gives
the same bytes."""

import json
import os
import re
import sys
import textwrap

DATE = "November 25, 2026"
WIDTH = 70  # of the source lines, before escapes: mandoc advises at most 80
DISPLAY = 70  # of equation lines: a display indented by 2 in a page of 78 columns, with room for the margin
SEVERITIES = ("stop", "warn", "note")  # in the order of ung_cautions
KINDS = ("published", "practice", "choice", "memory")
# The C type of a list's rows, by the names of its fields.

# Text and mdoc -------------------------------------------------------------------------------------------------------

def escape(text):
    """Plain text to roff: an accent, a backslash or a minus sign shall stay what it is."""
    text = text.replace("\\", "\\e").replace("'", "\\(aq").replace("`", "\\(ga")
    return text.replace("^", "\\(ha").replace("~", "\\(ti")


def line_start(line):
    return "\\&" + line if line.startswith((".", "'")) else line


def wrap(text):
    return textwrap.wrap(text, WIDTH, break_long_words=False, break_on_hyphens=False) or [""]


def sentences(text):
    """mdoc wants every sentence on a new line.  A sentence begins with a capital or with a name such as k1."""
    parts = re.split(r"(?<=[.?!])\s+(?=[A-Z]|\w*[_0-9])", text)
    return [line_start(escape(line)) for part in parts for line in wrap(part)]


def citation(text):
    """Full stops inside a citation end no sentence."""
    return [line_start(re.sub(r"\.(?= |$)", r".\\&", escape(line))) for line in wrap(text)]


def sentence(text):
    """A text of the contract (lower case, no full stop) as the sentence of a page."""
    text = text[0].upper() + text[1:] if not re.match(r"\w*[_0-9]", text) else text
    return text if text.endswith((".", "?", "!")) else text + "."


def literal(lines):
    out = [".Bd -literal"]
    out += [line_start(escape(line).replace("-", "\\-")) for line in lines]
    return out + [".Ed"]


def fold(line):
    """A line too long for the page, broken where it is the least deep in parentheses."""
    indent = " " * (len(line) - len(line.lstrip()) + 4)
    out = []
    while len(line) > DISPLAY:
        first = len(line) - len(line.lstrip())
        breaks = [i for i in range(first + 20, DISPLAY + 1)
                  if line[i] == " " and line[i - 1] not in "+-=/ " and line[i + 1] != "="]
        if not breaks:
            break
        at = min(breaks, key=lambda i: (line.count("(", 0, i) - line.count(")", 0, i), -i))
        out.append(line[:at].rstrip())
        line = indent + line[at:].strip()
    return out + [line]


def equations(lines):
    """Two equations on one line stand apart by two spaces in the contracts; a page gives each its own line."""
    out = []
    for line in lines:
        parts = re.split(r"[;,]  ", line)
        for part in parts if len(line) <= DISPLAY else [q for p in parts for q in re.split(r", (?=\w+ = )", p)]:
            out += fold(part.rstrip())
    shown = literal(out)
    return [".Bd -literal -offset 2n"] + shown[1:]


def prose(text):
    """Paragraphs and, indented by four spaces, equations."""
    out = []
    for block in text.split("\n\n"):
        lines = block.split("\n")
        if all(line.startswith("    ") for line in lines):
            out += equations([line[4:] for line in lines])
        else:
            if out:
                out.append(".Pp")
            out += sentences(" ".join(line.strip() for line in lines))
    return out


def tagged(items, width="Ds", compact=False):
    """items: (tag line for .It, body lines)"""
    out = [".Bl -tag -width %s%s" % (width, " -compact" if compact else "")]
    for tag, body in items:
        out += [".It " + tag] + body
    return out + [".El"]


def and_list(words):
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]


# Numbers -------------------------------------------------------------------------------------------------------------

def number(value):
    return "%.15g" % value


def measure(value, unit):
    return number(value) + (" " + unit if unit else "")


def span(lower, upper, unit):
    return "%s to %s" % (number(lower), measure(upper, unit))


# Parts of a page -----------------------------------------------------------------------------------------------------

def arguments(c):
    """What stands between the input and the result struct."""
    out = []
    for l in c["lists"]:
        row = l["row"]
        out.append("%s%s *%s" % ("" if l["is_result"] else "const ", row, l["name"]))
        out.append("size_t %s_count" % l["name"])
    if c["work_per_row"] or c["work_more"]:
        out += ["double *work", "size_t work_count"]
    return out


def function(result, name, args):
    return [".Ft " + result, ".Fo " + name] + ['.Fa "%s"' % a for a in args] + [".Fc"]


def synopsis(c):
    name = "ung_" + c["name"]
    ins, outs = "const %s_in *in" % name, "%s_out *out" % name
    out = [".In ungula/%s.h" % c["room"]]
    out += function(name + "_in", name + "_standard", ["void"])
    out += function("ung_status", name, [ins] + arguments(c) + [outs, "ung_fault *fault"])
    out += function("size_t", name + "_cautions",
                    [ins, "const " + outs, "ung_caution *caution", "size_t capacity"])
    return out + function("const ung_calculation *", name + "_contract", ["void"])


def input_body(f):
    text = "Accepted %s, usual %s" % (span(f["lower"], f["upper"], f["unit"]),
                                      span(f["usual_lower"], f["usual_upper"], f["unit"]))
    if f["whole"]:
        text += ", whole numbers"
    if f["standard"] is None:
        text += ". Required."
    else:
        text += ". Standard %s (%s)." % (measure(f["standard"], f["unit"]), f["standard_kind"])
    return sentences(sentence(f["meaning"])) + [".br"] + sentences(text)


def inputs(c):
    out = ["The members of", ".Vt ung_%s_in ," % c["name"], "all of type", ".Vt double :"]
    out += tagged([("Fa " + f["name"], input_body(f)) for f in c["inputs"]])
    for l in c["lists"]:
        if not l["is_result"]:
            out += list_of_rows(c, l)
    return out


def output_body(f):
    text = "In %s: %s." % (f["unit"], f["meaning"]) if f["unit"] else sentence(f["meaning"])
    if f["may_be_infinite"]:
        text += " May be infinite."
    return sentences(text)


def list_of_rows(c, l):
    row = l["row"]
    out = [".Pp", "The list", ".Fa %s" % l["name"]]
    out += ["is filled by the call with", ".Fa %s_count" % l["name"], "rows"] if l["is_result"] else \
           ["has", ".Fa %s_count" % l["name"], "rows"]
    out += ["of type", ".Vt %s" % row, "(%d to %d rows):" % (l["least"], l["most"])]
    out += sentences(l["meaning"] + ".")
    items = []
    for f in l["fields"]:
        text = "In %s: %s." % (f["unit"], f["meaning"]) if f["unit"] else sentence(f["meaning"])
        if not l["is_result"]:
            text += " Accepted %s." % span(f["lower"], f["upper"], f["unit"])
        items.append(("Fa " + f["name"], sentences(text)))
    return out + tagged(items, "width_mmXX", True)


def results(c):
    out = ["The members of", ".Vt ung_%s_out ," % c["name"], "all of type", ".Vt double :"]
    width = "X" * (max(len(f["name"]) for f in c["outputs"]) + 2)
    out += tagged([("Fa " + f["name"], output_body(f)) for f in c["outputs"]], width, True)
    for l in c["lists"]:
        if l["is_result"]:
            out += list_of_rows(c, l)
    return out


def return_values(c):
    name = "ung_" + c["name"]
    whole = "every member of" if not c["lists"] else "every row of a list that it fills and every member of"
    out = [".Fn %s" % name, "returns", ".Dv UNG_OK ,", "which is 0, or a negative status;", "then %s" % whole,
           ".Fa out", "is NaN, and", ".Fa fault ,", "which may be", ".Dv NULL ,",
           "says what was refused and why."]
    out += [".Fn %s_standard" % name, "returns an input with the standard values,",
            "and NaN where a value is required."]
    out += [".Fn %s_cautions" % name, "returns how many cautions hold, and writes the first", ".Fa capacity",
            "of them, the most severe first;", ".Dv UNG_CAUTIONS_MOST", "always suffices."]
    return out + [".Fn %s_contract" % name, "returns the contract."]


def errors(c):
    required = [f["name"] for f in c["inputs"] if f["standard"] is None]
    whole = [f["name"] for f in c["inputs"] if f["whole"]]
    pointers = ["in", "out"] + [l["name"] for l in c["lists"]]
    items = [("Bq Er UNG_NULL", sentences("One of %s is NULL." % and_list(pointers)))]
    if required:
        items.append(("Bq Er UNG_MISSING", sentences("A required input was left unset, that is NaN: %s." %
                                                     and_list(required))))
    items.append(("Bq Er UNG_RANGE", sentences("An input is outside its accepted range, infinite, or not a number.")))
    if whole:
        items.append(("Bq Er UNG_WHOLE", sentences("Not a whole number: %s." % and_list(whole))))
    for l in c["lists"]:
        items.append(("Bq Er UNG_COUNT", sentences("The list %s has fewer than %d or more than %d rows." %
                                                   (l["name"], l["least"], l["most"]))))
    if c["refusals"]:
        body = ["The inputs are acceptable one by one but not together:"]
        body += [".Bl -dash -compact"]
        for text in c["refusals"]:
            body += [".It"] + sentences(sentence(text))
        items.append(("Bq Er UNG_RELATION", body + [".El"]))
    return ["Inputs are checked in their order, all ranges before the rest.",
            "The first fault is reported:"] + tagged(items)


def condition(field, units, factor, other, other_factor, comparison, limit):
    """factor x field + other_factor x other <compares with> limit, solved for field and put in words."""
    if comparison == "always":
        return "always"
    words = {"below": "is below", "above": "is above", "equal": "is"}
    unit = units[field]
    if not other:
        if factor < 0:
            comparison = {"below": "above", "above": "below"}.get(comparison, comparison)
        return "%s %s %s" % (field, words[comparison], measure(limit / factor, unit))
    if factor == 1 and other_factor == 1:
        verb = {"below": "are below", "above": "are above", "equal": "are"}[comparison]
        return "%s and %s together %s %s" % (field, other, verb, measure(limit, unit))
    if factor < 0:
        comparison = {"below": "above", "above": "below"}.get(comparison, comparison)
    slope, rest = -other_factor / factor, limit / factor
    right = other if slope == 1 else "%s times %s" % (number(slope), other)
    if rest:
        right += " %s %s" % ("plus" if rest > 0 else "less", measure(abs(rest), unit))
    return "%s %s %s" % (field, words[comparison], right)


def when(c, rule):
    units = {f["name"]: f["unit"] for f in c["inputs"] + c["outputs"]}
    text = condition(rule["field"], units, rule["factor"], rule["other"], rule["other_factor"], rule["comparison"],
                     rule["limit"])
    if text != "always":
        text = "where " + text
    if rule["guard"]:
        text += ", and " + condition(rule["guard"], units, 1, "", 0, rule["guard_comparison"], rule["guard_limit"])
    return "Holds %s." % text


def cautions(c):
    out = []
    if c["cautions"]:
        out += ["A caution says what is doubtful about a valid result, and changes nothing in it.",
                "These are looked for by", ".Fn ung_%s_cautions :" % c["name"]]
        rules = [r for s in SEVERITIES for r in c["cautions"] if r["severity"] == s]
        out += tagged([("Sy %s Cm %s" % (r["severity"], r["code"]),
                        sentences(sentence(r["text"])) + sentences(when(c, r))) for r in rules])
    else:
        out += ["No rule of this calculation looks for anything;", ".Fn ung_%s_cautions" % c["name"], "returns 0."]
    if c["standing"]:
        out += [".Pp", "Whatever the numbers are:", ".Bl -dash -compact"]
        for text in c["standing"]:
            out += [".It"] + sentences(text)
        out += [".El"]
    return out


def example(directory, name):
    with open(os.path.join(directory, name + ".c")) as f:
        program = f.read().splitlines()
    with open(os.path.join(directory, name + ".txt")) as f:
        printed = f.read().splitlines()
    return literal(program) + [".Pp", "It prints:"] + literal(printed)


def sources(c):
    items = []
    for s in c["sources"]:
        items.append((s["kind"], citation(sentence(s["citation"])) + [".br"] + sentences("Gives: %s." % s["gives"])))
    return ["What the kinds of sources mean is told in", ".Xr ungula 7 ."] + tagged(items, "publishedXX")


def see_also(c, everything):
    text = json.dumps(c)
    related = [o["name"] for o in everything if o is not c and
               (re.search(r"\b%s\b" % o["name"], text) or re.search(r"\b%s\b" % c["name"], json.dumps(o)))]
    pages = [("ung_" + name, "3") for name in related] + [("ungula", "3"), ("ungula", "7")]
    pages.sort(key=lambda page: (page[1], page[0]))
    return [".Xr %s %s%s" % (name, section, " ," if i + 1 < len(pages) else "")
            for i, (name, section) in enumerate(pages)]


def head(title, section, version):
    return ['.\\" Made by man/generate.py from the contracts; do not edit.', ".Dd " + DATE,
            ".Dt %s %s" % (title.upper(), section), ".Os libungula " + version]


def names(c):
    base = "ung_" + c["name"]
    all_names = [base, base + "_standard", base + "_cautions", base + "_contract"]
    return [".Nm %s%s" % (n, " ," if i + 1 < len(all_names) else "") for i, n in enumerate(all_names)]


def page(c, everything, version, examples):
    parts = [("NAME", names(c) + [".Nd " + escape(c["title"])]),
             ("LIBRARY", ["libungula (\\-lungula)"]),
             ("SYNOPSIS", synopsis(c)),
             ("DESCRIPTION", prose(c["about"])),
             ("INPUTS", inputs(c)),
             ("RESULTS", results(c)),
             ("RETURN VALUES", return_values(c)),
             ("ERRORS", errors(c)),
             ("CAUTIONS", cautions(c)),
             ("EXAMPLE", example(examples, c["name"])),
             ("ACCURACY", sentences(c["accuracy"])),
             ("SOURCES", sources(c)),
             ("SEE ALSO", see_also(c, everything))]
    lines = head("ung_" + c["name"], "3", version)
    for title, body in parts:
        lines += [".Sh " + title] + body
    return lines


# The lists of ungula(3) and ungula(7) --------------------------------------------------------------------------------

def list_calculations(everything):
    return tagged([("Xr ung_%s 3" % c["name"], sentences(sentence(c["title"]))) for c in everything],
                  "X" * (max(len(c["name"]) for c in everything) + 10))


def list_sources(everything):
    """Each source once, by kind, with what it gives to which calculation."""
    out = []
    for kind in KINDS:
        found = {}
        for c in everything:
            for s in c["sources"]:
                if s["kind"] == kind:
                    found.setdefault(s["citation"], []).append((s["gives"], c["name"]))
        if not found:
            continue
        out += [".Ss Sources: " + kind, ".Bl -bullet"]
        for text in sorted(found):
            out += [".It"] + citation(sentence(text))
            uses = {}
            for gives, name in found[text]:
                uses.setdefault(gives, []).append(name)
            for gives, users in uses.items():
                out += [".br"] + sentences("For %s: %s." % (and_list(users), gives))
        out += [".El"]
    return out


def list_standards(everything):
    """Standard values that are more than \"there is none of it\", by kind."""
    out = []
    for kind in KINDS:
        found = {}
        for c in everything:
            for f in c["inputs"]:
                if f["standard_kind"] == kind:
                    found.setdefault((f["name"], measure(f["standard"], f["unit"])), []).append(c["name"])
        if not found:
            continue
        out += [".Ss Standard values: " + kind]
        out += tagged([("Fa " + name, sentences("%s (%s)." % (value, and_list(users))))
                       for (name, value), users in sorted(found.items())],
                      "X" * (max(len(name) for name, value in found) + 2), True)
    return out


# The plan ------------------------------------------------------------------------------------------------------------

# What stands in where these are not given.
FOUND = {
    "low_mm": "as far below as the shoe is thick",
    **dict.fromkeys(["perimeter_mm", "ground_area_mm2", "circumference_low_mm", "circumference_high_mm",
                     "band_height_mm", "bonded_area_mm2", "wood_area_mm2", "top_area_mm2"], "the step belt"),
    "wall_thickness_mm": "the step wall",
    "screw_diameter_mm": "the step gauge",
    "screw_length_mm": "the longest, in steps of stock_step_mm, that fits on both sides",
    "entry_height_mm": "the whole millimetre that leaves the most margin",
    "other_border_width_mm": "as on the first side",
    "other_wall_thickness_mm": "the step other_wall, or as on the first side",
    **dict.fromkeys(["other_wall_angle_deg", "other_sole_horn_mm", "other_inset_mm", "other_tilt_deg",
                     "other_entry_height_mm", "other_dip_deg"], "as on the first side"),
    "other_screw_count": "half of screw_count",
    "root_diameter_mm": "the step gauge",
    "pitch_mm": "the step gauge",
    "head_diameter_mm": "the step gauge",
    "wood_gravity_ratio": "the step wood, or the standard value of the calculation",
    "wood_density_g_ml": "the step wood, or the standard value of shoe_mass; for foam nothing",
    "shoe_mass_g": "the step mass",
    "passes_count": "the fewest that are thick enough, and what the rolls opened for them still give",
    "shear_n_per_kg": "the step load, where it knows the horizontal forces, or the standard value of hold",
    "ambient_c": "temperature_c",
    "mass_g": "the first coat, at most a pack",
    "room_c": "ambient_c, or temperature_c, or the standard value of cast_set",
    "samples_count": "0, which is the closed approximation",
}


def plan_steps(plan, titles):
    return tagged([("Cm " + step["name"], [".Xr ung_%s 3 :" % step["calculation"]] +
                    sentences(titles[step["calculation"]] + ".")) for step in plan["steps"]], "narrow_tapeXX", True)


def plan_input(asked):
    f = asked["field"]
    text = "Accepted %s, usual %s" % (span(f["lower"], f["upper"], f["unit"]),
                                      span(f["usual_lower"], f["usual_upper"], f["unit"]))
    if f["whole"]:
        text += ", whole numbers"
    if f["name"] in FOUND:
        text += ". Not given: %s." % FOUND[f["name"]]
    elif f["standard"] is None:
        text += ". No standard value."
    else:
        text += ". Standard %s (%s)." % (measure(f["standard"], f["unit"]), f["standard_kind"])
    alias = "" if asked["original"] == f["name"] else " Fa %s of" % asked["original"]
    of = [".Pq%s Xr ung_%s 3" % (alias, asked["of"])] if asked["of"] else []
    return "Fa " + f["name"], sentences(sentence(f["meaning"])) + of + [".br"] + sentences(text)


def plan_inputs(plan, titles):
    differ = set(FOUND) ^ {asked["field"]["name"] for asked in plan["inputs"] if asked["found"]}
    if differ:
        sys.exit("what stands in is said of other inputs than the plan finds: %s" % and_list(sorted(differ)))
    return tagged([plan_input(asked) for asked in plan["inputs"]])


def plan_depends(plan, titles):
    here = os.path.dirname(os.path.abspath(__file__))
    with open(os.path.join(here, "plan_depends.txt")) as f:
        rows = [line.rstrip("\n").split(":") for line in f]
    return tagged([("Fa " + name, wrap(steps.strip()) if steps.strip() else ["nothing"]) for name, steps in rows])


def plan_codes(plan, titles):
    return tagged([("Cm " + code["code"], sentences(code["en"])) for code in plan["codes"]])


def plan_see_also(plan, titles):
    pages = [("ung_" + name, "3") for name in sorted({step["calculation"] for step in plan["steps"]})]
    pages += [("ungula", "3"), ("ungula", "7")]
    return [".Xr %s %s%s" % (name, section, " ," if i + 1 < len(pages) else "")
            for i, (name, section) in enumerate(pages)]


def fill(template, described, version, examples):
    everything, plan = described["calculations"], described["plan"]
    lists = {"calculations": list_calculations, "sources": list_sources, "standards": list_standards}
    plan_lists = {"plan_steps": plan_steps, "plan_inputs": plan_inputs, "plan_depends": plan_depends,
                  "plan_codes": plan_codes, "plan_see_also": plan_see_also}
    titles = {c["name"]: c["title"] for c in everything}
    out = []
    for line in template.splitlines():
        mark = re.fullmatch(r"@(\w+)(?: (\w+))?@", line)
        if not mark:
            out.append(line.replace("@date@", DATE).replace("@version@", version))
        elif mark[1] == "example":
            out += example(examples, mark[2])
        elif mark[1] in plan_lists:
            out += plan_lists[mark[1]](plan, titles)
        else:
            out += lists[mark[1]](everything)
    return ['.\\" Made by man/generate.py; edit the file that ends in .in, not this one.'] + out


def write(directory, name, lines):
    with open(os.path.join(directory, name), "w") as f:
        f.write("\n".join(lines) + "\n")


def main(contracts, examples, directory):
    with open(contracts) as f:
        described = json.load(f)
    everything, version = described["calculations"], described["version"]
    here = os.path.dirname(os.path.abspath(__file__))
    for c in everything:
        write(directory, "ung_%s.3" % c["name"], page(c, everything, version, examples))
    for name in ("ung_job_plan.3", "ungula.3", "ungula.7"):
        with open(os.path.join(here, name + ".in")) as f:
            write(directory, name, fill(f.read(), described, version, examples))


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    main(*sys.argv[1:])
