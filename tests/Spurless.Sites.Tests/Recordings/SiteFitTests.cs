using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Sites.Recordings;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Recordings;

public sealed class SiteFitTests
{
    private const string Invented = """
        spurless: 1
        site: invented
        receivers:
          - { name: input, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -2 dBm, iip2: 30 dBm, iip5: -4 dBm }
        emitters:
          - { name: base, frequency: 160.525 MHz, emission: 11K2F3E, level: -30 dBm }
          - { name: pager, frequency: 466.1 MHz, emission: 16K0F1D, level: -30 dBm }
          - { name: one, frequency: 153.35 MHz, emission: 11K2F3E, level: -25 dBm }
          - { name: two, frequency: 157.5 MHz, emission: 11K2F3E, level: -25 dBm }
        search: { orders: 2-5, signals: 3 }
        """;

    private static LoadedSite Site()
    {
        DiagnosticBag bag = new();
        LoadedSite? site = SourceReader.Site(new SourceFile("invented.site.yaml", Encoding.UTF8.GetBytes(Invented), new StubFiles()), bag);
        Assert.False(bag.HasErrors, string.Join('\n', bag.InOrder()));
        return site!;
    }

    private static Heard Of(double? deviationHz, double? centreHz, params SignalKind[] kinds) => new(
        10, null, centreHz is not null, 145e6, 145.1e6,
        [
            new Transmission
            {
                StartS = 1,
                EndS = 9,
                CentreHz = centreHz,
                DeviationHz = deviationHz,
                Kinds =
                [
                    .. kinds.Select(
                        static k => new Finding { Kind = k, StartS = 1, EndS = 9, Confidence = 0.99, Evidence = new Evidence() }),
                ],
            },
        ],
        null);

    private static IReadOnlyList<MixtureFit> Weigh(Heard heard)
    {
        LoadedSite site = Site();
        return SiteFits.Weigh(heard, StudyService.Run(site, new StudyOptions(), null, CancellationToken.None), site.Document, null);
    }

    private static string Terms(MixtureFit fit) => string.Join(' ', fit.Product.Terms.Select(static t => $"{t.Coefficient}{t.Name}"));

    [Fact]
    public void Weigh_pagingAndVoice_isTheMixtureOfBoth()
    {
        IReadOnlyList<MixtureFit> fits = Weigh(Of(null, null, SignalKind.Pocsag, SignalKind.Voice));

        Assert.Equal("-2base 1pager", Terms(fits[0]));
        Assert.Equal([SignalKind.Pocsag, SignalKind.Voice], fits[0].Explained.Order());
        Assert.Empty(fits[0].Unexplained);
        Assert.Equal(1, fits.Sum(static f => f.Share), 1e-12);

        // By hand: the other mixture does not carry paging: 1 against 0.03.
        Assert.Equal(0.03, fits[1].Share / fits[0].Share, 1e-9);
        Assert.Equal([SignalKind.Pocsag], fits[1].Unexplained);
    }

    [Fact]
    public void Weigh_voiceAlone_isTheMixtureWithoutPaging()
    {
        IReadOnlyList<MixtureFit> fits = Weigh(Of(null, null, SignalKind.Voice));

        Assert.Equal("3one -2two", Terms(fits[0]));
        Assert.Equal(["pager"], fits[1].Missing);

        // By hand: 0.4 for the silent pager.
        Assert.Equal(0.4, fits[1].Share / fits[0].Share, 1e-9);
    }

    /// <summary>A pager that identifies itself in Morse is a pager: the same shares with the identification as without.</summary>
    [Fact]
    public void Weigh_identificationInMorse_isNoStrangerToData()
    {
        IReadOnlyList<MixtureFit> fits = Weigh(Of(null, null, SignalKind.Pocsag, SignalKind.Voice, SignalKind.Morse));

        Assert.Equal("-2base 1pager", Terms(fits[0]));
        Assert.Empty(fits[0].Unexplained);
        Assert.Equal(0.03, fits[1].Share / fits[0].Share, 1e-9);

        // But it is no paging: the pager counts as silent (0.4).
        Assert.Equal(["pager"], Weigh(Of(null, null, SignalKind.Voice, SignalKind.Morse)).Single(
            static f => Terms(f).Contains("pager", StringComparison.Ordinal)).Missing);
        Assert.Equal(
            SiteFits.LogLikelihoodOfOther([SignalKind.Pocsag]),
            SiteFits.LogLikelihoodOfOther([SignalKind.Pocsag, SignalKind.Morse]), 1e-12);
    }

    /// <summary>By hand: 2 x (11.2 / 2 - 3) + 16 / 2 - 3 = 10.2 kHz, and 5 x 2.6 = 13 kHz.</summary>
    [Fact]
    public void Weigh_deviation_isHeldAgainstTheCoefficients()
    {
        IReadOnlyList<MixtureFit> fits = Weigh(Of(10_200, 145.05e6, SignalKind.Voice));

        MixtureFit pager = fits.Single(static f => Terms(f).Contains("pager", StringComparison.Ordinal));
        MixtureFit other = fits.Single(static f => Terms(f).Contains("one", StringComparison.Ordinal));
        Assert.Equal(10_200, pager.Measured.ExpectedDeviationHz!.Value, 1e-6);
        Assert.Equal(13_000, other.Measured.ExpectedDeviationHz!.Value, 1e-6);
        double off = Math.Log(10.2 / 13) / Math.Log(2.5);
        Assert.Equal(0.4 / Math.Exp(-0.5 * off * off), pager.Share / other.Share, 1e-9);
    }

    [Fact]
    public void Weigh_offset_countsByTheClocks()
    {
        IReadOnlyList<MixtureFit> fits = Weigh(Of(null, 145.053e6, SignalKind.Pocsag, SignalKind.Voice));

        // Without a deviation no transmission is measured.
        Assert.Null(fits[0].Measured.OffsetHz);
        MixtureFit measured = Weigh(Of(10_200, 145.053e6, SignalKind.Pocsag, SignalKind.Voice))[0];
        Assert.Equal(3_000, measured.Measured.OffsetHz!.Value, 1e-6);

        // By hand: 10 x 145.05, 2 x 2 x 160.525 and 2 x 466.1 Hz.
        Assert.Equal(Math.Sqrt(1450.5 * 1450.5 + 642.1 * 642.1 + 932.2 * 932.2), measured.Measured.OffsetSigmaHz!.Value, 1e-6);
    }

    [Fact]
    public void Weigh_elsewhereInTheBand_isNotOnTheChannel() => Assert.Empty(Weigh(Of(2_500, 145.08e6, SignalKind.Voice)));

    [Theory]
    [InlineData("11K2F3E", Carried.Voice)]
    [InlineData("16K0F1D", Carried.Data)]
    [InlineData("11K2F2D", Carried.ToneData)]
    [InlineData("25K0D7W", Carried.Data)]
    [InlineData("180KF8E", Carried.Wide)]
    [InlineData("100HA1A", Carried.Morse)]
    [InlineData("16K0F2A", Carried.Morse)]
    [InlineData("N0N", Carried.Nothing)]
    public void Of_designator_saysWhatIsCarried(string emission, Carried carried)
    {
        LoadedSite site = Site();
        Assert.Equal(carried, SiteFits.Of(site.Document.Emitters[0] with { Emission = Radio.Emissions.Emission.Parse(emission) }));
    }
}
