/* The core: statuses, units, contracts, look-ups, the call, lists. */
#include <ctype.h>

#include "../edges.h"

START_TEST(texts_of_statuses)
{
    for (int s = 0; s >= UNG_UNKNOWN; s--)
        for (int t = 0; t > s; t--)
            ck_assert_str_ne(ung_status_text((ung_status)s), ung_status_text((ung_status)t));
    ck_assert_str_eq(ung_status_text(UNG_OK), "fine");
    ck_assert_str_eq(ung_status_text((ung_status)-99), "unknown status");
    for (int k = UNG_GIVEN; k <= UNG_MEMORY; k++)
        for (int j = UNG_GIVEN; j < k; j++)
            ck_assert_str_ne(ung_kind_text((ung_kind)k), ung_kind_text((ung_kind)j));
    ck_assert_str_eq(ung_kind_text((ung_kind)99), "unknown kind");
    ck_assert_str_eq(ung_severity_text(UNG_NOTE), "note");
    ck_assert_str_eq(ung_severity_text(UNG_WARN), "warn");
    ck_assert_str_eq(ung_severity_text(UNG_STOP), "stop");
    ck_assert_str_eq(ung_severity_text((ung_severity)99), "unknown severity");
    ck_assert_ptr_nonnull(ung_version());
    ck_assert(ung_version()[0] != 0); /* its form is the build's to choose */
}
END_TEST

/* The test's own list of name endings: the conventions that the field names follow. */
static const char *unit_of(const char *name)
{
    static const struct {
        const char *ending, *unit;
    } known[] = {{"percent_of_body_mass", "%"}, {"_mm_per_28_days", "mm/28 days"}, {"turns_per_pass", "turns"},
                 {"_deg_per_week", "deg/week"}, {"_n_mm_per_kg", "N mm/kg"}, {"ratio_a_to_b", ""},
                 {"_mm_per_day", "mm/day"}, {"_n_per_kg", "N/kg"}, {"_n_per_mm", "N/mm"}, {"_fraction", ""},
                 {"_per_mm", "1/mm"}, {"_factor", ""}, {"_mj_m3k", "MJ/(m3 K)"}, {"_kg_m3", "kg/m3"},
                 {"_ratio", ""}, {"_count", ""}, {"layers", "plies"}, {"_turns", "turns"},
                 {"_w_m2k", "W/(m2 K)"}, {"_n_mm", "N mm"}, {"weeks", "weeks"}, {"_g_ml", "g/mL"},
                 {"_g_m2", "g/m2"}, {"_j_gk", "J/(g K)"}, {"_w_mk", "W/(m K)"}, {"days", "days"},
                 {"_n_m", "N m"}, {"_j_g", "J/g"}, {"_ms2", "m/s2"}, {"_mm2", "mm2"}, {"_deg", "deg"},
                 {"_mm4", "mm4"}, {"_mpa", "MPa"}, {"_cm2", "cm2"}, {"_kg", "kg"}, {"_mm", "mm"},
                 {"_ml", "mL"}, {"_kj", "kJ/mol"}, {"_g", "g"}, {"_n", "N"}, {"_c", "C"}, {"_s", "s"}};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        size_t n = strlen(name), m = strlen(known[i].ending);
        if (n >= m && strcmp(name + n - m, known[i].ending) == 0)
            return known[i].unit;
    }
    return NULL;
}

static void check_unit(const char *name)
{
    ck_assert_msg(unit_of(name) != NULL, "%s ends in no unit", name);
    ck_assert_msg(strcmp(ung_field_unit(name), unit_of(name)) == 0, "%s: %s", name, ung_field_unit(name));
}

START_TEST(units_of_fields)
{
    for (size_t k = 0; k < ung_calculation_count(); k++) {
        const ung_calculation *c = ung_calculation_at(k);
        for (size_t i = 0; i < ung_input_count(c); i++)
            check_unit(ung_input(c, i)->name);
        for (size_t i = 0; i < ung_output_count(c); i++)
            check_unit(ung_output(c, i)->name);
        for (size_t i = 0; i < ung_list_count(c); i++)
            for (size_t j = 0; j < ung_list_at(c, i)->field_count; j++)
                check_unit(ung_list_at(c, i)->fields[j].name);
    }
    ck_assert_str_eq(ung_field_unit(NULL), "");
    ck_assert_str_eq(ung_field_unit(""), "");
    ck_assert_str_eq(ung_field_unit("mm"), "");
    ck_assert_str_eq(ung_field_unit("_m"), "");
}
END_TEST

