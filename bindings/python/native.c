/* The calls of the Python module that are worth writing by hand: structs travel as tuples of floats, columns as
 * buffers of doubles with any stride, refusals as ungula.InvalidInput.  A calculation is given by its number, which
 * `lookup` finds by name when the package is imported. */
#include "native.h"

#include <stdint.h>
#include <string.h>

#include <ungula.h>

/* A number as a double.  1: done; 0: not a plain number; an int beyond all doubles is an infinity. */
static int read_number(PyObject *item, double *value)
{
    if (PyFloat_Check(item)) {
        *value = PyFloat_AS_DOUBLE(item);
        return 1;
    }
    if (!PyLong_Check(item))
        return 0;
    *value = PyLong_AsDouble(item);
    if (*value == -1 && PyErr_Occurred()) {
        int overflow = 0;
        PyErr_Clear();
        PyLong_AsLongLongAndOverflow(item, &overflow);
        *value = overflow < 0 ? -Py_HUGE_VAL : Py_HUGE_VAL;
    }
    return 1;
}

static const ung_calculation *read_calculation(PyObject *index)
{
    size_t i = PyLong_AsSize_t(index);
    if (i == (size_t)-1 && PyErr_Occurred())
        return NULL;
    const ung_calculation *calculation = ung_calculation_at(i);
    if (!calculation)
        PyErr_SetString(PyExc_IndexError, "no calculation has this number");
    return calculation;
}

static PyObject *argument(PyObject *args, Py_ssize_t index, Py_ssize_t count)
{
    if (PyTuple_GET_SIZE(args) != count) {
        PyErr_Format(PyExc_TypeError, "%zd arguments expected, %zd given", count, PyTuple_GET_SIZE(args));
        return NULL;
    }
    return PyTuple_GET_ITEM(args, index);
}

/* A tuple of exactly count items, or NULL with an error. */
static int is_tuple_of(PyObject *object, size_t count, const char *what)
{
    if (PyTuple_Check(object) && (size_t)PyTuple_GET_SIZE(object) == count)
        return 1;
    PyErr_Format(PyExc_TypeError, "%s: a tuple of %zu expected", what, count);
    return 0;
}

static int read_numbers(const ung_calculation *c, PyObject *tuple, size_t count,
                        const ung_field *(*field)(const ung_calculation *, size_t), double *value)
{
    if (!is_tuple_of(tuple, count, ung_calculation_name(c)))
        return 0;
    for (size_t i = 0; i < count; i++) {
        PyObject *item = PyTuple_GET_ITEM(tuple, (Py_ssize_t)i);
        if (!read_number(item, value + i)) {
            PyErr_Format(PyExc_TypeError, "%s must be a number, not %s", field(c, i)->name, Py_TYPE(item)->tp_name);
            return 0;
        }
    }
    return 1;
}

static PyObject *number_or_none(double value)
{
    if (value != value)
        Py_RETURN_NONE;
    return PyFloat_FromDouble(value);
}

static PyObject *index_or_none(size_t index)
{
    if (index == UNG_NO_INDEX)
        Py_RETURN_NONE;
    return PyLong_FromSize_t(index);
}

/* Raises ungula.InvalidInput with everything the fault knows. */
static PyObject *refuse(const ung_fault *fault)
{
    char text[UNG_FAULT_TEXT];
    PyObject *module = PyImport_ImportModule("ungula._errors");
    PyObject *kind = module ? PyObject_GetAttrString(module, "InvalidInput") : NULL;
    PyObject *error = kind ? PyObject_CallFunction(kind, "sizzdNNzzNzNzN", ung_fault_text(fault, text),
                                                   (int)fault->status, fault->calculation, fault->field, fault->value,
                                                   number_or_none(fault->lower), number_or_none(fault->upper),
                                                   fault->unit, fault->other, number_or_none(fault->other_value),
                                                   fault->other_unit, index_or_none(fault->index), fault->rows,
                                                   index_or_none(fault->other_index))
                           : NULL;
    if (error)
        PyErr_SetObject(kind, error);
    Py_XDECREF(error);
    Py_XDECREF(kind);
    Py_XDECREF(module);
    return NULL;
}

static int is_name(PyObject *object, const char *name)
{
    return PyUnicode_Check(object) && PyUnicode_CompareWithASCIIString(object, name) == 0;
}

