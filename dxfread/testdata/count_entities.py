"""Reads names of DXF files on standard input and prints one JSON object for
each: how many entities of each kind and layer ezdxf finds in model space, in
the paper layouts and in the block definitions, with a sum over their numbers,
and where the lines of model space lie after all blocks are placed."""
import json
import logging
import math
import sys

import ezdxf
from ezdxf import disassemble, recover

logging.disable(logging.CRITICAL)


def numbers(e):
    """The numbers of an entity that both readers must agree on."""
    t, d = e.dxftype(), e.dxf
    if t == "LINE":
        return [*d.start, *d.end]
    if t == "CIRCLE":
        return [*d.center, d.radius]
    if t == "ARC":
        return [*d.center, d.radius, d.start_angle, d.end_angle]
    if t == "POINT":
        return list(d.location)
    if t == "LWPOLYLINE":
        return [v for p in e.get_points("xyb") for v in p] + [int(e.closed)]
    if t == "POLYLINE" and e.is_2d_polyline:
        vs = [v for v in e.vertices if not v.dxf.flags & 16]
        return [n for v in vs for n in (v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0))] + [int(e.is_closed)]
    if t == "POLYLINE" and e.is_3d_polyline:
        vs = [v for v in e.vertices if not v.dxf.flags & 16]
        return [n for v in vs for n in v.dxf.location] + [int(e.is_closed)]
    if t == "ELLIPSE":
        return [*d.center, *d.major_axis, d.ratio]
    if t == "SPLINE":
        return [n for p in e.control_points for n in p] + [n for p in e.fit_points for n in p] + list(e.knots) + list(e.weights)
    if t == "INSERT":
        s = [v if v else 1 for v in (d.xscale, d.yscale, d.zscale)]
        return [*d.insert, *s, d.rotation]
    if t == "MTEXT":
        return [*d.insert, d.char_height]
    if t in ("TEXT", "ATTRIB"):
        return [d.height]
    return []


def add(table, e, texts):
    if e.dxftype() in ("TEXT", "ATTRIB", "MTEXT"):
        texts.append(" ".join(e.plain_text().split()))
    try:
        layer = e.dxf.get("layer", "0").lower()
    except ezdxf.DXFError:
        layer = "?"  # kinds of which ezdxf keeps no layer
    key = e.dxftype() + " " + layer
    row = table.setdefault(key, [0, 0.0])
    row[0] += 1
    row[1] += sum(abs(float(v)) for v in numbers(e))
    for a in getattr(e, "attribs", []):
        add(table, a, texts)


def placed(doc):
    """Number and sums of the end points of lines, and of arcs, after all
    inserts. An arc that is scaled unequally is an ellipse afterwards; which end
    is the start depends on mirroring, so both count alike."""
    sums = {"lines": [0, 0.0, 0.0, 0.0], "arcs": [0, 0.0, 0.0, 0.0]}
    for e in doc.entitydb.values():
        if e.dxftype() == "INSERT":  # a scale of 0 counts as 1, as in our reader
            for name in ("xscale", "yscale", "zscale"):
                if e.dxf.get(name, 1) == 0:
                    e.dxf.set(name, 1)
    for e in disassemble.recursive_decompose(doc.modelspace()):
        if e.dxftype() == "LINE":
            s, ends = sums["lines"], (e.dxf.start, e.dxf.end)
        elif e.dxftype() in ("ARC", "ELLIPSE"):
            s, ends = sums["arcs"], (e.start_point, e.end_point)
        else:
            continue
        s[0] += 1
        for p in ends:
            s[1] += p.x
            s[2] += p.y
            s[3] += abs(p.x) + abs(p.y)
    return sums


def report(path):
    out = {"path": path, "refused": "", "recovered": False}
    try:
        doc = ezdxf.readfile(path)
    except Exception as err:
        out["refused"] = f"{type(err).__name__}: {err}"
        try:
            doc, _ = recover.readfile(path)
            out["recovered"] = True
        except Exception:
            return out
    out["version"] = doc.dxfversion
    texts = []
    spaces = {"model": {}, "paper": {}, "blocks": {}}
    for e in doc.modelspace():
        add(spaces["model"], e, texts)
    for name in doc.layout_names():
        if name != "Model":
            for e in doc.layout(name):
                add(spaces["paper"], e, texts)
    with open(path, "rb") as f:
        raw = f.read()
    for b in doc.blocks:
        # ezdxf adds blocks of arrow heads to old drawings.
        if not b.is_any_layout and (not b.name.startswith("_") or b.name.encode() in raw):
            for e in b:
                add(spaces["blocks"], e, texts)
    out["spaces"] = spaces
    out["texts"] = sorted(texts)
    try:
        out["placed"] = placed(doc)
    except Exception as err:
        out["placed_error"] = str(err)
    return out


for line in sys.stdin:
    path = line.rstrip("\n")
    try:
        r = report(path)
    except Exception as err:
        r = {"path": path, "refused": f"script: {type(err).__name__}: {err}"}
    def finite(v):
        return v if not isinstance(v, float) or math.isfinite(v) else None
    if r.get("spaces"):
        for t in r["spaces"].values():
            for row in t.values():
                row[1] = finite(row[1])
    print(json.dumps(r), flush=True)
