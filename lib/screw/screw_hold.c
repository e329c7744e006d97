/* What one screw between horn and wood carries, along its axis and sideways. */
#include <ungula/screw.h>

#include "core/contract.h"
#include "screw/yield.h"

#define NAME screw_hold
#define ROOM screw
#define TITLE "strength of one screw between horn and wood, along its axis and sideways"
#define ABOUT                                                                                                        \
    "What one screw carries, by the forms that are published for wood screws, with the horn's strengths given by "  \
    "the caller: no strength of hoof horn against a screw is published. point_member_count says where the point "   \
    "is: 1 in the horn (driven from the shoe, screw_depth), 2 in the wood (driven through the wall, screw_through). " \
    "The member with the point is the main member m, the one under the head the side member s.\n"                    \
    "\n"                                                                                                             \
    "Along the axis (D outside of the thread, D_r root, D_h head, p pitch, G wood gravity, t wood under the head; "  \
    "N, mm, MPa; the point, 2 D long, holds nothing):\n"                                                             \
    "\n"                                                                                                             \
    "    tsf = 0.5 + 0.57735 (D - D_r)/(2 p)\n"                                                                      \
    "    point in the horn\n"                                                                                        \
    "      thread_ultimate = horn_shear pi D max(0, horn_length - 2 D) tsf\n"                                        \
    "      head_design = 4.75738 pi D_h G^2 min(t, 2.5 D_h)\n"                                                       \
    "    point in the wood\n"                                                                                        \
    "      thread_ultimate = 108.25 G^2 D max(0, wood_length - 2 D)\n"                                               \
    "      head_ultimate = horn_shear pi D_h horn_length    (a plug of horn)\n"                                      \
    "    ultimate = design axial_factor, for thread and head alike\n"                                                \
    "    axial = the lesser of thread and head\n"                                                                    \
    "\n"                                                                                                             \
    "Sideways, the least of six yield modes (F_m, F_s bearing strengths, L_m = max(0, point's length - D), L_s the " \
    "other length, F_yb = yield):\n"                                                                                 \
    "\n"                                                                                                             \
    "    F of wood = 114.45297 G^1.84;  F of horn = horn_bearing;  R = F_m/F_s, S = L_m/L_s\n"                       \
    "    Im = D_r L_m F_m;  Is = D_r L_s F_s\n"                                                                      \
    "    II = D_r L_s F_s (sqrt(R + 2 R^2 (1 + S + S^2) + S^2 R^3) - R (1 + S))/(1 + R)\n"                           \
    "    IIIm = D_r L_m F_m/(1 + 2 R) (sqrt(2 (1 + R) + 2 F_yb (1 + 2 R) D_r^2/(3 F_m L_m^2)) - 1)\n"                \
    "    IIIs = D_r L_s F_m/(2 + R) (sqrt(2 (1 + R)/R + 2 F_yb (2 + R) D_r^2/(3 F_m L_s^2)) - 1)\n"                  \
    "    IV = D_r^2 sqrt(2 F_m F_yb/(3 (1 + R)))\n"                                                                  \
    "    lateral_yield = the least;  lateral_factor = 2.2 up to a root of 4.318 mm, D_r/2.54 + 0.5 above\n"          \
    "    lateral_design = lateral_yield/lateral_factor\n"                                                            \
    "\n"                                                                                                             \
    "governing_mode_count numbers them 1 Im, 2 Is, 3 II, 4 IIIm, 5 IIIs, 6 IV. Yield and ultimate loads say when "  \
    "it fails, design loads what may be counted on; only screw_combined joins the two directions, on the design "   \
    "pair. wanted_axial and wanted_lateral are design loads: the use ratios compare them with what is there, and "  \
    "horn_shear_needed and horn_bearing_needed are the least strengths of horn with which they are carried, "       \
    "infinite where wood or screw gives way first whatever the horn is."
