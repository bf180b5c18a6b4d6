using Spurless.Bench.Bypasses;
using Spurless.Bench.Circuits;
using Spurless.Bench.Cures;
using Spurless.Bench.Locating;
using Spurless.Bench.Newcomers;
using Spurless.Bench.Plans;
using Spurless.Bench.ProductSearch;
using Spurless.Bench.Recordings;
using Spurless.Bench.Registers;
using Spurless.Bench.Studies;
using Spurless.Bench.Terrain;

namespace Spurless.Bench;

/// <summary>All rows, subject by subject. A new subject is a new class with its rows, named here.</summary>
public static class Rows
{
    /// <summary>Every row, in the order of the table.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        .. ProductSearchRows.All, .. CircuitRows.All, .. FitRows.All, .. DesignRows.All, .. StudyRows.All, .. PageRows.All,
        .. RegisterRows.All, .. TerrainRows.All, .. RecordingRows.All, .. LocateRows.All, .. CureRows.All, .. PlanRows.All,
        .. NewcomerRows.All, .. BypassRows.All,
    ];
}
