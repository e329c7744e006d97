/* What the calculations with lists are given: the trace, its outline, the stations of the wall, places for screws. */
#include "plan_work.h"

#include <math.h>
#include <string.h>

static const double place_step_mm = 5; /* choice: finer than screws are set by hand */

const char *side_of(int number)
{
    return number == LEFT ? ", left side" : number == RIGHT ? ", right side" : "";
}

static ung_rows rows(void *data, size_t count)
{
    return (ung_rows){(double *)data, count};
}

/* The library says which two points meet where a trace crosses itself; the fit alone would not. */
static int crossing(plan *p, const sheet *s)
{
    const ung_calculation *measure = ung_outline_measure_contract();
    ung_rows list[] = {rows(p->trace.point, p->trace.count), rows(p->work, ung_workspace(measure, p->trace.count))};
    double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
    ung_fault fault;
    ung_standard(measure, in);
    if (ung_call(measure, in, list, out, &fault) == UNG_OK)
        return 0;
    report_refused(p, p->step + OUTLINE, s, &fault);
    return 1;
}

/* A place on one side of the fitted outline. */
static ung_outline_at_out outline_place(const plan *p, int left, double share)
{
    const step *fit = p->step + OUTLINE;
    ung_outline_at_in in = ung_outline_at_standard();
    ung_outline_at_out at;
    in.toe_direction_deg = fit->in[input_index(fit->calculation, "toe_direction_deg")];
    in.left_side_count = left;
    in.side_fraction = share;
    if (ung_outline_at(&in, p->outline, OUTLINE_POINTS, &at, NULL) != UNG_OK) /* cannot be: it was fitted */
        at = (ung_outline_at_out){.around_fraction = NAN};
    return at;
}

/* Stations of the sheet in the order of the profile; each is there with both its fields. */
static void gather_stations(plan *p, const sheet *s)
{
    p->stations = 0;
    for (const measurement *m = s->row; m < s->row + s->rows && p->stations < WALL_STATIONS; m++) {
        if (!m->side || strcmp(m->name, "wall_thickness_mm") != 0)
            continue;
        ung_wall_station here = {outline_place(p, m->side == LEFT_SIDE, m->place).around_fraction, m->value, NAN};
        for (const measurement *n = s->row; n < s->row + s->rows; n++)
            if (n->side && n->place == m->place && strcmp(n->name, "wall_angle_deg") == 0 &&
                (n->side == m->side || m->place == 0 || m->place == 1))
                here.wall_angle_deg = n->value;
        size_t i = p->stations++;
        for (; i > 0 && p->station[i - 1].around_fraction > here.around_fraction; i--) {
            p->station[i] = p->station[i - 1];
            p->station_row[i] = p->station_row[i - 1];
        }
        p->station[i] = here;
        p->station_row[i] = m;
    }
}

/* First and last station of a side: between them the wall was measured. */
static void measured_part(const sheet *s, int side, double *first, double *last)
{
    *first = 1;
    *last = 0;
    for (const measurement *m = s->row; m < s->row + s->rows; m++)
        if (m->side == side || (m->side && (m->place == 0 || m->place == 1))) {
            *first = fmin(*first, m->place);
            *last = fmax(*last, m->place);
        }
}

/* The wall at one place, between its stations. */
static int wall_at(const plan *p, double around, ung_wall_station *wall)
{
    ung_wall_profile_in in = ung_wall_profile_standard();
    in.start_fraction = around;
    ung_wall_profile_out out;
    return ung_wall_profile(&in, p->station, p->stations, wall, 1, &out, NULL) == UNG_OK;
}

static void gather_places(plan *p, const sheet *s, int k)
{
    layout *l = p->layout + (k - LEFT);
    const ung_calculation *c = p->calculation[k];
    double first, last, length = outline_place(p, k == LEFT, 0).side_length_mm;
    double sole = sheet_find(s, c, "sole_horn_mm")->value;
    measured_part(s, k == LEFT ? LEFT_SIDE : RIGHT_SIDE, &first, &last);
    l->screws = (size_t)sheet_find(s, c, "screws_count")->value;
    l->places = 0;
    for (double from_toe = 0; from_toe <= length && l->places < PLACES_MOST; from_toe += place_step_mm) {
        double share = from_toe / length;
        ung_wall_station wall;
        if (share < first || share > last || !wall_at(p, outline_place(p, k == LEFT, share).around_fraction, &wall))
            continue;
        l->place[l->places++] =
            (ung_screw_station){share, from_toe, wall.wall_thickness_mm, wall.wall_angle_deg, sole};
    }
}

int prepare_lists(plan *p, int k, const sheet *s)
{
    step *st = p->step + k;
    const ung_calculation *c = st->calculation;
    if (ung_list_count(c) == 0)
        return 1;
    if (k == NEED || k == LINE) {
        if (k == LINE && !p->step[NEED].ran)
            return 0;
        p->tasks = gather_tasks(s, p->task);
        st->rows[0] = rows(p->task, p->tasks);
        st->rows[1] = rows(p->time, p->tasks);
        st->rows[2] = rows(p->work, ung_workspace(c, p->tasks));
        return 1;
    }
    if (k == OUTLINE) {
        if (crossing(p, s))
            return -1;
        st->rows[0] = rows(p->trace.point, p->trace.count);
        st->rows[1] = rows(p->outline, OUTLINE_POINTS);
        st->rows[2] = rows(p->work, ung_workspace(c, p->trace.count));
        return 1;
    }
    if (!p->step[OUTLINE].ran || (k > PROFILE && !p->step[PROFILE].ran))
        return 0;
    if (k == BELT) {
        st->rows[0] = rows(p->outline, OUTLINE_POINTS);
        st->rows[1] = rows(p->work, ung_workspace(c, OUTLINE_POINTS));
    } else if (k == PROFILE) {
        gather_stations(p, s);
        st->rows[0] = rows(p->station, p->stations);
        st->rows[1] = rows(p->profile, 1);
    } else {
        layout *l = p->layout + (k - LEFT);
        gather_places(p, s, k);
        if (l->places == 0) {
            sheet_problem(s, p->station_row[0], NULL,
                          k == LEFT ? "no place for a screw between the left side's stations"
                                    : "no place for a screw between the right side's stations");
            return -1;
        }
        st->rows[0] = rows(l->place, l->places);
        st->rows[1] = rows(l->screw, l->screws);
        st->rows[2] = rows(p->work, ung_workspace(c, l->places));
    }
    return 1;
}

int layout_would_do(const plan *p, int k, size_t screws, const char *input, double value)
{
    step other = p->step[k];
    ung_screw_place screw[SCREWS_MOST];
    int i = input ? input_index(other.calculation, input) : -1;
    if (i >= 0)
        other.in[i] = other.high[i] = value;
    other.rows[1] = rows(screw, screws);
    other.ran = step_call(&other, NULL);
    return other.ran && step_stops(&other) == 0 && result(&other, "least_embedded_mm") > 0;
}
