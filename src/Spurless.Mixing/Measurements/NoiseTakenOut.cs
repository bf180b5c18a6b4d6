namespace Spurless.Mixing.Measurements;

/// <summary>A signal's own level from a reading that has the receiver's noise in it.</summary>
public static class NoiseTakenOut
{
    /// <summary>Readings over noise above this are hardly moved by it; at it the noise makes 0.4 dB of the reading.</summary>
    public const double ClearOfNoiseDb = 10;

    /// <summary>The signal over noise.</summary>
    /// <param name="reading">What was read over the noise alone, in dB, above 0: signal and noise together.</param>
    /// <returns>
    /// <c>10 lg(10^(x/10) - 1)</c> in dB: 3.01 dB read is 0 dB of signal, 22 dB is 21.97 dB. The error grows by
    /// <c>10^(x/10) / (10^(x/10) - 1)</c>, twice at 3.01 dB.
    /// </returns>
    /// <remarks>Powers of independent signals add.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The reading is not above 0: it holds no signal.</exception>
    public static MeasuredFigure SignalOverNoise(MeasuredFigure reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(reading.Value);
        double ratio = Math.Pow(10, reading.Value / 10);
        double grows = ratio / (ratio - 1);
        return new MeasuredFigure(
            10 * Math.Log10(ratio - 1), [.. reading.Errors.Select(e => e with { SigmaDb = grows * e.SigmaDb })]);
    }
}
