/* Thickness of the wall from its border.
 *
 *        /    /         T is square to the wall, the border is what the ground face shows of it:
 *       / T  /          T = border sin B
 *      /____/  B = wall angle, inside the horn
 */
#include <ungula/shape.h>

#include "core/elementary.h"

#define NAME wall_from_border
#define ROOM shape
#define TITLE "thickness of the hoof wall from the width of its border"
#define ABOUT                                                                                                        \
    "What can be measured after trimming is the width of the wall's border on the ground; the other calculations "  \
    "need the thickness of the horn square to the wall.\n"                                                           \
    "\n"                                                                                                             \
    "    wall_thickness = border_width sin(wall_angle)\n"                                                            \
    "\n"                                                                                                             \
    "A border of 12.4 mm at a 50 degree toe is 9.5 mm of wall."
#define ACCURACY "Relative error below 4e-16 (two roundings and a sine within 1.1 units in the last place)."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Plane trigonometry", "the relation")                                                                  \
    S(PUBLISHED,                                                                                                     \
      "Sasaki O, Kuwano A, Sasaki N, Yoshihara T, Hara S 2007. Frequency spectral evaluation about hemoglobin "     \
      "kinetics of pedal circulation. J Equine Sci 18(4):137-144, Table 2",                                          \
      "horn at the toe 9.4 mm (SD 1.4, n 34), living lamellar layer 5.8 mm (SD 1.0, n 21)")                          \
    S(PUBLISHED, "Lungwitz A, transl. Adams JW. A text-book of horseshoeing, 11th ed. 1913, p. 47, quoting Mayer",                  \
      "wall 9.5 to 15.9 mm at the toe, 5.1 to 10.2 mm at the quarters")
#define INPUTS(F)                                                                                                    \
    F(border_width_mm, 2, 30, 5, 15, REQUIRED, GIVEN, MEASURE, "width of the wall's border on the ground, outer edge to white line") \
    F(wall_angle_deg, 35, 150, 45, 100, REQUIRED, GIVEN, MEASURE, "inside the horn, bearing plane to outer face; 90 upright, about 50 at the toe")
#define OUTPUTS(F) F(wall_thickness_mm, FINITE, "horn square to the wall")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(WARN, thick_wall, OUT(wall_thickness_mm), 1, NO_FIELD, 0, ABOVE, 13, NO_GUARD,                                 \
      "more than 13 mm of horn is found only at the toe of large feet: a radiograph's distance to the bone includes about 6 mm of living tissue")
#define STANDING(S) S("Measure at each side and station that is to hold a screw; medial and lateral walls differ.")

UNG_INLINE ung_wall_from_border_out formula(const ung_wall_from_border_in *in, double *refusal)
{
    *refusal = 0;
    ung_wall_from_border_out out;
    out.wall_thickness_mm = in->border_width_mm * ung__sin_deg(in->wall_angle_deg);
    return out;
}

#include "core/define.h"