static void check_text(const char *text, const char *what)
{
    ck_assert_msg(text && *text, "%s: empty text", what);
    for (const char *p = text; *p; p++)
        ck_assert_msg((*p >= 32 && *p < 127) || *p == '\n', "%s: not ASCII", what);
    ck_assert_msg(text[0] != ' ' && text[strlen(text) - 1] != ' ', "%s: space at an end", what);
}

static void check_name(const char *name)
{
    ck_assert(name && islower((unsigned char)*name));
    for (const char *p = name; *p; p++)
        ck_assert_msg(islower((unsigned char)*p) || isdigit((unsigned char)*p) || *p == '_', "%s", name);
}

START_TEST(contracts_are_well_formed)
{
    ck_assert_uint_ge(ung_calculation_count(), 1);
    for (size_t k = 0; k < ung_calculation_count(); k++) {
        const ung_calculation *c = ung_calculation_at(k);
        const char *name = ung_calculation_name(c);
        check_name(name);
        check_name(ung_calculation_room(c));
        check_text(ung_calculation_title(c), name);
        check_text(ung_calculation_about(c), name);
        check_text(ung_calculation_accuracy(c), name);
        ck_assert_ptr_eq(ung_calculation_find(name), c);
        for (size_t j = 0; j < k; j++)
            ck_assert_str_ne(name, ung_calculation_name(ung_calculation_at(j)));

        size_t inputs = ung_input_count(c), outputs = ung_output_count(c);
        ck_assert(inputs >= 1 && inputs <= UNG_FIELDS_MOST && outputs >= 1 && outputs <= UNG_FIELDS_MOST);
        for (size_t i = 0; i < inputs; i++) {
            const ung_field *f = ung_input(c, i);
            check_name(f->name);
            check_text(f->meaning, f->name);
            ck_assert_msg(!strchr(f->meaning, '\n'), "%s: more than a line", f->name);
            ck_assert_msg(isfinite(f->lower) && isfinite(f->upper) && f->lower < f->upper, "%s", f->name);
            ck_assert_msg(f->lower <= f->usual_lower && f->usual_lower < f->usual_upper && f->usual_upper <= f->upper,
                          "%s: usual range", f->name);
            int required = f->standard != f->standard;
            ck_assert_msg(required == (f->standard_kind == UNG_GIVEN), "%s: required if and only if given", f->name);
            ck_assert_msg(required || (f->standard >= f->lower && f->standard <= f->upper), "%s: standard", f->name);
            ck_assert(!f->may_be_infinite);
            if (f->whole) {
                ck_assert(floor(f->lower) == f->lower && floor(f->upper) == f->upper);
                ck_assert(floor(f->usual_lower) == f->usual_lower && floor(f->usual_upper) == f->usual_upper);
                ck_assert(required || floor(f->standard) == f->standard);
            }
            for (size_t j = 0; j < i; j++)
                ck_assert_str_ne(f->name, ung_input(c, j)->name);
        }
        for (size_t i = 0; i < outputs; i++) {
            const ung_field *f = ung_output(c, i);
            check_name(f->name);
            check_text(f->meaning, f->name);
            ck_assert(isnan(f->lower) && isnan(f->upper) && isnan(f->usual_lower) && isnan(f->usual_upper));
            ck_assert(isnan(f->standard));
            for (size_t j = 0; j < inputs; j++)
                ck_assert_str_ne(f->name, ung_input(c, j)->name);
            for (size_t j = 0; j < i; j++)
                ck_assert_str_ne(f->name, ung_output(c, j)->name);
        }

        int fields = (int)(inputs + outputs);
        ck_assert_uint_le(ung_rule_count(c), UNG_CAUTIONS_MOST);
        for (size_t i = 0; i < ung_rule_count(c); i++) {
            const ung_rule *r = ung_rule_at(c, i);
            check_name(r->code);
            check_text(r->text, r->code);
            ck_assert(r->severity >= UNG_NOTE && r->severity <= UNG_STOP);
            ck_assert(r->field >= 0 && r->field < fields && r->factor != 0 && isfinite(r->factor));
            ck_assert(r->other >= -1 && r->other < fields && (r->other < 0) == (r->other_factor == 0));
            ck_assert(r->guard >= -1 && r->guard < fields && (r->guard < 0) == (r->guard_comparison == UNG_ALWAYS));
            ck_assert(r->comparison >= UNG_BELOW && r->comparison <= UNG_ALWAYS && isfinite(r->limit));
            for (size_t j = 0; j < i; j++)
                ck_assert_str_ne(r->code, ung_rule_at(c, j)->code);
        }
        for (size_t i = 0; i < ung_refusal_count(c); i++) {
            check_text(ung_refusal(c, i), name);
            ck_assert(c->relations[i].field >= -(int)ung_list_count(c) && c->relations[i].field < (int)inputs);
            ck_assert(c->relations[i].other >= -1 && c->relations[i].other < (int)inputs);
        }
        ck_assert_uint_ge(ung_standing_count(c), 1);
        for (size_t i = 0; i < ung_standing_count(c); i++)
            check_text(ung_standing(c, i), name);
        ck_assert_uint_ge(ung_source_count(c), 1);
        for (size_t i = 0; i < ung_source_count(c); i++) {
            check_text(ung_source_at(c, i)->citation, name);
            check_text(ung_source_at(c, i)->gives, name);
            ck_assert(ung_source_at(c, i)->kind >= UNG_PUBLISHED && ung_source_at(c, i)->kind <= UNG_MEMORY);
        }
        for (size_t i = 0; i < ung_list_count(c); i++) {
            const ung_list *l = ung_list_at(c, i);
            check_name(l->name);
            check_text(l->meaning, l->name);
            ck_assert(l->least <= l->most && l->field_count >= 1);
            for (size_t j = 0; j < l->field_count; j++) {
                check_name(l->fields[j].name);
                check_text(l->fields[j].meaning, l->fields[j].name);
                ck_assert(l->fields[j].lower < l->fields[j].upper);
            }
        }
    }
}
END_TEST

