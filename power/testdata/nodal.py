"""Nodal analysis of trees of resistors with loads of steady current, resistance or power.

Each tree is solved as a full conductance matrix with SciPy: the loads of steady power are
brought in by raising them step by step from nothing to what they are (a continuation from
the solution that has none), each step by fsolve's hybrid method. A tree whose solution
cannot be followed to the end has none on that branch: the wires cannot carry it.
"""
import json
import sys

import numpy
from scipy.optimize import fsolve


def matrices(tree):
    n = len(tree["Parent"]) + 1
    g, s = numpy.zeros((n, n)), numpy.zeros(n)
    inner = 1 / max(tree["Inner"], 1e-9)
    g[0, 0] += inner
    s[0] += inner * tree["Volts"]
    for k, (parent, ohms) in enumerate(zip(tree["Parent"], tree["Ohms"])):
        c, i, j = 1 / ohms, parent, k + 1
        g[i, i] += c
        g[j, j] += c
        g[i, j] -= c
        g[j, i] -= c
    power = numpy.zeros(n)
    for node, kind, amps, rated in zip(tree["Node"], tree["Kind"], tree["Amps"], tree["Rated"]):
        if kind == 0:
            s[node] -= amps
        elif kind == 1:
            g[node, node] += amps / rated
        else:
            power[node] += amps * rated
    return g, s, power


def solve(tree):
    g, s, power = matrices(tree)
    z = numpy.linalg.inv(g)
    v = z @ s
    if min(v) <= 0:
        return None

    def off(v, share):
        return v - z @ (s - share * power / v)

    def slope(v, share):
        return numpy.eye(len(v)) - z * (share * power / v**2)

    share, step = 0.0, 1.0
    while share < 1:
        ahead = min(1.0, share + step)
        x, _, done, _ = fsolve(off, v, args=(ahead,), fprime=slope, xtol=1e-13, full_output=True)
        good = done == 1 and min(x) > 0 and max(abs(off(x, ahead))) < 1e-9
        # on the branch that begins with no load, the slope keeps its sign
        if good and numpy.linalg.det(slope(x, ahead)) > 0 and min(numpy.linalg.eigvals(slope(x, ahead)).real) > 0:
            v, share, step = x, ahead, step * 2
        else:
            step /= 2
            if step < 1e-7:
                return None
    return v


answers = []
with numpy.errstate(all="ignore"):
    import warnings

    warnings.simplefilter("ignore")
    for tree in json.load(sys.stdin):
        v = solve(tree)
        answers.append({"Fed": v is not None, "Volts": [] if v is None else list(v)})
json.dump(answers, sys.stdout)
