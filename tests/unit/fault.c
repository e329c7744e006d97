/* Texts of refusals and of numbers. */
#include <float.h>
#include <locale.h>

#include "../edges.h"

static void check_sentence(const ung_fault *fault, const char *wanted)
{
    char buffer[UNG_FAULT_TEXT];
    ck_assert_str_eq(ung_fault_text(fault, buffer), wanted);
    ck_assert_uint_eq(ung_fault_format(fault, NULL, 0), strlen(wanted));
}

static ung_heel_bevel_in bevel_input(void)
{
    ung_heel_bevel_in in = ung_heel_bevel_standard();
    in.ground_length_mm = 135;
    in.shoe_thickness_mm = 25;
    in.bevel_run_mm = 20;
    in.bevel_angle_deg = 30;
    in.width_start_mm = 95;
    in.width_end_mm = 80;
    return in;
}

START_TEST(sentences)
{
    ung_heel_bevel_in in = bevel_input();
    ung_heel_bevel_out out;
    ung_fault fault;
    ck_assert_int_eq(ung_heel_bevel(&in, &out, &fault), UNG_OK);
    check_sentence(&fault, "fine");

    in.width_end_mm = NAN;
    ck_assert_int_eq(ung_heel_bevel(&in, &out, &fault), UNG_MISSING);
    check_sentence(&fault, "width_end_mm is required (10 to 250 mm) (input 6 of heel_bevel)");

    in = bevel_input();
    in.bevel_angle_deg = 80.25;
    ck_assert_int_eq(ung_heel_bevel(&in, &out, &fault), UNG_RANGE);
    check_sentence(&fault, "bevel_angle_deg is 80.25 deg; accepted values are 0 to 75 deg (input 4 of heel_bevel)");
    in = bevel_input();
    in.least_edge_mm = NAN;
    ck_assert_int_eq(ung_heel_bevel(&in, &out, &fault), UNG_RANGE);
    check_sentence(&fault, "least_edge_mm is not a number; accepted values are 0 to 50 mm (input 10 of heel_bevel)");
    in.least_edge_mm = -INFINITY;
    ck_assert_int_eq(ung_heel_bevel(&in, &out, &fault), UNG_RANGE);
    check_sentence(&fault, "least_edge_mm is -inf mm; accepted values are 0 to 50 mm (input 10 of heel_bevel)");

    in = bevel_input();
    in.wrapped_before_count = 0.5;
    ck_assert_int_eq(ung_heel_bevel(&in, &out, &fault), UNG_WHOLE);
    check_sentence(&fault, "wrapped_before_count is 0.5; accepted values are whole numbers from 0 to 1 (input 9 of heel_bevel)");

    in = bevel_input();
    in.bevel_run_mm = 60;
    ck_assert_int_eq(ung_heel_bevel(&in, &out, &fault), UNG_RELATION);
    check_sentence(&fault, "bevel_angle_deg is 30 deg with shoe_thickness_mm 25 mm: the bevel rises above the whole "
                           "thickness; take a smaller angle or a shorter run (input 4 of heel_bevel)");

    ung_outline_standard_in shape = ung_outline_standard_standard();
    ung_outline_standard_out outline;
    ung_point points[3];
    shape.hoof_length_mm = shape.hoof_width_mm = 130;
    ck_assert_int_eq(ung_outline_standard(&shape, points, 2, &outline, &fault), UNG_COUNT);
    check_sentence(&fault, "outline has 2 rows; accepted are 3 to 1000000 (outline_standard)");
    /* By its contract: the typed declaration lets a compiler assume there is no NULL. */
    ung_rows none = {NULL, 3};
    ck_assert_int_eq(ung_call(ung_outline_standard_contract(), (double *)&shape, &none, (double *)&outline, &fault), UNG_NULL);
    check_sentence(&fault, "outline: a pointer that must not be NULL is NULL (outline_standard)");
    ck_assert_int_eq(ung_call(NULL, NULL, NULL, NULL, &fault), UNG_NULL);
    check_sentence(&fault, "calculation: a pointer that must not be NULL is NULL (libungula)");

    double value, column[4] = {135, 135, 135, 135};
    const ung_calculation *c = ung_heel_bevel_contract();
    in = bevel_input();
    ck_assert_int_eq(ung_caution_lift(c, (double *)&in, "nonsense", 0, &value, &fault), UNG_UNKNOWN);
    check_sentence(&fault, "code: no such calculation, field, caution or option (heel_bevel)");
    ung_column columns[10];
    ung_target targets[12] = {{0}};
    for (size_t i = 0; i < 10; i++)
        columns[i] = (ung_column){(double *)&in + i, 0};
    columns[0] = UNG_COLUMN(column);
    targets[2] = UNG_TARGET(column + 1);
    ck_assert_int_eq(ung_batch(c, 3, columns, targets, 0, &fault), UNG_OVERLAP);
    check_sentence(&fault, "wood_left_mm: this result column shares memory with an input column (heel_bevel)");
    targets[2] = (ung_target){0};
    column[2] = 7;
    ck_assert_int_eq(ung_batch(c, 3, columns, targets, 0, &fault), UNG_RANGE);
    check_sentence(&fault, "ground_length_mm is 7 mm; accepted values are 40 to 300 mm (input 1 of heel_bevel, element 2)");

    fault.index = 4;
    fault.rows = "outline";
    check_sentence(&fault, "ground_length_mm is 7 mm; accepted values are 40 to 300 mm (input 1 of heel_bevel, row 4 of outline)");
    fault.status = (ung_status)-77;
    ck_assert_uint_gt(ung_fault_format(&fault, NULL, 0), 0);
    ck_assert_uint_eq(ung_fault_format(NULL, NULL, 0), 0);
    char buffer[UNG_FAULT_TEXT] = "x";
    ck_assert_str_eq(ung_fault_text(NULL, buffer), "");
}
END_TEST

