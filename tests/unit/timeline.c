/* Durations of a chain of steps: the generator, the normal and the beta distribution, and job_timeline. */
#include "../edges.h"

#include "core/beta.h"
#include "core/normal.h"
#include "core/philox.h"
#include "job/timeline.h"

/* Known answers of the generator's authors (Salmon et al. 2011, their kat_vectors) and the 10000th number of the C++26
 * engine philox4x32 (key 20111115, block 2499, word 3). */
START_TEST(philox)
{
    static const struct {
        ung__words counter;
        uint32_t key[2];
        ung__words wanted;
    } known[] = {
        {{{0, 0, 0, 0}}, {0, 0}, {{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}}},
        {{{0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff}},
         {0xffffffff, 0xffffffff},
         {{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}}},
        {{{0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}},
         {0xa4093822, 0x299f31d0},
         {{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1}}},
    };
    for (size_t k = 0; k < sizeof known / sizeof *known; k++) {
        ung__words found = ung__philox(known[k].counter, known[k].key[0], known[k].key[1]);
        must(memcmp(&found, &known[k].wanted, sizeof found) == 0);
    }
    must(ung__philox((ung__words){{2499, 0, 0, 0}}, 20111115, 0).word[3] == 1955073260);

    enum { COUNT = 64 };
    uint64_t even[COUNT], odd[COUNT];
    for (size_t trial = 0; trial < scaled(1000); trial++) { /* many at once: the same as one by one */
        uint32_t first = (uint32_t)random_bits(), place = (uint32_t)random_bits(), seed = (uint32_t)random_bits();
        ung__philox_fill(first, place, seed, COUNT, even, odd);
        for (uint32_t i = 0; i < COUNT; i++) {
            ung__words w = ung__philox((ung__words){{first + i, 0, place, 0}}, seed, 0);
            must(even[i] == ((uint64_t)w.word[0] << 32 | w.word[1]) && odd[i] == ((uint64_t)w.word[2] << 32 | w.word[3]));
        }
    }
    /* Shares: computed for the zero counter and key, and strictly inside at both ends. */
    must(ung__share(0x6627e8d5e169c58d) == ((double)(0x6627e8d5e169c58d >> 12) + 0.5) * 0x1p-52);
    must(ung__share(0) == 0x1p-53 && ung__share(UINT64_MAX) == 1 - 0x1p-53);
    must(ung__share(UINT64_C(1) << 63) == 0.5 + 0x1p-53);
    must(ung__share((UINT64_C(1) << 63) - 1) == 0.5 - 0x1p-53);
}
END_TEST

/* Against the error function of the C library in long double, whose relative error is below 1e-18. */
START_TEST(normal)
{
    double worst = 0;
    for (size_t i = 0; i < scaled(200000); i++) {
        double z = random_between(-9, 37.49);
        long double wanted = erfcl(z / sqrtl(2)) / 2;
        worst = fmax(worst, (double)fabsl((ung__normal_above(z) - wanted) / wanted));
    }
    must_msg(worst < 9e-16, "relative error %g", worst); /* 4 ulp: as the header says */
    ck_relative(ung__normal_above(0), 0.5, 5e-16);
    must(ung__normal_above(37.51) == 0 && ung__normal_above(-40) == 1);
    must(ung__normal_above(1e300) == 0 && ung__normal_above(-1e300) == 1 && ung__normal_above(37.5) > 0);

    /* Wichura 1988, Applied Statistics 37:477-484: the three check values of AS 241; others to 20 digits by mpmath. */
    static const double known[][2] = {{0.25, 0.6744897501960817432},  {0.001, 3.0902323061678135415},
                                      {1e-20, 9.2623400897984075737}, {0.025, 1.9599639845400542355},
                                      {0.1, 1.2815515655446004670},   {1e-10, 6.3613409024040562047},
                                      {1e-100, 21.273453560965324295}, {1e-300, 37.047096299361199237}};
    for (size_t k = 0; k < sizeof known / sizeof *known; k++)
        ck_relative(ung__normal_upper(known[k][0]), known[k][1], 1e-15); /* as the header says */
    ck_near(ung__normal_upper(0.5), 0, 3e-16);
    ck_relative(ung__normal_upper(0.75), -0.6744897501960817432, 1e-15);
    for (size_t i = 0; i < scaled(20000); i++) {
        double p = exp(random_between(-690, log(0.5)));
        double z = ung__normal_upper(p);
        ck_relative(ung__normal_above(z), p, 2e-15 * (1 + z * z)); /* an error of z times its density */
        double q = random_between(0.001, 0.999);
        ck_near(ung__normal_above(ung__normal_upper(q)), q, 1e-15);
    }
}
END_TEST

