/* The section square to the wall that screws are held against: covers of an axis, and how deep it may go.
 * The figure is at the top of screw_depth.c. */
#ifndef UNG_SCREW_WALL_H
#define UNG_SCREW_WALL_H

#include <ungula/screw.h>

#include "core/elementary.h"

/* Inputs of screw_depth that screw_layout takes too. */
#define SCREW_INPUTS(F)                                                                                              \
    F(screw_diameter_mm, 1.5, 10, 3.5, 5.5, REQUIRED, GIVEN, MEASURE, "outside of the thread")                       \
    F(screw_length_mm, 8, 150, 25, 50, REQUIRED, GIVEN, MEASURE, "nominal length")                                   \
    F(head_recess_mm, 0, 60, 0, 8, 0, NEUTRAL, MEASURE, "depth under the ground face of the plane the length is measured from") \
    F(pad_mm, 0, 30, 0, 10, 0, NEUTRAL, MEASURE, "pad or packing between shoe and horn")                             \
    F(overhang_mm, -20, 60, 0, 15, 0, NEUTRAL, MEASURE, "how far the shoe stands out beyond the wall")               \
    F(upper_layer_mm, 0, 60, 6, 10, 60, NEUTRAL, MEASURE, "upright part of the shoe's side; 60 = the whole side")    \
    F(edge_bevel_deg, 0, 60, 0, 45, 0, NEUTRAL, MEASURE, "how far the shoe's side leans in below the upright part")              \
    F(inner_margin_mm, 0, 15, 2, 4, 2, PRACTICE, MEASURE, "least horn wanted toward sensitive tissue")               \
    F(outer_margin_mm, 0, 15, 1, 3, 1.5, PRACTICE, MEASURE, "least horn wanted toward the outer face")               \
    F(white_line_margin_mm, 0, 10, 0, 2, 0, NEUTRAL, MEASURE, "least horn wanted toward the white line at the sole") \
    F(edge_margin_mm, 0, 20, 2, 6, 3, PRACTICE, MEASURE, "least wood wanted toward the shoe's side")                 \
    F(height_limit_mm, 5, 120, 15, 30, 25, PRACTICE, MEASURE, "highest place for the tip above the bearing plane")   \
    F(seat_allowance_mm, 0, 10, 1, 3, 2, PRACTICE, MEASURE, "how much deeper the screw may be pulled")               \
    F(tilt_error_deg, 0, 15, 3, 8, 5, PRACTICE, MEASURE, "how far a hand's drill strays from the tilt")

/* What one evaluation of the covers needs. */
typedef struct ung__wall {
    double thickness, sin_b, cos_b, sole, corner; /* corner: u where inner face and floor meet */
} ung__wall;

UNG_INLINE ung__wall ung__wall_of(double thickness, double angle_deg, double sole)
{
    ung__wall w;
    w.thickness = thickness;
    w.sin_b = ung__sin_deg(angle_deg);
    w.cos_b = ung__cos_deg(angle_deg);
    w.sole = sole;
    w.corner = (w.thickness + w.sole * w.cos_b) / w.sin_b;
    return w;
}

UNG_INLINE double ung__to_face(const ung__wall *w, double u, double z) /* outward of the inner face */
{
    return w->thickness - (u * w->sin_b - z * w->cos_b);
}

/* Signed distance to the sensitive region, positive outside: to the floor, the inner face, or their corner. */
UNG_INLINE double ung__to_sensitive(const ung__wall *w, double u, double z)
{
    double face = ung__to_face(w, u, z), floor = w->sole - z;
    double du = u - w->corner, corner = ung__sqrt(du * du + floor * floor);
    double beside = z - face * w->cos_b >= w->sole ? face : corner; /* abreast of the inner face, or of its lower end */
    double aside = face > 0 ? beside : corner, under = u >= w->corner ? floor : aside;
    double inside = ung__max(face, floor), outside = floor > 0 ? under : aside;
    return inside <= 0 ? inside : outside;
}

typedef struct ung__covers {
    double inner, outer, white_line, edge, margin;
} ung__covers;

