using System.Globalization;
using System.Text;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Hostile;

/// <summary>
/// Files of others: each hostile text stands in every field that takes words, and in the files' names, and goes through every page, report,
/// picture and table. A real browser must run no script, ask no other machine, and have nothing to refuse: what its policy stopped would
/// stand on its console, and counts as a failure too.
/// </summary>
public class HostileNameTests(BrowserFixture browser)
{
    private static readonly HttpClient Client =
        new(new SocketsHttpHandler { AllowAutoRedirect = false, UseProxy = false, UseCookies = false });

    [Fact]
    public void Names_are_forty_and_no_two_are_alike() => Assert.Equal(40, HostileNames.All.Distinct().Count());

    [Fact]
    public Task Hostile_names_of_each_sort_stay_words() => GoThroughAsync([0, 5, 9, 32]);

    [Fact]
    [Trait("Category", "Long")]
    public Task Many_hostile_names_stay_words_on_every_page_and_in_every_file() => GoThroughAsync([.. Enumerable.Range(0, 8)]);

    private async Task GoThroughAsync(int[] which)
    {
        await using ServedFolder folder = await ServedFolder.EmptyAsync();
        List<(string Text, string Site, string Circuit)> files = [];
        foreach (int i in which)
        {
            string text = HostileNames.All[i];
            string stem = FileName(i, text);
            folder.Write(stem + ".circuit.yaml", Circuit(text));
            folder.Write(stem + ".site.yaml", Site(text, stem + ".circuit.yaml"));
            files.Add((text, stem + ".site.yaml", stem + ".circuit.yaml"));
        }

        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: folder.Address);
        string? dialog = null;
        watched.Page.Dialog += (_, opened) =>
        {
            dialog = opened.Message;
            _ = opened.DismissAsync();
        };
        await watched.GoAsync("/");
        await ExpectNoHitAsync(watched, "the folder");
        foreach ((string text, string site, string circuit) in files)
        {
            string asked = Uri.EscapeDataString(text);
            foreach (
                string address in (string[])
                [
                    $"/site/{Escaped(site)}", $"/site/{Escaped(site)}?text=yes", $"/study/{Escaped(site)}?set={asked}",
                    $"/study/{Escaped(site)}?receiver=1&by=emitter&sum=open", $"/around/{Escaped(site)}?register={asked}&pick={asked}",
                    $"/bench/{Escaped(circuit)}?site={asked}", $"/build/{Escaped(circuit)}?text=yes",
                    $"/fit/{Escaped(circuit)}?sweep={asked}", $"/evidence/{Escaped(site)}", $"/channels/{Escaped(site)}?band={asked}",
                    $"/report/{Escaped(site)}", $"/report/{Escaped(circuit)}", $"/coil?inductance={asked}&wire={asked}",
                    $"/listen?site={asked}", $"/help/{Escaped(string.Concat(text.Where(static c => !char.IsControl(c))))}",
                ])
            {
                await watched.GoAsync(address);
                await ExpectNoHitAsync(watched, address);
                foreach (IFrame frame in watched.Page.Frames)
                {
                    Assert.Null(await frame.EvaluateAsync<object?>($"window.{HostileNames.Mark} ?? null"));
                }
            }

            foreach (
                string download in (string[])
                [
                    $"reports/html/{Escaped(site)}", $"reports/html/{Escaped(circuit)}", $"study-svg/{Escaped(site)}?receiver=0",
                    $"bench-svg/schematic/{Escaped(circuit)}", $"bench-svg/gain/{Escaped(circuit)}",
                    $"bench-svg/reflection/{Escaped(circuit)}",
                ])
            {
                await OpenedFromDiskAsync(folder, download);
            }

            foreach (
                string table in (string[])
                [
                    $"reports/csv/{Escaped(site)}", $"reports/csv/{Escaped(circuit)}", $"study-csv/{Escaped(site)}?receiver=0",
                    $"bench-csv/{Escaped(circuit)}",
                ])
            {
                AssertNoFormula(table, await DownloadAsync(folder, table));
            }
        }

