namespace Spurless.Mixing.Causes;

/// <summary>Another emitter's carrier as it arrives at the output stage of a transmitter.</summary>
public sealed record TransmitterArrival
{
    /// <summary>Level at the stage's output, coming in from outside, in dBm; null where unknown.</summary>
    public required double? LevelDbm { get; init; }

    /// <summary>One sigma in dB.</summary>
    public required double SigmaDb { get; init; }

    /// <summary>
    /// Output power of the emitter in dBm, from which the level comes; null where unknown or where the level was found otherwise.
    /// </summary>
    public double? PowerDbm { get; init; }

    /// <summary>Loss from its output to this transmitter's output in dB; null as above.</summary>
    public double? CouplingDb { get; init; }

    /// <summary>Loss of this transmitter's output filter inward in dB; 0 for none.</summary>
    public double OutputFilterDb { get; init; }

    /// <summary>Loss of its isolator backward in dB; 0 for none.</summary>
    public double IsolatorDb { get; init; }

    /// <summary>What was assumed.</summary>
    public IReadOnlyList<Assumption> Assumed { get; init; } = [];

    /// <summary>What is missing.</summary>
    public IReadOnlyList<MissingInput> Missing { get; init; } = [];

    /// <summary><c>P_i,A = P_i - coupling(i to A at f_i) - output filter(A at f_i) - isolator(A at f_i)</c>.</summary>
    /// <param name="from">Name of emitter i.</param>
    /// <param name="at">Name of transmitter A.</param>
    /// <param name="frequencyHz">f_i in hertz.</param>
    /// <param name="powerDbm">Output power P_i in dBm; null where unknown.</param>
    /// <param name="couplingDb">Loss from i's output to A's output at f_i in dB; null where neither measured nor computable.</param>
    /// <param name="sigmaDb">One sigma of the coupling in dB (2 measured, 8 predicted by default of the study).</param>
    /// <param name="outputFilterDb">Loss of A's output filter inward at f_i in dB; 0 for none.</param>
    /// <param name="isolator">A's isolator, backward, over frequency; null for none.</param>
    /// <param name="assumed">What the coupling's model assumed.</param>
    /// <returns>The arrival. 37 dBm over 45 dB: -8 dBm; with a 25 dB isolator -33 dBm.</returns>
    public static TransmitterArrival Compute(
        string from,
        string at,
        long frequencyHz,
        double? powerDbm,
        double? couplingDb,
        double sigmaDb,
        double outputFilterDb,
        FrequencyResponse? isolator,
        IReadOnlyList<Assumption>? assumed = null)
    {
        IReadOnlyList<Assumption> said = assumed ?? [];
        if (isolator?.HeldFromHz(frequencyHz) is { } stated)
        {
            said = [.. said, new Assumption(AssumptionKind.IsolatorElsewhere) { Of = at, FromHz = stated, ToHz = frequencyHz }];
        }

        MissingInput? power = powerDbm is null ? TransmitterReach.NoPower(from) : null;
        MissingInput? coupling = couplingDb is null
            ? new MissingInput(MissingKind.Coupling, from) { At = at, FrequencyHz = frequencyHz }
            : null;
        IReadOnlyList<MissingInput> missing = (power, coupling) switch
        {
            (null, null) => [],
            ({ } one, null) => [one],
            (null, { } one) => [one],
            _ => [power, coupling],
        };
        double isolation = isolator?.At(frequencyHz) ?? 0;
        return new TransmitterArrival
        {
            LevelDbm = powerDbm - couplingDb - outputFilterDb - isolation,
            SigmaDb = sigmaDb,
            PowerDbm = powerDbm,
            CouplingDb = couplingDb,
            OutputFilterDb = outputFilterDb,
            IsolatorDb = isolation,
            Assumed = said,
            Missing = missing,
        };
    }
}
