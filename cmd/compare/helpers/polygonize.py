"""Times shapely's polygonize on loose edges.

Usage: polygonize.py TIMES. Standard input holds one edge a line: x y x y.
Prints the number of faces and the best time of TIMES in seconds, of polygonize
alone: building the line strings is not in it.
"""

import sys
import time

from shapely.geometry import LineString
from shapely.ops import polygonize

lines = []
for row in sys.stdin:
    a, b, c, d = map(float, row.split())
    lines.append(LineString([(a, b), (c, d)]))
best, faces = float("inf"), 0
for _ in range(int(sys.argv[1])):
    start = time.perf_counter()
    faces = sum(1 for _ in polygonize(lines))
    best = min(best, time.perf_counter() - start)
print(faces, best)
