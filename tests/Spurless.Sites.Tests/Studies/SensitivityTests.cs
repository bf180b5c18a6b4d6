using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Studies;

/// <summary>What a signal needs at the antenna, and whether a filter gives more than it takes.</summary>
public sealed class SensitivityTests
{
    /// <summary>
    /// -128.944 dBm of noise (8 kHz, NF 6 dB) and 7.5 dB (narrow-band FM, common practice) behind 3 dB of line: -118.444 dBm, by hand.
    /// </summary>
    [Fact]
    public void SensitivityAtAntennaDbm_is_noise_ratio_and_loss() =>
        Assert.Equal(-118.444, Study("chain: [ { attenuator: 3 dB } ]", -200).SensitivityAtAntennaDbm, 0.001);

    /// <summary>
    /// External noise 20 dB over kT0 swamps the receiver's: losses before it then cost next to nothing. 10 lg of 99 + 2 x 3.981, by hand.
    /// </summary>
    [Fact]
    public void SensitivityAtAntennaDbm_under_strong_external_noise_hardly_feels_a_loss()
    {
        double bare = Study("external_noise: 20 dB", -200).SensitivityAtAntennaDbm;
        double padded = Study("external_noise: 20 dB, chain: [ { attenuator: 3.0103 dB } ]", -200).SensitivityAtAntennaDbm;
        Assert.Equal(10 * Math.Log10((99 + 7.962143) / (99 + 3.981072)), padded - bare, 0.001);
    }

    /// <summary>
    /// A series resistance takes 3.52 dB (2/3 in voltage) from everything: it takes more from mixtures of order 3 than it costs.
    /// </summary>
    [Theory]
    [InlineData(-25, true)]
    [InlineData(-60, false)]
    public void FilterGainDb_is_above_0_only_where_there_is_something_to_cure(int level, bool gains)
    {
        ReceiverFindings receiver = Study("chain: [ { circuit: series.circuit.yaml } ]", level);
        Assert.Equal(gains, receiver.FilterGainDb > 0);
        if (!gains)
        {
            double cost = receiver.SensitivityAtAntennaDbm - receiver.WithoutFilter!.SensitivityAtAntennaDbm;
            Assert.Equal(-cost, receiver.FilterGainDb!.Value, 0.01);
        }
    }

    /// <summary>A mixture of unknown level in the receiver may be the one that it cures: nothing is claimed.</summary>
    [Fact]
    public void FilterGainDb_is_null_where_a_level_at_the_receiver_is_unknown() =>
        Assert.Null(Study("chain: [ { circuit: series.circuit.yaml } ]", null).FilterGainDb);

    /// <summary>What --top left out is in no sum: nothing is claimed, and the sentence says why.</summary>
    [Fact]
    public void FilterGainDb_is_null_where_the_list_was_cut()
    {
        ReceiverFindings receiver = Study("chain: [ { circuit: series.circuit.yaml } ]", -25, top: 1);
        Assert.True(receiver.ProductsLeftOut > 0);
        Assert.Null(receiver.FilterGainDb);
        Assert.NotNull(Study("chain: [ { circuit: series.circuit.yaml } ]", -25, top: 1000).FilterGainDb);
    }

    private static ReceiverFindings Study(string keys, int? level, int? top = null)
    {
        string known = level is { } dbm ? $", level: {dbm} dBm" : "";
        string text = $$"""
            spurless: 1
            site: sensitivity (invented)
            receivers:
              - { name: ear, frequency: 145.05 MHz, channel: 12.5 kHz, if_bandwidth: 8 kHz, noise_figure: 6 dB, iip3: -2 dBm, {{keys}} }
            emitters:
              - { name: one, frequency: 146.05 MHz, emission: 11K2F3E{{known}} }
              - { name: other, frequency: 147.05 MHz, emission: 11K2F3E{{known}} }
              - { name: third, frequency: 148.05 MHz, emission: 11K2F3E{{known}} }
            search: { orders: 2-3, floor: -300 dBm }
            """;
        StubFiles files = new((
            "series.circuit.yaml",
            "spurless_circuit: 1\nname: series\nports: { in: a, out: b, impedance: 50 ohm }\n"
            + "parts:\n  R1: { resistor: 50 ohm, between: [a, b] }\n"));
        LoadedSite? site = SiteLoader.Load(text, "t.site.yaml", files, out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return Assert.Single(StudyService.Run(site!, new StudyOptions { Top = top }).Receivers);
    }
}
