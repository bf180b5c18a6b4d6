using System.Numerics;
using Spurless.Design.Prototypes;

namespace Spurless.Design.Tests.Prototypes;

/// <summary>What the theory of doubly terminated ladders says of every prototype, whatever its order and ripple.</summary>
public class PrototypeIdentityTests
{
    public static TheoryData<int, double> All()
    {
        TheoryData<int, double> all = [];
        for (int n = 1; n <= 9; n++)
        {
            foreach (double ripple in new[] { 0, 0.001, 0.01, 0.1, 0.5, 1, 3 })
            {
                all.Add(n, ripple);
            }
        }

        return all;
    }

    // Butterworth and odd Chebyshev ladders are mirror images of themselves; an even Chebyshev ladder is the mirror of its own dual, scaled
    // by the load (antimetric networks; Matthaei, Young, Jones 4.05, from memory, and plain in the tables: 0.8430 = 0.6220 x 1.3554).
    [Theory]
    [MemberData(nameof(All))]
    public void G_is_symmetric_or_antimetric(int order, double ripple)
    {
        Prototype p = Make(order, ripple);
        double load = p.G(order + 1);
        for (int i = 1; i <= order; i++)
        {
            double scale = ripple == 0 || order % 2 == 1 ? 1 : i % 2 == 1 ? load : 1 / load;
            Assert.Equal(1, p.G(i) / (p.G(order + 1 - i) * scale), 1e-9);
        }
    }

    // The ladder itself, between its own source and load: its loss over the power that there is, is the closed form at any frequency.
    [Theory]
    [MemberData(nameof(All))]
    public void LossDb_is_that_of_the_ladder_of_its_elements(int order, double ripple)
    {
        Prototype p = Make(order, ripple);
        foreach (double w in Enumerable.Range(0, 301).Select(static i => i / 100.0))
        {
            double loss = Ladder(p, w);
            Assert.Equal(p.LossDb(w), loss, 1e-7 * Math.Max(1, loss));
        }
    }

