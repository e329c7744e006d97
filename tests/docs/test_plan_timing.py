#!/usr/bin/env python3
"""Whether the work gets done before the adhesive sets, as the main job says it: chance, batches, what it advises, which
sheets are refused, and the numbers against a recomputation with SciPy.  Programs and helpers are those of
plan_sheets.py."""
import math
import re
import sys

sys.dont_write_bytecode = True  # the sources may be read-only
import plan_by_hand as by_hand  # noqa: E402
from plan_sheets import (  # noqa: E402
    ASKED, CONTRACTS, both, cautions, check, document, flat, head, main, numbers, printed, quick, refused, sample,
    section, stops, values, with_tasks, with_values, without)

SHEET = sample("routine.sheet")
TASKS = ("mix", "lay", "place", "drive", "wrap", "smooth")
BUSY = ((30, 40, 60), (60, 90, 150), (40, 60, 100), (30, 50, 90), (70, 100, 170), (90, 120, 200))
WARM = dict(temperature_c=32, ambient_c=20, surface_cm2=2000, exchange_w_m2k=60)
SHORT = ((20, 25, 40), (60, 70, 100), (40, 50, 70), (30, 40, 60), (60, 70, 100), (10, 15, 20))
WITHOUT = ("reference_", "temperature_c", "ambient_c", "surface_cm2", "water_c")


def advice(out):
    """What is to be done about the time, among what is to do."""
    lines = flat(section(out, "Do, in this order")).split(" - ")
    return [line for line in lines if "[timeline" in line or "[cooler" in line]


def near(text, value, method, what):
    """Half a unit of the last printed digit, and what the recomputation's own method may be off by."""
    digits = len(text.partition(".")[2])
    check(abs(float(text) - value) <= 0.5 * 10**-digits + method, f"{what} is {text}, recomputed {value}")


def inputs(text, calculation, **taken):
    sheet, found = values(text), {}
    for f in CONTRACTS[calculation]["inputs"]:
        own = next((name for name, each in ASKED.items()
                    if (each["of"], each["original"]) == (calculation, f["name"])), f["name"])
        found[f["name"]] = sheet.get(own, taken.get(f["name"], f["standard"]))
    return found


def tasks_of(text):
    sheet = values(text)
    return [(*(sheet.get(f"{task}_{which}_s", ASKED[f"{task}_{which}_s"]["field"]["standard"])
               for which in ("low", "likely", "high")), 1) for task in TASKS]


def table(out):
    """mean_s, finish_s, chance_fraction, batch, own_chance_fraction of each task, as they are printed."""
    lines = section(out, f"job_timeline: {CONTRACTS['job_timeline']['title']}").splitlines()
    return {line.split()[0]: line.split()[1:] for line in lines if line.split()[0] in TASKS}


def lesser(text, mass, **changes):
    """The plan's working time, with other temperatures."""
    day = {**inputs(text, "working_time"), **changes}
    f = inputs(text, "cup_cure", mass_g=mass, start_c=day["temperature_c"])
    return day, f, min(by_hand.working(day)["safe_time_s"], by_hand.cup(f)["gel_time_s"])


def test_numbers(folder):
    """One batch and two: times, chances and batches."""
    busy = with_values(with_tasks(SHEET, *BUSY), temperature_c=22, ambient_c=23)
    for name, text, batches in (("routine.sheet", SHEET, 1), ("busy", busy, 2)):
        text = with_values(text, samples_count=10000)  # drawn instead of the closed approximation
        out = both(text, folder, name, 0)
        told, tasks = printed(out), tasks_of(text)
        exact = float(told["cup"]["mass_g"])
        check(abs(numbers(out, "glue")["first_coat_ml"] - exact) <= 0.055, f"{name}: less than a pack is mixed, of 1 g/mL")
        line = inputs(text, "job_timeline", working_time_s=1.0)
        day, f, least = lesser(text, exact)
        need = by_hand.timeline(tasks, line)["needed_working_time_s"]
        # the mass is known to 0.005 g of about 20, which the gel time follows less than one to one: 0.1 s
        for step, expected, method in (("working", by_hand.working(day), 1e-6), ("cup", by_hand.cup(f), 0.1),
                                       ("cooler", by_hand.working({**day, "wanted_time_s": need}), 1e-6),
                                       ("set", by_hand.cast(inputs(text, "cast_set")), 1e-6)):
            for key, value in expected.items():
                near(told[step][key], value, method, f"{name}: {step}.{key}")
        line["working_time_s"] = least
        for key, value in {**by_hand.timeline(tasks, line), "working_time_s": least}.items():
            # 0.1 s of the working time in a spread of 50 s or more move a chance by 0.4 * 0.1/50 at most
            near(told["timeline"][key], value, 1e-3 if "chance" in key else 0.1, f"{name}: timeline.{key}")
        chances = by_hand.drawn(tasks, line)
        own, batch, begun = list(chances), 1, False
        for k, shown in enumerate(table(out).values()):
            if begun and own[k] > line["limit_fraction"]:
                own[k:] = by_hand.drawn(tasks[k:], line)  # the timeline's clock of a fresh batch: mixed before task k
                batch, begun = batch + 1, False
            begun = begun or k > 0
            # five standard errors of both samples, of which the plan's, 10,000, is the larger
            for at, value in ((2, chances[k]), (4, own[k])):
                near(shown[at], value, 5 * math.sqrt(value * (1 - value) / 10000) + 1e-3, f"{name}: chance, {TASKS[k]}")
            check(int(shown[3]) == batch, f"{name}: {TASKS[k]} is of batch {batch}: {shown}")
            near(shown[0], (tasks[k][0] + 4 * tasks[k][1] + tasks[k][2]) / 6, 1e-9, f"{name}: mean of {TASKS[k]}")
            near(shown[1], sum((t[0] + 4 * t[1] + t[2]) / 6 for t in tasks[:k + 1]), 1e-9, f"{name}: end of {TASKS[k]}")
        check(batch == batches == numbers(out, "timeline")["batches_count"], f"{name}: {batch} batches")
        error = numbers(out, "timeline")["standard_error_fraction"]
        check(0 < error <= math.sqrt(0.25 / 10000), f"{name}: a sample of 10,000 is off by at most that: {error}")


