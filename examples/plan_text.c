/* The plan for people: aligned text.  Titles, names, units and meanings are those of the contracts. */
#include "plan.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { WIDTH = 100, COLUMNS_MOST = 4 };

static void wrap(const char *lead, int indent, const char *text)
{
    int column = printf("%s", lead), first = 1;
    while (*text) {
        int n = (int)strcspn(text, " ");
        if (!first && column + 1 + n > WIDTH) {
            printf("\n%*s", indent, "");
            column = indent;
            first = 1;
        }
        if (!first)
            putchar(' ');
        for (int i = 0; i < n; i++)
            putchar(text[i] == '~' ? ' ' : text[i]);
        column += n + !first;
        first = 0;
        text += n;
        text += strspn(text, " ");
    }
    printf("\n");
}

static const char *measure(double value, const char *name, int digits, char *text, size_t size)
{
    const char *unit = ung_field_unit(name);
    int n = snprintf(text, size, "%.*g", digits, value);
    snprintf(text + n, size - (size_t)n, "%s%s", *unit ? " " : "", unit);
    return text;
}

/* Decimals that a hand can measure or pour. */
static int decimals(const char *name)
{
    const char *unit = ung_field_unit(name);
    size_t n = strlen(name);
    int count = n > 6 && strcmp(name + n - 6, "_count") == 0;
    if (strstr(name, "chance_fraction") || strstr(name, "error_fraction"))
        return 4;
    return strcmp(unit, "mm2") == 0 || strcmp(unit, "s") == 0 || count ? 0 : strcmp(unit, "mL") == 0 ? 1 : 2;
}

/* "the mode that is least: 1 Im, 2 Is": the words of one code, or NULL. */
static const char *code_words(const char *meaning, double value, char *text, size_t size)
{
    char code[16];
    if (value != floor(value) || fabs(value) > 99)
        return NULL;
    int n = snprintf(code, sizeof code, "%.0f", value);
    for (const char *c = meaning; (c = strstr(c, code)) != NULL; c++) {
        int begins = c == meaning || (c >= meaning + 2 && c[-1] == ' ' && strchr(",:;", c[-2]));
        const char *words = c + n;
        words += *words == ':';
        if (!begins || *words != ' ')
            continue;
        words++;
        size_t length = strlen(words);
        for (size_t i = 0; i < length; i++) {
            const char *next = words + i;
            int separates = (*next == ',' || *next == ';') && next[1] == ' ' && next[2] >= '0' && next[2] <= '9';
            length = separates ? i : length;
        }
        snprintf(text, size, "%.*s", (int)length, words);
        return text;
    }
    return NULL;
}

/* ---- The steps, those of one calculation side by side ---- */

static int is_one_of(const char *name, const char *const *names)
{
    for (; *names; names++)
        if (strcmp(name, *names) == 0)
            return 1;
    return 0;
}

/* For the questions what load there is, and what strengths are needed, the rest of the result says nothing. */
static int told(const part *p, const char *output)
{
    static const char *const load[] = {"pull_n", "shear_n", "demand_n", NULL};
    static const char *const asking[] = {"demand", "grip_need", "bond_need", NULL};
    return !is_one_of(p->name, asking) || strncmp(output, "needed", 6) == 0 || strstr(output, "_needed_") ||
           (strcmp(p->name, "demand") == 0 && is_one_of(output, load));
}

/* What the load asks for is part of what hold tells. */
static int shown(const job *j, const part *p)
{
    return p->state == UNG_STEP_DONE &&
           !(strcmp(p->name, "demand") == 0 && j->plan.state[UNG_PLAN_hold] == UNG_STEP_DONE);
}

static void cell(double value, const char *name)
{
    if (isnan(value))
        printf(" %12s", "-");
    else if (isinf(value))
        printf(" %12s", "endless");
    else
        printf(" %12.*f", decimals(name), value);
}

static void row(const char *name, const double *value, size_t count, const char *lead, const char *meaning)
{
    char words[400] = "", one[200];
    int coded = 1;
    printf("  %-26s", name);
    for (size_t i = 0; i < count; i++) {
        size_t n = strlen(words);
        cell(value[i], name);
        if (isnan(value[i]))
            continue;
        coded = coded && code_words(meaning, value[i], one, sizeof one);
        if (coded && (n == 0 || value[i] != value[0]))
            snprintf(words + n, sizeof words - n, "%s%s", n ? " | " : "", one);
    }
    printf(" %-7s %s%s\n", ung_field_unit(name), lead, coded && *words ? words : meaning);
}

