using CsCheck;
using Spurless.Mixing.Measurements;

namespace Spurless.Mixing.Tests.Measurements;

public class WeightedMeanTests
{
    // Inverse-variance mean by hand: (1*10 + 4*20)/5 with sigmas 1 and 0.5; sigma 1/sqrt(5).
    [Fact]
    public void Of_two_is_the_inverse_variance_mean()
    {
        WeightedMean mean = WeightedMean.Of([MeasuredFigure.Read(10, 1, 1), MeasuredFigure.Read(11, 2, 0.5)]);
        Assert.Equal(10.8, mean.Figure.Value, 12);
        Assert.Equal(1 / Math.Sqrt(5), mean.Figure.SigmaDb, 12);
        Assert.Null(mean.Disagree);
    }

    // What both share stays: sqrt(0.5^2 + 1/2), not sqrt((0.25 + 1)/2).
    [Fact]
    public void Of_two_that_share_an_error_keeps_it_whole()
    {
        MeasuredFigure noise = MeasuredFigure.Read(0, 1, 0.5);
        WeightedMean mean = WeightedMean.Of(
            [MeasuredFigure.Read(3, 2, 1).Plus(noise), MeasuredFigure.Read(4, 3, 1).Plus(noise)]);
        Assert.Equal(3.5, mean.Figure.Value, 12);
        Assert.Equal(Math.Sqrt(0.25 + 0.5), mean.Figure.SigmaDb, 12);
    }

    // sqrt(2) is the sigma of the difference: 4.3 dB are 3.04 of it, 4.2 dB are 2.97.
    [Theory]
    [InlineData(4.2, false)]
    [InlineData(4.3, true)]
    public void Of_two_that_disagree_says_so_over_three_sigma(double apart, bool disagree)
    {
        WeightedMean mean = WeightedMean.Of([MeasuredFigure.Read(0, 1, 1), MeasuredFigure.Read(apart, 2, 1)]);
        Assert.Equal(disagree, mean.Disagree is not null);

        // Widened, the sigma of two is half of what they lie apart: d^2/2 of chi-square, 1/sqrt(2) of sigma.
        Assert.Equal(disagree ? apart / 2 : 1 / Math.Sqrt(2), mean.Figure.SigmaDb, 12);
    }

    [Fact]
    public void Of_names_the_two_that_disagree_most()
    {
        WeightedMean mean = WeightedMean.Of(
            [MeasuredFigure.Read(0, 1, 1), MeasuredFigure.Read(5, 2, 1), MeasuredFigure.Read(0.5, 3, 1), MeasuredFigure.Read(20, 4, 1)]);
        Assert.Equal((0, 3, 20.0), (mean.Disagree!.Value.First, mean.Disagree.Value.Second, mean.Disagree.Value.ApartDb));
    }

    // What two figures share has no part in whether they agree.
    [Fact]
    public void Of_two_that_differ_by_more_than_their_own_errors_disagree_whatever_they_share()
    {
        MeasuredFigure noise = MeasuredFigure.Read(0, 1, 50);
        WeightedMean mean = WeightedMean.Of([MeasuredFigure.Read(0, 2, 1).Plus(noise), MeasuredFigure.Read(10, 3, 1).Plus(noise)]);
        Assert.Equal(Math.Sqrt(2), mean.Disagree!.Value.SigmaDb, 12);
    }

    [Fact]
    public void Of_any_lies_between_them_whatever_their_order() => Gen.Select(
        Gen.Double[-50, 50], Gen.Double[0.1, 5]).Array[1, 8].Sample(all =>
    {
        MeasuredFigure[] figures = [.. all.Select((f, i) => MeasuredFigure.Read(f.Item1, i, f.Item2))];
        WeightedMean mean = WeightedMean.Of(figures), turned = WeightedMean.Of([.. figures.Reverse()]);
        Assert.InRange(mean.Figure.Value, figures.Min(static f => f.Value) - 1e-9, figures.Max(static f => f.Value) + 1e-9);
        Assert.Equal(mean.Figure.Value, turned.Figure.Value, 1e-9);
        Assert.Equal(mean.Figure.SigmaDb, turned.Figure.SigmaDb, 1e-9);
        if (mean.Disagree is null)
        {
            Assert.True(mean.Figure.SigmaDb <= figures.Min(static f => f.SigmaDb) + 1e-9);
        }
    });

    [Fact]
    public void Of_exact_figures_counts_them_alone()
    {
        WeightedMean mean = WeightedMean.Of([MeasuredFigure.Exact(1), MeasuredFigure.Read(9, 1, 5)]);
        Assert.Equal((1.0, 0.0), (mean.Figure.Value, mean.Figure.SigmaDb));
    }

    [Fact]
    public void Of_nothing_is_refused() => Assert.Throws<ArgumentException>(() => WeightedMean.Of([]));
}
