"""Motions of a leaf with its closer, reckoned a second time.

Written from the equations alone, to check package swing against: the arm by
intersecting circles, its ratio by differentiating the constraint of the forearm,
the pull of gravity on a leaning hinge line as a moment of a force in space, the
motion by Lagrange's equation for one degree of freedom,

    M(theta)*theta'' + M'(theta)*theta'**2/2 = Q,   M = I + n**2 * J_p,

with M' by differences, and SciPy's LSODA for the integration, in every tenth case
its DOP853 instead.

Reads {"cases": [case, ...]} and writes {"motions": [motion, ...]}. A case holds
the quantities by the keys of swing.Symbols ("values", SI), what swing.Linkage
says ("closer", "track", "on_leaf", "bend", "latch"), where it begins ("from",
rad), the torque of a hand and where it opens to ("push", "to"; a closing has
none), and the "marks" (rad) in the order of passing.

With --time N it reads one case and writes how long (ns) each of N runs takes at
the tolerances with which times are good to 1 ms.
"""
import json
import math
import multiprocessing
import sys
import time

from scipy.integrate import solve_ivp

GRAVITY = 9.80665     # m/s2
PINION_SLIP = 0.01    # rad/s, width of the closer's smoothed friction
HINGE_SLIP = 0.005    # rad/s, width of the hinges' smoothed friction
SLOW = 0.005          # rad/s, rate below which a leaf that is held is at rest
LIMIT = 120.0         # s
SAME = 1e-9           # rad, closer than this is the same angle

FINE = {"method": "LSODA", "rtol": 1e-10, "atol": 1e-12}
OTHER = {"method": "DOP853", "rtol": 1e-10, "atol": 1e-12}
LIKE_OURS = {"method": "RK45", "rtol": 1e-5, "atol": 5e-6}


def left(x, y):
    """The vector turned a quarter turn to the left."""
    return -y, x


class Arm:
    """Pinion turn psi and ratio n = dpsi/dtheta of an arm."""

    STEP = 0.01  # rad, of the table that tells whole turns apart

    def __init__(self, v, case):
        self.track, self.on_leaf, self.bend = case["track"], case["on_leaf"], case["bend"]
        self.pinion = v["arm.pinion_x"], v["arm.pinion_y"]
        self.far = v["arm.shoe_x"], v["arm.shoe_y"]
        self.l1, self.l2 = v["arm.main"], v["arm.forearm"]
        self.line = v["arm.track_line"]
        self.closed, rate = self.solve(0.0)
        self.sign = math.copysign(1.0, rate)
        self.table, last, theta = [], 0.0, 0.0
        while theta < 3.2:
            try:
                raw = self.sign * (self.solve(theta)[0] - self.closed)
            except ValueError:
                break
            last = raw + math.tau * round((last - raw) / math.tau)
            self.table.append(last)
            theta += self.STEP

    def solve(self, theta):
        """Direction of the main arm as seen from the body, and its derivative."""
        c, s = math.cos(theta), math.sin(theta)
        turned = lambda x, y: (c * x - s * y, s * x + c * y)
        (px, py), (sx, sy), line = self.pinion, self.far, self.line
        dpx = dpy = dsx = dsy = 0.0
        if self.on_leaf:
            px, py = turned(px, py)
            dpx, dpy = left(px, py)
        else:
            sx, sy = turned(sx, sy)
            dsx, dsy = left(sx, sy)
            line += theta
        if self.track:
            ux, uy = math.cos(line), math.sin(line)
            along = (px - sx) * ux + (py - sy) * uy
            fx, fy = sx + along * ux, sy + along * uy  # foot of the perpendicular
            reach = math.sqrt(self.l1**2 - (px - fx)**2 - (py - fy)**2)
            ex, ey = fx + self.bend * reach * ux, fy + self.bend * reach * uy
            # the roller stays on the line: (E - S).w = 0, w = left(u)
            wx, wy = left(ux, uy)
            dwx, dwy = (0.0, 0.0) if self.on_leaf else (-ux, -uy)
            qx, qy = left(ex - px, ey - py)
            rate = ((dsx - dpx) * wx + (dsy - dpy) * wy - (ex - sx) * dwx - (ey - sy) * dwy) / (qx * wx + qy * wy)
        else:
            d = math.hypot(sx - px, sy - py)
            vx, vy = (sx - px) / d, (sy - py) / d
            along = (self.l1**2 - self.l2**2 + d * d) / (2 * d)
            off = self.bend * math.sqrt(self.l1**2 - along**2)
            wx, wy = left(vx, vy)
            ex, ey = px + along * vx + off * wx, py + along * vy + off * wy
            # the forearm keeps its length: (E - S).(E' - S') = 0, E' = P' + rate*left(E - P)
            fx, fy = ex - sx, ey - sy
            qx, qy = left(ex - px, ey - py)
            rate = (fx * (dsx - dpx) + fy * (dsy - dpy)) / (fx * qx + fy * qy)
        direction = math.atan2(ey - py, ex - px)
        if self.on_leaf:
            return direction - theta, rate - 1
        return direction, rate

    def at(self, theta):
        raw, rate = self.solve(theta)
        raw = self.sign * (raw - self.closed)
        near = self.table[min(max(round(theta / self.STEP), 0), len(self.table) - 1)]
        return raw + math.tau * round((near - raw) / math.tau), self.sign * rate

    def ratio(self, theta):
        return self.sign * self.solve(theta)[1]


