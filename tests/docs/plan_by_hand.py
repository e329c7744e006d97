"""The main job's calculations in another way: meshes, walks along the screw's axis, finite differences, a standard's own
formulas, SciPy's solvers.  Each takes the inputs of its calculation by their names and returns what it can tell."""
import math

import numpy as np
from scipy.integrate import quad, solve_ivp
from scipy.stats import norm


def cot(degrees):
    return 1 / math.tan(math.radians(degrees))


def band(f):
    """Belt round the hoof as a fine mesh: lengths of polygons and areas of flat cells.  With 3000 x 60 cells both are
    within 1e-6 of the smooth surface (halving the cells changes the last digit of 1e-6)."""
    length, width = f["hoof_length_mm"], f["hoof_width_mm"]

    def basis(t):
        return np.array([math.sin(t) * math.cos(k * t) for k in range(4)])

    def slope(t):
        return np.array([math.cos(t) * math.cos(k * t) - k * math.sin(t) * math.sin(k * t) for k in range(4)])

    widest = math.acos(1 - 2 * f["widest_fraction"])
    k = np.linalg.solve([basis(widest), slope(widest), basis(math.acos(-0.8)), basis(math.acos(0.8))],
                        [1, 0, f["heel_width_fraction"], f["toe_width_fraction"]])
    t = np.linspace(0, 2 * np.pi, 3001)
    x = length / 2 * np.cos(t)
    y = width / 2 * np.sin(t) * sum(k[n] * np.cos(n * t) for n in range(4))
    toe, heel, side = cot(f["toe_angle_deg"]), cot(f["heel_angle_deg"]), cot(f["quarter_angle_deg"])
    ht, hh, low = f["high_toe_mm"], f["high_heel_mm"], f["low_mm"]

    def point(z):
        return np.array([x * (1 - z * (toe - heel) / length) - z * (toe + heel) / 2, y * (1 - 2 * z * side / width), z])

    # Height at which each fiber meets the plane through both heights: bisection, not the closed form.
    x_toe, x_heel = point(np.full_like(t, ht))[0][0], point(np.full_like(t, hh))[0][1500]
    lower, upper = np.zeros_like(t), np.full_like(t, 2 * max(ht, hh))
    for _ in range(80):
        middle = (lower + upper) / 2
        plane = hh + (ht - hh) * (point(middle)[0] - x_heel) / (x_toe - x_heel)
        lower, upper = np.where(middle < plane, middle, lower), np.where(middle < plane, upper, middle)
    bottom, top = max(low, 0), lower

    def around(points):
        return np.sqrt((np.diff(points, axis=1) ** 2).sum(axis=0)).sum()

    area, steps = 0.0, 60
    for i in range(steps):
        a, b = (point(bottom + (top - bottom) * j / steps) for j in (i, i + 1))
        one, two = b[:, 1:] - a[:, :-1], b[:, :-1] - a[:, 1:]  # half the cross product of the diagonals
        area += np.sqrt((np.cross(one, two, axis=0) ** 2).sum(axis=0)).sum() / 2
    perimeter = around(point(np.zeros_like(t)))
    out = perimeter + 2 * math.pi * f["overhang_mm"]
    depth = max(-low, 0)
    upright, below = min(depth, f["upper_layer_mm"]), max(depth - f["upper_layer_mm"], 0)
    lower_edge = out - 2 * math.pi * below * math.tan(math.radians(f["edge_bevel_deg"]))
    slant = upright + below / math.cos(math.radians(f["edge_bevel_deg"]))
    shoe = out * upright + (out + lower_edge) / 2 * (slant - upright)
    high, at_bottom = around(point(top)), around(point(np.full_like(t, bottom)))
    return {"perimeter_mm": perimeter, "circumference_low_mm": lower_edge, "circumference_high_mm": high,
            "wall_area_mm2": area, "bonded_area_mm2": area * (1 - f["open_heel_fraction"]), "shoe_area_mm2": shoe,
            "covered_area_mm2": area + shoe, "slant_height_mm": area / ((at_bottom + high) / 2) + slant}


