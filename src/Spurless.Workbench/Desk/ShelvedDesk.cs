using System.Collections.Concurrent;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Studies;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Desk;

/// <summary>A site file of an open folder on its desk, with the studies of it that were begun.</summary>
/// <param name="file">The file as it was read.</param>
/// <param name="desk">The desk; null where the file has errors.</param>
/// <param name="findings">All that is wrong with it.</param>
/// <param name="time">The clock.</param>
public sealed class ShelvedDesk(FolderText file, StudyDesk? desk, IReadOnlyList<Diagnostic> findings, TimeProvider time)
{
    // A slider leaves hundreds of studies behind: the last few are enough for going back and forth.
    private const int MostKept = 24;

    private readonly ConcurrentDictionary<(int Receiver, string Settings), DeskStudy> _studies = new();

    /// <summary>The file as it was read.</summary>
    public FolderText File => file;

    /// <summary>The desk; null where the file has errors.</summary>
    public StudyDesk? Desk => desk;

    /// <summary>All that is wrong with the file and those it names.</summary>
    public IReadOnlyList<Diagnostic> Findings => findings;

    /// <summary>Thresholds and limits of all studies here.</summary>
    public StudyOptions Options { get; } = new();

    /// <summary>A study of one receiver, begun now unless it was before.</summary>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="settings">What was changed.</param>
    public DeskStudy Study(int receiver, DeskSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        StudyDesk open = desk ?? throw new InvalidOperationException("a file with errors is not studied");
        (int, string) key = (receiver, settings.ToString());
        if (_studies.TryGetValue(key, out DeskStudy? begun) && !begun.Stopped)
        {
            return begun;
        }

        if (_studies.Count >= MostKept)
        {
            foreach ((int Receiver, string Settings) old in _studies.Keys.Where(static k => k.Settings.Length > 0))
            {
                _studies.TryRemove(old, out _);
            }
        }

        DeskStudy study = new(open, receiver, settings, Options, time);
        _studies[key] = study;
        return study;
    }
}