/* An input that was neither given nor has its standard value: another step found it. */
static int found(const job *j, const part *p, size_t i)
{
    const ung_field *field = ung_input(p->calculation, i);
    if (p < j->part + j->parts)
        return 0;
    for (size_t k = 0; k < ung_plan_input_count(); k++) {
        ung_plan_asked asked = ung_plan_input(k);
        if (strcmp(asked.original, field->name) == 0 && ((const double *)&j->in)[k] == p->in[i])
            return 0;
    }
    return p->in[i] != field->standard;
}

static void calculation(const job *j, const part *const *column, size_t count)
{
    const ung_calculation *c = column[0]->calculation;
    double value[COLUMNS_MOST];
    printf("\n%s: %s\n", ung_calculation_name(c), ung_calculation_title(c));
    if (count > 1 || strcmp(column[0]->name, ung_calculation_name(c)) != 0) {
        printf("  %-26s", "");
        for (size_t i = 0; i < count; i++)
            printf(" %12s", column[i]->name);
        printf("\n");
    }
    for (size_t k = 0; k < ung_input_count(c); k++) {
        const ung_field *field = ung_input(c, k);
        char words[200];
        int any = 0, choice = 0;
        for (size_t i = 0; i < count; i++) {
            any |= found(j, column[i], k);
            choice |= column[i]->in[k] != field->standard && code_words(field->meaning, column[i]->in[k], words, 200);
            value[i] = column[i]->in[k];
        }
        if (any || choice)
            row(field->name, value, count, any ? "from another step: " : "given: ", field->meaning);
    }
    for (size_t k = 0; k < ung_output_count(c); k++) {
        const ung_field *field = ung_output(c, k);
        for (size_t i = 0; i < count; i++)
            value[i] = told(column[i], field->name) ? column[i]->out[k] : NAN;
        row(field->name, value, count, "", field->meaning);
    }
}

static void places(const outline *o, int k)
{
    static const char *const name[] = {"from_toe_mm", "side_fraction", "inset_mm", "tilt_deg", "margin_mm",
                                       "screw_length_limit_mm"};
    const layout *l = o->layout + (k - LEFT);
    if (o->part[k].state != UNG_STEP_DONE)
        return;
    const ung_screw_station *first = l->place, *last = l->place + l->places - 1;
    printf("  %s: places that came into question: %zu, %.0f to %.0f mm from the toe; "
           "wall there %.2f to %.2f mm, %.1f to %.1f deg\n",
           o->part[k].name, l->places, first->from_toe_mm, last->from_toe_mm, first->wall_thickness_mm,
           last->wall_thickness_mm, first->wall_angle_deg, last->wall_angle_deg);
    printf("  screw");
    for (size_t i = 0; i < sizeof name / sizeof *name; i++)
        printf("  %s", name[i]);
    printf("\n");
    for (size_t i = 0; i < l->screws; i++) {
        const ung_screw_place *w = l->screw + i;
        if (w->screw_length_limit_mm > 0) /* 0: no room */
            printf("  %5zu  %11.0f  %13.3f  %8.1f  %8.1f  %9.2f  %21.1f\n", i + 1, w->from_toe_mm, w->side_fraction,
                   w->inset_mm, w->tilt_deg, w->margin_mm, floor(w->screw_length_limit_mm * 10 + 1e-6) / 10);
        else
            printf("  %5zu  no room\n", i + 1);
    }
}

static void tasks(const ung_job_plan_out *plan)
{
    static const char *const task[UNG_PLAN_TASKS] = {"mix", "lay", "place", "drive", "wrap", "smooth"};
    printf("  %-8s %8s %9s %16s %6s %20s\n", "task", "mean_s", "finish_s", "chance_fraction", "batch",
           "own_chance_fraction");
    for (size_t i = 0; i < UNG_PLAN_TASKS; i++)
        printf("  %-8s %8.0f %9.0f %16.4f %6.0f %20.4f\n", task[i], plan->times[i].mean_s, plan->times[i].finish_s,
               plan->times[i].chance_fraction, plan->times[i].batch_count, plan->times[i].own_chance_fraction);
}

