#!/usr/bin/python3
"""The engine beside general-purpose solvers on the same equations: GSL inside lobewise_peers, SciPy here.

    tools/build.sh release lobewise_peers && bench/peers/peers.py build/release/bin/lobewise_peers

Every peer must find the engine's answer, or the script fails; then it prints times and ratios. Needs python3-scipy.
"""
import json
import subprocess
import sys
import time

import numpy as np
from scipy.optimize import minimize, root

PI = np.pi
# The stage of peers.cc: 17 lobes, 2 discs, 10 output pins [m], steel.
N, R, r, e, b, PINS, Rw, rw, clearance, roller_offset, radius_offset = (
    17, 0.080, 0.007, 0.003, 0.014, 10, 0.050, 0.008, 1e-5, 5e-6, -5e-6)
Z, R_cut, r_cut, r_hole = N + 1, R + radius_offset, r + roller_offset, rw + e + clearance
E, NU, DEPTH = 206e9, 0.3, 0.014


def force(delta, rho, radius):
    """Inverse of the log law, Newton on all contacts together."""
    A = (1 - NU**2) / (PI * E * b)
    s = 4 * rho / (PI * E / (2 * (1 - NU**2)) * b)
    C = 2 * np.log(2 * DEPTH) + 2 * np.log(4 * radius) - NU / (1 - NU) - 1 - 2 * np.log(s)
    F = delta / (A * 14)
    for _ in range(12):
        F = F + (delta - A * F * (C - 2 * np.log(F))) / (A * (C - 2 * np.log(F) - 2))
    return F


def stage_moments(x, phi):
    """Level l2: moments of both discs and of the output, for rotations x [0.1 mrad], over the torque."""
    theta = 2 * PI * np.arange(Z) / Z
    out = np.array([0.0, 0.0, -1.0])
    for d in range(2):
        f, beta = phi + PI * d, 1e-4 * x[d]
        t = theta + f / N
        q = (R * np.exp(1j * t) - e * np.exp(1j * Z * t)) * np.exp(-1j * beta)
        foot = np.zeros(Z)
        for _ in range(8):
            ray, lobe = np.exp(1j * (t + foot)), np.exp(1j * Z * (t + foot))
            D = q - R_cut * ray + e * lobe
            w1, w2 = 1j * (R_cut * ray - e * Z * lobe), e * Z**2 * lobe - R_cut * ray
            foot = foot + (D * w1.conj()).real / (abs(w1) ** 2 - (D * w2.conj()).real)
        K = e * Z / R_cut
        m = K * lobe - ray
        n = m / abs(m)
        gap = roller_offset - (n * D.conj()).real
        k0 = (1 + K**2 * Z - K * (Z + 1) * (ray * lobe.conj()).real) / (R_cut * abs(m) ** 3)
        rho = (1 - r_cut * k0) / ((1 - r_cut * k0) / r + k0)
        on = gap < 0
        F = force(-gap[on], rho[on], r)
        out[d] += (F * (q.conj() * n).imag[on]).sum() / TORQUE
        ideal = Rw * np.exp(1j * (2 * PI * np.arange(PINS) / PINS - phi / N))
        pin, hole = ideal * np.exp(1e-4j * x[2]), ideal * np.exp(1j * beta)
        apart = pin - hole - e * np.exp(1j * f)
        gap = clearance + e - abs(apart)
        on = gap < 0
        v = (apart / abs(apart))[on]
        F = force(-gap[on], 1 / (1 / rw - 1 / r_hole), rw)
        out[d] += (F * (hole[on].conj() * v).imag).sum() / TORQUE
        out[2] += (F * (pin[on].conj() * v).imag).sum() / TORQUE
    return out


def seconds(run):
    start = time.process_time()
    answer = run()
    return time.process_time() - start, answer


