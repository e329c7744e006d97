/* hoof_band's belt on a traced outline, with the two quarters apart. */
#include <ungula/shape.h>

#include "core/contract.h"
#include "core/simple.h"
#include "shape/belt.h"
#include "shape/trace.h"

#define NAME outline_band
#define ROOM shape
#define TITLE "circumferences and areas of a belt round a traced hoof and its shoe"
#define ABOUT                                                                                                        \
    "As hoof_band, on a trace of the ground border instead of the standard outline, and with an angle for "          \
    "either quarter. x runs along toe_direction from the middle of the trace's length L, y to the left from "        \
    "the middle of its width W.\n"                                                                                   \
    "\n"                                                                                                             \
    "    p(t, z) = (sx x - z (cot toe + cot heel)/2, sy y, z)\n"                                                     \
    "    sx = 1 - z (cot toe - cot heel)/L,  sy = 1 - 2 z cot(quarter)/W with the quarter of that side\n"            \
    "    top(t) = (a + b x)/(1 + b ((cot toe + cot heel)/2 + x (cot toe - cot heel)/L)),  a and b as in hoof_band\n" \
    "    circumferences: lengths of the polygons of the images of the trace's points\n"                              \
    "    wall_area = sum over the trace's sides of the integral over z of |side x p_z|, taken at the side's middle\n"\
    "\n"                                                                                                             \
    "The rest is hoof_band's: below the bearing plane the belt lies on the shoe, whose outline stands out by "       \
    "overhang, is upright to upper_layer and leans in by edge_bevel from there on. The trace may run either "        \
    "way round and may end on its first point. Left and right are the foot's own as seen from above; in a "          \
    "picture of the sole they change places, and so they do in pixels counted downward. P - 2 pi d for a moved "     \
    "outline is exact while d is below the outline's least radius."
#define ACCURACY                                                                                                     \
    "Exact for the polygon's circumferences (relative error below 1e-12). Against the smooth outline the error "     \
    "falls with the square of the number of points: with 200 even points it is below 1e-3 of every result, "         \
    "with 2,000 below 1e-5."
#define SOURCES(S) \
    S(CHOICE, "Own model: ruled surface with straight fibers", "the wall") \
    S(CHOICE, "Steiner's formula for parallel curves (any text on convex sets)", "P - 2 pi d") \
    S(CHOICE, "Bulbs and frog take about a fifth of the outline; to be measured where it matters", "open_heel_fraction") \
    S(PRACTICE, "Common practice, no source", "tape and adhesive stay clear of the coronet; the heel stays open")
#define INPUTS(F)                                                                                                    \
    F(toe_direction_deg, -360, 360, -180, 180, 0, NEUTRAL, MEASURE, "where the toe points, from the x axis counterclockwise") \
    F(left_quarter_angle_deg, 45, 120, 65, 90, 78, PRACTICE, MEASURE, "wall of the left side to ground, inside the horn") \
    F(right_quarter_angle_deg, 45, 120, 65, 90, 78, PRACTICE, MEASURE, "wall of the right side to ground, inside the horn") \
    BELT_INPUTS(F)
#define OUTPUTS(F) BELT_OUTPUTS(F)
#define REFUSALS(R) \
    R(high_toe_mm, IN(low_mm), "the belt's upper edge must be above its lower edge at the toe") \
    R(high_heel_mm, IN(low_mm), "the belt's upper edge must be above its lower edge at the heel") \
    R(toe_angle_deg, IN(heel_angle_deg), "toe and heel meet below the belt's upper edge; lower it or check the angles") \
    R(left_quarter_angle_deg, IN(high_toe_mm), "the left wall reaches the middle below the belt's upper edge; lower it or check the angle") \
    R(right_quarter_angle_deg, IN(high_toe_mm), "the right wall reaches the middle below the belt's upper edge; lower it or check the angle") \
    R(high_toe_mm, IN(high_heel_mm), "the upper edge rises more steeply than these walls; bring its two heights nearer together") \
    R(overhang_mm, IN(upper_layer_mm), "the shoe's outline vanishes; give a smaller inset") \
    R(edge_bevel_deg, IN(low_mm), "the shoe's bevel leaves nothing at the belt's lower edge; give a smaller bevel or a higher edge")
#define LIST_REFUSALS(R) \
    R(0, "the trace's length along toe_direction must be 40 to 250 mm; check its scale and the direction") \
    R(0, "the trace's width across toe_direction must be 40 to 250 mm; check its scale and the direction") \
    R(0, "the trace crosses or touches itself, or repeats a point")
#define CAUTIONS(C) BELT_CAUTIONS(C)
#define STANDING(S) BELT_STANDING(S)
#define POINT_FIELDS(F, type) \
    F(type, x_mm, -1e7, 1e7, "along the x axis of the trace") \
    F(type, y_mm, -1e7, 1e7, "along its y axis")
#define LISTS(L) L(GIVEN, outline, ung_point, 3, 1000000, NO_FIELD, POINT_FIELDS, "points round the ground border, in order, either way")
#define WORK_PER_ROW 5 /* what ung__simple needs */
#define WORK_MORE 128
_Static_assert(UNG_SIMPLE_WORK == WORK_PER_ROW && UNG_SIMPLE_MORE == WORK_MORE, "workspace of ung__simple");

