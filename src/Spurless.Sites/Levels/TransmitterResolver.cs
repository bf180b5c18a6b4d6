using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;
using Spurless.Radio.Paths;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Positions;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Levels;

/// <summary>The transmitters of a site as places where mixing happens, and how what they radiate arrives on a receiver's channel.</summary>
internal sealed class TransmitterResolver
{
    private readonly SiteDocument _site;
    private readonly Func<FileReference, Network> _networkOf;
    private readonly SiteTerrain? _terrain;
    private readonly (double? Dbm, LevelNote? Assumed)[] _powers;
    private IReadOnlyList<TransmitterStage>? _computable;
    private IReadOnlyList<TransmitterStage>? _usual;
    private IReadOnlyList<NotComputed>? _notComputed;

    /// <param name="site">The site.</param>
    /// <param name="networkOf">The circuit or sweep that a reference names.</param>
    /// <param name="terrain">The ground round the site; null where the site names no elevation files.</param>
    public TransmitterResolver(SiteDocument site, Func<FileReference, Network> networkOf, SiteTerrain? terrain)
    {
        (_site, _networkOf, _terrain) = (site, networkOf, terrain);
        _powers = [.. site.Emitters.Select(Power)];
        Stages = [.. site.Emitters.Select((e, i) => Stage(e, i))];
    }

    /// <summary>One output stage per emitter; what is unknown of it is null.</summary>
    public IReadOnlyList<TransmitterStage> Stages { get; }

    /// <summary>
    /// Those of which a product's level can be known: a power, a turn-round loss, and a signal that arrives with a known level.
    /// </summary>
    public IReadOnlyList<TransmitterStage> Computable =>
        _computable ??= [
            .. Stages.Where(
                static s => s.PowerDbm is not null && s.TurnRound is not null && s.Arrivals.Any(static a => a?.LevelDbm is not null)),
        ];

    /// <summary>Those that lack nothing but the turn-round loss, with the least that is usual: what they make at most.</summary>
    public IReadOnlyList<TransmitterStage> Usual => _usual ??=
    [
        .. Stages.Where(static s => s.PowerDbm is not null && s.TurnRound is null && s.Arrivals.Any(static a => a?.LevelDbm is not null))
            .Select(static s => s with { TurnRound = Mixing.Causes.TurnRoundLoss.EveryOrder(Mixing.Causes.TurnRoundLoss.LeastUsualDb) }),
    ];

    /// <summary>What cannot be computed for want of an input: an entry for each gap, not for each product.</summary>
    public IReadOnlyList<NotComputed> NotComputed => _notComputed ??= Gaps();

    private List<NotComputed> Gaps()
    {
        List<NotComputed> gaps = [];
        List<string> uncoupled = [];
        List<string> powerless = [];
        List<string> turnless = [];
        foreach (TransmitterStage stage in Stages)
        {
            ILookup<bool, TransmitterArrival> arrivals = stage.Arrivals.OfType<TransmitterArrival>().ToLookup(
                static a => a.CouplingDb is not null);
            if (stage.PowerDbm is null)
            {
                powerless.Add(stage.Name);
            }
            else if (!arrivals[true].Any())
            {
                uncoupled.Add(stage.Name);
            }
            else if (stage.TurnRound is null)
            {
                turnless.Add(stage.Name);
            }
            else
            {
                // What arrives over a known coupling lacks nothing but its emitter's power.
                string[] powers =
                [
                    .. arrivals[true].SelectMany(static a => a.Missing).Distinct().Select(static m => m.Of).OfType<string>(),
                ];
                if (powers.Length > 0)
                {
                    gaps.Add(new NotComputed(NotComputedKind.OutputPowers, [stage.Name], powers));
                }

                string[] others = [.. stage.Arrivals.Select((a, i) => a is { CouplingDb: null } ? Stages[i].Name : null).OfType<string>()];
                if (others.Length > 0)
                {
                    gaps.Add(new NotComputed(NotComputedKind.Arrivals, [stage.Name], others));
                }
            }
        }

        if (turnless.Count > 0)
        {
            gaps.Add(Levels.NotComputed.In(NotComputedKind.TurnRoundLoss, turnless));
        }

        if (Stages.Count > 1 && uncoupled.Count > 0)
        {
            gaps.Add(Levels.NotComputed.In(NotComputedKind.Couplings, uncoupled));
        }

        if (Stages.Count > 1 && powerless.Count > 0)
        {
            gaps.Add(Levels.NotComputed.In(NotComputedKind.PowersAndCouplings, powerless));
        }

        return gaps;
    }

