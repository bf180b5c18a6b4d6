using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml.Editing;
using Spurless.Radio.Quantities;
using Spurless.Signals.Spectra;
using Spurless.Sites.Documents;
using Spurless.Sites.Registers;

namespace Spurless.Sites.Surveys;

/// <summary>Makes emitters of a spectrum.</summary>
public static class SurveyService
{
    /// <summary>
    /// Noise that rises by more than this with the signals on the input tells of overload, in dB (our choice, above the floor's own
    /// scatter).
    /// </summary>
    private const double OverloadDb = 1;

    /// <summary>Noise that moves by more than this from row to row, in dB.</summary>
    private const double MovingDb = 3;

    /// <summary>Reads the sweeps and finds their emitters.</summary>
    /// <param name="question">What to read, and how.</param>
    /// <param name="diagnostics">Takes what is wrong with the files.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>The answer, or null.</returns>
    public static SurveyAnswer? Run(SurveyQuestion question, DiagnosticBag diagnostics, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(diagnostics);
        List<SurveySource> sources =
        [
            .. question.Sweeps.SelectMany(s => SurveySource.Read(s, question, diagnostics, cancellationToken) ?? []),
        ];
        SurveySource? padded = question.Padded is { } second
            ? SurveySource.Read(second, question, diagnostics, cancellationToken)?[0]
            : null;
        CheckSpans(sources, padded, diagnostics);
        if (diagnostics.HasErrors)
        {
            return null;
        }

        Found found = new();
        FittedIntercept? fitted = null;
        for (int i = 0; i < sources.Count; i++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            SurveySource source = sources[i];
            LineFinder finder = LineFinder.For(source.Sweep, new LineOptions { ResolutionHz = source.ResolutionHz });
            IReadOnlyList<SpectrumLine> all = finder.Lines();
            InstrumentMixtures mixtures = new(all);
            IReadOnlyList<SpectrumLine> lines = all;
            if (i == 0 && padded is not null)
            {
                LineFinder behind = LineFinder.For(padded.Sweep, new LineOptions { ResolutionHz = padded.ResolutionHz });
                PaddedSweep told = PaddedSweep.Compare(all, behind, question.PadDb);
                found.Inside.AddRange(told.MadeInside);
                lines = told.Signals;
                found.Take(source, told.Untold.Select(static l => (l, (LineDoubt?)new LineDoubt.SankBehindPad())));
                found.Remarks.AddRange(Overloaded(source.Sweep.File, finder.Floor.MeanDbm - behind.Floor.MeanDbm));
                fitted = source.IsRelative ? null : mixtures.OfKnown(told.MadeInside, question.PadDb);
            }
            else if (question.InstrumentInterceptDbm is null && padded is null && fitted is null && !source.IsRelative)
            {
                fitted = mixtures.Fit(finder, source.Sweep.FrequenciesHz, cancellationToken);
            }

            bool byPad = i == 0 && padded is not null;
            double? intercept = byPad || source.IsRelative ? null : question.InstrumentInterceptDbm ?? fitted?.Dbm;
            found.Take(
                source,
                lines.Select(l => (
                    l, RecordedArtefacts.Doubt(source, l, all) ?? (intercept is { } at ? mixtures.Doubt(l, at) : null))));
            found.Floors.Add(
                finder.Floor.MeanDbm - question.Through.GainDb(source.Sweep.FrequenciesHz[source.Sweep.FrequenciesHz.Count / 2]));
            found.Remarks.AddRange(source.Remarks);
            found.Remarks.AddRange(Moving(source.Sweep));
        }

        found.Remarks.AddRange(Said(question, padded is not null, sources, fitted));
        return found.Answer(question, sources, fitted?.Dbm);
    }

    /// <summary>An emitter as it would stand in a site file.</summary>
    /// <param name="emitter">The emitter.</param>
    /// <param name="resolutionHz">What width could be seen at all, in hertz.</param>
    public static SiteAddition Addition(SurveyedEmitter emitter, double resolutionHz)
    {
        ArgumentNullException.ThrowIfNull(emitter);
        SpectrumLine line = emitter.Line;
        bool seen = line.BandwidthHz > 0;
        List<(string Key, YamlValue Value)> keys =
        [
            ("name", YamlValue.Of(Name(emitter))),
            ("frequency", YamlValue.Of(Frequency.FromHertz(emitter.CarrierHz).ToString())),
            (
                "bandwidth",
                YamlValue.Of(Frequency.FromHertz((long)Math.Round((seen ? line.BandwidthHz : resolutionHz) / 100) * 100).ToString())),
        ];
        if (emitter.LevelDbm is { } dbm)
        {
            keys.Add(("level", YamlValue.Of(Number(dbm) + " dBm")));
        }

        if (line.OnShare < 1)
        {
            keys.Add(("activity", YamlValue.Of((100 * line.OnShare).ToString("0.#", CultureInfo.InvariantCulture) + " %")));
        }

        if (emitter.LevelDbm is not null)
        {
            keys.Add(("uncertainty", YamlValue.Of(Number(line.SigmaDb) + " dB")));
        }

        return new SiteAddition(Name(emitter), YamlValue.Map([.. keys]), new AdditionOrigin.Survey
        {
            RasterHz = line.Raster?.RasterHz,
            IsNarrow = !seen,
            HasLevel = !emitter.IsRelative,
        });
    }

    /// <summary>The name of an emitter: <c>line 145.0125 MHz</c>.</summary>
    public static string Name(SurveyedEmitter emitter)
    {
        ArgumentNullException.ThrowIfNull(emitter);
        return string.Create(CultureInfo.InvariantCulture, $"line {MegahertzText.Of(emitter.CarrierHz, 0, 6)} MHz");
    }

