/* Whether the work gets done before the adhesive sets, and where a fresh batch is mixed. */
#include <ungula/job.h>

#include "core/contract.h"
#include "core/normal.h"
#include "job/timeline.h"

#define NAME job_timeline
#define ROOM job
#define TITLE "whether the work gets done before the adhesive sets"
#define ABOUT                                                                                                        \
    "Steps in the order of the work, each with a low, a likely and a high duration. Those with working_count 1 run on " \
    "the adhesive's clock, which starts when its parts first touch: mixing is the first of them. The sum of their "  \
    "durations up to step k, S_k, is held against the working time W.\n"                                             \
    "\n"                                                                                                             \
    "    step: beta-PERT on low to high, exponents 1 + 4 (likely - low)/(high - low), 1 + 4 (high - likely)/(high - low)\n" \
    "    mean = (low + 4 likely + high)/6;  variance = (mean - low) (high - mean)/7\n"                               \
    "    triangular: mean = (low + likely + high)/3;  variance = ((high - low)^2 - (likely - low) (high - likely))/18\n" \
    "    pace: one factor for all steps of a day, lognormal, mean 1, standard deviation pace_fraction\n"             \
    "    W: lognormal, mean working_time, standard deviation spread_fraction working_time\n"                         \
    "    mean_s = sum of means;  sd_s^2 = V + pace^2 (V + mean_s^2), V the sum of variances;  slack = working_time - mean_s\n" \
    "    normal_chance = 1 - Phi(slack/sqrt(sd_s^2 + (spread working_time)^2))\n"                                    \
    "    chance = mean over samples of P(W/pace < S_n);  standard_error = their standard deviation/sqrt(samples)\n"  \
    "    done_by = mean_s + z sd_s, Phi(z) = 1 - limit;  needed_working_time: normal_chance would be the limit\n"    \
    "\n"                                                                                                             \
    "The standard deviation is the distribution's own: 0.713 for (2, 3, 6), not a sixth of the range, 0.667. "       \
    "Durations are drawn, steps independent of each other; working time and pace are not: for a drawn sum the chance " \
    "that W/pace, which is lognormal too, is shorter is known, and averaging it errs less than counting. Without "   \
    "any spread of either, late samples are counted. Sample i of step k (from 0) uses Philox4x32-10 with counter "   \
    "(i, 0, k/2, 0) and key (seed, 0), words 0 and 1 for even k, 2 and 3 for odd: a step keeps its draws when "      \
    "another is added behind it, and more samples keep the first ones.\n"                                            \
    "\n"                                                                                                             \
    "Batches: within one that is mixed after step j, the first step k for which the chance of S_k - S_j > W is above " \
    "limit_fraction begins a fresh one (fresh_before_count: the first such step). Where a step alone is above it, no " \
    "batch lasts (impossible_count). Without samples chances are the normal ones."
#define ACCURACY                                                                                                     \
    "Mean, standard deviation and normal chance: relative error below 1e-12. Drawn durations come from cubics through " \
    "the inverse of the incomplete beta function, off by less than 6e-7 of the step's range (below a share of 2^-24 " \
    "at either end: the duration of that share). The chance's own error is standard_error_fraction."
#define SOURCES(S)                                                                                                   \
    S(MEMORY, "Malcolm DG, Roseboom JH, Clark CE, Fazar W 1959. Application of a technique for research and development " \
              "program evaluation. Operations Research 7:646-669",                                                   \
      "mean (low + 4 likely + high)/6; normal approximation of a chain")                                             \
    S(MEMORY, "Clark CE 1962. The PERT model for the distribution of an activity time. Operations Research 10:405-406", "beta distribution of a step") \
    S(PUBLISHED, "Salmon JK, Moraes MA, Dror RO, Shaw DE 2011. Parallel random numbers: as easy as 1, 2, 3. SC11, "  \
                 "doi 10.1145/2063384.2063405",                                                                      \
      "Philox4x32-10")                                                                                               \
    S(CHOICE, "Lognormal working time and pace: neither can be negative, and their quotient is lognormal", "their shapes") \
    S(CHOICE, "No value is published for either: to be replaced by one's own timings", "spread, pace")               \
    S(CHOICE, "One job in twenty", "limit")
