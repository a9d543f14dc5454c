"""Edges of setting windows, reckoned a second time with SciPy.

Draws random openings and finds, for each, the settings at which a hand-force
limit and latching turn, and the least valve resistances there: the moments and
motions come from ../../swing/testdata/closing.py, which is written from the equations
alone; the resistances from SciPy's hybrid Powell root finder on both closing times
at once; the edge of the hand force from Brent's method, and that of latching from
bisection to 5e-5 of the span of settings.

Writes edges.json, which the Go tests read:

    /usr/bin/python3 edges.py > edges.json
"""
import json
import math
import multiprocessing
import os
import random
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../swing/testdata"))
import closing  # noqa: E402
from scipy.optimize import brentq, root  # noqa: E402

DEG = math.pi / 180
IN = 0.0254
SOLVER = {"method": "LSODA", "rtol": 1e-8, "atol": 1e-10}
CASES = 24

ARMS = [
    # on the leaf, track, bend, pinion x and y, far end x and y, main arm, forearm; inches
    (True, False, 1, (5, 8), (2, 2.75), (10, 14), (0.5, 1.5), (9.5, 12.5), (9, 12.5)),
    (False, False, -1, (5, 8), (-3, -0.5), (9, 15), (-4.5, -2), (9.5, 12.5), (9, 12.5)),
    (True, True, 1, (5, 9), (1.5, 3), (0, 20), (0.5, 1.5), (9, 14), (0, 0)),
    (False, True, 1, (5, 9), (-4, -1), (0, 20), (-4, -2), (9, 14), (0, 0)),
]


def arm(rnd, kind, v):
    """Draws an arm that works from closed to 95 degrees without a dead point."""
    on_leaf, track, bend, *ranges = ARMS[kind]
    case = {"closer": True, "track": track, "on_leaf": on_leaf, "bend": bend}
    while True:
        names = ("arm.pinion_x", "arm.pinion_y", "arm.shoe_x", "arm.shoe_y", "arm.main", "arm.forearm")
        for name, (low, high) in zip(names, ranges):
            v[name] = rnd.uniform(low, high) * IN
        try:
            made = closing.Arm(v, case)
            if all(0.4 < made.at(k * DEG)[1] < 4 for k in range(0, 96)):
                return case, made
        except ValueError:
            pass


def draw(seed):
    rnd = random.Random(seed)
    v = {key: 0.0 for key in KEYS}
    v["leaf.width"], v["leaf.height"], v["leaf.thickness"] = rnd.uniform(0.75, 1.15), rnd.uniform(1.95, 2.4), 0.044
    v["leaf.pin_to_edge"], v["leaf.pin_to_face"] = rnd.uniform(0, 0.006), rnd.uniform(0, 0.012)
    v["leaf.slab_mass"] = rnd.uniform(30, 90)
    case, made = arm(rnd, seed % len(ARMS), v)
    v["closer.loss"] = rnd.uniform(0.1, 0.3)
    n0 = made.at(0)[1]
    weak = rnd.uniform(9, 14) / (n0 * (1 - v["closer.loss"]))
    grow, rise = rnd.uniform(1.3, 1.5), rnd.uniform(0.1, 0.35)
    spring = [[float(q), weak * grow**(q - 1), rise * weak * grow**(q - 1)] for q in range(1, 6)]
    v["latch.zone"] = made.at(rnd.uniform(11.5, 15) * DEG)[0]
    v["valve.blend"] = 1.5 * DEG
    v["oil.factor"] = 1.0
    if rnd.random() < 0.5:
        v["sweep.orifice"], v["latch.orifice"] = rnd.uniform(0.5, 4), rnd.uniform(1, 15)
    v["hinge.friction"] = rnd.uniform(0.2, 1.2)
    v["bolt.force"], v["bolt.radius"] = rnd.uniform(1, 6), v["leaf.width"] - 0.02
    v["bolt.clears"], v["bolt.meets"] = rnd.uniform(0.4, 0.8) * DEG, rnd.uniform(1.6, 2.6) * DEG
    v["seal.stiffness"], v["seal.meets"] = rnd.uniform(20, 120), rnd.uniform(0.6, 1.4) * DEG
    v["air.pressure_fades"] = 6 * DEG
    v["air.drag"], v["air.density"] = 1.9, 1.2
    if rnd.random() < 0.5:
        v["hinge.lean"], v["hinge.lean_azimuth"] = rnd.uniform(0, 0.2) * DEG, rnd.uniform(-180, 180) * DEG
    v["sweep.viscous"], v["latch.viscous"] = 3 * weak, 4 * weak
    case.update(values=v, latch=True)
    out = {"case": case, "spring": spring, "sweep_time": rnd.uniform(3, 6), "latch_time": rnd.uniform(1.3, 2.2),
           "least_pressure": rnd.uniform(-8, 0), "at": v["leaf.width"] - 0.07, "oil": rnd.choice([1.0, rnd.uniform(1.2, 2.5)])}
    # Limits that turn somewhere within the settings.
    out["hand_limit"] = hand(out, rnd.uniform(2.2, 4.6))
    spare = min(-sum(at_rest(out, rnd_q, k * 0.05 * DEG)) for rnd_q in [rnd.uniform(1.3, 3)] for k in range(1, 100))
    area = v["leaf.width"] * v["leaf.height"] * (v["leaf.pin_to_edge"] + v["leaf.width"] / 2)
    out["most_pressure"] = max(0.0, spare / area) * rnd.uniform(0.9, 1.2)
    return out