static void steps(const job *j)
{
    size_t count = j->parts + UNG_PLAN_STEP_COUNT;
    for (size_t i = 0; i < count; i++) {
        const part *column[COLUMNS_MOST];
        size_t columns = 0;
        int first = 1;
        for (size_t k = 0; k < count; k++) {
            if (j->part[k].calculation != j->part[i].calculation || !shown(j, j->part + k))
                continue;
            first &= k >= i;
            if (columns < COLUMNS_MOST)
                column[columns++] = j->part + k;
        }
        if (!first || columns == 0 || !shown(j, j->part + i))
            continue;
        calculation(j, column, columns);
        if (j->part[i].calculation == ung_screw_layout_contract()) {
            places(j->outline, LEFT);
            places(j->outline, RIGHT);
        } else if (j->part[i].calculation == ung_job_timeline_contract())
            tasks(&j->plan);
    }
}

static void not_planned(const job *j)
{
    const char *lead = "\nNot planned\n";
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
        char why[UNG_FAULT_TEXT], text[UNG_FAULT_TEXT + 100];
        if (j->plan.state[i] < UNG_STEP_LACKS)
            continue;
        printf("%s", lead);
        lead = "";
        snprintf(text, sizeof text, "%s (%s): %s", ung_plan_step(i).name,
                 ung_calculation_name(ung_plan_step(i).calculation), ung_fault_text(j->plan.fault + i, why));
        wrap("  ", 6, text);
    }
}

/* ---- What each gait asks for ---- */

static void gaits(const job *j)
{
    enum { GAITS = 3 };
    static ung_job_plan_out plan[GAITS];
    static const struct {
        size_t step;
        const char *output;
    } asked[] = {
        {UNG_PLAN_demand, "pull_n"},          {UNG_PLAN_demand, "shear_n"},
        {UNG_PLAN_demand, "demand_n"},        {UNG_PLAN_demand, "needed_screw_n"},
        {UNG_PLAN_grip_need, "horn_shear_needed_mpa"}, {UNG_PLAN_grip_need, "horn_bearing_needed_mpa"},
        {UNG_PLAN_demand, "needed_bond_n"},   {UNG_PLAN_bond_need, "needed_mean_mpa"},
        {UNG_PLAN_bond_need, "needed_first_mpa"}, {UNG_PLAN_demand, "needed_grip_n"},
    };
    if (j->plan.state[UNG_PLAN_demand] != UNG_STEP_DONE)
        return;
    const ung_calculation *load = ung_limb_load_contract();
    const ung_field *gait = ung_input(load, (size_t)input_index(load, "gait_count"));
    printf("\nStrengths needed at each gait, with divisor_ratio %g\n  %-26s", j->in.divisor_ratio, "");
    for (int g = 0; g < GAITS; g++) {
        ung_job_plan_in in = j->in;
        char words[200];
        in.gait_count = g + 1;
        in.cup_count = in.heat_count = 0;
        if (ung_job_plan(&in, plan + g, NULL) != UNG_OK) /* cannot be: this one was made */
            return;
        const char *said = code_words(gait->meaning, g + 1, words, sizeof words);
        printf(" %12s", said ? said : "");
    }
    printf("\n");
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
        ung_plan_part p = ung_plan_step(asked[i].step);
        double value[GAITS];
        const char *meaning = "";
        for (int g = 0; g < GAITS; g++)
            value[g] = output_of(p.calculation, (const double *)(plan + g) + p.out, asked[i].output);
        for (size_t k = 0; k < ung_output_count(p.calculation); k++)
            if (strcmp(ung_output(p.calculation, k)->name, asked[i].output) == 0)
                meaning = ung_output(p.calculation, k)->meaning;
        row(asked[i].output, value, GAITS, "", meaning);
    }
}

/* ---- What to bring and to do ---- */

void item_words(const ung_plan_item *item, char *text, size_t size)
{
    ung_plan_words(item->code, item->quantity, item->unit, "en", text, size);
}

static void items(const job *j)
{
    static const char *const title[] = {"Bring", "Do, in this order", "In the weeks after"};
    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    size_t n = ung_plan_items(&j->plan, item, UNG_PLAN_ITEMS_MOST);
    for (int kind = UNG_ITEM_BRING; kind <= UNG_ITEM_LATER; kind++) {
        printf("\n%s\n", title[kind]);
        for (size_t i = 0; i < n; i++) {
            char words[400], text[800];
            if (item[i].kind != (ung_item_kind)kind)
                continue;
            item_words(item + i, words, sizeof words);
            ung_plan_part p = ung_plan_step(item[i].step);
            snprintf(text, sizeof text, "%s  [%s%s%s%s%s]", words, p.name, item[i].field ? "." : "",
                     item[i].field ? item[i].field : "", item[i].caution ? ", caution " : "",
                     item[i].caution ? item[i].caution : "");
            wrap("  - ", 6, text);
        }
    }
}

