/* Makes a calculation out of its lists; included last by each calculation's file, and by nothing else.
 *
 * The file defines, before the include (lists hold data only):
 *   NAME, ROOM            identifiers: heel_bevel, bevel
 *   TITLE, ABOUT, ACCURACY     texts
 *   SOURCES(S)    S(KIND, citation, gives)
 *   INPUTS(F)     F(name, lower, upper, usual_lower, usual_upper, standard, KIND, WHOLE or MEASURE, meaning)
 *   OUTPUTS(F)    F(name, FINITE or INFINITE, meaning)
 *   REFUSALS(R)   R(field, other or NO_FIELD, text)          numbered from 1 in this order: the formula's `refusal`
 *   CAUTIONS(C)   C(SEVERITY, code, field, factor, other, other_factor, COMPARISON, limit, guard, GUARD_COMPARISON, guard_limit, text)
 *                 fields written IN(name), OUT(name) or NO_FIELD
 *   STANDING(S)   S(text)
 *   SERIAL        if the formula has loops: its kernel is not vectorized
 *   LISTS(L)      if it takes lists: L(GIVEN or FILLED, name, row type, least, most, same, fields, meaning)
 *                 same: number of the list that it has as many rows as, or NO_FIELD
 *                 fields: a list macro FIELDS(F, type) with F(type, member, lower, upper, meaning)
 *   LIST_REFUSALS(R)  R(number of the list, text)          numbered on from REFUSALS
 *   WORK_PER_ROW, WORK_MORE   doubles of workspace for each row of the first list, and more, if it needs any
 * and the function `formula`: on structs, every result from accepted inputs, `refusal` by selects; with lists,
 *   result formula(const in *, const ung_rows *rows, ung__where *where). */

#include "core/contract.h"

#define UNG__PASTE_(a, b, c) a##b##c
#define UNG__PASTE(a, b, c) UNG__PASTE_(a, b, c)
#define UNG__STRING_(a) #a
#define UNG__STRING(a) UNG__STRING_(a)
#define UNG__IN UNG__PASTE(ung_, NAME, _in)
#define UNG__OUT UNG__PASTE(ung_, NAME, _out)
#define UNG__PLACE(type, member) (offsetof(type, member) / sizeof(double))

/* Words of the lists. */
#define REQUIRED UNG__NAN
#define MEASURE 0
#define WHOLE 1
#define FINITE 0
#define INFINITE 1
#define NO_FIELD (-1)
#define IN(member) ((int)UNG__PLACE(UNG__IN, member))
#define OUT(member) ((int)(UNG__PLACE(UNG__OUT, member) + sizeof(UNG__IN) / sizeof(double)))
#define NO_GUARD NO_FIELD, ALWAYS, 0

/* _Generic keeps a member that is not a double from compiling. */
#define UNG__ONLY_DOUBLE(type, member, value) _Generic(((type *)0)->member, double : (value))

