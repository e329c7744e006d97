/* Reading a measurement sheet; see plan.h. */
#include "plan.h"

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

size_t plan_input_index(const char *name)
{
    for (size_t i = 0; i < ung_plan_input_count(); i++)
        if (strcmp(ung_plan_input(i).field.name, name) == 0)
            return i;
    return UNG_NO_INDEX;
}

double output_of(const ung_calculation *calculation, const double *out, const char *name)
{
    for (size_t i = 0; i < ung_output_count(calculation); i++)
        if (strcmp(ung_output(calculation, i)->name, name) == 0)
            return out[i];
    return NAN;
}

void accepted_text(const ung_field *field, char *text, size_t size)
{
    const char *unit = ung_field_unit(field->name);
    snprintf(text, size, "accepted values are %s%.15g to %.15g%s%s", field->whole ? "whole numbers from " : "",
             field->lower, field->upper, *unit ? " " : "", unit);
}

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
void append_printable(char *to, size_t size, const char *text, size_t length, const char *end)
{
    size_t n = length > LINE_BYTES ? LINE_BYTES : length, at = strlen(to);
    for (size_t i = 0; i < n && at + 4 < size; i++) {
        char c = text[i] == '\t' ? ' ' : text[i];
        to[at++] = c >= ' ' && c <= '~' ? c : '?';
    }
    snprintf(to + at, size - at, "%s", end);
}

static void echo(measurement *m, const char *text, size_t length, const char *end)
{
    append_printable(m->echo, sizeof m->echo, text, length, end);
}

char *trimmed(char *text)
{
    text += strspn(text, " \t");
    size_t n = strlen(text);
    while (n && (text[n - 1] == ' ' || text[n - 1] == '\t'))
        n--;
    text[n] = 0;
    return text;
}

/* A plain decimal number: sign, digits, point, exponent.  strtod alone would also take hexadecimal, inf and nan. */
int is_decimal(const char *s)
{
    s += *s == '+' || *s == '-';
    size_t whole = strspn(s, "0123456789"), fraction = 0;
    s += whole;
    if (*s == '.') {
        fraction = strspn(s + 1, "0123456789");
        s += 1 + fraction;
    }
    if (whole + fraction == 0)
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

const ung_field *list_field(const ung_calculation *calculation, size_t list, const char *name)
{
    const ung_list *rows = ung_list_at(calculation, list);
    for (size_t i = 0; rows && i < rows->field_count; i++)
        if (strcmp(rows->fields[i].name, name) == 0)
            return rows->fields + i;
    return NULL;
}

/* Calculations that measure an outline and lay screws out on it. */
enum { OUTLINE_CALCULATIONS = 3 };
static const ung_calculation *outline_calculation(size_t index)
{
    const ung_calculation *each[] = {ung_outline_fit_contract(), ung_outline_band_contract(),
                                     ung_screw_layout_contract()};
    return each[index];
}

ung_field screws_field(void)
{
    const ung_list *list = ung_list_at(ung_screw_layout_contract(), 1);
    return (ung_field){.name = "screws_count", .meaning = list->meaning, .lower = (double)list->least,
                       .upper = (double)list->most, .usual_lower = (double)list->least,
                       .usual_upper = (double)list->most, .standard = NAN, .whole = 1};
}

/* Whether a name of a sheet stands for a field: 2 as it is, 1 without the side before it, 0 not. */
static int stands_for(const char *name, const char *field)
{
    size_t side = strncmp(field, "left_", 5) == 0 ? 5 : strncmp(field, "right_", 6) == 0 ? 6 : 0;
    return strcmp(name, field) == 0 ? 2 : side && strcmp(name, field + side) == 0 ? 1 : 0;
}

static void is_plan_input(measurement *m, size_t input)
{
    m->about = PLAN_INPUT;
    m->input = input;
    m->field = ung_plan_input(input).field;
}

/* Whether a calculation's field has a name of its own in the plan, and this input is it.  The other side's value is
 * no such: screw_depth.inset_mm would be either side's. */
static int own_name(ung_plan_asked asked, const char *calculation, const char *name)
{
    size_t plain = plan_input_index(name);
    return strcmp(asked.field.name, asked.original) != 0 && strcmp(asked.calculation, calculation) == 0 &&
           strcmp(asked.original, name) == 0 &&
           (plain == UNG_NO_INDEX || strcmp(ung_plan_input(plain).calculation, calculation) != 0);
}

/* An input of job_plan by its name, or by calculation and name where it has a name of its own there. */
static int look_up_plan(measurement *m, const char *calculation, const char *name)
{
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_plan_asked asked = ung_plan_input(i);
        if (calculation ? own_name(asked, calculation, name) : strcmp(asked.field.name, name) == 0) {
            is_plan_input(m, i);
            return 1;
        }
    }
    return 0;
}

