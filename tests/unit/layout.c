/* screw_layout, held against trying every axis through screw_depth and every choice of stations. */
#include "../edges.h"

enum { MOST = 10, SCREWS = 4 };

/* One problem, with what brute force finds at each station. */
typedef struct problem {
    ung_screw_layout_in in;
    size_t stations, wanted;
    ung_screw_station station[MOST];
    double margin[MOST], inset[MOST], tilt[MOST], length[MOST];
} problem;

static ung_screw_layout_in usual(void)
{
    ung_screw_layout_in in = ung_screw_layout_standard();
    in.screw_diameter_mm = 3.5;
    in.screw_length_mm = 32;
    in.shoe_thickness_mm = 22;
    return in;
}

static ung_status solve(const problem *p, ung_screw_place *screws, ung_screw_layout_out *out, ung_fault *fault)
{
    double work[MOST * 5];
    return ung_screw_layout(&p->in, p->station, p->stations, screws, p->wanted, work, MOST * 5, out, fault);
}

static ung_screw_depth_in depth_at(const problem *p, size_t i)
{
    const ung_screw_layout_in *in = &p->in;
    ung_screw_depth_in s = ung_screw_depth_standard();
    s.wall_thickness_mm = p->station[i].wall_thickness_mm;
    s.wall_angle_deg = p->station[i].wall_angle_deg;
    s.sole_horn_mm = p->station[i].sole_horn_mm;
    s.screw_diameter_mm = in->screw_diameter_mm;
    s.screw_length_mm = in->screw_length_mm;
    s.shoe_thickness_mm = in->shoe_thickness_mm;
    s.head_recess_mm = in->head_recess_mm;
    s.pad_mm = in->pad_mm;
    s.height_limit_mm = in->height_limit_mm;
    s.overhang_mm = in->overhang_mm;
    s.upper_layer_mm = in->upper_layer_mm;
    s.edge_bevel_deg = in->edge_bevel_deg;
    s.inner_margin_mm = in->inner_margin_mm;
    s.outer_margin_mm = in->outer_margin_mm;
    s.white_line_margin_mm = in->white_line_margin_mm;
    s.edge_margin_mm = in->edge_margin_mm;
    s.seat_allowance_mm = in->seat_allowance_mm;
    s.tilt_error_deg = in->tilt_error_deg;
    return s;
}

static double margin_of(const problem *p, const ung_screw_depth_in *s)
{
    ung_screw_depth_out out;
    must(ung_screw_depth(s, &out, NULL) == UNG_OK);
    return p->in.worst_count != 0 ? out.margin_worst_mm : out.margin_mm;
}

/* The longest screw on this axis, by screw_depth alone; 0 where even a screw that ends in the wood is too near. */
static double length_of(const problem *p, ung_screw_depth_in s)
{
    s.screw_length_mm = 8; /* the lists below keep the wood longer than that */
    if (margin_of(p, &s) < 0)
        return 0;
    ung_screw_depth_out out;
    must(ung_screw_depth(&s, &out, NULL) == UNG_OK);
    double wood = out.screw_length_limit_mm - out.depth_limit_mm, depth = out.depth_limit_mm, tilt = s.tilt_deg;
    for (int way = -1; p->in.worst_count != 0 && way <= 1; way += 2) {
        s.tilt_deg = tilt + way * p->in.tilt_error_deg;
        must(ung_screw_depth(&s, &out, NULL) == UNG_OK);
        depth = fmin(depth, out.depth_limit_mm);
    }
    return wood + (p->in.worst_count != 0 ? fmax(depth - p->in.seat_allowance_mm, 0) : depth);
}

