"""The numbers for fitting a wooden therapeutic shoe to a hoof without nails.

>>> import ungula
>>> tape = ungula.cast_length(circumference_low_mm=405, circumference_high_mm=345,
...                           band_height_mm=100, tape_width_mm=50.8)
>>> tape.rolls_count
1.0

Every input is given by name, in the unit that its name ends in. A result is a named tuple with units in its ``repr``,
which remembers its ``inputs``, can be had ``again`` with changes, and lists its ``cautions``. What makes no sense is
refused with ``InvalidInput``. Arrays may stand wherever a number may, and broadcast.

Outlines and other lists are arrays with a row a point, sequences of rows, or columns by name; they come back as named
tuples of columns, of which ``rows`` or ``np.asarray()`` is the array, and go into the next call as they are:

>>> hoof = ungula.outline_standard(hoof_length_mm=135, hoof_width_mm=128, outline_count=200)
>>> round(ungula.outline_measure(outline=hoof.outline).length_mm)
135

``job_plan`` is the whole job from one set of measurements. What is not known leaves out the steps that need it:

>>> plan = ungula.job_plan(hoof_length_mm=135, hoof_width_mm=128, shoe_thickness_mm=30, high_toe_mm=70,
...                        high_heel_mm=60)
>>> round(plan.belt.perimeter_mm), plan.state("tape"), plan.severity
(425, 'lacks a value', 'warn')

``plan.bring``, ``plan.todo`` and ``plan.later`` are lists for people, ``plan.json()`` is for other programs.

``ungula.describe()`` names the calculations, ``ungula.describe("cast_length")`` tells everything about one,
``help(ungula.cast_length)`` how to call it, and ``ungula.lift`` what would lift a caution.

The library computes; the attending veterinarian and a qualified farrier decide.
"""

from . import _calculations
from ._calculations import *
from ._contracts import Contract, Input, Output, Rows, Rule, Source, describe, version
from ._errors import InvalidInput, Status
from ._plan import Plan, PlanCaution, PlanInput, PlanItem, Step, plan_inputs, plan_schema
from ._results import ArrayCaution, ArrayResult, Caution, Inputs, Result, lift

__version__ = version()
__all__ = [
    "ArrayCaution",
    "ArrayResult",
    "Caution",
    "Contract",
    "Input",
    "Inputs",
    "InvalidInput",
    "Output",
    "Plan",
    "PlanCaution",
    "PlanInput",
    "PlanItem",
    "Result",
    "Rows",
    "Rule",
    "Source",
    "Status",
    "Step",
    "describe",
    "lift",
    "plan_inputs",
    "plan_schema",
    "version",
]
__all__ += _calculations.__all__
