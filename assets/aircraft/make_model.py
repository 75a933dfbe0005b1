#!/usr/bin/env python3
"""Makes plumbline.glb, the built-in aircraft model: python3 make_model.py [OUT.glb]

An invented single-seat aerobatic monoplane, our own design, no real type. Standard library only; the same script gives the
same bytes.

Axes (glTF): +x left wing, +y up, +z forward, metres; origin at the centre of gravity. Body axes B (x forward, y right, z down)
map by x = -y_B, y = -z_B, z = x_B. Span 7.6 m: a viewer scales the model to the span of its aircraft file.

Nodes
  fuselage, wing (both sides, without ailerons, with the fixed tailplane and fin), canopy (glass and its frame), gear, cockpit
  (what the pilot sees inside: the fuselage has a real opening there; built for an eye about x_B -0.6 m, z_B -0.65 m)
  aileron_left, aileron_right, elevator, rudder: origin on the hinge, local x along it (ailerons, elevator: to the left wing
    tip; rudder: up). A positive turn about local x (right-hand rule) moves the trailing edge up, the rudder's to the right:
    right roll a = aileron_right +a and aileron_left -a; nose up = elevator +; nose right = rudder +.
    The node's own rotation aligns local x with the hinge: apply the deflection after it, node rotation * turn about x.
  propeller_blades, propeller_disc: origin at the hub, local x forward; a propeller that turns clockwise as the pilot sees it
    turns positively about local x.

COLOR_0 holds display-space (sRGB) colours, to be used as they are; asset.extras says so.
"""
import json
import math
import struct
import sys

SAFFRON, INDIGO, BONE = (0xfa, 0xb8, 0x29), (0x1b, 0x1f, 0x45), (0xe6, 0xde, 0xca)
CHARCOAL, BLACK, METAL = (0x2c, 0x2f, 0x33), (0x16, 0x18, 0x1a), (0x8d, 0x90, 0x92)
RUBBER, LEATHER, GLASS = (0x20, 0x21, 0x22), (0x4a, 0x3b, 0x2f), (0x12, 0x1c, 0x26)

GAP = (0x6c, 0x52, 0x1c)  # hinge gaps: seen as a quiet line

HALF_SPAN = 3.8
BONE_LINE = 0.07  # width of the line that parts the two sides


# --- vectors -----------------------------------------------------------------------------------------------------------

def sub(a, b): return (a[0] - b[0], a[1] - b[1], a[2] - b[2])
def add(a, b): return (a[0] + b[0], a[1] + b[1], a[2] + b[2])
def mul(a, k): return (a[0] * k, a[1] * k, a[2] * k)
def dot(a, b): return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
def cross(a, b): return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
def norm(a): return math.sqrt(dot(a, a))
def unit(a):
    n = norm(a)
    return mul(a, 1 / n) if n > 0 else a


def linspace(a, b, count): return [a + (b - a) * i / (count - 1) for i in range(count)]
def cosspace(a, b, count): return [a + (b - a) * 0.5 * (1 - math.cos(math.pi * i / (count - 1))) for i in range(count)]
def dark(colour, k): return tuple(int(round(c * k)) for c in colour)


class Curve:
    """Monotone cubic through points (Fritsch and Carlson 1980): smooth, no overshoot."""

    def __init__(self, *points):
        points = sorted(points)
        self.x = [p[0] for p in points]
        self.y = [p[1] for p in points]
        h = [b - a for a, b in zip(self.x, self.x[1:])]
        d = [(b - a) / k for a, b, k in zip(self.y, self.y[1:], h)]
        m = [d[0]]
        for i in range(1, len(d)):
            if d[i - 1] * d[i] <= 0:
                m.append(0.0)
            else:
                w1, w2 = 2 * h[i] + h[i - 1], h[i] + 2 * h[i - 1]
                m.append((w1 + w2) / (w1 / d[i - 1] + w2 / d[i]))
        self.m = m + [d[-1]]

    def __call__(self, x):
        if x <= self.x[0]:
            return self.y[0]
        if x >= self.x[-1]:
            return self.y[-1]
        i = max(k for k in range(len(self.x) - 1) if self.x[k] <= x)
        h = self.x[i + 1] - self.x[i]
        u = (x - self.x[i]) / h
        return ((1 + 2 * u) * (1 - u) ** 2 * self.y[i] + u * (1 - u) ** 2 * h * self.m[i]
                + u * u * (3 - 2 * u) * self.y[i + 1] + u * u * (u - 1) * h * self.m[i + 1])


# --- meshes ------------------------------------------------------------------------------------------------------------

