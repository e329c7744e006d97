/* Invented scenario: the whole job for a pony.  With --json, everything the
 * plan knows, for other programs; otherwise what a person needs. */
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <ungula.h>

static ung_job_plan_in pony(void)
{
    ung_job_plan_in p = ung_job_plan_standard();
    p.hoof_length_mm = 105, p.hoof_width_mm = 98;
    p.toe_angle_deg = 54, p.quarter_angle_deg = 80, p.heel_angle_deg = 52;
    p.high_toe_mm = 34, p.high_heel_mm = 20, p.overhang_mm = 4;
    p.toe_hairline_mm = 56, p.heel_hairline_mm = 30;
    p.shoe_thickness_mm = 20, p.upper_layer_mm = 8, p.species_count = 20;
    p.border_width_mm = 9, p.wall_angle_deg = 80, p.sole_horn_mm = 4;
    p.gauge_count = 6, p.screw_count = 4, p.screw_length_mm = 32;
    p.inset_mm = 4.5, p.tilt_deg = 10, p.head_recess_mm = 2;
    p.tilt_error_deg = 3;
    p.tape_width_mm = 50.8, p.passes_count = 4, p.stretch_fraction = 0.2;
    p.ground_length_mm = 100, p.bevel_run_mm = 10, p.bevel_angle_deg = 20;
    p.width_start_mm = 80, p.width_end_mm = 72, p.build_length_mm = 6;
    p.sole_area_mm2 = 6000, p.dish_depth_mm = 4, p.rope_length_mm = 90;
    p.body_mass_kg = 230, p.gait_count = 2;
    p.horn_shear_mpa = 10, p.horn_bearing_mpa = 25; /* three strengths */
    p.shear_strength_mpa = 2; /* that nobody published: measure yours */
    p.adhesive_shear_modulus_mpa = 300, p.cover_modulus_mpa = 2500;
    p.reference_time_s = 480, p.reference_temperature_c = 22;
    p.temperature_c = 20, p.surface_cm2 = 300; /* a tray, not a cup */
    return p;
}

/* An item in words: {quantity} and {unit} filled in. */
static void words(const ung_plan_item *item, const char *language,
                  char *text, size_t size)
{
    size_t n = 0;
    for (const char *c = ung_plan_text(item->code, language); *c;) {
        char piece[32];
        size_t used = 1;
        if (strncmp(c, "{quantity}", 10) == 0) {
            snprintf(piece, sizeof piece, "%.4g", item->quantity);
            used = 10;
        } else if (strncmp(c, "{unit}", 6) == 0) {
            snprintf(piece, sizeof piece, "%s", item->unit);
            used = 6;
        } else {
            piece[0] = *c, piece[1] = 0;
        }
        for (const char *p = piece; *p && n + 1 < size; p++)
            text[n++] = *p;
        c += used;
    }
    text[n] = 0;
}

static const char *const kind[] = {"bring", "do", "later"};

static void print_text(const ung_job_plan_out *plan)
{
    char text[256], why[UNG_FAULT_TEXT];
    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    size_t n = ung_plan_items(plan, item, UNG_PLAN_ITEMS_MOST);
    for (size_t i = 0; i < n; i++) {
        words(item + i, "en", text, sizeof text);
        printf("%-6s %s%s%s\n", kind[item[i].kind], text,
               item[i].caution ? "  ! " : "",
               item[i].caution ? item[i].caution : "");
    }
    ung_plan_caution caution[128];
    n = ung_job_plan_cautions(plan, caution, 128);
    for (size_t i = 0; i < n && i < 128; i++)
        printf("%-6s %s, %s: %s\n",
               ung_severity_text(caution[i].caution.severity),
               ung_plan_step(caution[i].step).name, caution[i].caution.code,
               caution[i].caution.text);
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++)
        if (plan->state[i] >= UNG_STEP_LACKS)
            printf("%-6s %s: %s\n", "not", ung_plan_step(i).name,
                   ung_fault_text(plan->fault + i, why));
}

/* ---- JSON ---- */

static const char *separator = "";

static void begin(char bracket) { putchar(bracket), separator = ""; }
static void end(char bracket) { putchar(bracket), separator = ",\n"; }

static void string(const char *s)
{
    if (!s) {
        printf("null");
        return;
    }
    putchar('"');
    for (; *s; s++)
        if (*s == '"' || *s == '\\')
            printf("\\%c", *s);
        else if ((unsigned char)*s < ' ')
            printf("\\u%04x", (unsigned)*s);
        else
            putchar(*s);
    putchar('"');
}