static int same_names(PyObject *names, const ung_calculation *c, size_t count,
                      const ung_field *(*field)(const ung_calculation *, size_t))
{
    if (!PyTuple_Check(names) || (size_t)PyTuple_GET_SIZE(names) != count)
        return 0;
    for (size_t i = 0; i < count; i++)
        if (!is_name(PyTuple_GET_ITEM(names, (Py_ssize_t)i), field(c, i)->name))
            return 0;
    return 1;
}

/* ((name, (field, ...)), ...) against the lists of a contract */
static int same_lists(PyObject *lists, const ung_calculation *c)
{
    if (!PyTuple_Check(lists) || (size_t)PyTuple_GET_SIZE(lists) != ung_list_count(c))
        return 0;
    for (size_t i = 0; i < ung_list_count(c); i++) {
        const ung_list *list = ung_list_at(c, i);
        PyObject *pair = PyTuple_GET_ITEM(lists, (Py_ssize_t)i);
        if (!PyTuple_Check(pair) || PyTuple_GET_SIZE(pair) != 2)
            return 0;
        PyObject *name = PyTuple_GET_ITEM(pair, 0), *fields = PyTuple_GET_ITEM(pair, 1);
        if (!is_name(name, list->name) || !PyTuple_Check(fields) ||
            (size_t)PyTuple_GET_SIZE(fields) != list->field_count)
            return 0;
        for (size_t j = 0; j < list->field_count; j++)
            if (!is_name(PyTuple_GET_ITEM(fields, (Py_ssize_t)j), list->fields[j].name))
                return 0;
    }
    return 1;
}

/* lookup(name, input names, result names, lists) -> its number.  The names are compared, because a package made for
 * another version of the library would silently mix up fields. */
PyObject *native_lookup(PyObject *self, PyObject *args)
{
    (void)self;
    const char *name;
    PyObject *inputs, *outputs, *lists;
    if (!PyArg_ParseTuple(args, "sOOO", &name, &inputs, &outputs, &lists))
        return NULL;
    for (size_t i = 0; i < ung_calculation_count(); i++) {
        const ung_calculation *c = ung_calculation_at(i);
        if (c == ung_calculation_find(name) && same_names(inputs, c, ung_input_count(c), ung_input) &&
            same_names(outputs, c, ung_output_count(c), ung_output) && same_lists(lists, c))
            return PyLong_FromSize_t(i);
    }
    return PyErr_Format(PyExc_ImportError,
                        "this Python package was made for another version of libungula than %s (%s differs)",
                        ung_version(), name);
}

static PyObject *floats(PyTypeObject *kind, const double *value, size_t count)
{
    PyObject *tuple = kind->tp_alloc(kind, (Py_ssize_t)count);
    for (size_t i = 0; tuple && i < count; i++) {
        PyObject *item = PyFloat_FromDouble(value[i]);
        if (!item) {
            Py_DECREF(tuple);
            return NULL;
        }
        PyTuple_SET_ITEM(tuple, (Py_ssize_t)i, item);
    }
    return tuple;
}

/* call(number, inputs, kind) -> kind, a subclass of tuple whose _inputs are remembered */
PyObject *native_call(PyObject *self, PyObject *args)
{
    (void)self;
    static PyObject *remembered;
    PyObject *index = argument(args, 0, 3);
    const ung_calculation *c = index ? read_calculation(index) : NULL;
    if (!c)
        return NULL;
    PyObject *inputs = PyTuple_GET_ITEM(args, 1), *kind = PyTuple_GET_ITEM(args, 2);
    double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
    if (!read_numbers(c, inputs, ung_input_count(c), ung_input, in))
        return NULL;
    PyTypeObject *type = PyType_Check(kind) ? (PyTypeObject *)kind : &PyTuple_Type;
    if (type == &PyTuple_Type || !PyType_IsSubtype(type, &PyTuple_Type))
        return PyErr_Format(PyExc_TypeError, "a subclass of tuple expected");
    ung_fault fault;
    if (ung_call(c, in, NULL, out, &fault) != UNG_OK)
        return refuse(&fault);
    if (!remembered && !(remembered = PyUnicode_InternFromString("_inputs")))
        return NULL;
    PyObject *result = floats(type, out, ung_output_count(c));
    if (result && PyObject_GenericSetAttr(result, remembered, inputs) < 0)
        Py_CLEAR(result);
    return result;
}

/* Memory lent by the columns of one call; all have the same length n (-1: not yet known). */
typedef struct loan {
    Py_buffer view[3 * UNG_FIELDS_MOST];
    int count;
    Py_ssize_t n;
} loan;

