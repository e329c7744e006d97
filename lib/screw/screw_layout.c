/* Where the screws of one side go: the best inset and tilt at each station, then the best choice of stations. */
#include "core/contract.h"
#include "screw/wall.h"

#define NAME screw_layout
#define ROOM screw
#define TITLE "places, insets and tilts of the screws on one side of the hoof"
#define ABOUT                                                                                                        \
    "Stations along the wall of one side, in order from the toe, are the places that come into question; the "       \
    "list of screws has as many rows as screws are wanted. Covers and margins are screw_depth's.\n"                  \
    "\n"                                                                                                             \
    "    tilts  = tilt_low, tilt_low + tilt_step, ... up to tilt_high\n"                                             \
    "    insets = 1 mm, 1 mm + inset_step, ... up to the white line, T/sin B (beyond it no margin is left)\n"        \
    "    margin of a station = greatest margin (margin_worst where worst_count is 1) over these tilts and insets\n"  \
    "    least margin of a layout = least margin of its stations\n"                                                  \
    "    layout = stations at least spacing apart along the wall, toe_gap <= side_fraction <= rear_limit,\n"         \
    "             whose least margin is the greatest possible\n"                                                     \
    "\n"                                                                                                             \
    "Both maxima are exact, not searched for. With a given tilt the covers toward outer face and shoe's side "       \
    "grow with the inset, those toward inner face and white line shrink, and the height stays; so the best "         \
    "inset is where they meet, which bisection finds. A least margin can be reached if and only if taking "          \
    "every station that has it, from the toe on, as soon as it is far enough from the last, gives enough "           \
    "screws. Of equally good axes the lower tilt counts, of its insets the one with most cover to the sides, "       \
    "then the smaller; of equally good layouts the one nearest to the toe, screw by screw. 1e-9 mm short of "        \
    "the spacing is forgiven as rounding.\n"                                                                         \
    "\n"                                                                                                             \
    "Where there is no room for all, as many as have room are placed, by the same rule; the rows left over are "     \
    "0. binding_count says what holds the least margin down: 6 the spacing (closer together they would have "        \
    "more), 7 the limits toward toe and rear or too few stations, or else the tightest cover of the weakest "        \
    "screw: 1 inner, 2 outer, 3 white line, 4 shoe's side, 5 height. What would help is in screws_fit_count, "       \
    "spacing_fit_mm and screw_length_fit_mm, each the largest value with which every margin is kept, the rest "      \
    "unchanged. screw_length_fit_mm takes the axes and stations that leave the greatest length. It says how long a "  \
    "screw may be, not that it holds: it may end in the wood or just inside the horn, where the point, two diameters " \
    "long, holds nothing (hold_length_mm of screw_depth)."
#define ACCURACY                                                                                                     \
    "The optimum on its grid of tilts and insets exactly (held against trying every axis and every choice of "       \
    "stations); margins are screw_depth's to the last bit. With steps of 0.5 degrees and 0.1 mm the margin is "      \
    "within about 0.1 mm of what a grid ten times finer finds. screw_length_fit_mm: within 1e-9 mm of the best "     \
    "on the grid."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "screw_depth's section; greatest least margin, by thresholds", "the layout")                           \
    S(CHOICE, "Project's choice", "steps, spacing, the gap at the toe")                                              \
    S(PRACTICE, "Common practice, no source",                                                                        \
      "screws, like nails, stand from just behind the bend of the toe to the widest part of the foot, since behind it the wall must be free to expand")
#define INPUTS(F)                                                                                                    \
    F(shoe_thickness_mm, 5, 100, 16, 40, REQUIRED, GIVEN, MEASURE, "wood where the screws go")                       \
    F(spacing_mm, 0, 200, 15, 40, 20, CHOICE, MEASURE, "least distance of two screws along the wall")                \
    F(toe_gap_fraction, 0, 1, 0.1, 0.3, 0.15, CHOICE, MEASURE, "share of the side, from the toe, that stays free")   \
    F(rear_limit_fraction, 0, 1, 0.4, 0.6, 0.5, PRACTICE, MEASURE, "share of the side behind which no screw goes; about 0.5 is the widest point") \
    F(tilt_low_deg, -60, 60, -10, 10, -5, CHOICE, MEASURE, "least tilt to try; axis leaning inward going up, 0 upright") \
    F(tilt_high_deg, -60, 60, 10, 40, 25, CHOICE, MEASURE, "greatest tilt to try")                                   \
    F(tilt_step_deg, 0.1, 10, 0.25, 1, 0.5, CHOICE, MEASURE, "step of the tilts tried")                              \
    F(inset_step_mm, 0.01, 5, 0.05, 0.5, 0.1, CHOICE, MEASURE, "step of the insets tried")                           \
    F(worst_count, 0, 1, 0, 1, 1, CHOICE, WHOLE, "1: margins with the hand's error in tilt and seating, 0: without") \
    SCREW_INPUTS(F)