/* What the sums need. */
typedef struct belt {
    double low, a, b;              /* top plane: a + b x */
    double lean, taper_x;          /* p = ((1 - z taper_x) x - z lean, (1 - z taper_y) y, z) */
    double taper_left, taper_right;
} belt;

typedef struct image {
    double x, y, z;
} image;

static image image_at(const belt *w, ung__trace_point p, double z)
{
    double taper_y = p.y > 0 ? w->taper_left : w->taper_right;
    return (image){(1 - z * w->taper_x) * p.x - z * w->lean, (1 - z * taper_y) * p.y, z};
}

static double top_at(const belt *w, double x)
{
    return (w->a + w->b * x) / (1 + w->b * (w->lean + x * w->taper_x));
}

static double distance(image p, image q)
{
    double dx = q.x - p.x, dy = q.y - p.y, dz = q.z - p.z;
    return ung__sqrt(dx * dx + dy * dy + dz * dz);
}

/* Area of the wall above one side of the trace: x and y in its middle, 16 Gauss points up the wall. */
static double strip(const belt *w, ung__trace_point p, ung__trace_point q)
{
    double x = (p.x + q.x) / 2, y = (p.y + q.y) / 2, dx = q.x - p.x, dy = q.y - p.y;
    double taper_y = y > 0 ? w->taper_left : w->taper_right;
    double pz_x = -(w->lean + x * w->taper_x), pz_y = -y * taper_y; /* dp/dz */
    return ung__belt_wall(dx, dy, pz_x, pz_y, w->taper_x, taper_y, w->low, top_at(w, x));
}

static ung_outline_band_out formula(const ung_outline_band_in *in, const ung_rows *rows, ung__where *where)
{
    ung_outline_band_out out = {0};
    ung__trace t = ung__trace_from(rows[0].data, rows[0].count, in->toe_direction_deg);
    double cot_toe = ung__cot_deg(in->toe_angle_deg), cot_heel = ung__cot_deg(in->heel_angle_deg);
    double toe = in->high_toe_mm, heel = in->high_heel_mm, low = in->low_mm, length = t.length;

    where->refusal = toe <= low ? 1 : heel <= low ? 2 : 0;
    if (where->refusal == 0 && (length < 40 || length > 250 || t.width < 40 || t.width > 250)) {
        int fine = length >= 40 && length <= 250;
        where->refusal = fine ? 10 : 9;
        double extent = fine ? t.width : length;
        if (extent > 250) {
            where->value = extent;
            where->limit = 250;
        }
    }
    if (where->refusal != 0)
        return out;
    size_t meet[2] = {0, 1};
    if (t.count < 3 || !ung__simple(t.points, t.count, rows[1].data, meet)) {
        where->refusal = 11;
        where->row = (double)meet[0];
        where->other_row = (double)meet[1];
        return out;
    }

    belt w;
    w.low = ung__max(low, 0);
    w.lean = (cot_toe + cot_heel) / 2;
    w.taper_x = (cot_toe - cot_heel) / length;
    w.taper_left = 2 * ung__cot_deg(in->left_quarter_angle_deg) / t.width;
    w.taper_right = 2 * ung__cot_deg(in->right_quarter_angle_deg) / t.width;
    double top_length = length - toe * cot_toe + heel * cot_heel, highest = ung__max(toe, heel);
    w.b = (toe - heel) / top_length;
    w.a = toe - w.b * (length / 2 - toe * cot_toe);
    where->refusal = 1 - highest * w.taper_x <= 0      ? 3
                     : 1 - highest * w.taper_left <= 0 ? 4
                     : 1 - highest * w.taper_right <= 0 ? 5
                     : top_length <= 0                  ? 6
                                                        : 0;
    if (where->refusal != 0)
        return out;

    double around = 0, area = 0, at_low = 0, at_high = 0, wall = 0;
    ung__trace_point p = ung__trace_at(&t, t.count - 1);
    image p_low = image_at(&w, p, w.low), p_high = image_at(&w, p, top_at(&w, p.x));
    for (size_t i = 0; i < t.count; i++) {
        ung__trace_point q = ung__trace_at(&t, i);
        image q_low = image_at(&w, q, w.low), q_high = image_at(&w, q, top_at(&w, q.x));
        around += ung__sqrt((q.x - p.x) * (q.x - p.x) + (q.y - p.y) * (q.y - p.y));
        area += p.x * q.y - q.x * p.y; /* from the middle, so that nothing large cancels */
        at_low += distance(p_low, q_low);
        at_high += distance(p_high, q_high);
        wall += strip(&w, p, q);
        p = q;
        p_low = q_low;
        p_high = q_high;
    }
    ung__belt_shoe shoe = {low, in->overhang_mm, in->upper_layer_mm, in->edge_bevel_deg, in->open_heel_fraction};
    double gone;
    out = ung__belt_results(&shoe, around, ung__abs(area) / 2, at_low, at_high, wall, &gone);
    where->refusal = gone == 1 ? 7 : gone == 2 ? 8 : 0;
    return out;
}

#include "core/define.h"
