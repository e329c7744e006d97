/* Prints every contract as JSON, read through the public functions alone.  Man pages, Python functions, stubs and
 * tests are made from this; nothing about a calculation is written a second time. */
#include <stdio.h>
#include <string.h>

#include <ungula.h>

static void string(const char *s)
{
    putchar('"');
    for (; *s; s++) {
        if (*s == '"' || *s == '\\')
            printf("\\%c", *s);
        else if (*s == '\n')
            printf("\\n");
        else
            putchar(*s);
    }
    putchar('"');
}

/* JSON has no NaN and no infinity: null. */
static void number(double value)
{
    if (value != value || value - value != 0)
        printf("null");
    else
        printf("%.17g", value);
}

static void member(const char *name, const char *value)
{
    printf("\"%s\": ", name);
    string(value);
    printf(", ");
}

static void field(const ung_field *f, int is_input)
{
    printf("      {");
    member("name", f->name);
    member("unit", ung_field_unit(f->name));
    if (is_input) {
        printf("\"lower\": "), number(f->lower);
        printf(", \"upper\": "), number(f->upper);
        printf(", \"usual_lower\": "), number(f->usual_lower);
        printf(", \"usual_upper\": "), number(f->usual_upper);
        printf(", \"standard\": "), number(f->standard);
        printf(", ");
        member("standard_kind", ung_kind_text(f->standard_kind));
        printf("\"whole\": %s, ", f->whole ? "true" : "false");
    } else
        printf("\"may_be_infinite\": %s, ", f->may_be_infinite ? "true" : "false");
    printf("\"meaning\": ");
    string(f->meaning);
    printf("}");
}

static const char *rule_field(const ung_calculation *c, int index)
{
    size_t i = (size_t)index, n = ung_input_count(c);
    return index < 0 ? "" : i < n ? ung_input(c, i)->name : ung_output(c, i - n)->name;
}

static const char *const comparisons[] = {"below", "above", "equal", "always"};

static void rule(const ung_calculation *c, const ung_rule *r)
{
    printf("      {");
    member("severity", ung_severity_text(r->severity));
    member("code", r->code);
    member("field", rule_field(c, r->field));
    printf("\"factor\": %.17g, ", r->factor);
    member("other", rule_field(c, r->other));
    printf("\"other_factor\": %.17g, ", r->other_factor);
    member("comparison", comparisons[r->comparison]);
    printf("\"limit\": %.17g, ", r->limit);
    member("guard", rule_field(c, r->guard));
    member("guard_comparison", comparisons[r->guard_comparison]);
    printf("\"guard_limit\": %.17g, \"text\": ", r->guard_limit);
    string(r->text);
    printf("}");
}

static void strings(const char *name, const ung_calculation *c, size_t count,
                    const char *(*item)(const ung_calculation *, size_t))
{
    printf("    \"%s\": [", name);
    for (size_t i = 0; i < count; i++) {
        printf(i ? ",\n      " : "\n      ");
        string(item(c, i));
    }
    printf("],\n");
}

static void calculation(const ung_calculation *c)
{
    printf("  {\n    ");
    member("name", ung_calculation_name(c));
    member("room", ung_calculation_room(c));
    printf("\n    ");
    member("title", ung_calculation_title(c));
    printf("\n    ");
    member("about", ung_calculation_about(c));
    printf("\n    ");
    member("accuracy", ung_calculation_accuracy(c));
    printf("\n    \"inputs\": [\n");
    for (size_t i = 0; i < ung_input_count(c); i++) {
        field(ung_input(c, i), 1);
        printf(i + 1 < ung_input_count(c) ? ",\n" : "],\n");
    }
    printf("    \"outputs\": [\n");
    for (size_t i = 0; i < ung_output_count(c); i++) {
        field(ung_output(c, i), 0);
        printf(i + 1 < ung_output_count(c) ? ",\n" : "],\n");
    }
    printf("    \"lists\": [");
    for (size_t i = 0; i < ung_list_count(c); i++) {
        const ung_list *l = ung_list_at(c, i);
        printf(i ? ",\n      {" : "\n      {");
        member("name", l->name);
        member("meaning", l->meaning);
        member("row", l->row);
        printf("\"is_result\": %s, \"same_count_as\": %d, \"least\": %zu, \"most\": %zu, \"fields\": [\n",
               l->is_result ? "true" : "false", l->same_count_as,
               l->least, l->most);
        for (size_t j = 0; j < l->field_count; j++) {
            field(l->fields + j, 1);
            printf(j + 1 < l->field_count ? ",\n" : "]}");
        }
    }
    printf("],\n");
    printf("    \"work_per_row\": %zu, \"work_more\": %zu,\n", ung_workspace(c, 1) - ung_workspace(c, 0), ung_workspace(c, 0));
    strings("refusals", c, ung_refusal_count(c), ung_refusal);
    printf("    \"cautions\": [");
    for (size_t i = 0; i < ung_rule_count(c); i++) {
        printf(i ? ",\n" : "\n");
        rule(c, ung_rule_at(c, i));
    }
    printf("],\n");
    strings("standing", c, ung_standing_count(c), ung_standing);
    printf("    \"sources\": [");
    for (size_t i = 0; i < ung_source_count(c); i++) {
        const ung_source *s = ung_source_at(c, i);
        printf(i ? ",\n      {" : "\n      {");
        member("kind", ung_kind_text(s->kind));
        member("citation", s->citation);
        printf("\"gives\": ");
        string(s->gives);
        printf("}");
    }
    printf("]\n  }");
}

/* The plan that joins them: its inputs, each with the calculation whose contract it is of, its steps, and the words of
 * its items. */
static void plan(void)
{
    printf("\"plan\": {\"inputs\": [\n");
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_plan_asked asked = ung_plan_input(i);
        printf("    {");
        member("of", asked.calculation);
        member("original", asked.original);
        printf("\"found\": %s, \"chosen\": %s, \"field\":\n", asked.found ? "true" : "false",
               asked.chosen ? "true" : "false");
        field(&asked.field, 1);
        printf(i + 1 < ung_plan_input_count() ? "},\n" : "}],\n");
    }
    printf("  \"steps\": [");
    for (size_t i = 0; ung_plan_step(i).name; i++) {
        printf(i ? ",\n    {" : "\n    {");
        member("name", ung_plan_step(i).name);
        printf("\"calculation\": ");
        string(ung_calculation_name(ung_plan_step(i).calculation));
        printf("}");
    }
    printf("],\n  \"states\": [");
    for (int i = UNG_STEP_DONE; i <= UNG_STEP_REFUSED; i++) {
        printf(i ? ", " : "");
        string(ung_step_state_text((ung_step_state)i));
    }
    printf("],\n  \"codes\": [");
    for (size_t i = 0; ung_plan_code(i); i++) {
        printf(i ? ",\n    {" : "\n    {");
        for (size_t k = 0; ung_plan_language(k); k++)
            member(ung_plan_language(k), ung_plan_text(ung_plan_code(i), ung_plan_language(k)));
        printf("\"code\": ");
        string(ung_plan_code(i));
        printf("}");
    }
    printf("]}\n");
}

int main(void)
{
    printf("{\"version\": \"%s\",\n\"calculations\": [\n", ung_version());
    for (size_t i = 0; i < ung_calculation_count(); i++) {
        calculation(ung_calculation_at(i));
        printf(i + 1 < ung_calculation_count() ? ",\n" : "\n");
    }
    printf("],\n");
    plan();
    printf("}\n");
    return ferror(stdout) || fflush(stdout);
}
