"""Reads cases as JSON, and writes what scipy and numpy make of them."""

import json
import sys

import numpy as np
from scipy import signal, stats


def line(case):
    slope, intercept, low, high = stats.theilslopes(case["y"], case["x"], alpha=case["confidence"])
    return [slope, intercept, low, high]


def exact(case):
    x, y = case["x"], case["y"]
    sides = ["two-sided", "greater", "less"]
    tests = [stats.kendalltau(x, y, method="exact", alternative=side) for side in sides]
    return [float(tests[0].statistic), *[float(test.pvalue) for test in tests]]


def tied(case):
    test = stats.kendalltau(case["x"], case["y"], method="asymptotic")
    return [float(test.statistic), float(test.pvalue)]


def normal(case):
    return [stats.norm.cdf(case["z"]).tolist(), stats.norm.ppf(case["p"]).tolist()]


def ewma(case):
    w = case["weight"]
    line, _ = signal.lfilter([w], [1, w - 1], case["values"], zi=[(1 - w) * case["start"]])
    # the SD of each mean, as that of a sum of weighted values
    ages = range(1, len(case["values"]) + 1)
    sds = [float(np.sqrt(sum((w * (1 - w) ** j) ** 2 for j in range(n)))) for n in ages]
    return [line.tolist(), sds]


def cusum(case):
    """The highest sum of values that ends at each, as how far all of them together stand above their lowest."""
    off = np.array(case["values"]) - case["target"]

    def gathered(steps):
        path = np.concatenate([[0], np.cumsum(steps)])
        return (path - np.minimum.accumulate(path))[1:].tolist()

    return [gathered(off - case["slack"]), gathered(-off - case["slack"])]


def state(case):
    """Level and slope at the last observation and some steps on, given all at once: generalized least squares of what is
    unknown at the start, and the conditional mean of a multivariate normal for the rest. No filter."""
    at = np.array(case["at"]) - case["at"][0]
    days = int(at[-1]) + case["ahead"]
    trend = case["slope"] is not None
    # each row: how level and slope of a day depend on the start and on every shock since
    start = np.zeros((days + 1, 2, 2))
    shocks = np.zeros((days + 1, 2, 2 * days))
    start[0] = np.eye(2)
    step = np.array([[1, 1], [0, 1]]) if trend else np.eye(2)
    for day in range(1, days + 1):
        start[day] = step @ start[day - 1]
        shocks[day] = step @ shocks[day - 1]
        shocks[day, 0, 2 * day - 2] = 1
        shocks[day, 1, 2 * day - 1] = 1
    variances = np.tile([case["level"], case["slope"] or 0], days)
    unknown = 2 if trend else 1
    z = start[at][:, 0, :unknown]
    b = shocks[at][:, 0, :]
    v = (b * variances) @ b.T + np.diag(case["variance"])
    y = np.array(case["value"])
    vz = np.linalg.solve(v, z)
    precision = z.T @ vz
    first = np.linalg.solve(precision, vz.T @ y)
    answers = []
    for day in [int(at[-1]), days]:
        a, d = start[day][:, :unknown], shocks[day]
        c = (d * variances) @ b.T
        w = np.linalg.solve(v, c.T).T
        mean = a @ first + w @ (y - z @ first)
        left = a - w @ z
        spread = (d * variances) @ d.T - w @ c.T + left @ np.linalg.solve(precision, left.T)
        answers.append([*mean.tolist(), spread[0, 0], spread[0, 1], spread[1, 1]])
    return answers


kinds = {"line": line, "exact": exact, "tied": tied, "normal": normal, "ewma": ewma, "cusum": cusum, "state": state}
asked = json.load(sys.stdin)
json.dump({kind: [kinds[kind](case) for case in cases] for kind, cases in asked.items()}, sys.stdout)
