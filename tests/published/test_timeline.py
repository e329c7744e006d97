#!/usr/bin/python3
"""job_timeline against SciPy: the same samples drawn in Python, exact chances by integration, and other random numbers.

The generator here is written from the paper (Salmon et al. 2011), with its published known answers; durations are SciPy's
beta.ppf of the same shares; the chance that a lognormal time is shorter is SciPy's normal distribution.

Run:  UNG_LIBRARY=path/to/libungula.so /usr/bin/python3 tests/published/test_timeline.py
      (Debian: python3-numpy python3-scipy; without them it says so and is skipped with status 77)
"""
import ctypes
import os
import sys

try:
    import numpy
    from scipy import special
except ImportError as missing:
    print("skipped:", missing)
    sys.exit(77)

LIBRARY = os.environ.get("UNG_LIBRARY", ".libs/libungula.so")
IN = ["working_time_s", "spread_fraction", "pace_fraction", "limit_fraction", "triangular_count", "samples_count",
      "seed_count"]
OUT = ["mean_s", "sd_s", "slack_s", "normal_chance_fraction", "chance_fraction", "standard_error_fraction", "done_by_s",
       "needed_working_time_s", "batches_count", "fresh_before_count", "impossible_count"]
STANDARD = {"spread_fraction": 0.15, "pace_fraction": 0, "limit_fraction": 0.05, "triangular_count": 0,
            "samples_count": 20000, "seed_count": 1}
CHAIN = [(2, 3, 6), (4, 5, 9), (1, 2, 4)]
JOB = [(30, 45, 75), (40, 60, 100), (60, 90, 150), (90, 120, 200)]


def pointer(array):
    return array.ctypes.data_as(ctypes.POINTER(ctypes.c_double))


def timeline(steps, **given):
    """Results by name, and the filled rows."""
    library = ctypes.CDLL(LIBRARY)
    steps = numpy.array([(*s, 1) if len(s) == 3 else s for s in steps], float)
    n = len(steps)
    values = numpy.array([float({**STANDARD, **given}[name]) for name in IN])
    rows, out, work = numpy.zeros((n, 5)), numpy.zeros(len(OUT)), numpy.zeros(n * 1472)
    size = ctypes.c_size_t
    status = library.ung_job_timeline(pointer(values), pointer(steps), size(n), pointer(rows), size(n), pointer(work),
                                      size(len(work)), pointer(out), None)
    if status != 0:
        sys.exit(f"refused with status {status}: {steps} {given}")
    return dict(zip(OUT, out)), rows


def philox(counter, key):
    """Ten rounds on arrays of 32-bit words."""
    c = [numpy.asarray(word, numpy.uint64) for word in counter]
    k0, k1 = key
    low = numpy.uint64(0xFFFFFFFF)
    half = numpy.uint64(32)
    for _ in range(10):
        p, q = numpy.uint64(0xD2511F53) * c[0], numpy.uint64(0xCD9E8D57) * c[2]
        c = [(q >> half) ^ c[1] ^ numpy.uint64(k0), q & low, (p >> half) ^ c[3] ^ numpy.uint64(k1), p & low]
        k0, k1 = (k0 + 0x9E3779B9) & 0xFFFFFFFF, (k1 + 0xBB67AE85) & 0xFFFFFFFF
    return c


