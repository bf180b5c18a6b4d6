using Spurless.Sites.Designs;
using Spurless.Sites.Documents.Circuits;
using Spurless.Sites.Documents.Requirements;
using Spurless.Workbench.Designs;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Designs;

/// <summary>What a designed circuit of a folder names as its requirement, on every system the same.</summary>
public sealed class FolderTuningTests : IDisposable
{
    private readonly string _path = Directory.CreateTempSubdirectory("spurless-tuning-").FullName;
    private readonly OpenFolder _folder;

    public FolderTuningTests()
    {
        Directory.CreateDirectory(Path.Combine(_path, "filters", "made"));
        Write("top.requirement.yaml", RequirementTemplate.Text);
        Write("filters/ours.requirement.yaml", RequirementTemplate.Text);
        _folder = new OpenFolder(_path, TimeProvider.System);
    }

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    [Theory]
    [InlineData("a.circuit.yaml", "top.requirement.yaml", "top.requirement.yaml")]
    [InlineData("a.circuit.yaml", "./top.requirement.yaml", "top.requirement.yaml")]
    [InlineData("filters/a.circuit.yaml", "ours.requirement.yaml", "filters/ours.requirement.yaml")]
    [InlineData("filters/a.circuit.yaml", "../top.requirement.yaml", "top.requirement.yaml")]
    [InlineData("filters/made/a.circuit.yaml", "../ours.requirement.yaml", "filters/ours.requirement.yaml")]
    [InlineData("filters/made/a.circuit.yaml", "../../filters/./ours.requirement.yaml", "filters/ours.requirement.yaml")]
    [InlineData("filters/made/a.circuit.yaml", "..\\ours.requirement.yaml", "filters/ours.requirement.yaml")]
    [InlineData("filters/a.circuit.yaml", "nowhere.requirement.yaml", null)]
    [InlineData("a.circuit.yaml", "../top.requirement.yaml", null)]
    [InlineData("a.circuit.yaml", "", null)]
    public void RequirementOf_is_the_file_of_the_folder_that_is_named(string circuit, string named, string? expected)
    {
        Write(circuit, DesignedCircuitFile.RequirementMark + " " + named + "\n" + CircuitTemplate.Text);
        Assert.Equal(expected, FolderTuning.RequirementOf(_folder, circuit));
    }

    [Fact]
    public void RequirementOf_a_circuit_that_names_none_or_is_not_there_is_nothing()
    {
        Write("a.circuit.yaml", CircuitTemplate.Text);
        Assert.Null(FolderTuning.RequirementOf(_folder, "a.circuit.yaml"));
        Assert.Null(FolderTuning.RequirementOf(_folder, "nowhere.circuit.yaml"));
        Assert.Empty(FolderTuning.Turnable(_folder, "a.circuit.yaml"));
        Assert.Empty(FolderTuning.Turnable(_folder, "nowhere.circuit.yaml"));
    }

    [Fact]
    public void Question_says_what_is_wrong_with_each_file()
    {
        Write("a.circuit.yaml", CircuitTemplate.Text.Replace("4.0 pF", "4.0", StringComparison.Ordinal));
        Write("bad.requirement.yaml", RequirementTemplate.Text.Replace("loss: 2.5 dB", "loss: 2.5", StringComparison.Ordinal));
        Assert.Null(FolderTuning.Question(
            _folder, "a.circuit.yaml", "no.s2p", "bad.requirement.yaml", [], out IReadOnlyList<Files.Diagnostics.Diagnostic> findings));
        Assert.Contains(
            findings, static f => f.File.EndsWith("bad.requirement.yaml", StringComparison.Ordinal) && f.What == "'2.5' has no unit");
        Assert.Null(FolderTuning.Question(_folder, "a.circuit.yaml", "no.s2p", "top.requirement.yaml", [], out findings));
        Assert.Contains(findings, static f => f.What == "'4.0' has no unit");
    }

    private void Write(string name, string text) => File.WriteAllText(Path.Combine(_path, name), text);
}
