/* libungula: the numbers for fitting a wooden therapeutic shoe to a hoof without nails.  See ungula(3). */
#ifndef UNGULA_H
#define UNGULA_H

#include <ungula/core.h>

#include <ungula/shape.h> /* outline, belt round the hoof, wall thickness */
#include <ungula/screw.h> /* fasteners in horn and wood */
#include <ungula/bond.h>  /* adhesive */
#include <ungula/cast.h>  /* casting tape */
#include <ungula/bevel.h> /* the rear of the ground face */
#include <ungula/packing.h> /* putty and cushion */
#include <ungula/cure.h>  /* how the adhesive sets */
#include <ungula/horse.h> /* loads on a foot, growth */
#include <ungula/job.h>   /* what joins the calculations */
#include <ungula/plan.h>  /* the whole job */

#endif
