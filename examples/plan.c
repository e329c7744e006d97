/* The main job: from a sheet of measurements to the plan for one foot.
 *
 *     plan [--json] SHEET
 *
 * What a sheet may hold is said in plan.h and in the usage text below.  Exit status: 0 the plan stands, 1 a stop
 * stands, 2 the sheet was refused (and nothing is planned).  plan.py prints the same from Python. */
#include "plan.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Steps without which there is no plan; what the others lack is told. */
static const size_t needed[] = {UNG_PLAN_belt, UNG_PLAN_screw, UNG_PLAN_other_screw, UNG_PLAN_through,
                                UNG_PLAN_other_through, UNG_PLAN_tape, UNG_PLAN_glue, UNG_PLAN_bevel};

static void take(const sheet *s, ung_job_plan_in *in)
{
    *in = ung_job_plan_standard();
    for (const measurement *m = s->row; m < s->row + s->rows; m++)
        if (m->about == PLAN_INPUT)
            ((double *)in)[m->input] = m->value;
}

/* A thickness given twice, once as such and once as a border, would leave one of the two unused in silence. */
static int report_unused(const sheet *s)
{
    static const char *const pair[][2] = {{"border_width_mm", "wall_thickness_mm"},
                                          {"other_border_width_mm", "other_wall_thickness_mm"}};
    int problems = 0;
    for (size_t i = 0; i < sizeof pair / sizeof *pair; i++) {
        const measurement *border = sheet_plan_input(s, plan_input_index(pair[i][0]));
        char why[120];
        if (!border || !sheet_plan_input(s, plan_input_index(pair[i][1])))
            continue;
        snprintf(why, sizeof why, "%s is given as well; give one of the two", pair[i][1]);
        sheet_problem(s, border, NULL, why);
        problems++;
    }
    return problems;
}

static int is_needed(size_t step)
{
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++)
        if (needed[i] == step)
            return 1;
    return 0;
}

/* Which step that is not needed itself would find a field; UNG_NO_INDEX: none. */
static size_t finder(const char *field)
{
    for (size_t step = 0; step < UNG_PLAN_STEP_COUNT; step++) {
        ung_plan_part p = ung_plan_step(step);
        for (size_t k = 0; k < ung_output_count(p.calculation); k++)
            if (!is_needed(step) && strcmp(ung_output(p.calculation, k)->name, field) == 0)
                return step;
    }
    return UNG_NO_INDEX;
}

/* Whether a field that a step lacks is to be asked for: not if another step would find it from what is asked for
 * anyway.  A needed step says itself what it lacks. */
static int is_to_be_given(const job *j, const ung_calculation *calculation, const char *field)
{
    size_t i = 0, step = finder(field);
    for (; i < ung_plan_input_count() && strcmp(ung_plan_input(i).original, field) != 0; i++)
        ;
    if (i == ung_plan_input_count() || !ung_plan_input(i).found)
        return i < ung_plan_input_count();
    if (step == UNG_NO_INDEX || j->plan.state[step] == UNG_STEP_REFUSED)
        return 0;
    return j->plan.state[step] == UNG_STEP_LEFT_OUT || input_index(calculation, j->plan.fault[step].field) < 0;
}

/* Required fields of a step that are not there, those of `told` aside, to which they are added. */
static size_t report_lacking(const job *j, size_t step, const char **told, size_t count)
{
    ung_plan_part p = ung_plan_step(step);
    const double *in = (const double *)&j->plan + p.in;
    for (size_t k = 0; k < ung_input_count(p.calculation); k++) {
        const ung_field *field = ung_input(p.calculation, k);
        char accepted[120], text[PROBLEM_BYTES];
        int again = 0;
        for (size_t i = 0; i < count; i++)
            again |= strcmp(told[i], field->name) == 0;
        if (again || !isnan(in[k]) || !is_to_be_given(j, p.calculation, field->name))
            continue;
        accepted_text(field, accepted, sizeof accepted);
        snprintf(text, sizeof text, "required, and not on the sheet; %s (%s)", accepted, field->meaning);
        sheet_problem(j->sheet, NULL, field->name, text);
        told[count++] = field->name;
    }
    return count;
}

/* Why a step was refused, with the line of the field. */
static void report_refused(const job *j, size_t step)
{
    const ung_fault *fault = j->plan.fault + step;
    const measurement *m = NULL;
    char text[UNG_FAULT_TEXT];
    for (size_t i = 0; i < ung_plan_input_count() && !m; i++)
        if (strcmp(ung_plan_input(i).original, fault->field) == 0)
            m = sheet_plan_input(j->sheet, i);
    sheet_problem(j->sheet, m, fault->field, ung_fault_text(fault, text));
}

/* Whether a step was refused whose value a needed step lacks now. */
static int lacks_found(const job *j, size_t step)
{
    for (size_t i = 0; i < sizeof needed / sizeof *needed && j->plan.state[step] == UNG_STEP_REFUSED; i++)
        if (j->plan.state[needed[i]] == UNG_STEP_LACKS && finder(j->plan.fault[needed[i]].field) == step)
            return 1;
    return 0;
}

