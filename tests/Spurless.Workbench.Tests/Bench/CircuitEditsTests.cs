using Spurless.Sites.Documents.Circuits;
using Spurless.Workbench.Bench;

namespace Spurless.Workbench.Tests.Bench;

/// <summary>
/// Building a circuit as edits of its text. What is expected follows from the format (docs/formats/circuit-file.md); nothing is computed.
/// </summary>
public class CircuitEditsTests
{
    private const string Head = "# ours\nspurless_circuit: 1\nname: x\nports: { in: a, out: b, impedance: 50 ohm }\n";
    private static readonly PartForm Capacitor = PartForm.All[0];
    private static readonly PartForm Coil = PartForm.All.First(static f => f.Key == "coil");

    [Theory]
    [InlineData("parts: {}\n")]
    [InlineData("parts:\n")]
    [InlineData("")]
    public void Add_first_and_second_part_of_an_empty_circuit_each_get_a_line_of_their_own(string parts)
    {
        (string? one, string? problem) = CircuitEdits.Add(Head + parts, "C1", Capacitor, "a", "b", [(Capacitor.Needed[0], "6.8 pF")]);
        Assert.Null(problem);
        (string? two, _) = CircuitEdits.Add(one!, "C2", Capacitor, "b", "gnd", [(Capacitor.Needed[0], "36 pF"), (Capacitor.Further[0],
            "400 at 145 MHz")]);
        Assert.Contains("C1: { capacitor: 6.8 pF, between: [a, b] }", two, StringComparison.Ordinal);
        Assert.Contains("C2: { capacitor: 36 pF, between: [b, gnd], q: 400 at 145 MHz }", two, StringComparison.Ordinal);
        Assert.StartsWith("# ours\n", two, StringComparison.Ordinal);
        if (parts.Length > 0)
        {
            Assert.Contains("parts:\n  C1: {", two, StringComparison.Ordinal);
            Assert.Contains(" }\n  C2: {", two, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Add_coil_writes_its_winding_in_one_place()
    {
        (string? text, _) = CircuitEdits.Add(
            Head + "parts:\n  R1: { resistor: 1 ohm, between: [a, b] }  # kept\n", "L1", Coil, "a", "gnd",
                [.. Coil.Needed.Select(static k => (k, k.Example))]);
        Assert.Contains("  R1: { resistor: 1 ohm, between: [a, b] }  # kept\n"
            + "  L1: { coil: { turns: 2, diameter: 7 mm, length: 4 mm, wire: 1 mm }, between: [a, gnd] }\n", text,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Rename_of_a_coil_is_followed_by_its_couplings_and_keeps_comments()
    {
        const string text = Head
            + "parts:\n  L1: { inductor: 1 nH, between: [a, gnd] }   # first\n  L2: { inductor: 1 nH, between: [b, gnd] }\n"
            + "  M1: { coupling: 0.1, of: [L2, L1] }\n";
        (string? edited, _) = CircuitEdits.Rename(text, "L1", "Lin");
        Assert.Equal(text.Replace("  L1:", "  Lin:", StringComparison.Ordinal).Replace("[L2, L1]", "[L2, Lin]", StringComparison.Ordinal),
            edited);
        (string? none, string? problem) = CircuitEdits.Rename(text, "L1", "L2");
        Assert.Null(none);
        Assert.Equal("there is a part 'L2' already; give this one another name", problem);
    }

    [Fact]
    public void Remove_of_a_coil_takes_its_couplings_too_and_no_other_line()
    {
        const string text = Head
            + "parts:\n  # coils\n  L1: { inductor: 1 nH, between: [a, gnd] }\n  L2: { inductor: 1 nH, between: [b, gnd] }\n"
            + "  M1: { coupling: 0.1, of: [L2, L1] }\n";
        (string? edited, _) = CircuitEdits.Remove(text, "L2");
        Assert.Equal(Head + "parts:\n  # coils\n  L1: { inductor: 1 nH, between: [a, gnd] }\n", edited);
    }

    [Fact]
    public void Set_of_a_list_is_typed_without_brackets_and_blank_takes_it_away()
    {
        const string text = Head + "parts:\n  C1: { capacitor: 1 pF, between: [a, gnd] }\n";
        PartKey rated = Capacitor.Further.First(static k => k.Path == "rated");
        (string? set, _) = CircuitEdits.Set(text, "C1", rated, "50 V, 1 W");
        Assert.Contains("rated: [50 V, 1 W] }", set, StringComparison.Ordinal);
        Assert.Equal(text, CircuitEdits.Set(set!, "C1", rated, " ").Text);
    }

    [Fact]
    public void Starts_each_read_without_a_finding_and_do_what_their_names_say()
    {
        // The frequencies are those of the names; the limits are what a filter of that kind does at its pass frequency and at its notch
        // (common practice).
        foreach (CircuitStart start in CircuitStarts.All)
        {
            CircuitBench bench = CircuitBench.Open(start.Text, start.Stem + ".circuit.yaml", new NoFiles(), out var findings)!;
            Assert.Empty(findings);
            double At(double mhz) => -20 * Math.Log10(bench.With(Workbench.Desk.DeskSettings.None).Network!.At(mhz * 1e6).S21.Magnitude);
            double pass = At(start.Stem == "duplexer-half" ? 145.65 : 145.05);
            Assert.True(pass < 4.5, $"{start.Stem}: {pass} dB where it passes");
            double[] notches = start.Stem switch
            {
                "series-trap" => [158.3],
                "notch-pair" => [153.7, 158.3],
                "duplexer-half" =>
                [145.05],
                "low-pass" => [435],
                _ => [120, 175]
            };
            Assert.All(notches, f => Assert.True(At(f) > (start.Stem == "two-tanks" ? 15 : 22), $"{start.Stem}: {At(f)} dB at {f} MHz"));
        }
    }

    private sealed class NoFiles : Sites.Documents.ISiteFiles
    {
        public bool Exists(string path) => false;

        public byte[]? Read(string path) => null;

        public string NameOf(string path) => path;
    }
}
