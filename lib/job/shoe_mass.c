/* Mass of the shoe with screws, tape, adhesive and packing.
 *
 * The lower layer's side leans in by the bevel all round.  An outline moved in by d has the area A - P d + pi d^2
 * (Steiner, for a smooth convex outline and d below its least radius); the layer is the integral over its thickness.
 */
#include <ungula/job.h>

#include "core/contract.h"

#define NAME shoe_mass
#define ROOM job
#define TITLE "mass of the shoe with all that is on it"
#define ABOUT                                                                                                        \
    "The upper layer's side is upright, the lower layer's leans in by the bevel all round.\n"                        \
    "\n"                                                                                                             \
    "    upper = area upper_thickness\n"                                                                             \
    "    lower = area h - perimeter h^2 t/2 + pi h^3 t^2/3,  h = lower_thickness, t = tan(edge_bevel)\n"             \
    "    wood = upper + lower - removed\n"                                                                           \
    "    tape = tape_length tape_width tape_g_m2/1e6;  the others: volume times density\n"                           \
    "    percent_of_body_mass = total_g/(10 body_mass_kg)\n"                                                         \
    "\n"                                                                                                             \
    "Exact (Steiner's formula) for a smooth convex outline while h t stays below its least radius of curvature. "    \
    "Area and perimeter are of the shoe's upper face; those of the hoof (outline_standard) where the shoe does not " \
    "stand out. adhesive_ml, putty_ml and cushion_ml are net: what stays in the cup is not on the horse. removed_ml " \
    "is what the heel's bevel takes off (heel_bevel), all of it counted as wood. The two ratios are of masses, "     \
    "to the masses that published studies put on a leg, and say nothing of the size of an effect."
#define ACCURACY "Relative error of each mass below 2e-15, of wood as much of the sum of its parts; wood differs "   \
  "by a tenth."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Steiner's formula for parallel curves (any handbook of integral "                                     \
      "geometry)", "volume of the lower layer")                                                                      \
    S(PUBLISHED, "ANSI/AWC NDS-2018, Table 12.3.3B", "structural plywood: specific gravity 0.50")                    \
    S(CHOICE, "Specific gravity 0.50 and 12 percent of water: 0.56 g/mL", "density of wood")                         \
    S(MEMORY, "Wet casting tape 400 to 600 g/m2", "tape")                                                            \
    S(PRACTICE, "Common practice, no source", "a screw of 2.5 g; adhesive about as dense as water; tape two "        \
      "inches wide")                                                                                                 \
    S(MEMORY, "Filled silicone putty 1.5 to 1.7 g/mL, unfilled silicone about 1.1", "packing")                       \
    S(PUBLISHED, "Equine Vet J 2010, doi 10.1111/j.2042-3306.2010.00231.x (8 Icelandic horses)",                     \
      "280 g on each fore foot: higher flight arc at the toelt")                                                     \
    S(PUBLISHED, "Clayton HM et al. Swing-phase kinematic and kinetic response to weighting the hind pasterns. "     \
      "Equine Vet J (6 horses)",                                                                                     \
      "700 g on each hind pastern: higher flight arc, more work of the hip")                                         \
    S(PUBLISHED, "O'Grady SE, Steward ML, Parks AH 2007. Proc AAEP 53",                                              \
      "two layers of plywood, 6.4 to 9.5 and 19 mm, the lower one cut at 45 degrees all round")
#define INPUTS(F)                                                                                                    \
    F(ground_area_mm2, 1000, 60000, 8000, 12500, REQUIRED, GIVEN, MEASURE, "area of the shoe's upper face")          \
    F(perimeter_mm, 100, 2000, 400, 480, REQUIRED, GIVEN, MEASURE, "its perimeter")                                  \
    F(upper_thickness_mm, 0, 60, 6.4, 9.5, REQUIRED, GIVEN, MEASURE, "layer with an upright side")                   \
    F(lower_thickness_mm, 0, 60, 16, 25, REQUIRED, GIVEN, MEASURE, "layer with a leaning side")                      \
    F(edge_bevel_deg, 0, 60, 0, 45, 0, NEUTRAL, MEASURE, "how far its side leans in from upright")                   \
    F(removed_ml, 0, 500, 0, 20, 0, NEUTRAL, MEASURE, "taken off at the heel")                                       \
    F(wood_density_g_ml, 0.02, 1, 0.45, 0.76, 0.56, CHOICE, MEASURE, "wood, or the foam of a foam shoe")                                          \
    F(screw_count, 0, 20, 0, 8, REQUIRED, GIVEN, WHOLE, "screws that hold")                                          \
    F(screw_g, 0, 20, 1.5, 4, 2.5, PRACTICE, MEASURE, "mass of one screw")                                           \
    F(tape_length_mm, 0, 20000, 0, 6000, 0, NEUTRAL, MEASURE, "casting tape on the shoe")                            \
    F(tape_width_mm, 10, 200, 50, 102, 50.8, PRACTICE, MEASURE, "its width")                                         \
    F(tape_g_m2, 200, 900, 400, 600, 500, MEMORY, MEASURE, "its mass, wet")                                          \
    F(adhesive_ml, 0, 500, 0, 100, 0, NEUTRAL, MEASURE, "adhesive on the shoe, without waste")                       \
    F(adhesive_density_g_ml, 0.8, 2, 0.95, 1.1, 1, PRACTICE, MEASURE, "adhesive")                                    \
    F(putty_ml, 0, 1000, 0, 60, 0, NEUTRAL, MEASURE, "putty under the sole, without waste")                          \
    F(putty_density_g_ml, 0.2, 3, 1.5, 1.7, 1.6, MEMORY, MEASURE, "putty")                                           \
    F(cushion_ml, 0, 1000, 0, 60, 0, NEUTRAL, MEASURE, "cushion under the sole, without waste")                      \
    F(cushion_density_g_ml, 0.2, 3, 1, 1.2, 1.1, MEMORY, MEASURE, "cushion")                                         \
    F(body_mass_kg, 50, 1200, 350, 700, REQUIRED, GIVEN, MEASURE, "horse")
