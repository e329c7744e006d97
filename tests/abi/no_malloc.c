/* The library allocates nothing: once main has begun its calls, every allocation ends the program. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <ungula.h>

#include "../horses.h"
#include "../rows.h"
#include "core/contract.h"

static int forbidden;

/* A heap that is enough for what runs before main. */
static _Alignas(16) unsigned char heap[1 << 20];
static size_t used;

static void complain(const char *what)
{
    if (forbidden) {
        if (write(2, what, strlen(what)) < 0)
            _exit(3);
        _exit(2);
    }
}

void *malloc(size_t size)
{
    complain("malloc was called\n");
    size_t start = used;
    used += 16 + (size + 15) / 16 * 16;
    if (used > sizeof heap)
        return 0;
    memcpy(heap + start, &size, sizeof size);
    return heap + start + 16;
}

void *calloc(size_t count, size_t size)
{
    complain("calloc was called\n");
    return malloc(count * size); /* the heap is fresh, so it is zero */
}

void *realloc(void *old, size_t size)
{
    complain("realloc was called\n");
    unsigned char *fresh = malloc(size);
    size_t before = 0;
    if (old)
        memcpy(&before, (unsigned char *)old - 16, sizeof before);
    if (fresh && old)
        memcpy(fresh, old, before < size ? before : size);
    return fresh;
}

void free(void *pointer)
{
    if (pointer)
        complain("free was called\n");
}

enum { N = 200 };
static double columns[UNG_FIELDS_MOST][N], results[UNG_FIELDS_MOST][N];
static double data[LISTS_MOST + 1][WORK_MOST];

static size_t everything(const ung_calculation *c)
{
    double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST], value;
    char text[UNG_FAULT_TEXT];
    ung_fault fault;
    ung_caution caution[UNG_CAUTIONS_MOST];
    ung_rows rows[LISTS_MOST + 1];
    make_rows(c, rows, data);
    ung_column from[UNG_FIELDS_MOST];
    ung_target to[UNG_FIELDS_MOST];
    size_t seen = strlen(ung_calculation_about(c)) + strlen(ung_version());
    ung_standard(c, in);
    seen += ung_call(c, in, rows, out, &fault) != UNG_OK; /* something required is missing */
    seen += strlen(ung_fault_text(&fault, text));
    for (size_t i = 0; i < ung_input_count(c); i++) {
        const ung_field *f = ung_input(c, i);
        in[i] = f->whole ? f->usual_lower : (f->usual_lower + f->usual_upper) / 2;
        for (size_t k = 0; k < N; k++)
            columns[i][k] = k % 50 == 49 ? f->upper + 1 : in[i];
        from[i] = (ung_column)UNG_COLUMN(columns[i]);
        seen += strlen(ung_field_unit(f->name));
    }
    for (size_t i = 0; i < ung_output_count(c); i++)
        to[i] = (ung_target)UNG_TARGET(results[i]);
    seen += ung_call(c, in, rows, out, &fault) == UNG_OK;
    seen += ung_cautions(c, in, out, caution, UNG_CAUTIONS_MOST);
    for (int width = -1; width <= ung__width(); width++) {
        seen += ung__batch(c, N, from, to, UNG_GO_ON, width, &fault) == UNG_OK;
        seen += strlen(ung_fault_text(&fault, text));
        seen += ung__batch(c, N, from, to, UNG_STOP_AT_FAULT, width, &fault) == UNG_OK;
    }
    for (size_t k = 0; k < ung_rule_count(c); k++)
        for (size_t i = 0; i < ung_input_count(c); i++)
            seen += ung_caution_lift(c, in, ung_rule_at(c, k)->code, i, &value, &fault) == UNG_OK;
    for (size_t i = 0; i < ung_input_count(c); i++) {
        seen += strlen(ung_number_text(out[0] * 1e-300 * (double)i, text));
        double kept = in[i];
        in[i] = 1e308;
        seen += ung_call(c, in, rows, out, &fault) != UNG_OK;
        seen += strlen(ung_fault_text(&fault, text));
        in[i] = kept;
    }
    return seen;
}

static size_t plans(void)
{
    size_t seen = 0;
    for (size_t h = 0; h < HORSES; h++) {
        ung_job_plan_in in = invented_horse(h);
        static ung_job_plan_out plan;
        ung_plan_caution caution[8];
        ung_plan_item item[UNG_PLAN_ITEMS_MOST];
        ung_fault fault;
        char text[UNG_FAULT_TEXT];
        seen += ung_job_plan(&in, &plan, &fault) == UNG_OK;
        seen += ung_job_plan_cautions(&plan, caution, 8);
        size_t n = ung_plan_items(&plan, item, UNG_PLAN_ITEMS_MOST);
        for (size_t i = 0; i < n; i++)
            seen += strlen(ung_plan_text(item[i].code, "de"));
        for (size_t i = 0; ung_plan_step(i).name; i++)
            seen += strlen(ung_fault_text(plan.fault + i, text)) + strlen(ung_step_state_text(plan.state[i]));
        for (size_t i = 0; i < ung_plan_input_count(); i++)
            seen += strlen(ung_plan_input(i).field.name) + strlen(ung_plan_input(i).calculation);
        static const size_t asked[] = {UNG_PLAN_screw, UNG_PLAN_bevel, UNG_PLAN_timeline};
        static const char *const codes[] = {"breach", "thin_heel", "late"};
        for (size_t k = 0; k < 3; k++)
            for (size_t i = 0; i < ung_plan_input_count(); i += 23) {
                ung_job_plan_in quick = in;
                double value;
                quick.samples_count = (double)NAN; /* hundreds of plans */
                seen += ung_job_plan_lift(&quick, asked[k], codes[k], i, &value, &fault) == UNG_OK;
                seen += strlen(ung_fault_text(&fault, text));
            }
        in.body_mass_kg = -1;
        seen += ung_job_plan(&in, &plan, &fault) != UNG_OK;
        seen += strlen(ung_fault_text(&fault, text));
    }
    return seen;
}

int main(void)
{
    printf("no malloc, calloc, realloc or free from here on\n");
    fflush(stdout);
    forbidden = 1;
    size_t seen = 0;
    for (size_t k = 0; k < ung_calculation_count(); k++)
        seen += everything(ung_calculation_at(k));
    seen += plans();
    forbidden = 0;
    return seen > 1000 ? EXIT_SUCCESS : EXIT_FAILURE;
}
