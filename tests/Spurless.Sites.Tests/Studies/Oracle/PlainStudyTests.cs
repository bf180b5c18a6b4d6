using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Studies.Oracle;

/// <summary>
/// The study against the plainest way of doing it (<see cref="PlainStudy"/>), on small sites by chance: no product more, none less, every
/// figure of each. Tolerance: each level that goes in is rounded to a micro-dB, nine of them at most, and an intercept eight times.
/// </summary>
public sealed class PlainStudyTests
{
    private const double Rounding = 3e-5;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 60)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Run_finds_what_the_plain_study_finds_with_its_figures(int seed)
    {
        SmallSite site = SmallSite.Of(seed);
        ReceiverFindings found = Study(site.Text());
        PlainStudy plain = new(site);
        Assert.Equal(plain.NoiseDbm, found.NoiseFloorDbm, 1e-6);
        Dictionary<string, PlainProduct> expected = plain.All().ToDictionary(p => Key(site, p), static p => p);
        Dictionary<string, ProductFinding> actual = found.Products.ToDictionary(static p => Key(p), static p => p);
        foreach ((string key, PlainProduct product) in expected)
        {
            bool clear = Math.Abs(product.InChannelDbm - plain.FloorDbm) > Rounding;
            Assert.True(!clear || actual.ContainsKey(key) == product.InChannelDbm > plain.FloorDbm,
                $"seed {seed}: {key} at {product.InChannelDbm} dBm, floor {plain.FloorDbm}, listed {actual.ContainsKey(key)}");
        }

        Assert.Empty(actual.Keys.Except(expected.Keys));
        foreach ((string key, ProductFinding one) in actual)
        {
            Same(seed, expected[key], one, plain.NoiseDbm);
        }

        double? sum = Sum(actual.Values, site);
        Assert.Equal(sum ?? 0, found.SumOverNoiseDb ?? 0, 1e-4);
    }

    private static void Same(int seed, PlainProduct expected, ProductFinding one, double noiseDbm)
    {
        string of = $"seed {seed}: {Key(one)}";
        Assert.Equal(expected.Order, one.Order);
        Assert.Equal(expected.Hz, one.FrequencyHz);
        Near(expected.PowerDbm, one.LevelDbm, Rounding, of);
        Near(expected.VoltageDbm, one.LevelWorstDbm, Rounding, of);
        Near(expected.InChannelDbm, one.InChannelLevelDbm, Rounding, of);
        Near(expected.InChannelDbm - noiseDbm, one.OverNoiseDb, Rounding, of);
        for (int s = 0; s < expected.StageDbm.Length; s++)
        {
            Near(expected.StageDbm[s], one.Places[s].LevelDbm, Rounding, of);
        }

        // Of two stages alike to a micro-dB either may be the strongest.
        if (expected.StageDbm.Length == 1 || Math.Abs(expected.StageDbm[0] - expected.StageDbm[1]) > Rounding)
        {
            Near(expected.SigmaDb, one.SigmaDb, 1e-9, of);
            Near(expected.NextDegreeDb ?? 0, one.NextDegreeErrorDb ?? 0, 1e-4, of);
        }

        Near(expected.OnTogether, one.OnTogether, 1e-12, of);
        double over = expected.InChannelDbm - noiseDbm;
        if (Math.Abs(over) > Rounding && Math.Abs(over + 10) > Rounding)
        {
            Assert.Equal(over >= 0 ? Verdict.Harmful : over >= -10 ? Verdict.Marginal : Verdict.Clear, one.Verdict);
        }
    }

    /// <summary>The greatest sum of what can be on at once: every subset of the emitters in which no group has two.</summary>
    private static double? Sum(IEnumerable<ProductFinding> products, SmallSite site)
    {
        ProductFinding[] all = [.. products];
        if (all.Length == 0)
        {
            return null;
        }

        double best = double.NegativeInfinity;
        for (int on = 0; on < 1 << site.Emitters.Count; on++)
        {
            bool can = !site.Exclusive.Any(g => g.Count(i => (on >> i & 1) != 0) > 1);
            double power = all.Where(p => p.Terms.All(t => (on >> t.Emitter & 1) != 0))
                .Sum(static p => Math.Pow(10, p.OverNoiseDb!.Value / 10));
            best = can ? Math.Max(best, 10 * Math.Log10(power)) : best;
        }

        return best;
    }

    private static void Near(double expected, double? actual, double within, string of) =>
        Assert.True(actual is { } a && Math.Abs(a - expected) <= within, $"{of}: expected {expected}, found {actual}");

    private static string Key(SmallSite site, PlainProduct product) =>
        string.Join(' ', product.Coefficients.Select((k, i) => (k, i)).Where(static t => t.k != 0)
            .Select(t => $"{t.k}{site.Emitters[t.i].Name}"));

    private static string Key(ProductFinding product) =>
        string.Join(' ', product.Terms.OrderBy(static t => t.Emitter).Select(static t => $"{t.Coefficient}{t.Name}"));

    internal static ReceiverFindings Study(string text)
    {
        LoadedSite? site = SiteLoader.Load(text, "small.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Equal("", string.Join('\n', findings));
        return Assert.Single(StudyService.Run(site!, new StudyOptions()).Receivers);
    }
}
