using Spurless.Circuits.Parts;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Circuits;
using Spurless.Workbench.Bench;

namespace Spurless.Workbench.Tests.Bench;

/// <summary>Every edit of every part of every circuit that comes with the program: its opposite leaves the file as it was.</summary>
public sealed class CircuitEditsPropertyTests
{
    public static TheoryData<string> Files =>
    [
        .. CircuitStarts.All.Select(static s => s.Stem),
        .. Directory.EnumerateFiles(Path.GetDirectoryName(Sites.Tests.TestData.Demo("filters/three-tank.circuit.yaml"))!, "*.circuit.yaml")
            .Select(static f => Path.GetFileName(f)),
    ];

    [Theory]
    [MemberData(nameof(Files))]
    public void Rename_there_and_back_is_the_file_as_it_was(string file) => Each(file, static (text, part) =>
    {
        string renamed = Done(CircuitEdits.Rename(text, part.Name, "Renamed"));
        Assert.NotEqual(text, renamed);
        Assert.DoesNotContain(Parts(renamed), p => p.Name == part.Name);
        Assert.Equal(text, Done(CircuitEdits.Rename(renamed, "Renamed", part.Name)));
    });

    [Theory]
    [MemberData(nameof(Files))]
    public void Copy_and_remove_is_the_file_as_it_was_and_a_copy_the_same_part(string file) => Each(file, static (text, part) =>
    {
        string copied = Done(CircuitEdits.Copy(text, part.Name, "Copy"));
        Part copy = Parts(copied).Single(static p => p.Name == "Copy");
        Assert.Equal(part with { Name = "Copy" }, copy);
        Assert.Equal(text, Done(CircuitEdits.Remove(copied, "Copy")));
    });

    [Theory]
    [MemberData(nameof(Files))]
    public void Connect_elsewhere_and_back_is_the_file_as_it_was(string file) => Each(file, static (text, part) =>
    {
        if (part is TwoTerminalPart two)
        {
            string moved = Done(CircuitEdits.Connect(text, part.Name, "here", "there"));
            Assert.Equal(("here", "there"), Parts(moved).OfType<TwoTerminalPart>().Where(p => p.Name == part.Name)
                .Select(static p => (p.From, p.To)).Single());
            Assert.Equal(text, Done(CircuitEdits.Connect(moved, part.Name, two.From, two.To)));
        }
    });

    [Theory]
    [MemberData(nameof(Files))]
    public void Set_of_a_key_that_was_not_there_and_blank_is_the_file_as_it_was(string file) => Each(file, static (text, part) =>
    {
        PartForm? form = PartForm.All.FirstOrDefault(f => text.Contains($"{part.Name}: {{ {f.Key}:", StringComparison.Ordinal));
        foreach (PartKey key in form?.Further.Where(k => !k.Path.Contains('.', StringComparison.Ordinal)) ?? [])
        {
            if (Spurless.Workbench.Folders.FieldText.ValueOf(text, $"parts.{part.Name}.{key.Path}") is null)
            {
                string set = Done(CircuitEdits.Set(text, part.Name, key, key.Example));
                Assert.Equal(text, Done(CircuitEdits.Set(set, part.Name, key, " ")));
            }
        }
    });

    [Theory]
    [MemberData(nameof(Files))]
    public void Remove_takes_the_part_and_the_couplings_that_name_it_and_nothing_else(string file) => Each(file, static (text, part) =>
    {
        string[] couplings = [.. CircuitEdits.CouplingsOf(text, part.Name)];
        string removed = Done(CircuitEdits.Remove(text, part.Name));
        Assert.Equal(
            Parts(text).Select(static p => p.Name).Where(n => n != part.Name && !couplings.Contains(n)),
            Parts(removed).Select(static p => p.Name));
        Assert.Equal(
            Parts(text).Where(p => p.Name != part.Name && !couplings.Contains(p.Name)), Parts(removed));
    });

    [Fact]
    public void Edits_of_what_is_not_there_say_so_and_give_no_text()
    {
        string text = CircuitStarts.All[0].Text;
        foreach ((string? edited, string? problem) in ((string?, string?)[])
            [
                CircuitEdits.Copy(text, "C99", "C100"), CircuitEdits.Rename(text, "C99", "C100"), CircuitEdits.Remove(text, "C99"),
                CircuitEdits.Wind(text, "C99", [("turns", "2")]), CircuitEdits.Rename(text, "C1", ""),
                CircuitEdits.Rename(text, "C1", "C2"),
                CircuitEdits.Copy("parts: [", "C1", "C2"), CircuitEdits.Connect("parts: [", "C1", "a", "b"),
            ])
        {
            Assert.Null(edited);
            Assert.False(string.IsNullOrWhiteSpace(problem));
            // what; what to do instead
            Assert.Contains("; ", problem, StringComparison.Ordinal);
        }
    }

    private static void Each(string file, Action<string, Part> edit)
    {
        string text = CircuitStarts.All.FirstOrDefault(s => s.Stem == file)?.Text
            ?? File.ReadAllText(Sites.Tests.TestData.Demo("filters/" + file));
        Assert.All(Parts(text), p => edit(text, p));
    }

    private static IReadOnlyList<Part> Parts(string text)
    {
        Circuit? circuit = CircuitReader.Sketch(text, "x.circuit.yaml", static (string _, out Refusal? refusal) =>
        {
            refusal = new("no such file", "give one");
            return null;
        });
        Assert.NotNull(circuit);
        return [.. circuit.Parts];
    }

    private static string Done((string? Text, string? Problem) edit)
    {
        Assert.Null(edit.Problem);
        return edit.Text!;
    }
}
