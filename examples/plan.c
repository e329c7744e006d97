/* The main job: from a sheet of measurements to the plan for one foot.
 *
 *     plan SHEET
 *
 * What a sheet may hold is said in plan_sheet.h, what a trace in plan_trace.h, and both in the usage text below.
 * Exit status: 0 the plan stands, 1 a stop stands, 2 the sheet was refused (and nothing is planned).
 * Names, units, meanings and texts are those of the contracts; plan.py prints the same from Python. */
#include "plan_hold.h"
#include "plan_text.h"
#include "plan_timing.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void taken_rows(const plan *p, const step *st)
{
    for (size_t i = 0; i < ung_input_count(st->calculation); i++)
        if (st->taken[i] && st->in[i] == st->high[i]) {
            char from[120] = "taken: ";
            source_text(p, st->taken[i], from + strlen(from), sizeof from - strlen(from));
            row(ung_input(st->calculation, i)->name, st->in[i], from);
        }
}

/* Standard values stand in for what was not measured: never silently. */
static void standard_values(const step *st)
{
    char all[2000] = "", one[80];
    for (size_t i = 0, n = 0; i < ung_input_count(st->calculation); i++) {
        const char *name = ung_input(st->calculation, i)->name;
        if (st->given[i] || st->taken[i] || st->unknown[i])
            continue;
        measure(st->in[i], name, 15, one, sizeof one);
        for (char *space; (space = strchr(one, ' '));)
            *space = '~';
        n += (size_t)snprintf(all + n, sizeof all - n, "%s%s~%s", n ? ", " : "", name, one);
    }
    if (*all)
        wrap("  not on the sheet, so standard: ", 6, all);
}

static void unusual_values(const step *st)
{
    for (size_t i = 0; i < ung_input_count(st->calculation); i++) {
        const ung_field *f = ung_input(st->calculation, i);
        char value[80], upper[80], text[400];
        if ((!st->given[i] && !st->taken[i]) || st->in[i] != st->high[i] ||
            (st->in[i] >= f->usual_lower && st->in[i] <= f->usual_upper))
            continue;
        snprintf(text, sizeof text, "%s is %s (usual %.15g to %s)", f->name,
                 measure(st->in[i], f->name, 6, value, sizeof value), f->usual_lower,
                 measure(f->usual_upper, f->name, 15, upper, sizeof upper));
        wrap("  unusual, check it: ", 6, text);
    }
}

static void places(const layout *l)
{
    static const char *const name[] = {"from_toe_mm", "side_fraction", "inset_mm", "tilt_deg", "margin_mm",
                                       "screw_length_limit_mm"};
    const ung_screw_station *first = l->place, *last = l->place + l->places - 1;
    printf("  places that came into question: %zu, %.0f to %.0f mm from the toe; "
           "wall there %.2f to %.2f mm, %.1f to %.1f deg\n",
           l->places, first->from_toe_mm, last->from_toe_mm, first->wall_thickness_mm, last->wall_thickness_mm,
           first->wall_angle_deg, last->wall_angle_deg);
    printf("  screw");
    for (size_t i = 0; i < sizeof name / sizeof *name; i++)
        printf("  %s", name[i]);
    printf("\n");
    for (size_t i = 0; i < l->screws; i++) {
        const ung_screw_place *w = l->screw + i;
        if (w->screw_length_limit_mm > 0) /* 0: no room */
            printf("  %5zu  %11.0f  %13.3f  %8.1f  %8.1f  %9.2f  %21.1f\n", i + 1, w->from_toe_mm, w->side_fraction,
                   w->inset_mm, w->tilt_deg, w->margin_mm, down_to_tenth(w->screw_length_limit_mm));
        else
            printf("  %5zu  no room\n", i + 1);
    }
}

static void section(const plan *p, int number)
{
    const step *st = p->step + number;
    if (!st->ran)
        return;
    printf("  %s%s: %s\n", ung_calculation_name(st->calculation), side_of(number),
           ung_calculation_title(st->calculation));
    taken_rows(p, st);
    for (size_t i = 0; i < ung_output_count(st->calculation); i++) {
        const ung_field *f = ung_output(st->calculation, i);
        if (hold_tells(st, i))
            row(f->name, st->out[i], f->meaning);
    }
    hold_open(st);
    if (number == LEFT || number == RIGHT)
        places(p->layout + (number - LEFT));
    unusual_values(st);
    if (number != PROFILE) /* its one input is where the plan asks */
        standard_values(st);
}

