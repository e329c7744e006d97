"""The formulas of six calculations as somebody would write them who wants NumPy to win.

Everything that makes NumPy fast is used: results and temporaries exist before the call (`out=` everywhere), a sine
or cosine is taken once, divisions that several results share are one reciprocal, rare cases are patched where they
occur instead of computed everywhere, and hoof_band takes its outline through a matrix product.  Each function may be
given whole columns or chunks of them.  What they compute is the library's: the same ranges and relations are tested,
and bench.py compares all results before it measures.

    workspace = Workspace(n)
    FORMULAS["cast_length"](x, out, workspace)       x, out: dict of columns of n elements
"""
import math

import numpy as np

RADIANS = math.pi / 180
DEGREES = 180 / math.pi


class Refused(ValueError):
    pass


class Workspace:
    """Temporaries of n elements, made once and handed out again and again."""

    def __init__(self, n):
        self.n = n
        self.free = []
        self.free_masks = []

    def take(self, count=1):
        while len(self.free) < count:
            self.free.append(np.zeros(self.n))
        return self.free.pop() if count == 1 else [self.free.pop() for _ in range(count)]

    def give(self, *arrays):
        self.free.extend(arrays)

    def masks(self, count=1):
        while len(self.free_masks) < count:
            self.free_masks.append(np.zeros(self.n, bool))
        return self.free_masks.pop() if count == 1 else [self.free_masks.pop() for _ in range(count)]

    def give_masks(self, *masks):
        self.free_masks.extend(masks)


def check_ranges(x, fields, w):
    """As the library does: every column within its accepted range (NaN is not), counts and switches whole."""
    for field in fields:
        column = x[field["name"]]
        # faster than two comparisons and np.all; a NaN makes both extremes NaN
        if not (column.min() >= field["lower"] and column.max() <= field["upper"]):
            raise Refused(field["name"])
        if field["whole"]:
            t = np.rint(column, out=w.take())
            whole = np.array_equal(t, column)
            w.give(t)
            if not whole:
                raise Refused(field["name"])


def require(condition, text):
    if not condition:
        raise Refused(text)


def wall_from_border(x, out, w):
    y = out["wall_thickness_mm"]
    np.multiply(x["wall_angle_deg"], RADIANS, out=y)
    np.sin(y, out=y)
    np.multiply(y, x["border_width_mm"], out=y)


def glue_volume(x, out, w):
    first, top, each, t = w.take(4)
    m = w.masks()
    np.less(x["groove_spacing_mm"], x["groove_width_mm"], out=m)
    require(not m.any(), "groove_spacing_mm")
    np.subtract(x["pack_ml"], x["nozzle_ml"], out=each)
    require(each.min() > 0, "nozzle_ml")

    np.multiply(x["groove_depth_mm"], x["groove_width_mm"], out=first)
    np.divide(first, x["groove_spacing_mm"], out=first)
    np.multiply(first, 0.5, out=first)
    np.add(first, x["film_mm"], out=first)
    np.multiply(first, x["bonded_area_mm2"], out=first)
    np.multiply(x["wood_area_mm2"], x["wood_film_mm"], out=t)
    np.add(first, t, out=first)
    np.multiply(first, 1e-3, out=first)
    np.multiply(x["top_area_mm2"], x["top_film_mm"], out=top)
    np.multiply(top, 1e-3, out=top)
    np.add(first, top, out=out["net_ml"])
    np.add(x["waste_fraction"], 1, out=t)
    first_coat = np.multiply(first, t, out=out["first_coat_ml"])
    top_coat = np.multiply(top, t, out=out["top_coat_ml"])
    mixed = np.add(first_coat, top_coat, out=out["mixed_ml"])
    np.add(x["ratio_a_to_b"], 1, out=t)
    part_b = np.divide(mixed, t, out=out["part_b_ml"])
    np.multiply(part_b, x["ratio_a_to_b"], out=out["part_a_ml"])

    inverse = np.divide(1, each, out=t)

    def packs(volume, result):
        np.multiply(volume, inverse, out=result)
        np.subtract(result, 1e-9, out=result)
        np.ceil(result, out=result)
        return np.maximum(result, 1, out=result)

    count = packs(mixed, out["packs_count"])
    np.multiply(count, each, out=out["leftover_ml"])
    np.subtract(out["leftover_ml"], mixed, out=out["leftover_ml"])
    packs(first_coat, out["packs_separate_count"])
    packs(top_coat, first)
    if top.min() <= 0:
        np.less_equal(top, 0, out=m)
        np.copyto(first, 0, where=m)
    np.add(out["packs_separate_count"], first, out=out["packs_separate_count"])
    w.give(first, top, each, t)
    w.give_masks(m)


