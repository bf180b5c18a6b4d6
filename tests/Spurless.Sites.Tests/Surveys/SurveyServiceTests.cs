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
        Assert.Contains("2 x 144.3000 - 144.4000", doubtful.Doubtful, StringComparison.Ordinal);
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
}