static void try_axes(problem *p)
{
    for (size_t i = 0; i < p->stations; i++) {
        ung_screw_depth_in s = depth_at(p, i);
        double border = s.wall_thickness_mm / sin(s.wall_angle_deg * (double)(PI_L / 180));
        double most = -1e9;
        p->margin[i] = -1e9;
        p->length[i] = 0;
        for (int k = 0; p->in.tilt_low_deg + k * p->in.tilt_step_deg <= p->in.tilt_high_deg + 1e-9; k++) {
            double sides = -1e9, inset = 0; /* most cover to the sides: the margin with a height that cannot be met */
            for (int j = 0; 1 + j * p->in.inset_step_mm <= border + 1e-9 * p->in.inset_step_mm; j++) {
                s.tilt_deg = p->in.tilt_low_deg + k * p->in.tilt_step_deg;
                s.inset_mm = 1 + j * p->in.inset_step_mm;
                p->length[i] = fmax(p->length[i], length_of(p, s));
                ung_screw_depth_in low = s;
                low.height_limit_mm = 120;
                double margin = margin_of(p, &low);
                inset = margin > sides ? s.inset_mm : inset;
                sides = fmax(sides, margin);
                most = fmax(most, margin_of(p, &s));
            }
            s.inset_mm = inset;
            double margin = margin_of(p, &s);
            if (margin > p->margin[i]) {
                p->margin[i] = margin;
                p->inset[i] = inset;
                p->tilt[i] = s.tilt_deg;
            }
        }
        must(p->margin[i] == most); /* the axis with most cover to the sides is among the best */
    }
}

/* Every choice of so many stations, as bits; `low` first is the toe.  -1e9: none. */
static int allowed(const problem *p, unsigned choice, size_t count, double spacing, int limits)
{
    size_t n = 0, last = 0;
    for (size_t i = 0; i < p->stations; i++) {
        if (!(choice >> i & 1))
            continue;
        double at = p->station[i].side_fraction;
        if (limits && (at < p->in.toe_gap_fraction || at > p->in.rear_limit_fraction))
            return 0;
        if (n && p->station[i].from_toe_mm - p->station[last].from_toe_mm < spacing - 1e-9)
            return 0;
        last = i;
        n++;
    }
    return n == count;
}

static double least_of(const problem *p, const double *value, unsigned choice)
{
    double least = 1e9;
    for (size_t i = 0; i < p->stations; i++)
        least = choice >> i & 1 ? fmin(least, value[i]) : least;
    return least;
}

/* Whether choice a lies nearer to the toe than b, screw by screw: at the first station where they differ, a has one. */
static int nearer(unsigned a, unsigned b)
{
    unsigned differ = a ^ b;
    return (a & differ & (~differ + 1)) != 0;
}

static unsigned best_choice(const problem *p, const double *value, size_t count, double spacing, int limits)
{
    unsigned best = 0;
    for (unsigned choice = 1; choice < 1u << p->stations; choice++) {
        if (!allowed(p, choice, count, spacing, limits))
            continue;
        double least = least_of(p, value, choice), reached = best ? least_of(p, value, best) : -1e9;
        if (least > reached || (least == reached && nearer(choice, best)))
            best = choice;
    }
    return best;
}

static int met[8], feasible, short_of_room;