#define INPUTS(F)                                                                                                    \
    F(working_time_s, 10, 100000, 120, 1200, REQUIRED, GIVEN, MEASURE, "mean time from first contact of the parts until the adhesive can no longer be worked") \
    F(spread_fraction, 0, 0.5, 0.1, 0.2, 0.15, CHOICE, MEASURE, "standard deviation of the working time, of its mean") \
    F(pace_fraction, 0, 0.5, 0, 0.2, 0.1, CHOICE, MEASURE, "standard deviation of the day's pace, which slows all steps alike") \
    F(limit_fraction, 0.001, 0.5, 0.01, 0.1, 0.05, CHOICE, MEASURE, "chance of being late that is accepted")         \
    F(triangular_count, 0, 1, 0, 1, 0, CHOICE, WHOLE, "1: steps are triangular, 0: beta-PERT")                       \
    F(samples_count, 0, 200000, 1000, 20000, 10000, CHOICE, WHOLE, "samples; 0: the normal approximation alone")     \
    F(seed_count, 0, 4294967295.0, 0, 100, 1, CHOICE, WHOLE, "another number gives other draws")
#define OUTPUTS(F)                                                                                                   \
    F(mean_s, FINITE, "mean time from mixing to the end of the last step that counts")                               \
    F(sd_s, FINITE, "its standard deviation")                                                                        \
    F(slack_s, FINITE, "working time less that mean")                                                                \
    F(normal_chance_fraction, FINITE, "chance of being late with one batch, if all were normal")                     \
    F(chance_fraction, FINITE, "chance of being late with one batch")                                                \
    F(standard_error_fraction, FINITE, "standard error of it; 0 without samples")                                    \
    F(done_by_s, FINITE, "time that the work passes with the accepted chance (normal)")                              \
    F(needed_working_time_s, INFINITE, "mean working time that would leave the accepted chance (normal)")            \
    F(batches_count, FINITE, "batches to mix")                                                                       \
    F(fresh_before_count, FINITE, "number of the first step before which a fresh batch is mixed, from 1; 0: none")   \
    F(impossible_count, FINITE, "number of the first step that even a fresh batch does not last for; 0: none")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(STOP, no_batch_lasts, OUT(impossible_count), 1, NO_FIELD, 0, ABOVE, 0, NO_GUARD,                               \
      "a step is likely to outlast even a fresh batch: slower adhesive, smaller packs one after another, or a helper") \
    C(WARN, late, OUT(chance_fraction), 1, IN(limit_fraction), -1, ABOVE, 0, NO_GUARD,                               \
      "the adhesive is likely to set before the last step: mix a fresh batch where the plan says so")                \
    C(NOTE, rough, OUT(standard_error_fraction), 1, IN(limit_fraction), -0.2, ABOVE, 0, NO_GUARD,                    \
      "the chance is rough beside the limit: draw more samples")
#define STANDING(S)                                                                                                  \
    S("The working time is that of the mixed amount at its temperature: a full cup sets sooner than a thin coat.")   \
    S("Durations are guesses until somebody has timed the steps; adhesive that has begun to set is not to be worked on.") \
    S("Steps are independent of each other but for the common pace; a horse that will not stand delays them all.")
#define STEP_FIELDS(F, type)                                                                                         \
    F(type, low_s, 0, 100000, "shortest time it takes")                                                              \
    F(type, likely_s, 0, 100000, "usual time")                                                                       \
    F(type, high_s, 0, 100000, "longest time it takes")                                                              \
    F(type, working_count, 0, 1, "1: while the adhesive has to be workable, 0: before or after")
#define TIME_FIELDS(F, type)                                                                                         \
    F(type, mean_s, 0, 1e7, "mean duration of the step")                                                             \
    F(type, finish_s, 0, 1e7, "mean time from mixing to its end, with one batch")                                    \
    F(type, chance_fraction, 0, 1, "chance that one batch has set by its end; 0 where the step does not count")      \
    F(type, own_chance_fraction, 0, 1, "chance that its own batch has set by its end; 0 where the step does not count") \
    F(type, batch_count, 0, 64, "number of its batch, from 1; 0 where the step does not count")