#define ACCURACY                                                                                                     \
    "Loads and use ratios: relative error below 5e-15. With a needed strength put in, the use ratio is 1 within 1e-12 " \
    "(closed forms, no search)."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "ANSI/AWC NDS-2018, Tables 12.3.1A and B, 12.3.3 and 12.3.5.3", "yield modes, bearing strength of wood, length of the point") \
    S(PUBLISHED, "ANSI/AWC NDS-2018, Eq. 12.2-6a and b", "pull-through of a head in wood (round heads, 8 to 38 mm of wood)") \
    S(PUBLISHED, "ANSI/AWC NDS-2018, Table I1", "bending yield strength 620.5 MPa (90 000 psi) for diameters of 3.6 to 4.5 mm") \
    S(PUBLISHED, "Rammer DR 2010. Fastenings. Wood handbook, FPL-GTR-190, ch. 8, Eq. 8-10",                          \
      "withdrawal of wood screws from side grain, ultimate")                                                         \
    S(CHOICE, "Wood handbook 15 700 over NDS-2018 Eq. 12.2-2 2850, the same form: 5.5088",                           \
      "axial_factor, ultimate over design, used for horn too")                                                       \
    S(MEMORY, "EN 1995-1-1:2004 + A1:2008, 8.7.2: root 0.6 to 0.75 of the thread", "slender_root")                  \
    S(PUBLISHED, "ANSI/AWC NDS-2018, Table L3: roots 0.79 to 0.82 of the thread", "thick_root")                       \
    S(MEMORY, "AWC Technical Report 12, general dowel equations", "the form in which the yield modes are computed and solved") \
    S(MEMORY, "Chapman JR et al. 1996; ASTM F543, annex", "thread shape factor, for screws in soft materials")      \
    S(CHOICE, "A cylinder of horn as wide as the head and as long as the horn under it", "plug")                    \
    S(PUBLISHED, "Ahn, Pang, Oh 2021. J Korean Wood Sci Technol 49(1):93", "the NDS form over-predicts withdrawal from plywood")
#define INPUTS(F)                                                                                                    \
    F(point_member_count, 1, 2, 1, 2, REQUIRED, GIVEN, WHOLE, "1: the point is in the horn; 2: in the wood")        \
    F(screw_diameter_mm, 1.5, 10, 3.5, 5.5, REQUIRED, GIVEN, MEASURE, "outside of the thread")                       \
    F(root_diameter_mm, 1, 9, 2.4, 4, REQUIRED, GIVEN, MEASURE, "bottom of the thread")                              \
    F(pitch_mm, 0.4, 5, 1.2, 2.6, REQUIRED, GIVEN, MEASURE, "from thread to thread")                                 \
    F(head_diameter_mm, 2, 25, 6, 11, REQUIRED, GIVEN, MEASURE, "outside of the head")                               \
    F(horn_length_mm, 0, 60, 6, 25, REQUIRED, GIVEN, MEASURE, "screw in the horn: embedded_mm of screw_depth, grip_mm of screw_through") \
    F(wood_length_mm, 0, 150, 12, 35, REQUIRED, GIVEN, MEASURE, "screw in the wood, from under the head or to the tip") \
    F(horn_shear_mpa, 0.5, 60, 5, 15, REQUIRED, GIVEN, MEASURE, "shear strength of the horn round the thread or head; no published value") \
    F(horn_bearing_mpa, 1, 150, 10, 40, REQUIRED, GIVEN, MEASURE, "bearing strength of the horn under the screw; no published value") \
    F(wood_gravity_ratio, 0.3, 0.8, 0.4, 0.65, 0.5, PUBLISHED, MEASURE, "specific gravity (wood_species); 0.5 for structural plywood") \
    F(yield_mpa, 100, 1500, 480, 690, 620.5, PUBLISHED, MEASURE, "bending yield strength of the screw")              \
    F(axial_factor_ratio, 1, 20, 3, 6, 5.508771929824562, CHOICE, MEASURE, "ultimate over design load along the axis") \
    F(wanted_axial_n, 0, 20000, 0, 2000, 0, NEUTRAL, MEASURE, "load along the axis that one screw should carry; 0 = not asked") \
    F(wanted_lateral_n, 0, 20000, 0, 2000, 0, NEUTRAL, MEASURE, "sideways load that one screw should carry; 0 = not asked")
