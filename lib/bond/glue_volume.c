/* Adhesive from the bonded area: two coats, the second over the tape. */
#include <ungula/bond.h>

#include "core/elementary.h"

#define NAME glue_volume
#define ROOM bond
#define TITLE "volume of adhesive from the bonded area"
#define ABOUT                                                                                                        \
    "How much two-part adhesive one foot takes. The first coat goes on the roughened wall and the shoe's side, the " \
    "top coat over the tape. Grooves are V-shaped, as a rasp's corner cuts them, so they hold half of depth times " \
    "width.\n"                                                                                                       \
    "\n"                                                                                                             \
    "    groove mean = groove_depth groove_width/(2 groove_spacing)\n"                                               \
    "    first = bonded_area (film + groove mean) + wood_area wood_film\n"                                           \
    "    top = top_area top_film;  net = first + top\n"                                                              \
    "    first_coat = first (1 + waste), top_coat = top (1 + waste), mixed = first_coat + top_coat\n"                \
    "    part_a = mixed ratio/(1 + ratio), part_b = mixed/(1 + ratio), by volume\n"                                  \
    "    packs = whole packs for the mixed volume, each giving pack - nozzle\n"                                      \
    "    packs_separate = the same for each coat on its own (the wrap lies between: usually two mixes)\n"            \
    "    leftover = packs (pack - nozzle) - mixed\n"                                                                 \
    "\n"                                                                                                             \
    "bonded_area and top_area are bonded_area and covered_area of hoof_band, wood_area is its shoe_area. One foot "  \
    "takes about one pack of 59 mL, roughly half below the tape and half over it (common practice, no source)."
#define ACCURACY "Volumes: relative error below 1e-15; leftover, a difference, below 1e-15 of the packs. Whole packs forgive a quotient 1e-9 above a whole number."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Volume is area times thickness; a V groove is a triangle", "the relations")                           \
    S(PRACTICE, "Common practice, no source", "films of 1 and 0.5 mm, grooves 0.5 mm deep, 15 % waste, equal parts A and B, packs of 2 US fluid ounces") \
    S(PRACTICE, "Data sheets of two-part acrylic adhesives",                                                         \
      "largest gaps of 4 to 9.5 mm; from about 450 mL mixed at once the heat runs away")
#define INPUTS(F)                                                                                                    \
    F(bonded_area_mm2, 100, 200000, 8000, 25000, REQUIRED, GIVEN, MEASURE, "wall to be bonded")                      \
    F(film_mm, 0.05, 10, 0.5, 2, 1, PRACTICE, MEASURE, "thickness of the first coat on the wall")                    \
    F(groove_depth_mm, 0, 3, 0, 1, 0.5, PRACTICE, MEASURE, "depth of the grooves rasped into the wall")              \
    F(groove_width_mm, 0, 5, 0, 2, 1.5, PRACTICE, MEASURE, "their width at the surface")                             \
    F(groove_spacing_mm, 1, 50, 4, 12, 6, PRACTICE, MEASURE, "from groove to groove")                                \
    F(wood_area_mm2, 0, 200000, 0, 12000, 0, NEUTRAL, MEASURE, "side of the shoe to be coated")                      \
    F(wood_film_mm, 0, 10, 0.3, 1, 0.5, PRACTICE, MEASURE, "thickness of the first coat on the wood")                \
    F(top_area_mm2, 0, 300000, 0, 40000, 0, NEUTRAL, MEASURE, "tape to be coated")                                   \
    F(top_film_mm, 0, 10, 0.3, 1, 0.5, PRACTICE, MEASURE, "thickness of the top coat")                               \
    F(waste_fraction, 0, 1, 0.05, 0.3, 0.15, PRACTICE, MEASURE, "what stays in cup and on tools, of the net volume") \
    F(ratio_a_to_b, 0.02, 50, 1, 10, 1, PRACTICE, MEASURE, "part A to part B by volume")                             \
    F(pack_ml, 1, 5000, 25, 250, 59.147, PRACTICE, MEASURE, "what one pack gives when mixed")                        \
    F(nozzle_ml, 0, 20, 0, 8, 0, NEUTRAL, MEASURE, "what stays in nozzle and pack, for each pack")
