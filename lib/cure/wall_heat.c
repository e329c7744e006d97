/* Heat at the horn's inner face under a curing film. */
#include <ungula/cure.h>

#include "core/contract.h"
#include "cure/wall.h"

#define NAME wall_heat
#define ROOM cure
#define TITLE "how hot a curing film makes the inner face of the horn"
#define ABOUT                                                                                                        \
    "Heat flows square to the wall through film, horn and, with tissue_count 1, living tissue whose far side stays at " \
    "body_c; with 0 no heat passes the horn's inner face, which is the hotter case. The film's outer face gives heat " \
    "to the air. In each place of the film a share a is cured:\n"                                                    \
    "\n"                                                                                                             \
    "    da/dt = k (i + a) (1 - a),   k = k_ref exp(-E/R (1/T - 1/T_ref)),   a = 0 at first\n"                       \
    "    capacity dT/dt = conductivity d2T/dx2 + density heat da/dt\n"                                               \
    "    k_ref = ln[(i + gel)/(i (1 - gel))]/((1 + i) reference_time)\n"                                             \
    "\n"                                                                                                             \
    "until a is final_fraction, where the cure stops. The film begins at start_c, the horn at horn_c, tissue between " \
    "horn_c and body_c. Six hours are followed. film_peak is the hottest place; the inner peak is the highest "      \
    "temperature that the horn's inner face reaches in that time, at the beginning at the least. film_gel_time is "   \
    "when gel_fraction is cured on the mean of the film.\n"                                                          \
    "\n"                                                                                                             \
    "burn_damage is the integral of A exp(-75000 K/T) over the time above 44 C, A = 3.1e98 1/s: 0.53 reddens skin, 1 " \
    "is the threshold of a burn, 1e4 of a deep one. 49 C reach 1 in 6.9 minutes, 60 C in 0.2 s. "                     \
    "(75,000 K is the original 150,000 cal/mol over R = 2 cal/(mol K); 628 kJ/mol over the exact R warns five times too late.)"
#define ACCURACY                                                                                                     \
    "Against finer cells and steps: the inner face's peak within 0.1 C; gel time within 0.1 %; burn damage above 0.01 " \
    "within 1 %; time above 44 C within 10 s. The film's peak within 1 C where it stays below 100 C; where a film "   \
    "runs away, within 3 C over the usual ranges and 30 C beyond them."
#define SOURCES(S)                                                                                                   \
    S(MEMORY, "Kamal 1974, Polym Eng Sci 14:231 (both exponents 1), with conduction in one direction", "the equations") \
    S(PUBLISHED, "Henriques 1947, Arch Pathol 43:489 (constants as in public codes that cite it)",                   \
      "burn damage above 44 C: 3.1e98 1/s, 75,000 K; 0.53, 1 and 1e4")                                               \
    S(PUBLISHED, "Hutchinson and Hutchinson 2008, J Orthop Surg Res 3:10", "danger is sustained heat above 49 C; 49 C on skin burns in minutes") \
    S(MEMORY, "Moritz and Henriques 1947, Am J Pathol 23:695", "44 C, borne by skin for about six hours, is the lowest that harms") \
    S(PUBLISHED, "SI Brochure, 9th edition 2019", "the gas constant, 8.31446261815324 J/(mol K)")                    \
    S(MEMORY, "Hairer and Wanner 1996, Solving Ordinary Differential Equations II, IV.7", "the method RODAS")        \
    S(CHOICE, "Horn as a dense protein with some water, film as an acrylic; no measurement of hoof horn is known",   \
      "conductivities 0.25 and 0.2 W/(m K), capacities 2.4 and 1.9 MJ/(m3 K)")                                       \
    S(MEMORY, "Soft tissue holding much water", "0.5 W/(m K), 3.6 MJ/(m3 K)")
