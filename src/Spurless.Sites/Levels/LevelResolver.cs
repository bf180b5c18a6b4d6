using Spurless.Mixing.Levels;
using Spurless.Radio.Paths;
using Spurless.Radio.Quantities;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Positions;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Levels;

/// <summary>The level at which an emitter arrives at a receiver's antenna connector: measured, else predicted, else unknown.</summary>
internal static class LevelResolver
{
    /// <summary>Resolves one level.</summary>
    /// <param name="site">The site, for positions.</param>
    /// <param name="emitter">The emitter.</param>
    /// <param name="receiver">The receiver.</param>
    /// <param name="chain">The receiver's chain, which refers a level measured further down to the antenna connector.</param>
    /// <param name="terrain">The ground round the site; null where the site names no elevation files.</param>
    public static ArrivingLevel Of(
        SiteDocument site, EmitterEntry emitter, ReceiverEntry receiver, ReceiveChain chain, SiteTerrain? terrain = null)
    {
        if (emitter.LevelAt(receiver.Name) is { } measured)
        {
            return Measured(measured.Dbm, emitter, receiver, chain);
        }

        List<LevelNote> assumed = [];
        double? transmitted = TransmittedDbm(emitter, assumed);
        PathGeometry geometry = Geometry(site, emitter, receiver, assumed);
        IPathModel? named = emitter.Path is { Model: not PathModel.Terrain } given ? Named(given) : null;
        if (named is null && transmitted is not null && (terrain is not null || emitter.Path is not null))
        {
            GroundPath? ground = GroundPath.Of(site, emitter, geometry, terrain, receiver.Antenna, out string problem);
            if (ground is null && emitter.Path is not null)
            {
                return Unknown(new LevelNote.NotPredicted(problem));
            }

            named = ground?.Model(ground.Question(geometry), chosen: emitter.Path is null);
            if (ground is null)
            {
                assumed.Add(new LevelNote.GroundNotCounted(problem));
            }
        }

        ReceivedLevel level = ReceivedLevel.Of(null, transmitted, named, geometry);
        if (level is not { Dbm: { } dbm, Path: { Basis: { } basis } path })
        {
            return Unknown(HowUnknown(level));
        }

        LevelNote how = new LevelNote.Predicted(basis, path.Choice);

        return new ArrivingLevel
        {
            AtAntennaDbm = dbm,
            Origin = LevelOrigin.Predicted,
            HowKnown = how,
            SigmaDb = emitter.Uncertainty?.Value ?? path.SigmaDb ?? LevelUncertainty.PredictedDb,
            Assumed = [how, .. assumed, .. path.Remarks.Select(static r => new LevelNote.OnPath(r))],
        };
    }

    /// <summary>Why a level is not known.</summary>
    internal static LevelNote HowUnknown(ReceivedLevel level) =>
        level.Path is { } path ? new LevelNote.NotPredicted(path.Refused ?? "") : new LevelNote.NothingGiven();

    private static ArrivingLevel Unknown(LevelNote how) =>
        new() { AtAntennaDbm = null, Origin = LevelOrigin.Unknown, HowKnown = how, SigmaDb = null, Assumed = [how] };

    private static ArrivingLevel Measured(double dbm, EmitterEntry emitter, ReceiverEntry receiver, ReceiveChain chain)
    {
        double gain = receiver.LevelsAt switch
        {
            LevelsAt.FeedlineEnd => chain.GainToFeedlineEndDb(emitter.Frequency.Hertz),
            LevelsAt.Receiver => chain.GainToReceiverInputDb(emitter.Frequency.Hertz),
            _ => 0,
        };
        return new ArrivingLevel
        {
            AtAntennaDbm = dbm - gain,
            Origin = LevelOrigin.Measured,
            HowKnown = new LevelNote.Measured(receiver.LevelsAt),
            SigmaDb = emitter.Uncertainty?.Value ?? LevelUncertainty.MeasuredDb,
        };
    }

    /// <summary>Power at the transmitting antenna's connector; a radiated power counts as such with an isotropic antenna.</summary>
    internal static double? TransmittedDbm(EmitterEntry emitter, List<LevelNote> assumed)
    {
        if (emitter.Eirp is { } eirp)
        {
            return eirp.Dbm;
        }

        if (emitter.Erp is { } erp)
        {
            return erp.Dbm + AntennaGain.DipoleDbi;
        }

        if (emitter.Power is not { } power)
        {
            return null;
        }

        if (emitter.Feedline is null)
        {
            assumed.Add(new LevelNote.NoFeedlineLoss());
        }

        return power.Dbm - (emitter.Feedline?.Value ?? 0);
    }

    internal static PathGeometry Geometry(SiteDocument site, EmitterEntry emitter, ReceiverEntry receiver, List<LevelNote> assumed)
    {
        (double? distance, double? bearing) = EmitterPositions.FromSite(site, emitter);
        bool radiated = emitter.Eirp is not null || emitter.Erp is not null;
        double transmitterGain = radiated
            ? -Gains.OffAxisDb(emitter.Antenna, EmitterPositions.Back(bearing))
            : Gains.Towards(emitter.Antenna, EmitterPositions.Back(bearing), new LevelNote.GainNotGiven(PathEnd.Emitter), assumed);
        return new PathGeometry
        {
            FrequencyHz = emitter.Frequency.Hertz,
            DistanceM = distance,
            TransmitterHeightM = emitter.Antenna?.Height?.Metres,
            ReceiverHeightM = receiver.Antenna?.Height?.Metres,
            TransmitterGroundM = emitter.Ground?.Metres,
            ReceiverGroundM = site.Place?.Ground?.Metres,
            TransmitterGainDbi = transmitterGain,
            ReceiverGainDbi = Gains.Towards(receiver.Antenna, bearing, new LevelNote.GainNotGiven(PathEnd.Receiver), assumed),
        };
    }

    private static IPathModel? Named(PathEntry? path) => path?.Model switch
    {
        null => null,
        PathModel.FreeSpace => FreeSpace.Model,
        PathModel.PlaneEarth => PlaneEarth.Model,
        PathModel.HataUrban => OkumuraHata.Urban,
        PathModel.HataSuburban => OkumuraHata.Suburban,
        PathModel.HataOpen => OkumuraHata.Open,
        PathModel.Obstacle => KnifeEdge.Over(path.ObstacleHeight?.Metres ?? 0, path.ObstacleDistance?.Metres ?? 1),
        _ => SameStructure.Spaced(path.Vertical?.Metres ?? 0, path.Horizontal?.Metres ?? 0),
    };
}
