/* Moment of the ground force about the coffin joint while the foot stands on its breakover line. */
#include <ungula/horse.h>

#include "core/contract.h"

#define NAME coffin_lever
#define ROOM horse
#define TITLE "lever and moment about the coffin joint at breakover"
#define ABOUT                                                                                                        \
    "From heel-off on, the ground force acts at the breakover line. Its moment extends the coffin (distal "          \
    "interphalangeal) joint and loads the deep flexor tendon; that counts as positive.\n"                            \
    "\n"                                                                                                             \
    "    lever = breakover - setback\n"                                                                              \
    "    moment = (vertical_force lever + forward_force joint_height)/1000 N m;  moment_before: with setback 0\n"    \
    "    change_fraction = moment/moment_before - 1;  per kg = 1000 moment/body_mass N mm/kg\n"                      \
    "    joint_change = 0.98 wedge;  tendon_change_fraction = -0.04 wedge\n"                                         \
    "\n"                                                                                                             \
    "forward_force is positive when the ground pushes the hoof forward (propulsion). vertical_force is the force "   \
    "at that "                                                                                                       \
    "moment, about 2 N/kg at the trot (the published moment over the published lever), and not the largest of the "  \
    "stance, which limb_load gives: 11.59 N/kg at 86 mm would be nearly six times the largest moment measured. The " \
    "largest moment of the stance comes before heel-off; moving the breakover line changed the lever and not that "  \
    "moment. "                                                                                                       \
    "joint_change is flexion for a wedge under the heel (standing horses); tendon_change is of the deep flexor "     \
    "tendon's "                                                                                                      \
    "force on the navicular bone."
#define ACCURACY "Relative error below 1e-15 of the sum of the two parts; change_fraction, a difference, 4e-16 "     \
  "absolute where forward_force is 0."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "Eliashar E, McGuigan MP, Rogers KA, Wilson AM 2002. Equine Vet J 34 (9 horses, trot)",             \
      "lever at breakover 86 mm, with the breakover set back 77 mm; largest moment 171 to 175 N mm/kg, unchanged")   \
    S(PUBLISHED, "Crevier-Denoix N et al. 2001. Equine Vet J (5 horses, standing, 15 degrees toe to 15 degrees heel)", \
      "29.5 degrees of joint over 30 degrees of wedge: 0.98 for each")                                               \
    S(MEMORY, "Willemen MA, Savelberg HHCM, Barneveld A 1999. Equine Vet J 31:25-30, as quoted elsewhere",           \
      "6 degrees of heel wedge: 24 percent less force on the navicular bone, 4 percent for each degree")             \
    S(PUBLISHED, "Ramsey GD, Hunter PJ, Nash MP 2011. Equine Vet J (model)", "a higher palmar angle loads the "      \
      "dorsal lamellae")                                                                                             \
    S(PUBLISHED, "Lawson SEM et al. 2007. J Anat 210:583", "a heel wedge strains the superficial flexor tendon "     \
      "and the suspensory ligament more")                                                                            \
    S(CHOICE, "Statics of a rigid foot", "moment")
#define INPUTS(F)                                                                                                    \
    F(vertical_force_n, 0, 40000, 300, 2000, REQUIRED, GIVEN, MEASURE, "ground force while the foot stands on the "  \
      "breakover line")                                                                                              \
    F(forward_force_n, -5000, 5000, -500, 500, 0, NEUTRAL, MEASURE, "ground on hoof then, forward positive")         \
    F(breakover_mm, 0, 200, 60, 100, REQUIRED, GIVEN, MEASURE, "along the ground, from below the joint's center "    \
      "to the breakover line")                                                                                       \
    F(setback_mm, -50, 60, 0, 15, 0, NEUTRAL, MEASURE, "how far the breakover line is moved back")                   \
    F(joint_height_mm, 0, 120, 30, 60, 0, NEUTRAL, MEASURE, "joint's center above the ground")                       \
    F(wedge_deg, 0, 6, 0, 5, 0, NEUTRAL, MEASURE, "wedge under the heel; the sources do not reach further")          \
    F(body_mass_kg, 50, 1200, 350, 700, REQUIRED, GIVEN, MEASURE, "horse, with rider and tack where it is ridden")
