#!/usr/bin/env python3
"""Speed of job_timeline on eight steps, beside NumPy drawing and adding as many durations: milliseconds, best of nine."""
import sys
import time

import ungula

try:
    import numpy
except ImportError as missing:
    print("skipped:", missing)
    sys.exit(0)

STEPS = [(30, 45, 75, 1), (40, 60, 100, 1), (60, 90, 150, 1), (90, 120, 200, 1)] * 2
WORKING_TIME, SPREAD, PACE = 1000, 0.15, 0.1


def with_numpy(samples, random):
    """Chance by the end of each step, late samples counted."""
    def lognormal(mean, fraction):
        variance = numpy.log1p(fraction**2)
        return random.lognormal(numpy.log(mean) - variance / 2, variance**0.5, samples)

    limit = lognormal(WORKING_TIME, SPREAD) / lognormal(1, PACE)
    total, found = numpy.zeros(samples), []
    for low, likely, high, _ in STEPS:
        toward = 4 * (likely - low) / (high - low)
        total += low + (high - low) * random.beta(1 + toward, 5 - toward, samples)
        found.append(float((total > limit).mean()))
    return found[-1]


def best(function):
    times = []
    for _ in range(9):
        begin = time.perf_counter()
        function()
        times.append(time.perf_counter() - begin)
    return 1000 * min(times)


def main():
    random = numpy.random.Generator(numpy.random.PCG64(1))
    given = {"working_time_s": WORKING_TIME, "spread_fraction": SPREAD, "pace_fraction": PACE, "limit_fraction": 0.5}
    for samples in (0, 1000, 10000, 100000):
        ours = best(lambda: ungula.job_timeline(steps=STEPS, samples_count=samples, **given))
        line = f"job_timeline, 8 steps, {samples:6d} samples: {ours:7.3f} ms"
        if samples:
            result = ungula.job_timeline(steps=STEPS, samples_count=samples, **given)
            chance, error = result.chance_fraction, result.standard_error_fraction
            theirs = best(lambda: with_numpy(samples, random))
            counted = (chance * (1 - chance) / samples) ** 0.5
            line += f"; NumPy {theirs:7.3f} ms; a count would err {counted / error:.1f} times as much"
        print(line)


if __name__ == "__main__":
    main()
