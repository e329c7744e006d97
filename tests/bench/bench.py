"""Speed of the library in C, in Python and against NumPy; run by `make bench`.

    bench.py BENCH-PROGRAM CONTRACTS-JSON [SHARED-LIBRARY]

All ratios are of times measured in this run, so that they mean something on a busy machine too.  Aims are reported,
not asserted: a slow moment is no defect.  Where the Python package is not built, the batch is reached through ctypes
and the shared library, and what concerns the package is left out.
"""
import ctypes
import json
import statistics
import subprocess
import sys
import time

import numpy as np

import numpy_formulas

AIM_NUMPY = 5.0  # times faster than NumPy, for formulas without an integral
AIM_PYTHON_BATCH = 1.5  # times a batch called from C
AIM_SCALAR_US = 0.4  # one Python call with keywords
NOT_CLOSED = ("hoof_band",)  # integrates: no aim against NumPy
TOLERANCE = 1e-9  # of a result, or of 1 unit where it is smaller: far above rounding, far below any error of a formula


class Column(ctypes.Structure):
    _fields_ = [("base", ctypes.c_void_p), ("stride", ctypes.c_ssize_t)]


class Library:
    """ung_batch through ctypes, on contiguous columns."""

    def __init__(self, path):
        self.c = ctypes.CDLL(path)
        self.c.ung_calculation_find.restype = ctypes.c_void_p
        self.c.ung_batch.argtypes = [ctypes.c_void_p, ctypes.c_size_t, ctypes.c_void_p, ctypes.c_void_p, ctypes.c_uint,
                                     ctypes.c_void_p]

    def batch(self, name, columns, out, go_on):
        calculation = self.c.ung_calculation_find(name.encode())
        ins = (Column * len(columns))(*(Column(c.ctypes.data, c.itemsize) for c in columns))
        outs = (Column * len(out))(*(Column(c.ctypes.data, c.itemsize) for c in out))
        if self.c.ung_batch(calculation, len(columns[0]), ins, outs, go_on, None) != 0:
            raise ValueError(f"{name} refused")


def best_ns(n, call, seconds, least=3):
    """Least time of an element over repeated calls, at least `least` of them and about so many seconds."""
    times = []
    end = time.perf_counter() + seconds
    while len(times) < least or (time.perf_counter() < end and len(times) < 200):
        begin = time.perf_counter()
        call()
        times.append(time.perf_counter() - begin)
    return min(times) / n * 1e9


def draw(contract, n, evaluate, rng):
    """n sets of inputs from the usual ranges; what is refused is left out and made up for by repeating the rest."""
    columns = []
    for field in contract["inputs"]:
        column = rng.uniform(field["usual_lower"], field["usual_upper"], n)
        columns.append(np.rint(column) if field["whole"] else column)
    out = [np.empty(n) for _ in contract["outputs"]]
    evaluate(columns, out)
    accepted = np.flatnonzero(~np.isnan(out[0]))
    rows = np.resize(accepted, n)
    return [np.ascontiguousarray(c[rows]) for c in columns], [np.ascontiguousarray(o[rows]) for o in out]


def compare(name, contract, x, expected, evaluate):
    mine = {f["name"]: np.full(len(expected[0]), np.nan) for f in contract["outputs"]}
    evaluate(x, mine)
    for field, right in zip(contract["outputs"], expected):
        wrong = mine[field["name"]]
        with np.errstate(invalid="ignore"):
            error = np.where(wrong == right, 0, np.abs(wrong - right) / np.maximum(np.abs(right), 1))
        if not error.max() <= TOLERANCE:
            sys.exit(f"the NumPy formula of {name} differs from the library in {field['name']} by {error.max():.3g}")


def whole(formula, contract, workspace):
    def run(x, out):
        numpy_formulas.check_ranges(x, contract["inputs"], workspace)
        formula(x, out, workspace)
    return run


