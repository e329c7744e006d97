/* Specific gravity and density of the woods that shoes are made of. */
#include <ungula/screw.h>

#include "core/contract.h"

#define NAME wood_species
#define ROOM screw
#define TITLE "specific gravity and density of a wood"
#define ABOUT                                                                                                        \
    "Specific gravity and density of a wood at 12 percent moisture, by its number.\n"                                \
    "\n"                                                                                                             \
    "     1  sugar maple          0.63   12  Douglas-fir, coast     0.48\n"                                          \
    "     2  red maple            0.54   13  Douglas-fir, south     0.46\n"                                          \
    "     3  yellow birch         0.62   14  ponderosa pine         0.40\n"                                          \
    "     4  paper birch          0.55   15  red pine               0.46\n"                                          \
    "     5  American beech       0.64   16  shortleaf pine         0.51\n"                                          \
    "     6  white ash            0.60   17  slash pine             0.59\n"                                          \
    "     7  white oak            0.68   18  western white pine     0.38\n"                                          \
    "     8  northern red oak     0.63   19  loblolly pine          0.51\n"                                          \
    "     9  yellow-poplar        0.42   20  plywood, Structural I  0.50\n"                                          \
    "    10  eastern cottonwood   0.40   21  plywood, other         0.42\n"                                          \
    "    11  basswood             0.37\n"                                                                            \
    "\n"                                                                                                             \
    "    density = 1120 kg/m3 times the gravity\n"                                                                   \
    "\n"                                                                                                             \
    "Douglas-fir, south, is the interior south. The gravity is oven-dry mass over the volume at 12 percent moisture, the density counts the moisture too. For " \
    "plywood it is the one the standard assigns for calculating screws, and the density follows from it by choice. " \
    "Single pieces differ by a tenth and more: weigh a piece of your own."
#define ACCURACY "As printed; the spread between pieces of one species is about a tenth."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "Kretschmann DE 2010. Mechanical properties of wood. Wood handbook, FPL-GTR-190, ch. 5, Table 5-3", \
      "gravity of 1 to 7 and 9 to 18; density over gravity 1.12 (footnote)")                                         \
    S(MEMORY, "The same table", "gravity of northern red oak and loblolly pine")                                     \
    S(PUBLISHED, "ANSI/AWC NDS-2018, Table 12.3.3B", "gravity of plywood, Structural I")                             \
    S(MEMORY, "The same table", "gravity of plywood, other grades")                                                  \
    S(MEMORY, "Wood handbook, ch. 5", "specific gravity varies by about a tenth (coefficient of variation) within a species")
#define INPUTS(F)                                                                                                    \
    F(species_count, 1, 21, 1, 21, REQUIRED, GIVEN, WHOLE,                                                           \
      "number of the wood: 1 sugar maple, 2 red maple, 3 yellow birch, 4 paper birch, 5 American beech, 6 white ash, " \
      "7 white oak, 8 northern red oak, 9 yellow-poplar, 10 eastern cottonwood, 11 basswood, 12 Douglas-fir (coast), " \
      "13 Douglas-fir (interior south), 14 ponderosa pine, 15 red pine, 16 shortleaf pine, 17 slash pine, "          \
      "18 western white pine, 19 loblolly pine, 20 plywood (Structural I), 21 plywood (other grades)")
#define OUTPUTS(F)                                                                                                   \
    F(wood_gravity_ratio, FINITE, "specific gravity, oven-dry mass over volume at 12 percent moisture")              \
    F(density_kg_m3, FINITE, "density at 12 percent moisture")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(NOTE, plywood, IN(species_count), 1, NO_FIELD, 0, ABOVE, 19, NO_GUARD,                                         \
      "withdrawal from plywood is over-predicted by the formulas for solid wood")
#define STANDING(S) S("Gravities that a standard assigns to groups of species differ from these: do not mix them.")

UNG_INLINE double pick(double number, double a, double b, double c, double d, double e, double f, double g)
{
    double late = number == 5 ? e : number == 6 ? f : g;
    return number == 1 ? a : number == 2 ? b : number == 3 ? c : number == 4 ? d : late;
}

UNG_INLINE ung_wood_species_out formula(const ung_wood_species_in *in, double *refusal)
{
    double number = in->species_count;
    double first = pick(number, 0.63, 0.54, 0.62, 0.55, 0.64, 0.6, 0.68);
    double second = pick(number - 7, 0.63, 0.42, 0.4, 0.37, 0.48, 0.46, 0.4);
    double third = pick(number - 14, 0.46, 0.51, 0.59, 0.38, 0.51, 0.5, 0.42);

    *refusal = 0;
    ung_wood_species_out out;
    out.wood_gravity_ratio = number <= 7 ? first : number <= 14 ? second : third;
    out.density_kg_m3 = 1120 * out.wood_gravity_ratio;
    return out;
}

#include "core/define.h"
