// Counts the entities of a DXF file through dxflib's creation interface.
// Usage: count FILE. Prints a line "KIND COUNT" for each kind, blocks left out.
#include <cstdio>
#include <map>
#include <string>

#include <dxflib/dl_creationadapter.h>
#include <dxflib/dl_dxf.h>

class Counter : public DL_CreationAdapter {
public:
    std::map<std::string, long> counts;

    void addBlock(const DL_BlockData&) override { inBlock = true; }
    void endBlock() override { inBlock = false; }

    void addLine(const DL_LineData&) override { count("LINE"); }
    void addArc(const DL_ArcData&) override { count("ARC"); }
    void addCircle(const DL_CircleData&) override { count("CIRCLE"); }
    void addEllipse(const DL_EllipseData&) override { count("ELLIPSE"); }
    void addPolyline(const DL_PolylineData&) override { count("POLYLINE"); }
    void addSpline(const DL_SplineData&) override { count("SPLINE"); }
    void addPoint(const DL_PointData&) override { count("POINT"); }
    void addInsert(const DL_InsertData&) override { count("INSERT"); }
    void addText(const DL_TextData&) override { count("TEXT"); }
    void addMText(const DL_MTextData&) override { count("TEXT"); }

private:
    bool inBlock = false;

    void count(const char* kind) {
        if (!inBlock) {
            counts[kind]++;
        }
    }
};

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fprintf(stderr, "usage: count FILE\n");
        return 2;
    }
    Counter counter;
    DL_Dxf dxf;
    if (!dxf.in(argv[1], &counter)) {
        std::fprintf(stderr, "%s: not opened\n", argv[1]);
        return 1;
    }
    for (const auto& [kind, n] : counter.counts) {
        std::printf("%s %ld\n", kind.c_str(), n);
    }
    return 0;
}
