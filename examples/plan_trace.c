/* Reading a trace; see plan.h. */
#include "plan.h"

#include <ctype.h>
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char between[] = " \t,;"; /* what stands between two numbers */

static void refuse_line(trace *t, const char *line, size_t length, const char *why)
{
    if (t->problems == TRACE_PROBLEMS)
        return;
    char *shown = t->problem[t->problems].text;
    t->problem[t->problems++].line = t->lines;
    shown[0] = 0;
    append_printable(shown, LINE_BYTES, line, length > 40 ? 40 : length, length > 40 ? "...: " : ": ");
    snprintf(shown + strlen(shown), sizeof t->problem->text - strlen(shown), "%s", why);
}

static int is_header(const char *text)
{
    if (!isalpha((unsigned char)*text) && *text != '"')
        return 0;
    while (*text) {
        char word[LINE_BYTES + 1];
        size_t n = strcspn(text, between);
        snprintf(word, sizeof word, "%.*s", (int)n, text);
        if (is_decimal(word))
            return 0;
        text += n;
        text += strspn(text, between);
    }
    return 1;
}

/* 1 where the value can be used; otherwise `why` says why not. */
static int coordinate(const char *text, double factor, const char *name, double *value, char *why, size_t size)
{
    const ung_field *field = list_field(ung_outline_fit_contract(), 0, name);
    const char *which = strcmp(name, "x_mm") == 0 ? "first" : "second";
    if (!is_decimal(text)) {
        snprintf(why, size, "the %s value is not a plain decimal number, such as 12.5", which);
        return 0;
    }
    *value = strtod(text, NULL) * factor;
    if (*value >= field->lower && *value <= field->upper)
        return 1;
    char accepted[120];
    accepted_text(field, accepted, sizeof accepted);
    snprintf(why, size, "the %s value is out of range; %s", which, accepted);
    return 0;
}

/* One line without its end. */
static void read_point(trace *t, char *line, size_t length, double factor)
{
    char shown[LINE_BYTES + 1], why[160];
    if (length && line[length - 1] == '\r')
        length--;
    line[length] = 0;
    if (length > LINE_BYTES || memchr(line, 0, length)) {
        refuse_line(t, line, length, length > LINE_BYTES ? "the line has more than 200 characters"
                                                         : "the line holds a zero byte, so this is not plain text");
        return;
    }
    line[strcspn(line, "#")] = 0;
    char *x = trimmed(line);
    if (!*x || (t->content++ == 0 && is_header(x)))
        return;
    snprintf(shown, sizeof shown, "%s", x);
    char *end = x + strcspn(x, between), *y = end + strspn(end, " \t");
    if (*y == ',' || *y == ';')
        y += 1 + strspn(y + 1, " \t");
    *end = 0;
    ung_point *p = t->point + t->count;
    if (!*x || !*y || y[strcspn(y, between)])
        refuse_line(t, shown, strlen(shown),
                    "a line holds two numbers, x and y, with a comma, a semicolon or blanks between them");
    else if (!coordinate(x, factor, "x_mm", &p->x_mm, why, sizeof why) ||
             !coordinate(y, factor, "y_mm", &p->y_mm, why, sizeof why))
        refuse_line(t, shown, strlen(shown), why);
    else
        t->line[t->count++] = t->lines;
}

/* 0, or -1 with errno. */
static int read_bytes(trace *t, size_t *length)
{
    errno = 0;
    FILE *file = fopen(t->path, "rb");
    if (!file)
        return -1;
    *length = fread(t->bytes, 1, sizeof t->bytes, file);
    int failed = ferror(file), why = errno;
    fclose(file);
    errno = why;
    return failed ? -1 : 0;
}

/* Beside the sheet, unless the name begins at the root. */
static int set_path(trace *t, const sheet *s)
{
    const char *slash = strrchr(s->path, '/'), *name = s->trace->text;
    size_t folder = *name == '/' || !slash ? 0 : (size_t)(slash - s->path) + 1;
    if (folder + strlen(name) >= sizeof t->path)
        return 0;
    snprintf(t->path, sizeof t->path, "%.*s%s", (int)folder, s->path, name);
    return 1;
}

static void read_points(trace *t, size_t length, double factor)
{
    size_t at = length >= 3 && memcmp(t->bytes, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0; /* byte order mark of UTF-8 */
    while (at < length && t->count <= TRACE_POINTS) {
        char *line = (char *)t->bytes + at, *end = memchr(line, '\n', length - at);
        size_t n = end ? (size_t)(end - line) : length - at;
        t->lines++;
        read_point(t, line, n, factor);
        at += n + 1;
    }
}

void trace_read(trace *t, const sheet *s)
{
    measurement *m = s->trace;
    const ung_list *list = ung_list_at(ung_outline_fit_contract(), 0);
    size_t length;
    t->count = 0;
    t->lines = t->content = t->problems = 0;
    if (*m->problem)
        return;
    if (!set_path(t, s))
        snprintf(m->problem, sizeof m->problem, "the path is too long");
    else if (read_bytes(t, &length) < 0)
        snprintf(m->problem, sizeof m->problem, "cannot be read: %s", strerror(errno));
    else if (length > TRACE_BYTES)
        snprintf(m->problem, sizeof m->problem, "more than %d bytes, so this is not a trace", TRACE_BYTES);
    else {
        read_points(t, length, m->value);
        if (t->count > TRACE_POINTS)
            snprintf(m->problem, sizeof m->problem, "more than %d points", TRACE_POINTS);
        else if (t->count < list->least && !t->problems)
            snprintf(m->problem, sizeof m->problem, "the file has %zu points; accepted are %zu to %zu", t->count,
                     list->least, list->most);
    }
}

int trace_report(const trace *t)
{
    for (int i = 0; i < t->problems; i++)
        fprintf(stderr, "%s:%d: %s\n", t->path, t->problem[i].line, t->problem[i].text);
    return t->problems;
}

int trace_refused(const trace *t, const ung_fault *fault)
{
    size_t i = fault->index, k = fault->other_index;
    if (!fault->rows || i >= t->count || !fault->text)
        return 0;
    fprintf(stderr, "%s:%d: point %.6g, %.6g mm: %s", t->path, t->line[i], t->point[i].x_mm, t->point[i].y_mm,
            fault->text);
    if (k < t->count)
        fprintf(stderr, " (lines %d and %d)", t->line[i], t->line[k]);
    fprintf(stderr, "\n");
    return 1;
}
