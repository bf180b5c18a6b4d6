using Spurless.Circuits.Relays;
using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Bypasses;

namespace Spurless.Sites.Bypasses;

/// <summary>Answers what a relay does that the radio frequency switches past a filter.</summary>
public static class BypassService
{
    // How long a press is watched, over the times of the relay itself.
    private const double Settled = 6;
    private const double MostPressS = 30;

    /// <summary>Answers a question.</summary>
    /// <param name="question">The question.</param>
    /// <param name="progress">Told what share of the trials is done, or null.</param>
    /// <param name="cancellationToken">Stops it.</param>
    public static Outcome<BypassAnswer> Ask(
        BypassQuestion question, IProgress<double>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        try
        {
            return Answer(question, progress, cancellationToken);
        }
        catch (CircuitException e)
        {
            return e.Fault;
        }
        catch (ArithmeticException)
        {
            return new Refusal(
                "the detector cannot be computed with these values",
                "see whether saturation_current, emission and series are those of one diode, and the tap is in picofarads");
        }
    }

    private static BypassAnswer Answer(BypassQuestion question, IProgress<double>? progress, CancellationToken cancel)
    {
        BypassDocument document = question.Bypass.Document;
        RelayCircuit circuit = document.Circuit;
        double peak = RelaySteady.PeakV(document.PowerW, document.ImpedanceOhm);
        DetectorTable table = DetectorTable.Of(circuit.Detector, peak * (1 + document.Reflection), cancel);
        double? operates = RelaySteady.OperatesAtV(circuit);
        BypassPress press = Press(circuit, table, peak, moments: true, cancel);
        (double? attack, double? hang) = Worst(document, table, peak, cancel);
        bool tries = question.TriesKeying && operates <= peak;
        KeyingTrials trials = new(document, table, peak, press.HangS);
        IReadOnlyList<KeyingTrial> tried = tries ? trials.Run(operates!.Value, progress, cancel) : [];
        return new BypassAnswer
        {
            Question = question,
            OperatesAtW = Watts(operates, document),
            ReleasesBelowW = Watts(RelaySteady.ReleasesBelowV(circuit), document),
            Press = press,
            WorstAttackS = attack,
            WorstHangS = hang,
            Corners = [.. Corners(document, table, peak, cancel)],
            Trials = tried,
            Steadier = tried.Any(t => t is { Kind: KeyingKind.TwoTones, Chatters: true } && t.PowerW == document.PowerW)
                ? trials.Steadier(c => Press(c, table, peak, moments: false, cancel), cancel)
                : null,
            Filter = FilterInLine.Of(question.Bypass, cancel),
            OffAir = SiteOffAir.Of(question.Bypass, cancel),
            Keyed = Keyed(circuit),
        };
    }

    private static double? Watts(double? peakV, BypassDocument document) =>
        peakV is { } v ? RelaySteady.Watts(v, document.ImpedanceOhm) : null;

    private static BypassPress Press(RelayCircuit circuit, DetectorTable table, double peak, bool moments, CancellationToken cancel)
    {
        double steady = RelaySteady.SmoothingV(circuit, peak);
        RelayCoil coil = circuit.Coil;

        // Until everything stands: smoothing through its load and the detector, coil, travel; and back with the bleed alone.
        double charging = circuit.SmoothingF * 4 / (circuit.Detector.FrequencyHz * (circuit.Detector.TapF + circuit.Detector.StrayF));
        double settling = coil.InductanceH / circuit.CoilOhm;
        double on = Math.Min(MostPressS, Settled * (charging + settling) + 2 * coil.TravelS);
        double discharging = circuit.SmoothingF * circuit.BleedOhm * Math.Log(Math.Max(2, steady / 0.05));
        double rest = Math.Min(MostPressS, Settled * settling + (1.2 * discharging) + 2 * coil.ReleaseTravelS);
        RelayRun run = RelayTransient.Run(circuit, table, peak, Keying.Carrier(on, rest), moments, cancel);
        return new BypassPress(
            peak, steady, Math.Min(circuit.FullCoilA, circuit.CarryA(steady)), circuit.CarryA(steady), on, run);
    }

    private static (double? AttackS, double? HangS) Worst(
        BypassDocument document, DetectorTable table, double peak, CancellationToken cancel)
    {
        if (document.StandingWaveRatio is null or 1)
        {
            return (null, null);
        }

        BypassPress[] ends =
        [
            Press(document.Circuit, table, peak * (1 - document.Reflection), moments: false, cancel),
            Press(document.Circuit, table, peak * (1 + document.Reflection), moments: false, cancel),
        ];
        return ends.All(static e => e.AttackS is not null)
            ? (ends.Max(static e => e.AttackS), ends.Max(static e => e.HangS))
            : (null, null);
    }

    private static IEnumerable<BypassCorner> Corners(BypassDocument document, DetectorTable table, double peak, CancellationToken cancel)
    {
        foreach (double share in BypassQuestion.SupplyShares)
        {
            foreach (double celsius in BypassQuestion.CoilCelsius)
            {
                RelayCircuit circuit = document.Circuit with { SupplyV = document.Circuit.SupplyV * share, CoilCelsius = celsius };
                BypassPress press = Press(circuit, table, peak, moments: false, cancel);
                yield return new BypassCorner(
                    circuit.SupplyV, celsius, circuit.FullCoilA, press.CarryA, circuit.Coil.OperatesA, press.AttackS,
                    Watts(RelaySteady.OperatesAtV(circuit), document));
            }
        }
    }

    // Closed forms of the coil alone: the line switches it hard, at every supply and temperature.
    private static KeyedSequence Keyed(RelayCircuit circuit)
    {
        double? lead = 0;
        double tail = double.PositiveInfinity;
        foreach (double share in BypassQuestion.SupplyShares)
        {
            foreach (double celsius in BypassQuestion.CoilCelsius)
            {
                RelayCircuit at = circuit with { SupplyV = circuit.SupplyV * share, CoilCelsius = celsius };
                double time = at.Coil.InductanceH / at.CoilOhm, full = at.FullCoilA, clamp = at.Coil.ClampV / at.CoilOhm;
                lead = full <= at.Coil.OperatesA
                    ? null
                    : lead is { } known ? Math.Max(known, (time * Math.Log(full / (full - at.Coil.OperatesA))) + at.Coil.TravelS) : null;
                double falls = full > at.Coil.ReleasesA ? time * Math.Log((full + clamp) / (at.Coil.ReleasesA + clamp)) : 0;
                tail = Math.Min(tail, falls + at.Coil.ReleaseTravelS);
            }
        }

        return new KeyedSequence(lead, tail);
    }
}
