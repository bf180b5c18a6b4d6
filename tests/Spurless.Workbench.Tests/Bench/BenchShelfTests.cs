using Spurless.Circuits.Measured;
using Spurless.Sites.Documents.Circuits;
using Spurless.Workbench.Bench;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Bench;

/// <summary>The circuits and sweeps of a folder, as they stand on disk and as they last were without an error.</summary>
public sealed class BenchShelfTests : IDisposable
{
    private const string Two = "# MHz S RI R 50\n100 0.1 0 0.9 0 0.9 0 0.1 0\n200 0.1 0 0.8 0 0.8 0 0.1 0\n300 0.2 0 0.7 0 0.7 0 0.2 0\n";

    private readonly string _path = Directory.CreateTempSubdirectory("spurless-bench-").FullName;
    private readonly OpenFolder _folder;
    private readonly BenchShelf _shelf;

    public BenchShelfTests()
    {
        Write("a.circuit.yaml", CircuitTemplate.Text);
        Write("two.s2p", Two);
        Write("one.s1p", "# MHz S RI R 50\n100 0.1 0\n200 0.2 0\n300 0.3 0\n");
        Write("broken.s2p", "# MHz S RI R 50\n100 0.1 zero 0.9 0 0.9 0 0.1 0\n");
        _folder = new OpenFolder(_path, TimeProvider.System);
        _shelf = new BenchShelf(_folder);
    }

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    [Fact]
    public void Lists_hold_each_file_in_its_place()
    {
        Assert.Equal(["a.circuit.yaml"], _shelf.Circuits);
        Assert.Equal(["broken.s2p", "two.s2p"], _shelf.Sweeps);
        Assert.Equal(["broken.s2p", "one.s1p", "two.s2p"], _shelf.AllSweeps);
    }

    [Fact]
    public void LastGood_is_what_stood_there_before_the_mistake()
    {
        Assert.Null(_shelf.LastGood("a.circuit.yaml")); // not asked for yet
        ShelvedBench good = _shelf.Of("a.circuit.yaml")!;
        Assert.NotNull(good.Bench);
        string typed = CircuitTemplate.Text.Replace("4.0 pF", "4.0 furlong", StringComparison.Ordinal);
        Assert.Equal(SaveOutcome.Saved, _folder.Session.Save("a.circuit.yaml", typed, good.File.Version, "typed"));
        ShelvedBench wrong = _shelf.Of("a.circuit.yaml")!;
        Assert.Null(wrong.Bench);
        Assert.Equal(2, wrong.Findings.Count); // C1 and C5
        Assert.Same(good, _shelf.LastGood("a.circuit.yaml"));
        Assert.False(_shelf.FormOf("a.circuit.yaml")!.Findings.Count == 0);
        Assert.Equal(7, _shelf.FormOf("a.circuit.yaml")!.Parts.Count);

        // Put right, it is the file again; gone, nothing is left of it.
        _folder.Session.Undo();
        Assert.NotNull(_shelf.Of("a.circuit.yaml")!.Bench);
        File.Delete(Path.Combine(_path, "a.circuit.yaml"));
        _folder.Look();
        Assert.Null(_shelf.Of("a.circuit.yaml"));
        Assert.Null(_shelf.LastGood("a.circuit.yaml"));
    }

    [Fact]
    public void Sweep_is_a_two_port_that_reads_and_nothing_else()
    {
        MeasuredTwoPort two = _shelf.Sweep("two.s2p")!;
        Assert.Equal((100e6, 300e6), (two.LowestHz, two.HighestHz));
        Assert.Null(_shelf.Sweep("one.s1p"));
        Assert.Null(_shelf.Sweep("broken.s2p"));
        Assert.Null(_shelf.Sweep("nowhere.s2p"));
        Assert.Null(_shelf.Sweep("../two.s2p"));
        Assert.Null(_shelf.Sweep("a.circuit.yaml"));
    }

    [Fact]
    public void Beside_is_a_sweep_or_a_circuit_that_can_be_drawn()
    {
        Assert.NotNull(_shelf.Beside("two.s2p")!.Value.Sweep);
        Assert.NotNull(_shelf.Beside("a.circuit.yaml")!.Value.Circuit);
        Assert.Null(_shelf.Beside("broken.s2p"));
        Assert.Null(_shelf.Beside("nowhere.circuit.yaml"));
    }

    [Theory]
    [InlineData("two.s2p", true, "")]
    [InlineData("one.s1p", true, "")]
    [InlineData("broken.s2p", false, "'zero'")]
    [InlineData("nowhere.s2p", false, "there is no such sweep in the folder")]
    public void ForFit_takes_what_reads_and_says_what_is_wrong_with_the_rest(string sweep, bool taken, string what)
    {
        Assert.Equal(taken, _shelf.ForFit("a.circuit.yaml", sweep, out IReadOnlyList<Files.Diagnostics.Diagnostic> findings) is not null);
        if (!taken)
        {
            Assert.Contains(findings, f => f.What.Contains(what, StringComparison.Ordinal) && f.Remedy.Length > 0);
        }
    }

    [Fact]
    public void ForFit_of_a_circuit_with_an_error_says_what_is_wrong_with_the_circuit()
    {
        Write("bad.circuit.yaml", CircuitTemplate.Text.Replace("4.0 pF", "4.0", StringComparison.Ordinal));
        _folder.Look();
        Assert.Null(_shelf.ForFit("bad.circuit.yaml", "two.s2p", out IReadOnlyList<Files.Diagnostics.Diagnostic> findings));
        Assert.Contains(findings, static f => f.What == "'4.0' has no unit");
    }

    private void Write(string name, string text) => File.WriteAllText(Path.Combine(_path, name), text);
}
