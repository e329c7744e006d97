/* The chain of calculations, and what would lift a stop; see plan_work.h. */
#include "plan_hold.h"
#include "plan_timing.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const chain plan_chain[] = {
    {SCREW, "wall_thickness_mm", WALL, "wall_thickness_mm", NULL, NULL},
    {ADHESIVE, "bonded_area_mm2", BELT, "bonded_area_mm2", NULL, NULL},
    {ADHESIVE, "wood_area_mm2", BELT, "shoe_area_mm2", NULL, NULL},
    {ADHESIVE, "top_area_mm2", BELT, "covered_area_mm2", NULL, NULL},
    {TAPE, "circumference_low_mm", BELT, "circumference_low_mm", NULL, NULL},
    {TAPE, "circumference_high_mm", BELT, "circumference_high_mm", NULL, NULL},
    {TAPE, "band_height_mm", BELT, "slant_height_mm", NULL, NULL},
    {HEEL, "build_up_mm", TAPE, "thickness_mm", "build_length_mm", NULL}, /* as thick under the heel as it is */
    {DEMAND, "shear_n_per_kg", LOAD, "the larger of braking_n_per_kg and propulsive_n_per_kg of limb_load", NULL,
     load_shear},
    {DEMAND, "screw_count", RIGHT, "placed_count of screw_layout, both sides", NULL, layout_screws},
    {GRIP, "point_member_count", SCREW, "a screw from below has its point in the horn", NULL, point_in_horn},
    {GRIP, "point_member_count", RIGHT, "a screw from below has its point in the horn", NULL, point_in_horn},
    {GRIP, "screw_diameter_mm", GAUGE, "screw_diameter_mm", NULL, NULL},
    {GRIP, "root_diameter_mm", GAUGE, "root_diameter_mm", NULL, NULL},
    {GRIP, "pitch_mm", GAUGE, "pitch_mm", NULL, NULL},
    {GRIP, "head_diameter_mm", GAUGE, "head_diameter_mm", NULL, NULL},
    {GRIP, "horn_length_mm", SCREW, "embedded_mm", NULL, NULL},
    {GRIP, "horn_length_mm", RIGHT, "the lesser least_embedded_mm of screw_layout", NULL, layout_embedded},
    {GRIP, "wood_length_mm", SCREW, "shoe_thickness_mm less head_recess_mm", NULL, wood_under_head},
    {GRIP, "wood_length_mm", RIGHT, "shoe_thickness_mm less head_recess_mm", NULL, wood_under_head},
    {GRIP, "wood_gravity_ratio", WOOD, "wood_gravity_ratio", NULL, NULL},
    {BOND, "bonded_area_mm2", BELT, "bonded_area_mm2", NULL, NULL},
    {BOND, "lap_mm", BELT, "slant_height_mm less the shoe's part of it", NULL, wall_lap},
    {BOND, "horn_thickness_mm", SCREW, "wall_thickness_mm of screw_depth", NULL, wall_at_screw},
    {BOND, "horn_thickness_mm", PROFILE, "the least wall_thickness_mm of the stations", NULL, thinnest_station},
    {BOND, "cover_thickness_mm", TAPE, "thickness_mm", NULL, NULL},
    {BOND, "demand_n", DEMAND, "demand_n", NULL, NULL},
    {HOLD, "shear_n_per_kg", LOAD, "the larger of braking_n_per_kg and propulsive_n_per_kg of limb_load", NULL,
     load_shear},
    {HOLD, "screw_count", RIGHT, "placed_count of screw_layout, both sides", NULL, layout_screws},
    {HOLD, "axis_tilt_deg", SCREW, "tilt_deg of screw_depth, without its sign", NULL, screw_lean},
    {HOLD, "axis_tilt_deg", RIGHT, "tilt_deg of screw_layout, of the screw that it is worst for", NULL, layout_lean},
    {HOLD, "axial_design_n", GRIP, "axial_design_n", NULL, NULL},
    {HOLD, "lateral_design_n", GRIP, "lateral_design_n", NULL, NULL},
    {HOLD, "bond_capacity_first_n", BOND, "capacity_first_n", NULL, NULL},
    {HOLD, "bond_capacity_mean_n", BOND, "capacity_mean_n", NULL, NULL},
    {DAY, "wanted_time_s", NEED, "needed_working_time_s of job_timeline", NULL, time_needed},
    {CUP, "mass_g", ADHESIVE, "the larger coat of glue_volume, at most a pack, 1 g to the mL", NULL, largest_mix},
    {CUP, "start_c", DAY, "temperature_c of working_time", NULL, adhesive_temperature},
    {CAST, "room_c", CUP, "ambient_c of cup_cure", NULL, air_temperature},
    {CAST, "layers", TAPE, "layers", NULL, NULL},
    {LINE, "working_time_s", CUP, "the lesser of safe_time_s of working_time and gel_time_s of cup_cure", NULL,
     lesser_time},
};
const int plan_chains = sizeof plan_chain / sizeof *plan_chain;