static void sections(const plan *p, const sheet *s)
{
    static const char *const title[STEPS] = {
        [OUTLINE] = "Outline", [BELT] = "Belt", [WALL] = "Screw",      [PROFILE] = "Screws",
        [ADHESIVE] = "Adhesive", [TAPE] = "Tape", [HEEL] = "Heel bevel",  [LOAD] = "Hold",   [NEED] = "Timing"};
    for (int k = 0; k < STEPS; k++) {
        if (title[k] && p->calculation[k])
            printf("\n%s\n", title[k]);
        if (k == OUTLINE && s->trace)
            printf("  %s (line %d of the sheet): %zu points\n", s->trace->echo, s->trace->line, p->trace.count);
        if (k != DEMAND && k != NEED)
            section(p, k);
        if (k == HOLD)
            hold_words(p);
    }
    timing_words(p);
}

/* All layouts together: how many screws, and how long the shortest limit lets them be. */
static void bring_layouts(const plan *p)
{
    double shortest = INFINITY;
    int count = 0;
    for (int side = 0; side < 2; side++)
        for (size_t i = 0; i < p->layout[side].screws; i++) {
            double limit = p->layout[side].screw[i].screw_length_limit_mm;
            if (limit > 0) {
                shortest = fmin(shortest, limit);
                count++;
            }
        }
    printf("  screws:                %d with %.15g mm thread", count, input_of(p->step + LEFT, "screw_diameter_mm"));
    if (count)
        printf(", at most %.1f mm long", down_to_tenth(shortest));
    printf("\n");
}

static void bring_screw(const step *screw)
{
    double longest = floor(result(screw, "screw_length_limit_mm") * 10) / 10; /* down: it is a limit */
    if (result(screw, "depth_limit_mm") > 0)
        printf("  screws:                %.15g mm thread, at most %.1f mm long\n", input_of(screw, "screw_diameter_mm"),
               longest);
    else
        printf("  screws:                none: at this place and slant no length keeps every margin\n");
}

static void bring(const plan *p)
{
    const step *glue = p->step + ADHESIVE, *tape = p->step + TAPE;
    printf("\nBring\n");
    printf("  packs of adhesive:     %.0f, each giving %.15g mL; %.1f mL for the first coat and %.1f mL for the top "
           "coat, mixed apart\n",
           result(glue, "packs_separate_count"), input_of(glue, "pack_ml"), result(glue, "first_coat_ml"),
           result(glue, "top_coat_ml"));
    printf("  rolls of casting tape: %.0f, each %.15g mm wide and %.15g mm long\n", result(tape, "rolls_count"),
           input_of(tape, "tape_width_mm"), input_of(tape, "roll_length_mm"));
    if (p->step[SCREW].ran)
        bring_screw(p->step + SCREW);
    else
        bring_layouts(p);
}

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

static void cautions(const plan *p)
{
    int none = 1;
    printf("\nCautions, the most severe first\n");
    for (int severity = UNG_STOP; severity >= UNG_NOTE; severity--)
        for (int k = 0; k < STEPS; k++) {
            if (k == DEMAND || k == NEED)
                continue;
            ung_caution caution[UNG_CAUTIONS_MOST];
            size_t n = step_cautions(p->step + k, caution);
            for (size_t i = 0; i < n; i++) {
                char text[600];
                if (caution[i].severity != (ung_severity)severity)
                    continue;
                printf("  %-4s  %s.%s%s\n", ung_severity_text(caution[i].severity), caution[i].calculation,
                       caution[i].code, side_of(k));
                caution_text(caution + i, text, sizeof text);
                wrap("        ", 8, text);
                none = 0;
            }
        }
    if (none)
        printf("  none\n");
}

