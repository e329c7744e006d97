/* What a calculation with lists needs to be called: room for the lists it fills, a circle for outlines it takes, and
 * its workspace. */
#ifndef UNG_TESTS_ROWS_H
#define UNG_TESTS_ROWS_H

#include <stdlib.h>
#include <string.h>

#include <ungula.h>

enum { LIST_ROWS = 12, LISTS_MOST = 4, WORK_MOST = 17664 };

/* Cosines of a polygon of 12, roughly: short numbers, so that no library function's last digit matters. */
static const double corner[LIST_ROWS] = {1, 0.875, 0.5, 0, -0.5, -0.875, -1, -0.875, -0.5, 0, 0.5, 0.875};

/* Something acceptable for a field of a row, by its name. */
static inline double row_value(const char *name, size_t i)
{
    static const struct {
        const char *name;
        double first, step;
    } known[] = {{"around_fraction", 0, 0.0625}, {"side_fraction", 0.0625, 0.0625}, {"from_toe_mm", 12, 12},
                 {"wall_thickness_mm", 9, 0},    {"wall_angle_deg", 80, 0},         {"depth_mm", 1, 0},
                 {"sole_horn_mm", 5, 0},           {"area_mm2", 400, 0},             {"own_moment_mm4", 1000, 0},
                 {"low_s", 10, 1},               {"likely_s", 20, 1},               {"high_s", 40, 2},
                 {"time_s", 0, 60}};
    if (strcmp(name, "x_mm") == 0)
        return 60 * corner[i];
    if (strcmp(name, "y_mm") == 0)
        return 60 * corner[(i + 9) % LIST_ROWS];
    for (size_t k = 0; k < sizeof known / sizeof *known; k++)
        if (strcmp(name, known[k].name) == 0)
            return known[k].first + known[k].step * (double)i;
    return 1;
}

static inline void make_rows(const ung_calculation *c, ung_rows *rows, double data[LISTS_MOST + 1][WORK_MOST])
{
    size_t n = ung_list_count(c);
    if (n > LISTS_MOST || ung_workspace(c, LIST_ROWS) > WORK_MOST)
        abort(); /* raise the numbers above */
    for (size_t k = 0; k < n; k++) {
        const ung_list *list = ung_list_at(c, k);
        if (list->field_count * LIST_ROWS > WORK_MOST || list->least > LIST_ROWS)
            abort();
        for (size_t i = 0; i < LIST_ROWS; i++)
            for (size_t j = 0; j < list->field_count; j++)
                data[k][i * list->field_count + j] = row_value(list->fields[j].name, i);
        rows[k].data = data[k];
        rows[k].count = list->most < LIST_ROWS ? list->most : LIST_ROWS;
    }
    rows[n].data = data[n];
    rows[n].count = ung_workspace(c, LIST_ROWS);
}

#endif
