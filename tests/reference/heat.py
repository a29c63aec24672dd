"""Transient heat from a casting into damp sand: a reference by front tracking.

Method. Finite volumes in one coordinate, area as r**n. The metal is solved by enthalpy on fixed cells, finer toward
the contact. The damp sand is two blocks, dry and wet, with a sharp front at 100 C between them that moves by its own
heat balance; the cells of both blocks move with it and carry their heat exactly. When the flow into the front turns
negative, the front stops and its temperature is free to fall; it starts again when it is back at 100 C. A stiff solver
advances time (BDF, relative tolerance 1e-6). Perfect contact starts from the similarity layer 0.05 mm deep; a contact
of h starts from cold sand, and a dry skin of 0.001 mm is set when the face reaches 100 C. A wall with 0.02 mm left wet
counts as dried through.

Measured accuracy (check.py, table.py, cross.py), grid 2 unless stated:
- drying under a fixed 660 C face, against the closed form 1.08343 mm/sqrt(s) (3.5 %) and 0.98158 (6 %), at 10 s and
  1000 s: within 0.001 %;
- freezing of a deep pure metal on deep sand, four zones, 400 metal cells: freezing front within 0.05 % (0.17 % on
  100), drying
  front within 0.001 %, contact within 0.05 C;
- ball at a fixed 660 C in deep dry sand, flow against k dT (1/a + 1/sqrt(pi alpha t)) at 1000 s: 0.008 %; bar in a
  40 mm wall, steady flow: 0.001 %, from dry sand or from damp sand that dried through;
- known figures, aluminium plate, 10 mm, perfect, deep: freezes in 297.3 s dry and 247.8 s at 3.5 %; 350 C reaches
  12.06 and 9.53 mm;
- all 126 cases, grid 1 against grid 2: no result changes by more than 0.054 %, except for aluminium in perfect contact;
  there depth_638_mm changes most, by 0.02 to 0.23 % (never more than 0.0005 mm);
- heat is conserved within 0.0013 %, except for walls dried through, where the last 0.02 mm costs up to 0.042 %;
- a second method (fixed cells, explicit steps, water counted cell by cell) on three damp bars and balls: freezing
  within 0.05 %, 350 C depth within 0.01 %, dry depth 0.2 to 0.3 % more with 0.5 mm cells, less as the cells are halved.
"""

import os

os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from scipy.optimize._numdiff import group_columns
from scipy.sparse import csc_matrix, lil_matrix
from scipy.special import erf, erfc

BOIL_C = 100.0
ROOM_C = 20.0
OUTER_W_M2K = 10.0
WATER_C_J_KGK = 4180.0
STEAM_J_KG = 2.257e6
SEED_M = 1e-6
SAND = {"rho_kg_m3": 1500.0, "c_j_kgk": 1130.0, "k_w_mk": 0.61}
METALS = {
    "aluminium": {
        "rho": 2700.0,
        "cs": 1050.0,
        "cl": 1180.0,
        "latent": 397e3,
        "sol": 660.0,
        "liq": 660.0,
        "k": 200.0,
        "pour": 720.0,
    },
    "al_si7mg": {
        "rho": 2680.0,
        "cs": 963.0,
        "cl": 1180.0,
        "latent": 389e3,
        "sol": 557.0,
        "liq": 613.0,
        "k": 167.0,
        "pour": 720.0,
    },
    "tin_bronze": {
        "rho": 8700.0,
        "cs": 430.0,
        "cl": 480.0,
        "latent": 190e3,
        "sol": 880.0,
        "liq": 1000.0,
        "k": 60.0,
        "pour": 1150.0,
    },
    "grey_iron": {
        "rho": 7200.0,
        "cs": 750.0,
        "cl": 850.0,
        "latent": 230e3,
        "sol": 1150.0,
        "liq": 1200.0,
        "k": 35.0,
        "pour": 1380.0,
    },
}


