using Spurless.Files.Diagnostics;
using Spurless.Sites.Receivers;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Receivers;

/// <summary>A receiver's own measurements in an open folder.</summary>
/// <param name="File">Its name, text and version.</param>
/// <param name="Answer">What they say; null where the file has an error.</param>
/// <param name="Findings">All that is wrong with it and with the files that it names.</param>
public sealed record ShelvedReceiver(FolderText File, ReceiverAnswer? Answer, IReadOnlyList<Diagnostic> Findings);

/// <summary>
/// The measurements of receivers in an open folder, each kept until anything in the folder changes. Safe for use by several threads.
/// </summary>
public sealed class ReceiverShelf
{
    private readonly OpenFolder _folder;
    private readonly KeptUntilChanged<ShelvedReceiver> _receivers;

    /// <param name="folder">The folder.</param>
    public ReceiverShelf(OpenFolder folder) => (_folder, _receivers) = (folder, new KeptUntilChanged<ShelvedReceiver>(folder));

    /// <summary>Names of the folder's files of measurements.</summary>
    public IReadOnlyList<string> Receivers => [.. _folder.FilesOf(FileKind.Receiver).Select(static f => f.Name)];

    /// <summary>Measurements as they stand on disk; null where there is no such file.</summary>
    /// <param name="name">Its name within the folder.</param>
    public ShelvedReceiver? Of(string name) => _receivers.Of(name, () => Read(name));

    private ShelvedReceiver? Read(string name)
    {
        if (FileKinds.Of(name, []) != FileKind.Receiver || _folder.Session.Read(name) is not { } file)
        {
            return null;
        }

        DiagnosticBag findings = new();
        LoadedMeasurements? loaded = SourceReader.Measurements(SourceFile.OfText(name, file.Text, _folder.Beside(name)), findings);
        ReceiverAnswer? answer = loaded is null ? null : ReceiverService.Ask(new ReceiverQuestion { Measurements = loaded });
        return new(file, answer, findings.InOrder());
    }

    /// <summary>Writes a key of a reading, or refuses what would be an error and leaves the file as it is.</summary>
    /// <param name="name">The file's name within the folder.</param>
    /// <param name="field">The key, as <see cref="ReceiverReadings"/> names it.</param>
    /// <param name="value">The value as typed; blank takes the key away.</param>
    /// <param name="what">What the step does, in words, for undo.</param>
    public FieldOutcome Set(string name, string field, string value, string what) => Edit(name, what, text =>
        FieldText.TrySet(text, FieldText.Parse(text), field, value, out string? edited, out string? problem)
            ? (edited, null)
            : (null, problem));

    /// <summary>Adds a reading behind the last one, or refuses it and leaves the file as it is.</summary>
    /// <param name="name">The file's name within the folder.</param>
    /// <param name="kind">Its kind, as the file names it.</param>
    /// <param name="keys">Its keys with what was typed; blank ones are left out.</param>
    /// <param name="what">What the step does, in words, for undo.</param>
    public FieldOutcome Add(string name, string kind, IEnumerable<(string Key, string Value)> keys, string what)
    {
        (string, string)[] typed =
        [
            .. keys.Where(static k => !string.IsNullOrWhiteSpace(k.Value))
                .Select(k => (k.Key.Length == 0 ? kind : $"{kind}.{k.Key}", k.Value.Trim())),
        ];
        return typed.Length == 0
            ? new FieldOutcome(FieldResult.Refused, Problem: "nothing was typed; type what was read")
            : Edit(name, what, text =>
                FieldText.TryAppend(text, "measured", [FieldText.ItemOf(typed)], out string? edited, out string? problem)
                    ? (edited, null)
                    : (null, problem));
    }

    /// <summary>Takes a reading away.</summary>
    /// <param name="name">The file's name within the folder.</param>
    /// <param name="item">The reading, as <see cref="ReceiverReadings"/> names it.</param>
    /// <param name="what">What the step does, in words, for undo.</param>
    public FieldOutcome Remove(string name, string item, string what) => _folder.Edit(name, what, text =>
        FieldText.TryRemoveItem(text, item, out string? edited, out string? problem) ? (edited, null) : (null, problem));

    // Only errors that the edit itself makes refuse it: what was wrong before may be mended step by step.
    private FieldOutcome Edit(string name, string what, Func<string, (string? Text, string? Problem)> splice) =>
        _folder.Edit(name, what, text =>
        {
            (string? edited, string? problem) = splice(text);
            return edited is null ? (null, problem)
                : Errors(name, edited).Except(Errors(name, text), StringComparer.Ordinal).FirstOrDefault() is { } error ? (null, error)
                    : (edited, null);
        });

    private string[] Errors(string name, string text)
    {
        DiagnosticBag findings = new();
        SourceReader.Measurements(SourceFile.OfText(name, text, _folder.Beside(name)), findings);
        return [.. findings.InOrder().Where(static f => f.Severity == Severity.Error).Select(static f => $"{f.What}; {f.Remedy}")];
    }
}
