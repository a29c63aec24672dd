"""The solver compared with solutions in closed form, and with itself on a doubled grid."""

import heat
import numpy as np
from scipy.optimize import brentq, fsolve
from scipy.special import erf, erfc

ENDLESS = {"rho": 1e11, "cs": 1000.0, "cl": 1000.0, "latent": 0.1, "sol": 50.0, "liq": 51.0, "k": 1e9, "pour": 660.0}
SLOW = {
    "rho": 7200.0,
    "cs": 750.0,
    "cl": 850.0,
    "latent": 230e3,
    "sol": 1200.0,
    "liq": 1200.0,
    "k": 35.0,
    "pour": 1250.0,
}
K, CD = 0.61, 1500 * 1130.0


def wet(moisture):
    w = moisture / (100 - moisture)
    return 1500 * (1130 + 4180 * w), 1500 * w


def fixed_face(tf, moisture):
    """Front factor (mm / sqrt(s)) of deep damp sand under a fixed face."""
    cw, water = wet(moisture)
    ad, aw = K / CD, K / cw

    def gap(lam):
        dry = K * (tf - 100) * np.exp(-(lam**2) / ad) / np.sqrt(np.pi * ad) / erf(lam / np.sqrt(ad))
        damp = K * 80 * np.exp(-(lam**2) / aw) / np.sqrt(np.pi * aw) / erfc(lam / np.sqrt(aw))
        return dry - damp - water * 2.257e6 * lam

    return 2e3 * brentq(gap, 1e-6, 1.5e-3)


def frozen_slab(m, moisture):
    """Contact (°C), freezing and drying factors (mm / sqrt(s)): solid, liquid, dry and wet, all deep."""
    al_s, al_l = m["k"] / m["rho"] / m["cs"], m["k"] / m["rho"] / m["cl"]
    cw, water = wet(moisture)
    ad, aw = K / CD, K / cw

    def gaps(u):
        tc, phi, lam = u[0] * 1e3, u[1] * 1e-3, u[2] * 1e-3
        solid = m["k"] * (m["sol"] - tc) / np.sqrt(np.pi * al_s) / erf(phi / np.sqrt(al_s))
        liquid = m["k"] * (m["pour"] - m["sol"]) / np.sqrt(np.pi * al_l) / erfc(phi / np.sqrt(al_l))
        if moisture:
            dry = K * (tc - 100) / np.sqrt(np.pi * ad) / erf(lam / np.sqrt(ad))
            damp = K * 80 / np.sqrt(np.pi * aw) / erfc(lam / np.sqrt(aw))
            third = dry * np.exp(-(lam**2) / ad) - damp * np.exp(-(lam**2) / aw) - water * 2.257e6 * lam
        else:
            dry = K * (tc - 20) / np.sqrt(np.pi * ad)
            third = u[2] * 1e3
        first = solid * np.exp(-(phi**2) / al_s) - liquid * np.exp(-(phi**2) / al_l) - m["rho"] * m["latent"] * phi
        return [first / 1e4, (solid - dry) / 1e4, third / 1e4]

    u, _, ok, why = fsolve(gaps, [m["sol"] / 1e3 - 0.02, 0.3, 0.5], full_output=True, xtol=1e-12)
    assert ok == 1, why
    return u[0] * 1e3, 2 * u[1], 2 * u[2]


def row(name, got, want):
    print(f"{name:62s} {got:12.5f} {want:12.5f} {100 * (got / want - 1):+8.4f} %", flush=True)


def main():
    for g in (1, 2):
        print("grid", g)
        for moisture in (3.5, 6.0):
            case = {
                "metal": ENDLESS,
                "moisture_pct_wet": moisture,
                "n": 0,
                "modulus_mm": 10,
                "contact_w_m2k": 1e7,
                "wall_mm": 250,
            }
            for t in (10.0, 1000.0):
                r = heat.solve(case | {"t_end_s": t, "grid": g})
                row(
                    f"drying front, face 660 C, {moisture} %, {t:g} s (mm/sqrt s)",
                    r["dry_depth_mm"] / t**0.5,
                    fixed_face(660.0, moisture),
                )
        for moisture in (0.0, 3.5):
            tc, phi, lam = frozen_slab(SLOW, moisture)
            case = {
                "metal": SLOW,
                "moisture_pct_wet": moisture,
                "n": 0,
                "modulus_mm": 800,
                "contact_w_m2k": 1e7,
                "wall_mm": 250,
                "metal_crowding": 3.0,
                "metal_grid": 4 * g,
            }
            r = heat.solve(case | {"t_end_s": 1500.0, "grid": g})
            mo, y = r["end_state"]
            th = y[: mo.nm]
            lo, hi = mo.hx[1], mo.hx[2]
            front = np.sum(np.clip((hi - th) / (hi - lo), 0, 1) * mo.vm) * 1e3
            row(f"freezing front, {moisture} %, 1500 s (mm/sqrt s)", front / 1500**0.5, phi)
            row(f"  contact temperature, {moisture} % (C)", mo.edges(y)[5], tc)
            if moisture:
                row(f"  drying front, {moisture} % (mm/sqrt s)", r["dry_depth_mm"] / 1500**0.5, lam)
        case = {"metal": ENDLESS, "moisture_pct_wet": 0, "n": 2, "modulus_mm": 10, "contact_w_m2k": 1e7, "wall_mm": 250}
        r = heat.solve(case | {"t_end_s": 1000.0, "grid": g})
        mo, y = r["end_state"]
        row(
            "ball at 660 C, dry, 1000 s, flow into sand (W/m2)",
            mo.edges(y)[4],
            K * 640 * (1 / 0.03 + 1 / np.sqrt(np.pi * K / CD * 1000)),
        )
        case = {"metal": ENDLESS, "moisture_pct_wet": 0, "n": 1, "modulus_mm": 10, "contact_w_m2k": 500, "wall_mm": 40}
        r = heat.solve(case | {"t_end_s": 2e5, "grid": g})
        mo, y = r["end_state"]
        row(
            "bar at 660 C, 40 mm wall, steady, flow into sand (W/m2)",
            mo.edges(y)[4],
            640 / (1 / 500 + 0.02 * np.log(3) / K + 0.02 / (10 * 0.06)),
        )
        case = {
            "metal": ENDLESS,
            "moisture_pct_wet": 3.5,
            "n": 1,
            "modulus_mm": 10,
            "contact_w_m2k": 500,
            "wall_mm": 40,
        }
        r = heat.solve(case | {"t_end_s": 2e5, "grid": g})
        mo, y = r["end_state"]
        row(
            "  the same from damp sand (dried through)",
            mo.edges(y)[4],
            640 / (1 / 500 + 0.02 * np.log(3) / K + 0.02 / (10 * 0.06)),
        )
        print("    dry depth", r["dry_depth_mm"])


if __name__ == "__main__":
    main()
