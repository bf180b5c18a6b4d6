using System.Collections.Concurrent;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Design.Families;

namespace Spurless.Sites.Cures;

/// <summary>The files of filters of usual kinds, each made once: many ways out have the same one.</summary>
internal sealed class MadeFiles
{
    /// <summary>
    /// Loss in dB on its frequency of the cavity behind a transmitter, unloaded Q 2,500 (common practice: 0.5 to 1.5 dB).
    /// </summary>
    private const double CavityLossDb = 1;

    private const double CavityQ = 2500;

    private readonly ConcurrentDictionary<string, string?> _made = new(StringComparer.Ordinal);

    /// <summary>The circuit file of a filter; null where this kind has none here.</summary>
    public string? Of(UsualFilter filter) =>
        _made.GetOrAdd(filter.Path, _ => filter.Make() is { } circuit ? UsualFilter.Text(circuit) : null);

    /// <summary>The sweep of a cavity behind a transmitter; null where there is none.</summary>
    /// <param name="centreHz">The transmitter's frequency in hertz.</param>
    public string? Cavity(long centreHz) =>
        _made.GetOrAdd(FormattableString.Invariant($"cavity {centreHz}"), _ => Sweep(centreHz));

    // A sweep as an analyser would give it: dense where the cavity resonates, and far enough for every carrier of VHF and UHF.
    private static string? Sweep(long centreHz)
    {
        if (UsualFilters.BandPass(1, CavityQ, centreHz, CavityLossDb, 0) is not { } circuit)
        {
            return null;
        }

        CircuitTwoPort cavity = new(CircuitSolver.Create(circuit with { LeakageDb = UsualFilter.CavityLeakageDb }));
        double[] grid =
        [
            .. Enumerable.Range(0, 2001).Select(i => centreHz * Math.Pow(10, (i - 1000) / 1000.0))
                .Concat(Enumerable.Range(-400, 801).Select(i => centreHz * (1 + (i * 1e-4))))
                .Select(static f => Math.Round(f)).Distinct().Order(),
        ];
        TouchstoneData data = TouchstoneData.Create(
            "cavity", 2, [.. grid], [.. grid.Select(f => cavity.At(f))], [50]);
        return TouchstoneWriter.TryWrite(
            data,
            new TouchstoneWriteOptions(
                Digits: 7, Comments: ["A band-pass cavity of a usual kind, computed: not built, not measured. Invented for a study."]),
            out string text,
            out _) ? text : null;
    }
}
