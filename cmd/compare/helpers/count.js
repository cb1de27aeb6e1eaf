// Counts the entities of a DXF file with dxf-parser.
// Usage: node count.js FILE. Prints a line "KIND COUNT" for each kind.
const fs = require("fs");
const parser = require("dxf-parser");
const DxfParser = parser.default ?? parser;

const drawing = new DxfParser().parseSync(fs.readFileSync(process.argv[2], "utf8"));
const same = { LWPOLYLINE: "POLYLINE", MTEXT: "TEXT" };
const counts = new Map();
for (const entity of drawing.entities) {
  const kind = same[entity.type] ?? entity.type;
  counts.set(kind, (counts.get(kind) ?? 0) + 1);
}
for (const [kind, n] of counts) {
  console.log(kind, n);
}