def one_sided(d1, d2):
    """Weights of a parabola's slope at a face, from the values at d1 and d2 beyond it."""
    return d2 / (d1 * (d2 - d1)), d1 / (d2 * (d2 - d1))


def stretched(count, first, total):
    """Faces from 0 to 1 in geometric growth, the first step `first / total`."""
    goal = total / first
    if goal <= count * 1.0001:
        return np.linspace(0.0, 1.0, count + 1)
    g = brentq(lambda x: (x**count - 1) / (x - 1) - goal, 1.0000001, 3.0)
    f = (g ** np.arange(count + 1) - 1) / (g - 1) / goal
    f[-1] = 1.0
    return f


def similarity(metal, tp, water_kg_m3, c_dry, c_wet, k):
    """Contact temperature (°C) and front factor s / sqrt(t) (m / sqrt(s)) of liquid metal on sand, both deep."""
    em = np.sqrt(metal["k"] * metal["rho"] * metal["cl"])
    if water_kg_m3 == 0:
        es = np.sqrt(k * c_dry)
        return (em * tp + es * ROOM_C) / (em + es), 0.0
    ad, aw = k / c_dry, k / c_wet

    def contact(lam):
        u = k / np.sqrt(ad) / erf(lam / np.sqrt(ad))
        return (em * tp + u * BOIL_C) / (em + u)

    def gap(lam):
        dry = k * (contact(lam) - BOIL_C) / np.sqrt(np.pi * ad) / erf(lam / np.sqrt(ad)) * np.exp(-(lam**2) / ad)
        wet = k * (BOIL_C - ROOM_C) / np.sqrt(np.pi * aw) / erfc(lam / np.sqrt(aw)) * np.exp(-(lam**2) / aw)
        return water_kg_m3 * STEAM_J_KG * lam - dry + wet

    lam = brentq(gap, 1e-6, 1.5e-3)
    return contact(lam), 2 * lam


