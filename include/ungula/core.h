/* libungula: what every calculation shares.
 *
 * A calculation is a pure function from one plain struct of doubles to another, and a contract says what
 * every field is: its unit, the range outside which it is refused, the range usual in the trade, its
 * standard value, its meaning.  Nothing is read, written, printed, allocated or remembered.
 *
 *     ung_cast_length_in foot = ung_cast_length_standard();      standard values; NaN where a value is required
 *     foot.circumference_low_mm = 405;  ...
 *     ung_cast_length_out tape;
 *     ung_fault fault;
 *     if (ung_cast_length(&foot, &tape, &fault) < 0)  ...        what was refused, and why, is in fault
 *
 * The library computes; the attending veterinarian and a qualified farrier decide.
 */
#ifndef UNGULA_CORE_H
#define UNGULA_CORE_H

#include <stddef.h>

#if defined(__GNUC__) && !defined(UNG_BUILDING)
#define UNG_NEEDS_IN_AND_OUT __attribute__((warn_unused_result, nonnull(1, 2)))
#else
#define UNG_NEEDS_IN_AND_OUT /* the library itself tests for NULL, so its own compiler must not assume it away */
#endif
#if defined(__GNUC__)
#define UNG_CONST __attribute__((const))
#define UNG_PURE __attribute__((pure))
#define UNG_CHECKED __attribute__((warn_unused_result))
#define UNG_PUBLIC __attribute__((visibility("default")))
#else
#define UNG_CONST
#define UNG_PURE
#define UNG_CHECKED
#define UNG_PUBLIC
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* Status: 0 is fine, below 0 the call was refused and every result is NaN (of a batch: see ung_batch).
 * What is merely doubtful about a valid result is never a status: it is a caution. */
typedef enum ung_status {
    UNG_OK = 0,
    UNG_NULL = -1,     /* a pointer that must not be NULL is NULL */
    UNG_MISSING = -2,  /* a required field was left unset (NaN) */
    UNG_RANGE = -3,    /* a field is outside its accepted range, infinite, or not a number */
    UNG_WHOLE = -4,    /* a count or switch is not a whole number */
    UNG_RELATION = -5, /* the fields are acceptable one by one but not together */
    UNG_COUNT = -6,    /* a list has too few or too many rows */
    UNG_OVERLAP = -7,  /* batch columns share memory where they must not */
    UNG_UNKNOWN = -8   /* no such calculation, field, caution or option */
} ung_status;

/* One short English sentence for a status; never NULL. */
UNG_PUBLIC const char *ung_status_text(ung_status status) UNG_CONST;

/* Where a number comes from. */
typedef enum ung_kind {
    UNG_GIVEN = 0,     /* no standard value: the caller has to give it */
    UNG_NEUTRAL = 1,   /* a zero (or a 1) that means "there is none of it" */
    UNG_PUBLISHED = 2, /* a standard, handbook or paper */
    UNG_PRACTICE = 3,  /* common practice of the trade, no source */
    UNG_CHOICE = 4,    /* the library's own choice; the reason stands beside it */
    UNG_MEMORY = 5     /* recalled from a source that was not at hand */
} ung_kind;

UNG_PUBLIC const char *ung_kind_text(ung_kind kind) UNG_CONST;

/* One input or result.  All members point to constant storage.  A new member is a new soname: lists hold them
 * side by side, and ung_plan_input gives them by value. */
typedef struct ung_field {
    const char *name;                /* ends in its unit: wall_thickness_mm */
    const char *meaning;             /* one line */
    double lower, upper;             /* accepted (hard) range; outside it the call is refused.  Results: not used (NaN) */
    double usual_lower, usual_upper; /* what a form, a sweep or a study would offer.  Results: not used (NaN) */
    double standard;                 /* standard value; NaN = required */
    ung_kind standard_kind;
    int whole;        /* 1: whole numbers only */
    int may_be_infinite; /* 1: a result that may be +infinity */
} ung_field;

