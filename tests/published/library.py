"""The C library through ctypes, by its public contract functions alone: no bindings needed, no names written twice.

The shared library is the one named by UNG_LIBRARY, or the one just built in $abs_top_builddir/.libs.
"""
import ctypes
import os
import random


class Field(ctypes.Structure):  # ung_field of core.h
    _fields_ = ([("name", ctypes.c_char_p), ("meaning", ctypes.c_char_p)]
                + [(name, ctypes.c_double) for name in ("lower", "upper", "usual_lower", "usual_upper", "standard")]
                + [("kind", ctypes.c_int), ("whole", ctypes.c_int), ("may_be_infinite", ctypes.c_int)])


class Rows(ctypes.Structure):  # ung_rows
    _fields_ = [("data", ctypes.POINTER(ctypes.c_double)), ("count", ctypes.c_size_t)]


class Refused(Exception):
    """The library refused; the text is its own sentence."""

    def __init__(self, status, text):
        super().__init__(text)
        self.status = status


RELATION = -5  # UNG_RELATION: the fields are acceptable one by one but not together


def load():
    path = os.environ.get("UNG_LIBRARY") or os.path.join(
        os.environ.get("abs_top_builddir", "."), ".libs", "libungula.so")
    library = ctypes.CDLL(path)
    size, pointer = ctypes.c_size_t, ctypes.c_void_p
    doubles = ctypes.POINTER(ctypes.c_double)
    for name, result, arguments in (
            ("ung_calculation_find", pointer, [ctypes.c_char_p]),
            ("ung_input_count", size, [pointer]), ("ung_output_count", size, [pointer]),
            ("ung_list_count", size, [pointer]), ("ung_workspace", size, [pointer, size]),
            ("ung_input", ctypes.POINTER(Field), [pointer, size]),
            ("ung_output", ctypes.POINTER(Field), [pointer, size]),
            ("ung_call", ctypes.c_int, [pointer, doubles, ctypes.POINTER(Rows), doubles, pointer]),
            ("ung_fault_text", ctypes.c_char_p, [pointer, ctypes.c_char_p])):
        function = getattr(library, name)
        function.restype, function.argtypes = result, arguments
    return library


class Calculation:
    """One calculation: inputs and outputs in field order, a call by keyword, random inputs."""

    library = None

    def __init__(self, name):
        if Calculation.library is None:
            Calculation.library = load()
        library = self.library
        self.name = name
        self.handle = library.ung_calculation_find(name.encode())
        assert self.handle, name + " is not in the library"
        self.inputs = [library.ung_input(self.handle, i).contents for i in range(library.ung_input_count(self.handle))]
        self.outputs = [library.ung_output(self.handle, i).contents.name.decode()
                        for i in range(library.ung_output_count(self.handle))]
        self.names = [field.name.decode() for field in self.inputs]

    def complete(self, **given):
        """The given fields and the standard values of the others."""
        assert set(given) <= set(self.names), set(given) - set(self.names)
        full = {name: given.get(name, field.standard) for name, field in zip(self.names, self.inputs)}
        missing = [name for name, value in full.items() if value != value]
        assert not missing, missing
        return full

    def call(self, given, point_count=0):
        """Results by name; with point_count also the rows (of two numbers) of its one list."""
        values = (ctypes.c_double * len(self.names))(*[given[name] for name in self.names])
        results = (ctypes.c_double * len(self.outputs))()
        fault = ctypes.create_string_buffer(1024)  # ung_fault, opaque here, with room to grow
        points = (ctypes.c_double * max(1, 2 * point_count))()
        rows = (Rows * 1)(Rows(points, point_count)) if point_count else None
        status = self.library.ung_call(self.handle, values, rows, results, fault)
        if status:
            text = ctypes.create_string_buffer(512)
            raise Refused(status, self.library.ung_fault_text(fault, text).decode())
        named = dict(zip(self.outputs, results))
        return (named, list(zip(points[0::2], points[1::2]))) if point_count else named

    def draw(self, generator: random.Random, hard):
        """Random inputs, uniform in the usual or in the accepted (hard) ranges."""
        given = {}
        for name, field in zip(self.names, self.inputs):
            low, high = (field.lower, field.upper) if hard else (field.usual_lower, field.usual_upper)
            given[name] = float(generator.randint(int(low), int(high))) if field.whole else generator.uniform(low, high)
        return given