static int look_up_outline(measurement *m, const char *calculation, const char *name)
{
    for (size_t k = 0; k < OUTLINE_CALCULATIONS; k++) {
        const ung_calculation *c = outline_calculation(k);
        if (calculation && strcmp(ung_calculation_name(c), calculation) != 0)
            continue;
        for (size_t i = 0; i < ung_input_count(c); i++)
            if (stands_for(name, ung_input(c, i)->name)) {
                m->about = OUTLINE_INPUT;
                m->field = *ung_input(c, i);
                m->calculation = calculation ? c : NULL;
                return 1;
            }
    }
    if (strcmp(name, "screws_count") == 0 && (!calculation || strcmp(calculation, "screw_layout") == 0)) {
        m->about = SCREWS;
        m->field = screws_field();
        return 1;
    }
    return 0;
}

/* Several calculations have a field of that name, each with its own value in the plan. */
static int several(measurement *m, const char *name)
{
    char why[PROBLEM_BYTES] = "say of which calculation: ";
    int found = 0;
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_plan_asked asked = ung_plan_input(i);
        size_t n = strlen(why);
        if (strcmp(asked.original, name) == 0 && n < sizeof why)
            snprintf(why + n, sizeof why - n, "%s%s.%s", found++ ? ", " : "", asked.calculation, name);
    }
    if (found)
        refuse(m, NULL, why);
    return found;
}

/* The field that a name stands for. */
static void look_up(const sheet *s, measurement *m)
{
    char *dot = strchr(m->name, '.'), *calculation = dot ? m->name : NULL;
    if (dot) {
        *dot = 0;
        m->name = dot + 1;
    }
    if (look_up_plan(m, calculation, m->name))
        return;
    measurement of_outline = *m;
    if (look_up_outline(&of_outline, calculation, m->name)) {
        if (s->trace)
            *m = of_outline;
        else
            refuse(m, NULL, "this is used only with a trace: trace = FILE.csv mm");
        return;
    }
    measurement plain = *m;
    if (calculation && !ung_calculation_find(calculation))
        refuse(m, NULL, "there is no such calculation");
    else if (calculation && look_up_plan(&plain, NULL, m->name))
        refuse(m, NULL, "the plan has one value of this for all its calculations: write the name alone");
    else if (calculation)
        refuse(m, NULL, "the plan has no input of that name for this calculation");
    else if (!several(m, m->name))
        refuse(m, NULL, "the plan has no input of that name");
}

/* left.0.25.wall_thickness_mm: 0 if the name is no station's. */
static int station_side(const char *name)
{
    return strncmp(name, "left.", 5) == 0 ? LEFT_SIDE : strncmp(name, "right.", 6) == 0 ? RIGHT_SIDE : 0;
}

