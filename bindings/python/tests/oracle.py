"""The formulas of hoof_band, glue_volume and cast_length once more, from the model and with 30 digits.

Written from the equations that the contracts print, with another method where there is one: plain trapezoid sums round
the outline (which converge geometrically for a smooth closed curve) and mpmath's quadrature for the rest.
"""

from mpmath import ceil, cos, cot, diff, floor, lu_solve, matrix, mp, mpf, pi, quad, quadts, radians, sin, sqrt

mp.dps = 30
NODES = 240  # trapezoid error below 1e-25 for these outlines: doubling the nodes changes nothing above it


def outline(length, width, widest, heel, toe):
    """x(t) and y(t): widest at `widest`, and of given widths one tenth of the length from rear and toe."""
    stations = {"widest": 1 - 2 * widest, "heel": mpf("-0.8"), "toe": mpf("0.8")}
    half_angle = {name: mp.acos(c) for name, c in stations.items()}
    basis = [lambda t, n=n: sin(t) * cos(n * t) for n in range(4)]
    at_widest = [b(half_angle["widest"]) for b in basis]
    rows = [[diff(b, half_angle["widest"]) for b in basis]]
    for name, fraction in (("heel", heel), ("toe", toe)):
        rows.append([b(half_angle[name]) - fraction * w for b, w in zip(basis, at_widest)])
    k = lu_solve(matrix([row[1:] for row in rows]), matrix([-row[0] for row in rows]))
    shape = [mpf(1), *k]
    scale = width / 2 / sum(c * w for c, w in zip(shape, at_widest))
    return lambda t: length / 2 * cos(t), lambda t: scale * sum(c * b(t) for c, b in zip(shape, basis))


def round_trip(function):
    return 2 * pi / NODES * sum(function(2 * pi * i / NODES) for i in range(NODES))


def hoof_band(length, width, toe_angle, quarter_angle, heel_angle, low, high, open_heel=mpf("0.2"),
              fractions=(mpf("0.45"), mpf("0.74"), mpf("0.62"))):
    """The belt with a level top, on a shoe that is flush and upright."""
    x, y = outline(mpf(length), mpf(width), *fractions)
    toe, quarter, heel = (cot(radians(mpf(a))) for a in (toe_angle, quarter_angle, heel_angle))
    lean, taper_x, taper_y = (toe + heel) / 2, (toe - heel) / length, 2 * quarter / width
    slope = {}

    def tangents(t):
        if t not in slope:
            slope[t] = (x(t), y(t), diff(x, t), diff(y, t))
        return slope[t]

    def ring(z):
        def element(t):
            _, _, dx, dy = tangents(t)
            return sqrt(((1 - z * taper_x) * dx) ** 2 + ((1 - z * taper_y) * dy) ** 2)

        return round_trip(element)

    def strip(z):
        def element(t):
            px, py, dx, dy = tangents(t)
            tx, ty = (1 - z * taper_x) * dx, (1 - z * taper_y) * dy
            zx, zy = -lean - px * taper_x, -py * taper_y  # third component of the tangent along z is 1
            return sqrt(ty**2 + tx**2 + (tx * zy - ty * zx) ** 2)

        return round_trip(element)

    depth = -mpf(low)
    perimeter, top = ring(0), ring(mpf(high))
    wall = quad(strip, [0, mpf(high)], maxdegree=3, method="gauss-legendre")
    shoe = perimeter * depth
    return {
        "perimeter_mm": perimeter,
        "circumference_low_mm": perimeter,
        "circumference_high_mm": top,
        "wall_area_mm2": wall,
        "bonded_area_mm2": wall * (1 - open_heel),
        "shoe_area_mm2": shoe,
        "covered_area_mm2": wall + shoe,
        "slant_height_mm": wall / ((perimeter + top) / 2) + depth,
    }


def glue_volume(bonded, wood, top, film=1, depth=mpf("0.5"), width=mpf("1.5"), spacing=6, wood_film=mpf("0.5"),
                top_film=mpf("0.5"), waste=mpf("0.15"), pack=mpf("59.147")):
    """Equal parts, no nozzle."""
    first = (bonded * (film + mpf(depth) * width / 2 / spacing) + wood * wood_film) / 1000 * (1 + waste)
    upper = top * top_film / 1000 * (1 + waste)
    mixed = first + upper
    packs = ceil(mixed / pack)
    return {
        "net_ml": mixed / (1 + waste),
        "first_coat_ml": first,
        "top_coat_ml": upper,
        "mixed_ml": mixed,
        "part_a_ml": mixed / 2,
        "packs_count": packs,
        "packs_separate_count": ceil(first / pack) + ceil(upper / pack),
        "leftover_ml": packs * pack - mixed,
    }


def cast_length(low, high, height, tape, overlap=mpf("0.5"), passes=2, anchor=1, waste=mpf("0.05"), roll=mpf("3657.6"),
                toe_angle=52):
    """Unstretched.  The climb by quadrature of the helix, not by its closed form."""
    tape = mpf(tape)
    advance = tape * (1 - overlap)
    wide = tape >= height
    first, last = (height / 2, height / 2) if wide else (tape / 2, height - tape / 2)

    def around(s):
        return low + (high - low) * s / height

    climb = mpf(0) if wide else quadts(lambda s: sqrt((around(s) / advance) ** 2 + 1), [first, last])
    path = anchor * around(first)
    for number in range(passes):
        path += climb + around(last if number % 2 == 0 else first)
    length = path * (1 + waste)
    rolls = ceil(length / roll)
    return {
        "path_length_mm": path,
        "tape_length_mm": length,
        "rolls_count": rolls,
        "leftover_mm": rolls * roll - length,
        "layers": path * min(tape, height) / (height * (low + high) / 2),
        "edge_plies_count": anchor + passes if wide else min(floor(anchor) + passes // 2, -(-passes // 2)),
        "edge_strain_fraction": tape / 2 * cos(radians(mpf(toe_angle))) / (min(low, high) / (2 * pi)),
    }
