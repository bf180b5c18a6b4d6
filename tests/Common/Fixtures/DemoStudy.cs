using System.Runtime.CompilerServices;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Tests.Common.Fixtures;

/// <summary>
/// A study result typed in by hand from the description of the invented demo site (Quernmoss: no such hill, no such stations).
/// It is a fixture for reports, not the outcome of a study: levels of the mixtures are the description's printed figures.
/// </summary>
internal static class DemoStudy
{
    public const double NoiseDbm = -128.94;

    private static readonly (string Name, double Megahertz, long Width, double Dbm)[] Emitters =
    [
        ("repeater output", 145.6500, 11_200, -44),
        ("haulage base", 153.3500, 11_200, -24.5),
        ("forest base", 157.5000, 11_200, -25),
        ("telemetry scanner", 158.3000, 11_200, -31),
        ("gauging station", 171.5500, 11_200, -33),
        ("waterworks base", 160.5250, 11_200, -34),
        ("highways base", 161.1250, 11_200, -35),
        ("regional paging", 466.1000, 16_000, -33),
        ("hospital paging", 459.3500, 16_000, -30),
        ("broadcast", 94.2000, 180_000, -31),
        ("six-metre repeater", 50.8500, 16_000, -36),
        ("bus fleet base", 148.6125, 11_200, -48),
        ("rescue base", 152.1750, 11_200, -35),
        ("trunked site", 391.7000, 25_000, -41),
        ("airfield tower", 121.8500, 6_000, -52),
        ("seventy-cm repeater", 430.9125, 11_200, -38),
        ("farm co-op base", 165.8375, 11_200, -43),
    ];

    /// <summary>The response that belongs to the fixture: feedline, and the filter where the receiver has one.</summary>
    public static Func<double, double> Response(ReceiverFindings receiver) => receiver.WithoutFilter is null
        ? DemoFilter.FeedlineGainDb
        : static f => DemoFilter.FeedlineGainDb(f) + DemoFilter.GainDb(f);

    /// <summary>The site as it stands in the first file: no filter.</summary>
    public static StudyResult WithoutFilter() => Result(Receiver(filter: false, [.. Made(), Transmitter(-85.4)]));

    /// <summary>The site of the second file: the filter is in, and only what arrives already mixed is left.</summary>
    public static StudyResult WithFilter() =>
        Result(
            Receiver(filter: true, [Transmitter(-88.3)]) with
            {
                WithoutFilter = Receiver(filter: false, [.. Made(), Transmitter(-85.4)]),
                WantedLossDb = 2.92,
            });

    /// <summary>A result of one receiver.</summary>
    public static StudyResult Result(params ReceiverFindings[] receivers) => new()
    {
        Site = "Quernmoss repeater",
        Receivers = receivers,
        KeysNotUsedYet = [],
        Options = new StudyOptions(),
        Inputs =
        [
            new InputFile("quernmoss.site.yaml", "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"),
            new InputFile("filters/three-tank.circuit.yaml", "60303ae22b998861bce3b28f33eec1be758a213c86c93c076dbe9f558c11c752"),
        ],
        Warnings = [],
    };

    /// <summary>The demo's receiver with given products.</summary>
    public static ReceiverFindings Receiver(bool filter, IReadOnlyList<ProductFinding> products) => new()
    {
        Name = "repeater input",
        FrequencyHz = 145_050_000,
        ChannelHz = 12_500,
        IfBandwidthHz = 8_000,
        NoiseFloorDbm = NoiseDbm,
        SensitivityAtAntennaDbm = NoiseDbm + 7.5 + 1.2 + (filter ? 2.92 : 0),
        Assumed =
        [
            new ReceiverAssumption.NoExternalNoise(),
            new ReceiverAssumption.BandwidthByRaster(8_000),
        ],
        Carriers =
        [
            .. Emitters.Select(e => new CarrierFinding
            {
                Emitter = e.Name,
                FrequencyHz = (long)Math.Round(e.Megahertz * 1e6),
                BandwidthHz = e.Width,
                LevelAtAntennaDbm = e.Dbm,
                LevelAtReceiverDbm = e.Dbm + DemoFilter.FeedlineGainDb(e.Megahertz * 1e6)
                    + (filter ? DemoFilter.GainDb(e.Megahertz * 1e6) : 0),
                Origin = LevelOrigin.Measured,
                HowKnown = new LevelNote.Measured(LevelsAt.Antenna),
                SigmaDb = 2,
                Assumed = [],
                Follows = e.Name == "repeater output" ? "repeater input" : null,
            }),
        ],
        Products = [.. products.OrderByDescending(static p => p.InChannelLevelDbm)],
        ProductsLeftOut = 0,
        SumOverNoiseDb = products.Count == 0 ? null : 10 * Math.Log10(products.Sum(static p => Math.Pow(10, (p.OverNoiseDb ?? -300) / 10))),
        OtherCauses = [],
        WithoutFilter = null,
        WantedLossDb = null,
        Chain = (ReceiveChain)RuntimeHelpers.GetUninitializedObject(typeof(ReceiveChain)),
        WantedDbm = null,
    };

