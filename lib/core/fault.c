/* Texts: statuses, kinds, severities, units, numbers, and the sentence of a refusal.  No stdio, no locale. */
#include "core/contract.h"

#include <stdint.h>

const char *ung_status_text(ung_status status)
{
    switch (status) {
    case UNG_OK: return "fine";
    case UNG_NULL: return "a pointer that must not be NULL is NULL";
    case UNG_MISSING: return "a required value is missing";
    case UNG_RANGE: return "a value is outside the accepted range";
    case UNG_WHOLE: return "a value is not a whole number";
    case UNG_RELATION: return "the values do not fit together";
    case UNG_COUNT: return "a list has too few or too many rows";
    case UNG_OVERLAP: return "columns share memory where they must not";
    case UNG_UNKNOWN: return "no such calculation, field, caution or option";
    }
    return "unknown status";
}

const char *ung_kind_text(ung_kind kind)
{
    switch (kind) {
    case UNG_GIVEN: return "given";
    case UNG_NEUTRAL: return "neutral";
    case UNG_PUBLISHED: return "published";
    case UNG_PRACTICE: return "practice";
    case UNG_CHOICE: return "choice";
    case UNG_MEMORY: return "memory";
    }
    return "unknown kind";
}

const char *ung_severity_text(ung_severity severity)
{
    switch (severity) {
    case UNG_STOP: return "stop";
    case UNG_WARN: return "warn";
    case UNG_NOTE: return "note";
    }
    return "unknown severity";
}

/* The closed list of name endings and the units they stand for.  First match wins, so longer ones come first. */
static const struct {
    const char *ending, *unit;
} units[] = {
    {"percent_of_body_mass", "%"}, {"_mm_per_28_days", "mm/28 days"}, {"turns_per_pass", "turns"},
    {"_deg_per_week", "deg/week"}, {"anchor_turns", "turns"}, {"ratio_a_to_b", ""}, {"_n_mm_per_kg", "N mm/kg"},
    {"_mm_per_day", "mm/day"}, {"_n_per_kg", "N/kg"}, {"_n_per_mm", "N/mm"}, {"_fraction", ""},
    {"_per_mm", "1/mm"}, {"_factor", ""}, {"_mj_m3k", "MJ/(m3 K)"}, {"layers", "plies"}, {"_kg_m3", "kg/m3"},
    {"_w_m2k", "W/(m2 K)"}, {"_ratio", ""}, {"_count", ""}, {"_w_mk", "W/(m K)"}, {"_n_mm", "N mm"},
    {"weeks", "weeks"}, {"_g_ml", "g/mL"}, {"_g_m2", "g/m2"}, {"_j_gk", "J/(g K)"}, {"days", "days"},
    {"_n_m", "N m"}, {"_ms2", "m/s2"}, {"_j_g", "J/g"}, {"_cm2", "cm2"}, {"_mm4", "mm4"}, {"_mm2", "mm2"},
    {"_deg", "deg"}, {"_mpa", "MPa"}, {"_kg", "kg"}, {"_kj", "kJ/mol"}, {"_mm", "mm"}, {"_ml", "mL"},
    {"_g", "g"}, {"_s", "s"}, {"_c", "C"}, {"_n", "N"},
};

static size_t length_of(const char *s)
{
    size_t n = 0;
    while (s[n])
        n++;
    return n;
}

const char *ung_field_unit(const char *name)
{
    size_t n = name ? length_of(name) : 0;
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        size_t m = length_of(units[i].ending), k = 0;
        while (m <= n && k < m && name[n - m + k] == units[i].ending[k])
            k++;
        if (k == m && m <= n)
            return units[i].unit;
    }
    return "";
}

void ung__put(ung__text *text, const char *string)
{
    for (; *string; string++, text->length++)
        if (text->length + 1 < text->size)
            text->buffer[text->length] = *string;
    if (text->size)
        text->buffer[text->length < text->size ? text->length : text->size - 1] = 0;
}

/* The decimal digits of a finite value > 0, exactly, by long arithmetic on base 1e9 limbs: integer[] before the
 * point (least first) and fraction[] after it.  Returns the number of integer limbs; *fractions gets the others. */
