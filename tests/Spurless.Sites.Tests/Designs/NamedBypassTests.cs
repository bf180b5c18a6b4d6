using Spurless.Files.Diagnostics;
using Spurless.Sites.Designs;
using Spurless.Sites.Documents.Bypasses;
using Spurless.Sites.Sources;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Designs;

/// <summary>A requirement that names the bypass relay whose open contacts go round the filter.</summary>
public sealed class NamedBypassTests
{
    private const string Head =
        "spurless_requirement: 1\nname: n\npass: { from: 144.9 MHz, to: 145.2 MHz, loss: 3.5 dB }\n"
            + "reject: [ { at: 160.525 MHz, by: 30 dB } ]\n";

    // The template of a bypass file: contacts of 0.8 pF when open, a line of 50 ohm.
    private static readonly string Relay = BypassTemplate.Text;

    private static (RequirementFile? File, string Findings) Read(string text, params (string Path, string Content)[] beside)
    {
        DiagnosticBag bag = new();
        RequirementFile? file = SourceReader.Requirement(SourceFile.OfText("r.requirement.yaml", text, new StubFiles(beside)), bag);
        return (file, string.Join("\n", bag.InOrder()));
    }

    private static string Named(string from, string to)
    {
        Assert.Contains(from, Relay, StringComparison.Ordinal);
        return Relay.Replace(from, to, StringComparison.Ordinal);
    }

    // Expected value: what the relay's file says of its contacts, written there by the test.
    [Fact]
    public void Read_of_a_named_relay_takes_its_open_contacts_into_the_question()
    {
        string relay = Named("open: 0.8 pF", "open: 1.7 pF");
        (RequirementFile? file, string findings) = Read(Head + "bypass: relays/mine.bypass.yaml\n", ("relays/mine.bypass.yaml", relay));
        Assert.Equal("", findings);
        Assert.Equal(1.7e-12, file!.BypassOpenF!.Value, 1e-24);
        DesignBrief brief = DesignBrief.Of(file, new DesignOptions(), new DiagnosticBag())!;
        Assert.Equal(1.7e-12, brief.Question.BypassOpenF!.Value, 1e-24);
        Assert.Equal(["r.requirement.yaml", "relays/mine.bypass.yaml"], brief.Inputs.Select(static i => i.Name));
        Assert.Equal(0.3e-12, DesignBrief.Of(file, new DesignOptions { BypassOpenF = 0.3e-12 }, new DiagnosticBag())!
            .Question.BypassOpenF!.Value, 1e-24);
    }

    // The file that is written beside a site's circuits says the capacitance itself, and so stands alone.
    [Fact]
    public void Requirement_written_of_it_reads_back_with_the_same_contacts()
    {
        (RequirementFile? file, _) = Read(Head + "bypass: b.bypass.yaml\n", ("b.bypass.yaml", Relay));
        DesignBrief brief = DesignBrief.Of(file!, new DesignOptions(), new DiagnosticBag())!;
        (RequirementFile? again, string findings) = Read(DesignedCircuitFile.Requirement(brief));
        Assert.Equal("", findings);
        Assert.Equal(file!.BypassOpenF!.Value, again!.BypassOpenF!.Value, 1e-24);
    }

    [Theory]
    [InlineData("bypass: not-there.bypass.yaml\n",
        "r.requirement.yaml:5:9: there is no file 'not-there.bypass.yaml'; write a path relative to this file, with '/' between folders, "
            + "or { open: 0.8 pF }")]
    [InlineData("bypass: other.yaml\n",
        "r.requirement.yaml:5:9: 'other.yaml' is no bypass relay; name a *.bypass.yaml here, or write { open: 0.8 pF }")]
    [InlineData("bypass: wide.bypass.yaml\n",
        "r.requirement.yaml:5:9: the relay's line is of 75 ohm, the filter's ports are of 50 ohm; write the line's impedance, or name a "
            + "relay made for it")]
    public void Read_refuses_what_is_no_relay_where_it_is_named(string lines, string expected)
    {
        (RequirementFile? file, string findings) = Read(
            Head + lines,
            ("other.yaml", "spurless_circuit: 1\n"),
            ("wide.bypass.yaml", Named("impedance: 50 ohm", "impedance: 75 ohm")));
        Assert.Null(file);
        Assert.Equal(expected, findings);
    }

    [Fact]
    public void Read_tells_a_fault_of_the_relay_at_its_place_there()
    {
        (RequirementFile? file, string findings) = Read(
            Head + "bypass: broken.bypass.yaml\n", ("broken.bypass.yaml", Named("open: 0.8 pF", "open: wide")));
        Assert.Null(file);
        string[] lines = Relay.Split('\n');
        int line = Array.FindIndex(lines, static l => l.Contains("open: 0.8 pF", StringComparison.Ordinal));
        int column = lines[line].IndexOf("0.8 pF }", lines[line].IndexOf("open:", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.StartsWith(FormattableString.Invariant($"broken.bypass.yaml:{line + 1}:{column + 1}: "), findings, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', findings);
    }
}
