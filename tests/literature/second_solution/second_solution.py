"""A second, independent solution of the equations of motion, beside what the engine flies.

The equations are Newton's law with the coefficients and the power that engine/fly/aero.h and
engine/fly/power.h define in words and formulas, in the standard atmosphere (ICAO Doc 7488/3); nothing
here is taken from the engine's code. They are solved by SciPy's DOP853 (Hairer, Norsett & Wanner,
Solving Ordinary Differential Equations I, 8th order) at a relative 1e-11 and must agree with the engine
to 1e-6.

Two kinds of comparison:
  laws      one element after its joint's fades have died out, from the engine's state at one moment to a
            later one, by the closed system of that element (coast, 45, level, knife-edge, load, radius,
            turn, slide, pivot, fall, torque roll)
  forward   a whole figure: the attitude that the engine found by inverse dynamics is flown forward by the
            plain equations of motion; position and velocity must come out as the engine has them

usage: second_solution.py FLIGHT_STATES AIRCRAFT_FILE
"""

import math
import subprocess
import sys

import numpy as np
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicHermiteSpline
from scipy.optimize import brentq

from aircraft_model import G0, KNOT, Aircraft, density

AGREE = 1e-6
UP = np.array([0.0, 0.0, 1.0])

# --- what the engine flew


