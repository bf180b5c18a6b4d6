using Spurless.Radio.Paths;
using Spurless.Sites.Documents;
using Spurless.Sites.Positions;
using Spurless.Sites.Registers;
using Spurless.Sites.Surveys;

namespace Spurless.Sites.Matching;

/// <summary>
/// Joins measured emitters with licences: by frequency, direction and the plausibility of the level. Each explanation gets a weight by how
/// well it foretells what was measured; a transmitter that is not in the register is always one of them. docs/method/registers.md tells
/// the steps. Weights rank; they are no frequencies of being right.
/// </summary>
public static class MatchService
{
    /// <summary>From this weight on a licence is taken for the emitter (our choice).</summary>
    public const double JoinedFrom = 0.9;

    /// <summary>Transmitters keep their frequency within so many parts (common practice of land mobile base stations), one sigma.</summary>
    private const double StabilityParts = 1e-6;

    /// <summary>The centre of a modulated line's power wanders by this share of its width, one sigma (our choice).</summary>
    private const double CentreShare = 0.05;

    /// <summary>A licence is held against lines within so many sigma of its frequency.</summary>
    private const double WithinSigma = 4;

    /// <summary>One sigma of a bearing taken by hand in degrees (common practice: reflections decide).</summary>
    private const double BearingSigmaDegrees = 15;

    /// <summary>Levels of a transmitter about which nothing is known lie within so many dB (our choice).</summary>
    private const double UnknownRangeDb = 60;

    /// <summary>Behind ground that is not known a level lies so far under the most it can be, on average, in dB (our choice).</summary>
    private const double GroundMeanDb = 15;

    /// <summary>How likely a transmitter outside the register is beside one in it, before anything is compared (our choice).</summary>
    private const double OtherPrior = 0.1;

    /// <summary>Joins.</summary>
    /// <param name="measured">What was measured.</param>
    /// <param name="near">The licences, with levels predicted for the same antenna.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public static MatchAnswer Run(
        IReadOnlyList<MeasuredEmitter> measured, NearAnswer near, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(measured);
        ArgumentNullException.ThrowIfNull(near);
        List<EmitterMatch> matches = new(measured.Count);
        foreach (MeasuredEmitter one in measured)
        {
            cancellationToken.ThrowIfCancellationRequested();
            matches.Add(One(one, near.Emitters));
        }