def cast_length(x, out, w):
    s, width, passes = x["band_height_mm"], x["tape_width_mm"], x["passes_count"]
    low, high = x["circumference_low_mm"], x["circumference_high_mm"]
    mean, bottom, top, inverse, climb, c0, c1, r0, r1, t = w.take(10)
    level = np.greater_equal(width, s, out=w.masks())
    np.add(low, high, out=mean)
    np.multiply(mean, 0.5, out=mean)

    np.subtract(high, low, out=t)
    np.divide(t, s, out=t)
    np.multiply(t, width, out=t)
    np.multiply(t, 0.5, out=t)
    np.add(low, t, out=bottom)
    np.subtract(high, t, out=top)
    np.copyto(bottom, mean, where=level)
    np.copyto(top, mean, where=level)

    np.subtract(1, x["overlap_fraction"], out=inverse)
    np.multiply(inverse, width, out=inverse)
    np.divide(1, inverse, out=inverse)
    rise = np.subtract(s, width, out=climb)
    np.maximum(rise, 0, out=rise)
    turns = np.multiply(rise, inverse, out=out["turns_per_pass"])
    np.add(turns, 1, out=turns)

    # climb = rise ((r/2 + sum^2/(2 r) + g d)/2)
    np.multiply(bottom, inverse, out=c0)
    np.multiply(top, inverse, out=c1)
    np.multiply(c0, c0, out=r0)
    np.add(r0, 1, out=r0)
    np.sqrt(r0, out=r0)
    np.multiply(c1, c1, out=r1)
    np.add(r1, 1, out=r1)
    np.sqrt(r1, out=r1)
    np.multiply(c1, r0, out=t)
    d = np.multiply(c0, r1, out=inverse)
    np.add(t, d, out=d)
    np.subtract(c1, c0, out=t)
    total = np.add(c0, c1, out=c0)
    np.divide(total, d, out=d)
    u = np.multiply(t, d, out=t)
    zero = np.equal(u, 0, out=w.masks())
    np.copyto(u, 1e-8, where=zero)  # asinh(u)/u is 1 there
    g = np.arcsinh(u, out=c1)
    np.divide(g, u, out=g)
    np.multiply(g, d, out=g)
    r = np.add(r0, r1, out=r0)
    np.multiply(total, total, out=total)
    np.divide(total, r, out=total)
    np.add(total, r, out=total)
    np.multiply(total, 0.5, out=total)
    np.add(total, g, out=total)
    np.multiply(total, 0.5, out=total)
    np.multiply(climb, total, out=climb)

    half = np.multiply(passes, 0.5, out=c0)
    above = np.ceil(half, out=c1)
    below = np.floor(half, out=half)
    path = np.multiply(x["anchor_turns"], bottom, out=out["path_length_mm"])
    np.multiply(passes, climb, out=climb)
    np.add(path, climb, out=path)
    np.multiply(above, top, out=top)
    np.add(path, top, out=path)
    np.multiply(below, bottom, out=bottom)
    np.add(path, bottom, out=path)
    np.add(x["stretch_fraction"], 1, out=t)
    tape = np.divide(path, t, out=out["tape_length_mm"])
    np.add(x["waste_fraction"], 1, out=t)
    np.multiply(tape, t, out=tape)
    rolls = np.divide(tape, x["roll_length_mm"], out=out["rolls_count"])
    np.subtract(rolls, 1e-9, out=rolls)
    np.ceil(rolls, out=rolls)
    np.maximum(rolls, 1, out=rolls)
    left = np.multiply(rolls, x["roll_length_mm"], out=out["leftover_mm"])
    np.subtract(left, tape, out=left)
    layers = np.minimum(width, s, out=out["layers"])
    np.multiply(layers, path, out=layers)
    np.multiply(s, mean, out=t)
    np.divide(layers, t, out=layers)
    np.multiply(layers, x["ply_mm"], out=out["thickness_mm"])
    anchors = np.floor(x["anchor_turns"], out=t)
    plies = np.add(anchors, below, out=out["edge_plies_count"])
    np.minimum(plies, above, out=plies)
    np.add(anchors, passes, out=anchors)
    np.copyto(plies, anchors, where=level)
    strain = np.multiply(x["toe_angle_deg"], RADIANS, out=out["edge_strain_fraction"])
    np.cos(strain, out=strain)
    np.multiply(strain, math.pi, out=strain)
    np.multiply(strain, width, out=strain)
    np.minimum(low, high, out=t)
    np.divide(strain, t, out=strain)
    w.give(mean, bottom, top, inverse, climb, c0, c1, r0, r1, t)
    w.give_masks(level, zero)