    /// <summary>One product by emitters' names and coefficients.</summary>
    public static ProductFinding Product(
        double? level, double? inChannel, Mechanism mechanism, string madeIn, params (string Name, int Times)[] terms)
    {
        Term[] all =
        [
            .. terms.Select(t => (Index: Array.FindIndex(Emitters, e => e.Name == t.Name), t.Name, t.Times))
                .Select(static t => new Term(t.Index, t.Name, (long)Math.Round(Emitters[t.Index].Megahertz * 1e6), t.Times))
                .OrderByDescending(static t => Math.Abs(t.Coefficient)).ThenBy(static t => t.Name, StringComparer.Ordinal),
        ];
        double? over = inChannel - NoiseDbm;
        long frequency = all.Sum(static t => t.Coefficient * t.FrequencyHz);
        MixingPlace made = new()
        {
            Mechanism = mechanism,
            Stage = mechanism == Mechanism.Receiver ? 0 : null,
            Emitter = mechanism == Mechanism.Transmitter ? all.First(t => t.Name == madeIn).Emitter : null,
            Name = madeIn,
            LevelDbm = level,
            SigmaDb = level is null ? null : 7.5,
        };
        return new ProductFinding
        {
            Receiver = "repeater input",
            Terms = all,
            Order = all.Sum(static t => Math.Abs(t.Coefficient)),
            FrequencyHz = frequency,
            OffsetHz = frequency - 145_050_000,
            BandwidthHz = all.Sum(static t => Math.Abs(t.Coefficient) * Emitters[t.Emitter].Width),
            Made = made,
            Places = [made],
            LevelDbm = level,
            LevelWorstDbm = level,
            InChannelLevelDbm = inChannel,
            OverNoiseDb = over,
            SigmaDb = level is null ? null : 7.5,
            NextDegreeErrorDb = level is null ? null : 1.6,
            Verdict = over switch { null => Verdict.Unknown, >= 0 => Verdict.Harmful, >= -10 => Verdict.Marginal, _ => Verdict.Clear },
            Effects = over is { } o ? new Effects(o >= 7.5, 10 * Math.Log10(1 + Math.Pow(10, o / 10)), null) : null,
            Assumed = [],
            KeepsItselfUp = all.Any(static t => t.Name == "repeater output"),
            OnCarrierOfItsOwn = false,
            Chance = level is null ? null : over > 6 ? 0.85 : 0.5,
            OnTogether = 1,
            Heard =
            [
                .. all.Select(
                    static t => new HeardModulation(
                        t.Name, t.Name == "telemetry scanner" ? Sound.DataTones : Sound.Speech, Math.Abs(t.Coefficient))),
            ],
        };
    }

    private static ProductFinding[] Made() =>
    [
        Product(-94.8, -95.0, Mechanism.Receiver, "repeater input", ("telemetry scanner", 2), ("gauging station", -1)),
        Product(-101.7, -105.6, Mechanism.Receiver, "repeater input", ("regional paging", 1), ("waterworks base", -2)),
        Product(
            -106.7, -106.8, Mechanism.Receiver, "repeater input", ("repeater output", 1), ("waterworks base", 1), ("highways base", -1)),
        Product(-98.7, -107.9, Mechanism.Receiver, "repeater input", ("broadcast", 1), ("six-metre repeater", 1)),
        Product(-113.7, -114.8, Mechanism.Receiver, "repeater input", ("haulage base", 3), ("forest base", -2)),
        Product(-130.7, -130.9, Mechanism.Receiver, "repeater input", ("bus fleet base", 2), ("rescue base", -1)),
    ];

    private static ProductFinding Transmitter(double inChannel) =>
        Product(inChannel + 0.2, inChannel, Mechanism.Transmitter, "telemetry scanner", ("telemetry scanner", 2), ("gauging station", -1));
}
