using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml.Editing;
using Spurless.Mixing.Levels;
using Spurless.Radio.Emissions;
using Spurless.Radio.Paths;
using Spurless.Radio.Quantities;
using Spurless.Radio.Terrain;
using Spurless.Register;
using Spurless.Register.Records;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Registers;

/// <summary>Looks round a site in a register.</summary>
public static class NearService
{

    /// <summary>What an assumed antenna gain adds, in dB (our choice: land mobile base antennas have 0 to 12 dBd).</summary>
    private const double GainSigmaDb = 6;

    /// <summary>Bandwidth of an emitter about which nothing is known, in hertz (common practice of the land mobile services).</summary>
    private const long UnknownBandwidthHz = 16_000;

    /// <summary>Looks.</summary>
    /// <param name="site">The site; its place must be known.</param>
    /// <param name="question">Where and how far.</param>
    /// <param name="diagnostics">Takes why there is no answer.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>The answer, or null.</returns>
    public static NearAnswer? Run(
        SiteDocument site, NearQuestion question, DiagnosticBag diagnostics, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(diagnostics);
        if (site.Place is not { } place)
        {
            diagnostics.Error(
                site.File,
                0,
                0,
                "the site has no place",
                "add 'place: { latitude: 40.50, longitude: -35.20 }', in degrees, north and east positive");
            return null;
        }

        using RegisterStore? store = RegisterStore.Open(question.Database, diagnostics);
        if (store is null)
        {
            return null;
        }

        ReceiverEntry receiver = site.Receivers[0];
        HashSet<string> names = new(site.Emitters.Select(static e => e.Name), StringComparer.Ordinal);
        IReadOnlyList<NearRecord> found = store.Near(GeoPoint.Of(place.Latitude, place.Longitude), question.RadiusM, cancellationToken);
        return new NearAnswer(
            site.Site,
            receiver.Name,
            question.RadiusM,
            [
                .. found.Select(f => Emitter(site, place, f, question, names.Contains(f.Record.Name)))
                    .OrderByDescending(static e => e.LevelDbm ?? double.NegativeInfinity)
                    .ThenBy(static e => e.DistanceM)
                    .ThenBy(static e => e.Name, StringComparer.Ordinal),
            ]);
    }

    /// <summary>The transmitter as it would stand in a site file.</summary>
    public static SiteAddition Addition(NearEmitter emitter) => Addition(emitter, null);

    /// <summary>The transmitter as it would stand in a site file, with what was measured of it.</summary>
    /// <param name="emitter">The transmitter.</param>
    /// <param name="measured">What was measured; null for the prediction alone.</param>
    public static SiteAddition Addition(NearEmitter emitter, MeasuredFigures? measured)
    {
        ArgumentNullException.ThrowIfNull(emitter);
        RegisterRecord record = emitter.Record;
        List<(string Key, YamlValue Value)> keys =
        [
            ("name", YamlValue.Of(emitter.Name)),
            ("frequency", YamlValue.Of(Frequency.FromHertz(CentreHz(record)).ToString())),
        ];
        bool designated = record.Emission is { } text && Emission.TryParse(text, out _, out _) && record.UpperEdgeHz is null;
        long width = record.UpperEdgeHz is { } upper
            ? Math.Max(record.BandwidthHz ?? 0, upper - record.FrequencyHz)
            : record.BandwidthHz ?? UnknownBandwidthHz;
        keys.Add(
            designated ? ("emission", YamlValue.Of(record.Emission!)) : ("bandwidth", YamlValue.Of(Frequency.FromHertz(width).ToString())));
        if (record.EirpDbm is { } eirp)
        {
            keys.Add(("eirp", YamlValue.Of(Text(eirp, "0.##") + " dBm")));
        }

        List<(string Key, YamlValue Value)> antenna = [];
        if (record.HeightM is > 0 and { } height)
        {
            antenna.Add(("height", YamlValue.Of(Text(height, "0.##") + " m")));
        }

        if (record is { AzimuthDegrees: { } azimuth, BeamwidthDegrees: { } beamwidth })
        {
            antenna.Add(("bearing", YamlValue.Of(Text(azimuth, "0.##"))));
            antenna.Add(("beamwidth", YamlValue.Of(Text(beamwidth, "0.##"))));
        }

        if (antenna.Count > 0)
        {
            keys.Add(("antenna", YamlValue.Map([.. antenna])));
        }

        keys.Add(("at", YamlValue.Map(
            ("latitude", YamlValue.Of(Text(record.Place.LatitudeDegrees, "0.0######"))),
            ("longitude", YamlValue.Of(Text(record.Place.LongitudeDegrees, "0.0######"))))));
        if (measured?.LevelDbm is { } level)
        {
            keys.Add(("level", YamlValue.Of(Text(level, "0.0") + " dBm")));
        }

        if (measured is { OnShare: < 1 and var on })
        {
            keys.Add(("activity", YamlValue.Of(Text(100 * on, "0.#") + " %")));
        }

        if ((measured?.LevelDbm is null ? emitter.SigmaDb : measured.SigmaDb) is { } sigma)
        {
            keys.Add(("uncertainty", YamlValue.Of(Text(sigma, "0.#") + " dB")));
        }

        bool said = designated || record.BandwidthHz is not null || record.UpperEdgeHz is not null;
        return new SiteAddition(
            emitter.Name,
            YamlValue.Map([.. keys]),
            new AdditionOrigin.Licensed(record.Register, record.Licence, Heard(measured), said ? null : UnknownBandwidthHz));
    }

