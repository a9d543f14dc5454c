"""Openings of a leaf under power, reckoned a second time.

Written from the equations alone, to check package swing against: the leaf and
its arms as in closing.py; the operator's torque bounded with min and max where
it acts, without phases of its own; the inertia of closer and rotor through their
arms by differences of the whole kinetic energy. SciPy's LSODA integrates.

Reads {"cases": [case, ...]} and writes {"motions": [motion, ...]}. A case is one
of closing.py, with "own" for a unit with an arm of its own and its "own_track",
"own_on_leaf", "own_bend"; "push" is the torque of a hand on the driven leaf.
"""
import json
import math
import multiprocessing
import sys

from scipy.integrate import solve_ivp

from closing import FINE, LIMIT, SAME, SLOW, Arm, Leaf, event, note

OWN = {"arm.pinion_x": "drive.pinion_x", "arm.pinion_y": "drive.pinion_y", "arm.shoe_x": "drive.shoe_x",
       "arm.shoe_y": "drive.shoe_y", "arm.main": "drive.main", "arm.forearm": "drive.forearm",
       "arm.track_line": "drive.track_line"}


class Driven(Leaf):
    def __init__(self, case):
        super().__init__(case)
        self.shaft = self.arm
        if case["own"]:
            own = {"track": case["own_track"], "on_leaf": case["own_on_leaf"], "bend": case["own_bend"]}
            self.shaft = Arm({key: self.v[other] for key, other in OWN.items()}, own)
        self.rotor = self.v["drive.gear_ratio"]**2 * self.v["drive.rotor_inertia"]

    def commanded(self, t, theta):
        v = self.v
        ramp, slow, stop = v["drive.ramp"], v["drive.slow_from"], v["drive.open"]
        rate = v["drive.rate"]
        if slow < stop and v["drive.creep"] < rate:
            part = min(max((theta - slow) / (stop - slow), 0.0), 1.0)
            rate = (1 - part) * rate + part * v["drive.creep"]
        return rate * (min(t / ramp, 1.0) if ramp > 0 else 1.0)

    def motor(self, t, theta, omega):
        """Torque of the operator on the leaf."""
        v = self.v
        n = self.shaft.ratio(theta)
        has = v["drive.stall"] * (1 - n * omega / v["drive.free_speed"])
        wants = v["drive.gain"] * (self.commanded(t, theta) - omega)
        return n * v["drive.efficiency"] * min(max(wants, 0.0), max(has, 0.0))

    def weights(self, theta):
        total = self.inertia + self.rotor * self.shaft.ratio(theta)**2
        if self.arm:
            total += self.v["pinion.inertia"] * self.arm.ratio(theta)**2
        return total

    def mass(self, theta):
        h = 2e-3
        m = [self.weights(theta + k * h) for k in (-2, -1, 0, 1, 2)]
        return m[2], (m[0] - 8 * m[1] + 8 * m[3] - m[4]) / (12 * h)

    def driven(self, t, theta, omega, closing, seal, bolt):
        hand = self.push
        self.push = hand + self.motor(t, theta, omega)  # both act on the leaf
        result = self.acceleration(theta, omega, closing, seal, bolt)
        self.push = hand
        return result

    def loose(self, theta, omega):
        """Not positive where the leaf is slow and held, the ramp over."""
        shut, opened, friction = self.at_rest(theta)
        thrust = self.motor(math.inf, theta, 0.0)
        return max(abs(omega) - SLOW, -(shut + thrust + friction), opened + thrust - friction)

    def excess(self, t, theta):
        """Torque with which the leaf at rest moves on, negative where it does not."""
        _, opened, friction = self.at_rest(theta)
        return opened + self.motor(t, theta, 0.0) - friction


def breaks_away(leaf, theta):
    """When the leaf is first moved, None if never; by bisection."""
    ramp = leaf.v["drive.ramp"]
    if leaf.excess(ramp, theta) <= 0:
        return None
    low, high = 0.0, ramp
    if leaf.excess(low, theta) > 0:
        return 0.0
    for _ in range(60):
        middle = (low + high) / 2
        if leaf.excess(middle, theta) > 0:
            high = middle
        else:
            low = middle
    return high


def follow(case):
    leaf = Driven(case)
    v = leaf.v
    stop, ramp, meets = v["drive.open"], v["drive.ramp"], v["seal.meets"]
    theta, omega = case["from"], 0.0
    passed = {m: 0.0 for m in case["marks"] if m == theta}
    peak = 0.0

    def motion(end):
        return {"end": end, "time": t, "angle": theta, "rate": omega, "energy": 0.5 * leaf.inertia * peak**2,
                "marks": [passed.get(m) for m in case["marks"]]}

    t = breaks_away(leaf, theta)
    if t is None:
        t = ramp
        return motion("stalled")
    closing = False
    while True:
        edges = sorted(set(leaf.edges + [v["drive.slow_from"]]))
        below = [a for a in edges if a < theta - SAME]
        above = [a for a in edges if theta + SAME < a < stop]
        edge = max(below, default=0.0) if closing else min(above, default=stop)
        seal = v["seal.stiffness"] != 0 and (meets not in below if closing else meets in above)
        bolt = (closing and leaf.bolt != 0 and v["bolt.clears"] in below and v["bolt.meets"] not in below)
        rising = t < ramp - 1e-12

        def rhs(s, y):
            return y[1], leaf.driven(s, y[0], y[1], closing, seal, bolt)

        way = -1 if closing else 1
        events = [event(lambda s, y: 1.0 if rising else leaf.loose(y[0], y[1]), -1), event(lambda s, y: y[1], -way),
                  event(lambda s, y: y[0] - edge, way), event(lambda s, y: rhs(s, y)[1], 0, False)]
        marks = [m for m in case["marks"] if m not in passed and m > case["from"]]
        events += [event(lambda s, y, m=m: y[0] - m, 1, False) for m in marks]
        if not rising and leaf.loose(theta, omega) <= 0:
            return motion("stalled")
        run = solve_ivp(rhs, (t, ramp if rising else LIMIT), (theta, omega), events=events, max_step=0.2, **FINE)
        if run.status < 0:
            return motion("unfinished")
        peak = max([peak, abs(omega)] + [abs(y[1]) for y in run.y_events[3]])
        t, theta, omega = run.t[-1], run.y[0][-1], run.y[1][-1]
        peak = max(peak, abs(omega), max(abs(run.y[1])))
        note(passed, marks, edge, run)
        if run.status == 0:
            if rising:
                continue
            return motion("timed out")
        if len(run.t_events[0]):
            return motion("stalled")
        if len(run.t_events[2]):
            if closing and edge == 0.0:
                theta = 0.0
                return motion("latched" if leaf.latch else "closed")
            if not closing and edge == stop:
                return motion("opened")
            theta = edge
        else:
            omega, closing = 0.0, not closing


def main():
    job = json.load(sys.stdin)
    with multiprocessing.Pool(2) as pool:
        json.dump({"motions": pool.map(follow, job["cases"], chunksize=2)}, sys.stdout)


if __name__ == "__main__":
    main()
