/* Reading a trace: points round the ground border of the trimmed hoof, in order, from a file of text.
 *
 *     # comment
 *     x,y                a first line of words is taken for a header
 *     67.2,-0.3          two numbers a line, with a comma, a semicolon or blanks between them
 *
 * y counts to the left of someone who looks along x.  Problems are reported with their line, the first ten of them. */
#ifndef PLAN_TRACE_H
#define PLAN_TRACE_H

#include "plan_sheet.h"

enum { TRACE_POINTS = 20000, TRACE_BYTES = 2097152, TRACE_PATH = 4200, TRACE_PROBLEMS = 10 };

typedef struct trace_problem {
    int line;
    char text[LINE_BYTES + 200]; /* the line as it is shown, and what is wrong with it */
} trace_problem;

typedef struct trace {
    char path[TRACE_PATH];
    unsigned char bytes[TRACE_BYTES + 1];
    ung_point point[TRACE_POINTS + 1]; /* one more, to see that there are too many */
    int line[TRACE_POINTS + 1];
    size_t count;
    int lines, content; /* lines, and those with something on them */
    trace_problem problem[TRACE_PROBLEMS];
    int problems;
} trace;

/* Reads the file that the sheet names; what is wrong with the whole of it becomes the problem of the sheet's row. */
void trace_read(trace *t, const sheet *s);

/* Prints the problems of the lines to stderr; returns how many. */
int trace_report(const trace *t);

/* Prints what the library found wrong with the trace; returns 0 where it is about none of the points. */
int trace_refused(const trace *t, const ung_fault *fault);

#endif