def shares(samples, step, seed):
    """What the documentation of job_timeline promises for sample i and step k."""
    i = numpy.arange(samples)
    words = philox([i, 0 * i, 0 * i + step // 2, 0 * i], (seed, 0))
    high, low = words[2 * (step % 2)], words[2 * (step % 2) + 1]
    return (((high << numpy.uint64(32) | low) >> numpy.uint64(12)).astype(float) + 0.5) * 2.0**-52


def quantile(step, share, triangular):
    low, likely, high = step[:3]
    if high == low:
        return numpy.full_like(share, low)
    width = high - low
    if triangular:
        rises = width * (likely - low), width * (high - likely)
        return numpy.where(share < (likely - low) / width, low + numpy.sqrt(share * rises[0]),
                           high - numpy.sqrt((1 - share) * rises[1]))
    toward = 4 * (likely - low) / width
    return low + width * special.betaincinv(1 + toward, 5 - toward, share)


def late(total, given):
    """Chance that the working time, over the pace, is shorter: both lognormal."""
    work, pace = numpy.log1p(given["spread_fraction"] ** 2), numpy.log1p(given["pace_fraction"] ** 2)
    middle = numpy.log(given["working_time_s"]) - work / 2 + pace / 2
    if work + pace == 0:
        return (total > given["working_time_s"]).astype(float)
    with numpy.errstate(divide="ignore"):
        return special.ndtr((numpy.log(total) - middle) / numpy.sqrt(work + pace))


def drawn(steps, given, first=0):
    """Chance and its standard error, with the library's draws, by the end of each step from `first` on."""
    total, found = numpy.zeros(int(given["samples_count"])), []
    for k, step in enumerate(steps):
        if k >= first and (len(step) == 3 or step[3]):
            total = total + quantile(step, shares(len(total), k, int(given["seed_count"])), given["triangular_count"])
            each = late(total, given)
            found.append((each.mean(), each.std(ddof=1) / len(each) ** 0.5 if len(each) > 1 else 0))
        else:
            found.append((0, 0))
    return numpy.array(found)


def check(holds, *what):
    if not holds:
        sys.exit(" ".join(map(str, what)))


def known_answers():
    for counter, key, wanted in (
            ([0] * 4, (0, 0), "6627e8d5 e169c58d bc57ac4c 9b00dbd8"),
            ([0xFFFFFFFF] * 4, (0xFFFFFFFF, 0xFFFFFFFF), "408f276d 41c83b0e a20bc7c6 6d5451fd"),
            ([0x243F6A88, 0x85A308D3, 0x13198A2E, 0x03707344], (0xA4093822, 0x299F31D0),
             "d16cfe09 94fdcceb 5001e420 24126ea1")):
        check(" ".join(f"{int(word):08x}" for word in philox(counter, key)) == wanted, "Philox", counter)


def random_steps(random, count):
    steps = numpy.sort(random.uniform(5, 200, (count, 3)), axis=1)
    for i in range(count):
        kind = random.integers(8)  # ends of the family
        steps[i] = {0: steps[i][[0, 0, 2]], 1: steps[i][[0, 2, 2]], 2: steps[i][[1, 1, 1]]}.get(kind, steps[i])
    return [(*s, float(random.random() < 0.8 or i == 0)) for i, s in enumerate(steps.tolist())]


def same_samples():
    """A chance moves by at most the density of log S over its spread times the error of a duration: 6e-7 of a range, that
    is below 1e-6 of S; the spread is at least 0.05 here, its density 0.4: 8e-6 at worst, and errors alternate."""
    random = numpy.random.default_rng(5)
    worst = 0.0
    for trial in range(60):
        steps = random_steps(random, int(random.integers(1, 13)))
        mean = sum((s[0] + 4 * s[1] + s[2]) / 6 for s in steps if s[3])
        given = {**STANDARD, "working_time_s": mean * random.uniform(0.9, 1.4), "spread_fraction": random.uniform(0.05, 0.5),
                 "pace_fraction": random.choice([0, random.uniform(0, 0.5)]), "triangular_count": trial % 3 == 0,
                 "samples_count": random.choice([1, 2, 511, 512, 513, 5000]), "seed_count": random.integers(2**32)}
        out, rows = timeline(steps, **given)
        wanted = drawn(steps, given)
        last = max(k for k, s in enumerate(steps) if s[3])
        errors = numpy.abs(rows[:, 2] - wanted[:, 0])
        worst = max(worst, errors.max())
        check(errors.max() < 2e-6, "chances differ:", rows[:, 2], wanted[:, 0], given, steps)
        check(out["chance_fraction"] == rows[last, 2], "the chance is that of the last step that counts")
        check(abs(out["standard_error_fraction"] - wanted[last, 1]) < 2e-6, "standard error", out, wanted[last])
        check_batches(steps, given, out, rows)
    return worst


def check_batches(steps, given, out, rows):
    """The plan of batches by the rule, with chances drawn here."""
    first, begun, number, fresh, impossible, limit = 0, False, 1, 0, 0, given["limit_fraction"]
    own = drawn(steps, given)[:, 0]
    for k, step in enumerate(steps):
        if abs(own[k] - limit) < 1e-5:
            return  # too near to decide
        if step[3] and begun and own[k] > limit:
            first, begun, number, fresh = k, False, number + 1, fresh or k + 1
            own = drawn(steps, given, first)[:, 0]
        if step[3] and not begun and own[k] > limit:
            impossible = impossible or k + 1
        begun = begun or bool(step[3])
        check(rows[k, 4] == (number if step[3] else 0), "batch of step", k + 1, rows[:, 4])
        check(abs(rows[k, 3] - own[k]) < 2e-6, "own chance of step", k + 1, rows[k], own[k])
    check((out["batches_count"], out["fresh_before_count"], out["impossible_count"]) == (number, fresh, impossible),
          "batches", out, number, fresh, impossible)


def exact(steps, given):
    """Chance by convolution on a fine grid: independent of any draws."""
    cells = 4000
    width = sum(s[2] - s[0] for s in steps) / cells
    density = numpy.ones(1)
    for low, likely, high in steps:
        edges = numpy.arange(int(numpy.ceil((high - low) / width)) + 2) * width / (high - low)
        if given["triangular_count"]:
            peak = (likely - low) / (high - low)
            x = numpy.clip(edges, 0, 1)
            share = numpy.where(x < peak, x * x / max(peak, 1e-9), 1 - (1 - x) ** 2 / max(1 - peak, 1e-9))
        else:
            toward = 4 * (likely - low) / (high - low)
            share = special.betainc(1 + toward, 5 - toward, numpy.clip(edges, 0, 1))
        density = numpy.convolve(density, numpy.diff(share, prepend=0))  # mass of the cell below each edge
    total = sum(s[0] for s in steps) + (numpy.arange(len(density)) - len(steps) / 2) * width  # middles of the cells
    return float((density * late(total, given)).sum())


def against_exact():
    random = numpy.random.default_rng(6)
    worst = 0.0
    for trial in range(40):
        steps = [tuple(s) for s in numpy.sort(random.uniform(5, 200, (int(random.integers(1, 7)), 3)), axis=1)]
        mean = sum((s[0] + 4 * s[1] + s[2]) / 6 for s in steps)
        given = {**STANDARD, "working_time_s": mean * random.uniform(0.9, 1.4), "spread_fraction": random.uniform(0.1, 0.3),
                 "pace_fraction": random.uniform(0, 0.2), "triangular_count": trial % 2, "samples_count": 100000,
                 "seed_count": trial}
        out, _ = timeline(steps, **given)
        wanted = exact(steps, given)
        off = abs(out["chance_fraction"] - wanted) / out["standard_error_fraction"]
        worst = max(worst, off)
        # 40 cases: beyond 4.5 standard errors once in 4000 runs; the draws are fixed, so it does or does not happen.
        check(off < 4.5, "off by", off, "standard errors:", steps, given, out, wanted)
    return worst


def published_chain():
    """Three tasks in a row, exact by piecewise integration: for beta-PERT at 14 units 0.0126503971, and so on."""
    for triangular, values in ((0, {12: 0.2114775171, 13: 0.0644173766, 14: 0.0126503971, 16: 0.0000681010}),
                               (1, {12: 0.4795216049, 13: 0.2530709877, 14: 0.1026851852, 16: 0.0056018519})):
        for limit, wanted in values.items():
            out, _ = timeline(CHAIN, working_time_s=limit, spread_fraction=0, triangular_count=triangular,
                              samples_count=200000)
            error = (wanted * (1 - wanted) / 200000) ** 0.5
            check(abs(out["chance_fraction"] - wanted) < 4 * error, "chain at", limit, out, wanted)
            check(abs(out["standard_error_fraction"] / error - 1) < 0.2, "its error", out, error)
    given = {**STANDARD, "working_time_s": 360}
    check(abs(exact(JOB, given) - 0.349359) < 2e-6, "the grid", exact(JOB, given))


def main():
    known_answers()
    published_chain()
    same = same_samples()
    other = against_exact()
    print(f"60 chains agree with SciPy's quantiles, sample by sample: largest difference of a chance {same:.1e}")
    print(f"40 chains agree with convolutions: largest difference {other:.1f} standard errors")


if __name__ == "__main__":
    main()
