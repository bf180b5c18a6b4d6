using Spurless.Files.Diagnostics;
using Spurless.Radio.Paths;
using Spurless.Register.Records;
using Spurless.Signals.Spectra;
using Spurless.Sites.Documents;
using Spurless.Sites.Matching;
using Spurless.Sites.Registers;
using Spurless.Sites.Surveys;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Matching;

public sealed class MatchServiceTests
{
    private const string Site = """
        spurless: 1
        site: hill (invented)
        place: { latitude: 50, longitude: 0 }
        receivers:
          - name: input
            frequency: 145.05 MHz
            channel: 12.5 kHz
            noise_figure: 6 dB
            iip3: -5 dBm
        emitters:
          - name: heard in the east
            frequency: 160 MHz
            emission: 11K2F3E
            level: -40 dBm
            distance: 11 km
            bearing: 95
          - name: no level
            frequency: 161 MHz
            emission: 11K2F3E
            eirp: 50 dBm
        """;

    private static SiteDocument Read(string text) => SiteReader.Read(text, "a.site.yaml", new StubFiles([])).Document!;

    private static NearEmitter Licensed(
        string call, double megahertz, double? level, double bearing = 0, double sigma = 8, bool most = false, double? upper = null) =>
        new()
        {
            Record = new RegisterRecord
            {
                Id = 1,
                Register = "invented",
                Place = GeoPoint.Of(50.1, 0),
                Transmits = true,
                Licence = "L" + call,
                CallSign = call,
                FrequencyHz = (long)Math.Round(megahertz * 1e6),
                UpperEdgeHz = upper is { } edge ? (long)Math.Round(edge * 1e6) : null,
                Emission = "11K2F3E",
                BandwidthHz = 11_200,
                EirpDbm = level is null ? null : 50,
            },
            DistanceM = 11_000,
            BearingDegrees = bearing,
            LevelDbm = level,
            SigmaDb = level is null ? null : sigma,
            Assumed = [],
            IsMost = most,
            InSite = false,
        };

    private static NearAnswer Near(params NearEmitter[] emitters) => new("hill", "input", 30_000, emitters);

    private static SurveyedEmitter Line(double megahertz, double level, string? doubtful = null) => new(
        new SpectrumLine
        {
            FrequencyHz = megahertz * 1e6,
            FrequencySigmaHz = 300,
            BandwidthHz = 11_200,
            BandwidthSigmaHz = 500,
            LevelDbm = level,
            SigmaDb = 1.5,
            OnShare = 0.4,
            OnShareSigma = 0.1,
            Bins = (0, 0),
        },
        doubtful is null ? null : new LineDoubt.AsRead(doubtful));

    private static EmitterMatch One(SurveyedEmitter line, params NearEmitter[] licences) =>
        Assert.Single(MatchService.Run(MatchService.OfSurvey([line]), Near(licences)).Matches);

    [Fact]
    public void Run_joins_the_one_licence_on_the_frequency()
    {
        EmitterMatch match = One(Line(160.0003, -52), Licensed("AA", 160, -50), Licensed("BB", 160.0125, -50), Licensed("CC", 161, -50));

        Assert.Equal(MatchOutcome.Joined, match.Outcome);
        MatchCandidate candidate = Assert.Single(match.Candidates);
        Assert.Equal("AA 160 MHz", candidate.Licensed.Name);
        Assert.Equal(300, candidate.OffHz, 1e-3);
        Assert.Equal(-2, candidate.OverPredictedDb!.Value, 1e-9);
        Assert.Equal(1, candidate.Weight + match.OtherWeight, 1e-9);
    }

    /// <summary>Two licences on one channel: alike they are ambiguous; the levels' Gaussian densities tell unlike ones apart.</summary>
    [Fact]
    public void Run_lists_two_alike_and_joins_where_the_level_tells()
    {
        EmitterMatch alike = One(Line(160, -50), Licensed("AA", 160, -50), Licensed("BB", 160, -52));
        EmitterMatch told = One(Line(160, -50), Licensed("AA", 160, -50, sigma: 5), Licensed("BB", 160, -80, sigma: 5));

        Assert.Equal(MatchOutcome.Ambiguous, alike.Outcome);
        Assert.Equal(["AA 160 MHz", "BB 160 MHz"], alike.Candidates.Select(static c => c.Licensed.Name));
        Assert.Equal(MatchOutcome.Joined, told.Outcome);

        // By hand: exp(30^2 / (2 (5^2 + 1.5^2))) is over ten to the seventh.
        Assert.InRange(told.Candidates[1].Weight, 0, 1e-6);
    }

    [Fact]
    public void Run_lists_a_licence_without_a_power_beside_one_that_fits()
    {
        EmitterMatch match = One(Line(160, -50), Licensed("AA", 160, -65), Licensed("BB", 160, null));

        Assert.Equal(MatchOutcome.Ambiguous, match.Outcome);
        Assert.Null(match.Candidates.Single(static c => c.Licensed.Name == "BB 160 MHz").OverPredictedDb);
    }

    [Fact]
    public void Run_does_not_explain_a_level_far_over_the_prediction()
    {
        EmitterMatch match = One(Line(160, -30), Licensed("AA", 160, -90));

        Assert.Equal(MatchOutcome.Unexplained, match.Outcome);
        Assert.True(match.OtherWeight > 0.5);
        Assert.Equal(MatchOutcome.Unexplained, One(Line(160, -30), Licensed("AA", 160.0125, -30)).Outcome);
    }