class Mesh:
    """Triangles of one material; vertices are shared where place, normal and colour agree."""

    def __init__(self):
        self.index = {}
        self.vertices = []
        self.triangles = []

    def vertex(self, p, n, colour):
        rgba = tuple(colour) if len(colour) == 4 else tuple(colour) + (255,)
        key = (tuple(round(c, 5) + 0.0 for c in p), tuple(round(c, 3) + 0.0 for c in n), rgba)
        if key not in self.index:
            self.index[key] = len(self.vertices)
            self.vertices.append(key)
        return self.index[key]

    def triangle(self, points, normals, colour):
        a, b, c = points
        if norm(cross(sub(b, a), sub(c, a))) < 2e-7:
            return
        # The winding follows the normals.
        if dot(cross(sub(b, a), sub(c, a)), add(add(normals[0], normals[1]), normals[2])) < 0:
            points, normals = (a, c, b), (normals[0], normals[2], normals[1])
        ids = [self.vertex(p, n, colour) for p, n in zip(points, normals)]
        if len(set(ids)) == 3:
            self.triangles.append(ids)

    def quad(self, p, n, colour):
        self.triangle((p[0], p[1], p[2]), (n[0], n[1], n[2]), colour)
        self.triangle((p[0], p[2], p[3]), (n[0], n[2], n[3]), colour)

    def surface(self, place, us, vs, colour, inside=None, keep=None):
        """Patch place(u, v) on the grid us x vs with the normals of the true surface.

        colour: a colour or f(u, v, centre); inside: a point (or f(u, v)) on the side away from which the normals point,
        default the middle of the patch; keep: f(u, v) says which cells are there."""
        points = [[place(u, v) for v in vs] for u in us]
        du, dv = 1e-4 * (us[-1] - us[0]), 1e-4 * (vs[-1] - vs[0])

        def normal(u, v):
            # At a pole of the patch (a tip) the normal is that of a place beside it.
            for k in (1, 20, 200):
                lo_u, hi_u = inner(u - k * du, us), inner(u + k * du, us)
                lo_v, hi_v = inner(v - k * dv, vs), inner(v + k * dv, vs)
                mid_u, mid_v = 0.5 * (lo_u + hi_u), 0.5 * (lo_v + hi_v)
                n = cross(sub(place(hi_u, mid_v), place(lo_u, mid_v)), sub(place(mid_u, hi_v), place(mid_u, lo_v)))
                if norm(n) > 1e-13 * k * k:
                    return unit(n)
            return (0.0, 1.0, 0.0)

        normals = [[normal(u, v) for v in vs] for u in us]
        count = len(us) * len(vs)
        middle = mul((sum(p[0] for r in points for p in r), sum(p[1] for r in points for p in r),
                      sum(p[2] for r in points for p in r)), 1 / count)

        def away(i, j):
            at = middle if inside is None else inside(us[i], vs[j]) if callable(inside) else inside
            return dot(normals[i][j], sub(points[i][j], at))

        if sum(away(i, j) for i in range(len(us)) for j in range(len(vs))) < 0:
            normals = [[mul(n, -1) for n in row] for row in normals]
        for i in range(len(us) - 1):
            for j in range(len(vs) - 1):
                u, v = 0.5 * (us[i] + us[i + 1]), 0.5 * (vs[j] + vs[j + 1])
                if keep and not keep(u, v):
                    continue
                p = (points[i][j], points[i + 1][j], points[i + 1][j + 1], points[i][j + 1])
                n = (normals[i][j], normals[i + 1][j], normals[i + 1][j + 1], normals[i][j + 1])
                centre = mul(add(add(p[0], p[1]), add(p[2], p[3])), 0.25)
                self.quad(p, n, colour(u, v, centre) if callable(colour) else colour)

    def flat(self, points, direction, colour):
        """Convex flat polygon that faces `direction`."""
        n = unit(cross(sub(points[1], points[0]), sub(points[2], points[0])))
        if dot(n, direction) < 0:
            n = mul(n, -1)
        for i in range(1, len(points) - 1):
            self.triangle((points[0], points[i], points[i + 1]), (n, n, n), colour)

    def ribs(self, upper, lower, direction, colour):
        """Flat end between two rows of points, from front to back."""
        for i in range(len(upper) - 1):
            quad = [upper[i], upper[i + 1], lower[i + 1], lower[i]]
            d = unit(direction)
            self.quad(quad, (d, d, d, d), colour(mul(add(quad[0], quad[3]), 0.5)) if callable(colour) else colour)

    def tube(self, line, radius, colour, sides=5, closed=True):
        """Round tube along points; `radius` a number or one for each point."""
        radii = radius if isinstance(radius, list) else [radius] * len(line)
        frames = []
        for i in range(len(line)):
            along = unit(sub(line[min(i + 1, len(line) - 1)], line[max(i - 1, 0)]))
            side = cross(along, (0, 1, 0) if abs(along[1]) < 0.9 else (0, 0, 1))
            side = unit(side)
            frames.append((side, cross(side, along)))
        rings = []
        for p, r, (a, b) in zip(line, radii, frames):
            rings.append([(add(p, add(mul(a, r * math.cos(t)), mul(b, r * math.sin(t)))),
                           add(mul(a, math.cos(t)), mul(b, math.sin(t))))
                          for t in linspace(0, 2 * math.pi, sides + 1)])
        for a, b in zip(rings, rings[1:]):
            for j in range(sides):
                q = (a[j], b[j], b[j + 1], a[j + 1])
                self.quad([x[0] for x in q], [x[1] for x in q], colour)
        if closed:
            self.flat([x[0] for x in rings[0][:-1]], sub(line[0], line[1]), colour)
            self.flat([x[0] for x in rings[-1][:-1]], sub(line[-1], line[-2]), colour)

    def box(self, low, high, colour):
        x, y, z = zip(low, high)
        for axis in range(3):
            for end in (0, 1):
                a, b = [k for k in range(3) if k != axis]
                points = []
                for s, t in ((0, 0), (1, 0), (1, 1), (0, 1)):
                    p = [0, 0, 0]
                    p[axis] = (x, y, z)[axis][end]
                    p[a] = (x, y, z)[a][s]
                    p[b] = (x, y, z)[b][t]
                    points.append(tuple(p))
                direction = [0, 0, 0]
                direction[axis] = 1 if end else -1
                self.flat(points, direction, colour)

    def moved(self, to_local):
        """The same mesh in the axes of a node: to_local(vector, is_place)."""
        out = Mesh()
        out.triangles = self.triangles
        out.vertices = [(to_local(p, True), to_local(n, False), c) for p, n, c in self.vertices]
        return out


def inner(value, grid):
    """Keeps a parameter within its patch."""
    return min(max(value, min(grid[0], grid[-1])), max(grid[0], grid[-1]))


# --- fuselage ----------------------------------------------------------------------------------------------------------
# Sections across z: a superellipse of half width w about the height c, up to `top` and down to `bottom`.

NOSE, TAIL = 1.95, -3.70
THRUST = 0.05  # height of the propeller's axis
WIDTH = Curve((1.70, 0.425), (1.3, 0.445), (0.8, 0.43), (0.2, 0.40), (-0.6, 0.375), (-1.3, 0.315), (-2.0, 0.225),
              (-2.8, 0.125), (-3.4, 0.06), (TAIL, 0.035))
TOP = Curve((1.70, 0.325), (1.3, 0.385), (0.8, 0.43), (0.3, 0.455), (-0.6, 0.46), (-1.4, 0.445), (-2.2, 0.375), (-3.0, 0.29),
            (TAIL, 0.235))
BOTTOM = Curve((1.70, -0.335), (1.3, -0.405), (0.8, -0.45), (0.1, -0.47), (-0.7, -0.43), (-1.5, -0.325), (-2.4, -0.165),
               (-3.2, -0.035), (TAIL, 0.015))
CENTRE = Curve((1.95, 0.03), (0.8, 0.0), (-1.0, 0.0), (-2.5, 0.07), (TAIL, 0.125))
POWER = Curve((1.95, 2.35), (1.0, 2.5), (0.0, 2.35), (-1.5, 2.15), (TAIL, 2.0))


def section(z):
    """w, top, bottom, centre, exponent; the cowl's front is rounded over its last 25 cm."""
    zz = min(z, 1.70)
    w, t, b, c, n = WIDTH(zz), TOP(zz), BOTTOM(zz), CENTRE(z), POWER(z)
    if z > 1.70:
        u = min((z - 1.70) / (NOSE - 1.70), 1.0)
        k = math.sqrt(max(1 - u * u, 0.0))
        lip = 0.15  # the front closes behind the spinner
        w, t, b = lip + (w - lip) * k, THRUST + lip + (t - THRUST - lip) * k, THRUST - lip + (b - THRUST + lip) * k
        c = CENTRE(z) + (THRUST - CENTRE(z)) * u * u
    return w, t, b, c, n