/* For whole exponents the share is a polynomial (a binomial sum); for others, 1/(a B) x^a and the recurrence
 * I(a, b) - I(a + 1, b) = x^a (1 - x)^b/(a B(a, b)) (Abramowitz and Stegun 26.5.16), gamma functions of the C library. */
static long double binomial_share(int a, int b, long double x)
{
    int n = a + b - 1;
    long double sum = 0, choose = 1;
    for (int j = 0; j <= n; j++) {
        if (j >= a)
            sum += choose * powl(x, j) * powl(1 - x, n - j);
        choose = choose * (n - j) / (j + 1);
    }
    return sum;
}

START_TEST(beta_shares)
{
    ung__beta beta, next;
    for (int a = 1; a <= 5; a++)
        for (int b = 1; b <= 5; b++) {
            ung__beta_begin(&beta, a, b);
            for (size_t i = 0; i < scaled(1000); i++) {
                double x = random_between(1e-6, 1 - 1e-6);
                ck_near(ung__beta_of(&beta, x).below, (double)binomial_share(a, b, x), 1e-14); /* as below */
                if (x < 0.5) /* relatively: the small shares are what the inverse starts from */
                    ck_relative(ung__beta_of(&beta, x).below, (double)binomial_share(a, b, x), 1e-13);
            }
        }
    for (size_t i = 0; i < scaled(20000); i++) {
        double a = random_between(1, 4), b = random_between(1, 5), x = random_between(0.001, 0.999);
        long double whole = expl(lgammal(a) + lgammal(b) - lgammal((long double)a + b));
        ung__beta_begin(&beta, a, b);
        ung__beta_begin(&next, a + 1, b);
        ck_relative(beta.per_whole, (double)(1 / whole), 1e-14); /* a sum of terms of either sign, some times its size */
        ck_near(ung__beta_of(&beta, x).below - ung__beta_of(&next, x).below,
                (double)(powl(x, a) * powl(1 - (long double)x, b) / (a * whole)), 1e-14);
        ck_relative(ung__beta_of(&beta, x).density, (double)(powl(x, a - 1) * powl(1 - (long double)x, b - 1) / whole), 2e-14);
        double p = exp(random_between(log(1e-9), log(0.5))), root = ung__beta_inverse_from(&beta, p, ung__beta_start(&beta, p), 8);
        ck_relative(ung__beta_of(&beta, root).below, p, 2e-14);
    }
}
END_TEST

/* The cubics against the inverse that they approximate: nodes exactly, between them within what the contract says,
 * and rising everywhere. */
static double cubic(const double *table, double share)
{
    int upper = share >= 0.5;
    double w = fmax(upper ? 1 - share : share, 0x1p-24);
    int exponent;
    double fraction = frexp(w, &exponent); /* 1/2 to 1 */
    double part = (2 * fraction - 1) * 8;
    int cell = (exponent + 23) * 8 + (int)part;
    if (cell >= UNG_TABLE_CELLS) /* exactly 1/2 */
        cell = UNG_TABLE_CELLS - 1, part = 8;
    const double *c = table + 4 * (cell + (upper ? UNG_TABLE_CELLS : 0));
    double t = part - floor(part >= 8 ? 7 : part);
    return c[0] + t * (c[1] + t * (c[2] + t * c[3]));
}

