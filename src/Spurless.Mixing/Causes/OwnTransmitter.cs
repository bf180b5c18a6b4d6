namespace Spurless.Mixing.Causes;

/// <summary>What sets a limit to our own carrier at the receiver.</summary>
public enum CarrierLimitKind
{
    /// <summary>Blocking of the receiver.</summary>
    Blocking,

    /// <summary>Noise of the receiver's oscillator, impressed on the carrier.</summary>
    OscillatorNoise,

    /// <summary>A product in which the carrier takes part.</summary>
    Product,
}

/// <summary>A limit that the own carrier must keep at the receiver.</summary>
/// <param name="Kind">What sets it.</param>
/// <param name="CarrierDbm">Highest level of the own carrier at the receiver's input, in dBm.</param>
/// <param name="Product">The product as its terms are written; null for the other kinds.</param>
public sealed record OwnCarrierLimit(CarrierLimitKind Kind, double CarrierDbm, string? Product = null);

/// <summary>What the duplexer between our own transmitter and receiver has to do, and does.</summary>
public sealed record DuplexerNeeds
{
    /// <summary>
    /// Isolation needed at the transmitter's frequency, output to receiver's input, against its carrier, in dB; null where the power or
    /// every limit is unknown.
    /// </summary>
    public required double? NeededAtTransmitDb { get; init; }

    /// <summary>The limit that sets it; null where every limit is unknown.</summary>
    public required OwnCarrierLimit? SetBy { get; init; }

    /// <summary>Isolation there is at the transmitter's frequency in dB; null where unknown.</summary>
    public required double? HasAtTransmitDb { get; init; }

    /// <summary>
    /// Isolation needed at the receiver's frequency against the transmitter's noise, in dB; null where power or noise are unknown.
    /// </summary>
    public required double? NeededAtReceiveDb { get; init; }

    /// <summary>Isolation there is at the receiver's frequency in dB; null where unknown.</summary>
    public required double? HasAtReceiveDb { get; init; }

    /// <summary>What was assumed.</summary>
    public IReadOnlyList<Assumption> Assumed { get; init; } = [];

    /// <summary>What is missing.</summary>
    public IReadOnlyList<MissingInput> Missing { get; init; } = [];
}

/// <summary>Our own transmitter beside our own receiver: its carrier on its frequency, its noise on ours.</summary>
public static class OwnTransmitter
{
    /// <summary>
    /// How far under the noise, or under the blocking point, a cause must lie to count as nothing, in dB: 0.41 dB of sensitivity.
    /// </summary>
    public const double MarginDb = 10;

    /// <summary>The isolation needed at both frequencies.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="name">The transmitter's name.</param>
    /// <param name="frequencyHz">Its frequency in hertz.</param>
    /// <param name="powerDbm">Its output power in dBm; null where unknown.</param>
    /// <param name="noise">Its sideband noise; null where unknown.</param>
    /// <param name="limits">What its carrier must keep under at the receiver's input.</param>
    /// <param name="hasAtTransmitDb">Loss from its output to the receiver's input at its frequency: duplexer, antennas, chain, selectivity;
    /// null where unknown.</param>
    /// <param name="hasAtReceiveDb">The same at the receiver's frequency.</param>
    /// <returns>Needed and existing isolation.</returns>
    /// <remarks>At the transmitter's frequency <c>P - lowest limit</c>; at the receiver's <c>P + noise in the bandwidth - (noise floor - 10
    /// dB)</c>. Common practice of duplexer specification. 44 dBm, -145 dBc/Hz, 8 kHz, floor -127 dBm: 75.0 dB.</remarks>
    public static DuplexerNeeds Needs(
        VictimReceiver receiver,
        string name,
        long frequencyHz,
        double? powerDbm,
        SidebandNoise? noise,
        IReadOnlyList<OwnCarrierLimit> limits,
        double? hasAtTransmitDb,
        double? hasAtReceiveDb)
    {
        long offset = receiver.FrequencyHz - frequencyHz;
        List<Assumption> assumed = [];
        List<MissingInput> missing = [];
        if (powerDbm is null)
        {
            missing.Add(TransmitterReach.NoPower(name));
        }

        if (noise is null)
        {
            missing.Add(new MissingInput(MissingKind.SidebandNoise, name) { FrequencyHz = offset });
        }
        else if (noise.AssumedAt(offset, name) is { } assumption)
        {
            assumed.Add(assumption);
        }

        OwnCarrierLimit? lowest = limits.MinBy(static l => l.CarrierDbm);
        return new DuplexerNeeds
        {
            NeededAtTransmitDb = powerDbm - lowest?.CarrierDbm,
            SetBy = lowest,
            HasAtTransmitDb = hasAtTransmitDb,
            NeededAtReceiveDb = powerDbm + noise?.IntegratedDbc(offset, receiver.IfBandwidthHz) - (receiver.NoiseFloorDbm - MarginDb),
            HasAtReceiveDb = hasAtReceiveDb,
            Assumed = assumed,
            Missing = missing,
        };
    }

    /// <summary>The limit that blocking sets: 10 dB under the blocking point.</summary>
    /// <param name="point">The receiver's blocking point.</param>
    public static OwnCarrierLimit ForBlocking(BlockingPoint point) => new(CarrierLimitKind.Blocking, point.LevelDbm - MarginDb);

    /// <summary>
    /// The limit that the receiver's own oscillator sets: its noise, impressed on the carrier, 10 dB under the noise floor.
    /// </summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="frequencyHz">The transmitter's frequency in hertz.</param>
    /// <param name="oscillatorNoise">The oscillator's noise.</param>
    public static OwnCarrierLimit ForOscillator(VictimReceiver receiver, long frequencyHz, SidebandNoise oscillatorNoise) => new(
        CarrierLimitKind.OscillatorNoise,
        receiver.NoiseFloorDbm - MarginDb - oscillatorNoise.IntegratedDbc(frequencyHz - receiver.FrequencyHz, receiver.IfBandwidthHz));

    /// <summary>The limit that a product of the receiver with the own carrier sets: the product 10 dB under the noise.</summary>
    /// <param name="mixture">The product in words.</param>
    /// <param name="coefficient">The own carrier's coefficient in it, not 0.</param>
    /// <param name="carrierDbm">Level of the own carrier at the receiver's input for which the product was computed, in dBm.</param>
    /// <param name="overNoiseDb">The product's level over noise then, in dB.</param>
    /// <remarks>The product moves |k| dB for each dB of the carrier.</remarks>
    public static OwnCarrierLimit ForProduct(string mixture, int coefficient, double carrierDbm, double overNoiseDb)
    {
        ArgumentOutOfRangeException.ThrowIfZero(coefficient);
        return new OwnCarrierLimit(CarrierLimitKind.Product, carrierDbm - ((overNoiseDb + MarginDb) / Math.Abs(coefficient)), mixture);
    }
}
