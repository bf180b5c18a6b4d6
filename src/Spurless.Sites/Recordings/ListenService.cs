using Spurless.Files.Diagnostics;
using Spurless.Signals.Listening;
using Spurless.Signals.Recordings;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Recordings;

/// <summary>Says what kind of transmission is on a recording, and when. Nothing is written, and nothing of what was said is kept.</summary>
public static class ListenService
{
    private const string MetaEnding = ".sigmf-meta";
    private const string DataEnding = ".sigmf-data";
    private const int MostMeta = 16 << 20;

    /// <summary>Listens.</summary>
    /// <param name="question">What to listen to.</param>
    /// <param name="findings">What is wrong with the recording.</param>
    /// <param name="progress">Told now and then, or null.</param>
    /// <param name="cancellationToken">Stops the listening.</param>
    /// <returns>What was heard, or null where the recording cannot be used.</returns>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public static ListenAnswer? Run(
        ListenQuestion question, DiagnosticBag findings, IProgress<ListenProgress>? progress = null,
            CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(findings);
        return With(
            question,
            findings,
            recording =>
            {
                Heard heard = recording.Format.IsComplex
                    ? BandListener.Listen(recording, progress, cancellationToken)
                    : AudioListener.Listen(recording, progress, cancellationToken);
                return Answer(question, heard, cancellationToken);
            },
            cancellationToken);
    }

    /// <summary>Looks at a recording without listening to it: what its head says.</summary>
    /// <param name="path">A WAV, or a SigMF recording by either of its files.</param>
    /// <param name="findings">What is wrong with it.</param>
    /// <param name="cancellationToken">Stops the reading.</param>
    /// <returns>How long it is and how often it was sampled; null where it cannot be used.</returns>
    public static RecordingLook? Look(string path, DiagnosticBag findings, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(findings);
        return With(
            new ListenQuestion { Path = path },
            findings,
            static recording => new RecordingLook(recording.DurationS, recording.Format.RateHz),
            cancellationToken);
    }

    /// <summary>Opens a recording, does something with it, and closes it.</summary>
    /// <returns>What was made of it; null where it cannot be used.</returns>
    internal static T? With<T>(
        ListenQuestion question, DiagnosticBag findings, Func<Recording, T?> use, CancellationToken cancellationToken)
        where T : class
    {
        string path = question.Path;
        if (question.Input is null && Directory.Exists(path))
        {
            findings.Error(path, -1, -1, "this is a folder", "give the recording in it");
            return null;
        }

        List<FileStream> open = [];
        try
        {
            Recording? recording = question.Input is null && IsSigMf(path) ? OpenSigMf(question, findings, open, cancellationToken)
                : OpenWav(question, findings, open);
            return recording is null ? null : use(recording);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            bool missing = e is FileNotFoundException or DirectoryNotFoundException;
            findings.Error(path, -1, -1, missing ? "there is no such file" : "the file cannot be read", missing ? "check the name"
                : "see to its permissions and its disk");
            return null;
        }
        finally
        {
            open.ForEach(static f => f.Dispose());
        }
    }

    private static ListenAnswer Answer(ListenQuestion question, Heard heard, CancellationToken cancellationToken)
    {
        IReadOnlyList<MixtureFit> fits = [];
        string? receiver = null;
        if (question.Site is { } site)
        {
            receiver = question.Receiver ?? site.Document.Receivers[0].Name;
            fits = SiteFits.Weigh(heard, StudyService.Run(site, new StudyOptions(), null, cancellationToken), site.Document, receiver);
        }

        ListenAnswer answer = new(question.Path, heard, fits, receiver, HeardLogs.Make(heard, question.Site?.Document, receiver));
        if (question.Site?.Document.Receivers.FirstOrDefault(r => r.Name == receiver) is not { } place)
        {
            return answer;
        }

        List<Transmission> on = SiteFits.OnChannel(heard, place.Frequency.Hertz, place.Channel.Hertz);
        return answer with
        {
            OnChannel = [.. SiteFits.Kinds(on).Order()],
            DeviationHz = on.Max(static t => t.DeviationHz),
        };
    }

    /// <summary>Whether a name is that of one of the two files of a SigMF recording.</summary>
    internal static bool IsSigMf(string path) =>
        path.EndsWith(MetaEnding, StringComparison.OrdinalIgnoreCase) || path.EndsWith(DataEnding, StringComparison.OrdinalIgnoreCase);

    private static Recording? OpenWav(ListenQuestion question, DiagnosticBag findings, List<FileStream> open)
    {
        Stream file = question.Input ?? Open(question.Path, open);
        return WavReader.Open(file, question.Path, question.CentreHz is null ? question.Channel : WavUse.Iq, question.CentreHz, findings);
    }

    private static Recording? OpenSigMf(ListenQuestion question, DiagnosticBag findings, List<FileStream> open,
        CancellationToken cancellationToken)
    {
        string stem = question.Path[..^MetaEnding.Length];
        string metaPath = stem + MetaEnding;
        string dataPath = stem + DataEnding;
        using FileStream meta = Open(metaPath, []);
        if (meta.Length > MostMeta)
        {
            findings.Error(metaPath, -1, -1, "the description is larger than 16 MB", "leave annotations out that are not needed");
            return null;
        }

        byte[] text = new byte[meta.Length];
        meta.ReadExactly(text);
        return SigMfReader.Open(
            text,
            metaPath,
            dataset =>
            {
                // A name in the description is that of a file beside it, never a way out of its folder.
                string path = dataset is null ? dataPath : Path.Combine(Path.GetDirectoryName(metaPath) ?? "", Path.GetFileName(dataset));
                return File.Exists(path) ? Open(path, open) : null;
            },
            dataPath,
            question.CentreHz,
            findings,
            cancellationToken);
    }

    private static FileStream Open(string path, List<FileStream> open)
    {
        FileStream file = new(path, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16, FileOptions.SequentialScan);
        open.Add(file);
        return file;
    }
}
