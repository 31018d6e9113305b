"""Prints the reference values of tests/statistics.rs.

python3 -m venv v && v/bin/pip install scipy==1.17.1 && v/bin/python statistics.py
"""
import numpy as np
from scipy import optimize, stats

gauge = [95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610,
         95.1591, 95.1195, 95.1065, 95.0925, 95.1990, 95.1682]
early = [30.2, 29.8, 30.5, 30.1, 29.6, 30.9, 30.3, 30.0]
late = [31.4, 30.2, 32.0, 30.9, 31.7, 29.9, 32.3, 31.1, 30.6]
n = len(gauge)
m, s = np.mean(gauge), np.std(gauge, ddof=1)
print("mean_interval", *stats.t.interval(0.95, n - 1, m, s / n**0.5))
print("sd_interval", *(s * np.sqrt((n - 1) / stats.chi2.ppf(p, n - 1)) for p in (0.975, 0.025)))
for method in ("weibull", "linear"):
    print(method, np.percentile(gauge, 90, method=method))
r = stats.ttest_ind(late, early, equal_var=False)
ci = r.confidence_interval(0.95)
print("welch", np.mean(late) - np.mean(early), r.df, ci.low, ci.high)
# Shrimp: target 30 g, 1 g either way, 1.20 a gram, 15 a short plate, spread 0.8 g.
cost = lambda mu, sd: 1.2 * mu + 15 * stats.norm.cdf(29, mu, sd)
best = lambda sd: optimize.minimize_scalar(lambda mu: cost(mu, sd), bounds=(29, 34), method="bounded", options={"xatol": 1e-9})
print("aim", best(0.8).x, stats.norm.cdf(29, best(0.8).x, 0.8), stats.norm.sf(31, best(0.8).x, 0.8))