#define OUTPUTS(F)                                                                                                   \
    F(tsf_ratio, FINITE, "thread shape factor")                                                                      \
    F(thread_ultimate_n, FINITE, "what strips the thread out of the member that holds the point")                    \
    F(thread_design_n, FINITE, "of which may be counted on")                                                         \
    F(head_ultimate_n, FINITE, "what pulls the head through the other member")                                       \
    F(head_design_n, FINITE, "of which may be counted on")                                                           \
    F(axial_ultimate_n, FINITE, "what the screw breaks loose at along its axis")                                     \
    F(axial_design_n, FINITE, "load along its axis that may be counted on")                                          \
    F(bearing_length_mm, FINITE, "length that bears sideways in the member that holds the point")                    \
    F(yield_im_n, FINITE, "mode Im: the member with the point crushes")                                              \
    F(yield_is_n, FINITE, "mode Is: the member under the head crushes")                                              \
    F(yield_ii_n, FINITE, "mode II: the straight screw turns in both")                                               \
    F(yield_iiim_n, FINITE, "mode IIIm: the screw bends in the side member and turns in the main one")               \
    F(yield_iiis_n, FINITE, "mode IIIs: the screw bends in the main member and turns in the side one")               \
    F(yield_iv_n, FINITE, "mode IV: the screw bends in both")                                                        \
    F(lateral_yield_n, FINITE, "sideways load at which the screw yields: the least of the modes")                    \
    F(governing_mode_count, FINITE, "the mode that is least: 1 Im, 2 Is, 3 II, 4 IIIm, 5 IIIs, 6 IV")                \
    F(lateral_factor_ratio, FINITE, "yield over design load sideways")                                               \
    F(lateral_design_n, FINITE, "sideways load that may be counted on")                                              \
    F(axial_use_ratio, INFINITE, "wanted_axial over axial_design")                                                   \
    F(lateral_use_ratio, INFINITE, "wanted_lateral over lateral_design")                                             \
    F(horn_shear_needed_mpa, INFINITE, "least shear strength of horn that carries wanted_axial; infinite: none does") \
    F(horn_bearing_needed_mpa, INFINITE, "least bearing strength of horn that carries wanted_lateral; infinite: none does")
#define REFUSALS(R)                                                                                                  \
    R(root_diameter_mm, IN(screw_diameter_mm), "the root must be thinner than the outside of the thread")            \
    R(root_diameter_mm, NO_FIELD, "the rule from yield to design load ends at a root of 6.35 mm")