#define INPUTS(F)                                                                                                    \
    F(adhesive_mm, 0.1, 4, 0.5, 3, REQUIRED, GIVEN, MEASURE, "adhesive on the horn, as it is laid at once")              \
    F(horn_mm, 2, 25, 4, 12, REQUIRED, GIVEN, MEASURE, "horn between adhesive and living tissue")                    \
    F(start_c, -25, 45, 5, 35, REQUIRED, GIVEN, MEASURE, "adhesive when it is laid")                                 \
    F(horn_c, -10, 43, 10, 35, REQUIRED, GIVEN, MEASURE, "horn before")                                              \
    F(ambient_c, -25, 45, 0, 38, REQUIRED, GIVEN, MEASURE, "air, or what covers the film")                           \
    F(exchange_w_m2k, 1, 500, 8, 60, 10, CHOICE, MEASURE, "heat exchanged by the film's outer face: 10 still air, more in wind") \
    F(reference_time_s, 10, 20000, 120, 1800, REQUIRED, GIVEN, MEASURE, "working (gel) time by the adhesive's data sheet, as a film") \
    F(reference_temperature_c, 0, 40, 20, 25, REQUIRED, GIVEN, MEASURE, "temperature at which the data sheet states it") \
    F(activation_energy_kj, 10, 90, 45, 62, 52, CHOICE, MEASURE, "how temperature speeds the cure: 52 doubles it in 10 C") \
    F(heat_j_g, 10, 600, 230, 330, 300, CHOICE, MEASURE, "heat of the whole cure: 577 J/g times the share of monomer") \
    F(density_g_ml, 0.7, 2.5, 0.95, 1.3, 1, CHOICE, MEASURE, "of the mixed adhesive")                                \
    F(initiation_fraction, 1e-5, 0.5, 0.003, 0.05, 0.01, CHOICE, MEASURE, "rate at the start, of the rate that cure itself adds") \
    F(gel_fraction, 0.01, 0.9, 0.05, 0.3, 0.1, CHOICE, MEASURE, "share cured when it no longer flows")               \
    F(final_fraction, 0.3, 1, 0.75, 0.85, 1, NEUTRAL, MEASURE, "share cured when the cure stops and gives no more heat") \
    F(film_conductivity_w_mk, 0.1, 1, 0.15, 0.3, 0.2, CHOICE, MEASURE, "of the adhesive")                            \
    F(horn_conductivity_w_mk, 0.1, 1, 0.2, 0.4, 0.25, CHOICE, MEASURE, "of the horn, square to the wall")            \
    F(film_capacity_mj_m3k, 1, 4, 1.6, 2.2, 1.9, CHOICE, MEASURE, "heat to warm a volume of adhesive")               \
    F(horn_capacity_mj_m3k, 1, 4.5, 2, 3, 2.4, CHOICE, MEASURE, "heat to warm a volume of horn")                     \
    F(body_c, 33, 42, 37, 38.5, 37, PRACTICE, MEASURE, "deep in the tissue")                                           \
    F(tissue_count, 0, 1, 0, 1, 0, CHOICE, WHOLE, "0: no heat passes the inner face, the hotter case; 1: it lies on living tissue") \
    F(tissue_mm, 1, 30, 3, 10, 5, CHOICE, MEASURE, "tissue until where the blood holds body_c")                      \
    F(tissue_conductivity_w_mk, 0.1, 2, 0.4, 0.6, 0.5, MEMORY, MEASURE, "of the tissue")                             \
    F(tissue_capacity_mj_m3k, 1, 4.5, 3.2, 4, 3.6, MEMORY, MEASURE, "heat to warm a volume of tissue")
#define OUTPUTS(F)                                                                                                   \
    F(film_peak_c, FINITE, "highest temperature in the film")                                                        \
    F(inner_peak_c, FINITE, "highest temperature of the horn's inner face")                                          \
    F(inner_peak_time_s, FINITE, "when it is reached; 21600 where it is still rising")                               \
    F(time_above_44_s, FINITE, "how long the inner face is hotter than 44 C")                                        \
    F(burn_damage_ratio, FINITE, "harm to what lies at the inner face, over the threshold of a burn")                \
    F(film_gel_time_s, INFINITE, "until the film on this horn no longer flows")
#define REFUSALS(R)                                                                                                  \
    R(gel_fraction, IN(final_fraction), "the adhesive must gel before its cure stops")                               \
    R(heat_j_g, IN(film_capacity_mj_m3k),                                                                            \
      "without any loss the film would warm by more than 250 C: check heat_j_g, density_g_ml and film_capacity_mj_m3k")
