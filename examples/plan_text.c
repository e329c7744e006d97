/* How the plan's lines are written; see plan_text.h. */
#include "plan_text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <ungula.h>

enum { WIDTH = 100 };

void wrap(const char *lead, int indent, const char *text)
{
    int column = printf("%s", lead), first = 1;
    while (*text) {
        int n = (int)strcspn(text, " ");
        if (!first && column + 1 + n > WIDTH) {
            printf("\n%*s", indent, "");
            column = indent;
            first = 1;
        }
        if (!first)
            putchar(' ');
        for (int i = 0; i < n; i++)
            putchar(text[i] == '~' ? ' ' : text[i]);
        column += n + !first;
        first = 0;
        text += n;
        text += strspn(text, " ");
    }
    printf("\n");
}

const char *measure(double value, const char *name, int digits, char *text, size_t size)
{
    const char *unit = ung_field_unit(name);
    int n = snprintf(text, size, "%.*g", digits, value);
    snprintf(text + n, size - (size_t)n, "%s%s", *unit ? " " : "", unit);
    return text;
}

/* Decimals that a hand can measure or pour. */
static int decimals(const char *name)
{
    const char *unit = ung_field_unit(name);
    size_t n = strlen(name);
    int count = n > 6 && strcmp(name + n - 6, "_count") == 0;
    if (strstr(name, "chance_fraction") || strstr(name, "error_fraction"))
        return 4;
    return strcmp(unit, "mm2") == 0 || strcmp(unit, "s") == 0 || count ? 0 : strcmp(unit, "mL") == 0 ? 1 : 2;
}

void row(const char *name, double value, const char *meaning)
{
    printf("  %-24s %10.*f %-5s  %s\n", name, decimals(name), value, ung_field_unit(name), meaning);
}

double down_to_tenth(double value)
{
    return floor(value * 10 + 1e-6) / 10;
}

void listed(char *all, size_t size, const char *name)
{
    size_t n = strlen(all);
    snprintf(all + n, size - n, "%s%s", n ? ", " : "", name);
}
