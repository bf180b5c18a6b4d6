using System.Globalization;
using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Search;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Studies;

/// <summary>Sites of so many emitters that their lists are forecast before they are made.</summary>
public sealed class LongListTests
{
    [Fact]
    public void Run_refuses_a_hopeless_list_before_it_searches()
    {
        StudyOptions options = new() { FloorDbm = double.NegativeInfinity, LongestList = 2_000 };
        TooManyProductsException refused = Assert.Throws<TooManyProductsException>(
            () => StudyService.Run(Site(400), options, new NeverRun(), null, default));
        Assert.Contains("by a forecast", refused.Message, StringComparison.Ordinal);
        Assert.Contains("--top N", refused.Message, StringComparison.Ordinal);
        Assert.Contains("receiver 1", refused.Message, StringComparison.Ordinal);
    }

    // The forecast must not refuse what can be listed: within four times the longest list only the list itself decides.
    [Fact]
    public void Run_makes_a_list_that_the_forecast_is_not_sure_of()
    {
        StudyOptions options = new() { FloorDbm = double.NegativeInfinity, Orders = (2, 5), Signals = 3 };
        LoadedSite site = Site(600);
        int count = StudyService.Run(site, options).Receivers[0].Products.Count;
        Assert.Equal(count, StudyService.Run(site, options with { LongestList = count }).Receivers[0].Products.Count);
        TooManyProductsException refused = Assert.Throws<TooManyProductsException>(
            () => StudyService.Run(site, options with { LongestList = count - 1 }));
        Assert.DoesNotContain("forecast", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_tells_of_a_long_list_before_it_makes_it()
    {
        List<LongList> told = [];
        StudyOptions options = new() { FloorDbm = double.NegativeInfinity, Orders = (2, 5), LongLists = new Collect(told) };
        StudyResult result = StudyService.Run(Site(800), options);
        LongList only = Assert.Single(told);
        Assert.Equal("receiver 1", only.Receiver);
        Assert.InRange(
            result.Receivers[0].Products.Count, only.Expected - (5 * only.StandardError), only.Expected + (5 * only.StandardError));
        Assert.Null(result.Options.LongLists);
    }

    [Fact]
    public void Run_with_a_short_list_tells_nothing()
    {
        List<LongList> told = [];
        StudyService.Run(Site(400), new StudyOptions { FloorDbm = -100, LongLists = new Collect(told) });
        Assert.Empty(told);
    }

    /// <summary>
    /// Nine signals of order 9 over 2,000 emitters: the list is refused by its forecast, not begun without end. Over eight emitters it is
    /// made. What is found is counted, not the time: the list ends at its limit, and of the search's own findings some have their level
    /// but fall in beside the channel, where too little of it reaches the floor, so that more is found than is kept: here 1.2 to one.
    /// </summary>
    [Theory]
    [InlineData(2_000, true)]
    [InlineData(8, false)]
    public void Run_of_nine_signals_of_order_9_is_refused_or_ends(int emitters, bool refused)
    {
        CountingSearch search = new();
        StudyOptions options = new() { FloorDbm = -300, Orders = (2, 9), Signals = 9 };
        void Run() => StudyService.Run(Site(emitters), options, search, null, TestContext.Current.CancellationToken);
        if (refused)
        {
            Assert.Throws<TooManyProductsException>(Run);
        }
        else
        {
            Run();
        }

        Assert.InRange(search.Found, 0, 2 * TooManyProductsException.Limit);
    }

    // Oracle: the whole list, cut.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Run_for_the_strongest_of_a_hopeless_list_keeps_the_same_without_counting_the_rest(bool amplifier)
    {
        LoadedSite site = Site(500, amplifier);
        StudyOptions options = new() { FloorDbm = double.NegativeInfinity, Orders = (2, 6) };
        ReceiverFindings all = StudyService.Run(site, options).Receivers[0];
        ReceiverFindings counted = StudyService.Run(site, options with { Top = 25 }).Receivers[0];
        CountingSearch search = new();
        ReceiverFindings top = StudyService.Run(site, options with { Top = 25, LongestList = 1_000 }, search, null, default).Receivers[0];
        Assert.Equal(all.Products.Take(25).Select(Line), counted.Products.Select(Line));
        Assert.Equal(all.Products.Take(25).Select(Line), top.Products.Select(Line));
        Assert.Equal(all.Products.Count - 25, counted.ProductsLeftOut);
        Assert.False(counted.ProductsLeftOutForecast);
        Assert.True(top.ProductsLeftOutForecast);
        Assert.InRange(top.ProductsLeftOut, 0.5 * all.Products.Count, 2 * all.Products.Count);
        // That is what it is for: most of the list is not even looked for.
        Assert.True(search.Found < all.Products.Count / 3, $"{search.Found} of {all.Products.Count}");
    }

    [Theory]
    [InlineData(7_234_567, "7,200,000")]
    [InlineData(104_999, "100,000")]
    [InlineData(95, "95")]
    [InlineData(0, "0")]
    [InlineData(2.8e23, "2.8 x 10^23")]
    public void AboutNumber_has_two_digits(double number, string words) => Assert.Equal(words, LongList.AboutNumber(number));

    private static string Line(ProductFinding product) => string.Create(
        CultureInfo.InvariantCulture,
        $"{string.Join(' ', product.Terms.Select(static t => (t.Name, t.Coefficient)))} {product.InChannelLevelDbm:R} {product.Verdict}");

    /// <summary>Carriers on the rasters of land mobile bands, levels as they spread on a hill. Invented.</summary>
    private static LoadedSite Site(int emitters, bool amplifier = false)
    {
        Random random = new(3);
        StringBuilder text = new("""
            spurless: 1
            site: invented
            receivers:
              - name: receiver 1
                frequency: 145.05 MHz
                channel: 12.5 kHz
                noise_figure: 6 dB
                iip3: -5 dBm

            """);
        if (amplifier)
        {
            text.AppendLine("    chain:\n      - amplifier: { gain: 10 dB, noise_figure: 2 dB, iip3: 0 dBm }");
        }

        text.AppendLine("emitters:");
        for (int i = 0; i < emitters; i++)
        {
            double frequency = i % 2 == 0 ? 146 + (random.Next(2_240) * 0.0125) : 410 + (random.Next(4_800) * 0.0125);
            text.AppendLine(
                CultureInfo.InvariantCulture,
                $"  - {{ name: e{i}, frequency: {frequency:0.0000} MHz, emission: 11K2F3E, level: "
                    + $"{-85 + (60 * random.NextDouble()):0.00} dBm }}");
        }

        LoadedSite? site = SiteLoader.Load(text.ToString(), "invented.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return site!;
    }

    private sealed class NeverRun : IProductSearch
    {
        public SearchOutcome Run(
            SearchProblem problem,
            IProductSink sink,
            IProgress<SearchProgress>? progress = null,
            CancellationToken cancellationToken = default) =>
            throw new InvalidOperationException("The search was begun.");
    }

    private sealed class CountingSearch : IProductSearch
    {
        public long Found { get; private set; }

        public SearchOutcome Run(
            SearchProblem problem,
            IProductSink sink,
            IProgress<SearchProgress>? progress = null,
            CancellationToken cancellationToken = default)
        {
            SearchOutcome outcome = new FastSearch().Run(problem, sink, progress, cancellationToken);
            Found += outcome.Found;
            return outcome;
        }
    }

    private sealed class Collect(List<LongList> told) : IProgress<LongList>
    {
        public void Report(LongList value) => told.Add(value);
    }
}
