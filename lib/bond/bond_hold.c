/* Shear in an adhesive film between two members that stretch: Volkersen's shear lag.
 *
 *      cover  ======================-->        The load passes from one member to the other over the lap; it passes
 *      film        ////////////                fastest at the ends, faster at the end of the member that stretches
 *      horn   <--============                  more, so the mean stress is not what starts a crack.
 */
#include <ungula/bond.h>

#include "core/contract.h"

#define NAME bond_hold
#define ROOM bond
#define TITLE "what a bond on horn carries"
#define ABOUT                                                                                                        \
    "Mean and peak shear in the adhesive between the horn and what covers it (tape soaked with adhesive, or wood), "  \
    "the load at which the mean reaches the strength and the load at which the first edge does.\n"                   \
    "\n"                                                                                                             \
    "    w = sqrt(G/film (1/(E1 t1) + 1/(E2 t2))),  x = w lap/2,  psi = E1 t1/(E2 t2)\n"                             \
    "    peak_ratio = x (coth x + |psi - 1|/(psi + 1) tanh x)         peak over mean\n"                              \
    "    mean = demand/area,  peak = mean peak_ratio\n"                                                              \
    "    capacity_mean = area strength preparation                    a tough adhesive, all of it at once\n"         \
    "    capacity_first = capacity_mean/peak_ratio                    first crack at an end\n"                       \
    "    use_mean = demand/capacity_mean,  use_first = demand/capacity_first\n"                                      \
    "    effective_lap = 6/w: a longer lap adds next to nothing\n"                                                   \
    "    needed_mean = mean divisor/preparation,  needed_first = peak divisor/preparation\n"                         \
    "\n"                                                                                                             \
    "1 is the horn, 2 the cover; G is the adhesive's shear modulus. Strength of adhesive on horn has no trustworthy "  \
    "published value, so it is asked for; the needed strengths answer the question the other way round, without it: " \
    "with needed_mean as the strength and divisor 1, use_mean is 1. Peel is not covered: see hold."
#define ACCURACY                                                                                                     \
    "Relative error below 1e-14 in the accepted ranges, for short laps (x to 0, ratio to 1), long ones and equal members."
#define SOURCES(S)                                                                                                   \
    S(MEMORY, "Volkersen O 1938. Die Nietkraftverteilung in zugbeanspruchten Nietverbindungen. Luftfahrtforschung 15:41-47", \
      "peak_ratio (the form for unequal members is recalled; the one for equal members was seen)")                   \
    S(PUBLISHED,                                                                                                     \
      "Hinterhofer C et al. 1998. Elastic modulus of equine hoof horn. Berl Munch Tierarztl Wochenschr 111:217-221", \
      "modulus of the lateral wall 708 MPa (SD 280), dorsal wall 762 MPa (SD 295)")                                  \
    S(PRACTICE, "Data sheets of two-part acrylic adhesives", "11 to 24 MPa in lap shear tests (ASTM D1002): a ceiling") \
    S(MEMORY, "Strength of the horn's weak plane, about 10 MPa", "caution beyond_horn")                                \
    S(CHOICE, "Half of the strength on wet or waxy horn, to be overridden by a test", "preparation_factor")
#define INPUTS(F)                                                                                                    \
    F(bonded_area_mm2, 100, 200000, 5000, 20000, REQUIRED, GIVEN, MEASURE, "bonded wall, without the open heel (hoof_band)") \
    F(lap_mm, 2, 150, 15, 50, REQUIRED, GIVEN, MEASURE, "length of the bond along the load")                         \
    F(film_mm, 0.05, 10, 0.5, 2, 1, PRACTICE, MEASURE, "thickness of the adhesive")                                  \
    F(adhesive_shear_modulus_mpa, 1, 2000, 100, 450, REQUIRED, GIVEN, MEASURE, "G of the adhesive")                  \
    F(horn_modulus_mpa, 50, 15000, 250, 1050, 708, PUBLISHED, MEASURE, "E of the horn at its moisture")              \
    F(horn_thickness_mm, 2, 20, 5, 13, REQUIRED, GIVEN, MEASURE, "wall")                                             \
    F(cover_modulus_mpa, 50, 50000, 1000, 6000, REQUIRED, GIVEN, MEASURE, "E of tape with adhesive, or of wood")     \
    F(cover_thickness_mm, 0.2, 20, 1, 8, REQUIRED, GIVEN, MEASURE, "tape with adhesive, or wood")                    \
    F(shear_strength_mpa, 0.05, 40, 0.5, 5, REQUIRED, GIVEN, MEASURE, "of the adhesive on horn: no published value; above 10 the horn's weak plane goes first") \
    F(preparation_factor, 0.01, 1, 0.3, 1, 0.5, CHOICE, MEASURE, "share of that strength on this surface; 1 dry, clean and rasped") \
    F(demand_n, 0, 100000, 200, 2000, 0, NEUTRAL, MEASURE, "load to be carried")                                     \
    F(divisor_ratio, 1, 20, 1, 4, 1, NEUTRAL, MEASURE, "wanted reserve: strength over stress")
