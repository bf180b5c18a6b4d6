using System.Collections.Concurrent;
using System.Text;
using Spurless.Design.Questions;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Designs;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Designs;

/// <summary>What a page is to design.</summary>
/// <param name="OfFile">What the file asks for, with the wishes but for the mask; null where there is no file, or it has an error.</param>
/// <param name="Brief">What is asked, mask and all; null where nothing is asked yet, or the file has an error.</param>
/// <param name="Findings">All that is wrong with the file.</param>
public sealed record FolderBrief(DesignBrief? OfFile, DesignBrief? Brief, IReadOnlyList<Diagnostic> Findings)
{
    /// <summary>Nothing is asked yet.</summary>
    public static FolderBrief None { get; } = new(null, null, []);

    /// <summary>Whether the mask is another than the file's.</summary>
    public bool IsEdited => Brief is not null && (OfFile is null
        || DesignWish.MaskOf(OfFile.Question) != DesignWish.MaskOf(Brief.Question));
}

/// <summary>
/// Designs of an open folder: what its requirements and sites ask for, what was found for it, and the files written of it. The last
/// designs are kept, so that who comes back finds them. Safe for use by several threads.
/// </summary>
public sealed class DesignShelf
{
    /// <summary>Folder within the folder into which circuits are written.</summary>
    public const string Home = "designed/";

    private const int MostKept = 6;

    private readonly OpenFolder _folder;
    private readonly ConcurrentDictionary<string, (int Revision, Task<FolderBrief> Brief)> _briefs = new(StringComparer.Ordinal);
    private readonly List<(string Key, DesignReading Reading)> _kept = [];
    private readonly Lock _lock = new();

    /// <param name="folder">The folder.</param>
    public DesignShelf(OpenFolder folder) => _folder = folder;

    /// <summary>Names of the folder's requirements, then of its sites.</summary>
    public IReadOnlyList<string> Sources =>
        [.. _folder.FilesOf(FileKind.Requirement).Concat(_folder.FilesOf(FileKind.Site)).Select(static f => f.Name)];

    /// <summary>What a file of the folder asks for; computed beside the caller, since a site is studied for it.</summary>
    /// <param name="file">Its name within the folder; empty for a mask without a file.</param>
    /// <param name="wish">What is asked beyond it.</param>
    public Task<FolderBrief> BriefAsync(string file, DesignWish wish)
    {
        ArgumentNullException.ThrowIfNull(wish);
        int revision = _folder.Revision;
        string key = $"{file}|{wish with { Mask = null }}";
        if (!_briefs.TryGetValue(key, out (int Revision, Task<FolderBrief> Brief) kept) || kept.Revision != revision)
        {
            kept = (revision, Task.Run(() => OfFile(file, wish)));
            _briefs[key] = kept;
        }

        return kept.Brief.IsCompletedSuccessfully
            ? Task.FromResult(Masked(kept.Brief.Result, wish))
            : WaitAsync(kept.Brief);

        async Task<FolderBrief> WaitAsync(Task<FolderBrief> asked) => Masked(await asked.ConfigureAwait(false), wish);
    }

    /// <summary>What was found for a brief; null where it was not designed, or long ago.</summary>
    public DesignReading? Known(DesignBrief brief)
    {
        string key = KeyOf(brief);
        lock (_lock)
        {
            return _kept.FirstOrDefault(k => k.Key == key).Reading;
        }
    }

    /// <summary>Keeps what was found.</summary>
    public void Keep(DesignReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        string key = KeyOf(reading.Brief);
        lock (_lock)
        {
            _kept.RemoveAll(k => k.Key == key);
            _kept.Insert(0, (key, reading));
            _kept.RemoveRange(Math.Min(MostKept, _kept.Count), Math.Max(0, _kept.Count - MostKept));
        }
    }

    /// <summary>Writes a circuit of a design into the folder, with its requirement where that is in no file; Undo takes it back.</summary>
    /// <param name="reading">The design.</param>
    /// <param name="file">The circuit.</param>
    /// <param name="problem">Why it was not written: 'what; what to do instead'; null where it was, or is there already.</param>
    /// <returns>The circuit file's name within the folder; null with a problem.</returns>
    public string? Write(DesignReading reading, DesignedFile file, out string? problem)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(file);
        problem = null;
        string? asked = reading.Brief.WritesRequirement ? WriteRequirement(reading.Brief, out problem) : reading.Brief.Source;
        if (asked is null)
        {
            return null;
        }

