using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Documents;

/// <summary>What README and docs show is what the program prints.</summary>
public class ExampleTests
{
    public static TheoryData<string> Places => [.. ConsoleBlocks.All.Select(static e => $"{e.File}:{e.Line}")];

    [Fact]
    public void Readme_has_examples() => Assert.Contains(ConsoleBlocks.All, static e => e.File == "README.md");

    [Theory]
    [MemberData(nameof(Places))]
    public async Task Example_of_a_document_prints_what_is_shown(string place)
    {
        ConsoleExample example = ConsoleBlocks.All.Single(e => $"{e.File}:{e.Line}" == place);
        using WorkFolder folder = WorkFolder.WithDemo();
        Ended ended = await BuiltProgram.RunAsync(folder.Path, BuiltProgram.Split(example.Command));
        Assert.True(ended.Status == 0, ended.Error);
        AssertShown(example.Shown, ended.Output.TrimEnd('\n').Split('\n'));
    }

    // Shown lines must follow each other in the output; only a line '...' lets others stand between.
    private static void AssertShown(IReadOnlyList<string> shown, string[] printed)
    {
        int at = 0;
        bool skipping = false;
        foreach (string line in shown)
        {
            if (line == "...")
            {
                skipping = true;
                continue;
            }

            int found = skipping ? Array.IndexOf(printed, line, at) : at < printed.Length && printed[at] == line ? at : -1;
            Assert.True(found >= 0, $"'{line}' is not printed there; printed is\n{string.Join('\n', printed)}");
            at = found + 1;
            skipping = false;
        }

        Assert.True(
            shown.Count == 0 || skipping || at == printed.Length, $"more is printed than shown:\n{string.Join('\n', printed.Skip(at))}");
    }
}