/* A shorter screw comes before a thinner one, another place or another slant: it is what is in the box. */
static const char *const screw_changes[] = {"screw_length_mm", "screw_diameter_mm", "inset_mm", "tilt_deg",
                                            "head_recess_mm",  "pad_mm",            NULL};
static const char *const belt_changes[] = {"high_toe_mm", "high_heel_mm", NULL};
static const char *const bond_changes[] = {"shear_strength_mpa", "bonded_area_mm2", NULL};
static const char *const hold_changes[] = {"screw_count",           "shoe_mass_g",            "axial_design_n",
                                           "lateral_design_n",      "bond_capacity_first_n",  "peel_pull_n",
                                           "peel_width_mm",         "peel_strength_n_per_mm", NULL};
static const char *const no_changes[] = {NULL};

const char *const *changeable(int number)
{
    return number == SCREW  ? screw_changes
           : number == BELT ? belt_changes
           : number == BOND ? bond_changes
           : number == HOLD ? hold_changes
                            : no_changes;
}

void plan_begin(plan *p, const sheet *s)
{
    memset(p, 0, sizeof *p);
    const ung_calculation *every[STEPS] = {
        [BELT] = s->trace ? ung_outline_band_contract() : ung_hoof_band_contract(),
        [ADHESIVE] = ung_glue_volume_contract(),
        [TAPE] = ung_cast_length_contract(),
        [HEEL] = ung_heel_bevel_contract(),
    };
    if (s->trace)
        every[OUTLINE] = ung_outline_fit_contract();
    if (s->stations) {
        every[PROFILE] = ung_wall_profile_contract();
        every[LEFT] = every[RIGHT] = ung_screw_layout_contract();
    } else {
        every[WALL] = ung_wall_from_border_contract();
        every[SCREW] = ung_screw_depth_contract();
    }
    if (s->hold) {
        every[LOAD] = ung_limb_load_contract();
        every[DEMAND] = every[HOLD] = ung_hold_contract();
        every[GAUGE] = ung_screw_gauge_contract();
        every[WOOD] = ung_wood_species_contract();
        every[GRIP] = ung_screw_hold_contract();
        every[BOND] = ung_bond_hold_contract();
    }
    if (s->timing) {
        every[NEED] = every[LINE] = ung_job_timeline_contract();
        every[DAY] = ung_working_time_contract();
        every[CUP] = ung_cup_cure_contract();
        every[CAST] = ung_cast_set_contract();
    }
    for (int i = 0; i < STEPS; i++)
        p->step[i].calculation = p->calculation[i] = every[i];
}

static double value_in(const ung_calculation *c, const double *out, const char *name)
{
    for (size_t i = 0; i < ung_output_count(c); i++)
        if (strcmp(ung_output(c, i)->name, name) == 0)
            return out[i];
    return NAN;
}

double result(const step *st, const char *name)
{
    return value_in(st->calculation, st->out, name);
}

double input_of(const step *st, const char *name)
{
    int i = input_index(st->calculation, name);
    return i < 0 ? NAN : st->in[i];
}

void source_text(const plan *p, const chain *from, char *text, size_t size)
{
    snprintf(text, size, "%s%s%s", from->output, from->value ? "" : " of ",
             from->value ? "" : ung_calculation_name(p->calculation[from->from]));
}

/* From the sheet, otherwise the standard values. */
static void fill(plan *p, const sheet *s)
{
    for (int k = 0; k < STEPS; k++) {
        step *st = p->step + k;
        ung_standard(st->calculation, st->in);
        for (size_t i = 0; i < ung_input_count(st->calculation); i++) {
            st->given[i] = sheet_find(s, st->calculation, ung_input(st->calculation, i)->name);
            if (st->given[i])
                st->in[i] = st->given[i]->value;
        }
    }
}

/* Which inputs come from earlier steps. */
static void connect(plan *p)
{
    for (int k = 0; k < STEPS; k++) {
        int optional = k == GAUGE || k == WOOD; /* asked for by their one input, the gauge also by what is missing */
        p->step[k].wanted = p->calculation[k] && k != WALL && (!optional || p->step[k].given[0]);
    }
    for (const chain *c = plan_chain; c < plan_chain + plan_chains; c++) {
        step *st = p->step + c->step;
        int i = input_index(st->calculation, c->input);
        if (i < 0 || !p->calculation[c->from] || st->given[i] || (c->only_with && !(input_of(st, c->only_with) > 0)) ||
            (c->from == WOOD && !p->step[WOOD].wanted))
            continue;
        st->taken[i] = c;
        p->step[c->from].wanted = 1;
    }
}