/* The unit that a field's name ends in, as printed: "mm", "mm2", "mL", "deg", "" (pure number) ... */
UNG_PUBLIC const char *ung_field_unit(const char *name) UNG_PURE;

/* A contract: everything known about one calculation.  Opaque. */
typedef struct ung_calculation ung_calculation;

/* Refusal: what, where, why.  Filled by every call that takes one, also when all is fine. */
#define UNG_NO_INDEX ((size_t)-1)
typedef struct ung_fault {
    ung_status status;
    const char *calculation; /* NULL where none is concerned */
    const char *field;       /* name of the field (of the first field of a relation, of a pointer); NULL if none */
    const char *unit;        /* of that field; "" for pure numbers */
    double value;            /* what was given */
    double lower, upper;     /* what would be accepted; NaN where a relation decides */
    const char *other;       /* relation: the other field, or NULL */
    const char *other_unit;
    double other_value;
    const char *text;  /* relation: why; otherwise NULL */
    size_t input;      /* number of the field, from 1; 0 if none */
    size_t index;      /* batch element or row of a list, from 0; UNG_NO_INDEX if none */
    size_t other_index; /* a second row that the refusal is about; UNG_NO_INDEX if none */
    const char *rows;  /* name of the list that index counts in; NULL for batch elements */
    size_t count;      /* batch that goes on: how many elements were refused */
} ung_fault;

/* The sentence for a person, the same in every language that binds the library.  Writes at most size bytes
 * with the final NUL, returns the length the whole text has (as snprintf does).  ung_fault_text expects
 * UNG_FAULT_TEXT bytes, which always suffices, and returns its buffer. */
#define UNG_FAULT_TEXT 512
UNG_PUBLIC size_t ung_fault_format(const ung_fault *fault, char *buffer, size_t size);
UNG_PUBLIC char *ung_fault_text(const ung_fault *fault, char *buffer);

/* A number as the library prints it: up to 15 significant digits, always a decimal point, no locale. */
#define UNG_NUMBER_TEXT 32
UNG_PUBLIC char *ung_number_text(double value, char *buffer);

/* Cautions: what is doubtful about a valid result. */
typedef enum ung_severity { UNG_NOTE = 0, UNG_WARN = 1, UNG_STOP = 2 } ung_severity;
UNG_PUBLIC const char *ung_severity_text(ung_severity severity) UNG_CONST; /* "note", "warn", "stop" */

typedef enum ung_comparison { UNG_BELOW = 0, UNG_ABOVE = 1, UNG_EQUAL = 2, UNG_ALWAYS = 3 } ung_comparison;

/* A caution holds where  factor x field + other_factor x other  <compares with>  limit, and the guard holds too.
 * Fields are numbered inputs first, then results; -1 is no field. */
typedef struct ung_rule {
    ung_severity severity;
    const char *code; /* short and stable, for programs */
    const char *text; /* for people */
    int field;
    double factor;
    int other;
    double other_factor;
    ung_comparison comparison;
    double limit;
    int guard; /* -1: no guard */
    ung_comparison guard_comparison;
    double guard_limit;
} ung_rule;

typedef struct ung_caution {
    ung_severity severity;
    const char *calculation, *code, *text;
    const char *field, *unit; /* the field that tripped it */
    double value;             /* its value, and the value it passed */
    double limit;
    ung_comparison comparison;
} ung_caution;

#define UNG_CAUTIONS_MOST 16 /* no calculation has more rules */
#define UNG_FIELDS_MOST 40   /* no calculation has more inputs, or more results */

/* A source, with what it gives. */
typedef struct ung_source {
    ung_kind kind;
    const char *citation;
    const char *gives;
} ung_source;

/* A list of plain structs of doubles that travels with a calculation (an outline's points). */
typedef struct ung_list {
    const char *name, *meaning;
    const char *row; /* type of a row: "ung_point" */
    int is_result; /* 1: filled by the call; its count is what the caller asks for */
    int same_count_as; /* the list that it has as many rows as; -1: any number from least to most */
    size_t least, most;
    size_t field_count;
    const ung_field *fields;
} ung_list;
typedef struct ung_rows {
    double *data; /* row after row */
    size_t count;
} ung_rows;

