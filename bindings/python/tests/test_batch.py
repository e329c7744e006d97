"""Arrays give, bit for bit, what single calls give."""

import math
import threading
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest
from conftest import COLUMNAR, SHORT, affordable, bits, call, random_inputs

import ungula

COUNT = 2_000 if SHORT else 10_000


@pytest.fixture(scope="module", params=COLUMNAR)
def singles(request):
    """Random inputs, and the results of single calls (NaN where one is refused)."""
    count = affordable(request.param, COUNT)
    columns = random_inputs(request.param, count)
    results, refusals = [], {}
    for i, values in enumerate(zip(*(column.tolist() for column in columns.values()))):
        try:
            results.append(tuple(call(request.param, **dict(zip(columns, values)))))
        except ungula.InvalidInput as error:
            refusals[i] = error
            results.append((math.nan,) * len(ungula.describe(request.param).outputs))
    assert count / 3 < count - len(refusals)  # most are valid, or the comparison would say little
    return request.param, columns, bits(results).T, refusals


def assert_same(batch, expected):
    assert np.array_equal(np.stack([bits(column.reshape(-1)) for column in batch]), expected)


def test_contiguous(singles):
    name, columns, expected, refusals = singles
    batch = call(name, **columns, invalid="nan")
    assert_same(batch, expected)
    assert batch.refused == len(refusals)


def test_the_first_refusal_is_that_of_the_single_call(singles):
    name, columns, _, refusals = singles
    if not refusals:
        assert call(name, **columns).refused == 0
        return
    with pytest.raises(ungula.InvalidInput) as caught:
        call(name, **columns)
    first = min(refusals)
    alone = {**refusals[first].__dict__, "index": first}
    assert caught.value.__dict__ == alone
    assert str(caught.value) == str(refusals[first])[:-1] + f", element {first})"


def strided(column):
    wide = np.zeros((len(column), 3))
    wide[:, 1] = column
    return wide[:, 1]


def unaligned(column):
    record = np.zeros(len(column), np.dtype([("pad", "u1"), ("value", "f8")]))
    record["value"] = column
    return record["value"]


LAYOUTS = {
    "reversed": lambda c: c[::-1].copy()[::-1],
    "every other": lambda c: np.repeat(c, 2)[::2],
    "a column of a matrix": strided,
    "unaligned": unaligned,
    "big-endian": lambda c: c.astype(">f8"),
    "read-only": lambda c: np.frombuffer(c.tobytes()),
    "objects": lambda c: c.astype(object),
    "a list": lambda c: c.tolist(),
    "two dimensions": lambda c: c.reshape(-1, 10),
    "two dimensions, Fortran order": lambda c: np.asfortranarray(c.reshape(-1, 10)),
}


@pytest.mark.parametrize("layout", LAYOUTS)
def test_layouts(singles, layout):
    name, columns, expected, _ = singles
    batch = call(name, **{field: LAYOUTS[layout](column) for field, column in columns.items()}, invalid="nan")
    assert_same(batch, expected)


def test_mixed_layouts(singles):
    name, columns, expected, _ = singles
    shapes = [layout for layout in LAYOUTS.values() if layout(np.zeros(10)).__class__ is not list]
    columns = {field: shapes[i % 6](column) for i, (field, column) in enumerate(columns.items())}
    assert_same(call(name, **columns, invalid="nan"), expected)


@pytest.mark.parametrize("name", COLUMNAR)
def test_broadcasting(name):
    columns = random_inputs(name, 40)
    fields = list(columns)
    mixed = {f: c[0] for f, c in columns.items()}
    mixed[fields[0]] = columns[fields[0]][:, None]
    if len(fields) == 1:
        return  # nothing to spread it against
    mixed[fields[1]] = columns[fields[1]][::-1][:30]
    batch = call(name, **mixed, invalid="nan")
    assert batch[0].shape == (40, 30)
    full = {f: np.broadcast_to(v, (40, 30)).reshape(-1) for f, v in mixed.items()}
    assert_same(batch, np.stack([bits(c) for c in call(name, **full, invalid="nan")]))
    for i, j in ((0, 0), (3, 7), (39, 29)):
        single = call(name, **{f: float(np.broadcast_to(v, (40, 30))[i, j]) for f, v in mixed.items()}, invalid="nan")
        assert np.array_equal(bits([c[i, j] for c in batch]), bits(list(single)))


def test_threads():
    columns = random_inputs("hoof_band", 4_000)
    expected = call("hoof_band", **columns, invalid="nan")
    parts = np.array_split(np.arange(4_000), 7)
    with ThreadPoolExecutor(4) as pool:
        jobs = [{f: c[part] for f, c in columns.items()} for part in parts]
        results = list(pool.map(lambda job: call("hoof_band", **job, invalid="nan"), jobs))
    for i, column in enumerate(expected):
        assert np.array_equal(bits(np.concatenate([r[i] for r in results])), bits(column))


def test_a_batch_lets_other_threads_run():
    columns = {f: np.resize(c, 10_000) for f, c in random_inputs("hoof_band", 1_000).items()}
    ticks, done = [0], threading.Event()

    def tick():
        while not done.is_set():
            ticks[0] += 1

    thread = threading.Thread(target=tick)
    thread.start()
    before = ticks[0]
    from ungula import _core

    # one C call that takes some 0.2 s: the other thread gets none of it unless the lock is released
    targets = tuple(np.empty(10_000) for _ in ungula.HoofBand._fields)
    _core.batch(ungula.HoofBand._index, tuple(columns.values()), targets, True, 0)
    during = ticks[0] - before
    done.set()
    thread.join()
    assert during > 1_000
