/* What the calculations on traced outlines share: a trace in the frame of its toe. */
#ifndef UNG_SHAPE_TRACE_H
#define UNG_SHAPE_TRACE_H

#include <stddef.h>

#include "core/elementary.h"

/* Points lie as x0 y0 x1 y1 ...; x along the toe's direction and y to the left of it, from the middle of the trace's
 * length and width. */
typedef struct ung__trace {
    const double *points;
    size_t count; /* without a repeated first point */
    double cos_toe, sin_toe;
    double middle_x, middle_y, length, width;
} ung__trace;

typedef struct ung__trace_point {
    double x, y;
} ung__trace_point;

UNG_INLINE ung__trace_point ung__trace_at(const ung__trace *t, size_t i)
{
    double x = t->points[2 * i], y = t->points[2 * i + 1];
    return (ung__trace_point){t->cos_toe * x + t->sin_toe * y - t->middle_x,
                              t->cos_toe * y - t->sin_toe * x - t->middle_y};
}

UNG_INLINE ung__trace ung__trace_from(const double *points, size_t count, double toe_direction_deg)
{
    ung__trace t = {points, count, ung__cos_deg(toe_direction_deg), ung__sin_deg(toe_direction_deg), 0, 0, 0, 0};
    if (count > 1 && points[0] == points[2 * count - 2] && points[1] == points[2 * count - 1])
        t.count = count - 1;
    ung__trace_point first = ung__trace_at(&t, 0);
    double rear = first.x, toe = first.x, right = first.y, left = first.y;
    for (size_t i = 1; i < t.count; i++) {
        ung__trace_point p = ung__trace_at(&t, i);
        rear = ung__min(p.x, rear);
        toe = ung__max(p.x, toe);
        right = ung__min(p.y, right);
        left = ung__max(p.y, left);
    }
    t.length = toe - rear;
    t.width = left - right;
    t.middle_x = rear + t.length / 2;
    t.middle_y = right + t.width / 2;
    return t;
}

#endif