START_TEST(cubics)
{
    static double table[UNG_TABLE];
    double worst = 0;
    for (size_t trial = 0; trial < scaled(300); trial++) {
        double mode = trial == 0 ? 0 : trial == 1 ? 1 : random_unit();
        ung_job_step step = {0, 1000 * mode, 1000, 1};
        double a = 1 + 4 * (step.likely_s / 1000), b = 5 - 4 * (step.likely_s / 1000);
        ung__beta beta, other;
        ung__beta_begin(&beta, a, b);
        ung__beta_begin(&other, b, a);
        ung__pert_table(&step, table);
        for (size_t i = 0; i < 2000; i++) {
            double w = i % 2 ? random_between(0x1p-24, 0.5) : exp(random_between(log(0x1p-24), log(0.5)));
            double x = ung__beta_inverse_from(&beta, w, ung__beta_start(&beta, w), 8);
            double y = ung__beta_inverse_from(&other, w, ung__beta_start(&other, w), 8);
            worst = fmax(worst, fabs(cubic(table, w) / 1000 - x));
            if (w < 0.5)
                worst = fmax(worst, fabs(cubic(table, 1 - w) / 1000 - (1 - y)));
        }
        for (int side = 0; side < 2; side++)
            for (int cell = 0; cell < UNG_TABLE_CELLS; cell++) {
                const double *c = table + 4 * (cell + side * UNG_TABLE_CELLS);
                double sign = side ? -1 : 1, w = ldexp(1 + cell % 8 / 8.0, cell / 8 - 24);
                double x = side ? 1 - c[0] / 1000 : c[0] / 1000, wanted = w;
                if (x > 1e-3 && x < 0.999) /* nearer to an end of a far side x has lost its digits */
                    ck_relative(ung__beta_of(side ? &other : &beta, x).below, wanted, 1e-11);
                /* The slope, at both ends and at its least between them, is not against the side's direction. */
                double least = fmin(sign * c[1], sign * (c[1] + 2 * c[2] + 3 * c[3])), at = c[3] != 0 ? -c[2] / (3 * c[3]) : 0;
                if (at > 0 && at < 1)
                    least = fmin(least, sign * (c[1] + at * (2 * c[2] + 3 * c[3] * at)));
                must_msg(least > 0, "mode %g cell %d side %d: slope %g", mode, cell, side, least);
            }
    }
    must_msg(worst < 6e-7, "off by %g of the range", worst); /* as the contract says */
    must_msg(worst > 1e-8, "off by %g: the test looks elsewhere", worst);
}
END_TEST

/* The draws themselves: shares by their counters through the inverse that the cubics approximate, chances by libm. */
START_TEST(draws)
{
    static double table[3 * UNG_TABLE];
    for (size_t trial = 0; trial < scaled(60); trial++) {
        ung_job_step steps[3];
        for (int k = 0; k < 3; k++) {
            double low = random_between(5, 50), likely = random_between(low, 100);
            steps[k] = (ung_job_step){low, likely, random_between(likely, 200), 1};
            ung__pert_table(&steps[k], table + k * UNG_TABLE);
        }
        size_t samples = trial % 3 ? 600 : 7;
        ung__chain chain = {steps, 3, table, 0, samples, (uint32_t)random_bits(), 0, log(200), random_between(1, 10), 0};
        double chance[3], error, sum[3] = {0}, squares = 0;
        ung__chain_late(&chain, 0, 3, chance, &error);
        for (uint32_t i = 0; i < samples; i++) {
            double total = 0;
            for (uint32_t k = 0; k < 3; k++) {
                const ung_job_step *s = steps + k;
                ung__words w = ung__philox((ung__words){{i, 0, k / 2, 0}}, chain.seed, 0);
                uint64_t bits = (uint64_t)w.word[2 * (k % 2)] << 32 | w.word[2 * (k % 2) + 1];
                double share = ldexp((double)(bits >> 12) + 0.5, -52), range = s->high_s - s->low_s;
                double a = 1 + 4 * (s->likely_s - s->low_s) / range;
                ung__beta beta;
                ung__beta_begin(&beta, share < 0.5 ? a : 6 - a, share < 0.5 ? 6 - a : a);
                double p = fmin(share, 1 - share), x = ung__beta_inverse_from(&beta, p, ung__beta_start(&beta, p), 8);
                total += share < 0.5 ? s->low_s + range * x : s->high_s - range * x;
                double late = erfc((chain.shift - log(total)) * chain.per_spread / sqrt(2)) / 2;
                sum[k] += late;
                squares += k == 2 ? late * late : 0;
            }
        }
        double n = (double)samples, wanted = (squares - sum[2] * sum[2] / n) / (n - 1) / n;
        /* 6e-7 of a range is below 1e-5 of a sum; a chance moves by less than 0.4 x 10 times that, and errors alternate. */
        for (int k = 0; k < 3; k++)
            ck_near(chance[k], sum[k] / n, 3e-6);
        ck_near(error, sqrt(wanted), 3e-6);
    }
}
END_TEST