enum { LIMB = 1000000000, INTEGERS = 36, FRACTIONS = 121 };
static int expand(double value, uint32_t *integer, uint32_t *fraction, int *fractions)
{
    uint64_t bits;
    __builtin_memcpy(&bits, &value, sizeof bits);
    int exponent = (int)(bits >> 52 & 2047);
    uint64_t mantissa = (bits & 0xfffffffffffff) | (exponent ? 1ull << 52 : 0);
    int power = (exponent ? exponent : 1) - 1075; /* value = mantissa x 2^power */
    int n = 0;
    uint64_t whole = power >= 0 ? mantissa : power > -64 ? mantissa >> -power : 0;
    for (; whole; whole /= LIMB)
        integer[n++] = (uint32_t)(whole % LIMB);
    for (int done = 0; done < power;) { /* whole x 2^power, 29 bits a round */
        int step = power - done < 29 ? power - done : 29;
        uint64_t carry = 0;
        for (int i = 0; i < n; i++) {
            carry += (uint64_t)integer[i] << step;
            integer[i] = (uint32_t)(carry % LIMB);
            carry /= LIMB;
        }
        if (carry)
            integer[n++] = (uint32_t)carry;
        done += step;
    }
    int m = 0;
    for (int i = 0; i < -power; i++) { /* the fraction, from the lowest bit upward: (bit + fraction)/2 */
        uint32_t carry = i < 53 ? (uint32_t)(mantissa >> i & 1) : 0;
        for (int j = 0; j < m || carry; j++) {
            if (j == m)
                fraction[m++] = 0;
            uint64_t digit = (uint64_t)carry * LIMB + fraction[j];
            fraction[j] = (uint32_t)(digit / 2);
            carry = (uint32_t)(digit % 2);
        }
    }
    *fractions = m;
    return n;
}

/* Up to 15 significant digits, correctly rounded (half to even on the exact value), trailing zeros dropped. */
void ung__put_number(ung__text *text, double value)
{
    enum { DIGITS = 15 };
    if (value != value) {
        ung__put(text, "nan");
        return;
    }
    if (value < 0) {
        ung__put(text, "-");
        value = -value;
    }
    if (value > 1.7976931348623157e308) {
        ung__put(text, "inf");
        return;
    }
    if (value == 0) {
        ung__put(text, "0");
        return;
    }
    uint32_t integer[INTEGERS], fraction[FRACTIONS];
    int fractions, n = expand(value, integer, fraction, &fractions);
    char all[(INTEGERS + FRACTIONS) * 9];
    int count = 0, point = n * 9; /* digits before the point */
    for (int i = n - 1 + fractions; i >= 0; i--) {
        int k = n - 1 + fractions - i; /* limb k from the left */
        uint32_t limb = k < n ? integer[n - 1 - k] : fraction[k - n];
        for (uint32_t scale = LIMB / 10; scale; scale /= 10)
            all[count++] = (char)(limb / scale % 10);
    }
    int first = 0;
    while (all[first] == 0)
        first++;
    int exponent = point - first - 1; /* of the first digit */
    char digit[DIGITS + 1] = {0};     /* digit[0] takes a carry */
    for (int i = 0; i < DIGITS; i++)
        digit[i + 1] = first + i < count ? all[first + i] : 0;
    int after = first + DIGITS < count ? all[first + DIGITS] : 0, more = 0;
    for (int i = first + DIGITS + 1; i < count; i++)
        more |= all[i];
    if (after > 5 || (after == 5 && (more || digit[DIGITS] % 2))) {
        int i = DIGITS;
        while (++digit[i] == 10)
            digit[i--] = 0;
    }
    const char *d = digit + 1;
    int length = DIGITS;
    if (digit[0]) {
        d = digit;
        exponent++;
    }
    while (length > 1 && d[length - 1] == 0)
        length--;
    char one[2] = {0, 0};
    int plain = exponent >= -4 && exponent < DIGITS;
    int dot = plain ? exponent : 0; /* the point stands behind this digit */
    if (dot < 0) {
        ung__put(text, "0.");
        for (int i = -1; i > dot; i--)
            ung__put(text, "0");
    }
    for (int i = 0; i < length || i <= dot; i++) {
        one[0] = (char)('0' + (i < length ? d[i] : 0));
        ung__put(text, one);
        if (i == dot && i + 1 < length)
            ung__put(text, ".");
    }
    if (!plain) {
        ung__put(text, exponent < 0 ? "e-" : "e+");
        int e = exponent < 0 ? -exponent : exponent;
        for (int scale = e >= 100 ? 100 : 10; scale; scale /= 10) {
            one[0] = (char)('0' + e / scale % 10);
            ung__put(text, one);
        }
    }
}

