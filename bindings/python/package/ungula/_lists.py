"""Calculations with lists: rows that the caller gives, or whose number the caller asks for.

Rows travel as tables: an array of NumPy (doubles, row after row), or an array("d").  What is such a table already is
passed on as it is, anything else is copied into one.
"""

from __future__ import annotations

from array import array
from collections.abc import Callable, Iterable
from itertools import chain
from typing import Any, ClassVar, List, Optional, Tuple, Type, TypeVar

from . import _core
from ._arrays import column, number, numpy, plain_column
from ._results import Record

C = TypeVar("C", bound="Columns")


class Columns(Record):
    """Rows of a list as a named tuple of columns, and all together as ``rows``.

    ``np.asarray()`` of it, or ``rows``, is the array of n rows; it goes to other calculations as it is, and may be made
    of any columns. Columns and ``rows`` share their memory.
    """

    __hash__ = None  # type: ignore[assignment]
    _row: ClassVar[str]

    @classmethod
    def _of(cls: Type[C], table: Any) -> C:
        """Columns of a table, which is not copied (but without NumPy the columns are)."""
        np, width = numpy(), len(cls._fields)
        if np is None:
            table = table if isinstance(table, array) else array("d", bytes(table))
            made = tuple.__new__(cls, [table[i::width] for i in range(width)])
        else:
            table = (table if hasattr(table, "dtype") else np.frombuffer(table)).reshape(-1, width)
            made = tuple.__new__(cls, table.T)
        made.__dict__["_table"] = table
        return made

    def _as_table(self) -> Any:
        known = self.__dict__.get("_table")  # not of one that was made by hand
        return known if known is not None else _by_name(self._fields, self.asdict().get, type(self).__name__)

    @property
    def rows(self) -> Any:
        """All rows as one array of shape (n, number of fields); without NumPy, a memoryview of that shape."""
        table, width = self._as_table(), len(self._fields)
        if hasattr(table, "dtype"):
            return table
        view = memoryview(table).cast("B")
        return view.cast("d", (view.nbytes // (8 * width), width))

    def __array__(self, dtype: Any = None, copy: Optional[bool] = None) -> Any:
        rows = self.rows
        if dtype is None or rows.dtype == dtype:
            return rows.copy() if copy else rows
        if copy is False:
            raise ValueError("another type of number needs a copy")
        return rows.astype(dtype)

    def __reduce__(self) -> Tuple[Any, ...]:
        return type(self)._of, (self._as_table(),)


def _shape(name: str, fields: Tuple[str, ...], what: str) -> str:
    wanted = f"rows of {len(fields)} numbers ({', '.join(fields)})" if len(fields) > 1 else f"numbers ({fields[0]})"
    return f"{name} must be {wanted}, not {what}"


def _by_name(fields: Tuple[str, ...], get: Callable[[str], Any], name: str) -> Any:
    """A table from columns; a number stands for a whole column."""
    np = numpy()
    columns: List[Any] = []
    for field in fields:
        item, label = get(field), f"{field} of {name}"
        value = number(item, label)
        if value is not None:
            columns.append(value)
            continue
        columns.append(plain_column(item, label) if np is None else column(np, item, label))
        if getattr(columns[-1], "ndim", 1) != 1:
            raise ValueError(f"{label} must have one dimension, not {columns[-1].ndim}")
    counts = {field: len(c) for field, c in zip(fields, columns) if not isinstance(c, float)}
    if len(set(counts.values())) > 1:
        lengths = ", ".join(f"{field} {count}" for field, count in counts.items())
        raise ValueError(f"columns of {name} have different lengths: {lengths}")
    count, width = max(counts.values(), default=1), len(fields)
    if np is None:
        flat = array("d", bytes(8 * count * width))
        for i, c in enumerate(columns):
            flat[i::width] = array("d", [c] * count if isinstance(c, float) else c)
        return flat
    table = np.empty((count, width))
    for i, c in enumerate(columns):
        table[:, i] = c
    return table


def _of_array(np: Any, rows: Any, fields: Tuple[str, ...], name: str) -> Any:
    try:
        values = column(np, rows, name)
    except TypeError:
        kind = getattr(rows, "dtype", type(rows).__name__)
        raise TypeError(_shape(name, fields, f"an array of {kind}")) from None
    width = len(fields)
    if values.shape[1:] != (width,) and not (width == 1 and values.ndim == 1):
        raise ValueError(_shape(name, fields, f"an array of shape {values.shape}"))
    if values.dtype == np.float64 and values.flags.c_contiguous and values.flags.aligned:
        return values.reshape(-1, width)
    return np.array(values, np.float64, order="C").reshape(-1, width)


def _of_memory(view: memoryview, fields: Tuple[str, ...], name: str) -> Any:
    """Without NumPy.  A memoryview is copied, since a result that keeps it could not be pickled."""
    width, shape = len(fields), view.shape or ()
    if shape[1:] != (width,) and not (width == 1 and len(shape) == 1):
        raise ValueError(_shape(name, fields, f"memory of shape {shape}"))
    flat = array("d")
    if view.format in ("d", "@d", "=d"):
        flat.frombytes(view.tobytes())
        return flat
    try:
        return _of_rows(view.tolist(), fields, name)
    except NotImplementedError:
        raise TypeError(_shape(name, fields, f"memory of {view.format}")) from None


def _of_rows(rows: Any, fields: Tuple[str, ...], name: str) -> Any:
    """A table from a sequence of rows, or of numbers where rows have one field."""
    width = len(fields)
    try:
        rows = rows if isinstance(rows, (list, tuple, array)) else list(rows)
    except TypeError:
        raise TypeError(_shape(name, fields, type(rows).__name__)) from None
    kinds = set(map(type, rows))
    values: Iterable[Any] = rows
    if width > 1 or any(hasattr(kind, "__len__") for kind in kinds):
        for kind in kinds:  # texts, mappings and sets have a length, but are no rows
            if not hasattr(kind, "__getitem__") or hasattr(kind, "keys") or issubclass(kind, (str, bytes, bytearray)):
                raise TypeError(_shape(name, fields, f"one of {kind.__name__}"))
        try:
            lengths = set(map(len, rows))
        except TypeError:  # an array without dimensions
            raise TypeError(_shape(name, fields, "numbers without rows")) from None
        if lengths - {width}:
            wrong = next(i for i, row in enumerate(rows) if len(row) != width)
            raise ValueError(_shape(name, fields, f"of {len(rows[wrong])} (row {wrong})"))
        values = chain.from_iterable(rows)
    try:
        return array("d", values)
    except OverflowError:  # an int beyond all doubles: the library refuses the infinity
        values = chain.from_iterable(rows) if values is not rows else rows
        return array("d", [x for x in (number(v, name) for v in values) if x is not None])
    except TypeError:
        raise TypeError(_shape(name, fields, "of something else")) from None


def table(rows: Any, fields: Tuple[str, ...], name: str) -> Any:
    """Rows of any kind as a table."""
    if isinstance(rows, Columns) and rows._fields == fields:
        return rows._as_table()
    if rows is None or isinstance(rows, (str, bytes, bytearray)):
        raise TypeError(_shape(name, fields, type(rows).__name__))
    get = rows.__getitem__ if hasattr(rows, "__getitem__") else None
    names: Any = getattr(getattr(rows, "dtype", None), "names", None)  # an array of records
    if isinstance(rows, tuple) and hasattr(rows, "_fields"):
        names, get = rows._fields, lambda field: getattr(rows, field)
    elif hasattr(rows, "keys") and getattr(rows, "ndim", 2) == 2:  # a mapping, or a table with names of columns
        names = list(rows.keys())
        if hasattr(rows, "__array__") and not any(isinstance(each, str) for each in names):
            names = None
    if names is not None and get is not None:
        missing = [field for field in fields if field not in names]
        if missing:
            raise TypeError(f"{name} has no column {', '.join(missing)}; it has {', '.join(map(str, names))}")
        return _by_name(fields, get, name)
    if isinstance(rows, memoryview) and numpy() is None:
        return _of_memory(rows, fields, name)
    if hasattr(rows, "__array__") or isinstance(rows, memoryview):
        return _of_array(numpy(), rows, fields, name)
    return _of_rows(rows, fields, name)


def _plain_numbers(kind: Any, inputs: Tuple[Any, ...]) -> Iterable[float]:
    for item, field in zip(inputs, kind._inputs_kind._fields):
        value = number(item, field)
        if value is None:
            raise TypeError(f"{field} must be a number: {kind._calculation} does not take arrays")
        yield value


def calculate(kind: Any, inputs: Tuple[Any, ...], given: Tuple[Any, ...]) -> Any:
    """One calculation with lists.  given, one a list: rows, how many are wanted, or None where that follows."""
    lists = tuple(
        [g if is_result else table(g, rows._fields, name) for g, (name, rows, is_result) in zip(given, kind._lists)]
    )
    try:
        values, filled = _core.call_lists(kind._index, inputs, lists)
    except TypeError:  # not every input is a plain number
        inputs = tuple(_plain_numbers(kind, inputs))
        values, filled = _core.call_lists(kind._index, inputs, lists)
    made = [rows._of(memory) for memory, rows in zip(filled, kind._filled)]
    return kind._remembering((*values, *made), (*inputs, *[each for each in lists if each is not None]))
