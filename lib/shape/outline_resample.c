/* Points at equal steps along a traced outline, from the toe. */
#include <ungula/shape.h>

#include "shape/polygon.h"

#define NAME outline_resample
#define ROOM shape
#define TITLE "points at equal steps along a traced outline, from the toe"
#define ABOUT                                                                                                        \
    "Fills a list with points at equal steps of length along the polygon through the trace's points: the first at " \
    "the toe, then counterclockwise (seen with x to the toe: by the left), whichever way round the trace is. The "  \
    "toe is the outermost point in toe_direction; where several points are outermost (a square toe), the middle of " \
    "the outline between the first and the last of them. So row k of n lies at the share k/n of the perimeter: "     \
    "around_fraction of outline_at and of wall_profile. Whether the outline crosses itself is tested by "            \
    "outline_measure, not here."
#define ACCURACY "Points lie on the polygon within 1e-15 of its size; places along it within 1e-15 of the perimeter."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Own definition; within 1e-9 of the length points count as outermost too, for rounding not to choose", \
      "the toe")
#define INPUTS(F)                                                                                                    \
    F(toe_direction_deg, -360, 360, -180, 180, 0, NEUTRAL, MEASURE, "where the toe points: 0 along x, 90 along y")
#define OUTPUTS(F)                                                                                                   \
    F(perimeter_mm, FINITE, "length of the given outline")                                                           \
    F(spacing_mm, FINITE, "step along it")
#define REFUSALS(R)
#define LIST_REFUSALS(R) TRACE_REFUSALS(R)
#define CAUTIONS(C)
#define STANDING(S)                                                                                                  \
    S("Corners between the new points are cut; take as many points as the trace has, or more.")
#define LISTS(L)                                                                                                     \
    L(GIVEN, outline, ung_point, 3, TRACE_ROWS_MOST, NO_FIELD, POINT_FIELDS, TRACE_MEANING)                          \
    L(FILLED, resampled, ung_point, 1, TRACE_ROWS_MOST, NO_FIELD, POINT_FIELDS,                                      \
      "points at equal steps, the first at the toe, then counterclockwise; not in the memory of outline")

UNG_INLINE ung_outline_resample_out formula(const ung_outline_resample_in *in, const ung_rows *rows, ung__where *where)
{
    ung_outline_resample_out out = {0};
    const ung__polygon trace = ung__polygon_of(rows, 0, where);
    if (where->refusal != 0)
        return out;
    const double cosine = ung__cos_deg(in->toe_direction_deg), sine = ung__sin_deg(in->toe_direction_deg);
    const double toe = ung__polygon_outermost(&trace, cosine, sine);
    const size_t count = rows[1].count;
    ung__walk walk = ung__walk_start(&trace);
    int lapped = 0;
    for (size_t k = 0; k < count; k++) {
        double place = toe + trace.perimeter * (double)k / (double)count;
        if (place >= trace.perimeter) {
            place -= trace.perimeter;
            walk = lapped ? walk : ung__walk_start(&trace);
            lapped = 1;
        }
        const double share = ung__walk_to(&walk, place);
        rows[1].data[2 * k] = walk.from[0] + share * (walk.to[0] - walk.from[0]);
        rows[1].data[2 * k + 1] = walk.from[1] + share * (walk.to[1] - walk.from[1]);
    }
    out.perimeter_mm = trace.perimeter;
    out.spacing_mm = trace.perimeter / (double)count;
    return out;
}

#include "core/define.h"
