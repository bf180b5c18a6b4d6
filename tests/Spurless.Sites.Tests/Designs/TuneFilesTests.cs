using System.Text;
using Spurless.Design.Questions;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Designs;
using Spurless.Sites.Sources;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Designs;

/// <summary>What is wrong with the files of a filter that is tuned is said at its line, with what to write.</summary>
public class TuneFilesTests
{
    private const string Circuit = """
        # One tank.
        spurless_circuit: 1
        name: tank
        ports: { in: a, out: b, impedance: 50 ohm }
        parts:
          C1: { capacitor: 5 pF, between: [a, t] }
          L1: { inductor: 30 nH, between: [t, gnd], q: 100 at 145 MHz }
          C2: { capacitor: 36 pF, between: [t, gnd] }
          R1: { resistor: 1 ohm, between: [t, b] }

        """;

    private const string Sweep = "# MHz S RI R 50\n144 1 0 0.1 0 0.1 0 1 0\n146 1 0 0.1 0 0.1 0 1 0\n";

    private static readonly DesignQuestion _question = new() { Name = "any", PassFromHz = 144e6, PassToHz = 146e6, MostLossDb = 3 };

    [Fact]
    public void Load_without_a_turnable_part_says_so_at_the_first_part_with_what_to_write() => Assert.Equal(
        "a.circuit.yaml:6:3: no part says that it can be turned; "
            + "name them: --turn C1,L1, or end the line of each with the comment '# adjust'",
        Assert.Single(Findings(null, _question)).ToString());

    [Fact]
    public void Load_of_a_part_that_is_not_there_or_does_not_turn_names_those_that_do() => Assert.Equal(
        [
            "a.circuit.yaml:6:3: there is no part 'C9' to turn; name some of: C1, L1, C2",
            "a.circuit.yaml:9:3: 'R1' has no value that turns; name some of: C1, L1, C2",
        ],
        Findings(["C9", "R1"], _question).Select(static f => f.ToString()));

    [Fact]
    public void Load_with_other_impedances_says_so_at_the_ports() => Assert.Contains(
        "a.circuit.yaml:4:",
        Assert.Single(Findings(["C2"], _question with { ImpedanceOhm = 75 })).ToString(),
        StringComparison.Ordinal);

    [Fact]
    public void Turnable_are_the_parts_whose_comment_begins_with_the_mark()
    {
        const string plain = "between: [t, gnd] }";
        string text = Circuit.Replace(plain, plain + " # adjust: a trimmer of 3 to 15 pF", StringComparison.Ordinal);
        DiagnosticBag findings = new();
        Assert.Equal(["C2"], TuneFiles.Turnable(SourceReader.TracedCircuit(
            SourceFile.OfText("a.circuit.yaml", text, new StubFiles()), findings)!));
        Assert.Equal("../needs.requirement.yaml", TuneFiles.RequirementIn(["# x", "# Requirement: ../needs.requirement.yaml "]));
        Assert.Null(TuneFiles.RequirementIn(["# x"]));
    }

    private static IReadOnlyList<Diagnostic> Findings(IReadOnlyList<string>? turn, DesignQuestion question)
    {
        DiagnosticBag findings = new();
        Assert.Null(TuneFiles.Load(
            question,
            SourceFile.OfText("a.circuit.yaml", Circuit, new StubFiles()),
            new SourceFile("a.s2p", Encoding.UTF8.GetBytes(Sweep), new StubFiles()),
            turn,
            findings));
        return findings.InOrder();
    }
}