static void give_back(loan *l)
{
    while (l->count)
        PyBuffer_Release(l->view + --l->count);
}

static int holds_doubles(const Py_buffer *view)
{
    const char *format = view->format ? view->format : "B";
    if (*format == '@' || *format == '=' || *format == '^' || *format == (PY_LITTLE_ENDIAN ? '<' : '>'))
        format++;
    return format[0] == 'd' && format[1] == 0 && view->itemsize == (Py_ssize_t)sizeof(double);
}

static Py_buffer *borrow(loan *l, PyObject *object, const char *name, int flags, int doubles)
{
    Py_buffer *view = l->view + l->count;
    if (PyObject_GetBuffer(object, view, flags | PyBUF_STRIDES | PyBUF_FORMAT) < 0) {
        if (PyErr_ExceptionMatches(PyExc_TypeError))
            PyErr_Format(PyExc_TypeError, "%s must be a number or a buffer of doubles, not %s", name,
                         Py_TYPE(object)->tp_name);
        return NULL;
    }
    l->count++;
    if (view->ndim != 1 || (doubles ? !holds_doubles(view) : view->itemsize != 1)) {
        PyErr_Format(PyExc_TypeError, "%s must be a buffer of doubles in one dimension, not of %s in %d", name,
                     view->format ? view->format : "bytes", view->ndim);
        return NULL;
    }
    if (l->n >= 0 && view->shape[0] != l->n) {
        PyErr_Format(PyExc_ValueError, "%s has %zd elements where others have %zd", name, view->shape[0], l->n);
        return NULL;
    }
    l->n = view->shape[0];
    return view;
}

/* Given rows: a contiguous buffer of doubles, of one dimension or with a row in the second.  How many, or -1. */
static double borrow_rows(loan *l, const ung_list *list, PyObject *item, ung_rows *rows)
{
    Py_buffer *view = l->view + l->count;
    if (PyObject_GetBuffer(item, view, PyBUF_STRIDES | PyBUF_FORMAT) < 0)
        return -1;
    l->count++;
    Py_ssize_t width = (Py_ssize_t)list->field_count, doubles = view->len / (Py_ssize_t)sizeof(double);
    int shaped = view->ndim == 1 ? doubles % width == 0 : view->ndim == 2 && view->shape[1] == width;
    int aligned = (uintptr_t)view->buf % sizeof(double) == 0 || doubles == 0; /* an empty array points anywhere */
    if (!shaped || !aligned || !holds_doubles(view) || !PyBuffer_IsContiguous(view, 'C')) {
        PyErr_Format(PyExc_ValueError, "%s must be contiguous rows of %zd doubles", list->name, width);
        return -1;
    }
    rows->count = (size_t)(doubles / width);
    rows->data = doubles ? view->buf : NULL;
    return (double)rows->count;
}

/* One list of a call: its rows from a contiguous buffer of doubles (given), or room for as many as asked for.  Gives
 * the count as asked, which may be negative, or sets an error. */
static double take_list(loan *l, const ung_calculation *c, size_t number, PyObject *item, ung_rows *rows,
                        PyObject **filled)
{
    const ung_list *list = ung_list_at(c, number);
    double asked;
    if (!list->is_result)
        return borrow_rows(l, list, item, rows + number);
    if (list->same_count_as >= 0)
        asked = (double)rows[list->same_count_as].count;
    else {
        Py_ssize_t n = PyNumber_AsSsize_t(item, NULL);
        if (n == -1 && PyErr_Occurred()) {
            PyErr_Format(PyExc_TypeError, "%s_count must be an int, not %s", list->name, Py_TYPE(item)->tp_name);
            return -1;
        }
        asked = (double)n;
    }
    rows[number].count = asked < 0 ? 0 : (size_t)asked;
    int fits = rows[number].count >= list->least && rows[number].count <= list->most;
    *filled = PyByteArray_FromStringAndSize(
        NULL, fits ? (Py_ssize_t)(rows[number].count * list->field_count * sizeof(double)) : 0);
    rows[number].data = *filled && fits ? (double *)(void *)PyByteArray_AS_STRING(*filled) : NULL;
    return asked;
}

/* call_lists(number, inputs, lists) -> (results, one bytearray of doubles for each list that is a result).  A list that
 * is given is a contiguous buffer of doubles, row after row, of one or two dimensions; for one that is a result, the
 * number of rows wanted (not looked at where it follows from another list).  Other threads run meanwhile; they must not
 * change the rows. */
