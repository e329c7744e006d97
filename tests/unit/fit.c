/* outline_fit: traces made from known outlines. */
#include "../edges.h"

enum { MOST = 20000, FILLED = 360 };
static ung_point trace[MOST + 1], filled[FILLED];
static double work[MOST + 1];

static ung_status fit(const ung_outline_fit_in *in, size_t n, ung_outline_fit_out *out, ung_fault *fault)
{
    return ung_outline_fit(in, trace, n, filled, FILLED, work, n, out, fault);
}

/* Box and Muller 1958. */
static double gauss(void)
{
    double u = 1 - random_unit();
    return sqrt(-2 * log(u)) * cos(2 * (double)PI_L * random_unit());
}

static ung_outline_standard_out standard_trace(size_t n)
{
    ung_outline_standard_in in = ung_outline_standard_standard();
    in.hoof_length_mm = 135;
    in.hoof_width_mm = 128;
    ung_outline_standard_out out;
    must(ung_outline_standard(&in, trace, n, &out, NULL) == UNG_OK);
    return out;
}

/* A hoof with harmonics of its own, at an angle t in radians. */
static double radius(double t)
{
    return 64 + 2 * cos(t) - 1.5 * cos(2 * t) + 0.8 * cos(3 * t) + 0.5 * sin(2 * t) + 0.3 * cos(5 * t);
}

/* Points at random angles in order, outside a gap, with noise square to nothing: the same in x and y. */
static void random_trace(size_t n, double noise, double gap_start, double gap_deg)
{
    double sum = 0;
    for (size_t i = 0; i < n; i++)
        work[i] = sum += 0.2 + random_unit(); /* uneven: steps from 0.3 to 1.7 of the mean */
    for (size_t i = 0; i < n; i++) {
        double t = gap_start + (gap_deg + work[i] / sum * (360 - gap_deg)) * (double)(PI_L / 180);
        double r = radius(t);
        trace[i] = (ung_point){r * cos(t) + noise * gauss(), r * sin(t) + noise * gauss()};
    }
}

/* Root mean square and largest radial distance of the filled points from the true outline. */
static double distance(double *largest)
{
    double squares = 0;
    *largest = 0;
    for (size_t i = 0; i < FILLED; i++) {
        double t = atan2(filled[i].y_mm, filled[i].x_mm), e = hypot(filled[i].x_mm, filled[i].y_mm) - radius(t);
        squares += e * e;
        *largest = fmax(*largest, fabs(e));
    }
    return sqrt(squares / FILLED);
}

START_TEST(exact_curves)
{
    /* A circle: every number is known. */
    ung_outline_fit_in in = ung_outline_fit_standard();
    ung_outline_fit_out out;
    for (size_t i = 0; i < 100; i++) {
        double t = 2 * (double)PI_L * (double)i / 100;
        trace[i] = (ung_point){300 + 60 * cos(t), -200 + 60 * sin(t)};
    }
    in.harmonics_count = 4;
    ck_assert_int_eq(fit(&in, 100, &out, NULL), UNG_OK);
    /* Roundings of coordinates near 300 and sums of 100 terms. */
    ck_relative(out.area_mm2, 3600 * (double)PI_L, 1e-12);
    ck_relative(out.perimeter_mm, 120 * (double)PI_L, 1e-12);
    ck_relative(out.length_mm, 120, 1e-12);
    ck_relative(out.width_mm, 120, 1e-12);
    ck_near(out.left_width_fraction, 0.5, 1e-6); /* place of a flat maximum: square root of the rounding */
    ck_near(out.widest_fraction, 0.5, 1e-6);
    ck_near(out.heel_width_fraction, 0.6, 1e-5); /* read from 2,048 points, as the text says */
    ck_near(out.toe_width_fraction, 0.6, 1e-5);
    ck_near(out.left_area_fraction, 0.5, 1e-5);
    ck_assert(out.noise_mm < 1e-11 && out.largest_error_mm < 1e-11);
    ck_near(filled[0].x_mm, 360, 1e-9);
    ck_near(filled[90].y_mm, -140, 1e-6); /* counterclockwise from the toe, whose place is known to 1e-6 of a turn */

    /* The standard outline, from its own points: the accuracy that the text promises. */
    ung_outline_standard_out true_shape = standard_trace(200);
    in.harmonics_count = 0;
    ck_assert_int_eq(fit(&in, 200, &out, NULL), UNG_OK);
    ck_near(out.length_mm, 135, 0.01);
    ck_near(out.width_mm, 128, 0.01);
    ck_relative(out.area_mm2, true_shape.ground_area_mm2, 1e-6); /* 0.0001 mm over 60, twice */
    ck_relative(out.perimeter_mm, true_shape.perimeter_mm, 1e-6);
    ck_near(out.widest_fraction, 0.45, 1e-3); /* a flat maximum: square root of 1e-6 */
    ck_near(out.heel_width_fraction, 0.74, 1e-4);
    ck_near(out.toe_width_fraction, 0.62, 1e-4);
    ck_near(out.left_width_fraction, 0.5, 1e-9); /* mirrored trace */
    ck_assert(out.largest_error_mm < 0.01 && out.chosen_harmonics_count >= 16);
    ck_assert(ung_outline_fit_cautions(&in, &out, NULL, 0) == 0);
}
END_TEST