        return new MatchAnswer(matches, measured.Any(static m => m.LevelDbm is not null));
    }

    /// <summary>The emitters of a site file whose level was measured at a receiver's antenna.</summary>
    /// <param name="site">The site.</param>
    /// <returns>Those with a level at its first receiver; without one where the file's levels are not those at the antenna.</returns>
    public static IReadOnlyList<MeasuredEmitter> OfSite(SiteDocument site)
    {
        ArgumentNullException.ThrowIfNull(site);
        ReceiverEntry receiver = site.Receivers[0];
        return
        [
            .. site.Emitters.Where(e => e.LevelAt(receiver.Name) is not null).Select(e => new MeasuredEmitter
            {
                Name = e.Name,
                FrequencyHz = e.Frequency.Hertz,
                FrequencySigmaHz = 0,
                BandwidthHz = e.BandwidthHz,
                LevelDbm = receiver.LevelsAt == LevelsAt.Antenna ? e.LevelAt(receiver.Name)!.Value.Dbm : null,
                SigmaDb = e.Uncertainty?.Value ?? 2,
                BearingDegrees = EmitterPositions.FromSite(site, e).BearingDegrees ?? e.Bearing,
            }),
        ];
    }

    /// <summary>The lines of a survey.</summary>
    /// <param name="emitters">The survey's emitters.</param>
    public static IReadOnlyList<MeasuredEmitter> OfSurvey(IEnumerable<SurveyedEmitter> emitters)
    {
        ArgumentNullException.ThrowIfNull(emitters);
        return
        [
            .. emitters.Select(static e => new MeasuredEmitter
            {
                Name = SurveyService.Name(e),
                FrequencyHz = e.Line.FrequencyHz,
                FrequencySigmaHz = e.Line.FrequencySigmaHz,
                BandwidthHz = e.Line.BandwidthHz,
                LevelDbm = e.LevelDbm,
                SigmaDb = e.Line.SigmaDb,
                IsDoubtful = e.Doubtful is not null,
                Line = e,
            }),
        ];
    }

    private static EmitterMatch One(MeasuredEmitter measured, IReadOnlyList<NearEmitter> licences)
    {
        double sigma = Math.Sqrt(
            Squared(measured.FrequencySigmaHz)
                + Squared(StabilityParts * measured.FrequencyHz)
                + Squared(CentreShare * measured.BandwidthHz));
        List<MatchCandidate> found = [];
        foreach (NearEmitter licence in licences)
        {
            double off = Off(measured.FrequencyHz, licence);
            if (Math.Abs(off) > WithinSigma * sigma)
            {
                continue;
            }

            double? over = measured.LevelDbm - licence.LevelDbm;
            double? aside = measured.BearingDegrees is { } bearing
                ? Math.Abs(OffAxis.Difference(bearing, licence.BearingDegrees))
                : null;
            double weight = Gauss(off, sigma) * ByLevel(measured, licence, over) * (aside is { } a ? Gauss(a, BearingSigmaDegrees) : 1);
            found.Add(new MatchCandidate(licence, weight, off, over, aside));
        }

        double other = OtherPrior / (2 * WithinSigma * sigma) * (measured.LevelDbm is null ? 1 : 1 / UnknownRangeDb)
            * (measured.BearingDegrees is null ? 1 : 1.0 / 360);
        double sum = other + found.Sum(static f => f.Weight);
        MatchCandidate[] ranked =
        [
            .. found.Select(f => f with { Weight = f.Weight / sum })
                .OrderByDescending(static f => f.Weight)
                .ThenBy(static f => f.Licensed.Name, StringComparer.Ordinal),
        ];
        MatchOutcome outcome = ranked.Length == 0 || other / sum >= 0.5 ? MatchOutcome.Unexplained
            : ranked[0].Weight >= JoinedFrom ? MatchOutcome.Joined
            : MatchOutcome.Ambiguous;
        return new EmitterMatch(measured, outcome, ranked, other / sum);
    }

    /// <summary>How far a frequency lies over a licence's; nothing within its block.</summary>
    private static double Off(double hertz, NearEmitter licence)
    {
        (double low, double high) = (licence.Record.FrequencyHz, licence.Record.UpperEdgeHz ?? licence.Record.FrequencyHz);
        return hertz < low ? hertz - low : hertz > high ? hertz - high : 0;
    }

    /// <summary>How likely the measured level is from this licence, a decibel.</summary>
    private static double ByLevel(MeasuredEmitter measured, NearEmitter licence, double? over)
    {
        if (measured.LevelDbm is null)
        {
            return 1;
        }

        if (over is not { } db || licence.SigmaDb is not { } predicted)
        {
            return 1 / UnknownRangeDb;
        }

        double sigma = Math.Sqrt(Squared(predicted) + Squared(measured.SigmaDb));

        // Where the ground between is not known the prediction is the most that it can be: a weaker level speaks little against it.
        return !licence.IsMost ? Gauss(db, sigma)
            : db > 0 ? Math.Exp(-0.5 * Squared(db / sigma)) / (GroundMeanDb + (sigma * Math.Sqrt(Math.PI / 2)))
            : Math.Exp(db / GroundMeanDb) / (GroundMeanDb + (sigma * Math.Sqrt(Math.PI / 2)));
    }

    private static double Gauss(double x, double sigma) => Math.Exp(-0.5 * Squared(x / sigma)) / (sigma * Math.Sqrt(2 * Math.PI));

    private static double Squared(double x) => x * x;
}
