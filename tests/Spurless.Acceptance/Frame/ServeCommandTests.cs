using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

public sealed class ServeCommandTests
{
    [Fact]
    public async Task Port_that_is_taken_is_told_in_one_line_and_is_no_fault_of_the_program()
    {
        using WorkFolder folder = new();
        using TcpListener taken = new(IPAddress.Loopback, 0);
        taken.Start();
        int port = ((IPEndPoint)taken.LocalEndpoint).Port;
        Ended ended = await BuiltProgram.RunAsync(
            folder.Path, "serve", ".", "--no-browser", "--port", port.ToString(System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(2, ended.Status);
        Assert.StartsWith($"spurless: --port: {port} cannot be used (", ended.Error, StringComparison.Ordinal);
        Assert.Single(ended.Error.TrimEnd('\n').Split('\n'));
    }

    /// <summary>The second run of one folder does not write to it beside the first: it tells where the first is, and ends.</summary>
    [Fact]
    public async Task Second_run_of_a_folder_tells_where_the_first_is_and_a_killed_one_holds_nothing()
    {
        using WorkFolder folder = new();
        string left = folder[$".a.site.yaml.{new string('0', 16)}.saving"];
        File.WriteAllText(left, "half");
        File.SetLastWriteTimeUtc(left, DateTime.UtcNow.AddHours(-1));
        string kept = folder[$".b.site.yaml.{new string('1', 16)}.kept"];
        File.WriteAllText(kept, "whole");

        using Process first = BuiltProgram.Start(folder.Path, "serve", ".", "--no-browser", "--port", "0");
        string address = (await first.StandardOutput.ReadLineAsync())!["listening on ".Length..];
        Assert.Equal(
            "spurless: 1 half-written file of a run that was ended while it saved cleared away", await first.StandardError.ReadLineAsync());
        Assert.StartsWith($"spurless: '{Path.GetFileName(kept)}' holds a whole text", await first.StandardError.ReadLineAsync());
        Assert.False(File.Exists(left));
        Assert.True(File.Exists(kept));
        Ended second = await BuiltProgram.RunAsync(folder.Path, "serve", folder.Path, "--no-browser");
        Assert.Equal(
            new Ended(0, "", $"spurless: this folder is open already at {address}; that run goes on, this one ends\n"), second);

        first.Kill();
        await first.WaitForExitAsync();
        using Process third = BuiltProgram.Start(folder.Path, "serve", ".", "--no-browser", "--port", "0", "--quiet");
        Assert.StartsWith("listening on ", await third.StandardOutput.ReadLineAsync());
        third.Kill();
        await third.WaitForExitAsync();
    }

    /// <summary>
    /// The command line of the browser can be read by every user of the machine: it does not hold the key, and what it holds lets in once.
    /// </summary>
    [Fact]
    public async Task Browser_is_opened_with_a_word_that_lets_in_once()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "The opener of other systems cannot be played by a script.");
        using WorkFolder folder = new();
        using Wrapper.FakePath path = new(null);
        string part = folder["opened.part"];
        path.Add("xdg-open", $"#!/bin/bash\nprintf '%s' \"$1\" > '{part}' && mv '{part}' '{folder["opened"]}'\n");
        string dotnet = Environment.ProcessPath is { } host && Path.GetFileName(host) == "dotnet" ? host : FindDotnet();
        using Process process = BuiltProgram.StartAny(
            folder.Path, dotnet, [Path.Combine(AppContext.BaseDirectory, "spurless.dll"), "serve", ".", "--port", "0"], path.Environment);
        try
        {
            Uri printed = new((await process.StandardOutput.ReadLineAsync())!["listening on ".Length..]);
            Stopwatch patience = Stopwatch.StartNew();
            while (!File.Exists(folder["opened"]))
            {
                Assert.True(patience.Elapsed < TimeSpan.FromMinutes(1), "no browser was opened");
                await Task.Delay(50, TestContext.Current.CancellationToken);
            }

            Uri opened = new(File.ReadAllText(folder["opened"]));
            Assert.Equal(printed.Authority, opened.Authority);
            Assert.DoesNotContain(printed.Query["?key=".Length..], opened.AbsoluteUri, StringComparison.Ordinal);
            using HttpClient client = new(new SocketsHttpHandler { AllowAutoRedirect = false, UseProxy = false, UseCookies = false });
            List<HttpStatusCode> answers = [];
            foreach (Uri address in (Uri[])[opened, opened, printed, printed])
            {
                using HttpResponseMessage answer = await client.GetAsync(address, TestContext.Current.CancellationToken);
                answers.Add(answer.StatusCode);
            }

            Assert.Equal([HttpStatusCode.SeeOther, HttpStatusCode.Forbidden, HttpStatusCode.SeeOther, HttpStatusCode.SeeOther], answers);
        }
        finally
        {
            process.Kill();
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        }
    }

    private static string FindDotnet() => Environment.GetEnvironmentVariable("PATH")!.Split(Path.PathSeparator)
        .Select(static folder => Path.Combine(folder, "dotnet")).First(File.Exists);
}