#define OUTPUTS(F)                                                                                                   \
    F(least_margin_mm, FINITE, "tightest margin of the screws placed; below 0 they must not be driven")              \
    F(placed_count, FINITE, "screws placed")                                                                         \
    F(missing_count, FINITE, "screws asked for that found no room")                                                  \
    F(weakest_count, FINITE, "number of the screw with the tightest margin, from 1; 0: none placed")                 \
    F(binding_count, FINITE, "what holds it down: 1 inner, 2 outer, 3 white line, 4 shoe's side, 5 height, 6 spacing, 7 limits or too few stations") \
    F(least_embedded_mm, FINITE, "least length of screw in the horn")                                                \
    F(thickest_wall_mm, FINITE, "thickest wall at the screws placed")                                                \
    F(thickest_sole_mm, FINITE, "thickest sole horn at the screws placed")                                           \
    F(stations_usable_count, FINITE, "stations within the limits that keep every margin")                            \
    F(screws_fit_count, FINITE, "most screws that keep every margin at this spacing")                                \
    F(spacing_fit_mm, INFINITE, "largest spacing with which the screws asked for keep every margin; infinite for one screw; 0: there is none") \
    F(screw_length_fit_mm, FINITE, "longest screws with which those asked for keep every margin, whether they hold or not; 0: there are none")
#define REFUSALS(R)                                                                                                  \
    R(head_recess_mm, IN(shoe_thickness_mm), "the head's recess must be less than the shoe's thickness")             \
    R(tilt_low_deg, IN(tilt_high_deg), "the least tilt must not be above the greatest")                              \
    R(toe_gap_fraction, IN(rear_limit_fraction), "the gap at the toe must not reach behind the limit at the rear")
#define LIST_REFUSALS(R)                                                                                             \
    R(0, "stations must follow each other from the toe: from_toe_mm and side_fraction both rising")
#define CAUTIONS(C)                                                                                                  \
    C(STOP, no_room, OUT(missing_count), 1, NO_FIELD, 0, ABOVE, 0, NO_GUARD,                                         \
      "there is no room for all the screws: take fewer, set them closer, or widen the limits")                       \
    C(STOP, breach, OUT(least_margin_mm), 1, NO_FIELD, 0, BELOW, 0, OUT(placed_count), ABOVE, 0,                     \
      "a screw leaves less horn or wood than its margins ask for: do not drive it")                                  \
    C(WARN, no_reach, OUT(least_embedded_mm), 1, NO_FIELD, 0, EQUAL, 0, OUT(placed_count), ABOVE, 0,                 \
      "a screw does not reach the horn")                                                                             \
    C(WARN, short_hold, OUT(least_embedded_mm), 1, IN(screw_diameter_mm), -4, BELOW, 0, OUT(least_embedded_mm), ABOVE, 0, \
      "less than two diameters of thread hold behind the point's two")                                               \
    C(WARN, nominal, IN(worst_count), 1, NO_FIELD, 0, EQUAL, 0, NO_GUARD,                                            \
      "the margins leave nothing for a hand's error: guide the drill")                                               \
    C(WARN, behind_widest, IN(rear_limit_fraction), 1, NO_FIELD, 0, ABOVE, 0.6, NO_GUARD,                            \
      "screws behind the widest point keep the heels from expanding; give 180 less the heel's angle as wall_angle_deg there") \
    C(WARN, thick_wall, OUT(thickest_wall_mm), 1, NO_FIELD, 0, ABOVE, 13, NO_GUARD,                                  \
      "more than 13 mm of horn is unusual: a radiograph's distance to the bone includes about 6 mm of living tissue") \
    C(WARN, thick_sole, OUT(thickest_sole_mm), 1, NO_FIELD, 0, ABOVE, 8, NO_GUARD,                                   \
      "more than 8 mm of insensitive sole horn is unusual: a radiograph's depth to the bone includes about 10 mm of living tissue")