/* A circle of 60 with a wave of 5 mm that the asked degree cannot follow, at even angles: all sums are known.  Every
 * harmonic up to the tenth is 0, and so is what moves the center; each is held by h = k^4 (variance/(0.3 x 60)^2 +
 * 1e-10 n) (choice), so that of 21 coefficients the sum of h/(n/2 + h) is not used. */
START_TEST(wave_on_a_circle)
{
    enum { N = 200, WAVE = 30, DEGREE = 10 };
    const double even = 2 * (double)PI_L / N;
    for (int little = 0; little < 2; little++) {
        /* Sums of 200 terms near 60, in a square root or a square: a few 1e-14 of 60, and the matrix's rounding beside. */
        const double height = little ? 0.005 : 5, mean = height * height / 2, near = little ? 1e-8 : 1e-11;
        ung_outline_fit_in in = ung_outline_fit_standard();
        ung_outline_fit_out out;
        for (size_t i = 0; i < N; i++) {
            double t = even * (double)i, r = 60 + height * cos(WAVE * t);
            trace[i] = (ung_point){r * cos(t), r * sin(t)};
        }
        in.harmonics_count = DEGREE;
        ck_assert_int_eq(fit(&in, N, &out, NULL), UNG_OK);
        double used = 2 * DEGREE + 1, variance = mean * N / (N - used), free = 1 - used / N;
        for (int k = 1; k <= DEGREE; k++) {
            double held = pow(k, 4) * (variance / (18 * 18) + 1e-10 * N);
            used -= 2 * held / (N / 2.0 + held);
        }
        ck_relative(out.validation_mm2, mean / (free * free), near);
        ck_relative(out.noise_mm, sqrt(mean * N / (N - used)), near);
        ck_relative(out.fit_error_mm, sqrt(mean), near);
        ck_relative(out.largest_error_mm, height, near);
        ck_relative(out.neighbor_ratio, cos(WAVE * even), near);
        ck_relative(out.area_mm2, 3600 * (double)PI_L, 1e-11);
        ck_relative(out.largest_gap_deg, 360.0 / N, 1e-11);
    }
}
END_TEST

/* The same wave on a curve that is not round, r = 60 + 10 cos 2t: what is told are distances square to the curve, that
 * is times the cosine r/sqrt(r^2 + r'^2).  They are straight to first order in 0.5 mm over 60: within 1 %. */
START_TEST(distances_are_square_to_the_outline)
{
    enum { N = 400 };
    ung_outline_fit_in in = ung_outline_fit_standard();
    ung_outline_fit_out out;
    double squares = 0;
    for (size_t i = 0; i < N; i++) {
        double t = 2 * (double)PI_L * (double)i / N, r = 60 + 10 * cos(2 * t), slope = -20 * sin(2 * t);
        double wave = 0.5 * cos(30 * t), cosine = r / hypot(r, slope);
        trace[i] = (ung_point){(r + wave) * cos(t), (r + wave) * sin(t)};
        squares += wave * cosine * wave * cosine / N;
    }
    must(squares < 0.96 * 0.125); /* otherwise the test tests nothing */
    in.harmonics_count = 4;
    ck_assert_int_eq(fit(&in, N, &out, NULL), UNG_OK);
    ck_relative(out.fit_error_mm, sqrt(squares), 0.01);
}
END_TEST

