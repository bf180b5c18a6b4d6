using Spurless.Mixing.Causes;
using Spurless.Mixing.Tests.Oracles;

namespace Spurless.Mixing.Tests.Causes;

/// <summary>
/// The law of transmitter products against a time-domain simulation: an output stage that its own carrier drives hard, weak signals coming
/// in at its output, lines by FFT. Three device laws add both at the junction; the fourth solves, sample by sample, a current source with
/// knee against a line on which the foreign signals travel backward, and looks at the wave that leaves. The turn-round loss is read from
/// the simulation at one level, as one would measure it; everything else is predicted.
/// </summary>
public sealed class TransmitterSimulationTests
{
    private const int Samples = 1 << 14;
    private const int A = 1_501;
    private const int B = 1_637;
    private const int C = 1_429;
    private const int D = 1_381;

    public static TheoryData<string> Devices => ["saturating", "class C", "square law knee", "reverse wave"];

    [Theory]
    [MemberData(nameof(Devices))]
    public void Level_follows_simulation_over_incoming_level(string device)
    {
        // Products of A with B: B once (2A-B, A-B+... of order 3), twice (3A-2B) and with C.
        (int A, int B, int C)[] products = [(2, -1, 0), (1, 1, 0), (3, -2, 0), (3, -1, 0), (1, 1, -1), (2, 1, -2)];
        foreach ((int a, int b, int c) in products)
        {
            int order = Math.Abs(a) + Math.Abs(b) + Math.Abs(c);
            (double calibrationOwn, double calibration) = Product(device, a, b, c, -40, -42);
            // T as measured at -40 / -42 dB: what the law needs to give the line just read.
            double turnRound = calibrationOwn + (Math.Abs(b) * -40) + (Math.Abs(c) * -42) - calibration;
            foreach ((double underB, double underC) in ((double, double)[])[(-50, -45), (-35, -60), (-60, -42)])
            {
                (double own, double simulated) = Product(device, a, b, c, underB, underC);
                TransmitterStage stage = new()
                {
                    Name = "a",
                    Emitter = 0,
                    PowerDbm = own,
                    TurnRound = TurnRoundLoss.EveryOrder(turnRound),
                    Arrivals = [null, Made.Arrival(own + underB), Made.Arrival(own + underC)],
                };
                (int, int)[] terms = c == 0 ? [(0, a), (1, b)] : [(0, a), (1, b), (2, c)];

                TransmitterProductLevel level = TransmitterProducts.Level(stage, terms, Made.Reach("a", own, 0, 0, 0));

                // Next terms of the expansion in the incoming amplitude are of the order of its square: 10^(-35/10) times a device factor.
                Assert.Equal(simulated, level.LeavesDbm!.Value, 0.15);
            }
        }
    }

    [Fact]
    public void Level_follows_simulation_over_own_power()
    {
        // A stage whose bias follows its drive (class C with grid leak) scales with it: product and turn-round loss keep their distance to
        // the powers.
        (double weakOwn, double weak) = Scaled(1);
        (double strongOwn, double strong) = Scaled(4);
        double turnRound = weakOwn - 40 - weak;
        TransmitterStage stage = new()
        {
            Name = "a",
            Emitter = 0,
            PowerDbm = strongOwn,
            TurnRound = TurnRoundLoss.EveryOrder(turnRound),
            Arrivals = [null, Made.Arrival(strongOwn - 40)],
        };

        TransmitterProductLevel level = TransmitterProducts.Level(
            stage, [(0, 2), (1, -1)], Made.Reach("a", strongOwn, 0, 0, 0));

        Assert.Equal(12.04, strongOwn - weakOwn, 2);
        Assert.Equal(strong, level.LeavesDbm!.Value, 6);
    }

    [Theory]
    [MemberData(nameof(Devices))]
    public void Products_of_others_alone_lie_20_dB_and_more_under_those_with_the_transmitter(string device)
    {
        // Why a product of a transmitter contains it: with all others 40 dB down, B+C-D against A+C-D, of the same order.
        double[] lines = Simulated.Lines(Outgoing(device, Own(), Simulated.Tones(Samples, (B, 0.01, 1.1), (C, 0.01, 2.3), (D, 0.01, 0.7))));

        double without = Simulated.Db(lines[B + C - D]);
        double with = Simulated.Db(lines[A + C - D]);

        Assert.True(with - without > 20, $"{device}: {with:F1} against {without:F1} dB");
    }

    private static double[] Own() => Simulated.Tones(Samples, (A, 1, 0.3));

    /// <summary>
    /// Levels of the own carrier and of a product, both in dB of the output; what comes in is relative to the own carrier.
    /// </summary>
    private static (double Own, double Product) Product(string device, int a, int b, int c, double underB, double underC)
    {
        double own = Simulated.Db(Simulated.Lines(Outgoing(device, Own(), new double[Samples]))[A]);
        // The junction laws take incoming signals in units of the drive; the reverse wave is in units of what leaves.
        double scale = device == "reverse wave" ? Math.Pow(10, own / 20) : 1;
        double[] reverse = c == 0
            ? Simulated.Tones(Samples, (B, scale * Math.Pow(10, underB / 20), 1.1))
            : Simulated.Tones(Samples, (B, scale * Math.Pow(10, underB / 20), 1.1), (C, scale * Math.Pow(10, underC / 20), 2.3));
        double[] lines = Simulated.Lines(Outgoing(device, Own(), reverse));
        return (Simulated.Db(lines[A]), Simulated.Db(lines[Math.Abs((a * A) + (b * B) + (c * C))]));
    }

    private static double[] Outgoing(string device, double[] forward, double[] reverse) =>
        [.. forward.Zip(reverse, (own, foreign) => device == "reverse wave" ? ReverseWave(own, foreign) : Law(device, own + foreign))];

    /// <summary>A current source that its drive opens and its own output voltage closes (knee), on a line of resistance 1 with a supply of
    /// 1: with the backward wave a, <c>v = 2a - i(v)</c>; what leaves is <c>v - a</c>.</summary>
    private static double ReverseWave(double drive, double incoming)
    {
        const double Knee = 0.3;
        double open = 0.25 * Math.Log(1 + Math.Exp((drive - 0.1) / 0.15));
        // The equation rises with v, so that halving the bracket always ends at its one solution.
        double low = (2 * incoming) - open;
        double high = (2 * incoming) + open;
        for (int step = 0; step < 50; step++)
        {
            double middle = (low + high) / 2;
            bool over = middle - (2 * incoming) + (open * Math.Tanh((1 + middle) / Knee)) > 0;
            (low, high) = over ? (low, middle) : (middle, high);
        }

        return ((low + high) / 2) - incoming;
    }

    private static (double Own, double Product) Scaled(double drive)
    {
        double[] x = Simulated.Tones(Samples, (A, drive, 0.3), (B, 0.01 * drive, 1.1));
        double[] lines = Simulated.Lines([.. x.Select(v => drive * Law("class C", v / drive))]);
        return (Simulated.Db(lines[A]), Simulated.Db(lines[(2 * A) - B]));
    }

    // Smooth laws without symmetry, so that every order is made, lines fall fast and nothing folds back: tanh, a soft rectifier, a bent
    // knee, each with bias.
    private static double Law(string device, double x) => device switch
    {
        "saturating" => Math.Tanh((2.5 * x) + 0.8),
        "class C" => 0.15 * Math.Log(1 + Math.Exp((x - 0.3) / 0.15)),
        _ => x + (0.6 * Math.Sqrt(((x - 0.2) * (x - 0.2)) + 0.09)),
    };
}
