using Spurless.Signals.Spectra;
using Spurless.Sites.Surveys;

namespace Spurless.Sites.Tests.Surveys;

public class InstrumentMixturesTests
{
    [Fact]
    public void Fit_that_is_cancelled_stops()
    {
        // Three lines far over a flat noise: enough for mixtures to look for.
        double[] hertz = [.. Enumerable.Range(0, 400).Select(static i => 145e6 + (i * 2_500.0))];
        Random random = new(1);
        double[][] rows = [.. Enumerable.Range(0, 8).Select(_ => hertz.Select(
            (_, i) => i is 100 or 140 or 200 ? -30 : -110 + random.NextDouble()).ToArray())];
        LineFinder finder = LineFinder.For(new Sweep("made", hertz, rows), new LineOptions { ResolutionHz = 2_500 });
        IReadOnlyList<SpectrumLine> lines = finder.Lines();
        Assert.True(lines.Count >= 3);

        Assert.ThrowsAny<OperationCanceledException>(
            () => new InstrumentMixtures(lines).Fit(finder, hertz, new CancellationToken(canceled: true)));
    }
}