def test_advice(folder):
    """Go on, batches, or cool the parts: in words, with numbers that hold."""
    out = both(SHEET, folder, "routine", 0)
    told = advice(out)
    check(len(told) == 2 and told[1] == "one batch will do: go on [timeline]", f"routine: go on: {told}")
    check(re.fullmatch(r"chance that it sets before the last task is done: 0\.02458 \[.*\]", told[0]), f"routine: {told}")
    check(f"finish within {543.9} s of mixing" in out and numbers(out, "working")["safe_time_s"] == 544, "within")
    for name, text in (("traced", sample("traced.sheet")), ("busy", with_values(with_tasks(SHEET, *BUSY))),
                       ("warm", with_values(with_tasks(SHEET, *SHORT), **WARM))):
        out = both(text, folder, name, 0)
        told, batches = advice(out), numbers(out, "timeline")["batches_count"]
        check(f"batches to mix: {batches:g} [timeline.batches_count, caution late]" in told, f"{name}: {told}")
        check(batches >= 2 and "go on" not in flat(" ".join(told)), f"{name}: no going on: {told}")
        found = re.search(r"or cool adhesive, hoof and shoe to ([\d.]+) °C, which leaves the time for it", " ".join(told))
        check(found, f"{name}: or cool the parts: {told}")
        # the film lasts as long as is needed there, and no longer a degree above
        need = numbers(out, "timeline")["needed_working_time_s"]
        for there, enough in ((float(found[1]), True), (float(found[1]) + 0.1, False)):
            day = {**inputs(text, "working_time"), "temperature_c": there}
            check((by_hand.working(day)["safe_time_s"] >= need - 0.5) == enough, f"{name}: at {there} C, {need} s")
        # the batches are those of the table, a fresh one before each that would be late too often
        rows = table(out)
        check(max(int(row[3]) for row in rows.values()) == batches, f"{name}: batches of the table")
        check(all(float(row[4]) <= 0.05 for row in rows.values()), f"{name}: no batch is late too often: {rows}")
        first = int(numbers(out, "timeline")["fresh_before_count"])
        check([int(row[3]) for row in rows.values()].index(2) == first - 1, f"{name}: before task {first}")
        check("timeline.late" in {code for _, code in cautions(out)}, f"{name}: a warning")
    warm = with_values(with_tasks(SHEET, *SHORT), **WARM)
    to = float(re.search(r"cool adhesive.* to ([\d.]+) °C", " ".join(advice(both(warm, folder, "warm", 0))))[1])
    cold = both(with_values(warm, temperature_c=to), folder, f"warm, at {to}", 0)
    check("one batch will do: go on [timeline]" in advice(cold), f"warm, at {to}: go on: {advice(cold)}")
    check(numbers(cold, "timeline")["normal_chance_fraction"] <= 0.05, f"warm, at {to}: {numbers(cold, 'timeline')}")
    # a task that lasts longer than any batch stops
    endless = with_tasks(SHEET, *SHORT[:4], (600, 700, 900), SHORT[5])
    out = both(endless, folder, "endless", 1)
    check(stops(out)[0][0] == "timeline.no_batch_lasts", f"endless: {head(out)}")
    check(numbers(out, "timeline")["impossible_count"] == 5 and "impossible_count is 5" in flat(head(out)), "the fifth")
    # a cup left standing that boils warns, and the text says why it does not stop
    out = both(SHEET, folder, "routine", 0)
    check(("warn", "cup.boils") in cautions(out) and "caution boils" in out, "the cup warns where it is mixed")
    check("Keep the foot still for 20 minutes" in flat(out), "keep the foot still")
    # tasks that are not done take no time
    for changes, task in ((dict(screw_way_count=0), "drive"), (dict(cast_count=0), "wrap")):
        rows = table(both(with_values(SHEET, **changes), folder, f"no {task}", 0))
        check(rows[task][0] == "0" and all(rows[other][0] != "0" for other in TASKS if other != task), f"no {task}")
    made = document(SHEET, folder, "routine", 0)
    check([item["code"] for item in made["items"] if item["step"] == "timeline"][-1:] != [], "the JSON advises too")