def rotation(q):
    w, x, y, z = q / np.linalg.norm(q)
    return np.array([
        [1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
        [2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
        [2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
    ])  # fmt: skip


class Flown:
    COLUMNS = {"time": 0, "r": slice(1, 4), "v": slice(4, 7), "q": slice(7, 11), "rate": slice(11, 14),
               "force": slice(14, 17), "airspeed": 17, "power": 18, "mass": 19, "fuel": 20}  # fmt: skip

    def __init__(self, text, height=300.0, speed=82.0, wind=None):
        command = [PROGRAM, AIRCRAFT_FILE, repr(height), repr(speed)]
        self.wind0, self.shear = (wind[0], (wind[1] - wind[0]) / 1100) if wind else (0.0, 0.0)
        if wind:
            command += [repr(float(w)) for w in wind]
        done = subprocess.run(command, input=text, capture_output=True, text=True, check=True)
        self.notes = done.stderr
        self.elements, rows = [], []
        for line in done.stdout.splitlines():
            kind, rest = line.split(" ", 1)
            if kind == "sample":
                rows.append(np.fromstring(rest, sep=" "))
            else:
                start, stop, label = rest.split(" ", 2)
                self.elements.append((float(start), float(stop), label))
        self.data = np.array(rows)
        self.time = self.data[:, 0]

    def __getattr__(self, name):
        return self.data[:, Flown.COLUMNS[name]]

    def element(self, label, occurrence=0):
        return [e for e in self.elements if e[2] == label][occurrence]

    def index(self, time):
        return int(np.argmin(np.abs(self.time - time)))

    def air_velocity(self, i):
        return self.v[i] - np.array([self.wind0 + self.shear * self.r[i][2], 0, 0])

    def state(self, i):
        return np.concatenate([self.r[i], self.air_velocity(i), [self.mass[i]]])


# --- the equations


def newton(flown, attitude, throttle, fuel_flow):
    """r, air velocity, mass; in wind along x that changes evenly with height."""

    def rhs(t, y):
        r_z, v, mass = y[2], y[3:6], y[6]
        ground = v + np.array([flown.wind0 + flown.shear * r_z, 0, 0])
        rho = density(r_z)
        R = attitude(t)
        lever = throttle(t)
        accel = R @ AIRCRAFT.force_B(R.T @ v, rho, lever) / mass - G0 * UP
        accel[0] -= flown.shear * ground[2]
        return np.concatenate([ground, accel, [-fuel_flow(t, rho, lever)]])

    return rhs


def full_fuel(_t, rho, lever):
    return AIRCRAFT.bsfc * AIRCRAFT.shaft_power(1, rho)


def solve(rhs, start, y, stop, **options):
    done = solve_ivp(rhs, (start, stop), y, method="DOP853", rtol=1e-11, atol=1e-9, **options)
    if not done.success:
        sys.exit(f"second solution failed: {done.message}")
    return done


worst_miss = 0.0


def compare(name, what, mine, engine, scale, agree=AGREE):
    global worst_miss
    miss = float(np.max(np.abs(np.asarray(mine) - np.asarray(engine)))) / scale
    worst_miss = max(worst_miss, miss)
    ok = miss <= agree
    print(f"{'ok  ' if ok else 'FAIL'} {name:34s} {what:10s} {miss:9.2e}")
    if not ok:
        FAILED.append(name)


def compare_state(name, flown, i, j, y):
    """y: position, air velocity, mass at sample j of a stretch that began at sample i."""
    length = max(100.0, float(np.sum(np.linalg.norm(np.diff(flown.r[i : j + 1], axis=0), axis=1))))
    compare(name, "position", y[:3], flown.r[j], length)
    compare(name, "velocity", y[3:6], flown.air_velocity(j), max(30.0, flown.airspeed[j]))
    compare(name, "mass", y[6], flown.mass[j], flown.mass[j])


def held(name, flown, start, stop, attitude, throttle=lambda t: 1.0, fuel_flow=full_fuel):
    i, j = flown.index(start), flown.index(stop)
    done = solve(newton(flown, attitude, throttle, fuel_flow), flown.time[i], flown.state(i), flown.time[j])
    compare_state(name, flown, i, j, done.y[:, -1])
    return done


def line_axes(climb):
    """The line's frame L in S: x climbs from +x_S, y to the right wing of an upright aircraft."""
    c, s = math.cos(climb), math.sin(climb)
    return np.column_stack([[c, 0, s], [0, -1.0, 0], [s, 0, -c]])


def on_zero_lift_axis(line):
    """Body axes whose zero-lift axis lies on the line: it is alpha0 below the body's x axis."""
    c, s = math.cos(AIRCRAFT.alpha0), math.sin(AIRCRAFT.alpha0)
    return line @ np.array([[c, 0, s], [0, 1, 0], [-s, 0, c]])


# --- laws


def coast():
    f = Flown("line level 60 m\npull to up at 5 g\nline up until 25 kt")
    start, stop, _ = f.element("line up")
    axes = on_zero_lift_axis(line_axes(math.pi / 2))
    held("vertical coast", f, start + 1, stop, lambda t: axes)
    # The end is an event of its own: true airspeed through 25 kt.
    i = f.index(start + 1)
    slow = lambda t, y: np.linalg.norm(y[3:6]) - 25 * KNOT
    slow.terminal = True
    rhs = newton(f, lambda t: axes, lambda t: 1.0, full_fuel)
    done = solve(rhs, f.time[i], f.state(i), stop + 5, events=slow)
    compare("vertical coast", "end time", done.t[-1], stop, stop - f.time[i])


def forty_five():
    f = Flown("line level 60 m\npull to 45 deg up at 5 g\nline 45 deg up 400 m", wind=(-2.0, 18.0))
    start, stop, _ = f.element("line 45 deg up")
    axes = on_zero_lift_axis(line_axes(math.pi / 4))
    held("45 deg line in a wind gradient", f, start + 0.6, stop, lambda t: axes)


def along_path(name, f, start, stop, incidence, curvature, along_only=False):
    """Speed, direction and place in the vertical or level plane: y = r, V, climb, heading, mass.

    incidence(V, rho, climb, mass) gives alpha, beta; curvature(V, alpha, beta, rho, climb, mass) gives
    the rates of climb and heading angle."""
    i, j = f.index(start), f.index(stop)
    v = f.air_velocity(i)
    speed = np.linalg.norm(v)

    def rhs(t, y):
        _, _, height, V, climb, heading, mass = y
        rho = density(height)
        alpha, beta = incidence(V, rho, climb, mass)
        _, drag, _ = AIRCRAFT.coefficients(alpha, beta)
        qs = 0.5 * rho * V * V * AIRCRAFT.area
        forward = V * math.cos(alpha) * math.cos(beta)
        thrust = AIRCRAFT.thrust(1, rho, forward) * math.cos(alpha) * math.cos(beta)
        climb_rate, heading_rate = curvature(V, alpha, rho, climb, mass)
        direction = [math.cos(climb) * math.cos(heading), math.cos(climb) * math.sin(heading), math.sin(climb)]
        return np.array([V * direction[0], V * direction[1], V * direction[2],
                         (thrust - qs * drag) / mass - G0 * math.sin(climb),
                         climb_rate, heading_rate, -full_fuel(t, rho, 1)])  # fmt: skip

    y0 = np.concatenate([f.r[i], [speed, f_climb(f, v), math.atan2(v[1], v[0]), f.mass[i]]])
    y = solve(rhs, f.time[i], y0, f.time[j]).y[:, -1]
    V, climb, heading = y[3], y[4], y[5]
    velocity = V * np.array([math.cos(climb) * math.cos(heading), math.cos(climb) * math.sin(heading),
                             math.sin(climb)])  # fmt: skip
    if along_only:
        # The engine finds the incidence and then the sideslip, which is a guess at the thrust in the
        # other's plane: good to some 1e-6 of the speed in knife-edge.
        compare(name, "speed", V, f.airspeed[j], V, agree=5e-6)
        compare(name, "way", y[0], f.r[j][0], y[0] - f.r[i][0], agree=5e-6)
        compare(name, "sideslip", incidence(V, density(y[2]), climb, y[6])[1], sideslip(f, j), 1, agree=5e-6)
    else:
        compare_state(name, f, i, j, np.concatenate([y[:3], velocity, [y[6]]]))


def sideslip(f, i):
    u, v, w = rotation(f.q[i]).T @ f.air_velocity(i)
    return math.atan2(v, math.hypot(u, w))


def f_climb(f, v):
    """Climb angle, past the vertical as far as the arcs go: the figures here fly in the plane y = 0."""
    return math.atan2(v[2], math.hypot(v[0], v[1])) if abs(v[1]) > 1e-6 else math.atan2(v[2], v[0])


def alpha_of_lift(V, rho, force):
    """q S CL + T sin(alpha) = force."""
    qs = 0.5 * rho * V * V * AIRCRAFT.area

    def miss(alpha):
        lift = AIRCRAFT.coefficients(alpha, 0)[0]
        return qs * lift + AIRCRAFT.thrust(1, rho, V * math.cos(alpha)) * math.sin(alpha) - force

    return brentq(miss, -0.25, 0.28, xtol=1e-14, rtol=1e-14)


def level_and_knife_edge():
    f = Flown("line level 1200 m", speed=45.0)
    start, stop, _ = f.elements[0]
    level = lambda V, rho, climb, mass: (alpha_of_lift(V, rho, mass * G0), 0.0)
    along_path("level acceleration", f, start + 8, stop, level, lambda *_: (0.0, 0.0))

    f = Flown("line level 1200 m with 1/2 roll left at start", speed=70.0)
    start, stop, _ = f.elements[0]
    inverted = lambda V, rho, climb, mass: (alpha_of_lift(V, rho, -mass * G0), 0.0)
    along_path("inverted level line", f, start + 7, stop, inverted, lambda *_: (0.0, 0.0))

    f = Flown("line level 3500 m with 1/4 roll left at start", speed=75.0)
    start, stop, _ = f.elements[0]

    def knife_edge(V, rho, climb, mass):
        """Right wing up: the side force holds the weight, no lift. z_W across, y_W up or down."""
        qs = 0.5 * rho * V * V * AIRCRAFT.area

        def side(beta):
            alpha = no_lift(beta)
            thrust = AIRCRAFT.thrust(1, rho, V * math.cos(alpha) * math.cos(beta))
            return qs * AIRCRAFT.coefficients(alpha, beta)[2] - thrust * math.cos(alpha) * math.sin(beta) - mass * G0

        def no_lift(beta):
            def across(alpha):
                thrust = AIRCRAFT.thrust(1, rho, V * math.cos(alpha) * math.cos(beta))
                return qs * AIRCRAFT.coefficients(alpha, beta)[0] + thrust * math.sin(alpha)

            return brentq(across, -0.2, 0.2, xtol=1e-14)

        beta = brentq(side, -0.9, 0.0, xtol=1e-14)  # side force up: wind from the other side
        return no_lift(beta), beta

    along_path("knife-edge line", f, start + 28, stop, knife_edge, lambda *_: (0.0, 0.0), along_only=True)


def load_arc():
    f = Flown("line level 60 m\npull to up at 4.5 g\nline up 60 m", speed=88.0)
    start, stop, _ = f.element("pull to up")

    def incidence(V, rho, climb, mass):
        """The meter reads 4.5: q S (CL cos alpha + CD sin alpha) = 4.5 m g."""
        qs = 0.5 * rho * V * V * AIRCRAFT.area

        def miss(alpha):
            lift, drag, _ = AIRCRAFT.coefficients(alpha, 0)
            return qs * (lift * math.cos(alpha) + drag * math.sin(alpha)) - 4.5 * mass * G0

        return brentq(miss, -0.1, 0.27, xtol=1e-14), 0.0

    def curvature(V, alpha, rho, climb, mass):
        qs = 0.5 * rho * V * V * AIRCRAFT.area
        lift = qs * AIRCRAFT.coefficients(alpha, 0)[0]
        lift += AIRCRAFT.thrust(1, rho, V * math.cos(alpha)) * math.sin(alpha)
        return (lift - mass * G0 * math.cos(climb)) / (mass * V), 0.0

    along_path("load arc, 4.5 g", f, start + 0.7, stop - 0.35, incidence, curvature)


def radius_loop():
    radius = 140.0
    f = Flown(f"line level 60 m\npull 360 deg radius {radius:g} m\nline level 60 m", speed=105.0)
    start, stop, _ = f.elements[1]

    def incidence(V, rho, climb, mass):
        return alpha_of_lift(V, rho, mass * (V * V / radius + G0 * math.cos(climb))), 0.0

    along_path("loop by radius, its round part", f, start + 1.2, start + 3.5, incidence,
               lambda V, *_: (V / radius, 0.0))  # fmt: skip


def level_turn():
    bank = 70 * math.pi / 180
    f = Flown("line level 60 m\nturn left 270 deg bank 70 deg\nline level 60 m")
    start, stop, _ = f.elements[1]
    incidence = lambda V, rho, climb, mass: (alpha_of_lift(V, rho, mass * G0 / math.cos(bank)), 0.0)
    along_path("level turn, bank 70 deg", f, start + 1.5, stop - 1.5, incidence,
               lambda V, *_: (0.0, G0 * math.tan(bank) / V))  # fmt: skip


def slide():
    f = Flown("pull to up at 6 g\nline up until 40 kt\npower idle\nline up until 20 kt\nslide 120 m")
    start, stop, _ = f.elements[-1]
    axes = on_zero_lift_axis(line_axes(math.pi / 2))
    idle_from = next(e for e in f.elements if e[2].startswith("line up") and e[0] > f.element("line up")[0])[0]
    lever = lambda t: math.exp(-(t - idle_from) / AIRCRAFT.lag)
    given = CubicHermiteSpline(f.time, f.mass, np.gradient(f.mass, f.time))
    held("tail slide", f, start + 0.3, stop, lambda t: axes, lever, lambda t, rho, lever: -given(t, 1))


def pivot():
    f = Flown("pull to up at 6 g\nline up until 25 kt\npivot left power 25 %")
    start, _, _ = f.elements[-1]
    line = line_axes(math.pi / 2)

    def attitude(t):
        """Half a turn to the left about the line's z axis in 2.2 s: angle, rate and acceleration smooth."""
        u = min(max((t - start) / 2.2, 0), 1)
        angle = -math.pi * u**3 * (10 - 15 * u + 6 * u * u)
        c, s = math.cos(angle), math.sin(angle)
        return on_zero_lift_axis(line @ np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]]))

    lever = lambda t: 0.25 + 0.75 * math.exp(-(t - start) / AIRCRAFT.lag)
    given = CubicHermiteSpline(f.time, f.mass, np.gradient(f.mass, f.time))
    held("pivot", f, start, start + 2.2, attitude, lever, lambda t, rho, lever: -given(t, 1))


