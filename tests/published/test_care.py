#!/usr/bin/env python3
"""Packing, wear, growth, coffin joint and mass of the shoe by other routes than the library's: quadrature of bodies
where it has closed forms, SciPy's root finders where it solves by hand, sums of moved outlines where it has Steiner's
formula.  Written from the models' text alone.

    UNG_LIBRARY=.../libungula.so python3 test_care.py      UNG_TESTS=short for a quick run

Needs NumPy, SciPy and mpmath; without them it is skipped (exit status 77).
"""
import math
import os
import random
import sys

try:
    import numpy as np
    from scipy import integrate, optimize
    import mpmath  # noqa: F401  (test_independent needs it)
except ImportError as missing:
    if __name__ == "__main__":
        print("skipped:", missing)
        sys.exit(77)
    import pytest
    pytest.skip(str(missing), allow_module_level=True)

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import test_independent as independent  # noqa: E402
from test_independent import MANY, SHORT, TALLY, Calculation, Refusal, compare_random, finish, mp  # noqa: E402


# --- packing -----------------------------------------------------------------------------------------------------

def paraboloid_share(c):
    """Volume of 1 - x^2 - y^2 over the unit disk behind the line x = c, over the whole; a double integral."""
    def slice_at(x):
        half = math.sqrt(max(1 - x * x, 0))
        return integrate.fixed_quad(lambda y: 1 - x * x - y * y, -half, half, n=3)[0]  # exact: a polynomial
    return integrate.quad(slice_at, -1, c, epsabs=1e-13, epsrel=1e-13, limit=200)[0] / (math.pi / 2)


def disk_share(c):
    return integrate.quad(lambda x: 2 * math.sqrt(max(1 - x * x, 0)), -1, c, epsabs=1e-13, epsrel=1e-13)[0] / math.pi


def test_split():
    calculation = Calculation("packing_volume")
    generator = random.Random(81)
    for _ in range(40 if SHORT else 150):
        share = generator.uniform(0.001, 0.999)
        got = calculation.call(calculation.complete(sole_area_mm2=10000, dish_depth_mm=10, rear_fraction=share))
        c = optimize.brentq(lambda x: disk_share(x) - share, -1, 1, xtol=1e-13)
        # quad's own bound 1e-13 each for the line and the body; d area/dc is at least 0.08 here
        TALLY.near("packing_volume split", "line_ratio", got["line_ratio"], c, absolute=3e-12)
        TALLY.near("packing_volume split", "rear_dish_fraction", got["rear_dish_fraction"], paraboloid_share(c),
                   absolute=1e-12)
    finish()


def packing_volume(given):
    g = {name: mp.mpf(value) for name, value in given.items()}
    share, area = g["rear_fraction"], g["sole_area_mm2"]
    if share in (0, 1):
        c = 2 * share - 1
    else:  # bisection of the sector formula for the smaller side, in angle; 100 halvings of pi
        low, high = mp.mpf(0), mp.pi
        for _ in range(100):
            middle = (low + high) / 2
            part = (middle - mp.sin(middle)) / (2 * mp.pi)
            low, high = (middle, high) if part < min(share, 1 - share) else (low, middle)
        c = mp.cos(low / 2) * (1 if share > 0.5 else -1)
    root = mp.sqrt(1 - c * c)
    body = mp.mpf(1) / 2 + (c * (5 - 2 * c * c) * root + 3 * mp.asin(c)) / (3 * mp.pi)
    dish, layer = g["dish_depth_mm"] * area / 2000, g["gap_mm"] * area / 1000
    frog = g["frog_length_mm"] * g["frog_width_mm"] / 2 * g["frog_height_mm"] / 1000
    each = g["frog_groove_length_mm"] * g["frog_groove_width_mm"] * g["frog_groove_depth_mm"] / 6000
    grooves = g["frog_groove_count"] * each
    cavity = dish + layer - frog + grooves
    rear = body * dish + share * layer - frog + grooves
    front, waste = cavity - rear, 1 + g["waste_fraction"]
    if abs(rear) < 1e-12 * (dish + layer + frog):
        return None
    if rear < 0:
        raise Refusal
    return {"dish_ml": dish, "layer_ml": layer, "frog_ml": frog, "grooves_ml": grooves, "cavity_ml": cavity,
            "line_ratio": c, "rear_dish_fraction": body, "rear_ml": rear, "front_ml": front,
            "part_each_ml": rear * waste / g["part_count"], "putty_g": rear * waste * g["putty_density_g_ml"],
            "cushion_g": front * waste * g["cushion_density_g_ml"]}


