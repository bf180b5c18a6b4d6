using System.Diagnostics;
using Spurless.Files.Diagnostics;
using Spurless.Signals.Listening;
using Spurless.Sites.Recordings;

namespace Spurless.Workbench.Recordings;

/// <summary>
/// The recordings that pages listen to, each once. What was dropped lies among the temporary files and goes with the program.
/// </summary>
public sealed class RecordingShelf : IDisposable
{
    private const int Most = 12;
    private readonly Lock _gate = new();
    private readonly List<ShelvedRecording> _shelf = [];
    private readonly Dictionary<string, (string Name, string Path)> _dropped = [];
    private string? _place;
    private int _last;

    /// <summary>Something moved on.</summary>
    public event Action? Changed;

    /// <summary>A recording by its name on the shelf.</summary>
    public ShelvedRecording? Find(string? id)
    {
        lock (_gate)
        {
            return _shelf.Find(r => r.Id == id);
        }
    }

    /// <summary>Where dropped files are put meanwhile.</summary>
    public string Place()
    {
        lock (_gate)
        {
            return Path.Combine(_place ??= Directory.CreateTempSubdirectory("spurless-").FullName, (++_last).ToString("0", null));
        }
    }

    /// <summary>Keeps a dropped recording under a name, to be listened to.</summary>
    public void Keep(string id, string name, string path)
    {
        lock (_gate)
        {
            _dropped[id] = (name, path);
        }
    }

    /// <summary>Where a dropped recording lies; null where there is none of that name.</summary>
    public string? PathOf(string id)
    {
        lock (_gate)
        {
            return _dropped.TryGetValue(id, out (string Name, string Path) there) ? there.Path : null;
        }
    }

    /// <summary>Begins to listen, or finds what was begun before.</summary>
    /// <param name="name">The recording's name as the user knows it.</param>
    /// <param name="question">What to listen to.</param>
    /// <param name="key">What tells it from others: name, site and receiver, and the file's state.</param>
    public ShelvedRecording Listen(string name, ListenQuestion question, string key)
    {
        ArgumentNullException.ThrowIfNull(question);
        ShelvedRecording recording;
        lock (_gate)
        {
            if (_shelf.Find(r => r.Id == key) is { } there)
            {
                return there;
            }

            recording = new ShelvedRecording(key, name, question.Path);
            _shelf.Add(recording);
            if (_shelf.Count > Most && _shelf.Find(static r => !r.IsWorking) is { } old)
            {
                _shelf.Remove(old);
            }
        }

        _ = Task.Run(() => Work(recording, question));
        return recording;
    }

    /// <summary>Stops a listening; what was found until then is not kept.</summary>
    public void Stop(ShelvedRecording recording)
    {
        ArgumentNullException.ThrowIfNull(recording);
        recording.Stopping.Cancel();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (_gate)
        {
            _shelf.ForEach(static r => r.Stopping.Cancel());
            if (_place is not null)
            {
                try
                {
                    Directory.Delete(_place, recursive: true);
                }
                catch (IOException)
                {
                    // A browser still plays one of them; the system's own sweep takes it.
                }
            }
        }
    }

    private void Work(ShelvedRecording recording, ListenQuestion question)
    {
        DiagnosticBag findings = new();
        try
        {
            recording.Answer = ListenService.Run(question, findings, new Steps(this, recording), recording.Stopping.Token);
            recording.Problems = [.. findings.InOrder().Select(static d => $"{Path.GetFileName(d.File)}: {d.What}; {d.Remedy}")];
        }
        catch (OperationCanceledException)
        {
            recording.Problems = ["stopped; choose the recording again to begin anew"];
        }
        finally
        {
            recording.IsWorking = false;
            Changed?.Invoke();
        }
    }

    private sealed class Steps(RecordingShelf shelf, ShelvedRecording recording) : IProgress<ListenProgress>
    {
        private readonly Stopwatch _clock = Stopwatch.StartNew();

        public void Report(ListenProgress value)
        {
            recording.Fraction = value.OfS > 0 ? Math.Clamp(value.DoneS / value.OfS, 0, 1) : 0;
            recording.Left = recording.Fraction > 0.02 ? _clock.Elapsed * ((1 - recording.Fraction) / recording.Fraction) : null;
            shelf.Changed?.Invoke();
        }
    }
}
