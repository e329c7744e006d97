/* What the attachment holds at the load of a gait; see plan_hold.h. */
#include "plan_hold.h"
#include "plan_text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { GAITS = 4, NEEDS = 12 };

double load_shear(const plan *p)
{
    const step *load = p->step + LOAD;
    if (result(load, "horizontal_known_count") == 0)
        return NAN;
    return fmax(result(load, "braking_n_per_kg"), result(load, "propulsive_n_per_kg"));
}

double layout_screws(const plan *p)
{
    return result(p->step + LEFT, "placed_count") + result(p->step + RIGHT, "placed_count");
}

double layout_embedded(const plan *p)
{
    return fmin(result(p->step + LEFT, "least_embedded_mm"), result(p->step + RIGHT, "least_embedded_mm"));
}

double point_in_horn(const plan *p)
{
    (void)p;
    return 1;
}

double screw_lean(const plan *p)
{
    return fabs(input_of(p->step + SCREW, "tilt_deg"));
}

/* Weaker along its axis, a screw is worst off where it leans as the load does; otherwise, where it leans most. */
double layout_lean(const plan *p)
{
    const double pi = 3.14159265358979323846;
    const step *grip = p->step + GRIP, *demand = p->step + DEMAND;
    int along = result(grip, "axial_design_n") < result(grip, "lateral_design_n");
    double of_load = along ? atan2(result(demand, "shear_n"), result(demand, "pull_n")) * 180 / pi : 180, worst = 0;
    int first = 1;
    for (int side = LEFT; side <= RIGHT; side++)
        for (size_t i = 0; i < (size_t)result(p->step + side, "placed_count"); i++) {
            double lean = fabs(p->layout[side - LEFT].screw[i].tilt_deg);
            if (first || fabs(lean - of_load) < fabs(worst - of_load))
                worst = lean;
            first = 0;
        }
    return worst;
}

double wood_under_head(const plan *p)
{
    const step *screw = p->step + (p->calculation[SCREW] ? SCREW : RIGHT);
    return input_of(screw, "shoe_thickness_mm") - input_of(screw, "head_recess_mm");
}

/* The belt lies on the shoe below the bearing plane: upright first, then leaning in. */
double wall_lap(const plan *p)
{
    const double pi = 3.14159265358979323846;
    const step *belt = p->step + BELT;
    double depth = fmax(-input_of(belt, "low_mm"), 0), upright = fmin(depth, input_of(belt, "upper_layer_mm"));
    double lean = cos(input_of(belt, "edge_bevel_deg") * pi / 180);
    return result(belt, "slant_height_mm") - (upright + (depth - upright) / lean);
}

double wall_at_screw(const plan *p)
{
    return input_of(p->step + SCREW, "wall_thickness_mm");
}

double thinnest_station(const plan *p)
{
    double least = INFINITY;
    for (size_t i = 0; i < p->stations; i++)
        least = fmin(least, p->station[i].wall_thickness_mm);
    return least;
}

static void open_input(step *st, const char *name)
{
    int i = input_index(st->calculation, name);
    if (i < 0 || st->given[i] || st->taken[i])
        return;
    const ung_field *f = ung_input(st->calculation, (size_t)i);
    st->in[i] = f->lower;
    st->high[i] = f->upper;
    st->unknown[i] = st->open = 1;
}

void open_strengths(plan *p)
{
    static const char *const capacity[] = {"axial_design_n", "lateral_design_n", "bond_capacity_first_n",
                                           "bond_capacity_mean_n"};
    open_input(p->step + GRIP, "horn_shear_mpa");
    open_input(p->step + GRIP, "horn_bearing_mpa");
    open_input(p->step + BOND, "shear_strength_mpa");
    for (size_t i = 0; i < sizeof capacity / sizeof *capacity; i++) /* not asked for before bond and screws are known */
        open_input(p->step + DEMAND, capacity[i]);
    /* The whole bond carries no less than its first crack takes, also where only one of the two is on the sheet. */
    step *demand = p->step + DEMAND;
    int first = input_index(demand->calculation, "bond_capacity_first_n");
    int mean = input_index(demand->calculation, "bond_capacity_mean_n");
    if (first >= 0 && demand->unknown[mean] && !demand->unknown[first])
        demand->in[mean] = demand->in[first];
    if (first >= 0 && demand->unknown[first] && !demand->unknown[mean])
        demand->high[first] = demand->in[mean];
}

