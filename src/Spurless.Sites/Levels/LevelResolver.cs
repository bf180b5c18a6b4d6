using Spurless.Mixing.Levels;
using Spurless.Radio.Paths;
using Spurless.Radio.Quantities;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Levels;

/// <summary>The level at which an emitter arrives at a receiver's antenna connector: measured, else predicted, else unknown.</summary>
internal static class LevelResolver
{
    // A half-wave dipole over an isotropic antenna.
    private const double DipoleDbi = 2.15;

    /// <summary>Resolves one level.</summary>
    /// <param name="site">The site, for positions.</param>
    /// <param name="emitter">The emitter.</param>
    /// <param name="receiver">The receiver.</param>
    /// <param name="chain">The receiver's chain, which refers a level measured further down to the antenna connector.</param>
    public static ArrivingLevel Of(SiteDocument site, EmitterEntry emitter, ReceiverEntry receiver, ReceiveChain chain)
    {
        if (emitter.LevelAt(receiver.Name) is { } measured)
        {
            return Measured(measured.Dbm, emitter, receiver, chain);
        }

        List<string> assumed = [];
        double? transmitted = TransmittedDbm(emitter, assumed);
        PathGeometry geometry = Geometry(site, emitter, receiver, assumed);
        ReceivedLevel level = ReceivedLevel.Of(null, transmitted, Named(emitter.Path), geometry);
        if (level.Dbm is not { } dbm)
        {
            return new ArrivingLevel { AtAntennaDbm = null, Origin = LevelOrigin.Unknown, HowKnown = level.How, SigmaDb = null, Assumed = [level.How] };
        }

        return new ArrivingLevel
        {
            AtAntennaDbm = dbm,
            Origin = LevelOrigin.Predicted,
            HowKnown = level.How,
            SigmaDb = emitter.Uncertainty?.Value ?? LevelUncertainty.PredictedDb,
            Assumed = [level.How, .. assumed, .. level.Assumed],
        };
    }

    private static ArrivingLevel Measured(double dbm, EmitterEntry emitter, ReceiverEntry receiver, ReceiveChain chain)
    {
        (double gain, string where) = receiver.LevelsAt switch
        {
            LevelsAt.FeedlineEnd => (chain.GainToFeedlineEndDb(emitter.Frequency.Hertz), "measured at the feedline's end"),
            LevelsAt.Receiver => (chain.GainToReceiverInputDb(emitter.Frequency.Hertz), "measured at the receiver"),
            _ => (0, "measured"),
        };
        return new ArrivingLevel
        {
            AtAntennaDbm = dbm - gain,
            Origin = LevelOrigin.Measured,
            HowKnown = where,
            SigmaDb = emitter.Uncertainty?.Value ?? LevelUncertainty.MeasuredDb,
        };
    }

    /// <summary>Power at the transmitting antenna's connector; a radiated power counts as such with an isotropic antenna.</summary>
    private static double? TransmittedDbm(EmitterEntry emitter, List<string> assumed)
    {
        if (emitter.Eirp is { } eirp)
        {
            return eirp.Dbm;
        }

        if (emitter.Erp is { } erp)
        {
            return erp.Dbm + DipoleDbi;
        }

        if (emitter.Power is not { } power)
        {
            return null;
        }

        if (emitter.Feedline is null)
        {
            assumed.Add("no feedline loss was given, so none is counted");
        }

        return power.Dbm - (emitter.Feedline?.Value ?? 0);
    }

    private static PathGeometry Geometry(SiteDocument site, EmitterEntry emitter, ReceiverEntry receiver, List<string> assumed)
    {
        (double? distance, double? bearing) = Place(site, emitter);
        bool radiated = emitter.Eirp is not null || emitter.Erp is not null;
        double transmitterGain = radiated ? -OffAxisDb(emitter.Antenna, Back(bearing)) : Gain(emitter.Antenna, Back(bearing), "the emitter's antenna", assumed);
        return new PathGeometry
        {
            FrequencyHz = emitter.Frequency.Hertz,
            DistanceM = distance,
            TransmitterHeightM = emitter.Antenna?.Height?.Metres,
            ReceiverHeightM = receiver.Antenna?.Height?.Metres,
            TransmitterGainDbi = transmitterGain,
            ReceiverGainDbi = Gain(receiver.Antenna, bearing, "the receiver's antenna", assumed),
        };
    }

    /// <summary>Distance from the site in metres and bearing from it in degrees, as far as known.</summary>
    private static (double? DistanceM, double? BearingDegrees) Place(SiteDocument site, EmitterEntry emitter)
    {
        if (emitter.Distance is { } distance)
        {
            return (distance.Metres, emitter.Bearing);
        }

        if (emitter.At is { } at && site.Place is { } place)
        {
            bool known = Geodesic.TryBetween(
                GeoPoint.Of(place.Latitude, place.Longitude), GeoPoint.Of(at.Latitude, at.Longitude), out GeodesicLine line, out _);
            return known ? (line.DistanceM, line.BearingDegrees) : (null, null);
        }

        return (null, null);
    }

    private static double Gain(AntennaEntry? antenna, double? towards, string whose, List<string> assumed)
    {
        if (antenna?.Gain is not { } gain)
        {
            assumed.Add($"the gain of {whose} was not given, so 0 dBi is counted");
            return -OffAxisDb(antenna, towards);
        }

        return gain.Dbi - OffAxisDb(antenna, towards);
    }

    private static double OffAxisDb(AntennaEntry? antenna, double? towards) =>
        antenna is { Bearing: { } main, Beamwidth: { } width } && towards is { } bearing
            ? OffAxis.LossDb(OffAxis.Difference(bearing, main), width)
            : 0;

    private static double? Back(double? bearing) => bearing is { } b ? OffAxis.Opposite(b) : null;

    private static IPathModel? Named(PathEntry? path) => path?.Model switch
    {
        null => null,
        PathModel.FreeSpace => FreeSpace.Model,
        PathModel.PlaneEarth => PlaneEarth.Model,
        PathModel.HataUrban => OkumuraHata.Urban,
        PathModel.HataSuburban => OkumuraHata.Suburban,
        PathModel.HataOpen => OkumuraHata.Open,
        _ => SameStructure.Spaced(path.Vertical?.Metres ?? 0, path.Horizontal?.Metres ?? 0),
    };
}