static void check_problem(problem *p)
{
    ung_screw_place screws[SCREWS];
    ung_screw_layout_out out;
    try_axes(p);
    must(solve(p, screws, &out, NULL) == UNG_OK);
    size_t room = p->wanted;
    while (room && !best_choice(p, p->margin, room, p->in.spacing_mm, 1))
        room--;
    unsigned best = room ? best_choice(p, p->margin, room, p->in.spacing_mm, 1) : 0;
    must(out.placed_count == (double)room && out.missing_count == (double)(p->wanted - room));
    double least = room ? least_of(p, p->margin, best) : 0, embedded = 1e9;
    must(out.least_margin_mm == least);
    size_t j = 0, weakest = 0;
    for (size_t i = 0; i < p->stations; i++) {
        if (!(best >> i & 1))
            continue;
        must(screws[j].from_toe_mm == p->station[i].from_toe_mm);
        must(screws[j].side_fraction == p->station[i].side_fraction);
        must(screws[j].inset_mm == p->inset[i] && screws[j].tilt_deg == p->tilt[i]);
        must(screws[j].margin_mm == p->margin[i]);
        ung_screw_depth_in s = depth_at(p, i);
        s.tilt_deg = p->tilt[i];
        s.inset_mm = p->inset[i];
        ung_screw_depth_out d;
        must(ung_screw_depth(&s, &d, NULL) == UNG_OK);
        embedded = fmin(embedded, d.embedded_mm);
        /* Two sums of a few terms below 100: rounding. */
        double longest = length_of(p, s), wood = d.screw_length_limit_mm - d.depth_limit_mm;
        ck_near(screws[j].screw_length_limit_mm, longest > 0 ? longest : wood, 1e-12);
        if (!weakest && p->margin[i] == least)
            weakest = j + 1;
        j++;
    }
    for (; j < p->wanted; j++)
        must(screws[j].side_fraction == 0 && screws[j].from_toe_mm == 0 && screws[j].inset_mm == 0 && screws[j].screw_length_limit_mm == 0);
    must(out.weakest_count == (double)weakest);
    must(out.least_embedded_mm == (room ? embedded : 0));

    unsigned close = best_choice(p, p->margin, p->wanted, 0, 1);
    unsigned anywhere = best_choice(p, p->margin, p->wanted, p->in.spacing_mm, 0);
    double reached = room == p->wanted ? least : -1e9;
    if (close && least_of(p, p->margin, close) > reached)
        must(out.binding_count == 6);
    else if (room < p->wanted || (anywhere && least_of(p, p->margin, anywhere) > reached))
        must(out.binding_count == 7);
    else {
        must(out.binding_count >= 1 && out.binding_count <= 5 && out.binding_count == floor(out.binding_count));
        size_t i = 0;
        for (size_t k = 0; k < p->stations; k++) /* the weakest screw's station */
            i = best >> k & 1 && p->station[k].from_toe_mm <= screws[weakest - 1].from_toe_mm ? k : i;
        ung_screw_depth_in s = depth_at(p, i);
        s.tilt_deg = p->tilt[i];
        s.inset_mm = p->inset[i];
        ung_screw_depth_out d;
        must(ung_screw_depth(&s, &d, NULL) == UNG_OK);
        double left[5] = {d.inner_cover_mm - s.inner_margin_mm, d.outer_cover_mm - s.outer_margin_mm,
                          d.white_line_cover_mm - s.white_line_margin_mm, d.edge_cover_mm - s.edge_margin_mm,
                          s.height_limit_mm - d.tip_height_mm};
        must(p->in.worst_count != 0 || left[(int)out.binding_count - 1] == least);
    }
    met[(int)out.binding_count]++;

    size_t usable = 0, fit = 0;
    double spacing = 0, length = 0;
    for (size_t i = 0; i < p->stations; i++)
        usable += allowed(p, 1u << i, 1, 0, 1) && p->margin[i] >= 0;
    for (unsigned choice = 1; choice < 1u << p->stations; choice++) {
        size_t n = (size_t)__builtin_popcount(choice);
        int kept = least_of(p, p->margin, choice) >= 0;
        if (kept && allowed(p, choice, n, p->in.spacing_mm, 1))
            fit = n > fit ? n : fit;
        if (n != p->wanted || !allowed(p, choice, n, 0, 1))
            continue;
        double gap = INFINITY, last = -1;
        for (size_t i = 0; i < p->stations; i++)
            if (choice >> i & 1) {
                gap = last >= 0 ? fmin(gap, p->station[i].from_toe_mm - last) : gap;
                last = p->station[i].from_toe_mm;
            }
        spacing = kept ? fmax(spacing, gap) : spacing;
        if (allowed(p, choice, n, p->in.spacing_mm, 1))
            length = fmax(length, least_of(p, p->length, choice));
    }
    must(out.stations_usable_count == (double)usable && out.screws_fit_count == (double)fit);
    must_msg(out.spacing_fit_mm == spacing, "spacing %.17g, wanted %.17g", out.spacing_fit_mm, spacing);
    ck_near(out.screw_length_fit_mm, length, 1.1e-9); /* neighboring insets count as equal within 1e-9 */
    feasible += room == p->wanted && least >= 0;
    short_of_room += room < p->wanted;
}

