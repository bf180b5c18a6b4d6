using CsCheck;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Tests.Documents;

/// <summary>No text makes the reader throw.</summary>
public sealed class SiteFuzzTests
{
    private static readonly string[] _pieces =
    [
        "", "\n", "  ", ": ", "- ", "[", "]", "{", "}", ", ", "#", "'", "\"", "-1", "0", "1e999", "NaN", "9999999999999999999 Hz",
        "145 MHz", "0 Hz", "-3 dB", "∞", "name: ", "level: ",
        "{ a: -1 dBm }", "[[[", "x", "null", "~", "iip3: ", "by: 7", "&a ", "*a ", "!x ", "---\n", "\t", "\u0000", "\r\n",
    ];

    [Fact]
    public void Read_mutated_example_never_throws()
    {
        string[] examples = [TestData.Read("site", "example.site.yaml"), SiteTemplate.Text];
        Gen<string> put = Gen.Int[0, _pieces.Length - 1].Select(static i => _pieces[i]).Array[0, 4].Select(static p => string.Concat(p));
        Gen.Select(Gen.Int[0, 1], Gen.Select(Gen.Int[0, 10_000], Gen.Int[0, 40], put).Array[1, 5]).Sample(
            (which, edits) =>
            {
                string text = examples[which];
                foreach ((int at, int length, string piece) in edits)
                {
                    int from = at % (text.Length + 1);
                    text = text[..from] + piece + text[Math.Min(text.Length, from + length)..];
                }

                SiteReading reading = SiteReader.Read(text, "x", StubFiles.OfExample);
                Assert.Equal(reading.Document is null, reading.Diagnostics.Any(d => d.Severity == Files.Diagnostics.Severity.Error));
            },
            iter: 1_500);
    }

    [Fact]
    public void Read_mutated_table_never_throws()
    {
        const string Table =
            "name,frequency,emission,level,antenna.gain,coupling.x,isolator\nx,160 MHz,11K2F3E,-20 dBm,6 dBd,,\ny,161 "
                + "MHz,11K2F3E,{ r: -20 dBm },6 dBd,3 dB,\"[3 dB at 1 MHz, 4 dB at 2 MHz]\"\n";
        const string Site =
            "spurless: 1\nsite: s\nreceivers: [{ name: r, frequency: 145 MHz, channel: 12.5 kHz, "
                + "noise_figure: 6 dB, iip3: -8 dBm }]\nemitters_from: e.csv\n";
        Gen.Select(Gen.Int[0, Table.Length], Gen.Int[0, 20], Gen.Int[0, _pieces.Length - 1].Select(static i => _pieces[i])).Array[1, 4]
            .Sample(
            edits =>
            {
                string text = Table;
                foreach ((int at, int length, string piece) in edits)
                {
                    int from = at % (text.Length + 1);
                    text = text[..from] + piece + text[Math.Min(text.Length, from + length)..];
                }

                SiteReading reading = SiteReader.Read(Site, "x", new StubFiles(("e.csv", text)));
                Assert.Equal(reading.Document is null, reading.Diagnostics.Any(d => d.Severity == Files.Diagnostics.Severity.Error));
            },
            iter: 2_000);
    }
}
