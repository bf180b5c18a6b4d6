using Spurless.Mixing.Levels;
using Spurless.Mixing.Screening;
using Spurless.Mixing.Search;
using Spurless.Mixing.Spread;
using Spurless.Radio.Paths;

namespace Spurless.Mixing.Tests.Screening;

public sealed class ScreenTests
{
    private static readonly ScreenProfile Plain = Profile(-8);

    private static ScreenProfile Profile(double iip3) => new([new ScreenStage(static _ => 2.15, static _ => 0, Intercepts.Complete(iip3))]);

    /// <summary>
    /// Two carriers of 2 dBm into an IIP3 of -8 dBm: by the law 2A-B would come in with 22 dBm, more than both together. As in a study it
    /// is capped at the compression point, -17.64 dBm (9.64 dB under the intercept), and marked; weaker ones are not.
    /// </summary>
    [Theory]
    [InlineData(2, true)]
    [InlineData(-40, false)]
    public void Run_caps_what_the_receiver_cannot_make_and_marks_it(double dbm, bool capped)
    {
        double path = FreeSpace.LossDb(1_000, 150e6);
        GeoPoint here = GeoPoint.Of(51, 0);
        double latitude = 51 + (1_000 / 111_240.0);
        ScreenEmitter Carrier(long hertz) => new()
        {
            FrequencyHz = hertz,
            BandwidthHz = 0,
            Spread = EmitterSpread.Line,
            EirpDbm = dbm - 2.15 + path,
            Place = GeoPoint.Of(latitude, 0),
            HeightM = float.NaN,
            GroundM = float.NaN,
            AzimuthDegrees = float.NaN,
            BeamwidthDegrees = float.NaN,
        };
        ScreenReceiver receiver = Receivers(1, 1, Plain, heights: false)[0] with { Place = here, FrequencyHz = 150_000_000 };
        ScreenField field = ScreenField.Of([Carrier(150_100_000), Carrier(150_200_000)]);
        ScreenMixture worst = Screen.Run(field, [receiver], new ScreenOptions { Orders = [3] })[0].Worst!;
        Assert.Equal(capped, worst.Saturated);
        double expected = capped ? -8 - Saturation.CompressionUnderInterceptDb : (3 * dbm) - (2 * -8);
        Assert.Equal(expected, worst.OverNoiseDb + receiver.NoiseFloorDbm, 0.1);
    }

    private static ScreenEmitter[] Emitters(int count, int seed, bool heights)
    {
        Random random = new(seed);
        ScreenEmitter[] all = new ScreenEmitter[count];
        for (int i = 0; i < count; i++)
        {
            // Masts of some three emitters each.
            Random mast = new((seed * 1000) + (i / 3));
            bool directional = random.Next(5) == 0;
            all[i] = new ScreenEmitter
            {
                FrequencyHz = 148_000_000 + (random.Next(400) * 12_500L) + (random.Next(6) == 0 ? 300_000_000 : 0),
                BandwidthHz = 11_200,
                Spread = EmitterSpread.From(11_200, "F3E"),
                EirpDbm = random.Next(30) == 0 ? double.NaN : 40 + (random.NextDouble() * 16),
                Place = GeoPoint.Of(51 + (mast.NextDouble() * 0.8), -1 + (mast.NextDouble() * 1.2)),
                HeightM = heights && random.Next(8) > 0 ? 10 + (random.NextSingle() * 40) : float.NaN,
                GroundM = heights ? mast.NextSingle() * 200 : float.NaN,
                AzimuthDegrees = directional ? random.Next(360) : float.NaN,
                BeamwidthDegrees = directional ? 65 : float.NaN,
                NoiseLike = random.Next(20) == 0,
            };
        }

        return all;
    }

