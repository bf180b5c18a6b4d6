using Spurless.Sites.Tables;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

/// <summary>A table into a site: one step, the rest of the file as it stood, and remembered for the next.</summary>
public sealed class TableIntakeTests : IDisposable
{
    private const string Site = """
        spurless: 1
        site: hill # ours
        receivers:
          - name: input
            frequency: 145.050 MHz
            channel: 12.5 kHz
            noise_figure: 6 dB
            iip3: -10 dBm
        emitters:
          - name: bus # measured
            frequency: 161.35 MHz
            emission: 11K2F3E

        """;

    private readonly string _path = Directory.CreateTempSubdirectory("spurless-table-").FullName;
    private readonly OpenFolder _folder;

    public TableIntakeTests()
    {
        File.WriteAllText(Path.Combine(_path, "a.site.yaml"), Site.ReplaceLineEndings("\n"));
        _folder = new OpenFolder(_path, TimeProvider.System);
    }

    [Fact]
    public void Write_adds_the_rows_in_one_step_and_remembers_the_columns()
    {
        const string Table = "Who;Channel MHz;Heard\nferry;156,8;-40\nbus;161,35;-20\n";
        Assert.Null(TableIntake.Look(_folder, "a.site.yaml", new TableQuestion { Text = Table }, out TableAnswer? first));
        Assert.Empty(first!.Rows); // 'Channel MHz' and 'Heard' are words of nobody else
        TableQuestion told = first.Question with { Columns = [null, new("frequency", "MHz"), new("level", "dBm")], DecimalComma = true };
        Assert.Null(TableIntake.Look(_folder, "a.site.yaml", told, out TableAnswer? answer));
        Assert.Single(answer!.Rows);
        Assert.Single(answer.Skipped); // the bus stands there already
        Assert.True(TableIntake.Write(_folder, "a.site.yaml", answer).Ok);
        string after = File.ReadAllText(Path.Combine(_path, "a.site.yaml"));
        Assert.Equal(
            Site.ReplaceLineEndings("\n")
                + "  - name: ferry\n    frequency: 156.8 MHz\n    bandwidth: 16 kHz\n    level: -40 dBm\n",
            after);
        _folder.Session.Undo();
        Assert.Equal(Site.ReplaceLineEndings("\n"), File.ReadAllText(Path.Combine(_path, "a.site.yaml")));

        // The next table of the same maker needs no telling, nor does it after the program was started anew.
        using OpenFolder again = new(_path, TimeProvider.System);
        TableQuestion same = new() { Text = "Who;Channel MHz;Heard\ntram;157,8;-50\n" };
        TableIntake.Look(again, "a.site.yaml", same, out TableAnswer? next);
        Assert.Equal("157.8 MHz", Assert.Single(next!.Rows).Value("frequency"));
        Assert.True(File.Exists(Path.Combine(_path, ".spurless", "drafts", "table-columns.json")));
    }

    [Fact]
    public void Attach_names_a_table_of_the_programs_own_heads_and_makes_one_of_any_other()
    {
        File.WriteAllText(Path.Combine(_path, "own.csv"), "name,frequency,emission\ntram,157.8 MHz,11K2F3E\n");
        TableIntake.Look(_folder, "a.site.yaml", new TableQuestion { Text = _folder.Session.Read("own.csv")!.Text }, out TableAnswer? own);
        Assert.True(TableIntake.IsNative(own!));
        Assert.True(TableIntake.Attach(_folder, "a.site.yaml", "own.csv", own!).Ok);
        Assert.Equal("own.csv", TableIntake.AttachedTo(_folder, "a.site.yaml"));
        Assert.Equal(2, _folder.Site("a.site.yaml")!.Site!.Document.Emitters.Count);
        Assert.Contains("already", TableIntake.Attach(_folder, "a.site.yaml", "own.csv", own!).Problem, StringComparison.Ordinal);
        _folder.Session.Undo();

        TableQuestion theirs = new() { Text = "Station;TX (MHz) freq;dBm\ntram;157,8;-50\n" };
        TableIntake.Look(_folder, "a.site.yaml", theirs, out TableAnswer? other);
        Assert.True(TableIntake.Attach(_folder, "a.site.yaml", "lists/theirs.csv", other!).Ok);
        Assert.Equal("lists/theirs.emitters.csv", TableIntake.AttachedTo(_folder, "a.site.yaml"));
        Assert.Empty(_folder.Site("a.site.yaml")!.Errors);
        Assert.Equal(2, _folder.Site("a.site.yaml")!.Site!.Document.Emitters.Count);
    }

    [Fact]
    public void TrySetAll_hundreds_of_new_rows_are_one_splice_with_nested_keys_together()
    {
        List<(string, string)> values = [];
        for (int i = 0; i < 300; i++)
        {
            string at = FormattableString.Invariant($"emitters[{i + 1}].");
            values.AddRange([(at + "name", $"n{i}"), (at + "antenna.gain", "3 dBi"), (at + "frequency", $"{150 + i} MHz"),
                (at + "antenna.height", "20 m")]);
        }

        Assert.True(FieldText.TrySetAll(Site.ReplaceLineEndings("\n"), values, out string? edited, out _));
        Assert.StartsWith(Site.ReplaceLineEndings("\n"), edited, StringComparison.Ordinal);
        Assert.Contains(
            "  - name: n7\n    antenna: { gain: 3 dBi, height: 20 m }\n    frequency: 157 MHz\n", edited, StringComparison.Ordinal);
    }

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }
}