char *ung_number_text(double value, char *buffer)
{
    ung__text text = {buffer, UNG_NUMBER_TEXT, 0};
    ung__put_number(&text, value);
    return buffer;
}

static void put_measure(ung__text *text, double value, const char *unit)
{
    ung__put_number(text, value);
    if (unit && *unit) {
        ung__put(text, " ");
        ung__put(text, unit);
    }
}

static void put_accepted(ung__text *text, const ung_fault *f)
{
    ung__put_number(text, f->lower);
    ung__put(text, " to ");
    put_measure(text, f->upper, f->unit);
}

/* Where: "(input 1 of cast_length, element 7)". */
static void put_place(ung__text *text, const ung_fault *f)
{
    ung__put(text, " (");
    if (f->input) {
        ung__put(text, "input ");
        ung__put_number(text, (double)f->input);
        ung__put(text, " of ");
    }
    ung__put(text, f->calculation ? f->calculation : "libungula");
    if (f->index != UNG_NO_INDEX) {
        ung__put(text, !f->rows ? ", element " : f->other_index == UNG_NO_INDEX ? ", row " : ", rows ");
        ung__put_number(text, (double)f->index);
        if (f->other_index != UNG_NO_INDEX) {
            ung__put(text, " and ");
            ung__put_number(text, (double)f->other_index);
        }
        if (f->rows) {
            ung__put(text, " of ");
            ung__put(text, f->rows);
        }
    }
    ung__put(text, ")");
}

size_t ung_fault_format(const ung_fault *f, char *buffer, size_t size)
{
    ung__text text = {buffer, buffer ? size : 0, 0};
    ung__put(&text, "");
    if (!f)
        return 0;
    const char *field = f->field ? f->field : "value";
    switch (f->status) {
    case UNG_OK:
        ung__put(&text, "fine");
        return text.length;
    case UNG_MISSING:
        ung__put(&text, field);
        ung__put(&text, " is required (");
        put_accepted(&text, f);
        ung__put(&text, ")");
        break;
    case UNG_RANGE:
        ung__put(&text, field);
        ung__put(&text, " is ");
        if (f->value != f->value)
            ung__put(&text, "not a number");
        else
            put_measure(&text, f->value, f->unit);
        ung__put(&text, "; accepted values are ");
        put_accepted(&text, f);
        break;
    case UNG_WHOLE:
        ung__put(&text, field);
        ung__put(&text, " is ");
        put_measure(&text, f->value, f->unit);
        ung__put(&text, "; accepted values are whole numbers from ");
        put_accepted(&text, f);
        break;
    case UNG_COUNT:
        ung__put(&text, field);
        ung__put(&text, " has ");
        ung__put_number(&text, f->value);
        ung__put(&text, " rows; accepted are ");
        put_accepted(&text, f);
        break;
    case UNG_RELATION:
        ung__put(&text, field);
        if (f->rows) { /* about rows of a list: the place tells them */
            ung__put(&text, ": ");
            ung__put(&text, f->text);
            if (f->value == f->value) {
                ung__put(&text, ", ");
                put_measure(&text, f->value, f->unit);
                ung__put(&text, " where at most ");
                put_measure(&text, f->upper, f->unit);
                ung__put(&text, " is possible");
            }
            break;
        }
        ung__put(&text, " is ");
        put_measure(&text, f->value, f->unit);
        if (f->other) {
            ung__put(&text, " with ");
            ung__put(&text, f->other);
            ung__put(&text, " ");
            put_measure(&text, f->other_value, f->other_unit);
        }
        ung__put(&text, ": ");
        ung__put(&text, f->text ? f->text : "the values do not fit together");
        break;
    case UNG_NULL:
    case UNG_OVERLAP:
    case UNG_UNKNOWN:
    default:
        if (f->field) {
            ung__put(&text, field);
            ung__put(&text, ": ");
        }
        ung__put(&text, f->text ? f->text : ung_status_text(f->status));
        break;
    }
    put_place(&text, f);
    return text.length;
}

char *ung_fault_text(const ung_fault *fault, char *buffer)
{
    ung_fault_format(fault, buffer, UNG_FAULT_TEXT);
    return buffer;
}