#define LISTS(L)                                                                                                     \
    L(GIVEN, steps, ung_job_step, 1, UNG_STEPS_MOST, NO_FIELD, STEP_FIELDS, "steps in the order of the work")        \
    L(FILLED, times, ung_step_time, 1, UNG_STEPS_MOST, 0, TIME_FIELDS, "time and chance of each step")
#define LIST_REFUSALS(R)                                                                                             \
    R(0, "likely_s is below low_s")                                                                                  \
    R(0, "high_s is below likely_s")                                                                                 \
    R(0, "working_count is neither 0 nor 1")                                                                         \
    R(0, "no step counts: the adhesive has to be workable in at least one")
#define WORK_PER_ROW 1472
#define WORK_MORE 0
_Static_assert(WORK_PER_ROW == UNG_TABLE, "a table for each step");

/* Mean and variance of a step's duration. */
typedef struct moments {
    double mean, variance;
} moments;

static moments step_moments(const ung_job_step *s, int triangular)
{
    double low = s->low_s, likely = s->likely_s, high = s->high_s;
    moments m;
    m.mean = triangular ? (low + likely + high) / 3 : (low + 4 * likely + high) / 6;
    m.variance = triangular ? ((high - low) * (high - low) - (likely - low) * (high - likely)) / 18
                            : (m.mean - low) * (high - m.mean) / 7;
    return m;
}

/* Variance of the sum at a random pace. */
static double paced(const ung_job_timeline_in *in, moments sum)
{
    double p = in->pace_fraction;
    return sum.variance + p * p * (sum.variance + sum.mean * sum.mean);
}

static double normal_chance(const ung_job_timeline_in *in, moments sum)
{
    double spread = in->spread_fraction * in->working_time_s;
    double variance = paced(in, sum) + spread * spread, over = sum.mean - in->working_time_s;
    double some = variance > 0 ? variance : 1;
    return variance > 0 ? ung__normal_above((0 - over) / ung__sqrt(some)) : over > 0 ? 1 : 0;
}

/* Chances by the end of the steps from `first` on, with a batch mixed before that one. */
static double normal_chances(const ung_job_timeline_in *in, const ung__chain *chain, size_t first, double *chance)
{
    moments sum = {0, 0};
    double now = 0;
    for (size_t k = first; k < chain->count; k++) {
        moments step = step_moments(chain->step + k, chain->triangular);
        int counts = chain->step[k].working_count > 0;
        sum.mean += counts ? step.mean : 0;
        sum.variance += counts ? step.variance : 0;
        now = counts ? normal_chance(in, sum) : now;
        chance[k] = counts ? now : 0;
    }
    return now;
}

/* The same for a fresh batch, as far as needed: until a step is above the limit.  Samples are drawn only up to a step
 * that is almost sure to be above it; should it not be, the rest follows. */
static void own_chances(const ung_job_timeline_in *in, const ung__chain *chain, size_t first, double *chance)
{
    double unused;
    normal_chances(in, chain, first, chance);
    if (chain->samples == 0)
        return;
    size_t last = first;
    while (last < chain->count && chance[last] < 0.9)
        last++;
    last = last < chain->count ? last + 1 : last;
    ung__chain_late(chain, first, last, chance, &unused);
    for (size_t k = first; k < last; k++)
        if (chance[k] > in->limit_fraction)
            return;
    ung__chain_late(chain, first, chain->count, chance, &unused);
}

static ung__chain chain_of(const ung_job_timeline_in *in, const ung_rows *rows)
{
    double pace = ung__log1p(in->pace_fraction * in->pace_fraction);
    double spread = ung__log1p(in->spread_fraction * in->spread_fraction);
    double both = spread + pace, some = both > 0 ? both : 1;
    ung__chain chain;
    chain.step = (const ung_job_step *)rows[0].data;
    chain.count = rows[0].count;
    chain.table = rows[2].data;
    chain.triangular = in->triangular_count > 0;
    chain.samples = (size_t)in->samples_count;
    chain.seed = (uint32_t)in->seed_count;
    chain.time = in->working_time_s;
    chain.shift = ung__log(in->working_time_s) + (pace - spread) / 2;
    chain.per_spread = both > 0 ? 1 / ung__sqrt(some) : 0;
    chain.width = ung__width();
    return chain;
}