PyObject *native_call_lists(PyObject *self, PyObject *args)
{
    (void)self;
    PyObject *index = argument(args, 0, 3), *results = NULL, *answer = NULL, *filled = NULL;
    const ung_calculation *c = index ? read_calculation(index) : NULL;
    if (!c)
        return NULL;
    PyObject *inputs = PyTuple_GET_ITEM(args, 1), *given = PyTuple_GET_ITEM(args, 2);
    double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST], negative = 0;
    int believable = 1;
    size_t lists = ung_list_count(c);
    if (!read_numbers(c, inputs, ung_input_count(c), ung_input, in) || !is_tuple_of(given, lists, "lists"))
        return NULL;
    ung_rows rows[UNG_FIELDS_MOST] = {{0, 0}};
    if (lists >= UNG_FIELDS_MOST)
        return PyErr_Format(PyExc_NotImplementedError, "%s has too many lists", ung_calculation_name(c));
    loan l;
    l.count = 0, l.n = -1;
    filled = PyList_New(0);
    for (size_t i = 0; filled && i < lists; i++) {
        PyObject *memory = NULL;
        double asked = take_list(&l, c, i, PyTuple_GET_ITEM(given, (Py_ssize_t)i), rows, &memory);
        int failed = PyErr_Occurred() || (memory && PyList_Append(filled, memory) < 0);
        Py_XDECREF(memory); /* the list keeps it */
        if (failed)
            goto done;
        negative = asked < 0 && negative == 0 ? asked : negative;
        believable = believable && asked >= 0 && rows[i].count <= ung_list_at(c, i)->most;
    }
    size_t work = lists && believable ? ung_workspace(c, rows[0].count) : 0; /* else the call is refused */
    if (work) {
        rows[lists].count = work;
        rows[lists].data = PyMem_Malloc(work * sizeof(double));
        if (!rows[lists].data) {
            PyErr_NoMemory();
            goto done;
        }
    }
    ung_fault fault;
    ung_status status = UNG_OK;
    if (filled) {
        Py_BEGIN_ALLOW_THREADS
        status = ung_call(c, in, rows, out, &fault);
        Py_END_ALLOW_THREADS
    }
    if (status != UNG_OK) {
        if (fault.status == UNG_COUNT && negative != 0)
            fault.value = negative; /* what was asked for; size_t cannot say it */
        refuse(&fault);
        goto done;
    }
    results = filled ? floats(&PyTuple_Type, out, ung_output_count(c)) : NULL;
    answer = results ? PyTuple_Pack(2, results, filled) : NULL;
done:
    if (rows[lists].data)
        PyMem_Free(rows[lists].data);
    give_back(&l);
    Py_XDECREF(results);
    Py_XDECREF(filled);
    return answer;
}

/* A tuple of numbers and buffers as columns; constants are kept in constant[]. */
static int borrow_columns(loan *l, const ung_calculation *c, PyObject *tuple, size_t count,
                          const ung_field *(*field)(const ung_calculation *, size_t), double *constant,
                          ung_column *column)
{
    if (!is_tuple_of(tuple, count, ung_calculation_name(c)))
        return 0;
    for (size_t i = 0; i < count; i++) {
        PyObject *item = PyTuple_GET_ITEM(tuple, (Py_ssize_t)i);
        if (read_number(item, constant + i)) {
            column[i] = (ung_column){constant + i, 0};
            continue;
        }
        Py_buffer *view = borrow(l, item, field(c, i)->name, 0, 1);
        if (!view)
            return 0;
        column[i] = (ung_column){view->buf, view->strides[0]};
    }
    return 1;
}

/* batch(number, columns, targets, go on, start) -> how many elements were refused.  Columns are numbers or buffers of
 * doubles, targets writable buffers or None.  start is added to the element number of a refusal. */
