using System.Globalization;
using System.Numerics;
using Spurless.Circuits.Fit;
using Spurless.Circuits.Solving;

namespace Spurless.Reports.Bench;

/// <summary>What a fit found, in words.</summary>
internal static class FitWords
{
    /// <summary>The answer in a sentence or two.</summary>
    public static string Answer(FitResult result)
    {
        int known = result.Values.Count(static v => v.Identifiable), all = result.Values.Length;
        string explains = result.ExplainsNothing ? "the circuit does not explain the sweep"
            : result.IsStructured ? "the circuit explains the sweep in part only"
            : "the circuit explains the sweep to within its noise";
        string part = result.IsComplete ? "" : " Stopped early: the best so far.";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{result.Traced.Name}: {(known == all ? $"all {all} values" : $"{known} of {all} values")} found from {result.Sweep.Name}; {explains}, {Left(result)}.{part}");
    }

    /// <summary>What rounding costs.</summary>
    public static string Rounding(FitRounding r) => string.Create(
        CultureInfo.InvariantCulture,
        $"With every capacitor at its E24 value the least loss would be {r.RoundedLossDb:0.00} dB at {r.RoundedAtHz / 1e6:0.0##} MHz instead of {r.LossDb:0.00} dB at {r.AtHz / 1e6:0.0##} MHz, where it would be {r.LossThereDb:0.00} dB.");

    /// <summary>Another tracing.</summary>
    public static string Tracing(TracingFinding t) => string.Create(
        CultureInfo.InvariantCulture, $"the sweep fits far better {t.Words} ({-20 * Math.Log10(Math.Max(t.ResidualRatio, 1e-9)):0.0} dB less is left over)");

    /// <summary>Gains, planes and noise.</summary>
    public static IEnumerable<string> Instrument(FitResult result)
    {
        foreach (TraceFit t in result.Traces)
        {
            double gain = 20 * Math.Log10(t.Gain.Magnitude), turn = t.Gain.Phase * 180 / Math.PI;
            string phase = result.Sweep.IsMagnitude ? "" : string.Create(CultureInfo.InvariantCulture, $" and {turn:+0.00;-0.00;0.00} degrees");
            yield return string.Create(
                CultureInfo.InvariantCulture, $"{Name(t, result)}: {gain:+0.000;-0.000;0.000} dB{phase}, noise {Level(t.Noise, result):0.00} dB, left over {Level(t.Residual, result):0.00} dB");
        }

        if (!result.Sweep.IsMagnitude)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"reference planes: {result.DelayS.First * 1e12:+0.0;-0.0;0.0} ps at port 1, {result.DelayS.Second * 1e12:+0.0;-0.0;0.0} ps at port 2");
        }
    }

    /// <summary>An S-parameter's name.</summary>
    public static string Name(TraceFit trace, FitResult result) => result.Sweep.IsMagnitude ? $"|{trace.Parameter}|" : trace.Parameter.ToString();

    /// <summary>An rms difference in dB: of magnitudes it is one already.</summary>
    public static double Level(double rms, FitResult result) => result.Sweep.IsMagnitude ? rms : 20 * Math.Log10(Math.Max(rms, 1e-20));

    /// <summary>The letter of a quantity.</summary>
    public static string Symbol(CircuitQuantity quantity) => quantity switch
    {
        CircuitQuantity.CapacitanceF => "C",
        CircuitQuantity.InductanceH => "L",
        CircuitQuantity.ResistanceOhm => "R",
        CircuitQuantity.Q => "Q",
        CircuitQuantity.Coupling => "k",
        _ => "length",
    };

    /// <summary>The best difference of a fit that runs.</summary>
    public static string SoFar(FitSoFar best) => $"best so far {Rms(best.DifferenceDb, best.IsMagnitude)}";

    private static string Left(FitResult result) => $"{Rms(result.RmsResidualDb, result.Sweep.IsMagnitude)} left over";

    private static string Rms(double db, bool magnitude) => string.Create(CultureInfo.InvariantCulture, $"{db:0.0#} dB {(magnitude ? "rms" : "of difference")}");
}
