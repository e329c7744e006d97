#!/usr/bin/env python3
"""Speed of cup_cure beside CVODE (by the program cup_cvode) and SciPy's solve_ivp, which look for the same results:
gel, fixture, peak, its time.  Each cup: times, how many times as long the others take, and the worst relative errors
beside them, all of them against CVODE at 1e-13 (of the smallest, 1e-11, much is its own).

    python3 tests/bench/cups.py tests/bench/cup_cvode
"""
import json
import os
import subprocess
import sys
import time

import ungula

try:
    import numpy
    sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "published"))
    from test_cure import NAMES, scipy_cup
except ImportError as missing:
    numpy = None
    NO_SCIPY = missing

METHODS = ("Radau", "DOP853", "LSODA")


def best(function, repeats):
    """Microseconds."""
    times = []
    for _ in range(repeats):
        begin = time.perf_counter()
        function()
        times.append(time.perf_counter() - begin)
    return 1e6 * min(times)


def results(x, solution):
    """Gel, fixture, peak in kelvin, its time; where errors make several peaks the hottest counts."""
    peaks = solution.y_events[3]
    if len(peaks) == 0:
        return [solution.t_events[0][0], solution.t_events[1][0], numpy.nan, numpy.nan]
    hottest = int(numpy.argmax(peaks[:, 1]))
    return [solution.t_events[0][0], solution.t_events[1][0], peaks[hottest][1] + x["ambient_c"] + 273.15,
            solution.t_events[3][hottest]]


def error_of(got, wanted):
    return max(abs(g / w - 1) for g, w in zip(got, wanted))


def beside_scipy(x, wanted):
    own = best(lambda: ungula.cup_cure(**x), 50)
    film = x["exchange_w_m2k"] * x["surface_cm2"] > 1e4 * x["mass_g"]
    end = scipy_cup(x, "LSODA", 1e-8).y_events[3][0][0]  # what is cured at the peak
    end = max(0.6, end) + 0.1 * (1 - max(0.6, end))  # all is known by then
    print(f"  from Python: cup_cure {own:.1f} us")
    for method in METHODS:
        if film and method == "DOP853":
            print("    DOP853 left out: stability would make it take minutes")
            continue
        theirs = best(lambda: scipy_cup(x, method, 1e-8, end), 5)
        off = error_of(results(x, scipy_cup(x, method, 1e-8, end)), wanted)
        print(f"    {method:7s} at 1e-8 {theirs:9.0f} us, {theirs / own:6.0f} times as long, error {off:.1e}")


def main():
    for line in subprocess.run(sys.argv[1:2], stdout=subprocess.PIPE, check=True).stdout.decode().splitlines():
        cup = json.loads(line)
        print(f"{cup['cup']}: cup_cure {cup['own']:.1f} us, error {cup['own_error']:.1e}\n"
              f"  CVODE at 1e-8 {cup['cvode']:.1f} us, {cup['cvode_over_own']:.1f} times as long, "
              f"error {cup['cvode_error']:.1e}")
        for which, what in (("exact", "with errors of 1e-8"),
                            ("exact_without_peak_time", "with errors of 1e-8 but for the peak's time")):
            if which in cup:
                print(f"  CVODE {what} (at {cup[which + '_tolerance']:.1e}) {cup[which]:.1f} us, "
                      f"{cup[which + '_over_own']:.1f} times as long")
        if numpy:
            beside_scipy({name: cup[name] for name in NAMES}, cup["wanted"])
        else:
            print("  SciPy skipped:", NO_SCIPY)


if __name__ == "__main__":
    main()
