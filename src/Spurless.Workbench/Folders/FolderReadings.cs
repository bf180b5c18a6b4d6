using System.Globalization;
using Spurless.Circuits.Response;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Search;
using Spurless.Sites;
using Spurless.Sites.Checking;
using Spurless.Sites.Documents;
using Spurless.Sites.Responses;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Workbench.Folders;

/// <summary>
/// Reads the files of an open folder and studies its sites, one after the other in the background, so that no page waits for another one's
/// work. A file is read again when it, or a file it names, changes; until then the last result stays. Where nobody listens it is read when
/// it is asked for: else every cell that is saved would have a study of its site run beside it. Safe for use by several threads.
/// </summary>
public sealed class FolderReadings : IDisposable
{
    private readonly OpenFolder _folder;
    private readonly TimeProvider _time;
    private readonly Lock _gate = new();
    private readonly Dictionary<string, Entry> _entries = new(StringComparer.Ordinal);
    private readonly LinkedList<string> _queue = [];
    private readonly CancellationTokenSource _closed = new();
    private bool _running;

    /// <param name="folder">The folder.</param>
    /// <param name="time">The clock, for the time left.</param>
    public FolderReadings(OpenFolder folder, TimeProvider time)
    {
        (_folder, _time) = (folder, time);
        folder.Changed += OnChanged;
    }

    /// <summary>Told the name of a file whose reading came on. Comes on any thread.</summary>
    public event Action<string>? Changed;

    /// <summary>What is known of all files, the sites first, then by name. What is not known yet is begun.</summary>
    public IReadOnlyList<FileReading> All =>
        [.. _folder.Files.OrderBy(static f => f.Kind == FileKind.Site ? 0 : 1).Select(f => Of(f, first: false))];

    /// <summary>What is known of a file, which is begun if need be; null where the folder has none of that name.</summary>
    public FileReading? Of(string name) => _folder.Files.FirstOrDefault(f => f.Name == name) is { } file ? Of(file, first: true) : null;

