using Microsoft.AspNetCore.Components;
using Spurless.Drawing.Words;
using Spurless.Pages.Shell;
using Spurless.Reports.Receivers;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Receivers;

namespace Spurless.Pages.Receivers;

/// <summary>A receiver's own measurements on the bench: a reading that is typed is in the file, and every figure follows.</summary>
public sealed partial class ReceiverView
{
    // What was typed and refused, by field.
    private readonly Dictionary<string, (string Typed, string Problem)> _wrong = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _new = new(StringComparer.Ordinal);
    private IReadOnlyList<ListedReading> _readings = [];
    private ReadingKind _kind = ReceiverReadings.Kinds[0];
    private ShelvedReceiver? _shelved;
    private string? _refused;

    /// <summary>The file of measurements within the folder.</summary>
    [Parameter]
    public string File { get; set; } = "";

    [Inject]
    private ReceiverShelf Shelf { get; set; } = null!;

    private string? Circuit => PageLinks.BenchCircuit(Folder, Tab);

    private string Says => _shelved is null ? $"There are no measurements ‘{File}’ in this folder."
        : _shelved.Answer is { } answer ? ReceiverWords.Conclusion(answer, Typography.Fine)
        : $"‘{File}’ cannot be told yet: it has errors.";

    /// <inheritdoc/>
    protected override void OnParametersSet() => Read();

    /// <inheritdoc/>
    protected override void OnFolderChanged(FolderChange change) => Read();

    // As wide as what stands there, or what one writes there.
    private static int Size(ReadingKey key, string text) => Math.Clamp(Math.Max(text.Length, key.Like.Length), 5, 32);

    private static string? Placeholder(ReadingField field) => field.Key.Key == "plus_minus" ? "1 dB" : null;

    private void Read()
    {
        _shelved = Shelf.Of(File);
        _readings = _shelved is null ? [] : ReceiverReadings.Of(_shelved.File.Text);
    }

    private string Shown(ReadingField field) => _wrong.TryGetValue(field.Field, out var wrong) ? wrong.Typed : field.Text;

    private void Choose(ChangeEventArgs e) => Navigation.NavigateTo(PageLinks.AddressOf("receiver", e.Value as string ?? File));

    private void ChooseKind(ChangeEventArgs e) =>
        _kind = ReceiverReadings.Kinds.FirstOrDefault(k => k.Kind == e.Value as string) ?? ReceiverReadings.Kinds[0];

    private void Typed(ReadingField field, int number, ChangeEventArgs e)
    {
        string text = e.Value as string ?? "";
        FieldOutcome outcome = Shelf.Set(File, field.Field, text, $"{field.Key.Name} of reading {number}");
        if (outcome.Ok)
        {
            _wrong.Remove(field.Field);
        }
        else
        {
            _wrong[field.Field] = (text, outcome.Problem ?? "");
        }

        Read();
    }

    private void Remove(ListedReading reading, int number)
    {
        // What was refused belongs to places in the list, which move.
        _wrong.Clear();
        _refused = Shelf.Remove(File, reading.Item, $"reading {number} taken away").Problem;
        Read();
    }

    private void Add()
    {
        FieldOutcome outcome = Shelf.Add(
            File, _kind.Kind, _kind.Keys.Select(k => (k.Key, _new.GetValueOrDefault(k.Key) ?? "")), $"a reading of {_kind.Name}");
        _refused = outcome.Problem;
        if (outcome.Ok)
        {
            _new.Clear();
        }

        Read();
    }
}