/* Every width of the vectors gives the same bits. */
START_TEST(widths)
{
    static double tables[6 * UNG_TABLE];
    ung_job_step steps[6];
    for (size_t trial = 0; trial < scaled(100); trial++) {
        for (int i = 0; i < 6; i++) {
            double low = random_between(0, 50), likely = random_between(low, 100), high = random_between(likely, 200);
            steps[i] = (ung_job_step){low, likely, random_below(8) ? high : low, 1};
            steps[i].likely_s = fmin(likely, steps[i].high_s);
            ung__pert_table(&steps[i], tables + i * UNG_TABLE);
        }
        ung__chain chain = {steps, 6, tables, (int)random_below(2), 1 + random_below(2000), (uint32_t)random_bits(),
                            500, log(500), random_between(1, 20), 0};
        double chance[UNG_WIDTHS][6], error[UNG_WIDTHS];
        for (int width = 0; width <= ung__width(); width++) {
            chain.width = width;
            ung__chain_late(&chain, 0, 6, chance[width], &error[width]);
            must(memcmp(chance[width], chance[0], sizeof *chance) == 0 && same_bits(error[width], error[0]));
        }
    }
}
END_TEST

/* ---- The calculation ---- */

enum { STEPS = UNG_STEPS_MOST, WORK = STEPS * UNG_TABLE };
static double work[WORK];
static ung_step_time times[STEPS];

static ung_job_timeline_in job(double working_time, double samples)
{
    ung_job_timeline_in in = ung_job_timeline_standard();
    in.working_time_s = working_time, in.samples_count = samples;
    in.pace_fraction = 0;
    return in;
}

static ung_job_timeline_out run(const ung_job_timeline_in *in, const ung_job_step *steps, size_t n)
{
    ung_job_timeline_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    must_msg(ung_job_timeline(in, steps, n, times, n, work, WORK, &out, &fault) == UNG_OK, "%s", ung_fault_text(&fault, text));
    return out;
}

/* Within four standard errors; the draws are fixed, so a test that passes once passes always. */
#define ck_drawn(out, wanted) ck_near((out).chance_fraction, wanted, 4 * (out).standard_error_fraction + 1e-12)

static const ung_job_step example[4] = {{30, 45, 75, 1}, {40, 60, 100, 1}, {60, 90, 150, 1}, {90, 120, 200, 1}};

START_TEST(four_steps)
{
    ung_job_timeline_in in = job(360, 100000);
    ung_job_timeline_out out = run(&in, example, 4);
    /* Closed forms, and integrals by piecewise Gauss-Legendre rules. */
    ck_printed(out.mean_s, 334.166666667, 12);
    ck_printed(out.sd_s, 29.2990194321, 12);
    ck_relative(out.slack_s, 360 - 334.166666667, 1e-10);
    ck_printed(out.normal_chance_fraction, 0.337064141, 9);
    ck_drawn(out, 0.349359);
    must(out.standard_error_fraction > 1e-4 && out.standard_error_fraction < 1e-3);
    ck_near(times[2].chance_fraction, 0.001047, 2e-5); /* a rare event: its error is some hundredths of it */
    must(times[0].chance_fraction < 1e-12 && times[1].chance_fraction < 1e-6);
    ck_relative(times[0].mean_s, 47.5, 1e-15);
    ck_relative(times[1].finish_s, 47.5 + 380 / 6.0, 1e-15);
    ck_relative(times[3].finish_s, out.mean_s, 1e-15);
    must(times[3].chance_fraction == out.chance_fraction);
    /* The fourth step is late with one batch, and a fresh one is in time. */
    must(out.batches_count == 2 && out.fresh_before_count == 4 && out.impossible_count == 0);
    must(times[2].batch_count == 1 && times[3].batch_count == 2 && times[3].own_chance_fraction < 1e-4);
    must(times[2].own_chance_fraction == times[2].chance_fraction);
    in.limit_fraction = 0.5;
    out = run(&in, example, 4);
    must(out.batches_count == 1 && out.fresh_before_count == 0 && times[3].own_chance_fraction == out.chance_fraction);
    ck_relative(out.done_by_s, out.mean_s, 1e-14);
    ck_relative(out.needed_working_time_s, out.mean_s, 1e-14);
}
END_TEST

/* One step (2, 3, 6) against 4: beta-PERT has exponents 2 and 4 (1 + 4/4, 1 + 12/4), so the chance of more than half of
 * the range is the share of 1 or none out of 5 in halves, 6/32.  Here in units of ten seconds. */
