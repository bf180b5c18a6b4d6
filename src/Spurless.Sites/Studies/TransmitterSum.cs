using Spurless.Mixing.Causes;

namespace Spurless.Sites.Studies;

/// <summary>Another emitter's carrier on its way into the output stage of a transmitter.</summary>
/// <param name="Emitter">The emitter's name.</param>
/// <param name="FrequencyHz">Its frequency in hertz.</param>
/// <param name="Times">How many times it takes part, 1 or more.</param>
/// <param name="PowerDbm">Its output power in dBm.</param>
/// <param name="CouplingDb">Loss from its output to the transmitter's output, in dB.</param>
/// <param name="OutputFilterDb">Loss of the transmitter's output filter inward, in dB; 0 for none.</param>
/// <param name="IsolatorDb">Loss of the transmitter's isolator backward, in dB; 0 for none.</param>
/// <param name="ArrivesDbm">Level that arrives at the stage: power less the three losses, in dBm.</param>
/// <param name="SigmaDb">One sigma of that level in dB.</param>
public sealed record IncomingCarrier(
    string Emitter,
    long FrequencyHz,
    int Times,
    double PowerDbm,
    double CouplingDb,
    double OutputFilterDb,
    double IsolatorDb,
    double ArrivesDbm,
    double SigmaDb);

/// <summary>
/// The level of a product made in a transmitter, part by part: <c>P_A - sum |k_i| (P_A - P_i,A) - turn-round - output filter</c> leaves,
/// less the path it stands at the antenna connector, plus the chain's gain at the receiver's input.
/// </summary>
public sealed record TransmitterSum
{
    /// <summary>The transmitter's name.</summary>
    public required string Transmitter { get; init; }

    /// <summary>Its output power in dBm.</summary>
    public required double PowerDbm { get; init; }

    /// <summary>The other emitters of the product.</summary>
    public required IReadOnlyList<IncomingCarrier> Incoming { get; init; }

    /// <summary>Turn-round loss of the product's order in dB.</summary>
    public required double TurnRoundLossDb { get; init; }

    /// <summary>One sigma of it in dB.</summary>
    public required double TurnRoundSigmaDb { get; init; }

    /// <summary>Loss of the transmitter's output filter outward on the channel in dB; 0 for none.</summary>
    public required double OutputFilterDb { get; init; }

    /// <summary>Level that leaves the transmitter, behind its output filter, in dBm.</summary>
    public required double LeavesDbm { get; init; }

    /// <summary>Loss from there to the antenna connector in dB.</summary>
    public required double PathDb { get; init; }

    /// <summary>One sigma of it in dB.</summary>
    public required double PathSigmaDb { get; init; }

    /// <summary>Level at the antenna connector in dBm.</summary>
    public required double AtAntennaDbm { get; init; }

    /// <summary>Gain from the antenna connector to the receiver's input on the channel in dB; negative for a loss.</summary>
    public required double ChainGainDb { get; init; }

    /// <summary>Puts the parts together; null where one is unknown.</summary>
    internal static TransmitterSum? Of(
        TransmitterStage maker, IReadOnlyList<Term> terms, TransmitterProductLevel level, TransmitterReach reach, double chainGainDb)
    {
        if (maker is not { PowerDbm: { } power, TurnRound: { } turnRound }
            || level is not { LeavesDbm: { } leaves, AtAntennaDbm: { } arrives })
        {
            return null;
        }

        List<IncomingCarrier> incoming = [];
        foreach (Term term in terms.Where(t => t.Emitter != maker.Emitter))
        {
            if (maker.Arrivals[term.Emitter] is not { LevelDbm: { } at, PowerDbm: { } from, CouplingDb: { } coupling } arrival)
            {
                return null;
            }

            incoming.Add(new IncomingCarrier(
                term.Name, term.FrequencyHz, Math.Abs(term.Coefficient), from, coupling, arrival.OutputFilterDb, arrival.IsolatorDb, at,
                arrival.SigmaDb));
        }

        int order = terms.Sum(static t => Math.Abs(t.Coefficient));
        return new TransmitterSum
        {
            Transmitter = maker.Name,
            PowerDbm = power,
            Incoming = incoming,
            TurnRoundLossDb = turnRound.At(order),
            TurnRoundSigmaDb = turnRound.SigmaDb(order),
            OutputFilterDb = reach.OutputFilterDb,
            LeavesDbm = leaves,
            PathDb = leaves - arrives,
            PathSigmaDb = reach.SigmaDb,
            AtAntennaDbm = arrives,
            ChainGainDb = chainGainDb,
        };
    }
}
