using Spurless.Circuits.Parts;
using Spurless.Circuits.Relays;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;
using Spurless.Circuits.TwoPorts;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents.Bypasses;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Bypasses;

/// <summary>What the transmitter does to the filter, and the open contacts to what the filter keeps away.</summary>
internal static class FilterInLine
{
    // What small ceramic capacitors bear where no rating is written: the one that the stress of a circuit takes too.
    private const double UsualCapacitorV = 50;

    public static BypassedFilterFindings? Of(LoadedBypass bypass, CancellationToken cancel)
    {
        if (bypass.Filter is not { } filter)
        {
            return null;
        }

        BypassDocument document = bypass.Document;
        double hz = document.Frequency.Hertz;
        bool covers = hz >= filter.TwoPort.LowestHz && hz <= filter.TwoPort.HighestHz;
        StressResult? matched = Stress(filter, document, StressLoad.Matched);
        StressResult? worst = document.StandingWaveRatio is { } swr and > 1 ? Stress(filter, document, StressLoad.Swr(swr)) : null;
        return new BypassedFilterFindings
        {
            Name = filter.Name,
            Isolation = OpenContacts.Find(filter.TwoPort, document.ContactOpenF, cancel),
            ShareWhileOver = covers
                ? BypassedFilter.ShareWhileOver(filter.TwoPort, document.ContactOpenF, hz, document.ImpedanceOhm)
                : double.NaN,
            HeatW = matched?.DissipatedW ?? (covers ? Heat(filter.TwoPort.At(hz), document.PowerW) : null),
            Stress = matched,
            WorstStress = worst,
            VoltageBearsW = (worst ?? matched) is { } stress ? VoltageBears(filter.Circuit!, stress) : null,
        };
    }

    private static double Heat(ScatteringMatrix s, double watts) =>
        watts * Math.Max(0, 1 - Squared(s.S11.Magnitude) - Squared(s.S21.Magnitude));

    private static double Squared(double x) => x * x;

    private static StressResult? Stress(Network filter, BypassDocument document, StressLoad load)
    {
        if (filter.Circuit is not { } circuit)
        {
            return null;
        }

        StressResult? result = StressAnalysis.TryRun(
            CircuitSolver.Create(circuit), new StressRequest(document.PowerW, document.Frequency.Hertz, load), out CircuitFault? fault);
        return result ?? throw new CircuitException(fault!);
    }

    private static double? VoltageBears(Circuit circuit, StressResult stress)
    {
        double? least = null;
        foreach (PartStress part in stress.Parts)
        {
            Part named = circuit.Parts.First(p => p.Name == part.Part);
            double? rated = named.Rated is { } rating ? rating.PeakVoltageV : named is Capacitor ? UsualCapacitorV : null;
            if (rated is { } volts && part.PeakVoltageV > 0)
            {
                least = Math.Min(least ?? double.PositiveInfinity, stress.AvailableW * Squared(volts / part.PeakVoltageV));
            }
        }

        return least;
    }
}
