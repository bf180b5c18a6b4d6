namespace Spurless.Fit.Tests;

/// <summary>
/// The random cases: intervals that hold what they promise, as narrow as the Cramer-Rao bound allows. Limits are those of the issue; for 40
/// cases they are wider by what 40 cases scatter (values of one case miss together: about one in three cases has any miss).
/// </summary>
public sealed class FitStudyTests(ITestOutputHelper output)
{
    [Fact]
    public void Fit_of_forty_complex_sweeps_holds_what_its_intervals_promise()
    {
        FitStudy study = FitStudy.Run(Enumerable.Range(0, 40), magnitudes: false);
        output.WriteLine(study.Table());
        Assert.InRange(study.Coverage, 0.90, 0.99);
        Assert.InRange(study.WidthRatio, 0.8, 1.5);
        Assert.True(study.NarrowIdentifiable >= 0.95, study.Table());
    }

    [Fact]
    public void Fit_of_forty_magnitude_sweeps_holds_what_its_intervals_promise()
    {
        FitStudy study = FitStudy.Run(Enumerable.Range(0, 40), magnitudes: true);
        output.WriteLine(study.Table());
        Assert.InRange(study.Coverage, 0.90, 0.99);
        Assert.InRange(study.WidthRatio, 0.8, 1.5);
        Assert.True(study.NarrowIdentifiable >= 0.95, study.Table());
    }

    [Fact]
    [Trait("Category", "Long")]
    public void Fit_of_all_complex_sweeps_holds_what_its_intervals_promise()
    {
        FitStudy study = FitStudy.Run(Enumerable.Range(0, FitCase.Count), magnitudes: false);
        output.WriteLine(study.Table());
        Assert.InRange(study.Coverage, 0.92, 0.98);
        Assert.InRange(study.WidthRatio, 0.8, 1.5);
        Assert.True(study.NarrowIdentifiable >= 0.95, study.Table());
        Assert.False(study.WideIdentifiable > 0.05, study.Table());
    }

    [Fact]
    [Trait("Category", "Long")]
    public void Fit_of_all_magnitude_sweeps_holds_what_its_intervals_promise()
    {
        FitStudy study = FitStudy.Run(Enumerable.Range(0, FitCase.Count), magnitudes: true);
        output.WriteLine(study.Table());
        Assert.InRange(study.Coverage, 0.92, 0.98);
        Assert.InRange(study.WidthRatio, 0.8, 1.5);
        Assert.True(study.NarrowIdentifiable >= 0.95, study.Table());
        Assert.False(study.WideIdentifiable > 0.05, study.Table());
    }
}
