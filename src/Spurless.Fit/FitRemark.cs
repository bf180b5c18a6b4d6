using System.Collections.Immutable;

namespace Spurless.Fit;

/// <summary>What must be said beside the values of a fit.</summary>
public abstract record FitRemark
{
    private FitRemark()
    {
    }

    /// <summary>The instrument would have to be off by more than its calibration: the sweep is hardly one of this circuit.</summary>
    /// <param name="Calibration">What was assumed of it.</param>
    /// <param name="Alarms">Where it would have to be off, at least one.</param>
    public sealed record InstrumentOff(Calibration Calibration, ImmutableArray<InstrumentAlarm> Alarms) : FitRemark;

    /// <summary>What is left over is as large as the instrument's own errors: the sweep is hardly one of this circuit.</summary>
    /// <param name="Calibration">What was assumed of the instrument.</param>
    /// <param name="Alarm">How much is left over, and where.</param>
    public sealed record TooMuchLeftOver(Calibration Calibration, LeftOverAlarm Alarm) : FitRemark;

    /// <summary>Points that lie in the instrument's floor or its leakage and were left out.</summary>
    /// <param name="Parameter">The S-parameter.</param>
    /// <param name="LeftOut">How many.</param>
    /// <param name="Of">Of how many.</param>
    /// <param name="HighestDb">The highest level among them in dB; null where it is not known.</param>
    public sealed record PointsLeftOut(SweepParameter Parameter, int LeftOut, int Of, double? HighestDb) : FitRemark;

    /// <summary>The circuit explains so little of the sweep that the values say nothing.</summary>
    /// <param name="Unexplained">Share of the sweep's variation that is left over, 0 to about 1.</param>
    public sealed record NothingExplained(double Unexplained) : FitRemark;

    /// <summary>What is left over is more than noise and counts as an error of the model.</summary>
    /// <param name="OverNoiseDb">Its power over the noise's, in dB.</param>
    /// <param name="Widened">How many times less each point weighs for that.</param>
    public sealed record ErrorOfModel(double OverNoiseDb, double Widened) : FitRemark;

    /// <summary>Other sets of values explain the sweep as well; the intervals span all.</summary>
    /// <param name="Sets">How many, at least 1.</param>
    public sealed record OtherSets(int Sets) : FitRemark;

    /// <summary>Values on an end of their range, beyond which the true ones may lie.</summary>
    /// <param name="Parts">The parts, at least one.</param>
    public sealed record OnEndOfRange(ImmutableArray<string> Parts) : FitRemark;

    /// <summary>A value came out more than three sigmas from its estimate.</summary>
    /// <param name="Part">The part.</param>
    public sealed record FarFromEstimate(string Part) : FitRemark;

    /// <summary>The estimates all lean one way by more than chance explains.</summary>
    /// <param name="Parts">The parts, at least two.</param>
    /// <param name="More">Whether they came out larger than stated; smaller if not.</param>
    /// <param name="LeastPercent">The least miss in per cent.</param>
    /// <param name="MostPercent">The greatest.</param>
    public sealed record EstimatesLean(ImmutableArray<string> Parts, bool More, double LeastPercent, double MostPercent) : FitRemark;
}
