using Spurless.Circuits.Parts;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Responses;
using Spurless.Sites.Sources;
using Spurless.Sites.Tests.Documents;
using Spurless.Sites.Tolerances;

namespace Spurless.Sites.Tests.Tolerances;

public class ToleranceServiceTests
{
    private const string Demand = """
        spurless_requirement: 1
        name: a quiet input
        impedance: 75 ohm
        pass: { from: 144.9 MHz, to: 145.2 MHz, loss: 3 dB }
        """;

    private static readonly ToleranceQuestion Question =
        new() { Circuit = Demo(), Samples = 40, Frequencies = FrequencyChoice.At([145.05e6]) };

    [Fact]
    public void Ask_counts_specimens_by_default_as_the_analysis_does() =>
        Assert.Equal((10_000, 2_000), (new ToleranceQuestion { Circuit = Question.Circuit }.Samples, ToleranceQuestion.QuickSamples));

    [Fact]
    public void Ask_more_than_fits_in_memory_is_refused_and_the_remedy_is_accepted()
    {
        ToleranceQuestion silly =
            Question with { Samples = ToleranceQuestion.MostSamples, Frequencies = FrequencyChoice.Between(100e6, 200e6, 101) };
        Outcome<ToleranceAnswer> outcome = ToleranceService.Ask(silly, null, TestContext.Current.CancellationToken);
        Assert.Null(outcome.Answer);
        Assert.Equal(nameof(ToleranceQuestion.Samples), outcome.Refusal!.Subject);

        // 60 million values are the bound: over 101 points 594,059 specimens.
        Assert.Equal("ask for 594059 samples, or for fewer points", outcome.Refusal.Remedy);
    }

    [Fact]
    public void Ask_requirement_of_another_impedance_is_refused()
    {
        DiagnosticBag findings = new();
        RequirementFile? required = SourceReader.Requirement(SourceFile.OfText("r.requirement.yaml", Demand, new StubFiles()), findings);
        Assert.True(required is not null, string.Join('\n', findings.InOrder()));
        Outcome<ToleranceAnswer> outcome =
            ToleranceService.Ask(Question with { Requirement = required.Requirement }, null, TestContext.Current.CancellationToken);
        Assert.Equal(nameof(ToleranceQuestion.Requirement), outcome.Refusal?.Subject);
        Assert.Contains("75 ohm", outcome.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Ask_names_the_parts_that_got_the_other_tolerance()
    {
        ToleranceQuestion question = Question with { Others = new OtherTolerance(PartTolerance.Uniform(0.1), "10 %"), Advise = false };
        ToleranceAnswer answer = ToleranceService.Ask(question, null, TestContext.Current.CancellationToken).Answer!;
        Assert.Equal([.. Question.Circuit.Parts.Where(static p => p.Tolerance is null).Select(static p => p.Name)], answer.OtherParts);
        Assert.Null(answer.Tuning);
        Assert.Null(answer.Sensitivity);
    }

    private static Circuit Demo()
    {
        DiagnosticBag findings = new();
        return SourceReader.Circuit(
            SourceFile.Read(TestData.Demo("filters", "three-tank.circuit.yaml"), FileKind.Circuit, findings)!, findings)!.Circuit;
    }
}
