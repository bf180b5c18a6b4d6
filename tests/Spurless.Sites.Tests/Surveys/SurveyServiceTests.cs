using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Surveys;

namespace Spurless.Sites.Tests.Surveys;

public sealed class SurveyServiceTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-survey-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    /// <summary>Noise of fifty averages at -110 dBm in bins of 1 kHz, and carriers in their bins.</summary>
    private string Sweep(string name, int seed, params (int Bin, double Dbm)[] carriers)
    {
        Random random = new(seed);
        string path = Path.Combine(_folder, name);
        File.WriteAllText(path, "frequency_hz,level_dbm\n" + string.Concat(Enumerable.Range(0, 1_000).Select(i =>
        {
            double noise = Enumerable.Range(0, 50).Sum(_ => -Math.Log(1 - random.NextDouble())) / 50 * 1e-11;
            double carrier = carriers.Where(c => c.Bin == i).Sum(static c => Math.Pow(10, c.Dbm / 10));
            return string.Create(CultureInfo.InvariantCulture, $"{144_000_000 + (i * 1000)},{10 * Math.Log10(noise + carrier):0.000}\n");
        })));
        return path;
    }

    private static SurveyAnswer Run(SurveyQuestion question)
    {
        DiagnosticBag bag = new();
        SurveyAnswer? answer = SurveyService.Run(question, bag);
        Assert.True(answer is not null, string.Join('\n', bag.InOrder()));
        return answer;
    }

    [Fact]
    public void Run_takes_the_gain_before_the_instrument_out()
    {
        string sweep = Sweep("a.csv", 1, (500, -60));

        SurveyAnswer answer = Run(
            new SurveyQuestion
            {
                Sweeps = [sweep],
                Gain = [Radio.Quantities.DecibelsAt.Parse("-3 dB at 100 MHz"), Radio.Quantities.DecibelsAt.Parse("-5 dB at 200 MHz")],
            });

        // Linear between the points: -3.89 dB at 144.5 MHz.
        Assert.Equal(-60 + 3.89, answer.Emitters[0].Line.LevelDbm, 0.1);
        Assert.Equal("line 144.5 MHz", SurveyService.Name(answer.Emitters[0]));
    }

    [Fact]
    public void Run_marks_what_the_instrument_would_make_at_its_intercept()
    {
        // 2 x 144.3 - 144.4 = 144.2: -30 -30 -30 - 2 x 5 = -100 dBm at an intercept of +5 dBm; found is -98.
        string sweep = Sweep("a.csv", 2, (300, -30), (400, -30), (200, -98), (777, -98));

        SurveyAnswer answer = Run(new SurveyQuestion { Sweeps = [sweep], InstrumentInterceptDbm = 5 });

        Assert.Equal(4, answer.Emitters.Count);
        SurveyedEmitter doubtful = Assert.Single(answer.Emitters, static e => e.Doubtful is not null);
        Assert.Equal(144_200_000, doubtful.CarrierHz);
        LineDoubt.Mixture made = Assert.IsType<LineDoubt.Mixture>(doubtful.Doubtful);
        Assert.True(made.IsTwice);
        Assert.InRange(made.FirstHz, 144.3e6 - 500, 144.3e6 + 500);
        Assert.InRange(made.LessHz, 144.4e6 - 500, 144.4e6 + 500);
    }

    [Fact]
    public void Run_with_a_sweep_behind_a_pad_says_what_the_instrument_made_and_what_is_not_known()
    {
        string open = Sweep("a.csv", 3, (300, -30), (200, -70), (600, -100));
        string padded = Sweep("b.csv", 4, (300, -40), (200, -100));

        SurveyAnswer answer = Run(new SurveyQuestion { Sweeps = [open], Padded = padded, PadDb = 10 });

        Assert.Equal(144_200_000, Math.Round(Assert.Single(answer.MadeInside).Line.FrequencyHz));
        Assert.Null(answer.Emitters.Single(static e => e.CarrierHz == 144_300_000).Doubtful);
        Assert.NotNull(answer.Emitters.Single(static e => e.CarrierHz == 144_600_000).Doubtful);
    }

    [Fact]
    public void Run_of_two_sweeps_that_do_not_fit_each_other_says_so()
    {
        string a = Sweep("a.csv", 1, (300, -30));
        string b = Path.Combine(_folder, "b.csv");
        File.WriteAllText(b, string.Join('\n', File.ReadAllLines(a).Take(500)) + "\n");
        DiagnosticBag bag = new();

        Assert.Null(SurveyService.Run(new SurveyQuestion { Sweeps = [a], Padded = b, PadDb = 10 }, bag));
        Assert.Contains("its frequencies are not those of", bag.InOrder()[0].What, StringComparison.Ordinal);
    }

    /// <summary>
    /// Lines of 2A-B and A+B-C at an intercept of +5 dBm: 3 levels summed less 10 dBm, 6.02 dB more for three
    /// (docs/method/product-levels.md).
    /// </summary>
    [Fact]
    public void Run_without_a_pad_fits_the_intercept_that_the_lines_tell_and_marks_them()
    {
        (int Bin, double Dbm)[] strong = [(300, -25), (413, -27), (571, -29)];
        List<(int, double)> made = [];
        for (int a = 0; a < 3; a++)
        {
            for (int b = a; b < 3; b++)
            {
                for (int c = 0; c < 3; c++)
                {
                    int bin = strong[a].Bin + strong[b].Bin - strong[c].Bin;
                    if (c != a && c != b && bin is > 0 and < 999)
                    {
                        made.Add((bin, strong[a].Dbm + strong[b].Dbm + strong[c].Dbm - 10 + (a == b ? 0 : 6.0206)));
                    }
                }
            }
        }

        string sweep = Sweep("a.csv", 5, [.. strong, .. made, (777, -80)]);

        SurveyAnswer answer = Run(new SurveyQuestion { Sweeps = [sweep] });

        Assert.True(answer.InterceptFitted);
        Assert.Equal(5, answer.InterceptDbm!.Value, 0.5);
        Assert.Equal(made.Count, answer.Emitters.Count(static e => e.Doubtful is not null));
        Assert.Null(answer.Emitters.Single(static e => e.CarrierHz == 144_777_000 || e.CarrierHz == 144_775_000).Doubtful);
        Assert.Contains(answer.Remarks, static r => r is SurveyRemark.InterceptTold { ByPad: false });
    }

    [Fact]
    public void Run_of_a_crowded_band_without_mixtures_claims_no_intercept()
    {
        // Sixty carriers of random levels on a raster: their mixtures fall on other carriers everywhere, but never all as strong.
        Random random = new(11);
        for (int turn = 0; turn < 10; turn++)
        {
            (int, double)[] carriers = [.. Enumerable.Range(0, 60).Select(i => (20 + (15 * i), -100 + (60 * random.NextDouble())))];

            SurveyAnswer answer = Run(new SurveyQuestion { Sweeps = [Sweep("c.csv", turn, carriers)] });

            Assert.Null(answer.InterceptDbm);
            Assert.All(answer.Emitters, static e => Assert.Null(e.Doubtful));
        }
    }

    [Fact]
    public void Run_with_a_sweep_behind_a_pad_tells_the_intercept()
    {
        // 2 x 144.3 - 144.4 at +5 dBm: -30 -30 -30 - 10 = -100, and 30 dB less behind a pad of 10 dB.
        string open = Sweep("a.csv", 6, (300, -20), (400, -20), (200, -70));
        string padded = Sweep("b.csv", 7, (300, -30), (400, -30), (200, -100));

        SurveyAnswer answer = Run(new SurveyQuestion { Sweeps = [open], Padded = padded, PadDb = 10 });

        // (3 x -20 + 70) / 2.
        Assert.Equal(5, answer.InterceptDbm!.Value, 0.2);
        Assert.True(answer.InterceptFitted);
    }

    /// <summary>
    /// A level in dBuV/m less the antenna's factor is dBuV at its connector; 0 dBuV in 50 ohm is -106.99 dBm
    /// (10 lg of 1 pV^2 / 50 ohm / 1 mW).
    /// </summary>
    [Fact]
    public void Run_of_field_strength_takes_the_antenna_factor_out_and_nothing_twice()
    {
        string sweep = Sweep("a.csv", 8, (500, -60));
        string field = Path.Combine(_folder, "field.csv");
        File.WriteAllText(field, File.ReadAllText(sweep).Replace("frequency_hz,level_dbm", "f [Hz],e [dBuV/m]", StringComparison.Ordinal));
        Signals.Spectra.SweepColumns columns = new("f [Hz]", "e [dBuV/m]");
        DiagnosticBag bag = new();
        SurveyChain chain = SurveyChain.Read("antenna factor 12 dB; cable 3 dB", new Sites.Documents.SiteFolder("."), bag)!;

        SurveyAnswer answer = Run(new SurveyQuestion { Sweeps = [field], Columns = columns, Chain = chain });

        Assert.Equal(-60 - 12 - 106.99, answer.Emitters[0].Line.LevelDbm, 0.1);

        Assert.Null(SurveyService.Run(new SurveyQuestion { Sweeps = [field], Columns = columns }, bag));
        Assert.Contains("not known without the antenna's factor", bag.InOrder()[^1].What, StringComparison.Ordinal);
        DiagnosticBag other = new();
        Assert.Null(SurveyService.Run(new SurveyQuestion { Sweeps = [sweep], Chain = chain }, other));
        Assert.Contains("are no field strength", other.InOrder()[0].What, StringComparison.Ordinal);
    }

    /// <summary>A recorded carrier of amplitude 0.1, its mirror image 30 dB weaker, and a line in the middle.</summary>
    private string Recorded()
    {
        const int rate = 200_000;
        byte[] data = new byte[8 * rate];
        Random random = new(3);
        for (int n = 0; n < rate; n++)
        {
            double phase = 2 * Math.PI * 31_250 * n / rate;
            double image = 0.1 * Math.Pow(10, -30 / 20.0);
            double i = (0.1 + image) * Math.Cos(phase) + 0.01 + (1e-3 * (random.NextDouble() - 0.5));
            double q = (0.1 - image) * Math.Sin(phase) + (1e-3 * (random.NextDouble() - 0.5));
            BitConverter.TryWriteBytes(data.AsSpan(8 * n), (float)i);
            BitConverter.TryWriteBytes(data.AsSpan((8 * n) + 4), (float)q);
        }

        File.WriteAllBytes(Path.Combine(_folder, "r.sigmf-data"), data);
        string path = Path.Combine(_folder, "r.sigmf-meta");
        File.WriteAllText(
            path,
            $$"""
            { "global": { "core:datatype": "cf32_le", "core:version": "1.2.5", "core:sample_rate": {{rate}} },
              "captures": [ { "core:sample_start": 0, "core:frequency": 145100000 } ], "annotations": [] }
            """);
        return path;
    }

    [Fact]
    public void Run_of_a_recording_has_levels_only_with_its_full_scale_and_marks_what_the_receiver_makes()
    {
        string path = Recorded();

        SurveyAnswer bare = Run(new SurveyQuestion { Sweeps = [path] });
        SurveyAnswer known = Run(new SurveyQuestion { Sweeps = [path], FullScaleDbm = -30 });

        Assert.Equal(3, bare.Emitters.Count);
        Assert.All(bare.Emitters, static e => Assert.Null(e.LevelDbm));
        Assert.Equal(-20, bare.Emitters[0].Line.LevelDbm, 0.3);
        Assert.DoesNotContain("level", SurveyService.Addition(bare.Emitters[0], 1_000).Entry.ToString(), StringComparison.Ordinal);
        Assert.Equal(-50, known.Emitters[0].LevelDbm!.Value, 0.3);
        Assert.Equal(145_131_250, known.Emitters[0].Line.FrequencyHz, 400.0);
        Assert.Null(known.Emitters[0].Doubtful);
        LineDoubt.MirrorImage image = Assert.IsType<LineDoubt.MirrorImage>(
            known.Emitters.Single(static e => e.Line.FrequencyHz < 145.09e6).Doubtful);
        Assert.InRange(image.OfHz, 145.131e6 - 500, 145.131e6 + 500);
        SurveyedEmitter middle = known.Emitters.Single(static e => Math.Abs(e.Line.FrequencyHz - 145.1e6) < 2_000);
        Assert.IsType<LineDoubt.MiddleOfRecording>(middle.Doubtful);
    }

    /// <summary>Noise that sinks behind the pad came in with the signals or was made of them: so much more than 1 dB is said, less is
    /// not.</summary>
    [Theory]
    [InlineData(0.0, false)]
    [InlineData(0.5, false)]
    [InlineData(1.5, true)]
    [InlineData(6.0, true)]
    public void Run_with_a_sweep_behind_a_pad_says_by_how_much_the_noise_rose(double riseDb, bool said)
    {
        SurveyAnswer answer = Run(new SurveyQuestion
        {
            Sweeps = [Rows("open.csv", 1, [riseDb])],
            Padded = Rows("padded.csv", 2, [0]),
            PadDb = 10,
        });

        SurveyRemark.NoiseAbovePadded[] rise = [.. answer.Remarks.OfType<SurveyRemark.NoiseAbovePadded>()];
        Assert.Equal(said, rise.Length == 1);
        Assert.All(rise, r => Assert.Equal(riseDb, r.RiseDb, 0.3));
    }

    /// <summary>Noise that moves by more than 3 dB over three rows or more tells of overload that comes and goes.</summary>
    [Theory]
    [InlineData(0.0, 0.0, false)]
    [InlineData(2.0, 0.0, false)]
    [InlineData(5.0, 0.0, true)]
    [InlineData(5.0, null, false)]
    public void Run_of_many_rows_says_that_the_noise_moves(double second, double? third, bool said)
    {
        double[] rises = third is { } last ? [0, second, last] : [0, second];

        SurveyAnswer answer = Run(new SurveyQuestion { Sweeps = [Rows("rows.csv", 3, rises)] });

        SurveyRemark.NoiseMoves[] moves = [.. answer.Remarks.OfType<SurveyRemark.NoiseMoves>()];
        Assert.Equal(said, moves.Length == 1);
        Assert.All(moves, m => Assert.Equal(second, m.RangeDb, 0.5));
    }

    /// <summary>Two bands in two files are one survey: each band's lines and its own noise.</summary>
    [Fact]
    public void Run_of_two_bands_in_two_files_has_the_lines_of_both()
    {
        string low = Sweep("low.csv", 5, (500, -60));
        string high = Path.Combine(_folder, "high.csv");
        File.WriteAllText(high, File.ReadAllText(Sweep("made.csv", 6, (250, -70))).Replace("\n144", "\n155", StringComparison.Ordinal));

        SurveyAnswer answer = Run(new SurveyQuestion { Sweeps = [low, high] });

        Assert.Equal([144_500_000L, 155_250_000L], answer.Emitters.Select(static e => e.CarrierHz).Order());
        Assert.Equal(2, answer.FloorDbm.Count);
        Assert.All(answer.FloorDbm, static f => Assert.Equal(-110, f, 0.5));
    }

    /// <summary>Rows of noise of fifty averages, each so much over -110 dBm.</summary>
    private string Rows(string name, int seed, double[] risesDb)
    {
        Random random = new(seed);
        string path = Path.Combine(_folder, name);
        double Noise() => 10 * Math.Log10(Enumerable.Range(0, 50).Sum(_ => -Math.Log(1 - random.NextDouble())) / 50);
        File.WriteAllText(
            path,
            "time," + string.Join(',', Enumerable.Range(0, 400).Select(static i => 144_000_000 + (i * 1000))) + "\n"
                + string.Concat(risesDb.Select((rise, r) => string.Create(CultureInfo.InvariantCulture, $"2031-03-04T19:00:{r:00}Z,")
                    + string.Join(',', Enumerable.Range(0, 400).Select(
                        _ => (-110 + rise + Noise()).ToString("0.000", CultureInfo.InvariantCulture))) + "\n")));
        return path;
    }
}