#define OUTPUTS(F)                                                                                                   \
    F(upper_ml, FINITE, "upper layer")                                                                               \
    F(lower_ml, FINITE, "lower layer")                                                                               \
    F(wood_ml, FINITE, "wood that is left")                                                                          \
    F(wood_g, FINITE, "its mass")                                                                                    \
    F(screws_g, FINITE, "all screws")                                                                                \
    F(tape_g, FINITE, "casting tape")                                                                                \
    F(adhesive_g, FINITE, "adhesive")                                                                                \
    F(packing_g, FINITE, "putty and cushion")                                                                        \
    F(total_g, FINITE, "all together")                                                                               \
    F(percent_of_body_mass, FINITE, "share of the horse's mass")                                                     \
    F(multiple_of_280_g_ratio, FINITE, "over the 280 g of a published study")                                        \
    F(multiple_of_700_g_ratio, FINITE, "over the 700 g of a published study")
#define REFUSALS(R)                                                                                                  \
    R(ground_area_mm2, IN(perimeter_mm), "no outline of this perimeter encloses so much: a circle encloses the most") \
    R(lower_thickness_mm, IN(edge_bevel_deg), "the bevel leaves no ground face, or reaches past the outline's "      \
      "mean radius")                                                                                                 \
    R(removed_ml, NO_FIELD, "more is taken off than there is")
#define CAUTIONS(C)                                                                                                  \
    C(WARN, heavy, OUT(total_g), 1, NO_FIELD, 0, ABOVE, 700, NO_GUARD,                                               \
      "more than the 700 g that changed how horses move their hind legs")
#define STANDING(S)                                                                                                  \
    S("Mass on the hoof changes the flight of the foot and the work of the leg; how much for this horse no mass "    \
      "can tell: see it move.")                                                                                      \
    S("Weigh the finished shoe: plywood differs by a tenth and more, and takes up water.")

UNG_INLINE ung_shoe_mass_out formula(const ung_shoe_mass_in *in, double *refusal)
{
    const double pi = 3.141592653589793;
    double area = in->ground_area_mm2, around = in->perimeter_mm, h = in->lower_thickness_mm;
    double inset = h * ung__tan_deg(in->edge_bevel_deg); /* of the ground face */
    double upper = area * in->upper_thickness_mm / 1000;
    double lower = h * (area - inset * (around / 2 - pi * inset / 3)) / 1000;
    double face = area - inset * (around - pi * inset), past = around - 2 * pi * inset;
    double wood = upper + lower - in->removed_ml;
    double most = around * around / (4 * pi) * (1 + 1e-9); /* a circle's, given in rounded numbers */
    double left = ung__min(face, past); /* 0 and less: the sides have met */

    *refusal = area > most ? 1 : left <= 0 ? 2 : wood < 0 ? 3 : 0;
    ung_shoe_mass_out out;
    out.upper_ml = upper;
    out.lower_ml = lower;
    out.wood_ml = wood;
    out.wood_g = wood * in->wood_density_g_ml;
    out.screws_g = in->screw_count * in->screw_g;
    out.tape_g = in->tape_length_mm * in->tape_width_mm * in->tape_g_m2 / 1000000;
    out.adhesive_g = in->adhesive_ml * in->adhesive_density_g_ml;
    out.packing_g = in->putty_ml * in->putty_density_g_ml + in->cushion_ml * in->cushion_density_g_ml;
    out.total_g = out.wood_g + out.screws_g + out.tape_g + out.adhesive_g + out.packing_g;
    out.percent_of_body_mass = out.total_g / (10 * in->body_mass_kg);
    out.multiple_of_280_g_ratio = out.total_g / 280;
    out.multiple_of_700_g_ratio = out.total_g / 700;
    return out;
}

#include "core/define.h"
