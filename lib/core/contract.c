/* Looking contracts up, checking inputs against them, and the single call. */
#include "core/contract.h"

/* Every calculation, in the order of the work. */
#define CALCULATIONS(C) \
    C(outline_standard) \
    C(wall_from_border) \
    C(hoof_band)        \
    C(outline_measure)  \
    C(outline_resample) \
    C(outline_at)       \
    C(outline_inset)    \
    C(outline_fit)      \
    C(wall_profile)     \
    C(outline_band)     \
    C(shoe_footprint)   \
    C(screw_depth)      \
    C(screw_layout)     \
    C(screw_through)    \
    C(screw_hold)       \
    C(screw_combined)   \
    C(screw_group)      \
    C(lead_hole)        \
    C(screw_gauge)      \
    C(wood_species)     \
    C(glue_volume)      \
    C(bond_hold)        \
    C(bond_group)       \
    C(cast_length)      \
    C(cast_set)         \
    C(heel_bevel)       \
    C(heel_wear)        \
    C(packing_volume)   \
    C(dam_volume)       \
    C(cup_cure)         \
    C(cure_energy)      \
    C(working_time)     \
    C(cup_curve)        \
    C(wall_heat)        \
    C(limb_load)        \
    C(coffin_lever)     \
    C(hoof_growth)      \
    C(hold)             \
    C(shoe_mass)        \
    C(job_timeline)

#define DECLARE(name) const ung_calculation *ung_##name##_contract(void);
CALCULATIONS(DECLARE)

typedef const ung_calculation *contract_function(void);
#define ENTRY(name) ung_##name##_contract,
static contract_function *const all[] = {CALCULATIONS(ENTRY)};

static int same(const char *a, const char *b)
{
    while (*a && *a == *b)
        a++, b++;
    return *a == *b;
}

size_t ung_calculation_count(void)
{
    return sizeof all / sizeof *all;
}

const ung_calculation *ung_calculation_at(size_t index)
{
    return index < sizeof all / sizeof *all ? all[index]() : 0;
}

const ung_calculation *ung_calculation_find(const char *name)
{
    for (size_t i = 0; name && i < sizeof all / sizeof *all; i++)
        if (same(all[i]()->name, name))
            return all[i]();
    return 0;
}

/* Reading a contract: NULL gives NULL or 0, an index out of range gives NULL. */
#define TEXT(function, member)                                                                                     \
    const char *function(const ung_calculation *calculation) { return calculation ? calculation->member : 0; }
TEXT(ung_calculation_name, name)
TEXT(ung_calculation_room, room)
TEXT(ung_calculation_title, title)
TEXT(ung_calculation_about, about)
TEXT(ung_calculation_accuracy, accuracy)

#define COUNTED(type, count_function, function, count, item)                                                      \
    size_t count_function(const ung_calculation *calculation) { return calculation ? calculation->count : 0; }    \
    type function(const ung_calculation *calculation, size_t index)                                               \
    {                                                                                                             \
        return calculation && index < calculation->count ? calculation->item : 0;                                 \
    }
COUNTED(const ung_field *, ung_input_count, ung_input, input_count, inputs + index)
COUNTED(const ung_field *, ung_output_count, ung_output, output_count, outputs + index)
COUNTED(const ung_list *, ung_list_count, ung_list_at, list_count, lists + index)
COUNTED(const char *, ung_refusal_count, ung_refusal, relation_count, relations[index].text)
COUNTED(const ung_rule *, ung_rule_count, ung_rule_at, rule_count, rules + index)
COUNTED(const char *, ung_standing_count, ung_standing, standing_count, standings[index])
COUNTED(const ung_source *, ung_source_count, ung_source_at, source_count, sources + index)

size_t ung_workspace(const ung_calculation *calculation, size_t row_count)
{
    return calculation ? calculation->work_per_row * row_count + calculation->work_more : 0;
}

void ung_standard(const ung_calculation *calculation, double *in)
{
    for (size_t i = 0; calculation && in && i < calculation->input_count; i++)
        in[i] = calculation->inputs[i].standard;
}

const char *ung__field_name(const ung_calculation *c, int field)
{
    size_t i = (size_t)field;
    return field < 0 ? 0 : i < c->input_count ? c->inputs[i].name : c->outputs[i - c->input_count].name;
}

void ung__fault_none(ung_fault *fault, const ung_calculation *calculation)
{
    if (fault)
        *fault = (ung_fault){.status = UNG_OK,
                             .calculation = ung_calculation_name(calculation),
                             .unit = "",
                             .value = UNG__NAN,
                             .lower = UNG__NAN,
                             .upper = UNG__NAN,
                             .other_unit = "",
                             .other_value = UNG__NAN,
                             .index = UNG_NO_INDEX,
                             .other_index = UNG_NO_INDEX};
}

static ung_status set(ung_fault *fault, ung_status status)
{
    if (fault)
        fault->status = status;
    return status;
}

ung_status ung__fault_null(ung_fault *fault, const ung_calculation *calculation, const char *pointer)
{
    ung__fault_none(fault, calculation);
    if (fault)
        fault->field = pointer;
    return set(fault, UNG_NULL);
}

/* One value against one field. */
static ung_status check(const ung_field *field, double value)
{
    if (value >= field->lower && value <= field->upper)
        return UNG_OK;
    return value != value && field->standard != field->standard ? UNG_MISSING : UNG_RANGE;
}

static ung_status fault_field(ung_fault *fault, const ung_calculation *c, const ung_field *field, size_t number,
                              double value, ung_status status)
{
    ung__fault_none(fault, c);
    if (fault) {
        fault->field = field->name;
        fault->unit = ung_field_unit(field->name);
        fault->value = value;
        fault->lower = field->lower;
        fault->upper = field->upper;
        fault->input = number;
    }
    return set(fault, status);
}

