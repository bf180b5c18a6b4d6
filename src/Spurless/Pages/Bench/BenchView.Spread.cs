using Spurless.Circuits.Tolerance;

namespace Spurless.Pages.Bench;

/// <summary>Circuits drawn by lot within the parts' tolerances, beside the page.</summary>
public sealed partial class BenchView
{
    private CancellationTokenSource? _scatter;
    private double _scattered;

    private Task Scatter(double percent)
    {
        Move(_view with { SpreadPercent = percent });
        Address();
        return DrawSpreadAsync();
    }

    /// <summary>Draws circuits with the tolerance, beside the page.</summary>
    private async Task DrawSpreadAsync()
    {
        _scatter?.Cancel();
        BenchState state = _state!;
        if (_view.SpreadPercent == 0)
        {
            state.Lay(null);
            return;
        }

        using CancellationTokenSource cancel = _scatter = new CancellationTokenSource();
        _scattered = 0;
        Progress<double> progress = new(share => _scattered = share);
        try
        {
            Task<ToleranceResult?> run = Task.Run(() => state.Scatter(progress, cancel.Token), cancel.Token);
            while (await Task.WhenAny(run, Task.Delay(200, cancel.Token)) != run && !Gone)
            {
                StateHasChanged();
            }

            ToleranceResult? spread = await run;
            if (!Gone && ReferenceEquals(_state, state) && _scatter == cancel)
            {
                state.Lay(spread);
            }
        }
        catch (OperationCanceledException)
        {
            // The user, or the next wish, ended it: what was shown stays.
        }
        finally
        {
            if (_scatter == cancel)
            {
                _scatter = null;
            }
        }
    }

    private void StopScatter() => _scatter?.Cancel();
}