    private static ScreenReceiver[] Receivers(int count, int seed, ScreenProfile profile, bool heights)
    {
        Random random = new(seed);
        return
        [
            .. Enumerable.Range(0, count).Select(_ => new ScreenReceiver
            {
                Profile = profile,
                Place = GeoPoint.Of(51 + (random.NextDouble() * 0.8), -1 + (random.NextDouble() * 1.2)),
                FrequencyHz = 145_000_000 + (random.Next(700) * 12_500L),
                ChannelHz = 12_500,
                IfBandwidthHz = 8_000,
                NoiseFloorDbm = -128.9,
                HeightM = heights ? 15 : double.NaN,
                GroundM = heights ? random.NextDouble() * 150 : double.NaN,
            }),
        ];
    }

    /// <summary>The slow way: every emitter's level by the path models themselves over the geodesic, the plain search, one product at a
    /// time.</summary>
    private static (long Harmful, long Marginal, double? Worst) Slowly(ScreenEmitter[] emitters, ScreenReceiver receiver,
        ScreenOptions options)
    {
        double[] over = [.. OverNoise(emitters, receiver, options).Where(static o => o >= -10)];
        return (
            over.LongCount(static o => o >= 0), over.LongCount(static o => o < 0), over.Length > 0 ? over.Max() : null);
    }

    /// <summary>What each product has over the noise, in dB, from a little under the lower threshold on.</summary>
    private static List<double> OverNoise(ScreenEmitter[] emitters, ScreenReceiver receiver, ScreenOptions options)
    {
        List<(ScreenEmitter Emitter, double Level)> heard = [];
        foreach (ScreenEmitter e in emitters.Where(static e => double.IsFinite(e.EirpDbm)))
        {
            Geodesic.TryBetween(receiver.Place, e.Place, out GeodesicLine line, out _);
            double off = float.IsNaN(e.AzimuthDegrees) ? 0
                : OffAxis.LossDb(OffAxis.Difference(line.BearingBackDegrees, e.AzimuthDegrees), e.BeamwidthDegrees);
            double ground = Math.Min(e.GroundM, receiver.GroundM);
            bool known = !double.IsNaN(receiver.HeightM) && !float.IsNaN(e.HeightM);
            PathResult path = (known ? (IPathModel)PlaneEarth.Model : FreeSpace.Model).Predict(new PathGeometry
            {
                FrequencyHz = e.FrequencyHz,
                DistanceM = line.DistanceM,
                TransmitterHeightM = known ? e.HeightM + e.GroundM - ground : null,
                ReceiverHeightM = known ? receiver.HeightM + receiver.GroundM - ground : null,
                TransmitterGainDbi = -off,
            });
            if (path.ConnectorLossDb is { } loss)
            {
                heard.Add((e, e.EirpDbm - loss + receiver.Profile.Stages[0].GainDb(e.FrequencyHz)));
            }
        }

        Intercepts intercepts = receiver.Profile.Stages[0].Intercepts;
        List<double> all = [];
        foreach (int order in options.Orders)
        {
            ProductList list = new();
            SearchProblem problem = new()
            {
                Emitters = [.. heard.Select(static h => new SearchEmitter(h.Emitter.FrequencyHz, h.Emitter.BandwidthHz,
                    h.Emitter.NoiseLike))],
                Receivers =
                [
                    new SearchReceiver
                    {
                        FrequencyHz = receiver.FrequencyHz,
                        ChannelHz = receiver.ChannelHz,
                        FloorMicroDbm = MicroDb.FromDecibels(receiver.NoiseFloorDbm - 11),
                        Stages = [new SearchStage
                        {
                            LevelMicroDbm = [.. heard.Select(static h => MicroDb.FromDecibels(h.Level))],
                            InterceptMicroDbm = [.. Enumerable.Range(0, 10).Select(n => n < 2 ? 0 : intercepts.MicroDbm(n))],
                        }],
                    },
                ],
                MinOrder = order,
                MaxOrder = order,
                MaxSignals = options.Signals,
            };
            new FastSearch().Run(problem, list);
            foreach (ProductRecord product in list.Products)
            {
                int[] k = [.. Enumerable.Range(0, product.Signals).Select(product.Coefficient)];
                EmitterSpread[] spreads = [.. Enumerable.Range(0, product.Signals).Select(i => heard[product.Emitter(i)].Emitter.Spread)];
                double share = InChannelShare.Of(product.FrequencyHz(problem) - receiver.FrequencyHz, receiver.IfBandwidthHz, k, spreads);
                all.Add(MicroDb.ToDecibels(product.LevelMicroDbm) + (10 * Math.Log10(share)) - receiver.NoiseFloorDbm);
            }
        }

        return all;
    }

