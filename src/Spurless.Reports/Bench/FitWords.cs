using System.Globalization;
using Spurless.Circuits.Solving;
using Spurless.Fit;
using Spurless.Radio.Quantities;

namespace Spurless.Reports.Bench;

/// <summary>What a fit found, in words.</summary>
public static class FitWords
{
    /// <summary>The answer in a sentence or two.</summary>
    public static string Answer(FitResult result)
    {
        int known = result.Values.Count(static v => v.Identifiable), all = result.Values.Length;
        string explains = result.IsDoubted ? "the sweep is hardly one of this circuit as traced" : result.ExplainsNothing
            ? "the circuit does not explain the sweep"
            : result.IsStructured ? "the circuit explains the sweep in part only"
            : "the circuit explains the sweep to within its noise";
        string part = result.IsComplete ? "" : " Stopped early: the best so far.";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{result.Traced.Name}: {(known == all ? $"all {all} values" : $"{known} of {all} values")} found "
                + $"from {result.Sweep.Name}; {explains}, {Left(result)}.{part}");
    }

    /// <summary>A value with its unit.</summary>
    public static string Value(double value, CircuitQuantity quantity) => FitNumbers.Text(value, quantity);

    /// <summary>The best values so far, each with its part: no break within one.</summary>
    public static string ValuesSoFar(FitSoFar best)
    {
        ArgumentNullException.ThrowIfNull(best);
        return string.Join(
            ", ", best.Values.Select(static v => $"{v.Part} {Symbol(v.Quantity)} {Value(v.Value, v.Quantity)}".Replace(' ', '\u00A0')));
    }

    /// <summary>What rounding costs.</summary>
    public static string Rounding(FitRounding r) => string.Create(
        CultureInfo.InvariantCulture,
        $"With every capacitor at its E24 value the least loss would be {r.RoundedLossDb:0.00} dB at "
            + $"{MegahertzText.InWords(r.RoundedAtHz)} MHz instead of {r.LossDb:0.00} dB at {MegahertzText.InWords(r.AtHz)} "
                + $"MHz, where it would be {r.LossThereDb:0.00} dB.");

    /// <summary>Another tracing.</summary>
    public static string Tracing(TracingFinding t) => string.Create(
        CultureInfo.InvariantCulture,
        $"the sweep fits far better {FitFindingWords.Change(t)} "
            + $"({-20 * Math.Log10(Math.Max(t.ResidualRatio, 1e-9)):0.0} dB less is left over)");

    /// <summary>Gains, planes and noise.</summary>
    public static IEnumerable<string> Instrument(FitResult result)
    {
        foreach (TraceFit t in result.Traces)
        {
            double gain = 20 * Math.Log10(t.Gain.Magnitude), turn = t.Gain.Phase * 180 / Math.PI;
            string phase = result.Sweep.IsMagnitude
                ? ""
                : string.Create(CultureInfo.InvariantCulture, $" and {turn:+0.00;-0.00;0.00} degrees");
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{Name(t, result)}: {gain:+0.000;-0.000;0.000} dB{phase}, "
                    + $"noise {Level(t.Noise, result):0.00} dB, left over {Level(t.Residual, result):0.00} dB");
        }

        if (!result.Sweep.IsMagnitude)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"reference planes: {result.DelayS.First * 1e12:+0.0;-0.0;0.0} ps at port 1, "
                    + $"{result.DelayS.Second * 1e12:+0.0;-0.0;0.0} ps at port 2");
        }
    }

    /// <summary>Series inductances that nobody traced.</summary>
    public static IEnumerable<string> Leads(FitResult result)
    {
        if (result.Leads.Length > 0)
        {
            yield return "taken for 0.8 nH, give or take 0.45 nH, in series with each capacitor that states none with 'esl:'; each "
                + "capacitance is the one without it";
            yield return string.Join("; ", result.Leads.Select(static l => string.Create(
                CultureInfo.InvariantCulture, $"{l.Capacitor} {l.ValueH * 1e9:0.00} nH ({l.LowH * 1e9:0.0#} to {l.HighH * 1e9:0.0#})")));
        }
    }

    /// <summary>An S-parameter's name.</summary>
    public static string Name(TraceFit trace, FitResult result) =>
        result.Sweep.IsMagnitude ? $"|{trace.Parameter}|" : trace.Parameter.ToString();

    /// <summary>An rms difference in dB: of magnitudes it is one already.</summary>
    public static double Level(double rms, FitResult result) => result.Sweep.IsMagnitude ? rms : 20 * Math.Log10(Math.Max(rms, 1e-20));

    /// <summary>The calibration that was assumed, as the option has it.</summary>
    public static string Calibration(FitResult result) => result.Calibration.ToString().ToLowerInvariant();

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

    internal static string Left(FitResult result) => $"{Rms(result.RmsResidualDb, result.Sweep.IsMagnitude)} left over";

    private static string Rms(double db, bool magnitude) =>
        string.Create(CultureInfo.InvariantCulture, $"{db:0.0#} dB {(magnitude ? "rms" : "of difference")}");
}