/* ---- What is doubtful ---- */

static void caution_text(const ung_caution *c, char *text, size_t size)
{
    static const char *const word[] = {"below", "above", "equal to"};
    char value[80], limit[80];
    if (c->comparison == UNG_ALWAYS)
        snprintf(text, size, "%s", c->text);
    else
        snprintf(text, size, "%s (%s is %s, %s %s)", c->text, c->field,
                 measure(c->value, c->field, 4, value, sizeof value), word[c->comparison],
                 measure(c->limit, c->field, 4, limit, sizeof limit));
}

static void cautions(const held *caution, size_t count)
{
    printf("\nCautions, the most severe first\n");
    for (size_t i = 0; i < count; i++) {
        char text[800];
        printf("  %-4s  %s.%s (%s)\n", ung_severity_text(caution[i].caution.severity), caution[i].part->name,
               caution[i].caution.code, caution[i].caution.calculation);
        caution_text(&caution[i].caution, text, sizeof text);
        wrap("        ", 8, text);
    }
    if (count == 0)
        printf("  none\n");
}

static void unusual(const job *j)
{
    const char *lead = "\nUnusual, check it\n";
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_field f = ung_plan_input(i).field;
        double is = ((const double *)&j->in)[i];
        char value[80], upper[80], text[400];
        if (!sheet_plan_input(j->sheet, i) || (is >= f.usual_lower && is <= f.usual_upper))
            continue;
        printf("%s", lead);
        lead = "";
        snprintf(text, sizeof text, "%s is %s (usual %.15g to %s)", f.name, measure(is, f.name, 6, value, sizeof value),
                 f.usual_lower, measure(f.usual_upper, f.name, 15, upper, sizeof upper));
        wrap("  ", 6, text);
    }
}

static int used(const job *j, const char *calculation)
{
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++)
        if (j->plan.state[i] == UNG_STEP_DONE &&
            strcmp(ung_calculation_name(ung_plan_step(i).calculation), calculation) == 0)
            return 1;
    return !*calculation; /* the plan's own */
}

/* Standard values stand in for what was not measured: never silently. */
static void standard_values(const job *j)
{
    char all[8000] = "", one[80];
    size_t n = 0;
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_plan_asked asked = ung_plan_input(i);
        double is = ((const double *)&j->in)[i];
        if (isnan(is) || is != asked.field.standard || sheet_plan_input(j->sheet, i) || !used(j, asked.calculation))
            continue;
        measure(is, asked.field.name, 15, one, sizeof one);
        for (char *space; (space = strchr(one, ' '));)
            *space = '~';
        n += (size_t)snprintf(all + n, sizeof all - n, "%s%s~%s", n ? ", " : "", asked.field.name, one);
    }
    printf("\nNot on the sheet, so standard\n");
    wrap("  ", 2, all);
}

static void standing(const job *j)
{
    size_t count = j->parts + UNG_PLAN_STEP_COUNT;
    printf("\nAlways\n");
    for (size_t i = 0; i < count; i++) {
        int again = j->part[i].state != UNG_STEP_DONE;
        for (size_t k = 0; k < i; k++)
            again |= j->part[k].state == UNG_STEP_DONE && j->part[k].calculation == j->part[i].calculation;
        for (size_t k = 0; !again && k < ung_standing_count(j->part[i].calculation); k++)
            wrap("  - ", 4, ung_standing(j->part[i].calculation, k));
    }
    printf("\nThe attending veterinarian and a qualified farrier decide; this plan only computes.\n");
}

/* ---- Stops ---- */

/* To a tenth, on the side of the limit that lifts. */
static double to_tenth(double value, double now, int whole)
{
    return whole ? value : value < now ? floor(value * 10 + 1e-6) / 10 : ceil(value * 10 - 1e-6) / 10;
}

/* Values on the sheet each of which alone would lift a stop: usual ones first, and of those the least change in terms
 * of its usual range. */
enum { CHANGES_MOST = sizeof(ung_job_plan_in) / sizeof(double) };
typedef struct change {
    const measurement *given;
    double value, share;
    int unusual;
} change;

