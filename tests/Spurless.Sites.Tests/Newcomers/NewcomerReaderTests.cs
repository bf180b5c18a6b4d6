using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Sources;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Newcomers;

/// <summary>Two files become one site; what is wrong with either is said at its place.</summary>
public class NewcomerReaderTests
{
    private const string Site = """
        spurless: 1
        site: invented
        place: { latitude: 40.5, longitude: -35.2 }
        receivers: [{ name: r, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }]
        emitters: [{ name: a, frequency: 145.15 MHz, bandwidth: 0 kHz, level: -30 dBm }]
        """;

    private const string Newcomer = "spurless: 1\nsite: newcomer\nemitters:\n  - { name: n, frequency: 145.25 MHz, bandwidth: 0 kHz";

    [Fact]
    public void Read_maps_may_name_the_sites_receivers_and_emitters()
    {
        NewcomerSites sites = Good(Newcomer
            + ", level: { r: -40 dBm }, power: 10 W, coupling: { a: 45 dB }, half_duplex: r }\nexclusive: [[a, n]]\n");
        Assert.Equal((1, 1), (sites.SiteReceivers, sites.SiteEmitters));
        Assert.Equal(["a", "n"], sites.Joint.Document.Emitters.Select(static e => e.Name));
        Assert.Equal(["s/s.site.yaml", "n/n.site.yaml"], sites.Joint.Inputs.Select(static i => i.Name));
        Assert.Single(sites.Joint.Document.Exclusive);
    }

    /// <summary>
    /// What arrives at a transmitter of the site from the newcomer's is said at the newcomer's, and counts at the site's.
    /// </summary>
    [Fact]
    public void Read_coupling_to_a_transmitter_of_the_site_stands_there_in_the_joint_site()
    {
        NewcomerSites sites = Good(Newcomer + ", power: 10 W, coupling: { a: 45 dB }, coupling_to: { a: 48 dB } }\n");
        Assert.Equal(48, sites.Joint.Document.Emitters[0].Coupling["n"].Value);
        Assert.Equal(45, sites.Joint.Document.Emitters[1].Coupling["a"].Value);
        Assert.Empty(sites.Site.Document.Emitters[0].Coupling);
    }

