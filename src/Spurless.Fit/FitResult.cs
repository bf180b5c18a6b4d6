using System.Collections.Immutable;
using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;

namespace Spurless.Fit;

/// <summary>A value that was found.</summary>
/// <param name="Part">Name of the part.</param>
/// <param name="Quantity">Which of its numbers.</param>
/// <param name="Value">The value in SI units.</param>
/// <param name="Low">Lower end of its 95 % interval.</param>
/// <param name="High">Upper end of its 95 % interval.</param>
public sealed record FittedValue(string Part, CircuitQuantity Quantity, double Value, double Low, double High)
{
    /// <summary>
    /// Whether the value is known: the upper end of its interval at most twice the lower one, not on an end of its range, and not
    /// <see cref="Doubted"/>.
    /// </summary>
    public bool Identifiable => !OnBound && !Doubted && IsNarrow;

    /// <summary>Whether the sweep is hardly one of this circuit, so that no value is known.</summary>
    public bool Doubted { get; init; }

    private bool IsNarrow => Low > 0 ? High <= 2 * Low : High < 0 && -Low <= 2 * -High;

    /// <summary>What it was taken for beforehand; null where a range was all.</summary>
    public double? Estimate { get; init; }

    /// <summary>Lower end of where it was looked for.</summary>
    public double RangeLow { get; init; }

    /// <summary>Upper end of where it was looked for.</summary>
    public double RangeHigh { get; init; }

    /// <summary>Whether it stands on an end of its range, so that it may truly lie beyond.</summary>
    public bool OnBound { get; init; }

    /// <summary>The nearest value of E24, of a capacitor, inductor or resistor; null for others.</summary>
    public double? Marked { get; init; }
}

/// <summary>Series inductance of a capacitor that states none: assumed beforehand, and what the sweep made of it.</summary>
/// <param name="Capacitor">Name of the capacitor.</param>
/// <param name="ValueH">In henries.</param>
/// <param name="LowH">Lower end of its 95 % interval.</param>
/// <param name="HighH">Upper end of its 95 % interval.</param>
public sealed record FittedLead(string Capacitor, double ValueH, double LowH, double HighH);

/// <summary>How one S-parameter was met.</summary>
public sealed record TraceFit
{
    /// <summary>Which.</summary>
    public required SweepParameter Parameter { get; init; }

    /// <summary>The trace's own noise by third differences: rms |noise|; of magnitudes in dB.</summary>
    public required double Noise { get; init; }

    /// <summary>What is left: rms |difference|; of magnitudes in dB.</summary>
    public required double Residual { get; init; }

    /// <summary>The residual's power over that of the noise, weighted: near 1 where the fit explains the sweep.</summary>
    public required double Structure { get; init; }

    /// <summary>Gain of the instrument that was found, as a complex factor; of magnitudes a real one.</summary>
    public required Complex Gain { get; init; }

    /// <summary>Number of points left out because they lie in the instrument's floor.</summary>
    public required int LeftOut { get; init; }

    /// <summary>The highest level of the points left out, in dB; null where none were.</summary>
    public required double? FloorDb { get; init; }

    /// <summary>The fitted response as the instrument would show it, complex; of magnitudes in dB as a real number.</summary>
    public required ImmutableArray<Complex> Model { get; init; }
}

/// <summary>What a fit found.</summary>
public sealed record FitResult
{
    /// <summary>The traced circuit.</summary>
    public required Circuit Traced { get; init; }

    /// <summary>The circuit with its values; coils have become inductors.</summary>
    public required Circuit Fitted { get; init; }

    /// <summary>The sweep.</summary>
    public required FitSweep Sweep { get; init; }

    /// <summary>The values, in the order of the file.</summary>
    public required ImmutableArray<FittedValue> Values { get; init; }

    /// <summary>Series inductances of capacitors that state none.</summary>
    public ImmutableArray<FittedLead> Leads { get; init; } = [];

    /// <summary>What was assumed of the instrument.</summary>
    public Calibration Calibration { get; init; }

    /// <summary>
    /// Where the instrument would have to be off by more than three sigmas: the sweep is hardly one of this circuit. Empty where it is as
    /// expected.
    /// </summary>
    public ImmutableArray<InstrumentAlarm> InstrumentAlarms { get; init; } = [];

    /// <summary>Where as much as the instrument's errors is left over with a shape of its own; null where it is not.</summary>
    public LeftOverAlarm? LeftOver { get; init; }

    /// <summary>Whether the sweep is hardly one of this circuit, so that no value is known.</summary>
    public bool IsDoubted => InstrumentAlarms.Length > 0 || LeftOver is not null;

    /// <summary>What the sweep cannot separate.</summary>
    public required ImmutableArray<InseparableParts> Inseparable { get; init; }

    /// <summary>How each S-parameter was met.</summary>
    public required ImmutableArray<TraceFit> Traces { get; init; }

    /// <summary>Offset of the reference plane of each port in seconds, positive for a line in front of it; 0 for magnitudes.</summary>
    public required (double First, double Second) DelayS { get; init; }

    /// <summary>
    /// Rms |difference| over all S-parameters and points in dB: 20 lg of it for a complex sweep, of magnitudes the rms of the differences
    /// in dB.
    /// </summary>
    public required double RmsResidualDb { get; init; }

    /// <summary>Whether the residual is larger than the sweep's noise, so that the circuit does not explain the sweep.</summary>
    public required bool IsStructured { get; init; }

    /// <summary>How many times less each point weighs for that; 1 where the circuit explains the sweep.</summary>
    public required double Widened { get; init; }

    /// <summary>Other tracings that explain the sweep much better, the best first; empty where the residual is noise.</summary>
    public required ImmutableArray<TracingFinding> Tracings { get; init; }

    /// <summary>The one thing to measure next; null where all is known well.</summary>
    public required NextMeasurement? Next { get; init; }

    /// <summary>What else must be said.</summary>
    public required ImmutableArray<FitRemark> Remarks { get; init; }

    /// <summary>Whether the run came to its end; false where it was cancelled and this is the best so far.</summary>
    public required bool IsComplete { get; init; }

    /// <summary>Share of the sweep's own variation that is left over, 0 to about 1.</summary>
    public required double Unexplained { get; init; }

    /// <summary>Whether the circuit explains so little of the sweep that the values say nothing.</summary>
    public bool ExplainsNothing => Unexplained > 0.35;

    /// <summary>The value of a number of a part; null where it was not looked for.</summary>
    public FittedValue? Of(string part, CircuitQuantity quantity) => Values.FirstOrDefault(v => v.Part == part && v.Quantity == quantity);
}
