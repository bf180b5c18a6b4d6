using Spurless.Files.Diagnostics;
using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Paths;

/// <summary>Answers what one path over the ground costs.</summary>
public static class PathService
{
    /// <summary>One standard deviation of a profile's heights, in metres, where nobody said how good they are.</summary>
    public const double HandDrawnErrorM = 5;

    /// <summary>Answers for a profile in a file of its own.</summary>
    /// <param name="source">The profile's file.</param>
    /// <param name="question">The question; its conditions are possible (<see cref="TerrainConditions.Impossible"/>).</param>
    /// <param name="diagnostics">Takes all findings.</param>
    /// <returns>The answer; null where there is an error.</returns>
    public static PathAnswer? OverProfile(SourceFile source, PathQuestion question, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(diagnostics);
        if (ProfileReader.Read(source.Bytes, source.Path, diagnostics) is not { } profile)
        {
            return null;
        }

        TerrainPrediction prediction = TerrainPrediction.Of(profile, question.Conditions, HandDrawnErrorM);
        if (prediction.Refused is { } refused)
        {
            return Refuse(source.Path, refused, diagnostics);
        }

        return new PathAnswer
        {
            Question = question,
            Profile = profile,
            Prediction = prediction,
            Assumed =
            [
                .. Atmosphere(question),
                new LevelNote.HeightsTaken(HandDrawnErrorM),
                .. Outside(prediction),
            ],
            Inputs = [source.Input],
        };
    }

    /// <summary>Answers for an emitter and a receiver of a site.</summary>
    /// <param name="site">The site.</param>
    /// <param name="emitter">The emitter's name; it must be one of the site's.</param>
    /// <param name="receiver">The receiver's name; it must be one of the site's.</param>
    /// <param name="asked">What is asked beside frequency, heights and latitude, which the site gives.</param>
    /// <param name="diagnostics">Takes all findings.</param>
    /// <returns>The answer; null where there is an error.</returns>
    public static PathAnswer? OfSite(LoadedSite site, string emitter, string receiver, PathQuestion? asked, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(diagnostics);
        SiteDocument document = site.Document;
        EmitterEntry from = document.Emitters.First(e => e.Name == emitter);
        ReceiverEntry to = document.Receivers.First(r => r.Name == receiver);
        List<LevelNote> assumed = [];
        PathGeometry geometry = LevelResolver.Geometry(document, from, to, assumed);
        if (GroundPath.Of(document, from, geometry, site.Terrain, to.Antenna, out string problem) is not { } ground)
        {
            return Refuse(document.File, $"from {emitter} to {receiver}: {problem}", diagnostics);
        }

        PathQuestion question = ground.Question(geometry);
        if (asked is not null)
        {
            question = asked with
            {
                FrequencyHz = question.FrequencyHz,
                TransmitterHeightM = question.TransmitterHeightM,
                ReceiverHeightM = question.ReceiverHeightM,
                LatitudeDegrees = question.LatitudeDegrees,
                Polarisation = asked.Polarisation ?? question.Polarisation,
            };
        }

        TerrainPrediction prediction = TerrainPrediction.Of(ground.Sampled.Profile, question.Conditions, ground.Sampled.HeightErrorM);
        if (prediction.LossDb is null)
        {
            return Refuse(document.File, $"from {emitter} to {receiver}: {prediction.Refused}", diagnostics);
        }

        double? transmitted = LevelResolver.TransmittedDbm(from, assumed);
        double? radiated = transmitted + geometry.TransmitterGainDbi;
        PathLevel? level = radiated is { } power ? Level(site, from, to, power, geometry.ReceiverGainDbi, prediction, assumed) : null;
        return new PathAnswer
        {
            From = emitter,
            To = receiver,
            BearingDegrees = ground.Sampled.BearingDegrees,
            Question = question,
            Profile = ground.Sampled.Profile,
            Sampled = ground.Sampled,
            Prediction = prediction,
            Level = level,
            Assumed =
            [
                .. assumed,
                .. Atmosphere(question),
                .. asked?.Polarisation is null && from.Antenna?.Polarisation is null && to.Antenna?.Polarisation is null
                    ? (LevelNote[])[new LevelNote.VerticalTaken()]
                    : [],
                new LevelNote.BareGround(),
                .. ground.Remarks.Select(static r => new LevelNote.OnPath(r)),
                .. Outside(prediction),
            ],
            Inputs = site.Inputs,
        };
    }

    /// <summary>The level that arrives, by the same rules as in a study.</summary>
    private static PathLevel Level(
        LoadedSite site, EmitterEntry from, ReceiverEntry to, double radiatedDbm, double gainDbi, TerrainPrediction prediction,
        List<LevelNote> assumed)
    {
        double bare = radiatedDbm + gainDbi - prediction.LossDb!.Value;
        ArrivingLevel arriving = new()
        {
            AtAntennaDbm = bare,
            Origin = LevelOrigin.Predicted,
            HowKnown = new LevelNote.NothingGiven(),
            SigmaDb = prediction.SigmaDb,
        };
        ArrivingLevel counted = new AntennaEffects(site.Document, site.Of).Applied(arriving, from, to);
        double filter = from.Power is null
            ? 0
            : new TransmitterResolver(site.Document, site.Of, null).FilterDb(from, from.Frequency.Hertz);
        assumed.AddRange(counted.Assumed);
        double level = counted.AtAntennaDbm!.Value - filter;
        return new PathLevel(
            radiatedDbm, gainDbi, level - bare, level, from.Uncertainty?.Value ?? counted.SigmaDb!.Value, from.LevelAt(to.Name)?.Dbm);
    }

    private static PathAnswer? Refuse(string file, string problem, DiagnosticBag diagnostics)
    {
        Refusal refusal = Refusal.OfParser(problem, "see docs/method/paths.md for the range");
        diagnostics.Error(file, 0, 0, refusal.What, refusal.Remedy);
        return null;
    }

    private static IEnumerable<LevelNote> Outside(TerrainPrediction prediction) =>
        prediction.Outside is { } outside ? [new LevelNote.OnPath(outside)] : [];

    /// <summary>What was assumed of the atmosphere.</summary>
    private static IEnumerable<LevelNote> Atmosphere(PathQuestion question)
    {
        if (question.Refractivity is null)
        {
            yield return new LevelNote.RefractivityTaken(TerrainConditions.UsualRefractivity);
        }

        if (question.Gradient is null)
        {
            yield return new LevelNote.GradientTaken(TerrainConditions.UsualGradient);
        }
    }
}
