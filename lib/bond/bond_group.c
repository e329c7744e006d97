/* Bonded patches under an eccentric load: the elastic vector method with areas as weights. */
#include <ungula/bond.h>

#include "core/contract.h"

#define NAME bond_group
#define ROOM bond
#define TITLE "shear in bonded patches under an eccentric load"
#define ABOUT                                                                                                        \
    "Patches of adhesive that share a load which does not pass through their common middle. The load is the same as " \
    "one through the middle and a turning moment M; stiff parts turn about the middle, so the shear that M makes "   \
    "grows with the distance from it.\n"                                                                             \
    "\n"                                                                                                             \
    "    A = sum of areas, (xc, yc) = area centroid\n"                                                               \
    "    J = sum of area ((x - xc)^2 + (y - yc)^2) + own moments\n"                                                  \
    "    M = load_y (at_x - xc) - load_x (at_y - yc)\n"                                                              \
    "    shear_x = load_x/A - M (y - yc)/J,  shear_y = load_y/A + M (x - xc)/J\n"                                    \
    "\n"                                                                                                             \
    "Stresses are at the middle of each patch; a long patch is given in several pieces, or with its own polar moment. " \
    "group_factor is the worst stress over the mean."
#define ACCURACY "Relative error below 1e-12 for groups near the origin (sums of products)."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "Bhandari VB. Design of Machine Elements, Example 8.10 (weld lines in a C, printed throat 20.186421 mm)", \
      "the method, and a check value")                                                                               \
    S(CHOICE, "Rigid members: shear proportional to the distance from the middle", "on the safe side for the farthest patch") \
    S(CHOICE, "Patches within a thousandth of a millimeter cannot resist turning", "the refusal")
#define INPUTS(F)                                                                                                    \
    F(load_x_n, -40000, 40000, 0, 2000, REQUIRED, GIVEN, MEASURE, "load along x")                              \
    F(load_y_n, -40000, 40000, 0, 2000, REQUIRED, GIVEN, MEASURE, "load along y")                              \
    F(at_x_mm, -2000, 2000, -100, 100, REQUIRED, GIVEN, MEASURE, "where the load acts")                            \
    F(at_y_mm, -2000, 2000, -100, 100, REQUIRED, GIVEN, MEASURE, "where the load acts")
#define OUTPUTS(F)                                                                                                   \
    F(total_area_mm2, FINITE, "bonded area")                                                                         \
    F(centroid_x_mm, FINITE, "middle of the group")                                                                  \
    F(centroid_y_mm, FINITE, "middle of the group")                                                                  \
    F(polar_moment_mm4, FINITE, "polar second moment about the middle")                                              \
    F(moment_n_mm, FINITE, "turning moment of the load about the middle, counterclockwise")                          \
    F(mean_mpa, FINITE, "load over area")                                                                            \
    F(worst_mpa, FINITE, "largest shear stress")                                                                     \
    F(worst_row_count, FINITE, "number of the patch that carries it, from 1; 0 without load")                                           \
    F(group_factor_ratio, FINITE, "worst over mean; 1 without load")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(NOTE, uneven, OUT(group_factor_ratio), 1, NO_FIELD, 0, ABOVE, 2, NO_GUARD,                                     \
      "the worst patch carries more than twice the mean: the load passes far from the middle of the bond")
#define STANDING(S) S("Peel is not covered; where the load lifts an edge, the bond gives earlier than this says.")
#define PATCH_FIELDS(F, type)                                                                                        \
    F(type, x_mm, -10000, 10000, "middle of the patch")                                                              \
    F(type, y_mm, -10000, 10000, "middle of the patch")                                                              \
    F(type, area_mm2, 1e-3, 1e6, "its area")                                                                         \
    F(type, own_moment_mm4, 0, 1e12, "polar second moment about its own middle; 0 where it is small")
#define STRESS_FIELDS(F, type)                                                                                       \
    F(type, shear_x_mpa, -1e9, 1e9, "shear along x")                                                                 \
    F(type, shear_y_mpa, -1e9, 1e9, "shear along y")                                                                 \
    F(type, shear_mpa, 0, 1e9, "resultant")
#define LISTS(L)                                                                                                     \
    L(GIVEN, patches, ung_patch, 1, 100000, NO_FIELD, PATCH_FIELDS, "the bonded patches")                            \
    L(FILLED, stresses, ung_patch_stress, 1, 100000, 0, STRESS_FIELDS, "shear stress of each")
#define LIST_REFUSALS(R) R(0, "one small patch cannot carry a moment: give its own_moment_mm4, or more patches")

UNG_INLINE ung_bond_group_out formula(const ung_bond_group_in *in, const ung_rows *rows, ung__where *where)
{
    const ung_patch *patch = (const ung_patch *)rows[0].data;
    ung_patch_stress *stress = (ung_patch_stress *)rows[1].data;
    size_t n = rows[0].count;
    ung_bond_group_out out = {0};
    double sx = 0, sy = 0;
    for (size_t i = 0; i < n; i++) {
        out.total_area_mm2 += patch[i].area_mm2;
        sx += patch[i].area_mm2 * patch[i].x_mm;
        sy += patch[i].area_mm2 * patch[i].y_mm;
    }
    double area = out.total_area_mm2, xc = sx / area, yc = sy / area;
    for (size_t i = 0; i < n; i++) {
        double dx = patch[i].x_mm - xc, dy = patch[i].y_mm - yc;
        out.polar_moment_mm4 += patch[i].area_mm2 * (dx * dx + dy * dy) + patch[i].own_moment_mm4;
    }
    out.centroid_x_mm = xc;
    out.centroid_y_mm = yc;
    out.moment_n_mm = in->load_y_n * (in->at_x_mm - xc) - in->load_x_n * (in->at_y_mm - yc);
    int stiff = out.polar_moment_mm4 > 1e-6 * area; /* mean square radius of 0.001 mm */
    where->refusal = stiff || out.moment_n_mm == 0 ? 0 : 1;
    double turn = stiff ? out.moment_n_mm / out.polar_moment_mm4 : 0;
    double load = ung__sqrt(in->load_x_n * in->load_x_n + in->load_y_n * in->load_y_n);
    out.mean_mpa = load / area;
    for (size_t i = 0; i < n; i++) {
        double x = in->load_x_n / area - turn * (patch[i].y_mm - yc), y = in->load_y_n / area + turn * (patch[i].x_mm - xc);
        stress[i].shear_x_mpa = x;
        stress[i].shear_y_mpa = y;
        stress[i].shear_mpa = ung__sqrt(x * x + y * y);
        if (stress[i].shear_mpa > out.worst_mpa) {
            out.worst_mpa = stress[i].shear_mpa;
            out.worst_row_count = (double)i + 1;
        }
    }
    out.group_factor_ratio = out.mean_mpa > 0 ? out.worst_mpa / out.mean_mpa : 1;
    return out;
}

#include "core/define.h"
