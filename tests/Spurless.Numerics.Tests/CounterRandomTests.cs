namespace Spurless.Numerics.Tests;

public sealed class CounterRandomTests
{
    [Fact]
    public void Uniform_is_the_same_in_any_order()
    {
        CounterRandom random = new(7, 3);
        double[] forwards = [.. Enumerable.Range(0, 300).Select(i => random.Uniform(i / 3, i % 3))];
        double[] backwards = [.. Enumerable.Range(0, 300).Reverse().Select(i => new CounterRandom(7, 3).Uniform(i / 3, i % 3)).Reverse()];
        Assert.Equal(forwards, backwards);
        Assert.NotEqual(forwards[0], new CounterRandom(8, 3).Uniform(0, 0));
    }

    // Mean 1/2 and variance 1/12 of an even spread; six standard errors of 100,000 draws.
    // Neighbours in sample and in dimension do not go together.
    [Fact]
    public void Uniform_is_evenly_spread_and_neighbours_are_independent()
    {
        const int Count = 100_000;
        CounterRandom random = new(1, 2);
        double sum = 0, squares = 0, along = 0, across = 0;
        for (int i = 0; i < Count; i++)
        {
            double u = random.Uniform(i, 0) - 0.5;
            Assert.InRange(u, -0.5, 0.5);
            sum += u;
            squares += u * u;
            along += u * (random.Uniform(i + 1, 0) - 0.5);
            across += u * (random.Uniform(i, 1) - 0.5);
        }

        double error = 6 / Math.Sqrt(Count);
        Assert.Equal(0, sum / Count, error / Math.Sqrt(12));
        Assert.Equal(1.0 / 12, squares / Count, error * 0.075);
        Assert.Equal(0, along / Count, error / 12);
        Assert.Equal(0, across / Count, error / 12);
    }
}