static void standing(const plan *p)
{
    static const int second[STEPS] = {[RIGHT] = 1, [DEMAND] = 1, [NEED] = 1}; /* said elsewhere */
    printf("\nAlways\n");
    for (int k = 0; k < STEPS; k++)
        for (size_t i = 0; !second[k] && p->step[k].ran && i < ung_standing_count(p->calculation[k]); i++)
            wrap("  - ", 4, ung_standing(p->calculation[k], i));
    printf("\nThe attending veterinarian and a qualified farrier decide; this plan only computes.\n");
}

/* One change that would lift the stop; `code` NULL: all stops of the step. */
static int print_changes(const step *st, int number, const char *code)
{
    int found = 0;
    for (const char *const *name = changeable(number); *name; name++) {
        size_t i = (size_t)input_index(st->calculation, *name);
        const ung_field *f = ung_input(st->calculation, i);
        double value = least_change(st, i, code), now = st->high[i], by = fabs(value - now);
        char to[80], size[80];
        if (isnan(value))
            continue;
        if (!found++)
            printf("  Least change that lifts it%s:\n", number != BELT ? " (any one of these alone)" : "");
        printf("    %-18s %.6g -> %s (%s %s)%s\n", f->name, now,
               measure(value, f->name, 15, to, sizeof to), measure(by, f->name, 6, size, sizeof size),
               value < now ? "less" : "more",
               value < f->usual_lower || value > f->usual_upper ? ", outside the usual range" : "");
    }
    return found;
}

/* The measured value to look at: the caution's own if it is an input, otherwise the first on the sheet that would
 * lift it, otherwise what the calculation starts from (the wall). */
static const char *cause(const step *st, int number, const ung_caution *c)
{
    if (input_index(st->calculation, c->field) >= 0)
        return c->field;
    for (const char *const *name = changeable(number); *name; name++) {
        size_t i = (size_t)input_index(st->calculation, *name);
        if (st->given[i] && !isnan(least_change(st, i, c->code)))
            return *name;
    }
    return ung_input(st->calculation, 0)->name;
}

/* Which of the screw's covers is short of what its margin asks for. */
static void short_covers(const step *st)
{
    static const char *const pair[][2] = {{"inner_cover_mm", "inner_margin_mm"},
                                          {"outer_cover_mm", "outer_margin_mm"},
                                          {"white_line_cover_mm", "white_line_margin_mm"},
                                          {"edge_cover_mm", "edge_margin_mm"},
                                          {"height_limit_mm", "tip_height_mm"}};
    for (size_t i = 0; i < sizeof pair / sizeof *pair; i++) {
        int limit = input_index(st->calculation, pair[i][0]);
        double has = limit < 0 ? result(st, pair[i][0]) : st->in[limit];
        double wanted = limit < 0 ? input_of(st, pair[i][1]) : result(st, pair[i][1]);
        if (has < wanted)
            printf("  %s is %.4g mm, and %s is %.4g mm\n", pair[i][0], has, pair[i][1], wanted);
    }
}

static void weakest(const step *st, const layout *l)
{
    double number = result(st, "weakest_count");
    if (number > 0)
        printf("  The screw with the least margin: number %.0f, %.0f mm from the toe\n", number,
               l->screw[(size_t)number - 1].from_toe_mm);
}

/* What the layout itself says would keep every margin, where that is a change and does it. */
static void print_layout_changes(const plan *p, int number)
{
    static const char *const change[][2] = {{"spacing_mm", "spacing_fit_mm"},
                                            {"screw_length_mm", "screw_length_fit_mm"}};
    const step *st = p->step + number;
    size_t screws = p->layout[number - LEFT].screws, fit = (size_t)result(st, "screws_fit_count");
    const char *lead = "  What would keep every margin (any one of these alone):\n";
    if (fit > 0 && fit < screws && layout_would_do(p, number, fit, NULL, 0)) {
        printf("%s    %-18s %zu -> %zu (%zu less)\n", lead, "screws_count", screws, fit, screws - fit);
        lead = "";
    }
    for (size_t i = 0; i < sizeof change / sizeof *change; i++) {
        const char *name = change[i][0];
        double now = input_of(st, name), value = down_to_tenth(result(st, change[i][1]));
        char to[80], by[80];
        if (!(value < now) || !layout_would_do(p, number, screws, name, value))
            continue;
        printf("%s    %-18s %.15g -> %s (%s less)\n", lead, name, now, measure(value, name, 15, to, sizeof to),
               measure(now - value, name, 6, by, sizeof by));
        lead = "";
    }
    if (*lead)
        printf("  Neither fewer screws, nor less spacing, nor shorter screws alone keep every margin.\n");
}