    /// <summary>What free space gives is the most that it can be: 30 dB under it is plausible behind a hill, over it is not.</summary>
    [Fact]
    public void Run_lets_unknown_ground_weaken_but_not_strengthen()
    {
        Assert.Equal(MatchOutcome.Joined, One(Line(160, -80), Licensed("AA", 160, -50, sigma: 10, most: true)).Outcome);
        Assert.Equal(MatchOutcome.Unexplained, One(Line(160, -10), Licensed("AA", 160, -60, sigma: 10, most: true)).Outcome);
    }

    [Fact]
    public void Run_of_a_block_takes_what_lies_in_it()
    {
        Assert.Equal(MatchOutcome.Joined, One(Line(460.2, -50), Licensed("AA", 460, -50, upper: 461)).Outcome);
        Assert.Equal(MatchOutcome.Unexplained, One(Line(461.2, -50), Licensed("AA", 460, -50, upper: 461)).Outcome);
    }

    [Fact]
    public void Run_that_is_cancelled_stops() => Assert.ThrowsAny<OperationCanceledException>(() => MatchService.Run(
        MatchService.OfSurvey([Line(160, -42)]), Near(Licensed("AA", 160, -42)), new CancellationToken(canceled: true)));

    [Fact]
    public void Run_of_a_site_takes_its_measured_levels_and_their_bearing()
    {
        IReadOnlyList<MeasuredEmitter> measured = MatchService.OfSite(Read(Site));

        MatchAnswer answer = MatchService.Run(
            measured, Near(Licensed("WW", 160, -42, bearing: 275), Licensed("EE", 160, -42, bearing: 92)));

        Assert.Equal("heard in the east", Assert.Single(measured).Name);
        EmitterMatch match = Assert.Single(answer.Matches);
        Assert.Equal(MatchOutcome.Joined, match.Outcome);
        Assert.Equal("EE 160 MHz", match.Candidates[0].Licensed.Name);
        Assert.Equal(3, match.Candidates[0].BearingOffDegrees!.Value, 1e-9);
        Assert.Equal(180, match.Candidates[1].BearingOffDegrees!.Value, 1e-9);
    }

    [Fact]
    public void Additions_write_every_transmitter_once()
    {
        SiteDocument site = Read(Site);
        NearEmitter joined = Licensed("AA", 155, -50);
        NearEmitter one = Licensed("BB", 156, -50);
        NearEmitter other = Licensed("CC", 156, -51);
        NearEmitter silent = Licensed("DD", 157, -50);
        NearAnswer near = Near(joined, one, other, silent);
        MatchAnswer match = MatchService.Run(
            MatchService.OfSurvey(
                [Line(155, -52), Line(156, -50), Line(170, -60), Line(171, -60, "the instrument made it"), Line(160, -41)]),
            near);

        IReadOnlyList<SiteAddition> additions = MatchAdditions.Of(site, near, match, 1_000);

        // The ambiguous one stands as a line with both in its comment, the doubtful one and the one that the site has are left out.
        Assert.Equal(["AA 155 MHz", "line 156 MHz", "line 170 MHz", "DD 157 MHz"], additions.Select(static a => a.Name));
        Assert.Equal(HeardInSurvey.Measured, Assert.IsType<AdditionOrigin.Licensed>(additions[0].Origin).Heard);
        Assert.Equal(
            [("BB 156 MHz", "LBB"), ("CC 156 MHz", "LCC")], Assert.IsType<AdditionOrigin.Survey>(additions[1].Origin).MayBe);
        DiagnosticBag bag = new();
        Assert.True(SiteAdditions.TryAdd(Site, "a.site.yaml", site, additions, static o => o.ToString(), out string? edited, out _, bag));
        SiteDocument again = Read(edited);
        EmitterEntry written = again.Emitters.Single(static e => e.Name == "AA 155 MHz");
        Assert.Equal(-52, written.Level!.Value.Dbm, 1e-9);
        Assert.Equal(50, written.Eirp!.Value.Dbm, 1e-9);
        Assert.Equal(1.5, written.Uncertainty!.Value.Value, 1e-9);
    }

    [Fact]
    public void Survey_file_that_is_none_says_how_to_make_one()
    {
        string path = Path.GetTempFileName();
        foreach ((string text, string expected) in (ReadOnlySpan<(string, string)>)
        [
            ("{", "this is not JSON from here on"),
            ("[]", "no result of a survey"),
            ("{\"format\":\"spurless-near/1\",\"emitters\":[]}", "no result of a survey"),
            ("{\"format\":\"spurless-survey/1\",\"emitters\":[{\"frequency_hz\":1e8}]}", "its emitter 1 has no frequency or no level"),
        ])
        {
            File.WriteAllText(path, text);
            DiagnosticBag bag = new();
            Assert.Null(SurveyFile.Read(path, bag));
            Assert.Contains(expected, bag.InOrder()[0].What, StringComparison.Ordinal);
        }

        File.Delete(path);
        DiagnosticBag missing = new();
        Assert.Null(SurveyFile.Read(path, missing));
        Assert.Contains("there is no such file", missing.InOrder()[0].What, StringComparison.Ordinal);
    }
}
