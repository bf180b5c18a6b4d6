using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary>The command <c>cure</c> as a user meets it.</summary>
public sealed class CureCommandTests
{
    private static Task<Ended> Run(WorkFolder folder, string line) => BuiltProgram.RunAsync(folder.Path, BuiltProgram.Split(line));

    [Fact]
    public async Task Cure_applied_to_a_copy_is_quiet_keeps_comments_and_leaves_the_site_file_alone()
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        string site = Path.Combine(folder.Path, "demo", "quernmoss.site.yaml");
        string before = await File.ReadAllTextAsync(site, TestContext.Current.CancellationToken);
        Ended ended = await Run(folder, "cure demo/quernmoss.site.yaml --apply 1 --out demo/quiet.site.yaml --format json");

        Assert.True(ended.Status == 0, ended.Error);
        JsonElement first = JsonDocument.Parse(ended.Output).RootElement.GetProperty("receivers")[0].GetProperty("cures")[0];
        Assert.Equal((1, 0), (first.GetProperty("rank").GetInt32(), first.GetProperty("harmful_left").GetInt32()));
        Assert.Equal(before, await File.ReadAllTextAsync(site, TestContext.Current.CancellationToken));
        string after = await File.ReadAllTextAsync(
            Path.Combine(folder.Path, "demo", "quiet.site.yaml"), TestContext.Current.CancellationToken);
        foreach (string line in before.Split('\n').Where(static l => l.Contains('#', StringComparison.Ordinal)))
        {
            Assert.Contains(line[line.IndexOf('#', StringComparison.Ordinal)..], after, StringComparison.Ordinal);
        }