def heel_bevel(x, out, w):
    run, thick, up, lap = x["bevel_run_mm"], x["shoe_thickness_mm"], x["build_up_mm"], x["build_length_mm"]
    ground, b0, b1 = x["ground_length_mm"], x["width_start_mm"], x["width_end_mm"]
    t, angle, tangent, rest, proud = w.take(5)
    before, cleared, m = w.masks(3)
    np.multiply(x["bevel_angle_deg"], RADIANS, out=angle)
    np.tan(angle, out=tangent)
    np.cos(angle, out=angle)
    rise = np.multiply(run, tangent, out=out["rise_mm"])
    require(not np.greater(rise, thick, out=m).any(), "bevel_angle_deg")
    flat = np.subtract(ground, run, out=out["contact_length_mm"])
    require(flat.min() > 0, "bevel_run_mm")
    np.subtract(ground, lap, out=rest)
    require(rest.min() > 0, "build_length_mm")
    np.divide(flat, ground, out=out["contact_fraction"])
    np.divide(run, angle, out=out["face_length_mm"])
    np.greater(x["wrapped_before_count"], 0.5, out=before)
    np.greater_equal(run, lap, out=cleared)

    past = np.subtract(run, lap, out=t)
    np.negative(past, out=out["lap_left_mm"])
    np.maximum(out["lap_left_mm"], 0, out=out["lap_left_mm"])
    np.maximum(past, 0, out=past)
    np.multiply(past, tangent, out=past)
    np.subtract(up, past, out=proud)
    np.maximum(proud, 0, out=proud)
    after = w.masks()
    np.logical_not(before, out=after)
    np.copyto(out["lap_left_mm"], lap, where=after)
    np.copyto(proud, up, where=before)
    np.logical_and(before, cleared, out=m)
    np.copyto(proud, 0, where=m)

    edge = np.subtract(thick, rise, out=out["edge_left_mm"])
    np.copyto(t, proud)
    np.copyto(t, 0, where=after)
    np.add(edge, t, out=edge)
    np.minimum(thick, edge, out=out["wood_left_mm"])

    # tape_off counts where the tape was there and is cleared; with lap 0 it is 0 by itself
    some_run = w.take()
    np.copyto(some_run, run)
    no_run = run.min() <= 0
    if no_run:
        np.copyto(some_run, 1, where=run <= 0)
    inverse = np.divide(1, some_run, out=some_run)
    np.subtract(b0, b1, out=t)
    np.multiply(t, lap, out=t)
    np.multiply(t, inverse, out=t)
    np.multiply(t, 0.5, out=t)
    np.add(t, b1, out=t)
    np.multiply(t, lap, out=t)
    np.multiply(t, up, out=t)
    np.logical_not(m, out=m)
    np.copyto(t, 0, where=m)
    removed = np.add(b1, b1, out=out["removed_ml"])
    np.add(removed, b0, out=removed)
    np.multiply(removed, rise, out=removed)
    np.multiply(removed, run, out=removed)
    np.multiply(removed, 1 / 6, out=removed)
    np.add(removed, t, out=removed)
    np.multiply(removed, 1e-3, out=removed)

    np.divide(1, rest, out=rest)
    wedge = np.multiply(up, rest, out=out["wedge_before_deg"])
    np.arctan(wedge, out=wedge)
    np.multiply(wedge, DEGREES, out=wedge)
    wedge = np.multiply(proud, rest, out=out["wedge_after_deg"])
    np.arctan(wedge, out=wedge)
    np.multiply(wedge, DEGREES, out=wedge)

    limit = np.subtract(thick, x["least_edge_mm"], out=out["angle_limit_deg"])
    np.maximum(limit, 0, out=limit)
    np.multiply(limit, inverse, out=limit)
    np.arctan(limit, out=limit)
    np.multiply(limit, DEGREES, out=limit)
    np.minimum(limit, 75, out=limit)
    if no_run:
        np.copyto(limit, np.where(thick > x["least_edge_mm"], 75.0, 0.0), where=run <= 0)

    clear = out["run_to_clear_mm"]
    if tangent.min() <= 0:
        with np.errstate(divide="ignore", invalid="ignore"):
            np.divide(up, tangent, out=clear)
        np.copyto(clear, 0, where=up <= 0)
    else:
        np.divide(up, tangent, out=clear)
    np.copyto(clear, 0, where=before)
    np.add(clear, lap, out=clear)
    w.give(t, angle, tangent, rest, proud, some_run)
    w.give_masks(before, cleared, m, after)