    /// <summary>
    /// Countries at random: masts crowded and lone, bands far apart, wide and narrow emissions, few or all heights known, one or two
    /// stages' worth of receivers near the masts and far from all. A product within a thousandth of a dB of a threshold may fall on
    /// either side
    /// of it: distances by chord and by geodesic differ by parts in a million.
    /// </summary>
    [Theory]
    [InlineData(11)]
    [InlineData(12)]
    [InlineData(13)]
    [InlineData(14)]
    [InlineData(15)]
    [InlineData(16)]
    public void Run_in_a_country_at_random_finds_what_all_one_by_one_give(int seed)
    {
        Random random = new(seed);
        ScreenEmitter[] emitters = Country(random, masts: 12 + (3 * (seed % 3)));
        ScreenOptions options = new() { Orders = seed % 2 == 0 ? [2, 3, 5] : [3, 5, 7], MostProducts = long.MaxValue };
        ScreenReceiver[] receivers = Receivers(8, seed, Profile(-12 + random.Next(10)), heights: seed % 3 > 0);
        for (int r = 0; r < receivers.Length; r += 2)
        {
            GeoPoint mast = emitters[random.Next(emitters.Length)].Place;
            receivers[r] = receivers[r] with
            {
                Place = GeoPoint.Of(mast.LatitudeDegrees + 0.004 + (0.02 * random.NextDouble()), mast.LongitudeDegrees),
            };
        }

        ScreenFinding[] found = Screen.Run(ScreenField.Of(emitters, 1 + random.Next(40)), receivers, options);

        const double near = 0.001;
        long all = 0;
        for (int r = 0; r < receivers.Length; r++)
        {
            List<double> over = OverNoise(emitters, receivers[r], options);
            Assert.InRange(found[r].Harmful, over.Count(static o => o >= near), over.Count(static o => o >= -near));
            Assert.InRange(
                found[r].Harmful + found[r].Marginal, over.Count(static o => o >= -10 + near), over.Count(static o => o >= -10 - near));
            Assert.Equal(over.Count > 0 ? Math.Max(-10, over.Max()) : -10, found[r].Worst?.OverNoiseDb ?? -10, near);
            all += found[r].Harmful + found[r].Marginal;
        }

        Assert.True(all > 200, $"the country has too little in it to prove anything: {all}");
    }

    // Speech, keying between two lines, unmodulated.
    private static readonly string[] _kinds = ["F3E", "F3E", "F1D", "F3E", "N0N"];

    private static ScreenEmitter[] Country(Random random, int masts)
    {
        List<ScreenEmitter> all = [];
        for (int m = 0; m < masts; m++)
        {
            // Every fourth is crowded, the rest lone; within 100 km by 200 km.
            int count = m % 4 == 0 ? 40 : 1 + random.Next(5);
            GeoPoint place = GeoPoint.Of(51 + random.NextDouble(), -1 + (3 * random.NextDouble()));
            float ground = random.NextSingle() * 200;
            for (int i = 0; i < count; i++)
            {
                bool directional = random.Next(6) == 0;
                long width = random.Next(5) == 0 ? 200_000 : 11_200;
                all.Add(new ScreenEmitter
                {
                    FrequencyHz = (random.Next(3) == 0 ? 450_000_000 : 148_000_000) + (random.Next(800) * 6_250L),
                    BandwidthHz = width,
                    Spread = EmitterSpread.From(width, _kinds[i % _kinds.Length]),
                    EirpDbm = 25 + (30 * random.NextDouble()),
                    Place = place,
                    HeightM = random.Next(10) == 0 ? float.NaN : 8 + (random.NextSingle() * 40),
                    GroundM = ground,
                    AzimuthDegrees = directional ? random.Next(360) : float.NaN,
                    BeamwidthDegrees = directional ? 65 : float.NaN,
                    NoiseLike = random.Next(20) == 0,
                });
            }
        }

        return [.. all];
    }

