/* A traced outline for job_plan: fitted, its belt measured, the screws of each side laid out; see plan.h. */
#include "plan.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double place_step_mm = 5; /* choice: finer than screws are set by hand */

static ung_rows rows(void *data, size_t count)
{
    return (ung_rows){(double *)data, count};
}

static void name_parts(outline *o)
{
    static const char *const name[OUTLINE_PARTS] = {"fit", "band", "profile", "left", "right"};
    const ung_calculation *of[OUTLINE_PARTS] = {ung_outline_fit_contract(), ung_outline_band_contract(),
                                                ung_wall_profile_contract(), ung_screw_layout_contract(),
                                                ung_screw_layout_contract()};
    for (int k = 0; k < OUTLINE_PARTS; k++)
        o->part[k] = (part){name[k], of[k], o->in[k], o->out[k], UNG_STEP_LEFT_OUT, NULL};
}

/* From the sheet; otherwise what job_plan has under that name; otherwise the standard value. */
static void fill(outline *o, int k, const sheet *s, const ung_job_plan_in *in, const ung_job_plan_out *plan)
{
    const ung_calculation *c = o->part[k].calculation, *depth = ung_screw_depth_contract();
    ung_standard(c, o->in[k]);
    for (size_t i = 0; i < ung_input_count(c); i++) {
        const char *name = ung_input(c, i)->name;
        const measurement *m = sheet_find(s, c, name);
        size_t input = plan_input_index(name);
        int of_screw = c == ung_screw_layout_contract() ? input_index(depth, name) : -1;
        if (m)
            o->in[k][i] = m->value;
        else if (of_screw >= 0)
            o->in[k][i] = ((const double *)&plan->screw.in)[of_screw];
        else if (strcmp(name, "low_mm") == 0)
            o->in[k][i] = plan->belt.in.low_mm;
        else if (input != UNG_NO_INDEX && !isnan(((const double *)in)[input]))
            o->in[k][i] = ((const double *)in)[input];
    }
}

/* The line of a sheet or a trace that a refusal is about. */
static int report(const outline *o, int k, const sheet *s, const ung_fault *fault)
{
    const measurement *m = fault->field ? sheet_find(s, o->part[k].calculation, fault->field) : NULL;
    char text[UNG_FAULT_TEXT];
    if (k == FIT && trace_refused(&o->trace, fault))
        return 1;
    if (!m && fault->rows)
        m = k == PROFILE ? o->station_row[fault->index < o->stations ? fault->index : 0] : s->trace;
    sheet_problem(s, m, fault->field ? fault->field : "trace", ung_fault_text(fault, text));
    return 1;
}

static int call(outline *o, int k, const sheet *s, const ung_rows *list)
{
    ung_fault fault;
    if (ung_call(o->part[k].calculation, o->in[k], list, o->out[k], &fault) != UNG_OK)
        return report(o, k, s, &fault);
    o->part[k].state = UNG_STEP_DONE;
    return 0;
}

static double result(const outline *o, int k, const char *name)
{
    return output_of(o->part[k].calculation, o->out[k], name);
}

static int fit(outline *o, const sheet *s)
{
    /* The library says which two points meet where a trace crosses itself; the fit alone would not. */
    const ung_calculation *measure = ung_outline_measure_contract(), *c = o->part[FIT].calculation;
    ung_rows crossing[] = {rows(o->trace.point, o->trace.count), rows(o->work, ung_workspace(measure, o->trace.count))};
    double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
    ung_fault fault;
    ung_standard(measure, in);
    if (ung_call(measure, in, crossing, out, &fault) != UNG_OK)
        return report(o, FIT, s, &fault);
    ung_rows list[] = {rows(o->trace.point, o->trace.count), rows(o->point, OUTLINE_POINTS),
                       rows(o->work, ung_workspace(c, o->trace.count))};
    return call(o, FIT, s, list);
}

static int measure_band(outline *o, const sheet *s, ung_job_plan_in *in)
{
    ung_rows list[] = {rows(o->point, OUTLINE_POINTS),
                       rows(o->work, ung_workspace(o->part[BAND].calculation, OUTLINE_POINTS))};
    if (call(o, BAND, s, list))
        return 1;
    ung_outline_band_out *band = (ung_outline_band_out *)o->out[BAND];
    in->perimeter_mm = band->perimeter_mm, in->ground_area_mm2 = band->ground_area_mm2;
    in->circumference_low_mm = band->circumference_low_mm, in->circumference_high_mm = band->circumference_high_mm;
    in->band_height_mm = band->slant_height_mm, in->bonded_area_mm2 = band->bonded_area_mm2;
    in->wood_area_mm2 = band->shoe_area_mm2, in->top_area_mm2 = band->covered_area_mm2;
    return 0;
}