def at(out, setting, **more):
    """The case at a setting."""
    marked = out["spring"]
    i = min(max(int(setting) - 1, 0), len(marked) - 2)
    (qa, ta, ka), (qb, tb, kb) = marked[i], marked[i + 1]
    part = (setting - qa) / (qb - qa)
    v = dict(out["case"]["values"])
    v["spring.torque_closed"], v["spring.rise"] = ta + part * (tb - ta), ka + part * (kb - ka)
    v.update(more)
    return dict(out["case"], values=v)


def at_rest(out, setting, theta):
    """Torque toward opening and friction of a leaf going on to close."""
    shut, _, friction = closing.Leaf(at(out, setting)).at_rest(theta)
    return shut, friction


def hand(out, setting):
    """The largest force by hand from closed to 90 degrees, looked for at every degree."""
    leaf = closing.Leaf(at(out, setting, **{"air.pressure": out["least_pressure"]}))
    most = -math.inf
    for k in range(0, 91):
        _, opened, friction = leaf.at_rest(k * DEG)
        most = max(most, friction - opened)
    return most / out["at"]


def close(out, setting, valves, pressure, oil, start):
    case = at(out, setting, **{"sweep.viscous": valves[0], "latch.viscous": valves[1], "air.pressure": pressure, "oil.factor": oil})
    return closing.follow(dict(case, **{"from": start, "marks": [90 * DEG, 12 * DEG, 10 * DEG, 0.0]}), SOLVER)


def valves(out, setting, guess):
    """Resistances with which both times are just kept, logarithms."""
    def misfit(x):
        m = close(out, setting, [math.exp(k) for k in x], 0.0, 1.0, 90 * DEG)["marks"]
        if None in m:
            return [3.0, 3.0]
        return [math.log((m[1] - m[0]) / out["sweep_time"]), math.log((m[3] - m[2]) / out["latch_time"])]

    found = root(misfit, guess, method="hybr", options={"eps": 1e-4, "xtol": 1e-7})
    return found.x if max(abs(r) for r in misfit(found.x)) < 1e-4 else None


def edge(out, start, guess, low=1.0, high=5.0):
    """The setting, from low to high, above which the leaf latches from start with the
    least resistances."""
    def latches(setting):
        x = valves(out, setting, guess)
        if x is None:
            raise ArithmeticError
        end = close(out, setting, [math.exp(k) for k in x], out["most_pressure"], out["oil"], start)["end"]
        return end in ("latched", "closed"), x

    if latches(low)[0] or not latches(high)[0]:
        raise ArithmeticError
    while high - low > 2e-4:
        mid = (low + high) / 2
        good, guess = latches(mid)
        low, high = (low, mid) if good else (mid, high)
    return high, [math.exp(k) for k in guess]


def solve(seed):
    out = draw(seed)
    try:
        torque = out["spring"][0][1]
        guess = [math.log(3 * torque), math.log(4 * torque)]
        out["hand_edge"] = brentq(lambda q: hand(out, q) - out["hand_limit"], 1, 5, xtol=1e-10)
        out["latch_edges"], out["valves"] = {}, {}
        first, at_first = edge(out, 5 * DEG, guess)
        guess = [math.log(a) for a in at_first]
        try:  # the other angle's edge is mostly near by
            second, at_second = edge(out, 90 * DEG, guess, first - 0.02, first + 0.02)
        except ArithmeticError:
            second, at_second = edge(out, 90 * DEG, guess)
        out["latch_edges"], out["valves"] = {"5": first, "90": second}, {"5": at_first, "90": at_second}
        return out
    except ArithmeticError:
        return None


KEYS = [
    "leaf.width", "leaf.height", "leaf.thickness", "leaf.pin_to_edge", "leaf.pin_to_face", "leaf.slab_mass",
    "attached.mass", "attached.moment", "attached.inertia",
    "arm.pinion_x", "arm.pinion_y", "arm.shoe_x", "arm.shoe_y", "arm.main", "arm.forearm", "arm.track_line",
    "spring.torque_closed", "spring.rise", "closer.loss", "pinion.inertia",
    "sweep.viscous", "sweep.orifice", "latch.viscous", "latch.orifice", "latch.zone", "valve.blend",
    "delay.viscous", "delay.from", "delay.to", "opening.viscous", "backcheck.viscous", "backcheck.orifice", "backcheck.zone",
    "oil.factor", "hinge.friction", "bolt.force", "bolt.radius", "bolt.clears", "bolt.meets",
    "seal.stiffness", "seal.meets", "air.pressure", "air.pressure_fades", "air.drag", "air.density",
    "hinge.lean", "hinge.lean_azimuth",
]


def main():
    found = []
    with multiprocessing.Pool(2) as pool:
        for out in pool.imap(solve, range(1, 1000)):
            if out is not None:
                found.append(out)
                print(len(found), file=sys.stderr)
            if len(found) == CASES:
                pool.terminate()
                break
    json.dump({"cases": found}, sys.stdout, indent=1)
    print()


if __name__ == "__main__":
    main()
