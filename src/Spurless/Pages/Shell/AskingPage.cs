namespace Spurless.Pages.Shell;

/// <summary>
/// A page that asks a service for something that takes its time: one question at a time, the newest wins, and the user may stop it.
/// </summary>
public abstract class AskingPage : FolderPage
{
    private CancellationTokenSource? _asking;

    /// <summary>Whether an answer is on its way.</summary>
    protected bool Working { get; set; }

    /// <summary>Whether the user stopped it.</summary>
    protected bool Stopped { get; private set; }

    /// <summary>Asks, beside the page; what was asked before is let go.</summary>
    /// <param name="ask">The question, with the token that ends it; on another thread.</param>
    /// <param name="take">Shows the answer, on the page's own; not called for an answer that nobody waits for any more.</param>
    protected async Task AskAsync<T>(Func<CancellationToken, T> ask, Func<T, Task> take)
    {
        ArgumentNullException.ThrowIfNull(ask);
        ArgumentNullException.ThrowIfNull(take);
        LetGo();
        CancellationTokenSource mine = _asking = new CancellationTokenSource();
        (Working, Stopped) = (true, false);
        StateHasChanged();
        try
        {
            T answer = await Task.Run(() => ask(mine.Token), mine.Token);
            if (!mine.IsCancellationRequested)
            {
                Working = false;
                await take(answer);
            }
        }
        catch (OperationCanceledException)
        {
            // Something else is asked, the page was left, or the user stopped it.
        }
        catch (Exception e)
        {
            await DispatchExceptionAsync(e);
        }
        finally
        {
            StateHasChanged();
        }
    }

    /// <summary>Whether the question of a token is the one that the page waits for: what comes late is let go.</summary>
    /// <param name="token">The token that the question was asked with.</param>
    protected bool IsAsked(CancellationToken token) => Working && _asking?.Token == token && !token.IsCancellationRequested;

    /// <summary>Ends what is asked; nobody waits for it.</summary>
    protected void LetGo() => _asking?.Cancel();

    /// <summary>The user stops it.</summary>
    protected void Stop()
    {
        LetGo();
        (Working, Stopped) = (false, true);
    }

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            LetGo();
            _asking?.Dispose();
        }

        base.Dispose(disposing);
    }
}
