using Spurless.Bench.Circuits;
using Spurless.Bench.ProductSearch;
using Spurless.Bench.Studies;

namespace Spurless.Bench;

/// <summary>All rows, subject by subject. A new subject is a new class with its rows, named here.</summary>
public static class Rows
{
    /// <summary>Every row, in the order of the table.</summary>
    public static IReadOnlyList<BenchRow> All { get; } = [.. ProductSearchRows.All, .. CircuitRows.All, .. FitRows.All, .. StudyRows.All];
}
