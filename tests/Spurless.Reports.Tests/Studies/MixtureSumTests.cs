using Spurless.Drawing.Words;
using Spurless.Reports.Studies;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Studies;

/// <summary>The sums of the demo's findings: each column adds up as printed, and its figures are those of the lists.</summary>
public sealed class MixtureSumTests
{
    public static TheoryData<string> Sites =>
        ["quernmoss.site.yaml", "quernmoss-filtered.site.yaml", "quernmoss-cured.site.yaml", "quernmoss-measured.site.yaml"];

    [Theory]
    [MemberData(nameof(Sites))]
    public void Of_every_finding_adds_up_and_agrees_with_the_lists(string file)
    {
        StudyResult study = DemoSites.Study(file);
        ReceiverFindings receiver = study.Receivers.Single();
        foreach (NumberedFinding finding in NumberedFinding.Of(receiver))
        {
            IReadOnlyList<SumRow> rows = MixtureSum.Of(receiver, finding, study.Options).Rows;
            if (finding.After is { InChannelLevelDbm: { } now, OverNoiseDb: { } over })
            {
                PrintedSums.AddUp([.. rows.Select(static r => (r.What, r.After, r.IsTotal))]);
                Assert.Equal(Figures.Db(now, Typography.Fine), rows.Single(static r => r.What == "in the channel, dBm").After);
                Assert.Equal(Figures.SignedDb(over, Typography.Fine), rows[^1].After);
                Assert.Equal(
                    Figures.Db(receiver.NoiseFloorDbm, Typography.Fine), rows.Single(static r => r.What == "noise floor, dBm").After);
            }

            if (finding.Before is { InChannelLevelDbm: not null })
            {
                PrintedSums.AddUp([.. rows.Select(static r => (r.What, r.Before, r.IsTotal))]);
            }
        }
    }

    [Fact]
    public void Of_a_product_made_in_a_transmitter_writes_the_way_from_its_power_to_the_receiver()
    {
        StudyResult study = DemoSites.Study("quernmoss-cured.site.yaml", new StudyOptions { FloorDbm = double.NegativeInfinity });
        ReceiverFindings receiver = study.Receivers.Single();
        NumberedFinding made = NumberedFinding.Of(receiver).First(static f => f.Either.Mechanism == Mechanism.Transmitter);
        IReadOnlyList<SumRow> rows = MixtureSum.Of(receiver, made, study.Options).Rows;

        // docs: 5 W is 37 dBm, 45 dB of coupling, 55 dB of isolator, 12 dB turn-round, 64 dB of path; 1.2 dB of feedline and 2.9 dB of
        // filter.
        (string What, string Before, string After)[] expected =
        [
            ("gauging station, output power, dBm", "37.0", "37.0"),
            ("coupling to telemetry scanner", "\u221245.0", "\u221245.0"),
            ("isolator of telemetry scanner", "\u221255.0", "\u221255.0"),
            ("arrives at its output stage, dBm", "\u221263.0", "\u221263.0"),
            ("turn-round loss", "\u221212.0", "\u221212.0"),
            ("leaves the transmitter, dBm", "\u221275.0", "\u221275.0"),
            ("path to your antenna connector", "\u221264.0", "\u221264.0"),
            ("at the antenna connector, dBm", "\u2212139.0", "\u2212139.0"),
            ("chain up to the receiver", "\u22121.2", "\u22124.1"),
        ];
        Assert.Equal(expected, rows.Take(expected.Length).Select(static r => (r.What, r.Before, r.After)));
    }

    [Fact]
    public void Text_writes_the_same_sum()
    {
        StringWriter text = new();
        Reports.Studies.StudyText.Write(DemoSites.Study("quernmoss-filtered.site.yaml"), text, Reports.Text.TextInk.None);
        string written = text.ToString();
        (string What, string Value, bool Total)[] rows =
        [
            .. written.Split('\n')
                .SkipWhile(static l => !l.StartsWith("the worst, part by part", StringComparison.Ordinal)).Skip(2)
                .TakeWhile(static l => l.Length > 0)
                .Select(
                    static l =>
                        (l[..l.LastIndexOf(' ')].Trim(), l[(l.LastIndexOf(' ') + 1)..], l[0] != ' '
                            && !l.StartsWith("noise", StringComparison.Ordinal))),
        ];
        Assert.Equal("gauging station, output power", rows[0].What);
        PrintedSums.AddUp(rows);
        Assert.Contains("Ask whoever keeps telemetry scanner for a double isolator", written, StringComparison.Ordinal);
    }
}