#define STANDING(S)                                                                                                  \
    S("Radiographs and a veterinarian first; no screw in a cracked, undermined or diseased wall.")                   \
    S("The drill reaches tissue before the screw does: stop it at the same depth.")                                  \
    S("Medial and lateral walls differ: one layout for each side.")
#define STATION_FIELDS(F, type)                                                                                      \
    F(type, side_fraction, 0, 1, "place along the wall of this side, from toe to rear")                              \
    F(type, from_toe_mm, 0, 1000, "the same as a length along the wall")                                             \
    F(type, wall_thickness_mm, 2, 20, "horn square to the wall there")                                               \
    F(type, wall_angle_deg, 35, 150, "inside the horn, bearing plane to outer face; at the heels 180 - heel angle")  \
    F(type, sole_horn_mm, 0, 25, "insensitive sole horn at the rim, without the living tissue above it")
#define PLACE_FIELDS(F, type)                                                                                        \
    F(type, side_fraction, 0, 1, "place along the wall of this side, from toe to rear")                              \
    F(type, from_toe_mm, 0, 1000, "the same as a length along the wall")                                             \
    F(type, inset_mm, 0, 80, "axis inward of the wall's outer edge, on the bearing plane")                           \
    F(type, tilt_deg, -60, 60, "axis leaning inward going up; 0 upright")                                            \
    F(type, margin_mm, -1000, 1000, "what is left of the tightest margin")                                           \
    F(type, screw_length_limit_mm, 0, 1000, "longest screw on this axis that keeps every margin")
#define LISTS(L)                                                                                                     \
    L(GIVEN, stations, ung_screw_station, 1, 512, NO_FIELD, STATION_FIELDS, "places that come into question, in order from the toe") \
    L(FILLED, screws, ung_screw_place, 1, 8, NO_FIELD, PLACE_FIELDS, "the screws, in order from the toe; 0 where none found room")
#define WORK_PER_ROW 5
#define WORK_MORE 0

/* One station under search. */
typedef struct spot {
    ung_screw_depth_in screw; /* inset_mm and tilt_deg change */
    ung__wall wall;
    double wood, embedded, deeper; /* at the tilt that is tried; deeper: with the hand's seating */
    int worst;
} spot;

/* The margins at one inset: those that grow with it, those that shrink, and height. */
typedef struct parts {
    double outer, edge, inner, white_line, height;
} parts;

static void take(parts *p, const spot *s, double tilt, double embedded)
{
    ung__covers c = ung__covers_at(&s->screw, &s->wall, tilt, embedded);
    p->outer = ung__min(c.outer - s->screw.outer_margin_mm, p->outer);
    p->edge = ung__min(c.edge - s->screw.edge_margin_mm, p->edge);
    p->inner = ung__min(c.inner - s->screw.inner_margin_mm, p->inner);
    p->white_line = ung__min(c.white_line - s->screw.white_line_margin_mm, p->white_line);
    p->height = ung__min(s->screw.height_limit_mm - embedded * ung__cos_deg(tilt), p->height);
}

/* embedded: as asked, before the hand pulls it deeper. */
static parts parts_at(spot *s, double inset, double embedded)
{
    parts p = {1e9, 1e9, 1e9, 1e9, 1e9};
    double tilt = s->screw.tilt_deg, error = s->screw.tilt_error_deg, deeper = embedded + s->screw.seat_allowance_mm;
    s->screw.inset_mm = inset;
    take(&p, s, tilt, s->worst ? deeper : embedded);
    if (s->worst) {
        take(&p, s, tilt - error, deeper);
        take(&p, s, tilt + error, deeper);
    }
    return p;
}

static double growing(const parts *p)
{
    return ung__min(p->outer, p->edge);
}

static double shrinking(const parts *p)
{
    return ung__min(p->inner, p->white_line);
}

static double beside(const parts *p)
{
    return ung__min(growing(p), shrinking(p));
}

static double margin_of(const parts *p)
{
    return ung__min(beside(p), p->height);
}

