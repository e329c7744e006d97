"""Calculations over arrays: with NumPy if it can be imported, else with what has the buffer protocol.

The library does the work, a call a block; here arguments become columns of doubles.
"""

from __future__ import annotations

import math
from array import array
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, List, Optional, Tuple

from . import _core
from ._errors import InvalidInput

_NOT_TRIED = object()
_module: Any = _NOT_TRIED

Block = Tuple[int, int, Tuple[Any, ...]]  # first element, number of elements, columns


def numpy() -> Any:
    """The NumPy module, or None; imported when first asked for, because it is slow to load."""
    global _module
    if _module is _NOT_TRIED:
        try:
            import numpy as module
        except ImportError:
            _module = None
        else:
            _module = module
    return _module


def _wrong(field: str, what: Any) -> TypeError:
    return TypeError(f"{field} must be a number or an array of numbers, not {what}")


def number(item: Any, field: str) -> Optional[float]:
    """A scalar of any kind as a float; None for what may be an array.  An array without dimensions is a scalar."""
    if isinstance(item, (float, int)):
        try:
            return float(item)
        except OverflowError:
            return math.inf if item > 0 else -math.inf
    if isinstance(item, (str, bytes, bytearray, complex)) or item is None:
        raise _wrong(field, type(item).__name__)
    if getattr(item, "ndim", None) == 0:
        kind = getattr(getattr(item, "dtype", None), "kind", "f")
        if kind == "O":
            return number(item.item(), field)
        if kind not in "fiub":
            raise _wrong(field, item.dtype)
        return float(item)
    if hasattr(item, "__float__") and not hasattr(item, "__len__") and not hasattr(item, "__array__"):
        return float(item)
    return None


def calculate(kind: Any, inputs: Tuple[Any, ...], invalid: str, out: Optional[Sequence[Any]]) -> Any:
    """One calculation when not every input is a plain number, or with options."""
    if invalid not in ("raise", "nan"):
        raise ValueError(f"invalid must be 'raise' or 'nan', not {invalid!r}")
    fields = kind._inputs_kind._fields
    numbers = [number(item, field) for item, field in zip(inputs, fields)]
    if None not in numbers:
        if out is not None:
            raise TypeError("out is for arrays, and every input is a number")
        try:
            return _core.call(kind._index, tuple(numbers), kind)
        except InvalidInput:
            if invalid == "raise":
                raise
            return kind._remembering([math.nan] * len(kind._fields), tuple(numbers))
    np = numpy()
    if np is None:
        return _plain(kind, inputs, numbers, invalid, out)
    columns = tuple(column(np, item, field) if n is None else n for item, n, field in zip(inputs, numbers, fields))
    given = [c for c in columns if not isinstance(c, float)]
    try:
        shape = np.broadcast_shapes(*(c.shape for c in given))
    except ValueError:
        shapes = ", ".join(f"{f} {c.shape}" for f, c in zip(fields, columns) if not isinstance(c, float))
        raise ValueError(f"arrays of these shapes do not fit together: {shapes}") from None
    results = [np.empty(shape) for _ in kind._fields] if out is None else _targets(np, kind, out, shape)
    direct = out is None or (
        all(r.ndim == 1 or r.flags.c_contiguous for r in results)
        and not _core.share_memory(tuple(results), tuple(given))
    )
    work = results if direct else [np.empty(shape) for _ in results]
    remembered = tuple(item if n is None else n for item, n in zip(inputs, numbers))
    if not direct:  # results may be written over inputs
        _apart(np, results)
        remembered = tuple(c if isinstance(c, float) else c.copy() for c in columns)
    flat = [r.reshape(-1) if r.ndim != 1 else r for r in work]
    try:
        refused = _run(kind._index, _blocks(np, columns, shape), flat, invalid)
    except InvalidInput as error:
        if len(shape) != 1 and isinstance(error.index, int):
            error.index = tuple(int(i) for i in np.unravel_index(error.index, shape))
        if not direct:
            for result, temporary in zip(results, work):
                result[...] = temporary
        raise
    if not direct:
        for result, temporary in zip(results, work):
            result[...] = temporary
    return kind._arrays_kind._remembering(results, remembered, _refused=refused, _invalid=invalid)


def _run(index: int, blocks: Iterable[Block], flat: Sequence[Any], invalid: str) -> int:
    refused = 0
    for start, count, columns in blocks:
        targets = tuple(f[start : start + count] for f in flat)
        try:
            refused += _core.batch(index, columns, targets, invalid == "nan", start)
        except InvalidInput:
            for f in flat:  # as within a block: what lies behind is not left to chance
                f[start + count :] = math.nan
            raise
    return refused


def column(np: Any, item: Any, field: str) -> Any:
    if isinstance(item, np.ma.MaskedArray):
        if item.dtype.kind not in "fiub":
            raise _wrong(field, f"an array of {item.dtype}")
        return item.astype(np.float64).filled(math.nan)
    values = np.asarray(item)
    if values.dtype.kind == "O":
        try:  # refuses strings, which astype would read as numbers
            return np.array(array("d", values.reshape(-1).tolist())).reshape(values.shape)
        except (TypeError, ValueError):
            pass
    if values.dtype.kind not in "fiub":
        raise _wrong(field, f"an array of {values.dtype}")
    return values


