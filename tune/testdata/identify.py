"""Fits of closings, reckoned a second time with SciPy.

The motions come from ../../swing/testdata/closing.py, which is written from the
equations alone, followed by LSODA; the fit from SciPy's least_squares with Huber's
loss on what was observed. What was known before is added as residuals small enough
for that loss to leave them alone.

Reads {"fits": [fit, ...]}. A fit holds the opening as closing.py reads it ("case"),
the "params" (what, index, mean, u, log, low, high, step), where to begin ("start"),
"reference", the torque that orifices' shares hold at, the "shares" that are given, "huber", the "curves" (from,
t, theta, u, pieces, shut, shut_u, spring, rise, sweep, latch) and the "gauges"
(angle, at, force, u, closing, spring, rise). Writes for each the parameters "at"
and their covariance "cov", logarithms where "log", the "cost", and that of "ours".
"""
import json
import math
import multiprocessing
import os
import sys

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, least_squares

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../swing/testdata"))
import closing  # noqa: E402

SOLVER = {"method": "LSODA", "rtol": 1e-9, "atol": 1e-11, "dense_output": True}
SHARED = {
    "closer friction": "closer.loss", "hinge friction": "hinge.friction", "leaf mass": "leaf.slab_mass",
    "latch zone": "latch.zone", "air pressure": "air.pressure", "latch bolt": "bolt.force",
}
SHUT = 0.5 * math.pi / 180


def opening(fit, p, spring, rise, sweep=0, latch=0):
    """The leaf with parameters p."""
    v = dict(fit["case"]["values"])
    a = {}
    shares = {"sweep orifice share": fit["shares"][0], "latch orifice share": fit["shares"][1]}
    strong = 1.0
    for q, x in zip(fit["params"], p):
        what = q["what"]
        if what == "spring":
            strong = x
        elif what in SHARED:
            v[SHARED[what]] = x
        elif what in shares:
            shares[what] = x
        elif what != "start":
            a[what, q["index"]] = x
    v["spring.torque_closed"], v["spring.rise"] = strong * spring, strong * rise
    v["sweep.viscous"], v["latch.viscous"] = a["sweep resistance", sweep], a["latch resistance", latch]
    for valve in ("sweep", "latch"):
        v[valve + ".orifice"] = shares[valve + " orifice share"] * v[valve + ".viscous"]**2 / fit["reference"]
    return closing.Leaf(fit["case"] | {"values": v})


def follow(leaf, start):
    """Pieces of the closing, (t0, t1, angle by time), from rest."""
    t, y, out = 0.0, (start, 0.0), []
    stops = [a for a in reversed(leaf.edges) if 0 < a < start] + [0.0]
    for k, stop in enumerate(stops):
        middle = (y[0] + stop) / 2
        seal = middle < leaf.v["seal.meets"]
        bolt = leaf.bolt != 0 and leaf.v["bolt.clears"] < middle < leaf.v["bolt.meets"]
        end = closing.event(lambda _, y, stop=stop: y[0] - stop, -1)
        run = solve_ivp(lambda _, y: (y[1], leaf.acceleration(y[0], y[1], True, seal, bolt)), (t, 120), y, events=end, **SOLVER)
        if run.status != 1:
            return None
        out.append((t, run.t[-1], run.sol))
        t, y = run.t[-1], (stop, run.y[1][-1])
    return out


def angles(pieces, start, times):
    theta = np.full(len(times), start)
    for t0, t1, sol in pieces:
        inside = (times > t0) & (times <= t1)
        if inside.any():
            theta[inside] = sol(times[inside])[0]
    theta[times > pieces[-1][1]] = 0.0
    return theta


def passed(pieces, angle):
    for t0, t1, sol in pieces:
        if sol(t0)[0] > angle >= sol(t1)[0] - 1e-12:
            return brentq(lambda t: sol(t)[0] - angle, t0, t1, xtol=1e-12)
    return math.nan


def moment(leaf, g):
    """Of a gauge: that which opens slowly, or with which it is let close."""
    shut, opened, friction = leaf.at_rest(g["angle"])
    return -shut - friction if g["closing"] else friction - opened


def residuals(fit, p):
    r, begins = [], [x for q, x in zip(fit["params"], p) if q["what"] == "start"]
    for c in fit["curves"]:
        leaf = opening(fit, p, c["spring"], c["rise"], c["sweep"], c["latch"])
        pieces = follow(leaf, c["from"])
        if pieces is None:
            return None
        t, theta, u = np.array(c["t"]), np.array(c["theta"]), np.array(c["u"])
        begin = math.nan
        for first, end in c["pieces"]:
            begin = begins.pop(0)
            r += list((angles(pieces, c["from"], t[first:end] - begin) - theta[first:end]) / u[first:end])
        if c["shut_u"]:
            r.append((passed(pieces, SHUT) + begin - c["shut"]) / c["shut_u"])
    for g in fit["gauges"]:
        r.append((moment(opening(fit, p, g["spring"], g["rise"]), g) / g["at"] - g["force"]) / g["u"])
    known = []
    for q, x in zip(fit["params"], p):
        if q["what"] != "start":
            known.append((math.log(x / q["mean"]) if q["log"] else x - q["mean"]) / q["u"])
    return np.array(r), np.array(known)


def solve(fit):
    q = fit["params"]
    log = [x["log"] for x in q]
    inner = lambda p: np.array([math.log(v) if l else v for v, l in zip(p, log)])
    outer = lambda x: [math.exp(v) if l else v for v, l in zip(x, log)]

    size = []

    def f(x):
        r = residuals(fit, outer(x))
        if r is None:  # it does not close: far off
            return np.full(size[0], 1e3)
        r = np.concatenate(r)
        size[:] = [len(r)]
        return r

    def slopes(x, central):
        j, here = [], f(x)
        for k, one in enumerate(q):
            h = np.zeros(len(x))
            h[k] = one["step"]
            if central and x[k] - h[k] >= low[k]:
                j.append((f(x + h) - f(x - h)) / (2 * one["step"]))
            else:
                j.append((f(x + h) - here) / one["step"])
        return np.array(j).T

    low = inner([max(one["low"], 1e-300) if one["log"] else one["low"] for one in q])
    high = inner([one["high"] for one in q])
    def cost(r):
        k = fit["huber"]
        return float(np.sum(np.where(np.abs(r) <= k, r * r / 2, k * (np.abs(r) - k / 2))))

    got = least_squares(f, inner(fit["start"]), jac=lambda x: slopes(x, False), bounds=(low, high), loss="huber", f_scale=fit["huber"],
                        x_scale="jac", ftol=1e-6, xtol=1e-6, max_nfev=30)
    r = f(got.x)
    w = np.minimum(1, fit["huber"] / np.maximum(np.abs(r), 1e-300))
    j = slopes(got.x, True)
    return {"at": outer(got.x), "cov": np.linalg.inv(j.T @ (w[:, None] * j)).tolist(), "cost": got.cost, "ours": cost(f(inner(fit["ours"])))}


if __name__ == "__main__":
    with multiprocessing.Pool(2) as pool:
        json.dump({"fits": pool.map(solve, json.load(sys.stdin)["fits"], chunksize=1)}, sys.stdout)