static void look_up_station(const sheet *s, measurement *m)
{
    const ung_calculation *wall = ung_wall_profile_contract();
    const ung_field *share = list_field(ung_screw_layout_contract(), 0, "side_fraction");
    char *place = strchr(m->name, '.') + 1, *dot = strrchr(place, '.'), accepted[80], why[200];
    m->side = station_side(m->name);
    if (!s->trace) {
        refuse(m, NULL, "stations of the wall need a trace to lie on: trace = FILE.csv mm");
        return;
    }
    m->name = dot ? dot + 1 : place;
    if (dot)
        *dot = 0;
    const ung_field *field = list_field(wall, 0, m->name);
    if (!dot || !field || strcmp(m->name, "around_fraction") == 0 || strspn(place, "0123456789.") != strlen(place) ||
        !is_decimal(place)) {
        refuse(m, NULL, "a station is written left.0.25.wall_thickness_mm or right.0.25.wall_angle_deg: the side, its "
                        "share from the toe (0) to the rear (1), and the field");
        return;
    }
    m->place = strtod(place, NULL);
    if (m->place > share->upper) {
        accepted_text(share, accepted, sizeof accepted);
        snprintf(why, sizeof why, "there is no such place; %s", accepted);
        refuse(m, NULL, why);
        return;
    }
    m->about = STATION;
    m->field = *field;
}

/* The unit after the value: 1 if it fits, with the factor to the field's own unit. */
static int unit_fits(measurement *m, const char *unit, double *factor)
{
    const char *own = ung_field_unit(m->field.name);
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
    refuse(m, &m->field, why);
    return 0;
}

/* Value and unit of a row whose field is known. */
static void read_value(measurement *m, char *text)
{
    size_t n = strcspn(text, " \t");
    char *unit = text[n] ? text + n + 1 : text + n;
    text[n] = 0;
    unit = trimmed(unit);
    double factor;
    if (!*text)
        refuse(m, &m->field, "the value is missing");
    else if (!is_decimal(text))
        refuse(m, &m->field, "the value is not a plain decimal number, such as 12.5, with a space before its unit");
    else if (unit_fits(m, unit, &factor))
        m->value = strtod(text, NULL) * factor; /* no setlocale anywhere here: the point is a point */
}

/* A file's name and the unit of its numbers. */
static void read_trace(measurement *m)
{
    char *text = m->text + strlen(m->text);
    while (text > m->text && text[-1] != ' ' && text[-1] != '\t')
        text--;
    m->value = strcmp(text, "mm") == 0 ? 1 : strcmp(text, "in") == 0 ? mm_per_inch : NAN;
    if (isnan(m->value) || text == m->text) {
        refuse(m, NULL, "this must be a file and its unit, mm or in: trace = FILE.csv mm");
        return;
    }
    text[-1] = 0;
    m->text = trimmed(m->text);
    m->about = TRACE;
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
    char *name = trimmed(line), *equals = strchr(name, '=');
    if (!*name)
        return;
    measurement *m = new_row(s);
    if (!equals || equals == name) {
        echo(m, name, strlen(name), "");
        refuse(m, NULL, "the line is not of the form: name = value unit");
        return;
    }
    *equals = 0;
    char *text = trimmed(equals + 1);
    name = trimmed(name);
    echo(m, name, strlen(name), *text ? " = " : " =");
    echo(m, text, strlen(text), "");
    m->name = name;
    m->text = text;
    if (strcmp(name, "trace") == 0 && !s->trace)
        s->trace = m;
    s->stations |= station_side(name) > 0;
}

static void understand(const sheet *s, measurement *m)
{
    if (strcmp(m->name, "trace") == 0)
        read_trace(m);
    else if (station_side(m->name))
        look_up_station(s, m);
    else
        look_up(s, m);
    if (m->about && m->about != TRACE)
        read_value(m, m->text);
}

static int same_key(const measurement *a, const measurement *b)
{
    if (!a->about || a->about != b->about || a->calculation != b->calculation)
        return 0;
    if (a->about == PLAN_INPUT)
        return a->input == b->input;
    int toe_or_rear = a->place == 0 || a->place == 1; /* the same place from either side */
    return strcmp(a->name, b->name) == 0 &&
           (a->about != STATION || (a->place == b->place && (a->side == b->side || toe_or_rear)));
}

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