#define CAUTIONS(C)                                                                                                  \
    C(STOP, inner_hot, OUT(inner_peak_c), 1, NO_FIELD, 0, ABOVE, 49, NO_GUARD,                                       \
      "the inner face of the horn passes 49 C: build the adhesive in thin layers, and let each cool")                \
    C(STOP, burns, OUT(burn_damage_ratio), 1, NO_FIELD, 0, ABOVE, 0.9999999999999999, NO_GUARD,                                    \
      "heat enough to burn living skin: build the adhesive in thin layers, and let each cool")                       \
    C(WARN, inner_warm, OUT(inner_peak_c), 1, NO_FIELD, 0, ABOVE, 44, NO_GUARD,                                      \
      "the inner face of the horn passes 44 C, where harm begins: a thinner film, or cooler adhesive")                \
    C(NOTE, boils, OUT(film_peak_c), 1, NO_FIELD, 0, ABOVE, 100, NO_GUARD,                                           \
      "the film is hot enough for its monomer to boil: it foams, and a real peak is lower")                          \
    C(NOTE, slow, OUT(film_gel_time_s), 1, NO_FIELD, 0, ABOVE, 21600, NO_GUARD,                                      \
      "the film does not gel in the six hours that are followed")                                                    \
    C(NOTE, start_unit, IN(start_c), 1, NO_FIELD, 0, ABOVE, 40, NO_GUARD,                                            \
      "hotter than adhesive is kept: is this Fahrenheit?")                                                           \
    C(NOTE, horn_unit, IN(horn_c), 1, NO_FIELD, 0, ABOVE, 40, NO_GUARD,                                              \
      "hotter than a hoof: is this Fahrenheit?")                                                                     \
    C(NOTE, ambient_unit, IN(ambient_c), 1, NO_FIELD, 0, ABOVE, 40, NO_GUARD,                                        \
      "hotter than any barn: is this Fahrenheit?")
#define STANDING(S)                                                                                                  \
    S("The limits are those of human and pig skin; none is known for the living tissue under horn.")                 \
    S("Conduction square to the wall alone: edges are cooler, and filled gaps and thick places hotter than this film.") \
    S("The results depend on the heat and the kinetics of the adhesive more than on anything else: feel the wall as it sets.")

#define SERIAL

#define FILM_CELLS 40
#define HORN_CELLS 24
#define TISSUE_CELLS 12

static ung_wall_heat_out formula(const ung_wall_heat_in *in, double *refusal)
{
    ung_wall_heat_out out = {0};
    double rise = in->heat_j_g * in->density_g_ml / in->film_capacity_mj_m3k;
    *refusal = in->gel_fraction >= in->final_fraction ? 1 : rise > 250 ? 2 : 0;
    if (*refusal != 0)
        return out;
    double i = in->initiation_fraction, gel = in->gel_fraction;
    ung__wall_case c = {
        .layer = {{in->adhesive_mm / 1e3, in->film_conductivity_w_mk, in->film_capacity_mj_m3k * 1e6, FILM_CELLS},
                  {in->horn_mm / 1e3, in->horn_conductivity_w_mk, in->horn_capacity_mj_m3k * 1e6, HORN_CELLS},
                  {in->tissue_mm / 1e3, in->tissue_conductivity_w_mk, in->tissue_capacity_mj_m3k * 1e6,
                   in->tissue_count > 0.5 ? TISSUE_CELLS : 0}},
        .exchange = in->exchange_w_m2k,
        .ambient = in->ambient_c,
        .body = in->body_c,
        .start = in->start_c,
        .horn = in->horn_c,
        .rise = rise,
        .rate = ung__log((i + gel) / (i * (1 - gel))) / ((1 + i) * in->reference_time_s),
        .energy = in->activation_energy_kj * 1e3 / 8.31446261815324,
        .reference = in->reference_temperature_c + 273.15,
        .initiation = i,
        .gel = gel,
        .final = in->final_fraction,
        .tolerance = 0.01,
    };
    const ung__wall_course course = ung__wall_run(&c);
    out.film_peak_c = course.film_peak;
    out.inner_peak_c = course.inner_peak;
    out.inner_peak_time_s = course.inner_peak_time;
    out.time_above_44_s = course.above;
    out.burn_damage_ratio = course.damage;
    out.film_gel_time_s = course.gel;
    return out;
}

#include "core/define.h"