static void set_tilt(spot *s, double tilt)
{
    double wood = s->screw.shoe_thickness_mm - s->screw.head_recess_mm + s->screw.pad_mm;
    s->screw.tilt_deg = tilt;
    s->wood = wood / ung__cos_deg(tilt);
    s->embedded = ung__max(s->screw.screw_length_mm - s->wood, 0);
}

static double inset_number(const ung_screw_layout_in *in, size_t i)
{
    return 1 + (double)i * in->inset_step_mm;
}

static size_t inset_count(const ung_screw_layout_in *in, const ung__wall *w)
{
    return (size_t)((w->thickness / w->sin_b - 1) / in->inset_step_mm + 1e-9) + 1; /* T >= 2: at least one */
}

/* The number of the inset with the most cover beside the axis at the tilt that is set, and the margin there. */
static size_t best_inset(const ung_screw_layout_in *in, spot *s, size_t count, double *margin)
{
    size_t low = 0, high = count - 1; /* the first inset where what grows is no longer the least, or the last of all */
    while (low < high) {
        size_t middle = (low + high) / 2;
        parts p = parts_at(s, inset_number(in, middle), s->embedded);
        if (growing(&p) >= shrinking(&p))
            high = middle;
        else
            low = middle + 1;
    }
    parts here = parts_at(s, inset_number(in, low), s->embedded), before = here;
    if (low > 0)
        before = parts_at(s, inset_number(in, low - 1), s->embedded);
    int back = low > 0 && beside(&before) >= beside(&here);
    *margin = margin_of(back ? &before : &here);
    return back ? low - 1 : low;
}

/* The longest screw at this inset and the tilt that is set; 0 where the entry already leaves too little. */
static double longest_at(spot *s, double inset)
{
    parts entry = parts_at(s, inset, 0);
    if (margin_of(&entry) < 0)
        return 0;
    double tilt = s->screw.tilt_deg, error = s->screw.tilt_error_deg;
    double depth = ung__depth_limit(&s->screw, &s->wall);
    if (s->worst) {
        s->screw.tilt_deg = tilt - error;
        depth = ung__min(depth, ung__depth_limit(&s->screw, &s->wall));
        s->screw.tilt_deg = tilt + error;
        depth = ung__min(depth, ung__depth_limit(&s->screw, &s->wall)) - s->screw.seat_allowance_mm;
        s->screw.tilt_deg = tilt;
    }
    return s->wood + ung__max(depth, 0);
}

/* The longest screw at the tilt that is set.  Insets whose entry is sound are neighbors; among them the length first
 * grows with the inset, then does not. */
static double longest(const ung_screw_layout_in *in, spot *s, size_t count)
{
    size_t low = 0, high = count; /* the first inset that is far enough from outer face and shoe's side */
    while (low < high) {
        size_t middle = (low + high) / 2;
        parts p = parts_at(s, inset_number(in, middle), 0);
        if (growing(&p) >= 0)
            high = middle;
        else
            low = middle + 1;
    }
    size_t first = low, last = count; /* last: the first that is too near to inner face or white line */
    while (low < last) {
        size_t middle = (low + last) / 2;
        parts p = parts_at(s, inset_number(in, middle), 0);
        if (shrinking(&p) >= 0 && p.height >= 0)
            low = middle + 1;
        else
            last = middle;
    }
    if (first >= last)
        return 0;
    low = first, high = last - 1;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (longest_at(s, inset_number(in, middle + 1)) > longest_at(s, inset_number(in, middle)) + 1e-9)
            low = middle + 1;
        else
            high = middle;
    }
    return longest_at(s, inset_number(in, low));
}

/* What is worked out for every station. */
typedef struct table {
    const ung_screw_station *station;
    size_t count;
    double *margin, *inset, *tilt, *limit, *length; /* length: of the longest screw on any axis there */
    double low, high;                               /* limits of side_fraction */
} table;

/* Stations from the toe on, each as soon as it may be, whose value is above `above`: how many, up to `most`. */
static size_t choose(const table *t, const double *value, double above, double spacing, size_t most, size_t *chosen)
{
    size_t n = 0;
    for (size_t i = 0; i < t->count && n < most; i++) {
        const ung_screw_station *s = t->station + i;
        if (s->side_fraction < t->low || s->side_fraction > t->high || !(value[i] > above))
            continue;
        if (n > 0 && s->from_toe_mm - t->station[chosen[n - 1]].from_toe_mm < spacing - 1e-9)
            continue;
        chosen[n++] = i;
    }
    return n;
}