#define OUTPUTS(F)                                                                                                   \
    F(lever_mm, FINITE, "lever of the vertical force")                                                               \
    F(moment_n_m, FINITE, "moment, positive where it extends the joint")                                             \
    F(moment_before_n_m, FINITE, "moment without setback")                                                           \
    F(change_fraction, FINITE, "change of the moment by the setback")                                                \
    F(moment_n_mm_per_kg, FINITE, "moment for each kilogram of horse")                                               \
    F(force_n_per_kg, FINITE, "vertical force for each kilogram")                                                    \
    F(joint_change_deg, FINITE, "flexion of the joint by the wedge")                                                 \
    F(tendon_change_fraction, FINITE, "change of the deep flexor tendon's force on the navicular bone by the wedge")
#define REFUSALS(R)                                                                                                  \
    R(setback_mm, IN(breakover_mm), "the breakover line would lie behind the joint")                                 \
    R(vertical_force_n, IN(forward_force_n), "without setback the force does not extend the joint: there is "        \
      "nothing to compare with")
#define CAUTIONS(C)                                                                                                  \
    C(WARN, not_breakover, OUT(force_n_per_kg), 1, NO_FIELD, 0, ABOVE, 4, NO_GUARD,                                  \
      "more than 4 N/kg is a force of midstance, when the foot does not stand on its breakover line")                \
    C(WARN, above_measured, OUT(moment_n_mm_per_kg), 1, NO_FIELD, 0, ABOVE, 200, NO_GUARD,                           \
      "more than the largest moments that were measured at the trot (171 to 175 N mm/kg)")                           \
    C(WARN, long_setback, IN(setback_mm), 1, NO_FIELD, 0, ABOVE, 15, NO_GUARD, "further back than what was "         \
      "measured and is usual")                                                                                       \
    C(WARN, wedge, IN(wedge_deg), 1, NO_FIELD, 0, ABOVE, 0, NO_GUARD,                                                \
      "a wedge is for a veterinarian with radiographs to decide: it loads the dorsal lamellae and the superficial "  \
      "flexor tendon more")                                                                                          \
    C(STOP, steep_wedge, IN(wedge_deg), 1, NO_FIELD, 0, ABOVE, 2, NO_GUARD,                                          \
      "more than 2 degrees: not without a veterinarian's order")
#define STANDING(S)                                                                                                  \
    S("The largest moment of the whole stance did not change in the horses that were measured: an easier "           \
      "breakover shortens the lever at the end only.")                                                               \
    S("Radiographs show where the joint's center and the tip of the coffin bone are: measure on them.")              \
    S("The figures of a wedge come from sound horses, 5 standing and few at the trot; a lame horse may differ.")

UNG_INLINE ung_coffin_lever_out formula(const ung_coffin_lever_in *in, double *refusal)
{
    double lever = in->breakover_mm - in->setback_mm, by_height = in->forward_force_n * in->joint_height_mm;
    double moment = (in->vertical_force_n * lever + by_height) / 1000;
    double before = (in->vertical_force_n * in->breakover_mm + by_height) / 1000;

    *refusal = lever < 0 ? 1 : before <= 0 ? 2 : 0;
    ung_coffin_lever_out out;
    out.lever_mm = lever;
    out.moment_n_m = moment;
    out.moment_before_n_m = before;
    out.change_fraction = moment / (before > 0 ? before : 1) - 1;
    out.moment_n_mm_per_kg = moment * 1000 / in->body_mass_kg;
    out.force_n_per_kg = in->vertical_force_n / in->body_mass_kg;
    out.joint_change_deg = 0.98 * in->wedge_deg;
    out.tendon_change_fraction = 0 - 0.04 * in->wedge_deg;
    return out;
}

#include "core/define.h"
