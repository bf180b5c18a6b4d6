using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Sites.Studies;

/// <summary>Every place that can make a product on one receiver, with the level of that place alone.</summary>
internal sealed class ProductPlaces(ReceiverSetup receiver, ProductScorer scorer, IReadOnlyList<TransmitterStage> transmitters)
{
    private static readonly MixingPlace Outside = new() { Mechanism = Mechanism.Outside, Name = null };

    private readonly Dictionary<int, TransmitterStage> _transmitters = transmitters.ToDictionary(static t => t.Emitter);

    /// <summary>The places: active stages, antenna first; the transmitters of the product's emitters, in their order; outside.</summary>
    /// <param name="record">The product as it was found; one found in a transmitter serves as well.</param>
    /// <param name="terms">Its terms, in the order of the results.</param>
    /// <param name="frequencyHz">Its frequency in hertz.</param>
    public IReadOnlyList<MixingPlace> Of(in ProductRecord record, Term[] terms, long frequencyHz)
    {
        List<MixingPlace> places = [];
        bool known = Array.TrueForAll(terms, t => receiver.Levels[t.Emitter].AtAntennaDbm is not null);
        for (int s = 0; s < receiver.Chain.ActiveStages.Count; s++)
        {
            places.Add(new MixingPlace
            {
                Mechanism = Mechanism.Receiver,
                Stage = s,
                Name = receiver.Chain.ActiveStages[s].Name,
                LevelDbm = known ? MicroDb.ToDecibels(scorer.AtStage(record, s, frequencyHz)) : null,
                SigmaDb = known ? SigmaDb(record.Order, s, terms) : null,
            });
        }

        // A transmitter alone makes harmonics of its carrier, which are a cause of their own.
        foreach (Term term in terms.Length > 1 ? terms : [])
        {
            places.Add(InTransmitter(term, terms, record.Order));
        }

        places.Add(Outside);
        return places;
    }

    private double SigmaDb(int order, int stage, Term[] terms) => LevelUncertainty.SigmaDb(
        [.. terms.Select(static t => t.Coefficient)],
        [.. terms.Select(t => receiver.Levels[t.Emitter].SigmaDb ?? 0)],
        receiver.CommonSigmaDb,
        receiver.Chain.ActiveStages[stage].Intercepts.SigmaDb(order));

    private MixingPlace InTransmitter(Term maker, Term[] terms, int order)
    {
        MixingPlace place = new() { Mechanism = Mechanism.Transmitter, Emitter = maker.Emitter, Name = maker.Name };
        if (!_transmitters.TryGetValue(maker.Emitter, out TransmitterStage? stage) || stage.TurnRound is not { } turnRound
            || receiver.Reaches[maker.Emitter].ReferenceDbm is not { } reach)
        {
            return place;
        }

        // Rounded figure by figure, as the search does it: a row of the list and the place it names say the same to the last digit.
        long level = MicroDb.Clamped(reach + receiver.Chain.GainToReceiverInputDb(receiver.FrequencyHz)) - MicroDb.Clamped(
            turnRound.At(order));
        double variance = Square(receiver.Reaches[maker.Emitter].SigmaDb) + Square(turnRound.SigmaDb(order))
            + Square(receiver.CommonSigmaDb);
        foreach (Term term in terms)
        {
            if (term.Emitter == maker.Emitter)
            {
                continue;
            }

            if (stage.UnderPowerDb(term.Emitter) is not { } under)
            {
                return place;
            }

            level -= Math.Abs(term.Coefficient) * (long)MicroDb.Clamped(under);
            variance += Square(term.Coefficient * stage.Arrivals[term.Emitter]!.SigmaDb);
        }

        return place with { LevelDbm = MicroDb.ToDecibels(level), SigmaDb = Math.Sqrt(variance) };
    }

    private static double Square(double x) => x * x;
}