    /// <summary>How an emitter arrives at a receiver's antenna connector on the receiver's channel.</summary>
    /// <param name="emitter">The emitter.</param>
    /// <param name="receiver">The receiver.</param>
    /// <param name="level">The level at which its carrier arrives there.</param>
    public TransmitterReach Reach(EmitterEntry emitter, ReceiverEntry receiver, ArrivingLevel level)
    {
        List<Assumption> assumed = [];
        TransmitterReach reach = TransmitterReach.FromMeasured(
            emitter.Name,
            level.AtAntennaDbm,
            level.SigmaDb ?? 0,
            emitter.Frequency.Hertz,
            receiver.Frequency.Hertz,
            FilterDb(emitter, emitter.Frequency.Hertz, assumed),
            FilterDb(emitter, receiver.Frequency.Hertz, assumed));
        return reach with { Assumed = [.. level.Assumed.Select(Assumption.Told), .. reach.Assumed, .. assumed] };
    }

    /// <summary>Loss of an emitter's output filter in dB; 0 for none, and outside its sweep, which is then said.</summary>
    public double FilterDb(EmitterEntry emitter, long frequencyHz, List<Assumption>? assumed = null)
    {
        if (emitter.OutputFilter is not { } file)
        {
            return 0;
        }

        Network network = _networkOf(file);
        Filter filter = new(network.Name, network.TwoPort, IsFilter: true);
        if (!filter.Covers(frequencyHz))
        {
            assumed?.Add(Assumption.Told(new LevelNote.OutputFilterEnds(emitter.Name, frequencyHz)));
            return 0;
        }

        return -Math.Max(-400, 20 * Math.Log10(filter.At(frequencyHz).S21.Magnitude));
    }

    private TransmitterStage Stage(EmitterEntry at, int index)
    {
        // Without a power nothing made there has a level, and what arrives is not asked for: of many emitters that would be their number
        // squared.
        TransmitterArrival?[] arrivals = new TransmitterArrival?[_site.Emitters.Count];
        if (_powers[index].Dbm is not null)
        {
            FrequencyResponse? isolator = Isolator(at);
            List<Assumption> said = [];
            for (int i = 0; i < arrivals.Length; i++)
            {
                arrivals[i] = i == index ? null : Arrival(i, index, isolator, said);
            }
        }

        return new TransmitterStage
        {
            Name = at.Name,
            Emitter = index,
            PowerDbm = _powers[index].Dbm,
            TurnRound = TurnRound(at.TurnRoundLoss),
            Arrivals = arrivals,
        };
    }

    // Runs for every pair of emitters, 90,000 times on a site of 300: nothing is made for a pair of which there is nothing to say, and
    // one list serves all of them.
    private TransmitterArrival Arrival(int fromIndex, int atIndex, FrequencyResponse? isolator, List<Assumption> assumed)
    {
        (EmitterEntry from, EmitterEntry at) = (_site.Emitters[fromIndex], _site.Emitters[atIndex]);
        assumed.Clear();
        foreach (int end in (ReadOnlySpan<int>)[fromIndex, atIndex])
        {
            if (_powers[end].Assumed is { } note)
            {
                assumed.Add(Assumption.Told(note));
            }
        }

        bool measured = at.Coupling.TryGetValue(from.Name, out Radio.Quantities.Decibels stated);
        double sigma = measured ? LevelUncertainty.MeasuredDb : LevelUncertainty.PredictedDb;
        double? coupling = measured ? stated.Value : OnOneStructure(from, at, assumed) ?? BetweenSites(from, at, assumed, ref sigma);
        double filter = FilterDb(at, from.Frequency.Hertz, assumed);
        return TransmitterArrival.Compute(
            from.Name,
            at.Name,
            from.Frequency.Hertz,
            _powers[fromIndex].Dbm,
            coupling,
            sigma,
            filter,
            isolator,
            assumed.Count == 0 ? null : [.. assumed]);
    }

    /// <summary>Output power: as stated, else from the radiated power where the antenna's gain is known.</summary>
    private static (double? Dbm, LevelNote? Assumed) Power(EmitterEntry emitter)
    {
        double? radiated = emitter.Eirp?.Dbm ?? emitter.Erp?.Dbm + Radio.Quantities.AntennaGain.DipoleDbi;
        return emitter.Power is { } power ? (power.Dbm, null)
            : radiated is { } eirp && emitter.Antenna?.Gain is { } gain
                ? (eirp - gain.Dbi + (emitter.Feedline?.Value ?? 0), new LevelNote.PowerFromRadiated(emitter.Name))
                : (null, null);
    }

