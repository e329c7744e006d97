/* Python's side of the module that SWIG makes from ungula.i: the calls that are worth writing by hand. */
#ifndef UNGULA_NATIVE_H
#define UNGULA_NATIVE_H

#define PY_SSIZE_T_CLEAN
#include <Python.h>

/* Each takes (self, tuple of arguments), as SWIG's %native wants it; what they do stands in native.c. */
PyObject *native_lookup(PyObject *self, PyObject *args);
PyObject *native_call(PyObject *self, PyObject *args);
PyObject *native_call_lists(PyObject *self, PyObject *args);
PyObject *native_batch(PyObject *self, PyObject *args);
PyObject *native_cautions(PyObject *self, PyObject *args);
PyObject *native_caution_masks(PyObject *self, PyObject *args);
PyObject *native_share_memory(PyObject *self, PyObject *args);
PyObject *native_caution_lift(PyObject *self, PyObject *args);
PyObject *native_plan_lookup(PyObject *self, PyObject *args);
PyObject *native_plan(PyObject *self, PyObject *args);
PyObject *native_plan_words(PyObject *self, PyObject *args);
PyObject *native_plan_inputs(PyObject *self, PyObject *args);
PyObject *native_plan_lift(PyObject *self, PyObject *args);

#endif
