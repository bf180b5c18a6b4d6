using CsCheck;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

/// <summary>
/// Steps of any kind in any order, with an editor that writes in between, against a model that keeps whole folders: what is undone is
/// exactly what was done, and nothing that somebody else wrote is lost.
/// </summary>
public sealed class FolderSessionModelTests
{
    private static readonly string[] _names = ["a.site.yaml", "b.site.yaml", "filters/c.circuit.yaml", "new folder/d.csv"];

    private static readonly Gen<Step> _step = Gen.Select(
        Gen.Enum<Doing>(), Gen.Int[0, 3], Gen.Int[0, 3], Gen.OneOf("one\n", "two\n", "", "# Ω, zwölf\r\n", "\uFEFFwith a mark\n"),
        static (doing, name, other, text) => new Step(doing, _names[name], _names[other], text));

    private enum Doing
    {
        Save,
        SaveStale,
        Rename,
        Remove,
        Undo,
        Redo,
        EditorWrites,
        EditorDeletes,
    }

    [Fact]
    public void Any_steps_move_through_the_folders_of_the_model() => _step.Array[1, 25].Sample(static steps =>
    {
        string folder = Directory.CreateTempSubdirectory("spurless-model-").FullName;
        try
        {
            Model model = new();
            FolderSession session = new(folder);
            foreach (Step step in steps)
            {
                model.Do(step, session, folder);
                Assert.Equal(model.Files, OnDisk(folder));
                Assert.Equal(model.Files, _names.Select(session.Read).OfType<FolderText>().ToDictionary(static f => f.Name, static f =>
                    f.Text));
                Assert.Equal(model.Undoable, session.NextUndo is not null);
                Assert.Equal(model.Redoable, session.NextRedo is not null);
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    });

    [Fact]
    public void All_steps_undone_are_the_folder_as_it_was_and_all_redone_the_folder_as_it_is() =>
        Gen.Select(_step, Gen.Int[0, 9], static (s, _) => s).Array[1, 15].Sample(static steps =>
        {
            string folder = Directory.CreateTempSubdirectory("spurless-model-").FullName;
            try
            {
                File.WriteAllText(Path.Combine(folder, _names[0]), "as found\n");
                FolderSession session = new(folder);
                Dictionary<string, string> first = OnDisk(folder);
                foreach (Step step in steps.Where(static s => s.Doing is Doing.Save or Doing.Rename or Doing.Remove))
                {
                    new Model().Do(step, session, folder, check: false);
                }

                Dictionary<string, string> last = OnDisk(folder);
                while (session.Undo() is { } undone)
                {
                    Assert.Equal(SaveOutcome.Saved, undone);
                }

                Assert.Equal(first, OnDisk(folder));
                while (session.Redo() is { } redone)
                {
                    Assert.Equal(SaveOutcome.Saved, redone);
                }

                Assert.Equal(last, OnDisk(folder));
            }
            finally
            {
                Directory.Delete(folder, recursive: true);
            }
        });

    // What lies hidden is no file of the folder's.
    private static Dictionary<string, string> OnDisk(string folder) => Directory
        .EnumerateFiles(folder, "*", SearchOption.AllDirectories)
        .Select(f => Path.GetRelativePath(folder, f).Replace(Path.DirectorySeparatorChar, '/'))
        .Where(static n => !n.StartsWith('.'))
        .ToDictionary(static n => n, n => new System.Text.UTF8Encoding(false).GetString(File.ReadAllBytes(Path.Combine(folder, n))));

    private sealed record Step(Doing Doing, string Name, string Other, string Text);

    private sealed class Model
    {
        // A step that was done: the whole folder before and after it, and the files that it touched.
        private readonly Stack<(Dictionary<string, string> Before, Dictionary<string, string> After, string[] Touched)> _done = [];
        private readonly Stack<(Dictionary<string, string> Before, Dictionary<string, string> After, string[] Touched)> _undone = [];

        public Dictionary<string, string> Files { get; private set; } = [];

        public bool Undoable => _done.Count > 0;

        public bool Redoable => _undone.Count > 0;

        public void Do(Step step, FolderSession session, string folder, bool check = true)
        {
            string path = Path.Combine(folder, step.Name);
            switch (step.Doing)
            {
                case Doing.Save:
                    Is(SaveOutcome.Saved, session.Save(step.Name, step.Text, session.Read(step.Name)?.Version, "step"));
                    Done([step.Name], f => f[step.Name] = step.Text);
                    break;
                case Doing.SaveStale:
                    Is(SaveOutcome.ChangedMeanwhile, session.Save(step.Name, step.Text, "no such version", "step"));
                    break;
                case Doing.Rename:
                    bool can = Files.ContainsKey(step.Name) && !Files.ContainsKey(step.Other);
                    Is(can ? SaveOutcome.Saved : SaveOutcome.Refused, session.Rename(step.Name, step.Other, "step"));
                    if (can)
                    {
                        Done(
                            [step.Name, step.Other],
                            f =>
                            {
                                f.Remove(step.Name, out string? text);
                                f[step.Other] = text!;
                            });
                    }

                    break;
                case Doing.Remove:
                    bool there = Files.ContainsKey(step.Name);
                    Is(there ? SaveOutcome.Saved : SaveOutcome.Refused, session.Remove(step.Name));
                    if (there)
                    {
                        Done([step.Name], f => f.Remove(step.Name));
                    }

                    break;
                case Doing.Undo:
                    Move(session.Undo(), _done, _undone, static s => s.After, static s => s.Before);
                    break;
                case Doing.Redo:
                    Move(session.Redo(), _undone, _done, static s => s.Before, static s => s.After);
                    break;
                case Doing.EditorWrites:
                    Directory.CreateDirectory(Path.GetDirectoryName(path)!);
                    File.WriteAllText(path, step.Text + "by hand\n");
                    Files[step.Name] = step.Text + "by hand\n";
                    break;
                default:
                    if (Directory.Exists(Path.GetDirectoryName(path)))
                    {
                        File.Delete(path);
                    }

                    Files.Remove(step.Name);
                    break;
            }

            void Is(SaveOutcome expected, SaveOutcome actual)
            {
                if (check)
                {
                    Assert.Equal(expected, actual);
                }
            }
        }

        private void Done(string[] touched, Action<Dictionary<string, string>> change)
        {
            Dictionary<string, string> before = new(Files);
            change(Files);
            _done.Push((before, new(Files), touched));
            _undone.Clear();
        }

        private void Move(
            SaveOutcome? outcome,
            Stack<(Dictionary<string, string> Before, Dictionary<string, string> After, string[] Touched)> from,
            Stack<(Dictionary<string, string> Before, Dictionary<string, string> After, string[] Touched)> to,
            Func<(Dictionary<string, string> Before, Dictionary<string, string> After, string[] Touched), Dictionary<string, string>> here,
            Func<(Dictionary<string, string> Before, Dictionary<string, string> After, string[] Touched), Dictionary<string, string>> there)
        {
            if (from.Count == 0)
            {
                Assert.Null(outcome);
                return;
            }

            var step = from.Peek();

            // A text is taken back only where it is still the text of the step; a move takes the file along as it is now.
            bool moved = step.Before.Values.Order(StringComparer.Ordinal).SequenceEqual(step.After.Values.Order(StringComparer.Ordinal))
                && !step.Before.Keys.ToHashSet().SetEquals(step.After.Keys);
            bool removed = step.Before.Count == step.After.Count + 1 && step.Touched.Length == 1;
            if (moved || removed)
            {
                string at = step.Touched.FirstOrDefault(n => here(step).ContainsKey(n), ""), back = step.Touched.FirstOrDefault(
                    n => there(step).ContainsKey(n), "");
                bool can = (at.Length == 0 || Files.ContainsKey(at)) && (back.Length == 0 || !Files.ContainsKey(back));
                Assert.Equal(can ? SaveOutcome.Saved : SaveOutcome.ChangedMeanwhile, outcome);
                if (can)
                {
                    string? text = at.Length == 0 ? _trash.GetValueOrDefault((step.Before, back)) ?? step.Before[back] : Files[at];
                    Files.Remove(at);
                    if (back.Length > 0)
                    {
                        Files[back] = text;
                    }
                    else
                    {
                        _trash[(step.Before, at)] = text;
                    }

                    to.Push(from.Pop());
                }

                return;
            }

            string name = step.Touched[0];
            bool same = Files.GetValueOrDefault(name) == here(step).GetValueOrDefault(name);
            Assert.Equal(same ? SaveOutcome.Saved : SaveOutcome.ChangedMeanwhile, outcome);
            if (same)
            {
                if (there(step).TryGetValue(name, out string? text))
                {
                    Files[name] = text;
                }
                else
                {
                    Files.Remove(name);
                }

                to.Push(from.Pop());
            }
        }

        // What a removal that was redone took away may have been another text than at first.
        private readonly Dictionary<(Dictionary<string, string>, string), string> _trash = [];
    }
}