ung_status ung__check_inputs(const ung_calculation *c, const double *in, ung_fault *fault)
{
    for (size_t i = 0; i < c->input_count; i++) {
        ung_status status = check(c->inputs + i, in[i]);
        if (status != UNG_OK)
            return fault_field(fault, c, c->inputs + i, i + 1, in[i], status);
    }
    for (size_t i = 0; i < c->input_count; i++)
        if (c->inputs[i].whole && ung__is_whole(in[i]) == 0)
            return fault_field(fault, c, c->inputs + i, i + 1, in[i], UNG_WHOLE);
    ung__fault_none(fault, c);
    return UNG_OK;
}

ung_status ung__check_value(const ung_field *field, size_t number, double value, ung_fault *fault)
{
    ung_status status = check(field, value);
    if (status == UNG_OK && field->whole && ung__is_whole(value) == 0)
        status = UNG_WHOLE;
    return status == UNG_OK ? UNG_OK : fault_field(fault, 0, field, number, value, status);
}

static size_t row_number(double row)
{
    return row >= 0 ? (size_t)row : UNG_NO_INDEX;
}

ung_status ung__fault_relation(ung_fault *fault, const ung_calculation *c, const double *in, const ung__where *where)
{
    size_t number = (size_t)where->refusal - 1;
    const ung__relation *relation = c->relations + (number < c->relation_count ? number : 0);
    ung__fault_none(fault, c);
    if (!fault)
        return UNG_RELATION;
    if (relation->field >= 0) {
        size_t i = (size_t)relation->field;
        fault_field(fault, c, c->inputs + i, i + 1, in[i], UNG_RELATION);
        fault->lower = fault->upper = UNG__NAN;
    } else {
        fault->field = fault->rows = c->lists[-1 - relation->field].name;
        fault->unit = where->unit ? where->unit : "";
        fault->value = where->value;
        fault->upper = where->limit;
        fault->index = row_number(where->row);
        fault->other_index = row_number(where->other_row);
    }
    fault->text = relation->text;
    if (relation->other >= 0) {
        fault->other = c->inputs[relation->other].name;
        fault->other_unit = ung_field_unit(fault->other);
        fault->other_value = in[relation->other];
    }
    return set(fault, UNG_RELATION);
}

static ung_status fault_count(ung_fault *fault, const ung_calculation *c, const char *list, size_t count, size_t least,
                              size_t most)
{
    ung__fault_none(fault, c);
    if (fault) {
        fault->field = fault->rows = list;
        fault->value = (double)count;
        fault->lower = (double)least;
        fault->upper = (double)most;
    }
    return set(fault, UNG_COUNT);
}

/* The lists of a call: present, of an accepted length, and every given number in range; and the workspace. */
static ung_status check_lists(const ung_calculation *c, const ung_rows *rows, ung_fault *fault)
{
    if (c->list_count && !rows)
        return ung__fault_null(fault, c, "rows");
    for (size_t k = 0; k < c->list_count; k++) {
        const ung_list *list = c->lists + k;
        size_t n = rows[k].count;
        if (n < list->least || n > list->most)
            return fault_count(fault, c, list->name, n, list->least, list->most);
        if (list->same_count_as >= 0 && n != rows[list->same_count_as].count)
            return fault_count(fault, c, list->name, n, rows[list->same_count_as].count, rows[list->same_count_as].count);
        if (!rows[k].data)
            return ung__fault_null(fault, c, list->name);
        for (size_t i = 0; !list->is_result && i < n; i++)
            for (size_t j = 0; j < list->field_count; j++) {
                double value = rows[k].data[i * list->field_count + j];
                ung_status status = check(list->fields + j, value) == UNG_OK ? UNG_OK : UNG_RANGE;
                if (status != UNG_OK) { /* a row is never left out, so NaN is no missing value here */
                    fault_field(fault, c, list->fields + j, 0, value, status);
                    if (fault) {
                        fault->rows = list->name;
                        fault->index = i;
                    }
                    return status;
                }
            }
    }
    size_t work = ung_workspace(c, rows[0].count);
    if (work && !rows[c->list_count].data)
        return ung__fault_null(fault, c, "work");
    if (work && rows[c->list_count].count < work)
        return fault_count(fault, c, "work", rows[c->list_count].count, work, (size_t)-1 >> 1);
    return UNG_OK;
}

static void all_nan(const ung_calculation *c, const ung_rows *rows, double *out)
{
    for (size_t i = 0; i < c->output_count; i++)
        out[i] = UNG__NAN;
    for (size_t k = 0; rows && k < c->list_count; k++) {
        const ung_list *list = c->lists + k;
        int believable = rows[k].count >= list->least && rows[k].count <= list->most;
        for (size_t i = 0; list->is_result && believable && rows[k].data && i < rows[k].count * list->field_count; i++)
            rows[k].data[i] = UNG__NAN;
    }
}

ung_status ung_call(const ung_calculation *c, const double *in, const ung_rows *rows, double *out, ung_fault *fault)
{
    if (!c)
        return ung__fault_null(fault, 0, "calculation");
    if (!out)
        return ung__fault_null(fault, c, "out");
    ung_status status = in ? ung__check_inputs(c, in, fault) : ung__fault_null(fault, c, "in");
    if (status == UNG_OK && c->list_count)
        status = check_lists(c, rows, fault);
    if (status == UNG_OK) {
        ung__where where = {0, -1, -1, UNG__NAN, UNG__NAN, "mm"};
        c->evaluate(in, rows, out, &where);
        if (where.refusal != 0)
            status = ung__fault_relation(fault, c, in, &where);
    }
    if (status != UNG_OK)
        all_nan(c, rows, out);
    return status;
}