/* As snprintf: at most size bytes with the NUL, the length of the whole text in any case. */
static void check_truncation(const ung_fault *fault)
{
    char whole[UNG_FAULT_TEXT], part[UNG_FAULT_TEXT + 2];
    size_t length = strlen(ung_fault_text(fault, whole));
    for (size_t size = 0; size <= length + 1; size++) {
        memset(part, '#', sizeof part);
        must(ung_fault_format(fault, part, size) == length);
        size_t kept = size == 0 ? 0 : size - 1 < length ? size - 1 : length;
        must(memcmp(part, whole, kept) == 0);
        must(size == 0 || part[kept] == 0);
        for (size_t i = size; i < sizeof part; i++)
            must(part[i] == '#');
    }
}

/* Every fault that can be reached, with the longest numbers it can show: UNG_FAULT_TEXT has room for all of them. */
static size_t longest;

static void check_room(ung_fault fault)
{
    char buffer[UNG_FAULT_TEXT];
    if (!fault.rows && fault.input)
        fault.index = (size_t)-2; /* as a batch would say, with as many digits as there are */
    size_t length = ung_fault_format(&fault, NULL, 0);
    longest = length > longest ? length : longest;
    must(length < UNG_FAULT_TEXT);
    must(strlen(ung_fault_text(&fault, buffer)) == length);
    must(!strchr(buffer, '\n'));
    check_truncation(&fault);
}

START_TEST(every_fault_has_room)
{
    const double wide = -2.22507385850721e-308; /* 22 characters: no number prints longer */
    double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
    ung_fault fault;
    for (size_t k = 0; k < ung_calculation_count(); k++) {
        const ung_calculation *c = ung_calculation_at(k);
        for (size_t i = 0; i < ung_input_count(c); i++) {
            const ung_field *f = ung_input(c, i);
            const double bad[] = {NAN, INFINITY, -DBL_MAX, f->lower - 1.0 / 3, nextafter(f->upper, INFINITY), wide};
            for (size_t j = 0; j < sizeof bad / sizeof *bad; j++) {
                usual_middle(c, in);
                in[i] = bad[j];
                if (call(c, in, out, &fault) != UNG_OK)
                    check_room(fault);
            }
            if (f->whole) {
                usual_middle(c, in);
                in[i] = f->lower + 1.0 / 3;
                ck_assert_int_eq(call(c, in, out, &fault), UNG_WHOLE);
                check_room(fault);
            }
        }
        for (size_t r = 0; r < ung_refusal_count(c); r++) {
            usual_middle(c, in);
            const ung__where where = {(double)r + 1, 999999, 999998, wide, wide, "mm"};
            ung__fault_relation(&fault, c, in, &where);
            fault.value = fault.other_value = wide;
            check_room(fault);
        }
        for (size_t l = 0; l < ung_list_count(c); l++) {
            const ung_list *list = ung_list_at(c, l);
            usual_middle(c, in);
            ung_rows rows[LISTS_MOST + 1] = {{out, 0}, {out, 0}, {out, 0}, {out, 0}, {out, 0}};
            ck_assert_int_eq(ung_call(c, in, rows, out, &fault), UNG_COUNT);
            check_room(fault);
            for (size_t j = 0; j < list->field_count; j++) { /* as a given list would be refused */
                const ung_field *f = list->fields + j;
                fault = (ung_fault){.status = UNG_RANGE, .other = NULL, .calculation = c->name, .field = f->name,
                                    .unit = ung_field_unit(f->name), .value = wide, .lower = f->lower,
                                    .upper = f->upper, .index = (size_t)-2, .rows = list->name};
                check_room(fault);
            }
        }
        for (int status = UNG_OK; status >= UNG_UNKNOWN; status--) {
            ung__fault_none(&fault, c);
            fault.status = (ung_status)status;
            if (status == UNG_NULL || status == UNG_OVERLAP || status == UNG_UNKNOWN)
                check_room(fault);
        }
    }
    ck_assert_uint_gt(longest, 100);
}
END_TEST