static void check_row(sheet *s, measurement *m)
{
    for (const measurement *before = s->row; before < m; before++)
        if (same_key(before, m)) {
            snprintf(m->problem, sizeof m->problem, "already given in line %d", before->line);
            return;
        }
    if (m->about != TRACE)
        check_range(m, &m->field);
}

/* A station needs all its fields, and a side at least two stations to lie between. */
static void check_stations(sheet *s)
{
    double first[3] = {NAN, NAN, NAN};
    int several[3] = {0};
    measurement *last = NULL;
    for (measurement *m = s->row; m < s->row + s->rows; m++) {
        if (m->about != STATION)
            continue;
        int fields = 0, other = LEFT_SIDE + RIGHT_SIDE - m->side, ends = m->place == 0 || m->place == 1;
        last = m;
        for (const measurement *n = s->row; n < s->row + s->rows; n++)
            fields += n->about == STATION && n->place == m->place && (n->side == m->side || ends);
        if (fields < 2 && !*m->problem)
            refuse(m, NULL, strcmp(m->name, "wall_angle_deg") == 0 ? "the station needs its wall_thickness_mm as well"
                                                                   : "the station needs its wall_angle_deg as well");
        for (int side = LEFT_SIDE; side <= RIGHT_SIDE; side++)
            if (side == m->side || (ends && side == other)) {
                several[side] |= !isnan(first[side]) && first[side] != m->place;
                first[side] = isnan(first[side]) ? m->place : first[side];
            }
    }
    if (last && !*last->problem && !(several[LEFT_SIDE] && several[RIGHT_SIDE]))
        refuse(last, NULL, !several[LEFT_SIDE]
                               ? "the left side needs at least two stations; toe and rear count for both"
                               : "the right side needs at least two stations; toe and rear count for both");
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

int sheet_read(sheet *s, const char *path)
{
    s->path = path;
    s->rows = s->lines = s->stations = 0;
    s->trace = NULL;
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
    s->stations = s->stations && s->trace;
    for (int i = 0; i < s->rows; i++)
        if (!*s->row[i].problem)
            understand(s, s->row + i);
    for (int i = 0; i < s->rows; i++)
        if (s->row[i].about && !*s->row[i].problem)
            check_row(s, s->row + i);
    check_stations(s);
    return 0;
}

const measurement *sheet_plan_input(const sheet *s, size_t input)
{
    for (const measurement *m = s->row; m < s->row + s->rows; m++)
        if (m->about == PLAN_INPUT && m->input == input)
            return m;
    return NULL;
}

const measurement *sheet_screws(const sheet *s)
{
    for (const measurement *m = s->row; m < s->row + s->rows; m++)
        if (m->about == SCREWS)
            return m;
    return NULL;
}

/* A plain quarter_angle_deg is read as job_plan's; with a trace it stands for both sides'. */
const measurement *sheet_find(const sheet *s, const ung_calculation *calculation, const char *field)
{
    const measurement *found = NULL;
    int best = 0;
    for (const measurement *m = s->row; m < s->row + s->rows; m++) {
        int of_outline = m->about == OUTLINE_INPUT && (!m->calculation || m->calculation == calculation);
        int fits = of_outline || m->about == PLAN_INPUT ? stands_for(m->name, field) : 0;
        fits += fits && m->calculation ? 2 : 0;
        if (fits > best) {
            found = m;
            best = fits;
        }
    }
    return found;
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

int sheet_plan(const sheet *s, const ung_job_plan_in *in, ung_job_plan_out *plan)
{
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_job_plan(in, plan, &fault) == UNG_OK)
        return 0;
    sheet_problem(s, sheet_plan_input(s, plan_input_index(fault.field)), fault.field, ung_fault_text(&fault, text));
    return 1;
}