static void random_problem(problem *p, int number)
{
    ung_screw_layout_in in = usual();
    p->stations = 1 + random_below(MOST);
    p->wanted = 1 + random_below(SCREWS);
    in.spacing_mm = (double)random_below(4) * 10;
    in.toe_gap_fraction = random_unit() * 0.4;
    in.rear_limit_fraction = in.toe_gap_fraction + random_unit() * (1 - in.toe_gap_fraction);
    in.tilt_low_deg = -10 + (double)random_below(5) * 5;
    in.tilt_high_deg = in.tilt_low_deg + (double)random_below(6) * 5;
    in.tilt_step_deg = 5;
    in.inset_step_mm = random_below(2) ? 0.5 : 0.75;
    in.worst_count = (double)(number % 2);
    in.screw_diameter_mm = random_between(2, 4.5);
    in.screw_length_mm = random_between(20, 45);
    in.shoe_thickness_mm = random_between(16, 30);
    in.head_recess_mm = random_between(0, 5);
    in.pad_mm = random_below(2) ? 0 : random_between(0, 5);
    in.height_limit_mm = random_between(5, 30);
    in.overhang_mm = random_between(0, 15);
    in.upper_layer_mm = random_below(2) ? 60 : random_between(5, 15);
    in.edge_bevel_deg = random_between(0, 45);
    in.inner_margin_mm = random_between(0, 2);
    in.outer_margin_mm = random_between(0, 1.5);
    in.white_line_margin_mm = random_below(2) ? 0 : 0.5;
    in.edge_margin_mm = random_between(0, 3);
    in.seat_allowance_mm = random_between(0, 2);
    in.tilt_error_deg = random_between(0, 5);
    double at = 0;
    for (size_t i = 0; i < p->stations; i++) {
        at += random_below(2) ? 10 : random_between(2, 15); /* often a spacing exactly */
        p->station[i] = (ung_screw_station){at / 200, at, random_between(5, 14), random_between(50, 120),
                                            random_between(0, 8)};
        if (i && random_below(3) == 0) { /* ties: the same wall again */
            size_t j = random_below(i);
            p->station[i].wall_thickness_mm = p->station[j].wall_thickness_mm;
            p->station[i].wall_angle_deg = p->station[j].wall_angle_deg;
            p->station[i].sole_horn_mm = p->station[j].sole_horn_mm;
        }
    }
    p->in = in;
}

START_TEST(brute_force)
{
    problem p;
    size_t count = scaled(300);
    for (size_t i = 0; i < count; i++) {
        random_problem(&p, (int)i);
        check_problem(&p);
    }
    ck_assert_int_ge(feasible, 5); /* the problems are of every kind */
    ck_assert_int_ge(short_of_room, 5);
    if (count >= 300) /* the white line is rarely the tightest */
        for (int code = 1; code <= 7; code++)
            ck_assert_msg(code == 3 || met[code] > 0, "no problem was bound by %d", code);
}
END_TEST

/* Upright wall, tilt 0, no sole horn: covers by hand.  T = 10, D = 4, margins 2 and 1.5: inset i leaves
 * i - 2 - 1.5 outward and 10 - i - 2 - 2 inward (white line 10 - i - 2): equal at 4.75, with 1.25 left. */