    /// <summary>The emitter of a site that a line belongs to: within half a bandwidth of it; null where there is none.</summary>
    public static EmitterEntry? InSite(SiteDocument site, SurveyedEmitter emitter)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(emitter);
        return site.Emitters
            .Where(
                e =>
                    2 * Math.Abs(e.Frequency.Hertz - emitter.Line.FrequencyHz) <= Math.Max(
                        e.BandwidthHz, Math.Max(emitter.Line.BandwidthHz, 2 * emitter.Line.FrequencySigmaHz)))
            .MinBy(e => Math.Abs(e.Frequency.Hertz - emitter.Line.FrequencyHz));
    }

    private static string Number(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);

    // What two sweeps tell together they tell of the same frequencies only.
    private static void CheckSpans(List<SurveySource> sweeps, SurveySource? padded, DiagnosticBag diagnostics)
    {
        if (padded is not null && sweeps.Count > 0 && !Matches(sweeps[0].Sweep, padded.Sweep))
        {
            diagnostics.Error(
                padded.Sweep.File,
                0,
                0,
                "its frequencies are not those of " + sweeps[0].Sweep.File,
                "take both sweeps with the same span and the same number of points");
        }
    }

    private static IEnumerable<SurveyRemark> Overloaded(string file, double riseDb)
    {
        if (riseDb > OverloadDb)
        {
            yield return new SurveyRemark.NoiseAbovePadded(Path.GetFileName(file), riseDb);
        }
    }

    private static bool Matches(Sweep a, Sweep b) =>
        a.FrequenciesHz.Count == b.FrequenciesHz.Count
            && Math.Abs(a.FrequenciesHz[0] - b.FrequenciesHz[0]) < a.SpacingHz / 2
            && Math.Abs(a.FrequenciesHz[^1] - b.FrequenciesHz[^1]) < a.SpacingHz / 2;

    /// <summary>Noise that moves from row to row tells of overload by something that comes and goes.</summary>
    private static IEnumerable<SurveyRemark> Moving(Sweep sweep)
    {
        if (sweep.RowsDbm.Count < 3)
        {
            yield break;
        }

        double[] low = [.. sweep.RowsDbm.Select(static r => r.Order().ElementAt(r.Length / 4))];
        double range = low.Max() - low.Min();
        if (range > MovingDb)
        {
            yield return new SurveyRemark.NoiseMoves(Path.GetFileName(sweep.File), range);
        }
    }

    private static IEnumerable<SurveyRemark> Said(
        SurveyQuestion question, bool padded, List<SurveySource> sources, FittedIntercept? fitted)
    {
        if (question.ResolutionHz is null && sources.Any(static s => s.CentreHz is null))
        {
            yield return new SurveyRemark.SpacingCounted();
        }

        if (fitted is { } fit)
        {
            yield return new SurveyRemark.InterceptTold(padded, fit.Lines, fit.Dbm, fit.SpreadDb);
        }
        else if (!padded && question.InstrumentInterceptDbm is null)
        {
            yield return new SurveyRemark.NothingTellsApart();
        }

        if (padded && sources.Count > 1)
        {
            yield return new SurveyRemark.PadTellsOf(Path.GetFileName(sources[0].Sweep.File), fitted is not null);
        }

        if (question.MaximumHeld)
        {
            yield return new SurveyRemark.MaximaHeld();
        }

        if (question.Through.IsEmpty)
        {
            yield return new SurveyRemark.AtInstrument();
        }

        string[] ends =
        [
            .. sources.SelectMany(s => question.Through.Short(s.Sweep.FrequenciesHz[0], s.Sweep.FrequenciesHz[^1]))
                .Distinct(StringComparer.Ordinal),
        ];
        if (ends.Length > 0)
        {
            yield return new SurveyRemark.ChainTooShort(ends);
        }
    }

    /// <summary>What was found, sweep by sweep.</summary>
    private sealed class Found
    {
        private readonly List<SurveyedEmitter> _emitters = [];

        public List<InstrumentLine> Inside { get; } = [];

        public List<SurveyRemark> Remarks { get; } = [];

        public List<double> Floors { get; } = [];

        public void Take(SurveySource source, IEnumerable<(SpectrumLine Line, LineDoubt? Doubt)> lines) =>
            _emitters.AddRange(lines.Select(l => new SurveyedEmitter(l.Line, l.Doubt) { IsRelative = source.IsRelative }));

        public SurveyAnswer Answer(SurveyQuestion question, List<SurveySource> sources, double? fittedDbm)
        {
            SpectrumLine AtAntenna(SpectrumLine line) => line with { LevelDbm = line.LevelDbm - question.Through.GainDb(line.FrequencyHz) };
            return new SurveyAnswer(
                [
                    .. _emitters.Select(e => e with { Line = AtAntenna(e.Line) })
                        .OrderBy(static e => e.IsRelative)
                        .ThenByDescending(static e => e.Line.LevelDbm)
                        .ThenBy(static e => e.Line.FrequencyHz),
                ],
                [.. Inside.Select(l => l with { Line = AtAntenna(l.Line) }).OrderByDescending(static l => l.Line.LevelDbm)],
                Floors,
                [.. sources.Select(static s => s.ResolutionHz)],
                Remarks)
            {
                InterceptDbm = question.InstrumentInterceptDbm ?? fittedDbm,
                InterceptFitted = fittedDbm is not null,
                FloorsRelative = [.. sources.Select(static s => s.IsRelative)],
            };
        }
    }
}
