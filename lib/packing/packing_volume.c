/* The space between sole and shoe: a dish and a layer, less the frog, and the grooves beside it.
 *
 * How a line across the sole divides the dish: on the unit ellipse the line is at x = cos(w/2), and what lies beyond it
 * is (w - sin w)/(2 pi) of the area and (3 w - (4 - cos w) sin w)/(6 pi) of the paraboloid, w = 0 to pi.
 */
#include <ungula/packing.h>

#include "core/contract.h"

#define NAME packing_volume
#define ROOM packing
#define TITLE "putty and cushion between sole and shoe"
#define ABOUT                                                                                                        \
    "The sole is taken as a dish (an elliptic paraboloid, deepest in its middle) with a layer of even thickness "    \
    "under it "                                                                                                      \
    "where the shoe does not touch. The frog fills part of it, and the grooves beside the frog are filled too: "     \
    "triangular in section, running out to nothing at both ends.\n"                                                  \
    "\n"                                                                                                             \
    "    dish = depth area/2;  layer = gap area;  frog = length width/2 height\n"                                    \
    "    grooves = count length width depth/6\n"                                                                     \
    "    cavity = dish + layer - frog + grooves\n"                                                                   \
    "\n"                                                                                                             \
    "A line across the sole has rear_fraction of its area behind it: putty there, cushion before it. With the "      \
    "line at c, "                                                                                                    \
    "from -1 at the rear of the sole over 0 at its middle to 1 at the toe,\n"                                        \
    "\n"                                                                                                             \
    "    rear_fraction = 1/2 + (c sqrt(1 - c^2) + asin c)/pi                           gives c (line_ratio)\n"       \
    "    rear_dish_fraction = 1/2 + (c (5 - 2 c^2) sqrt(1 - c^2) + 3 asin c)/(3 pi)\n"                               \
    "    rear = rear_dish_fraction dish + rear_fraction layer - frog + grooves;  front = the rest\n"                 \
    "    part_each = rear (1 + waste)/part_count\n"                                                                  \
    "\n"                                                                                                             \
    "rear_ml and front_ml are net; part_each_ml, putty_g and cushion_g hold the waste. Frog and grooves count as "   \
    "lying behind the line."
#define ACCURACY                                                                                                     \
    "rear_dish_fraction and line_ratio within 4e-16; volumes 1e-15 of the sum of their parts. The shape of a "       \
    "sole differs from a paraboloid by far more."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "The sole as an elliptic paraboloid, volume pi a b h/2 (any handbook of mensuration); integration "    \
      "of its slices",                                                                                               \
      "dish and its division")                                                                                       \
    S(PUBLISHED, "Mandikos MN 1998. Aust Dent J 43:428-434", "putty of two parts, base and accelerator in equal "    \
      "amounts")                                                                                                     \
    S(MEMORY, "Filled silicone putty 1.5 to 1.7 g/mL, unfilled silicone about 1.1", "densities")                     \
    S(PRACTICE, "Common practice, no source", "putty behind the frog's tip; setting; usual sizes; waste")
#define INPUTS(F)                                                                                                    \
    F(sole_area_mm2, 1000, 60000, 7000, 15000, REQUIRED, GIVEN, MEASURE, "inside the white line (area of "           \
      "outline_inset's result)")                                                                                     \
    F(dish_depth_mm, 0, 40, 3, 12, REQUIRED, GIVEN, MEASURE, "greatest depth of the sole, from the bearing plane")   \
    F(gap_mm, 0, 30, 0, 3, 0, NEUTRAL, MEASURE, "even layer between bearing plane and shoe")                         \
    F(frog_length_mm, 0, 150, 60, 100, 0, NEUTRAL, MEASURE, "frog, tip to its rear end; 0: not measured")            \
    F(frog_width_mm, 0, 120, 30, 60, 0, NEUTRAL, MEASURE, "frog at its rear end")                                    \
    F(frog_height_mm, 0, 40, 2, 10, 0, NEUTRAL, MEASURE, "mean height of the frog above the dish")                   \
    F(frog_groove_count, 0, 3, 2, 3, 0, NEUTRAL, WHOLE, "grooves beside and in the frog that are filled")            \
    F(frog_groove_length_mm, 0, 150, 40, 90, 0, NEUTRAL, MEASURE, "length of one")                                   \
    F(frog_groove_width_mm, 0, 40, 6, 15, 0, NEUTRAL, MEASURE, "its greatest width")                                 \
    F(frog_groove_depth_mm, 0, 40, 4, 15, 0, NEUTRAL, MEASURE, "its greatest depth")                                 \
    F(rear_fraction, 0, 1, 0.5, 0.7, 0.6, PRACTICE, MEASURE, "share of the sole's area that putty takes, from the "  \
      "rear")                                                                                                        \
    F(part_count, 1, 4, 1, 2, 2, PUBLISHED, WHOLE, "parts of the putty, mixed in equal volumes")                     \
    F(putty_density_g_ml, 0.2, 3, 1.5, 1.7, 1.6, MEMORY, MEASURE, "putty")                                           \
    F(cushion_density_g_ml, 0.2, 3, 1, 1.2, 1.1, MEMORY, MEASURE, "cushion")                                         \
    F(waste_fraction, 0, 1, 0, 0.2, 0.1, PRACTICE, MEASURE, "what is squeezed out and left over, of the net volume")