class Model:
    def __init__(self, case):
        self.metal = dict(METALS[case["metal"]]) if isinstance(case["metal"], str) else dict(case["metal"])
        mt = self.metal
        self.tp = case.get("pour_temp_c", mt["pour"])
        self.n = case["n"]
        self.a = (self.n + 1) * case["modulus_mm"] / 1e3
        self.wall = case["wall_mm"] / 1e3
        contact = case["contact_w_m2k"]
        self.h = np.inf if contact == "perfect" else float(contact)
        m = case["moisture_pct_wet"] / 100
        w = m / (1 - m)
        rho, c, self.k = SAND["rho_kg_m3"], SAND["c_j_kgk"], SAND["k_w_mk"]
        self.cd, self.cw, self.water = rho * c, rho * (c + WATER_C_J_KGK * w), rho * w
        g = case.get("grid", 1.0)
        self.nm, self.nd, self.nw = int(50 * case.get("metal_grid", g)), int(50 * g), int(150 * g)
        x = np.linspace(0, 1, self.nm + 1)
        rm = self.a * (1 - (1 - x) ** case.get("metal_crowding", 1.8))
        self.rm = rm
        self.am = rm[1:-1] ** self.n
        self.vm = np.diff(rm ** (self.n + 1)) / (self.n + 1)
        cm = (rm[1:] + rm[:-1]) / 2
        self.dm = np.diff(cm)
        self.gm = mt["k"] / (self.a - cm[-1])
        self.xi = np.linspace(0, 1, self.nd + 1)
        self.eta = stretched(self.nw, 4e-6 / g, self.wall)
        span = mt["liq"] - mt["sol"]
        th2 = mt["sol"] + ((mt["cs"] + mt["cl"]) / 2 * span + mt["latent"]) / mt["cs"]
        self.hx = np.array([-1e4, mt["sol"], th2, th2 + 1e4])
        self.tx = np.array([-1e4, mt["sol"], mt["liq"], mt["liq"] + 1e4 * mt["cs"] / mt["cl"]])
        self.mode = ""

    def temp(self, th):
        return np.interp(th, self.hx, self.tx)

    def theta(self, t):
        return np.interp(t, self.tx, self.hx)

    def blocks(self, s):
        """(faces, share of the front's speed at each face, volumetric heat) of the sand blocks of this mode."""
        a, wall = self.a, self.wall
        if self.mode == "wet":
            return [(a + self.eta * wall, None, self.cw)]
        if self.mode == "dry":
            return [(a + self.eta * wall, None, self.cd)]
        if self.mode == "dried":
            return [(a + self.xi * wall, None, self.cd)]
        return [
            (a + self.xi * s, self.xi, self.cd),
            (a + s + self.eta * (wall - s), 1 - self.eta, self.cw),
        ]

    def split(self, y):
        """Metal state, sand block temperatures, front depth (m)."""
        nm = self.nm
        if self.mode in ("wet", "dry", "dried"):
            return y[:nm], [y[nm:-2]], y[-2] / 1e3
        return y[:nm], [y[nm : nm + self.nd], y[nm + self.nd : -2]], y[-2] / 1e3

    def edges(self, y):
        """Everything at the interfaces: blocks, face heat flow (W/m²) and temperature, front flows, temperature, speed."""
        th, ts, s = self.split(y)
        bl = self.blocks(s)
        k = self.k
        r1, t1 = bl[0][0], ts[0]
        c1, c2 = one_sided((r1[1] - r1[0]) / 2, (r1[1] + r1[2]) / 2 - r1[0])
        big, b = k * (c1 - c2), k * (c1 * t1[0] - c2 * t1[1])
        u = 1 / (1 / self.gm + 1 / self.h)
        tmetal = self.temp(th[-1])
        tf = (u * tmetal + b) / (u + big)
        q0 = u * (tmetal - tf)
        qd = qw = v = 0.0
        tfront = np.nan
        if len(bl) == 2:
            r2, t2 = bl[1][0], ts[1]
            e1, e2 = one_sided((r1[-1] - r1[-2]) / 2, r1[-1] - (r1[-2] + r1[-3]) / 2)
            gd, bd = k * (e1 - e2), k * (e1 * t1[-1] - e2 * t1[-2])
            f1, f2 = one_sided((r2[1] - r2[0]) / 2, (r2[1] + r2[2]) / 2 - r2[0])
            gw, bw = k * (f1 - f2), k * (f1 * t2[0] - f2 * t2[1])
            tfront = BOIL_C if self.mode == "moving" else (bd + bw) / (gd + gw)
            qd, qw = bd - gd * tfront, gw * tfront - bw
            if self.mode == "moving":
                v = (qd - qw) / (self.water * STEAM_J_KG)
        return th, ts, s, bl, q0, tf, qd, qw, tfront, v

    def rhs(self, _t, y):
        th, ts, _s, bl, q0, tf, qd, qw, tfront, v = self.edges(y)
        n, k, mt = self.n, self.k, self.metal
        dy = np.zeros_like(y)
        tm = self.temp(th)
        fm = np.zeros(self.nm + 1)
        fm[1:-1] = mt["k"] * (tm[:-1] - tm[1:]) / self.dm * self.am
        fm[-1] = q0 * self.a**n
        dy[: self.nm] = (fm[:-1] - fm[1:]) / self.vm / (mt["rho"] * mt["cs"])
        at = self.nm
        for i, (r, share, c) in enumerate(bl):
            t = ts[i]
            area = r**n
            vol = np.diff(r ** (n + 1)) / (n + 1)
            rc = (r[1:] + r[:-1]) / 2
            gap = np.diff(rc)
            q = np.empty(len(r))
            q[1:-1] = k * (t[:-1] - t[1:]) / gap
            q[0] = q0 if i == 0 else qw
            if i == len(bl) - 1:
                q[-1] = (t[-1] - ROOM_C) / ((r[-1] - rc[-1]) / k + 1 / OUTER_W_M2K)
                dy[-1] = q[-1] * area[-1]
            else:
                q[-1] = qd
            f = q * area
            net = f[:-1] - f[1:]
            if v != 0.0 and share is not None:
                face = np.empty(len(r))
                face[1:-1] = t[:-1] + (t[1:] - t[:-1]) * (r[1:-1] - rc[:-1]) / gap
                face[0] = tf if i == 0 else tfront
                face[-1] = tfront if i == 0 else t[-1]
                sweep = c * area * share * v
                net = net + sweep[1:] * (face[1:] - t) - sweep[:-1] * (face[:-1] - t)
            dy[at : at + len(t)] = net / (vol * c)
            at += len(t)
        dy[-2] = v * 1e3
        return dy

    def sparsity(self, size):
        m = lil_matrix((size, size))
        for d in (-2, -1, 0, 1, 2):
            m.setdiag(1, d)
        if self.mode in ("moving", "held"):
            j = self.nm + self.nd
            for col in (j - 2, j - 1, j, j + 1, size - 2):
                m[:, col] = 1
        m[-1, -3] = 1
        m[-2, -2] = m[-1, -1] = 1
        return m.tocsc()

    def jacobian(self, size):
        """A function that gives the Jacobian of the rates, by small steps taken together in columns that share no row."""
        pattern = self.sparsity(size)
        group = group_columns(pattern)
        rows = pattern.indices
        cols = np.repeat(np.arange(size), np.diff(pattern.indptr))
        step = np.full(size, 1e-3)

        def jac(t, y):
            step[-2] = max(abs(y[-2]) * 1e-5, 1e-9)
            base = self.rhs(t, y)
            data = np.empty(len(rows))
            for g in range(group.max() + 1):
                on = group == g
                change = self.rhs(t, y + step * on) - base
                pick = on[cols]
                data[pick] = change[rows[pick]] / step[cols[pick]]
            return csc_matrix((data, rows, pattern.indptr), shape=(size, size))

        return jac

    def profile(self, y):
        _th, ts, s, bl, _q0, tf, _qd, _qw, tfront, _v = self.edges(y)
        x, t = [0.0], [tf]
        for i, (r, _share, _c) in enumerate(bl):
            x.extend((r[1:] + r[:-1]) / 2 - self.a)
            t.extend(ts[i])
            if i == 0 and len(bl) == 2:
                x.append(s)
                t.append(tfront)
        half = self.wall - x[-1]
        x.append(self.wall)
        t.append(ROOM_C + (t[-1] - ROOM_C) / (1 + OUTER_W_M2K * half / self.k))
        return np.array(x), np.array(t)

    def dried_c(self, y):
        """Mean temperature of the dried sand, by volume."""
        _th, ts, s = self.split(y)
        r = self.blocks(s)[0][0]
        return float(np.average(ts[0], weights=np.diff(r ** (self.n + 1))))

    def heat(self, y):
        """Heat above room temperature in metal, sand, steam gone and room, for one unit of solid angle or depth."""
        th, ts, s, bl, *_ = self.edges(y)
        mt = self.metal
        hm = mt["rho"] * mt["cs"] * np.sum((th - ROOM_C) * self.vm)
        hs = 0.0
        for i, (r, _share, c) in enumerate(bl):
            hs += c * np.sum((ts[i] - ROOM_C) * np.diff(r ** (self.n + 1))) / (self.n + 1)
        dried = ((self.a + s) ** (self.n + 1) - self.a ** (self.n + 1)) / (self.n + 1)
        steam = dried * self.water * (STEAM_J_KG + WATER_C_J_KGK * (BOIL_C - ROOM_C))
        return hm + hs + steam + y[-1]