def test_packing_volume():
    def tolerance(name, wanted, given):
        if name in ("line_ratio", "rear_dish_fraction"):
            return 0, 4e-16  # the library's claim
        area = given["sole_area_mm2"] / 1000
        parts = area * (given["dish_depth_mm"] + given["gap_mm"]) + given["frog_length_mm"] * \
            given["frog_width_mm"] * given["frog_height_mm"] / 2000 + given["frog_groove_count"] * \
            given["frog_groove_length_mm"] * given["frog_groove_width_mm"] * given["frog_groove_depth_mm"] / 6000
        times = 2 * 3 if name.endswith("_g") else 2 if name == "part_each_ml" else 1  # waste, density
        return 4e-16 * times, 1e-15 * parts * times  # the library's claim

    compare_random(Calculation("packing_volume"), packing_volume, tolerance, MANY, 82)
    finish()


def dam_volume(given):
    room = given["groove_room_mm"]
    if 0 < room < given["rope_height_mm"]:
        raise Refusal
    half = given["rope_width_mm"] / 2
    section = integrate.quad(lambda t: given["rope_height_mm"] * half * math.cos(t) ** 2, -math.pi / 2, math.pi / 2)[0]
    rope = section * given["rope_length_mm"] / 1000
    # a half ellipsoid by its level ellipses: pi a b (1 - z^2/h^2)
    a, b, h = given["pad_length_mm"] / 2, given["pad_width_mm"] / 2, given["pad_height_mm"]
    pad = integrate.quad(lambda z: math.pi * a * b * (1 - z * z / (h * h)), 0, h)[0] / 1000
    pads = pad * given["pad_count"]
    dam = (rope + pads) * (1 + given["waste_fraction"])
    return {"rope_ml": rope, "pads_ml": pads, "dam_ml": dam, "part_each_ml": dam / given["part_count"],
            "putty_g": dam * given["putty_density_g_ml"]}


def test_dam_volume():
    # quad of smooth functions: some roundings
    compare_random(Calculation("dam_volume"), dam_volume, lambda name, wanted, given: (4e-15, 0), MANY, 83)
    finish()


# --- wear and growth ---------------------------------------------------------------------------------------------

def heel_wear(given):
    g = {name: mp.mpf(value) for name, value in given.items()}
    ground, lap = g["ground_length_mm"], g["build_length_mm"]
    if lap >= ground or g["base_length_mm"] > ground or 0 < given["heel_cover_mm"] < 0.1:
        raise Refusal
    base = g["base_length_mm"] or ground - lap
    toe, heel, cover, up = g["toe_rate_mm_per_day"], g["heel_rate_mm_per_day"], g["heel_cover_mm"], g["build_up_mm"]
    through = cover / heel if cover > 0 and heel > 0 else mp.inf

    def height(t):  # what the toe has lost less what the heel has lost
        lost = heel * t if t <= through else cover + (t - through) * toe
        return up + toe * t - lost

    limit = base * mp.tan(mp.radians(g["wedge_limit_deg"]))
    if abs(abs(up) - limit) < 1e-12 * (up + limit) and up:
        return None
    horizon = min(through, mp.mpf(10) ** 9)
    if abs(up) >= limit:
        wedge_days = mp.mpf(0)
    elif abs(height(horizon)) < limit:
        wedge_days = mp.inf
    else:  # a straight line up to the horizon, its slope from two of its points
        sign = 1 if height(horizon) >= limit else -1
        slope = (height(mp.mpf(1) if through > 1 else through) - up) / (mp.mpf(1) if through > 1 else through)
        wedge_days = (sign * limit - up) / slope
    if wedge_days < mp.inf and abs(wedge_days - through) < 1e-9 * through:
        return None
    thick, least = g["shoe_thickness_mm"], g["least_toe_mm"]
    toe_days = mp.mpf(0) if thick <= least else (thick - least) / toe if toe > 0 else mp.inf
    first = min(wedge_days, toe_days)
    days = g["days"]
    return {"heel_up_mm": height(days), "wedge_start_deg": mp.degrees(mp.atan(up / base)),
            "wedge_end_deg": mp.degrees(mp.atan(height(days) / base)), "toe_left_mm": max(thick - toe * days, 0),
            "wedge_days": wedge_days, "toe_days": toe_days, "first_days": first,
            "first_count": 0 if first == mp.inf else 1 if wedge_days <= toe_days else 2}


