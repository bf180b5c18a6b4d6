using Spurless.Sites.Designs;
using Spurless.Workbench.Designs;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Designs;

/// <summary>Designs of an open folder: briefs of files and drawn masks, and what is written of them.</summary>
public sealed class DesignShelfTests : IDisposable
{
    private const string Text = """
        spurless_requirement: 1
        name: ours
        pass: { from: 144.9 MHz, to: 145.2 MHz, loss: 3 dB } # ours
        reject:
          - { at: 160 MHz, by: 20 dB }

        """;

    private readonly string _path = Directory.CreateTempSubdirectory("spurless-designs-").FullName;
    private readonly OpenFolder _folder;
    private readonly DesignShelf _shelf;

    public DesignShelfTests()
    {
        File.WriteAllText(Path.Combine(_path, "a.requirement.yaml"), Text);
        _folder = new OpenFolder(_path, TimeProvider.System);
        _shelf = new DesignShelf(_folder);
    }

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    [Fact]
    public async Task BriefAsync_with_a_mask_of_ones_own_keeps_what_else_the_file_says()
    {
        FolderBrief file = await _shelf.BriefAsync("a.requirement.yaml", new DesignWish());
        Assert.False(file.IsEdited);
        FolderBrief drawn = await _shelf.BriefAsync(
            "a.requirement.yaml", new DesignWish { Mask = "144.9-145.2,3;160,25;158,12", TransmitW = 25 });
        Assert.True(drawn.IsEdited);
        Assert.Equal([25, 12], drawn.Brief!.Question.Reject.Select(static r => r.LeastLossDb));
        Assert.Equal((25, "ours"), (drawn.Brief.Question.TransmitW, drawn.Brief.Question.Name));
        Assert.True(drawn.Brief.WritesRequirement);
        Assert.False(file.Brief!.WritesRequirement);
    }

    [Fact]
    public async Task BriefAsync_without_a_file_is_what_is_drawn()
    {
        Assert.Null((await _shelf.BriefAsync("", new DesignWish())).Brief);
        DesignBrief drawn = (await _shelf.BriefAsync("", new DesignWish { Mask = "50.2-50.4,3;61,20", InductorQ = 220 })).Brief!;
        Assert.Empty(drawn.Faults);
        Assert.Equal(220, drawn.Question.Parts.InductorQ!.Q);
        DesignBrief within = (await _shelf.BriefAsync("", new DesignWish { Mask = "50.2-50.4,3;50.3,20" })).Brief!;
        Assert.Equal(
            "50.3 MHz: this lies in the band that must pass; move the one or narrow the other", Assert.Single(within.Faults));
    }

    [Fact]
    public async Task WriteRequirement_writes_over_nothing_and_reads_back_as_the_mask()
    {
        DesignBrief drawn = (await _shelf.BriefAsync("", new DesignWish { Mask = "50.2-50.4,3,12;61,20;80-85,35" })).Brief!;
        string name = _shelf.WriteRequirement(drawn, out string? problem)!;
        Assert.Equal(("designed/needs.requirement.yaml", null), (name, problem));
        Assert.Equal(name, _shelf.WriteRequirement(drawn, out _)); // the same is there
        DesignBrief other = (await _shelf.BriefAsync("", new DesignWish { Mask = "50.2-50.4,3" })).Brief!;
        Assert.Equal("designed/needs-2.requirement.yaml", _shelf.WriteRequirement(other, out _));
        _folder.Look();
        FolderBrief back = await _shelf.BriefAsync(name, new DesignWish());
        Assert.Equal("", string.Join(' ', back.Findings));
        DesignBrief read = back.Brief!;
        Assert.Equal(DesignWish.MaskOf(drawn.Question), DesignWish.MaskOf(read.Question));
        Assert.NotNull((await _shelf.BriefAsync("designed/needs-2.requirement.yaml", new DesignWish())).Brief);
        Assert.Equal(Text, File.ReadAllText(Path.Combine(_path, "a.requirement.yaml")));
    }

    [Fact]
    public async Task Known_is_the_last_design_of_the_same_question_only()
    {
        DesignBrief one = (await _shelf.BriefAsync("a.requirement.yaml", new DesignWish())).Brief!;
        DesignReading reading = DesignService.Run(one, null, new CancellationToken(true));
        _shelf.Keep(reading);
        Assert.Same(reading, _shelf.Known(one));
        Assert.Same(reading, _shelf.Known((await _shelf.BriefAsync("a.requirement.yaml", new DesignWish())).Brief!));
        Assert.Null(_shelf.Known((await _shelf.BriefAsync("a.requirement.yaml", new DesignWish { InductorQ = 99 })).Brief!));
    }
}