static void number(double value)
{
    if (isnan(value))
        printf("null");
    else if (isinf(value))
        printf(value > 0 ? "\"infinite\"" : "\"-infinite\"");
    else
        printf("%.17g", value);
}

static void key(const char *name)
{
    printf("%s", separator), string(name), printf(": ");
    separator = ",\n";
}

static void member(const char *name, const char *s) { key(name), string(s); }
static void value(const char *name, double x) { key(name), number(x); }

static void rows(const ung_list *list, const double *data, size_t count)
{
    key(list->name), begin('[');
    for (size_t i = 0; i < count; i++) {
        printf("%s", separator), begin('{');
        for (size_t j = 0; j < list->field_count; j++)
            value(list->fields[j].name, data[i * list->field_count + j]);
        end('}');
    }
    end(']');
}

static void print_step(const ung_job_plan_out *plan, size_t i)
{
    ung_plan_part part = ung_plan_step(i);
    const double *in = (const double *)plan + part.in;
    const double *out = (const double *)plan + part.out;
    char why[UNG_FAULT_TEXT] = "";
    if (plan->state[i] >= UNG_STEP_LACKS)
        ung_fault_text(plan->fault + i, why);
    key(part.name), begin('{');
    member("calculation", ung_calculation_name(part.calculation));
    member("state", ung_step_state_text(plan->state[i]));
    member("why", why);
    member("lacks", plan->state[i] == UNG_STEP_LACKS ? plan->fault[i].field
                                                     : NULL);
    key("inputs"), begin('{');
    for (size_t j = 0; j < ung_input_count(part.calculation); j++)
        value(ung_input(part.calculation, j)->name, in[j]);
    if (i == UNG_PLAN_timeline)
        rows(ung_list_at(part.calculation, 0), (const double *)plan->tasks,
             UNG_PLAN_TASKS);
    end('}');
    key("results");
    if (plan->state[i] == UNG_STEP_DONE) {
        begin('{');
        for (size_t j = 0; j < ung_output_count(part.calculation); j++)
            value(ung_output(part.calculation, j)->name, out[j]);
        if (i == UNG_PLAN_timeline)
            rows(ung_list_at(part.calculation, 1),
                 (const double *)plan->times, UNG_PLAN_TASKS);
        end('}');
    } else {
        printf("null");
    }
    end('}');
}

static void print_items(const ung_job_plan_out *plan)
{
    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    size_t n = ung_plan_items(plan, item, UNG_PLAN_ITEMS_MOST);
    char text[256];
    key("items"), begin('[');
    for (size_t i = 0; i < n; i++) {
        printf("%s", separator), begin('{');
        member("kind", kind[item[i].kind]);
        member("code", item[i].code);
        value("quantity", item[i].quantity);
        member("unit", item[i].unit);
        member("step", ung_plan_step(item[i].step).name);
        member("field", item[i].field);
        member("caution", item[i].caution);
        words(item + i, "en", text, sizeof text);
        member("text", text), end('}');
    }
    end(']');
}

static void print_cautions(const ung_plan_caution *caution, size_t n)
{
    static const char *const compared[] = {"below", "above", "equal",
                                           "always"};
    key("cautions"), begin('[');
    for (size_t i = 0; i < n; i++) {
        const ung_caution *c = &caution[i].caution;
        printf("%s", separator), begin('{');
        member("step", ung_plan_step(caution[i].step).name);
        member("severity", ung_severity_text(c->severity));
        member("code", c->code), member("text", c->text);
        member("field", c->field);
        value("value", c->value), value("limit", c->limit);
        member("unit", c->unit);
        member("comparison", compared[c->comparison]);
        member("calculation", c->calculation), end('}');
    }
    end(']');
}

static void print_json(const ung_job_plan_in *in,
                       const ung_job_plan_out *plan)
{
    ung_plan_caution caution[128];
    size_t n = ung_job_plan_cautions(plan, caution, 128);
    begin('{');
    member("version", ung_version());
    member("severity", n ? ung_severity_text(caution[0].caution.severity) : "");
    key("inputs"), begin('{');
    for (size_t i = 0; i < ung_plan_input_count(); i++)
        value(ung_plan_input(i).field.name, ((const double *)in)[i]);
    end('}');
    key("steps"), begin('{');
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++)
        print_step(plan, i);
    end('}');
    print_items(plan);
    print_cautions(caution, n < 128 ? n : 128);
    end('}'), putchar('\n');
}

int main(int argc, char **argv)
{
    ung_job_plan_in in = pony();
    static ung_job_plan_out plan;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_job_plan(&in, &plan, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    if (argc > 1 && strcmp(argv[1], "--json") == 0)
        print_json(&in, &plan);
    else
        print_text(&plan);
    return 0;
}
