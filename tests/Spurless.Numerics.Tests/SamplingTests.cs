using CsCheck;

namespace Spurless.Numerics.Tests;

/// <summary>The tests' own way of trying a property: the same values in every run, others for every test, and a failure is one.</summary>
public sealed class SamplingTests
{
    [Fact]
    public void Sample_draws_the_same_values_again_and_others_under_another_name()
    {
        if (Sampling.IsExploring)
        {
            return; // new seeds are what was asked for
        }

        List<double> first = Drawn("one"), again = Drawn("one"), other = Drawn("two");
        Assert.Equal(50, first.Count);
        Assert.Equal(first, again);

        // The ends of a range come in every draw.
        Assert.True(first.Intersect(other).Count() <= 2);
        Assert.InRange(first.Distinct().Count(), 30, 50);
    }

    [Fact]
    public void Sample_of_what_fails_once_fails()
    {
        int tried = 0;
        Assert.Throws<CsCheckException>(() => Gen.Int[0, 9].Sample(_ => Assert.True(Interlocked.Increment(ref tried) < 7), iter: 20));
        Assert.Throws<CsCheckException>(static () => Gen.Int[0, 9].Sample(static x => x < 9, iter: 200));
        Assert.Throws<CsCheckException>(static () => Gen.Select(Gen.Int[0, 9], Gen.Int[0, 9]).Sample(
            static (a, b) => Assert.True(a + b < 15), iter: 400));
    }

    private static List<double> Drawn(string name)
    {
        List<double> drawn = [];
        Gen.Double[0, 1].Sample(drawn.Add, iter: 50, test: name);
        return drawn;
    }
}
