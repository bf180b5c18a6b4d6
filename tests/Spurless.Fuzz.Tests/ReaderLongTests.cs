using Spurless.Fuzz.Running;

namespace Spurless.Fuzz.Tests;

[Trait("Category", "Long")]
public class ReaderLongTests
{
    private const int Inputs = 300;
    private const int Seed = 17;
    private const double MostSeconds = 240;

    public static TheoryData<string> Names => ReaderTests.Names;

    [Theory]
    [MemberData(nameof(Names))]
    public void Read_of_many_changed_inputs_ends_soon_in_little_memory_and_keeps_the_rules(string name)
    {
        ReaderReport report = ReaderProcess.Run(name, Inputs, MostSeconds, Seed, keep: null);

        TestContext.Current.TestOutputHelper!.WriteLine(ReaderTable.Head + "\n" + ReaderTable.Row(report));
        Assert.True(report.IsClean, string.Join('\n', report.Found));
        Assert.True(report.Inputs >= Inputs, $"only {report.Inputs} inputs in {report.ProcessorS:0} s");
        Assert.True(report.Edges > 100, $"only {report.Edges} edges: the code is not instrumented");

        // The more the corpus knows, the fewer are new: 13 of 361 inputs for elevation files.
        Assert.True(report.Paths > 0, "no changed input took a new path");
    }
}