def chunked(formula, contract, n, chunk):
    """Slices are made once, too; only the arithmetic is timed."""
    pieces = [(slice(a, min(a + chunk, n)), numpy_formulas.Workspace(min(chunk, n - a))) for a in range(0, n, chunk)]
    full = pieces[0][1]
    pieces = [(s, full if w.n == full.n else w) for s, w in pieces]

    def prepare(x, out):
        parts = [({k: v[s] for k, v in x.items()}, {k: v[s] for k, v in out.items()}, w) for s, w in pieces]

        def run():
            for xs, outs, w in parts:
                numpy_formulas.check_ranges(xs, contract["inputs"], w)
                formula(xs, outs, w)
        return run
    return prepare


def table(title, head, rows):
    print(f"\n{title}")
    cells = [head] + [[c if isinstance(c, str) else f"{c:.3g}" if c < 100 else f"{c:.0f}" for c in row] for row in rows]
    widths = [max(len(row[i]) for row in cells) for i in range(len(head))]
    for row in cells:
        print("  " + "  ".join(c.ljust(w) if i == 0 else c.rjust(w) for i, (c, w) in enumerate(zip(row, widths))))


def aim(text, values, met):
    """One line an aim: met where every value meets it, else which do not."""
    missed = [f"{name} {value:.3g}" for name, value in values.items() if not met(value)]
    if not values:
        print(f"not measured: {text}")
    else:
        print(f"aim met: {text}" if not missed else f"aim not met: {text}: " + ", ".join(missed))


def cpu():
    try:
        with open("/proc/cpuinfo") as f:
            return next(line.split(":", 1)[1].strip() for line in f if line.startswith("model name"))
    except (OSError, StopIteration):
        return "unknown processor"


def scalar_us(calculation, sets):
    """Best time of one call with keywords: those of the required inputs."""
    times = []
    for _ in range(7):
        begin = time.perf_counter()
        for keywords in sets:
            calculation(**keywords)
        times.append((time.perf_counter() - begin) / len(sets))
    # calling with ** costs a copy of the dict; a call written out in full does not, so it is taken off
    empty = []
    nothing = eval("lambda *, " + ", ".join(f"{k}=0" for k in sets[0]) + ": None")
    written = eval("lambda f: f(" + ", ".join(f"{k}={v!r}" for k, v in sets[0].items()) + ")")
    star = eval("lambda f, k: f(**k)")
    for _ in range(7):
        begin = time.perf_counter()
        for keywords in sets:
            star(nothing, keywords)
        middle = time.perf_counter()
        for keywords in sets:
            written(nothing)
        empty.append((middle - begin - (time.perf_counter() - middle)) / len(sets))
    return (min(times) - max(statistics.median(empty), 0)) * 1e6


