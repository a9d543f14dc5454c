"""Fits by SciPy's least_squares, to check package lsq against.

Reads {"cases": [case, ...]}: a "model" by name, "x", "y", "u" (standard uncertainty
of y), "start", bounds "low" and "high", and "huber" (0 for none). Writes for each
the parameters "at", the "cost" and the covariance "cov" = inv(J'WJ) at the
result, W the weights of Huber's loss.
"""
import json
import sys

import numpy as np
from scipy.optimize import least_squares

MODELS = {
    "decay": lambda p, x: p[0] * np.exp(-p[1] * x) + p[2],
    "logistic": lambda p, x: p[0] / (1 + np.exp(p[1] - p[2] * x)),
    "wave": lambda p, x: p[0] * np.sin(p[1] * x + p[2]),
    "valve": lambda p, x: p[0] / (x - p[1]),
}


def fit(c):
    x, y = np.array(c["x"]), np.array(c["y"])
    misfit = lambda p: (MODELS[c["model"]](p, x) - y) / c["u"]
    low = [-np.inf if v is None else v for v in c["low"]]
    high = [np.inf if v is None else v for v in c["high"]]
    how = {"bounds": (low, high), "xtol": 1e-14, "ftol": 1e-14, "gtol": 1e-14, "max_nfev": 10000, "jac": "3-point", "x_scale": "jac"}
    if c["huber"]:
        how |= {"loss": "huber", "f_scale": c["huber"]}
    got = least_squares(misfit, c["start"], **how)
    r = misfit(got.x)
    j = np.empty((len(x), len(got.x)))
    for k in range(len(got.x)):
        h = np.zeros(len(got.x))
        h[k] = 1e-5 * abs(got.x[k])
        j[:, k] = (misfit(got.x + h) - misfit(got.x - h)) / (2 * h[k])
    w = np.ones(len(x))
    if c["huber"]:
        w = np.minimum(1, c["huber"] / np.maximum(np.abs(r), 1e-300))
    return {"at": got.x.tolist(), "cost": got.cost, "cov": np.linalg.inv(j.T @ (w[:, None] * j)).tolist()}


cases = json.load(sys.stdin)["cases"]
json.dump({"fits": [fit(c) for c in cases]}, sys.stdout)