def deepest(x, t, level):
    hit = np.nonzero(t >= level)[0]
    if len(hit) == 0:
        return 0.0
    i = hit[-1]
    if i == len(x) - 1:
        return x[-1]
    return x[i] + (x[i + 1] - x[i]) * (t[i] - level) / (t[i] - t[i + 1])


def crest(times, values):
    """Greatest value, by a parabola through it and its two neighbours."""
    i = int(np.argmax(values))
    best = values[i]
    if 0 < i < len(values) - 1 and best > 0 and values[i - 1] > 0 and values[i + 1] > 0:
        t, v = times[i - 1 : i + 2] - times[i], values[i - 1 : i + 2]
        if t[0] < 0 < t[2]:
            p = np.polyfit(t, v, 2)
            if p[0] < 0:
                best = max(best, min(p[2] - p[1] ** 2 / (4 * p[0]), best + abs(v[2] - v[0])))
    return float(best)


def seeded(model, y):
    """The state with a first dry skin, whose heat flow is that of a face at 100 °C behind it."""
    u = 1 / (1 / model.gm + 1 / model.h)
    q = (model.temp(y[model.nm - 1]) - BOIL_C) / (1 / u + SEED_M / model.k)
    x = SEED_M * (model.xi[1:] + model.xi[:-1]) / 2
    model.mode = "moving"
    return np.concatenate([y[: model.nm], BOIL_C + q * (SEED_M - x) / model.k, y[model.nm : -2], [SEED_M * 1e3, y[-1]]])


