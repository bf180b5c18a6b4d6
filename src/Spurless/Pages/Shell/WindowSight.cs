using Microsoft.JSInterop;

namespace Spurless.Pages.Shell;

/// <summary>Hears from the script which rows of a long list are in sight.</summary>
/// <param name="seen">Told the first and last row in sight, and a row's height in CSS pixels.</param>
public sealed class WindowSight(Action<int, int, double> seen)
{
    /// <summary>Called by the script; what makes no sense is left alone.</summary>
    [JSInvokable]
    public void Seen(int first, int last, double height)
    {
        if (first >= 0 && last >= first && double.IsFinite(height))
        {
            seen(first, last, height);
        }
    }
}