class _Wall:
    """screw_depth: what every axis shares."""

    def __init__(self, x, w):
        self.x, self.w = x, w
        self.thickness, self.sole, self.inset = x["wall_thickness_mm"], x["sole_horn_mm"], x["inset_mm"]
        self.sin_b, self.cos_b, self.inverse_sin, self.corner, self.radius, self.whole = w.take(6)
        angle = np.multiply(x["wall_angle_deg"], RADIANS, out=self.inverse_sin)
        np.sin(angle, out=self.sin_b)
        np.cos(angle, out=self.cos_b)
        np.divide(1, self.sin_b, out=self.inverse_sin)
        np.multiply(self.sole, self.cos_b, out=self.corner)
        np.add(self.corner, self.thickness, out=self.corner)
        np.multiply(self.corner, self.inverse_sin, out=self.corner)
        np.multiply(x["screw_diameter_mm"], 0.5, out=self.radius)
        np.subtract(x["shoe_thickness_mm"], x["head_recess_mm"], out=self.whole)
        # the shoe's side
        self.depth, self.shelf, self.lean, self.cos_bevel = w.take(4)
        self.layered, mask = w.masks(2)  # layered: the beveled part counts
        np.less(x["upper_layer_mm"], 60, out=self.layered)
        np.less(x["upper_layer_mm"], x["shoe_thickness_mm"], out=mask)
        np.logical_and(self.layered, mask, out=self.layered)
        w.give_masks(mask)
        angle = np.multiply(x["edge_bevel_deg"], RADIANS, out=self.cos_bevel)
        np.tan(angle, out=self.lean)
        np.cos(angle, out=self.cos_bevel)
        np.multiply(x["upper_layer_mm"], self.lean, out=self.shelf)  # upper tan(bevel)
        np.multiply(self.whole, self.lean, out=self.lean)
        np.subtract(self.lean, self.shelf, out=self.lean)  # (whole - upper) tan(bevel)
        np.multiply(self.inset, self.sin_b, out=self.depth)  # of the entry, inward of the outer face

    def done(self):
        self.w.give(self.sin_b, self.cos_b, self.inverse_sin, self.corner, self.radius, self.whole, self.depth,
                    self.shelf, self.lean, self.cos_bevel)
        self.w.give_masks(self.layered)

    def to_sensitive(self, u, z, result):
        """Signed distance of (u, z) to the sensitive region."""
        face, floor, t = self.w.take(3)
        m, m2 = self.w.masks(2)
        np.multiply(z, self.cos_b, out=face)
        np.multiply(u, self.sin_b, out=t)
        np.subtract(face, t, out=face)
        np.add(face, self.thickness, out=face)
        np.subtract(self.sole, z, out=floor)
        np.subtract(u, self.corner, out=t)
        np.greater_equal(t, 0, out=m)
        np.multiply(t, t, out=t)
        np.multiply(floor, floor, out=result)
        np.add(result, t, out=result)
        np.sqrt(result, out=result)
        # abreast of the inner face: face distance; under the floor: floor distance; inside: the smaller depth
        np.multiply(face, self.cos_b, out=t)
        np.add(t, floor, out=t)
        np.less_equal(t, 0, out=m2)
        np.copyto(result, face, where=np.logical_and(m2, np.greater(face, 0), out=m2))
        np.copyto(result, floor, where=np.logical_and(m, np.greater(floor, 0, out=m2), out=m))
        np.maximum(face, floor, out=t)
        np.copyto(result, t, where=np.less_equal(t, 0, out=m))
        self.w.give(face, floor, t)
        self.w.give_masks(m, m2)
        return result