BAD = (
    ("temperature_c", "77 C", "77 C is out of range; accepted values are -25 to 45 C"),
    ("temperature_c", "77 F", "the unit does not fit: it must be C; accepted values are -25 to 45 C"),
    ("temperature_c", "20", "the unit is missing: C"),
    ("reference_temperature_c", "72 C", "72 C is out of range; accepted values are 0 to 40 C"),
    ("ambient_c", "70 C", "70 C is out of range; accepted values are -25 to 45 C"),
    ("water_c", "68 C", "68 C is out of range; accepted values are 0 to 36 C"),
    ("surface_cm2", "300 mm2", "the unit does not fit: it must be cm2; accepted values are 1 to 5000 cm2"),
    ("reference_time_s", "8 min", "the unit does not fit: it must be s; accepted values are 10 to 20000 s"),
    ("reference_time_s", "8 s", "8 s is out of range; accepted values are 10 to 20000 s"),
    ("lay_low_s", "-1 s", "-1 s is out of range; accepted values are 0 to 7200 s"),
    ("lay_high_s", "2 min", "the unit does not fit: it must be s; accepted values are 0 to 7200 s"),
    ("lay_high_s", "", "the value is missing; accepted values are 0 to 7200 s"),
    ("lay_middle_s", "50 s", "the plan has no input of that name"))


def test_bad(folder):
    for name, value, expected in BAD:
        lines = SHEET.splitlines(keepends=True)
        at = next((i for i, text in enumerate(lines) if text.startswith(name + " ")), len(lines))
        lines[at:at + 1] = [f"{name} = {value}\n"]
        err = refused("".join(lines), folder, expected, at + 1)
        check(f"{name} =" in err, f"{name} = {value}: named: {err}")
    # what Fahrenheit could be and Celsius hardly is passes, with a question
    for name, value, code in (("water_c", 34, "set.fahrenheit_water"), ("temperature_c", 41, "working.fahrenheit"),
                              ("room_c", 42, "set.fahrenheit_room")):
        status, out = quick(with_values(SHEET, **{name: value}), folder)
        check(status in (0, 1) and code in {c for _, c in cautions(out)} and "Fahrenheit?" in out, f"{name} = {value} C?")
    # durations that contradict each other: told, and no timeline
    for name, value, words in (("place_high_s", 25, "high_s is below likely_s"),
                               ("place_likely_s", 19, "likely_s is below low_s")):
        out = both(with_values(SHEET, **{name: value}), folder, name, 0)
        check(words in flat(section(out, "Not planned")) and "timeline" not in printed(out), f"{name} = {value}: {words}")
        check(not advice(out), f"{name}: and no advice")
    # without the day there is no timeline, what it lacks is told, and the rest is the same
    for name, step in (("reference_time_s", "working"), ("reference_temperature_c", "working"),
                       ("temperature_c", "working")):
        out = both(with_values(SHEET, **{name: None}), folder, f"no {name}", 0)
        check(re.search(rf"{step} \(\w+\): {name} is required", flat(section(out, "Not planned"))), f"{name} is told")
        check("timeline" not in printed(out) and not advice(out), f"{name}: no timeline, no advice")
    film = both(with_values(SHEET, surface_cm2=None), folder, "no cup", 0)
    check("cup (cup_cure): surface_cm2 is required" in flat(section(film, "Not planned")), "no cup: that is told")
    check(printed(film)["timeline"]["working_time_s"] == printed(film)["working"]["safe_time_s"], "the film's time alone")
    short, full = both(without(SHEET, *WITHOUT), folder, "no day", 0), both(SHEET, folder, "routine", 0)
    day = {"working", "cup", "set", "timeline", "cooler"}
    check(set(printed(full)) - set(printed(short)) == day - {"set"}, "no day: the rest is planned")
    check(all(printed(short)[step] == rows for step, rows in printed(full).items() if step not in day), "and the same")
    # what other steps find can be given
    for name, value, step in (("mass_g", 30, "cup"), ("room_c", 24, "set"), ("ambient_c", 15, "cup")):
        out = both(with_values(SHEET, **{name: value}), folder, name, 0)
        check(document(with_values(SHEET, **{name: value}), folder, name, 0)["steps"][step]["inputs"][name] == value, name)
        check(printed(out)[step] != printed(full)[step], f"{name} is used")


main("plan's timing", test_numbers, test_advice, test_bad)
