"""Reads drawing files with ezdxf and tells what is in each, as JSON."""

import io
import json
import sys

import ezdxf
from ezdxf.lldxf.encoding import decode_dxf_unicode


def read(text):
    drawing = ezdxf.read(io.StringIO(text))
    auditor = drawing.audit()
    entities = []
    for e in drawing.modelspace():
        one = {"kind": e.dxftype(), "layer": e.dxf.layer, "line": e.dxf.get("linetype", "")}
        if one["kind"] == "LINE":
            one["points"] = [[e.dxf.start.x, e.dxf.start.y], [e.dxf.end.x, e.dxf.end.y]]
        elif one["kind"] == "POLYLINE":
            one["points"] = [[v.dxf.location.x, v.dxf.location.y] for v in e.vertices]
            one["closed"] = e.is_closed
        elif one["kind"] in ("CIRCLE", "ARC"):
            one["points"] = [[e.dxf.center.x, e.dxf.center.y]]
            one["radius"] = e.dxf.radius
            if one["kind"] == "ARC":
                one["from"], one["to"] = e.dxf.start_angle, e.dxf.end_angle
        elif one["kind"] == "TEXT":
            align, at, _ = e.get_pos()
            one["text"], one["align"], one["points"] = decode_dxf_unicode(e.plain_text()), align, [[at.x, at.y]]
            one["height"], one["rotation"] = e.dxf.height, e.dxf.rotation
        entities.append(one)
    return {
        "version": drawing.dxfversion,
        "units": drawing.units,
        "errors": [str(x.message) for x in auditor.errors],
        "layers": sorted(l.dxf.name for l in drawing.layers),
        "lines": sorted(l.dxf.name for l in drawing.linetypes),
        "entities": entities,
    }


json.dump([read(text) for text in json.load(sys.stdin)], sys.stdout)