    [Theory]
    [InlineData(false, 1)]
    [InlineData(true, 2)]
    [InlineData(true, 3)]
    public void Run_finds_what_all_emitters_one_by_one_give(bool heights, int seed)
    {
        // Distances by chord and arc differ from the geodesic by parts in a million: no product may stand so near a threshold, which
        // these seeds fulfil.
        ScreenEmitter[] emitters = Emitters(300, seed, heights);
        ScreenReceiver[] receivers = Receivers(25, seed + 100, Plain, heights);
        ScreenOptions options = new();

        ScreenFinding[] found = Screen.Run(ScreenField.Of(emitters), receivers, options);

        long all = 0;
        for (int r = 0; r < receivers.Length; r++)
        {
            (long harmful, long marginal, double? worst) = Slowly(emitters, receivers[r], options);
            Assert.Equal((harmful, marginal), (found[r].Harmful, found[r].Marginal));
            Assert.Equal(worst is null, found[r].Worst is null);
            Assert.True(worst is null || Math.Abs(worst.Value - found[r].Worst!.OverNoiseDb) < 0.001);
            all += harmful + marginal;
        }

        Assert.True(all > 50, "the scene has too little in it to prove anything");
    }

    [Fact]
    public void Run_with_a_second_active_stage_adds_the_stages_in_power()
    {
        // Two equal stages one after the other, nothing between: every product is made twice, 3.01 dB more than once.
        ScreenEmitter[] emitters = Emitters(300, 5, true);
        ScreenReceiver[] one = Receivers(20, 6, Profile(-6), true);
        ScreenProfile twice = new([Profile(-6).Stages[0], Profile(-6).Stages[0]]);
        double both = 10 * Math.Log10(2);
        ScreenField field = ScreenField.Of(emitters);

        ScreenFinding[] lower = Screen.Run(field, one, new ScreenOptions { HarmfulFromDb = -both, MarginalFromDb = -10 - both });
        ScreenFinding[] found = Screen.Run(field, [.. one.Select(r => r with { Profile = twice })], new ScreenOptions());

        Assert.Contains(found, static f => f.Harmful + f.Marginal > 3);
        for (int r = 0; r < one.Length; r++)
        {
            Assert.Equal((lower[r].Harmful, lower[r].Marginal), (found[r].Harmful, found[r].Marginal));
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Run_of_order_seven_finds_what_all_one_by_one_give(int seed)
    {
        ScreenEmitter[] emitters = Emitters(90, seed, true);
        ScreenReceiver[] receivers = Receivers(12, seed + 50, Profile(-25), true);
        ScreenOptions options = new() { Orders = [2, 3, 5, 7] };

        ScreenFinding[] found = Screen.Run(ScreenField.Of(emitters), receivers, options);

        for (int r = 0; r < receivers.Length; r++)
        {
            (long harmful, long marginal, double? worst) = Slowly(emitters, receivers[r], options);
            Assert.Equal((harmful, marginal), (found[r].Harmful, found[r].Marginal));
            Assert.True(worst is null || Math.Abs(worst.Value - found[r].Worst!.OverNoiseDb) < 0.001);
        }

        Assert.Contains(found, static f => f.Harmful > 0);
    }

    [Fact]
    public void Run_does_not_depend_on_threads()
    {
        ScreenField field = ScreenField.Of(Emitters(400, 8, true));
        ScreenReceiver[] receivers = Receivers(40, 9, Plain, true);

        ScreenFinding[] one = Screen.Run(field, receivers, new ScreenOptions { Threads = 1 });
        ScreenFinding[] four = Screen.Run(field, receivers, new ScreenOptions { Threads = 4 });

        for (int r = 0; r < receivers.Length; r++)
        {
            Assert.Equal(one[r] with { Worst = null }, four[r] with { Worst = null });
            Assert.Equal(one[r].Worst?.Emitters ?? [], four[r].Worst?.Emitters ?? []);
        }
    }

    [Fact]
    public void Run_counts_emitters_on_the_receivers_own_mast_as_without_level()
    {
        ScreenEmitter[] emitters = Emitters(9, 1, false);
        ScreenReceiver receiver = Receivers(1, 1, Plain, false)[0] with { Place = emitters[0].Place };

        ScreenFinding found = Screen.Run(ScreenField.Of(emitters), [receiver], new ScreenOptions())[0];

        Assert.Equal(emitters.Count(e => e.Place == receiver.Place && double.IsFinite(e.EirpDbm)), found.WithoutLevel);
    }

    [Fact]
    public void Run_stops_counting_at_the_most_products_and_says_so()
    {
        ScreenField field = ScreenField.Of(Emitters(300, 1, false));
        ScreenReceiver[] receivers = Receivers(25, 101, Plain, false);

        ScreenFinding[] found = Screen.Run(field, receivers, new ScreenOptions { MostProducts = 3 });

        Assert.Contains(found, static f => !f.IsComplete);
        Assert.All(found, static f => Assert.True(f.Harmful + f.Marginal <= 3));
    }

    /// <summary>The worst is that of all products, however few are counted: with one stage and with two.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Run_that_stops_counting_still_finds_the_worst(bool twoStages)
    {
        ScreenField field = ScreenField.Of(Emitters(300, 1, false));
        ScreenProfile profile = twoStages ? new([Profile(-14).Stages[0], Profile(-4).Stages[0]]) : Plain;
        ScreenReceiver[] receivers = Receivers(40, 101, profile, false);
        ScreenOptions all = new() { Orders = [2, 3, 5] };

        ScreenFinding[] whole = Screen.Run(field, receivers, all);
        foreach (int most in (int[])[1, 3, 20])
        {
            ScreenFinding[] few = Screen.Run(field, receivers, all with { MostProducts = most });

            Assert.Contains(few, static f => !f.IsComplete);
            for (int i = 0; i < few.Length; i++)
            {
                Assert.Equal(whole[i].Harmful + whole[i].Marginal >= most, !few[i].IsComplete);
                Assert.Equal(whole[i].Worst?.OverNoiseDb, few[i].Worst?.OverNoiseDb);
                Assert.Equal(whole[i].Worst?.Emitters, few[i].Worst?.Emitters);
                Assert.Equal(whole[i].Worst?.Coefficients, few[i].Worst?.Coefficients);
            }
        }
    }

    [Fact]
    public void Arc_is_the_geodesic_within_three_parts_in_a_million_up_to_five_hundred_kilometres()
    {
        Random random = new(1);
        for (int i = 0; i < 2_000; i++)
        {
            GeoPoint a = GeoPoint.Of((random.NextDouble() * 150) - 75, (random.NextDouble() * 360) - 180);
            GeoPoint b = GeoPoint.Of(a.LatitudeDegrees + (random.NextDouble() * 3), Math.IEEERemainder(a.LongitudeDegrees
                + random.NextDouble(), 360));
            Geodesic.TryBetween(a, b, out GeodesicLine line, out _);
            EarthPoint here = EarthPoint.Of(a);
            EarthPoint there = EarthPoint.Of(b);

            double arc = EarthPoint.Arc(here.ChordSquared(there));
            Assert.True(Math.Abs(arc - line.DistanceM) <= 3e-6 * line.DistanceM, FormattableString.Invariant($"{line.DistanceM} {arc}"));
            double bearing = here.BearingTo(there, a.LatitudeDegrees, a.LongitudeDegrees);
            Assert.True(OffAxis.Difference(bearing, line.BearingDegrees) < 0.01);
        }
    }
}
