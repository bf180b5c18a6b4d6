using Spurless.Workbench.Desk;

namespace Spurless.Pages.Study;

/// <summary>How the page's studies run: one at a time, the latest wish wins.</summary>
public sealed partial class StudyView
{
    private DeskStudy? _study;
    private bool _running;

    /// <summary>Studies until what is shown is what is wanted.</summary>
    private async Task RunAsync()
    {
        if (_running)
        {
            return;
        }

        _running = true;
        try
        {
            ShelvedDesk desk;
            StudyAddress wanted;
            do
            {
                (desk, wanted) = (_desk!, _view);
                if (desk.Desk is null)
                {
                    return;
                }

                if (_before is null)
                {
                    DeskOutcome before = await FollowAsync(desk.Study(wanted.Receiver, desk.Desk.WithoutFilters(wanted.Receiver)));
                    _before = before.Findings;
                    _problem = before.Problem;
                    if (_before is null)
                    {
                        return;
                    }

                    // Numbers are given worst first as it was before, whatever is changed.
                    StudyShown.Number(_before, _numbers);
                    if (_selectedKey is { } key && _numbers.TryGetValue(key, out int number))
                    {
                        _view = _view with { Finding = number };
                    }

                    _selectedKey = null;
                }

                DeskOutcome now = await FollowAsync(desk.Study(wanted.Receiver, wanted.Settings));
                _problem = now.Problem;
                if (now.Findings is not null)
                {
                    _now = now.Findings;
                    Show(wanted);
                }

                if (Live && !Gone)
                {
                    StateHasChanged();
                }

                // A step of another's: the browser's messages come in between two pictures.
                await Task.Yield();
            }
            while (!Gone
                && _problem is null
                && (desk != _desk || wanted.Receiver != _view.Receiver || !wanted.Settings.Equals(_view.Settings)));
        }
        finally
        {
            _running = false;
            _study = null;
        }
    }

    /// <summary>Waits for a study and tells how far it is, unless it is quick.</summary>
    private async Task<DeskOutcome> FollowAsync(DeskStudy study)
    {
        // What is only painted does not follow: the page that becomes live in a moment goes on with the same study.
        bool follows = Live;
        if (follows)
        {
            study.Follow();
        }

        _study = study;
        while (!study.Outcome.IsCompleted
            && await Task.WhenAny(study.Outcome, Task.Delay(TimeSpan.FromMilliseconds(250), Time)) != study.Outcome)
        {
            if (Gone)
            {
                break;
            }

            if (follows)
            {
                StateHasChanged();
            }
        }

        _study = null;
        if (follows)
        {
            study.Leave();
        }

        return await study.Outcome;
    }

    /// <summary>A run that nobody waits for: a fault of it is the page's.</summary>
    private async Task GuardedAsync()
    {
        try
        {
            await RunAsync();
        }
        catch (Exception e) when (!Gone)
        {
            await DispatchExceptionAsync(e);
        }
    }

    private void StopStudy() => _study?.Stop();

    private async Task Again()
    {
        _problem = null;
        await RunAsync();
    }
}