def test_heel_wear():
    def tolerance(name, wanted, given):
        toe, heel = given["toe_rate_mm_per_day"], given["heel_rate_mm_per_day"]
        lost = given["build_up_mm"] + given["shoe_thickness_mm"] + (toe + heel) * given["days"]
        base = given["base_length_mm"] or given["ground_length_mm"] - given["build_length_mm"]
        rounding = 4e-16 * lost  # of what is taken from each other
        if name == "wedge_end_deg":
            return 2e-15, 58 * rounding / base
        if name in ("wedge_days", "first_days"):  # limit less build-up, over the difference of the rates
            limit = base * math.tan(math.radians(given["wedge_limit_deg"]))
            rate = abs(toe - heel) or 1
            worst = 1e-15 * (limit + given["build_up_mm"]) / rate
            return 2e-15 + 4e-16 * (toe + heel) / rate, worst
        return 2e-15, rounding

    compare_random(Calculation("heel_wear"), heel_wear, tolerance, MANY * 2, 84)
    finish()


def hoof_growth(given):
    g = {name: mp.mpf(value) for name, value in given.items()}
    added, fall = g["growth_mm_per_28_days"] / 28 * g["days"], g["angle_loss_deg_per_week"] / 7
    grown = g["toe_limit_mm"] / (g["growth_mm_per_28_days"] / 28)
    spare = g["toe_angle_deg"] - g["least_toe_angle_deg"]
    fallen = mp.mpf(0) if spare <= 0 else spare / fall if fall else mp.inf
    reset = min(grown, fallen, 42)
    along = mp.expj(mp.radians(g["toe_angle_deg"])) * added
    return {"added_mm": added, "forward_mm": along.real, "down_mm": along.imag, "angle_change_deg": -fall * g["days"],
            "angle_after_deg": g["toe_angle_deg"] - fall * g["days"], "length_days": grown, "angle_days": fallen,
            "reset_days": reset, "reset_weeks": reset / 7,
            "first_count": 3 if min(grown, fallen) > 42 else 1 if grown <= fallen else 2}


def test_hoof_growth():
    def tolerance(name, wanted, given):
        # the library's claim; the angle at the end is a difference of up to 80 and 156 degrees
        return 1e-15, 4e-14 if name == "angle_after_deg" else 0

    compare_random(Calculation("hoof_growth"), hoof_growth, tolerance, MANY * 2, 85)
    finish()


# --- coffin joint ------------------------------------------------------------------------------------------------

def coffin_lever(given):
    g = {name: mp.mpf(value) for name, value in given.items()}
    if g["setback_mm"] > g["breakover_mm"]:
        raise Refusal

    def moment(place):  # by virtual work: the force along the way of its point when the foot turns a little
        force = mp.matrix([g["forward_force_n"], g["vertical_force_n"]])
        arm = mp.matrix([place, -g["joint_height_mm"]])
        way = mp.matrix([-arm[1], arm[0]])  # a quarter turn of the arm
        return (force.T * way)[0] / 1000

    now, before = moment(g["breakover_mm"] - g["setback_mm"]), moment(g["breakover_mm"])
    size = abs(g["forward_force_n"] * g["joint_height_mm"]) + g["vertical_force_n"] * g["breakover_mm"]
    if size and abs(before) < 1e-12 * size:
        return None
    if before <= 0:
        raise Refusal
    return {"lever_mm": g["breakover_mm"] - g["setback_mm"], "moment_n_m": now, "moment_before_n_m": before,
            "change_fraction": (now - before) / before, "moment_n_mm_per_kg": now * 1000 / g["body_mass_kg"],
            "force_n_per_kg": g["vertical_force_n"] / g["body_mass_kg"],
            "joint_change_deg": g["wedge_deg"] * 98 / 100, "tendon_change_fraction": -g["wedge_deg"] / 25}


