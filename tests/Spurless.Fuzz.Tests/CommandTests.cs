using System.Text.RegularExpressions;
using Spurless.Fuzz.Commands;
using Spurless.Fuzz.Running;

namespace Spurless.Fuzz.Tests;

/// <summary>Runs while nothing else of the process does: the processor time of all of it is what tells how soon a command stops.</summary>
[CollectionDefinition(nameof(CommandsAlone), DisableParallelization = true)]
public sealed class CommandsAlone;

[Collection(nameof(CommandsAlone))]
public class CommandTests
{
    private const int Many = 120;

    [Fact]
    public async Task Commands_answer_random_sites_and_circuits()
    {
        using CommandRun run = new(seed: 5);
        CommandReport report = await run.RunAsync(sites: 25, circuits: 25);

        Assert.True(report.Found.Count == 0, string.Join('\n', report.Found));
        Assert.True(report.Commands > 190, $"{report.Commands} commands");
        Assert.True(report.Refused < report.Commands / 5, CommandsCommand.Words(report));
    }

    [Fact]
    [Trait("Category", "Long")]
    public async Task Commands_answer_many_random_sites_and_circuits_and_stop_when_asked()
    {
        using CommandRun run = new(seed: 17);
        CommandReport report = await run.RunAsync(Many, Many);

        TestContext.Current.TestOutputHelper!.WriteLine(CommandsCommand.Words(report));
        Assert.True(report.Found.Count == 0, string.Join('\n', report.Found));
        Assert.True(report.Refused < report.Commands / 5, CommandsCommand.Words(report));

        // One in ten is asked to stop; on a quiet machine about half of those have ended before.
        Assert.True(report.Stopped > report.Commands / 50, CommandsCommand.Words(report));
    }

    [Theory]
    [InlineData("json", "{ \"a\": 1", "no JSON")]
    [InlineData("json", "{ \"a\": \"NaN\" }", "'NaN' in the output")]
    [InlineData("csv", "a,b\n1,-Infinity\n", "'-Infinity' in the output")]
    [InlineData("text", "all is well", null)]
    public void Problem_sees_what_is_wrong(string format, string output, string? expected)
    {
        Screen screen = new();
        screen.OutputStream.Write(System.Text.Encoding.UTF8.GetBytes(output));
        string? problem = CommandRun.Problem(["study", "x", "--format", format], 0, screen, mayStop: false);

        Assert.True(expected is null ? problem is null : Regex.IsMatch(problem!, Regex.Escape(expected)), problem);
    }

    [Fact]
    public void Problem_sees_a_fault_of_the_program()
    {
        Screen screen = new();
        screen.Error.WriteLine("spurless: this is a fault of the program (X): y");

        Assert.NotNull(CommandRun.Problem(["check", "x"], 3, screen, mayStop: true));
        Assert.NotNull(CommandRun.Problem(["check", "x"], 130, new Screen(), mayStop: false));
        Assert.Null(CommandRun.Problem(["check", "x"], 130, new Screen(), mayStop: true));
    }
}