START_TEST(by_hand)
{
    problem p = {.stations = 3, .wanted = 2, .in = usual()};
    p.in.screw_diameter_mm = 4;
    p.in.screw_length_mm = 30;
    p.in.shoe_thickness_mm = 20;
    p.in.tilt_low_deg = p.in.tilt_high_deg = 0;
    p.in.inset_step_mm = 0.25;
    p.in.worst_count = 0;
    p.in.overhang_mm = 10;
    p.in.toe_gap_fraction = 0;
    p.in.rear_limit_fraction = 1;
    p.in.spacing_mm = 30;
    for (size_t i = 0; i < 3; i++)
        p.station[i] = (ung_screw_station){0.2 + 0.2 * (double)i, 20 + 20 * (double)i, 10, 90, 0};
    ung_screw_place screws[2];
    ung_screw_layout_out out;
    ck_assert_int_eq(solve(&p, screws, &out, NULL), UNG_OK);
    ck_near(out.least_margin_mm, 1.25, 1e-14); /* a few roundings of numbers below 10 */
    ck_assert(screws[0].inset_mm == 4.75 && screws[1].inset_mm == 4.75);
    ck_assert(screws[0].from_toe_mm == 20 && screws[1].from_toe_mm == 60); /* 20 apart is too near */
    ck_assert(out.spacing_fit_mm == 40 && out.screws_fit_count == 2 && out.stations_usable_count == 3);
    ck_assert(out.least_embedded_mm == 10 && out.thickest_wall_mm == 10 && out.thickest_sole_mm == 0);
    ck_near(out.screw_length_fit_mm, 45, 1e-13); /* height limit 25 */
    ck_near(screws[0].screw_length_limit_mm, 45, 1e-13);
    ck_assert(out.weakest_count == 1 && out.binding_count == 1); /* inner and outer are equally tight */
    p.in.spacing_mm = 40;
    ck_assert_int_eq(solve(&p, screws, &out, NULL), UNG_OK);
    ck_assert(out.placed_count == 2);
    p.in.spacing_mm = 40.001;
    ck_assert_int_eq(solve(&p, screws, &out, NULL), UNG_OK);
    ck_assert(out.placed_count == 1 && out.missing_count == 1 && out.binding_count == 6);
    ck_assert(out.spacing_fit_mm == 40); /* what would make room */
    ck_assert(has_caution(ung_screw_layout_contract(), (double *)&p.in, (double *)&out, "no_room"));
    p.wanted = 1;
    ck_assert_int_eq(solve(&p, screws, &out, NULL), UNG_OK);
    ck_assert(isinf(out.spacing_fit_mm));
    p.in.height_limit_mm = 9; /* the tip at 10: a height of 1 mm too much, whatever the inset */
    ck_assert_int_eq(solve(&p, screws, &out, NULL), UNG_OK);
    ck_assert(out.least_margin_mm == -1 && out.binding_count == 5 && screws[0].inset_mm == 4.75);
    ck_near(out.screw_length_fit_mm, 29, 1e-13);
    ck_assert(has_caution(ung_screw_layout_contract(), (double *)&p.in, (double *)&out, "breach"));
}
END_TEST