def contact_problem(problem):
    """Level l4 with gaps linear in the pose: least complementary energy of the contact forces that balance."""
    C, D = np.array(problem["C"]), np.array(problem["rate"])
    delta, p, w = (np.array(problem[key]) for key in ("delta", "p", "w"))
    C = (C + C.T) / 2
    scale = problem["torque"] / (R * 4)
    D = D / np.array([1, 1, R, R])
    load = np.array([0, 0, 0, problem["torque"] / R])
    unit = 1 / (p[0] * scale**2)

    def energy(x):
        F = np.maximum(x, 1e-9) * scale
        own = F**2 * (0.5 * p - w * (0.5 * np.log(F) - 0.25))
        law = F * (p - w * np.log(F))
        return unit * (0.5 * F @ C @ F + own.sum() - delta @ F), unit * scale * (C @ F + law - delta)

    balance = {"type": "eq", "fun": lambda x: (D.T @ x * scale - load) / scale, "jac": lambda x: D.T}
    found = minimize(energy, np.full(len(p), 0.3), jac=True, method="SLSQP", bounds=[(0, None)] * len(p),
                     constraints=[balance], options={"maxiter": 500, "ftol": 1e-12})
    return found, np.maximum(found.x, 0) * scale


def main():
    global TORQUE
    data = json.loads(subprocess.run([sys.argv[1]], check=True, capture_output=True, text=True).stdout)
    rigid, kernels = data["rigid"], data["kernels"]
    TORQUE = rigid["torque"]
    rotations = rigid["output_rotation"]
    assert rigid["gsl_failed"] == 0 and rigid["gsl_differs"] < 1e-8, "GSL"

    def scipy_cycle():
        x = 1e4 * np.array(rigid["first"])
        found = []
        for i in range(len(rotations)):
            solution = root(stage_moments, x, args=(2 * PI / Z * i / len(rotations),), method="hybr", tol=1e-10)
            x = solution.x
            found.append(1e-4 * x[2])
        return found

    t_scipy, found = seconds(scipy_cycle)
    differs = max(abs(a / b - 1) for a, b in zip(found, rotations))
    assert differs < 1e-8, f"SciPy differs by {differs}"
    ours = rigid["engine_seconds"]
    print(f"rigid discs (l2), {len(rotations)} crank angles, {N} lobes, two discs")
    print(f"  engine                        {1e3 * ours:9.3f} ms")
    print(f"  GSL hybrids, engine's gaps    {1e3 * rigid['gsl_seconds']:9.3f} ms   {rigid['gsl_seconds'] / ours:7.1f} x, differs {rigid['gsl_differs']:.0e}")
    print(f"  SciPy root (NumPy throughout) {1e3 * t_scipy:9.3f} ms   {t_scipy / ours:7.0f} x, differs {differs:.0e}")

    ours = theirs = worst = 0
    for problem in data["bending"]:
        t, (solution, forces) = seconds(lambda: contact_problem(problem))
        assert solution.success, solution.message
        engine = np.array(problem["force"])
        worst = max(worst, abs(forces - engine).max() / engine.max())
        ours, theirs = ours + problem["engine_seconds"], theirs + t
    assert worst < 0.01, f"SciPy differs by {worst}"
    count = len(data["bending"])
    print(f"bending disc (l4), one crank angle, {N} lobes, {PINS} pins, 16 bearing rollers, influences given")
    print(f"  engine, placed anew and cold  {1e3 * ours / count:9.3f} ms   influences, sliding and exact gaps included")
    print(f"  SciPy SLSQP, convex problem   {1e3 * theirs / count:9.3f} ms   {theirs / ours:7.0f} x, largest difference {100 * worst:.2f} % of the largest force")
    print("kernels on one core")
    print(f"  gaps                          {kernels['gaps_per_second'] / 1e6:9.1f} million a second")
    print(f"  log laws inverted             {kernels['laws_per_second'] / 1e6:9.1f} million a second")
    print(f"  multiply and add, 128 bit     {kernels['flops_per_second'] / 1e9:9.1f} Gflop/s")


if __name__ == "__main__":
    main()
