using System.Globalization;
using CsCheck;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Sites.Tests.Studies;

/// <summary>The small answers of a study: isolators, forecasts, identities, and sums that add up to the levels of the search.</summary>
public sealed class StudyPartsTests
{
    // An isolator takes from each incoming carrier as often as it takes part: that much more of it, and the product is down at the noise.
    [Fact]
    public void IsolatorNeed_of_any_product_brings_it_to_the_noise_and_no_further() =>
        Gen.Select(Gen.Double[0, 90], Gen.Int[1, 3].Array[1, 3], Gen.Double[0, 60]).Sample(static (over, times, has) =>
        {
            ProductFinding made = Made(over, times, has);
            IsolatorNeed need = IsolatorNeed.Of(made)!;
            Assert.Equal(0, over - (need.NeededDb * times.Sum()), 1e-9);
            // 25 dB from one isolator, 55 dB from two (common practice, as the program says).
            Assert.Equal(
                has + need.NeededDb <= 25 ? IsolatorKind.Single : has + need.NeededDb <= 55 ? IsolatorKind.Double
                    : IsolatorKind.DoubleWithFilter,
                need.Kind);
            Assert.Null(IsolatorNeed.Of(made with { OverNoiseDb = -0.1 }));
            Assert.Null(IsolatorNeed.Of(made with { OverNoiseDb = null }));
            Assert.Null(IsolatorNeed.Of(made with { Sum = null }));
        });

    [Fact]
    public void AboutNumber_of_any_number_has_two_figures_and_is_within_a_twentieth() => Gen.Double[0, 9].Sample(static power =>
    {
        double number = Math.Pow(10, power);
        string text = LongList.AboutNumber(number);
        double read = double.Parse(text, NumberStyles.AllowThousands, CultureInfo.InvariantCulture);
        Assert.Equal(1, read / number, number < 10 ? 0.5 : 0.0501);
        Assert.True(text.Replace(",", "", StringComparison.Ordinal).TrimEnd('0').Length <= 2, text);
    });

    [Fact]
    public void Identity_of_products_is_their_terms_by_name_and_not_where_they_stand() => RandomStudies.Receiver().Sample(static receiver =>
    {
        foreach (ProductFinding p in receiver.Products)
        {
            ProductFinding elsewhere = p with
            {
                Terms = [.. p.Terms.Select(static t => t with { Emitter = t.Emitter + 5, FrequencyHz = t.FrequencyHz + 1 })],
            };
            Assert.Equal(p.Identity, elsewhere.Identity);
            Assert.Equal(p.Identity.GetHashCode(), elsewhere.Identity.GetHashCode());
            Assert.NotEqual(
                p.Identity, (p with { Terms = [.. p.Terms.Select(static t => t with { Coefficient = -t.Coefficient })] }).Identity);
            Assert.NotEqual(p.Identity, (p with { Receiver = p.Receiver + "x" }).Identity);
        }
    });

    public static TheoryData<string> Sites =>
        ["quernmoss.site.yaml", "quernmoss-filtered.site.yaml", "quernmoss-cured.site.yaml", "quernmoss-measured.site.yaml"];

    // The search works in millionths of a decibel; the sum is made of the chain's own gains and the intercepts.
    [Theory]
    [MemberData(nameof(Sites))]
    public void Arithmetic_of_every_product_adds_up_to_the_level_that_the_search_gave(string site)
    {
        StudyResult study = DemoSites.Study(site, new StudyOptions { FloorDbm = double.NegativeInfinity });
        int sums = 0;
        foreach (ReceiverFindings receiver in study.Receivers)
        {
            foreach (ProductFinding product in receiver.Products)
            {
                IReadOnlyList<SumLine> lines = ProductArithmetic.Of(receiver, product);
                double sum = 0;
                foreach (SumLine line in lines)
                {
                    switch (line.Kind)
                    {
                        case SumLineKind.Part:
                            sum += line.Value;
                            break;
                        case SumLineKind.Reference:
                            sum -= line.Value;
                            break;
                        default:
                            // Parts under 0.005 dB have no line: three of them at most.
                            Assert.Equal(line.Value, sum, 0.016);
                            sum = line.Value;
                            sums++;
                            break;
                    }
                }

                if (lines.Count > 0)
                {
                    Assert.Equal(product.OverNoiseDb!.Value, lines[^1].Value, 1e-6);
                    Assert.Equal(SumPart.OverNoise, lines[^1].Part);
                }
            }
        }

        Assert.True(sums > 10, $"{sums} sums");
    }

    [Fact]
    public void Comparison_tells_a_change_from_a_twentieth_of_a_decibel_on()
    {
        StudyResult now = DemoStudy.WithoutFilter();
        ReceiverFindings receiver = now.Receivers[0];
        Assert.Single(Moved(0.051).Changed);
        Assert.Empty(Moved(0.049).Changed);
        Assert.Equal(receiver.Products.Count - 1, Moved(0.051).Unchanged);
        Assert.Equal(0.051, Moved(0.051).Changed[0].ByDb!.Value, 1e-9);

        ReceiverComparison Moved(double by) => StudyComparison.Of(
            now,
            now with
            {
                Receivers =
                [
                    receiver with
                    {
                        Products =
                        [
                            .. receiver.Products.Select((p, i) =>
                                i == 1 ? p with { InChannelLevelDbm = p.InChannelLevelDbm + by } : p),
                        ],
                    },
                ],
            }).Receivers.Single();
    }

    private static ProductFinding Made(double over, int[] times, double has) => DemoStudy.Product(
        -100, -100, Mechanism.Transmitter, "telemetry scanner", ("telemetry scanner", 2), ("gauging station", -1)) with
    {
        OverNoiseDb = over,
        Sum = new TransmitterSum
        {
            Transmitter = "telemetry scanner",
            PowerDbm = 33,
            Incoming = [.. times.Select((t, i) => new IncomingCarrier($"e{i}", 171_550_000 + i, t, 37, 45, 0, has + i, -8 - has, 2))],
            TurnRoundLossDb = 12,
            TurnRoundSigmaDb = 3,
            OutputFilterDb = 0,
            LeavesDbm = -20,
            PathDb = 64,
            PathSigmaDb = 2,
            AtAntennaDbm = -84,
            ChainGainDb = -1.2,
        },
    };
}