static int same(const step *st, const char *output)
{
    for (size_t i = 0; i < ung_output_count(st->calculation); i++)
        if (strcmp(ung_output(st->calculation, i)->name, output) == 0)
            return st->out[i] == st->out_high[i];
    return 0;
}

/* A result that may change and come back between the least and the greatest strength is known where what it is about
 * is known. */
static int known(const step *st, const char *output)
{
    static const char *const about[][2] = {{"governing_mode_count", "lateral_yield_n"},
                                           {"governing_count", "single_path_use_ratio"},
                                           {"loss_without_screws_ratio", "single_path_use_ratio"},
                                           {"weakest_part_count", "least_ratio"}};
    for (size_t i = 0; i < sizeof about / sizeof *about; i++)
        if (strcmp(output, about[i][0]) == 0 && !same(st, about[i][1]))
            return 0;
    return same(st, output);
}

/* Whether a result stands for a question that was not asked, or for unknown. */
static int unasked(const step *st, const char *output)
{
    static const char *const about[][2] = {
        {"axial_use_ratio", "wanted_axial_n"},     {"horn_shear_needed_mpa", "wanted_axial_n"},
        {"lateral_use_ratio", "wanted_lateral_n"}, {"horn_bearing_needed_mpa", "wanted_lateral_n"}};
    if (st->calculation == ung_limb_load_contract())
        return result(st, "horizontal_known_count") == 0 &&
               (strncmp(output, "braking_", 8) == 0 || strncmp(output, "propulsive_", 11) == 0);
    if (st->calculation == ung_hold_contract() && strstr(output, "peel_") && input_of(st, "peel_pull_n") == 0)
        return 1;
    if (st->calculation == ung_hold_contract())
        return (strcmp(output, "peel_use_ratio") == 0 && input_of(st, "peel_strength_n_per_mm") == 0) ||
               (strcmp(output, "grip_use_ratio") == 0 && input_of(st, "grip_n") == 0);
    for (size_t i = 0; st->calculation == ung_screw_hold_contract() && i < sizeof about / sizeof *about; i++)
        if (strcmp(output, about[i][0]) == 0)
            return input_of(st, about[i][1]) == 0;
    return 0;
}

int hold_tells(const step *st, size_t output)
{
    const char *name = ung_output(st->calculation, output)->name;
    return known(st, name) && !unasked(st, name);
}

void hold_open(const step *st)
{
    char missing[400] = "", left[1000] = "";
    if (!st->open)
        return;
    for (size_t i = 0; i < ung_input_count(st->calculation); i++)
        if (st->unknown[i])
            listed(missing, sizeof missing, ung_input(st->calculation, i)->name);
    for (size_t i = 0; i < ung_output_count(st->calculation); i++) {
        const char *name = ung_output(st->calculation, i)->name;
        if (!known(st, name) && !unasked(st, name))
            listed(left, sizeof left, name);
    }
    if (*missing)
        wrap("  not on the sheet, and no trustworthy value is published: ", 6, missing);
    if (*left)
        wrap("  not calculated, for want of a strength: ", 6, left);
}

/* What a number stands for, from "1 stand, 2 walk" or "0: fore limb, 1: hind limb". */
static const char *choice(const step *st, const char *name, int number, char *text, size_t size)
{
    const char *from = ung_input(st->calculation, (size_t)input_index(st->calculation, name))->meaning;
    for (; from; from = strchr(from, ',') ? strchr(from, ',') + 2 : NULL) {
        char *rest;
        if (strtol(from, &rest, 10) != number)
            continue;
        rest += strspn(rest, ": ");
        snprintf(text, size, "%.*s", (int)strcspn(rest, ","), rest);
        return text;
    }
    snprintf(text, size, "%d", number);
    return text;
}

static void set(step *st, const char *name, double value)
{
    int i = input_index(st->calculation, name);
    st->in[i] = st->high[i] = value;
}

static const ung_field *output_field(const ung_calculation *c, const char *name)
{
    for (size_t i = 0; i < ung_output_count(c); i++)
        if (strcmp(ung_output(c, i)->name, name) == 0)
            return ung_output(c, i);
    return NULL;
}