/* ---- Numbers ---- */

static void check_number(double x)
{
    char ours[UNG_NUMBER_TEXT], theirs[64];
    memset(ours, '#', sizeof ours);
    snprintf(theirs, sizeof theirs, "%.15g", x);
    if (isnan(x))
        strcpy(theirs, "nan"); /* the sign of a NaN says nothing */
    if (x == 0)
        strcpy(theirs, "0"); /* nor does that of a zero */
    must_msg(strcmp(ung_number_text(x, ours), theirs) == 0, "%a: ours %s, printf %s", x, ours, theirs);
}

static double of_bits(uint64_t bits)
{
    double x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

static void check_numbers(void)
{
    const double known[] = {0.0, -0.0, 1, -1, 0.5, 0.1, 0.2, 0.3, 1.0 / 3, 2.0 / 3, 100, 1e5, 123456789012345,
                            999999999999999, 999999999999999.5, 9999999999999996, 1e15, 1e16, 0.0001, 0.00001,
                            0.000099999999999999999, 9.99999999999999e-5, 9.9999999999999999e-5, 5e-324, 1e-310,
                            DBL_MIN, DBL_MAX, DBL_EPSILON, NAN, -NAN, INFINITY, -INFINITY, 59.147, 3657.6};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        check_number(known[i]);
    for (int e = -323; e <= 308; e++) {
        char text[16];
        snprintf(text, sizeof text, "1e%d", e);
        double x = strtod(text, NULL);
        check_number(x);
        check_number(nextafter(x, 0));
        check_number(nextafter(x, INFINITY));
        check_number(-3 * x);
    }
    for (int e = -1074; e <= 1023; e++) {
        check_number(ldexp(1, e));
        check_number(ldexp(3, e > 1021 ? 1021 : e));
    }
    /* Exact ties: sixteen digits of which the last is a 5 that the double holds exactly. */
    for (size_t i = 0; i < scaled(5000); i++) {
        double whole = floor(random_between(1e14, 1e15));
        check_number(whole + 0.5);
        check_number(whole * 10 + 5);
        check_number((floor(random_between(1e13, 1e14)) * 4 + 1) / 4);
        check_number(ldexp(2 * floor(random_between(0, 0x1p40)) + 1, -(int)random_below(60)));
    }
    for (size_t i = 0; i < scaled(100000); i++)
        check_number(of_bits(random_bits()));
    for (size_t i = 0; i < scaled(5000); i++) {
        check_number(of_bits(random_bits() & UINT64_C(0x800fffffffffffff))); /* subnormal */
        check_number(random_between(-1000, 1000));
        check_number(floor(random_between(0, 1e7)) / 1000);
    }
}

START_TEST(numbers)
{
    check_numbers();
}
END_TEST

/* The text does not follow the locale, even where printf does. */
START_TEST(numbers_under_another_locale)
{
    static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8", "de_DE", "fr_FR.UTF-8", "fr_FR", "nb_NO.UTF-8"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (!setlocale(LC_ALL, names[i]))
            continue;
        char ours[UNG_NUMBER_TEXT];
        ung_number_text(1234.5, ours);
        setlocale(LC_ALL, "C");
        ck_assert_str_eq(ours, "1234.5");
        return;
    }
    fprintf(stderr, "no locale with a decimal comma is installed: not tested\n");
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "fault");
    tcase_add_test(tests, sentences);
    tcase_add_test(tests, every_fault_has_room);
    tcase_add_test(tests, numbers);
    tcase_add_test(tests, numbers_under_another_locale);
    return finish(runner);
}
