/* What the plan looks for where it is not given, by trying the calculations: a screw's length, its entry, and passes. */
#include "job/plan.h"

#define FIELD(calculation, name) ung__##calculation##_inputs[offsetof(ung_##calculation##_in, name) / sizeof(double)]
extern const ung_field ung__screw_depth_inputs[], ung__screw_through_inputs[], ung__cast_length_inputs[];

/* The last whole number of steps that is not beyond `limit`. */
static double stock_below(double limit, double step)
{
    double count = (double)(long)(limit / step);
    while (count * step > limit)
        count--;
    while ((count + 1) * step <= limit)
        count++;
    return count * step;
}

double ung__plan_length_from_shoe(ung_screw_depth_in in, double stock_step)
{
    const ung_field *length = &FIELD(screw_depth, screw_length_mm);
    ung_screw_depth_out out;
    in.screw_length_mm = length->lower;
    if (ung_screw_depth(&in, &out, 0) != UNG_OK || !(out.margin_mm >= 0))
        return UNG__NAN;
    in.screw_length_mm = stock_below(ung__plan_smaller(out.screw_length_limit_mm, length->upper), stock_step);
    int reaches = ung_screw_depth(&in, &out, 0) == UNG_OK && out.embedded_mm > 0;
    return reaches ? in.screw_length_mm : UNG__NAN;
}

double ung__plan_length_through_wall(ung_screw_through_in in, double stock_step)
{
    const ung_field *length = &FIELD(screw_through, screw_length_mm);
    ung_screw_through_out out;
    in.screw_length_mm = length->lower;
    if (ung_screw_through(&in, &out, 0) != UNG_OK || !(out.longest_mm > 0))
        return UNG__NAN;
    double longest = stock_below(ung__plan_smaller(out.longest_mm, length->upper), stock_step);
    return longest >= ung__plan_larger(out.shortest_mm, length->lower) ? longest : UNG__NAN;
}

/* Margin with the entry and the length of `in`, or the longest of the box; NaN: refused, or no such screw. */
static double margin_at(ung_screw_through_in in, double stock_step)
{
    ung_screw_through_out out;
    in.screw_length_mm = ung__plan_given(in.screw_length_mm, ung__plan_length_through_wall(in, stock_step));
    return ung_screw_through(&in, &out, 0) == UNG_OK ? out.margin_mm : UNG__NAN;
}

double ung__plan_entry(ung_screw_through_in in, double stock_step)
{
    const ung_field *entry = &FIELD(screw_through, entry_height_mm);
    ung_screw_through_in any = in;
    ung_screw_through_out window;
    any.entry_height_mm = entry->usual_lower;
    any.screw_length_mm = FIELD(screw_through, screw_length_mm).lower;
    if (ung_screw_through(&any, &window, 0) != UNG_OK)
        return UNG__NAN;
    double top = in.belt_top_mm > 0 ? ung__plan_smaller(window.entry_high_mm, in.belt_top_mm) : window.entry_high_mm;
    double best = entry->usual_lower, most = -UNG__INFINITY;
    for (double height = 1; height <= top; height++) {
        if (height < window.entry_low_mm || height < entry->lower)
            continue;
        in.entry_height_mm = height;
        double margin = margin_at(in, stock_step);
        if (margin > most)
            most = margin, best = height;
    }
    return best;
}

static int same(const char *a, const char *b)
{
    while (*a && *a == *b)
        a++, b++;
    return *a == *b;
}

static int holds(const ung_caution *caution, size_t count, const char *code)
{
    for (size_t i = 0; i < count; i++)
        if (same(caution[i].code, code))
            return 1;
    return 0;
}

/* cast_length itself says what is too thin and what too thick. */
static int wrap(const ung_cast_length_in *in, ung_cast_length_out *out, int *thin, int *thick)
{
    ung_caution caution[UNG_CAUTIONS_MOST];
    if (ung_cast_length(in, out, 0) != UNG_OK)
        return 0;
    size_t n = ung_cautions(ung_cast_length_contract(), (const double *)in, (const double *)out, caution,
                            UNG_CAUTIONS_MOST);
    *thin = holds(caution, n, "thin") || holds(caution, n, "thin_edge");
    *thick = holds(caution, n, "thick");
    return 1;
}

double ung__plan_passes(ung_cast_length_in in)
{
    const ung_field *passes = &FIELD(cast_length, passes_count);
    ung_cast_length_out out;
    int thin = 1, thick = 0;
    for (in.passes_count = passes->lower; in.passes_count <= passes->upper; in.passes_count++) {
        if (!wrap(&in, &out, &thin, &thick))
            return passes->standard;
        if (!thin)
            break;
    }
    if (thin)
        return passes->upper;
    for (double rolls = out.rolls_count; in.passes_count < passes->usual_upper; in.passes_count++) {
        ung_cast_length_in more = in;
        more.passes_count++;
        wrap(&more, &out, &thin, &thick);
        if (thick || out.rolls_count > rolls)
            break;
    }
    return in.passes_count;
}
