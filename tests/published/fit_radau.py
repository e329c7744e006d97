#!/usr/bin/python3
"""Coefficients of lib/core/ode.c: the Radau IIA method of 5 stages (order 9), from its definition.

Run:  /usr/bin/python3 tests/published/fit_radau.py      (Debian: apt-get install python3-mpmath; a second)

Nodes: the right Radau points, roots of d^4/dx^4 (x^4 (x - 1)^5).  A integrates the Lagrange polynomials of the nodes
from 0 to each node; its last row are the weights (Hairer and Wanner 1996, IV.5).  The embedded formula of order 5
has the weight gamma at the beginning of the step, where 1/gamma is the real eigenvalue of the inverse of A (IV.8).
"""
from mpmath import eig, inverse, lu_solve, matrix, mp, mpf, polyroots

mp.dps = 50
STAGES = 5


def multiply(p, q):
    r = [mpf(0)] * (len(p) + len(q) - 1)
    for i, a in enumerate(p):
        for j, b in enumerate(q):
            r[i + j] += a * b
    return r


def nodes():
    p = [mpf(1)]
    for _ in range(STAGES - 1):
        p = multiply(p, [mpf(0), mpf(1)])
    for _ in range(STAGES):
        p = multiply(p, [mpf(-1), mpf(1)])
    for _ in range(STAGES - 1):
        p = [k * a for k, a in enumerate(p)][1:]
    return sorted(x.real for x in polyroots(p[::-1], maxsteps=500, extraprec=500))


def lagrange(c, i):
    p = [mpf(1)]
    for j, x in enumerate(c):
        if j != i:
            p = multiply(p, [-x / (c[i] - x), 1 / (c[i] - x)])
    return p


def main():
    c = nodes()
    a = matrix(STAGES, STAGES)
    for j in range(STAGES):
        p = lagrange(c, j)
        for i in range(STAGES):
            a[i, j] = sum(q * c[i] ** (k + 1) / (k + 1) for k, q in enumerate(p))
    inv = inverse(a)
    values = eig(inv, left=False, right=False)
    real = min(values, key=lambda v: abs(v.imag)).real
    gamma = 1 / real
    powers, wanted = matrix(STAGES, STAGES), matrix(STAGES, 1)
    for k in range(STAGES):
        for j in range(STAGES):
            powers[k, j] = c[j] ** k
        wanted[k] = mpf(1) / (k + 1) - (gamma if k == 0 else 0)
    hat = lu_solve(powers, wanted)
    e = [sum((hat[j] - a[STAGES - 1, j]) * inv[j, i] for j in range(STAGES)) for i in range(STAGES)]

    def show(name, values):
        print(f"{name}: " + ", ".join(mp.nstr(v, 20) for v in values))
    show("nodes", c)
    for i in range(STAGES):
        show(f"row {i + 1}", [a[i, j] for j in range(STAGES)])
    show("gamma", [gamma])
    show("embedded, of the stages' changes", e)
    show("divisors of the Lagrange polynomials on 0 and the nodes",
         [x * mp.fprod(x - y for y in c if y != x) for x in c])


if __name__ == "__main__":
    main()
