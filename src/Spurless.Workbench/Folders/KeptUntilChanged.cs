using System.Collections.Concurrent;

namespace Spurless.Workbench.Folders;

/// <summary>
/// What is made of files of an open folder, by the file's name, each kept until anything in the folder changes. Safe for use by several
/// threads.
/// </summary>
/// <typeparam name="T">What is made of a file.</typeparam>
internal sealed class KeptUntilChanged<T>(OpenFolder folder)
    where T : class
{
    private readonly ConcurrentDictionary<string, (int Revision, T Made)> _all = new(StringComparer.Ordinal);

    /// <summary>What is kept of a file as the folder stands, else made now; null, which is not kept, where nothing is made.</summary>
    /// <param name="name">The file's name within the folder.</param>
    /// <param name="make">Makes it.</param>
    public T? Of(string name, Func<T?> make)
    {
        // Before it is made: what changes meanwhile is then made anew at the next call.
        int revision = folder.Revision;
        if (_all.TryGetValue(name, out (int Revision, T Made) kept) && kept.Revision == revision)
        {
            return kept.Made;
        }

        T? made = make();
        if (made is not null)
        {
            _all[name] = (revision, made);
        }

        return made;
    }
}