static size_t add_change(change *found, size_t count, const measurement *given, double value)
{
    const ung_field *f = &given->field;
    double usual = f->usual_upper > f->usual_lower ? f->usual_upper - f->usual_lower : f->upper - f->lower;
    value = to_tenth(value, given->value, f->whole);
    change c = {given, value, fabs(value - given->value) / usual, value < f->usual_lower || value > f->usual_upper};
    if (value < f->lower || value > f->upper)
        return count;
    size_t at = count;
    for (; at > 0; at--) {
        const change *before = found + at - 1;
        if (c.unusual > before->unusual || (c.unusual == before->unusual && c.share >= before->share))
            break;
        found[at] = *before;
    }
    found[at] = c;
    return count + 1;
}

static size_t find_changes(const job *j, const held *h, change *found)
{
    size_t count = 0;
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        const measurement *given = sheet_plan_input(j->sheet, i);
        double value;
        if (given && ung_plan_input(i).chosen &&
            ung_job_plan_lift(&j->in, h->step, h->caution.code, i, &value, NULL) == UNG_OK && !isnan(value))
            count = add_change(found, count, given, value);
    }
    return count;
}

/* Steps before the plan are not searched: the layout itself says what would keep every margin, on both sides, and the
 * belt's cautions hold a value on the sheet against its limit. */
static size_t find_outline_changes(const job *j, const held *h, change *found)
{
    static const char *const fit[][2] = {
        {"screws_count", "screws_fit_count"},
        {"spacing_mm", "spacing_fit_mm"},
        {"screw_length_mm", "screw_length_fit_mm"}};
    const ung_calculation *of = ung_screw_layout_contract();
    size_t count = 0, input = plan_input_index(h->caution.field);
    if (h->part->calculation != of) {
        const measurement *given = input == UNG_NO_INDEX ? NULL : sheet_plan_input(j->sheet, input);
        return given ? add_change(found, count, given, h->caution.limit) : 0;
    }
    for (size_t i = 0; i < sizeof fit / sizeof *fit; i++) {
        const measurement *given = i == 0 ? sheet_screws(j->sheet) : sheet_find(j->sheet, of, fit[i][0]);
        double value = fmin(output_of(of, j->outline->part[LEFT].out, fit[i][1]),
                            output_of(of, j->outline->part[RIGHT].out, fit[i][1]));
        if (given && value > 0 && value < given->value)
            count = add_change(found, count, given, value);
    }
    return count;
}

static void changes(const job *j, const held *h)
{
    change found[CHANGES_MOST];
    size_t count = h->step == UNG_NO_INDEX ? find_outline_changes(j, h, found) : find_changes(j, h, found);
    char is[80], by[80];
    if (count == 0) {
        printf("  No change of a single value on the sheet lifts it.\n");
        return;
    }
    const measurement *cause = found[0].given;
    printf("  Value on the sheet that causes it: %s = %s (line %d)\n", cause->field.name,
           measure(cause->value, cause->field.name, 15, is, sizeof is), cause->line);
    printf("  Least change that lifts it (any one of these alone):\n");
    for (size_t i = 0; i < count; i++) {
        const char *name = found[i].given->field.name;
        double now = found[i].given->value, value = found[i].value;
        printf("    %-18s %.15g -> %s (%s %s)%s\n", name, now, measure(value, name, 15, is, sizeof is),
               measure(fabs(value - now), name, 6, by, sizeof by), value < now ? "less" : "more",
               found[i].unusual ? ", outside the usual range" : "");
    }
}

void print_stops(const job *j, const held *caution, size_t count)
{
    size_t stops = 0;
    for (; stops < count && caution[stops].caution.severity == UNG_STOP; stops++) {
        char text[800], lead[120];
        const held *h = caution + stops;
        caution_text(&h->caution, text, sizeof text);
        snprintf(lead, sizeof lead, "STOP  %s.%s (%s): ", h->part->name, h->caution.code, h->caution.calculation);
        wrap(lead, 6, text);
        changes(j, h);
    }
    if (stops)
        printf("\n");
}

void print_text(const job *j, const held *caution, size_t count)
{
    print_stops(j, caution, count);
    printf("Plan from %s\n", j->sheet->path);
    if (j->outline)
        printf("  %s (line %d of the sheet): %zu points\n", j->sheet->trace->echo, j->sheet->trace->line,
               j->outline->trace.count);
    items(j);
    cautions(caution, count);
    not_planned(j);
    unusual(j);
    steps(j);
    gaits(j);
    standard_values(j);
    standing(j);
}