def handed(psi, at, width):
    """Share of the valve that governs below the pinion turn at."""
    return 0.5 * (1 - math.tanh((psi - at) / (2 * width)))


def blended(share, x, y):
    """Resistance x with its share against y, in the logarithm; evenly where one is zero."""
    if x > 0 and y > 0:
        return math.exp(share * math.log(x) + (1 - share) * math.log(y))
    return share * x + (1 - share) * y


class Leaf:
    def __init__(self, case):
        self.v = v = case["values"]
        self.push = case.get("push", 0.0)
        self.latch = case["latch"]
        w, h, t = v["leaf.width"], v["leaf.height"], v["leaf.thickness"]
        e, g, m = v["leaf.pin_to_edge"], v["leaf.pin_to_face"], v["leaf.slab_mass"]
        # parallel axis: about its own centre, then to the hinge axis
        self.inertia = m * (w * w + t * t) / 12 + m * ((e + w / 2)**2 + (g + t / 2)**2) + v["attached.inertia"]
        self.wind = v["air.pressure"] * w * h * (e + w / 2)
        self.drag = 0.5 * v["air.density"] * v["air.drag"] * h * (e + w)**4 / 4
        self.static = m * (e + w / 2) + v["attached.moment"] / GRAVITY  # kg.m along the leaf
        self.bolt = v["bolt.force"] * v["bolt.radius"]
        self.arm = Arm(v, case) if case["closer"] else None
        self.tilt = self.axes(v["hinge.lean"], v["hinge.lean_azimuth"])
        edges = []
        if v["seal.stiffness"]:
            edges.append(v["seal.meets"])
        if self.bolt:
            edges += [v["bolt.clears"], v["bolt.meets"]]
        self.edges = sorted(edges)

    @staticmethod
    def axes(lean, azimuth):
        """Unit vectors of the closed leaf, square to it, and along the hinge line:
        x, y, z turned by the lean about the level axis k (Rodrigues)."""
        k = (-math.sin(azimuth), math.cos(azimuth), 0.0)

        def turn(p):
            cross = (k[1] * p[2] - k[2] * p[1], k[2] * p[0] - k[0] * p[2], k[0] * p[1] - k[1] * p[0])
            dot = sum(a * b for a, b in zip(k, p))
            return tuple(math.cos(lean) * a + math.sin(lean) * b + (1 - math.cos(lean)) * dot * c
                         for a, b, c in zip(p, cross, k))

        return turn((1, 0, 0)), turn((0, 1, 0)), turn((0, 0, 1))

    def weight(self, theta):
        """Moment of the weight about the hinge line, axis . (r x F)."""
        ex, ey, ez = self.tilt
        x, y = (math.cos(theta) * ex[i] + math.sin(theta) * ey[i] for i in (0, 1))
        force = -self.static * GRAVITY  # straight down; r x F = (y*F, -x*F, 0)
        return force * (y * ez[0] - x * ez[1])

    def air(self, theta):
        if not self.wind:
            return 0.0
        return self.wind * math.exp(-theta / self.v["air.pressure_fades"])

    def spring(self, psi):
        return self.v["spring.torque_closed"] + self.v["spring.rise"] * psi

    def oil(self, psi, rate, closing):
        """Size of the hydraulic torque at the pinion."""
        v, speed, thick = self.v, abs(rate), self.v["oil.factor"]
        width = v["valve.blend"]
        if closing:
            latch = handed(psi, v["latch.zone"], width)
            a = blended(latch, v["latch.viscous"], v["sweep.viscous"])
            b = blended(latch, v["latch.orifice"], v["sweep.orifice"])
            if v["delay.viscous"]:
                within = (1 - handed(psi, v["delay.from"], width)) * handed(psi, v["delay.to"], width)
                a = blended(within, v["delay.viscous"], a)
        else:
            check = 1 - handed(psi, v["backcheck.zone"], width)
            a = v["opening.viscous"] + check * v["backcheck.viscous"]
            b = check * v["backcheck.orifice"]
        return thick * a * speed + b * speed * speed

    def mass(self, theta):
        jp = self.v["pinion.inertia"]
        if not (self.arm and jp):
            return self.inertia, 0.0
        h = 2e-3
        m = [self.inertia + jp * self.arm.ratio(theta + k * h)**2 for k in (-2, -1, 0, 1, 2)]
        return m[2], (m[0] - 8 * m[1] + 8 * m[3] - m[4]) / (12 * h)

    def acceleration(self, theta, omega, closing, seal, bolt):
        v = self.v
        q = self.push + self.air(theta) + self.weight(theta)
        q -= v["hinge.friction"] * math.tanh(omega / HINGE_SLIP) + self.drag * omega * abs(omega)
        if seal:
            q += v["seal.stiffness"] * (v["seal.meets"] - theta)
        if bolt:
            q += self.bolt
        if self.arm:
            psi, n = self.arm.at(theta)
            rate = n * omega
            pinion = self.spring(psi) * (1 + v["closer.loss"] * math.tanh(rate / PINION_SLIP))
            q -= n * (pinion + math.copysign(self.oil(psi, rate, closing), rate))
        m, dm = self.mass(theta)
        return (q - 0.5 * dm * omega * omega) / m

    def at_rest(self, theta):
        """Torque without friction toward opening, as felt going on to close and
        going on to open, and the Coulomb friction that holds against it."""
        v = self.v
        q = self.push + self.air(theta) + self.weight(theta)
        q += v["seal.stiffness"] * max(0.0, v["seal.meets"] - theta)
        friction = v["hinge.friction"]
        if self.arm:
            psi, n = self.arm.at(theta)
            q -= n * self.spring(psi)
            friction += v["closer.loss"] * abs(n * self.spring(psi))
        lip = self.bolt if v["bolt.clears"] < theta <= v["bolt.meets"] + SAME else 0.0
        return q + lip, q, friction

    def loose(self, theta, omega):
        """Not positive where the leaf is slow and held."""
        shut, opened, friction = self.at_rest(theta)
        return max(abs(omega) - SLOW, -(shut + friction), opened - friction)