def _targets(np: Any, kind: Any, out: Sequence[Any], shape: Tuple[int, ...]) -> List[Any]:
    if len(out) != len(kind._fields):
        raise ValueError(f"out must have {len(kind._fields)} arrays, one a result")
    for target, field in zip(out, kind._fields):
        if not isinstance(target, np.ndarray) or target.dtype != np.float64 or not target.flags.writeable:
            raise TypeError(f"out for {field} must be a writable array of float64")
        if target.shape != shape:
            raise ValueError(f"out for {field} has shape {target.shape} where the results have {shape}")
    return list(out)


def _apart(np: Any, results: Sequence[Any]) -> None:
    for i, one in enumerate(results):
        if any(np.shares_memory(one, other) for other in results[:i]):
            raise ValueError("arrays of out share memory")


def _blocks(np: Any, columns: Tuple[Any, ...], shape: Tuple[int, ...]) -> Iterator[Block]:
    """Columns of one dimension that together run through all elements in order.  Numbers stay numbers."""
    arrays = [c for c in columns if not isinstance(c, float)]
    if len(shape) == 1 and all(c.dtype == np.float64 and c.shape == shape for c in arrays):
        yield 0, shape[0], columns
        return
    if len(arrays) > 30:  # NumPy 1 iterates over at most 32 arrays together
        whole = [np.ascontiguousarray(np.broadcast_to(c, shape), np.float64).reshape(-1) for c in arrays]
        yield 0, math.prod(shape), _among(columns, whole)
        return
    iterator = np.nditer(
        arrays,
        ["external_loop", "buffered", "growinner", "zerosize_ok"],
        [["readonly"]] * len(arrays),
        op_dtypes=[np.float64] * len(arrays),
        order="C",
        casting="same_kind",
    )
    start = 0
    for chunk in iterator:
        parts = [chunk] if len(arrays) == 1 else chunk
        yield start, len(parts[0]), _among(columns, parts)
        start += len(parts[0])


def _among(columns: Tuple[Any, ...], parts: Iterable[Any]) -> Tuple[Any, ...]:
    rest = iter(parts)
    return tuple(c if isinstance(c, float) else next(rest) for c in columns)


def plain_column(item: Any, field: str) -> Any:
    """Without NumPy: doubles with any stride as they are, other sequences of numbers converted."""
    try:
        view = memoryview(item)
    except TypeError:
        pass
    else:
        if view.ndim == 1 and view.format in ("d", "@d", "=d"):
            return view
        if view.ndim != 1 or view.format in ("c", "s"):
            raise _wrong(field, f"a buffer of {view.format} in {view.ndim} dimensions")
    if not hasattr(item, "__getitem__") or hasattr(item, "keys"):
        raise _wrong(field, type(item).__name__)
    try:
        return array("d", item)
    except TypeError:
        raise _wrong(field, f"a {type(item).__name__} of something else") from None


def _plain(
    kind: Any, inputs: Tuple[Any, ...], numbers: Sequence[Optional[float]], invalid: str, out: Optional[Sequence[Any]]
) -> Any:
    fields = kind._inputs_kind._fields
    columns = tuple(plain_column(item, f) if n is None else n for item, n, f in zip(inputs, numbers, fields))
    count = next(len(c) for c in columns if not isinstance(c, float))
    results = [array("d", bytes(8 * count)) for _ in kind._fields] if out is None else list(out)
    if len(results) != len(kind._fields):
        raise ValueError(f"out must have {len(kind._fields)} arrays, one a result")
    remembered = tuple(item if n is None else n for item, n in zip(inputs, numbers))
    if out is not None:  # they may be inputs, too
        remembered = tuple(array("d", c) if not isinstance(c, float) else c for c in columns)
    refused = _core.batch(kind._index, columns, tuple(results), invalid == "nan", 0)
    return kind._arrays_kind._remembering(results, remembered, _refused=refused, _invalid=invalid)


def caution_masks(index: int, inputs: Any, results: Any) -> List[Tuple[int, Any]]:
    """For each rule of a contract: how many elements it holds for, and which."""
    rules = _core.rule_count(_core.calculation_at(index))
    np = numpy()
    if np is None or not hasattr(results[0], "__array__"):
        columns = tuple(i if isinstance(i, float) else plain_column(i, f) for i, f in zip(inputs, inputs._fields))
        plain = [bytearray(len(results[0])) for _ in range(rules)]
        _core.caution_masks(index, columns, tuple(results), tuple(plain))
        return [(sum(mask), memoryview(mask).toreadonly().cast("?")) for mask in plain]
    columns = tuple(i if isinstance(i, float) else column(np, i, f) for i, f in zip(inputs, inputs._fields))
    shape = results[0].shape
    masks = np.zeros((rules, results[0].size), np.bool_)
    flat = [np.ascontiguousarray(r).reshape(-1) for r in results]
    for start, count, part in _blocks(np, columns, shape):
        rows = slice(start, start + count)
        _core.caution_masks(index, part, tuple(f[rows] for f in flat), tuple(m[rows] for m in masks))
    return [(int(np.count_nonzero(mask)), mask.reshape(shape)) for mask in masks]
