/* SWIG interface of libungula.  Built for Python without classes (-python -noproxy); the hand-written package makes
 * named tuples of what comes from here.
 *
 * Contracts, texts and numbers of statuses are wrapped from the public header as it stands, and suit any language.
 * Calls take structs as tuples and columns as buffers, which no general typemap does at this speed: native.c. */
%module(package="ungula") _core

%{
#include "native.h"
#include <ungula.h>
%}

/* A handle of a contract, field or rule points to constant storage; the only wrong one is a missing one. */
%typemap(check) SWIGTYPE * {
    if (!$1)
        SWIG_exception_fail(SWIG_ValueError, "a handle is missing");
}
%include <exception.i>

%immutable;
%nodefaultctor;
%nodefaultdtor;

/* Plain C calls and the structs that only they use. */
%ignore ung_call;
%ignore ung_standard;
%ignore ung_batch;
%ignore ung_cautions;
%ignore ung_caution_lift;
%ignore ung_fault_format;
%ignore ung_fault_text;
%ignore ung_number_text;
%ignore ung_fault;
%ignore ung_caution;
%ignore ung_rows;
%ignore ung_column;
%ignore ung_target;
%ignore ung_list::fields; /* an array: list_field below */
%ignore UNG_FAULT_TEXT;
%ignore UNG_NUMBER_TEXT;
%ignore UNG_CAUTIONS_MOST;
%ignore UNG_FIELDS_MOST;
%ignore UNG_NO_INDEX;
%rename("%(regex:/^(?:ung|UNG)_(.*)$/\\1/)s") "";
%rename(input_at) ung_input; /* `input` is a builtin of Python */
%rename(output_at) ung_output;
%include <ungula/core.h>

%inline %{
/* Field `index` of a list's rows; NULL beyond the last. */
static const ung_field *ung_list_field(const ung_list *list, size_t index)
{
    return index < list->field_count ? list->fields + index : 0;
}
%}

#ifdef SWIGPYTHON
%native(lookup) PyObject *native_lookup(PyObject *self, PyObject *args);
%native(call) PyObject *native_call(PyObject *self, PyObject *args);
%native(call_lists) PyObject *native_call_lists(PyObject *self, PyObject *args);
%native(batch) PyObject *native_batch(PyObject *self, PyObject *args);
%native(cautions) PyObject *native_cautions(PyObject *self, PyObject *args);
%native(caution_masks) PyObject *native_caution_masks(PyObject *self, PyObject *args);
%native(share_memory) PyObject *native_share_memory(PyObject *self, PyObject *args);
%native(caution_lift) PyObject *native_caution_lift(PyObject *self, PyObject *args);
%native(plan_lookup) PyObject *native_plan_lookup(PyObject *self, PyObject *args);
%native(plan) PyObject *native_plan(PyObject *self, PyObject *args);
%native(plan_words) PyObject *native_plan_words(PyObject *self, PyObject *args);
%native(plan_inputs) PyObject *native_plan_inputs(PyObject *self, PyObject *args);
%native(plan_lift) PyObject *native_plan_lift(PyObject *self, PyObject *args);
#endif