def screw(f):
    """Covers by walking along the axis in steps of a few micrometers; the longest screw by trying lengths."""
    angle, tilt = math.radians(f["wall_angle_deg"]), math.radians(f["tilt_deg"])
    radius, thick, sole = f["screw_diameter_mm"] / 2, f["wall_thickness_mm"], f["sole_horn_mm"]
    path = (f["shoe_thickness_mm"] - f["head_recess_mm"] + f["pad_mm"]) / math.cos(tilt)
    corner = sole / math.tan(angle) + thick / math.sin(angle)

    def ray(u, z, du, dz):
        along = np.maximum((u - corner) * du + (z - sole) * dz, 0)
        return np.hypot(u - corner - along * du, z - sole - along * dz)

    def covers(length):
        embedded = max(0, length - path)
        s = np.linspace(0, embedded, 20001)
        u, z = f["inset_mm"] + s * math.sin(tilt), s * math.cos(tilt)
        outward = (u - z / math.tan(angle)) * math.sin(angle)
        inside = (z > sole) & (outward > thick)
        distance = np.minimum(ray(u, z, math.cos(angle), math.sin(angle)), ray(u, z, 1, 0))
        d = np.linspace(0, f["shoe_thickness_mm"] - f["head_recess_mm"], 20001)
        from_side = f["inset_mm"] - (d + f["pad_mm"]) * math.tan(tilt) + f["overhang_mm"]
        bevel, under = math.radians(f["edge_bevel_deg"]), d - f["upper_layer_mm"]
        edge = from_side  # to the nearer side, where there is a beveled one
        if f["upper_layer_mm"] < min(60, f["shoe_thickness_mm"]):
            edge = np.minimum(edge, (from_side - under * math.tan(bevel)) * math.cos(bevel))
        return {"embedded_mm": embedded, "tip_height_mm": z[-1],
                "inner_cover_mm": np.where(inside, -distance, distance).min() - radius,
                "outer_cover_mm": outward.min() - radius,
                "white_line_cover_mm": (thick - outward)[z <= sole + 1e-12].min() - radius,
                "edge_cover_mm": edge.min() - radius}

    def margin(length):
        c = covers(length)
        return min(c["inner_cover_mm"] - f["inner_margin_mm"], c["outer_cover_mm"] - f["outer_margin_mm"],
                   c["white_line_cover_mm"] - f["white_line_margin_mm"], c["edge_cover_mm"] - f["edge_margin_mm"],
                   f["height_limit_mm"] - c["tip_height_mm"])

    low, high = path, path + 200  # both sheets keep their margins at the entry
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if margin(middle) >= 0 else (low, middle)
    return {**covers(f["screw_length_mm"]), "margin_mm": margin(f["screw_length_mm"]), "screw_length_limit_mm": low}


def glue(f):
    groove = f["groove_depth_mm"] * f["groove_width_mm"] / 2 / f["groove_spacing_mm"]
    first = (f["bonded_area_mm2"] * (f["film_mm"] + groove) + f["wood_area_mm2"] * f["wood_film_mm"]) / 1000
    top = f["top_area_mm2"] * f["top_film_mm"] / 1000
    waste, pack = 1 + f["waste_fraction"], f["pack_ml"] - f["nozzle_ml"]
    return {"net_ml": first + top, "first_coat_ml": first * waste, "top_coat_ml": top * waste,
            "mixed_ml": (first + top) * waste,
            "packs_count": math.ceil((first + top) * waste / pack),
            "packs_separate_count": math.ceil(first * waste / pack) + math.ceil(top * waste / pack)}


