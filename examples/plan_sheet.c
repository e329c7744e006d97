/* Reading a measurement sheet; see plan_sheet.h. */
#include "plan_sheet.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double mm_per_inch = 25.4; /* exact, international inch */

int input_index(const ung_calculation *calculation, const char *name)
{
    for (size_t i = 0; i < ung_input_count(calculation); i++)
        if (strcmp(ung_input(calculation, i)->name, name) == 0)
            return (int)i;
    return -1;
}

void accepted_text(const ung_field *field, char *text, size_t size)
{
    const char *unit = ung_field_unit(field->name);
    snprintf(text, size, "accepted values are %s%.15g to %.15g%s%s", field->whole ? "whole numbers from " : "",
             field->lower, field->upper, *unit ? " " : "", unit);
}

/* What is wrong with a row, and what would be right where that is known. */
static void refuse(measurement *m, const ung_field *field, const char *why)
{
    char accepted[120];
    if (field) {
        accepted_text(field, accepted, sizeof accepted);
        snprintf(m->problem, sizeof m->problem, "%s; %s", why, accepted);
    } else
        snprintf(m->problem, sizeof m->problem, "%s", why);
}

/* Printable characters only, so that a stray file cannot play with the terminal. */
static void echo(measurement *m, const char *text, size_t length, const char *end)
{
    size_t n = length > LINE_BYTES ? LINE_BYTES : length, at = strlen(m->echo);
    for (size_t i = 0; i < n && at + 4 < sizeof m->echo; i++) {
        char c = text[i] == '\t' ? ' ' : text[i];
        m->echo[at++] = c >= ' ' && c <= '~' ? c : '?';
    }
    snprintf(m->echo + at, sizeof m->echo - at, "%s", end);
}

/* Cuts spaces and tabs off both ends, in place. */
static char *trim(char *text)
{
    text += strspn(text, " \t");
    size_t n = strlen(text);
    while (n && (text[n - 1] == ' ' || text[n - 1] == '\t'))
        n--;
    text[n] = 0;
    return text;
}

/* A plain decimal number: sign, digits, point, exponent.  strtod alone would also take hexadecimal, inf and nan. */
static int is_decimal(const char *s)
{
    s += *s == '+' || *s == '-';
    size_t whole = strspn(s, "0123456789"), part = 0;
    s += whole;
    if (*s == '.') {
        part = strspn(s + 1, "0123456789");
        s += 1 + part;
    }
    if (whole + part == 0)
        return 0;
    if (*s == 'e' || *s == 'E') {
        s++;
        s += *s == '+' || *s == '-';
        size_t digits = strspn(s, "0123456789");
        if (digits == 0)
            return 0;
        s += digits;
    }
    return *s == 0;
}

/* The field that a name stands for, and the calculation if the name says one. */
static void look_up(const sheet *s, measurement *m, char *name)
{
    char *dot = strchr(name, '.');
    const char *field = dot ? dot + 1 : name;
    if (dot)
        *dot = 0;
    int known = 0;
    for (int i = 0; i < s->calculations && !m->field; i++) {
        const ung_calculation *c = s->calculation[i];
        if (dot && strcmp(ung_calculation_name(c), name) != 0)
            continue;
        known = 1;
        int input = input_index(c, field);
        if (input >= 0) {
            m->field = ung_input(c, (size_t)input);
            m->calculation = dot ? c : NULL;
        }
    }
    if (!m->field)
        refuse(m, NULL, !known ? "this plan has no such calculation"
                        : dot  ? "this calculation has no input of that name"
                               : "no calculation of this plan has an input of that name");
}

/* The unit after the value: 1 if it fits, with the factor to the field's own unit. */
static int unit_fits(measurement *m, const char *unit, double *factor)
{
    const char *own = ung_field_unit(m->field->name);
    int length = strcmp(own, "mm") == 0;
    char why[120];
    *factor = length && strcmp(unit, "in") == 0 ? mm_per_inch : 1;
    if (strcmp(unit, own) == 0 || *factor != 1)
        return 1;
    if (!*own)
        snprintf(why, sizeof why, "this is a pure number and takes no unit");
    else if (!*unit)
        snprintf(why, sizeof why, "the unit is missing: %s", length ? "mm or in" : own);
    else
        snprintf(why, sizeof why, "the unit does not fit: it must be %s", length ? "mm or in" : own);
    refuse(m, m->field, why);
    return 0;
}

/* Value and unit of a row whose field is known. */
static void read_value(measurement *m, char *text)
{
    size_t n = strcspn(text, " \t");
    char *unit = text[n] ? text + n + 1 : text + n;
    text[n] = 0;
    unit = trim(unit);
    double factor;
    if (!*text)
        refuse(m, m->field, "the value is missing");
    else if (!is_decimal(text))
        refuse(m, m->field, "the value is not a plain decimal number, such as 12.5, with a space before its unit");
    else if (unit_fits(m, unit, &factor))
        m->value = strtod(text, NULL) * factor; /* no setlocale anywhere here: the point is a point */
}

static measurement *new_row(sheet *s)
{
    measurement *m = s->row + s->rows++;
    *m = (measurement){.line = s->lines, .value = NAN};
    return m;
}