/* A name means the same wherever it stands. */
START_TEST(a_name_means_one_thing)
{
    static const struct {
        const char *name, *reason;
    } ranges_differ[] = {
        {"head_recess_mm", "a head can be sunk deep into a shoe, but not into a wall"},
        {"axial_design_n", "in hold, 0 stands for no screws"},
        {"lateral_design_n", "in hold, 0 stands for no screws"},
        {"activation_energy_kj", "with more the cure runs through as a front, which wall_heat does not resolve"},
        {"toe_angle_deg", "the belt's walls must stand up to be cut by a plane; the tape only takes the cosine"},
    };
    for (size_t k = 0; k < ung_calculation_count(); k++)
        for (size_t l = 0; l < k; l++) {
            const ung_calculation *c = ung_calculation_at(k), *d = ung_calculation_at(l);
            for (size_t i = 0; i < ung_input_count(c); i++)
                for (size_t j = 0; j < ung_input_count(d); j++) {
                    const ung_field *f = ung_input(c, i), *g = ung_input(d, j);
                    if (strcmp(f->name, g->name) != 0)
                        continue;
                    ck_assert_msg(f->whole == g->whole, "%s", f->name);
                    /* a neutral standard is a sentinel: 0 = not measured, 60 = the whole side */
                    ck_assert_msg((f->standard_kind == UNG_NEUTRAL) == (g->standard_kind == UNG_NEUTRAL), "%s", f->name);
                    if (f->standard_kind == UNG_NEUTRAL)
                        ck_assert_msg(f->standard == g->standard, "%s", f->name);
                    int differ = 0;
                    for (size_t m = 0; m < sizeof ranges_differ / sizeof *ranges_differ; m++)
                        differ |= strcmp(f->name, ranges_differ[m].name) == 0;
                    ck_assert_msg(differ || (f->lower == g->lower && f->upper == g->upper), "%s: range", f->name);
                }
        }
}
END_TEST