/* Looking things up.  Indices start at 0; out of range gives NULL. */
UNG_PUBLIC size_t ung_calculation_count(void) UNG_CONST;
UNG_PUBLIC const ung_calculation *ung_calculation_at(size_t index) UNG_CONST;
UNG_PUBLIC const ung_calculation *ung_calculation_find(const char *name) UNG_PURE;
UNG_PUBLIC const char *ung_calculation_name(const ung_calculation *calculation) UNG_PURE;
UNG_PUBLIC const char *ung_calculation_room(const ung_calculation *calculation) UNG_PURE;
UNG_PUBLIC const char *ung_calculation_title(const ung_calculation *calculation) UNG_PURE;
UNG_PUBLIC const char *ung_calculation_about(const ung_calculation *calculation) UNG_PURE;    /* the model */
UNG_PUBLIC const char *ung_calculation_accuracy(const ung_calculation *calculation) UNG_PURE; /* what was measured */
UNG_PUBLIC size_t ung_input_count(const ung_calculation *calculation) UNG_PURE;
UNG_PUBLIC const ung_field *ung_input(const ung_calculation *calculation, size_t index) UNG_PURE;
UNG_PUBLIC size_t ung_output_count(const ung_calculation *calculation) UNG_PURE;
UNG_PUBLIC const ung_field *ung_output(const ung_calculation *calculation, size_t index) UNG_PURE;
UNG_PUBLIC size_t ung_list_count(const ung_calculation *calculation) UNG_PURE;
UNG_PUBLIC const ung_list *ung_list_at(const ung_calculation *calculation, size_t index) UNG_PURE;
UNG_PUBLIC size_t ung_refusal_count(const ung_calculation *calculation) UNG_PURE;
UNG_PUBLIC const char *ung_refusal(const ung_calculation *calculation, size_t index) UNG_PURE;
UNG_PUBLIC size_t ung_rule_count(const ung_calculation *calculation) UNG_PURE;
UNG_PUBLIC const ung_rule *ung_rule_at(const ung_calculation *calculation, size_t index) UNG_PURE;
UNG_PUBLIC size_t ung_standing_count(const ung_calculation *calculation) UNG_PURE;
UNG_PUBLIC const char *ung_standing(const ung_calculation *calculation, size_t index) UNG_PURE;
UNG_PUBLIC size_t ung_source_count(const ung_calculation *calculation) UNG_PURE;
UNG_PUBLIC const ung_source *ung_source_at(const ung_calculation *calculation, size_t index) UNG_PURE;

/* How many doubles of workspace a calculation needs for so many rows in its first list; 0 for most. */
UNG_PUBLIC size_t ung_workspace(const ung_calculation *calculation, size_t row_count) UNG_PURE;

/* Any calculation by its contract, on raw doubles in field order: for bindings and tools.  rows has one entry a
 * list of the contract, then one for the workspace where it needs one, and may be NULL where there are none. */
UNG_PUBLIC UNG_CHECKED ung_status ung_call(const ung_calculation *calculation, const double *in,
                                           const ung_rows *rows, double *out, ung_fault *fault);
/* Standard values (NaN where required) into in[ung_input_count]. */
UNG_PUBLIC void ung_standard(const ung_calculation *calculation, double *in);

/* The cautions of a result into caution[capacity], the most severe first.  Returns how many hold, which may be
 * more than capacity; UNG_CAUTIONS_MOST always suffices. */
UNG_PUBLIC size_t ung_cautions(const ung_calculation *calculation, const double *in, const double *out,
                               ung_caution *caution, size_t capacity);

/* The nearest value of one input at which a caution no longer holds, the call is accepted, and no stop stands
 * that does not stand now.  The other inputs stay.  *value is NaN where no accepted value of this input does it.
 * What is narrower than 1/512 of the way to an end of the range is not seen.  Where any other value would do (0 = not
 * measured) it is an end of the usual range. */
