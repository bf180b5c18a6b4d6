using CsCheck;
using Spurless.Sites.Storage;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

/// <summary>Undo keeps what changed, not whole files, and not without end.</summary>
public sealed class UndoBoundTests : IDisposable
{
    private static readonly Gen<string> Texts = Gen.String[Gen.Char["ab\n\u00e9\ud83d\ude00"], 0, 30];

    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-undo-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    /// <summary>
    /// The case of the attack: 200 edits of a file of 544 kB. Whole versions were 435 MB; the edits change 10 characters each.
    /// </summary>
    [Fact]
    public void Steps_of_a_large_file_keep_what_each_changed_and_go_all_the_way_back()
    {
        string text = string.Concat(Enumerable.Range(0, 17_000).Select(static i => $"- line number {i:00000} of it all\n"));
        FolderSession session = new(_folder);
        session.Save("a.site.yaml", text, null, "new");
        List<string> versions = [text];
        int kept = 0;
        for (int i = 0; i < 200; i++)
        {
            text = text.Replace($"line number {i * 80:00000} ", $"line called {i * 80:00000} ", StringComparison.Ordinal);
            Assert.Equal(SaveOutcome.Saved, session.Save("a.site.yaml", text, session.Read("a.site.yaml")!.Version, $"edit {i}"));
            kept += session.NextUndo!.Size;
            versions.Add(text);
        }

        Assert.InRange(kept, 200 * 8, 200 * 14); // 'number' and 'called' differ in up to six signs on each side
        for (int i = 199; i >= 0; i--)
        {
            Assert.Equal(SaveOutcome.Saved, session.Undo());
            Assert.Equal(versions[i], File.ReadAllText(Path.Combine(_folder, "a.site.yaml")));
        }

        for (int i = 1; i <= 200; i++)
        {
            Assert.Equal(SaveOutcome.Saved, session.Redo());
        }

        Assert.Equal(versions[200], File.ReadAllText(Path.Combine(_folder, "a.site.yaml")));
    }

    [Fact]
    public void Difference_leads_from_either_text_to_the_other() =>
        Gen.Select(Texts, Texts).Sample((a, b) =>
        {
            TextDifference difference = TextDifference.Of(a, b);
            Assert.Equal(a, difference.Earlier(b));
            Assert.Equal(b, difference.Later(a));
            Assert.True(difference.Size <= a.Length + b.Length);
        });

    [Fact]
    public void Add_beyond_the_bounds_forgets_the_oldest_and_keeps_the_last()
    {
        StepList steps = new();
        for (int i = 0; i <= StepList.MostSteps; i++)
        {
            steps.Add(Step(i.ToString(System.Globalization.CultureInfo.InvariantCulture), 1));
        }

        int left = 0;
        for (; steps.Last is not null; left++)
        {
            steps.RemoveLast();
        }

        Assert.Equal(StepList.MostSteps, left);
        Assert.Equal(0, steps.Text);
        steps.Add(Step("small", 10));
        steps.Add(Step("large", StepList.MostText + 1)); // more than may be kept at all: it alone stays
        Assert.Equal("large", steps.Last!.What);
        steps.RemoveLast();
        Assert.Null(steps.Last);
    }

    /// <summary>
    /// Another program writes between our reading and our replacing: what it wrote stays, and the save is told as a conflict. Many
    /// threads stand for the other program; each counts up a number in the file as an editor would, by the same rules.
    /// </summary>
    [Fact]
    public async Task Save_from_two_sessions_that_do_not_know_each_other_loses_no_edit()
    {
        const int Each = 150;
        string name = "a.site.yaml";
        Directory.CreateDirectory(Path.Combine(_folder, ".spurless")); // as where pages are served
        File.WriteAllText(Path.Combine(_folder, name), "0");
        await Task.WhenAll(Enumerable.Range(0, 2).Select(_ => Task.Run(() =>
        {
            FolderSession session = new(_folder); // a lock of its own, as another process has
            for (int done = 0; done < Each;)
            {
                if (session.Read(name) is not { } now)
                {
                    continue;
                }

                string next = (int.Parse(now.Text, System.Globalization.CultureInfo.InvariantCulture) + 1)
                    .ToString(System.Globalization.CultureInfo.InvariantCulture);
                done += session.Save(name, next, now.Version, "count") == SaveOutcome.Saved ? 1 : 0;
            }
        })));
        Assert.Equal((2 * Each).ToString(System.Globalization.CultureInfo.InvariantCulture), File.ReadAllText(Path.Combine(_folder, name)));
        Assert.Equal(
            [".spurless", name], Directory.EnumerateFileSystemEntries(_folder).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    /// <summary>The moment between reading and replacing, held open: what was written in it stays.</summary>
    [Fact]
    public void TryReplace_of_a_file_that_changed_in_the_last_moment_leaves_it_as_it_is()
    {
        string path = Path.Combine(_folder, "a.site.yaml");
        File.WriteAllText(path, "one");
        Assert.False(WholeFile.TryReplace(
            path,
            to =>
            {
                to.Write("ours"u8);
                File.WriteAllText(path, "theirs"); // after the caller looked, before the new text takes its place
            },
            there => File.ReadAllText(there) == "one"));
        Assert.Equal("theirs", File.ReadAllText(path));
        Assert.False(WholeFile.TryReplace(path, to => to.Write("ours"u8), null));
        Assert.Equal("theirs", File.ReadAllText(path));
        Assert.True(WholeFile.TryReplace(path, to => to.Write("ours"u8), there => File.ReadAllText(there) == "theirs"));
        Assert.Equal("ours", File.ReadAllText(path));
        Assert.Single(Directory.EnumerateFileSystemEntries(_folder));
    }

    private static FolderStep Step(string what, int size) =>
        new(what, "a") { Difference = new TextDifference(0, "", new string('x', size), null, "") };
}
