/* Reading a measurement sheet.
 *
 *     # comment
 *     hoof_length_mm = 5.25 in          sets the field in every calculation that has it
 *     glue_volume.waste_fraction = 0.2  sets it in that one alone, and wins over the plain name
 *
 * Every field with a unit needs it after the value; lengths may be in mm or in inches.  Names, units and ranges are
 * those of the contracts.  Every problem of a sheet is reported, with its line. */
#ifndef PLAN_SHEET_H
#define PLAN_SHEET_H

#include <ungula.h>

enum { SHEET_BYTES = 65536, SHEET_ROWS = 500, LINE_BYTES = 200, PROBLEM_BYTES = 400 };

typedef struct measurement {
    int line;
    char echo[LINE_BYTES + 8];          /* the line as problems show it: name = text */
    const ung_calculation *calculation; /* NULL: every calculation that has the field */
    const ung_field *field;             /* NULL: the line could not be understood so far */
    double value;                       /* in the field's own unit */
    char problem[PROBLEM_BYTES];        /* empty: none */
} measurement;

typedef struct sheet {
    const char *path;
    const ung_calculation *const *calculation; /* those that a sheet may speak of */
    int calculations;
    unsigned char bytes[SHEET_BYTES + 1];
    measurement row[SHEET_ROWS];
    int rows, lines;
} sheet;

/* Reads and checks; problems stay in the rows.  Returns 0, or -1 (after a message) when the file cannot be read. */
int sheet_read(sheet *s, const char *path, const ung_calculation *const *calculation, int calculations);

/* The row that sets a field of a calculation, or NULL. */
const measurement *sheet_find(const sheet *s, const ung_calculation *calculation, const char *field);

/* Prints the problems of the rows to stderr in the order of the lines; returns how many. */
int sheet_report(const sheet *s);

/* Prints a problem that became known later; m NULL: it belongs to no line, so the end of the sheet is named. */
void sheet_problem(const sheet *s, const measurement *m, const char *name, const char *problem);

/* "accepted values are 40 to 250 mm" */
void accepted_text(const ung_field *field, char *text, size_t size);

/* Index of an input, -1 if there is none. */
int input_index(const ung_calculation *calculation, const char *name);

#endif
