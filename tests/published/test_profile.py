#!/usr/bin/python3
"""wall_profile against SciPy's PchipInterpolator, which uses the same slopes (weighted harmonic means, Fritsch and
Butland 1984) inside its data: the stations are continued by a turn on either side, so that every slope of the middle
turn is of that kind.

Run:  UNG_LIBRARY=path/to/libungula.so /usr/bin/python3 tests/published/test_profile.py
      (Debian: python3-numpy python3-scipy; without them it says so and is skipped with status 77)
"""
import ctypes
import os
import sys

try:
    import numpy
    from scipy.interpolate import PchipInterpolator
except ImportError as missing:
    print("skipped:", missing)
    sys.exit(77)

LIBRARY = os.environ.get("UNG_LIBRARY", ".libs/libungula.so")


def pointer(array):
    return array.ctypes.data_as(ctypes.POINTER(ctypes.c_double))


def profile(library, stations, start, count):
    rows, out = numpy.zeros((count, 3)), numpy.zeros(4)
    status = library.ung_wall_profile(pointer(numpy.array([float(start)])), pointer(stations),
                                      ctypes.c_size_t(len(stations)), pointer(rows), ctypes.c_size_t(count),
                                      pointer(out), None)
    if status != 0:
        sys.exit(f"refused with status {status}: {stations}")
    return rows, out


def main():
    library = ctypes.CDLL(LIBRARY)
    random = numpy.random.default_rng(20)
    worst = 0.0
    for _ in range(300):
        n = int(random.integers(2, 65))
        places = numpy.cumsum(random.uniform(0.2, 1.8, n))
        places = (places - places[0] * random.random()) / places[-1] * random.uniform(0.5, 0.999)
        stations = numpy.ascontiguousarray(
            numpy.column_stack([places, random.uniform(2, 20, n), random.uniform(35, 150, n)]))
        level = random.random(n) < 0.2
        level[0] = False
        stations[level, 1] = stations[numpy.flatnonzero(level) - 1, 1]
        rows, out = profile(library, stations, random.random(), 1000)
        turns = numpy.concatenate([places - 1, places, places + 1])
        for column in (1, 2):
            values = numpy.tile(stations[:, column], 3)
            wanted = PchipInterpolator(turns, values)(rows[:, 0])
            # Both round sums of a few terms of the size of the values (up to 150) and divide by steps that are known
            # to 2e-16 of a turn: about 1e-12 of a value of 100 where the stations are close.
            error = numpy.abs(rows[:, column] - wanted).max() / 150
            worst = max(worst, error)
            if error > 1e-13:
                sys.exit(f"off by {error * 150:g}: {stations}")
        if out[0] != stations[:, 1].min() or out[2] != stations[:, 2].max() or out[3] != stations[:, 2].min():
            sys.exit("extremes are not those of the stations")
    print(f"300 profiles of 1000 places agree with PchipInterpolator, largest difference {worst * 150:.1e}")


if __name__ == "__main__":
    main()