/* Uneven points on a circle: the center of the polygon is not that of the circle, which the fit finds, so that the
 * widest angle seen from it is the one that was drawn, once across the end of the angles' range. */
START_TEST(center_is_found)
{
    enum { N = 200 };
    ung_outline_fit_in in = ung_outline_fit_standard();
    ung_outline_fit_out out;
    in.harmonics_count = 4;
    for (int kind = 0; kind < 4; kind++) { /* either way round, and turned by a right angle */
        int way = kind % 2, from = kind < 2 ? 190 : 280;
        for (size_t i = 0; i < N; i++) { /* steps of 1 to 2.5 degrees, and one of 20 from 170 to 190 */
            double x = (double)i / (N - 1), turn = x + 0.05 * sin(2 * (double)PI_L * x) + 0.1 * x * (1 - x);
            double t = (from + 340 * turn) * (double)PI_L / 180;
            trace[way ? N - 1 - i : i] = (ung_point){300 + 60 * cos(t), -200 + 60 * sin(t)};
        }
        ck_assert_int_eq(fit(&in, N, &out, NULL), UNG_OK);
        ck_near(out.largest_gap_deg, 20, 1e-9); /* coordinates near 300 round by 3e-14: 3e-14 degrees and sums of them */
        ck_relative(out.area_mm2, 3600 * (double)PI_L, 1e-11);
    }
}
END_TEST

/* A wave of half a millimeter is followed to the highest degree there is, and to what the number of points allows: two
 * thirds of them as coefficients (choice). */
START_TEST(degrees)
{
    static const struct {
        size_t points;
        int wave, degree;
    } known[] = {{400, 24, 24}, {400, 23, 23}, {400, 3, 3}, {59, 19, 19}, {61, 20, 0}, {62, 20, 20}};
    for (size_t k = 0; k < sizeof known / sizeof *known; k++) {
        ung_outline_fit_in in = ung_outline_fit_standard();
        ung_outline_fit_out out;
        for (size_t i = 0; i < known[k].points; i++) {
            double t = 2 * (double)PI_L * (double)i / (double)known[k].points, r = 60 + 0.5 * cos(known[k].wave * t);
            trace[i] = (ung_point){r * cos(t), r * sin(t)};
        }
        ck_assert_int_eq(fit(&in, known[k].points, &out, NULL), UNG_OK);
        if (known[k].degree != 0)
            ck_assert(out.chosen_harmonics_count == known[k].degree);
        else
            ck_assert(out.chosen_harmonics_count < known[k].wave);
    }
    /* What a degree is chosen by holds the third harmonic back by 81e-10 of twice its weight, and so leaves a share of
     * 1.6e-8 of it, squared less; 1e-7 mm2 is far above that and far below what noise of 0.01 mm leaves. */
    ung_outline_fit_in in = ung_outline_fit_standard();
    ung_outline_fit_out out;
    for (size_t i = 0; i < 400; i++) {
        double t = 2 * (double)PI_L * (double)i / 400, r = 60 + 0.5 * cos(3 * t);
        trace[i] = (ung_point){r * cos(t), r * sin(t)};
    }
    in.harmonics_count = 4;
    ck_assert_int_eq(fit(&in, 400, &out, NULL), UNG_OK);
    ck_assert_double_le(out.validation_mm2, 1e-7);
}
END_TEST

START_TEST(asymmetry)
{
    /* Half a circle of 60 on the left, half an ellipse 60 x 45 on the right, toe in between: the shares of the width
     * are 60/105, of the area too.  The curve has a jump in curvature, so the fit's own error decides: 0.1 mm. */
    ung_outline_fit_in in = ung_outline_fit_standard();
    ung_outline_fit_out out;
    for (size_t i = 0; i < 720; i++) {
        double t = 2 * (double)PI_L * (double)i / 720, s = sin(t);
        trace[i] = (ung_point){60 * cos(t), (s > 0 ? 60 : 45) * s};
    }
    ck_assert_int_eq(fit(&in, 720, &out, NULL), UNG_OK);
    ck_near(out.width_mm, 105, 0.1);
    ck_near(out.left_width_fraction, 60 / 105.0, 0.01); /* the toe's place on a nearly flat toe */
    ck_near(out.left_area_fraction, 60 / 105.0, 0.01);
}
END_TEST

