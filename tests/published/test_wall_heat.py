#!/usr/bin/python3
"""wall_heat against SciPy's BDF on a discretization of its own: values at nodes (not means of cells), evenly spaced in
each layer, with ghost-free balances at the faces, and ln((i + a)/(1 - a)) instead of the share cured.

Run:  UNG_LIBRARY=path/to/libungula.so /usr/bin/python3 tests/published/test_wall_heat.py
      (Debian: python3-numpy python3-scipy; without them it says so and is skipped with status 77)
"""
import ctypes
import os
import sys

try:
    import numpy as np
    from scipy.integrate import solve_ivp
    from scipy.sparse import diags, bmat
except ImportError as missing:
    print("skipped:", missing)
    sys.exit(77)

LIBRARY = os.environ.get("UNG_LIBRARY", ".libs/libungula.so")
NAMES = ["adhesive_mm", "horn_mm", "start_c", "horn_c", "ambient_c", "exchange_w_m2k", "reference_time_s",
         "reference_temperature_c", "activation_energy_kj", "heat_j_g", "density_g_ml", "initiation_fraction",
         "gel_fraction", "final_fraction", "film_conductivity_w_mk", "horn_conductivity_w_mk", "film_capacity_mj_m3k",
         "horn_capacity_mj_m3k", "body_c", "tissue_count", "tissue_mm", "tissue_conductivity_w_mk",
         "tissue_capacity_mj_m3k"]
BASE = dict(zip(NAMES, [2, 5, 25, 30, 25, 10, 360, 20, 52, 300, 1, 0.01, 0.1, 1, 0.2, 0.25, 1.9, 2.4, 37, 0, 5, 0.5,
                        3.6]))
CASES = [dict(adhesive_mm=1), dict(adhesive_mm=2), dict(adhesive_mm=1.5, tissue_count=1),
         dict(adhesive_mm=1, tissue_count=1),
         dict(adhesive_mm=2.5, horn_mm=9, exchange_w_m2k=40, horn_c=15, start_c=15, ambient_c=5),
         dict(adhesive_mm=1.2, reference_time_s=200, heat_j_g=250, activation_energy_kj=60, initiation_fraction=0.03)]