def tape(f):
    low, high, height, width = (f[n] for n in ("circumference_low_mm", "circumference_high_mm", "band_height_mm",
                                               "tape_width_mm"))
    advance, passes = width * (1 - f["overlap_fraction"]), int(f["passes_count"])

    def around(s):
        return low + (high - low) * s / height

    path = f["anchor_turns"] * around(width / 2)
    for number in range(passes):
        path += quad(lambda s: math.hypot(around(s) / advance, 1), width / 2, height - width / 2, epsabs=0)[0]
        path += around(height - width / 2 if number % 2 == 0 else width / 2)
    length = path / (1 + f["stretch_fraction"]) * (1 + f["waste_fraction"])
    layers = path * width / (height * (low + high) / 2)
    return {"path_length_mm": path, "tape_length_mm": length, "rolls_count": math.ceil(length / f["roll_length_mm"]),
            "layers": layers, "thickness_mm": layers * f["ply_mm"]}


def heel(f):
    """Tape before bevel, run past the lap (both sheets)."""
    run, tangent = f["bevel_run_mm"], math.tan(math.radians(f["bevel_angle_deg"]))
    start, end, lap = f["width_start_mm"], f["width_end_mm"], f["build_length_mm"]
    wood = quad(lambda s: (start + (end - start) * s / run) * s * tangent, 0, run)[0]
    tape_off = quad(lambda s: (start + (end - start) * s / run) * f["build_up_mm"], run - lap, run)[0]
    return {"rise_mm": run * tangent, "edge_left_mm": f["shoe_thickness_mm"] - run * tangent,
            "removed_ml": (wood + tape_off) / 1000, "contact_length_mm": f["ground_length_mm"] - run,
            "wedge_before_deg": math.degrees(math.atan(f["build_up_mm"] / (f["ground_length_mm"] - lap)))}


# Whether it holds: ANSI/AWC NDS-2018 in its own terms, and the bond as two bars on a grid

INCH = 25.4
GAUGE_6 = {"screw_diameter_mm": 0.138 * INCH, "root_diameter_mm": 0.113 * INCH, "head_diameter_mm": 0.262 * INCH,
           "pitch_mm": INCH / 18}  # NDS-2018, Table L3; threads to the inch: trade tables of gauges 1 to 7
PLYWOOD = 0.50  # NDS-2018, Table 12.3.3B, Structural I
ACCELERATION, TROT = 551, 1.13  # m/s2, Benoit et al. 1993; N/kg, Merkens et al. 1993
PSI = 0.45359237 * 9.80665 / 25.4**2  # N/mm2
AXIAL_FACTOR = 15700 / 2850  # Wood handbook Eq. 8-10 over NDS Eq. 12.2-2


def yields(f):
    """Im, Is, II, IIIm, IIIs, IV of NDS-2018, Tables 12.3.1A and B, with R_d = 1; the point is in the horn."""
    d, steel = f["root_diameter_mm"], 90000 * PSI
    horn, wood = f["horn_bearing_mpa"], 16600 * PSI * f["wood_gravity_ratio"]**1.84
    main, side = f["horn_length_mm"] - f["screw_diameter_mm"], f["wood_length_mm"]  # the point counts half: 12.3.5.3
    re_, rt = horn / wood, main / side
    k1 = (math.sqrt(re_ + 2 * re_**2 * (1 + rt + rt**2) + rt**2 * re_**3) - re_ * (1 + rt)) / (1 + re_)
    k2 = -1 + math.sqrt(2 * (1 + re_) + 2 * steel * (1 + 2 * re_) * d**2 / (3 * horn * main**2))
    k3 = -1 + math.sqrt(2 * (1 + re_) / re_ + 2 * steel * (2 + re_) * d**2 / (3 * horn * side**2))
    return [d * main * horn, d * side * wood, k1 * d * side * wood, k2 * d * main * horn / (1 + 2 * re_),
            k3 * d * side * horn / (2 + re_), d**2 * math.sqrt(2 * horn * steel / (3 * (1 + re_)))]


