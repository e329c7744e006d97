"""Whether the work gets done before the adhesive sets: what its calculations take from the plan, and its words."""
import math

import ungula

from plan_sheet import accepted
from plan_tasks import TASK, is_task
from plan_text import wrapped

COLDEST = 16  # C; the lower end of what suppliers give (working_time)
STILL = 20  # min; cast_set: hoof casts are set by then


# Inputs that are more than one result of an earlier step; None: not known.

def time_needed(p):
    wanted = next(f for f in ungula.describe("working_time").inputs if f.name == "wanted_time_s")
    time = p.result["need"].needed_working_time_s
    return time if wanted.lower <= time <= wanted.upper else None


def largest_mix(p):
    glue, inputs = p.result["glue_volume"], p.inputs["glue_volume"]
    return min(max(glue.first_coat_ml, glue.top_coat_ml), inputs["pack_ml"] - inputs["nozzle_ml"])


def adhesive_temperature(p):
    return p.inputs["working_time"]["temperature_c"]


def air_temperature(p):
    return p.inputs["cup_cure"]["ambient_c"]


def lesser_time(p):
    return min(p.result["working_time"].safe_time_s, p.result["cup_cure"].gel_time_s)


# As the plan's own chain.
TIMING_CHAIN = [
    ("working_time", "wanted_time_s", "need", "needed_working_time_s of job_timeline", None, time_needed),
    ("cup_cure", "mass_g", "glue_volume", "the larger coat of glue_volume, at most a pack, 1 g to the mL", None,
     largest_mix),
    ("cup_cure", "start_c", "working_time", "temperature_c of working_time", None, adhesive_temperature),
    ("cast_set", "room_c", "cup_cure", "ambient_c of cup_cure", None, air_temperature),
    ("cast_set", "layers", "cast_length", "layers", None, None),
    ("job_timeline", "working_time_s", "cup_cure",
     "the lesser of safe_time_s of working_time and gel_time_s of cup_cure", None, lesser_time),
]


def timing_begin(p, fields):
    """The need is asked for the work's own time alone: it needs no working time and no samples."""
    if "need" in p.steps:
        if p.inputs["need"]["working_time_s"] is None:
            p.inputs["need"]["working_time_s"] = fields["need"]["working_time_s"].usual_lower
        p.inputs["need"]["samples_count"] = 0.0


def report_missing_tasks(p):
    if "need" in p.steps and not any(is_task(row.echo) for row in p.sheet.rows):
        f = TASK["low_s"]
        p.problem(None, "task.1.low_s", f"required, and not on the sheet; {accepted(f)} ({f.meaning})")


def emptied_cup(c, cautions):
    """A cup that boils is one that was left standing.  The work is held against its gel time, and it is emptied by
    then: what is left warns and does not stop."""
    return [w._replace(severity="warn") if c == "cup_cure" and w.severity == "stop" else w for w in cautions]


class Batches:
    """Each with its own mixing, which is the first task on the adhesive's clock.  impossible: number of the first task
    that one batch does not last for, or 0; before: number of the task before which each is mixed; batch and chance: of
    each task, 0: none."""
    def __init__(self, p, line):
        tasks, limit = p.tasks, line["limit_fraction"]
        mixing = next((k for k, task in enumerate(tasks[:-1]) if task[3]), len(tasks) - 1)
        self.impossible, self.before, self.batch, begun, self.greatest = 0, [mixing + 1], [0] * len(tasks), False, 0.0
        self.chance = fresh_chances(p, line, mixing, 0)
        for k in range(mixing, len(tasks)):
            if not tasks[k][3]:
                continue
            if begun and self.chance[k] > limit:
                self.chance[k:] = fresh_chances(p, line, mixing, k)
                self.before.append(k + 1)
                begun = False
            if not begun and self.chance[k] > limit and not self.impossible:
                self.impossible = k + 1
            self.batch[k] = len(self.before)
            self.greatest = max(self.greatest, self.chance[k])
            begun = begun or k > mixing


def fresh_chances(p, line, mixing, first):
    """Chances of the tasks from `first` on after the mixing."""
    extra = 1 if first > mixing else 0
    result = ungula.job_timeline(**line, steps=[p.tasks[mixing]] * extra + p.tasks[first:])
    return list(result.times.chance_fraction)[extra:]


def line_at(p, temperature):
    """The timeline's inputs with the adhesive at another temperature; None where that changes nothing."""
    if "working_time_s" not in p.taken["job_timeline"]:
        return None
    day = ungula.working_time(**{**p.inputs["working_time"], "temperature_c": temperature})
    start = {"start_c": temperature} if "start_c" in p.taken["cup_cure"] else {}
    cup = ungula.cup_cure(**{**p.inputs["cup_cure"], **start})
    return {**p.inputs["job_timeline"], "working_time_s": min(day.safe_time_s, cup.gel_time_s)}


def late(p, line):
    chances = fresh_chances(p, line, 0, 0)
    return next(chance for chance, task in zip(chances[::-1], p.tasks[::-1]) if task[3])


def would_do(p, temperature, lift):
    """Whether at this temperature one batch lasts for all, or (lift) for each task with its mixing."""
    line = line_at(p, temperature)
    if line is None:
        return False
    return Batches(p, line).impossible == 0 if lift else late(p, line) <= line["limit_fraction"]