START_TEST(one_step)
{
    const ung_job_step step = {20, 30, 60, 1};
    ung_job_timeline_in in = job(40, 200000);
    in.spread_fraction = 0;
    ung_job_timeline_out out = run(&in, &step, 1);
    ck_drawn(out, 0.1875);
    ck_relative(out.standard_error_fraction, sqrt(0.1875 * 0.8125 / 200000), 0.02); /* of a count */
    ck_relative(out.sd_s, 7.126966, 1e-7); /* not the 6.667 of a sixth of the range */
    in.spread_fraction = 0.15;
    out = run(&in, &step, 1);
    ck_drawn(out, 0.236728236673); /* integral of the density with the lognormal's share, by quadrature */
    must(out.standard_error_fraction < sqrt(0.1875 * 0.8125 / 200000));
    /* The triangular one: quantiles and moments in closed form; 1 - F(40) = 20^2/(40 x 30) = 1/3. */
    in.triangular_count = 1, in.spread_fraction = 0;
    out = run(&in, &step, 1);
    ck_drawn(out, 1. / 3);
    ck_relative(out.mean_s, 110. / 3, 1e-15);
    ck_relative(out.sd_s, 8.498366, 1e-7);
    in.working_time_s = 22; /* below the mode: F = 2^2/(40 x 10) */
    out = run(&in, &step, 1);
    ck_drawn(out, 0.99);
}
END_TEST

/* Taylor, Introduction to Management Science, ch. 8: critical path 1-3-5-7 in weeks, mean 24, P(<= 28) = 0.9633 with
 * variance ((b - a)/6)^2.  The means are the same here; the variance is not, and is held against its own formula.
 * Hillier and Lieberman, Reliable Construction (from memory): critical path A-B-C-E-F-J-L-N, mean 44. */
START_TEST(textbooks)
{
    static const double taylor[4][3] = {{5, 8, 17}, {3, 5, 7}, {4, 6, 8}, {3, 4, 5}};
    static const double hillier[8][3] = {{1, 2, 3}, {2, 3.5, 8}, {6, 9, 18}, {1, 4.5, 5},
                                         {4, 4, 10}, {3, 9, 9}, {1, 5.5, 7}, {5, 5.5, 9}};
    ung_job_step steps[8];
    ung_job_timeline_in in = job(280, 0);
    in.spread_fraction = 0;
    double variance = 0, sixths = 0;
    for (int i = 0; i < 4; i++) {
        const double *d = taylor[i];
        steps[i] = (ung_job_step){10 * d[0], 10 * d[1], 10 * d[2], 1};
        double mean = (d[0] + 4 * d[1] + d[2]) / 6;
        variance += (mean - d[0]) * (d[2] - mean) / 7;
        sixths += (d[2] - d[0]) * (d[2] - d[0]) / 36;
    }
    ck_relative(sixths, 5, 1e-14); /* the book's, so that its data are right */
    ung_job_timeline_out out = run(&in, steps, 4);
    ck_relative(out.mean_s, 240, 1e-14);
    ck_relative(times[0].mean_s, 90, 1e-14);
    ck_relative(out.sd_s, 10 * sqrt(variance), 1e-13);
    ck_relative(out.normal_chance_fraction, (double)erfcl(4 / sqrtl(2 * (long double)variance)) / 2, 1e-12);
    must(out.chance_fraction == out.normal_chance_fraction && out.standard_error_fraction == 0);
    for (int i = 0; i < 8; i++)
        steps[i] = (ung_job_step){10 * hillier[i][0], 10 * hillier[i][1], 10 * hillier[i][2], 1};
    out = run(&in, steps, 8);
    ck_relative(out.mean_s, 440, 1e-14);
    must(out.slack_s < -159 && out.slack_s > -161);
}
END_TEST