PyObject *native_batch(PyObject *self, PyObject *args)
{
    (void)self;
    PyObject *index, *columns, *targets;
    int go_on;
    Py_ssize_t start;
    if (!PyArg_ParseTuple(args, "OOOpn", &index, &columns, &targets, &go_on, &start))
        return NULL;
    const ung_calculation *c = read_calculation(index);
    if (!c || !is_tuple_of(targets, ung_output_count(c), "targets"))
        return NULL;
    loan l;
    l.count = 0, l.n = -1;
    double constant[UNG_FIELDS_MOST];
    ung_column in[UNG_FIELDS_MOST];
    ung_target out[UNG_FIELDS_MOST];
    int fine = borrow_columns(&l, c, columns, ung_input_count(c), ung_input, constant, in);
    for (size_t i = 0; fine && i < ung_output_count(c); i++) {
        PyObject *item = PyTuple_GET_ITEM(targets, (Py_ssize_t)i);
        out[i] = (ung_target){NULL, 0};
        if (item == Py_None)
            continue;
        Py_buffer *view = borrow(&l, item, ung_output(c, i)->name, PyBUF_WRITABLE, 1);
        fine = view != NULL;
        if (fine)
            out[i] = (ung_target){view->buf, view->strides[0]};
    }
    ung_fault fault;
    ung_status status = UNG_OK;
    if (fine) {
        Py_BEGIN_ALLOW_THREADS
        status = ung_batch(c, l.n > 0 ? (size_t)l.n : 0, in, out, go_on ? UNG_GO_ON : UNG_STOP_AT_FAULT, &fault);
        Py_END_ALLOW_THREADS
    }
    give_back(&l);
    if (!fine)
        return NULL;
    if (status == UNG_OK)
        return PyLong_FromSize_t(fault.count);
    if (fault.index != UNG_NO_INDEX)
        fault.index += (size_t)start;
    return refuse(&fault);
}

static PyObject *caution_entry(const ung_caution *a)
{
    static const char *const comparison[] = {"below", "above", "equal", "always"};
    return Py_BuildValue("(ssssddss)", ung_severity_text(a->severity), a->code, a->text, a->field, a->value, a->limit,
                         a->unit, comparison[a->comparison]);
}

/* cautions(number, inputs, results) -> [(severity, code, text, field, value, limit, unit, comparison), ...], the most
 * severe first */
PyObject *native_cautions(PyObject *self, PyObject *args)
{
    (void)self;
    PyObject *index = argument(args, 0, 3);
    const ung_calculation *c = index ? read_calculation(index) : NULL;
    double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
    if (!c || !read_numbers(c, PyTuple_GET_ITEM(args, 1), ung_input_count(c), ung_input, in) ||
        !read_numbers(c, PyTuple_GET_ITEM(args, 2), ung_output_count(c), ung_output, out))
        return NULL;
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t count = ung_cautions(c, in, out, caution, UNG_CAUTIONS_MOST);
    PyObject *list = PyList_New(0);
    for (size_t i = 0; list && i < count; i++) {
        PyObject *entry = caution_entry(caution + i);
        if (!entry || PyList_Append(list, entry) < 0)
            Py_CLEAR(list);
        Py_XDECREF(entry);
    }
    return list;
}

/* caution_masks(number, columns, results, masks): sets masks[rule][element] to 1 where the rule holds.  Columns and
 * results are numbers or buffers of doubles, masks contiguous writable bytes, one a rule. */
PyObject *native_caution_masks(PyObject *self, PyObject *args)
{
    (void)self;
    PyObject *index = argument(args, 0, 4);
    const ung_calculation *c = index ? read_calculation(index) : NULL;
    PyObject *masks = c ? PyTuple_GET_ITEM(args, 3) : NULL;
    if (!c || !is_tuple_of(masks, ung_rule_count(c), "masks"))
        return NULL;
    loan l;
    l.count = 0, l.n = -1;
    double in_constant[UNG_FIELDS_MOST], out_constant[UNG_FIELDS_MOST];
    ung_column in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
    char *mask[UNG_CAUTIONS_MOST];
    int fine = borrow_columns(&l, c, PyTuple_GET_ITEM(args, 1), ung_input_count(c), ung_input, in_constant, in) &&
               borrow_columns(&l, c, PyTuple_GET_ITEM(args, 2), ung_output_count(c), ung_output, out_constant, out);
    for (size_t i = 0; fine && i < ung_rule_count(c); i++) {
        Py_buffer *view = borrow(&l, PyTuple_GET_ITEM(masks, (Py_ssize_t)i), "mask", PyBUF_WRITABLE, 0);
        fine = view && (view->strides[0] == 1 || view->shape[0] < 2);
        if (view && !fine)
            PyErr_SetString(PyExc_ValueError, "masks must be contiguous");
        mask[i] = view ? view->buf : NULL;
    }
    if (fine) {
        Py_BEGIN_ALLOW_THREADS
        for (Py_ssize_t i = 0; i < l.n; i++) {
            double x[UNG_FIELDS_MOST], y[UNG_FIELDS_MOST];
            ung_caution caution[UNG_CAUTIONS_MOST];
            for (size_t j = 0; j < ung_input_count(c); j++)
                memcpy(x + j, (const char *)in[j].base + i * in[j].stride, sizeof *x);
            for (size_t j = 0; j < ung_output_count(c); j++)
                memcpy(y + j, (const char *)out[j].base + i * out[j].stride, sizeof *y);
            size_t count = ung_cautions(c, x, y, caution, UNG_CAUTIONS_MOST);
            for (size_t k = 0; k < count; k++)
                for (size_t r = 0; r < ung_rule_count(c); r++)
                    if (ung_rule_at(c, r)->code == caution[k].code)
                        mask[r][i] = 1;
        }
        Py_END_ALLOW_THREADS
    }
    give_back(&l);
    if (!fine)
        return NULL;
    Py_RETURN_NONE;
}

