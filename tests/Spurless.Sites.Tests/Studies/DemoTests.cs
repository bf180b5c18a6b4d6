using Spurless.Files.Diagnostics;
using Spurless.Mixing.Causes;
using Spurless.Mixing.Search;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Tests.Studies;

/// <summary>
/// The invented demo against figures that were computed once outside the program (levels by the formulas of docs/method, the filter by
/// nodal analysis of another tool): good to 0.1 dB.
/// </summary>
public sealed class DemoTests
{
    private const double Tolerance = 0.1;

    private static readonly (string Mixture, int Order, double Level, double InChannel, double Over)[] Expected =
    [
        ("2 telemetry scanner -1 gauging station", 3, -94.8, -95.0, 33.9),
        ("-2 waterworks base 1 regional paging", 3, -101.7, -105.6, 23.3),
        ("-1 highways base 1 repeater output 1 waterworks base", 3, -106.7, -106.8, 22.2),
        ("1 broadcast 1 six-metre repeater", 2, -98.7, -107.9, 21.1),
        ("3 haulage base -2 forest base", 5, -113.7, -114.8, 14.1),
        ("2 bus fleet base -1 rescue base", 3, -130.7, -130.9, -1.9),
    ];

    private const string Mixed = "2 telemetry scanner -1 gauging station";

    // What the telemetry transmitter needs to be counted as a place where mixing happens.
    private static readonly string[] TransmitterKeys = ["    turn_round_loss: 12 dB\n", "    coupling: { gauging station: 45 dB }\n"];

    [Fact]
    public void Study_without_the_filter_has_the_demos_six_products()
    {
        ReceiverFindings receiver = StudyWithout("quernmoss.site.yaml", TransmitterKeys).Receivers.Single();
        Assert.All(receiver.Products, static p => Assert.Equal(Mechanism.Receiver, p.Mechanism));
        Assert.Contains(receiver.NotComputed, static n => n.Transmitters.Contains("telemetry scanner"));
        Assert.Equal(-128.94, receiver.NoiseFloorDbm, 0.005);
        foreach ((string mixture, int order, double level, double inChannel, double over) in Expected)
        {
            ProductFinding product = receiver.Products.Single(p => Mixture(p) == mixture);
            Assert.Equal(order, product.Order);
            Assert.Equal(0, product.OffsetHz);
            Assert.Equal(level, product.LevelDbm!.Value, Tolerance);
            Assert.Equal(inChannel, product.InChannelLevelDbm!.Value, Tolerance);
            Assert.Equal(over, product.OverNoiseDb!.Value, Tolerance);
            Assert.Equal(over >= 0 ? Verdict.Harmful : Verdict.Marginal, product.Verdict);
        }

        Assert.Equal(5, receiver.Harmful);
        Assert.Equal(34.8, receiver.SumOverNoiseDb!.Value, Tolerance);
        Assert.DoesNotContain(receiver.Products, static p => p.Terms.Any(static t => t.Name == "hospital paging"));
        Assert.All(
            receiver.Products.Where(static p => p.Order == 3 && p.Verdict == Verdict.Harmful),
            static p => Assert.InRange(p.NextDegreeErrorDb!.Value, 1.55 - 0.01, 1.63 + 0.01));
        Assert.True(receiver.Products.Single(static p => p.Terms.Any(static t => t.Name == "repeater output")).KeepsItselfUp);
        Assert.Null(receiver.WithoutFilter);
        Assert.Null(receiver.WantedLossDb);
    }

    [Fact]
    public void Study_with_the_filter_cures_all_five_and_costs_what_the_demo_says()
    {
        StudyOptions everything = new() { FloorDbm = double.NegativeInfinity };
        ReceiverFindings receiver = StudyWithout("quernmoss-filtered.site.yaml", TransmitterKeys, everything).Receivers.Single();
        Assert.Equal(0, receiver.Harmful);
        Assert.Equal(5, receiver.WithoutFilter!.Harmful);
        Assert.Equal(34.8, receiver.WithoutFilter.SumOverNoiseDb!.Value, Tolerance);
        Assert.Equal(2.92, receiver.WantedLossDb!.Value, 0.01);
        foreach ((string mixture, _, _, _, _) in Expected)
        {
            ProductFinding product = receiver.Products.Single(p => Mixture(p) == mixture);
            Assert.True(
                product.OverNoiseDb <= -27 || mixture.Contains("bus fleet", StringComparison.Ordinal),
                $"{mixture} is {product.OverNoiseDb} dB over noise");
        }
    }