/* A place on one side of the fitted outline. */
static ung_outline_at_out outline_place(const outline *o, int left, double share)
{
    ung_outline_at_in in = ung_outline_at_standard();
    ung_outline_at_out at;
    in.toe_direction_deg = o->in[FIT][input_index(o->part[FIT].calculation, "toe_direction_deg")];
    in.left_side_count = left;
    in.side_fraction = share;
    if (ung_outline_at(&in, o->point, OUTLINE_POINTS, &at, NULL) != UNG_OK) /* cannot be: it was fitted */
        at = (ung_outline_at_out){.around_fraction = NAN};
    return at;
}

/* Stations of the sheet in the order of the profile; each is there with both its fields. */
static void gather_stations(outline *o, const sheet *s)
{
    for (const measurement *m = s->row; m < s->row + s->rows && o->stations < WALL_STATIONS; m++) {
        if (m->about != STATION || strcmp(m->name, "wall_thickness_mm") != 0)
            continue;
        ung_wall_station here = {outline_place(o, m->side == LEFT_SIDE, m->place).around_fraction, m->value, NAN};
        for (const measurement *n = s->row; n < s->row + s->rows; n++)
            if (n->about == STATION && n->place == m->place && strcmp(n->name, "wall_angle_deg") == 0 &&
                (n->side == m->side || m->place == 0 || m->place == 1))
                here.wall_angle_deg = n->value;
        size_t i = o->stations++;
        for (; i > 0 && o->station[i - 1].around_fraction > here.around_fraction; i--) {
            o->station[i] = o->station[i - 1];
            o->station_row[i] = o->station_row[i - 1];
        }
        o->station[i] = here;
        o->station_row[i] = m;
    }
}

static int is_on(const measurement *m, int side)
{
    return m->about == STATION && (m->side == side || m->place == 0 || m->place == 1);
}

/* The wall at one place, between its stations. */
static int wall_at(const outline *o, double around, ung_wall_station *wall)
{
    ung_wall_profile_in in = ung_wall_profile_standard();
    in.start_fraction = around;
    ung_wall_profile_out out;
    return ung_wall_profile(&in, o->station, o->stations, wall, 1, &out, NULL) == UNG_OK;
}

/* Places between the first and the last station of a side: there the wall was measured. */
static void gather_places(outline *o, const sheet *s, int k, double sole)
{
    layout *l = o->layout + (k - LEFT);
    double length = outline_place(o, k == LEFT, 0).side_length_mm, first = 1, last = 0;
    for (const measurement *m = s->row; m < s->row + s->rows; m++)
        if (is_on(m, k == LEFT ? LEFT_SIDE : RIGHT_SIDE)) {
            first = fmin(first, m->place);
            last = fmax(last, m->place);
        }
    for (double from_toe = 0; from_toe <= length && l->places < PLACES_MOST; from_toe += place_step_mm) {
        double share = from_toe / length;
        ung_wall_station wall;
        if (share < first || share > last || !wall_at(o, outline_place(o, k == LEFT, share).around_fraction, &wall))
            continue;
        l->place[l->places++] =
            (ung_screw_station){share, from_toe, wall.wall_thickness_mm, wall.wall_angle_deg, sole};
    }
}

static int lay_out(outline *o, const sheet *s, int k, const ung_job_plan_in *in)
{
    layout *l = o->layout + (k - LEFT);
    gather_places(o, s, k, in->sole_horn_mm);
    l->screws = (size_t)sheet_screws(s)->value;
    if (l->places == 0) {
        sheet_problem(s, o->station_row[0], NULL,
                      k == LEFT ? "no place for a screw between the left side's stations"
                                : "no place for a screw between the right side's stations");
        return 1;
    }
    ung_rows list[] = {rows(l->place, l->places), rows(l->screw, l->screws),
                       rows(o->work, ung_workspace(o->part[k].calculation, l->places))};
    return call(o, k, s, list);
}

/* The place of a side that stands for it in the plan: that of the screw with the least margin, otherwise the thinnest
 * station. */
typedef struct side {
    double wall_thickness_mm, wall_angle_deg, inset_mm, tilt_deg, screws;
} side;

static side side_of(const outline *o, const sheet *s, int k)
{
    const layout *l = o->layout + (k - LEFT);
    side at = {INFINITY, NAN, NAN, NAN, 0};
    if (o->part[k].state == UNG_STEP_DONE) {
        size_t weakest = (size_t)result(o, k, "weakest_count");
        at.screws = result(o, k, "placed_count");
        for (size_t i = 0; weakest && i < l->places; i++)
            if (l->place[i].from_toe_mm == l->screw[weakest - 1].from_toe_mm) {
                const ung_screw_place *screw = l->screw + (weakest - 1);
                return (side){l->place[i].wall_thickness_mm, l->place[i].wall_angle_deg, screw->inset_mm,
                              screw->tilt_deg, at.screws};
            }
    }
    for (size_t i = 0; i < o->stations; i++)
        for (const measurement *m = s->row; m < s->row + s->rows; m++)
            if (is_on(m, k == LEFT ? LEFT_SIDE : RIGHT_SIDE) && m->place == o->station_row[i]->place &&
                (m->side == o->station_row[i]->side || m->place == 0 || m->place == 1) &&
                o->station[i].wall_thickness_mm < at.wall_thickness_mm) {
                at.wall_thickness_mm = o->station[i].wall_thickness_mm;
                at.wall_angle_deg = o->station[i].wall_angle_deg;
            }
    return at;
}