/* Three tasks (2, 3, 6), (4, 5, 9), (1, 2, 4), fixed time: exact by piecewise integration. */
START_TEST(series_chain)
{
    const ung_job_step chain[3] = {{20, 30, 60, 1}, {40, 50, 90, 1}, {10, 20, 40, 1}};
    static const double exact[2][4] = {{0.2114775171, 0.0644173766, 0.0126503971, 0.0000681010},
                                       {0.4795216049, 0.2530709877, 0.1026851852, 0.0056018519}};
    static const double at[4] = {120, 130, 140, 160};
    for (int triangular = 0; triangular < 2; triangular++)
        for (int i = 0; i < 4; i++) {
            ung_job_timeline_in in = job(at[i], 200000);
            in.spread_fraction = 0, in.triangular_count = triangular;
            ung_job_timeline_out out = run(&in, chain, 3);
            ck_near(out.chance_fraction, exact[triangular][i], 4 * sqrt(exact[triangular][i] / 200000));
            ck_relative(out.mean_s, triangular ? 120 : 110, 1e-14);
            ck_relative(out.sd_s * out.sd_s, triangular ? 227.77777778 : 156.34920635, 1e-10);
        }
    ung_job_timeline_in in = job(140, 0);
    in.spread_fraction = 0, in.triangular_count = 1;
    ck_printed(run(&in, chain, 3).normal_chance_fraction, 0.092556, 5);
}
END_TEST

/* The pace: all steps times one factor.  With steps of fixed length everything is known. */
START_TEST(pace_and_spread)
{
    const ung_job_step fixed[2] = {{100, 100, 100, 1}, {200, 200, 200, 1}};
    for (size_t i = 0; i < scaled(2000); i++) {
        ung_job_timeline_in in = job(random_between(200, 500), i % 2 ? 700 : 0);
        in.spread_fraction = random_between(0.01, 0.5), in.pace_fraction = i % 3 ? random_between(0, 0.5) : 0;
        in.limit_fraction = random_between(0.001, 0.5);
        ung_job_timeline_out out = run(&in, fixed, 2);
        double s = in.spread_fraction, p = in.pace_fraction, w = in.working_time_s;
        ck_near(out.sd_s, 300 * p, 1e-11);
        double z = (w - 300) / sqrt(s * s * w * w + 90000 * p * p), work_log = log(1 + s * s), pace_log = log(1 + p * p);
        ck_near(out.normal_chance_fraction, erfc(z / sqrt(2)) / 2, 1e-13);
        double y = (log(w / 300) - work_log / 2 + pace_log / 2) / sqrt(work_log + pace_log);
        if (in.samples_count > 0)
            ck_near(out.chance_fraction, erfc(y / sqrt(2)) / 2, 1e-12);
        if (in.samples_count > 0) /* all samples are alike: what is left are roundings of squares, about 1e-8 */
            must(out.standard_error_fraction < 1e-8);
        /* The needed working time leaves just the limit. */
        if (out.needed_working_time_s < 90000) {
            in.working_time_s = out.needed_working_time_s, in.samples_count = 0;
            ck_relative(run(&in, fixed, 2).chance_fraction, in.limit_fraction, 1e-9); /* times an argument of up to 3e5 */
        } else {
            must(ung__normal_upper(in.limit_fraction) * s > 0.98);
        }
        ck_relative(out.done_by_s, 300 + ung__normal_upper(in.limit_fraction) * out.sd_s, 1e-13);
    }
    /* Without any spread: late or not, and exactly in time is in time. */
    for (int samples = 0; samples < 2; samples++) {
        ung_job_timeline_in in = job(300, samples ? 100 : 0);
        in.spread_fraction = 0;
        must(run(&in, fixed, 2).chance_fraction == 0);
        in.working_time_s = nextafter(300, 0);
        ung_job_timeline_out out = run(&in, fixed, 2);
        must(out.chance_fraction == 1 && out.standard_error_fraction == 0 && out.batches_count == 2);
        must(out.impossible_count == 0 && out.fresh_before_count == 2);
        in.working_time_s = 99;
        out = run(&in, fixed, 2);
        must(out.impossible_count == 1 && out.batches_count == 2 && times[1].own_chance_fraction == 1);
        must(has_caution(ung_job_timeline_contract(), (double *)&in, (double *)&out, "no_batch_lasts"));
    }
    ung_job_timeline_in in = job(400, 0);
    in.spread_fraction = 0.5, in.limit_fraction = 0.001; /* z = 3.09: no working time is long enough */
    must(run(&in, fixed, 2).needed_working_time_s == INFINITY);
}
END_TEST

