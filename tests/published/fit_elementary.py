#!/usr/bin/python3
"""Coefficients and split constants of lib/core/elementary.h and normal.h, from nothing but their definitions.

Run:  /usr/bin/python3 tests/published/fit_elementary.py      (Debian: apt-get install python3-mpmath; a few seconds)

Every polynomial is a minimax fit: the exchange algorithm of Remez on a fixed fine grid, in 50-digit arithmetic, with
the weight that turns the error of the polynomial into the relative error of the function.  Coefficients are printed
lowest power first, rounded to double, with the relative error that remains after the rounding, in powers of two.
"""
from mpmath import asin, atan, atanh, cos, erfc, exp, expm1, log, lu_solve, matrix, mp, mpf, pi, sin, sqrt

mp.dps = 50


def solve(points, function, weight, terms):
    """Coefficients with equal and alternating weighted errors at terms + 1 points."""
    a = matrix(terms + 1, terms + 1)
    b = matrix(terms + 1, 1)
    for i, x in enumerate(points):
        for j in range(terms):
            a[i, j] = x ** j
        a[i, terms] = (-1) ** i / weight(x)
        b[i] = function(x)
    answer = lu_solve(a, b)
    return [answer[j] for j in range(terms)]


def value(coefficients, x):
    total = mpf(0)
    for c in reversed(coefficients):
        total = total * x + c
    return total


def minimax(function, weight, low, high, terms):
    low, high = mpf(low), mpf(high)
    middle, half = (low + high) / 2, (high - low) / 2
    count = 40 * terms
    grid = [middle - half * cos(pi * (2 * i + 1) / (2 * count)) for i in range(count)]
    exact = [(x, function(x), weight(x)) for x in grid]
    points = [middle - half * cos(pi * (2 * i + 1) / (2 * (terms + 1))) for i in range(terms + 1)]
    for _ in range(12):
        coefficients = solve(points, function, weight, terms)
        errors = [(value(coefficients, x) - y) * w for x, y, w in exact]
        peaks = []  # the largest error of each run of one sign
        for i, e in enumerate(errors):
            if peaks and (errors[peaks[-1]] > 0) == (e > 0):
                if abs(e) > abs(errors[peaks[-1]]):
                    peaks[-1] = i
            else:
                peaks.append(i)
        while len(peaks) > terms + 1:
            peaks.pop(0 if abs(errors[peaks[0]]) < abs(errors[peaks[-1]]) else -1)
        if len(peaks) < terms + 1:
            break
        sizes = [abs(errors[i]) for i in peaks]
        points = [grid[i] for i in peaks]
        if max(sizes) < min(sizes) * mpf("1.001"):
            break
    return coefficients


def fit(function, weight, low, high, terms):
    """A minimax fit whose coefficients are doubles.

    On a range that begins at 0 the lowest is rounded and the others are fitted again to what is left, and so on; on a
    range round 0 all are rounded at once.
    """
    if low < 0:
        rounded = [mpf(float(c)) for c in minimax(function, weight, low, high, terms)]
    else:
        rounded = []
        for done in range(terms):
            def rest(x):
                return (function(x) - value(rounded, x)) / x ** done

            def rest_weight(x):
                return weight(x) * x ** done
            rounded.append(mpf(float(minimax(rest, rest_weight, low, high, terms - done)[0])))
    low, high = mpf(low), mpf(high)
    grid = [low + (high - low) * (i + mpf(1) / 2) / 2000 for i in range(2000)]
    worst = max(abs((value(rounded, x) - function(x)) * weight(x)) for x in grid)
    return [float(c) for c in rounded], worst


def show(name, what, function, weight, low, high, terms):
    coefficients, worst = fit(function, weight, low, high, terms)
    print(f"{name}: {what}, {terms} terms, error 2^{float(log(worst, 2)):.1f}")
    for c in coefficients:
        print(f"    {c!r:>26}  {c.hex()}")


def split(name, exact, bits):
    """The first `bits` bits of a constant and the rest: products of the first part by a short number are exact."""
    scale = mpf(2) ** (bits - 1 - int(mp.floor(log(abs(exact), 2))))
    first = mp.nint(exact * scale) / scale
    print(f"{name}: {float(first).hex()} + {float(exact - first).hex()}")


def odd(f):
    """(f(x) - x) / x^3 as a function of z = x^2, 50 digits leave enough of the difference."""
    def g(z):
        x = sqrt(z)
        return (f(x) - x) / (x * z)
    return g


def relative(f):
    def w(z):
        x = sqrt(z)
        return x * z / f(x)
    return w


def scaled_tail(t):
    """Q is the share of a normal distribution above z."""
    z = 5 * (1 + t) / (1 - t)
    return (1 + mpf("1.4") * z) * exp(z * z / 2) * erfc(z / sqrt(2))


if __name__ == "__main__":
    slack = mpf(1) + mpf(2) ** -40  # a reduced argument may exceed its range by a rounding
    quarter = (pi / 4 * slack) ** 2
    show("sin", "(sin t - t)/t^3 in z = t^2, |t| <= pi/4", odd(sin), relative(sin), 0, quarter, 7)
    show("cos", "(cos t - 1 + z/2)/z^2 in z = t^2, |t| <= pi/4",
         lambda z: (cos(sqrt(z)) - 1 + z / 2) / z ** 2, lambda z: z ** 2 / cos(sqrt(z)), 0, quarter, 6)
    show("atan", "(atan u - u)/u^3 in z = u^2, |u| <= 1/2", odd(atan), relative(atan), 0, slack / 4, 13)
    show("asin", "(asin w - w)/w^3 in z = w^2, |w| <= 1/2", odd(asin), relative(asin), 0, slack / 4, 14)
    fold = log(2) / 2 * slack
    show("exp", "(exp r - 1 - r)/r^2 in r, |r| <= ln 2/2",
         lambda r: (expm1(r) - r) / r ** 2, lambda r: fold, -fold, fold, 11)
    edge = ((sqrt(2) - 1) / (sqrt(2) + 1) * slack) ** 2
    show("log", "(2 atanh s - 2 s)/s^3 in z = s^2, |s| <= (sqrt 2 - 1)/(sqrt 2 + 1)",
         lambda z: 2 * odd(atanh)(z), lambda z: z / 2, 0, edge, 8)
    show("normal", "(1 + 1.4 z) 2 e^(z^2/2) Q(z) in t = (z - 5)/(z + 5), 0 <= z <= 40 (normal.h)",
         scaled_tail, lambda t: 1 / scaled_tail(t), -1, mpf(35) / 45, 22)
    print()
    split("pi/180", pi / 180, 26)
    split("180/pi", 180 / pi, 26)
    split("pi/4", pi / 4, 53)
    split("pi/2", pi / 2, 53)
    split("ln 2", log(2), 40)
    print("1/ln 2:", float(1 / log(2)).hex())
    print("1/90:", float(mpf(1) / 90).hex())
    print("sqrt 1/2, bits to 32:", float(sqrt(mpf(1) / 2)).hex())