def cool_to(p, lift):
    """The highest temperature of the adhesive, in tenths, that does; None: none down to the coldest."""
    low, high = COLDEST * 10, math.ceil(adhesive_temperature(p) * 10)
    if not low < high or not would_do(p, float(COLDEST), lift):
        return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if would_do(p, middle / 10, lift) else (low, middle)
    return low / 10


def task_line(p, number):
    print("  Task %d takes %.0f s on the average; a fresh batch, its mixing included, lasts %.0f s." % (
        number, p.result["job_timeline"].times.mean_s[number - 1], p.inputs["job_timeline"]["working_time_s"]))
    to, now = cool_to(p, True), adhesive_temperature(p)
    if to is None:
        print("  No cooling of the adhesive down to %.15g C lifts it." % COLDEST)
    else:
        print("  Least change that lifts it:")
        print("    %-18s %.6g -> %.15g C (%.6g C less)" % ("temperature_c", now, to, now - to))


def timing_stop(p):
    """Under the library's stop: the task, and the least cooling that lifts it."""
    task_line(p, Batches(p, p.inputs["job_timeline"]).impossible)


def timing_own_stop(p):
    """The stop that shows only with the mixing of a fresh batch; returns 1 where it stands."""
    impossible = Batches(p, p.inputs["job_timeline"]).impossible if "job_timeline" in p.result else 0
    if impossible:
        print(f"STOP  timing: task {impossible} cannot be done in one batch")
        task_line(p, impossible)
    return 1 if impossible else 0


def print_tasks(p, b):
    print("  task  mean_s  finish_s  chance_fraction  batch  its chance_fraction")
    times = p.result["job_timeline"].times
    for k, (mean, finish, chance) in enumerate(zip(times.mean_s, times.finish_s, times.chance_fraction)):
        if b.batch[k]:
            print("  %4d  %6.0f  %8.0f  %15.4f  %5d  %19.4f" % (k + 1, mean, finish, chance, b.batch[k], b.chance[k]))
        else:
            print("  %4d  %6.0f  %8s  %15s  %5s  %19s" % (k + 1, mean, "-", "-", "-", "-"))


def advice(p, b):
    chance, limit = p.result["job_timeline"].chance_fraction, p.inputs["job_timeline"]["limit_fraction"]
    to = cool_to(p, False) if not b.impossible and chance > limit and len(b.before) > 2 else None
    if b.impossible:
        text = ("stop: task %d cannot be done in one batch; its chance of being late is %.1f %% even with a fresh one, "
                "accepted are %.1f %%" % (b.impossible, 100 * b.chance[b.impossible - 1], 100 * limit))
    elif chance <= limit:
        text = "go on: one batch is late in %.1f %% of such jobs, accepted are %.1f %%" % (100 * chance, 100 * limit)
    elif to is not None:
        cold = line_at(p, to)
        text = ("cool the parts: with the adhesive at %.1f C, not %.1f C, one batch lasts %.0f s and is late in "
                "%.1f %% of such jobs, not %.1f %%; accepted are %.1f %%" % (
                    to, adhesive_temperature(p), cold["working_time_s"], 100 * late(p, cold), 100 * chance,
                    100 * limit))
    else:
        text = ("mix in %d batches, with a fresh one before task %s: one batch is late in %.1f %% of such jobs, these "
                "in at most %.1f %% each, mixing included; accepted are %.1f %%" % (
                    len(b.before), ", ".join(map(str, b.before[1:])), 100 * chance, 100 * b.greatest, 100 * limit))
    print(wrapped("  advice: ", 6, text))


def timing_words(p):
    """The end of the section: day, times, chance, tape, and the advice; or that there is none."""
    if "job_timeline" not in p.steps:
        print("\nTiming: left out; it needs reference_time_s, reference_temperature_c, temperature_c, ambient_c,\n"
              "  surface_cm2, and tasks: task.1.low_s, task.1.likely_s, task.1.high_s ...")
        return
    b = Batches(p, p.inputs["job_timeline"])
    print_tasks(p, b)
    day, cup, cast, line = (p.result[c] for c in ("working_time", "cup_cure", "cast_set", "job_timeline"))
    print(wrapped("  the day: ", 6, "adhesive of %.1f C, air of %.1f C: safe working time %.0f s, and %.0f g left in "
                  "the cup gel after %.0f s" % (adhesive_temperature(p), air_temperature(p), day.safe_time_s,
                                            p.inputs["cup_cure"]["mass_g"], cup.gel_time_s)))
    print(wrapped("  the work: ", 6, "%.0f s on the average, slack %.0f s" % (line.mean_s, line.slack_s)))
    print(wrapped("  chance that the adhesive sets before the last task on its clock is done: ", 6,
                  "%.2f %% (standard error %.2f %%), by the closed approximation %.2f %%" % (
                      100 * line.chance_fraction, 100 * line.standard_error_fraction,
                      100 * line.normal_chance_fraction)))
    f = p.inputs["cast_set"]
    print(wrapped("  the tape: ", 6, "dipped in %.1f C it sets after %.0f s and can be smoothed for %.0f s; to set "
                  "after %.0f s it takes water of %.1f C; keep the foot still for %.0f minutes" % (
                      f["water_c"], cast.set_time_s, cast.work_time_s, f["wanted_time_s"], cast.water_for_c, STILL)))
    print(wrapped("  ", 6, "Each batch has its own mixing, the first task on the adhesive's clock. The cup's peak is "
                  "that of a cup left standing: it warns and does not stop, because the work is held against its gel "
                  "time."))
    advice(p, b)