START_TEST(noise)
{
    static const struct {
        size_t n;
        double noise, error; /* error: the text's promise for 1 mm, root mean square, in the mean of the traces */
    } kind[] = {{100, 1, 0.5}, {100, 0.3, 0.2}, {300, 2, 0.6}, {1000, 1, 0.2}, {3000, 0.5, 0.1}};
    for (size_t k = 0; k < sizeof kind / sizeof *kind; k++) {
        size_t count = scaled(40) < 20 ? 20 : scaled(40);
        double found = 0, squares = 0, error = 0, neighbors = 0, largest;
        for (size_t i = 0; i < count; i++) {
            ung_outline_fit_in in = ung_outline_fit_standard();
            ung_outline_fit_out out;
            random_trace(kind[k].n, kind[k].noise, random_unit() * 6, 0);
            must(fit(&in, kind[k].n, &out, NULL) == UNG_OK);
            found += out.noise_mm / kind[k].noise / (double)count;
            squares += out.noise_mm * out.noise_mm / kind[k].noise / kind[k].noise / (double)count;
            error += distance(&largest) / (double)count;
            neighbors += out.neighbor_ratio / (double)count;
            /* One trace: a standard deviation of n - 49 free values at least scatters by 1/sqrt(2 (n - 49)); five of
             * those, and a tenth for the model. */
            ck_near(out.noise_mm / kind[k].noise, 1, 0.1 + 5 / sqrt(2 * ((double)kind[k].n - 49)));
        }
        /* The mean of 20 traces of 100 points scatters by 0.02. */
        ck_near(found, 1, 0.1);
        ck_near(squares, 1, 0.2);
        ck_assert_msg(error < kind[k].error, "n %zu: error %g", kind[k].n, error);
        ck_assert_double_le(fabs(neighbors), 0.3); /* about -K/n for white noise */
    }
}
END_TEST

START_TEST(gaps)
{
    for (size_t i = scaled(40); i > 0; i--) {
        ung_outline_fit_in in = ung_outline_fit_standard();
        ung_outline_fit_out out;
        double gap = random_between(35, 60), largest;
        random_trace(300, 0.3, random_unit() * 6, gap);
        must(fit(&in, 300, &out, NULL) == UNG_OK);
        must(out.largest_gap_deg > gap - 6 && out.largest_gap_deg < gap + 10); /* seen from another center */
        must(has_caution(ung_outline_fit_contract(), (double *)&in, (double *)&out, "gap"));
        distance(&largest);
        must_msg(largest < 8, "%g mm off across a gap of %g degrees", largest, gap); /* tame, not exact: choice */
    }
}
END_TEST

static void same_results(const ung_outline_fit_out *a, const ung_outline_fit_out *b, double scale)
{
    /* Coordinates near 1000 round by 1e-13; the toe's place on a flat maximum loses half the digits. */
    ck_relative(a->area_mm2, b->area_mm2, 1e-9);
    ck_relative(a->perimeter_mm, b->perimeter_mm, 1e-9);
    ck_relative(a->length_mm, b->length_mm, 1e-9);
    ck_relative(a->width_mm, b->width_mm, 1e-9);
    ck_relative(a->noise_mm, b->noise_mm, 1e-9);
    ck_relative(a->largest_error_mm, b->largest_error_mm, 1e-7);
    ck_near(a->neighbor_ratio, b->neighbor_ratio, 1e-7);
    ck_near(a->left_area_fraction, b->left_area_fraction, 1e-5);
    ck_near(a->heel_width_fraction, b->heel_width_fraction, 1e-5);
    ck_assert(a->chosen_harmonics_count == b->chosen_harmonics_count);
    ck_relative(a->scale_ratio, scale, 1e-14);
}