/* Margins that are kept exactly, on an upright wall without sole horn, so that every cover is a short number. */
START_TEST(exactly_kept)
{
    problem p = {.stations = 1, .wanted = 1, .in = usual()};
    p.in.screw_diameter_mm = 4;
    p.in.screw_length_mm = 30;
    p.in.shoe_thickness_mm = 20;
    p.in.tilt_low_deg = p.in.tilt_high_deg = 0;
    p.in.inset_step_mm = 0.25;
    p.in.worst_count = 0;
    p.in.overhang_mm = 40;
    p.in.toe_gap_fraction = 0;
    p.in.rear_limit_fraction = 1;
    /* T = 7.5, margins 2 and 1.5, D = 4: only the inset of 3.5 is sound, with nothing left. */
    p.station[0] = (ung_screw_station){0.2, 20, 7.5, 90, 0};
    ung_screw_place screw;
    ung_screw_layout_out out;
    ck_assert_int_eq(solve(&p, &screw, &out, NULL), UNG_OK);
    ck_assert(out.least_margin_mm == 0 && screw.inset_mm == 3.5 && out.stations_usable_count == 1);
    /* Leaning inward or outward by 30 degrees it may reach the horn, and no farther. */
    for (int tilt = -30; tilt <= 30; tilt += 60) {
        p.in.tilt_low_deg = p.in.tilt_high_deg = tilt;
        ck_assert_int_eq(solve(&p, &screw, &out, NULL), UNG_OK);
        ck_relative(out.screw_length_fit_mm, 40 / sqrt(3), 1e-15); /* 20/cos 30, a few roundings */
    }
    /* The hand's seating alone uses the height up. */
    p.in.tilt_low_deg = p.in.tilt_high_deg = p.in.tilt_error_deg = 0;
    p.in.worst_count = 1;
    p.station[0].wall_thickness_mm = 10;
    p.in.height_limit_mm = p.in.seat_allowance_mm = 5;
    ck_assert_int_eq(solve(&p, &screw, &out, NULL), UNG_OK);
    ck_assert(screw.screw_length_limit_mm == 20 && out.screw_length_fit_mm == 20);
    /* The last inset is the white line itself: 1, 4, 7 and 10 of T = 10.  There 10 - 2 - 15 is left outward. */
    p.in.worst_count = 0;
    p.in.inset_step_mm = 3;
    p.in.inner_margin_mm = 0;
    p.in.outer_margin_mm = 15;
    ck_assert_int_eq(solve(&p, &screw, &out, NULL), UNG_OK);
    ck_assert(screw.inset_mm == 10 && screw.margin_mm == -7);
    /* At 4 there are 4 - 2 outward and 10 - 4 - 2 inward, less the margins; to the shoe's side what overhangs more. */
    static const struct {
        double inner, outer, white_line, edge, overhang, height, left, code;
    } tightest[] = {{3.75, 1.5, 0, 0, 40, 120, 0.25, 1}, {2, 1.5, 0, 0, 40, 120, 0.5, 2},
                    {2, 1.5, 3.75, 0, 40, 120, 0.25, 3}, {2, 1.5, 0, 1.75, 0, 120, 0.25, 4},
                    {2, 1.5, 0, 0, 40, 10.25, 0.25, 5}};
    for (size_t k = 0; k < sizeof tightest / sizeof *tightest; k++) {
        p.in.inner_margin_mm = tightest[k].inner;
        p.in.outer_margin_mm = tightest[k].outer;
        p.in.white_line_margin_mm = tightest[k].white_line;
        p.in.edge_margin_mm = tightest[k].edge;
        p.in.overhang_mm = tightest[k].overhang;
        p.in.height_limit_mm = tightest[k].height;
        ck_assert_int_eq(solve(&p, &screw, &out, NULL), UNG_OK);
        ck_assert(screw.inset_mm == 4 && out.least_margin_mm == tightest[k].left);
        ck_assert(out.binding_count == tightest[k].code);
    }
    /* Two stations less than a hundredth of a millimeter apart are two. */
    problem two = {.stations = 2, .wanted = 2, .in = usual()};
    two.in.overhang_mm = 40;
    two.in.spacing_mm = 10;
    two.station[0] = (ung_screw_station){0.2, 20, 15, 90, 0};
    two.station[1] = (ung_screw_station){0.3, 20 + 0x1p-7, 15, 90, 0};
    ung_screw_place pair[2];
    ck_assert_int_eq(solve(&two, pair, &out, NULL), UNG_OK);
    ck_assert(out.stations_usable_count == 2 && out.spacing_fit_mm == 0x1p-7);
    ck_assert(out.placed_count == 1 && out.binding_count == 6); /* less spacing would make room */
    /* A thicker wall at the very toe counts for what the limits of side_fraction cost. */
    two.wanted = 1;
    two.in.toe_gap_fraction = 0.2;
    two.station[0].side_fraction = 0;
    two.station[1].wall_thickness_mm = 10;
    ck_assert_int_eq(solve(&two, pair, &out, NULL), UNG_OK);
    ck_assert(out.placed_count == 1 && out.binding_count == 7);
}
END_TEST

START_TEST(refusals)
{
    problem p = {.stations = 3, .wanted = 2, .in = usual()};
    ung_screw_place screws[2];
    ung_screw_layout_out out;
    ung_fault fault;
    for (size_t i = 0; i < 3; i++)
        p.station[i] = (ung_screw_station){0.2 + 0.2 * (double)i, 20 + 20 * (double)i, 10, 90, 0};
    ck_assert_int_eq(solve(&p, screws, &out, &fault), UNG_OK);
    p.station[2].from_toe_mm = 40;
    ck_assert_int_eq(solve(&p, screws, &out, &fault), UNG_RELATION);
    ck_assert_str_eq(fault.rows, "stations");
    ck_assert(fault.index == 2 && fault.other_index == 1 && isnan(screws[0].inset_mm) && isnan(out.placed_count));
    p.station[2].from_toe_mm = nextafter(40, 41);
    ck_assert_int_eq(solve(&p, screws, &out, &fault), UNG_OK);
    p.station[1].side_fraction = 0.2;
    ck_assert_int_eq(solve(&p, screws, &out, &fault), UNG_RELATION);
    ck_assert(fault.index == 1 && fault.other_index == 0);
    p.station[1].side_fraction = 0.3;
    p.station[0].wall_thickness_mm = 1.9;
    ck_assert_int_eq(solve(&p, screws, &out, &fault), UNG_RANGE);
    p.station[0].wall_thickness_mm = 10;
    p.in.head_recess_mm = 22;
    ck_assert_int_eq(solve(&p, screws, &out, &fault), UNG_RELATION);
    ck_assert_str_eq(fault.field, "head_recess_mm");
    p.in.head_recess_mm = 0;
    p.in.tilt_low_deg = 26;
    ck_assert_int_eq(solve(&p, screws, &out, &fault), UNG_RELATION);
    ck_assert_str_eq(fault.field, "tilt_low_deg");
    p.in.tilt_low_deg = 25;
    ck_assert_int_eq(solve(&p, screws, &out, &fault), UNG_OK);
    p.in.toe_gap_fraction = 0.6;
    ck_assert_int_eq(solve(&p, screws, &out, &fault), UNG_RELATION);
    ck_assert_str_eq(fault.field, "toe_gap_fraction");
    p.in.rear_limit_fraction = 0.6;
    ck_assert_int_eq(solve(&p, screws, &out, &fault), UNG_OK);
    p.in.rear_limit_fraction = 0.9; /* no station lies between 0.6 and 0.9 but the last, at exactly 0.6 */
    ck_assert_int_eq(solve(&p, screws, &out, &fault), UNG_OK);
    ck_assert(out.placed_count == 1);
    p.in.toe_gap_fraction = 0.7;
    ck_assert_int_eq(solve(&p, screws, &out, &fault), UNG_OK);
    ck_assert(out.placed_count == 0 && out.least_margin_mm == 0 && out.binding_count == 7 && out.weakest_count == 0);
    double work[4];
    ck_assert_int_eq(ung_screw_layout(&p.in, p.station, 3, screws, 2, work, 4, &out, &fault), UNG_COUNT);
}
END_TEST