/* The bytes that an array spans, first and last + 1; both 0 where it has none. */
static int span_of(PyObject *object, uintptr_t *span)
{
    Py_buffer view;
    if (PyObject_GetBuffer(object, &view, PyBUF_STRIDES) < 0)
        return 0;
    span[0] = (uintptr_t)view.buf, span[1] = span[0] + (uintptr_t)view.itemsize;
    if (!view.len)
        span[0] = span[1] = 0;
    for (int i = 0; view.len && i < view.ndim; i++) {
        Py_ssize_t reach = (view.shape[i] - 1) * view.strides[i];
        span[reach > 0] += (uintptr_t)reach;
    }
    PyBuffer_Release(&view);
    return 1;
}

/* share_memory(targets, columns) -> whether the span of any target meets that of any column */
PyObject *native_share_memory(PyObject *self, PyObject *args)
{
    (void)self;
    PyObject *part[2];
    uintptr_t span[2][UNG_FIELDS_MOST][2];
    Py_ssize_t count[2];
    if (!PyArg_ParseTuple(args, "O!O!", &PyTuple_Type, part, &PyTuple_Type, part + 1))
        return NULL;
    for (int k = 0; k < 2; k++) {
        count[k] = PyTuple_GET_SIZE(part[k]);
        if (count[k] > UNG_FIELDS_MOST)
            return PyErr_Format(PyExc_ValueError, "more than %d arrays", UNG_FIELDS_MOST);
        for (Py_ssize_t i = 0; i < count[k]; i++)
            if (!span_of(PyTuple_GET_ITEM(part[k], i), span[k][i]))
                return NULL;
    }
    for (Py_ssize_t i = 0; i < count[0]; i++)
        for (Py_ssize_t j = 0; j < count[1]; j++)
            if (span[0][i][0] < span[1][j][1] && span[1][j][0] < span[0][i][1])
                Py_RETURN_TRUE;
    Py_RETURN_FALSE;
}

/* caution_lift(number, inputs, code, input number) -> the nearest value that lifts the caution, or None */
PyObject *native_caution_lift(PyObject *self, PyObject *args)
{
    (void)self;
    PyObject *index, *inputs;
    const char *code;
    Py_ssize_t input;
    if (!PyArg_ParseTuple(args, "OOsn", &index, &inputs, &code, &input))
        return NULL;
    const ung_calculation *c = read_calculation(index);
    double in[UNG_FIELDS_MOST], value;
    if (!c || !read_numbers(c, inputs, ung_input_count(c), ung_input, in))
        return NULL;
    ung_fault fault;
    if (ung_caution_lift(c, in, code, (size_t)input, &value, &fault) != UNG_OK)
        return refuse(&fault);
    return number_or_none(value);
}

static PyObject *text_or_none(const char *text)
{
    if (!text)
        Py_RETURN_NONE;
    return PyUnicode_FromString(text);
}

/* plan_lookup(input names, ((step, calculation), ...)) -> languages of its texts.  The names are compared as in
 * `lookup`. */
