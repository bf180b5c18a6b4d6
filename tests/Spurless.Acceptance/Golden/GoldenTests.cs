using System.Globalization;
using System.Text;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Golden;

/// <summary>Files are named as from the root of the repository, so the process' folder is moved: nothing else may run meanwhile.</summary>
[CollectionDefinition("in the root's folder", DisableParallelization = true)]
public class RootFolder;

/// <summary>
/// Every command over the demonstration and the test files writes what it wrote before, byte for byte. REGRESSION, no evidence.
/// </summary>
[Collection("in the root's folder")]
public class GoldenTests
{
    private static readonly string Folder = Repository.PathOf("tests", "data", "golden");

    [Fact]
    public async Task Commands_over_demo_and_test_files_write_what_they_wrote_before()
    {
        string[][] rows = [.. (await File.ReadAllLinesAsync(Path.Combine(Folder, "commands.txt"))).Select(static l => l.Split('\t'))];
        Assert.True(rows.Length > 250, "the list of commands has been cut short");
        bool accept = Environment.GetEnvironmentVariable("SPURLESS_ACCEPT") == "1";
        string received = Path.Combine(AppContext.BaseDirectory, "received");
        List<string> differ = [];
        string before = Environment.CurrentDirectory;
        Environment.CurrentDirectory = Repository.Root;
        try
        {
            foreach (string[] row in rows)
            {
                string expected = Path.Combine(Folder, row[0] + ".txt");
                byte[] now = await Written(row[1]);
                if (accept)
                {
                    await File.WriteAllBytesAsync(expected, now);
                }
                else if (!(await File.ReadAllBytesAsync(expected)).SequenceEqual(now))
                {
                    Directory.CreateDirectory(received);
                    await File.WriteAllBytesAsync(Path.Combine(received, row[0] + ".txt"), now);
                    differ.Add(row[0]);
                }
            }
        }
        finally
        {
            Environment.CurrentDirectory = before;
        }

        Assert.True(
            differ.Count == 0,
            $"{differ.Count} of {rows.Length} differ; what was received lies in {received}: {string.Join(", ", differ)}");
    }

    [Fact]
    public async Task Golden_files_and_their_list_belong_together()
    {
        string[] listed = [.. (await File.ReadAllLinesAsync(Path.Combine(Folder, "commands.txt"))).Select(static l => l.Split('\t')[0])];
        string[] kept =
        [
            .. Directory.GetFiles(Folder, "*.txt")
                .Select(static f => Path.GetFileNameWithoutExtension(f))
                .Where(static n => n != "commands"),
        ];
        Assert.Equal(listed.Order(StringComparer.Ordinal), kept.Order(StringComparer.Ordinal));
    }

    private static async Task<byte[]> Written(string line)
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync(CommandLineWords.Of(line));
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"status {status}\n");
        if (error.Length > 0)
        {
            text.Append("--- error\n").Append(error);
        }

        return Encoding.UTF8.GetBytes(text.Append("--- output\n").Append(output).ToString());
    }
}
