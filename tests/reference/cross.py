"""A second method with nothing in common: fixed cells, small explicit steps, water counted cell by cell."""

import csv
from pathlib import Path

import heat
import numpy as np


def explicit(case, dx_mm, t_end_s):
    mt, n, k = heat.METALS[case["metal"]], case["n"], 0.61
    m = case["moisture_pct_wet"] / 100
    full = 1500 * m / (1 - m)
    a = (n + 1) * 0.01
    nm = 15 * (n + 1)
    rm = np.linspace(0, a, nm + 1)
    ns = round(min(case["wall_mm"], 90.0) / dx_mm)
    rs = a + np.arange(ns + 1) * dx_mm / 1e3
    vm, vs = np.diff(rm ** (n + 1)) / (n + 1), np.diff(rs ** (n + 1)) / (n + 1)
    am, asand = rm**n, rs**n
    dm, ds = rm[1], dx_mm / 1e3
    span = mt["liq"] - mt["sol"]
    h1 = mt["rho"] * mt["cs"] * mt["sol"]
    h2 = h1 + mt["rho"] * ((mt["cs"] + mt["cl"]) / 2 * span + mt["latent"])
    hx = [h1 - mt["rho"] * mt["cs"] * 3000, h1, h2, h2 + mt["rho"] * mt["cl"] * 3000]
    tx = [mt["sol"] - 3000, mt["sol"], mt["liq"], mt["liq"] + 3000]
    h = np.full(nm, np.interp(mt["pour"], tx, hx))
    t = np.full(ns, 20.0)
    water = np.full(ns, full)
    contact = case["contact_w_m2k"]
    joint = 1 / (dm / 2 / mt["k"] + ds / 2 / k + (0 if contact == "perfect" else 1 / contact))
    skin = 1 / (ds / 2 / k + 1 / 10)
    dt = 0.4 * min(dm**2 * mt["rho"] * mt["cs"] / mt["k"], ds**2 * 1500 * 1130 / k)
    now, freeze, mid2, d350 = 0.0, None, None, 0.0
    rc = (rs[1:] + rs[:-1]) / 2 - a
    step = 0
    while now < t_end_s:
        tm = np.interp(h, hx, tx)
        fm = np.zeros(nm + 1)
        fm[1:-1] = mt["k"] / dm * (tm[:-1] - tm[1:]) * am[1:-1]
        fs = np.empty(ns + 1)
        fs[1:-1] = k / ds * (t[:-1] - t[1:]) * asand[1:-1]
        fm[-1] = fs[0] = joint * (tm[-1] - t[0]) * am[-1]
        fs[-1] = skin * (t[-1] - 20) * asand[-1]
        h += dt * (fm[:-1] - fm[1:]) / vm
        t += dt * (fs[:-1] - fs[1:]) / vs / (1500 * 1130 + 4180 * water)
        over = (t > 100) & (water > 0)
        if over.any():
            spare = (t[over] - 100) * (1500 * 1130 + 4180 * water[over])
            gone = np.minimum(spare / 2.257e6, water[over])
            water[over] -= gone
            t[over] = 100 + (spare - gone * 2.257e6) / (1500 * 1130 + 4180 * water[over])
        now += dt
        step += 1
        if freeze is None and h[0] < h1:
            freeze = now
        if freeze and mid2 is None and now >= 2 * freeze:
            mid2 = tm[0]
        if step % 20 == 0 and now > 30:
            d350 = max(d350, heat.deepest(rc, t, 350.0))
    return freeze, mid2, float(np.sum(1 - water / full)) * dx_mm if full else None, d350 * 1e3


def main():
    rows = {}
    with Path("heat.csv").open() as f:
        for r in csv.DictReader(f):
            rows[r["metal"], float(r["moisture_pct_wet"]), int(r["n"]), r["contact_w_m2k"], float(r["wall_mm"])] = r
    for metal, m, n, contact, wall, t_end in (
        ("grey_iron", 6.0, 2, 500.0, 250.0, 9000),
        ("tin_bronze", 6.0, 1, "perfect", 250.0, 9000),
        ("tin_bronze", 3.5, 2, "perfect", 40.0, 8000),
    ):
        r = rows[metal, m, n, str(contact), wall]
        case = {"metal": metal, "moisture_pct_wet": m, "n": n, "contact_w_m2k": contact, "wall_mm": wall}
        for dx in (1.0, 0.5):
            got = explicit(case, dx, t_end)
            want = [float(r[c]) for c in ("freeze_s", "middle_c_at_2x_freeze", "dry_depth_mm", "depth_350_mm")]
            print(
                metal,
                m,
                n,
                contact,
                wall,
                f"{dx} mm:",
                *(f"{g:.5g} / {w:.5g}" for g, w in zip(got, want, strict=False)),
                flush=True,
            )


if __name__ == "__main__":
    main()