START_TEST(batches)
{
    /* Steps of fixed length and a fixed time: batches can be counted by hand. */
    ung_job_step steps[6] = {{50, 50, 50, 0}, {60, 60, 60, 1}, {70, 70, 70, 0},
                             {30, 30, 30, 1}, {10, 10, 10, 1}, {101, 101, 101, 1}};
    static const double batch[6] = {0, 1, 0, 1, 1, 2}, clock[6] = {0, 60, 60, 90, 100, 201};
    for (int samples = 0; samples < 2; samples++) {
        ung_job_timeline_in in = job(100, samples ? 600 : 0);
        in.spread_fraction = 0;
        ung_job_timeline_out out = run(&in, steps, 6);
        for (int i = 0; i < 6; i++) {
            must(times[i].batch_count == batch[i]);
            ck_relative(times[i].finish_s, clock[i], 1e-14);
            must(times[i].own_chance_fraction == (i == 5) && times[i].chance_fraction == (i == 5));
        }
        ck_relative(times[2].mean_s, 70, 1e-14);
        must(out.batches_count == 2 && out.fresh_before_count == 6 && out.impossible_count == 6);
        must(out.chance_fraction == 1 && out.sd_s == 0);
        in.working_time_s = 110; /* enough for each alone */
        must(run(&in, steps, 6).impossible_count == 0);
        out = run(&in, steps, 5); /* and for all but the last together */
        must(out.batches_count == 1 && out.fresh_before_count == 0 && out.chance_fraction == 0);
        /* Steps behind closing change nothing. */
        steps[5].working_count = 0;
        steps[5].high_s = 201; /* and their spread is not the job's */
        out = run(&in, steps, 6);
        must(out.sd_s == 0 && out.normal_chance_fraction == 0);
        steps[5].high_s = 101;
        must(out.chance_fraction == 0 && out.batches_count == 1 && times[5].batch_count == 0 && out.mean_s == 100);
        steps[5].working_count = 1;
    }
    for (int i = 0; i < 6; i++)
        steps[i] = (ung_job_step){101 - i, 101 - i, 101 - i, 1};
    ung_job_timeline_in in = job(100, 50); /* a batch for each; the first is impossible */
    in.spread_fraction = 0;
    ung_job_timeline_out out = run(&in, steps, 6);
    must(out.batches_count == 6 && out.fresh_before_count == 2 && out.impossible_count == 1 && times[5].batch_count == 6);
}
END_TEST

/* More time, less chance; more work, more chance; a step keeps its draws, a sample too. */
START_TEST(laws_of_chance)
{
    ung_job_step steps[STEPS];
    for (size_t trial = 0; trial < scaled(200); trial++) {
        size_t n = 1 + random_below(10);
        for (size_t i = 0; i < n; i++) {
            double low = random_between(5, 50), likely = random_between(low, 100), high = random_between(likely, 200);
            steps[i] = (ung_job_step){low, likely, high, 1};
        }
        ung_job_timeline_in in = job(random_between(50, 120) * (double)n, 1 + (double)random_below(3000));
        in.pace_fraction = random_between(0, 0.3), in.spread_fraction = trial % 4 ? random_between(0, 0.3) : 0;
        in.seed_count = (double)random_below(4294967296), in.triangular_count = (double)random_below(2);
        ung_job_timeline_out out = run(&in, steps, n), more;
        ung_step_time before[STEPS];
        memcpy(before, times, sizeof before);
        for (size_t i = 1; i < n; i++)
            must(times[i].chance_fraction >= times[i - 1].chance_fraction && times[i].own_chance_fraction <= times[i].chance_fraction);
        /* One more step changes none of the others. */
        steps[n] = (ung_job_step){10, 20, 40, 1};
        more = run(&in, steps, n + 1);
        for (size_t i = 0; i < n; i++)
            must(memcmp(&times[i], &before[i], sizeof *times) == 0);
        must(more.chance_fraction >= out.chance_fraction);
        /* One more sample adds something between 0 and 1 to the sum, whatever block it falls in. */
        double samples = in.samples_count;
        in.samples_count = samples + 1;
        more = run(&in, steps, n);
        double added = more.chance_fraction * (samples + 1) - out.chance_fraction * samples;
        must(added > -1e-10 && added < 1 + 1e-10);
        in.samples_count = samples;
        double working_time = in.working_time_s;
        in.working_time_s *= 1.01;
        more = run(&in, steps, n);
        must(more.chance_fraction <= out.chance_fraction && more.batches_count <= out.batches_count);
        in.working_time_s = working_time;
        in.seed_count = in.seed_count == 7 ? 8 : 7; /* other draws */
        more = run(&in, steps, n);
        must(out.chance_fraction < 1e-3 || out.chance_fraction > 0.999 || in.samples_count < 50 || in.spread_fraction == 0 ||
             more.chance_fraction != out.chance_fraction);
        must(more.mean_s == out.mean_s && more.normal_chance_fraction == out.normal_chance_fraction);
    }
}
END_TEST