def test_coffin_lever():
    def tolerance(name, wanted, given):
        size = abs(given["forward_force_n"] * given["joint_height_mm"]) + given["vertical_force_n"] * (
            given["breakover_mm"] + abs(given["setback_mm"]))
        if name == "change_fraction":  # a quotient of differences
            before = given["vertical_force_n"] * given["breakover_mm"] + \
                given["forward_force_n"] * given["joint_height_mm"]
            return 0, 1e-15 * (size / before + (1 + abs(float(wanted))) * (1 + size / before))
        scale = {"moment_n_m": 1e-3, "moment_before_n_m": 1e-3, "moment_n_mm_per_kg": 1 / given["body_mass_kg"]}
        return 4e-16, 1e-15 * size * scale.get(name, 0)

    compare_random(Calculation("coffin_lever"), coffin_lever, tolerance, MANY * 2, 86)
    finish()


# --- mass --------------------------------------------------------------------------------------------------------

def shoe_mass(given):
    g = {name: mp.mpf(value) for name, value in given.items()}
    area, around, h = g["ground_area_mm2"], g["perimeter_mm"], g["lower_thickness_mm"]
    tangent = mp.tan(mp.radians(g["edge_bevel_deg"]))
    if abs(area - around ** 2 / (4 * mp.pi)) < 2e-9 * area:
        return None
    if area > around ** 2 / (4 * mp.pi):
        raise Refusal

    def face(z):  # at depth z below the upper layer
        return area - around * z * tangent + mp.pi * (z * tangent) ** 2

    if min(abs(face(h)), area * abs(1 - 2 * mp.pi * h * tangent / around)) < 1e-12 * area:
        return None
    if face(h) <= 0 or 2 * mp.pi * h * tangent >= around:
        raise Refusal
    lower = h * (face(0) + 4 * face(h / 2) + face(h)) / 6000  # the prismatoid rule: exact for a quadratic
    upper = area * g["upper_thickness_mm"] / 1000
    wood = upper + lower - g["removed_ml"]
    if abs(wood) < 1e-12 * (upper + lower + g["removed_ml"]):
        return None
    if wood < 0:
        raise Refusal
    masses = {"wood_g": wood * g["wood_density_g_ml"], "screws_g": g["screw_count"] * g["screw_g"],
              "tape_g": g["tape_length_mm"] / 1000 * (g["tape_width_mm"] / 1000) * g["tape_g_m2"],
              "adhesive_g": g["adhesive_ml"] * g["adhesive_density_g_ml"],
              "packing_g": g["putty_ml"] * g["putty_density_g_ml"] + g["cushion_ml"] * g["cushion_density_g_ml"]}
    total = sum(masses.values())
    return dict(masses, upper_ml=upper, lower_ml=lower, wood_ml=wood, total_g=total,
                percent_of_body_mass=100 * total / (1000 * g["body_mass_kg"]),
                multiple_of_280_g_ratio=total / 280, multiple_of_700_g_ratio=total / 700)


def test_shoe_mass():
    def tolerance(name, wanted, given):
        bulk = given["ground_area_mm2"] * (given["upper_thickness_mm"] + given["lower_thickness_mm"]) / 1000
        bulk += given["removed_ml"]  # of which the bevel and the heel are taken
        scale = {"lower_ml": 1, "wood_ml": 1, "wood_g": 1, "total_g": 1,
                 "percent_of_body_mass": 0.1 / given["body_mass_kg"],
                 "multiple_of_280_g_ratio": 1 / 280, "multiple_of_700_g_ratio": 1 / 700}
        return 2e-15, 2e-15 * bulk * scale.get(name, 0)

    compare_random(Calculation("shoe_mass"), shoe_mass, tolerance, MANY, 87)
    finish()


