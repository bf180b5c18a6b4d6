using System.Diagnostics;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Sources;

public sealed class SourceFileTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("spurless").FullName;
    private readonly DiagnosticBag _findings = new();

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    /// <summary>The hash of "abc": FIPS 180-4's example, from memory.</summary>
    [Fact]
    public void Input_carries_name_and_hash_of_the_bytes_read()
    {
        SourceFile source = new("a.site.yaml", "abc"u8.ToArray(), new StubFiles());
        Assert.Equal(new InputFile("a.site.yaml", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"), source.Input);
        Assert.Equal("abc", source.Text);
    }

    [Fact]
    public async Task ReadAsync_takes_a_file_with_those_beside_it()
    {
        string path = Put("a.circuit.yaml", "spurless_circuit: 1\n");
        Put("b.s2p", "# MHz S RI R 50\n");
        SourceFile? source = await SourceFile.ReadAsync(path, FileKind.Circuit, _findings, TestContext.Current.CancellationToken);
        Assert.NotNull(source);
        Assert.Equal(FileKind.Circuit, source.Kind);
        Assert.Equal("# MHz S RI R 50\n"u8.ToArray(), source.Folder.Read("b.s2p"));
        Assert.Empty(_findings.InOrder());
    }

    [Theory]
    [InlineData(FileKind.Circuit, "there is no such file; check the name, and the folder you are in")]
    [InlineData(FileKind.Site, "there is no such file; check the name, or make one with 'new site'")]
    public void Read_missing_file_is_a_finding(FileKind wanted, string says)
    {
        string path = Path.Combine(_folder, "nothing");
        Assert.Null(SourceFile.Read(path, wanted, _findings));
        Assert.Equal($"{path}:0:0: {says}", Assert.Single(_findings.InOrder()).ToString());
    }

    [Fact]
    public void Read_folder_is_a_finding()
    {
        Assert.Null(SourceFile.Read(_folder, FileKind.Requirement, _findings));
        Assert.Equal($"{_folder}:0:0: this is a folder; name a file in it", Assert.Single(_findings.InOrder()).ToString());
    }

    /// <summary>A pipe without a writer never ends: it is waited for so long, and no longer than somebody wants.</summary>
    [Fact]
    public async Task ReadAsync_of_a_pipe_that_gives_nothing_ends_by_time_and_by_wish()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Only there the program sees what is no regular file.");
        string path = Path.Combine(_folder, "a.site.yaml");
        using (Process make = Process.Start("mkfifo", [path]))
        {
            await make.WaitForExitAsync(TestContext.Current.CancellationToken);
        }

        Assert.Null(await SourceFile.ReadAsync(
            path, FileKind.Site, _findings, TimeSpan.FromMilliseconds(250), TestContext.Current.CancellationToken));
        Assert.Equal(
            $"{path}:0:0: this is a pipe or a device, and did not come to its end within 0.25 s; "
                + "name a file, or write - and send it to standard input",
            Assert.Single(_findings.InOrder()).ToString());
        using CancellationTokenSource wish = new(TimeSpan.FromMilliseconds(250));
        await Assert.ThrowsAnyAsync<OperationCanceledException>(
            () => SourceFile.ReadAsync(path, FileKind.Site, new DiagnosticBag(), wish.Token));
    }

    [Fact]
    public async Task ReadAsync_of_a_pipe_with_a_writer_reads_it_to_its_end()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Only there the program sees what is no regular file.");
        string path = Path.Combine(_folder, "a.site.yaml");
        using (Process make = Process.Start("mkfifo", [path]))
        {
            await make.WaitForExitAsync(TestContext.Current.CancellationToken);
        }

        Task<SourceFile?> reading = SourceFile.ReadAsync(path, FileKind.Site, _findings, TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(path, "spurless: 1\n", TestContext.Current.CancellationToken);
        Assert.Equal("spurless: 1\n", (await reading)!.Text);
    }

    [Fact]
    public void Read_larger_than_such_a_file_may_be_is_a_finding()
    {
        string path = Put("big.circuit.yaml", new string('#', 10_000_001));
        Assert.Null(SourceFile.Read(path, FileKind.Circuit, _findings));
        Assert.Contains("larger than 10 MB", Assert.Single(_findings.InOrder()).What, StringComparison.Ordinal);
    }

    [Fact]
    public void Network_of_a_circuit_lists_the_sweeps_it_names()
    {
        Put("x.s2p", "# MHz S RI R 50\n100 0.1 0 0.9 0 0.9 0 0.1 0\n200 0.1 0 0.9 0 0.9 0 0.1 0\n");
        string path = Put("a.circuit.yaml",
            "spurless_circuit: 1\nports: { in: a, out: b }\nparts:\n  N1: { two_port: x.s2p, between: [a, b] }\n");
        NetworkFile? network = SourceReader.Network(SourceFile.Read(path, FileKind.Circuit, _findings)!, _findings);
        Assert.Empty(_findings.InOrder());
        Assert.Equal([path, Path.Combine(_folder, "x.s2p")], network!.Circuit!.Inputs.Select(static i => i.Name));
    }

    [Theory]
    [InlineData("a.s2p", "# MHz S RI R 50\n100 0 0 1 0 1 0 0 0\n", "a measured sweep tells nothing of its parts; name a *.circuit.yaml")]
    [InlineData("a.requirement.yaml", "spurless_requirement: 1\n", "this is no circuit file; name a *.circuit.yaml")]
    public void Circuit_of_another_kind_is_a_finding(string name, string text, string says)
    {
        Assert.Null(SourceReader.Circuit(SourceFile.OfText(name, text, new StubFiles()), _findings));
        Assert.Equal($"{name}:0:0: {says}", Assert.Single(_findings.InOrder()).ToString());
    }

    [Fact]
    public void Circuit_that_cannot_be_solved_is_a_finding_at_its_part()
    {
        const string Floating =
            "spurless_circuit: 1\nports: { in: a, out: b }\nparts:\n  R1: { resistor: 1 ohm, between: "
                + "[a, b] }\n  R2: { resistor: 1 ohm, between: [c, c] }\n";
        Assert.Null(SourceReader.Circuit(SourceFile.OfText("a.circuit.yaml", Floating, new StubFiles()), _findings));
        Assert.Contains(_findings.InOrder(), static f => f.Line == 5 && f.What.Contains("R2", StringComparison.Ordinal));
    }

    private string Put(string name, string text)
    {
        string path = Path.Combine(_folder, name);
        File.WriteAllText(path, text);
        return path;
    }
}
