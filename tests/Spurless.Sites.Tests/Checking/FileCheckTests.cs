using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Checking;
using Spurless.Sites.Documents.Bypasses;
using Spurless.Sites.Documents.Circuits;
using Spurless.Sites.Documents.Receivers;
using Spurless.Sites.Documents.Requirements;
using Spurless.Sites.Sources;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Checking;

/// <summary>
/// A file of any kind is checked by its own reader: what is good is counted (by eye, beside each), what is broken is said with a remedy,
/// and nothing makes the check fall over.
/// </summary>
public sealed class FileCheckTests
{
    private static readonly Dictionary<string, string> Files = new()
    {
        ["a.site.yaml"] = "spurless: 1\nsite: s\nreceivers:\n"
            + "  - { name: r, frequency: 145 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }\n"
            + "emitters:\n  - { name: a, frequency: 160 MHz, bandwidth: 11 kHz }\n  - { name: b, frequency: 161 MHz, bandwidth: 11 kHz }\n",
        ["a.circuit.yaml"] = CircuitTemplate.Text,
        ["a.requirement.yaml"] = RequirementTemplate.Text,
        ["a.receiver.yaml"] = MeasurementTemplate.Text,
        ["a.bypass.yaml"] = BypassTemplate.Text,
        ["a.s2p"] = "# MHz S RI R 50\n100 0 0 1 0 1 0 0 0\n200 0 0 1 0 1 0 0 0\n",
        ["a.s1p"] = "# GHz S MA R 50\n1 0.5 90\n",
        ["a.log.csv"] = "time,r,a\n2031-03-04T19:02:00Z,1,1\n2031-03-04T19:03:00Z,0,\n",
        ["plan.csv"] = "from,to,use\n144 MHz,144.5 MHz,any\n",
        ["emitters.csv"] = "name,frequency,bandwidth\na,160 MHz,11 kHz\nb,161 MHz,11 kHz\nc,162 MHz,11 kHz\n",
    };

    public static TheoryData<string> Names => [.. Files.Keys];

    /// <summary>
    /// A raw tile of 1,201 samples a side, 16 bits each, high byte first; -32768 is a void (the format's own documentation).
    /// </summary>
    [Theory]
    [InlineData(0, "1201 x 1201 samples, none with a height")]
    [InlineData(1, "1201 x 1201 samples, 300 to 300 m, 1442400 without height")]
    public void Run_a_tile_that_is_void_says_no_heights(int known, string holds)
    {
        byte[] tile = new byte[2 * 1201 * 1201];
        for (int i = 0; i < tile.Length; i += 2)
        {
            tile[i] = 0x80;
        }

        if (known > 0)
        {
            (tile[0], tile[1]) = (300 >> 8, 300 & 255);
        }

        CheckResult result = FileCheck.Run(new SourceFile("N51E007.hgt", tile, new StubFiles()));
        Assert.Empty(result.Findings);
        Assert.Equal(holds, result.Holds);
    }

    [Theory]
    [InlineData("a.site.yaml", FileKind.Site, "1 receiver, 2 emitters")]
    [InlineData("a.circuit.yaml", FileKind.Circuit, "7 parts")]
    [InlineData("a.requirement.yaml", FileKind.Requirement, "2 rejections")]
    [InlineData("a.receiver.yaml", FileKind.Receiver, "4 readings")]
    [InlineData("a.bypass.yaml", FileKind.Bypass, "2 driver stages")]
    [InlineData("a.s2p", FileKind.Touchstone, "2 ports, 2 points, 100 MHz to 200 MHz")]
    [InlineData("a.s1p", FileKind.Touchstone, "1 port, 1 point, 1 GHz to 1 GHz")]
    [InlineData("a.log.csv", FileKind.ObservationLog, "2 rows, 2 names")]
    [InlineData("plan.csv", FileKind.BandPlan, "1 part")]
    [InlineData("emitters.csv", FileKind.EmitterTable, "3 emitters")]
    public void Run_a_good_file_is_counted(string name, FileKind kind, string holds)
    {
        CheckResult result = Check(name, Files[name]);
        Assert.Equal("", string.Join('\n', result.Findings));
        Assert.Equal((name, kind, holds), (result.File, result.Kind, result.Holds));
    }

    /// <summary>Cut anywhere, a file is read or refused, never neither; what is said names the file and what to write.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Run_a_file_cut_short_is_read_or_refused(string name)
    {
        string text = Files[name];
        for (int end = 0; end < text.Length; end += Math.Max(1, text.Length / 120))
        {
            Told(name, Check(name, text[..end]));
        }
    }

    /// <summary>So is one in which bytes are changed.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Run_a_file_with_changed_bytes_is_read_or_refused(string name)
    {
        Random random = new(7);
        byte[] good = Encoding.UTF8.GetBytes(Files[name]);
        for (int i = 0; i < 150; i++)
        {
            byte[] bytes = [.. good];
            for (int n = random.Next(1, 6); n > 0; n--)
            {
                bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
            }

            Told(name, FileCheck.Run(new SourceFile(name, bytes, new StubFiles())));
        }
    }

    /// <summary>The same text under the name of another kind is refused by that kind's reader.</summary>
    [Theory]
    [InlineData("a.circuit.yaml", "a.site.yaml")]
    [InlineData("a.site.yaml", "a.requirement.yaml")]
    [InlineData("a.requirement.yaml", "a.bypass.yaml")]
    [InlineData("a.receiver.yaml", "a.circuit.yaml")]
    [InlineData("a.s2p", "a.log.csv")]
    [InlineData("a.site.yaml", "a.s2p")]
    public void Run_a_file_under_another_kinds_name_is_refused(string of, string name)
    {
        CheckResult result = Check(name, Files[of]);
        Assert.Contains(result.Findings, static f => f.Severity == Severity.Error);
        Told(name, result);
    }

    [Theory]
    [InlineData("a.txt")]
    [InlineData("a.yaml")]
    [InlineData("a")]
    public void Run_a_file_of_no_kind_names_the_kinds(string name)
    {
        Diagnostic only = Assert.Single(Check(name, "anything\n").Findings);
        Assert.Equal("this is no kind of file the program knows", only.What);
        Assert.All((string[])["*.site.yaml", "*.circuit.yaml", "*.s2p", "*.log.csv"], kind =>
            Assert.Contains(kind, only.Remedy, StringComparison.Ordinal));
    }

    private static void Told(string name, CheckResult result)
    {
        bool errors = result.Findings.Any(static f => f.Severity == Severity.Error);
        Assert.True(errors || result.Holds.Length > 0, $"{name}: neither read nor refused");
        Assert.All(result.Findings, f =>
        {
            Assert.Equal(name, f.File);
            Assert.NotEmpty(f.What);
            Assert.NotEmpty(f.Remedy);
            Assert.DoesNotContain(f.What + f.Remedy, char.IsControl);
            Assert.True(f is { Line: >= 0, Column: >= 0 }, $"{f}");
        });
    }

    private static CheckResult Check(string name, string text) =>
        FileCheck.Run(new SourceFile(name, Encoding.UTF8.GetBytes(text), new StubFiles()));
}