def turned(axis, angle):
    c, s = math.cos(angle), math.sin(angle)
    if axis == "x":
        return np.array([[1, 0, 0], [0, c, -s], [0, s, c]])
    return np.array([[c, 0, s], [0, 1, 0], [-s, 0, c]])


def own_angle(f, i, axis):
    """Angle by which the line's axes are turned about one of their own at a sample."""
    R = line_axes(math.pi / 2).T @ rotation(f.q[i]) @ turned("y", AIRCRAFT.alpha0).T
    return math.atan2(R[2, 1], R[1, 1]) if axis == "x" else math.atan2(R[0, 2], R[0, 0])


def turning(name, f, start, stop, axis, rate0, accel, throttle, fuel_flow):
    """Held on a vertical, turned about one of its axes by moments."""
    i, j = f.index(start), f.index(stop)
    line = line_axes(math.pi / 2)
    attitude = lambda angle: on_zero_lift_axis(line @ turned(axis, angle))

    def rhs(t, y):
        R = attitude(y[7])
        d = newton(f, lambda _: R, throttle, fuel_flow)(t, y[:7])
        return np.concatenate([d, [y[8], accel(R.T @ y[3:6], density(y[2]), y[8], throttle(t))]])

    y0 = np.concatenate([f.state(i), [own_angle(f, i, axis), rate0]])
    y = solve(rhs, f.time[i], y0, f.time[j]).y[:, -1]
    compare_state(name, f, i, j, y)
    compare(name, "angle", math.remainder(y[7] - own_angle(f, j, axis), 2 * math.pi), 0, 1)