        Assert.Null(dialog);
        Assert.Equal("", folder.Errors.Trim());
    }

    private static async Task ExpectNoHitAsync(WatchedPage watched, string where)
    {
        // What a markup of theirs would load or run has done so by the next two pictures.
        await watched.Page.EvaluateAsync("() => new Promise(r => requestAnimationFrame(() => requestAnimationFrame(r)))");
        Assert.Null(await watched.Page.EvaluateAsync<object?>($"window.{HostileNames.Mark} ?? null"));
        string[] serious = [.. watched.Complaints.Where(static c => !c.StartsWith("status 404", StringComparison.Ordinal)
            && !c.Contains("status of 404", StringComparison.Ordinal))];
        Assert.True(serious.Length == 0, $"{where}: {string.Join('\n', serious)}");
    }

    /// <summary>A report or a picture as somebody opens it who was sent it: from the disk, with no server's policy round it.</summary>
    private async Task OpenedFromDiskAsync(ServedFolder folder, string address)
    {
        string text = await DownloadAsync(folder, address);
        if (text.Length == 0)
        {
            return; // nothing of that kind to take along
        }

        string ending = address.Contains("svg", StringComparison.Ordinal) ? ".svg" : ".html";
        string path = Path.Combine(Path.GetTempPath(), $"spurless-{Guid.NewGuid():N}{ending}");
        await File.WriteAllTextAsync(path, text);
        try
        {
            await using WatchedPage opened = await browser.OpenAsync(1000, 800);
            await opened.Page.GotoAsync(new Uri(path).AbsoluteUri);
            await ExpectNoHitAsync(opened, address);
            Assert.Equal(0, await opened.Page.Locator("script, iframe, form, base, object, embed").CountAsync());
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static async Task<string> DownloadAsync(ServedFolder folder, string address)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, new Uri(folder.Address, address));
        request.Headers.Add("Cookie", folder.Cookie);
        using HttpResponseMessage answer = await Client.SendAsync(request);
        return answer.IsSuccessStatusCode ? await answer.Content.ReadAsStringAsync() : "";
    }

    /// <summary>However a spreadsheet parts the table - at commas, semicolons or tabs - no cell begins as a formula does.</summary>
    private static void AssertNoFormula(string where, string csv)
    {
        foreach (char separator in (char[])[',', ';', '\t'])
        {
            foreach (string cell in Cells(csv, separator))
            {
                string bare = cell.TrimStart(' ', '\u00A0', '\u3000');
                bool number = double.TryParse(bare, NumberStyles.Float, CultureInfo.InvariantCulture, out _);
                Assert.True(
                    number || bare.Length == 0 || !"=+-@\uFF1D\uFF0B\uFF20\uFF0D".Contains(bare[0], StringComparison.Ordinal),
                    $"{where}, parted at '{separator}': {cell}");
            }
        }
    }

    // RFC 4180 with another separator: quoted cells hold anything, two quotes are one.
    private static IEnumerable<string> Cells(string csv, char separator)
    {
        StringBuilder cell = new();
        bool quoted = false;
        for (int i = 0; i < csv.Length; i++)
        {
            char c = csv[i];
            if (quoted && c == '"' && i + 1 < csv.Length && csv[i + 1] == '"')
            {
                cell.Append('"');
                i++;
            }
            else if (c == '"')
            {
                quoted = !quoted;
            }
            else if (!quoted && (c == separator || c is '\n' or '\r'))
            {
                yield return cell.ToString();
                cell.Clear();
            }
            else
            {
                cell.Append(c);
            }
        }

        yield return cell.ToString();
    }

    private static string Escaped(string name) => Uri.EscapeDataString(name);

    // What may stand in the name of a file that the folder shows.
    private static string FileName(int i, string text)
    {
        string kept = string.Concat(text.Where(static c => c is not ('/' or '\\' or ':') && !char.IsControl(c)));
        return FormattableString.Invariant($"{i:00} ") + kept[..Math.Min(40, kept.Length)].Trim();
    }

    private static string Site(string text, string circuit)
    {
        string name = HostileNames.Scalar(text);
        string second = HostileNames.Scalar(text + " 2");
        string third = HostileNames.Scalar(text + " 3");
        return $$"""
            spurless: 1
            site: {{name}}
            place: { latitude: 40.5, longitude: -35.2, ground: 10 m }
            receivers:
              - name: {{name}}
                frequency: 145.05 MHz
                channel: 12.5 kHz
                noise_figure: 6 dB
                iip3: -8 dBm
                chain: [{ circuit: {{HostileNames.Scalar(circuit)}} }]
              - { name: {{second}}, frequency: 145.6 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }
            emitters:
              - { name: {{name}}, frequency: 160.5125 MHz, emission: 11K2F3E, level: -21 dBm }
              - { name: {{second}}, frequency: 175.975 MHz, bandwidth: 16 kHz, level: -20 dBm }
              - { name: {{third}}, frequency: 145.65 MHz, bandwidth: 16 kHz, power: 25 W, distance: 1 km, follows: {{name}} }
            exclusive: [[{{second}}, {{third}}]]
            """ + "\n";
    }

    private static string Circuit(string text)
    {
        string name = HostileNames.Scalar(text);
        string node = HostileNames.Scalar("node " + text);
        return $$"""
            spurless_circuit: 1
            name: {{name}}
            ports: { in: a, out: d, impedance: 50 ohm }
            parts:
              {{name}}: { capacitor: 6.8 pF, between: [a, {{node}}], q: 400 at 145.05 MHz, tolerance: 5 % }
              {{HostileNames.Scalar(text + " L")}}: { inductor: 27.6 nH, between: [{{node}}, gnd], q: 160 at 145.05 MHz }
              {{HostileNames.Scalar(text + " C")}}: { capacitor: 6.8 pF, between: [{{node}}, d] }
            """ + "\n";
    }
}