def start(model):
    """First time (s) and state: a similarity layer for perfect contact, else cold sand."""
    layer = 5e-5
    th = np.full(model.nm, model.theta(model.tp))
    peak = ROOM_C
    if not np.isinf(model.h):
        model.mode = "wet" if model.water else "dry"
        y = np.concatenate([th, np.full(model.nw, ROOM_C), [0.0, 0.0]])
        return 0.0, seeded(model, y) if model.water and model.edges(y)[5] > BOIL_C else y, peak
    tc, front = similarity(model.metal, model.tp, model.water, model.cd, model.cw, model.k)
    assert tc > model.metal["liq"], "the first layer needs liquid metal at the contact"
    ad, aw = model.k / model.cd, model.k / model.cw
    am = model.metal["k"] / model.metal["rho"] / model.metal["cl"]
    t0 = (layer / front) ** 2 if model.water else layer**2 / ad
    rm = model.rm
    y = model.a - (rm[1:] + rm[:-1]) / 2
    th = model.theta(tc + (model.tp - tc) * erf(y / (2 * np.sqrt(am * t0))))
    if not model.water:
        model.mode = "dry"
        r = model.eta * model.wall
        x = (r[1:] + r[:-1]) / 2
        return t0, np.concatenate([th, ROOM_C + (tc - ROOM_C) * erfc(x / (2 * np.sqrt(ad * t0))), [0.0, 0.0]]), tc
    model.mode = "moving"
    (rd, _, _), (rw, _, _) = model.blocks(layer)
    xd, xw = (rd[1:] + rd[:-1]) / 2 - model.a, (rw[1:] + rw[:-1]) / 2 - model.a
    lam = front / 2
    td = tc - (tc - BOIL_C) * erf(xd / (2 * np.sqrt(ad * t0))) / erf(lam / np.sqrt(ad))
    tw = ROOM_C + (BOIL_C - ROOM_C) * erfc(xw / (2 * np.sqrt(aw * t0))) / erfc(lam / np.sqrt(aw))
    return t0, np.concatenate([th, td, tw, [layer * 1e3, 0.0]]), tc