class _Axis:
    """screw_depth: one tilt, with what does not depend on the depth."""

    def __init__(self, wall, tilt):
        self.wall = wall
        x, w = wall.x, wall.w
        self.sin, self.cos, self.inverse_cos, self.closing, self.abreast, self.even, self.edge = w.take(7)
        t, t2 = w.take(2)
        angle = np.multiply(tilt, RADIANS, out=t)
        np.sin(angle, out=self.sin)
        np.cos(angle, out=self.cos)
        np.divide(1, self.cos, out=self.inverse_cos)
        np.multiply(self.sin, wall.sin_b, out=self.closing)
        np.multiply(self.cos, wall.cos_b, out=t)
        np.subtract(self.closing, t, out=self.closing)
        np.subtract(wall.corner, wall.inset, out=self.abreast)
        np.multiply(self.abreast, self.sin, out=self.abreast)
        np.multiply(wall.sole, self.cos, out=t)
        np.add(self.abreast, t, out=self.abreast)
        rate = np.subtract(self.cos, self.closing, out=t)
        if not rate.all():
            np.copyto(rate, 1, where=rate == 0)
        np.subtract(wall.sole, wall.thickness, out=self.even)
        np.add(self.even, wall.depth, out=self.even)
        np.divide(self.even, rate, out=self.even)
        # edge
        tangent = np.multiply(self.sin, self.inverse_cos, out=t)
        at = np.add(wall.inset, x["overhang_mm"], out=self.edge)
        np.multiply(x["pad_mm"], tangent, out=t2)
        np.subtract(at, t2, out=at)  # at the top
        shelf, head = w.take(2)
        np.multiply(wall.whole, tangent, out=head)
        np.subtract(at, head, out=head)  # at the head
        np.add(at, wall.shelf, out=shelf)
        np.minimum(at, head, out=at)
        np.subtract(head, wall.lean, out=head)
        np.minimum(head, shelf, out=head)  # to the beveled plane
        np.multiply(head, wall.cos_bevel, out=head)
        np.minimum(at, head, out=at, where=wall.layered)
        np.subtract(at, wall.radius, out=at)
        w.give(t, t2, shelf, head)

    def done(self):
        self.wall.w.give(self.sin, self.cos, self.inverse_cos, self.closing, self.abreast, self.even, self.edge)

    def covers(self, e, entry, inner, outer, white, tip, margin):
        """Covers at depth e; entry: distance to the sensitive region there."""
        wall, x, w = self.wall, self.wall.x, self.wall.w
        u, t = w.take(2)
        np.multiply(e, self.cos, out=tip)
        np.multiply(e, self.sin, out=u)
        np.add(u, wall.inset, out=u)
        np.multiply(u, wall.sin_b, out=outer)
        np.multiply(tip, wall.cos_b, out=t)
        np.subtract(outer, t, out=outer)
        np.minimum(outer, wall.depth, out=outer)
        np.subtract(outer, wall.radius, out=outer)
        wall.to_sensitive(u, tip, inner)
        np.minimum(inner, entry, out=inner)
        z, l, d = w.take(3)
        for place in (self.abreast, self.even):
            np.maximum(place, 0, out=l)
            np.minimum(l, e, out=l)
            np.multiply(l, self.sin, out=u)
            np.add(u, wall.inset, out=u)
            np.multiply(l, self.cos, out=z)
            np.minimum(inner, wall.to_sensitive(u, z, d), out=inner)
        np.subtract(inner, wall.radius, out=inner)
        np.multiply(wall.sole, self.inverse_cos, out=l)
        np.minimum(l, e, out=l)
        np.multiply(l, self.closing, out=white)  # rise of the depth from the outer face along the axis
        np.maximum(white, 0, out=white)
        np.add(white, wall.depth, out=white)
        np.subtract(wall.thickness, white, out=white)
        np.subtract(white, wall.radius, out=white)
        self.margin(inner, outer, white, tip, margin)
        w.give(u, t, z, l, d)

    def margin(self, inner, outer, white, tip, margin):
        x, t = self.wall.x, self.wall.w.take()
        np.subtract(inner, x["inner_margin_mm"], out=margin)
        for cover, least in ((outer, "outer"), (white, "white_line"), (self.edge, "edge")):
            np.subtract(cover, x[least + "_margin_mm"], out=t)
            np.minimum(margin, t, out=margin)
        np.subtract(x["height_limit_mm"], tip, out=t)
        np.minimum(margin, t, out=margin)
        self.wall.w.give(t)

    def depth_limit(self, limit):
        wall, x, w = self.wall, self.wall.x, self.wall.w
        far = 1e9
        inverse, t, near, face, by_face, enter, leave, u = w.take(8)
        opens, closes, m = w.masks(3)
        np.less(self.closing, 0, out=opens)
        np.greater(self.closing, 0, out=closes)
        np.copyto(inverse, self.closing)
        if not inverse.all():
            np.copyto(inverse, 1, where=inverse == 0)
        np.divide(1, inverse, out=inverse)
        # outer face, height
        np.multiply(x["height_limit_mm"], self.inverse_cos, out=limit)
        np.subtract(wall.depth, wall.radius, out=t)
        np.subtract(t, x["outer_margin_mm"], out=t)
        np.multiply(t, inverse, out=t)
        np.negative(t, out=t)
        np.minimum(limit, t, out=limit, where=opens)
        # white line
        np.subtract(wall.thickness, wall.depth, out=face)
        np.subtract(face, wall.radius, out=t)
        np.subtract(t, x["white_line_margin_mm"], out=t)
        np.multiply(t, inverse, out=t)
        np.multiply(wall.sole, self.inverse_cos, out=u)
        np.logical_and(np.less(t, u, out=m), closes, out=m)
        np.minimum(limit, t, out=limit, where=m)
        # sensitive region
        np.add(wall.radius, x["inner_margin_mm"], out=near)
        np.subtract(face, near, out=by_face)
        np.less_equal(by_face, 0, out=m)
        np.multiply(by_face, inverse, out=by_face)
        enter.fill(far)
        np.copyto(enter, by_face, where=closes)
        np.copyto(enter, 0, where=m)
        leave.fill(far)
        np.copyto(leave, by_face, where=opens)
        np.subtract(wall.sole, near, out=t)
        np.multiply(t, self.inverse_cos, out=t)
        np.maximum(enter, t, out=enter)
        np.maximum(enter, 0, out=enter)
        np.multiply(enter, self.sin, out=u)
        np.add(u, wall.inset, out=u)
        np.multiply(enter, self.cos, out=t)
        met = wall.to_sensitive(u, t, by_face)
        across = np.subtract(wall.corner, wall.inset, out=u)
        np.multiply(across, self.cos, out=across)
        np.multiply(wall.sole, self.sin, out=t)
        np.subtract(across, t, out=across)
        np.multiply(across, across, out=across)
        np.multiply(near, near, out=face)
        chord = np.subtract(face, across, out=face)
        np.less(chord, 0, out=opens)
        np.maximum(chord, 0, out=chord)
        np.sqrt(chord, out=chord)
        circle = np.subtract(self.abreast, chord, out=chord)
        np.logical_or(opens, np.less(circle, 0, out=m), out=m)
        np.copyto(circle, far, where=m)
        np.multiply(near, 1 + 1e-12, out=near)
        np.copyto(circle, enter, where=np.less_equal(met, near, out=m))
        np.copyto(circle, far, where=np.greater(enter, leave, out=m))
        np.minimum(limit, circle, out=limit)
        np.maximum(limit, 0, out=limit)
        w.give(inverse, t, near, face, by_face, enter, leave, u)
        w.give_masks(opens, closes, m)


