#!/usr/bin/env python3
"""Random cups of cup_cure against SciPy: Radau for thin films, DOP853 for the others, at 1e-12, on the two equations as
they stand.  Prints the worst error of each kind, and how much faster the library is than SciPy at 1e-8 and 1e-12.

    python3 tests/published/test_cure.py      8 cups; 100 with UNG_TESTS=long
"""
import ctypes
import math
import os
import random
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp

import library

GAS = 8.31446261815324
COUNT = 100 if os.environ.get("UNG_TESTS") == "long" else 8
NAMES = ("mass_g", "surface_cm2", "exchange_w_m2k", "ambient_c", "start_c", "reference_time_s", "reference_temperature_c",
         "reference_mass_g", "reference_surface_cm2", "activation_energy_kj", "heat_j_g", "heat_capacity_j_gk",
         "initiation_fraction", "gel_fraction", "final_fraction")


def draw(rng, film):
    """Usual values; a thin film has a hundredth of the mass for its surface and is held firmly."""
    return {
        "mass_g": rng.uniform(0.5, 2) if film else rng.uniform(5, 120),
        "surface_cm2": rng.uniform(1000, 5000) if film else rng.uniform(30, 600),
        "exchange_w_m2k": rng.uniform(200, 500) if film else rng.uniform(8, 60),
        "ambient_c": rng.uniform(0, 38), "start_c": rng.uniform(5, 35),
        "reference_time_s": rng.uniform(120, 1800), "reference_temperature_c": rng.uniform(20, 25),
        "reference_mass_g": 0.0, "reference_surface_cm2": 0.0,
        "activation_energy_kj": rng.uniform(45, 62), "heat_j_g": rng.uniform(230, 330),
        "heat_capacity_j_gk": rng.uniform(1.5, 2.1), "initiation_fraction": rng.uniform(0.003, 0.05),
        "gel_fraction": rng.uniform(0.05, 0.3), "final_fraction": 1.0}


def scipy_cup(x, method, tolerance, end=0.99999):
    """The solution until the share cured is `end`, with the events: gel, fixture, the end, where it stops warming."""
    i, gel = x["initiation_fraction"], x["gel_fraction"]
    base, ambient = x["reference_temperature_c"] + 273.15, x["ambient_c"] + 273.15
    rise = x["heat_j_g"] / x["heat_capacity_j_gk"]
    cooling = 1e-4 * x["exchange_w_m2k"] * x["surface_cm2"] / (x["mass_g"] * x["heat_capacity_j_gk"])
    energy = 1000 * x["activation_energy_kj"] / GAS
    k_ref = math.log((i + gel) / (i * (1 - gel))) / ((1 + i) * x["reference_time_s"])

    def rate(_, y):
        r = k_ref * math.exp(-energy * (1 / (ambient + y[1]) - 1 / base)) * (i + y[0]) * (1 - y[0])
        return [r, rise * r - cooling * y[1]]

    def jacobian(_, y):
        k = k_ref * math.exp(-energy * (1 / (ambient + y[1]) - 1 / base))
        by_a, by_u = k * (1 - i - 2 * y[0]), k * (i + y[0]) * (1 - y[0]) * energy / (ambient + y[1]) ** 2
        return [[by_a, by_u], [rise * by_a, rise * by_u - cooling]]

    def at(share):
        def event(_, y):
            return y[0] - share
        return event

    def done(_, y):
        return y[0] - end
    done.terminal = True

    def peak(t, y):
        return rate(t, y)[1]
    peak.direction = -1
    film = k_ref * math.exp(-energy * (1 / ambient - 1 / base))
    start = [0.0, x["start_c"] - x["ambient_c"]]
    options = {"jac": jacobian} if method in ("Radau", "LSODA") else {}
    return solve_ivp(rate, [0, 40 / film], start, method=method, rtol=tolerance, atol=[1e-14, 1e-12],
                     events=[at(gel), at(0.6), done, peak], **options)


def main():
    lib = library.load()
    cup = ctypes.c_void_p(lib.ung_calculation_find(b"cup_cure"))
    given, out = (ctypes.c_double * 15)(), (ctypes.c_double * 6)()
    rng = random.Random(5)
    worst = {"cup": 0.0, "film": 0.0}
    faster = []
    for number in range(COUNT):
        film = number % 2 == 1
        x = draw(rng, film)
        given[:] = [x[name] for name in NAMES]
        if lib.ung_call(cup, given, None, out, None):
            sys.exit("refused: %r" % x)
        method = "Radau" if film else "DOP853"
        begin = time.perf_counter()
        solution = scipy_cup(x, method, 1e-12)
        theirs = time.perf_counter() - begin
        begin = time.perf_counter()
        scipy_cup(x, method, 1e-8)
        theirs_loose = time.perf_counter() - begin
        begin = time.perf_counter()
        for _ in range(20):
            lib.ung_call(cup, given, None, out, None)
        ours = (time.perf_counter() - begin) / 20
        faster.append((theirs_loose / ours, theirs / ours))
        hottest = float(np.max(solution.y[1])) + x["ambient_c"]
        errors = [abs(out[0] / solution.t_events[0][0] - 1), abs(out[1] / solution.t_events[1][0] - 1),
                  max(hottest - out[2], 0) / (out[2] + 273.15)]  # no step of theirs is hotter than the peak
        worst["film" if film else "cup"] = max(worst["film" if film else "cup"], *errors)
        if max(errors) > 1e-8:
            print(x, errors)
    for kind, error in worst.items():
        print(f"{kind}: worst error {error:.1e}")
    loose, tight = (sorted(column) for column in zip(*faster))
    print(f"faster than SciPy: {loose[0]:.0f} to {loose[-1]:.0f} times at 1e-8, {tight[0]:.0f} to {tight[-1]:.0f} at 1e-12")
    return 1 if max(worst.values()) > 1e-8 else 0


if __name__ == "__main__":
    sys.exit(main())
