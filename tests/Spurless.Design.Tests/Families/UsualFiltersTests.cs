using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Design.Families;
using Spurless.Design.Prototypes;

namespace Spurless.Design.Tests.Families;

/// <summary>
/// Filters of usual kinds, by the circuit solver, against the law of their prototype (Matthaei, Young, Jones, chapter 4, from memory) and
/// the loss of finite Q (Cohn 1959, from memory).
/// </summary>
public sealed class UsualFiltersTests
{
    private const double Centre = 145.05e6;

    public static TheoryData<int, double, double> Kinds
    {
        get
        {
            TheoryData<int, double, double> all = [];
            foreach (double q in new[] { 150.0, 300, 800, 2500 })
            {
                for (int n = 1; n <= 5; n++)
                {
                    all.Add(n, q, 0);
                    all.Add(n, q, 0.1);
                }
            }

            return all;
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void BandPass_loses_on_the_channel_what_it_was_made_for(int resonators, double q, double rippleDb)
    {
        if (UsualFilters.BandPass(resonators, q, Centre, 2.5, 0, rippleDb) is not { } circuit)
        {
            Assert.True(Width(Law(resonators, rippleDb), q, 2.5) > 0.3 * Centre, "only a band over 30 % wide has no circuit");
            return;
        }

        // The estimate is of first order in loss; the middle of top-coupled tanks lies a little beside the nominal one.
        Assert.InRange(Least(circuit), 0.75 * 2.5, 1.25 * 2.5);
        Assert.InRange(Loss(circuit, Centre), 0.75 * 2.5, 1.6 * 2.5);
    }

    // Narrow bands: the tanks' law holds where coupling elements do not yet bend it.
    [Theory]
    [InlineData(1, 2500, 0)]
    [InlineData(2, 2500, 0)]
    [InlineData(3, 2500, 0)]
    [InlineData(3, 800, 0)]
    [InlineData(4, 2500, 0)]
    [InlineData(3, 2500, 0.1)]
    [InlineData(4, 2500, 0.1)]
    [InlineData(5, 2500, 0.1)]
    public void BandPass_of_a_narrow_band_keeps_out_what_its_prototype_does(int resonators, double q, double rippleDb)
    {
        Circuit circuit = UsualFilters.BandPass(resonators, q, Centre, 1, 0, rippleDb)!;
        Prototype prototype = Law(resonators, rippleDb);
        double width = Width(prototype, q, 1), least = Least(circuit);
        foreach (double away in new[] { 1.5, 2, 3 })
        {
            double low = Centre * (1 - (away * width / Centre / 2)), high = Centre * (1 + (away * width / Centre / 2));
            double expected = prototype.LossDb(away);
            double found = (Loss(circuit, low) + Loss(circuit, high)) / 2;
            Assert.True(Math.Abs(found - least - expected) < 1 + (0.1 * expected), $"{away}: {found - least} for {expected} dB");
        }
    }

    [Theory]
    [InlineData(158.3e6, null)]
    [InlineData(160.525e6, 171.55e6)]
    [InlineData(94.2e6, null)]
    [InlineData(94.2e6, 50.85e6)]
    public void Trap_keeps_out_its_notches_and_lets_the_channel_pass(double first, double? second)
    {
        Circuit circuit = UsualFilters.Trap(second is { } s ? [first, s] : [first], Centre)!;

        Assert.True(Loss(circuit, first) > 20, $"{Loss(circuit, first)} dB");
        Assert.True(second is not { } other || Loss(circuit, other) > 20);
        Assert.InRange(Loss(circuit, Centre), 0, 1.5);
    }

    [Fact]
    public void Trap_beside_the_channel_or_on_both_sides_is_none()
    {
        Assert.Null(UsualFilters.Trap([145.65e6], Centre));
        Assert.Null(UsualFilters.Trap([158.3e6, 94.2e6], Centre));
    }

    // As many resonators of the same Q for the same loss on the channel: by the prototypes at three half widths of the flat one. Far out
    // (w >> 1) it is 10 lg(0.0233 (2^(n-1) (sum g / sum g')^n)^2) dB by hand: 1.4, 3.2 and 4.3 dB.
    [Theory]
    [InlineData(3, 1.4)]
    [InlineData(4, 3.2)]
    [InlineData(5, 4.3)]
    public void BandPass_with_ripple_keeps_out_more_for_the_same_loss(int resonators, double farDb)
    {
        Prototype flat = Law(resonators, 0), steep = Law(resonators, 0.1);
        double width = Width(flat, 2500, 1), share = width / Width(steep, 2500, 1);
        double Away(double rippleDb)
        {
            Circuit circuit = UsualFilters.BandPass(resonators, 2500, Centre, 1, 0, rippleDb)!;
            return (Loss(circuit, Centre - (1.5 * width)) + Loss(circuit, Centre + (1.5 * width))) / 2;
        }

        double expected = steep.LossDb(3 * share) - flat.LossDb(3);
        Assert.InRange(Away(0.1) - Away(0), expected - 0.7, expected + 0.7);
        Assert.Equal(farDb, steep.LossDb(1000 * share) - flat.LossDb(1000), 1);
    }

    private static Prototype Law(int resonators, double rippleDb) =>
        rippleDb > 0 ? Prototype.Chebyshev(resonators, rippleDb) : Prototype.Butterworth(resonators);

    private static double Width(Prototype prototype, double q, double lossDb) =>
        DissipationLoss.DbPerHalfNeper * prototype.Sum * Centre / (q * lossDb);

    private static double Loss(Circuit circuit, double hertz) =>
        new CircuitTwoPort(CircuitSolver.Create(circuit)).At(hertz).InsertionLossDb;

    private static double Least(Circuit circuit)
    {
        CircuitTwoPort twoPort = new(CircuitSolver.Create(circuit));
        return Enumerable.Range(-2000, 4001).Min(i => twoPort.At(Centre * (1 + (i * 5e-5))).InsertionLossDb);
    }
}
