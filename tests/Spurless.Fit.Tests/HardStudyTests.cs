namespace Spurless.Fit.Tests;

/// <summary>
/// Sweeps as a person at home makes them: what is called known is so, and hardly ever far off. For 24 cases limits are wider by what 24
/// cases
/// scatter (values of one case miss together).
/// </summary>
public sealed class HardStudyTests(ITestOutputHelper output)
{
    [Fact]
    public void Fit_of_twenty_four_hard_cases_calls_known_what_is_so()
    {
        HardStudy study = HardStudy.Run(Enumerable.Range(0, 24));
        Tell(study);
        Assert.InRange(study.Coverage, 0.88, 1);
        Assert.InRange(study.FarOff, 0, 0.03);
        Assert.True(study.Known > 0.3, study.Table());
    }

    [Fact]
    [Trait("Category", "Long")]
    public void Fit_of_two_hundred_hard_cases_calls_known_what_is_so()
    {
        HardStudy study = HardStudy.Run(Enumerable.Range(0, 200));
        Tell(study);
        Assert.InRange(study.Coverage, 0.90, 0.98);
        Assert.InRange(study.FarOff, 0, 0.02);
        Assert.All(Enum.GetValues<HardKind>(), kind =>
        {
            Assert.InRange(study.CoverageOf(kind), 0.90, 0.99);
            Assert.InRange(study.FarOffOf(kind), 0, 0.02);
        });
    }

    private void Tell(HardStudy study)
    {
        output.WriteLine(study.Table());
        output.WriteLine(string.Join('\n', study.Alarms.Order()));
        output.WriteLine(string.Join('\n', study.Beside.Order()));
        foreach (HardStudy.Line line in study.Lines.Where(static l => l.Known && l.Miss > 1).OrderBy(static l => l.Number))
        {
            output.WriteLine($"{line.Number} {line.Kind} {line.Name}: {line.Miss:F2}");
        }
    }
}
