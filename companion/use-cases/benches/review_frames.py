"""The figures that benches/review.rs times, by polars: from a frame in memory,
and from the table's file. Run by that bench; needs `pip install polars`."""

import sys
import time

import polars as pl


def figures(frame):
    over = (pl.col("mass") - pl.col("target")).clip(lower_bound=0)
    return (
        frame.group_by("dish")
        .agg(
            pl.len(),
            pl.col("mass").mean().alias("mean"),
            pl.col("mass").std().alias("deviation"),
            (pl.col("mass") < pl.col("target") - pl.col("tolerance")).sum().alias("short"),
            (pl.col("mass") > pl.col("target") + pl.col("tolerance")).sum().alias("heavy"),
            over.sum().alias("given_away"),
            pl.col("mass").min().alias("lightest"),
            pl.col("mass").max().alias("heaviest"),
        )
        .sort("dish")
    )


def best(work, times=10):
    taken = []
    for _ in range(times):
        began = time.perf_counter()
        work()
        taken.append(time.perf_counter() - began)
    taken.sort()
    return taken[len(taken) // 2] * 1000


path, label = sys.argv[1:]
frame = pl.read_csv(path)
in_memory = best(lambda: figures(frame))
from_file = best(lambda: figures(pl.read_csv(path)))
print(f"figure: {label} | polars {pl.__version__}, a frame in memory | {in_memory:.3f} ms")
print(f"figure: {label} | polars {pl.__version__}, from a CSV file | {from_file:.3f} ms")
print(figures(frame))
