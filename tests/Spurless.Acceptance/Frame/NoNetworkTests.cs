using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary>
/// The program asks nothing of any network: in a namespace that has no interface but the loopback, and no route, it does what it does
/// elsewhere. Where the machine allows no such namespace there is nothing to hold, and the test says so.
/// </summary>
public class NoNetworkTests
{
    private const string Unshare = "unshare";

    [Theory]
    [InlineData("study demo/quernmoss.site.yaml --format json")]
    [InlineData("study demo/quernmoss.site.yaml --format html")]
    [InlineData("response demo/filters/three-tank.circuit.yaml --format html")]
    [InlineData("check demo/quernmoss.site.yaml")]
    public async Task Command_without_a_network_writes_what_it_writes_with_one(string line)
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        if (!await IsAllowedAsync(folder))
        {
            return;
        }

        string[] words = BuiltProgram.Split(line);
        Ended usual = await BuiltProgram.RunAsync(folder.Path, words);
        Ended alone = await BuiltProgram.RunAsync(
            folder.Path, Unshare, ["-rn", "dotnet", Path.Combine(AppContext.BaseDirectory, "spurless.dll"), .. words]);
        Assert.True(usual.Status == 0, usual.Error);
        Assert.Equal(usual.Status, alone.Status);
        Assert.Equal(usual.Error, alone.Error);
        Assert.Equal(WithoutDate(usual.Output), WithoutDate(alone.Output));
    }

    [Fact]
    public async Task Serve_without_a_network_serves_its_pages()
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        if (!await IsAllowedAsync(folder))
        {
            return;
        }

        // Within the namespace: the loopback is brought up, the program started, its pages asked for by their printed address.
        const string Script = """
            ip link set lo up || exit 90
            [ -z "$(ip route)" ] || exit 91
            dotnet "$1" serve demo --no-browser --port 0 > told 2> errors &
            server=$!
            for i in $(seq 600); do [ -s told ] && break; sleep 0.1; done
            address=$(sed 's/^listening on //' told)
            curl -sSL --noproxy '*' -c jar -b jar "$address" > page.html && \
            curl -sS --noproxy '*' -b jar "${address%%\?*}study/quernmoss.site.yaml" > study.html
            status=$?
            kill -TERM $server; wait $server
            exit $status
            """;
        Ended ended = await BuiltProgram.RunAsync(
            folder.Path, Unshare, ["-rn", "bash", "-c", Script, "bash", Path.Combine(AppContext.BaseDirectory, "spurless.dll")]);
        Assert.True(ended.Status == 0, ended.Status + ended.Error);
        Assert.Contains("quernmoss.site.yaml", File.ReadAllText(folder["page.html"]), StringComparison.Ordinal);
        Assert.Contains("145.05", File.ReadAllText(folder["study.html"]), StringComparison.Ordinal);
        Assert.Equal("spurless: stopped\n", File.ReadAllText(folder["errors"]));
    }

    private static async Task<bool> IsAllowedAsync(WorkFolder folder)
    {
        bool allowed = false;
        if (OperatingSystem.IsLinux())
        {
            try
            {
                allowed = (await BuiltProgram.RunAsync(folder.Path, Unshare, ["-rn", "bash", "-c", "ip link set lo up && command -v curl"]))
                    .Status == 0;
            }
            catch (System.ComponentModel.Win32Exception)
            {
                // There is no such tool.
            }
        }

        TestContext.Current.TestOutputHelper?.WriteLine(allowed ? "run in a namespace of its own" : "no namespace can be made here");
        return allowed;
    }

    // The reports say when they were made.
    private static string WithoutDate(string text) =>
        System.Text.RegularExpressions.Regex.Replace(text, @"\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d)?Z?", "", default, TimeSpan.FromSeconds(5));
}