    /// <summary>
    /// Line and column counted in the text; a name in both is the newcomer's mistake, whichever comes first in the lists.
    /// </summary>
    [Theory]
    [InlineData(", level: { rr: -40 dBm } }", "n/n.site.yaml:4:66: there is no receiver 'rr'; write 'r'")]
    [InlineData(", coupling: { b: 3 dB } }", "n/n.site.yaml:4:69: there is no emitter 'b'; write ")]
    [InlineData(", coupling_to: { b: 3 dB } }", "n/n.site.yaml:4:72: there is no emitter 'b'; write ")]
    [InlineData(", follows: a }", "n/n.site.yaml:4:66: 'a' is an emitter, and a receiver is due here; write ")]
    [InlineData(
        " }\n  - { name: a, frequency: 146 MHz, bandwidth: 0 kHz }",
        "n/n.site.yaml:5:13: the name 'a' belongs to the emitter of s/s.site.yaml, line 5 already; give this emitter another name")]
    [InlineData(
        " }\nreceivers: [{ name: a, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }]",
        "n/n.site.yaml:5:21: the name 'a' belongs to the emitter of s/s.site.yaml, line 5 already; give this receiver another name")]
    [InlineData(
        " }\nplace: { latitude: 40.6, longitude: -35.2 }",
        "n/n.site.yaml:5:1: the newcomer's place is not that of the site, and receivers and distances are those of one place; leave")]
    public void Read_mistake_stands_at_its_line_and_column(string rest, string expected)
    {
        (NewcomerSites? sites, string[] findings) = Read(Site, Newcomer + rest + "\n");
        Assert.Null(sites);
        Assert.StartsWith(expected, Assert.Single(findings), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_says_all_that_is_wrong_with_both_files_at_once()
    {
        (NewcomerSites? sites, string[] findings) = Read(
            Site.Replace("145.05 MHz", "145.05", StringComparison.Ordinal), Newcomer + ", follows: r, level: -30 }\n");
        Assert.Null(sites);
        Assert.Equal(2, findings.Length);
        Assert.StartsWith("s/s.site.yaml:4:", findings[0], StringComparison.Ordinal);
        Assert.StartsWith("n/n.site.yaml:4:", findings[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Read_newcomer_without_anything_says_what_to_write()
    {
        (NewcomerSites? sites, string[] findings) = Read(Site, "spurless: 1\nsite: newcomer\n");
        Assert.Null(sites);
        Assert.StartsWith(
            "n/n.site.yaml:1:1: there is neither a receiver nor an emitter of a newcomer here; write ", Assert.Single(findings),
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(
        "search: { orders: 2-3 }",
        "n/n.site.yaml:5:1: warning: 'search' of a newcomer is not used: the search limits of the site hold")]
    [InlineData(
        "evidence: [{ offset: { receiver: r, measured: 180 Hz, plus_minus: 50 Hz } }]",
        "n/n.site.yaml:5:1: warning: 'evidence' of a newcomer")]
    public void Read_what_the_site_decides_is_a_warning(string key, string expected)
    {
        (NewcomerSites? sites, string[] findings) = Read(Site, Newcomer + " }\n" + key + "\n");
        Assert.NotNull(sites);
        Assert.StartsWith(expected, Assert.Single(findings), StringComparison.Ordinal);
        Assert.Null(sites.Joint.Document.Search.HighestOrder);
    }

    [Fact]
    public void Read_same_path_in_two_folders_is_two_files()
    {
        string sweep = "# hz S ri R 50\n{0} 0 0 {1} 0 {1} 0 0 0\n200000000 0 0 {1} 0 {1} 0 0 0\n";
        string Sweep(double through) => string.Format(CultureInfo.InvariantCulture, sweep, 100000000, through);
        DiagnosticBag findings = new();
        NewcomerSites? sites = NewcomerReader.Read(
            SourceFile.OfText(
                "s/s.site.yaml", Site.Replace("level: -30 dBm", "level: -30 dBm, output_filter: f.s2p", StringComparison.Ordinal),
                new FolderFiles("s", Sweep(1))),
            SourceFile.OfText("n/n.site.yaml", Newcomer + ", output_filter: f.s2p }\n", new FolderFiles("n", Sweep(0.1))),
            findings);
        Assert.Empty(findings.InOrder());
        double[] through =
        [
            .. sites!.Joint.Document.Emitters.Select(e => sites.Joint.Of(e.OutputFilter!).TwoPort.At(150e6).S21.Magnitude),
        ];
        Assert.Equal(1, through[0], 1e-12);
        Assert.Equal(0.1, through[1], 1e-12);
    }

    private static NewcomerSites Good(string newcomer)
    {
        (NewcomerSites? sites, string[] findings) = Read(Site, newcomer);
        Assert.Empty(findings);
        return sites!;
    }

    private static (NewcomerSites? Sites, string[] Findings) Read(string site, string newcomer)
    {
        DiagnosticBag findings = new();
        NewcomerSites? sites = NewcomerReader.Read(
            SourceFile.OfText("s/s.site.yaml", site, new StubFiles()), SourceFile.OfText("n/n.site.yaml", newcomer, new StubFiles()),
            findings);
        return (sites, [.. findings.InOrder().Select(static f => f.ToString())]);
    }

    private sealed class FolderFiles(string folder, string sweep) : Spurless.Sites.Documents.ISiteFiles
    {
        public bool Exists(string path) => path == "f.s2p";

        public byte[]? Read(string path) => path == "f.s2p" ? System.Text.Encoding.UTF8.GetBytes(sweep) : null;

        public string NameOf(string path) => $"{folder}/{path}";
    }
}