PyObject *native_plan_lookup(PyObject *self, PyObject *args)
{
    (void)self;
    PyObject *names, *steps, *languages;
    if (!PyArg_ParseTuple(args, "O!O!", &PyTuple_Type, &names, &PyTuple_Type, &steps))
        return NULL;
    size_t count = sizeof(ung_job_plan_in) / sizeof(double);
    int same = ung_plan_input_count() == count && (size_t)PyTuple_GET_SIZE(names) == count &&
               PyTuple_GET_SIZE(steps) == UNG_PLAN_STEP_COUNT && !ung_plan_step(UNG_PLAN_STEP_COUNT).name;
    for (size_t i = 0; same && i < count; i++)
        same = is_name(PyTuple_GET_ITEM(names, (Py_ssize_t)i), ung_plan_input(i).field.name);
    for (size_t i = 0; same && i < UNG_PLAN_STEP_COUNT; i++) {
        PyObject *pair = PyTuple_GET_ITEM(steps, (Py_ssize_t)i);
        ung_plan_part part = ung_plan_step(i);
        same = PyTuple_Check(pair) && PyTuple_GET_SIZE(pair) == 2 && is_name(PyTuple_GET_ITEM(pair, 0), part.name) &&
               is_name(PyTuple_GET_ITEM(pair, 1), ung_calculation_name(part.calculation));
    }
    if (!same)
        return PyErr_Format(PyExc_ImportError,
                            "this Python package was made for another version of libungula than %s (job_plan differs)",
                            ung_version());
    languages = PyList_New(0);
    for (size_t i = 0; languages && ung_plan_language(i); i++) {
        PyObject *language = PyUnicode_FromString(ung_plan_language(i));
        if (!language || PyList_Append(languages, language) < 0)
            Py_CLEAR(languages);
        Py_XDECREF(language);
    }
    return languages;
}

/* A tuple of what make gives for 0, 1, ...; the plan's parts are made into entries one by one. */
static PyObject *entries(size_t count, PyObject *(*make)(const void *from, size_t index), const void *from)
{
    PyObject *tuple = PyTuple_New((Py_ssize_t)count);
    for (size_t i = 0; tuple && i < count; i++) {
        PyObject *entry = make(from, i);
        if (entry)
            PyTuple_SET_ITEM(tuple, (Py_ssize_t)i, entry);
        else
            Py_CLEAR(tuple);
    }
    return tuple;
}

static PyObject *step_entry(const void *from, size_t i)
{
    const ung_job_plan_out *plan = from;
    const double *value = from;
    ung_plan_part part = ung_plan_step(i);
    char text[UNG_FAULT_TEXT] = "";
    if (plan->state[i] == UNG_STEP_LACKS || plan->state[i] == UNG_STEP_REFUSED)
        ung_fault_text(plan->fault + i, text);
    return Py_BuildValue("(sNNsz)", ung_step_state_text(plan->state[i]),
                         floats(&PyTuple_Type, value + part.in, ung_input_count(part.calculation)),
                         floats(&PyTuple_Type, value + part.out, ung_output_count(part.calculation)), text,
                         plan->state[i] == UNG_STEP_LACKS ? plan->fault[i].field : NULL);
}

static PyObject *item_entry(const void *from, size_t i)
{
    static const char *const kind[] = {"bring", "do", "later"};
    const ung_plan_item *item = (const ung_plan_item *)from + i;
    return Py_BuildValue("(ssNsszz)", kind[item->kind], item->code, number_or_none(item->quantity), item->unit,
                         ung_plan_step(item->step).name, item->field, item->caution);
}

static PyObject *plan_caution_entry(const void *from, size_t i)
{
    const ung_plan_caution *held = (const ung_plan_caution *)from + i;
    ung_plan_part part = ung_plan_step(held->step);
    return Py_BuildValue("(sNs)", part.name, caution_entry(&held->caution), ung_calculation_name(part.calculation));
}

static PyObject *plan_items(const ung_job_plan_out *plan)
{
    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    return entries(ung_plan_items(plan, item, UNG_PLAN_ITEMS_MOST), item_entry, item);
}

static PyObject *plan_cautions(const ung_job_plan_out *plan)
{
    size_t count = ung_job_plan_cautions(plan, NULL, 0);
    ung_plan_caution *held = PyMem_New(ung_plan_caution, count ? count : 1);
    if (!held)
        return PyErr_NoMemory();
    ung_job_plan_cautions(plan, held, count);
    PyObject *cautions = entries(count, plan_caution_entry, held);
    PyMem_Free(held);
    return cautions;
}

static PyObject *row_memory(const void *rows, size_t size)
{
    return PyByteArray_FromStringAndSize(rows, (Py_ssize_t)size);
}