/* Load and needed strengths: the step and its result; the first is an input. */
static const struct {
    int step;
    const char *name;
} needs[NEEDS] = {{DEMAND, "shear_n_per_kg"},      {DEMAND, "pull_n"},        {DEMAND, "shear_n"},
                  {DEMAND, "demand_n"},            {DEMAND, "needed_screw_n"}, {GRIP, "horn_shear_needed_mpa"},
                  {GRIP, "horn_bearing_needed_mpa"}, {DEMAND, "needed_bond_n"}, {BOND, "needed_mean_mpa"},
                  {BOND, "needed_first_mpa"},      {DEMAND, "needed_peel_n_per_mm"}, {DEMAND, "needed_grip_n"}};

/* The needs at a gait; NaN: not known, or not a question.  What the sheet says of the ground is of its own gait. */
static void needs_at(const plan *p, int gait, double *need)
{
    step load = p->step[LOAD], demand = p->step[DEMAND], grip = p->step[GRIP], bond = p->step[BOND];
    int own = gait == (int)input_of(&load, "gait_count");
    for (int i = 0; i < NEEDS; i++)
        need[i] = NAN;
    set(&load, "gait_count", gait);
    if (!step_call(&load, NULL))
        return;
    if (!own) {
        double standard[UNG_FIELDS_MOST];
        ung_standard(demand.calculation, standard);
        set(&demand, "shear_n_per_kg",
            result(&load, "horizontal_known_count") > 0
                ? fmax(result(&load, "braking_n_per_kg"), result(&load, "propulsive_n_per_kg"))
                : standard[input_index(demand.calculation, "shear_n_per_kg")]);
    }
    if (!step_call(&demand, NULL))
        return;
    int screws = input_of(&demand, "screw_count") > 0;
    set(&grip, "wanted_axial_n", result(&demand, "needed_screw_n"));
    set(&grip, "wanted_lateral_n", result(&demand, "needed_screw_n"));
    set(&bond, "demand_n", result(&demand, "demand_n"));
    int gripped = screws && step_call(&grip, NULL), bonded = step_call(&bond, NULL);
    for (int i = 0; i < NEEDS; i++)
        need[i] = i == 0                     ? input_of(&demand, needs[i].name)
                  : needs[i].step == GRIP    ? (gripped ? result(&grip, needs[i].name) : NAN)
                  : needs[i].step == BOND    ? (bonded ? result(&bond, needs[i].name) : NAN)
                  : i == 4 && !screws        ? NAN
                  : unasked(&demand, needs[i].name) ? NAN
                                             : result(&demand, needs[i].name);
}

static void needed(const plan *p)
{
    const step *load = p->step + LOAD;
    int own = (int)input_of(load, "gait_count"), gaits = own < GAITS ? GAITS - 1 : GAITS;
    double need[GAITS][NEEDS];
    char text[80];
    printf("  needed at each gait, with divisor_ratio %.15g\n%27s", input_of(p->step + HOLD, "divisor_ratio"), "");
    for (int g = 0; g < gaits; g++) {
        needs_at(p, g + 1, need[g]);
        printf(" %9s", choice(load, "gait_count", g + 1, text, sizeof text));
    }
    printf("\n");
    for (int i = 0; i < NEEDS; i++) {
        const ung_calculation *c = p->calculation[needs[i].step];
        int at = input_index(c, needs[i].name);
        printf("    %-23s", needs[i].name);
        for (int g = 0; g < gaits; g++)
            if (isnan(need[g][i]))
                printf(" %9s", "-");
            else
                printf(" %9.2f", need[g][i]);
        printf("  %-5s  %s\n", ung_field_unit(needs[i].name),
               at < 0 ? output_field(c, needs[i].name)->meaning : ung_input(c, (size_t)at)->meaning);
    }
}

/* "0.91", "not calculated" */
static const char *use(const step *st, const char *name, char *text, size_t size)
{
    snprintf(text, size, known(st, name) ? "%.2f" : "not calculated", result(st, name));
    return text;
}

/* The part that gives first, and at how many times the load. */
static void weakest(const plan *p)
{
    static const char *const part[] = {"", "the screws", "the bond, by a first crack", "the bond, by peel at the heel",
                                       "the cast's grip"};
    const step *load = p->step + LOAD, *hold = p->step + HOLD;
    char gait[80];
    double ratio = result(hold, "least_ratio");
    int count = (int)result(hold, "weakest_part_count");
    printf("  gives first, %s: ",
           choice(load, "gait_count", (int)input_of(load, "gait_count"), gait, sizeof gait));
    if (!known(hold, "weakest_part_count"))
        printf("not calculated\n");
    else if (count == 0)
        printf("%s\n", ratio > 0 ? "nothing, without a load" : "there is nothing that holds");
    else
        printf("%s, at %.2f times the load (least_ratio)\n", part[count], ratio);
}

