using System.Numerics;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;

namespace Spurless.Fit.Tests;

/// <summary>
/// Circuits of one part, of which theory says all: the least squares by going through every value, and the interval that no unbiased
/// estimate can beat (Cramér and Rao). S-parameters here by hand: of an impedance Z in series S21 = 2 Z0 / (2 Z0 + Z), S11 = 1 - S21;
/// of one to ground S21 = 2 Z / (2 Z + Z0), S11 = S21 - 1 (any textbook).
/// </summary>
public sealed class OneUnknownTests
{
    private const int Points = 128;
    private const double Z0 = 50;
    private static readonly double[] Frequencies = DemoFilter.Grid(50e6, 350e6, Points);

    // An instrument without errors, so that nothing but the part is unknown.
    private static readonly InstrumentErrors None = new(1e-9, 1e-9, 1e-18, 0, 0, 0, 0);

    [Fact]
    public void Value_and_interval_of_one_part_are_those_of_theory() =>
        Gen.Select(Gen.OneOf("capacitor", "inductor", "resistor"), Gen.Bool, Gen.Double[-0.7, 0.7], Gen.Int[1, 100_000]).Sample(
            static (kind, shunt, decades, seed) =>
            {
                const double Noise = 2e-3;
                double truth = Typical(kind) * Math.Pow(10, decades);
                SeededNoise random = new((ulong)seed);
                ScatteringMatrix[] seen = [.. Frequencies.Select(f => Seen(Of(kind, shunt, truth, f), Noise, random))];

                FittedValue found = Assert.Single(Fit(kind, shunt, seen).Values);

                double fisher = 0;
                foreach (double f in Frequencies)
                {
                    ScatteringMatrix up = Of(kind, shunt, truth * Math.Exp(1e-5), f), down = Of(kind, shunt, truth * Math.Exp(-1e-5), f);
                    foreach (Complex d in (Complex[])[up.S11 - down.S11, up.S12 - down.S12, up.S21 - down.S21, up.S22 - down.S22])
                    {
                        // The noise's variance is half of its power in each part of a complex number.
                        fisher += d.Magnitude * d.Magnitude / 4e-10 / (Noise * Noise / 2);
                    }
                }

                double sigma = 1 / Math.Sqrt(fisher), best = Exhaustive(kind, shunt, truth, seen);

                // The fit weighs each point by a noise that it has to find out itself; the exhaustive search knows that all weigh alike.
                Assert.InRange(Math.Log(found.Value / best) / sigma, -0.8, 0.8);

                // 1.96 sigmas to each side. The noise itself is estimated from third differences: to a tenth or two.
                double half = Math.Log(found.High / found.Low) / 2;
                Assert.InRange(half / (1.96 * sigma), 0.7, 1.4);
                Assert.InRange(Math.Abs(Math.Log(found.Value / truth)) / sigma, 0, 4.5);
            },
            iter: 16);

    // Twice the noise is twice the interval.
    [Fact]
    public void Interval_grows_with_the_noise()
    {
        double Half(double noise)
        {
            SeededNoise random = new(5);
            ScatteringMatrix[] seen = [.. Frequencies.Select(f => Seen(Of("capacitor", true, 20e-12, f), noise, random))];
            FittedValue v = Assert.Single(Fit("capacitor", true, seen).Values);
            return Math.Log(v.High / v.Low) / 2;
        }

        double once = Half(1e-3);
        Assert.InRange(Half(2e-3) / once, 1.8, 2.2);
        Assert.InRange(Half(8e-3) / once, 7, 9);
    }

    // What stands the other way round is the same circuit: values found are the same to far within their intervals.
    [Fact]
    public void Value_does_not_depend_on_which_end_of_the_part_is_named_first()
    {
        SeededNoise random = new(9);
        ScatteringMatrix[] seen = [.. Frequencies.Select(f => Seen(Of("inductor", false, 90e-9, f), 1e-3, random))];
        FittedValue one = Assert.Single(Fit("inductor", false, seen).Values);
        FittedValue other = Assert.Single(Fit("inductor", false,
            [.. seen.Select(static s => new ScatteringMatrix(s.S22, s.S21, s.S12, s.S11))])
            .Values);

        Assert.InRange(Math.Log(one.Value / other.Value), -1e-4, 1e-4);
        Assert.InRange(Math.Log(one.High / other.High), -1e-3, 1e-3);
    }

    private static FitResult Fit(string kind, bool shunt, ScatteringMatrix[] seen)
    {
        PartValue value = PartValue.Unknown(Typical(kind) / 20, Typical(kind) * 20);
        (string from, string to) = shunt ? ("a", Circuit.Ground) : ("a", "b");
        Part part = kind switch
        {
            "capacitor" => new Capacitor { Name = "X", From = from, To = to, Capacitance = value },
            "inductor" => new Inductor { Name = "X", From = from, To = to, Inductance = value },
            _ => new Resistor { Name = "X", From = from, To = to, Resistance = value },
        };
        Circuit circuit = new() { Name = "one", PortIn = "a", PortOut = shunt ? "a" : "b", Parts = [part] };
        FitSweep sweep = FitSweep.From(TouchstoneData.Create("made.s2p", 2, [.. Frequencies], [.. seen], [new Complex(Z0, 0)]), Z0);
        return CircuitFit.TryRun(
            circuit,
            sweep,
            new FitOptions { Starts = 8, Threads = 1, Advise = false, Parasitics = false, Errors = None },
            out Refusal? refusal)
            ?? throw new InvalidOperationException(refusal?.ToString());
    }

    private static double Typical(string kind) => kind switch { "capacitor" => 20e-12, "inductor" => 60e-9, _ => 50 };

    private static ScatteringMatrix Of(string kind, bool shunt, double value, double hertz)
    {
        double omega = 2 * Math.PI * hertz;
        Complex z = kind switch
        {
            "capacitor" => 1 / new Complex(0, omega * value),
            "inductor" => new Complex(0, omega * value),
            _ => value,
        };
        Complex through = shunt ? 2 * z / ((2 * z) + Z0) : 2 * Z0 / ((2 * Z0) + z), back = shunt ? through - 1 : 1 - through;
        return new ScatteringMatrix(back, through, through, back);
    }

    private static ScatteringMatrix Seen(ScatteringMatrix s, double noise, SeededNoise random)
    {
        Complex Noisy(Complex v) => v + (noise / Math.Sqrt(2) * random.Gauss());
        return new ScatteringMatrix(Noisy(s.S11), Noisy(s.S12), Noisy(s.S21), Noisy(s.S22));
    }

    // The least sum of squares by going through 401 values 5 % either way, then round the best of them in steps 50 and 2,500 times finer.
    private static double Exhaustive(string kind, bool shunt, double truth, ScatteringMatrix[] seen)
    {
        double best = truth, reach = 0.05;
        for (int round = 0; round < 3; round++, reach /= 50)
        {
            double centre = best, least = double.PositiveInfinity;
            for (int i = -200; i <= 200; i++)
            {
                double value = centre * Math.Exp(reach * i / 200), sum = 0;
                for (int k = 0; k < Points; k++)
                {
                    ScatteringMatrix m = Of(kind, shunt, value, Frequencies[k]), s = seen[k];
                    sum += Math.Pow((m.S11 - s.S11).Magnitude, 2) + Math.Pow((m.S12 - s.S12).Magnitude, 2)
                        + Math.Pow((m.S21 - s.S21).Magnitude, 2) + Math.Pow((m.S22 - s.S22).Magnitude, 2);
                }

                (best, least) = sum < least ? (value, sum) : (best, least);
            }
        }

        return best;
    }
}
