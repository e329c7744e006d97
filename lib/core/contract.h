/* What a contract is inside the library, and what core's files share.  Names begin with ung__: the static archive hides nothing. */
#ifndef UNG_CORE_CONTRACT_H
#define UNG_CORE_CONTRACT_H

#include <ungula/core.h>

#include "core/elementary.h"

enum { UNG_BLOCK = 64 }; /* elements a kernel call; larger blocks stall on memory, smaller ones cost calls */
enum { UNG_WIDTHS = 3 }; /* kernels: plain, avx2, avx512f */

/* Fields in columns of one block; refusal[i] gets 0 or the number of the relation that does not hold. */
typedef void ung__kernel(double (*in)[UNG_BLOCK], double (*out)[UNG_BLOCK], double *refusal, size_t n);

/* What a formula refuses: 0 or the number of the relation, and for lists the rows, the value that broke it and the
 * one that would just be accepted (NaN: none). */
typedef struct ung__where {
    double refusal, row, other_row, value, limit;
    const char *unit; /* of value and limit */
} ung__where;
/* One evaluation on accepted values. */
typedef void ung__evaluate(const double *in, const ung_rows *rows, double *out, ung__where *where);

/* A relation between fields, or of the rows of a list, tested by the formula. */
typedef struct ung__relation {
    int field, other; /* inputs; field -1 - k: list k; other -1: none */
    const char *text;
} ung__relation;

struct ung_calculation {
    const char *name, *room, *title, *about, *accuracy;
    size_t input_count, output_count, list_count, relation_count, rule_count, standing_count, source_count;
    const ung_field *inputs, *outputs;
    const ung_list *lists;
    const ung__relation *relations;
    const ung_rule *rules;
    const char *const *standings;
    const ung_source *sources;
    ung__evaluate *evaluate;
    ung__kernel *kernel[UNG_WIDTHS]; /* NULL for calculations with lists */
    size_t work_per_row, work_more;  /* workspace in doubles, for lists */
};

#define UNG__NAN (__builtin_nan(""))
#define UNG__INFINITY (__builtin_inf())

void ung__fault_none(ung_fault *fault, const ung_calculation *calculation);
ung_status ung__fault_null(ung_fault *fault, const ung_calculation *calculation, const char *pointer);
/* Ranges in field order, then whole numbers: the first that does not hold, described in fault. */
ung_status ung__check_inputs(const ung_calculation *calculation, const double *in, ung_fault *fault);
/* One value against one field that stands in no calculation's table; fault is only set where it is refused. */
ung_status ung__check_value(const ung_field *field, size_t number, double value, ung_fault *fault);
ung_status ung__fault_relation(ung_fault *fault, const ung_calculation *calculation, const double *in,
                               const ung__where *where);
const char *ung__field_name(const ung_calculation *calculation, int field);

/* The batch with a chosen kernel width, for the tests that compare widths; -1: by CPU. */
ung_status ung__batch(const ung_calculation *calculation, size_t n, const ung_column *in, const ung_target *out,
                      unsigned options, int width, ung_fault *fault);
/* The widest kernels that this CPU runs. */
int ung__width(void);

/* A growing text in a buffer of fixed size. */
typedef struct ung__text {
    char *buffer;
    size_t size, length;
} ung__text;
void ung__put(ung__text *text, const char *string);
void ung__put_number(ung__text *text, double value);

#endif