def hull(z, phi, offset=0.0):
    """Place on the fuselage at the angle phi from the top, positive to the left."""
    w, t, b, c, n = section(z)
    s, k = math.sin(phi), math.cos(phi)
    h = (t - c) if k >= 0 else (c - b)
    r = (abs(s / w) ** n + abs(k / h) ** n) ** (-1 / n) - offset
    return (r * s, c + r * k, z)


def hullAngle(z, y):
    """Angle from the top (0..pi) where the fuselage has the height y."""
    low, high = 0.0, math.pi
    for _ in range(50):
        mid = 0.5 * (low + high)
        if hull(z, mid)[1] > y:
            low = mid
        else:
            high = mid
    return 0.5 * (low + high)


LINE_HEIGHT = Curve((1.95, 0.05), (1.0, 0.02), (-0.5, 0.0), (-2.0, 0.06), (TAIL, 0.13))
CANOPY_FRONT, CANOPY_BACK = 0.72, -1.50
CANOPY_TOP = Curve((CANOPY_FRONT, 0.43), (0.45, 0.575), (0.1, 0.76), (-0.3, 0.88), (-0.62, 0.915), (-0.95, 0.85), (-1.25, 0.65),
                   (CANOPY_BACK, 0.44))
PANEL_Z, SEAT_Z = -0.03, -1.12  # coaming's edge and bulkhead behind the seat


def sillAngle(z):
    """Edge of the opening, 0 outside of it."""
    u = (z - 0.5 * (CANOPY_FRONT + CANOPY_BACK)) / (0.5 * (CANOPY_FRONT - CANOPY_BACK))
    if abs(u) >= 1:
        return 0.0
    return math.radians(64) * (1 - abs(u) ** 2.6) ** 0.62


FIREWALL = 1.02
# Stations of the canopy and its opening, closer towards the ends.
OPENING = [0.45 * a + 0.55 * b for a, b in zip(linspace(CANOPY_FRONT, CANOPY_BACK, 18), cosspace(CANOPY_FRONT, CANOPY_BACK, 18))]


def ring(z):
    """Angles of one half section from top to bottom: opening's edge, bone line's edges."""
    sill = sillAngle(z)
    half = 0.5 * BONE_LINE
    upper, lower = hullAngle(z, LINE_HEIGHT(z) + half), hullAngle(z, LINE_HEIGHT(z) - half)
    return linspace(0, sill, 3)[:-1] + linspace(sill, upper, 6) + linspace(lower, math.pi, 7)


def makeFuselage():
    mesh = Mesh()
    zs = ([NOSE - (NOSE - 1.70) * (1 - math.cos(a)) for a in linspace(0.0, math.pi / 2, 6)]
          + [1.48, 1.25, FIREWALL + 0.006, FIREWALL - 0.006, 0.86] + OPENING
          + [-1.75, -1.756, -2.05, -2.35, -2.65, -2.95, -3.2, -3.45, TAIL])
    rings = [ring(z) for z in zs]
    columns = len(rings[0])

    def place(i, j):  # grid coordinates: station, signed column
        k = min(int(i), len(zs) - 2)
        f = i - k
        m = min(int(abs(j)), columns - 2)
        g = abs(j) - m

        def angle(station):
            return rings[station][m] * (1 - g) + rings[station][m + 1] * g
        z = zs[k] * (1 - f) + zs[k + 1] * f
        return hull(z, math.copysign(angle(k) * (1 - f) + angle(k + 1) * f, j))

    def normal(z, phi):
        e = 1e-5
        n = cross(sub(hull(z, phi + e), hull(z, phi - e)), sub(hull(min(z + e, NOSE - 1e-7), phi), hull(z - e, phi)))
        n = unit(n)
        return n if dot(n, sub(hull(z, phi), (0, section(z)[3], z - 0.2 * (z > 1.7)))) > 0 else mul(n, -1)

    def colour(i, j):
        base = SAFFRON if j < 7 else BONE if j == 7 else INDIGO
        seam = zs[i] < 1.2 and zs[i] - zs[i + 1] < 0.013
        return dark(base, 0.72) if seam else base

    for side in (1, -1):
        for i in range(len(zs) - 1):
            for j in range(columns - 1):
                inside_opening = j < 2 and CANOPY_BACK <= 0.5 * (zs[i] + zs[i + 1]) <= CANOPY_FRONT
                if inside_opening:
                    continue
                corner = [(i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1)]
                points = [hull(zs[a], side * rings[a][b]) for a, b in corner]
                normals = [normal(min(zs[a], NOSE - 2e-4), side * rings[a][b]) for a, b in corner]
                mesh.quad(points, normals, colour(i, j))
    addCowlDetails(mesh)
    # Spinner: a half ellipsoid, a little pointed.
    back, tip, radius = 1.965, 2.34, 0.185

    def spinner(u, a):
        r = radius * (1 - u ** 2.1) ** 0.62
        return (r * math.sin(a), THRUST + r * math.cos(a), back + (tip - back) * u)
    mesh.surface(spinner, [0, 0.25, 0.5, 0.7, 0.85, 0.95, 1.0], linspace(0, 2 * math.pi, 15), BONE,
                 inside=(0, THRUST, back))
    mesh.flat([spinner(0, a) for a in linspace(0, 2 * math.pi, 15)[:-1]], (0, 0, -1), BONE)
    return mesh


def frontOf(x, y):
    """z of the cowl's front at a place across it."""
    low, high = 1.3, NOSE
    for _ in range(40):
        z = 0.5 * (low + high)
        w, t, b, c, n = section(z)
        h = (t - c) if y > c else (c - b)
        if abs(x / w) ** n + abs((y - c) / h) ** n < 1:
            low = z
        else:
            high = z
    return low