/* What could be given in place of a missing input: what its calculation is there for, if nothing else needs it. */
static const char *instead_of(const plan *p, int number, const char *name)
{
    for (int k = number + 1; k < STEPS; k++)
        if (input_index(p->calculation[k], name) >= 0)
            return NULL;
    for (const chain *c = plan_chain; (number == WALL || number == GAUGE) && c < plan_chain + plan_chains; c++)
        if (c->from == number && p->step[c->step].taken[input_index(p->calculation[c->step], c->input)] == c)
            return c->input;
    return NULL;
}

/* One message a name, also where several calculations need it. */
static int already_missed(const plan *p, int number, const char *name)
{
    for (int k = 0; k < number; k++) {
        int i = input_index(p->calculation[k], name);
        const step *st = p->step + k;
        if (i >= 0 && st->wanted && isnan(st->in[i]) && !st->given[i] && !st->taken[i])
            return 1;
    }
    return 0;
}

/* What a layout is told beside its inputs. */
static int report_missing_of_layout(const plan *p, const sheet *s)
{
    static const char *const name[] = {"screws_count", "sole_horn_mm"};
    int problems = 0;
    for (size_t i = 0; p->calculation[LEFT] && i < sizeof name / sizeof *name; i++) {
        const ung_field *field = layout_field(name[i]);
        char accepted[120], text[400];
        if (sheet_find(s, p->calculation[LEFT], name[i]))
            continue;
        accepted_text(field, accepted, sizeof accepted);
        snprintf(text, sizeof text, "required, and not on the sheet; %s (%s)", accepted, field->meaning);
        sheet_problem(s, NULL, name[i], text);
        problems++;
    }
    return problems;
}

static int report_missing(const plan *p, const sheet *s)
{
    int problems = 0;
    for (int k = 0; k < STEPS; k++) {
        const step *st = p->step + k;
        for (size_t i = 0; st->wanted && i < ung_input_count(st->calculation); i++) {
            const ung_field *field = ung_input(st->calculation, i);
            if (!isnan(st->in[i]) || st->given[i] || st->taken[i] || already_missed(p, k, field->name))
                continue;
            char accepted[120], text[400];
            const char *instead = instead_of(p, k, field->name);
            accepted_text(field, accepted, sizeof accepted);
            snprintf(text, sizeof text, "required, and not on the sheet%s%s; %s (%s)", instead ? ", nor is " : "",
                     instead ? instead : "", accepted, field->meaning);
            sheet_problem(s, NULL, field->name, text);
            problems++;
        }
    }
    return problems + report_missing_of_layout(p, s) + report_missing_tasks(p, s);
}

/* A thickness given twice, once as such and once as a border, would leave one of the two unused in silence. */
static int report_unused(const plan *p, const sheet *s)
{
    const step *wall = p->step + WALL;
    int border = input_index(wall->calculation, "border_width_mm");
    if (border < 0 || wall->wanted || !wall->given[border])
        return 0;
    sheet_problem(s, wall->given[border], NULL, "wall_thickness_mm is given as well; give one of the two");
    return 1;
}

static int take(plan *p, step *st)
{
    for (size_t i = 0; i < ung_input_count(st->calculation); i++) {
        const chain *c = st->taken[i];
        const step *from = c ? p->step + c->from : NULL;
        if (from && !from->ran)
            return 0;
        if (c && c->value && isnan(c->value(p))) /* not known: the standard value stays */
            st->taken[i] = c = NULL;
        if (c)
            st->in[i] = c->value ? c->value(p) : result(from, c->output);
        if (!st->unknown[i])
            st->high[i] = c && !c->value ? value_in(from->calculation, from->out_high, c->output) : st->in[i];
        st->open |= st->high[i] != st->in[i];
    }
    return 1;
}

int step_call(step *st, ung_fault *fault)
{
    if (ung_call(st->calculation, st->in, st->rows, st->out, fault) != UNG_OK)
        return 0;
    if (st->open)
        return ung_call(st->calculation, st->high, st->rows, st->out_high, fault) == UNG_OK;
    memcpy(st->out_high, st->out, sizeof st->out);
    return 1;
}

/* The line that a refusal of a list is about. */
static const measurement *row_of_list(const plan *p, const step *st, const sheet *s, const ung_fault *fault)
{
    if (!fault->rows)
        return NULL;
    if (p->calculation[LINE] && st >= p->step + NEED)
        return refused_task(s, fault);
    return st != p->step + PROFILE ? s->trace : p->station_row[fault->index < p->stations ? fault->index : 0];
}