    [Theory]
    [InlineData("quernmoss.site.yaml", 44.1, 43.5, 6)]
    [InlineData("quernmoss-filtered.site.yaml", 40.6, 40.6, 1)]
    public void Study_with_the_telemetry_transmitter_has_what_it_makes_first(string file, double sum, double over, int harmful)
    {
        ReceiverFindings receiver = Study(file).Receivers.Single();
        ProductFinding worst = receiver.Products[0];
        Assert.Equal((Mechanism.Transmitter, "telemetry scanner", Mixed), (worst.Mechanism, worst.MadeIn, Mixture(worst)));
        Assert.Equal(over, worst.OverNoiseDb!.Value, Tolerance);
        Assert.Equal(sum, receiver.SumOverNoiseDb!.Value, Tolerance);
        Assert.Equal(harmful, receiver.Harmful);
        Assert.Equal(Verdict.Harmful, worst.Verdict);
        Assert.Single(receiver.Products, static p => p.Mechanism == Mechanism.Transmitter);

        // The same mixture in the receiver is another row of the same identity, and each row has the level of both.
        // (Behind the filter the receiver's own row is under the report's floor, so both are looked at without it.)
        ReceiverFindings bare = receiver.WithoutFilter ?? receiver;
        ProductFinding arrives = bare.Products.Single(static p => p.Mechanism == Mechanism.Transmitter);
        ProductFinding made = bare.Products.Single(p => p.Identity == worst.Identity && p.Mechanism == Mechanism.Receiver);
        Assert.Equal(worst.Row, arrives.Row);
        Assert.NotEqual(worst.Row, made.Row);
        Assert.Equal(
            arrives.LevelDbm,
            made.Places.Single(static p => p is { Mechanism: Mechanism.Transmitter, Name: "telemetry scanner" }).LevelDbm);
        Assert.Equal(made.LevelDbm!.Value, arrives.Places.Single(static p => p.Mechanism == Mechanism.Receiver).LevelDbm!.Value, 1e-6);

        // 33.01 dBm less 41.02 dB of distance, 12 dB of turn-round loss and 64.01 dB of path: -84.02 dBm at the antenna, 1.2 dB of
        // feedline.
        Assert.Equal(-84.02, receiver.Products[0].LevelDbm!.Value + 1.2 + (receiver.WantedLossDb ?? 0), 0.01);
    }

    [Theory]
    [InlineData("25 dB", "quernmoss-filtered.site.yaml", 40.6 - 25)]
    [InlineData("[55 dB at 171.55 MHz]", "quernmoss.site.yaml", -11.5)]
    [InlineData("[55 dB at 171.55 MHz]", "quernmoss-filtered.site.yaml", -14.4)]
    public void Isolator_takes_off_what_the_demo_says(string isolator, string file, double over)
    {
        string text = File.ReadAllText(Demo(file)).Replace(
            TransmitterKeys[0], TransmitterKeys[0] + $"    isolator: {isolator}\n", StringComparison.Ordinal);
        ProductFinding made = Study(text, Demo(file), null).Receivers.Single().Products.Single(
            static p => p.Mechanism == Mechanism.Transmitter);
        Assert.Equal(over, made.OverNoiseDb!.Value, Tolerance);

        // A single figure holds everywhere, but 171.55 MHz is over 3 % from the transmitter's own frequency.
        Assert.Equal(
            isolator[0] != '[', made.Assumed.Any(static a => a is { Kind: AssumptionKind.IsolatorElsewhere, Of: "telemetry scanner" }));
    }

    [Fact]
    public void Study_with_filter_and_double_isolator_is_quiet()
    {
        ReceiverFindings receiver = Study("quernmoss-cured.site.yaml").Receivers.Single();
        Assert.Equal((0, 0), (receiver.Harmful, receiver.Marginal));
        Assert.DoesNotContain(receiver.OtherCauses, static c => c.Verdict is Verdict.Harmful or Verdict.Marginal);
    }

    [Fact]
    public void Noise_of_the_own_transmitter_is_harmful_without_its_duplexer_only()
    {
        OtherCause with = Study("quernmoss.site.yaml").Receivers.Single().OtherCauses.Single(
            static c => c is { Cause: "transmitter_noise", OnlyUsual: false });
        Assert.Equal(Verdict.Clear, with.Verdict);
        Assert.True(with.OverNoiseDb < -10, $"{with.OverNoiseDb} dB over noise");
        OtherCause without = StudyWithout("quernmoss.site.yaml", ["    output_filter: filters/duplexer-high.s2p\n"])
            .Receivers.Single().OtherCauses.Single(static c => c is { Cause: "transmitter_noise", OnlyUsual: false });
        Assert.Equal(Verdict.Harmful, without.Verdict);

        // -44 dBm at the antenna, -118 dBc/Hz over 8 kHz (39.03 dB), 1.2 dB of feedline.
        Assert.Equal(-44 - 118 + 39.03 - 1.2, without.LevelDbm!.Value, 0.01);
    }