        string text = file.Text.Replace(
            DesignedCircuitFile.RequirementMark + reading.Brief.RequirementPath,
            DesignedCircuitFile.RequirementMark + NamesInFolder.From(Home + file.FileName, asked),
            StringComparison.Ordinal);
        return Put(Home + file.FileName, ".circuit.yaml", text, out problem);
    }

    /// <summary>Writes what is asked as a requirement file of its own; Undo takes it back.</summary>
    /// <param name="brief">What is asked.</param>
    /// <param name="problem">Why it was not written; null where it was, or is there already.</param>
    /// <returns>The file's name within the folder; null with a problem.</returns>
    public string? WriteRequirement(DesignBrief brief, out string? problem) =>
        Put(Home + DesignBrief.NeedsFile, ".requirement.yaml", DesignedCircuitFile.Requirement(brief), out problem);

    private static string KeyOf(DesignBrief brief)
    {
        DesignQuestion q = brief.Question;
        return FormattableString.Invariant(
            $"{brief.Source}|{brief.RequirementPath}|{q.Seed}|{q.MostCandidates}|{q.BypassOpenF}|{DesignedCircuitFile.Requirement(brief)}");
    }

    private FolderBrief OfFile(string file, DesignWish wish)
    {
        if (file.Length == 0 || _folder.Session.Read(file) is not { } text)
        {
            return FolderBrief.None;
        }

        DiagnosticBag findings = new();
        DesignOptions options = new() { InductorQ = wish.InductorQ, TransmitW = wish.TransmitW };
        DesignBrief? brief;
        if (_folder.FilesOf(FileKind.Site).Any(f => f.Name == file))
        {
            FolderSite site = _folder.SiteOf(text);
            SiteDesignOptions wanted = new();
            wanted = wanted with { Receiver = wish.Receiver, MarginDb = wish.MarginDb ?? wanted.MarginDb };
            brief = site.Site is { } loaded ? DesignBrief.Of(loaded, file, wanted, options, findings) : null;
            return new(brief, brief, [.. site.Errors, .. findings.InOrder()]);
        }

        SourceFile source = SourceFile.OfText(file, text.Text, _folder.Beside(file));
        brief = SourceReader.Requirement(source, findings) is { } requirement ? DesignBrief.Of(requirement, options, findings) : null;
        if (brief is not null && (wish.InductorQ ?? wish.TransmitW) is not null)
        {
            brief = brief.Edited(brief.Question); // the file does not say so
        }

        return new(brief, brief, findings.InOrder());
    }

    private static FolderBrief Masked(FolderBrief of, DesignWish wish)
    {
        if (wish.Mask is not { } mask || of.Findings.Any(static f => f.Severity == Severity.Error))
        {
            return of;
        }

        if (of.OfFile is { } there)
        {
            return DesignWish.With(mask, there.Question) is { } question && DesignWish.MaskOf(question) != DesignWish.MaskOf(there.Question)
                ? of with { Brief = there.Edited(question) }
                : of;
        }

        DesignQuestion blank = new()
        {
            Name = "drawn on the bench",
            PassFromHz = 1,
            PassToHz = 2,
            MostLossDb = 3,
            TransmitW = wish.TransmitW,
        };
        return DesignWish.With(mask, blank) is { } drawn ? of with { Brief = OfMask(drawn, wish) } : of;
    }

    private static DesignBrief OfMask(DesignQuestion drawn, DesignWish wish)
    {
        DesignBrief brief = DesignBrief.OfMask(drawn);
        return wish.InductorQ is { } q
            ? brief.Edited(brief.Question with { Parts = brief.Question.Parts with { InductorQ = new(q, drawn.CentreHz) } })
            : brief;
    }

    // A name that is taken by other contents gets a number behind it.
    private string? Put(string name, string ending, string text, out string? problem)
    {
        problem = null;
        for (int n = 1; ; n++)
        {
            string free = n == 1 ? name : FormattableString.Invariant($"{name[..^ending.Length]}-{n}{ending}");
            if (_folder.Session.Read(free) is { } there)
            {
                if (there.Text == text)
                {
                    return free;
                }

                continue;
            }

            problem = FolderIntake.Take(_folder, free, Encoding.UTF8.GetBytes(text));
            return problem is null ? free : null;
        }
    }
}