static void give_sides(const outline *o, const sheet *s, ung_job_plan_in *in)
{
    side first = side_of(o, s, LEFT), other = side_of(o, s, RIGHT);
    int laid_out = o->part[LEFT].state == UNG_STEP_DONE && o->part[RIGHT].state == UNG_STEP_DONE;
    int both = first.screws > 0 && other.screws > 0;
    if (laid_out) {
        in->screw_count = first.screws + other.screws;
        if (in->screw_count == 0)
            in->screw_way_count = 0; /* no side has room: the layout says so */
        else if (first.screws == 0) /* one side alone */
            first = other;
        if (in->screw_count > 0)
            in->inset_mm = first.inset_mm, in->tilt_deg = first.tilt_deg;
    }
    in->wall_thickness_mm = first.wall_thickness_mm, in->wall_angle_deg = first.wall_angle_deg;
    if (!laid_out || both)
        in->other_wall_thickness_mm = other.wall_thickness_mm, in->other_wall_angle_deg = other.wall_angle_deg;
    if (laid_out && both) {
        in->other_inset_mm = other.inset_mm, in->other_tilt_deg = other.tilt_deg;
        in->other_screw_count = other.screws;
    }
}

/* What the outline and its stations say cannot stand on the sheet too: one of the two would not be used. */
static int report_twice(const sheet *s, const ung_job_plan_in *before, const ung_job_plan_in *after)
{
    int problems = 0;
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        const measurement *m = sheet_plan_input(s, i);
        double was = ((const double *)before)[i], is = ((const double *)after)[i];
        if (!m || is == was || (isnan(is) && isnan(was)))
            continue;
        sheet_problem(s, m, NULL, "the trace or the stations of the wall say this already");
        problems++;
    }
    return problems;
}

static int report_shape(const sheet *s)
{
    int problems = 0;
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        const measurement *m = sheet_plan_input(s, i);
        if (!m || strcmp(ung_plan_input(i).calculation, "hoof_band") != 0)
            continue;
        int used = strcmp(m->name, "quarter_angle_deg") == 0 ||
                   input_index(ung_outline_band_contract(), m->name) >= 0;
        if (!used)
            sheet_problem(s, m, NULL, "the trace stands for this");
        problems += !used;
    }
    return problems;
}

static int report_missing(const outline *o, int k, const sheet *s)
{
    int problems = 0;
    for (size_t i = 0; i < ung_input_count(o->part[k].calculation); i++) {
        const ung_field *field = ung_input(o->part[k].calculation, i);
        char accepted[120], text[PROBLEM_BYTES];
        if (!isnan(o->in[k][i]))
            continue;
        accepted_text(field, accepted, sizeof accepted);
        snprintf(text, sizeof text, "required, and not on the sheet; %s (%s)", accepted, field->meaning);
        sheet_problem(s, NULL, field->name, text);
        problems++;
    }
    return problems;
}

int outline_measures(outline *o, sheet *s, ung_job_plan_in *in)
{
    static ung_job_plan_out plan;
    ung_job_plan_in before = *in;
    name_parts(o);
    if (sheet_plan(s, in, &plan)) /* for what follows from the sheet's values */
        return 1;
    fill(o, FIT, s, in, &plan);
    fill(o, BAND, s, in, &plan);
    if (report_shape(s) || report_missing(o, BAND, s) || fit(o, s) || measure_band(o, s, in))
        return 1;
    if (s->stations) {
        ung_wall_station one[1];
        gather_stations(o, s);
        fill(o, PROFILE, s, in, &plan);
        ung_rows list[] = {rows(o->station, o->stations), rows(one, 1)};
        if (call(o, PROFILE, s, list))
            return 1;
        if (in->screw_way_count == 1 && in->foam_count == 0) {
            if (!sheet_screws(s)) {
                ung_field screws = screws_field();
                char accepted[120], text[PROBLEM_BYTES];
                accepted_text(&screws, accepted, sizeof accepted);
                snprintf(text, sizeof text, "required with stations of the wall: how many screws a side gets; %s",
                         accepted);
                sheet_problem(s, NULL, screws.name, text);
                return 1;
            }
            fill(o, LEFT, s, in, &plan);
            fill(o, RIGHT, s, in, &plan);
            if (report_missing(o, LEFT, s) || lay_out(o, s, LEFT, in) || lay_out(o, s, RIGHT, in))
                return 1;
        }
        give_sides(o, s, in);
    }
    return report_twice(s, &before, in);
}