static void print_stop(const plan *p, int number, const ung_caution *c)
{
    const step *st = p->step + number;
    const char *name = cause(st, number, c);
    int i = input_index(st->calculation, name);
    char text[600], lead[80], value[80];
    caution_text(c, text, sizeof text);
    snprintf(lead, sizeof lead, "STOP  %s.%s%s: ", c->calculation, c->code, side_of(number));
    wrap(lead, 6, text);
    if (number == LEFT || number == RIGHT) {
        weakest(p->step + number, p->layout + (number - LEFT));
        return;
    }
    if (number == LINE) {
        timing_stop(p);
        return;
    }
    if (number == SCREW)
        short_covers(st);
    printf("  Measured value that causes it: %s = %s", name,
           measure(st->in[i], name, 15, value, sizeof value));
    if (st->given[i])
        printf(" (line %d of the sheet)\n", st->given[i]->line);
    else if (st->taken[i]) {
        source_text(p, st->taken[i], text, sizeof text);
        printf(" (%s)\n", text);
    } else
        printf(" (standard value, not on the sheet)\n");
}

/* Returns how many stops stand. */
static size_t stops(const plan *p)
{
    size_t all = 0;
    for (int k = 0; k < STEPS; k++) {
        const step *st = p->step + k;
        ung_caution caution[UNG_CAUTIONS_MOST];
        size_t n = k == DEMAND || k == NEED ? 0 : step_stops(st);
        step_cautions(st, caution);
        for (size_t i = 0; i < n; i++)
            print_stop(p, k, caution + i);
        if (n && (k == LEFT || k == RIGHT))
            print_layout_changes(p, k);
        else if (n && k != LINE && !print_changes(st, k, NULL)) { /* one change for all stops, if there is one */
            printf("  No change of a single value lifts %s.\n", n > 1 ? "all of these" : "it");
            for (size_t i = 0; n > 1 && i < n; i++) {
                printf("  %s.%s alone:\n", caution[i].calculation, caution[i].code);
                print_changes(st, k, caution[i].code);
            }
        }
        all += n;
    }
    if (!(p->step[LINE].ran && step_stops(p->step + LINE)))
        all += timing_own_stop(p);
    if (all)
        printf("\n");
    return all;
}

static const char usage[] =
    "usage: plan SHEET\n"
    "\n"
    "Lines of the sheet: name = value unit, lengths in mm or in; # begins a comment.\n"
    "  hoof_length_mm = 5.25 in               a measurement\n"
    "  trace = FILE.csv mm                    instead of length and width: points round the hoof, x,y a line\n"
    "  left.0.25.wall_thickness_mm = 9.5 mm   with a trace: the wall at a station, a quarter of the left side from\n"
    "  left.0.25.wall_angle_deg = 74 deg      the toe (0) to the rear (1); at the heels 180 - heel angle\n"
    "  screws_count = 2                       with stations: screws on each side\n"
    "  gait_count = 2                         with body_mass_kg and shoe_mass_g: whether bond or screws hold\n"
    "  task.1.low_s = 30 s                    with reference_time_s, temperature_c ...: whether the work gets done\n"
    "                                         before the adhesive sets; likely_s and high_s as well\n";

int main(int argc, char **argv)
{
    static plan p;
    static sheet s;
    if (argc != 2) {
        fputs(usage, stderr);
        return 2;
    }
    if (sheet_read(&s, argv[1]) < 0)
        return 2;
    plan_begin(&p, &s);
    sheet_check(&s, p.calculation, STEPS);
    if (plan_run(&p, &s) > 0)
        return 2;
    size_t standing_stops = stops(&p);
    printf("Plan from %s\n", argv[1]);
    sections(&p, &s);
    bring(&p);
    cautions(&p);
    standing(&p);
    if (fflush(stdout) || ferror(stdout)) {
        fprintf(stderr, "plan: cannot write the plan\n");
        return 2;
    }
    return standing_stops ? 1 : 0;
}
