/* A load off the center of a group of screws: the force on each. */
#include <ungula/screw.h>

#include "core/contract.h"

#define NAME screw_group
#define ROOM screw
#define TITLE "how a load off the center of a group of screws spreads over them"
#define ABOUT                                                                                                        \
    "A load in the plane of the shoe that does not pass through the center of the screws turns the shoe about it, " \
    "and the screws far from the center carry more than their share. Elastic vector method: the shoe is rigid, and " \
    "each screw yields in proportion to its force (k: stiffness_ratio, all 1 for screws that are alike).\n"          \
    "\n"                                                                                                             \
    "    centroid = sum of k position/sum of k;  polar = sum of k r^2, r from the centroid\n"                        \
    "    moment = (at - centroid) x load\n"                                                                          \
    "    force_x = k (load_x/sum of k - moment y/polar);  force_y = k (load_y/sum of k + moment x/polar)\n"          \
    "    force = sqrt(force_x^2 + force_y^2);  worst = the greatest;  mean = load/number of screws\n"                \
    "    group_factor = worst/mean, 1 without load\n"                                                                \
    "\n"                                                                                                             \
    "The forces add up to the load, and their moments to its moment. worst_row_count numbers the screws from 1; of " \
    "equals it is the first.\n"                                                                                      \
    "\n"                                                                                                             \
    "The instantaneous center method, which lets bolts slip by a curve measured on steel bolts in steel plates, is "  \
    "out of scope: there is no such curve for screws in horn. Where its coefficients are printed, the elastic shares " \
    "are on the safe side."
#define ACCURACY                                                                                                     \
    "Forces: error below 1e-13 of the greatest force, for a load's point no farther from the first screw than a hundred " \
    "times the screws' spread (sums in the order of the list, positions from the first screw)."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "Budynas RG, Nisbett JK. Shigley's mechanical engineering design, 9th ed. 2011, Eq. 8-57",           \
      "direct and turning shares of an eccentric load")                                                              \
    S(PUBLISHED, "Crawford SF, Kulak GL 1971. J Struct Div ASCE, doi 10.1061/JSDEAG.0002844", "the instantaneous center method, not used") \
    S(CHOICE, "Screws nearer together than a thousandth of a millimeter cannot resist turning", "the refusal")      \
    S(CHOICE, "Twice the equal share", "uneven")
#define INPUTS(F)                                                                                                    \
    F(load_x_n, -40000, 40000, 0, 2000, REQUIRED, GIVEN, MEASURE, "load along x")                                    \
    F(load_y_n, -40000, 40000, 0, 2000, REQUIRED, GIVEN, MEASURE, "load along y")                                    \
    F(at_x_mm, -2000, 2000, -100, 100, REQUIRED, GIVEN, MEASURE, "x of a point on the load's line")                  \
    F(at_y_mm, -2000, 2000, -100, 100, REQUIRED, GIVEN, MEASURE, "y of a point on the load's line")
#define OUTPUTS(F)                                                                                                   \
    F(centroid_x_mm, FINITE, "x of the screws' center, weighted by stiffness")                                       \
    F(centroid_y_mm, FINITE, "y of the screws' center, weighted by stiffness")                                       \
    F(polar_mm2, FINITE, "polar moment of the screws about it")                                                      \
    F(moment_n_mm, FINITE, "moment of the load about it, from x to y")                                               \
    F(worst_n, FINITE, "greatest force on one screw")                                                                \
    F(worst_row_count, FINITE, "number of that screw, from 1")                                                       \
    F(mean_n, FINITE, "load over the number of screws: the force on each if they shared equally")                    \
    F(group_factor_ratio, FINITE, "greatest force over the equal share")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(WARN, uneven, OUT(group_factor_ratio), 1, NO_FIELD, 0, ABOVE, 2, NO_GUARD,                                     \
      "one screw carries more than twice its share: spread the screws, or bring them nearer to the load's line")
#define STANDING(S)                                                                                                  \
    S("Elastic: screws that slip in horn share more evenly, screws that one after another tear out do not share at all.")
#define SPOT_FIELDS(F, type)                                                                                         \
    F(type, x_mm, -1000, 1000, "place of the screw in the shoe's plane")                                             \
    F(type, y_mm, -1000, 1000, "place of the screw in the shoe's plane")                                             \
    F(type, stiffness_ratio, 0.001, 1000, "against the other screws; 1 where all are alike")
#define FORCE_FIELDS(F, type)                                                                                        \
    F(type, force_x_n, -1e9, 1e9, "share of the load that this screw carries, along x")                              \
    F(type, force_y_n, -1e9, 1e9, "share of the load that this screw carries, along y")                              \
    F(type, force_n, 0, 1e9, "size of it")
#define LISTS(L)                                                                                                     \
    L(GIVEN, screws, ung_screw_spot, 1, 1000, NO_FIELD, SPOT_FIELDS, "places of the screws")                         \
    L(FILLED, forces, ung_screw_force, 1, 1000, 0, FORCE_FIELDS, "force on each screw")
#define LIST_REFUSALS(R) R(0, "all screws are at one place, where they cannot resist the moment of a load beside it")

UNG_INLINE ung_screw_group_out formula(const ung_screw_group_in *in, const ung_rows *rows, ung__where *where)
{
    const ung_screw_spot *screw = (const ung_screw_spot *)rows[0].data;
    ung_screw_force *force = (ung_screw_force *)rows[1].data;
    size_t n = rows[0].count;
    double x0 = screw[0].x_mm, y0 = screw[0].y_mm; /* positions from the first: exact where all are at one place */
    double stiff = 0, x = 0, y = 0, polar = 0;
    for (size_t i = 0; i < n; i++) {
        double k = screw[i].stiffness_ratio;
        stiff += k;
        x += k * (screw[i].x_mm - x0);
        y += k * (screw[i].y_mm - y0);
    }
    x = x / stiff;
    y = y / stiff;
    for (size_t i = 0; i < n; i++) {
        double dx = screw[i].x_mm - x0 - x, dy = screw[i].y_mm - y0 - y;
        polar += screw[i].stiffness_ratio * (dx * dx + dy * dy);
    }
    double moment = (in->at_x_mm - x0 - x) * in->load_y_n - (in->at_y_mm - y0 - y) * in->load_x_n;
    int together = polar <= 1e-6 * stiff; /* mean square radius of 0.001 mm */
    double turn = together ? 0 : moment / polar;

    ung_screw_group_out out = {0};
    where->refusal = together && moment != 0 ? 1 : 0;
    if (where->refusal != 0)
        return out;
    for (size_t i = 0; i < n; i++) {
        double k = screw[i].stiffness_ratio;
        double dx = screw[i].x_mm - x0 - x, dy = screw[i].y_mm - y0 - y;
        force[i].force_x_n = k * (in->load_x_n / stiff - turn * dy);
        force[i].force_y_n = k * (in->load_y_n / stiff + turn * dx);
        force[i].force_n = ung__hypot(force[i].force_x_n, force[i].force_y_n);
        int worse = i == 0 || force[i].force_n > out.worst_n;
        out.worst_row_count = worse ? (double)(i + 1) : out.worst_row_count;
        out.worst_n = worse ? force[i].force_n : out.worst_n;
    }
    out.centroid_x_mm = x0 + x;
    out.centroid_y_mm = y0 + y;
    out.polar_mm2 = polar;
    out.moment_n_mm = moment;
    out.mean_n = ung__hypot(in->load_x_n, in->load_y_n) / (double)n;
    out.group_factor_ratio = out.mean_n > 0 ? out.worst_n / out.mean_n : 1;
    return out;
}

#include "core/define.h"