START_TEST(frames)
{
    static ung_point kept[400];
    ung_outline_fit_in in = ung_outline_fit_standard();
    ung_outline_fit_out out, again;
    random_trace(400, 0.5, 0, 0);
    memcpy(kept, trace, sizeof kept);
    ck_assert_int_eq(fit(&in, 400, &out, NULL), UNG_OK);
    for (size_t i = 0; i < 400; i++) /* the other way round */
        trace[i] = kept[399 - i];
    ck_assert_int_eq(fit(&in, 400, &again, NULL), UNG_OK);
    same_results(&again, &out, 1);
    memcpy(trace, kept, sizeof kept); /* the first point once more */
    trace[400] = trace[0];
    ck_assert_int_eq(fit(&in, 401, &again, NULL), UNG_OK);
    same_results(&again, &out, 1);
    double c = cos(0.7), s = sin(0.7);
    for (size_t i = 0; i < 400; i++) /* turned, moved, in quarter millimeters */
        trace[i] = (ung_point){4 * (c * kept[i].x_mm - s * kept[i].y_mm + 900),
                               4 * (s * kept[i].x_mm + c * kept[i].y_mm - 400)};
    in.toe_direction_deg = 0.7 * 180 / (double)PI_L;
    in.reference_x1_mm = 10;
    in.reference_y1_mm = 20;
    in.reference_x2_mm = 10 + 240;
    in.reference_y2_mm = 20 + 320;
    in.reference_length_mm = 100; /* 400 of the trace's */
    ck_assert_int_eq(fit(&in, 400, &again, NULL), UNG_OK);
    same_results(&again, &out, 0.25);
}
END_TEST

static void refused(ung_outline_fit_in in, size_t n, const char *field, const char *text)
{
    ung_outline_fit_out out;
    ung_fault fault;
    ck_assert_int_eq(fit(&in, n, &out, &fault), UNG_RELATION);
    ck_assert_str_eq(fault.field, field);
    ck_assert_msg(strstr(fault.text, text) != NULL, "%s", fault.text);
    ck_assert(isnan(out.area_mm2) && isnan(filled[FILLED - 1].y_mm));
}

/* Points on a circle of 60, by so many tenths of a degree. */
static ung_point round_at(int tenths)
{
    double t = tenths * (double)PI_L / 1800;
    return (ung_point){60 * cos(t), 60 * sin(t)};
}

/* How far a trace may step back and how near to its center it may come (choices: 45 degrees, a fifth of the mean). */
START_TEST(star_limits)
{
    ung_outline_fit_in in = ung_outline_fit_standard();
    ung_outline_fit_out out;
    for (int back = 447; back <= 453; back += 6) /* to 200 degrees, back over the same points, and on */
        for (int way = -1; way <= 1; way += 2) {
            size_t n = 0;
            for (int at = 0; at <= 2000; at += 3)
                trace[n++] = round_at(way * at);
            for (int at = 2000 - 2; at >= 2000 - 2 - (back - 3); at -= 3)
                trace[n++] = round_at(way * at);
            for (int at = 2000 - 2 - (back - 3) + 3; at < 3600; at += 3)
                trace[n++] = round_at(way * at);
            if (back < 450)
                ck_assert_int_eq(fit(&in, n, &out, NULL), UNG_OK);
            else
                refused(in, n, "trace", "steps back");
        }
    for (int far = 0; far <= 1; far++) { /* four points of 1000 nearer: the mean is (996 x 60 + 4 r)/1000 */
        double r = 0.2 * 0.996 * 60 / (1 - 0.2 * 0.004) * (far ? 1.004 : 0.996);
        for (size_t i = 0; i < 1000; i++) {
            double t = 2 * (double)PI_L * (double)i / 1000, distance_mm = i % 250 == 0 ? r : 60;
            trace[i] = (ung_point){distance_mm * cos(t), distance_mm * sin(t)};
        }
        if (far)
            ck_assert_int_eq(fit(&in, 1000, &out, NULL), UNG_OK);
        else
            refused(in, 1000, "trace", "too near");
    }
}
END_TEST

static void ellipse(double length, double width)
{
    for (size_t i = 0; i < 400; i++) {
        double t = 2 * (double)PI_L * (double)i / 400;
        trace[i] = (ung_point){length / 2 * cos(t), width / 2 * sin(t)};
    }
}

