namespace Spurless.Mixing.Causes;

/// <summary>A frequency other than the channel at which a superheterodyne answers.</summary>
/// <remarks>A signal at f answers where its p-th harmonic and the oscillator's q-th differ or add to the intermediate frequency:
/// <c>f = |q f_LO +- f_IF| / p</c>; of the second conversion, at the frequency that the first turns into that one.</remarks>
public sealed record SuperhetResponse
{
    /// <summary>Cause word: image, half-IF or another response.</summary>
    public required CauseKind Cause { get; init; }

    /// <summary>1 or 2: the conversion that answers.</summary>
    public required int Conversion { get; init; }

    /// <summary>Harmonic of the signal, 1 or more: the signal's deviation counts so many times.</summary>
    public required int P { get; init; }

    /// <summary>Harmonic of the oscillator, 0 or more; 0 is a signal that passes the mixer unconverted.</summary>
    public required int Q { get; init; }

    /// <summary>p times the frequency in hertz: kept whole, for f itself need not be.</summary>
    public required long TimesPHz { get; init; }

    /// <summary>Whether it rests on a side of the second oscillator that was not stated.</summary>
    public bool SideAssumed { get; init; }

    /// <summary>Whether it is an intermediate frequency itself.</summary>
    public bool AtIntermediate { get; init; }

    /// <summary>The frequency in hertz.</summary>
    public double FrequencyHz => TimesPHz / (double)P;

    /// <summary>Whether a carrier can hit it: <c>2 |p f - p f_s| &lt;= B + p b</c>.</summary>
    /// <param name="frequencyHz">The carrier in hertz.</param>
    /// <param name="bandwidthHz">Its occupied bandwidth in hertz.</param>
    /// <param name="channelHz">Raster of the channel in hertz.</param>
    public bool HitBy(long frequencyHz, long bandwidthHz, long channelHz) =>
        2 * Math.Abs((P * frequencyHz) - TimesPHz) <= channelHz + (P * bandwidthHz);
}
