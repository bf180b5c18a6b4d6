using CsCheck;
using Spurless.Files.Diagnostics;

namespace Spurless.Files.Tests.Diagnostics;

public sealed class DiagnosticBagTests
{
    private static readonly Gen<Diagnostic> Any = Gen.Select(
        Gen.Bool, Pick.From("a", "b", "c"), Gen.Int[0, 4], Gen.Int[0, 3], Pick.From("x", "y")).Select(
        static (error, file, line, column, what) =>
            new Diagnostic(error ? Severity.Error : Severity.Warning, file, line, column, what, "write something else"));

    [Theory]
    [InlineData(Severity.Error, "a.yaml", 3, 7, "a.yaml:3:7: 'x' is no level; write -20 dBm")]
    [InlineData(Severity.Warning, "a.yaml", 3, 7, "a.yaml:3:7: warning: 'x' is no level; write -20 dBm")]
    [InlineData(Severity.Error, "", 0, 0, ":0:0: 'x' is no level; write -20 dBm")]
    public void ToString_is_file_line_column_what_and_remedy(Severity severity, string file, int line, int column, string expected) =>
        Assert.Equal(expected, new Diagnostic(severity, file, line, column, "'x' is no level", "write -20 dBm").ToString());

    [Fact]
    public void HasErrors_is_not_set_by_warnings()
    {
        DiagnosticBag bag = new();
        Assert.False(bag.HasErrors);
        bag.Warning("a", 1, 1, "odd", "look at it");
        Assert.False(bag.HasErrors);
        bag.Error("a", 1, 1, "wrong", "mend it");
        Assert.True(bag.HasErrors);
    }

    /// <summary>Oracle: each finding once, files by first appearance, within a file by place, and equal places as they came.</summary>
    [Fact]
    public void InOrder_sorts_by_file_as_met_then_by_place_and_keeps_each_once() => Any.Array[0, 30].Sample(
        static added =>
        {
            DiagnosticBag bag = new();
            bag.AddRange(added.Take(added.Length / 2));
            foreach (Diagnostic one in added.Skip(added.Length / 2))
            {
                bag.Add(one);
            }

            List<Diagnostic> expected = [];
            foreach (string file in added.Select(static d => d.File).Distinct())
            {
                for (int line = 0; line <= 4; line++)
                {
                    for (int column = 0; column <= 3; column++)
                    {
                        expected.AddRange(added.Where(d => d.File == file && d.Line == line && d.Column == column).Distinct());
                    }
                }
            }

            Assert.Equal(expected, bag.InOrder());
            Assert.Equal(added.Any(static d => d.Severity == Severity.Error), bag.HasErrors);
        },
        iter: 1_000);

    [Fact]
    public void Add_more_than_a_file_may_have_keeps_a_hundred_errors_first_and_counts_the_rest()
    {
        DiagnosticBag bag = new();
        for (int i = 1; i <= 150; i++)
        {
            bag.Warning("a", i, 1, "odd", "look at it");
            bag.Warning("a", i, 1, "odd", "look at it"); // the same again is no more
        }

        bag.Error("a", 200, 1, "wrong", "mend it");
        bag.Error("b", 1, 1, "wrong", "mend it");
        IReadOnlyList<Diagnostic> told = bag.InOrder();
        Assert.Equal(102, told.Count);
        Assert.Equal("a:200:1: wrong; mend it", told[99].ToString());
        Assert.Equal("a:200:1: warning: and at least 51 more of this file; mend these first, then check it again", told[100].ToString());
        Assert.Equal("b:1:1: wrong; mend it", told[101].ToString());
    }

    /// <summary>A reading hands its findings to the next: the hundred stay a hundred, and the number of the others stays.</summary>
    [Fact]
    public void AddRange_of_a_full_reading_says_the_same()
    {
        DiagnosticBag first = new();
        for (int i = 1; i <= 1_000; i++)
        {
            first.Error("a", i, 1, "wrong", "mend it");
        }

        DiagnosticBag second = new();
        second.AddRange(first.InOrder());
        Assert.Equal(first.InOrder().Select(static d => d.ToString()), second.InOrder().Select(static d => d.ToString()));
        Assert.True(second.HasErrors);
    }
}
