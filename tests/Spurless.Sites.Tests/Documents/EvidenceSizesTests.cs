using System.Globalization;
using System.Text.RegularExpressions;
using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Tests.Documents;

/// <summary>
/// Readings with an attenuator or an emitter down: what no receiver can have read is refused, what it can is taken, and what a refusal says
/// to write is taken in turn.
/// </summary>
public sealed partial class EvidenceSizesTests
{
    private const string Site = """
        spurless: 1
        site: evidence (invented)
        receivers:
          - { name: input, frequency: 145.050 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -2 dBm }
        emitters:
          - { name: north, frequency: 153.350 MHz, emission: 11K2F3E, level: -24.5 dBm }
          - { name: south, frequency: 161.650 MHz, emission: 11K2F3E, level: -25 dBm }
        evidence:

        """;

    [GeneratedRegex(@"write at most (-?[\d.]+) dB")]
    private static partial Regex AtMost { get; }

    private static IReadOnlyList<Diagnostic> Read(string entry)
    {
        SiteLoader.Load(Site + "  - " + entry + "\n", "x.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        return findings;
    }

    private static string Db(double value) => value.ToString("0.0", CultureInfo.InvariantCulture) + " dB";

    private static readonly Gen<double> _tenths = Gen.Int[-150, 900].Select(static t => t / 10.0);

    /// <summary>
    /// A reading of noise and signal x dB over the noise can fall to the noise and no further, by 10 lg(1 + 10^(x/10)): by hand, with the
    /// edge itself left out.
    /// </summary>
    [Fact]
    public void A_fall_is_refused_where_it_ends_under_the_noise_and_nowhere_else() => Gen.Select(
        _tenths, Gen.Int[0, 1_000].Select(static t => t / 10.0), Gen.Bool).Sample(static (over, fall, emitter) =>
        {
            double most = 10 * Math.Log10(1 + Math.Pow(10, over / 10));
            if (Math.Abs(fall - most) < 0.06)
            {
                return;
            }

            string entry = (emitter
                ? "emitter_reduced: { receiver: input, emitter: north, by: 6 dB, "
                : "attenuator_test: { receiver: input, inserted: 3 dB, at: antenna, ") + $"over_noise: {Db(over)}, fall: ";
            IReadOnlyList<Diagnostic> found = Read(entry + Db(fall) + " }");
            bool reading = over is >= -10 and <= 80;
            Assert.Equal(!reading || fall > most, found.Count > 0);
            if (found.Count == 0)
            {
                return;
            }

            Diagnostic only = Assert.Single(found);
            Assert.Equal(9, only.Line);
            if (reading && AtMost.Match(only.Remedy) is { Success: true } least)
            {
                double proposed = double.Parse(least.Groups[1].Value, CultureInfo.InvariantCulture);
                Assert.InRange(proposed, most - 0.11, most);
                Assert.Empty(Read(entry + Db(proposed) + " }"));
            }
        }, iter: 150);

    /// <summary>An offset lies within the channel, on either side; a pad and a reduction are at most 100 dB.</summary>
    [Fact]
    public void Offsets_and_pads_have_their_ends() => Gen.Select(Gen.Int[-20_000, 20_000], Gen.Int[1, 200]).Sample(static (hertz, db) =>
    {
        string offset = hertz.ToString(CultureInfo.InvariantCulture), pad = db.ToString(CultureInfo.InvariantCulture);
        Assert.Equal(Math.Abs(hertz) > 12_500, Read($"offset: {{ receiver: input, measured: {offset} Hz }}").Count > 0);
        Assert.Equal(
            db > 100,
            Read($"attenuator_test: {{ receiver: input, inserted: {pad} dB, at: antenna, over_noise: 22 dB, fall: 9 dB }}").Count > 0);
        Assert.Equal(
            db > 100,
            Read($"emitter_reduced: {{ receiver: input, emitter: south, by: {pad} dB, over_noise: 22 dB, fall: 9 dB }}").Count > 0);
    }, iter: 60);
}