/* Every cover of an axis with this tilt and embedment. */
UNG_INLINE ung__covers ung__covers_at(const ung_screw_depth_in *in, const ung__wall *w, double tilt, double embedded)
{
    double sin_t = ung__sin_deg(tilt), cos_t = ung__cos_deg(tilt), tan_t = sin_t / cos_t;
    double r = in->screw_diameter_mm / 2, e = embedded, inset = in->inset_mm;
    double tip_u = inset + e * sin_t, tip_z = e * cos_t;
    ung__covers c;

    /* The distance to a convex set is convex along the axis: its least value is at an end, abreast of the corner, or
     * inside where face and floor are equally near. */
    double closing = sin_t * w->sin_b - cos_t * w->cos_b; /* of axis and inner face, = -cos(B + tilt) */
    double abreast = (w->corner - inset) * sin_t + w->sole * cos_t;
    double rate = cos_t - closing, apart = w->sole - ung__to_face(w, inset, 0);
    double even = apart / (rate != 0 ? rate : 1); /* face and floor equally near; parallel to their bisector: any point does */
    double l1 = ung__clamp(abreast, 0, e), l2 = ung__clamp(even, 0, e);
    double least = ung__min(ung__to_sensitive(w, inset, 0), ung__to_sensitive(w, tip_u, tip_z));
    least = ung__min(least, ung__to_sensitive(w, inset + l1 * sin_t, l1 * cos_t));
    least = ung__min(least, ung__to_sensitive(w, inset + l2 * sin_t, l2 * cos_t));
    c.inner = least - r;

    double at_entry = inset * w->sin_b, at_tip = tip_u * w->sin_b - tip_z * w->cos_b;
    c.outer = ung__min(at_entry, at_tip) - r;

    double sole_l = ung__min(w->sole / cos_t, e); /* the white line counts up to the sole horn */
    double at_sole = (inset + sole_l * sin_t) * w->sin_b - sole_l * cos_t * w->cos_b;
    c.white_line = w->thickness - ung__max(at_entry, at_sole) - r;

    /* Inside the shoe, whose side is convex: the nearer of its upright and its beveled plane, each at an end of the axis
     * from the upper face down to the head. */
    double whole = in->shoe_thickness_mm - in->head_recess_mm, upper = in->upper_layer_mm;
    double tan_b = ung__tan_deg(in->edge_bevel_deg), cos_bevel = ung__cos_deg(in->edge_bevel_deg);
    double out = inset + in->overhang_mm;
    double at_top = out - in->pad_mm * tan_t, at_head = out - (whole + in->pad_mm) * tan_t;
    double upright = ung__min(at_top, at_head);
    double leaning = ung__min(at_top + upper * tan_b, at_head - (whole - upper) * tan_b) * cos_bevel;
    double nearer = ung__min(upright, leaning);
    double layered = upper < in->shoe_thickness_mm ? nearer : upright;
    c.edge = (upper < 60 ? layered : upright) - r;

    c.margin = ung__min(ung__min(c.inner - in->inner_margin_mm, c.outer - in->outer_margin_mm),
                        ung__min(c.white_line - in->white_line_margin_mm, c.edge - in->edge_margin_mm));
    c.margin = ung__min(c.margin, in->height_limit_mm - tip_z);
    return c;
}

/* The longest embedment that keeps every margin, given that the entry does.  The margins' regions are convex or half
 * planes, so each is left once. */
UNG_INLINE double ung__depth_limit(const ung_screw_depth_in *in, const ung__wall *w)
{
    const double far = 1e9; /* never: the height limit comes long before */
    double sin_t = ung__sin_deg(in->tilt_deg), cos_t = ung__cos_deg(in->tilt_deg);
    double r = in->screw_diameter_mm / 2, inset = in->inset_mm;
    double closing = sin_t * w->sin_b - cos_t * w->cos_b;
    double some = closing != 0 ? closing : 1;
    double depth = inset * w->sin_b; /* of the entry, inward of the outer face */

    double outer = closing < 0 ? (depth - r - in->outer_margin_mm) / -some : far;
    double white = (w->thickness - depth - r - in->white_line_margin_mm) / some;
    white = white < w->sole / cos_t ? white : far;
    white = closing > 0 ? white : far;
    double high = in->height_limit_mm / cos_t;

    /* Where the axis enters what is nearer than `near` to the sensitive region: the part common to both half planes,
     * or, beyond their corner, the circle round it. */
    double near = r + in->inner_margin_mm, face = w->thickness - depth;
    double by_face = (face - near) / some; /* face distance passes `near` here */
    double inside = face < near ? 0 : far, enter_face = closing > 0 ? by_face : inside; /* at the margin is not inside */
    double leave_face = closing < 0 ? by_face : far;
    double enter = ung__max(ung__max(enter_face, (w->sole - near) / cos_t), 0);
    double met = ung__to_sensitive(w, inset + enter * sin_t, enter * cos_t);
    double cu = w->corner - inset, along = cu * sin_t + w->sole * cos_t, across = cu * cos_t - w->sole * sin_t;
    double chord = near * near - across * across;
    double touched = along - ung__sqrt(ung__max(chord, 0));
    double circle = chord < 0 ? far : touched < 0 ? far : touched;
    double inner = enter > leave_face ? far : met <= near * (1 + 1e-12) ? enter : circle;

    return ung__max(ung__min(ung__min(outer, white), ung__min(high, inner)), 0);
}

#endif