START_TEST(lookups)
{
    size_t all = ung_calculation_count();
    const ung_calculation *c = ung_calculation_at(0);
    ck_assert_ptr_null(ung_calculation_at(all));
    ck_assert_ptr_null(ung_calculation_at((size_t)-1));
    ck_assert_ptr_null(ung_calculation_find(NULL));
    ck_assert_ptr_null(ung_calculation_find(""));
    ck_assert_ptr_null(ung_calculation_find("outline_standar"));
    ck_assert_ptr_null(ung_calculation_find("outline_standardx"));
    ck_assert_ptr_null(ung_calculation_name(NULL));
    ck_assert_ptr_null(ung_calculation_room(NULL));
    ck_assert_ptr_null(ung_calculation_title(NULL));
    ck_assert_ptr_null(ung_calculation_about(NULL));
    ck_assert_ptr_null(ung_calculation_accuracy(NULL));
    ck_assert_uint_eq(ung_input_count(NULL) + ung_output_count(NULL) + ung_list_count(NULL), 0);
    ck_assert_uint_eq(ung_refusal_count(NULL) + ung_rule_count(NULL) + ung_standing_count(NULL), 0);
    ck_assert_uint_eq(ung_source_count(NULL), 0);
    ck_assert_ptr_null(ung_input(NULL, 0));
    ck_assert_ptr_null(ung_output(NULL, 0));
    ck_assert_ptr_null(ung_list_at(NULL, 0));
    ck_assert_ptr_null(ung_refusal(NULL, 0));
    ck_assert_ptr_null(ung_rule_at(NULL, 0));
    ck_assert_ptr_null(ung_standing(NULL, 0));
    ck_assert_ptr_null(ung_source_at(NULL, 0));
    for (size_t k = 0; k < all; k++) {
        c = ung_calculation_at(k);
        ck_assert_ptr_null(ung_input(c, ung_input_count(c)));
        ck_assert_ptr_null(ung_output(c, ung_output_count(c)));
        ck_assert_ptr_null(ung_list_at(c, ung_list_count(c)));
        ck_assert_ptr_null(ung_refusal(c, ung_refusal_count(c)));
        ck_assert_ptr_null(ung_rule_at(c, ung_rule_count(c)));
        ck_assert_ptr_null(ung_standing(c, ung_standing_count(c)));
        ck_assert_ptr_null(ung_source_at(c, ung_source_count(c)));
    }
}
END_TEST