def screw_depth(x, out, w):
    wall = _Wall(x, w)
    require(wall.whole.min() > 0, "head_recess_mm")
    axis = _Axis(wall, x["tilt_deg"])
    padded, t, entry, margin = w.take(4)
    np.add(wall.whole, x["pad_mm"], out=padded)
    np.multiply(padded, axis.inverse_cos, out=t)  # wood path
    e = np.subtract(x["screw_length_mm"], t, out=out["embedded_mm"])
    np.copyto(out["screw_length_limit_mm"], t)
    np.maximum(e, 0, out=e)
    np.multiply(x["screw_diameter_mm"], 2, out=t)
    np.subtract(e, t, out=out["hold_length_mm"])
    np.maximum(out["hold_length_mm"], 0, out=out["hold_length_mm"])
    np.multiply(padded, axis.sin, out=t)
    np.multiply(t, axis.inverse_cos, out=t)
    np.subtract(wall.inset, t, out=out["head_inset_mm"])

    zero = w.take()
    zero.fill(0)
    wall.to_sensitive(wall.inset, zero, entry)
    outer, white, inner, tip = w.take(4)
    # entry: every point of the axis is the entry itself
    np.subtract(entry, wall.radius, out=inner)
    np.subtract(wall.depth, wall.radius, out=outer)
    np.subtract(wall.thickness, wall.depth, out=white)
    np.subtract(white, wall.radius, out=white)
    axis.margin(inner, outer, white, zero, margin)
    limit = out["depth_limit_mm"]
    axis.depth_limit(limit)
    m = np.less(margin, 0, out=w.masks())
    np.copyto(limit, 0, where=m)
    w.give_masks(m)
    np.add(out["screw_length_limit_mm"], limit, out=out["screw_length_limit_mm"])

    axis.covers(e, entry, out["inner_cover_mm"], out["outer_cover_mm"], out["white_line_cover_mm"],
                out["tip_height_mm"], out["margin_mm"])
    np.copyto(out["edge_cover_mm"], axis.edge)
    deeper = np.add(e, x["seat_allowance_mm"], out=padded)
    worst = out["margin_worst_mm"]
    axis.covers(deeper, entry, inner, outer, white, tip, worst)
    axis.done()
    for add in (np.subtract, np.add):
        add(x["tilt_deg"], x["tilt_error_deg"], out=t)
        other = _Axis(wall, t)
        other.covers(deeper, entry, inner, outer, white, tip, margin)
        np.minimum(worst, margin, out=worst)
        other.done()

    np.subtract(90, x["wall_angle_deg"], out=out["parallel_tilt_deg"])
    np.multiply(wall.thickness, wall.inverse_sin, out=out["centred_inset_mm"])
    np.multiply(out["centred_inset_mm"], 0.5, out=out["centred_inset_mm"])
    np.subtract(wall.thickness, x["inner_margin_mm"], out=out["largest_diameter_mm"])
    np.subtract(out["largest_diameter_mm"], x["outer_margin_mm"], out=out["largest_diameter_mm"])
    w.give(padded, t, entry, margin, zero, outer, white, inner, tip)
    wall.done()


NODES, WEIGHTS = np.polynomial.legendre.leggauss(16)


def _outline_rows(angles):
    """Rows of y and dy/dt, both for half_scale 1, as factors of 1, k1, k2, k3."""
    c, s = np.cos(angles), np.sin(angles)
    y = [s] + [s * np.cos(k * angles) for k in (1, 2, 3)]
    dy = [c] + [c * np.cos(k * angles) - k * s * np.sin(k * angles) for k in (1, 2, 3)]
    return np.ascontiguousarray(np.transpose(y)), np.ascontiguousarray(np.transpose(dy))