    // cos(n arccos w) is 0 at cos((2k-1) pi/2n) and 1 or -1 at cos(k pi/n): no loss there, the whole ripple here.
    [Theory]
    [InlineData(3, 0.1)]
    [InlineData(4, 0.5)]
    [InlineData(7, 0.01)]
    public void LossDb_of_Chebyshev_touches_nothing_and_its_ripple_in_turn(int order, double ripple)
    {
        Prototype p = Prototype.Chebyshev(order, ripple);
        for (int k = 1; k <= order; k++)
        {
            double zero = Math.Cos(((2 * k) - 1) * Math.PI / (2 * order)), top = Math.Cos(k * Math.PI / order);
            Assert.Equal(0, p.LossDb(Math.Abs(zero)), 1e-12);
            Assert.Equal(ripple, p.LossDb(Math.Abs(top)), 1e-9);
        }

        Assert.Equal(ripple, p.LossDb(1), 1e-12);
        Assert.True(p.LossDb(1.0001) > ripple);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void LossDb_grows_beyond_the_edge_and_FrequencyOf_undoes_it(int order, double ripple)
    {
        Prototype p = Make(order, ripple);
        double last = ripple == 0 ? 10 * Math.Log10(2) : ripple;
        for (double w = 1.02; w < 40; w *= 1.1)
        {
            double now = p.LossDb(w);
            Assert.True(now > last);
            last = now;
            Assert.Equal(w, p.FrequencyOf(now), 1e-9 * w);
        }

        // Far out every element adds 20 dB a decade.
        Assert.Equal(20 * order, p.LossDb(1e6) - p.LossDb(1e5), 1e-3);
    }

    // Coupling and loaded Q of the Butterworth tables of the trade: k = 1/sqrt(g g'), q = g1, both in units of the relative bandwidth.
    // Figures by the formula (k12 of n = 4: 1/sqrt(0.7654 x 1.8478)), as in any handbook's table of k and q values.
    [Theory]
    [InlineData(2, 1.4142, new[] { 0.7071 })]
    [InlineData(3, 1.0000, new[] { 0.7071, 0.7071 })]
    [InlineData(4, 0.7654, new[] { 0.8409, 0.5412, 0.8409 })]
    [InlineData(5, 0.6180, new[] { 1.0000, 0.5559, 0.5559, 1.0000 })]
    [InlineData(6, 0.5176, new[] { 1.1688, 0.6050, 0.5176, 0.6050, 1.1688 })]
    public void Coupling_and_Q_of_the_k_and_q_tables(int order, double q, double[] k)
    {
        Prototype p = Prototype.Butterworth(order);
        Assert.Equal(q, p.FirstQ(1), 1e-4);
        Assert.Equal(q, p.LastQ(1), 1e-4);
        for (int i = 0; i < k.Length; i++)
        {
            Assert.Equal(k[i], p.Coupling(i + 1, 1), 1e-4);
            Assert.Equal(k[i] * 0.03, p.Coupling(i + 1, 0.03), 3e-6);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    public void Prototype_of_no_order_is_refused(int order)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Prototype.Butterworth(order));
        Assert.Throws<ArgumentOutOfRangeException>(() => Prototype.Chebyshev(order, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Prototype.Chebyshev(3, 0));
    }

    // f/f0 - f0/f is the same, but for its sign, at f and at f0^2/f: both edges of the band map onto the prototype's.
    [Theory]
    [InlineData(146e6, 6e6)]
    [InlineData(30e6, 15e6)]
    public void ToPrototype_is_even_about_the_middle_and_one_at_the_edges(double centre, double width)
    {
        double half = width / (2 * centre), high = centre * (half + Math.Sqrt(1 + (half * half))), low = centre * centre / high;
        Assert.Equal(width, high - low, 1e-6);
        Assert.Equal(1, BandPassMap.ToPrototype(high, centre, width), 1e-12);
        Assert.Equal(1, BandPassMap.ToPrototype(low, centre, width), 1e-12);
        Assert.Equal(0, BandPassMap.ToPrototype(centre, centre, width), 1e-12);
        foreach (double f in new[] { 0.7 * centre, 1.3 * centre, 4 * centre })
        {
            Assert.Equal(
                BandPassMap.ToPrototype(f, centre, width), BandPassMap.ToPrototype(centre * centre / f, centre, width), 1e-9 * f / centre);
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void WidestFor_loses_just_what_is_wanted_and_a_wider_one_less(int order, double ripple)
    {
        Prototype p = Make(order, ripple);
        const double centre = 146e6, at = 153e6, wanted = 20;
        double widest = BandPassMap.WidestFor(p, wanted, at, centre);
        Assert.Equal(wanted, p.LossDb(BandPassMap.ToPrototype(at, centre, widest)), 1e-6);
        Assert.True(p.LossDb(BandPassMap.ToPrototype(at, centre, 1.01 * widest)) < wanted);
    }

    private static Prototype Make(int order, double ripple) =>
        ripple == 0 ? Prototype.Butterworth(order) : Prototype.Chebyshev(order, ripple);

    // Transducer loss of g1 to ground, g2 in series ... between g0 and g(n+1), by the chain matrix.
    private static double Ladder(Prototype p, double w)
    {
        Complex a = 1, b = 0, c = 0, d = 1;
        for (int i = 1; i <= p.Order; i++)
        {
            Complex x = new(0, w * p.G(i));
            (a, b, c, d) = i % 2 == 1 ? (a + (b * x), b, c + (d * x), d) : (a, (a * x) + b, c, (c * x) + d);
        }

        // g(n+1) is a resistance where the last element goes to ground, else a conductance.
        double source = p.G(0), load = p.Order % 2 == 1 ? p.G(p.Order + 1) : 1 / p.G(p.Order + 1);
        Complex through = (a * load) + b + (c * source * load) + (d * source);
        return 10 * Math.Log10(Complex.Abs(through) * Complex.Abs(through) / (4 * source * load));
    }
}