    /// <summary>Waits until a file is read, or its study done or stopped.</summary>
    /// <returns>The reading; null where the folder has no such file.</returns>
    public async Task<FileReading?> FinishedAsync(string name, CancellationToken cancellationToken)
    {
        TaskCompletionSource told = new(TaskCreationOptions.RunContinuationsAsynchronously);
        void Listen(string changed)
        {
            if (changed == name)
            {
                Volatile.Read(ref told).TrySetResult();
            }
        }

        Changed += Listen;
        try
        {
            while (true)
            {
                if (Of(name) is not { } reading || reading.Stage is ReadingStage.Done or ReadingStage.Stopped)
                {
                    return Of(name);
                }

                await told.Task.WaitAsync(cancellationToken).ConfigureAwait(false);
                Volatile.Write(ref told, new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously));
            }
        }
        finally
        {
            Changed -= Listen;
        }
    }

    /// <summary>Stops what is being done for a file; it is not begun again until asked for, or until it changes.</summary>
    public void Stop(string name)
    {
        lock (_gate)
        {
            if (_entries.TryGetValue(name, out Entry? entry) && entry.Reading.Stage is ReadingStage.Waiting or ReadingStage.Working)
            {
                _queue.Remove(name);
                entry.Cancel?.Cancel();
                entry.Reading = entry.Reading with { Stage = ReadingStage.Stopped };
            }
        }

        Changed?.Invoke(name);
    }

    /// <summary>Begins again what was stopped.</summary>
    public void Again(string name)
    {
        lock (_gate)
        {
            if (_entries.TryGetValue(name, out Entry? entry) && entry.Reading.Stage == ReadingStage.Stopped)
            {
                entry.Reading = entry.Reading with { Stage = ReadingStage.Waiting };
                Enqueue(name, first: true);
            }
        }

        Changed?.Invoke(name);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _folder.Changed -= OnChanged;
        _closed.Cancel();
    }

    private FileReading Of(FolderFile file, bool first)
    {
        lock (_gate)
        {
            if (!_entries.TryGetValue(file.Name, out Entry? entry))
            {
                _entries[file.Name] = entry = new Entry { Reading = new FileReading { File = file, Stage = ReadingStage.Waiting } };
                Enqueue(file.Name, first);
            }
            else if (entry.IsPutOff && entry.Reading.Stage == ReadingStage.Waiting)
            {
                entry.IsPutOff = false;
                Enqueue(file.Name, first);
            }

            return entry.Reading;
        }
    }

    private void OnChanged(FolderChange change)
    {
        lock (_gate)
        {
            HashSet<string> there = [.. _folder.Files.Select(static f => f.Name)];
            foreach ((string name, Entry entry) in _entries.ToArray())
            {
                if (!there.Contains(name))
                {
                    entry.Cancel?.Cancel();
                    _entries.Remove(name);
                    _queue.Remove(name);
                }
                else if (change.Names.Contains(name) || entry.Inputs.Overlaps(change.Names) || entry.Reading.Errors > 0)
                {
                    entry.Cancel?.Cancel();
                    entry.Reading = entry.Reading with { Stage = ReadingStage.Waiting, IsBefore = true };
                    entry.IsPutOff = Changed is null;
                    if (!entry.IsPutOff)
                    {
                        Enqueue(name, first: false);
                    }
                }
            }
        }
    }

    private void Enqueue(string name, bool first)
    {
        _queue.Remove(name);
        _ = first ? _queue.AddFirst(name) : _queue.AddLast(name);
        if (!_running)
        {
            _running = true;
            _ = Task.Run(Work);
        }
    }

    private void Work()
    {
        while (true)
        {
            Entry entry;
            string name;
            CancellationTokenSource cancel;
            lock (_gate)
            {
                if (_queue.First is not { } next || _closed.IsCancellationRequested)
                {
                    _running = false;
                    return;
                }

                _queue.RemoveFirst();
                name = next.Value;
                entry = _entries[name];
                cancel = CancellationTokenSource.CreateLinkedTokenSource(_closed.Token);
                entry.Cancel = cancel;
                entry.Reading = entry.Reading with { Stage = ReadingStage.Working, Fraction = 0, Left = null };
            }

            Changed?.Invoke(name);
            try
            {
                (FileReading reading, IEnumerable<string> inputs) = Read(
                    entry.Reading.File, name, new Teller(this, name, entry), cancel.Token);
                lock (_gate)
                {
                    if (!cancel.IsCancellationRequested)
                    {
                        entry.Reading = reading;
                        entry.Inputs = [.. inputs];
                    }
                }
            }
            catch (OperationCanceledException)
            {
                // Whoever cancelled has said what comes now.
            }
            catch (Exception e)
            {
                // A fault of ours must not end the reading of all other files.
                lock (_gate)
                {
                    entry.Reading = entry.Reading with
                    {
                        Stage = ReadingStage.Done,
                        Problem =
                            $"this is a fault of the program ({e.GetType().Name}: {e.Message}); the other files are not touched by it",
                    };
                }
            }
            finally
            {
                lock (_gate)
                {
                    entry.Cancel = null;
                    cancel.Dispose();
                }
            }

            Changed?.Invoke(name);
        }
    }

    private (FileReading Reading, IEnumerable<string> Inputs) Read(
        FolderFile file, string name, IProgress<SearchProgress> progress, CancellationToken cancel)
    {
        file = FolderScan.One(_folder.Paths, name) ?? file;
        FileReading done = new() { File = file, Stage = ReadingStage.Done };
        if (file.Kind == FileKind.Site)
        {
            return ReadSite(done, progress, cancel);
        }

        if (_folder.Paths.TryResolve(name, out string path) && SiteFolder.ReadFile(path) is { } bytes)
        {
            FilesBeside beside = new(_folder.Paths, name);
            SourceFile source = new(name, bytes, beside);
            CheckResult check = FileCheck.Run(source);
            done = done with { File = file with { Kind = check.Kind }, Holds = check.Holds, Findings = check.Findings };
            if (file.Kind is FileKind.Circuit or FileKind.Touchstone && check.Errors == 0)
            {
                DiagnosticBag findings = new();
                ResponseResult? response = null;
                if (SourceReader.Network(source, findings) is { } network)
                {
                    Outcome<ResponseAnswer> outcome = ResponseService.Ask(new ResponseQuestion { Network = network }, null, cancel);
                    network.Circuit?.Report(outcome.Faults, findings);
                    response = outcome.Answer?.Result;
                    if (outcome.Refusal is { } refusal)
                    {
                        findings.Error(name, 0, 0, refusal.What, refusal.Remedy);
                    }
                }

                Diagnostic[] further = [.. findings.InOrder().Except(check.Findings)];
                done = done with { Passband = response?.Passband, Problem = further.Length == 0 ? null : Summary(further) };
            }

            return (done, beside.Asked);
        }

        return (done with { Findings = [Unreadable(name)] }, []);
    }

    private (FileReading Reading, IEnumerable<string> Inputs) ReadSite(
        FileReading done, IProgress<SearchProgress> progress, CancellationToken cancel)
    {
        if (_folder.Site(done.File.Name) is not { } site)
        {
            return (done with { Findings = [Unreadable(done.File.Name)] }, []);
        }

        done = done with { Findings = site.Findings };
        if (site.Site is not { } loaded)
        {
            return (done, site.Asked);
        }

        string receivers = Count(loaded.Document.Receivers.Count, "receiver");
        done = done with { Holds = $"{receivers}, {Count(loaded.Document.Emitters.Count, "emitter")}" };
        try
        {
            return (done with { Study = StudyService.Run(loaded, new StudyOptions(), progress, cancel) }, site.Asked);
        }
        catch (TooManyProductsException e)
        {
            return (done with { Problem = e.Message }, site.Asked);
        }
    }

    // A circuit whose parts are still to be found is no faulty file, but it has no response yet.
    private static string Summary(Diagnostic[] findings) => string.Create(
        CultureInfo.InvariantCulture,
        $"no response yet: "
            + $"{findings[0].What}{(findings.Length == 1 ? "" : $", and {findings.Length - 1} more of the kind")}; {findings[0].Remedy}");

    private static string Count(int count, string of) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {of}{(count == 1 ? "" : "s")}");

    private sealed class Entry
    {
        public required FileReading Reading { get; set; }

        /// <summary>The files that went into it, or would have if they were there.</summary>
        public HashSet<string> Inputs { get; set; } = [];

        public CancellationTokenSource? Cancel { get; set; }

        /// <summary>Whether it changed while nobody listened: it is begun when it is asked for.</summary>
        public bool IsPutOff { get; set; }
    }

    /// <summary>Passes a search's progress on, a few times a second.</summary>
    private sealed class Teller(FolderReadings readings, string name, Entry entry) : IProgress<SearchProgress>
    {
        private static readonly TimeSpan Interval = TimeSpan.FromSeconds(0.2);

        private readonly long _start = readings._time.GetTimestamp();
        private TimeSpan _next = Interval;

        public void Report(SearchProgress value)
        {
            lock (readings._gate)
            {
                TimeSpan gone = readings._time.GetElapsedTime(_start);
                if (gone < _next || entry.Reading.Stage != ReadingStage.Working)
                {
                    return;
                }

                _next = gone + Interval;
                double fraction = Math.Clamp(value.Fraction, 0, 1);
                entry.Reading = entry.Reading with
                {
                    Fraction = fraction,
                    Left = fraction > 0.01 ? gone * ((1 - fraction) / fraction) : null,
                };
            }

            readings.Changed?.Invoke(name);
        }
    }

    private static Diagnostic Unreadable(string name) =>
        new(Severity.Error, name, 0, 0, "the file cannot be read", "see to its permissions and its size, at most 10 MB");
}
