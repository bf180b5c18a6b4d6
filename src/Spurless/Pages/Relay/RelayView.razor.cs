using Microsoft.AspNetCore.Components;
using Spurless.Pages.Shell;
using Spurless.Reports.Bypasses;
using Spurless.Sites;
using Spurless.Sites.Bypasses;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Relays;

namespace Spurless.Pages.Relay;

/// <summary>A bypass relay on the bench: the answer at once, speech and keying a moment later.</summary>
public sealed partial class RelayView
{
    private readonly Dictionary<string, string> _wrong = new(StringComparer.Ordinal);
    private ShelvedRelay? _shelved;
    private LoadedBypass? _moved;
    private BypassAnswer? _answer;
    private CancellationTokenSource? _cancel;
    private string? _problem;
    private string? _kept;
    private bool _working;

    /// <summary>The relay's file within the folder.</summary>
    [Parameter]
    public string File { get; set; } = "";

    [SupplyParameterFromQuery(Name = "tap")]
    private string? Tap { get; set; }

    [SupplyParameterFromQuery(Name = "smoothing")]
    private string? Smoothing { get; set; }

    [SupplyParameterFromQuery(Name = "bleed")]
    private string? Bleed { get; set; }

    [SupplyParameterFromQuery(Name = "supply")]
    private string? Supply { get; set; }

    [Inject]
    private RelayShelf Shelf { get; set; } = null!;

    private string? Circuit => PageLinks.BenchCircuit(Folder, Tab);

    private IEnumerable<(RelaySlider Slider, string Text)> Moves => RelaySlider.All
        .Select(s => (s, Asked(s.Key) ?? ""))
        .Where(static m => m.Item2.Length > 0);

    private string Says => _answer is { } answer ? BypassWords.Conclusion(answer)
        : _shelved is null ? $"There is no bypass relay ‘{File}’ in this folder."
        : _problem ?? $"‘{File}’ cannot be told yet: it has errors.";

    /// <inheritdoc/>
    protected override void OnParametersSet() => Begin();

    /// <inheritdoc/>
    protected override void OnFolderChanged(FolderChange change) => Begin();

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            _cancel?.Cancel();
            _cancel?.Dispose();
            _cancel = null;
        }

        base.Dispose(disposing);
    }

    private string? Asked(string key) => key switch { "tap" => Tap, "smoothing" => Smoothing, "bleed" => Bleed, _ => Supply };

    private void Begin()
    {
        _cancel?.Cancel();
        _cancel?.Dispose();
        _cancel = null;
        _working = false;
        _shelved = Shelf.Of(File);
        if (_shelved?.Bypass is not { } bypass)
        {
            (_answer, _moved) = (null, null);
            return;
        }

        _wrong.Clear();
        foreach ((RelaySlider slider, string text) in Moves)
        {
            if (slider.TryRead(text, out double value, out string problem))
            {
                bypass = slider.With(bypass, value);
            }
            else
            {
                _wrong[slider.Key] = problem;
            }
        }

        _moved = bypass;
        Take(BypassService.Ask(new BypassQuestion { Bypass = bypass, TriesKeying = false }));
        if (Live && _answer is not null)
        {
            _cancel = new CancellationTokenSource();
            _working = true;
            _ = TryKeyingAsync(bypass, _cancel.Token);
        }
    }

    private async Task TryKeyingAsync(LoadedBypass bypass, CancellationToken cancel)
    {
        try
        {
            Outcome<BypassAnswer> outcome = await Task.Run(
                () => BypassService.Ask(new BypassQuestion { Bypass = bypass }, null, cancel), cancel);
            await InvokeAsync(() =>
            {
                if (!cancel.IsCancellationRequested)
                {
                    _working = false;
                    Take(outcome);
                    StateHasChanged();
                }
            });
        }
        catch (OperationCanceledException)
        {
            // Something was moved meanwhile, or the page is left.
        }
    }

    private void Take(Outcome<BypassAnswer> outcome) =>
        (_answer, _problem) = (outcome.Answer, outcome.Answer is null ? outcome.Problem : null);

    private void Choose(ChangeEventArgs e) => Navigation.NavigateTo(PageLinks.AddressOf("relay", e.Value as string ?? File));

    private void Slide(RelaySlider slider, int position) => Put(slider, slider.At(slider.Of(_shelved!.Bypass!), position));

    private void Typed(RelaySlider slider, ChangeEventArgs e)
    {
        string text = (e.Value as string ?? "").Trim();
        if (slider.TryRead(text, out double value, out string problem))
        {
            Put(slider, value);
        }
        else
        {
            _wrong[slider.Key] = problem;
        }
    }

    private void Put(RelaySlider slider, double value)
    {
        _kept = null;
        string? text = value == slider.Of(_shelved!.Bypass!) ? null : slider.Text(value);
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameter(slider.Key, text), replace: true);
    }

    private void Keep()
    {
        foreach ((RelaySlider slider, string text) in Moves.ToArray())
        {
            FieldOutcome outcome = Folder.Set(
                File, slider.Field, text, FieldText.ValueOf(_shelved!.File.Text, slider.Field), $"{slider.Name} of {File}");
            if (outcome.Result != FieldResult.Saved)
            {
                _kept = outcome.Problem ?? $"{slider.Name} was changed by somebody else meanwhile: look at it again.";
                return;
            }
        }

        _kept = "It is in the file. Undo takes it back.";
        Back();
    }

    private void Back() => Navigation.NavigateTo(PageLinks.AddressOf("relay", File), replace: true);
}
