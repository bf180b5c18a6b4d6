using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;
using Spurless.Radio.Paths;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Levels;

/// <summary>The transmitters of a site as places where mixing happens, and how what they radiate arrives on a receiver's channel.</summary>
internal sealed class TransmitterResolver
{
    // So many names stand in a sentence before the rest is counted.
    private const int Named = 6;

    private readonly LoadedSite _site;

    public TransmitterResolver(LoadedSite site)
    {
        _site = site;
        Stages = [.. site.Document.Emitters.Select((e, i) => Stage(e, i))];
    }

    /// <summary>One output stage per emitter; what is unknown of it is null.</summary>
    public IReadOnlyList<TransmitterStage> Stages { get; }

    /// <summary>Those of which a product's level can be known: a power, a turn-round loss, and a signal that arrives with a known level.</summary>
    public IReadOnlyList<TransmitterStage> Computable =>
        [.. Stages.Where(static s => s.PowerDbm is not null && s.TurnRound is not null && s.Arrivals.Any(static a => a?.LevelDbm is not null))];

    /// <summary>What cannot be computed for want of an input, with the measurement that would supply it: a sentence for each gap, not for each product.</summary>
    public IReadOnlyList<string> NotComputed()
    {
        List<string> notes = [];
        List<string> uncoupled = [];
        List<string> powerless = [];
        foreach (TransmitterStage stage in Stages)
        {
            List<TransmitterArrival> coupled = [.. stage.Arrivals.OfType<TransmitterArrival>().Where(static a => a.Missing.All(static m => !m.What.StartsWith("coupling ", StringComparison.Ordinal)))];
            if (stage.PowerDbm is null)
            {
                powerless.Add(stage.Name);
                continue;
            }

            if (coupled.Count == 0)
            {
                uncoupled.Add(stage.Name);
                continue;
            }

            List<MissingInput> missing = [.. coupled.SelectMany(static a => a.Missing)];
            if (stage.TurnRound is null)
            {
                missing.Add(new MissingInput(
                    $"turn-round loss of {stage.Name}",
                    "feed a weak signal into its output through a coupler or circulator and read the product 2A-B against it on an analyser"));
            }

            notes.AddRange(missing.Distinct().Select(m => $"Products made in the transmitter of {stage.Name} are not all known, for want of: {m.What}. To know it, {m.Measurement}."));
        }

        if (Stages.Count > 1 && uncoupled.Count > 0)
        {
            notes.Add($"Products made in {Of(uncoupled)} are not known: how strongly the other transmitters arrive at {(uncoupled.Count == 1 ? "its output" : "their outputs")} is not stated. "
                + "To know it, measure each at that output line, the transmitter off and its line ended in the analyser, and write it as coupling.");
        }

        if (Stages.Count > 1 && powerless.Count > 0)
        {
            notes.Add($"Products made in {Of(powerless)} are not known: output power and couplings are not stated. "
                + "To know them, read the power from the licence and measure the coupling at the output line.");
        }

        return notes;
    }

    /// <summary>How an emitter arrives at a receiver's antenna connector on the receiver's channel.</summary>
    /// <param name="emitter">The emitter.</param>
    /// <param name="receiver">The receiver.</param>
    /// <param name="level">The level at which its carrier arrives there.</param>
    public TransmitterReach Reach(EmitterEntry emitter, ReceiverEntry receiver, ArrivingLevel level)
    {
        List<string> assumed = [];
        TransmitterReach reach = TransmitterReach.FromMeasured(
            emitter.Name,
            level.AtAntennaDbm,
            level.SigmaDb ?? 0,
            emitter.Frequency.Hertz,
            receiver.Frequency.Hertz,
            FilterDb(emitter, emitter.Frequency.Hertz, assumed),
            FilterDb(emitter, receiver.Frequency.Hertz, assumed));
        return reach with { Assumed = [.. level.Assumed, .. reach.Assumed, .. assumed] };
    }

