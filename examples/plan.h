/* The main job: from a sheet of measurements to the plan for one foot.  What is planned is job_plan's work; here a
 * sheet is read (plan_sheet.c), a traced outline measured (plan_trace.c, plan_outline.c), and the plan written for people
 * (plan_text.c) or for programs (plan_json.c).
 *
 * A sheet:
 *
 *     # comment
 *     hoof_length_mm = 5.25 in          an input of job_plan
 *     glue_volume.waste_fraction = 0.2  or its field of a calculation, where job_plan has a name of its own for it
 *     trace = FILE.csv mm               points round the hoof instead of length, width and shape: x,y a line, commas,
 *                                       semicolons or blanks between them; the first line may be a heading
 *
 * With a trace it may also hold inputs of outline_fit, outline_band and screw_layout (a plain quarter_angle_deg stands
 * for left_ and right_), and the wall at stations, named by their side and their share of it from the toe (0) to the
 * rear (1), which are the same place from either side; screw_layout then places the screws:
 *
 *     left.0.25.wall_thickness_mm = 9.5 mm
 *     left.0.25.wall_angle_deg = 74 deg
 *     screws_count = 2                  on each side
 *
 * Every field with a unit needs it after the value; lengths may be in mm or in inches.  Names, units and ranges are
 * those of the contracts.  Every problem of a sheet is reported, with its line. */
#ifndef PLAN_H
#define PLAN_H

#include <ungula.h>

enum { SHEET_BYTES = 65536, SHEET_ROWS = 500, LINE_BYTES = 200, PROBLEM_BYTES = 400 };
enum { LEFT_SIDE = 1, RIGHT_SIDE = 2 };

/* What a row of a sheet is about. */
enum about { NOTHING, PLAN_INPUT, OUTLINE_INPUT, STATION, SCREWS, TRACE };

typedef struct measurement {
    int line;
    char echo[LINE_BYTES + 8];          /* the line as problems show it: name = text */
    char *name, *text;                  /* both sides of the = sign; of a station what stands after its last dot */
    enum about about;                   /* NOTHING: the line could not be understood so far */
    ung_field field;
    const ung_calculation *calculation; /* of an input for the outline that was named with its calculation, or NULL */
    size_t input;                       /* of job_plan */
    double value;                       /* in the field's own unit; of the trace: millimeters in its unit */
    int side;                           /* of a station */
    double place;                       /* of a station: share of its side, 0 toe to 1 rear */
    char problem[PROBLEM_BYTES];        /* empty: none */
} measurement;

typedef struct sheet {
    const char *path;
    unsigned char bytes[SHEET_BYTES + 1];
    measurement row[SHEET_ROWS];
    int rows, lines;
    measurement *trace; /* the row that names the trace, or NULL */
    int stations;       /* whether there are rows of stations, and a trace to put them on */
} sheet;

/* Reads and checks the lines; problems stay in the rows.  Returns 0, or -1 (after a message) when the file cannot be
 * read. */
int sheet_read(sheet *s, const char *path);

/* The row that gives an input of job_plan, or one for the outline; NULL: none. */
const measurement *sheet_plan_input(const sheet *s, size_t input);
const measurement *sheet_find(const sheet *s, const ung_calculation *calculation, const char *field);
const measurement *sheet_screws(const sheet *s);
/* How many screws a side gets: not an input of screw_layout, but how many rows it fills. */
ung_field screws_field(void);

/* Prints the problems of the rows to stderr in the order of the lines; returns how many. */
int sheet_report(const sheet *s);

/* Prints a problem that became known later; m NULL: it belongs to no line, so the end of the sheet is named. */
void sheet_problem(const sheet *s, const measurement *m, const char *name, const char *problem);

/* Makes the plan.  Returns 0, or 1 after a message with the line of what was refused. */
int sheet_plan(const sheet *s, const ung_job_plan_in *in, ung_job_plan_out *plan);

/* "accepted values are 40 to 250 mm" */
void accepted_text(const ung_field *field, char *text, size_t size);

