/* Putty for a rope and pads: half an elliptic cylinder and half ellipsoids on a flat face. */
#include <ungula/packing.h>

#include "core/contract.h"

#define NAME dam_volume
#define ROOM packing
#define TITLE "putty for a dam: a rope and pads"
#define ABOUT                                                                                                        \
    "A rope of putty whose section is half an ellipse, and pads that are half ellipsoids, laid on a flat face.\n"    \
    "\n"                                                                                                             \
    "    rope = length pi width height/4;  pads = count pi length width height/6\n"                                  \
    "    dam = (rope + pads) (1 + waste);  part_each = dam/part_count"
#define ACCURACY "Relative error below 2e-15; a rope made by hand differs by more."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Half an ellipse, pi a b/2, and half an ellipsoid, 2 pi a b c/3 (any handbook of "                     \
      "mensuration)", "the volumes")                                                                                 \
    S(PUBLISHED, "Mandikos MN 1998. Aust Dent J 43:428-434", "putty of two parts, base and accelerator in equal "    \
      "amounts")                                                                                                     \
    S(MEMORY, "Filled silicone putty 1.5 to 1.7 g/mL", "density")                                                    \
    S(PRACTICE, "Common practice, no source", "sizes of rope and pads; waste")
#define INPUTS(F)                                                                                                    \
    F(rope_length_mm, 0, 400, 100, 200, REQUIRED, GIVEN, MEASURE, "length of the rope; 0: none")                     \
    F(rope_width_mm, 2, 40, 8, 20, 14, PRACTICE, MEASURE, "width of the rope on the face")                           \
    F(rope_height_mm, 2, 30, 6, 14, 10, PRACTICE, MEASURE, "height of the rope above the face")                      \
    F(groove_room_mm, 0, 60, 12, 30, 0, NEUTRAL, MEASURE, "height that the rope has in the groove beside the frog; "  \
      "0: not measured")                                                                                             \
    F(pad_count, 0, 4, 0, 2, 2, PRACTICE, WHOLE, "pads")                                                             \
    F(pad_length_mm, 10, 80, 30, 50, 40, PRACTICE, MEASURE, "length of a pad")                                       \
    F(pad_width_mm, 10, 60, 20, 40, 30, PRACTICE, MEASURE, "width of a pad")                                         \
    F(pad_height_mm, 2, 30, 6, 16, 12, PRACTICE, MEASURE, "height of a pad")                                         \
    F(part_count, 1, 4, 1, 2, 2, PUBLISHED, WHOLE, "parts of the putty, mixed in equal volumes")                     \
    F(putty_density_g_ml, 0.2, 3, 1.5, 1.7, 1.6, MEMORY, MEASURE, "putty")                                           \
    F(waste_fraction, 0, 1, 0, 0.2, 0.1, PRACTICE, MEASURE, "what is cut off and left over, of the net volume")
#define OUTPUTS(F)                                                                                                   \
    F(rope_ml, FINITE, "rope, without waste")                                                                        \
    F(pads_ml, FINITE, "all pads, without waste")                                                                    \
    F(dam_ml, FINITE, "putty to mix, with waste")                                                                    \
    F(part_each_ml, FINITE, "each part of it")                                                                       \
    F(putty_g, FINITE, "its mass")
#define REFUSALS(R)                                                                                                  \
    R(rope_height_mm, IN(groove_room_mm), "the rope is higher than the groove has room for: it would press on the frog")
#define CAUTIONS(C)                                                                                                  \
    C(NOTE, room_unknown, IN(groove_room_mm), 1, NO_FIELD, 0, EQUAL, 0, IN(rope_length_mm), ABOVE, 0,                \
      "measure the room in the groove: a rope that is too high presses on the frog")                                 \
    C(WARN, high_pad, IN(pad_height_mm), 1, NO_FIELD, 0, ABOVE, 20, IN(pad_count), ABOVE, 0,                         \
      "a pad so high bears on the sole before the rest does")
#define STANDING(S)                                                                                                  \
    S("In a laminitic foot neither rope nor pads may bear on the sole ahead of the frog's tip; where the sole may "  \
      "bear is for a veterinarian with radiographs to decide.")                                                      \
    S("Putty sets in 4 to 10 minutes, sooner when warm: lay the dam before adhesive is mixed.")

UNG_INLINE ung_dam_volume_out formula(const ung_dam_volume_in *in, double *refusal)
{
    const double pi = 3.141592653589793;
    double rope = in->rope_length_mm * pi * in->rope_width_mm * in->rope_height_mm / 4000;
    double pad = pi * in->pad_length_mm * in->pad_width_mm * in->pad_height_mm / 6000, pads = in->pad_count * pad;
    double dam = (rope + pads) * (1 + in->waste_fraction);
    double room = in->groove_room_mm > 0 ? in->groove_room_mm : in->rope_height_mm;

    *refusal = in->rope_height_mm > room ? 1 : 0;
    ung_dam_volume_out out;
    out.rope_ml = rope;
    out.pads_ml = pads;
    out.dam_ml = dam;
    out.part_each_ml = dam / in->part_count;
    out.putty_g = dam * in->putty_density_g_ml;
    return out;
}

#include "core/define.h"
