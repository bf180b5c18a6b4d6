using System.Globalization;
using System.Text.Json.Nodes;
using CsCheck;
using Spurless.Circuits.Requirements;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Requirements;

namespace Spurless.Sites.Tests.Documents.Requirements;

public sealed class RequirementReaderTests
{
    private const string Head = "spurless_requirement: 1\nname: n\npass: { from: 144 MHz, to: 146 MHz, loss: 2 dB }\n";

    private static (Requirement? Value, string Findings) Read(string text)
    {
        DiagnosticBag bag = new();
        Requirement? value = RequirementReader.Read(text, "r", bag);
        return (value, string.Join("\n", bag.InOrder()));
    }

    // Expected values: the example of the format's description, which the template repeats, read by eye.
    [Fact]
    public void Read_template_gives_every_value()
    {
        (Requirement? r, string findings) = Read(RequirementTemplate.Text.Replace("# transmit", "transmit", StringComparison.Ordinal));
        Assert.Equal("", findings);
        Assert.NotNull(r);
        Assert.Equal(
            ("quiet the input", 144_900_000L, 145_200_000L, 2.5, 12.0),
            (r.Name, r.Pass.From.Hertz, r.Pass.To.Hertz, r.Pass.Loss.Value, r.Pass.ReturnLoss!.Value.Value));
        Assert.Equal(
            [(160_512_500L, 160_512_500L, 25.0), (450_000_000L, 470_000_000L, 45.0)],
            r.Reject.Select(b => (b.From.Hertz, b.To.Hertz, b.By.Value)));
        Assert.Equal((50.0, 50.0), (r.Impedance.Ohms, r.Transmit!.Value.Watts));
        Assert.Equal(
            (180.0, 500.0, PreferredSeries.E24),
            (r.Parts.InductorQ!.Value.Quality, r.Parts.CapacitorQ!.Value.Quality, r.Parts.Series!.Value));
        Assert.Equal(8e-9, r.Parts.Inductors!.Value.Least.Henries, 1e-20);
        Assert.Equal(100e-12, r.Parts.Capacitors!.Value.Greatest.Farads, 1e-22);
    }

    [Fact]
    public void Read_least_file_has_50_ohm_and_no_limits()
    {
        (Requirement? r, string findings) = Read(Head);
        Assert.Equal("", findings);
        Assert.Equal((50.0, 0, null), (r!.Impedance.Ohms, r.Reject.Count, r.Transmit));
    }

    [Theory]
    [InlineData(
        "pass: { from: 144 MHz }\nname: n\nspurless_requirement: 2\n",
        "r:1:7: the key 'to' is missing; add 'to:' with a frequency such as 145.05 MHz\nr:1:7: the key 'loss' is missing; "
            + "add 'loss:' with a ratio such as 25 dB\nr:3:23: '2' is out of range; write 1, the version of the format")]
    [InlineData(
        "spurless_requirement: 1\nname: n\npass: { from: 146 MHz, to: 144 MHz, loss: 2.5 }\n",
        "r:3:28: the upper edge 144 MHz is not above the lower edge 146 MHz; "
            + "write the lower edge in 'from' and the upper one in 'to'\nr:3:43: '2.5' has no unit; write 2.5 dB")]
    [InlineData(
        Head + "reject: [{ at: 145 MHz, by: 25 dB }]\n",
        "r:4:10: this lies in the band that must pass, 144 MHz to 146 MHz; move the one or narrow the other")]
    [InlineData(
        Head + "reject: [{ from: 450 MHz, by: 25 dB }, { by: -3 dB, at: 1 MHz, to: 3 MHz }, { by: 3 dB }]\n",
        "r:4:12: 'from' stands without 'to'; add 'to: 470 MHz'\nr:4:46: '-3 dB' is not above 0; "
            + "write a ratio such as 25 dB\nr:4:64: 'to' and 'at' are two ways of saying one thing; keep one of the two\nr:4:64: "
                + "'to' stands without 'from'; add 'from: 450 MHz'\nr:4:77: there is neither 'at' nor 'from'; "
                    + "add 'at: 160.5125 MHz', or 'from: 450 MHz' with 'to: 470 MHz'")]
    [InlineData(
        Head + "impedance: 0 ohm\nparts: { inductors: [300 nH, 8 nH], capacitors: [0.5 pF], series: E25, inductor_q: 180 }\n",
        "r:4:12: '0 ohm' is not above 0; write a value above 0\nr:5:21: the first, 300 nH, is not below the second, 8 nH; "
            + "write the smallest first\nr:5:49: the list has 1 item; write at least 2\nr:5:67: the word 'E25' is not known here; "
                + "write 'E24'\nr:5:84: '180' does not say at what; write a Q at a frequency like 160 at 145.05 MHz")]
    [InlineData(Head + "rejct: []\n", "r:4:1: unknown key 'rejct'; write 'reject'")]
    public void Read_bad_file_is_reported_whole(string text, string expected)
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            (Requirement? value, string findings) = Read(text);
            Assert.Equal(expected, findings);
            Assert.Null(value);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Text_of_the_schema_knows_the_keys_of_the_format()
    {
        JsonNode schema = JsonNode.Parse(RequirementSchema.Text())!;
        Assert.Equal(
            ["spurless_requirement", "name", "pass", "reject", "impedance", "parts", "transmit", "bypass"],
            schema["properties"]!.AsObject().Select(p => p.Key));
        Assert.Equal("""["spurless_requirement","name","pass"]""", schema["required"]!.ToJsonString());
        Assert.Equal(
            ["E3", "E6", "E12", "E24", "E48", "E96", "E192"],
            schema["properties"]!["parts"]!["properties"]!["series"]!["enum"]!.AsArray().Select(w => w!.GetValue<string>()));
    }

    [Fact]
    public void Read_mutated_template_never_throws()
    {
        string[] pieces = ["", "\n", ": ", "{", "}", "[", "]", "-1", "0 Hz", "NaN", "1e999 dB", "x", "'", "- ", "at: ", "~"];
        Gen.Select(Gen.Int[0, RequirementTemplate.Text.Length], Gen.Int[0, 30], Gen.Int[0, pieces.Length - 1]).Array[1, 5].Sample(
            edits =>
            {
                string text = RequirementTemplate.Text;
                foreach ((int at, int length, int piece) in edits)
                {
                    int from = at % (text.Length + 1);
                    text = text[..from] + pieces[piece] + text[Math.Min(text.Length, from + length)..];
                }

                (Requirement? value, string findings) = Read(text);
                Assert.True(value is not null || findings.Length > 0);
            },
            iter: 2_000);
    }
}
