/* Casting tape round a belt whose circumference changes evenly from its lower to its upper edge.
 *
 *      C1 ___________  S          A pass climbs from s = w/2 to S - w/2, advancing p = w (1 - overlap) a turn,
 *        /  /  /  /  \            and ends in one level turn; the next pass goes down again.
 *    C0 /__/__/__/____\  0
 */
#include <ungula/cast.h>

#include "core/quadrature.h"

#define NAME cast_length
#define ROOM cast
#define TITLE "length of casting tape from circumference and height"
#define ABOUT                                                                                                        \
    "How long a tape this hoof takes. The belt has slant height S, circumference C0 below and C1 above, and C(s) "  \
    "changes evenly between them. Tape of width w laid with overlap o advances p = w (1 - o) a turn. A pass is one " \
    "traverse, the first from low to high; its center line runs from s = w/2 to S - w/2. Where the tape is as wide " \
    "as the belt or wider, a pass is one level turn at half height.\n"                                               \
    "\n"                                                                                                             \
    "    climb = integral of sqrt((C(s)/p)^2 + 1) ds          (exact for a circular frustum)\n"                      \
    "    path = anchor_turns C(w/2) + over all passes: climb + one level turn at the pass's end\n"                   \
    "    tape = path/(1 + stretch) (1 + waste);  rolls = tape/roll_length, rounded up\n"                             \
    "    turns_per_pass = (S - w)/p + 1\n"                                                                           \
    "    layers = path min(w, S)/(S (C0 + C1)/2);  thickness = layers ply\n"                                         \
    "    edge_plies = the lesser of whole anchor turns + passes ending below, and passes ending above\n"             \
    "    edge_strain = (w/2) cos(toe_angle)/(least circumference/2 pi)\n"                                            \
    "\n"                                                                                                             \
    "edge_strain is what a level turn's lower edge must stretch more than its middle at the toe, and its upper edge " \
    "less. One pass at half overlap lays two plies: passes and plies are different numbers. Where the tape is as "   \
    "wide as the belt, the anchor turns lie at half height too, turns_per_pass is 1 and edge_plies is whole anchor " \
    "turns + passes. With the standard two passes and one anchor turn narrower tape leaves one ply at the upper "   \
    "edge; three passes give two at both. Feet usually take the whole roll."
#define ACCURACY                                                                                                     \
    "Lengths: relative error below 1e-14 in the accepted ranges (leftover, a difference: of the rolls), without loss where both circumferences are nearly " \
    "equal (held against the integral in extended precision). Whole rolls forgive a quotient 1e-9 above a whole number."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Arc length of a helix on a cone (any text on curves)", "climb")                                       \
    S(CHOICE, "Geodesic curvature of a circle on a cone", "edge_strain")                                             \
    S(PRACTICE, "Common practice, no source", "half overlap, two passes, one anchor turn, rolls of 4 yards, 5 % waste, three plies at least") \
    S(PRACTICE, "Descriptions of casting tapes, a patent among them", "lengthwise stretch 0.35 to 0.55, plies of 0.5 to 1.1 mm")                  \
    S(MEMORY, "Thickness of a cured ply, 0.6 to 0.8 mm", "ply_mm")                                                   \
    S(PUBLISHED,                                                                                                     \
      "Ayzenberg M, Narvaez M, Raphael J 2018. Orthopedic Reviews 10:7314, "                                          \
      "doi 10.4081/or.2018.7314",                                                                                    \
      "8 plies in water of 9 to 36 C peak at 25 to 37 C; thicker is hotter")
#define INPUTS(F)                                                                                                    \
    F(circumference_low_mm, 100, 900, 300, 480, REQUIRED, GIVEN, MEASURE, "round the belt's lower edge (hoof_band)") \
    F(circumference_high_mm, 100, 900, 300, 480, REQUIRED, GIVEN, MEASURE, "round the belt's upper edge (hoof_band)") \
    F(band_height_mm, 10, 300, 50, 120, REQUIRED, GIVEN, MEASURE, "along the wall (slant_height_mm of hoof_band)")   \
    F(tape_width_mm, 10, 200, 50, 102, REQUIRED, GIVEN, MEASURE, "width of the tape")                                \
    F(overlap_fraction, 0, 0.9, 0.3, 0.5, 0.5, PRACTICE, MEASURE, "of the width, from turn to turn")                 \
    F(passes_count, 1, 12, 1, 4, 2, PRACTICE, WHOLE, "traverses of the belt")                                        \
    F(anchor_turns, 0, 5, 0.5, 2, 1, PRACTICE, MEASURE, "level turns at the lower edge to begin with")               \
    F(stretch_fraction, 0, 1, 0, 0.25, 0, NEUTRAL, MEASURE, "lengthwise stretch as laid")                            \
    F(waste_fraction, 0, 1, 0, 0.15, 0.05, PRACTICE, MEASURE, "folds and ends, of the laid length")                  \
    F(roll_length_mm, 500, 20000, 3600, 3700, 3657.6, PRACTICE, MEASURE, "tape on one roll")                         \
    F(ply_mm, 0.1, 3, 0.5, 1.1, 0.7, MEMORY, MEASURE, "thickness of one ply as laid")                                \
    F(toe_angle_deg, 30, 90, 45, 58, 52, PRACTICE, MEASURE, "toe to ground")
