/* The chain of calculations, and what would lift a stop; see plan_work.h. */
#include "plan_work.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const chain plan_chain[] = {
    {SCREW, "wall_thickness_mm", WALL, "wall_thickness_mm", NULL},
    {ADHESIVE, "bonded_area_mm2", BELT, "bonded_area_mm2", NULL},
    {ADHESIVE, "wood_area_mm2", BELT, "shoe_area_mm2", NULL},
    {ADHESIVE, "top_area_mm2", BELT, "covered_area_mm2", NULL},
    {TAPE, "circumference_low_mm", BELT, "circumference_low_mm", NULL},
    {TAPE, "circumference_high_mm", BELT, "circumference_high_mm", NULL},
    {TAPE, "band_height_mm", BELT, "slant_height_mm", NULL},
    {HEEL, "build_up_mm", TAPE, "thickness_mm", "build_length_mm"}, /* the wrap laps under the heel as thick as it is */
};
const int plan_chains = sizeof plan_chain / sizeof *plan_chain;

/* A shorter screw comes before a thinner one, another place or another slant: it is what is in the box. */
static const char *const screw_changes[] = {"screw_length_mm", "screw_diameter_mm", "inset_mm", "tilt_deg",
                                            "head_recess_mm",  "pad_mm",            NULL};
static const char *const belt_changes[] = {"high_toe_mm", "high_heel_mm", NULL};
static const char *const no_changes[] = {NULL};

const char *const *changeable(int number)
{
    return number == SCREW ? screw_changes : number == BELT ? belt_changes : no_changes;
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
    for (int i = 0; i < STEPS; i++)
        p->step[i].calculation = p->calculation[i] = every[i];
}

double result(const step *st, const char *name)
{
    for (size_t i = 0; i < ung_output_count(st->calculation); i++)
        if (strcmp(ung_output(st->calculation, i)->name, name) == 0)
            return st->out[i];
    return NAN;
}

static double input(const step *st, const char *name)
{
    int i = input_index(st->calculation, name);
    return i < 0 ? NAN : st->in[i];
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
    for (int k = 0; k < STEPS; k++)
        p->step[k].wanted = p->calculation[k] && k != WALL;
    for (const chain *c = plan_chain; c < plan_chain + plan_chains; c++) {
        step *st = p->step + c->step;
        int i = input_index(st->calculation, c->input);
        if (i < 0 || !p->calculation[c->from] || st->given[i] || (c->only_with && !(input(st, c->only_with) > 0)))
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
    for (const chain *c = plan_chain; number == WALL && c < plan_chain + plan_chains; c++)
        if (c->from == number)
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
    return problems + report_missing_of_layout(p, s);
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
    for (size_t i = 0; i < ung_input_count(st->calculation); i++)
        if (st->taken[i]) {
            const step *from = p->step + st->taken[i]->from;
            if (!from->ran)
                return 0;
            st->in[i] = result(from, st->taken[i]->output);
        }
    return 1;
}

/* The line that a refusal of a list is about. */
static const measurement *row_of_list(const plan *p, const step *st, const sheet *s, const ung_fault *fault)
{
    if (!fault->rows)
        return NULL;
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
        if (ready > 0 && ung_call(st->calculation, st->in, st->rows, st->out, &fault) == UNG_OK)
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
    return st->ran ? ung_cautions(st->calculation, st->in, st->out, caution, UNG_CAUTIONS_MOST) : 0;
}

size_t step_stops(const step *st)
{
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t stops = 0, n = step_cautions(st, caution);
    while (stops < n && caution[stops].severity == UNG_STOP)
        stops++;
    return stops;
}

/* The step with another value of one input. */
static step changed(const step *st, size_t i, double value)
{
    step other = *st;
    other.in[i] = value;
    other.ran = ung_call(st->calculation, other.in, other.rows, other.out, NULL) == UNG_OK;
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
    double nearest = floor(exact * 10 + 0.5), away = exact < st->in[i] ? -1 : 1;
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
        return ung_caution_lift(st->calculation, st->in, stop, i, &value, NULL) == UNG_OK ? value : NAN;
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
    return lifts(st, i, now.in[i], code) ? to_a_tenth(st, i, now.in[i], code) : NAN;
}