def addCowlDetails(mesh):
    """Two air inlets beside the spinner, one below, and the exhaust stubs."""
    for cx, cy, rx, ry in ((0.275, 0.07, 0.085, 0.062), (-0.275, 0.07, 0.085, 0.062), (0.0, -0.235, 0.10, 0.04)):
        def inlet(r, a, lift=0.004):
            x, y = cx + r * rx * math.cos(a), cy + r * ry * math.sin(a)
            return (x, y, frontOf(x, y) + lift)
        ring_in = [inlet(1.0, a) for a in linspace(0, 2 * math.pi, 13)]
        ring_out = [inlet(1.16, a) for a in linspace(0, 2 * math.pi, 13)]
        ring_mid = [inlet(0.5, a, 0.008) for a in linspace(0, 2 * math.pi, 13)]
        middle = inlet(0, 0, 0.010)
        for i in range(12):
            mesh.flat([middle, ring_mid[i], ring_mid[i + 1]], (0, 0, 1), BLACK)
            mesh.flat([ring_mid[i], ring_in[i], ring_in[i + 1], ring_mid[i + 1]], (0, 0, 1), BLACK)
            mesh.flat([ring_in[i], ring_out[i], ring_out[i + 1], ring_in[i + 1]], (0, 0, 1), BONE)
    for side in (1, -1):
        mesh.tube([(side * 0.22, -0.36, 1.02), (side * 0.235, -0.47, 0.92), (side * 0.24, -0.505, 0.80)],
                  [0.045, 0.042, 0.04], METAL, sides=8)


# --- wings and tails ---------------------------------------------------------------------------------------------------

def halfThickness(f, ratio):
    """NACA 4-digit symmetrical section with a closed trailing edge, half thickness over chord at the fraction f.

    Source: Jacobs, Ward, Pinkerton, NACA Report 460 (1933); last coefficient -0.1036 closes the trailing edge."""
    return 5 * ratio * (0.2969 * math.sqrt(f) - 0.1260 * f - 0.3516 * f ** 2 + 0.2843 * f ** 3 - 0.1036 * f ** 4)


# tau in -1..1: fraction of the chord tau^2, above the chord for tau > 0; smooth round the leading edge.
TAUS = [math.sqrt(f) for f in (1.0, 0.88, 0.762, 0.61, 0.45, 0.32, 0.21, 0.12, 0.055, 0.014)]
WING_TAUS = TAUS + [0.0] + [-t for t in reversed(TAUS)]
SMALL = [math.sqrt(f) for f in (1.0, 0.8, 0.54, 0.36, 0.22, 0.11, 0.035)]
TAIL_TAUS = SMALL + [0.0] + [-t for t in reversed(SMALL)]


class Lifter:
    """A wing-like surface: chord, front edge and thickness along the span s (0 root .. end), rounded at its tip."""

    def __init__(self, end, cap, lead, trail, ratio, place):
        self.end, self.cap, self.lead, self.trail, self.ratio = end, cap, lead, trail, ratio
        self.to_place = place  # (s, height across, z) -> point

    def shape(self, s):
        """Front z, chord, thickness ratio at s; over the last `cap` metres the plan form and the section round off."""
        lead, trail, ratio = self.lead(s), self.trail(s), self.ratio(s)
        if s > self.end - self.cap:
            u = min((s - (self.end - self.cap)) / self.cap, 1.0)
            k = math.sqrt(max(1 - u * u, 0.0))
            chord = lead - trail
            lead, trail = lead - 0.42 * chord * (1 - k ** 0.8), trail + 0.30 * chord * (1 - k ** 0.8)
            ratio *= k ** 0.35
        return lead, lead - trail, ratio

    def at(self, s, tau, low_cut=None):
        lead, chord, ratio = self.shape(s)
        f = tau * tau
        h = chord * halfThickness(f, ratio)
        return self.to_place(s, math.copysign(h, tau) if f < 1 else 0.0, lead - f * chord)

    def capStations(self, count):
        return [self.end - self.cap + self.cap * math.sin(a) for a in linspace(0, math.pi / 2, count)]


def wingPlace(side):
    def place(s, h, z):
        # The root follows the fuselage's side from just below its skin.
        if s >= 0.56:
            return (side * s, -0.17 + h, z)
        t = (s - WING_ROOT) / (0.56 - WING_ROOT)
        return (side * (0.56 * t + (hull(z, hullAngle(z, -0.17 + h), 0.008)[0]) * (1 - t)), -0.17 + h, z)
    return place


def wingLead(s):
    fair = max(0.0, (0.66 - s) / 0.36)
    return 0.05 + 0.25 * (1.95 - 0.98 * s / HALF_SPAN) + 0.10 * fair ** 2


def wingTrail(s):
    fair = max(0.0, (0.66 - s) / 0.36)
    return 0.05 - 0.75 * (1.95 - 0.98 * s / HALF_SPAN) - 0.22 * fair ** 2


def wingRatio(s):
    fair = max(0.0, (0.66 - s) / 0.36)
    return 0.15 - 0.03 * s / HALF_SPAN + 0.03 * fair ** 2


WING_ROOT = 0.26
AILERON_FROM, AILERON_TO, HINGE = 0.92, 3.50, 0.77
BAND_FROM, BAND_TO = 0.59 * HALF_SPAN, 0.81 * HALF_SPAN
TIP_FROM = 0.945 * HALF_SPAN
TIP_CUT = math.sqrt(0.762)


def wingColour(side):
    def colour(s, tau):
        if s > TIP_FROM:
            return BONE
        if side > 0 and BAND_FROM < s < BAND_TO:
            return INDIGO if tau > 0 else BONE
        return SAFFRON if tau > 0 else INDIGO
    return colour


def makeWing():
    mesh = Mesh()
    for side in (1, -1):
        wing = Lifter(HALF_SPAN, 0.21, wingLead, wingTrail, wingRatio, wingPlace(side))
        paint = wingColour(side)
        inside = lambda s, tau: wing.at(s, 0.0)[:2] + (wing.shape(s)[0] - 0.4 * wing.shape(s)[1],)
        seam = lambda s, tau, c: dark(paint(s, tau), 0.75) if 0.70 < s < 0.712 else paint(s, tau)
        mesh.surface(wing.at, [WING_ROOT, 0.36, 0.46, 0.56, 0.66, 0.70, 0.712, AILERON_FROM], WING_TAUS, seam, inside)
        cut = [t for t in WING_TAUS if t * t < 0.77]
        middle = sorted([AILERON_FROM, 1.35, 1.80, BAND_FROM, 2.66, BAND_TO, 3.30, AILERON_TO])
        mesh.surface(wing.at, middle, cut, lambda s, tau, c: paint(s, tau), inside)
        tip = [AILERON_TO, TIP_FROM] + [s for s in wing.capStations(6) if s > TIP_FROM + 1e-3]
        mesh.surface(wing.at, tip, WING_TAUS, lambda s, tau, c: paint(s, tau), inside)
        # Cove and the ends of the cut for the aileron.
        for a, b in zip(middle, middle[1:]):
            mesh.flat([wing.at(a, TIP_CUT), wing.at(b, TIP_CUT), wing.at(b, -TIP_CUT), wing.at(a, -TIP_CUT)], (0, 0, -1),
                      GAP)
        rear = [t for t in reversed(TAUS) if t * t > 0.75]
        for s, direction in ((AILERON_FROM, side), (AILERON_TO, -side)):
            mesh.ribs([wing.at(s, t) for t in rear], [wing.at(s, -t) for t in rear], (direction, 0, 0), GAP)
    addTail(mesh)
    return mesh


