namespace Spurless.Drawing.Responses;

/// <summary>Between which values a quantity lies at a frequency.</summary>
/// <param name="Hertz">Where.</param>
/// <param name="From">One end.</param>
/// <param name="To">The other.</param>
public readonly record struct PlotSpan(double Hertz, double From, double To);

/// <summary>A tolerance band: a wash with dotted edges.</summary>
/// <param name="Spans">By rising frequency, two at least.</param>
/// <param name="Words">What it is, for the legend: <c>90 % of those built</c>.</param>
public sealed record PlotBand(IReadOnlyList<PlotSpan> Spans, string Words);

/// <summary>
/// A demand on the curve. Of a needed attenuation a hatched bar hangs from 0 and the curve must pass below its end; of an allowed loss a
/// line of dots stands and the curve must stay above it. 'Below' and 'above' are those of the picture, whichever way its axis grows. What
/// is missing is solid.
/// </summary>
/// <param name="FromHz">Lower edge in hertz.</param>
/// <param name="ToHz">Upper edge in hertz; equal to the lower for one frequency.</param>
/// <param name="Edge">The value that decides, in the plot's own quantity: -25 for 25 dB needed in a plot of gain, 12 for 12 dB of return
/// loss.</param>
/// <param name="Below">Whether the curve must pass below it; else it must stay above.</param>
public sealed record PlotDemand(double FromHz, double ToHz, double Edge, bool Below);

/// <summary>A measured point: a diagonal cross, never joined to the next.</summary>
/// <param name="Hertz">Where.</param>
/// <param name="Value">In the plot's own quantity.</param>
public readonly record struct PlotReading(double Hertz, double Value);

/// <summary>What lies under and over the curve of a plot.</summary>
public sealed record PlotOverlay
{
    /// <summary>A tolerance band; null for none.</summary>
    public PlotBand? Band { get; init; }

    /// <summary>Demands on the curve.</summary>
    public IReadOnlyList<PlotDemand> Demands { get; init; } = [];

    /// <summary>Measured points.</summary>
    public IReadOnlyList<PlotReading> Measured { get; init; } = [];

    /// <summary>The same quantity of another network, over frequency in hertz: a dashed curve; null for none.</summary>
    public Func<double, double>? Beside { get; init; }

    /// <summary>Measured points of another network: upright crosses.</summary>
    public IReadOnlyList<PlotReading> BesideMeasured { get; init; } = [];

    /// <summary>What the other network is, for the legend.</summary>
    public string BesideWords { get; init; } = "beside it";

    /// <summary>What the measured points are, for the legend: <c>measured, tuesday.s2p</c>.</summary>
    public string MeasuredWords { get; init; } = "measured";
}