    [Theory]
    [InlineData("repeater output", -2.9)]
    [InlineData("haulage base", -20.1)]
    [InlineData("forest base", -29.0)]
    [InlineData("telemetry scanner", -30.3)]
    [InlineData("gauging station", -44.5)]
    [InlineData("waterworks base", -33.7)]
    [InlineData("highways base", -34.5)]
    [InlineData("regional paging", -69.6)]
    [InlineData("hospital paging", -69.5)]
    [InlineData("broadcast", -89.6)]
    [InlineData("bus fleet base", -5.4)]
    [InlineData("rescue base", -16.8)]
    [InlineData("trunked site", -68.7)]
    [InlineData("airfield tower", -56.3)]
    [InlineData("seventy-cm repeater", -69.2)]
    [InlineData("farm co-op base", -39.7)]
    public void Study_takes_from_each_carrier_what_the_filter_takes(string emitter, double filterDb)
    {
        ReceiverFindings receiver = Study("quernmoss-filtered.site.yaml").Receivers.Single();
        CarrierFinding with = receiver.Carriers.Single(c => c.Emitter == emitter);
        CarrierFinding without = receiver.WithoutFilter!.Carriers.Single(c => c.Emitter == emitter);
        Assert.Equal(filterDb, with.LevelAtReceiverDbm!.Value - without.LevelAtReceiverDbm!.Value, Tolerance);
    }

    [Fact]
    public void Study_by_the_plain_search_finds_the_same()
    {
        LoadedSite site = SiteLoader.Load(Demo("quernmoss-filtered.site.yaml"), out _)!;
        StudyOptions options = new() { FloorDbm = double.NegativeInfinity };
        StudyResult plain = StudyService.Run(site, options, new PlainSearch(), null, default);
        StudyResult fast = StudyService.Run(site, options);
        Assert.Equal(plain.Receivers[0].Products.Select(Line), fast.Receivers[0].Products.Select(Line));
        Assert.True(plain.Receivers[0].Products.Count > Expected.Length);
    }

    [Fact]
    public void Study_top_cuts_the_list_and_says_by_how_much()
    {
        ReceiverFindings all = Study("quernmoss.site.yaml", new StudyOptions { FloorDbm = -180 }).Receivers.Single();
        ReceiverFindings top = Study("quernmoss.site.yaml", new StudyOptions { FloorDbm = -180, Top = 3 }).Receivers.Single();
        Assert.Equal(all.Products.Take(3).Select(Line), top.Products.Select(Line));
        Assert.Equal(all.Products.Count - 3, top.ProductsLeftOut);
    }

    [Fact]
    public void Study_with_more_products_than_a_list_is_made_of_says_what_to_do()
    {
        StudyOptions options = new() { FloorDbm = double.NegativeInfinity, LongestList = 5 };
        TooManyProductsException refused = Assert.Throws<TooManyProductsException>(() => Study("quernmoss.site.yaml", options));
        Assert.Contains("--top N", refused.Message, StringComparison.Ordinal);
        Assert.Equal(3, Study("quernmoss.site.yaml", options with { Top = 3 }).Receivers.Single().Products.Count);
    }

    [Fact]
    public void Compare_of_the_two_demo_sites_says_what_the_filter_did()
    {
        StudyComparison comparison = StudyComparison.Of(Study("quernmoss.site.yaml"), Study("quernmoss-filtered.site.yaml"));
        ReceiverComparison receiver = Assert.Single(comparison.Receivers);
        Assert.Empty(receiver.Appeared);
        Assert.Equal(7, receiver.Went.Count + receiver.Changed.Count);
        StudyComparison same = StudyComparison.Of(Study("quernmoss.site.yaml"), Study("quernmoss.site.yaml"));
        Assert.Equal(7, same.Receivers.Single().Unchanged);
    }

    [Fact]
    public void Arithmetic_of_a_product_adds_up_to_its_level()
    {
        ReceiverFindings receiver = Study("quernmoss.site.yaml").Receivers.Single();
        foreach (ProductFinding product in receiver.Products.Where(static p => p.Mechanism == Mechanism.Receiver))
        {
            IReadOnlyList<SumLine> lines = ProductArithmetic.Of(receiver, product);
            double parts = lines.TakeWhile(static l => l.Kind == SumLineKind.Part).Sum(static l => l.Value);
            Assert.Equal(product.LevelDbm!.Value, parts, 1e-5);
            Assert.Equal(product.OverNoiseDb!.Value, lines[^1].Value, 1e-9);
        }
    }

