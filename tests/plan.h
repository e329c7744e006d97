/* What the tests of the plan share: plans, names, and the searches once more, by trying everything. */
#ifndef UNG_TESTS_PLAN_H
#define UNG_TESTS_PLAN_H

#include "common.h"
#include "horses.h"

#include <stddef.h>

static inline ung_job_plan_out plan_of(const ung_job_plan_in *in)
{
    ung_job_plan_out plan;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    must_msg(ung_job_plan(in, &plan, &fault) == UNG_OK, "%s", ung_fault_text(&fault, text));
    return plan;
}

static inline size_t step_named(const char *name)
{
    for (size_t i = 0; ung_plan_step(i).name; i++)
        if (strcmp(ung_plan_step(i).name, name) == 0)
            return i;
    ck_abort_msg("no step %s", name);
    return 0;
}

static inline size_t plan_input_named(const char *name) /* UNG_NO_INDEX: none */
{
    for (size_t i = 0; i < ung_plan_input_count(); i++)
        if (strcmp(ung_plan_input(i).field.name, name) == 0)
            return i;
    return UNG_NO_INDEX;
}

static inline int has_word(const char *words, const char *word)
{
    size_t n = strlen(word);
    for (const char *at = words; (at = strstr(at, word)) != NULL; at += n)
        if ((at == words || at[-1] == ' ') && (at[n] == ' ' || at[n] == 0))
            return 1;
    return 0;
}

static inline const ung_plan_item *item_of(const ung_plan_item *item, size_t n, const char *code)
{
    for (size_t i = 0; i < n; i++)
        if (same_text(item[i].code, code))
            return item + i;
    return NULL;
}

/* Steps that only compare, or repeat another one; apart from the way of driving that was not chosen. */
static const char *const comparing = "narrow_tape wide_tape demand bond_only grip_need bond_need recheck cooler";

static inline double least(double a, double b)
{
    return a < b ? a : b;
}

static inline double most(double a, double b)
{
    return a > b ? a : b;
}

/* ---- Searches: every length of the box, every whole millimeter, every number of passes ---- */

static inline double longest_from_shoe(ung_screw_depth_in x, double step)
{
    double best = (double)NAN;
    for (int i = 1; i * step <= 150; i++) {
        ung_screw_depth_out out;
        x.screw_length_mm = i * step;
        if (i * step >= 8 && ung_screw_depth(&x, &out, NULL) == UNG_OK && out.margin_mm >= 0 &&
            out.embedded_mm > 0)
            best = x.screw_length_mm;
    }
    return best;
}

static inline double longest_through_wall(ung_screw_through_in x, double step)
{
    double best = (double)NAN;
    for (int i = 1; i * step <= 150; i++) {
        ung_screw_through_out out;
        x.screw_length_mm = i * step;
        if (i * step >= 8 && ung_screw_through(&x, &out, NULL) == UNG_OK && out.margin_mm >= 0)
            best = x.screw_length_mm;
    }
    return best;
}

/* The most margin of all entries, with the length in x or the longest of the box; the lowest entry that has it.
 * margin: below 0 where no entry keeps all. */
static inline double best_entry(ung_screw_through_in x, double step, double *margin)
{
    double best = (double)NAN, given = x.screw_length_mm;
    *margin = -INFINITY;
    for (int height = 1; height <= 80 && (x.belt_top_mm == 0 || height <= x.belt_top_mm); height++) {
        ung_screw_through_out out;
        x.entry_height_mm = height;
        x.screw_length_mm = isnan(given) ? longest_through_wall(x, step) : given;
        if (ung_screw_through(&x, &out, NULL) == UNG_OK && out.margin_mm > *margin)
            *margin = out.margin_mm, best = height;
    }
    return best;
}

/* Thin: fewer than three plies in the mean, or two at an edge.  Thick: more than ten. */
static inline double passes_wanted(ung_cast_length_in x)
{
    ung_cast_length_out out[13];
    int fewest = 0, wanted;
    for (int passes = 12; passes >= 1; passes--) {
        x.passes_count = passes;
        must(ung_cast_length(&x, out + passes, NULL) == UNG_OK);
        if (!(out[passes].layers < 3) && !(out[passes].edge_plies_count < 2))
            fewest = passes;
    }
    if (!fewest)
        return 12;
    wanted = fewest;
    for (int passes = fewest; passes <= 4; passes++) /* more are not usual */
        if (out[passes].rolls_count == out[fewest].rolls_count && out[passes].layers <= 10)
            wanted = passes;
    return wanted;
}

#endif