def thread_design(f):
    shape = 0.5 + 0.57735 * (f["screw_diameter_mm"] - f["root_diameter_mm"]) / (2 * f["pitch_mm"])
    held = f["horn_length_mm"] - 2 * f["screw_diameter_mm"]
    return f["horn_shear_mpa"] * math.pi * f["screw_diameter_mm"] * held * shape / AXIAL_FACTOR


def head_design(f):
    """NDS-2018 Eq. 12.2-6a and b: 690 pi D_H G^2 t, t at most 2.5 D_H."""
    head = f["head_diameter_mm"]
    return 690 * PSI * math.pi * head * f["wood_gravity_ratio"]**2 * min(f["wood_length_mm"], 2.5 * head)


def screw_hold(f):
    modes = yields(f)
    thread, head = thread_design(f), head_design(f)
    return {"thread_design_n": thread, "head_design_n": head, "axial_design_n": min(thread, head),
            "axial_ultimate_n": min(thread, head) * AXIAL_FACTOR,
            "yield_im_n": modes[0], "yield_is_n": modes[1], "yield_ii_n": modes[2], "yield_iiim_n": modes[3],
            "yield_iiis_n": modes[4], "yield_iv_n": modes[5], "lateral_yield_n": min(modes),
            "governing_mode_count": modes.index(min(modes)) + 1,
            "lateral_design_n": min(modes) / 2.2}  # R_d of a root up to 0.17 in


def peak_ratio(f):
    """Two bars under tension, joined by a film (Volkersen), as finite differences: the first bar's force falls from 1
    to 0 along the lap.  The step is 1/4000 of at most 40 mm, (0.27/mm x 0.01 mm)^2 = 1e-5."""
    n, lap = 4000, f["lap_mm"]
    h = lap / n
    film = f["adhesive_shear_modulus_mpa"] / f["film_mm"]
    one, two = film / (f["horn_modulus_mpa"] * f["horn_thickness_mm"]), film / (f["cover_modulus_mpa"]
                                                                               * f["cover_thickness_mm"])
    # force'' = one force - two (1 - force); solved by elimination from one end
    a, right = 2 + h * h * (one + two), np.full(n - 1, h * h * two)
    right[0] += 1
    factor = np.zeros(n - 1)
    for i in range(n - 1):
        below = a - (factor[i - 1] if i else 0)
        factor[i] = 1 / below
        right[i] = (right[i] + (right[i - 1] if i else 0)) / below
    force = np.zeros(n + 1)
    force[0] = 1
    for i in range(n - 1, 0, -1):
        force[i] = right[i - 1] + factor[i - 1] * force[i + 1]
    ends = (-3 * force[0] + 4 * force[1] - force[2], 3 * force[-1] - 4 * force[-2] + force[-3])
    return max(abs(end) / (2 * h) for end in ends) * lap


def hankinson(axial, lateral, pull, shear):
    """NDS-2018 Eq. 12.4-1: what a screw carries along the load's own direction."""
    angle = math.atan2(pull, shear)
    return axial * lateral / (axial * math.cos(angle)**2 + lateral * math.sin(angle)**2)


def leaning(axial, lateral, pull, shear, lean):
    """The least that a leaning screw carries along the load's own direction, wherever on the ground the shear points:
    by the load's own angle to the axis."""
    load, turns = math.hypot(pull, shear), np.linspace(0, 2 * math.pi, 20001)
    along = pull * math.cos(math.radians(lean)) + shear * math.sin(math.radians(lean)) * np.cos(turns)
    angle = np.arcsin(np.clip(along / load, -1, 1))
    return float(np.min(axial * lateral / (axial * np.cos(angle)**2 + lateral * np.sin(angle)**2)))


# The day

GAS, KELVIN = 8.31446261815324, 273.15


def arrhenius(kj, at, reference):
    return math.exp(1000 * kj / GAS * (1 / (at + KELVIN) - 1 / (reference + KELVIN)))


