using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

public class UsageTests
{
    [Fact]
    public async Task Run_no_words_shows_the_commands_as_a_usage_error()
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync();
        Assert.Equal(2, status);
        Assert.Empty(output);
        Assert.Contains("  mix ", error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("'mxi' is not a command; did you mean mix?", "mxi")]
    [InlineData("'nonsense' is not a command; 'spurless --help' lists them", "nonsense")]
    [InlineData("'--channle' is not an option of mix; did you mean --channel?", "mix", "145", "--of", "1,2", "--channle", "1")]
    [InlineData("--format stands where no option is read; write it after 'spurless mix', its value behind it\n  spurless mix",
        "--format", "json", "mix", "145", "--of", "1")]
    [InlineData("--quiet stands where no option is read; write it after 'spurless mix'\n  spurless mix",
        "--quiet", "mix", "145", "--of", "1")]
    [InlineData("--at: '145,05 MHz' has a comma in the number, or no unit at the first of two frequencies; write 145.05 MHz, or a unit",
        "response", "a.circuit.yaml", "--at", "145,05 MHz")]
    [InlineData("--at: '145' has no unit; write 145 MHz", "response", "a.circuit.yaml", "--at", "145, MHz")]
    [InlineData("--latitude: '40,5' cannot be read, or is out of range; write degrees from -90 to 90 such as 48.59",
        "path", "--profile", "a.csv", "--latitude", "40,5")]
    [InlineData("--floor: 'low' cannot be read, or is out of range; write a level like -150, or none", "study", "a", "--floor", "low")]
    [InlineData("mix needs FREQUENCY", "mix", "--of", "1,2")]
    [InlineData("--of needs F1,F2,...", "mix", "145")]
    [InlineData("--of needs F1,F2,...", "mix", "145", "--of")]
    [InlineData("--of is given more than once; write it once", "mix", "145", "--of", "1", "--of", "2")]
    [InlineData("'7' is one word too many; put a value with spaces in quotation marks", "mix", "145", "7", "--of", "1")]
    [InlineData("'spurless register near --help' explains it", "register", "near", "a.site.yaml", "--form", "db")]
    [InlineData("'spurless register near --help' lists them", "register", "near", "a.site.yaml", "--from", "db", "--nonsense")]
    [InlineData("'xml' is no format here; write text, json or csv", "mix", "145", "--of", "1", "--format", "xml")]
    [InlineData("--channel: '12.5' has no unit; write 12.5 kHz", "mix", "145", "--of", "1", "--channel", "12.5")]
    [InlineData("--of: there is a comma with no frequency beside it", "mix", "145", "--of", "1,,2")]
    [InlineData("FREQUENCY: '0' is no carrier", "mix", "0", "--of", "1")]
    [InlineData("FREQUENCY: '-5' is no carrier", "mix", "-5", "--of", "1")]
    [InlineData("'1e30 MHz' is too high", "mix", "145", "--of", "1e30")]
    [InlineData("'145.0500001 MHz' is finer than 1 Hz", "mix", "145.0500001", "--of", "1")]
    [InlineData("--orders: '7-2' is no range of orders", "mix", "145", "--of", "1", "--orders", "7-2")]
    [InlineData("--signals: '10' is no number of transmitters", "mix", "145", "--of", "1", "--signals", "10")]
    [InlineData("--out is empty; write its value, or leave it out", "mix", "145", "--of", "1", "--out", "")]
    [InlineData("'--out' reads as the next option; write the value after --channel", "mix", "145", "--of", "1", "--channel", "--out")]
    public async Task Run_faulty_command_line_says_what_to_write(string says, params string[] args)
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync(args);
        Assert.Equal(2, status);
        Assert.Empty(output);
        Assert.Contains(says, error, StringComparison.Ordinal);
        Assert.Contains("--help", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_of_thousands_of_faulty_words_tells_the_first_twenty_and_how_many_more()
    {
        string[] words = [.. Enumerable.Range(0, 10_000).Select(static i => FormattableString.Invariant($"file {i}.s2p"))];
        (int status, string output, string error) = await CapturedTerminal.RunAsync(["mix", "145", "--of", "1", .. words]);
        Assert.Equal(2, status);
        Assert.Empty(output);
        string[] lines = error.TrimEnd().Split('\n');
        Assert.Equal("spurless: 'file 0.s2p' is one word too many; put a value with spaces in quotation marks", lines[0]);
        Assert.StartsWith("spurless: 'file 19.s2p'", lines[19], StringComparison.Ordinal);
        Assert.Equal("spurless: and 9980 more", lines[20]);
        Assert.EndsWith("'spurless mix --help' explains it, with an example.", lines[^1], StringComparison.Ordinal);
        Assert.InRange(lines.Length, 22, 23);
    }

    [Fact]
    public async Task Run_several_faults_are_told_at_once()
    {
        (_, _, string error) = await CapturedTerminal.RunAsync("mix", "0", "--of", "1", "--orders", "1", "--signals", "0");
        Assert.Contains("FREQUENCY:", error, StringComparison.Ordinal);
        Assert.Contains("--orders:", error, StringComparison.Ordinal);
        Assert.Contains("--signals:", error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("@file", "mix", "@file", "--of", "1")] // no response files: the word is taken as it stands
    [InlineData("-of", "mix", "145", "-of", "1")] // no bundles of letters
    public async Task Run_parser_conveniences_that_surprise_are_off(string word, params string[] args)
    {
        (int status, _, string error) = await CapturedTerminal.RunAsync(args);
        Assert.Equal(2, status);
        Assert.Contains(word, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_control_characters_do_not_reach_the_terminal()
    {
        (_, _, string error) = await CapturedTerminal.RunAsync("\u001b[2Jmix");
        Assert.DoesNotContain("\u001b", error, StringComparison.Ordinal);
    }
}