def _levels():
    """First the nodes of the rule of 32, then what each doubling adds, with their weights (upper half only)."""
    first = np.arange(17) * (math.pi / 16)
    yield first, np.where((np.arange(17) % 16) == 0, 0.5, 1.0), 32
    n = 64
    while n <= 4096:
        angles = np.arange(1, n // 2, 2) * (2 * math.pi / n)
        yield angles, np.ones(len(angles)), n
        n *= 2


LEVELS = [(np.cos(a)[:, None], np.sin(a)[:, None], *_outline_rows(a), weights, n) for a, weights, n in _levels()]
BEND_C = np.linspace(-1, 1, 65)
# (x'y'' - y'x'') 4/(L W') as factors of 1, c, c^2, c^3 in g
BEND = np.transpose([BEND_C**k + 2 * BEND_C * (1 - BEND_C**2) * k * BEND_C ** max(k - 1, 0)
                     - (1 - BEND_C**2) ** 2 * k * (k - 1) * BEND_C ** max(k - 2, 0) for k in range(4)])


def _belt_sums(level, k, v):
    """Sums over the nodes of one level: 2-D arrays, nodes by elements."""
    c, s, y_rows, dy_rows, weights, _ = level
    x = v["half_length"] * c
    dx = v["half_length"] * -s
    y = y_rows @ k
    y *= v["half_scale"]
    dy = dy_rows @ k
    dy *= v["half_scale"]
    dx2, dy2 = dx * dx, dy * dy
    speed = np.sqrt(dx2 + dy2)
    low = np.sqrt(dx2 * v["low_x2"] + dy2 * v["low_y2"])
    lean = x * v["taper_x"]
    lean += v["lean"]  # -pz_x
    under = v["b"] * lean
    under += 1
    over = v["b"] * x
    over += v["a"]
    np.divide(1, under, out=under)
    top = over * under
    rise = top * v["taper_x"]
    np.subtract(1, rise, out=rise)
    rise *= under
    rise *= v["b"]
    rise *= dx
    py = y
    py *= v["taper_y"]  # -pz_y
    ex = top * v["taper_x"]
    np.subtract(1, ex, out=ex)
    ex *= dx
    ex -= lean * rise
    ey = top * v["taper_y"]
    np.subtract(1, ey, out=ey)
    ey *= dy
    ey -= py * rise
    ex *= ex
    ey *= ey
    ex += ey
    rise *= rise
    ex += rise
    high = np.sqrt(ex, out=ex)
    # |p_t x p_z|^2 is a square polynomial in z: about the middle of the belt and in halves of its height
    half = (top - v["low"]) * 0.5
    middle = (top + v["low"]) * 0.5
    x1 = dx * v["taper_x"]
    y1 = dy * v["taper_y"]
    x0 = dx - x1 * middle
    y0 = dy - y1 * middle
    n0 = y0 * lean - x0 * py
    n1 = y1 * lean - x1 * py
    q0 = x0 * x0 + y0 * y0 + n0 * n0
    q1 = x0 * x1 + y0 * y1 + n0 * n1
    q1 *= half
    q1 *= -2
    q2 = x1 * x1 + y1 * y1 + n1 * n1
    q2 *= half
    q2 *= half
    area = np.zeros_like(half)
    p, m, r = np.empty_like(half), np.empty_like(half), np.empty_like(half)
    for node, weight in zip(NODES[8:], WEIGHTS[8:]):
        np.multiply(q2, node * node, out=p)
        np.add(p, q0, out=p)
        np.multiply(q1, node, out=m)
        np.add(p, m, out=r)
        np.subtract(p, m, out=p)
        np.sqrt(r, out=r)
        np.sqrt(p, out=p)
        np.add(r, p, out=r)
        np.multiply(r, weight, out=r)
        np.add(area, r, out=area)
    area *= half
    return np.array([weights @ speed, weights @ low, weights @ high, weights @ area])


def hoof_band(x, out, w):
    length, width = x["hoof_length_mm"], x["hoof_width_mm"]
    toe, heel, low = x["high_toe_mm"], x["high_heel_mm"], x["low_mm"]
    heel_width, toe_width = x["heel_width_fraction"], x["toe_width_fraction"]
    cot_toe, cot_heel, cot_quarter = (1 / np.tan(x[name] * RADIANS)
                                      for name in ("toe_angle_deg", "heel_angle_deg", "quarter_angle_deg"))
    require((toe > low).all() and (heel > low).all(), "high")
    # outline: widest station and two widths give three linear equations
    c = 1 - 2 * x["widest_fraction"]
    s = np.sqrt(1 - c * c)
    c2, c3, s2, s3 = 2 * c * c - 1, c * (4 * c * c - 3), 2 * s * c, s * (4 * c * c - 1)
    e2, e3 = 2 * 0.8 * 0.8 - 1, 0.8 * (4 * 0.8 * 0.8 - 3)
    a1, b1, g1, d1 = c * c - s * s, c * c2 - 2 * s * s2, c * c3 - 3 * s * s3, -c
    sc, sc2, sc3 = s * c, s * c2, s * c3
    a2, b2, g2, d2 = 0.48 - toe_width * sc, 0.6 * e2 - toe_width * sc2, 0.6 * e3 - toe_width * sc3, toe_width * s - 0.6
    a3, b3 = -0.48 - heel_width * sc, 0.6 * e2 - heel_width * sc2
    g3, d3 = -0.6 * e3 - heel_width * sc3, heel_width * s - 0.6
    m1, m2, m3 = b2 * g3 - b3 * g2, b1 * g3 - b3 * g1, b1 * g2 - b2 * g1
    inverse = 1 / (a1 * m1 - a2 * m2 + a3 * m3)
    p1, p2, p3 = d2 * g3 - d3 * g2, d1 * g3 - d3 * g1, d1 * g2 - d2 * g1
    q1, q2, q3 = b2 * d3 - b3 * d2, b1 * d3 - b3 * d1, b1 * d2 - b2 * d1
    k1 = (d1 * m1 - d2 * m2 + d3 * m3) * inverse
    k2 = (a1 * p1 - a2 * p2 + a3 * p3) * inverse
    k3 = (a1 * q1 - a2 * q2 + a3 * q3) * inverse
    k = np.array([np.ones_like(k1), k1, k2, k3])
    half_scale = 0.5 * width / (s * (1 + c * k1 + c2 * k2 + c3 * k3))
    require((half_scale > 0).all() and (BEND @ np.array([1 - k2, k1 - 3 * k3, 2 * k2, 4 * k3]) > 0).all(), "outline")

    v = {"half_length": 0.5 * length, "half_scale": half_scale, "low": np.maximum(low, 0)}
    v["lean"] = 0.5 * (cot_toe + cot_heel)
    v["taper_x"] = (cot_toe - cot_heel) / length
    v["taper_y"] = 2 * cot_quarter / width
    v["low_x2"] = (1 - v["low"] * v["taper_x"]) ** 2
    v["low_y2"] = (1 - v["low"] * v["taper_y"]) ** 2
    top_length = length - toe * cot_toe + heel * cot_heel
    v["b"] = (toe - heel) / top_length
    v["a"] = toe - v["b"] * (v["half_length"] - toe * cot_toe)
    highest = np.maximum(toe, heel)
    require((highest * v["taper_x"] < 1).all() and (highest * v["taper_y"] < 1).all(), "angles")
    require((top_length > 0).all() and (1 + v["b"] * cot_toe > 0).all() and (1 + v["b"] * cot_heel > 0).all(), "rise")

    # doubling until every integral has settled to 1e-9; those that have leave the arrays
    sums = _belt_sums(LEVELS[0], k, v)
    result = sums * (4 * math.pi / LEVELS[0][-1])
    integral = np.empty_like(result)
    left = np.arange(len(length))
    for level in LEVELS[1:]:
        sums += _belt_sums(level, k, v)
        now = sums * (4 * math.pi / level[-1])
        settled = (np.abs(now - result) <= 1e-9 * np.abs(now)).all(axis=0)
        integral[:, left] = now
        result = now
        if settled.all():
            break
        if settled.any():
            on = ~settled
            left, sums, result, k = left[on], sums[:, on], result[:, on], k[:, on]
            v = {name: value[on] for name, value in v.items()}

    depth = np.maximum(-low, 0)
    upright = np.where(x["upper_layer_mm"] >= 60, depth, np.minimum(depth, x["upper_layer_mm"]))
    leaning = depth - upright
    bevel = x["edge_bevel_deg"] * RADIANS
    around = integral[0] + 2 * math.pi * x["overhang_mm"]
    below = around - 2 * math.pi * leaning * np.tan(bevel)
    on_shoe = low < 0
    require((((around > 0) & (below > 0)) | ~on_shoe).all(), "shoe")
    side = leaning / np.cos(bevel)
    out["perimeter_mm"][:] = integral[0]
    out["ground_area_mm2"][:] = math.pi * 0.5 * length * half_scale * (1 - k2 / 2)
    out["circumference_low_mm"][:] = np.where(on_shoe, below, integral[1])
    out["circumference_high_mm"][:] = integral[2]
    wall = out["wall_area_mm2"]
    wall[:] = integral[3]
    np.multiply(wall, 1 - x["open_heel_fraction"], out=out["bonded_area_mm2"])
    shoe = out["shoe_area_mm2"]
    shoe[:] = np.where(on_shoe, around * upright + (around + below) * 0.5 * side, 0)
    np.add(wall, shoe, out=out["covered_area_mm2"])
    out["slant_height_mm"][:] = wall / ((integral[1] + integral[2]) * 0.5) + upright + side


FORMULAS = {f.__name__: f for f in (wall_from_border, hoof_band, screw_depth, glue_volume, cast_length, heel_bevel)}
# Elements a chunk: 4096 numbers in each temporary, which hoof_band's are spread over 16 nodes of its outline.
CHUNK = {name: 256 if name == "hoof_band" else 4096 for name in FORMULAS}
