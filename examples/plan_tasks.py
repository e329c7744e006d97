"""Tasks on a sheet: task.1.low_s = 30 s, and likely_s, high_s; working_count is 1 unless the sheet says otherwise."""
import re

import ungula

TASKS = ungula.describe("job_timeline").lists[0]
TASK = {f.name: f for f in TASKS.fields}
TIMES = ("low_s", "likely_s", "high_s")


def is_task(name):
    return name.startswith("task.")


def look_up_task(row):
    """The number and the field of a task's row; its problem otherwise."""
    parts = re.fullmatch(r"task\.([0-9]+)\.(.*)", row.name, re.DOTALL)
    if not parts or parts[2] not in TASK:
        row.refuse(None, "a task is written task.1.low_s, task.1.likely_s or task.1.high_s: its number and the field")
        return
    number, row.name = int(parts[1]) if len(parts[1]) < 4 else 0, parts[2]
    if not 1 <= number <= TASKS.most:
        row.refuse(None, f"there is no such task; accepted values are whole numbers from 1 to {TASKS.most}")
        return
    row.task, row.field = number, TASK[row.name]


def check_tasks(rows):
    """Each task needs its three times, and no number is left out."""
    tasks = {}
    for row in rows:
        if row.task:
            tasks.setdefault(row.task, []).append(row)
    for number, own in tasks.items():
        if own[0].problem:
            continue
        names = [row.name for row in own]
        if number > 1 and number - 1 not in tasks:
            own[0].refuse(None, f"there is no task.{number - 1} before it: no number may be left out")
        elif missing := next((name for name in TIMES if name not in names), None):
            own[0].refuse(None, f"the task needs its {missing} as well")


def task_row(rows, number, name):
    return next((row for row in rows if row.task == number and row.name == name), None)


def refused_task(rows, refused):
    """The row that a refusal of the tasks is about; None where it is about none."""
    field = re.match(r"\w+: (\w+) is ", str(refused))
    return task_row(rows, refused.index + 1, field[1]) if field and isinstance(refused.index, int) else None


def gather_tasks(rows):
    """The tasks of a sheet in order."""
    tasks, number = [], 1
    while task_row(rows, number, TIMES[0]):
        working = task_row(rows, number, "working_count")
        tasks.append((*(task_row(rows, number, name).value for name in TIMES), working.value if working else 1.0))
        number += 1
    return tasks