#define OUTPUTS(F)                                                                                                   \
    F(shear_lag_per_mm, FINITE, "w of the equation")                                                                 \
    F(peak_ratio, FINITE, "peak over mean shear stress")                                                             \
    F(mean_mpa, FINITE, "mean shear stress under the demand")                                                        \
    F(peak_mpa, FINITE, "shear stress at the worse end")                                                             \
    F(capacity_mean_n, FINITE, "load at which the mean reaches the strength")                                        \
    F(capacity_first_n, FINITE, "load at which the worse end does")                                                  \
    F(use_mean_ratio, FINITE, "demand over capacity_mean")                                                           \
    F(use_first_ratio, FINITE, "demand over capacity_first")                                                         \
    F(effective_lap_mm, FINITE, "lap beyond which more adds next to nothing")                                        \
    F(needed_mean_mpa, FINITE, "strength that would carry the mean with the wanted reserve")                         \
    F(needed_first_mpa, FINITE, "strength that would carry the peak with the wanted reserve")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(STOP, overload, OUT(use_mean_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                                       \
      "the load exceeds what the whole bond carries at the strength that was given")                                 \
    C(WARN, starts_at_edge, OUT(use_first_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                                \
      "a crack starts at the edge before the bond as a whole is loaded: a tough adhesive bears it for a while, a brittle one does not") \
    C(WARN, beyond_horn, IN(shear_strength_mpa), 1, NO_FIELD, 0, ABOVE, 10, NO_GUARD,                                \
      "above 10 MPa the weak plane of the horn itself goes first")                                                   \
    C(NOTE, lap_saturated, IN(lap_mm), 1, OUT(effective_lap_mm), -1, ABOVE, 0, NO_GUARD,                             \
      "a lap beyond effective_lap_mm adds next to nothing")
#define STANDING(S)                                                                                                  \
    S("The result is no better than the strength that was given: there is no trustworthy published value on horn.")  \
    S("Infected or wet horn is not sealed in, the heel is kept free, and the bond is temporary; peel is not covered.")

/* x coth x + unequal x tanh x.  The accepted ranges give x of 6.5e-4 and more (a lap of 2 mm, G 1 MPa, a film of 10 mm,
 * members of 15000 MPa and 50000 MPa, 20 mm thick), where nothing is lost. */
UNG_INLINE double peak_over_mean(double x, double unequal)
{
    double tanh_x = ung__tanh(x);
    return x / tanh_x + unequal * x * tanh_x;
}

UNG_INLINE ung_bond_hold_out formula(const ung_bond_hold_in *in, double *refusal)
{
    double horn = in->horn_modulus_mpa * in->horn_thickness_mm, cover = in->cover_modulus_mpa * in->cover_thickness_mm;
    double w = ung__sqrt(in->adhesive_shear_modulus_mpa / in->film_mm * (1 / horn + 1 / cover));
    double ratio = peak_over_mean(w * in->lap_mm / 2, ung__abs(horn - cover) / (horn + cover));
    double prepared = in->shear_strength_mpa * in->preparation_factor;

    *refusal = 0;
    ung_bond_hold_out out;
    out.shear_lag_per_mm = w;
    out.peak_ratio = ratio;
    out.mean_mpa = in->demand_n / in->bonded_area_mm2;
    out.peak_mpa = out.mean_mpa * ratio;
    out.capacity_mean_n = in->bonded_area_mm2 * prepared;
    out.capacity_first_n = out.capacity_mean_n / ratio;
    out.use_mean_ratio = in->demand_n / out.capacity_mean_n;
    out.use_first_ratio = in->demand_n / out.capacity_first_n;
    out.effective_lap_mm = 6 / w;
    out.needed_mean_mpa = out.mean_mpa * in->divisor_ratio / in->preparation_factor;
    out.needed_first_mpa = out.peak_mpa * in->divisor_ratio / in->preparation_factor;
    return out;
}

#include "core/define.h"
