namespace Spurless.Mixing.Causes;

/// <summary>
/// How strongly a transmitter would arrive at the antenna connector if all its output power left on the victim's channel: the path that
/// noise, harmonics and products of that transmitter take. Everything it radiates there is this level less what the thing lies under its
/// power.
/// </summary>
public sealed record TransmitterReach
{
    /// <summary>A path measured farther away than this fraction of its frequency is not known on the channel (our choice).</summary>
    public const double ElsewhereFraction = 0.1;

    /// <summary>What such a path adds to one sigma, in squares, in dB (our choice).</summary>
    public const double ElsewhereSigmaDb = 10;

    /// <summary>Output power less output filter (on the channel) less path, at the antenna connector, in dBm; null where unknown.</summary>
    public required double? ReferenceDbm { get; init; }

    /// <summary>
    /// The most that <see cref="ReferenceDbm"/> can be where its path was measured over a tenth of the frequency away and is therefore not
    /// known, in dBm; null where the path is known, or nothing is.
    /// </summary>
    public double? AtMostDbm { get; init; }

    /// <summary>Loss of its output filter on the channel in dB, contained in <see cref="ReferenceDbm"/>; 0 for none.</summary>
    public double OutputFilterDb { get; init; }

    /// <summary>One sigma in dB.</summary>
    public required double SigmaDb { get; init; }

    /// <summary>What was assumed.</summary>
    public IReadOnlyList<Assumption> Assumed { get; init; } = [];

    /// <summary>What is missing.</summary>
    public IReadOnlyList<MissingInput> Missing { get; init; } = [];

    /// <summary>From the transmitter's own carrier as measured at the antenna connector. Its path, <c>P_A - output filter(f_A) - measured
    /// level</c>, is taken on the channel too; the power drops out.</summary>
    /// <param name="name">The transmitter's name.</param>
    /// <param name="levelDbm">Its carrier at the antenna connector in dBm; null where unknown.</param>
    /// <param name="sigmaDb">One sigma of that level in dB.</param>
    /// <param name="frequencyHz">Its frequency f_A in hertz.</param>
    /// <param name="channelHz">The channel's frequency in hertz.</param>
    /// <param name="outputFilterAtOwnDb">Loss of its output filter at f_A in dB; 0 for none.</param>
    /// <param name="outputFilterOnChannelDb">Loss of its output filter on the channel in dB; 0 for none.</param>
    /// <returns>The reach. -31 dBm without an output filter: -31 dBm, marked where the channel is over 3 % from f_A.</returns>
    /// <remarks>
    /// Physics: a linear path. Antennas and feedlines away from their band are not modelled: marked from 3 % on, as isolators are. From 10
    /// %
    /// on the path counts as not known: sigma is 10 dB more, in squares, and <see cref="AtMostDbm"/> bounds it by free space, both antennas
    /// with no more gain than in their own bands (common practice): 20 lg(f_A / f_r) more on a channel under f_A, nothing more above.
    /// </remarks>
    public static TransmitterReach FromMeasured(
        string name,
        double? levelDbm,
        double sigmaDb,
        long frequencyHz,
        long channelHz,
        double outputFilterAtOwnDb,
        double outputFilterOnChannelDb)
    {
        List<Assumption> assumed = [];
        if (FrequencyResponse.Far(channelHz, frequencyHz))
        {
            assumed.Add(new Assumption(AssumptionKind.PathElsewhere) { Of = name, FromHz = frequencyHz, ToHz = channelHz });
        }

        double? reference = levelDbm + outputFilterAtOwnDb - outputFilterOnChannelDb;
        bool elsewhere = Math.Abs(channelHz - frequencyHz) > ElsewhereFraction * frequencyHz;
        return new TransmitterReach
        {
            ReferenceDbm = reference,
            AtMostDbm = elsewhere ? reference + Math.Max(0, 20 * Math.Log10((double)frequencyHz / channelHz)) : null,
            OutputFilterDb = outputFilterOnChannelDb,
            SigmaDb = elsewhere ? Math.Sqrt((sigmaDb * sigmaDb) + (ElsewhereSigmaDb * ElsewhereSigmaDb)) : sigmaDb,
            Assumed = assumed,
            Missing = levelDbm is null ? [NoPath(name)] : [],
        };
    }

    internal static MissingInput NoPower(string name) => new(MissingKind.OutputPower, name);

    private static MissingInput NoPath(string name) => new(MissingKind.Path, name);
}