/* One line without its end. */
static void read_line(sheet *s, char *line, size_t length)
{
    if (length && line[length - 1] == '\r')
        length--;
    line[length] = 0;
    if (length > LINE_BYTES || memchr(line, 0, length)) {
        measurement *m = new_row(s);
        echo(m, line, length > 40 ? 40 : length, length > 40 ? "..." : "");
        refuse(m, NULL, length > LINE_BYTES ? "the line has more than 200 characters"
                                            : "the line holds a zero byte, so this is not plain text");
        return;
    }
    line[strcspn(line, "#")] = 0;
    char *name = trim(line), *equals = strchr(name, '=');
    if (!*name)
        return;
    measurement *m = new_row(s);
    if (!equals || equals == name) {
        echo(m, name, strlen(name), "");
        refuse(m, NULL, "the line is not of the form: name = value unit");
        return;
    }
    *equals = 0;
    char *text = trim(equals + 1);
    name = trim(name);
    echo(m, name, strlen(name), *text ? " = " : " =");
    echo(m, text, strlen(text), "");
    look_up(s, m, name);
    if (m->field)
        read_value(m, text);
}

static int same_key(const measurement *a, const measurement *b)
{
    return a->field && b->field && a->calculation == b->calculation && strcmp(a->field->name, b->field->name) == 0;
}

/* Against one field of one contract. */
static void check_range(measurement *m, const ung_field *field)
{
    if (!isfinite(m->value))
        refuse(m, field, "the value is too large");
    else if (!(m->value >= field->lower && m->value <= field->upper)) {
        char why[80];
        const char *unit = ung_field_unit(field->name);
        snprintf(why, sizeof why, "%.15g%s%s is out of range", m->value, *unit ? " " : "", unit);
        refuse(m, field, why);
    } else if (field->whole && m->value != floor(m->value))
        refuse(m, field, "a whole number is needed");
}

/* A plain name must suit every calculation that takes its value. */
static void check_row(sheet *s, measurement *m)
{
    for (const measurement *before = s->row; before < m; before++)
        if (same_key(before, m)) {
            snprintf(m->problem, sizeof m->problem, "already given in line %d", before->line);
            return;
        }
    for (int i = 0; i < s->calculations && !*m->problem; i++) {
        int input = input_index(s->calculation[i], m->field->name);
        if (input >= 0 && sheet_find(s, s->calculation[i], m->field->name) == m)
            check_range(m, ung_input(s->calculation[i], (size_t)input));
    }
}

static int read_file(sheet *s, size_t *length)
{
    errno = 0;
    FILE *file = fopen(s->path, "rb");
    if (file) {
        *length = fread(s->bytes, 1, sizeof s->bytes, file);
        int failed = ferror(file), why = errno;
        fclose(file);
        if (!failed)
            return 0;
        errno = why;
    }
    fprintf(stderr, "%s: cannot be read: %s\n", s->path, strerror(errno));
    return -1;
}

int sheet_read(sheet *s, const char *path, const ung_calculation *const *calculation, int calculations)
{
    s->path = path;
    s->calculation = calculation;
    s->calculations = calculations;
    s->rows = s->lines = 0;
    size_t length, at = 0;
    if (read_file(s, &length) < 0)
        return -1;
    if (length > SHEET_BYTES) {
        fprintf(stderr, "%s:1: more than %d bytes, so this is not a measurement sheet\n", path, SHEET_BYTES);
        return -1;
    }
    if (length >= 3 && memcmp(s->bytes, "\xEF\xBB\xBF", 3) == 0)
        at = 3; /* byte order mark of UTF-8 */
    while (at < length && s->rows < SHEET_ROWS) {
        char *line = (char *)s->bytes + at, *end = memchr(line, '\n', length - at);
        size_t n = end ? (size_t)(end - line) : length - at;
        s->lines++;
        read_line(s, line, n);
        at += n + 1;
    }
    if (at < length)
        refuse(s->row + s->rows - 1, NULL, "too many values, so this is not a measurement sheet");
    for (int i = 0; i < s->rows; i++)
        if (s->row[i].field && !*s->row[i].problem)
            check_row(s, s->row + i);
    return 0;
}

const measurement *sheet_find(const sheet *s, const ung_calculation *calculation, const char *field)
{
    const measurement *plain = NULL;
    for (int i = 0; i < s->rows; i++) {
        const measurement *m = s->row + i;
        if (!m->field || strcmp(m->field->name, field) != 0)
            continue;
        if (m->calculation == calculation)
            return m;
        if (!m->calculation && !plain)
            plain = m;
    }
    return plain;
}

int sheet_report(const sheet *s)
{
    int problems = 0;
    for (int i = 0; i < s->rows; i++)
        if (*s->row[i].problem) {
            fprintf(stderr, "%s:%d: %s: %s\n", s->path, s->row[i].line, s->row[i].echo, s->row[i].problem);
            problems++;
        }
    return problems;
}

void sheet_problem(const sheet *s, const measurement *m, const char *name, const char *problem)
{
    if (m)
        fprintf(stderr, "%s:%d: %s: %s\n", s->path, m->line, m->echo, problem);
    else
        fprintf(stderr, "%s:%d: %s (end of sheet): %s\n", s->path, s->lines ? s->lines : 1, name, problem);
}