typedef union plan_asked {
    ung_job_plan_in in;
    double value[sizeof(ung_job_plan_in) / sizeof(double)];
} plan_asked;

/* 0 with an exception set. */
static int read_plan(PyObject *tuple, plan_asked *asked)
{
    size_t count = sizeof *asked / sizeof(double);
    if (!tuple || !is_tuple_of(tuple, count, "job_plan"))
        return 0;
    for (size_t i = 0; i < count; i++) {
        PyObject *item = PyTuple_GET_ITEM(tuple, (Py_ssize_t)i);
        if (!read_number(item, asked->value + i)) {
            PyErr_Format(PyExc_TypeError, "%s must be a number, not %s", ung_plan_input(i).field.name,
                         Py_TYPE(item)->tp_name);
            return 0;
        }
    }
    return 1;
}

/* plan(inputs) -> (steps, tasks, times, items, cautions); NaN among the inputs is what was not given.
 * steps: (state, inputs, results, why, what it lacks); tasks, times: memory of the timeline's rows; items: (kind, code,
 * quantity or None, unit, step, field, caution); cautions: (step, caution as in `cautions`, calculation). */
PyObject *native_plan(PyObject *self, PyObject *args)
{
    (void)self;
    plan_asked asked;
    if (!read_plan(argument(args, 0, 1), &asked))
        return NULL;
    ung_job_plan_out plan;
    ung_fault fault;
    ung_status status;
    Py_BEGIN_ALLOW_THREADS /* with samples, the timeline takes its time */
    status = ung_job_plan(&asked.in, &plan, &fault);
    Py_END_ALLOW_THREADS
    if (status != UNG_OK)
        return refuse(&fault);
    return Py_BuildValue("(NNNNN)", entries(UNG_PLAN_STEP_COUNT, step_entry, &plan),
                         row_memory(plan.tasks, sizeof plan.tasks), row_memory(plan.times, sizeof plan.times),
                         plan_items(&plan), plan_cautions(&plan));
}

/* plan_words(code, quantity, unit, language) -> the item in words, or None */
PyObject *native_plan_words(PyObject *self, PyObject *args)
{
    (void)self;
    const char *code, *unit, *language;
    double quantity;
    if (!PyArg_ParseTuple(args, "sdss", &code, &quantity, &unit, &language))
        return NULL;
    size_t length = ung_plan_words(code, quantity, unit, language, NULL, 0);
    char *words = length ? PyMem_Malloc(length + 1) : NULL;
    if (!words)
        return length ? PyErr_NoMemory() : text_or_none(NULL);
    ung_plan_words(code, quantity, unit, language, words, length + 1);
    PyObject *text = PyUnicode_FromString(words);
    PyMem_Free(words);
    return text;
}

static PyObject *plan_input_entry(const void *from, size_t i)
{
    (void)from;
    ung_plan_asked asked = ung_plan_input(i);
    const ung_field *f = &asked.field;
    return Py_BuildValue("(ssddddNsOsssOO)", f->name, ung_field_unit(f->name), f->lower, f->upper, f->usual_lower,
                         f->usual_upper, number_or_none(f->standard), ung_kind_text(f->standard_kind),
                         f->whole ? Py_True : Py_False, f->meaning, asked.calculation, asked.original,
                         asked.found ? Py_True : Py_False, asked.chosen ? Py_True : Py_False);
}

/* plan_inputs() -> all inputs described: the fields of Input, then calculation, original, found, chosen */
PyObject *native_plan_inputs(PyObject *self, PyObject *args)
{
    (void)self;
    return PyArg_ParseTuple(args, "") ? entries(ung_plan_input_count(), plan_input_entry, NULL) : NULL;
}

/* plan_lift(inputs, step, code, number of the input) -> the nearest value that lifts the caution, or None */
PyObject *native_plan_lift(PyObject *self, PyObject *args)
{
    (void)self;
    PyObject *tuple;
    const char *code;
    Py_ssize_t step, input;
    plan_asked asked;
    if (!PyArg_ParseTuple(args, "Onsn", &tuple, &step, &code, &input) || !read_plan(tuple, &asked))
        return NULL;
    ung_fault fault;
    ung_status status;
    double value;
    Py_BEGIN_ALLOW_THREADS /* some hundred plans */
    status = ung_job_plan_lift(&asked.in, (size_t)step, code, (size_t)input, &value, &fault);
    Py_END_ALLOW_THREADS
    return status == UNG_OK ? number_or_none(value) : refuse(&fault);
}
