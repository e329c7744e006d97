"""What is raised when the library refuses an input."""

from __future__ import annotations

import enum
from typing import Any, Optional, Tuple, Union


class Status(enum.IntEnum):
    """Why a call was refused; the numbers are those of the C library."""

    OK = 0
    NULL = -1
    MISSING = -2
    RANGE = -3
    WHOLE = -4
    RELATION = -5
    COUNT = -6
    OVERLAP = -7
    UNKNOWN = -8

    @property
    def text(self) -> str:
        """One sentence that says what the status means."""
        from . import _core

        return _core.status_text(int(self))


class InvalidInput(ValueError):
    """An input that makes no sense, with what was given and what would be accepted.

    ``str()`` is the sentence of the C library.

    Attributes
    ----------
    status : Status
        the kind of refusal
    calculation : str
        its name
    field : str or None
        the input concerned, the first one of a relation
    value : float
        what was given
    lower, upper : float or None
        what would be accepted; None where a relation decides, but ``upper`` where a relation of rows has a limit
    unit : str
        unit of the field, empty for pure numbers
    other, other_value, other_unit : str or None, float or None, str
        the second field of a relation
    index : int, tuple of int, or None
        element of an array (a tuple for more than one dimension), or row of a list
    rows : str or None
        name of the list that ``index`` counts in
    other_index : int or None
        a second row that the refusal is about
    limit : float or None
        the nearest value that would be accepted, where there is one
    """

    __module__ = "ungula"  # how a traceback names it

    def __init__(
        self,
        text: str,
        status: int = Status.UNKNOWN,
        calculation: Optional[str] = None,
        field: Optional[str] = None,
        value: float = float("nan"),
        lower: Optional[float] = None,
        upper: Optional[float] = None,
        unit: str = "",
        other: Optional[str] = None,
        other_value: Optional[float] = None,
        other_unit: str = "",
        index: Union[int, Tuple[int, ...], None] = None,
        rows: Optional[str] = None,
        other_index: Optional[int] = None,
    ) -> None:
        super().__init__(text)
        self.status = Status(status)
        self.calculation = calculation
        self.field = field
        self.value = value
        self.lower = lower
        self.upper = upper
        self.unit = unit
        self.other = other
        self.other_value = other_value
        self.other_unit = other_unit
        self.index = index
        self.rows = rows
        self.other_index = other_index

    @property
    def limit(self) -> Optional[float]:
        """The nearest value that would be accepted, where there is one."""
        if self.lower is not None and self.value < self.lower:
            return self.lower
        return self.upper if self.upper is not None and self.value > self.upper else None

    def __reduce__(self) -> Tuple[Any, ...]:
        return type(self), (
            str(self),
            int(self.status),
            self.calculation,
            self.field,
            self.value,
            self.lower,
            self.upper,
            self.unit,
            self.other,
            self.other_value,
            self.other_unit,
            self.index,
            self.rows,
            self.other_index,
        )
