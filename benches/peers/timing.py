"""Shared timing: run a function over a list of cases several times, print one JSON line per peer."""
import json
import time


def bench(peer, call, cases, runs, extra=None):
    """Median over runs of the mean microseconds per call; returns the results of the last run."""
    per_call, results = [], None
    for _ in range(runs):
        start = time.perf_counter()
        results = [call(c) for c in cases]
        per_call.append(1e6*(time.perf_counter() - start)/len(cases))
    per_call.sort()
    n = len(per_call)
    median = per_call[n//2] if n % 2 else 0.5*(per_call[n//2 - 1] + per_call[n//2])
    line = {"peer": peer, "median_us_per_call": round(median, 3), "runs": runs,
            "min": round(per_call[0], 3), "max": round(per_call[-1], 3), "cases": len(cases)}
    line.update(extra(results) if extra else {})
    print(json.dumps(line), flush=True)
    return results