def torque_roll():
    f = Flown("pull to up at 6 g\nline up until 15 kt\ntorque-roll left 3 rolls", height=500.0)
    start, _, _ = f.elements[-1]
    rate = f.rate[f.index(start + 0.5)] @ turned("y", AIRCRAFT.alpha0).T @ np.array([1.0, 0, 0])
    turning("torque roll", f, start + 0.5, start + 5, "x", rate,
            lambda v_B, rho, rate, lever: AIRCRAFT.roll_accel(lever, rho, v_B[0], rate), lambda t: 1.0,
            full_fuel)  # fmt: skip


def fall():
    f = Flown("pull to up at 6 g\nline up until 40 kt\npower idle\nline up until 20 kt\nslide 120 m\n"
              "fall wheels-up", height=500.0)  # fmt: skip
    start, _, _ = f.elements[-1]
    idle_from = next(e for e in f.elements if e[2].startswith("line up") and e[0] > f.element("line up")[0])[0]
    lever = lambda t: math.exp(-(t - idle_from) / AIRCRAFT.lag)
    given = CubicHermiteSpline(f.time, f.mass, np.gradient(f.mass, f.time))
    i = f.index(start + 0.7)
    turning("fall", f, start + 0.7, start + 2.6, "y", f.rate[i][1],
            lambda v_B, rho, rate, lever: AIRCRAFT.pitch_accel(v_B, rho, rate, lever), lever,
            lambda t, rho, lever: -given(t, 1))  # fmt: skip


