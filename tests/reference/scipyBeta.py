"""Reads cases as JSON, and writes what scipy makes of them: the Beta distribution, and which of several is the highest."""

import json
import sys

import numpy as np
from scipy import integrate, stats


def best(betas):
    def of(own):
        def density(x):
            others = np.prod([stats.beta.cdf(x, a, b) for n, (a, b) in enumerate(betas) if n != own])
            return stats.beta.pdf(x, *betas[own]) * others

        middle = stats.beta.ppf([1e-9, 0.1, 0.5, 0.9, 1 - 1e-9], *betas[own])
        return sum(integrate.quad(density, low, high, epsabs=1e-11)[0] for low, high in zip(middle, middle[1:]))

    return [of(own) for own in range(len(betas))]


asked = json.load(sys.stdin)
answers = {
    "cdf": [float(stats.beta.cdf(x, a, b)) for x, a, b in asked["cdf"]],
    "ppf": [float(stats.beta.ppf(p, a, b)) for p, a, b in asked["ppf"]],
    "best": [best(betas) for betas in asked["best"]],
}
json.dump(answers, sys.stdout)