/* Sizes, gaps and marks on both sides of what is accepted; what is told about those that are not. */
START_TEST(limits)
{
    ung_outline_fit_in in = ung_outline_fit_standard(), marked = in;
    ung_outline_fit_out out;
    ung_fault fault;
    ellipse(249.5, 249.5);
    ck_assert_int_eq(fit(&in, 400, &out, NULL), UNG_OK);
    ellipse(40.2, 40.2);
    ck_assert_int_eq(fit(&in, 400, &out, NULL), UNG_OK);
    ellipse(251, 200);
    refused(in, 400, "trace", "outline's length");
    ck_assert_int_eq(fit(&in, 400, &out, &fault), UNG_RELATION);
    ck_near(fault.value, 251, 0.01); /* an ellipse as harmonics of its radius */
    ck_assert(fault.upper == 250);
    ellipse(200, 251);
    refused(in, 400, "trace", "outline's width");
    ck_assert_int_eq(fit(&in, 400, &out, &fault), UNG_RELATION);
    ck_near(fault.value, 251, 0.01);
    ck_assert(fault.upper == 250);
    for (int wide = 0; wide < 2; wide++) { /* two equal gaps, on either side */
        double gap = wide ? 90.4 : 89.6;
        for (size_t i = 0; i < 400; i++) {
            double x = (double)(i % 200) / 199, t = ((180 - gap) * (x - 0.5) + (i < 200 ? 0 : 180)) * (double)PI_L / 180;
            trace[i] = (ung_point){60 * cos(t), 60 * sin(t)};
        }
        ck_assert_int_eq(fit(&in, 400, &out, &fault), wide ? UNG_RELATION : UNG_OK);
        if (wide) {
            ck_assert(strstr(fault.text, "has no points") != NULL);
            ck_near(fault.value, 90.4, 1e-9);
            ck_assert(fault.upper == 90);
            ck_assert_str_eq(fault.unit, "deg");
        }
    }
    /* Marks a millionth of a millimeter apart are one; the rest makes the trace far too long. */
    for (int i = 0; i < 12; i++) /* 12 points settle 11 coefficients with one to spare, and not 13 */
        trace[i] = round_at(300 * i);
    in.harmonics_count = 5;
    ck_assert_int_eq(fit(&in, 12, &out, NULL), UNG_OK);
    in.harmonics_count = 6;
    refused(in, 12, "harmonics_count", "too few distinct points");
    for (int i = 12; i < 24; i++) /* the same again are not more */
        trace[i] = trace[i - 12];
    refused(in, 12, "harmonics_count", "too few distinct points");
    ellipse(120, 120);
    marked.reference_length_mm = 100;
    marked.reference_x2_mm = 0.995e-6;
    refused(marked, 400, "reference_length_mm", "apart");
    marked.reference_x2_mm = 1.005e-6;
    refused(marked, 400, "trace", "outline's length");
    marked.reference_length_mm = 0.005; /* a small distance between the marks is one */
    marked.reference_x2_mm = 0.0025;
    ck_assert_int_eq(fit(&marked, 400, &out, NULL), UNG_OK);
    ck_assert(out.scale_ratio == 2);
    marked.reference_x2_mm = 0;
    refused(marked, 400, "reference_length_mm", "apart");
}
END_TEST

