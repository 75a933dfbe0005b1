"""Aerodynamics and power of an aircraft file, as engine/fly/aero.h and power.h define them, and the
standard atmosphere (ICAO Doc 7488/3). Written from those definitions, not from the engine's code."""

import math
import sys
import tomllib

import numpy as np
from scipy.optimize import brentq, minimize_scalar

G0 = 9.80665
KNOT = 1852 / 3600
UNITS = {
    "kg": 1, "m": 1, "m2": 1, "kg m2": 1, "N m": 1, "l": 1e-3, "kg/l": 1e3, "/rad": 1, "deg": math.pi / 180, "s": 1,
    "kW": 1e3, "rpm": math.pi / 30, "%": 0.01, "kg/kWh": 1 / 3.6e6, "l/h": 1e-3 / 3600, "g": 1, "g/s": 1,
    "kt": KNOT, "m/s": 1, "deg/s": math.pi / 180, "rad/s2": 1, "K": 1,
}  # fmt: skip


def read_quantities(table):
    out = {}
    for key, value in table.items():
        if isinstance(value, dict):
            out.update({(key, k): v for k, v in read_quantities(value).items()})
        elif isinstance(value, str) and " " in value and value.split(" ", 1)[1] in UNITS:
            number, unit = value.split(" ", 1)
            out[key] = float(number) * UNITS[unit]
        else:
            out[key] = value
    return out


def density(height_m):
    """ICAO standard atmosphere below 11 km."""
    temperature = 288.15 - 0.0065 * height_m
    pressure = 101325 * (temperature / 288.15) ** (G0 / (287.05287 * 0.0065))
    return pressure / (287.05287 * temperature)