def forward(name, text, **start):
    """The engine's attitude flown forward by Newton's law, element by element."""
    f = Flown(text, **start)
    q = f.q.copy()
    for i in range(1, len(q)):
        if np.dot(q[i], q[i - 1]) < 0:
            q[i] = -q[i]
    p, r, s = f.rate.T
    w, x, y, z = q.T
    dq = 0.5 * np.column_stack([-x * p - y * r - z * s, w * p + y * s - z * r, w * r - x * s + z * p,
                                w * s + x * r - y * p])  # fmt: skip
    attitude = CubicHermiteSpline(f.time, q, dq)
    lever = CubicHermiteSpline(f.time, f.power, np.gradient(f.power, f.time))
    mass = CubicHermiteSpline(f.time, f.mass, np.gradient(f.mass, f.time))
    for start_s, stop_s, label in f.elements:
        if stop_s - start_s < 0.05:
            continue
        i, j = f.index(start_s), f.index(stop_s)
        rhs = newton(f, lambda t: rotation(attitude(t)), lever, lambda t, rho, lever: -mass(t, 1))
        done = solve(rhs, f.time[i], f.state(i), f.time[j], max_step=0.04)
        compare_state(f"{name}: {label}", f, i, j, done.y[:, -1])


def main():
    laws()
    whole_figures()
    print(f"worst {worst_miss:.1e}, {len(FAILED)} too far apart")
    return 1 if FAILED else 0


def laws():
    for law in (coast, forty_five, level_and_knife_edge, load_arc, radius_loop, level_turn, slide, pivot, fall,
                torque_roll):
        law()


def whole_figures():
    forward("hammerhead", """
        line level 60 m
        pull to up at 6 g
        line up until 25 kt with 1/4 roll left
        pivot left power 25 %
        line down 150 m
        pull to level at 5 g""")
    forward("half Cuban", """
        line level 80 m
        pull 225 deg radius 118 m
        line 45 deg down 200 m with 1/2 roll left
        pull to level at 5 g""", wind=(3.0, -9.0))
    forward("tail slide", """
        pull to up at 5.8 g
        line up until 60 kt
        power idle
        line up until 20 kt
        slide 110 m
        fall wheels-up
        line down 60 m
        power full
        pull to level at 5 g""", height=500.0)
    forward("points, turn", """
        line level 330 m with 4 of 4 points right
        line level 100 m
        turn right 120 deg bank 65 deg
        line level 300 m with 1 roll left at 80 deg/s
        push 90 deg radius 140 m""", height=700.0)


if __name__ == "__main__":
    PROGRAM, AIRCRAFT_FILE = sys.argv[1:3]
    AIRCRAFT = Aircraft(AIRCRAFT_FILE)
    FAILED = []
    sys.exit(main())