void report_refused(const plan *p, const step *st, const sheet *s, const ung_fault *fault)
{
    int i = input_index(st->calculation, fault->field);
    char text[UNG_FAULT_TEXT], all[UNG_FAULT_TEXT + 120];
    ung_fault_text(fault, text);
    if (st == p->step + OUTLINE && trace_refused(&p->trace, fault))
        return;
    if (i >= 0 && st->taken[i])
        snprintf(all, sizeof all, "from %s: %s", st->taken[i]->output, text);
    else
        snprintf(all, sizeof all, "%s", text);
    sheet_problem(s, i >= 0 ? st->given[i] : row_of_list(p, st, s, fault), fault->field, all);
}

int plan_run(plan *p, const sheet *s)
{
    fill(p, s);
    connect(p);
    open_strengths(p);
    timing_begin(p);
    if (s->trace)
        trace_read(&p->trace, s);
    int problems = sheet_report(s) + trace_report(&p->trace) + report_unused(p, s) + report_missing(p, s);
    if (problems)
        return problems;
    for (int k = 0; k < STEPS; k++) {
        step *st = p->step + k;
        ung_fault fault;
        if (!st->wanted || !take(p, st))
            continue;
        int ready = prepare_lists(p, k, s);
        if (ready > 0 && step_call(st, &fault))
            st->ran = 1;
        else if (ready != 0) {
            if (ready > 0)
                report_refused(p, st, s, &fault);
            problems++;
        }
    }
    return problems;
}

size_t step_cautions(const step *st, ung_caution *caution)
{
    ung_caution low[UNG_CAUTIONS_MOST];
    size_t n = st->ran ? ung_cautions(st->calculation, st->high, st->out_high, caution, UNG_CAUTIONS_MOST) : 0;
    emptied_cup(st, caution, n);
    if (n == 0 || !st->open)
        return n;
    size_t lows = ung_cautions(st->calculation, st->in, st->out, low, UNG_CAUTIONS_MOST), both = 0;
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < lows; k++)
            if (strcmp(caution[i].code, low[k].code) == 0) {
                caution[both++] = caution[i];
                break;
            }
    return both;
}

size_t step_stops(const step *st)
{
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t stops = 0, n = step_cautions(st, caution);
    while (stops < n && caution[stops].severity == UNG_STOP)
        stops++;
    return stops;
}

/* The step with another value of one input; a missing strength, whose stops are those of the greatest, is that. */
static step changed(const step *st, size_t i, double value)
{
    step other = *st;
    memcpy(other.in, st->high, sizeof other.in);
    other.in[i] = other.high[i] = value;
    other.open = 0;
    other.ran = step_call(&other, NULL);
    return other;
}

/* The first stop of a step that has to go: `code`, or any. */
static const char *standing_stop(const step *st, const char *code)
{
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = step_cautions(st, caution);
    for (size_t i = 0; i < n && caution[i].severity == UNG_STOP; i++)
        if (!code || strcmp(caution[i].code, code) == 0)
            return caution[i].code;
    return NULL;
}

static int lifts(const step *st, size_t i, double value, const char *code)
{
    step other = changed(st, i, value);
    return other.ran && !standing_stop(&other, code) && step_stops(&other) <= step_stops(st);
}

/* To a tenth, which is what can be measured, and never short of the exact value. */
static double to_a_tenth(const step *st, size_t i, double exact, const char *code)
{
    double nearest = floor(exact * 10 + 0.5), away = exact < st->high[i] ? -1 : 1;
    for (int k = 0; k < 2; k++) {
        double value = (nearest + k * away) / 10;
        if (lifts(st, i, value, code))
            return value;
    }
    return exact;
}

/* The value of one input at which a stop ends; NaN if none.  Calculations with lists are not searched by the library:
 * there it is the limit that the stop names, if it is about this input. */
static double lifting_value(const step *st, const char *stop, size_t i)
{
    double value = NAN;
    ung_caution caution[UNG_CAUTIONS_MOST];
    if (ung_list_count(st->calculation) == 0)
        return ung_caution_lift(st->calculation, st->high, stop, i, &value, NULL) == UNG_OK ? value : NAN;
    for (size_t k = 0, n = step_cautions(st, caution); k < n; k++)
        if (strcmp(caution[k].code, stop) == 0 && strcmp(caution[k].field, ung_input(st->calculation, i)->name) == 0)
            value = caution[k].limit;
    return value;
}

double least_change(const step *st, size_t i, const char *code)
{
    step now = *st;
    const char *stop;
    for (int round = 0; round < UNG_CAUTIONS_MOST && (stop = standing_stop(&now, code)); round++) {
        double value = lifting_value(&now, stop, i);
        if (isnan(value))
            return NAN;
        now = changed(st, i, value);
    }
    return lifts(st, i, now.high[i], code) ? to_a_tenth(st, i, now.high[i], code) : NAN;
}