    /// <summary>
    /// Loss between the outputs of two transmitters on different sites: the path that fits the geometry, both antennas' gains towards each
    /// other at f_i, both feedlines; null where a place is not known or the antennas are too near each other for it.
    /// </summary>
    private double? BetweenSites(EmitterEntry from, EmitterEntry at, List<Assumption> assumed, ref double sigma)
    {
        if (EmitterPositions.Between(_site, from, at) is not { } line)
        {
            return null;
        }

        List<LevelNote> said = [];
        PathGeometry geometry = new()
        {
            FrequencyHz = from.Frequency.Hertz,
            DistanceM = line.DistanceM,
            TransmitterHeightM = from.Antenna?.Height?.Metres,
            ReceiverHeightM = at.Antenna?.Height?.Metres,
            TransmitterGroundM = from.Ground?.Metres,
            ReceiverGroundM = at.Ground?.Metres,
            TransmitterGainDbi = Gains.Towards(
                from.Antenna, line.BearingDegrees, new LevelNote.GainNotGiven(PathEnd.Emitter, from.Name), said),
            ReceiverGainDbi = Gains.Towards(
                at.Antenna, line.BackDegrees, new LevelNote.GainNotGiven(PathEnd.Emitter, at.Name), said),
        };
        IPathModel? ground = OverGround(from, at, geometry, said);
        PathResult path = PathModels.Predict(ground, geometry);
        if (path is not { ConnectorLossDb: { } loss, Basis: { } basis })
        {
            return null;
        }

        // Over the ground the model knows its own spread.
        sigma = ground is null ? sigma : path.SigmaDb ?? sigma;
        LevelNote[] notes = [
            new LevelNote.Predicted(basis, path.Choice), .. said, .. path.Remarks.Select(static r => new LevelNote.OnPath(r)),
        ];
        assumed.AddRange(notes.Select(n => Assumption.Told(new LevelNote.OfCoupling(from.Name, at.Name, n))));
        return loss + (from.Feedline?.Value ?? 0) + (at.Feedline?.Value ?? 0);
    }

    /// <summary>The path over the ground between two transmitters, where elevation files cover it; else null, and why.</summary>
    private IPathModel? OverGround(EmitterEntry from, EmitterEntry at, PathGeometry geometry, List<LevelNote> said)
    {
        if (_terrain is null)
        {
            return null;
        }

        if (Place(from) is not { } here || Place(at) is not { } there)
        {
            said.Add(new LevelNote.GroundNotCounted(null));
            return null;
        }

        if (GroundPath.Of(here, there, geometry, _terrain, out string problem) is not { } path)
        {
            said.Add(new LevelNote.GroundNotCounted(problem));
            return null;
        }

        path = path with { Polarisation = from.Antenna?.Polarisation ?? at.Antenna?.Polarisation ?? Radio.Terrain.Polarisation.Vertical };
        return path.Model(path.Question(geometry), chosen: true);
    }

    /// <summary>Where an emitter stands; one on the site's own structure stands at the site.</summary>
    private GeoPoint? Place(EmitterEntry emitter) =>
        EmitterPositions.PointOf(_site, emitter)
            ?? (emitter is { Path.Model: PathModel.SameStructure, Distance: null } && _site.Place is { } place
                ? GeoPoint.Of(place.Latitude, place.Longitude)
                : null);

    /// <summary>
    /// Loss between the outputs of two transmitters whose antennas stand on one structure, by their heights; null where that is not known.
    /// </summary>
    private static double? OnOneStructure(EmitterEntry from, EmitterEntry at, List<Assumption> assumed)
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
        if (path is not { ConnectorLossDb: { } loss, Basis: { } basis })
        {
            return null;
        }

        LevelNote.Predicted how = new(basis, path.Choice);
        assumed.Add(Assumption.Told(new LevelNote.OfCoupling(from.Name, at.Name, how)));
        assumed.AddRange(path.Remarks.Select(static r => Assumption.Told(new LevelNote.OnPath(r))));
        return loss + (from.Feedline?.Value ?? 0) + (at.Feedline?.Value ?? 0);
    }

    private static FrequencyResponse? Isolator(EmitterEntry at) => at.Isolator switch
    {
        null => null,
        { Everywhere: { } one } => FrequencyResponse.Single(one.Value, at.Frequency.Hertz),
        { Points: var points } =>
            FrequencyResponse.FromPoints([.. points.Select(static p => new FrequencyResponsePoint(p.Frequency.Hertz, p.Value.Value))]),
    };

    private static TurnRoundLoss? TurnRound(TurnRoundLossEntry? entry) => entry switch
    {
        null => null,
        { EveryOrder: { } one } => TurnRoundLoss.EveryOrder(one.Value),
        { Points: var points } => TurnRoundLoss.ByOrder([.. points.Select(static p => new TurnRoundPoint(p.Order, p.Value.Value))]),
    };
}