static size_t report_needed(const job *j)
{
    const char *told[UNG_FIELDS_MOST * sizeof needed / sizeof *needed];
    size_t lacking = 0, refused = 0;
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++) {
        int through = needed[i] == UNG_PLAN_through || needed[i] == UNG_PLAN_other_through;
        int from_shoe = needed[i] == UNG_PLAN_screw || needed[i] == UNG_PLAN_other_screw;
        int other_way = j->in.screw_way_count > 1.5 ? from_shoe : through, again = 0;
        if (j->plan.state[needed[i]] < UNG_STEP_LACKS || other_way)
            continue;
        if (j->plan.state[needed[i]] == UNG_STEP_LACKS) {
            lacking = report_lacking(j, needed[i], told, lacking);
            continue;
        }
        for (size_t k = 0; k < i; k++) /* the other side's step takes the same field */
            again |= j->plan.state[needed[k]] == UNG_STEP_REFUSED &&
                     ung_plan_step(needed[k]).calculation == ung_plan_step(needed[i]).calculation &&
                     strcmp(j->plan.fault[needed[k]].field, j->plan.fault[needed[i]].field) == 0;
        if (!again)
            report_refused(j, needed[i]);
        refused++;
    }
    for (size_t step = 0; step < UNG_PLAN_STEP_COUNT; step++)
        if (lacks_found(j, step)) {
            report_refused(j, step);
            refused++;
        }
    return lacking + refused;
}

static void name_parts(job *j)
{
    j->parts = 0;
    for (size_t i = 0; j->outline && i < OUTLINE_PARTS; i++)
        j->part[j->parts++] = j->outline->part[i];
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
        ung_plan_part p = ung_plan_step(i);
        const double *value = (const double *)&j->plan;
        j->part[j->parts + i] =
            (part){p.name, p.calculation, value + p.in, value + p.out, j->plan.state[i], j->plan.fault + i};
    }
}

size_t job_cautions(const job *j, held *caution)
{
    ung_plan_caution of_plan[CAUTIONS_MOST];
    size_t n = 0, plan = ung_job_plan_cautions(&j->plan, of_plan, CAUTIONS_MOST);
    for (int severity = UNG_STOP; severity >= UNG_NOTE; severity--) {
        for (size_t i = 0; i < j->parts; i++) {
            const part *p = j->part + i;
            ung_caution one[UNG_CAUTIONS_MOST];
            size_t count = p->state == UNG_STEP_DONE
                               ? ung_cautions(p->calculation, p->in, p->out, one, UNG_CAUTIONS_MOST)
                               : 0;
            for (size_t k = 0; k < count && n < CAUTIONS_MOST; k++)
                if (one[k].severity == (ung_severity)severity)
                    caution[n++] = (held){p, UNG_NO_INDEX, one[k]};
        }
        for (size_t i = 0; i < plan && i < CAUTIONS_MOST && n < CAUTIONS_MOST; i++)
            if (of_plan[i].caution.severity == (ung_severity)severity)
                caution[n++] = (held){j->part + j->parts + of_plan[i].step, of_plan[i].step, of_plan[i].caution};
    }
    return n;
}

static const char usage[] =
    "usage: plan [--json] SHEET\n"
    "\n"
    "Lines of the sheet: name = value unit, lengths in mm or in; # begins a comment.\n"
    "  hoof_length_mm = 5.25 in               an input of job_plan; ung_job_plan(3) lists them\n"
    "  glue_volume.waste_fraction = 0.2       where several calculations have a field of that name\n"
    "  trace = FILE.csv mm                    instead of length and width: points round the hoof, x,y a line\n"
    "  left.0.25.wall_thickness_mm = 9.5 mm   with a trace: the wall at a station, a quarter of the left side from\n"
    "  left.0.25.wall_angle_deg = 74 deg      the toe (0) to the rear (1); at the heels 180 - heel angle\n"
    "  screws_count = 2                       with stations: screws on each side\n"
    "\n"
    "--json writes the plan for other programs, as the schema of job_plan describes it.\n";

int main(int argc, char **argv)
{
    static sheet s;
    static outline o;
    static job j;
    static held caution[CAUTIONS_MOST];
    int json = argc == 3 && strcmp(argv[1], "--json") == 0;
    if (argc != 2 + json) {
        fputs(usage, stderr);
        return 2;
    }
    if (sheet_read(&s, argv[1 + json]) < 0)
        return 2;
    if (s.trace)
        trace_read(&o.trace, &s);
    if (sheet_report(&s) + (s.trace ? trace_report(&o.trace) : 0) + report_unused(&s))
        return 2;
    j.sheet = &s;
    j.outline = s.trace ? &o : NULL;
    take(&s, &j.in);
    if ((s.trace && outline_measures(&o, &s, &j.in)) || sheet_plan(&s, &j.in, &j.plan) || report_needed(&j))
        return 2;
    name_parts(&j);
    size_t count = job_cautions(&j, caution);
    if (json)
        print_json(&j, caution, count);
    else
        print_text(&j, caution, count);
    if (fflush(stdout) || ferror(stdout)) {
        fprintf(stderr, "plan: cannot write the plan\n");
        return 2;
    }
    return count && caution[0].caution.severity == UNG_STOP ? 1 : 0;
}
