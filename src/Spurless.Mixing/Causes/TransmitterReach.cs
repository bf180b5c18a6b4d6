namespace Spurless.Mixing.Causes;

/// <summary>
/// How strongly a transmitter would arrive at the antenna connector if all its output power left on the victim's channel: the path that
/// noise, harmonics and products of that transmitter take. Everything it radiates there is this level less what the thing lies under its power.
/// </summary>
public sealed record TransmitterReach
{
    /// <summary>Output power less output filter (on the channel) less path, at the antenna connector, in dBm; null where unknown.</summary>
    public required double? ReferenceDbm { get; init; }

    /// <summary>Loss of its output filter on the channel in dB, contained in <see cref="ReferenceDbm"/>; 0 for none.</summary>
    public double OutputFilterDb { get; init; }

    /// <summary>One sigma in dB.</summary>
    public required double SigmaDb { get; init; }

    /// <summary>What was assumed, a sentence each.</summary>
    public IReadOnlyList<string> Assumed { get; init; } = [];

    /// <summary>What is missing.</summary>
    public IReadOnlyList<MissingInput> Missing { get; init; } = [];

    /// <summary>From the transmitter's own carrier as measured at the antenna connector. Its path, <c>P_A - output filter(f_A) - measured level</c>, is
    /// taken on the channel too; the power drops out.</summary>
    /// <param name="name">The transmitter's name.</param>
    /// <param name="levelDbm">Its carrier at the antenna connector in dBm; null where unknown.</param>
    /// <param name="sigmaDb">One sigma of that level in dB.</param>
    /// <param name="frequencyHz">Its frequency f_A in hertz.</param>
    /// <param name="channelHz">The channel's frequency in hertz.</param>
    /// <param name="outputFilterAtOwnDb">Loss of its output filter at f_A in dB; 0 for none.</param>
    /// <param name="outputFilterOnChannelDb">Loss of its output filter on the channel in dB; 0 for none.</param>
    /// <returns>The reach. -31 dBm without an output filter: -31 dBm, marked where the channel is over 3 % from f_A.</returns>
    /// <remarks>Physics: a linear path. Antennas and feedlines away from their band are not modelled: marked from 3 % on, as isolators are.</remarks>
    public static TransmitterReach FromMeasured(
        string name, double? levelDbm, double sigmaDb, long frequencyHz, long channelHz, double outputFilterAtOwnDb, double outputFilterOnChannelDb)
    {
        List<string> assumed = [];
        if (FrequencyCourse.Far(channelHz, frequencyHz))
        {
            assumed.Add($"path of {name}, measured at {Words.Megahertz(frequencyHz)}, taken at {Words.Megahertz(channelHz)} too");
        }

        return new TransmitterReach
        {
            ReferenceDbm = levelDbm + outputFilterAtOwnDb - outputFilterOnChannelDb,
            OutputFilterDb = outputFilterOnChannelDb,
            SigmaDb = sigmaDb,
            Assumed = assumed,
            Missing = levelDbm is null ? [NoPath(name)] : [],
        };
    }

    /// <summary>From the output power and a path that was computed for the channel's frequency.</summary>
    /// <param name="name">The transmitter's name.</param>
    /// <param name="powerDbm">Output power P_A in dBm; null where unknown.</param>
    /// <param name="pathLossDb">Loss from its output (behind the output filter) to the antenna connector on the channel, in dB, antennas and
    /// feedlines included; null where unknown.</param>
    /// <param name="sigmaDb">One sigma of the path in dB.</param>
    /// <param name="outputFilterOnChannelDb">Loss of its output filter on the channel in dB; 0 for none.</param>
    /// <param name="assumed">What the path model assumed.</param>
    /// <returns>The reach; unknown where power or path is.</returns>
    public static TransmitterReach FromPath(
        string name, double? powerDbm, double? pathLossDb, double sigmaDb, double outputFilterOnChannelDb, IReadOnlyList<string>? assumed = null)
    {
        List<MissingInput> missing = [];
        if (powerDbm is null)
        {
            missing.Add(NoPower(name));
        }

        if (pathLossDb is null)
        {
            missing.Add(NoPath(name));
        }

        return new TransmitterReach
        {
            ReferenceDbm = powerDbm - outputFilterOnChannelDb - pathLossDb,
            OutputFilterDb = outputFilterOnChannelDb,
            SigmaDb = sigmaDb,
            Assumed = assumed ?? [],
            Missing = missing,
        };
    }

    internal static MissingInput NoPower(string name) => new(
        $"output power of {name}", "read it from the licence, or measure it at the transmitter's output with a through-line wattmeter");

    private static MissingInput NoPath(string name) => new(
        $"path from {name} to this receiver",
        $"measure the level of {name} at the receiver's antenna connector with a spectrum analyser, or give its power, antenna and place");
}