#define CAUTIONS(C)                                                                                                  \
    C(WARN, no_axial, OUT(axial_ultimate_n), 1, NO_FIELD, 0, EQUAL, 0, NO_GUARD,                                     \
      "nothing holds along the axis: no thread behind the point, or no length under the head")                       \
    C(WARN, over_axial, OUT(axial_use_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                                    \
      "the load wanted along the axis is more than may be counted on")                                               \
    C(WARN, over_lateral, OUT(lateral_use_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                                \
      "the sideways load wanted is more than may be counted on")                                                     \
    C(WARN, short_point, OUT(bearing_length_mm), 1, IN(screw_diameter_mm), -5, BELOW, 0, NO_GUARD,                   \
      "the point reaches less than six diameters into its member: extrapolated below every published rule for wood") \
    C(NOTE, thin_wood, IN(wood_length_mm), 1, NO_FIELD, 0, BELOW, 7.9375, IN(point_member_count), EQUAL, 1,          \
      "pull-through of a head is tabulated from 5/16 in (8 mm) of wood on: for thinner wood the form is extrapolated") \
    C(NOTE, thick_wood, IN(wood_length_mm), 1, NO_FIELD, 0, ABOVE, 38.1, IN(point_member_count), EQUAL, 1,           \
      "pull-through of a head is tabulated up to 1 1/2 in (38 mm) of wood: for thicker wood the form is extrapolated") \
    C(NOTE, thin_screw, IN(screw_diameter_mm), 1, NO_FIELD, 0, BELOW, 3.5, NO_GUARD,                                 \
      "thinner than the screws of 3.5 to 9.5 mm that the formulas were fitted to")                                   \
    C(NOTE, thick_screw, IN(screw_diameter_mm), 1, NO_FIELD, 0, ABOVE, 9.5, NO_GUARD,                                \
      "thicker than the screws of 3.5 to 9.5 mm that the formulas were fitted to")                                   \
    C(NOTE, slender_root, IN(root_diameter_mm), 1, IN(screw_diameter_mm), -0.6, BELOW, 0, NO_GUARD,                  \
      "the root is under 0.6 of the thread, less than withdrawal rules for screws cover")                            \
    C(NOTE, thick_root, IN(root_diameter_mm), 1, IN(screw_diameter_mm), -0.825, ABOVE, 0, NO_GUARD,                  \
      "the root is over 0.825 of the thread, more than that of any wood screw in the tables")                        \
    C(NOTE, horn_thread_governs, OUT(thread_ultimate_n), 1, OUT(head_ultimate_n), -1, BELOW, 0, IN(point_member_count), EQUAL, 1, \
      "the hold along the axis is governed by the horn's shear strength that was given, for which there is no published value") \
    C(NOTE, horn_plug_governs, OUT(head_ultimate_n), 1, OUT(thread_ultimate_n), -1, BELOW, 0, IN(point_member_count), EQUAL, 2, \
      "the hold along the axis is governed by the horn's shear strength that was given, for which there is no published value")
#define STANDING(S)                                                                                                  \
    S("All these formulas were fitted to wood, to screws of 3.5 to 9.5 mm and at least six diameters of embedment; for horn they are forms to calculate by, not evidence.") \
    S("Every result is governed by the horn strengths that were given: test your own horn and screws.")              \
    S("Withdrawal from plywood is over-predicted; from end grain three quarters at most.")                           \
    S("The screw's own tension, splitting, and loosening under repeated load are not counted.")

UNG_INLINE ung_screw_hold_out formula(const ung_screw_hold_in *in, double *refusal)
{
    const double pi = 3.14159265358979323846;
    double d = in->screw_diameter_mm, root = in->root_diameter_mm, head = in->head_diameter_mm;
    double horn = in->horn_length_mm, wood = in->wood_length_mm, g = in->wood_gravity_ratio, factor = in->axial_factor_ratio;
    double in_horn = in->point_member_count == 1 ? 1 : 0;

    /* Along the axis.  690 psi in MPa, to 2.5 head diameters of wood; pounds and inches as in the standard. */
    double tsf = 0.5 + 0.57735 * (d - root) / (2 * in->pitch_mm);
    double horn_area = pi * d * ung__max(horn - 2 * d, 0) * tsf, plug_area = pi * head * horn;
    double shear_area = in_horn != 0 ? horn_area : plug_area;
    double horn_ultimate = in->horn_shear_mpa * shear_area;
    double through = 4.75738253228617 * pi * head * g * g * ung__min(wood, 2.5 * head);
    double withdrawal = 108.25 * g * g * d * ung__max(wood - 2 * d, 0);
    double wood_ultimate = in_horn != 0 ? through * factor : withdrawal;
    double wood_design = in_horn != 0 ? through : withdrawal / factor;
    double horn_design = horn_ultimate / factor;

    /* Sideways.  16 600 psi in MPa. */
    double wood_q = root * (114.4529710665948 * ung__pow(g, 1.84)), horn_q = root * in->horn_bearing_mpa;
    double moment = in->yield_mpa * root * root * root / 6;
    double bearing = ung__max((in_horn != 0 ? horn : wood) - d, 0), side = in_horn != 0 ? wood : horn;
    double q_m = in_horn != 0 ? horn_q : wood_q, q_s = in_horn != 0 ? wood_q : horn_q;
    ung__yield y = ung__yield_of(q_m, bearing, q_s, side, moment);
    double lateral_factor = ung__yield_factor(root), lateral = y.least / lateral_factor;

    /* What is wanted; a load above 0 over no strength or no area is infinite. */
    double wanted = in->wanted_axial_n, axial = ung__min(horn_design, wood_design);
    double shear_needed = wood_design >= wanted ? wanted * factor / shear_area : UNG__INFINITY;
    double sideways = in->wanted_lateral_n;
    double horn_side = in_horn != 0 ? bearing : side, wood_side = in_horn != 0 ? side : bearing;
    double q_needed = ung__bearing_needed(horn_side, wood_q, wood_side, moment, sideways * lateral_factor);

    *refusal = root >= d ? 1 : root > 6.35 ? 2 : 0;
    ung_screw_hold_out out;
    out.tsf_ratio = tsf;
    out.thread_ultimate_n = in_horn != 0 ? horn_ultimate : wood_ultimate;
    out.thread_design_n = in_horn != 0 ? horn_design : wood_design;
    out.head_ultimate_n = in_horn != 0 ? wood_ultimate : horn_ultimate;
    out.head_design_n = in_horn != 0 ? wood_design : horn_design;
    out.axial_ultimate_n = ung__min(horn_ultimate, wood_ultimate);
    out.axial_design_n = axial;
    out.bearing_length_mm = bearing;
    out.yield_im_n = y.im;
    out.yield_is_n = y.is;
    out.yield_ii_n = y.ii;
    out.yield_iiim_n = y.iiim;
    out.yield_iiis_n = y.iiis;
    out.yield_iv_n = y.iv;
    out.lateral_yield_n = y.least;
    out.governing_mode_count = y.mode;
    out.lateral_factor_ratio = lateral_factor;
    out.lateral_design_n = lateral;
    out.axial_use_ratio = wanted > 0 ? wanted / axial : 0;
    out.lateral_use_ratio = sideways > 0 ? sideways / lateral : 0;
    out.horn_shear_needed_mpa = wanted > 0 ? shear_needed : 0;
    out.horn_bearing_needed_mpa = sideways > 0 ? q_needed / root : 0;
    return out;
}

#include "core/define.h"