    /// <summary>Loss of an emitter's output filter in dB; 0 for none, and outside its sweep, which is then said.</summary>
    public double FilterDb(EmitterEntry emitter, long frequencyHz, List<string>? assumed = null)
    {
        if (emitter.OutputFilter is not { } file)
        {
            return 0;
        }

        Network network = _site.Of(file);
        Filter filter = new(network.Name, network.TwoPort, IsFilter: true);
        if (!filter.Covers(frequencyHz))
        {
            assumed?.Add($"output filter of {emitter.Name}: {frequencyHz / 1e6:0.0000##} MHz is outside its sweep, so nothing is counted as attenuated there");
            return 0;
        }

        return -Math.Max(-400, 20 * Math.Log10(filter.At(frequencyHz).S21.Magnitude));
    }

    private TransmitterStage Stage(EmitterEntry at, int index) => new()
    {
        Name = at.Name,
        Emitter = index,
        PowerDbm = at.Power?.Dbm,
        TurnRound = TurnRound(at.TurnRoundLoss),
        Arrivals = [.. _site.Document.Emitters.Select((from, i) => i == index ? null : Arrival(from, at))],
    };

    private TransmitterArrival Arrival(EmitterEntry from, EmitterEntry at)
    {
        List<string> assumed = [];
        bool measured = at.Coupling.TryGetValue(from.Name, out Radio.Quantities.Decibels stated);
        double? coupling = measured ? stated.Value : OnOneStructure(from, at, assumed);
        double filter = FilterDb(at, from.Frequency.Hertz, assumed);
        return TransmitterArrival.Compute(
            from.Name,
            at.Name,
            from.Frequency.Hertz,
            from.Power?.Dbm,
            coupling,
            measured ? LevelUncertainty.MeasuredDb : LevelUncertainty.PredictedDb,
            filter,
            Isolator(at),
            assumed);
    }

    /// <summary>Loss between the outputs of two transmitters whose antennas stand on one structure, by their heights; null where that is not known.</summary>
    private static double? OnOneStructure(EmitterEntry from, EmitterEntry at, List<string> assumed)
    {
        if (from.Path?.Model != PathModel.SameStructure || at.Path?.Model != PathModel.SameStructure
            || from.Antenna?.Height is not { } one || at.Antenna?.Height is not { } other)
        {
            return null;
        }

        double sideways = Math.Abs((from.Path.Horizontal?.Metres ?? 0) - (at.Path.Horizontal?.Metres ?? 0));
        PathResult path = SameStructure.Spaced(Math.Abs(one.Metres - other.Metres), sideways).Predict(new PathGeometry
        {
            FrequencyHz = from.Frequency.Hertz,
            TransmitterHeightM = one.Metres,
            ReceiverHeightM = other.Metres,
            TransmitterGainDbi = from.Antenna.Gain?.Dbi ?? 0,
            ReceiverGainDbi = at.Antenna.Gain?.Dbi ?? 0,
        });
        if (path.ConnectorLossDb is not { } loss)
        {
            return null;
        }

        assumed.Add($"coupling from {from.Name} to {at.Name}: {path.How}, by their heights");
        assumed.AddRange(path.Assumed);
        return loss + (from.Feedline?.Value ?? 0) + (at.Feedline?.Value ?? 0);
    }

    private static FrequencyCourse? Isolator(EmitterEntry at) => at.Isolator switch
    {
        null => null,
        { Everywhere: { } one } => FrequencyCourse.Single(one.Value, at.Frequency.Hertz),
        { Points: var points } => FrequencyCourse.FromPoints([.. points.Select(static p => new CoursePoint(p.Frequency.Hertz, p.Value.Value))]),
    };

    private static TurnRoundLoss? TurnRound(TurnRoundLossEntry? entry) => entry switch
    {
        null => null,
        { EveryOrder: { } one } => TurnRoundLoss.EveryOrder(one.Value),
        { Points: var points } => TurnRoundLoss.ByOrder([.. points.Select(static p => new TurnRoundPoint(p.Order, p.Value.Value))]),
    };

    private static string Of(List<string> names)
    {
        string who = names.Count > Named
            ? string.Join(", ", names.Take(Named)) + FormattableString.Invariant($" and {names.Count - Named} more")
            : names.Count == 1 ? names[0] : string.Join(", ", names.Take(names.Count - 1)) + " and " + names[^1];
        return (names.Count == 1 ? "the transmitter of " : "the transmitters of ") + who;
    }
}
