using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Processors;

/// <summary>
/// A result has the same bytes whatever vector instructions the processor has: the runtime's own switches take them away. They take away
/// the fused multiply-add too, which is then done without the processor's, to the same bits.
/// </summary>
public class SameBytesTests
{
    private static readonly string[][] Switches =
    [
        ["DOTNET_EnableAVX512"],
        ["DOTNET_EnableAVX2"],
        ["DOTNET_EnableAVX"],
        ["DOTNET_EnableHWIntrinsic"],
        ["DOTNET_EnableAVX2", "DOTNET_TieredPGO", "DOTNET_TieredCompilation"],
    ];

    private static readonly string[] Quick =
    [
        "response demo/filters/three-tank.circuit.yaml --format json",
        "tolerance demo/filters/three-tank.circuit.yaml --samples 400 --format json",
        "study demo/quernmoss.site.yaml --format json",
    ];

    // Worked examples that need a file which another makes, or whose result holds the time.
    private static readonly string[] NoComparison = ["new ", "register ", "near ", "screen ", "check ", "schema "];

    [Fact]
    public Task Commands_of_the_demo_write_the_same_bytes_without_the_wider_instructions() =>
        CompareAsync(Quick, [["DOTNET_EnableAVX2"], ["DOTNET_EnableHWIntrinsic"]]);

    /// <summary>
    /// The worked examples of all commands, as JSON where they have it: all digits of every figure. Some take long without the wider
    /// instructions, so all switches are tried on the quick ones only.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public async Task Worked_examples_of_all_commands_write_the_same_bytes_whatever_the_processor_has()
    {
        await CompareAsync(Quick, Switches);
        await CompareAsync(
            [
                .. CommandList.Lines(runOn: false)
                    .Where(static l => !NoComparison.Any(n => l.StartsWith(n, StringComparison.Ordinal)))
                    .Where(static l => !l.Contains("--out", StringComparison.Ordinal))
                    .Where(static l => !l.Contains("--format html", StringComparison.Ordinal)),
            ],
            [["DOTNET_EnableAVX2"]]);
    }

    private static async Task CompareAsync(IReadOnlyList<string> lines, string[][] without)
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        List<string> differ = [];
        foreach (string line in lines)
        {
            string[] words = BuiltProgram.Split(line);
            Ended usual = await RunAsync(folder, words, []);
            Assert.True(usual.Status == 0, $"{line}: {usual.Error}");
            foreach (string[] switches in without)
            {
                Ended other = await RunAsync(folder, words, switches);
                if (other != usual)
                {
                    string first = FirstDifference(usual.Output, other.Output);
                    differ.Add($"{line} without {string.Join(", ", switches)}: {first} {other.Error}");
                }
            }
        }

        Assert.True(lines.Count >= Quick.Length && differ.Count == 0, string.Join('\n', differ));
    }

    private static Task<Ended> RunAsync(WorkFolder folder, string[] words, string[] switches) => BuiltProgram.RunAsync(
        folder.Path,
        "dotnet",
        [Path.Combine(AppContext.BaseDirectory, "spurless.dll"), .. words],
        switches.ToDictionary(static s => s, static _ => (string?)"0"));

    private static string FirstDifference(string one, string other)
    {
        int at = one.AsSpan().CommonPrefixLength(other);
        int from = Math.Max(0, at - 30);
        return $"'{one.AsSpan(from, Math.Min(60, one.Length - from))}' and '{other.AsSpan(from, Math.Min(60, other.Length - from))}'";
    }
}
