"""Counts the entities of a DXF file with ezdxf.

Usage: count.py FILE. Prints a line "KIND COUNT" for each kind in model space.
"""

import collections
import sys

import ezdxf

SAME = {"LWPOLYLINE": "POLYLINE", "MTEXT": "TEXT"}

counts = collections.Counter()
for entity in ezdxf.readfile(sys.argv[1]).modelspace():
    kind = entity.dxftype()
    counts[SAME.get(kind, kind)] += 1
for kind, n in counts.items():
    print(kind, n)