        Ended study = await Run(folder, "study demo/quiet.site.yaml --format json");
        JsonElement receiver = JsonDocument.Parse(study.Output).RootElement.GetProperty("receivers")[0];
        JsonElement[] products = [.. receiver.GetProperty("products").EnumerateArray()];
        Assert.DoesNotContain(products, static p => p.GetProperty("verdict").GetString() == "harmful");
        Assert.Equal(
            first.GetProperty("worst_over_noise_db").GetDouble(),
            products.Max(static p => p.GetProperty("over_noise_db").GetDouble()), 6);
    }

    /// <summary>Our own transmitter ten metres off, without a duplexer, blocks the receiver whatever is done about the mixture.</summary>
    [Fact]
    public async Task Cure_of_the_mixtures_alone_does_not_claim_to_end_what_else_is_wrong()
    {
        using WorkFolder folder = new();
        File.WriteAllText(
            folder["a.site.yaml"],
            """
            spurless: 1
            site: knoll (invented)
            receivers:
              - { name: input, frequency: 145.1 MHz, channel: 12.5 kHz, sensitivity: 0.2 uV pd, iip3: -12 dBm }
            emitters:
              - { name: own, frequency: 145.7 MHz, emission: 11K2F3E, power: 25 W, distance: 10 m, follows: input }
              - { name: pager, frequency: 153.35 MHz, emission: 16K0F1D, level: -20 dBm }
              - { name: taxi, frequency: 161.6 MHz, emission: 11K2F3E, level: -40 dBm }
            """);
        Ended ended = await Run(folder, "cure a.site.yaml");

        string flowing = string.Join(' ', ended.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("This ends the mixtures: ", flowing, StringComparison.Ordinal);
        Assert.Contains("but one harmful cause that is no mixture stays, see the study", flowing, StringComparison.Ordinal);
        Assert.DoesNotContain("ends it", flowing, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("cure demo/quernmoss.site.yaml --apply 900", "site.yaml:0:0: there is no way 900 in the list; write 1 to ", 1)]
    [InlineData("cure demo/quernmoss-cured.site.yaml --apply 1", "nothing is to be cured here; leave --apply away", 1)]
    [InlineData("cure demo/quernmoss.site.yaml --receiver nobody", "there is no receiver named 'nobody'; name one of: repeater input", 1)]
    [InlineData("cure demo/quernmoss.site.yaml --apply 1 --out other.site.yaml", "write a name in the site file's own folder", 1)]
    [InlineData("cure demo/quernmoss.site.yaml --apply none", "'none' is no rank of the list; write a number from 1 on", 2)]
    [InlineData("cure nowhere.site.yaml", "nowhere.site.yaml:0:0: there is no such file", 1)]
    public async Task Cure_that_cannot_be_says_what_to_write_instead(string line, string words, int status)
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        Ended ended = await Run(folder, line);

        Assert.Contains(words, ended.Error, StringComparison.Ordinal);
        Assert.Equal(status, ended.Status);
        Assert.Equal("", ended.Output);
    }

    // The ways of 'cure' in the study's own text and page, and which one was chosen; a study that was not asked for them has none.
    [Fact]
    public async Task Study_with_ways_holds_the_best_of_cure_and_the_one_chosen()
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        Ended cure = await Run(folder, "cure demo/quernmoss.site.yaml --format json");
        string second = JsonDocument.Parse(cure.Output).RootElement.GetProperty("receivers")[0].GetProperty("cures")[1]
            .GetProperty("what").GetString()!;
        Ended text = await Run(folder, "study demo/quernmoss.site.yaml --ways --chosen 2");
        Ended plain = await Run(folder, "study demo/quernmoss.site.yaml");

        Assert.Equal(0, text.Status);
        string flowing = string.Join(' ', text.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("Chosen: way 2. To act: ", flowing, StringComparison.Ordinal);
        Assert.Contains(second[..20], text.Output, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("Ways out", plain.Output, StringComparison.Ordinal);
        Ended page = await Run(folder, "study demo/quernmoss.site.yaml --ways --chosen \"repeater input:2\" --format html");
        Assert.Contains("Chosen: way 2.", page.Output, StringComparison.Ordinal);
        Assert.Equal(1, page.Output.Split("<tr class=\"sel\">").Length - 1);
    }

    [Theory]
    [InlineData("--chosen 1", "--chosen names a way of the list that --ways makes; write both")]
    [InlineData("--ways --format json", "--ways goes into text and HTML; for data ask 'cure SITE --format json'")]
    [InlineData("--ways --against demo/quernmoss.site.yaml", "--ways has nothing to do with --against; leave one of them out")]
    [InlineData("--ways --chosen 900", "--chosen: there is no way 900 in the list; write 1 to ")]
    [InlineData("--ways --chosen nobody:1", "--chosen: there is no receiver named 'nobody'; name one of: repeater input")]
    [InlineData("--ways --chosen none", "'none' names no way; write its rank, from 1 on, or NAME:1")]
    public async Task Study_with_ways_that_cannot_be_says_what_to_write_instead(string options, string words)
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        Ended ended = await Run(folder, "study demo/quernmoss.site.yaml " + options);

        Assert.Contains(words, ended.Error, StringComparison.Ordinal);
        Assert.Equal((2, ""), (ended.Status, ended.Output));
    }

    [Fact]
    public async Task Cure_writes_over_no_file_that_holds_something_else()
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        Ended first = await Run(folder, "cure demo/quernmoss.site.yaml --apply 1 --out demo/quiet.site.yaml");
        Assert.True(first.Status == 0, first.Error);
        string way = Assert.Single(Directory.GetFiles(Path.Combine(folder.Path, "demo", "ways")));
        await File.WriteAllTextAsync(way, "mine", TestContext.Current.CancellationToken);
        Ended again = await Run(folder, "cure demo/quernmoss.site.yaml --apply 1 --out demo/again.site.yaml");

        Assert.Equal(1, again.Status);
        Assert.Contains("the file is there and holds something else", again.Error, StringComparison.Ordinal);
        Assert.Equal("mine", await File.ReadAllTextAsync(way, TestContext.Current.CancellationToken));
        Assert.False(File.Exists(Path.Combine(folder.Path, "demo", "again.site.yaml")));
    }

    [Fact]
    public async Task Cure_of_a_quiet_site_says_that_there_is_nothing_to_cure_and_the_margin()
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        Ended ended = await Run(folder, "cure demo/quernmoss-cured.site.yaml");

        Assert.Equal(0, ended.Status);
        Assert.Contains("Nothing to cure", ended.Output, StringComparison.Ordinal);
        Assert.Contains("14.4 dB under the noise", ended.Output.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }
}