#define OUTPUTS(F)                                                                                                   \
    F(dish_ml, FINITE, "hollow of the sole")                                                                         \
    F(layer_ml, FINITE, "layer under it")                                                                            \
    F(frog_ml, FINITE, "frog in it")                                                                                 \
    F(grooves_ml, FINITE, "grooves of the frog")                                                                     \
    F(cavity_ml, FINITE, "space to fill")                                                                            \
    F(line_ratio, FINITE, "dividing line: -1 at the rear of the sole, 0 at its middle, 1 at the toe")                \
    F(rear_dish_fraction, FINITE, "share of the hollow behind the line")                                             \
    F(rear_ml, FINITE, "space behind the line: putty, without waste")                                                \
    F(front_ml, FINITE, "space before the line: cushion, without waste")                                             \
    F(part_each_ml, FINITE, "each part of the putty to mix, with waste")                                             \
    F(putty_g, FINITE, "putty to mix, with waste")                                                                   \
    F(cushion_g, FINITE, "cushion, with waste")
#define REFUSALS(R)                                                                                                  \
    R(frog_height_mm, IN(dish_depth_mm), "the frog takes more than the space behind the line; measure both from "    \
      "the bearing plane")
#define CAUTIONS(C)                                                                                                  \
    C(WARN, putty_forward, IN(rear_fraction), 1, NO_FIELD, 0, ABOVE, 0.7, NO_GUARD,                                  \
      "so much of the sole reaches ahead of where the frog's tip usually lies: in a laminitic foot putty must not "  \
      "bear there")                                                                                                  \
    C(NOTE, no_frog, OUT(frog_ml), 1, NO_FIELD, 0, EQUAL, 0, NO_GUARD,                                               \
      "without the frog's sizes more is mixed than needed")
#define STANDING(S)                                                                                                  \
    S("In a laminitic foot putty must not bear on the sole ahead of the frog's tip: leave it clear. A "              \
      "veterinarian and radiographs (sole depth) decide where the sole may bear.")                                   \
    S("A firm grade supports most and can press on the sole: take the softer one where in doubt, and take it out "   \
      "if the horse is less comfortable.")                                                                           \
    S("Putty sets in 4 to 10 minutes, sooner when warm, and the shoe goes on before it does: keep it as warm as "    \
      "the horn, and mix it when the shoe is ready. Knead both parts to one color; latex gloves may keep it from "   \
      "setting.")

/* w - sin w = area, one step of Halley's rule; below 0.1 the series that w comes from is exact already. */
UNG_INLINE double nearer(double w, double area)
{
    const double s = ung__sin_deg(w * 57.29577951308232), versine = 1 - ung__cos_deg(w * 57.29577951308232);
    const double some = w < 0.1 ? 1 : versine, off = w - s - area;
    const double step = off / (some - off * s / (2 * some));
    return w < 0.1 ? w : w - step;
}

UNG_INLINE ung_packing_volume_out formula(const ung_packing_volume_in *in, double *refusal)
{
    const double pi = 3.141592653589793;
    double rear = in->rear_fraction, area = in->sole_area_mm2, waste = 1 + in->waste_fraction;
    double less = 2 * pi * ung__min(rear, 1 - rear); /* of the smaller side, on the unit circle, doubled */
    double x = ung__pow(ung__max(6 * less, 1e-300), 0x1.5555555555555p-2), x2 = x * x;
    double start = x * (1 + x2 * (1.0 / 60 + x2 * (1.0 / 1400 + x2 * (1.0 / 25200 + x2 * (43.0 / 17248000)))));
    double w = nearer(nearer(start, less), less); /* the start is within 0.02, then 4e-7, then all digits */
    double s = ung__sin_deg(w * 57.29577951308232), c = ung__cos_deg(w * 57.29577951308232);
    double beyond = ung__max(3 * w - s * (4 - c), 0) / (6 * pi), place = ung__cos_deg(w * 28.64788975654116);
    double share = rear > 0.5 ? 1 - beyond : beyond;
    double dish = in->dish_depth_mm * area / 2000, layer = in->gap_mm * area / 1000;
    double frog = in->frog_length_mm * in->frog_width_mm * in->frog_height_mm / 2000;
    double groove = in->frog_groove_length_mm * in->frog_groove_width_mm * in->frog_groove_depth_mm;
    double grooves = in->frog_groove_count * groove / 6000;
    double behind = share * dish + rear * layer - frog + grooves;
    double before = (rear > 0.5 ? beyond : 1 - beyond) * dish + (1 - rear) * layer;

    *refusal = behind < 0 ? 1 : 0;
    ung_packing_volume_out out;
    out.dish_ml = dish;
    out.layer_ml = layer;
    out.frog_ml = frog;
    out.grooves_ml = grooves;
    out.cavity_ml = dish + layer - frog + grooves;
    out.line_ratio = rear > 0.5 ? place : 0 - place;
    out.rear_dish_fraction = share;
    out.rear_ml = behind;
    out.front_ml = before;
    out.part_each_ml = behind * waste / in->part_count;
    out.putty_g = behind * waste * in->putty_density_g_ml;
    out.cushion_g = before * waste * in->cushion_density_g_ml;
    return out;
}

#include "core/define.h"