/* Which relation a list of steps breaks, and where. */
static double refused(const ung__chain *chain, ung__where *where)
{
    double counted = 0;
    for (size_t k = 0; k < chain->count; k++) {
        const ung_job_step *s = chain->step + k;
        double odd = ung__is_whole(s->working_count) < 1 ? 3 : 0;
        double broken = s->likely_s < s->low_s ? 1 : s->high_s < s->likely_s ? 2 : odd;
        if (broken > 0) {
            where->row = (double)k;
            where->unit = "s";
            where->value = broken < 2 ? s->low_s : broken < 3 ? s->likely_s : UNG__NAN;
            where->limit = broken < 2 ? s->likely_s : broken < 3 ? s->high_s : UNG__NAN;
            return broken;
        }
        counted += s->working_count;
    }
    return counted > 0 ? 0 : 4;
}

/* Batches, from the chances with one batch; own gets the chance of each step in its own. */
static void plan_batches(const ung_job_timeline_in *in, const ung__chain *chain, ung_step_time *time, double *own,
                         ung_job_timeline_out *out)
{
    int begun = 0; /* whether a step of this batch has been done */
    out->batches_count = 1;
    for (size_t k = 0; k < chain->count; k++) {
        int counts = chain->step[k].working_count > 0;
        if (counts && begun && own[k] > in->limit_fraction) {
            own_chances(in, chain, k, own);
            out->batches_count += 1;
            out->fresh_before_count = out->fresh_before_count > 0 ? out->fresh_before_count : (double)(k + 1);
            begun = 0;
        }
        if (counts && !begun && own[k] > in->limit_fraction)
            out->impossible_count = out->impossible_count > 0 ? out->impossible_count : (double)(k + 1);
        begun = begun || counts;
        time[k].own_chance_fraction = own[k];
        time[k].batch_count = counts ? out->batches_count : 0;
    }
}

static ung_job_timeline_out formula(const ung_job_timeline_in *in, const ung_rows *rows, ung__where *where)
{
    ung_step_time *time = (ung_step_time *)rows[1].data;
    ung__chain chain = chain_of(in, rows);
    ung_job_timeline_out out = {0};
    where->refusal = refused(&chain, where);
    if (where->refusal != 0)
        return out;

    double chance[UNG_STEPS_MOST];
    moments sum = {0, 0};
    for (size_t k = 0; k < chain.count; k++) {
        moments step = step_moments(chain.step + k, chain.triangular);
        int counts = chain.step[k].working_count > 0;
        sum.mean += counts ? step.mean : 0;
        sum.variance += counts ? step.variance : 0;
        time[k].mean_s = step.mean;
        time[k].finish_s = sum.mean;
        if (counts && chain.samples > 0 && !chain.triangular)
            ung__pert_table(chain.step + k, rows[2].data + k * UNG_TABLE);
    }
    double variance = paced(in, sum), z = ung__normal_upper(in->limit_fraction), s = in->spread_fraction;
    double divisor = 1 - z * z * s * s, some = divisor > 0 ? divisor : 1;
    out.mean_s = sum.mean;
    out.sd_s = ung__sqrt(variance);
    out.slack_s = in->working_time_s - sum.mean;
    out.done_by_s = sum.mean + z * out.sd_s;
    double root = ung__sqrt(s * s * sum.mean * sum.mean + variance * some);
    out.needed_working_time_s = divisor > 0 ? (sum.mean + z * root) / some : UNG__INFINITY;
    out.normal_chance_fraction = normal_chances(in, &chain, 0, chance);
    out.chance_fraction = out.normal_chance_fraction;
    if (chain.samples > 0)
        ung__chain_late(&chain, 0, chain.count, chance, &out.standard_error_fraction);
    for (size_t k = 0; k < chain.count; k++) {
        time[k].chance_fraction = chance[k];
        if (chain.samples > 0 && chain.step[k].working_count > 0)
            out.chance_fraction = chance[k];
    }
    plan_batches(in, &chain, time, chance, &out);
    return out;
}

#include "core/define.h"