def reference(p):
    layers = [(p["adhesive_mm"] / 1e3, p["film_conductivity_w_mk"], p["film_capacity_mj_m3k"] * 1e6, 80),
              (p["horn_mm"] / 1e3, p["horn_conductivity_w_mk"], p["horn_capacity_mj_m3k"] * 1e6, 100)]
    if p["tissue_count"]:
        layers.append((p["tissue_mm"] / 1e3, p["tissue_conductivity_w_mk"], p["tissue_capacity_mj_m3k"] * 1e6, 50))
    size = 1 + sum(layer[3] for layer in layers)
    heat, film_part, pulls = np.zeros(size), np.zeros(size), np.zeros(size - 1)
    at = 0
    temperature = np.zeros(size)
    for k, (thick, conductivity, capacity, cells) in enumerate(layers):
        step = thick / cells
        for j in range(cells):
            pulls[at + j] = conductivity / step
            for node in (at + j, at + j + 1):
                heat[node] += capacity * step / 2
                film_part[node] += capacity * step / 2 if k == 0 else 0
        if k == 0:
            temperature[:cells + 1] = p["start_c"]
        elif k == 1:
            # the node on the face has half of each: the heat of both, mixed
            shared = (film_part[at] * p["start_c"] + (heat[at] - film_part[at]) * p["horn_c"]) / heat[at]
            temperature[at:at + cells + 1] = p["horn_c"]
            temperature[at] = shared
        else:
            temperature[at:at + cells + 1] = np.linspace(p["horn_c"], p["body_c"], cells + 1)
        at += cells
    film, inner = layers[0][3] + 1, layers[0][3] + layers[1][3]
    main = np.zeros(size)
    main[:-1] -= pulls
    main[1:] -= pulls
    main[0] -= p["exchange_w_m2k"]
    matrix = diags([pulls, main, pulls], [-1, 0, 1]).tolil()
    source = np.zeros(size)
    source[0] = p["exchange_w_m2k"] * p["ambient_c"]
    if p["tissue_count"]:
        matrix[size - 1, :] = 0  # held at body_c
    matrix = diags(1 / heat) @ matrix.tocsr()
    source /= heat
    i, gel = p["initiation_fraction"], p["gel_fraction"]
    rate = np.log((i + gel) / (i * (1 - gel))) / ((1 + i) * p["reference_time_s"])
    rise = p["heat_j_g"] * p["density_g_ml"] / p["film_capacity_mj_m3k"] * (film_part / heat)[:film]
    energy, base = p["activation_energy_kj"] * 1e3 / 8.31446261815324, p["reference_temperature_c"] + 273.15

    def parts(y):
        kelvin, grown = y[:film] + 273.15, np.exp(np.minimum(y[size:], 60))
        speed = rate * (1 + i) * np.exp(energy * (1 / base - 1 / kelvin))  # of ln((i + a)/(1 - a))
        bell = (1 + i) * grown / (1 + grown) ** 2  # da by it
        return kelvin, grown, speed, bell

    def slope(_, y):
        _, _, speed, bell = parts(y)
        warming = matrix @ y[:size] + source
        warming[:film] += rise * speed * bell
        return np.concatenate([warming, speed])

    def jacobian(_, y):
        kelvin, grown, speed, bell = parts(y)
        by_t = speed * energy / kelvin ** 2
        own = np.zeros(size)
        own[:film] = rise * bell * by_t
        right = diags([rise * speed * bell * (1 - grown) / (1 + grown)], [0], shape=(size, film))
        return bmat([[matrix + diags(own), right], [diags([by_t], [0], shape=(film, size)), None]], format="csc")

    start = np.concatenate([temperature, np.full(film, np.log(i))])
    run = solve_ivp(slope, (0, 21600), start, method="BDF", jac=jacobian, rtol=1e-6, atol=1e-5, dense_output=True)
    assert run.success, run.message
    times = np.concatenate([np.linspace(0, 1500, 15001), np.arange(1501, 21601)])
    y = run.sol(times)
    face = y[inner]
    share = (np.exp(np.minimum(y[size:], 60)) - i) / (1 + np.exp(np.minimum(y[size:], 60)))
    mean = (share[1:-1].sum(axis=0) + (share[0] + share[-1]) / 2) / (film - 1)
    hot = face > 44
    harm = np.where(hot, 3.1e98 * np.exp(-75000 / (face + 273.15)), 0)
    middle = np.diff(times)
    return dict(film_peak_c=y[:film].max(), inner_peak_c=face.max(), inner_peak_time_s=times[face.argmax()],
                time_above_44_s=(middle * (hot[1:] & hot[:-1])).sum(), burn_damage_ratio=(
                    middle * (harm[1:] + harm[:-1]) / 2).sum(), film_gel_time_s=np.interp(gel, mean, times))


def main():
    library = ctypes.CDLL(LIBRARY)
    failed = 0
    for case in CASES:
        p = dict(BASE, **case)
        given, out = (ctypes.c_double * len(NAMES))(*[p[name] for name in NAMES]), (ctypes.c_double * 6)()
        status = library.ung_wall_heat(given, out, None)
        if status != 0:
            sys.exit(f"refused with status {status}: {p}")
        wanted = reference(p)
        # Tolerances: what the contract promises, and half as much for the reference's own nodes and steps.
        allowed = dict(film_peak_c=0.5 if wanted["film_peak_c"] < 100 else 1.5, inner_peak_c=0.1,
                       inner_peak_time_s=15,  # a flat top: 0.01 C of a step move it so far
                       time_above_44_s=10, burn_damage_ratio=0.015 * wanted["burn_damage_ratio"] + 1e-4,
                       film_gel_time_s=0.0015 * wanted["film_gel_time_s"])
        for value, (name, right) in zip(out, wanted.items()):
            wrong = not abs(value - right) <= allowed[name]
            failed += wrong
            print(f"{'WRONG ' if wrong else ''}{case} {name}: {value:.6g}, SciPy {right:.6g}")
    sys.exit(failed > 0)


main()
