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

    private const string Sank =
        "it sank into the noise behind the pad: whether the instrument made it is not known; take a smaller pad or narrower bins";

    /// <summary>Lines that make others in the instrument are sought among so many of the strongest.</summary>
    private const int MostParents = 60;

    /// <summary>Reads the sweeps and finds their emitters.</summary>
    /// <param name="question">What to read, and how.</param>
    /// <param name="diagnostics">Takes what is wrong with the files.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>The answer, or null.</returns>
    public static SurveyAnswer? Run(SurveyQuestion question, DiagnosticBag diagnostics, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(diagnostics);
        List<Sweep> sweeps = [.. question.Sweeps.Select(s => Read(s, question, diagnostics)).OfType<Sweep>()];
        Sweep? padded = question.Padded is { } second ? Read(second, question, diagnostics) : null;
        CheckSpans(sweeps, padded, diagnostics);
        if (diagnostics.HasErrors)
        {
            return null;
        }

        LineOptions options = new() { ResolutionHz = question.ResolutionHz };
        List<SurveyedEmitter> emitters = [];
        List<InstrumentLine> inside = [];
        List<string> remarks = [];
        List<double> floors = [];
        for (int i = 0; i < sweeps.Count; i++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            LineFinder finder = LineFinder.For(sweeps[i], options);
            IReadOnlyList<SpectrumLine> lines = finder.Lines();
            if (i == 0 && padded is not null)
            {
                LineFinder behind = LineFinder.For(padded, options);
                PaddedSweep told = PaddedSweep.Compare(lines, behind, question.PadDb);
                inside.AddRange(told.MadeInside);
                lines = told.Signals;
                emitters.AddRange(told.Untold.Select(static l => new SurveyedEmitter(l, Sank)));
                remarks.AddRange(Overloaded(sweeps[i].File, finder.Floor.MeanDbm - behind.Floor.MeanDbm));
            }

            emitters.AddRange(
                lines.Select(
                    l =>
                        new SurveyedEmitter(
                            l, padded is null && question.InstrumentInterceptDbm is { } intercept ? Doubt(l, lines, intercept) : null)));
            floors.Add(finder.Floor.MeanDbm - GainDb(question.Gain, sweeps[i].FrequenciesHz[sweeps[i].FrequenciesHz.Count / 2]));
            remarks.AddRange(Moving(sweeps[i]));
        }

        remarks.AddRange(Said(question, padded, sweeps));
        return new SurveyAnswer(
            [
                .. emitters
                    .Select(e => e with { Line = AtAntenna(e.Line, question.Gain) })
                    .OrderByDescending(static e => e.Line.LevelDbm)
                    .ThenBy(static e => e.Line.FrequencyHz),
            ],
            [.. inside.Select(l => l with { Line = AtAntenna(l.Line, question.Gain) }).OrderByDescending(static l => l.Line.LevelDbm)],
            floors,
            [.. sweeps.Select(s => question.ResolutionHz ?? s.SpacingHz)],
            remarks);
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
            ("level", YamlValue.Of(Number(line.LevelDbm) + " dBm")),
        ];
        if (line.OnShare < 1)
        {
            keys.Add(("activity", YamlValue.Of((100 * line.OnShare).ToString("0.#", CultureInfo.InvariantCulture) + " %")));
        }

        keys.Add(("uncertainty", YamlValue.Of(Number(line.SigmaDb) + " dB")));
        string raster = line.Raster is { } fit
            ? string.Create(CultureInfo.InvariantCulture, $", put on the {fit.RasterHz / 1000.0:0.###} kHz raster")
            : "";
        string narrow = seen ? "" : ", narrower than could be seen";
        return new SiteAddition(Name(emitter), YamlValue.Map([.. keys]), "measured by a survey" + raster + narrow);
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

    private static Sweep? Read(string path, SurveyQuestion question, DiagnosticBag diagnostics)
    {
        SweepColumns? columns = question.Columns;
        if (path == "-" && question.Input is { } input)
        {
            return SweepReader.Read(input, path, columns, diagnostics);
        }

        if (!File.Exists(path))
        {
            diagnostics.Error(path, 0, 0, "there is no such file", "check the name");
            return null;
        }

        using StreamReader reader = new(path);
        return SweepReader.Read(reader, path, columns, diagnostics);
    }

    // What two sweeps tell together they tell of the same frequencies only.
    private static void CheckSpans(List<Sweep> sweeps, Sweep? padded, DiagnosticBag diagnostics)
    {
        if (padded is not null && sweeps.Count > 0 && !Matches(sweeps[0], padded))
        {
            diagnostics.Error(
                padded.File,
                0,
                0,
                "its frequencies are not those of " + sweeps[0].File,
                "take both sweeps with the same span and the same number of points");
        }
    }

    private static IEnumerable<string> Overloaded(string file, double riseDb)
    {
        if (riseDb > OverloadDb)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{file}: the noise is {riseDb:0.0} dB higher than behind the pad: "
                    + $"the instrument is overloaded, or the noise comes in by the antenna");
        }
    }

    private static bool Matches(Sweep a, Sweep b) =>
        a.FrequenciesHz.Count == b.FrequenciesHz.Count
            && Math.Abs(a.FrequenciesHz[0] - b.FrequenciesHz[0]) < a.SpacingHz / 2
            && Math.Abs(a.FrequenciesHz[^1] - b.FrequenciesHz[^1]) < a.SpacingHz / 2;

    private static SpectrumLine AtAntenna(SpectrumLine line, IReadOnlyList<DecibelsAt> gain) =>
        gain.Count == 0 ? line : line with { LevelDbm = line.LevelDbm - GainDb(gain, line.FrequencyHz) };

    /// <summary>Gain at a frequency: linear between the points, held beyond them.</summary>
    private static double GainDb(IReadOnlyList<DecibelsAt> gain, double hertz)
    {
        if (gain.Count == 0)
        {
            return 0;
        }

        for (int i = 1; i < gain.Count; i++)
        {
            (double low, double high) = (gain[i - 1].Frequency.Hertz, gain[i].Frequency.Hertz);
            if (hertz >= low && hertz <= high && high > low)
            {
                double share = (hertz - low) / (high - low);
                return ((1 - share) * gain[i - 1].Value.Value) + (share * gain[i].Value.Value);
            }
        }

        return hertz < gain[0].Frequency.Hertz ? gain[0].Value.Value : gain[^1].Value.Value;
    }

    /// <summary>
    /// Which of the other lines would make this one in the instrument: sums and differences of two taken twice and once, or of three, that
    /// land on it with at least a quarter of its power by the intercept.
    /// </summary>
    private static string? Doubt(SpectrumLine line, IReadOnlyList<SpectrumLine> lines, double interceptDbm)
    {
        SpectrumLine[] parents = [.. lines.Where(l => l != line && l.LevelDbm > line.LevelDbm).Take(MostParents)];
        for (int a = 0; a < parents.Length; a++)
        {
            for (int b = 0; b < parents.Length; b++)
            {
                for (int c = 0; c < parents.Length; c++)
                {
                    // a + b - c with a before b; a = b is twice a.
                    if (b < a || c == a || c == b)
                    {
                        continue;
                    }

                    double hertz = parents[a].FrequencyHz + parents[b].FrequencyHz - parents[c].FrequencyHz;
                    double width = parents[a].BandwidthHz + parents[b].BandwidthHz + parents[c].BandwidthHz + line.BandwidthHz;
                    double level = parents[a].LevelDbm + parents[b].LevelDbm + parents[c].LevelDbm - (2 * interceptDbm)
                        + (a == b ? 0 : 20 * Math.Log10(2));
                    if (Math.Abs(hertz - line.FrequencyHz) <= (width / 2) + (3 * line.FrequencySigmaHz) && level >= line.LevelDbm - 6)
                    {
                        string first = a == b ? "2 x " + Megahertz(parents[a]) : Megahertz(parents[a]) + " + " + Megahertz(parents[b]);
                        return $"the instrument itself would make it of {first} - {Megahertz(parents[c])}";
                    }
                }
            }
        }

        return null;
    }

    private static string Megahertz(SpectrumLine line) => MegahertzText.Of(line.FrequencyHz, 4);

    /// <summary>Noise that moves from row to row tells of overload by something that comes and goes.</summary>
    private static IEnumerable<string> Moving(Sweep sweep)
    {
        if (sweep.RowsDbm.Count < 3)
        {
            yield break;
        }

        double[] low = [.. sweep.RowsDbm.Select(static r => r.Order().ElementAt(r.Length / 4))];
        double range = low.Max() - low.Min();
        if (range > MovingDb)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{sweep.File}: the noise moves by {range:0.0} dB from sweep to sweep: "
                    + $"the instrument was overloaded in some of them, or its setting was changed");
        }
    }

    private static IEnumerable<string> Said(SurveyQuestion question, Sweep? padded, List<Sweep> sweeps)
    {
        if (question.ResolutionHz is null)
        {
            yield return "the noise bandwidth of the bins was not given (--resolution), so their spacing is counted";
        }

        if (padded is null && question.InstrumentInterceptDbm is null)
        {
            yield return "nothing tells apart what the instrument itself made: "
                + "take a second sweep behind a pad (--padded, --pad), or give its --intercept";
        }

        if (padded is not null && sweeps.Count > 1)
        {
            yield return $"the sweep behind the pad tells of {sweeps[0].File} only";
        }

        if (question.MaximumHeld)
        {
            yield return "maxima were held: levels read high, noise by some 10 dB and noise-like signals with it";
        }

        if (question.Gain.Count == 0)
        {
            yield return "levels are those at the instrument: give --gain for what lies between it and the antenna connector";
        }
    }
}