def main(program, contracts_path, library_path=None):
    try:
        import ungula
    except ImportError as error:
        ungula = None
        print(f"the Python package is not there ({error})")
        if library_path is None:
            sys.exit("without it bench.py needs the shared library as its third argument")
    library = Library(library_path) if ungula is None else None
    with open(contracts_path) as f:
        contracts = {c["name"]: c for c in json.load(f)["calculations"]}
    lines = subprocess.run([program], check=True, stdout=subprocess.PIPE, text=True).stdout.splitlines()
    c_times = {line["name"]: line for line in map(json.loads, lines)}

    rng = np.random.default_rng(20240229)
    c_rows, python_rows, numpy_rows = [], [], []
    against_numpy, python_batch, scalars = {}, {}, {}
    for name, c in c_times.items():
        contract, formula = contracts[name], numpy_formulas.FORMULAS.get(name)
        fields, results = ([f["name"] for f in contract[k]] for k in ("inputs", "outputs"))
        for n_text, widths in c["batch_ns"].items():
            n = int(n_text)
            batch_ns, traffic = widths[c["width"]][0], widths["traffic"][0]
            c_rows.append([name, n_text, c["width"]] +
                          [f"{widths[w][0]:.1f}/{widths[w][1]:.1f}" if w in widths else ""
                           for w in ("plain", "avx2", "avx512f", "traffic")] +
                          [f"{c['scalar_ns'][0]:.0f}", batch_ns / traffic, c["scalar_ns"][0] / batch_ns])

            def evaluate(columns, out, go_on=1):
                if library:
                    library.batch(name, columns, out, go_on)
                else:
                    getattr(ungula, name)(**dict(zip(fields, columns)), out=out, invalid="nan" if go_on else "raise")

            columns, expected = draw(contract, n, evaluate, rng)
            out = [np.zeros(n) for _ in results]
            seconds = 0.15 if n <= 10000 else 0.3
            ready_ns = best_ns(n, lambda: evaluate(columns, out, 0), seconds)
            if ungula:
                keywords = dict(zip(fields, columns))
                calculation = getattr(ungula, name)
                fresh_ns = best_ns(n, lambda: calculation(**keywords), seconds)
                python_batch[f"{name} {n_text}"] = ready_ns / batch_ns
                python_rows.append([name, n_text, ready_ns, fresh_ns, batch_ns, ready_ns / batch_ns,
                                    fresh_ns / batch_ns])
            if formula is None:
                print(f"no NumPy formula of {name}")
                continue
            x, named = dict(zip(fields, columns)), dict(zip(results, out))
            run_whole = whole(formula, contract, numpy_formulas.Workspace(n))
            run_chunks = chunked(formula, contract, n, numpy_formulas.CHUNK[name])
            compare(name, contract, x, expected, run_whole)
            compare(name, contract, x, expected, lambda a, b: run_chunks(a, b)())
            ready = run_chunks(x, named)
            least = 1 if name in NOT_CLOSED else 3
            whole_ns = best_ns(n, lambda: run_whole(x, named), seconds, least)
            chunk_ns = best_ns(n, ready, seconds, least)
            # the library once more, so that both were measured within the same second
            ready_ns = min(ready_ns, best_ns(n, lambda: evaluate(columns, out, 0), seconds))
            ratio = min(whole_ns, chunk_ns) / ready_ns
            if name not in NOT_CLOSED:
                against_numpy[f"{name} {n_text}"] = ratio
            numpy_rows.append([name, n_text, whole_ns, chunk_ns, ready_ns, ratio])

    widest = max((c["width"] for c in c_times.values()), key=("plain", "avx2", "avx512f").index)
    print(f"\n{cpu()}; widest kernels: {widest}; NumPy {np.__version__}")
    print("All times in ns an element unless another unit is given.")
    table("Batch from C (best/median) beside plain memory traffic of as many columns, and scalar calls from C",
          ["", "n", "width", "plain", "avx2", "avx512f", "traffic", "scalar", "batch/traffic", "scalar/batch"], c_rows)
    if python_rows:
        table("Batch from Python: into arrays that exist (out=), and with new ones",
              ["", "n", "out=", "new", "C", "out=/C", "new/C"], python_rows)
        rows = []
        for name, c in c_times.items():
            required = [f for f in contracts[name]["inputs"] if f["standard"] is None]
            sets = []
            for _ in range(2000 if name not in NOT_CLOSED else 200):
                keywords = {f["name"]: float(rng.integers(f["usual_lower"], f["usual_upper"] + 1) if f["whole"]
                                             else rng.uniform(f["usual_lower"], f["usual_upper"])) for f in required}
                try:
                    getattr(ungula, name)(**keywords)
                except ungula.InvalidInput:
                    continue
                sets.append(keywords)
            us = scalar_us(getattr(ungula, name), sets)
            if name not in NOT_CLOSED:
                scalars[name] = us
            rows.append([name, str(len(required)), us * 1000, c["scalar_ns"][0], us * 1000 / c["scalar_ns"][0]])
        table("Scalar call from Python, ns", ["", "keywords", "Python", "C", "Python/C"], rows)
    table("Same formula in NumPy: whole columns and chunks, with results and temporaries made before",
          ["", "n", "whole", "chunks", "library", "NumPy/library"], numpy_rows)
    print()
    aim(f"at least {AIM_NUMPY:g} times faster than NumPy", against_numpy, lambda r: r >= AIM_NUMPY)
    aim(f"batch from Python into out= at most {AIM_PYTHON_BATCH:g} times that from C", python_batch,
        lambda r: r <= AIM_PYTHON_BATCH)
    aim(f"scalar call from Python at most {AIM_SCALAR_US:g} us", scalars, lambda t: t <= AIM_SCALAR_US)


if __name__ == "__main__":
    if len(sys.argv) not in (3, 4):
        sys.exit(__doc__)
    main(*sys.argv[1:])