START_TEST(refusals)
{
    ung_outline_fit_in in = ung_outline_fit_standard(), bad = in;
    ung_outline_fit_out out;
    random_trace(400, 0.5, 0, 0);
    bad.reference_length_mm = 100;
    refused(bad, 400, "reference_length_mm", "apart");
    bad.reference_x2_mm = 10;
    refused(bad, 400, "trace", "length"); /* ten times too large */
    bad.reference_length_mm = 1;
    refused(bad, 400, "trace", "length");
    memcpy(trace + 400, trace, 400 * sizeof *trace); /* twice round */
    refused(in, 800, "trace", "go round once");
    for (size_t i = 0; i < 200; i++) { /* a figure of eight, whose halves do not balance */
        double t = 2 * (double)PI_L * (double)i / 200;
        trace[i] = (ung_point){(sin(t) > 0 ? 60 : 50) * sin(t), 50 * sin(2 * t)};
    }
    refused(in, 200, "trace", "");
    for (size_t i = 0; i < 200; i++) { /* a crescent */
        double t = 0.02 * (double)(i < 100 ? i : 199 - i) * (double)PI_L, r = i < 100 ? 60 : 30;
        trace[i] = (ung_point){r * cos(t * 1.2 / 2), r * sin(t * 1.2 / 2)};
    }
    refused(in, 200, "trace", "");
    random_trace(400, 0, 0, 0); /* part of it drawn again and again */
    memcpy(trace + 300, trace + 150, 100 * sizeof *trace);
    refused(in, 400, "trace", "steps back");
    random_trace(300, 0, 0, 120);
    refused(in, 300, "trace", "has no points");
    for (size_t i = 0; i < 100; i++)
        trace[i] = (ung_point){0, 0};
    refused(in, 100, "trace", "too near");
    for (size_t i = 0; i < 100; i++) { /* seven places, many points at each */
        double t = 2 * (double)PI_L * floor((double)i * 7 / 100) / 7;
        trace[i] = (ung_point){60 * cos(t), 60 * sin(t)};
    }
    refused(in, 100, "trace", "distinct");
    standard_trace(20);
    bad = in;
    bad.harmonics_count = 9;
    ck_assert_int_eq(fit(&bad, 20, &out, NULL), UNG_OK);
    bad.harmonics_count = 10; /* 21 unknowns from 20 points */
    refused(bad, 20, "harmonics_count", "too few distinct points");
    bad.harmonics_count = 2.5;
    ck_assert_int_eq(fit(&bad, 20, &out, NULL), UNG_WHOLE);
    ck_assert_int_eq(fit(&in, 7, &out, NULL), UNG_COUNT);
    ck_assert_int_eq(ung_outline_fit(&in, trace, 20, filled, FILLED, work, 19, &out, NULL), UNG_COUNT);
    standard_trace(8); /* the fewest */
    ck_assert_int_eq(fit(&in, 8, &out, NULL), UNG_OK);
    ck_assert(out.chosen_harmonics_count == 2);
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_outline_fit_contract();
    ung_outline_fit_in in = ung_outline_fit_standard();
    ung_outline_fit_out out;
    random_trace(300, 0.3, 0, 0);
    ck_assert_int_eq(fit(&in, 300, &out, NULL), UNG_OK);
    ck_assert_uint_eq(ung_outline_fit_cautions(&in, &out, NULL, 0), 0);
    trace[100].x_mm *= 1.1;
    trace[100].y_mm *= 1.1; /* 6 mm off */
    ck_assert_int_eq(fit(&in, 300, &out, NULL), UNG_OK);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "stray_point"));
    random_trace(300, 6, 0, 0);
    ck_assert_int_eq(fit(&in, 300, &out, NULL), UNG_OK);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "noisy"));
    standard_trace(300);
    in.harmonics_count = 2;
    ck_assert_int_eq(fit(&in, 300, &out, NULL), UNG_OK);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "underfit"));
    /* All by choice; what is below 0.01 mm is rounding, not noise. */
    check_rule(c, "gap", UNG_WARN, UNG_ABOVE, 30);
    check_rule(c, "noisy", UNG_WARN, UNG_ABOVE, 0);
    check_factors(c, "noisy", 1, -0.03);
    check_rule(c, "underfit", UNG_WARN, UNG_ABOVE, 0.5);
    check_guard(c, "underfit", UNG_ABOVE, 0.01);
    check_rule(c, "stray_point", UNG_WARN, UNG_ABOVE, 0);
    check_factors(c, "stray_point", 1, -5);
    check_guard(c, "stray_point", UNG_ABOVE, 0.01);
    ck_assert(out.chosen_harmonics_count == 2);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "fit");
    tcase_set_timeout(tests, 300);
    tcase_add_test(tests, exact_curves);
    tcase_add_test(tests, wave_on_a_circle);
    tcase_add_test(tests, distances_are_square_to_the_outline);
    tcase_add_test(tests, center_is_found);
    tcase_add_test(tests, degrees);
    tcase_add_test(tests, star_limits);
    tcase_add_test(tests, asymmetry);
    tcase_add_test(tests, noise);
    tcase_add_test(tests, gaps);
    tcase_add_test(tests, frames);
    tcase_add_test(tests, limits);
    tcase_add_test(tests, refusals);
    tcase_add_test(tests, cautions);
    return finish(runner);
}
