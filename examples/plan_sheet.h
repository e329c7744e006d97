/* Reading a measurement sheet.
 *
 *     # comment
 *     hoof_length_mm = 5.25 in          sets the field in every calculation that has it
 *     glue_volume.waste_fraction = 0.2  sets it in that one alone, and wins over the plain name
 *     quarter_angle_deg = 78 deg        sets left_ and right_quarter_angle_deg as well; the whole name wins
 *
 *     trace = FILE.csv mm               points round the hoof instead of length and width; see plan_trace.h
 *
 * With a trace the wall may be given at stations, named by their side and their share of it from the toe (0) to the
 * rear (1), which are the same place from either side; screw_layout then places the screws:
 *
 *     left.0.25.wall_thickness_mm = 9.5 mm
 *     left.0.25.wall_angle_deg = 74 deg
 *     screws_count = 2                  on each side
 *
 * With the load, the plan compares it with what bond and screws hold:
 *
 *     body_mass_kg = 560 kg
 *     gait_count = 2
 *     shoe_mass_g = 400 g
 *
 * With what the adhesive's data sheet says, the day's temperatures and the tasks, the plan says whether the work gets
 * done in time; tasks are numbered in the order of the work, the first one on the adhesive's clock is its mixing:
 *
 *     reference_time_s = 480 s
 *     temperature_c = 22 C              of the adhesive
 *     task.1.low_s = 30 s               shortest; likely_s and high_s as well
 *     task.6.working_count = 0          a task during which no adhesive has to be workable
 *
 * Every field with a unit needs it after the value; lengths may be in mm or in inches.  Names, units and ranges are
 * those of the contracts.  Every problem of a sheet is reported, with its line. */
#ifndef PLAN_SHEET_H
#define PLAN_SHEET_H

#include <ungula.h>

enum { SHEET_BYTES = 65536, SHEET_ROWS = 500, LINE_BYTES = 200, PROBLEM_BYTES = 400 };
enum { LEFT_SIDE = 1, RIGHT_SIDE = 2, HOLD_NAMES = 3, TIMING_NAMES = 7 };
extern const char *const hold_names[HOLD_NAMES]; /* one of these on a sheet asks for the hold */
extern const char *const timing_names[TIMING_NAMES]; /* one of these, or a task, asks for the timing */

typedef struct measurement {
    int line;
    char echo[LINE_BYTES + 8];          /* the line as problems show it: name = text */
    char *name, *text;                  /* both sides of the = sign; the name without what stands before its last dot */
    const ung_calculation *calculation; /* NULL: every calculation that has the field */
    const ung_field *field;             /* NULL: the line could not be understood so far */
    double value;                       /* in the field's own unit; of the trace: millimeters in its unit */
    int side;                           /* of a station of the wall, otherwise 0 */
    int task;                           /* number of a task, otherwise 0 */
    double place;                       /* of a station: share of its side, 0 toe to 1 rear */
    char problem[PROBLEM_BYTES];        /* empty: none */
} measurement;

typedef struct sheet {
    const char *path;
    const ung_calculation *const *calculation; /* those that the sheet may speak of; entries may be NULL */
    int calculations;
    unsigned char bytes[SHEET_BYTES + 1];
    measurement row[SHEET_ROWS];
    int rows, lines;
    measurement *trace; /* the row that names the trace, or NULL */
    int stations;       /* whether there are rows of stations, and a trace to put them on */
    int hold;           /* whether there are rows with the load: hold_names */
    int timing;         /* whether there are tasks or timing_names */
} sheet;

/* Reads the lines; problems stay in the rows.  Returns 0, or -1 (after a message) when the file cannot be read. */
int sheet_read(sheet *s, const char *path);

/* Understands and checks the rows, given the calculations that the plan consists of. */
void sheet_check(sheet *s, const ung_calculation *const *calculation, int calculations);

/* The row that sets a field of a calculation, or NULL. */
const measurement *sheet_find(const sheet *s, const ung_calculation *calculation, const char *field);

/* Prints the problems of the rows to stderr in the order of the lines; returns how many. */
int sheet_report(const sheet *s);

/* Prints a problem that became known later; m NULL: it belongs to no line, so the end of the sheet is named. */
void sheet_problem(const sheet *s, const measurement *m, const char *name, const char *problem);

/* What screw_layout is told beside its inputs: how many screws a side, and the sole's horn at every station. */
const ung_field *layout_field(const char *name);

/* What is wrong with a row; with a field, also which values are accepted. */
void refuse(measurement *m, const ung_field *field, const char *why);

/* A field of the rows of a calculation's list. */
const ung_field *list_field(const ung_calculation *calculation, size_t list, const char *name);

/* "accepted values are 40 to 250 mm" */
void accepted_text(const ung_field *field, char *text, size_t size);

/* Index of an input, -1 if there is none. */
int input_index(const ung_calculation *calculation, const char *name);

/* For files of text: cuts spaces and tabs off both ends, in place; whether a plain decimal number stands there;
 * printable characters of a text appended, then `end`. */
char *trimmed(char *text);
int is_decimal(const char *text);
void append_printable(char *to, size_t size, const char *text, size_t length, const char *end);

#endif