#define OUTPUTS(F)                                                                                                   \
    F(turns_per_pass, FINITE, "turns of one pass, the level one included")                                           \
    F(path_length_mm, FINITE, "length of tape as laid")                                                              \
    F(tape_length_mm, FINITE, "length of tape to bring, unstretched, waste included")                                \
    F(rolls_count, FINITE, "whole rolls")                                                                            \
    F(leftover_mm, FINITE, "left of those rolls")                                                                    \
    F(layers, FINITE, "mean number of plies")                                                                        \
    F(edge_plies_count, FINITE, "plies at the thinner edge")                                                         \
    F(thickness_mm, FINITE, "mean thickness as laid")                                                                \
    F(edge_strain_fraction, FINITE, "extra stretch of the lower edge at the toe")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(WARN, edge_stretch, OUT(edge_strain_fraction), 1, IN(stretch_fraction), 1, ABOVE, 0.55, NO_GUARD,              \
      "the lower edge must stretch by more than the 0.55 that tapes are made for: notch it, or take narrower tape")  \
    C(WARN, wide_tape, IN(tape_width_mm), 1, IN(band_height_mm), -1, ABOVE, 0, NO_GUARD,                             \
      "the tape is wider than the belt: it laps under the shoe or reaches the coronet")                              \
    C(WARN, thin, OUT(layers), 1, NO_FIELD, 0, BELOW, 3, NO_GUARD, "fewer than three plies in the mean: enough only where a closed heel asks for it")             \
    C(WARN, thin_edge, OUT(edge_plies_count), 1, NO_FIELD, 0, BELOW, 2, NO_GUARD, "fewer than two plies at an edge") \
    C(WARN, thick, OUT(layers), 1, NO_FIELD, 0, ABOVE, 10, NO_GUARD, "more than ten plies cure hotter")              \
    C(NOTE, pleats, OUT(edge_strain_fraction), 1, IN(stretch_fraction), -1, ABOVE, 0, NO_GUARD,                      \
      "the upper edge will pleat: smooth it down while it is soft")
#define STANDING(S)                                                                                                  \
    S("Casting tape holds isocyanate: gloves, never on bare skin; follow the product's safety sheet.")               \
    S("Dip in clean water not above 24 C, and keep the foot still until the cast is hard.")                          \
    S("A full wrap leaves the heel open. Where the tape closes the heel, it is laid in fewer than three plies and left on for at most ten days (common practice, no source); the attending veterinarian decides.")

UNG_INLINE ung_cast_length_out formula(const ung_cast_length_in *in, double *refusal)
{
    double s = in->band_height_mm, w = in->tape_width_mm, passes = in->passes_count;
    double low = in->circumference_low_mm, high = in->circumference_high_mm, mean = (low + high) / 2;
    int level = w >= s;
    double advance = w * (1 - in->overlap_fraction), rise = level ? 0 : s - w;
    double slope = (high - low) / s, bottom = level ? mean : low + slope * (w / 2), top = level ? mean : high - slope * (w / 2);

    /* Mean of sqrt(c^2 + 1) between the ends, c = C/p, in a form that does not cancel when they are nearly equal. */
    double per = 1 / advance, c0 = bottom * per, c1 = top * per;
    double r0 = ung__sqrt(1 + c0 * c0), r1 = ung__sqrt(1 + c1 * c1), r = r0 + r1, sum = c0 + c1;
    double d = sum / (c1 * r0 + c0 * r1), u = (c1 - c0) * d;
    double g = ung__abs(u) < 1e-8 ? 1 : ung__asinh(u) / (ung__abs(u) < 1e-8 ? 1 : u);
    double climb = rise * ((r / 2 + sum * sum / (2 * r) + g * d) / 2);

    double half = passes / 2, ends_above = ung__ceil(half), ends_below = ung__floor(half);
    double anchors = ung__floor(in->anchor_turns);

    *refusal = 0;
    ung_cast_length_out out;
    out.turns_per_pass = rise * per + 1;
    out.path_length_mm = in->anchor_turns * bottom + passes * climb + (ends_above * top + ends_below * bottom);
    out.tape_length_mm = out.path_length_mm / (1 + in->stretch_fraction) * (1 + in->waste_fraction);
    out.rolls_count = ung__max(ung__ceil(out.tape_length_mm / in->roll_length_mm - 1e-9), 1);
    out.leftover_mm = out.rolls_count * in->roll_length_mm - out.tape_length_mm;
    out.layers = out.path_length_mm * ung__min(w, s) / (s * mean);
    out.edge_plies_count = level ? anchors + passes : ung__min(anchors + ends_below, ends_above);
    out.thickness_mm = out.layers * in->ply_mm;
    out.edge_strain_fraction = w / 2 * ung__cos_deg(in->toe_angle_deg) * UNG__TAU / ung__min(low, high);
    return out;
}

#include "core/define.h"