def hingedSection(lifter, s, hinge_frac, count):
    """Outline of a control surface at s, in (distance behind the hinge, height), from the upper trailing edge round the nose
    to the lower one."""
    lead, chord, ratio = lifter.shape(s)
    r = chord * halfThickness(hinge_frac, ratio)
    upper = [((f - hinge_frac) * chord, chord * halfThickness(f, ratio) if f < 1 else 0.0)
             for f in linspace(1.0, hinge_frac, count)]
    nose = [(-r * math.sin(a), r * math.cos(a)) for a in linspace(0, math.pi, 6)[1:-1]]
    return upper + nose + [(d, -h) for d, h in reversed(upper)], lead - hinge_frac * chord


def addHinged(mesh, lifter, stations, hinge_of, colour, slant=None, ends=(True, True)):
    """A control surface in model axes: `hinge_of(s)` the chord fraction of its hinge; slant: metres along the span that the
    first station runs outward per metre behind the hinge."""
    rows = []
    for k, s in enumerate(stations):
        outline, z = hingedSection(lifter, s, hinge_of(s), 4)
        row = []
        for d, h in outline:
            shift = max(d, 0) * slant if slant and k == 0 else 0
            row.append(lifter.to_place(s + shift, h, z - d))
        rows.append(row)
    count = len(rows[0])

    def normal(i, j):
        a, b = rows[max(i - 1, 0)][j], rows[min(i + 1, len(rows) - 1)][j]
        c, d = rows[i][max(j - 1, 0)], rows[i][min(j + 1, count - 1)]
        return unit(cross(sub(b, a), sub(d, c)))
    normals = [[normal(i, j) for j in range(count)] for i in range(len(rows))]
    centre = mul(add(rows[0][count // 2], rows[-1][count // 2]), 0.5)
    if dot(normals[len(rows) // 2][2], sub(rows[len(rows) // 2][2], rows[len(rows) // 2][count - 3])) < 0:
        normals = [[mul(n, -1) for n in row] for row in normals]
    for i in range(len(rows) - 1):
        for j in range(count - 1):
            s = 0.5 * (stations[i] + stations[i + 1])
            mesh.quad((rows[i][j], rows[i + 1][j], rows[i + 1][j + 1], rows[i][j + 1]),
                      (normals[i][j], normals[i + 1][j], normals[i + 1][j + 1], normals[i][j + 1]),
                      colour(s, 1 if j < count // 2 else -1))
    out = sub(rows[-1][0], rows[0][0])
    for row, direction, wanted in ((rows[0], mul(out, -1), ends[0]), (rows[-1], out, ends[1])):
        if wanted:
            half = count // 2
            mesh.ribs(row[:half][::-1], row[count - half:], direction, dark(colour(stations[0], -1), 0.85))
    return centre


def makeAileron(side):
    wing = Lifter(HALF_SPAN, 0.21, wingLead, wingTrail, wingRatio, wingPlace(side))
    paint = wingColour(side)
    mesh = Mesh()
    addHinged(mesh, wing, [AILERON_FROM + 0.008, 1.35, 1.80, BAND_FROM, BAND_TO, AILERON_TO - 0.008],
              lambda s: HINGE, paint)

    def hinge(s):
        lead, chord, _ = wing.shape(s)
        return wing.to_place(s, 0.0, lead - HINGE * chord)
    a, b = hinge(AILERON_FROM), hinge(AILERON_TO)
    x_axis = unit(sub(b, a)) if side > 0 else unit(sub(a, b))
    return mesh, mul(add(a, b), 0.5), x_axis


TAIL_HINGE_Z, TAIL_Y, TAIL_END = -3.46, 0.165, 1.42


def tailplane(side):
    return Lifter(TAIL_END, 0.16, lambda s: -2.88 - 0.17 * s, lambda s: -4.02 + 0.075 * s, lambda s: 0.105,
                  lambda s, h, z: (side * s, TAIL_Y + h, z))


def tailHingeFrac(lifter):
    def frac(s):
        lead, chord, _ = lifter.shape(s)
        return (lead - TAIL_HINGE_Z) / chord
    return frac


FIN_BASE, FIN_END = 0.16, 1.17


def finHinge(y):
    return -3.74 - 0.045 * (y - FIN_BASE)


def finPlace(s, h, z):
    return (h, s, z)


FIN = Lifter(FIN_END, 0.13, lambda y: -2.84 - 0.62 * (y - FIN_BASE) - 0.22 * max(0.0, (0.45 - y) / 0.3) ** 2 * -1.0,
             lambda y: -4.20 + 0.10 * max(y - 0.3, 0.0), lambda y: 0.10, finPlace)


def addTail(mesh):
    """Fixed tailplane and fin."""
    for side in (1, -1):
        tail = tailplane(side)
        frac = tailHingeFrac(tail)
        stations = [0.0, 0.3, 0.6, 0.9, 1.12] + tail.capStations(5)[:-1]

        def at(s, k, tail=tail, frac=frac):
            # k: -1 .. 1 over the part ahead of the hinge
            return tail.at(s, k * math.sqrt(frac(s) - 0.006))
        paint = lambda s, k, c: BONE if s > 1.26 else SAFFRON if k > 0 else INDIGO
        mesh.surface(at, stations + [1.415], linspaceAbout(7), paint, inside=lambda s, k: (side * s, TAIL_Y, -3.2))
        for a, b in zip(stations, stations[1:]):
            mesh.flat([at(a, 1), at(b, 1), at(b, -1), at(a, -1)], (0, 0, -1), GAP)

    def finFrac(y):
        lead, chord, _ = FIN.shape(y)
        return (lead - finHinge(y)) / chord

    def fin(y, k):
        return FIN.at(y, k * math.sqrt(max(finFrac(y) - 0.005, 0.01)))
    stations = [FIN_BASE, 0.30, 0.45, 0.62, 0.80, 0.98] + FIN.capStations(5)[:-1]
    mesh.surface(fin, stations + [1.165], linspaceAbout(7), lambda y, k, c: BONE if y > 0.99 else SAFFRON,
                 inside=lambda y, k: (0, y, -3.5))
    for a, b in zip(stations, stations[1:]):
        mesh.flat([fin(a, 1), fin(b, 1), fin(b, -1), fin(a, -1)], (0, 0, -1), GAP)


def linspaceAbout(count):
    """1 .. -1, denser at 0 where the leading edge is."""
    half = [1 - i / count for i in range(count)]
    return half + [0.0] + [-t for t in reversed(half)]


def makeElevator():
    mesh = Mesh()
    for side in (1, -1):
        tail = tailplane(side)
        frac = tailHingeFrac(tail)
        addHinged(mesh, tail, [0.065, 0.45, 0.85, 1.26] + tail.capStations(4)[1:3] + [1.40], frac,
                  lambda s, k: BONE if s > 1.26 else SAFFRON if k > 0 else INDIGO, slant=0.62)
    mesh.tube([(-0.10, TAIL_Y, TAIL_HINGE_Z), (0.10, TAIL_Y, TAIL_HINGE_Z)], 0.028, INDIGO)
    return mesh, (0.0, TAIL_Y, TAIL_HINGE_Z), (1.0, 0.0, 0.0)


def makeRudder():
    mesh = Mesh()

    def frac(y):
        lead, chord, _ = RUDDER.shape(y)
        return (lead - finHinge(y)) / chord

    def colour(y, k):
        line = 0.13
        if y > 0.99:
            return BONE
        return SAFFRON if y > line + 0.5 * BONE_LINE else BONE if y > line - 0.5 * BONE_LINE else INDIGO
    stations = [-0.02, 0.03, 0.095, 0.165, 0.40, 0.70, 0.99] + RUDDER.capStations(5)[1:4] + [1.163]
    addHinged(mesh, RUDDER, stations, frac, colour)
    a, b = finPlace(0.0, 0.0, finHinge(0.0)), finPlace(1.0, 0.0, finHinge(1.0))
    return mesh, a, unit(sub(b, a))


RUDDER = Lifter(FIN_END, 0.13, lambda y: FIN.lead(max(y, FIN_BASE)),
                lambda y: FIN.trail(y) + 0.20 * max(0.0, (0.12 - y) / 0.14) ** 2, lambda y: 0.10, finPlace)


# --- canopy, cockpit, gear, propeller ----------------------------------------------------------------------------------

def sill(z, side):
    return hull(z, side * sillAngle(z))


def canopyPlace(z, a):
    """a: 0 at the left sill .. 1 at the right one."""
    xs, ys, _ = sill(z, 1)
    height = max(CANOPY_TOP(z) - ys, 0.0)
    angle = math.pi * a
    c, s = math.cos(angle), math.sin(angle)
    x = xs * math.copysign(abs(c) ** 0.86, c) * (1 + 0.07 * s * s)
    return (x, ys + height * s ** 0.92, z)


def makeCanopy():
    glass, frame = Mesh(), Mesh()
    zs = [CANOPY_FRONT - 1e-4] + OPENING[1:-1] + [CANOPY_BACK + 1e-4]
    arc = [0.0, 0.025] + [0.025 + 0.95 * t for t in linspace(0, 1, 13)[1:-1]] + [0.975, 1.0]
    inside = lambda z, a: (0, 0.35, min(max(z, -1.1), 0.3))
    glass.surface(canopyPlace, zs, arc, GLASS + (236,), inside, keep=lambda z, a: 0.025 < a < 0.975)
    frame.surface(canopyPlace, zs, arc, INDIGO, inside, keep=lambda z, a: not 0.025 < a < 0.975)
    return glass, frame


def makeCockpit():
    mesh = Mesh()
    # Tub: the inside of the fuselage from the sill down, and a floor.
    zs = linspace(0.55, SEAT_Z, 9)
    floor = math.radians(148)
    for side in (1, -1):
        mesh.surface(lambda z, k: hull(z, side * (sillAngle(z) + (floor - sillAngle(z)) * k), 0.012), zs, linspace(0, 1, 6),
                     lambda z, k, c: dark(CHARCOAL, 1.0 - 0.35 * k), inside=lambda z, k: (side * 5.0, 0, z))
    for a, b in zip(zs, zs[1:]):
        mesh.flat([hull(a, floor, 0.012), hull(b, floor, 0.012), hull(b, -floor, 0.012), hull(a, -floor, 0.012)], (0, 1, 0),
                  dark(CHARCOAL, 0.6))
    well = [hull(zs[0], a, 0.012) for a in linspace(-math.pi, math.pi, 13)]
    for a, b in zip(well, well[1:]):
        mesh.flat([(0, 0, zs[0]), a, b], (0, 0, -1), BLACK)
    # Coaming ahead of the panel and the shelf behind the head: the fuselage's own curve, matt.
    shelf = lambda z, k: hull(z, sillAngle(z) * k, 0.004)
    mesh.surface(shelf, [CANOPY_FRONT - 1e-3, 0.70, 0.66, 0.58, 0.46, 0.32, 0.16, PANEL_Z], linspace(-1, 1, 17), CHARCOAL,
                 inside=lambda z, k: (0, -0.2, z))
    mesh.surface(shelf, [SEAT_Z, -1.25, -1.36, -1.44, CANOPY_BACK + 1e-3], linspace(-1, 1, 9), dark(CHARCOAL, 1.1),
                 inside=lambda z, k: (0, -0.2, z))
    addPanel(mesh)
    # Bulkhead and seat back.
    edge = [hull(SEAT_Z, a, 0.01) for a in linspace(-floor, floor, 13)]
    for a, b in zip(edge, edge[1:]):
        mesh.flat([(0, 0, SEAT_Z), a, b], (0, 0, 1), dark(CHARCOAL, 0.8))
    seat = lambda x, v: (x * (0.235 - 0.05 * v), -0.20 + 0.72 * v, -0.93 - 0.16 * v + 0.05 * x * x)
    mesh.surface(seat, linspace(-1, 1, 6), linspace(0, 1, 5), LEATHER, inside=(0, 0.1, -3))
    mesh.surface(seat, [-1, 1], [0, 1], BLACK, inside=(0, 0.1, 3))
    mesh.box((-0.09, 0.50, -1.12), (0.09, 0.66, -1.05), BLACK)
    # Rails on the sills, the bow of the canopy, stick and power lever.
    rail = linspace(0.60, -1.40, 10)
    for side in (1, -1):
        mesh.tube([add(sill(z, side), (-side * 0.012, 0.004, 0)) for z in rail], 0.017, BLACK)
    bow = [canopyPlace(0.16, a) for a in linspace(0.01, 0.99, 25)]
    mesh.tube([add(mul(sub(p, (0, 0.3, 0.16)), 0.975), (0, 0.3, 0.16)) for p in bow], 0.013, BLACK)
    mesh.tube([(0, -0.36, -0.42), (0, -0.05, -0.46), (0, 0.05, -0.49)], [0.014, 0.013, 0.022], BLACK)
    mesh.tube([(0.30, 0.02, -0.34), (0.285, 0.13, -0.30)], [0.010, 0.022], BLACK)
    return mesh


def addPanel(mesh):
    """Instrument panel under the coaming's edge, dials blank: the viewer draws what they show."""
    z = PANEL_Z + 0.035
    edge = [hull(PANEL_Z, sillAngle(PANEL_Z) * k, 0.012) for k in linspace(-1, 1, 17)]
    lower = [(p[0] * 0.97, -0.12, z) for p in edge]
    for i in range(16):
        a, b = edge[i], edge[i + 1]
        mesh.flat([(a[0], a[1], z), (b[0], b[1], z), lower[i + 1], lower[i]], (0, 0, -1), CHARCOAL)
        # Lip of the coaming: turned down, so that its edge reads as thick.
        mesh.flat([a, b, (b[0], b[1] - 0.022, PANEL_Z), (a[0], a[1] - 0.022, PANEL_Z)], (0, 0, -1), BLACK)
    for x, y, r in ((0.0, 0.315, 0.062), (0.145, 0.285, 0.055), (-0.145, 0.285, 0.055), (0.0, 0.165, 0.055),
                    (0.135, 0.15, 0.045), (-0.135, 0.15, 0.045), (0.245, 0.19, 0.034), (-0.245, 0.19, 0.034)):
        def dial(k, t):
            return (x + r * k * math.cos(t), y + r * k * math.sin(t), z - 0.004 - (0.006 if k > 0.9 else 0.0))
        for a, b in zip(linspace(0, 2 * math.pi, 25), linspace(0, 2 * math.pi, 25)[1:]):
            mesh.flat([dial(0, 0), dial(0.88, a), dial(0.88, b)], (0, 0, -1), BLACK)
            mesh.flat([dial(0.88, a), dial(1.0, a), dial(1.0, b), dial(0.88, b)], (0, 0, -1), METAL)


def ellipsoid(mesh, centre, radii, colour, us=9, vs=11, pointed=0.0):
    """`pointed` draws the back half out to a tail."""
    def place(u, a):
        z = math.cos(u)
        r = math.sin(u)
        if z < 0:
            r *= 1 - pointed * z * z
        return add(centre, (radii[0] * r * math.sin(a), radii[1] * r * math.cos(a),
                            radii[2] * z * (1.55 if z < 0 and pointed else 1.0)))
    mesh.surface(place, linspace(0, math.pi, us), linspace(0, 2 * math.pi, vs), colour, inside=centre)


def wheel(mesh, centre, radius, width):
    def tyre(a, t):
        r = radius - 0.42 * width + 0.42 * width * math.cos(t)
        return add(centre, (0.5 * width * math.sin(t), r * math.cos(a), r * math.sin(a)))
    mesh.surface(tyre, linspace(0, 2 * math.pi, 13), linspace(-math.pi / 2, math.pi / 2, 4), RUBBER, inside=centre)
    for side in (1, -1):
        mesh.flat([tyre(a, side * math.pi / 2) for a in linspace(0, 2 * math.pi, 13)[:-1]], (side, 0, 0), RUBBER)


GEAR_X, GEAR_Y, GEAR_Z, WHEEL = 0.86, -1.10, 0.52, 0.17


def makeGear():
    mesh = Mesh()
    for side in (1, -1):
        # Leg: a lens-shaped blade, thinner and narrower towards the wheel.
        def leg(u, t):
            x = 0.20 + (GEAR_X - 0.20) * (u ** 0.86)
            y = -0.38 + (GEAR_Y + 0.03 + 0.38) * (u ** 1.12)
            chord, thick = 0.26 - 0.13 * u, 0.030 - 0.010 * u
            return (side * (x + thick * math.sin(t) * 0.8), y + thick * math.sin(t) * 0.6, GEAR_Z + 0.06 - 0.06 * u
                    + 0.5 * chord * math.cos(t))
        axis = lambda u, t: (side * (0.20 + (GEAR_X - 0.20) * (u ** 0.86)), -0.38 + (GEAR_Y + 0.41) * (u ** 1.12), GEAR_Z)
        mesh.surface(leg, linspace(0.0, 1, 6), linspace(0, 2 * math.pi, 11), INDIGO, inside=axis)
        ellipsoid(mesh, (side * GEAR_X, GEAR_Y + 0.035, GEAR_Z), (0.095, 0.165, 0.30), INDIGO, pointed=0.35)
        wheel(mesh, (side * GEAR_X, GEAR_Y - 0.03, GEAR_Z), WHEEL, 0.11)
    mesh.tube([(0, 0.06, -3.52), (0, -0.09, -3.72), (0, -0.155, -3.80)], [0.022, 0.016, 0.014], METAL)
    wheel(mesh, (0, -0.165, -3.81), 0.075, 0.05)
    return mesh


HUB = (0.0, THRUST, 2.07)
PROPELLER_RADIUS = 0.99


def makeBlades():
    """In local axes: x forward along the shaft."""
    mesh = Mesh()
    for k in range(3):
        turn = 2 * math.pi * k / 3

        def blade(r, t):
            f = r / PROPELLER_RADIUS
            chord = 0.17 * (0.62 + 1.5 * f - 1.25 * f * f) * math.sqrt(max(1 - f ** 8, 0.0))
            thick = chord * (0.30 - 0.22 * f)
            pitch = math.atan2(0.62, 2.6 * r)  # the pitch of a helix: steep at the root, flat at the tip
            c, h = 0.5 * chord * math.cos(t), 0.5 * thick * math.sin(t)
            x, side = h * math.cos(pitch) + c * math.sin(pitch), c * math.cos(pitch) - h * math.sin(pitch)
            # Turning positively about x, the blade moves towards -(side x radial): the leading edge leads there.
            return (x, r * math.cos(turn) - side * math.sin(turn), r * math.sin(turn) + side * math.cos(turn))
        axis = lambda r, t: (0, r * math.cos(turn), r * math.sin(turn))
        mesh.surface(blade, [0.12, 0.25, 0.42, 0.60, 0.76, 0.90, 0.96, PROPELLER_RADIUS], linspace(0, 2 * math.pi, 9),
                     lambda r, t, c: BONE if r > 0.90 else BLACK, inside=axis)
    return mesh


def makeDisc():
    """In local axes: x forward. Clear towards the hub, a bone ring at the tip."""
    mesh = Mesh()
    angles = linspace(0, 2 * math.pi, 41)
    bands = [(0.16, 0.55, (0x30, 0x32, 0x34, 26)), (0.55, 0.905, (0x30, 0x32, 0x34, 46)),
             (0.905, PROPELLER_RADIUS, BONE + (120,))]
    n = (1.0, 0.0, 0.0)
    for low, high, colour in bands:
        for a, b in zip(angles, angles[1:]):
            points = [(0.0, r * math.cos(t), r * math.sin(t)) for r, t in ((low, a), (high, a), (high, b), (low, b))]
            mesh.quad(points, (n, n, n, n), colour)
    return mesh


# --- glTF --------------------------------------------------------------------------------------------------------------

def frameFromX(x_axis):
    """Quaternion (x, y, z, w) of the shortest turn of +x on the axis."""
    c = cross((1.0, 0.0, 0.0), x_axis)
    w = 1 + x_axis[0]
    n = math.sqrt(dot(c, c) + w * w)
    return (c[0] / n, c[1] / n, c[2] / n, w / n)


def turn(q, v, inverse=False):
    u, w = q[:3], q[3]
    if inverse:
        u = mul(u, -1)
    return add(v, add(mul(cross(u, v), 2 * w), mul(cross(u, cross(u, v)), 2)))


class Writer:
    def __init__(self):
        self.data = bytearray()
        self.views, self.accessors, self.meshes, self.nodes = [], [], [], []

    def view(self, payload, target):
        while len(self.data) % 4:
            self.data.append(0)
        self.views.append({"buffer": 0, "byteOffset": len(self.data), "byteLength": len(payload), "target": target})
        self.data += payload
        return len(self.views) - 1

    def accessor(self, payload, kind, component, count, target, **more):
        self.accessors.append({"bufferView": self.view(payload, target), "type": kind, "componentType": component,
                               "count": count, **more})
        return len(self.accessors) - 1

    def primitive(self, mesh, material):
        count = len(mesh.vertices)
        places = [struct.unpack("<3f", struct.pack("<3f", *p)) for p, _, _ in mesh.vertices]
        low = [min(p[k] for p in places) for k in range(3)]
        high = [max(p[k] for p in places) for k in range(3)]
        normals = [unit(n) for _, n, _ in mesh.vertices]
        return {"attributes": {
            "POSITION": self.accessor(b"".join(struct.pack("<3f", *p) for p in places), "VEC3", 5126, count, 34962,
                                      min=low, max=high),
            "NORMAL": self.accessor(b"".join(struct.pack("<3f", *n) for n in normals), "VEC3", 5126, count, 34962),
            "COLOR_0": self.accessor(b"".join(struct.pack("<4B", *c) for _, _, c in mesh.vertices), "VEC4", 5121, count,
                                     34962, normalized=True)},
            "indices": self.accessor(b"".join(struct.pack("<3H", *t) for t in mesh.triangles), "SCALAR", 5123,
                                     3 * len(mesh.triangles), 34963),
            "material": material, "mode": 4}

    def node(self, name, parts, origin=None, x_axis=None):
        """parts: (mesh, material) in model axes where x_axis is given with to-local turning, else as they are."""
        node = {"name": name, "mesh": len(self.meshes)}
        if origin:
            node["translation"] = list(origin)
        if x_axis:
            q = frameFromX(x_axis)
            node["rotation"] = list(q)
        self.meshes.append({"name": name, "primitives": [self.primitive(m, k) for m, k in parts]})
        self.nodes.append(node)

    def hinged(self, name, made, material):
        mesh, origin, x_axis = made
        q = frameFromX(x_axis)
        local = mesh.moved(lambda v, is_place: turn(q, sub(v, origin) if is_place else v, inverse=True))
        self.node(name, [(local, material)], origin, x_axis)

    def bytes(self):
        material = lambda name, rough, **more: {"name": name, "pbrMetallicRoughness": {"metallicFactor": 0.0,
                                                                                      "roughnessFactor": rough}, **more}
        document = {
            "asset": {"version": "2.0", "generator": "make_model.py of Plumbline",
                      "extras": {"note": "An invented aircraft, no real type.",
                                 "colour_space": "COLOR_0 is display-space sRGB, not linear; use it as it is.",
                                 "deflection": "Turn hinge nodes about local x after the node's rotation; positive: trailing "
                                               "edge up, the rudder's to the right.",
                                 "span_m": 2 * HALF_SPAN}},
            "scene": 0, "scenes": [{"nodes": list(range(len(self.nodes)))}], "nodes": self.nodes, "meshes": self.meshes,
            "materials": [material("paint", 0.45), material("glass", 0.08, alphaMode="BLEND", doubleSided=True),
                          material("disc", 0.9, alphaMode="BLEND", doubleSided=True),
                          material("interior", 0.9, doubleSided=True)],
            "accessors": self.accessors, "bufferViews": self.views}
        while len(self.data) % 4:
            self.data.append(0)
        document["buffers"] = [{"byteLength": len(self.data)}]
        text = json.dumps(document, separators=(",", ":"), sort_keys=True).encode()
        text += b" " * (-len(text) % 4)
        size = 12 + 8 + len(text) + 8 + len(self.data)
        return (struct.pack("<4sII", b"glTF", 2, size) + struct.pack("<I4s", len(text), b"JSON") + text
                + struct.pack("<I4s", len(self.data), b"BIN\0") + bytes(self.data))


def main():
    paint, glass_material, disc_material, interior = range(4)
    writer = Writer()
    writer.node("fuselage", [(makeFuselage(), paint)])
    writer.node("wing", [(makeWing(), paint)])
    writer.hinged("aileron_left", makeAileron(1), paint)
    writer.hinged("aileron_right", makeAileron(-1), paint)
    writer.hinged("elevator", makeElevator(), paint)
    writer.hinged("rudder", makeRudder(), paint)
    writer.node("gear", [(makeGear(), paint)])
    writer.node("cockpit", [(makeCockpit(), interior)])
    glass, frame = makeCanopy()
    writer.node("canopy", [(frame, paint), (glass, glass_material)])
    writer.node("propeller_blades", [(makeBlades(), paint)], HUB, (0.0, 0.0, 1.0))
    writer.node("propeller_disc", [(makeDisc(), disc_material)], HUB, (0.0, 0.0, 1.0))
    payload = writer.bytes()
    out = sys.argv[1] if len(sys.argv) > 1 else __file__.replace("make_model.py", "plumbline.glb")
    with open(out, "wb") as file:
        file.write(payload)
    triangles = sum(a["count"] for a in writer.accessors if a["type"] == "SCALAR") // 3
    print(f"{out}: {len(payload)} bytes, {triangles} triangles")


if __name__ == "__main__":
    main()
