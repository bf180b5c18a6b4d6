using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Spurless.Acceptance.House.Toy;
using Spurless.Acceptance.Running;
using Spurless.CommandLine;

namespace Spurless.Acceptance.House;

/// <summary>
/// The example of docs/architecture.md: a command with its page is one question, one answer, one service, one parser, one writer.
/// </summary>
public class ToyTests
{
    // 0.66 x 299,792,458 m/s over 4 x 145.05 MHz; by hand.
    private const double LengthM = 0.66 * 299_792_458 / (4 * 145.05e6);

    [Fact]
    public async Task Command_and_page_say_the_same()
    {
        string sentence = string.Create(CultureInfo.InvariantCulture, $"A quarter wave of 145.05 MHz is {LengthM:0.000} m long.");
        Assert.Equal((ExitStatus.Done, sentence + "\n"), await Run("--at", "145.05 MHz"));
        Assert.Contains($"<h1>{sentence}</h1>", await Page("145.05 MHz"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Command_writes_json()
    {
        (int status, string text) = await Run("--at", "145.05 MHz", "--format", "json");
        Assert.Equal(ExitStatus.Done, status);
        Assert.Equal(LengthM, JsonDocument.Parse(text).RootElement.GetProperty("length_m").GetDouble(), 1e-6);
    }

    [Fact]
    public async Task What_is_wrong_is_a_value_on_the_page_and_a_usage_error_on_the_command_line()
    {
        Assert.Contains("role=\"alert\"", await Page("145.05"), StringComparison.Ordinal);
        UsageException wrong = await Assert.ThrowsAsync<UsageException>(() => Run("--at", "145.05 MHz", "--velocity", "2"));
        Assert.Equal("no wave travels at 2 of the speed of light; write a share such as 0.66", Assert.Single(wrong.Findings));
    }

    private static async Task<(int Status, string Output)> Run(params string[] args)
    {
        CapturedTerminal terminal = new();
        InvocationConfiguration plain = new() { EnableDefaultExceptionHandler = false };
        int status = await QuarterWaveCommand.Create(terminal).Parse(args).InvokeAsync(plain, TestContext.Current.CancellationToken);
        return (status, terminal.OutputText);
    }

    private static async Task<string> Page(string at)
    {
        await using ServiceProvider services = new ServiceCollection().BuildServiceProvider();
        await using HtmlRenderer renderer = new(services, NullLoggerFactory.Instance);
        ParameterView given = ParameterView.FromDictionary(new Dictionary<string, object?> { [nameof(QuarterWavePage.At)] = at });
        return await renderer.Dispatcher.InvokeAsync(async () =>
            (await renderer.RenderComponentAsync<QuarterWavePage>(given)).ToHtmlString());
    }
}