UNG_PUBLIC UNG_CHECKED ung_status ung_caution_lift(const ung_calculation *calculation, const double *in,
                                                   const char *code, size_t input, double *value, ung_fault *fault);

/* Columns.  An element of a column is a double at base + i x stride bytes; stride 0 is a constant. */
typedef struct ung_column {
    const void *base; /* NULL: the field's standard value */
    ptrdiff_t stride;
} ung_column;
typedef struct ung_target {
    void *base; /* NULL: this result is not wanted */
    ptrdiff_t stride;
} ung_target;
#ifdef __cplusplus
#define UNG_COLUMN(array) ung_column{(array), (ptrdiff_t)sizeof(double)}
#define UNG_CONSTANT(pointer) ung_column{(pointer), 0}
#define UNG_MEMBER(structs, member) ung_column{&(structs)->member, (ptrdiff_t)sizeof *(structs)}
#define UNG_TARGET(array) ung_target{(array), (ptrdiff_t)sizeof(double)}
#define UNG_TARGET_MEMBER(structs, member) ung_target{&(structs)->member, (ptrdiff_t)sizeof *(structs)}
#else
#define UNG_COLUMN(array) ((ung_column){(array), (ptrdiff_t)sizeof(double)})
#define UNG_CONSTANT(pointer) ((ung_column){(pointer), 0})
#define UNG_MEMBER(structs, member) ((ung_column){&(structs)->member, (ptrdiff_t)sizeof *(structs)})
#define UNG_TARGET(array) ((ung_target){(array), (ptrdiff_t)sizeof(double)})
#define UNG_TARGET_MEMBER(structs, member) ((ung_target){&(structs)->member, (ptrdiff_t)sizeof *(structs)})
#endif

enum {
    UNG_STOP_AT_FAULT = 0, /* the first refused element ends the batch: results before it stand, NaN from there on */
    UNG_GO_ON = 1          /* refused elements get NaN; fault tells the first, and how many */
};

/* One calculation over n elements: in[ung_input_count], out[ung_output_count], both in field order.  The results
 * are bit for bit those of n single calls.  An output column may be exactly an input column (same base, same
 * stride) and may not share memory with a column otherwise; columns of different strides count as sharing
 * memory where their spans meet.  Calculations with lists are refused (UNG_UNKNOWN). */
UNG_PUBLIC UNG_CHECKED ung_status ung_batch(const ung_calculation *calculation, size_t n, const ung_column *in,
                                            const ung_target *out, unsigned options, ung_fault *fault);

/* Version of the library that runs, as "1.2.3". */
UNG_PUBLIC const char *ung_version(void) UNG_CONST;

/* Declares the four functions that every calculation has beside its two structs:
 *   ung_<name>_in ung_<name>_standard(void)      standard values, NaN where required: the way to begin an input
 *   ung_status ung_<name>(in, out, fault)        fault may be NULL
 *   size_t ung_<name>_cautions(in, out, caution, capacity)
 *   const ung_calculation *ung_<name>_contract(void)
 * UNG_CALCULATION_WITH_LISTS leaves the second to be declared with its lists. */
#define UNG_CALCULATION(name)                                                                                     \
    UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_##name(const ung_##name##_in *in, ung_##name##_out *out,       \
                                                          ung_fault *fault);                                      \
    UNG_CALCULATION_WITH_LISTS(name)
#define UNG_CALCULATION_WITH_LISTS(name)                                                                          \
    UNG_PUBLIC ung_##name##_in ung_##name##_standard(void) UNG_CONST;                                             \
    UNG_PUBLIC size_t ung_##name##_cautions(const ung_##name##_in *in, const ung_##name##_out *out,               \
                                            ung_caution *caution, size_t capacity);                               \
    UNG_PUBLIC const ung_calculation *ung_##name##_contract(void) UNG_CONST

#ifdef __cplusplus
}
#endif
#endif
