namespace Spurless.Signals.Spectra;

/// <summary>One line of a spectrum: an emitter as a sweep shows it.</summary>
public sealed record SpectrumLine
{
    /// <summary>Centre of its power in hertz.</summary>
    public required double FrequencyHz { get; init; }

    /// <summary>One sigma of it in hertz.</summary>
    public required double FrequencySigmaHz { get; init; }

    /// <summary>Width that holds 99 % of its power in hertz, less what the bin's own filter adds; 0 where it is narrower than can be
    /// seen.</summary>
    public required double BandwidthHz { get; init; }

    /// <summary>One sigma of it in hertz.</summary>
    public required double BandwidthSigmaHz { get; init; }

    /// <summary>Mean power while on in dBm.</summary>
    public required double LevelDbm { get; init; }

    /// <summary>One sigma of it in dB.</summary>
    public required double SigmaDb { get; init; }

    /// <summary>Share of the sweeps in which it was on.</summary>
    public required double OnShare { get; init; }

    /// <summary>One sigma of it.</summary>
    public required double OnShareSigma { get; init; }

    /// <summary>The first and the last bin that belong to it.</summary>
    public required (int First, int Last) Bins { get; init; }

    /// <summary>The channel it stands on, where one of a usual raster fits; null where none does.</summary>
    public RasterFit? Raster { get; init; }
}

/// <summary>A channel of a raster.</summary>
/// <param name="ChannelHz">Its centre in hertz.</param>
/// <param name="RasterHz">The raster: whole multiples of it are channels.</param>
public readonly record struct RasterFit(long ChannelHz, long RasterHz)
{
    // Usual rasters of land mobile, paging, marine and broadcasting services (common practice), coarsest first.
    private static readonly long[] Narrow = [25_000, 20_000, 12_500, 10_000, 6_250, 5_000];
    private static readonly long[] Wide = [100_000, 50_000];

    /// <summary>The coarsest usual raster of which a frequency is a channel, within what is known of the frequency; null where none is,
    /// or where the frequency is known too badly to say.</summary>
    /// <param name="frequencyHz">The frequency in hertz.</param>
    /// <param name="sigmaHz">One sigma of it.</param>
    /// <param name="bandwidthHz">The line's width: wide lines have wide rasters.</param>
    public static RasterFit? Of(double frequencyHz, double sigmaHz, double bandwidthHz)
    {
        foreach (long raster in bandwidthHz > 60_000 ? Wide : Narrow)
        {
            long channel = (long)Math.Round(frequencyHz / raster) * raster;
            double off = Math.Abs(frequencyHz - channel);

            // Two sigma, and never more than an eighth: more would fit by chance too often.
            if (2 * sigmaHz <= raster / 4.0 && off <= Math.Max(2 * sigmaHz, raster / 40.0) && off <= raster / 8.0)
            {
                return new RasterFit(channel, raster);
            }
        }

        return null;
    }
}