class Aircraft:
    """Coefficients of aero.h, power of power.h."""

    def __init__(self, file):
        with open(file, "rb") as f:
            t = read_quantities(tomllib.load(f))
        aero = {k[1]: v for k, v in t.items() if k[0] == "aero"}
        power = {k[1]: v for k, v in t.items() if k[0] == "power"}
        self.area = t["geometry", "wing_area"]
        self.slope, self.alpha0 = aero["lift_slope"], aero["zero_lift_aoa"]
        self.cd0, self.k = aero["cd0"], aero["induced_k"]
        self.c, self.cy_max, self.kb = aero["side_force_slope"], aero["cy_max"], aero["sideslip_drag"]
        self.cn, self.cd_tail = aero["cn_plate"], aero["cd_tail_first"]
        self.upper = self.lower = None
        self.upper = self.place_stall(aero["cl_max"], +1)
        self.lower = self.place_stall(aero["cl_min"], -1)
        self.inertia = {k[1]: v for k, v in t.items() if k[0] == "inertia"}
        self.rotation = {k[1]: v for k, v in t.items() if k[0] == "rotation"}
        self.span, self.propeller = t["geometry", "span"], power["propeller_diameter"]
        self.prop_speed = power["rated_speed"]
        self.max_power, self.idle = power["max_power"], power["idle_power"]
        self.disc = math.pi / 4 * power["propeller_diameter"] ** 2
        if power["static_merit"] != power["cruise_efficiency"]:
            sys.exit("the aircraft of this test has one propeller efficiency")
        self.efficiency = power["cruise_efficiency"]
        self.windmill = power["windmill_drag_area"]
        self.lag = power["throttle_lag"]
        self.bsfc = power["bsfc_full"]

    WIDTH = 12 * math.pi / 180  # over which the lift curve goes from its line to the plate

    def share(self, x, upper, lower):
        u = (x - upper) / self.WIDTH if x > upper else (lower - x) / self.WIDTH if x < lower else 0
        u = min(max(u, 0), 1)
        return u**3 * (10 - 15 * u + 6 * u * u)

    def curve(self, alpha, upper, lower):
        s = self.share(alpha - self.alpha0, upper, lower)
        line = self.slope * (alpha - self.alpha0)
        return (1 - s) * line + s * self.cn * math.sin(alpha) * math.cos(alpha), s

    def place_stall(self, wanted, sign):
        """Where the curve must leave its line for its peak to be 2 % above what is held."""

        def peak(edge):
            upper, lower = (edge, -9) if sign > 0 else (9, -edge)
            found = minimize_scalar(
                lambda x: -sign * self.curve(self.alpha0 + sign * x, upper, lower)[0],
                bounds=(edge, edge + self.WIDTH), method="bounded", options={"xatol": 1e-10},
            )  # fmt: skip
            return -found.fun

        edge = brentq(lambda e: peak(e) - 1.02 * abs(wanted), 0.01, 0.6, xtol=1e-12)
        return sign * edge

    def coefficients(self, alpha, beta):
        lift, s = self.curve(alpha, self.upper, self.lower)
        plate, across = s * self.cn * math.sin(alpha), math.cos(beta) ** 2
        lift -= plate * math.cos(alpha) * math.sin(beta) ** 2
        fair = 1.0
        if across < 0.25:  # beyond 60 deg of sideslip the lift curve's line and the side force fade out
            u = across / 0.25
            fair = u**3 * (10 - 15 * u + 6 * u * u)
            lift -= (1 - s) * self.slope * (alpha - self.alpha0) * (1 - fair)
        drag = self.cd0 + (1 - s) * self.k * lift**2 + plate * math.sin(alpha) * math.cos(beta) ** 2
        drag += self.kb * math.sin(beta) ** 2
        if math.cos(alpha) < 0:
            drag += (self.cd_tail - self.cd0) * (math.cos(alpha) * math.cos(beta)) ** 4
        y = self.c * math.sin(beta)
        return lift, drag, -fair * y / math.sqrt(1 + (y / self.cy_max) ** 2)

    def shaft_power(self, throttle, rho):
        setting = self.idle + (1 - self.idle) * throttle
        return setting * self.max_power * (1.132 * rho / 1.225 - 0.132)

    @staticmethod
    def disc_speed(forward):
        # Backwards the disc works as at rest; between rest and 1 m/s a quartic joins the two, to half
        # a metre a second (value, slope and curvature continuous).
        if forward >= 0:
            return forward
        u = max(forward + 1, 0)
        return u**3 * (1 - forward) / 2 - 0.5 if u > 0 else -0.5

    def thrust(self, throttle, rho, forward):
        power = self.efficiency * self.shaft_power(throttle, rho)
        v, disc = self.disc_speed(forward), 2 * rho * self.disc
        # eta P = T (V/2 + sqrt(V^2/4 + T/(2 rho A))), Glauert's disc, by Newton from the static value.
        force = (disc * power**2) ** (1 / 3)
        for _ in range(60):
            root = math.sqrt(v * v / 4 + force / disc)
            step = (force * (v / 2 + root) - power) / (v / 2 + root + force / (2 * disc * root))
            force -= step
            if abs(step) < 1e-14 * force:
                break
        return force - 0.5 * rho * self.windmill * (1 - throttle) ** 2 * forward * abs(forward)

    def roll_accel(self, throttle, rho, forward, rate):
        """Roll by the propeller's torque, which turns clockwise: torque, inertia, damping by the wind along
        the wing's whole span and by what the propeller adds over its own breadth."""
        torque = self.rotation["net_torque"] * self.shaft_power(throttle, rho) / self.prop_speed
        ahead = max(forward, 0)
        push = max(self.thrust(throttle, rho, forward), 0) / (2 * rho * self.disc)
        added = 2 * (math.sqrt(ahead * ahead / 4 + push) - ahead / 2)
        wide = self.span**2 * abs(forward) + (self.propeller / self.span) * self.propeller**2 * added
        damping = 0.25 * rho * self.rotation["roll_damping"] * self.area * wide
        return (-torque - damping * rate) / self.rotation["roll_inertia"]

    def pitch_accel(self, velocity_B, rho, rate, throttle):
        """Pitch by the tail, a plate that meets the pitch rate too, and by the wing behind the middle."""
        u, _, w = velocity_B
        i = self.inertia
        w_tail = w + rate * i["tail_arm"]
        speed = math.hypot(u, w_tail)
        line = i["tail_lift_slope"] * w_tail / speed
        tail = 0.5 * rho * speed**2 * i["tail_area"] * line / math.sqrt(1 + (line / self.cn) ** 2)
        normal = -self.force_B(velocity_B, rho, throttle)[2]
        return (-tail * i["tail_arm"] - normal * i["static_margin"]) / i["pitch_inertia"]

    def force_B(self, velocity_B, rho, throttle):
        u, v, w = velocity_B
        alpha, beta = math.atan2(w, u), math.atan2(v, math.hypot(u, w))
        lift, drag, side = self.coefficients(alpha, beta)
        qs = 0.5 * rho * (u * u + v * v + w * w) * self.area
        ca, sa, cb, sb = math.cos(alpha), math.sin(alpha), math.cos(beta), math.sin(beta)
        x_W = np.array([ca * cb, sb, sa * cb])
        y_W = np.array([-ca * sb, cb, -sa * sb])
        z_W = np.array([-sa, 0, ca])
        force = qs * (-drag * x_W + side * y_W - lift * z_W)
        force[0] += self.thrust(throttle, rho, u)
        return force