enum { SCREWS_MOST = 8, STATIONS_MOST = 512 };

/* The choice of `wanted` stations whose least value is greatest: that value, or `none` where there is no choice. */
static double greatest_least(const table *t, const double *value, double spacing, size_t wanted, double none,
                             size_t *chosen)
{
    size_t tried[SCREWS_MOST];
    double least = none;
    if (wanted == 0)
        return none;
    for (double above = -1e9; choose(t, value, above, spacing, wanted, tried) == wanted; above = least) {
        least = 1e9;
        for (size_t j = 0; j < wanted; j++) {
            least = ung__min(value[tried[j]], least);
            if (chosen)
                chosen[j] = tried[j];
        }
    }
    return least;
}

/* The largest spacing at which so many stations keep every margin: bisection, then the gap that was really met. */
static double widest_spacing(const table *t, size_t wanted)
{
    const double kept = -0x1p-1074; /* above it: 0 and more */
    size_t chosen[SCREWS_MOST];
    if (choose(t, t->margin, kept, 0, wanted, chosen) < wanted)
        return 0;
    if (wanted < 2)
        return UNG__INFINITY;
    double low = 0, high = 2000;
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2;
        if (choose(t, t->margin, kept, middle, wanted, chosen) == wanted)
            low = middle;
        else
            high = middle;
    }
    choose(t, t->margin, kept, low, wanted, chosen);
    double gap = high;
    for (size_t j = 1; j < wanted; j++)
        gap = ung__min(t->station[chosen[j]].from_toe_mm - t->station[chosen[j - 1]].from_toe_mm, gap);
    return gap;
}

static void start_at(spot *s, const ung_screw_layout_in *in, const ung_screw_station *station)
{
    s->screw = (ung_screw_depth_in){.wall_thickness_mm = station->wall_thickness_mm,
                                    .wall_angle_deg = station->wall_angle_deg,
                                    .sole_horn_mm = station->sole_horn_mm,
                                    .screw_diameter_mm = in->screw_diameter_mm,
                                    .screw_length_mm = in->screw_length_mm,
                                    .shoe_thickness_mm = in->shoe_thickness_mm,
                                    .head_recess_mm = in->head_recess_mm,
                                    .pad_mm = in->pad_mm,
                                    .height_limit_mm = in->height_limit_mm,
                                    .overhang_mm = in->overhang_mm,
                                    .upper_layer_mm = in->upper_layer_mm,
                                    .edge_bevel_deg = in->edge_bevel_deg,
                                    .inner_margin_mm = in->inner_margin_mm,
                                    .outer_margin_mm = in->outer_margin_mm,
                                    .white_line_margin_mm = in->white_line_margin_mm,
                                    .edge_margin_mm = in->edge_margin_mm,
                                    .seat_allowance_mm = in->seat_allowance_mm,
                                    .tilt_error_deg = in->tilt_error_deg};
    s->wall = ung__wall_of(station->wall_thickness_mm, station->wall_angle_deg, station->sole_horn_mm);
    s->worst = in->worst_count != 0;
}

/* Margin, inset and tilt of the best axis at one station, and the longest screw there. */
static void search(const ung_screw_layout_in *in, const table *t, size_t i)
{
    spot s;
    start_at(&s, in, t->station + i);
    size_t insets = inset_count(in, &s.wall);
    t->margin[i] = -1e9;
    t->length[i] = 0;
    size_t tilts = (size_t)((in->tilt_high_deg - in->tilt_low_deg) / in->tilt_step_deg + 1e-9);
    for (size_t k = 0; k <= tilts; k++) {
        double tilt = ung__min(in->tilt_low_deg + (double)k * in->tilt_step_deg, in->tilt_high_deg), margin;
        set_tilt(&s, tilt);
        size_t inset = best_inset(in, &s, insets, &margin);
        if (margin > t->margin[i]) {
            t->margin[i] = margin;
            t->inset[i] = inset_number(in, inset);
            t->tilt[i] = tilt;
        }
        t->length[i] = ung__max(t->length[i], longest(in, &s, insets));
    }
    set_tilt(&s, t->tilt[i]);
    t->limit[i] = ung__max(longest_at(&s, t->inset[i]), s.wood);
}