def event(f, direction=0, terminal=True):
    f.direction, f.terminal = direction, terminal
    return f


def note(passed, marks, edge, run):
    """Notes when marks were passed; those are the events after the first four, the third is the edge."""
    for m, times in zip(marks, run.t_events[4:]):
        if len(times):
            passed[m] = times[0]
        elif edge == m and len(run.t_events[2]):
            passed[m] = run.t[-1]  # the edge is the mark


def follow(case, solver):
    leaf = Leaf(case)
    stop = case.get("to", math.inf)
    opening = "to" in case
    t, theta, omega = 0.0, case["from"], 0.0
    passed = {m: 0.0 for m in case["marks"] if m == theta}
    peak = 0.0

    def motion(end):
        return {"end": end, "time": t, "angle": theta, "rate": omega, "energy": 0.5 * leaf.inertia * peak**2,
                "marks": [passed.get(m) for m in case["marks"]]}

    if leaf.loose(theta, 0.0) <= 0:
        return motion("rests open")
    shut, _, friction = leaf.at_rest(theta)
    closing = shut + friction < 0
    while True:
        below = [a for a in leaf.edges if a < theta - SAME]
        above = [a for a in leaf.edges if a > theta + SAME]
        begun = below if closing else above  # angles still ahead
        edge = max(below, default=0.0) if closing else min(above, default=stop)
        meets = leaf.v["seal.meets"]
        seal = leaf.v["seal.stiffness"] != 0 and (meets not in begun if closing else meets in begun)
        bolt = (closing and leaf.bolt != 0 and leaf.v["bolt.clears"] in below and leaf.v["bolt.meets"] not in below)

        def rhs(_, y):
            return y[1], leaf.acceleration(y[0], y[1], closing, seal, bolt)

        way = -1 if closing else 1
        events = [event(lambda _, y: leaf.loose(y[0], y[1]), -1), event(lambda _, y: y[1], -way)]
        if math.isfinite(edge):
            events.append(event(lambda _, y: y[0] - edge, way))
        else:
            events.append(event(lambda _, y: 1.0))
        events.append(event(lambda s, y: rhs(s, y)[1], 0, False))
        marks = [m for m in case["marks"] if m not in passed and (m > case["from"]) == opening]
        events += [event(lambda _, y, m=m: y[0] - m, 1 if opening else -1, False) for m in marks]

        if leaf.loose(theta, omega) <= 0:
            return motion("rests open")
        run = solve_ivp(rhs, (t, LIMIT), (theta, omega), events=events, **solver)
        if run.status < 0:
            return motion("unfinished")
        t, theta, omega = run.t[-1], run.y[0][-1], run.y[1][-1]
        peak = max([peak, abs(omega)] + [abs(y[1]) for y in run.y_events[3]])
        note(passed, marks, edge, run)
        if run.status == 0:
            return motion("timed out")
        if len(run.t_events[0]):
            return motion("rests open")
        if len(run.t_events[2]):
            if closing and edge == 0.0:
                theta = 0.0
                return motion("latched" if leaf.latch else "closed")
            if not closing and edge == stop:
                return motion("struck")
            theta = edge
        else:
            omega, closing = 0.0, not closing


def numbered(pair):
    number, case = pair
    return follow(case, OTHER if number % 10 == 9 else FINE)


def timed(case, runs):
    taken = []
    for _ in range(runs):
        begin = time.perf_counter()
        follow(case, LIKE_OURS)
        taken.append((time.perf_counter() - begin) * 1e9)
    return taken


def main():
    job = json.load(sys.stdin)
    if sys.argv[1:2] == ["--time"]:
        json.dump({"ns": timed(job["cases"][0], int(sys.argv[2]))}, sys.stdout)
        return
    with multiprocessing.Pool(2) as pool:
        json.dump({"motions": pool.map(numbered, enumerate(job["cases"]), chunksize=4)}, sys.stdout)


if __name__ == "__main__":
    main()
