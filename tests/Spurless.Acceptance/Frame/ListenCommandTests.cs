using System.Buffers.Binary;
using System.Text;
using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

public class ListenCommandTests
{
    private const string Meta = """
        { "global": { "core:datatype": "ci8", "core:version": "1.2.5", "core:sample_rate": 48000 },
          "captures": [ { "core:sample_start": 0, "core:frequency": 145050000 } ], "annotations": [] }
        """;

    /// <summary>The invented demo's recording leads to the mixture that its generator mixed: 466.1 - 2 x 160.525.</summary>
    [Fact]
    public async Task Listen_demo_leads_to_the_mixture_that_was_made()
    {
        using WorkFolder folder = new();
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            "listen", Repository.PathOf("demo", "recordings", "warble.wav"), "--site", Repository.PathOf("demo", "quernmoss.site.yaml"),
            "--log", folder["out.log.csv"], "--format", "json");
        Assert.Equal((0, ""), (status, error));
        using JsonDocument json = JsonDocument.Parse(output);
        JsonElement first = json.RootElement.GetProperty("fits")[0];
        Assert.Equal(
            [("regional paging", 1), ("waterworks base", -2)],
            first
                .GetProperty("terms")
                .EnumerateArray()
                .Select(static t => (t.GetProperty("emitter").GetString()!, t.GetProperty("coefficient").GetInt32()))
                .Order());
        Assert.True(first.GetProperty("probability").GetDouble() > 0.8);
        string[] log = await File.ReadAllLinesAsync(folder["out.log.csv"]);
        Assert.Contains("time,repeater input", log);
        Assert.EndsWith(",", log[^1], StringComparison.Ordinal);
    }

    /// <summary>The invented minute of a band, its log and its site lead 'locate' to what the generator mixed.</summary>
    [Fact]
    public async Task Listen_band_of_the_demo_leads_locate_to_the_mixture_that_was_made()
    {
        using WorkFolder folder = new();
        string site = Repository.PathOf("demo", "valley-link.site.yaml");
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            "listen", Repository.PathOf("demo", "recordings", "valley-minute.sigmf-meta"), "--site", site,
            "--log", folder["heard.log.csv"]);
        Assert.Equal((0, ""), (status, error));
        Assert.Contains("20:15:23.0", output, StringComparison.Ordinal);
        Assert.Contains(
            "time,link receiver,club repeater,packet node,alarm pager", await File.ReadAllLinesAsync(folder["heard.log.csv"]));
        await File.WriteAllTextAsync(
            folder["heard.site.yaml"], await File.ReadAllTextAsync(site) + "evidence:\n  - log: heard.log.csv\n");
        (status, output, error) = await CapturedTerminal.RunAsync("locate", folder["heard.site.yaml"]);
        Assert.Equal((0, ""), (status, error));
        Assert.Contains("2 x 145.1750 - 145.1500, made in this receiver", output.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Contains("sole source is not: alarm pager", output.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Listen_text_begins_with_the_answer_and_ends_with_the_caution()
    {
        (_, string output, _) = await CapturedTerminal.RunAsync("listen", Repository.PathOf("demo", "recordings", "warble.wav"));
        Assert.StartsWith("One transmission in 24.0 s: paging, 1200 bit/s", output, StringComparison.Ordinal);
        Assert.Contains("never what it says or for whom", output.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    public static TheoryData<string, string> Wrong => new()
    {
        { "none.wav", "there is no such file" },
        { "empty.wav", "the file is empty" },
        { "letter.wav", "this is no WAV" },
        { "without.sigmf-meta", "without.sigmf-data" },
        { "hash.sigmf-meta", "the sha512 here is not that of the samples" },
        { "centre.sigmf-meta", "frequency in the middle" },
        { "huge.wav", "1000000000 samples a second" },
    };

    /// <summary>Each says what is wrong and what to do, with status 1, and nothing on standard output.</summary>
    [Theory]
    [MemberData(nameof(Wrong))]
    public async Task Listen_what_is_no_recording_says_what_to_do(string name, string says)
    {
        using WorkFolder folder = new();
        await File.WriteAllBytesAsync(folder["empty.wav"], []);
        await File.WriteAllTextAsync(folder["letter.wav"], "Dear operator, there is a warble on the repeater's input. Yours.");
        await File.WriteAllTextAsync(folder["without.sigmf-meta"], Meta);
        await File.WriteAllTextAsync(
            folder["hash.sigmf-meta"],
            Meta.Replace("48000 }", $"48000, \"core:sha512\": \"{new string('a', 128)}\" }}", StringComparison.Ordinal));
        await File.WriteAllBytesAsync(folder["hash.sigmf-data"], new byte[4_000]);
        await File.WriteAllTextAsync(
            folder["centre.sigmf-meta"], Meta.Replace(", \"core:frequency\": 145050000", "", StringComparison.Ordinal));
        await File.WriteAllBytesAsync(folder["centre.sigmf-data"], new byte[4_000]);
        await File.WriteAllBytesAsync(folder["huge.wav"], Wav(1_000_000_000));

        (int status, string output, string error) = await CapturedTerminal.RunAsync("listen", folder[name]);

        Assert.Equal((1, ""), (status, output));
        Assert.Contains(says, error, StringComparison.Ordinal);
        Assert.Contains("; ", error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Listen_cut_short_uses_what_is_there_and_says_so()
    {
        using WorkFolder folder = new();
        byte[] whole = await File.ReadAllBytesAsync(Repository.PathOf("demo", "recordings", "warble.wav"));
        await File.WriteAllBytesAsync(folder["cut.wav"], whole[..^100_001]);
        (int status, string output, string error) = await CapturedTerminal.RunAsync("listen", folder["cut.wav"]);
        Assert.Equal(0, status);
        Assert.Contains("paging, 1200 bit/s", output, StringComparison.Ordinal);
        Assert.Contains("cut.wav: ", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Listen_receiver_without_a_site_is_a_mistake()
    {
        (int status, _, string error) = await CapturedTerminal.RunAsync("listen", "x.wav", "--receiver", "input");
        Assert.Equal(2, status);
        Assert.Contains("give --site too", error, StringComparison.Ordinal);
    }

    private static byte[] Wav(uint rate)
    {
        byte[] file = new byte[144];
        Encoding.ASCII.GetBytes("RIFF\0\0\0\0WAVEfmt ").CopyTo(file, 0);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(4), 136);
        file[16] = 16;
        (file[20], file[22], file[32], file[34]) = (1, 1, 2, 16);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(24), rate);
        Encoding.ASCII.GetBytes("data").CopyTo(file, 36);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(40), 100);
        return file;
    }
}