/* Number of the tightest cover at the best axis of a station. */
static double tightest(const ung_screw_layout_in *in, const table *t, size_t i)
{
    spot s;
    start_at(&s, in, t->station + i);
    set_tilt(&s, t->tilt[i]);
    parts p = parts_at(&s, t->inset[i], s.embedded);
    double least = margin_of(&p);
    return p.inner <= least ? 1 : p.outer <= least ? 2 : p.white_line <= least ? 3 : p.edge <= least ? 4 : 5;
}

static ung_screw_layout_out formula(const ung_screw_layout_in *in, const ung_rows *rows, ung__where *where)
{
    ung_screw_layout_out out = {0};
    const double kept = -0x1p-1074;
    size_t n = rows[0].count, wanted = rows[1].count, chosen[SCREWS_MOST], many[STATIONS_MOST];
    double *work = rows[2].data;
    table t = {(const ung_screw_station *)(const void *)rows[0].data, n, work, work + n, work + 2 * n, work + 3 * n,
               work + 4 * n, in->toe_gap_fraction, in->rear_limit_fraction};
    where->refusal = in->head_recess_mm >= in->shoe_thickness_mm           ? 1
                     : in->tilt_low_deg > in->tilt_high_deg                ? 2
                     : in->toe_gap_fraction > in->rear_limit_fraction      ? 3
                                                                           : 0;
    for (size_t i = 1; where->refusal == 0 && i < n; i++)
        if (t.station[i].from_toe_mm <= t.station[i - 1].from_toe_mm ||
            t.station[i].side_fraction <= t.station[i - 1].side_fraction) {
            where->refusal = 4;
            where->row = (double)i;
            where->other_row = (double)(i - 1);
        }
    if (where->refusal != 0)
        return out;

    for (size_t i = 0; i < n; i++)
        search(in, &t, i);
    size_t placed = choose(&t, t.margin, -1e9, in->spacing_mm, wanted, chosen);
    out.least_margin_mm = greatest_least(&t, t.margin, in->spacing_mm, placed, 0, chosen);
    out.placed_count = (double)placed;
    out.missing_count = (double)(wanted - placed);

    table everywhere = t;
    everywhere.low = 0;
    everywhere.high = 1;
    double closer = greatest_least(&t, t.margin, 0, wanted, -1e9, 0);
    double farther = greatest_least(&everywhere, t.margin, in->spacing_mm, wanted, -1e9, 0);
    double reached = placed == wanted ? out.least_margin_mm : -1e9;

    ung_screw_place *screw = (ung_screw_place *)(void *)rows[1].data;
    out.least_embedded_mm = placed ? 1e9 : 0;
    for (size_t j = 0; j < wanted; j++) {
        screw[j] = (ung_screw_place){0};
        if (j >= placed)
            continue;
        size_t i = chosen[j];
        screw[j] = (ung_screw_place){t.station[i].side_fraction, t.station[i].from_toe_mm, t.inset[i], t.tilt[i],
                                     t.margin[i], t.limit[i]};
        spot s;
        start_at(&s, in, t.station + i);
        set_tilt(&s, t.tilt[i]);
        out.least_embedded_mm = ung__min(s.embedded, out.least_embedded_mm);
        out.thickest_wall_mm = ung__max(t.station[i].wall_thickness_mm, out.thickest_wall_mm);
        out.thickest_sole_mm = ung__max(t.station[i].sole_horn_mm, out.thickest_sole_mm);
        if (out.weakest_count == 0 && t.margin[i] <= out.least_margin_mm) {
            out.weakest_count = (double)(j + 1);
            out.binding_count = tightest(in, &t, i);
        }
    }
    out.binding_count = closer > reached ? 6 : farther > reached ? 7 : placed < wanted ? 7 : out.binding_count;

    out.stations_usable_count = 0;
    for (size_t i = 0; i < n; i++)
        if (t.margin[i] >= 0 && t.station[i].side_fraction >= t.low && t.station[i].side_fraction <= t.high)
            out.stations_usable_count += 1;
    out.screws_fit_count = (double)choose(&t, t.margin, kept, in->spacing_mm, STATIONS_MOST, many);
    out.spacing_fit_mm = widest_spacing(&t, wanted);
    out.screw_length_fit_mm = greatest_least(&t, t.length, in->spacing_mm, wanted, 0, 0);
    return out;
}

#include "core/define.h"
