/* The plan for other programs: JSON as the schema of job_plan describes it. */
#include "plan.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *separator = "";

static void begin(char bracket)
{
    putchar(bracket);
    separator = "";
}

static void end(char bracket)
{
    putchar(bracket);
    separator = ",\n";
}

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
    printf("%s", separator);
    string(name);
    printf(": ");
    separator = ",\n";
}

static void member(const char *name, const char *s)
{
    key(name);
    string(s);
}

static void value(const char *name, double x)
{
    key(name);
    number(x);
}

static void list(const ung_list *rows, const double *data, size_t count)
{
    key(rows->name);
    begin('[');
    for (size_t i = 0; i < count; i++) {
        printf("%s", separator);
        begin('{');
        for (size_t k = 0; k < rows->field_count; k++)
            value(rows->fields[k].name, data[i * rows->field_count + k]);
        end('}');
    }
    end(']');
}

static void step(const ung_job_plan_out *plan, size_t i)
{
    ung_plan_part of = ung_plan_step(i);
    const double *in = (const double *)plan + of.in, *out = (const double *)plan + of.out;
    int lacks = plan->state[i] == UNG_STEP_LACKS, done = plan->state[i] == UNG_STEP_DONE;
    char why[UNG_FAULT_TEXT] = "";
    if (plan->state[i] >= UNG_STEP_LACKS)
        ung_fault_text(plan->fault + i, why);
    key(of.name);
    begin('{');
    member("calculation", ung_calculation_name(of.calculation));
    member("state", ung_step_state_text(plan->state[i]));
    member("why", why);
    member("lacks", lacks ? plan->fault[i].field : NULL);
    key("inputs");
    begin('{');
    for (size_t k = 0; k < ung_input_count(of.calculation); k++)
        value(ung_input(of.calculation, k)->name, in[k]);
    if (i == UNG_PLAN_timeline)
        list(ung_list_at(of.calculation, 0), (const double *)plan->tasks, UNG_PLAN_TASKS);
    end('}');
    key("results");
    if (done) {
        begin('{');
        for (size_t k = 0; k < ung_output_count(of.calculation); k++)
            value(ung_output(of.calculation, k)->name, out[k]);
        if (i == UNG_PLAN_timeline)
            list(ung_list_at(of.calculation, 1), (const double *)plan->times, UNG_PLAN_TASKS);
        end('}');
    } else
        printf("null");
    end('}');
}

/* Every name once, in the order in which the document uses them. */
enum { NAMES_MOST = 2000 };
static const char *names[NAMES_MOST];
static size_t name_count;

static void unit_of(const char *name)
{
    for (size_t i = 0; i < name_count; i++)
        if (strcmp(names[i], name) == 0)
            return;
    if (name_count == NAMES_MOST)
        return;
    names[name_count++] = name;
    member(name, ung_field_unit(name));
}

static void units_of(const ung_calculation *c)
{
    for (size_t k = 0; k < ung_input_count(c); k++)
        unit_of(ung_input(c, k)->name);
    for (size_t k = 0; k < ung_output_count(c); k++)
        unit_of(ung_output(c, k)->name);
    for (size_t l = 0; l < ung_list_count(c); l++)
        for (size_t k = 0; k < ung_list_at(c, l)->field_count; k++)
            unit_of(ung_list_at(c, l)->fields[k].name);
}

static void units(void)
{
    key("units");
    begin('{');
    for (size_t i = 0; i < ung_plan_input_count(); i++)
        unit_of(ung_plan_input(i).field.name);
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++)
        units_of(ung_plan_step(i).calculation);
    end('}');
}

static void items(const ung_job_plan_out *plan)
{
    static const char *const kind[] = {"bring", "do", "later"};
    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    size_t n = ung_plan_items(plan, item, UNG_PLAN_ITEMS_MOST);
    char text[400];
    key("items");
    begin('[');
    for (size_t i = 0; i < n; i++) {
        printf("%s", separator);
        begin('{');
        member("kind", kind[item[i].kind]);
        member("code", item[i].code);
        value("quantity", item[i].quantity);
        member("unit", item[i].unit);
        member("step", ung_plan_step(item[i].step).name);
        member("field", item[i].field);
        member("caution", item[i].caution);
        item_words(item + i, text, sizeof text);
        member("text", text);
        end('}');
    }
    end(']');
}

/* Of the plan, or of the steps before it. */
static void cautions(const held *all, size_t n, int of_plan)
{
    static const char *const compared[] = {"below", "above", "equal", "always"};
    key("cautions");
    begin('[');
    for (size_t i = 0; i < n; i++) {
        const ung_caution *c = &all[i].caution;
        if ((all[i].step != UNG_NO_INDEX) != of_plan)
            continue;
        printf("%s", separator);
        begin('{');
        member("step", all[i].part->name);
        member("severity", ung_severity_text(c->severity));
        member("code", c->code);
        member("text", c->text);
        member("field", c->field);
        value("value", c->value);
        value("limit", c->limit);
        member("unit", c->unit);
        member("comparison", compared[c->comparison]);
        member("calculation", c->calculation);
        end('}');
    }
    end(']');
}

/* The steps that measured a traced outline, and laid the screws of each side out. */
static void outline_steps(const job *j, const held *all, size_t n)
{
    key("outline");
    begin('{');
    name_count = 0;
    key("units");
    begin('{');
    for (size_t i = 0; i < j->parts; i++)
        if (j->part[i].state == UNG_STEP_DONE)
            units_of(j->part[i].calculation);
    end('}');
    key("steps");
    begin('{');
    for (size_t i = 0; i < j->parts; i++) {
        const part *p = j->part + i;
        if (p->state != UNG_STEP_DONE)
            continue;
        key(p->name);
        begin('{');
        member("calculation", ung_calculation_name(p->calculation));
        key("inputs");
        begin('{');
        for (size_t k = 0; k < ung_input_count(p->calculation); k++)
            value(ung_input(p->calculation, k)->name, p->in[k]);
        end('}');
        key("results");
        begin('{');
        for (size_t k = 0; k < ung_output_count(p->calculation); k++)
            value(ung_output(p->calculation, k)->name, p->out[k]);
        if (i == LEFT || i == RIGHT)
            list(ung_list_at(p->calculation, 1), (const double *)j->outline->layout[i - LEFT].screw,
                 j->outline->layout[i - LEFT].screws);
        end('}');
        end('}');
    }
    end('}');
    cautions(all, n, 0);
    end('}');
}

void print_json(const job *j, const held *caution, size_t count)
{
    begin('{');
    member("version", ung_version());
    member("severity", count ? ung_severity_text(caution[0].caution.severity) : "");
    units();
    key("inputs");
    begin('{');
    for (size_t i = 0; i < ung_plan_input_count(); i++)
        value(ung_plan_input(i).field.name, ((const double *)&j->in)[i]);
    end('}');
    key("steps");
    begin('{');
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++)
        step(&j->plan, i);
    end('}');
    items(&j->plan);
    cautions(caution, count, 1);
    if (j->outline)
        outline_steps(j, caution, count);
    end('}');
    putchar('\n');
}
