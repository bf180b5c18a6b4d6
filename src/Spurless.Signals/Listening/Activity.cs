using Spurless.Signals.Recognition;

namespace Spurless.Signals.Listening;

/// <summary>Something that was on the air in a recorded band: where, how wide, from when to when.</summary>
internal sealed class Activity
{
    /// <summary>Lower edge, in hertz from the centre.</summary>
    public required double LowHz { get; set; }

    /// <summary>Upper edge.</summary>
    public required double HighHz { get; set; }

    /// <summary>First and last moment, in seconds from the capture's start.</summary>
    public required Span Span { get; set; }

    /// <summary>Mean power over its width while on, in linear full scale.</summary>
    public double Power { get; set; }

    /// <summary>Noise power a hertz round it.</summary>
    public double NoisePerHz { get; set; }

    /// <summary>The middle of its edges.</summary>
    public double MiddleHz => (LowHz + HighHz) / 2;

    /// <summary>Its width.</summary>
    public double WidthHz => HighHz - LowHz;
}