def solve(case):
    """Results of one case: a dict of plain numbers, None where not reached."""
    mo = Model(case)
    mt = mo.metal
    t, y, peak = start(mo)
    h0 = mo.heat(y)
    t_end = case.get("t_end_s", 3e6)
    rtol = case.get("rtol", 1e-6)
    times, d350, d638, mids, faces, fronts = [], [], [], [], [], []
    segs = []
    freeze = open_s = None
    halts = 0
    while True:
        mode = mo.mode

        def done(_t, y):
            return y[0] - 60.0

        def frozen(_t, y):
            return y[0] - mt["sol"]

        def half(_t, y):
            return y[0] - mt["sol"] / 2

        def turn(_t, y, mode=mode):
            if mode == "wet":
                return BOIL_C - mo.edges(y)[5]
            if mode == "moving":
                return 1.0 if y[-2] < 3e3 * SEED_M else mo.edges(y)[9] * 1e6
            if mode == "held":
                return BOIL_C + 1e-6 - mo.edges(y)[8]
            return 1.0

        def through(_t, y, mode=mode):
            return mo.wall * 1e3 - y[-2] - 0.02 if mode == "moving" else 1.0

        for f in (done, turn, through):
            f.terminal = True
        for f in (done, frozen, half, turn, through):
            f.direction = -1
        size = len(y)
        atol = np.full(size, 1e-4)
        atol[-2] = 1e-7
        atol[-1] = 1e3 * rtol
        sol = solve_ivp(
            mo.rhs,
            (t, t_end),
            y,
            method="BDF",
            rtol=rtol,
            atol=atol,
            jac=mo.jacobian(size),
            events=[done, frozen, half, turn, through],
            dense_output=True,
            first_step=1e-6,
        )
        if not sol.success:
            raise RuntimeError(sol.message)
        segs.append((mode, sol.sol))
        if freeze is None and len(sol.t_events[1]):
            freeze = float(sol.t_events[1][0])
        if open_s is None and len(sol.t_events[2]):
            open_s = float(sol.t_events[2][0])
        for j, tt in enumerate(sol.t):
            x, temp = mo.profile(sol.y[:, j])
            times.append(tt)
            d350.append(deepest(x, temp, 350.0))
            d638.append(deepest(x, temp, 638.0))
            mids.append(mo.temp(sol.y[0, j]))
            faces.append(temp[0])
            fronts.append(sol.y[-2, j])
        t, y = sol.t[-1], sol.y[:, -1].copy()
        if sol.status != 1 or len(sol.t_events[0]):
            break
        if len(sol.t_events[4]):
            mo.mode = "dried"
            y = np.concatenate([y[: mo.nm + mo.nd], [mo.wall * 1e3, y[-1]]])
            fronts[-1] = mo.wall * 1e3
        elif mode == "wet":
            y = seeded(mo, y)
        elif mode == "moving":
            mo.mode = "held"
            halts += 1
        elif mode == "held":
            mo.mode = "moving"
        if halts > 50:
            raise RuntimeError("front keeps stopping")
    times = np.array(times)
    mid2 = None
    if freeze is not None and 2 * freeze <= times[-1]:
        for _, seg in segs:
            if seg.t_min <= 2 * freeze <= seg.t_max:
                mid2 = float(mo.temp(seg(2 * freeze)[0]))
                break
    layer_c = None
    if open_s is not None and mo.water:
        for mode, seg in segs:
            if seg.t_min <= open_s <= seg.t_max and mode in ("moving", "held", "dried"):
                mo.mode, last = mode, mo.mode
                layer_c = mo.dried_c(seg(open_s))
                mo.mode = last
                break
    return {
        "dried_c_at_open": layer_c,
        "freeze_s": freeze,
        "middle_c_at_2x_freeze": mid2,
        "dry_depth_mm": max(fronts) if mo.water else None,
        "depth_350_mm": min(crest(times, np.array(d350)), mo.wall) * 1e3,
        "depth_638_mm": min(crest(times, np.array(d638)), mo.wall) * 1e3,
        "face_peak_c": float(max(peak, max(faces))),
        "open_s": open_s,
        "end_s": float(times[-1]),
        "end_middle_c": float(mids[-1]),
        "halts": halts,
        "balance_pct": float((mo.heat(y) / h0 - 1) * 100),
        "steps": len(times),
        "end_state": (mo, y),
    }