    [Theory]
    [InlineData("quernmoss-filtered.site.yaml", -4.12)]
    [InlineData("quernmoss.site.yaml", -1.2)]
    public void Arithmetic_of_a_product_made_in_a_transmitter_adds_up_from_its_parts(string file, double chain)
    {
        ReceiverFindings receiver = Study(file).Receivers.Single();
        ProductFinding product = receiver.Products.Single(static p => p.Mechanism == Mechanism.Transmitter);
        TransmitterSum sum = product.Sum!;

        // docs/checks.md 9: 37 dBm less 45 dB arrive with -8 dBm; -20 dBm leave, 64 dB of path, -84 dBm at the antenna.
        IncomingCarrier incoming = Assert.Single(sum.Incoming);
        Assert.Equal(("gauging station", 1, 0.0, 0.0), (incoming.Emitter, incoming.Times, incoming.IsolatorDb, incoming.OutputFilterDb));
        Assert.Equal(36.99, incoming.PowerDbm, 0.01);
        Assert.Equal(45, incoming.CouplingDb, 1e-9);
        Assert.Equal(-8.01, incoming.ArrivesDbm, 0.01);
        Assert.Equal(12, sum.TurnRoundLossDb, 1e-9);
        Assert.Equal(-20.01, sum.LeavesDbm, 0.01);
        Assert.Equal(64.01, sum.PathDb, 0.01);
        Assert.Equal(-84.02, sum.AtAntennaDbm, 0.01);
        Assert.Equal(chain, sum.ChainGainDb, 0.01);
        IReadOnlyList<SumLine> lines = ProductArithmetic.Of(receiver, product);
        Assert.Equal(
            product.LevelDbm!.Value,
            lines.TakeWhile(static l => l.Part != SumPart.ShareInChannel)
                .Where(static l => l.Kind == SumLineKind.Part)
                .Sum(static l => l.Value),
            1e-5);
        Assert.Equal(product.OverNoiseDb!.Value, lines[^1].Value, 1e-9);
    }

    [Fact]
    public void WeakestFigure_of_a_product_made_in_a_transmitter_is_its_turn_round_loss_and_its_owner_is_asked_for_a_double_isolator()
    {
        ReceiverFindings receiver = Study("quernmoss-filtered.site.yaml").Receivers.Single();

        // One sigma: 3 dB of turn-round loss, 2 dB of coupling, 2 dB of the measured level.
        WeakestFigure figure = WeakestFigure.Of(receiver)!;
        Assert.Equal((FigureKind.TurnRoundLoss, "telemetry scanner"), (figure.Kind, figure.Name));
        Assert.Equal(Math.Sqrt(9 + 4 + 4), figure.SigmaDb!.Value, 1e-9);
        Assert.Equal(3, figure.ShareDb);
        IsolatorNeed need = IsolatorNeed.Of(receiver.Products[0])!;
        Assert.Equal(("telemetry scanner", IsolatorKind.Double, 0), (need.Transmitter, need.Kind, need.HasDb));
        Assert.Equal(40.6, need.NeededDb, 0.05);
        Assert.Null(IsolatorNeed.Of(Study("quernmoss-cured.site.yaml").Receivers.Single().Products[0]));
    }

    private static StudyResult Study(string file, StudyOptions? options = null)
    {
        LoadedSite? site = SiteLoader.Load(Demo(file), out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return StudyService.Run(site!, options ?? new StudyOptions());
    }

    private static StudyResult StudyWithout(string file, string[] lines, StudyOptions? options = null)
    {
        string text = File.ReadAllText(Demo(file));
        foreach (string line in lines)
        {
            Assert.Contains(line, text, StringComparison.Ordinal);
            text = text.Replace(line, "", StringComparison.Ordinal);
        }

        return Study(text, Demo(file), options);
    }

    private static StudyResult Study(string text, string path, StudyOptions? options)
    {
        LoadedSite? site = SiteLoader.Load(text, path, new SiteFolder(path), out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return StudyService.Run(site!, options ?? new StudyOptions());
    }

    private static string Mixture(ProductFinding product) =>
        string.Join(' ', product.Terms.Select(static t => FormattableString.Invariant($"{t.Coefficient} {t.Name}")));

    private static string Line(ProductFinding product) =>
        FormattableString.Invariant($"{Mixture(product)}: {product.LevelDbm:R} {product.InChannelLevelDbm:R} {product.Verdict}");

    private static string Demo(string file) => TestData.Demo(file);
}