#define UNG__INPUT_ROW(member, lower, upper, usual_lower, usual_upper, standard, kind, whole, meaning)            \
    [UNG__PLACE(UNG__IN, member)] = {#member, meaning, lower, upper, usual_lower, usual_upper,                    \
                                     UNG__ONLY_DOUBLE(UNG__IN, member, standard), UNG_##kind, whole, 0},
/* Not static: the plan asks for the same fields, and takes their rows from here. */
#define UNG__INPUT_ROWS UNG__PASTE(ung__, NAME, _inputs)
extern const ung_field UNG__INPUT_ROWS[];
const ung_field UNG__INPUT_ROWS[] = {INPUTS(UNG__INPUT_ROW)};

#define UNG__OUTPUT_ROW(member, infinite, meaning)                                                                \
    [UNG__PLACE(UNG__OUT, member)] = {                                                                            \
        #member,  meaning,  UNG__NAN, UNG__NAN,                                                                   \
        UNG__NAN, UNG__NAN, UNG__ONLY_DOUBLE(UNG__OUT, member, UNG__NAN), UNG_GIVEN, 0, infinite},
static const ung_field outputs[] = {OUTPUTS(UNG__OUTPUT_ROW)};

/* The lists name every member once: as many rows as doubles, and a row for each (a repeated name would leave the
 * count too high, a missing one too low). */
#define UNG__ONE(...) +1
_Static_assert(0 INPUTS(UNG__ONE) == sizeof(UNG__IN) / sizeof(double), "INPUTS lists every member of the input struct");
_Static_assert(0 OUTPUTS(UNG__ONE) == sizeof(UNG__OUT) / sizeof(double), "OUTPUTS lists every member of the result");
_Static_assert(sizeof UNG__INPUT_ROWS / sizeof *UNG__INPUT_ROWS <= UNG_FIELDS_MOST, "raise UNG_FIELDS_MOST");
_Static_assert(sizeof outputs / sizeof *outputs <= UNG_FIELDS_MOST, "raise UNG_FIELDS_MOST");

/* Each table ends in an entry that is not counted, so that none is empty. */
#define UNG__RELATION_ROW(member, second, text) {(int)UNG__PLACE(UNG__IN, member), second, text},
#define UNG__LIST_RELATION_ROW(list, text) {-1 - list, -1, text},
#ifndef LIST_REFUSALS
#define LIST_REFUSALS(R)
#endif
static const ung__relation relations[] = {REFUSALS(UNG__RELATION_ROW) LIST_REFUSALS(UNG__LIST_RELATION_ROW){0, -1, ""}};

#define UNG__RULE_ROW(severity, code, field, factor, second, second_factor, comparison, limit, ...)               \
    UNG__RULE_ROW_(severity, code, field, factor, second, second_factor, comparison, limit, __VA_ARGS__)
#define UNG__RULE_ROW_(severity, code, field, factor, second, second_factor, comparison, limit, guard,            \
                       guard_comparison, guard_limit, text)                                                       \
    {UNG_##severity, #code, text,  field,       factor, second, second_factor, UNG_##comparison,                  \
     limit,          guard, UNG_##guard_comparison, guard_limit},
static const ung_rule rules[] = {CAUTIONS(UNG__RULE_ROW){UNG_NOTE, "", "", -1, 0, -1, 0, UNG_ALWAYS, 0, -1, UNG_ALWAYS, 0}};
_Static_assert(sizeof rules / sizeof *rules - 1 <= UNG_CAUTIONS_MOST, "raise UNG_CAUTIONS_MOST");

#define UNG__STANDING_ROW(text) text,
static const char *const standings[] = {STANDING(UNG__STANDING_ROW) ""};

#define UNG__SOURCE_ROW(kind, citation, gives) {UNG_##kind, citation, gives},
static const ung_source sources[] = {SOURCES(UNG__SOURCE_ROW){UNG_CHOICE, "", ""}};

#define UNG__COUNTED(table) (sizeof table / sizeof *table - 1)

#ifdef LISTS

/* A list's row type has its own table of fields. */
#define UNG__ROW_FIELD(type, member, lower, upper, meaning)                                                       \
    [UNG__PLACE(type, member)] = {#member, meaning, lower, upper, lower, upper,                                   \
                                  UNG__ONLY_DOUBLE(type, member, UNG__NAN), UNG_GIVEN, 0, 0},
#define UNG__LIST_FIELDS(direction, name, type, least, most, same, fields, meaning)                               \
    static const ung_field name##_fields[] = {fields(UNG__ROW_FIELD, type)};                                      \
    _Static_assert(sizeof name##_fields / sizeof *name##_fields == sizeof(type) / sizeof(double), #name);
LISTS(UNG__LIST_FIELDS)
#define UNG__LIST_IS_GIVEN 0
#define UNG__LIST_IS_FILLED 1
#define UNG__LIST_ROW(direction, name, type, least, most, same, fields, meaning)                                  \
    {#name, meaning, #type, UNG__LIST_IS_##direction, same, least, most, sizeof name##_fields / sizeof *name##_fields,   \
     name##_fields},
static const ung_list lists[] = {LISTS(UNG__LIST_ROW){"", "", "", 0, -1, 0, 0, 0, UNG__INPUT_ROWS}};

static void evaluate(const double *in, const ung_rows *rows, double *out, ung__where *where)
{
    UNG__IN x;
    __builtin_memcpy(&x, in, sizeof x);
    UNG__OUT y = formula(&x, rows, where);
    __builtin_memcpy(out, &y, sizeof y);
}
#define UNG__KERNELS {0, 0, 0}

#else

static const ung_list lists[] = {{"", "", "", 0, -1, 0, 0, 0, UNG__INPUT_ROWS}};

static void evaluate(const double *in, const ung_rows *rows, double *out, ung__where *where)
{
    (void)rows;
    UNG__IN x;
    __builtin_memcpy(&x, in, sizeof x);
    UNG__OUT y = formula(&x, &where->refusal);
    __builtin_memcpy(out, &y, sizeof y);
}

/* Members are loaded and stored by name: filled as an array, the struct would keep the loop from vectorizing. */
#define UNG__LOAD(member, ...) x.member = in[UNG__PLACE(UNG__IN, member)][i];
#define UNG__STORE(member, ...) out[UNG__PLACE(UNG__OUT, member)][i] = y.member;
#define UNG__ELEMENT                                                                                              \
    UNG__IN x;                                                                                                    \
    double broken = 0;                                                                                            \
    INPUTS(UNG__LOAD)                                                                                             \
    UNG__OUT y = formula(&x, &broken);                                                                            \
    OUTPUTS(UNG__STORE)                                                                                           \
    refusal[i] = broken;

#ifdef SERIAL
static void kernel_plain(double (*in)[UNG_BLOCK], double (*out)[UNG_BLOCK], double *refusal, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        UNG__ELEMENT
    }
}
#define UNG__KERNELS {kernel_plain, kernel_plain, kernel_plain}
#else
/* A whole block whatever n is, so that the loop has no tail; the batch fills unused places with accepted values. */
#define UNG__KERNEL(name, target)                                                                                 \
    target static void name(double (*in)[UNG_BLOCK], double (*out)[UNG_BLOCK], double *refusal, size_t n)         \
    {                                                                                                             \
        (void)n;                                                                                                  \
        _Pragma("omp simd") for (size_t i = 0; i < UNG_BLOCK; i++)                                                \
        {                                                                                                         \
            UNG__ELEMENT                                                                                          \
        }                                                                                                         \
    }
UNG__KERNEL(kernel_plain, )
#ifdef UNG_WIDE
UNG__KERNEL(kernel_avx2, __attribute__((target("avx2"))))
UNG__KERNEL(kernel_avx512, __attribute__((target("avx512f"))))
#define UNG__KERNELS {kernel_plain, kernel_avx2, kernel_avx512}
#else
#define UNG__KERNELS {kernel_plain, kernel_plain, kernel_plain}
#endif
#endif

#endif /* LISTS */

#ifndef WORK_PER_ROW
#define WORK_PER_ROW 0
#define WORK_MORE 0
#endif

static const ung_calculation contract = {
    UNG__STRING(NAME), UNG__STRING(ROOM), TITLE, ABOUT, ACCURACY,
    sizeof UNG__INPUT_ROWS / sizeof *UNG__INPUT_ROWS, sizeof outputs / sizeof *outputs, UNG__COUNTED(lists), UNG__COUNTED(relations),
    UNG__COUNTED(rules), UNG__COUNTED(standings), UNG__COUNTED(sources),
    UNG__INPUT_ROWS, outputs, lists, relations, rules, standings, sources, evaluate, UNG__KERNELS, WORK_PER_ROW, WORK_MORE};

const ung_calculation *UNG__PASTE(ung_, NAME, _contract)(void)
{
    return &contract;
}

UNG__IN UNG__PASTE(ung_, NAME, _standard)(void)
{
    UNG__IN in;
    ung_standard(&contract, (double *)&in);
    return in;
}

size_t UNG__PASTE(ung_, NAME, _cautions)(const UNG__IN *in, const UNG__OUT *out, ung_caution *caution, size_t capacity)
{
    return ung_cautions(&contract, (const double *)in, (const double *)out, caution, capacity);
}

#ifdef LISTS
#define UNG__CONST_GIVEN const
#define UNG__CONST_FILLED
#define UNG__LIST_PARAMETER(direction, name, type, ...) UNG__CONST_##direction type *name, size_t name##_count,
#define UNG__LIST_ARGUMENT(direction, name, ...) {(double *)name, name##_count},
#if WORK_PER_ROW + WORK_MORE > 0
#define UNG__WORK_PARAMETER double *work, size_t work_count,
#define UNG__WORK_ARGUMENT {work, work_count}
#else
#define UNG__WORK_PARAMETER
#define UNG__WORK_ARGUMENT {0, 0}
#endif
ung_status UNG__PASTE(ung_, NAME, )(const UNG__IN *in, LISTS(UNG__LIST_PARAMETER) UNG__WORK_PARAMETER UNG__OUT *out,
                                    ung_fault *fault)
{
    ung_rows rows[] = {LISTS(UNG__LIST_ARGUMENT) UNG__WORK_ARGUMENT};
    return ung_call(&contract, (const double *)in, rows, (double *)out, fault);
}
#else
ung_status UNG__PASTE(ung_, NAME, )(const UNG__IN *in, UNG__OUT *out, ung_fault *fault)
{
    return ung_call(&contract, (const double *)in, 0, (double *)out, fault);
}
#endif
