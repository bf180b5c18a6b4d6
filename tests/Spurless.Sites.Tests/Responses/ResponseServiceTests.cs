using Spurless.Files.Diagnostics;
using Spurless.Sites.Responses;
using Spurless.Sites.Sources;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Responses;

public class ResponseServiceTests
{
    // A series 100 ohm between 50 ohm: |S21| = 2 x 50 / (2 x 50 + 100) = 1/2, 6.0206 dB; by hand.
    private const string Sweep = "# MHz S RI R 50\n100 0.5 0 0.5 0 0.5 0 0.5 0\n200 0.5 0 0.5 0 0.5 0 0.5 0\n";

    [Fact]
    public void Ask_measured_network_answers_at_its_own_points()
    {
        ResponseAnswer answer =
            ResponseService.Ask(new ResponseQuestion { Network = Network() }, null, TestContext.Current.CancellationToken).Answer!;
        Assert.Equal([100e6, 200e6], answer.Result.Points.Select(static p => p.FrequencyHz));
        Assert.Equal(20 * Math.Log10(2), answer.Result.Points[0].S.InsertionLossDb, 1e-12);
        Assert.Null(answer.Circuit);
        Assert.Equal("a.s2p", Assert.Single(answer.Inputs).Name);
    }

    [Fact]
    public void Ask_outside_the_sweep_is_refused()
    {
        Outcome<ResponseAnswer> outcome = ResponseService.Ask(
            new ResponseQuestion { Network = Network(), Frequencies = FrequencyChoice.At([466.1e6]) }, null,
                TestContext.Current.CancellationToken);
        Assert.Null(outcome.Answer);
        Assert.Contains("200 MHz", outcome.Refusal!.What, StringComparison.Ordinal);
    }

    [Fact]
    public void Ask_with_a_site_tells_what_is_taken_from_each_carrier()
    {
        DiagnosticBag findings = new();
        LoadedSite site = SourceReader.Site(SourceFile.Read(TestData.Demo("quernmoss.site.yaml"), FileKind.Site, findings)!, findings)!;
        ResponseAnswer answer =
            ResponseService.Ask(new ResponseQuestion { Network = Network(), Site = site }, null, TestContext.Current.CancellationToken)
            .Answer!;
        Assert.Equal(site.Document.Emitters.Select(static e => e.Name), answer.Losses.Select(static l => l.Emitter));
        Assert.All(answer.Losses.Where(static l => l.FrequencyHz is > 100_000_000 and < 200_000_000), static l =>
        {
            Assert.Equal(20 * Math.Log10(2), l.LossDb!.Value, 1e-9);
            Assert.InRange(l.LossDb.Value, l.Rejection!.LowDb!.Value, l.Rejection.HighDb!.Value);
        });
        Assert.Contains(answer.Losses, static l => l is { FrequencyHz: > 200_000_000, LossDb: null });
        Assert.Null(answer.Receiver);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(FrequencyChoice.UsualPoints)]
    public void FrequencyChoice_between_ends_where_it_is_told(int points)
    {
        IReadOnlyList<double> all = FrequencyChoice.Between(100e6, 200e6, points).Hertz;
        Assert.Equal((points, 100e6, 200e6), (all.Count, all[0], all[^1]));
    }

    private static NetworkFile Network()
    {
        DiagnosticBag findings = new();
        return SourceReader.Network(SourceFile.OfText("a.s2p", Sweep, new StubFiles()), findings)
            ?? throw new InvalidOperationException(string.Join('\n', findings.InOrder()));
    }
}