    /// <summary>
    /// The path over the ground between, where elevation files cover it and both heights are known; else null and, with elevation files,
    /// why.
    /// </summary>
    private static IPathModel? OverGround(
        PlaceEntry place,
        ReceiverEntry receiver,
        NearRecord near,
        PathGeometry geometry,
        SiteTerrain? terrain,
        List<LevelNote> assumed,
        out PathGeometry used)
    {
        used = geometry;
        if (terrain is null || near.Record.EirpDbm is null)
        {
            return null;
        }

        PathGeometry over = geometry with
        {
            TransmitterHeightM = near.Record.HeightM is > 0 and { } height ? height : null,
            ReceiverHeightM = receiver.Antenna?.Height?.Metres,
        };
        if (GroundPath.Of(place, near.Record.Place, over, terrain, out string problem) is not { } path)
        {
            assumed.Add(new LevelNote.GroundNotCounted(problem));
            return null;
        }

        used = over;
        path = path with { Polarisation = receiver.Antenna?.Polarisation ?? Polarisation.Vertical };
        return path.Model(path.Question(over), chosen: true);
    }

    private static HeardInSurvey Heard(MeasuredFigures? measured) => measured switch
    {
        null => HeardInSurvey.No,
        { LevelDbm: null } => HeardInSurvey.Heard,
        _ => HeardInSurvey.Measured,
    };

    private static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);

    /// <summary>The middle of a block, or the frequency.</summary>
    private static long CentreHz(RegisterRecord record) =>
        record.UpperEdgeHz is { } upper ? record.FrequencyHz + ((upper - record.FrequencyHz) / 2) : record.FrequencyHz;

    private static NearEmitter Emitter(SiteDocument site, PlaceEntry place, NearRecord near, NearQuestion question, bool inSite)
    {
        ReceiverEntry receiver = site.Receivers[0];
        RegisterRecord record = near.Record;
        List<LevelNote> assumed = [];
        double off = record is { AzimuthDegrees: { } azimuth, BeamwidthDegrees: { } beamwidth }
            ? OffAxis.LossDb(OffAxis.Difference(near.Line.BearingBackDegrees, azimuth), beamwidth)
            : 0;

        double gain = Gains.Towards(receiver.Antenna, near.Line.BearingDegrees, new LevelNote.GainNotGiven(PathEnd.Receiver), assumed);
        PathGeometry geometry = new()
        {
            FrequencyHz = CentreHz(record),
            DistanceM = near.Line.DistanceM,
            TransmitterHeightM = record.HeightM is > 0 ? record.HeightM : null,
            ReceiverHeightM = receiver.Antenna?.Height?.Metres,
            TransmitterGroundM = record.GroundM,
            ReceiverGroundM = place.Ground?.Metres,
            TransmitterGainDbi = -off,
            ReceiverGainDbi = gain,
        };
        IPathModel? overGround = OverGround(place, receiver, near, geometry, question.Terrain, assumed, out PathGeometry used);
        ReceivedLevel level = ReceivedLevel.Of(null, record.EirpDbm, overGround, used);
        double sigma = level.Path?.SigmaDb ?? LevelUncertainty.PredictedDb;
        double? rise = used.TransmitterHeightM - used.ReceiverHeightM + ((used.TransmitterGroundM - used.ReceiverGroundM) ?? 0);
        AntennaEffects effects = new(site, file => question.Networks.GetValueOrDefault(file.Path));
        (double db, double variance) = effects.Receiving(
            receiver.Antenna, CentreHz(record), receiver.Frequency.Hertz, near.Line.DistanceM, rise, assumed);
        if (receiver.Antenna?.Polarisation is not null)
        {
            assumed.Add(new LevelNote.NoPolarisationInRegister());
        }

        sigma = Math.Sqrt(
            (sigma * sigma) + variance + (record.Notes.HasFlag(RecordNotes.GainAssumed) ? GainSigmaDb * GainSigmaDb : 0));
        bool known = level.Dbm is not null;
        LevelNote how = record.EirpDbm is null ? new LevelNote.NoPowerInRegister()
            : level.Path is { Basis: { } basis } path ? new LevelNote.Predicted(basis, path.Choice)
            : LevelResolver.HowUnknown(level);
        return new NearEmitter
        {
            Record = record,
            DistanceM = near.Line.DistanceM,
            BearingDegrees = near.Line.BearingDegrees,
            LevelDbm = level.Dbm + db,
            SigmaDb = known ? sigma : null,
            Assumed =
            [
                how,
                .. Enum.GetValues<RecordNotes>().Where(n => (record.Notes & n) != 0).Select(static n => new LevelNote.OfRecord(n)),
                .. known ? assumed : [],
                .. (level.Path?.Remarks ?? []).Select(static r => new LevelNote.OnPath(r)),
            ],
            IsMost = known && overGround is null && !used.GroundIsKnown,
            InSite = inSite,
        };
    }
}