/* With the standard steps, against steps ten times finer: the promise of the text on accuracy. */
START_TEST(steps)
{
    size_t count = scaled(40);
    double largest = 0;
    for (size_t i = 0; i < count; i++) {
        problem p = {.stations = 1, .wanted = 1, .in = usual()};
        p.in.toe_gap_fraction = 0;
        p.in.overhang_mm = 5;
        p.in.worst_count = (double)(i % 2);
        p.in.rear_limit_fraction = 1;
        p.station[0] = (ung_screw_station){0.5, 100, random_between(6, 13), random_between(50, 100),
                                           random_between(3, 8)};
        ung_screw_place screw;
        ung_screw_layout_out coarse, fine;
        ck_assert_int_eq(solve(&p, &screw, &coarse, NULL), UNG_OK);
        p.in.tilt_step_deg = 0.1;
        p.in.inset_step_mm = 0.01;
        ck_assert_int_eq(solve(&p, &screw, &fine, NULL), UNG_OK);
        largest = fmax(largest, fine.least_margin_mm - coarse.least_margin_mm);
    }
    ck_assert_msg(largest <= 0.1, "a finer grid leaves %g mm more", largest);
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_screw_layout_contract();
    check_rule(c, "no_room", UNG_STOP, UNG_ABOVE, 0);
    check_rule(c, "breach", UNG_STOP, UNG_BELOW, 0); /* the meaning of a margin */
    check_guard(c, "breach", UNG_ABOVE, 0);          /* said of screws that are there */
    check_rule(c, "no_reach", UNG_WARN, UNG_EQUAL, 0);
    check_guard(c, "no_reach", UNG_ABOVE, 0);
    check_rule(c, "short_hold", UNG_WARN, UNG_BELOW, 0); /* choice, as screw_depth: two diameters besides the point's two */
    check_factors(c, "short_hold", 1, -4);
    check_guard(c, "short_hold", UNG_ABOVE, 0);
    check_rule(c, "nominal", UNG_WARN, UNG_EQUAL, 0);
    check_rule(c, "behind_widest", UNG_WARN, UNG_ABOVE, 0.6); /* choice */
    check_rule(c, "thick_wall", UNG_WARN, UNG_ABOVE, 13);     /* choice, as screw_depth */
    check_rule(c, "thick_sole", UNG_WARN, UNG_ABOVE, 8);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "layout");
    tcase_set_timeout(tests, 300);
    tcase_add_test(tests, brute_force);
    tcase_add_test(tests, by_hand);
    tcase_add_test(tests, exactly_kept);
    tcase_add_test(tests, refusals);
    tcase_add_test(tests, steps);
    tcase_add_test(tests, cautions);
    return finish(runner);
}