static void governing(const plan *p)
{
    static const char *const mode[] = {"yield_im_n",   "yield_is_n",   "yield_ii_n",
                                       "yield_iiim_n", "yield_iiis_n", "yield_iv_n"};
    const step *grip = p->step + GRIP, *hold = p->step + HOLD;
    const char *unknown = "not calculated";
    int thread = result(grip, "thread_ultimate_n") < result(grip, "head_ultimate_n");
    int both = known(grip, "thread_ultimate_n") && known(grip, "head_ultimate_n");
    printf("  a screw's governing part along its axis: %s\n",
           both ? output_field(grip->calculation, thread ? "thread_ultimate_n" : "head_ultimate_n")->meaning : unknown);
    printf("  a screw's governing part sideways: %s\n",
           known(grip, "governing_mode_count")
               ? output_field(grip->calculation, mode[(int)result(grip, "governing_mode_count") - 1])->meaning
               : unknown);
    int count = (int)result(hold, "governing_count");
    printf("  the stronger of bond and screws: %s\n", !known(hold, "governing_count") ? unknown
                                                      : count == 1                    ? "the screws"
                                                      : count == 2                    ? "the bond"
                                                                                      : "there is neither");
    weakest(p);
}

static void uses(const plan *p)
{
    char screws[40], first[40], mean[40], missing[200] = "";
    const step *hold = p->step + HOLD;
    printf("  use ratios (load over hold): screws alone %s; bond alone %s to its first crack, %s as a whole\n",
           use(hold, "screws_only_use_ratio", screws, sizeof screws),
           use(hold, "bond_only_use_ratio", first, sizeof first), use(hold, "bond_mean_use_ratio", mean, sizeof mean));
    for (int k = GRIP; k <= BOND; k++)
        for (size_t i = 0; hold->open && i < ung_input_count(p->calculation[k]); i++)
            if (p->step[k].unknown[i])
                listed(missing, sizeof missing, ung_input(p->calculation[k], i)->name);
    if (*missing) {
        char text[400];
        snprintf(text, sizeof text, "the use ratios are not all computed, for want of %s: give what a test of your own "
                 "showed, or look at what would be needed", missing);
        wrap("  ", 6, text);
    }
}

void hold_words(const plan *p)
{
    const step *load = p->step + LOAD, *hold = p->step + HOLD;
    char gait[80], limb[80], text[600];
    if (!p->calculation[LOAD]) {
        printf("\nHold: left out; it needs body_mass_kg, gait_count, shoe_mass_g, and then names what else it lacks\n");
        return;
    }
    printf("  load: %s, %s: %.0f N off the hoof and %.0f N along the ground, %.0f N together\n",
           choice(load, "gait_count", (int)input_of(load, "gait_count"), gait, sizeof gait),
           choice(load, "hind_count", (int)input_of(load, "hind_count"), limb, sizeof limb), result(hold, "pull_n"),
           result(hold, "shear_n"), result(hold, "demand_n"));
    size_t shear = (size_t)input_index(hold->calculation, "shear_n_per_kg");
    if (!hold->taken[shear] && !hold->given[shear]) {
        snprintf(text, sizeof text,
                 "no horizontal force is published for this gait; in its place stands %.15g N/kg (%s)", hold->in[shear],
                 ung_input(hold->calculation, shear)->meaning);
        wrap("  caution: ", 6, text);
    }
    governing(p);
    uses(p);
    needed(p);
    size_t pull = (size_t)input_index(hold->calculation, "acceleration_ms2");
    snprintf(text, sizeof text, "the pull is reckoned at every gait with %.15g m/s2 (%s)", hold->in[pull],
             hold->given[pull] ? "the sheet's" : ung_input(hold->calculation, pull)->meaning);
    wrap("  ", 6, text);
    wrap("  ", 6, "No load sharing is assumed: bond and screws are not added, each is compared with the whole load. "
         "The tape is no path, and its grip counts only where grip_n is given.");
}