#define OUTPUTS(F)                                                                                                   \
    F(net_ml, FINITE, "adhesive on hoof, shoe and tape")                                                             \
    F(first_coat_ml, FINITE, "to mix for the first coat, waste included")                                            \
    F(top_coat_ml, FINITE, "to mix for the top coat, waste included")                                                \
    F(mixed_ml, FINITE, "to mix in all")                                                                             \
    F(part_a_ml, FINITE, "part A of mixed_ml")                                                                          \
    F(part_b_ml, FINITE, "part B of mixed_ml")                                                                          \
    F(packs_count, FINITE, "packs when all is mixed at once")                                                        \
    F(packs_separate_count, FINITE, "packs when the coats are mixed apart")                                          \
    F(leftover_ml, FINITE, "left over of packs_count packs")
#define REFUSALS(R)                                                                                                  \
    R(groove_spacing_mm, IN(groove_width_mm), "grooves cannot be closer than they are wide")                         \
    R(nozzle_ml, IN(pack_ml), "the nozzle keeps the whole pack")
#define CAUTIONS(C)                                                                                                  \
    C(WARN, gap_limit, IN(film_mm), 1, NO_FIELD, 0, ABOVE, 4, NO_GUARD,                                              \
      "a film above 4 mm is beyond the gap that most adhesives are made for: build it up in layers")                 \
    C(WARN, runaway, OUT(mixed_ml), 1, NO_FIELD, 0, ABOVE, 450, NO_GUARD,                                            \
      "more than 450 mL mixed at once can run away in heat: mix in smaller batches")                                 \
    C(NOTE, heat, IN(film_mm), 1, NO_FIELD, 0, ABOVE, 1.5, NO_GUARD,                                                 \
      "a film above 1.5 mm heats a thin wall as it cures: build it up in layers")
#define STANDING(S)                                                                                                  \
    S("Ventilate, no flame or sparks near uncured adhesive, gloves and eye protection; it can sensitize the skin. Follow the product's safety sheet.") \
    S("Keep adhesive off live tissue and the coronary band; never leave a full cup standing.")

UNG_INLINE double packs_for(double volume, double each)
{
    return ung__ceil(volume * each - 1e-9); /* forgives rounding; 0 where nothing is needed */
}

UNG_INLINE ung_glue_volume_out formula(const ung_glue_volume_in *in, double *refusal)
{
    double groove = in->groove_depth_mm * in->groove_width_mm / 2 / in->groove_spacing_mm;
    double first = (in->bonded_area_mm2 * (in->film_mm + groove) + in->wood_area_mm2 * in->wood_film_mm) * 1e-3;
    double top = in->top_area_mm2 * in->top_film_mm * 1e-3, waste = 1 + in->waste_fraction;
    double each = in->pack_ml - in->nozzle_ml, inverse = 1 / (each > 0 ? each : 1);
    *refusal = in->groove_spacing_mm < in->groove_width_mm ? 1 : each <= 0 ? 2 : 0;

    ung_glue_volume_out out;
    out.net_ml = first + top;
    out.first_coat_ml = first * waste;
    out.top_coat_ml = top * waste;
    out.mixed_ml = out.first_coat_ml + out.top_coat_ml;
    out.part_b_ml = out.mixed_ml / (1 + in->ratio_a_to_b);
    out.part_a_ml = out.part_b_ml * in->ratio_a_to_b;
    out.packs_count = ung__max(packs_for(out.mixed_ml, inverse), 1);
    double for_top = packs_for(out.top_coat_ml, inverse);
    out.packs_separate_count =
        ung__max(packs_for(out.first_coat_ml, inverse), 1) + (top > 0 ? ung__max(for_top, 1) : 0);
    out.leftover_ml = out.packs_count * each - out.mixed_ml;
    return out;
}

#include "core/define.h"