/* Index of an input of a calculation, -1 if there is none; of job_plan, UNG_NO_INDEX. */
int input_index(const ung_calculation *calculation, const char *name);
size_t plan_input_index(const char *name);
double output_of(const ung_calculation *calculation, const double *out, const char *name);
/* A field of the rows of a calculation's list. */
const ung_field *list_field(const ung_calculation *calculation, size_t list, const char *name);

/* For files of text: cuts spaces and tabs off both ends, in place; whether a plain decimal number stands there;
 * printable characters of a text appended, then `end`. */
char *trimmed(char *text);
int is_decimal(const char *text);
void append_printable(char *to, size_t size, const char *text, size_t length, const char *end);

/* ---- A traced outline ---- */

enum { TRACE_BYTES = 2097152, TRACE_POINTS = 20000, TRACE_PROBLEMS = 10 };
typedef struct trace {
    char path[4200];
    unsigned char bytes[TRACE_BYTES + 1];
    ung_point point[TRACE_POINTS + 1]; /* one more, to see that there are too many */
    int line[TRACE_POINTS + 1]; /* of each point */
    size_t count;
    int lines, content, problems;
    struct {
        int line;
        char text[LINE_BYTES + 200];
    } problem[TRACE_PROBLEMS];
} trace;
void trace_read(trace *t, const sheet *s);
int trace_report(const trace *t);
/* Prints why a trace was refused, with its lines; 0: the fault is about something else. */
int trace_refused(const trace *t, const ung_fault *fault);

/* A step: of the plan, or one before it that measures an outline. */
typedef struct part {
    const char *name;
    const ung_calculation *calculation;
    const double *in, *out;
    ung_step_state state;
    const ung_fault *fault;
} part;

/* outline_band is within 1e-5 of the smooth outline with 2,000 points. */
enum { OUTLINE_POINTS = 2000, WALL_STATIONS = SHEET_ROWS / 2, PLACES_MOST = 512, SCREWS_MOST = 8 };
enum { FIT, BAND, PROFILE, LEFT, RIGHT, OUTLINE_PARTS };
typedef struct layout {
    ung_screw_station place[PLACES_MOST]; /* where a screw may go: every 5 mm between the first and the last station */
    ung_screw_place screw[SCREWS_MOST];
    size_t places, screws;
} layout;
typedef struct outline {
    trace trace;
    ung_point point[OUTLINE_POINTS]; /* fitted */
    ung_wall_station station[WALL_STATIONS];
    const measurement *station_row[WALL_STATIONS];
    size_t stations;
    layout layout[2]; /* left, right */
    part part[OUTLINE_PARTS];
    double in[OUTLINE_PARTS][UNG_FIELDS_MOST], out[OUTLINE_PARTS][UNG_FIELDS_MOST];
    double work[5 * TRACE_POINTS + 128]; /* outline_measure's for the longest trace: the most of all */
} outline;
/* Measures the trace, lays the screws out where the wall was measured at stations, and gives both to job_plan.
 * Problems go to stderr; returns how many there were. */
int outline_measures(outline *o, sheet *s, ung_job_plan_in *in);

/* ---- The plan, written ---- */

typedef struct job {
    const sheet *sheet;
    const outline *outline; /* NULL: no trace */
    ung_job_plan_in in;
    ung_job_plan_out plan;
    part part[OUTLINE_PARTS + UNG_PLAN_STEP_COUNT];
    size_t parts; /* those before the plan's first */
} job;

enum { CAUTIONS_MOST = 256 };
typedef struct held {
    const part *part;
    size_t step; /* of the plan; UNG_NO_INDEX: of a step before it */
    ung_caution caution;
} held;
/* All cautions, the most severe first; returns how many. */
size_t job_cautions(const job *j, held *caution);

/* What stops the job, and which change of a value on the sheet lifts that. */
void print_stops(const job *j, const held *caution, size_t count);
void print_text(const job *j, const held *caution, size_t count);
void print_json(const job *j, const held *caution, size_t count);
/* Words of an item, in English. */
void item_words(const ung_plan_item *item, char *text, size_t size);

#endif
