"""Measures random scenes with Shapely, independently of the Go code.

Standard input: {"scenes": [...], "floors": [...]}; standard output the answers
in the same order. Lengths in metres, angles in radians, plan view with the
hinge pin as origin. Debian: apt-get install python3-shapely
"""
import json
import math
import sys

from shapely.geometry import LineString, Point, Polygon

GRID = math.radians(0.5)
FAR = 1000.0


def turn(p, theta):
    c, s = math.cos(theta), math.sin(theta)
    return (c * p[0] - s * p[1], s * p[0] + c * p[1])


def core(points):
    if len(points) == 1:
        return Point(points[0])
    if len(points) == 2:
        return LineString(points)
    return Polygon(points)


def half_plane(through, toward):
    """A square so large that it is as good as a half-plane."""
    square = [(0, -FAR), (FAR, -FAR), (FAR, FAR), (0, FAR)]
    return Polygon([(x + through[0], y + through[1]) for x, y in (turn(p, toward) for p in square)])


def elbow(p, s, l1, l2, bend):
    """The point at l1 from p and l2 from s, to the left of p->s for bend +1."""
    dx, dy = s[0] - p[0], s[1] - p[1]
    d = math.hypot(dx, dy)
    along = (d * d + l1 * l1 - l2 * l2) / (2 * d)
    aside = bend * math.sqrt(l1 * l1 - along * along)
    return (p[0] + (along * dx - aside * dy) / d, p[1] + (along * dy + aside * dx) / d)


def place(body, theta):
    if body["on"] == "link":
        arm = body["arm"]
        p, s = arm["pinion"], arm["shoe"]
        if arm["on_leaf"]:
            p = turn(p, theta)
        else:
            s = turn(s, theta)
        e = elbow(p, s, arm["main"], arm["fore"], arm["bend"])
        return LineString([p, e] if arm["part"] == "main" else [e, s])
    if body["on"] == "leaf":
        return core([turn(p, theta) for p in body["points"]])
    if body.get("toward") is not None:
        return half_plane(body["points"][0], body["toward"])
    return core(body["points"])


def share(a, b):
    if a["band"] == [0, 0] or b["band"] == [0, 0]:
        return True
    return a["band"][0] < b["band"][1] and b["band"][0] < a["band"][1]


def apart(a, b, theta):
    """Distance less the radii: not above zero where the two touch."""
    if b["on"] == "frame" and "still" not in b:
        b["still"] = place(b, 0)
    d = placed(a, theta).distance(b["still"] if "still" in b else placed(b, theta))
    return d - a["round"] - b["round"]


def placed(body, theta):
    """Keeps the last place of a body, which several pairs ask for."""
    if body.get("at") != theta:
        body["at"], body["shape"] = theta, place(body, theta)
    return body["shape"]


def scene(s):
    bodies = s["bodies"]
    frame = [b for b in bodies if b["on"] == "frame"]
    leaf = [b for b in bodies if b["on"] == "leaf"]
    links = [b for b in bodies if b["on"] == "link"]
    pairs = [(a, b) for a in leaf + links for b in frame if share(a, b)]
    pairs += [(a, b) for a in links for b in leaf if share(a, b) and apart(a, b, 0) > 1e-6]

    def touching(theta):
        return any(apart(a, b, theta) <= 0 for a, b in pairs)

    out = {"contact": None, "early": None, "gap": None, "gaps": []}
    theta = 0.0
    while theta < s["to"]:
        last, theta = theta, min(theta + GRID, s["to"])
        if touching(theta):
            lo, hi = last, theta
            while hi - lo > 1e-7:
                mid = (lo + hi) / 2
                lo, hi = (lo, mid) if touching(mid) else (mid, hi)
            out["contact"] = hi
            break
    if s["touches"]:
        named = {b["name"]: b for b in bodies}
        a, b = named[s["moving"]], named[s["other"]]
        out["gap"] = apart(a, b, s["found"])
        steps = [s["found"] + math.radians(0.01) * k / 40 for k in range(41)]
        out["early"] = any(touching(t) for t in steps)
    for theta in s["angles"]:
        row = []
        for f in frame:
            ds = [apart(a, f, theta) for a in leaf + links if share(a, f)]
            row.append(max(0.0, min(ds)) if ds else None)
        out["gaps"].append(row)
    return out


def floor(f):
    """Least distance to the leaf over a grid of its angles, and the most x of leaf and projections."""
    ground = core(f["floor"])
    least, theta = math.inf, 0.0
    while True:
        least = min(least, core([turn(p, theta) for p in f["leaf"]]).distance(ground))
        if theta >= f["open"]:
            break
        theta = min(theta + f["step"], f["open"])
    most = [core([turn(p, f["open"]) for p in shape]).bounds[2] for shape in [f["leaf"]] + f["projections"]]
    return {"least": least, "most": most}


def main():
    asked = json.load(sys.stdin)
    json.dump({"scenes": [scene(s) for s in asked["scenes"]], "floors": [floor(f) for f in asked["floors"]]}, sys.stdout)


main()