static void check_rows(const ung_job_step *steps, size_t n, const char *text, size_t row, double value, double limit)
{
    ung_job_timeline_in in = job(360, 10);
    ung_job_timeline_out out;
    ung_fault fault;
    char sentence[UNG_FAULT_TEXT];
    must(ung_job_timeline(&in, steps, n, times, n, work, WORK, &out, &fault) == UNG_RELATION);
    must_msg(strstr(ung_fault_text(&fault, sentence), text) != NULL, "%s", sentence);
    ck_assert_str_eq(fault.field, "steps");
    must(fault.index == row);
    if (!isnan(value)) {
        must(fault.value == value && fault.upper == limit);
        ck_assert_str_eq(fault.unit, "s");
    }
    must(isnan(out.mean_s) && isnan(times[0].mean_s));
}

START_TEST(refusals)
{
    ung_job_step steps[3] = {{10, 20, 30, 1}, {10, 20, 30, 1}, {10, 20, 30, 0}};
    steps[1].low_s = 21;
    check_rows(steps, 3, "likely_s is below low_s", 1, 21, 20);
    steps[1].low_s = 10, steps[2].high_s = 19;
    check_rows(steps, 3, "high_s is below likely_s", 2, 20, 19);
    steps[2].high_s = 30, steps[0].working_count = 0.5;
    check_rows(steps, 3, "working_count is neither 0 nor 1", 0, NAN, NAN);
    steps[0].working_count = steps[1].working_count = 0;
    check_rows(steps, 3, "no step counts", UNG_NO_INDEX, NAN, NAN);
    steps[0] = (ung_job_step){0, 0, 0, 1}; /* a step that takes no time is none the less one */
    ung_job_timeline_in in = job(10, 10);
    must(run(&in, steps, 3).chance_fraction == 0);
    ung_job_timeline_out out;
    ung_fault fault;
    must(ung_job_timeline(&in, steps, 3, times, 3, work, 3 * UNG_TABLE - 1, &out, &fault) == UNG_COUNT);
    steps[0].high_s = 100001;
    must(ung_job_timeline(&in, steps, 3, times, 3, work, WORK, &out, &fault) == UNG_RANGE && fault.index == 0);
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_job_timeline_contract();
    check_rule(c, "no_batch_lasts", UNG_STOP, UNG_ABOVE, 0);
    check_rule(c, "late", UNG_WARN, UNG_ABOVE, 0);
    check_factors(c, "late", 1, -1);
    check_rule(c, "rough", UNG_NOTE, UNG_ABOVE, 0);
    check_factors(c, "rough", 1, -0.2);
    ung_job_timeline_in in = job(360, 100000);
    ung_job_timeline_out out = run(&in, example, 4);
    must(has_caution(c, (double *)&in, (double *)&out, "late") && !has_caution(c, (double *)&in, (double *)&out, "rough"));
    in.limit_fraction = out.chance_fraction; /* as much as accepted is accepted */
    must(!has_caution(c, (double *)&in, (double *)&out, "late"));
    in.samples_count = 10, in.limit_fraction = 0.05;
    out = run(&in, example, 4);
    must(has_caution(c, (double *)&in, (double *)&out, "rough"));
    must(!has_caution(c, (double *)&in, (double *)&out, "no_batch_lasts"));
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "timeline");
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, philox);
    tcase_add_test(tests, normal);
    tcase_add_test(tests, beta_shares);
    tcase_add_test(tests, cubics);
    tcase_add_test(tests, draws);
    tcase_add_test(tests, widths);
    tcase_add_test(tests, four_steps);
    tcase_add_test(tests, one_step);
    tcase_add_test(tests, textbooks);
    tcase_add_test(tests, series_chain);
    tcase_add_test(tests, pace_and_spread);
    tcase_add_test(tests, batches);
    tcase_add_test(tests, laws_of_chance);
    tcase_add_test(tests, refusals);
    tcase_add_test(tests, cautions);
    return finish(runner);
}
