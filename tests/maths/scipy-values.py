"""Values of scipy at random places, as JSON on standard output: python3 scipy-values.py SEED COUNT.

tests/fixtures/reference-data/scipy-values.json is `scipy-values.py 2026 120`; where python3 has scipy, the tests ask
for others besides.
"""

import json
import sys

import numpy as np
import scipy
from scipy import signal, special, stats

seed, count = int(sys.argv[1]), int(sys.argv[2])
rng = np.random.default_rng(seed)


def many(make):
    return [make() for _ in range(count)]


def figures(low, high, steps=None):
    values = rng.normal(0, 10, rng.integers(low, high + 1)) + rng.normal(0, 20)
    return [round(float(v), 3) if steps is None else round(float(v) / steps) * steps for v in values]


def beta():
    x, a, b = rng.uniform(), 0.1 + 120 * rng.uniform() ** 3, 0.1 + 120 * rng.uniform() ** 3
    return [x, a, b, float(special.betainc(a, b, x))]


def gamma():
    x = 300 * rng.uniform() ** 2 + 0.05
    return [x, float(special.gammaln(x))]


def normal():
    z, p = rng.uniform(-30, 8), rng.uniform(1e-6, 1 - 1e-6)
    return [z, float(special.ndtr(z)), p, float(special.ndtri(p))]


def student():
    t, f, p = 10 * rng.normal() * rng.uniform() ** 4, 0.6 + 400 * rng.uniform(), rng.uniform(0.001, 0.999)
    return [t, f, float(stats.t.cdf(t, f)), p, float(stats.t.ppf(p, max(f, 1)))]


def binomial():
    n = int(rng.integers(1, 201))
    k, p = int(rng.integers(0, n + 1)), float(rng.uniform())
    interval = stats.binomtest(k, n).proportion_ci(0.95, "exact")
    return [k, n, p, float(stats.binom.cdf(k, n, p)), float(interval.low), float(interval.high)]


def fisher():
    n, m = int(rng.integers(1, 41)), int(rng.integers(1, 41))
    a, b = int(rng.integers(0, n + 1)), int(rng.integers(0, m + 1))
    return [a, n, b, m, float(stats.fisher_exact([[a, n - a], [b, m - b]])[1])]


def ranks():
    # Without ties the exact test of scipy counts every arrangement.
    a, b = figures(3, 15), figures(3, 15)
    while len(set(a + b)) < len(a) + len(b):
        a, b = figures(3, 15), figures(3, 15)
    test = stats.mannwhitneyu(a, b, alternative="greater", method="exact")
    return {"a": a, "b": b, "u": float(test.statistic), "greater": float(test.pvalue)}


def tied_ranks():
    a, b = figures(30, 60, 2.0), figures(30, 60, 2.0)
    test = stats.mannwhitneyu(a, b, alternative="two-sided", method="asymptotic", use_continuity=True)
    return {"a": a, "b": b, "u": float(test.statistic), "two": float(test.pvalue)}


def signed():
    n = int(rng.integers(6, 25))
    w = int(rng.integers(0, n * (n + 1) // 2 + 1))
    return [n, w, float(stats.wilcoxon([i if bit else -i for i, bit in bits(n, w)], method="exact", alternative="less").pvalue)]


def bits(n, w):
    """Ranks 1 to n, some of them positive, that add up to w."""
    taken, left = {}, w
    for i in range(n, 0, -1):
        taken[i] = left >= i
        left -= i if taken[i] else 0
    return [(i, taken[i]) for i in range(1, n + 1)]


def line():
    n = int(rng.integers(6, 30))
    x = [round(float(v), 3) for v in rng.uniform(0, 60, n)]
    y = [round(float(v), 3) for v in 3 * np.array(x) + rng.normal(0, 20, n)]
    sen, fit = stats.theilslopes(y, x, 0.95), stats.linregress(x, y)
    return {
        "x": x,
        "y": y,
        "sen": [float(v) for v in (sen.slope, sen.intercept, sen.low_slope, sen.high_slope)],
        "least": [float(v) for v in (fit.slope, fit.intercept, fit.stderr, fit.intercept_stderr)],
    }


def spread():
    values = figures(3, 40)
    p = float(rng.uniform())
    return {
        "values": values,
        "p": p,
        "quantile": float(np.quantile(values, p)),
        "mad": float(stats.median_abs_deviation(values)),
        "sd": float(np.std(values, ddof=1)),
    }


def waves():
    t = np.sort(np.round(rng.uniform(0, 15, 50), 4))
    y = np.round(750 + 20 * np.sin(2 * np.pi * 0.4 * t) + rng.normal(0, 5, 50), 3)
    hz = [0.1, 0.25, 0.4, 0.7, 1.3]
    power = signal.lombscargle(t, y - y.mean(), 2 * np.pi * np.array(hz))
    return {"t": t.tolist(), "y": y.tolist(), "hz": hz, "power": power.tolist()}


def system():
    n = int(rng.integers(2, 6))
    a, b = np.round(rng.normal(0, 5, (n, n)), 3), np.round(rng.normal(0, 5, n), 3)
    return {"a": a.flatten().tolist(), "b": b.tolist(), "x": np.linalg.solve(a, b).tolist()}


makers = (beta, gamma, normal, student, binomial, fisher, ranks, tied_ranks, signed, line, spread, waves, system)
few = {waves, tied_ranks, line}
out = {"source": f"scipy {scipy.__version__}, numpy {np.__version__}, seed {seed}"}
for maker in makers:
    rows = many(maker)
    out[maker.__name__] = rows[: max(1, count // 4)] if maker in few else rows
json.dump(out, sys.stdout, separators=(",", ":"))