def test_moved_outlines():
    """A standard outline moved in along its own normals, and its layers added up (Gauss), against Steiner's formula."""
    standard, mass = Calculation("outline_standard"), Calculation("shoe_mass")
    generator = random.Random(88)
    t = 2 * math.pi * np.arange(4096) / 4096
    for _ in range(10 if SHORT else 40):
        shape = standard.complete(**{name: value for name, value in standard.draw(generator, False).items()})
        given = dict(shape)
        k, scale = independent.outline_terms(given)

        def derivatives(step):  # complex step: the first derivative without rounding
            return [np.imag(part) / 1e-30 for part in independent.outline_point(t + step, given, k, scale)]

        x, y = independent.outline_point(t, given, k, scale)
        dx, dy = derivatives(1e-30j)
        frequency = 1j * np.fft.fftfreq(4096, 1 / 4096)
        ddx, ddy = (np.fft.ifft(np.fft.fft(part) * frequency).real for part in (dx, dy))
        radius = ((dx * dx + dy * dy) ** 1.5 / (dx * ddy - dy * ddx)).min()
        speed = np.hypot(dx, dy)
        area = math.pi * np.mean(x * dy - y * dx)
        around = 2 * math.pi * np.mean(speed)
        h, bevel = generator.uniform(10, 25), generator.uniform(5, 40)
        inset = h * math.tan(math.radians(bevel))
        if inset > 0.95 * radius:
            continue

        def moved(depth):  # area inside the moved outline, by its own points and their derivatives
            mx, my = x - depth * dy / speed, y + depth * dx / speed
            mdx, mdy = (np.fft.ifft(np.fft.fft(part) * frequency).real for part in (mx, my))
            return math.pi * np.mean(mx * mdy - my * mdx)

        nodes, weights = np.polynomial.legendre.leggauss(6)
        layers = [moved(inset * (1 + node) / 2) for node in nodes]
        volume = h / 2 * float(weights @ np.array(layers)) / 1000
        got = mass.call(mass.complete(ground_area_mm2=area, perimeter_mm=around, upper_thickness_mm=0,
                                      lower_thickness_mm=h, edge_bevel_deg=bevel, screw_count=0, body_mass_kg=500))
        # trapezoids over a whole turn of smooth functions; derivatives by FFT of 4096 points: 4096 x 2e-16
        TALLY.near("shoe_mass moved outlines", "lower_ml", got["lower_ml"], volume, relative=1e-12)
    finish()


def test_printed():
    """Printed checks: 11000 mm2 and 8 mm deep; the pattern of O'Grady, Steward, Parks 2007 (6.4 and 19 mm, 45 degrees)."""
    independent.compare_table(Calculation("packing_volume"), [
        (dict(sole_area_mm2=11000, dish_depth_mm=8, gap_mm=1, frog_length_mm=75, frog_width_mm=45, frog_height_mm=6,
              frog_groove_count=2, frog_groove_length_mm=70, frog_groove_width_mm=12, frog_groove_depth_mm=10),
         {"cavity_ml": 47.675, "rear_ml": 27.0931740216, "front_ml": 20.5818259784}),
        (dict(sole_area_mm2=11000, dish_depth_mm=8, rear_fraction=0.3), {"rear_dish_fraction": 0.242289153926})], 3e-12)
    independent.compare_table(Calculation("shoe_mass"), [
        (dict(ground_area_mm2=14248.953788085, perimeter_mm=425.467670085608, upper_thickness_mm=6.4,
              lower_thickness_mm=19, edge_bevel_deg=45, screw_count=0, body_mass_kg=500),
         {"lower_ml": 201.115935527, "upper_ml": 91.1933042437, "wood_g": 163.693174272})], 3e-12)
    finish()


TESTS = (test_split, test_packing_volume, test_dam_volume, test_heel_wear, test_hoof_growth, test_coffin_lever,
         test_shoe_mass, test_moved_outlines, test_printed)

if __name__ == "__main__":
    sys.exit(independent.main(TESTS))