/* Each typed function reaches its own contract, and its standard values are the contract's. */
#define CHECK_TYPED(calculation)                                                                                 \
    do {                                                                                                         \
        const ung_calculation *c = ung_##calculation##_contract();                                               \
        ck_assert_ptr_eq(c, ung_calculation_find(#calculation));                                                 \
        ck_assert_uint_eq(ung_input_count(c) * sizeof(double), sizeof(ung_##calculation##_in));                  \
        ck_assert_uint_eq(ung_output_count(c) * sizeof(double), sizeof(ung_##calculation##_out));                \
        ung_##calculation##_in in = ung_##calculation##_standard();                                              \
        check_standard(c, (const double *)&in);                                                                  \
        typed++;                                                                                                 \
    } while (0)

static void check_standard(const ung_calculation *c, const double *in)
{
    double standard[UNG_FIELDS_MOST + 1];
    standard[ung_input_count(c)] = 42;
    ung_standard(c, standard);
    ck_assert(standard[ung_input_count(c)] == 42);
    for (size_t i = 0; i < ung_input_count(c); i++) {
        double wanted = ung_input(c, i)->standard;
        ck_assert(isnan(wanted) ? isnan(standard[i]) && isnan(in[i]) : standard[i] == wanted && in[i] == wanted);
    }
}

START_TEST(standard_values)
{
    size_t typed = 0;
    CHECK_TYPED(outline_standard);
    CHECK_TYPED(wall_from_border);
    CHECK_TYPED(hoof_band);
    CHECK_TYPED(screw_depth);
    CHECK_TYPED(glue_volume);
    CHECK_TYPED(cast_length);
    CHECK_TYPED(heel_bevel);
    CHECK_TYPED(outline_measure);
    CHECK_TYPED(outline_resample);
    CHECK_TYPED(outline_at);
    CHECK_TYPED(outline_inset);
    CHECK_TYPED(outline_fit);
    CHECK_TYPED(wall_profile);
    CHECK_TYPED(outline_band);
    CHECK_TYPED(shoe_footprint);
    CHECK_TYPED(screw_layout);
    CHECK_TYPED(screw_through);
    CHECK_TYPED(screw_hold);
    CHECK_TYPED(screw_combined);
    CHECK_TYPED(screw_group);
    CHECK_TYPED(lead_hole);
    CHECK_TYPED(screw_gauge);
    CHECK_TYPED(wood_species);
    CHECK_TYPED(bond_hold);
    CHECK_TYPED(bond_group);
    CHECK_TYPED(cup_cure);
    CHECK_TYPED(cast_set);
    CHECK_TYPED(cure_energy);
    CHECK_TYPED(working_time);
    CHECK_TYPED(cup_curve);
    CHECK_TYPED(wall_heat);
    CHECK_TYPED(limb_load);
    CHECK_TYPED(hold);
    CHECK_TYPED(heel_wear);
    CHECK_TYPED(packing_volume);
    CHECK_TYPED(dam_volume);
    CHECK_TYPED(coffin_lever);
    CHECK_TYPED(hoof_growth);
    CHECK_TYPED(shoe_mass);
    CHECK_TYPED(job_timeline);
    ck_assert_uint_eq(typed, ung_calculation_count());
    double untouched = 7;
    ung_standard(NULL, &untouched);
    ung_standard(ung_calculation_at(0), NULL);
    ck_assert(untouched == 7);
}
END_TEST

static void check_null(ung_status status, const ung_fault *fault, const char *pointer, const double *out, size_t n)
{
    ck_assert_int_eq(status, UNG_NULL);
    if (fault) {
        ck_assert_int_eq(fault->status, UNG_NULL);
        ck_assert_str_eq(fault->field, pointer);
        ck_assert_uint_eq(fault->index, UNG_NO_INDEX);
    }
    for (size_t i = 0; out && i < n; i++)
        ck_assert(isnan(out[i]));
}

START_TEST(null_pointers_are_refused_by_name)
{
    for (size_t k = 0; k < ung_calculation_count(); k++) {
        const ung_calculation *c = ung_calculation_at(k);
        double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST] = {0}, data[LISTS_MOST + 1][WORK_MOST];
        ung_rows rows[LISTS_MOST + 1];
        ung_fault fault;
        make_rows(c, rows, data);
        size_t n = ung_output_count(c);
        usual_middle(c, in);
        check_null(ung_call(NULL, in, rows, out, &fault), &fault, "calculation", NULL, 0);
        check_null(ung_call(c, in, rows, NULL, &fault), &fault, "out", NULL, 0);
        ck_assert_str_eq(fault.calculation, ung_calculation_name(c));
        check_null(ung_call(c, NULL, rows, out, &fault), &fault, "in", out, n);
        check_null(ung_call(c, NULL, rows, out, NULL), NULL, "in", out, n);
        ck_assert_int_eq(ung_call(c, in, rows, out, NULL), UNG_OK);
        if (ung_list_count(c)) {
            check_null(ung_call(c, in, NULL, out, &fault), &fault, "rows", out, n);
            rows[0].data = NULL;
            check_null(ung_call(c, in, rows, out, &fault), &fault, ung_list_at(c, 0)->name, out, n);
            continue;
        }
        ung_column columns[UNG_FIELDS_MOST] = {{0}};
        ung_target targets[UNG_FIELDS_MOST] = {{0}};
        check_null(ung_batch(NULL, 1, columns, targets, 0, &fault), &fault, "calculation", NULL, 0);
        check_null(ung_batch(c, 1, NULL, targets, 0, &fault), &fault, "in", NULL, 0);
        check_null(ung_batch(c, 1, columns, NULL, 0, &fault), &fault, "out", NULL, 0);
        ck_assert_uint_eq(ung_cautions(NULL, in, out, NULL, 0), 0);
        ck_assert_uint_eq(ung_cautions(c, NULL, out, NULL, 0), 0);
        ck_assert_uint_eq(ung_cautions(c, in, NULL, NULL, 0), 0);
        double value;
        check_null(ung_caution_lift(NULL, in, "x", 0, &value, &fault), &fault, "calculation", NULL, 0);
        check_null(ung_caution_lift(c, NULL, "x", 0, &value, &fault), &fault, "in", NULL, 0);
        check_null(ung_caution_lift(c, in, NULL, 0, &value, &fault), &fault, "code", NULL, 0);
        check_null(ung_caution_lift(c, in, "x", 0, NULL, &fault), &fault, "value", NULL, 0);
    }
}
END_TEST

/* Through the typed functions, whose declarations would let a compiler assume that they get no NULL. */
START_TEST(null_pointers_of_typed_calls)
{
    ung_heel_bevel_in in = ung_heel_bevel_standard();
    ung_heel_bevel_out out;
    ung_fault fault;
    ung_status (*volatile bevel)(const ung_heel_bevel_in *, ung_heel_bevel_out *, ung_fault *) = ung_heel_bevel;
    check_null(bevel(NULL, &out, &fault), &fault, "in", (double *)&out, sizeof out / sizeof(double));
    check_null(bevel(&in, NULL, &fault), &fault, "out", NULL, 0);
    check_null(bevel(NULL, NULL, NULL), NULL, "out", NULL, 0);
}
END_TEST

/* A call that is fine says so in every member. */
START_TEST(a_fine_fault)
{
    for (size_t k = 0; k < ung_calculation_count(); k++) {
        const ung_calculation *c = ung_calculation_at(k);
        double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
        ung_fault f;
        memset(&f, 1, sizeof f);
        usual_middle(c, in);
        ck_assert_int_eq(call(c, in, out, &f), UNG_OK);
        ck_assert_int_eq(f.status, UNG_OK);
        ck_assert_str_eq(f.calculation, ung_calculation_name(c));
        ck_assert(!f.field && !f.other && !f.text && !f.rows && f.input == 0 && f.count == 0);
        ck_assert(f.index == UNG_NO_INDEX && isnan(f.value) && isnan(f.lower) && isnan(f.upper) && isnan(f.other_value));
        ck_assert_str_eq(f.unit, "");
        ck_assert_str_eq(f.other_unit, "");
    }
}
END_TEST

static void check_count(size_t count)
{
    enum { MOST = 1000001 };
    static ung_point points[MOST];
    ung_outline_standard_in in = ung_outline_standard_standard();
    ung_outline_standard_out out;
    ung_fault fault;
    in.hoof_length_mm = 135;
    in.hoof_width_mm = 128;
    for (size_t i = 0; i < count; i++)
        points[i].x_mm = points[i].y_mm = 1;
    ck_assert_int_eq(ung_outline_standard(&in, points, count, &out, &fault), UNG_COUNT);
    ck_assert_str_eq(fault.field, "outline");
    ck_assert(fault.value == (double)count && fault.lower == 3 && fault.upper == 1000000);
    ck_assert(isnan(out.perimeter_mm) && isnan(out.k3_ratio));
    for (size_t i = 0; i < count; i++)
        must(points[i].x_mm == 1 && points[i].y_mm == 1); /* a count that cannot be is not trusted for writing either */
}

START_TEST(lists)
{
    check_count(0);
    check_count(2);
    check_count(1000001);
    ung_outline_standard_in in = ung_outline_standard_standard();
    ung_outline_standard_out out;
    ung_fault fault;
    ung_point points[5];
    in.hoof_length_mm = 135;
    in.hoof_width_mm = 128;
    /* By its contract: the typed declaration lets a compiler assume there is no NULL. */
    ung_rows none = {NULL, 5};
    ck_assert_int_eq(ung_call(ung_outline_standard_contract(), (double *)&in, &none, (double *)&out, &fault), UNG_NULL);
    ck_assert_str_eq(fault.field, "outline");
    ck_assert(isnan(out.perimeter_mm));
    points[3].x_mm = 42;
    ck_assert_int_eq(ung_outline_standard(&in, points, 3, &out, &fault), UNG_OK);
    ck_assert(points[3].x_mm == 42); /* nothing behind the last */
    in.hoof_length_mm = 39;
    ck_assert_int_eq(ung_outline_standard(&in, points, 3, &out, &fault), UNG_RANGE);
    for (size_t i = 0; i < 3; i++)
        must(isnan(points[i].x_mm) && isnan(points[i].y_mm));
    ck_assert(points[3].x_mm == 42);

    const ung_calculation *c = ung_outline_standard_contract();
    ung_column columns[5] = {{0}};
    ung_target targets[6] = {{0}};
    ck_assert_int_eq(ung_batch(c, 1, columns, targets, 0, &fault), UNG_UNKNOWN);
    double value, numbers[5] = {135, 128, 0.45, 0.74, 0.62};
    ck_assert_int_eq(ung_caution_lift(c, numbers, "x", 0, &value, &fault), UNG_UNKNOWN);
    ck_assert(isnan(value));
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "core");
    tcase_add_test(tests, texts_of_statuses);
    tcase_add_test(tests, units_of_fields);
    tcase_add_test(tests, contracts_are_well_formed);
    tcase_add_test(tests, a_name_means_one_thing);
    tcase_add_test(tests, lookups);
    tcase_add_test(tests, standard_values);
    tcase_add_test(tests, null_pointers_are_refused_by_name);
    tcase_add_test(tests, null_pointers_of_typed_calls);
    tcase_add_test(tests, a_fine_fault);
    tcase_add_test(tests, lists);
    return finish(runner);
}
