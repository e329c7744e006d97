/* How the plan's lines are written. */
#ifndef PLAN_TEXT_H
#define PLAN_TEXT_H

#include <stddef.h>

/* Words of `text` in lines of 100, the first after `lead`, the others indented.  A ~ is a space that holds. */
void wrap(const char *lead, int indent, const char *text);

/* "12.5 mm", "2" */
const char *measure(double value, const char *name, int digits, char *text, size_t size);

/* A line with a name, its value to as many decimals as a hand can measure, and what it means. */
void row(const char *name, double value, const char *meaning);

/* A limit is rounded down; what is a hair short of a tenth by arithmetic is that tenth. */
double down_to_tenth(double value);

/* A name after the others of a list: "a, b, c". */
void listed(char *all, size_t size, const char *name);

#endif