def working(f):
    t, ref, e = f["temperature_c"], f["reference_temperature_c"], f["activation_energy_kj"]
    safe = max(e, 62) if t > ref else min(e, 45)  # the band of the data sheets, 45 to 62 kJ/mol
    return {"working_time_s": f["reference_time_s"] * arrhenius(e, t, ref),
            "safe_time_s": f["reference_time_s"] * arrhenius(safe, t, ref),
            "wanted_temperature_c": 1 / (1 / (ref + KELVIN) + GAS / (1000 * e) * math.log(
                f["wanted_time_s"] / f["reference_time_s"])) - KELVIN}


def cup(f):
    """Radau's method at 1e-10 on what the calculation says that it solves; all printed digits hold."""
    i, gel = f["initiation_fraction"], f["gel_fraction"]
    k_ref = math.log((i + gel) / (i * (1 - gel))) / ((1 + i) * f["reference_time_s"])
    heat = f["exchange_w_m2k"] * f["surface_cm2"] * 1e-4 / (f["mass_g"] * f["heat_capacity_j_gk"])

    def slope(_, y):
        k = k_ref / arrhenius(f["activation_energy_kj"], y[1], f["reference_temperature_c"])
        rate = k * (i + y[0]) * (1 - y[0])
        return [rate, f["heat_j_g"] / f["heat_capacity_j_gk"] * rate - heat * (y[1] - f["ambient_c"])]

    def at_gel(_, y):
        return y[0] - gel

    def at_peak(_, y):
        return slope(_, y)[1]

    at_peak.direction = -1
    run = solve_ivp(slope, (0, 5000), [0, f["start_c"]], method="Radau", rtol=1e-10, atol=1e-12,
                    events=(at_gel, at_peak))
    return {"gel_time_s": run.t_events[0][0], "peak_temperature_c": run.y_events[1][-1][1],
            "peak_time_s": run.t_events[1][-1]}


def cast(f):
    """The fit of the published series, as its page states it."""
    return {"set_time_s": 60 * math.exp(2239.04973854811 / (f["water_c"] + KELVIN) - 5.9854340483574),
            "water_for_c": 2239.04973854811 / (math.log(f["wanted_time_s"] / 60) + 5.9854340483574) - KELVIN}


SAMPLES = 400000


def drawn(tasks, f, seed=2):
    """Chance by the end of each task, counted; NumPy's own generator and beta distribution.  0 where it is none's."""
    rng = np.random.default_rng(seed)
    pace, spread = (math.log1p(f[name]**2) for name in ("pace_fraction", "spread_fraction"))
    total, chances = np.zeros(SAMPLES), []
    slower = np.exp(rng.normal(-pace / 2, math.sqrt(pace), SAMPLES))
    lasts = f["working_time_s"] * np.exp(rng.normal(-spread / 2, math.sqrt(spread), SAMPLES))
    for low, likely, high, counts in tasks:
        if counts:
            share = (likely - low) / (high - low)
            total += low + (high - low) * rng.beta(1 + 4 * share, 1 + 4 * (1 - share), SAMPLES)
        chances.append(np.mean(total * slower > lasts) if counts else 0.0)
    return chances


def timeline(tasks, f):
    mean = variance = 0
    for low, likely, high, counts in tasks:
        if counts:
            m = (low + 4 * likely + high) / 6
            mean, variance = mean + m, variance + (m - low) * (high - m) / 7
    sd = math.sqrt(variance + f["pace_fraction"]**2 * (variance + mean**2))
    w, s, z = f["working_time_s"], f["spread_fraction"], norm.isf(f["limit_fraction"])
    low, high = 1.0, 1e6  # the time with just that chance
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (low, middle) if middle - mean > z * math.hypot(sd, s * middle) else (middle, high)
    return {"mean_s": mean, "sd_s": sd, "slack_s": w - mean,
            "normal_chance_fraction": norm.sf((w - mean) / math.hypot(sd, s * w)), "needed_working_time_s": low}
