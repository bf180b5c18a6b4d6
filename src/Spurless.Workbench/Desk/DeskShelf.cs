using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Desk;

/// <summary>
/// The desks of an open folder: one per site file, kept until anything in the folder changes. Safe for use by several threads.
/// </summary>
public sealed class DeskShelf
{
    // A folder may hold a drawer full of sweeps; as many as these are offered.
    private const int MostOffered = 40;

    private readonly OpenFolder _folder;
    private readonly TimeProvider _time;
    private readonly Lock _gate = new();
    private readonly Lock[] _opening = [.. Enumerable.Range(0, 16).Select(static _ => new Lock())];
    private readonly Dictionary<string, (int Revision, ShelvedDesk Desk)> _desks = new(StringComparer.Ordinal);
    private readonly Dictionary<string, ShelvedDesk> _good = new(StringComparer.Ordinal);

    /// <param name="folder">The folder.</param>
    /// <param name="time">The clock, for how long a study takes.</param>
    public DeskShelf(OpenFolder folder, TimeProvider time) => (_folder, _time) = (folder, time);

    /// <summary>The desk of a site file as it stands on disk.</summary>
    /// <param name="name">Its name within the folder.</param>
    /// <returns>The desk; null where there is no such file.</returns>
    public ShelvedDesk? Of(string name)
    {
        if (Kept(name) is { } kept)
        {
            return kept;
        }

        // Of many pages that come after a change the first opens the desk, and all others work at it. Other files rarely wait for that.
        lock (_opening[(uint)name.GetHashCode(StringComparison.Ordinal) % _opening.Length])
        {
            return Kept(name) ?? Open(name);
        }
    }

    private ShelvedDesk? Kept(string name)
    {
        int revision = _folder.Revision;
        lock (_gate)
        {
            return _desks.TryGetValue(name, out (int Revision, ShelvedDesk Desk) kept) && kept.Revision == revision ? kept.Desk : null;
        }
    }

    private ShelvedDesk? Open(string name)
    {
        int revision = _folder.Revision;
        if (_folder.Session.Read(name) is not { } file)
        {
            lock (_gate)
            {
                _good.Remove(name);
            }

            return null;
        }

        StudyDesk? desk = StudyDesk.Open(
            file.Text, name, new FilesBeside(_folder.Paths, name), Offered(name), out IReadOnlyList<Diagnostic> findings);
        ShelvedDesk shelved = new(file, desk, findings, _time);
        lock (_gate)
        {
            _desks[name] = (revision, shelved);
            if (desk is not null)
            {
                _good[name] = shelved;
            }
        }

        return shelved;
    }

    /// <summary>The last desk of a site file that had no error: what a page shows while there is one.</summary>
    /// <param name="name">Its name within the folder.</param>
    /// <returns>The desk; null where the file had errors ever since it was first asked for.</returns>
    public ShelvedDesk? LastGood(string name)
    {
        lock (_gate)
        {
            return _good.GetValueOrDefault(name);
        }
    }

    /// <summary>Circuits first, then sweeps, of the site file's own folder and those below it, as the site file would name them.</summary>
    private IEnumerable<string> Offered(string site)
    {
        string beside = NamesInFolder.Beside(site);
        return _folder.Files
            .Where(
                f =>
                    f.Kind == FileKind.Circuit
                        || (f.Kind == FileKind.Touchstone && f.Name.EndsWith(".s2p", StringComparison.OrdinalIgnoreCase)))
            .Where(f => f.Name.StartsWith(beside, StringComparison.Ordinal))
            .OrderBy(static f => f.Kind)
            .Select(f => f.Name[beside.Length..])
            .Take(MostOffered);
    }
}
